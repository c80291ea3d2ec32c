package layouts_test

import (
	"context"
	"errors"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
)

// FuzzRead: reading never panics; what is wrong comes as Problems, each one
// line of plain words with a place that is in the file; and what reads can
// be planned or fails with a sentence.
func FuzzRead(f *testing.F) {
	for _, seed := range fuzzSeeds() {
		f.Add(seed, int(geometry.Inches))
	}
	f.Add(sample, int(geometry.NoUnit))
	f.Fuzz(func(t *testing.T, text string, unit int) {
		d, err := layouts.ReadIn(geometry.Unit(uint(unit)%4), strings.NewReader(text), nil)
		if err != nil {
			checkProblems(t, text, err)
			return
		}
		require.Equal(t, text, string(d.Source))
		if !small(d) {
			return
		}
		kit, err := layouts.Plan(context.Background(), d)
		if err != nil {
			checkProblems(t, text, err)
			return
		}
		require.Equal(t, kit.Totals.Pieces, pieceCount(kit))
		require.Positive(t, kit.Totals.UsedPercent)
		require.LessOrEqual(t, kit.Totals.UsedPercent, 100.0)
	})
}

func fuzzSeeds() []string {
	return []string{
		"", "title = 1\n", "[front]\nmargin = 1/16\n", "papers = [{name = \"a\", shet = 1}]", "[papers]\n[papers.x]\n",
		"[[papers]]\n[[papers]]\nname = \"\\u0000\"", "\"a.b\".c = {d = [{e = 1}, {}]}", "\xef\xbb\xbf[card]\r\nsize=\"A6\"",
		sample,
		halves, strips,
		withSheets(`bleed = "1/8"`),
		withPaper("pattern = \"one-way\"\npattern_up = \"left\"\nsides = \"both alike\"\nmeasured = \"6 x 9 in\"\nedge = 0\nspacing = \"1 mm\""),
		changed(`papers = ["moss", "clay"]`, `papers = {A1a = "moss", rest = "clay"}`, `cards = 2`, "cards = 3\nplan = \"in turn\"\nspares = 2"),
		changed(`tool = "cutter"`, `tool = ["knife", "trimmer"]`, `gap = "1/8"`, "gap = 0\ndirection = \"radiating\"\nslant = ['\\/', '/\\']"),
		changed(`"diagonal halves"`, `"own splits"`, `gap = "1/8"`, `splits = ["all upright at half", "a level at 1/3", "b from top left to right 40 %", "ba, bb level at 1 in"]`),
		changed(`"diagonal halves"`, `"sunburst"`, `gap = "1/8"`, "centre = [\"1/3\", 0.25]\ndisc = \"3 mm\"\nrays = 7\nshare = \"border\""),
		changed(`"diagonal halves"`, `"chevron"`, `gap = "1/8"`, "slope = \"-20 deg\"\nslivers = \"leave out\""),
		changed(`"diagonal halves"`, `"own shapes"`, `gap = "1/8"`, `shapes = "x.svg"`),
		changed(`size = "4 x 6 in"`, "width = 100\nheight = 0.1\norientation = \"landscape\""),
	}
}

// small keeps the work on one text under some milliseconds.
func small(d layouts.Design) bool {
	cells := max(1, d.Front.Options.Count("columns")) * max(1, d.Front.Options.Count("rows"))
	return cells <= 36 && (d.Batch.Cards+d.Batch.Spares)*cells <= 200
}

func checkProblems(t *testing.T, text string, err error) {
	var problems layouts.Problems
	require.True(t, errors.As(err, &problems), "%v", err)
	require.NotEmpty(t, problems)
	lines := strings.Count(text, "\n") + 1
	for _, p := range problems {
		checkSentence(t, p.Error())
		require.True(t, p.Line >= 0 && p.Line <= lines && (p.Line > 0) == (p.Column > 0), "%+v", p)
	}
}

// checkSentence looks at a message, but for what it quotes from the design.
func checkSentence(t *testing.T, text string) {
	require.NotEmpty(t, text)
	require.Less(t, len(text), 2500)
	require.False(t, strings.ContainsFunc(text, unicode.IsControl), "%q", text)
	for _, word := range []string{"strconv", "interface {", "toml:", "%!"} {
		require.NotContains(t, text, word)
	}
}
