package layouts_test

import (
	"errors"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/cards"
	"panelry/layouts/papers"
)

// All that is missing is told, and none of it twice.
func TestEmptyFile(t *testing.T) {
	want := []string{
		`card: the closed card's size is missing; write size = "US A2", or width and height`,
		"card.paper: missing; name the paper, and describe it under [[papers]]",
		"front.papers: there is no paper for the panels; name one, and describe it under [[papers]]",
		`front.layout: missing; write a layout like "diagonal halves"; panelry layouts lists them`,
	}
	for name, text := range map[string]string{"empty": "", "a remark": "# nothing yet\n", "white": " \n\t\n"} {
		t.Run(name, func(t *testing.T) { require.ElementsMatch(t, want, problemsOf(t, text)) })
	}
}

// Ten faults in one file, told at once and in the file's order. What is
// missing from a table is told at the table. The A7 sizes: ISO 216 and the
// table of package cards.
func TestAllProblemsAtOnce(t *testing.T) {
	text := `title = 3
unit = "in"
units = "in"
[sheets]
edge = "-1"
[card]
size = "A7"
[batch]
cards = 0
[front]
layout = "grid"
columns = 0
margin = "1/0"
papers = ["moss", "fern"]
[[papers]]
name = "moss"
colour = "green"
`
	require.Equal(t, []string{
		"1:1: title: write a text in quotes",
		`2:1: unit: no such key; did you mean "units"?`,
		"5:1: sheets.edge: -1 in is less than nothing",
		"6:2: card.paper: missing; name the paper, and describe it under [[papers]]",
		"7:1: card.size: A7 can be ISO A7 (74 x 105 mm) or US A7 (5 x 7 in): write which",
		"9:1: batch.cards: 0: write a whole number from 1 to 10000",
		"12:1: front.columns: 0: write a whole number from 1 to 60",
		`13:1: front.margin: "1/0" is not a length; write it like 4 1/4, 1/8, 0.5 in or 3.2 mm`,
		`14:1: front.papers: no paper is called "fern"; known here: moss`,
		`15:3: papers 1 (moss): sheet: the size of its sheets is missing; write sheet = "12 x 12 in" or "ISO A4"`,
		`17:1: papers 1 (moss): colour: "green": write a colour like "#5b7f73"`,
	}, problemsOf(t, text))
}

// The order of problems at one place is always the same.
func TestProblemsAreRepeatable(t *testing.T) {
	text := changed(`papers = ["moss", "clay"]`, `papers = {Z = "a", Y = "b", X = "c", W = "d", V.U = "e", V.T = "f"}`)
	first := problemsOf(t, text)
	for range 20 {
		require.Equal(t, first, problemsOf(t, text))
	}
}

func TestReaderFails(t *testing.T) {
	broken := errors.New("the disc is gone")
	_, err := layouts.Read(iotest.ErrReader(broken), nil)
	require.ErrorIs(t, err, broken)
}

// What a design has that says nothing: interfaces, "The design file".
func TestDefaults(t *testing.T) {
	d := mustRead(t, `units = "in"
card = {size = "4 x 6 in", paper = "oat"}
front = {layout = "grid"}
papers = [{name = "oat", sheet = "Letter"}, {name = "moss", sheet = "Letter"}, {name = "clay", sheet = "Letter"}]
`)
	require.Equal(t, "untitled card", d.Title)
	require.Equal(t, in(4), d.Ruler) // 1/16 in
	require.Equal(t, cards.Flat, d.Card.Base)
	require.Equal(t, []string{"moss", "clay"}, d.Front.Papers) // all but the base's
	require.Equal(t, layouts.Upright, d.Front.Direction)
	require.Equal(t, in(8), d.Front.Margin)
	require.Equal(t, in(8), d.Front.Gap)
	require.Equal(t, layouts.BatchSettings{Cards: 1, Plan: "same"}, d.Batch)
	require.Equal(t, layouts.SheetSettings{Edge: in(16), Spacing: in(4), Effort: "quick", InHoles: true}, d.Sheets)
	moss := d.Paper("moss")
	require.Nil(t, moss.Have)
	require.Nil(t, moss.Edge)
	moss.Sheet = geometry.Size{}
	require.Equal(t, papers.Paper{Name: "moss", Drawing: "plain", Pattern: "plain"}, moss)
}

func TestDefaultsInMillimetres(t *testing.T) {
	d := mustRead(t, changed(`units = "in"`, `units = "mm"`, `edge = "1/4"`, ``, `margin = "1/4"`, ``, `gap = "1/8"`, ``))
	require.Equal(t, 3*geometry.Millimetre, d.Front.Margin)
	require.Equal(t, 3*geometry.Millimetre, d.Front.Gap)
	require.Equal(t, geometry.Millimetre/2, d.Ruler)
}

// Interfaces, [sheets]: cutter edge 1/4 in and spacing 1/16 in; trimmer and
// knife 0 and 0. A cutter among several tools counts.
func TestDefaultsByTool(t *testing.T) {
	for _, tt := range []struct {
		tool          string
		edge, spacing geometry.Length
	}{
		{`"cutter"`, in(16), in(4)}, {`"trimmer"`, 0, 0}, {`"knife"`, 0, 0},
		{`["knife", "cutter"]`, in(16), in(4)}, {`["knife", "trimmer"]`, 0, 0},
	} {
		t.Run(tt.tool, func(t *testing.T) {
			s := mustRead(t, changed(`tool = "cutter"`, `tool = `+tt.tool, `edge = "1/4"`, ``)).Sheets
			require.Equal(t, tt.edge, s.Edge)
			require.Equal(t, tt.spacing, s.Spacing)
		})
	}
}

func TestPaperValues(t *testing.T) {
	d := mustRead(t, withPaper(`measured = "305 x 304 mm"
have = 3
colour = "#A0B1C2"
drawing = "sprigs"
pattern = "one-way"
pattern_up = "left"
sides = "both alike"
grain = "short"
weight = "65 lb cover"
caliper = "0.3 mm"
price = 0.85
edge = "1/2"
spacing = 0`))
	clay := d.Paper("clay")
	mm := geometry.Millimetre
	require.Equal(t, geometry.Size{W: 305 * mm, H: 304 * mm}, clay.Sheet, "measured goes before sheet")
	require.Equal(t, 3, *clay.Have)
	require.Equal(t, "#a0b1c2", clay.Colour)
	require.Equal(t, papers.Sprigs, clay.Drawing)
	require.Equal(t, papers.OneWay, clay.Pattern)
	require.Equal(t, 270.0, clay.PatternUp) // clockwise from the top
	require.True(t, clay.BothAlike)
	require.Equal(t, "short", clay.Grain)
	// 65 lb of 500 sheets 20 x 26 in: 65 x 453.59237 g / (500 x 0.3354832 m2).
	require.InDelta(t, 175.77, clay.GSM, 0.01)
	require.Equal(t, 3*mm/10, clay.Caliper)
	require.Equal(t, "0.85", clay.Price.String())
	require.Equal(t, in(32), *clay.Edge)
	require.Equal(t, geometry.Length(0), *clay.Spacing)
	require.Equal(t, 176.0, mustRead(t, withPaper(`gsm = 176`)).Paper("clay").GSM)
}

func TestSheetValues(t *testing.T) {
	s := mustRead(t, withSheets("spacing = \"1/32\"\nbleed = \"1/8\"\nlabels = \"map\"\ncut_colour = \"#112233\"\nscore_colour = \"#ABCDEF\"\nprint_colour = \"#000000\"")).Sheets
	require.Equal(t, layouts.SheetSettings{
		Edge: in(16), Spacing: in(2), Bleed: in(8), Effort: "quick", InHoles: true,
		Colours: layouts.LayerColours{Cut: "#112233", Score: "#abcdef", Print: "#000000"},
	}, s)
}

func TestFrontPapers(t *testing.T) {
	front := func(text string) layouts.FrontSettings {
		return mustRead(t, changed(`papers = ["moss", "clay"]`, text)).Front
	}
	require.Equal(t, []string{"moss"}, front(`papers = "moss"`).Papers)
	require.Equal(t, []string{"moss"}, front(`papers = " moss "`).Papers) // spaces around a name do not count
	require.Equal(t, []string{"clay", "moss", "clay"}, front(`papers = ["clay", "moss", "clay"]`).Papers)
	require.Equal(t, []string{"moss", "clay"}, front("").Papers)
	byPanel := front("[front.papers]\nA1a = \"oat\"\nB2b = \"clay\"\nrest = \"moss\"")
	require.Equal(t, map[string]string{"A1a": "oat", "B2b": "clay"}, byPanel.ByPanel)
	require.Equal(t, []string{"moss"}, byPanel.Papers)
}

func TestWrongPapers(t *testing.T) {
	const none = "12:1: front.papers: there is no paper for the panels; name one, and describe it under [[papers]]"
	front := func(text string) string { return changed(`papers = ["moss", "clay"]`, text) }
	requireProblems(t, []problemTest{
		{"missing", front(`papers = ["moss", "clya"]`), []string{`12:1: front.papers: no paper is called "clya"; did you mean "clay"?`}},
		{"near", front(`papers = ["moos"]`), []string{`12:1: front.papers: no paper is called "moos"; did you mean "moss"?`}},
		{"empty name", front(`papers = ["moss", ""]`), []string{`12:1: front.papers: no paper is called ""; known here: oat, moss, clay`}},
		{"white name", front(`papers = "  "`), []string{`12:1: front.papers: no paper is called ""; known here: oat, moss, clay`}},
		{"empty list", front(`papers = []`), []string{none}},
		{"empty table", front(`papers = {}`), []string{none}},
		{"by panel", front(`papers = {A1a = "mos", rest = "moss"}`), []string{`12:11: front.papers.A1a: no paper is called "mos"; did you mean "moss"?`}},
		{"of the base", changed(`paper = "oat"`, `paper = "oak"`), []string{`7:1: card.paper: no paper is called "oak"; did you mean "oat"?`}},
		{"empty, of the base", changed(`paper = "oat"`, `paper = ""`), []string{`7:1: card.paper: no paper is called ""; known here: oat, moss, clay`}},
		{"none, of the base", changed("paper = \"oat\"\n", ""), []string{"4:2: card.paper: missing; name the paper, and describe it under [[papers]]"}},
		{"two of one name", changed(`name = "clay"`, `name = "moss"`, `"moss", "clay"`, `"moss"`),
			[]string{`24:1: papers 3 (moss): name: papers 2 and 3 are both called "moss"; rename one`}},
		{"a name of spaces", changed(`name = "clay"`, `name = "  "`, `, "clay"`, ``),
			[]string{"24:1: papers 3 (  ): name: write a name of one line, from 1 to 60 letters"}},
		{"a name of two lines", changed(`name = "clay"`, `name = "cl\nay"`, `, "clay"`, ``),
			[]string{"24:1: papers 3 (cl·ay): name: write a name of one line, from 1 to 60 letters"}},
	})
}

func TestTooManyPapers(t *testing.T) {
	text := changed(`, "clay"]`, `]`)
	for range layouts.MostPapers {
		text += "[[papers]]\nname = \"reed\"\nsheet = \"Letter\"\n"
	}
	require.Contains(t, problemsOf(t, text), "17:3: papers: 203 papers are too many; at most 200")
}

// A long name in a message does not make it unreadable.
func TestLongTexts(t *testing.T) {
	long := strings.Repeat("x", 5000)
	for _, text := range []string{
		changed(`name = "clay"`, `name = "`+long+`"`),
		changed(`"clay"]`, `"`+long+`"]`),
		changed(`title = "sample"`, `title = "`+long+`"`),
		changed(`"diagonal halves"`, `"`+long+`"`),
		changed(`"flat"`, `"`+long+`"`),
		changed(`size = "4 x 6 in"`, `size = "`+long+`"`),
		changed(`gap = "1/8"`, `direction = "`+long+`"`),
		changed(`gap = "1/8"`, `gap = "`+long+`"`),
		changed(`gap =`, long+` =`),
		changed(`tool =`, long+` =`),
		withPaper(`weight = "` + long + `"`),
		withPaper(`colour = "` + long + `"`),
		changed(`papers = ["moss", "clay"]`, `papers = {`+long+` = "x"}`),
	} {
		for _, p := range problemsOf(t, text) {
			require.Less(t, len(p), 600, p)
		}
	}
}
