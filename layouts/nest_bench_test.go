package layouts_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/layouts"
	"panelry/layouts/fronts"
)

// The fronts that are hardest to lay, 24 cards of each: at most one sheet more
// than the best bound at quick effort. The benchmark below has all.
func TestHardFrontsTakeAtMostOneSheetMore(t *testing.T) {
	for layout, pattern := range map[string]string{"flying geese": "one-way", "honeycomb": "one-way", "random mosaic": "one-way", "sunburst": "one-way", "fan": "plain"} {
		kit, err := layouts.Plan(t.Context(), trimDesignOf(t, layout, pattern, `tool = "trimmer"`, `tool = "cutter"`, "cards = 5", "cards = 24"))
		require.NoError(t, err)
		for _, u := range kit.Stock {
			require.LessOrEqual(t, u.Sheets, u.Least+1, "%s, %s", layout, u.Paper.Name)
		}
	}
}

// Card work on sheets for the cutter: each layout for 24 cards on 12 x 12 in
// sheets of one paper, at quick effort. What is two sheets or more above its
// bound is listed.
func BenchmarkSheetsOfLayouts(b *testing.B) {
	for _, pattern := range []string{"plain", "two-way", "one-way"} {
		b.Run(pattern, func(b *testing.B) {
			for b.Loop() {
				sums := map[string]int{}
				for _, l := range fronts.All() {
					if l.Name == "own shapes" {
						continue
					}
					kit, err := layouts.Plan(context.Background(), trimDesignOf(b, l.Name, pattern, `tool = "trimmer"`, `tool = "cutter"`, "cards = 5", "cards = 24"))
					require.NoError(b, err)
					for _, u := range kit.Stock {
						if u.Paper.Name == "base" {
							continue
						}
						sums["sheets"] += u.Sheets
						sums["bound"] += u.Least
						if u.Sheets > u.Least+1 {
							b.Logf("%s: %d sheets, bound %d by %s", l.Name, u.Sheets, u.Least, u.LeastName)
							sums["above-by-2-or-more"]++
						}
					}
				}
				for name, n := range sums {
					b.ReportMetric(float64(n), name)
				}
			}
		})
	}
}
