package fronts_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

// Hand sums: the worked case of a 2 by 2 5/8 in cell.
func TestRulerPair(t *testing.T) {
	const in = geometry.Inch
	for name, c := range map[string]struct {
		w, h, wish, ruler geometry.Length
		p, q              geometry.Length
		gap               float64 // in
	}{
		"2 x 2 5/8, gap 1/8, sixteenths": {2 * in, in * 21 / 8, in / 8, in / 16, in * 31 / 16, in * 5 / 2, 0.12597},
		// Both rounded down blindly, 1 7/8 x 2 1/2 would leave 0.175.
		"no gap": {2 * in, in * 21 / 8, 0, in / 16, 2 * in, in * 21 / 8, 0},
		// 40 x 40 mm with legs a: (40-a)·2a/(a√2) = √2·(40-a); for 3 mm the
		// nearest half millimetre is a = 38, which leaves 2.82843.
		"square": {40e6, 40e6, 3e6, 5e5, 38e6, 38e6, 2 * math.Sqrt2 / 25.4},
	} {
		t.Run(name, func(t *testing.T) {
			legs, gap, ok := fronts.RulerPair(geometry.Size{W: c.w, H: c.h}, c.wish, c.ruler)
			require.True(t, ok)
			require.Equal(t, geometry.Size{W: c.p, H: c.q}, legs)
			require.InDelta(t, c.gap, gap.In(geometry.Inches), 5e-6)
		})
	}
	_, _, ok := fronts.RulerPair(geometry.Size{W: in / 20, H: in}, in/8, in/16)
	require.False(t, ok, "the cell is narrower than a step")
}

// The slow twin tries every pair.
func TestRulerPairAgainstAllPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ruler := geometry.Length(rapid.SampledFrom([]int64{396_875, 793_750, 1_587_500, 500_000, 1_000_000}).Draw(t, "ruler"))
		cell := geometry.Size{
			W: geometry.Length(rapid.Int64Range(5e6, 80e6).Draw(t, "w")),
			H: geometry.Length(rapid.Int64Range(5e6, 80e6).Draw(t, "h")),
		}
		wish := geometry.Length(rapid.Int64Range(0, 5e6).Draw(t, "wish"))
		legs, gap, ok := fronts.RulerPair(cell, wish, ruler)
		best := math.Inf(1)
		square := (cell.W - cell.H).Abs() <= 10*geometry.Micrometre
		for p := ruler; p <= cell.W; p += ruler {
			for q := ruler; q <= cell.H; q += ruler {
				if square && p != q {
					continue
				}
				best = min(best, math.Abs(gapOf(cell, p, q)-float64(wish)))
			}
		}
		require.True(t, ok)
		require.Zero(t, legs.W%ruler)
		require.Zero(t, legs.H%ruler)
		require.LessOrEqual(t, legs.W, cell.W)
		require.LessOrEqual(t, legs.H, cell.H)
		require.InDelta(t, gapOf(cell, legs.W, legs.H), float64(gap), 1)
		require.InDelta(t, best, math.Abs(float64(gap-wish)), 2)
	})
}

func gapOf(cell geometry.Size, p, q geometry.Length) float64 {
	w, h, pf, qf := float64(cell.W), float64(cell.H), float64(p), float64(q)
	return ((w-pf)*qf + (h-qf)*pf) / math.Hypot(pf, qf)
}

// A front on the ruler: every piece measures what the ruler can, everything
// adds up, and the noted gaps are those that are there.
func TestFrontsOnTheRuler(t *testing.T) {
	const ruler = geometry.Inch / 16
	for _, name := range []string{"diagonal halves", "grid", "pinwheel", "broken dishes"} {
		layout, ok := fronts.Find(name)
		require.True(t, ok, name)
		rapid.Check(t, func(t *rapid.T) {
			options := layout.Defaults()
			options["columns"], options["rows"] = 2*rapid.IntRange(1, 2).Draw(t, "columns"), 2*rapid.IntRange(1, 2).Draw(t, "rows")
			frame := geometry.RectFromSize(geometry.Point{X: 3e6, Y: 4e6}, geometry.Size{
				W: geometry.Length(rapid.Int64Range(90e6, 150e6).Draw(t, "w")), H: geometry.Length(rapid.Int64Range(90e6, 150e6).Draw(t, "h")),
			})
			brief := fronts.Brief{Frame: frame, Gap: geometry.Length(rapid.Int64Range(1e6, 4e6).Draw(t, "gap")), Options: options, Unit: geometry.Inches, Ruler: ruler}
			front, err := layout.Divide(brief)
			require.NoError(t, err)
			var across, down geometry.Length
			for _, term := range front.Across {
				across += term.Length
			}
			for _, term := range front.Down {
				down += term.Length
			}
			require.Equal(t, frame.Size(), geometry.Size{W: across, H: down})
			require.NotEmpty(t, front.Rounded)
			for i, p := range front.Panels {
				size := p.Outline.Bounds().Size()
				require.Zero(t, size.W%ruler, p.Name)
				require.Zero(t, size.H%ruler, p.Name)
				require.NoError(t, p.Outline.Validate())
				require.True(t, frame.ContainsRect(p.Outline.Bounds()))
				for _, q := range front.Panels[:i] {
					require.True(t, geometry.Apart(p.Outline, q.Outline, max(0, brief.Gap-ruler)), "%s and %s", p.Name, q.Name)
				}
			}
			if r := front.Rounded[len(front.Rounded)-1]; r.What == "gap on the diagonal" {
				a, b := front.Panels[0].Outline, front.Panels[1].Outline
				require.True(t, geometry.Apart(a, b, r.Now-2))
				require.False(t, geometry.Apart(a, b, r.Now+2))
			}
		})
	}
}
