package layouts_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
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

func trimPlan(t testing.TB, layout, pattern string, more ...string) (layouts.Kit, layouts.TrimPlan) {
	t.Helper()
	text := strings.NewReplacer(append([]string{"LAYOUT", layout, "PATTERN", pattern}, more...)...).Replace(trimDesign)
	d, err := layouts.Read(strings.NewReader(text), nil)
	require.NoError(t, err)
	kit, err := layouts.Plan(context.Background(), d)
	require.NoError(t, err)
	plan, err := layouts.PlanTrim(kit, 200, 0)
	require.NoError(t, err)
	return kit, plan
}

// By hand: 5 cards of 2 x 2 cells have 10 "/" and 10 "\\" cells, and a base of
// 4 1/4 x 11 in goes twice on a sheet.
func TestTrimHalves(t *testing.T) {
	_, plan := trimPlan(t, "diagonal halves", "two-way", `tool = "trimmer"`, "tool = \"trimmer\"\nruler = \"1/16\"")
	require.Empty(t, plan.Refused)
	require.Len(t, plan.Papers, 2)
	base, first := plan.Papers[0], plan.Papers[1]
	require.Len(t, base.Plan.Trees, 3)
	require.True(t, base.Plan.Proved)
	require.Len(t, first.Blocks, 2)
	for _, b := range first.Blocks {
		require.Equal(t, layouts.TipToTip, b.Slant)
		require.Equal(t, 10, b.Count)
		require.Zero(t, b.Over)
		// The pair of marks that panelry nice finds, not a blind rounding.
		require.Equal(t, geometry.Size{W: geometry.Inch * 31 / 16, H: geometry.Inch * 5 / 2}, b.Size)
	}
	require.Len(t, first.Job.Pieces, 1, "both hands come from blocks of one size")
	var text []string
	for _, s := range append(base.Steps(geometry.Inches, 1), first.Steps(geometry.Inches, 4)...) {
		text = append(text, s.Text)
	}
	all := strings.Join(text, "\n")
	require.Contains(t, all, "Score each of the 5 blocks of 4 1/4 x 11 in, outside of the card up, 5 1/2 in from the upper side")
	require.Contains(t, all, "both tips on the cutting line, from the upper right to the lower left tip. Cut.")
	require.Contains(t, all, "both tips on the cutting line, from the upper left to the lower right tip. Cut.")
	require.Contains(t, all, "Set the stop at 2 1/2 in (63.5 mm).")
}

// On one-way paper the two halves of a block differ, and each card wants as
// many of one as of the other; on paper that may be turned they are alike.
func TestTrimOneWay(t *testing.T) {
	kit, plan := trimPlan(t, "diagonal halves", "one-way", `gap = "1/8"`, "gap = \"1/8\"\ncolumns = 1\nrows = 1")
	require.Len(t, kit.Kinds, 3)
	b := plan.Papers[1].Blocks[0]
	require.Equal(t, 5, b.Count)
	require.Len(t, b.Kinds, 2)
	require.Zero(t, b.Over)
	// Spares make an odd number of halves.
	_, plan = trimPlan(t, "diagonal halves", "two-way", `papers = ["first"]`, `papers = {A1a = "first", rest = "base"}`)
	b = plan.Papers[1].Blocks[0]
	require.Equal(t, 3, b.Count)
	require.Equal(t, 1, b.Over, "five halves of three blocks")
}

// Every layout: each kind is either given in full or named as refused, and
// what is refused is what the trimmer cannot cut.
func TestTrimEveryLayout(t *testing.T) {
	for _, l := range fronts.All() {
		if l.Name == "own shapes" {
			continue
		}
		for _, pattern := range []string{"plain", "one-way"} {
			t.Run(l.Name+" "+pattern, func(t *testing.T) {
				kit, plan := trimPlan(t, l.Name, pattern)
				given := map[string]int{}
				for _, p := range plan.Papers {
					blocks := 0
					for _, b := range p.Blocks {
						blocks += b.Count
						require.GreaterOrEqual(t, b.Over, 0)
						total := b.Over
						for _, k := range b.Kinds {
							given[k.Kind] += k.Count
							total += k.Count
						}
						if b.Slant == layouts.TipToTip {
							require.Equal(t, 2*b.Count, total)
						} else {
							require.Equal(t, b.Count, total)
						}
					}
					wanted := 0
					for _, piece := range p.Job.Pieces {
						wanted += piece.Count
					}
					require.Equal(t, blocks, wanted)
					require.LessOrEqual(t, len(p.Plan.Trees), p.Plan.Bound+1, "at most one sheet above the bound")
					require.NotEmpty(t, p.Steps(geometry.Inches, 1))
				}
				for _, r := range plan.Refused {
					given[r.Kind] = -1
					require.Contains(t, r.Why, "use a ")
				}
				for _, k := range kit.Kinds {
					if given[k.ID] != -1 {
						require.Equal(t, k.Count, given[k.ID], k.ID)
						require.Contains(t, k.Tools, layouts.Trimmer)
					} else {
						require.NotContains(t, k.Tools, layouts.Trimmer)
					}
				}
			})
		}
	}
}
