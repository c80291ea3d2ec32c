package layouts_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry/trimming"
	"panelry/layouts"
	"panelry/layouts/fronts"
)

const trimDesign = `
title = "Trim check"
units = "in"
tool = "trimmer"
[card]
size = "4 1/4 x 5 1/2"
base = "top fold"
paper = "base"
[front]
layout = "LAYOUT"
margin = "1/16"
gap = "1/8"
papers = ["first"]
[batch]
cards = 5
[[papers]]
name = "base"
sheet = "12 x 12"
[[papers]]
name = "first"
sheet = "12 x 12"
pattern = "PATTERN"
`

func trimDesignOf(t testing.TB, layout, pattern string, more ...string) layouts.Design {
	t.Helper()
	text := strings.NewReplacer(append([]string{"LAYOUT", layout, "PATTERN", pattern}, more...)...).Replace(trimDesign)
	d, err := layouts.Read(strings.NewReader(text), nil)
	require.NoError(t, err)
	return d
}

func trimPlan(t testing.TB, layout, pattern string, more ...string) layouts.TrimPlan {
	t.Helper()
	plan, err := layouts.PlanTrim(trimDesignOf(t, layout, pattern, more...))
	require.NoError(t, err)
	return plan
}

func texts(plan layouts.TrimPlan) string {
	var list []string
	for _, s := range plan.Steps {
		list = append(list, s.Text)
	}
	return strings.Join(list, "\n")
}

// By hand: 5 cards of 2 x 2 cells have 10 "/" and 10 "\\" cells, so 20 blocks;
// a base of 4 1/4 x 11 in goes twice on a sheet. 20 blocks of 1 15/16 x 2 1/2
// in, the pair of marks that panelry nice finds and not a blind rounding, go on
// one sheet: 4 strips of 5 or more.
func TestTrimHalves(t *testing.T) {
	plan := trimPlan(t, "diagonal halves", "two-way")
	require.Empty(t, plan.Refused)
	require.Len(t, plan.Stocks, 2)
	base, first := plan.Stocks[0], plan.Stocks[1]
	require.Equal(t, 3, base.Sheets)
	require.True(t, base.Proved)
	require.Equal(t, 1, first.Sheets)
	require.Equal(t, 20, first.Blocks)
	for _, g := range first.Gives {
		require.Equal(t, 20, g.Count)
		require.Zero(t, g.Over)
	}
	all := texts(plan)
	require.Contains(t, all, "Lay each of 5 blocks of 4 1/4 x 11 in (base) with the outside of the card up and the upper side against the stop. Score from side to side; do not cut.")
	require.Contains(t, all, "Turn each of 10 blocks of 1 15/16 x 2 1/2 in (first) right side up, pattern upright, both tips on the cutting line, lower left to upper right, point to the upper left. Cut.")
	require.Contains(t, all, "lower right to upper left, point to the lower left. Cut.")
	require.Contains(t, all, "Set the stop at 2 1/2 in (63.5 mm).")
	// Where the design says so, sizes stay as they are.
	exact := trimPlan(t, "diagonal halves", "two-way", `gap = "1/8"`, "gap = \"1/8\"\nsizes = \"exact\"")
	require.Contains(t, texts(exact), "Set the stop at 1.9214 in (48.8 mm).")
}

// On one-way paper the two halves of a block differ, and each card wants as
// many of one as of the other; on paper that may be turned they are alike.
func TestTrimOneWay(t *testing.T) {
	plan := trimPlan(t, "diagonal halves", "one-way", `gap = "1/8"`, "gap = \"1/8\"\ncolumns = 1\nrows = 1")
	first := plan.Stocks[1]
	require.Equal(t, 5, first.Blocks)
	require.Len(t, first.Gives, 2)
	require.Zero(t, first.Gives[0].Over+first.Gives[1].Over)
	// One half of each card only: five pieces of three blocks, one over.
	plan = trimPlan(t, "diagonal halves", "two-way", `papers = ["first"]`, `papers = {A1a = "first", rest = "base"}`)
	require.Equal(t, 3, plan.Stocks[1].Blocks)
	require.Equal(t, 1, plan.Stocks[1].Gives[0].Over)
	// On one-way paper the other halves are all over.
	plan = trimPlan(t, "diagonal halves", "one-way", `papers = ["first"]`, `papers = {A1a = "first", rest = "base"}`)
	require.Equal(t, 5, plan.Stocks[1].Blocks)
}

// Patterns that run otherwise on the sheet are cut in steps of their own, or
// the other hand would come off; for the left hand all is turned half around.
func TestTrimPatternUp(t *testing.T) {
	two := `papers = ["first", "second"]`
	more := "[[papers]]\nname = \"second\"\nsheet = \"12 x 12\"\npattern = \"one-way\"\npattern_up = \"right\"\n[[papers]]"
	square := []string{`size = "4 1/4 x 5 1/2"`, `size = "5 x 5"`, `papers = ["first"]`, two, "[[papers]]\nname = \"first\"", more + "\nname = \"first\""}
	plan := trimPlan(t, "diagonal halves", "one-way", square...)
	for _, s := range plan.Steps {
		if s.Work == trimming.Slant {
			require.Len(t, s.Of, 1, s.Text)
		}
	}
	require.Contains(t, texts(plan), "(second) right side up, the pattern's top to the right")
	require.Contains(t, texts(plan), "(first) right side up, pattern upright")
	left := trimPlan(t, "diagonal halves", "one-way", append(square, "[batch]", "[trimmer]\nhand = \"left\"\n[batch]")...)
	require.Contains(t, texts(left), "pattern upside down, both tips on the cutting line, upper right to lower left, point to the lower right")
	require.Contains(t, texts(left), "with the lower side against the stop")
}

// Papers that are cut alike share their steps and settings.
func TestTrimPapersTogether(t *testing.T) {
	two := `papers = ["first", "second"]`
	more := "[[papers]]\nname = \"second\"\nsheet = \"12 x 12\"\npattern = \"two-way\"\n[[papers]]"
	plan := trimPlan(t, "grid", "two-way", `papers = ["first"]`, two, "[[papers]]\nname = \"first\"", more+"\nname = \"first\"")
	require.Len(t, plan.Stocks, 3)
	require.Contains(t, texts(plan), "(second and first), 12 x 12 in")
}

// Every layout on every pattern: the simulator makes each piece of the batch
// (PlanTrim fails else), but for the kinds that are refused, with at most one
// sheet above the bound, and with no more straight cuts than strip by strip,
// or fewer sheets.
func TestTrimEveryLayout(t *testing.T) {
	for _, l := range fronts.All() {
		if l.Name == "own shapes" {
			continue
		}
		for _, pattern := range []string{"plain", "two-way", "one-way"} {
			t.Run(l.Name+" "+pattern, func(t *testing.T) {
				d := trimDesignOf(t, l.Name, pattern)
				card, err := layouts.PlanCard(d)
				require.NoError(t, err)
				plan, err := layouts.PlanTrim(d)
				require.NoError(t, err)
				pieces := 0
				for _, s := range plan.Stocks {
					for _, g := range s.Gives {
						require.GreaterOrEqual(t, g.Over, 0)
						pieces += g.Count
					}
					require.LessOrEqual(t, s.Sheets, s.Bound+1, "at most one sheet above the bound")
					require.Equal(t, s.Blocks+s.Offcuts-s.Sheets, s.Cuts, "each cut makes two parts of one")
					if s.PlainSheets == s.Sheets {
						require.LessOrEqual(t, s.Cuts, s.Plain)
					}
				}
				for _, r := range plan.Refused {
					require.Contains(t, r.Why, "use a ")
					require.Positive(t, r.Count)
					pieces += r.Count
				}
				require.Equal(t, 5*(len(card.Panels)+1), pieces)
				for i, s := range plan.Steps {
					require.Equal(t, i+1, s.Number)
					require.NotEmpty(t, s.Text)
				}
			})
		}
	}
}

func TestTrimmerSettings(t *testing.T) {
	with := func(keys string) string { return keys + "\n[[papers]]\nname = \"base\"\ncaliper = \"0.3 mm\"" }
	for name, c := range map[string]struct{ keys, want string }{
		"pile":       {"[trimmer]\npile = \"1 mm\"", "in piles of up to 2, all right side up"},
		"clean edge": {"[trimmer]\nclean_edge = \"1/8\"", "Set the stop at 1/8 in (3.2 mm). Trim the"},
		"kerf":       {"[trimmer]\nkerf = \"0.2 mm\"", "Set the stop at 11 in"},
	} {
		t.Run(name, func(t *testing.T) {
			plan := trimPlan(t, "grid", "two-way", "[[papers]]\nname = \"base\"", with(c.keys))
			require.Contains(t, texts(plan), c.want)
		})
	}
	plain, piles := trimPlan(t, "grid", "two-way"), trimPlan(t, "grid", "two-way", "[[papers]]\nname = \"base\"", with("[trimmer]\npile = \"1 mm\""))
	require.Less(t, piles.Strokes(), plain.Strokes())
	require.Len(t, piles.Notes, 1, "the other paper's caliper is not said")
	for name, c := range map[string]struct{ keys, want string }{
		"longest":   {"[trimmer]\nlongest = \"10 in\"", "longest cut"},
		"no length": {"[trimmer]\npile = \"thick\"", "trimmer.pile"},
		"too much":  {"[trimmer]\nkerf = \"3 in\"", "more than any trimmer's"},
		"hand":      {"[trimmer]\nhand = \"both\"", "trimmer.hand"},
		"unknown":   {"[trimmer]\nlongset = \"12 in\"", "longest"},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.NewReplacer("LAYOUT", "grid", "PATTERN", "plain", "[[papers]]\nname = \"base\"", with(c.keys)).Replace(trimDesign)
			d, err := layouts.Read(strings.NewReader(text), nil)
			if err == nil {
				_, err = layouts.PlanTrim(d)
			}
			require.ErrorContains(t, err, c.want)
		})
	}
}

// Slanted pieces from strips at one setting. By hand: the chevron's
// parallelograms follow each other down a strip as broad as they are, so a
// piece takes no more paper than its breadth times its upright side, and the
// ends of strips.
func TestTrimSlantedStrips(t *testing.T) {
	all := texts(trimPlan(t, "chevron", "one-way"))
	require.Contains(t, all, "with the slanted edge against the stop")
	all = texts(trimPlan(t, "hourglass", "two-way"))
	require.Contains(t, all, "They are pairs of")
	require.Contains(t, all, "Both halves are")
}
