package sums_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/fronts"
	"panelry/layouts/sums"
)

// trade-facts section 5, by hand: on 4 1/4 x 5 1/2 in, margins of 1/16 and a
// gap of 1/8 leave quarters of exactly 2 x 2 5/8 in; margins and gaps of 1/8
// would leave 1 15/16 x 2 9/16.
func TestNiceGrid(t *testing.T) {
	d := design(t, "grid", `margin = "1/8"`, `margin = 0.13`, `gap = "1/8"`, `gap = 0.11`)
	choices, err := sums.Nice(context.Background(), d, sums.NiceWish{Tolerance: in / 16})
	require.NoError(t, err)
	require.LessOrEqual(t, len(choices), 5)
	best := choices[0]
	require.Zero(t, best.OffRuler)
	require.Equal(t, inches(0.125), best.Margin)
	require.Equal(t, inches(0.125), best.Gap)
	require.Equal(t, []geometry.Length{inches(1.9375), inches(2.5625)}, best.Stops)
	for _, c := range choices {
		require.LessOrEqual(t, int64((c.Margin - d.Front.Margin).Abs()), int64(in/16))
		require.LessOrEqual(t, int64((c.Gap - d.Front.Gap).Abs()), int64(in/16))
	}
}

// The worked pair: cells of 2 x 2 5/8 in with a gap of 1/8 on a ruler
// of sixteenths are cut 1 15/16 x 2 1/2, which leaves 0.12597 in.
func TestNiceHalves(t *testing.T) {
	d := design(t, "diagonal halves", `margin = "1/8"`, `margin = "1/16"`)
	choices, err := sums.Nice(context.Background(), d, sums.NiceWish{Tolerance: 0})
	require.NoError(t, err)
	best := choices[0]
	require.True(t, best.OnRuler)
	require.Equal(t, []geometry.Length{inches(1.9375), inches(2.5)}, best.Stops)
	require.InDelta(t, 0.12597, best.Diagonal.In(geometry.Inches), 5e-6)
	exact := choices[len(choices)-1]
	require.False(t, exact.OnRuler)
	require.Equal(t, 2, exact.OffRuler)
}

func TestNiceRefusesACoarseRuler(t *testing.T) {
	d := design(t, "grid", `units = "in"`, "units = \"in\"\nruler = \"1/2\"")
	_, err := sums.Nice(context.Background(), d, sums.NiceWish{Tolerance: in / 32})
	require.EqualError(t, err, "the ruler's step of 1/2 in is coarser than the gap of 1/8 in can take up; use a finer ruler or a wider gap")
}

// For each layout: choices come back, in order, and the first is no worse
// than the design as it is.
func TestNiceEveryLayout(t *testing.T) {
	for _, l := range fronts.All() {
		if l.Name == "own shapes" {
			continue
		}
		t.Run(l.Name, func(t *testing.T) {
			d := design(t, l.Name)
			choices, err := sums.Nice(context.Background(), d, sums.NiceWish{Tolerance: in / 16})
			require.NoError(t, err)
			require.NotEmpty(t, choices)
			for i, c := range choices {
				card, err := layouts.PlanCard(c.Apply(d))
				require.NoError(t, err)
				require.NotEmpty(t, card.Panels)
				if i > 0 {
					require.LessOrEqual(t, choices[i-1].OffRuler, c.OffRuler)
				}
			}
		})
	}
}

func BenchmarkNice(b *testing.B) {
	for _, l := range fronts.All() {
		if l.Name == "own shapes" {
			continue
		}
		b.Run(l.Name, func(b *testing.B) {
			d := design(b, l.Name)
			for b.Loop() {
				if _, err := sums.Nice(context.Background(), d, sums.NiceWish{Tolerance: in / 16}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
