package layouts_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
)

// Each test here changes one thing in the sample and expects exactly the
// problems that are listed.

type problemTest struct {
	name string
	text string
	want []string
}

func requireProblems(t *testing.T, tests []problemTest) {
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { require.Equal(t, tt.want, problemsOf(t, tt.text)) })
	}
}

// withPaper adds keys to the last paper of the sample; they begin in line 26.
func withPaper(keys string) string { return sample + keys + "\n" }

// withSheets adds a key to [sheets]; it stands in line 17.
func withSheets(key string) string {
	return changed("edge = \"1/4\"\n", "edge = \"1/4\"\n"+key+"\n")
}

func TestWrongTypes(t *testing.T) {
	one := func(name, text, want string) problemTest { return problemTest{name, text, []string{want}} }
	requireProblems(t, []problemTest{
		one("title", changed(`title = "sample"`, `title = 5`), "1:1: title: write a text in quotes"),
		one("units", changed(`units = "in"`, `units = 25.4`), `2:1: units: that is not known here; write "in" or "mm"`),
		one("tool", changed(`tool = "cutter"`, `tool = true`), `3:1: tool: that is not known here; write "cutter", "trimmer" or "knife"`),
		one("ruler", changed(`tool = "cutter"`, `ruler = [1]`), `3:1: ruler: write a length, like "1/8" or "3.2 mm"`),
		one("size", changed(`size = "4 x 6 in"`, `size = 4`), `5:1: card.size: write a size in quotes, like "4 1/4 x 5 1/2 in" or "ISO A6"`),
		one("width", changed(`size = "4 x 6 in"`, "width = true\nheight = 6"), `5:1: card.width: write a length, like "1/8" or "3.2 mm"`),
		one("orientation", changed(`base = "flat"`, "base = \"flat\"\norientation = 1"), `7:1: card.orientation: that is not known here; write "upright" or "landscape"`),
		one("base", changed(`base = "flat"`, `base = 1`), "6:1: card.base: write a text in quotes"),
		one("card paper", changed(`paper = "oat"`, `paper = ["oat"]`), "7:1: card.paper: write the name of a paper in quotes"),
		one("layout", changed(`layout = "diagonal halves"`, `layout = 2`), `9:1: front.layout: write a text in quotes`),
		one("margin", changed(`margin = "1/4"`, `margin = false`), `10:1: front.margin: write a length, like "1/8" or "3.2 mm"`),
		one("gap", changed(`gap = "1/8"`, `gap = {of = 1}`), `11:1: front.gap: write a length, like "1/8" or "3.2 mm"`),
		one("direction", changed(`gap = "1/8"`, `direction = 30`), `11:1: front.direction: write a text in quotes`),
		one("papers", changed(`papers = ["moss", "clay"]`, `papers = 7`), `12:1: front.papers: write a list of papers, like ["kelp", "tide"], or a table by panel`),
		one("papers in a list", changed(`papers = ["moss", "clay"]`, `papers = ["moss", 7]`), `12:1: front.papers: write the name of a paper in quotes`),
		one("papers by panel", changed(`papers = ["moss", "clay"]`, `papers = {A1a = 1, rest = "moss"}`), `12:11: front.papers.A1a: write the name of a paper in quotes`),
		one("columns", changed(`gap = "1/8"`, `columns = "2"`), `11:1: front.columns: "2": write a whole number from 1 to 60`),
		one("slant", changed(`gap = "1/8"`, `slant = '\/'`), `11:1: front.slant: write a list of texts, one a row, like ['\/', '/\']`),
		one("slant row", changed(`gap = "1/8"`, `slant = ['\/', 3]`), `11:1: front.slant: item 2 is not a text; put it in quotes`),
		one("cards", changed(`cards = 2`, `cards = "2"`), `14:1: batch.cards: "2": write a whole number from 1 to 10000`),
		one("cards, a fraction", changed(`cards = 2`, `cards = 2.5`), `14:1: batch.cards: 2.5: write a whole number from 1 to 10000`),
		one("spares", changed(`cards = 2`, `spares = [1]`), `14:1: batch.spares: that is none: write a whole number from 0 to 100`),
		one("plan", changed(`cards = 2`, `plan = 1`), `14:1: batch.plan: that is not known here; write "same", "in turn", "each once", "balanced", "no paper beside itself", "whole blocks" or "by hand"`),
		one("bleed", withSheets(`bleed = []`), `17:1: sheets.bleed: write a length, like "1/8" or "3.2 mm"`),
		one("labels", withSheets(`labels = 1`), `17:1: sheets.labels: that is not known here; write "map", "waste" or "back"`),
		one("effort", withSheets(`effort = 1`), `17:1: sheets.effort: that is not known here; write "quick", "normal" or "thorough"`),
		one("holes", withSheets(`in_holes = "no"`), `17:1: sheets.in_holes: "no": write true or false`),
		one("seed", withSheets(`seed = "x"`), `17:1: sheets.seed: "x": write a whole number from 0 to 2147483647`),
		one("cut colour", withSheets(`cut_colour = 3`), `17:1: sheets.cut_colour: 3: write a colour like "#5b7f73"`),
	})
}

func TestWrongTypesOfPaper(t *testing.T) {
	for _, tt := range []struct{ key, want string }{
		{`measured = 12`, `measured: write a size in quotes, like "4 1/4 x 5 1/2 in" or "ISO A6"`},
		{`have = "two"`, `have: "two": write a whole number from 0 to 2147483647`},
		{`have = -1`, `have: -1: write a whole number from 0 to 2147483647`},
		{`colour = 123456`, `colour: 123456: write a colour like "#5b7f73"`},
		{`drawing = 1`, `drawing: that is not known here; write "plain", "stripes", "dots", "checks" or "sprigs"`},
		{`pattern = 1`, `pattern: that is not known here; write "plain", "two-way" or "one-way"`},
		{`pattern_up = 90`, `pattern_up: that is not known here; write "top", "right", "bottom" or "left"`},
		{`sides = 2`, `sides: that is not known here; write "one" or "both alike"`},
		{`grain = 1`, `grain: that is not known here; write "long" or "short"`},
		{`gsm = "176"`, `gsm: write the grams per square metre as a number from 1 to 5000`},
		{`gsm = nan`, `gsm: write the grams per square metre as a number from 1 to 5000`},
		{`weight = 176`, `weight: write the weight in quotes, like "80 lb cover"; grams as a number go under gsm`},
		{`caliper = true`, `caliper: write a length, like "1/8" or "3.2 mm"`},
		{`price = "cheap"`, `price: "cheap" is not a price; write it like 0.85 or "0.85 EUR"`},
		{`price = -1`, `price: "-1" is not a price; write it like 0.85 or "0.85 EUR"`},
		{`price = inf`, `price: "+Inf" is not a price; write it like 0.85 or "0.85 EUR"`},
		{`price = true`, `price: write a price like 0.85 or "0.85 EUR"`},
		{`edge = [0]`, `edge: write a length, like "1/8" or "3.2 mm"`},
		{`spacing = {}`, `spacing: write a length, like "1/8" or "3.2 mm"`},
	} {
		t.Run(tt.key, func(t *testing.T) {
			require.Equal(t, []string{"26:1: papers 3 (clay): " + tt.want}, problemsOf(t, withPaper(tt.key)))
		})
	}
	requireProblems(t, []problemTest{
		{"name", changed(`name = "clay"`, `name = 3`, `, "clay"`, ``), []string{"24:1: papers 3: name: write a text in quotes"}},
		{"no name", changed("name = \"clay\"\n", ``, `, "clay"`, ``), []string{"23:3: papers 3: name: the paper has no name"}},
		{"sheet", changed("name = \"clay\"\nsheet = \"12 x 12 in\"", "name = \"clay\"\nsheet = 12"),
			[]string{`25:1: papers 3 (clay): sheet: write a size in quotes, like "4 1/4 x 5 1/2 in" or "ISO A6"`}},
		{"no sheet", changed("name = \"clay\"\nsheet = \"12 x 12 in\"", `name = "clay"`),
			[]string{`23:3: papers 3 (clay): sheet: the size of its sheets is missing; write sheet = "12 x 12 in" or "ISO A4"`}},
	})
}

func TestWrongWords(t *testing.T) {
	one := func(name, text, want string) problemTest { return problemTest{name, text, []string{want}} }
	requireProblems(t, []problemTest{
		one("units", changed(`units = "in"`, `units = "cm"`), `2:1: units: "cm" is not known here; write "in" or "mm"; did you mean "mm"?`),
		one("tool", changed(`tool = "cutter"`, `tool = "cuter"`), `3:1: tool: "cuter" is not known here; write "cutter", "trimmer" or "knife"; did you mean "cutter"?`),
		one("layout", changed(`layout = "diagonal halves"`, `layout = "grids"`), `9:1: front.layout: no layout is called "grids"; did you mean "grid"; panelry layouts lists them`),
		one("base", changed(`base = "flat"`, `base = "tent fold"`), `6:1: card.base: "tent fold" is no known base; write flat, top fold or side fold; did you mean "top fold"?`),
		one("direction", changed(`gap = "1/8"`, `direction = "sideways"`), `11:1: front.direction: "sideways" is not a direction; write "upright", "radiating", "along" or an angle like "30 deg"`),
		one("plan", changed(`cards = 2`, `plan = "in turns"`), `14:1: batch.plan: "in turns" is not known here; write "same", "in turn", "each once", "balanced", "no paper beside itself", "whole blocks" or "by hand"; did you mean "in turn"?`),
		one("labels not yet written", withSheets(`labels = "back"`), `17:1: sheets.labels: names on back cannot be written yet; use "map", which puts them on the sheet maps`),
		one("colour without #", withPaper(`colour = "4f6b4a"`), `26:1: papers 3 (clay): colour: "4f6b4a": write a colour like "#5b7f73"`),
		one("colour by name", withSheets(`score_colour = "red"`), `17:1: sheets.score_colour: "red": write a colour like "#5b7f73"`),
		one("weight", withPaper(`weight = "110 lb"`), `26:1: papers 3 (clay): weight: 110 lb can be index (199 gsm) or cover (297 gsm): write 110 lb index or 110 lb cover`),
		one("gsm and weight", withPaper("gsm = 176\nweight = \"65 lb cover\""), `26:1: papers 3 (clay): gsm: write either gsm or weight, not both`),
		one("title of two lines", changed(`title = "sample"`, `title = "two\nlines"`), `1:1: title: write a title of one line and at most 300 letters`),
		one("ruler", changed(`tool = "cutter"`, `ruler = "0"`), `3:1: ruler: the smallest step must be from 0.01 mm to 1 in; write it like 1/16 in or 0.5 mm`),
		one("A6", changed(`size = "4 x 6 in"`, `size = "A6"`), `5:1: card.size: A6 can be ISO A6 (105 x 148 mm) or US A6 (4 1/2 x 6 1/4 in): write which`),
	})
}

func TestTools(t *testing.T) {
	tools := func(text string) []layouts.Tool {
		return mustRead(t, changed(`tool = "cutter"`, text)).Tools
	}
	require.Equal(t, []layouts.Tool{layouts.Cutter}, tools(""))
	require.Equal(t, []layouts.Tool{layouts.Knife}, tools(`tool = "knife"`))
	require.Equal(t, []layouts.Tool{layouts.Trimmer, layouts.Cutter}, tools(`tool = ["trimmer", "cutter"]`))
	requireProblems(t, []problemTest{
		{"empty list", changed(`tool = "cutter"`, `tool = []`), []string{`3:1: tool: the list is empty; write "cutter", "trimmer" or "knife"`}},
		{"twice", changed(`tool = "cutter"`, `tool = ["knife", "knife"]`), []string{`3:1: tool: "knife" stands twice`}},
		{"two wrong ones", changed(`tool = "cutter"`, `tool = ["saw", 3]`), []string{
			`3:1: tool: "saw" is not known here; write "cutter", "trimmer" or "knife"`,
			`3:1: tool: that is not known here; write "cutter", "trimmer" or "knife"`,
		}},
	})
}

// Negative, absurd and empty lengths. 2000 mm is 78.7402 in.
func TestWrongLengths(t *testing.T) {
	one := func(name, text, want string) problemTest { return problemTest{name, text, []string{want}} }
	requireProblems(t, []problemTest{
		one("negative margin", changed(`margin = "1/4"`, `margin = "-1/4"`), "10:1: front.margin: -1/4 in is less than nothing"),
		one("negative gap", changed(`gap = "1/8"`, `gap = -1`), "11:1: front.gap: -1 in is less than nothing"),
		one("negative spacing", withSheets(`spacing = "-1 mm"`), "17:1: sheets.spacing: -0.0394 in is less than nothing"),
		one("absurd edge", withPaper(`edge = "2000 mm"`), "26:1: papers 3 (clay): edge: 78.7402 in is more than a metre"),
		one("absurd gap", changed(`gap = "1/8"`, `gap = "1e9"`), `11:1: front.gap: "1e9" is not a length; write it like 4 1/4, 1/8, 0.5 in or 3.2 mm`),
		one("past all bounds", changed(`gap = "1/8"`, `gap = 5000`), `11:1: front.gap: "5000" is more than 100 m`),
		one("not a number", changed(`gap = "1/8"`, `gap = nan`), `11:1: front.gap: "NaN" is not a length; write it like 4 1/4, 1/8, 0.5 in or 3.2 mm`),
		one("infinite", changed(`gap = "1/8"`, `gap = inf`), `11:1: front.gap: "+Inf" is not a length; write it like 4 1/4, 1/8, 0.5 in or 3.2 mm`),
		one("empty", changed(`gap = "1/8"`, `gap = ""`), `11:1: front.gap: a length is missing; write it like 4 1/4, 1/8, 0.5 in or 3.2 mm`),
		one("bleed", withSheets(`bleed = "1 1/2"`), "17:1: sheets.bleed: 1 1/2 in is more than 1 in"),
		one("thousands or decimals", changed(`gap = "1/8"`, `gap = "1,250"`), `11:1: front.gap: "1,250" could mean thousands or a decimal comma; write it with a point`),
		// The card is 4 in wide, so half of that is 2 in.
		one("margin eats the card", changed(`margin = "1/4"`, `margin = "2"`), "10:1: front.margin: two margins of 2 in leave nothing of 4 in; use less than 2 in"),
		one("sheet of nothing", withPaper(`measured = "12 x 0 in"`), `26:1: papers 3 (clay): measured: "12 x 0 in" has a side of 0 or less; write numbers, like 4 1/4 x 5 1/2 in`),
		one("sheet of 4 m", withPaper(`measured = "1 m x 4000 mm"`), `26:1: papers 3 (clay): measured: "1 m" is not a length; write it like 4 1/4, 1/8, 0.5 in or 3.2 mm`),
		one("sheet of 4000 mm", withPaper(`measured = "100 x 4000 mm"`), `26:1: papers 3 (clay): measured: a sheet of 3.937 x 157.4803 in: each side must be more than 0 and at most 3000 mm`),
	})
}

// A float is read as it was written, not in powers of ten.
func TestSmallFloat(t *testing.T) {
	// 0.00002 in is 508 nm.
	require.Equal(t, 508*geometry.Nanometre, mustRead(t, changed(`gap = "1/8"`, `gap = 0.00002`)).Front.Gap)
}

func TestCardSizes(t *testing.T) {
	one := func(name, text, want string) problemTest { return problemTest{name, text, []string{want}} }
	size := func(text string) string { return changed(`size = "4 x 6 in"`, text) }
	requireProblems(t, []problemTest{
		one("none", size(""), `4:2: card: the closed card's size is missing; write size = "US A2", or width and height`),
		one("width only", size("width = 4"), `4:2: card.height: missing; a card has a width and a height`),
		one("size and width", size("size = \"US A2\"\nwidth = 4"), `5:1: card.size: write either size, or width and height, not both`),
		one("width wrong", size("width = \"wide\"\nheight = 6"), `5:1: card.width: "wide" is not a length; write it like 4 1/4, 1/8, 0.5 in or 3.2 mm`),
		one("width 0", size("width = 0\nheight = 6"), `5:1: card.width: 0 in is not more than 0`),
		{"both 0", size("width = 0\nheight = \"0\""), []string{"5:1: card.width: 0 in is not more than 0", "6:1: card.height: 0 in is not more than 0"}},
		one("negative", size("width = 4\nheight = -6"), `6:1: card.height: -6 in is not more than 0`),
		// 50 in is 1270 mm; 1 m and 10 mm are the limits of cards.Base.Lay.
		one("absurd", size("width = 4\nheight = 50"), `4:2: card: card front: 1270 mm high, more than the 1000 mm allowed; check its unit`),
		one("tiny", size(`size = "4 x 6 mm"`), `4:2: card: card front: 4 mm wide, less than the 10 mm allowed; check its unit`),
		one("contradiction", size("width = 6\nheight = 4\norientation = \"upright\""), `7:1: card.orientation: "upright", but the card is 6 x 4 in; exchange width and height, or leave orientation out`),
		one("other contradiction", size("width = 4\nheight = 6\norientation = \"landscape\""), `7:1: card.orientation: "landscape", but the card is 4 x 6 in; exchange width and height, or leave orientation out`),
	})
}

// A named size is upright (cards.ParseSize); orientation turns it.
func TestOrientation(t *testing.T) {
	for _, tt := range []struct{ text, size, orientation string }{
		{`size = "US A2"`, "4 1/4 x 5 1/2 in", "upright"},
		{"size = \"US A2\"\norientation = \"landscape\"", "5 1/2 x 4 1/4 in", "landscape"},
		{"size = \"6 x 4 in\"\norientation = \"upright\"", "4 x 6 in", "upright"},
		{"size = \"6 x 4 in\"", "6 x 4 in", "landscape"},
		{"width = 5\nheight = 5\norientation = \"landscape\"", "5 x 5 in", "upright"},
		{"width = 6\nheight = \"101.6 mm\"\norientation = \"landscape\"", "6 x 4 in", "landscape"},
	} {
		t.Run(tt.text, func(t *testing.T) {
			card := mustRead(t, changed(`size = "4 x 6 in"`, tt.text)).Card
			require.Equal(t, tt.size, card.Size.Format(geometry.Inches))
			require.Equal(t, tt.orientation, card.Orientation())
		})
	}
}

// A bare number without units shows both readings. 1/8 in is 3.175 mm,
// rounded to 3.18.
func TestBareNumbers(t *testing.T) {
	text := changed("units = \"in\"\n", "", `margin = "1/4"`, `margin = "5 mm"`, `edge = "1/4"`, `edge = "5 mm"`)
	want := `10:1: front.gap: "1/8" has no unit: is it 1/8 in (3.18 mm) or 1/8 mm? Write the unit, or units = "in" or "mm" at the top`
	require.Equal(t, []string{want}, problemsOf(t, text))
	for unit, gap := range map[geometry.Unit]geometry.Length{
		geometry.Inches: in(8), geometry.Millimetres: geometry.Millimetre / 8,
	} {
		d, err := layouts.ReadIn(unit, strings.NewReader(text), nil)
		require.NoError(t, err)
		require.Equal(t, gap, d.Front.Gap)
		require.Equal(t, unit, d.Units)
	}
	// What the file says goes before what the command line says.
	d, err := layouts.ReadIn(geometry.Millimetres, strings.NewReader(sample), nil)
	require.NoError(t, err)
	require.Equal(t, in(8), d.Front.Gap)
}

func TestCounts(t *testing.T) {
	for _, cards := range []string{"0", "-1", "10001", "1_000_000"} {
		t.Run(cards, func(t *testing.T) {
			want := fmt.Sprintf("14:1: batch.cards: %s: write a whole number from 1 to 10000", strings.ReplaceAll(cards, "_", ""))
			require.Equal(t, []string{want}, problemsOf(t, changed(`cards = 2`, `cards = `+cards)))
		})
	}
	grid := changed(`"diagonal halves"`, `"grid"`) // 4 panels and a base: 50,000 pieces, which are allowed
	require.Equal(t, layouts.MostCards, mustRead(t, changedIn(grid, `cards = 2`, `cards = 10000`)).Batch.Cards)
	requireProblems(t, []problemTest{
		{"spares", changed(`cards = 2`, `spares = 101`), []string{"14:1: batch.spares: 101: write a whole number from 0 to 100"}},
		{"columns", changed(`gap = "1/8"`, `columns = 61`), []string{"11:1: front.columns: 61: write a whole number from 1 to 60"}},
	})
}
