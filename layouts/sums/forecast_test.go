package sums_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/fronts"
	"panelry/layouts/sums"
)

// Source: one error is spread evenly; two alike make a triangle, so below -e
// lies 1/8; the Irwin-Hall distribution of n errors has 1/n! of the whole in
// the corner of unit size, which is a tail of (1/2)^n/n! at half a step in.
func TestBelowClosedForms(t *testing.T) {
	for name, c := range map[string]struct {
		x    float64
		e    []float64
		want float64
	}{
		"one":                {-0.5, []float64{1}, 0.25},
		"one, upper":         {0.5, []float64{1}, 0.75},
		"two":                {-1, []float64{1, 1}, 0.125},
		"middle":             {0, []float64{0.3, 1, 2, 0.7}, 0.5},
		"three, corner":      {-2, []float64{1, 1, 1}, 1.0 / 6 / 8},
		"two of other sizes": {-2, []float64{2, 1}, 1.0 / 16}, // a corner triangle of 1 x 1 /2 in 4 x 2
		"below all":          {-3.1, []float64{1, 2}, 0},
		"above all":          {3.1, []float64{1, 2}, 1},
		"nothing off":        {-1, []float64{0, 0}, 0},
		"tiny ones left out": {-0.5, []float64{1, 1e-9}, 0.25},
	} {
		t.Run(name, func(t *testing.T) {
			require.InDelta(t, c.want, sums.Below(c.x, c.e), 1e-9)
		})
	}
}

// The formula against a simulation, within four standard errors of it.
func TestBelowAgainstSimulation(t *testing.T) {
	random := rand.New(rand.NewSource(3))
	for _, e := range [][]float64{{1, 1, 1, 1}, {0.1, 2, 0.5, 0.5, 1, 0.05}, {3, 1, 1, 1, 1, 1, 1, 1}} {
		for _, x := range []float64{-2, -1, -0.3, 0.8} {
			const n = 200_000
			below := 0
			for range n {
				var sum float64
				for _, w := range e {
					sum += w * (2*random.Float64() - 1)
				}
				if sum < x {
					below++
				}
			}
			p := sums.Below(x, e)
			require.InDelta(t, p, float64(below)/n, 4*math.Sqrt(p*(1-p)/n)+1e-9, "%v below %v", e, x)
		}
	}
}

func TestBelowRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := rapid.SliceOfN(rapid.Float64Range(0.01, 3), 1, 10).Draw(t, "e")
		x := rapid.Float64Range(-5, 5).Draw(t, "x")
		p := sums.Below(x, e)
		require.LessOrEqual(t, p, sums.Below(x+0.1, e)+1e-9)
		require.InDelta(t, 1-p, sums.Below(-x, e), 1e-9, "it is the same both ways")
	})
}

// trade-facts section 6, case 13: k cuts of ±1/64 in measured one from
// another are 1/8 in off at worst for k = 8, and 0.044 by the root of the sum
// of squares; measured from the edge, 1/64 whatever k is.
func TestChain(t *testing.T) {
	c := sums.ChainOf(8, in/64)
	require.Equal(t, in/8, c.Worst)
	require.InDelta(t, 0.0442, c.RSS.In(geometry.Inches), 5e-5)
	require.Equal(t, in/64, c.FromEdge)
	// √k against constant, by simulation: the spread of the k-th mark.
	random := rand.New(rand.NewSource(1))
	for _, k := range []int{1, 4, 16} {
		var squares float64
		const n = 50_000
		for range n {
			var at float64
			for range k {
				at += 2*random.Float64() - 1
			}
			squares += at * at
		}
		rss := sums.ChainOf(k, in).RSS.In(geometry.Inches)
		require.InDelta(t, rss/math.Sqrt(3), math.Sqrt(squares/n), 0.02*rss)
	}
}

func card(t testing.TB, d layouts.Design) layouts.Card {
	t.Helper()
	c, err := layouts.PlanCard(d)
	require.NoError(t, err)
	return c
}

// By hand: across a gap of 1/8 in lie half a cut of each panel (1/64 each)
// and a place of each (1/32 each): 3/32 at worst, and √(2/64² + 2/32²) =
// 0.0494 by the root of the sum of squares. It cannot close. Opposite margins
// differ by the same four errors.
func TestForecastGrid(t *testing.T) {
	d := design(t, "grid")
	p := sums.Forecast(card(t, d), d.Front.Gap, sums.Accuracy{Cut: in / 32, Place: in / 32, Threshold: in / 32})
	require.NotEmpty(t, p.Gaps)
	g := p.Gaps[0]
	require.Equal(t, in/8, g.Gap)
	require.Equal(t, in*3/32, g.Worst)
	require.InDelta(t, 0.0494, g.RSS.In(geometry.Inches), 5e-5)
	require.Zero(t, g.Closes)
	require.Equal(t, []sums.Share{{What: "placing", Part: 0.8}, {What: "cutting", Part: 0.2}}, p.Shares)
	require.Equal(t, in*3/32, p.Margins[0].Worst)
	require.Equal(t, 2, p.Chain.Cuts)
}

// Simulated cards against the formulas, within four standard errors: how
// often the narrowest gap closes, and how often the margins look uneven.
func TestForecastAgainstLikelyCards(t *testing.T) {
	for _, layout := range []string{"grid", "diagonal halves", "strips"} {
		t.Run(layout, func(t *testing.T) {
			d := design(t, layout, `gap = "1/8"`, `gap = "1/32"`)
			a := sums.Accuracy{Cut: in / 32, Place: in / 32, Threshold: in / 32}
			front := card(t, d)
			p := sums.Forecast(front, d.Front.Gap, a)
			g := p.Gaps[0]
			const n = 20_000
			closed := 0
			first, second := index(front, g.Between[0]), index(front, g.Between[1])
			normal := across(front.Panels[first].Outline, front.Panels[second].Outline)
			nominal := support(front.Panels[second].Outline, normal, -1) - support(front.Panels[first].Outline, normal, 1)
			require.InDelta(t, float64(g.Gap), nominal, 3)
			for _, c := range sums.Likely(front, a, 7, n) {
				if gap := support(c.Panels[second].Outline, normal, -1) - support(c.Panels[first].Outline, normal, 1); gap < 0 {
					closed++
				}
			}
			require.InDelta(t, g.Closes, float64(closed)/n, 4*math.Sqrt(g.Closes*(1-g.Closes)/n)+0.004)
		})
	}
}

// The margins left and right of a row of two, in simulated cards.
func TestMarginsAgainstLikelyCards(t *testing.T) {
	d := design(t, "grid")
	a := sums.Accuracy{Cut: in / 32, Place: in / 32, Threshold: in / 32}
	front := card(t, d)
	want := sums.Forecast(front, d.Front.Gap, a).Margins[0].Uneven
	const n = 20_000
	uneven := 0
	for _, c := range sums.Likely(front, a, 11, n) {
		left := c.Panels[index(c, "A1")].Outline.Bounds().Min.X
		right := c.Size.W - c.Panels[index(c, "B1")].Outline.Bounds().Max.X
		if (left - right).Abs() > a.Threshold {
			uneven++
		}
	}
	require.Greater(t, want, 0.1)
	require.InDelta(t, want, float64(uneven)/n, 4*math.Sqrt(want*(1-want)/n))
}

func index(c layouts.Card, name string) int {
	for i, p := range c.Panels {
		if p.Name == name {
			return i
		}
	}
	return -1
}

// across returns the unit normal of the side of a that looks at b: the one
// along which they lie farthest apart.
func across(a, b geometry.Outline) [2]float64 {
	points := a.Outer.Points()
	best, normal := math.Inf(-1), [2]float64{}
	for i, p := range points {
		u := points[(i+1)%len(points)].Sub(p)
		n := [2]float64{float64(u.Y) / u.Len(), -float64(u.X) / u.Len()}
		if gap := support(b, n, -1) - support(a, n, 1); gap > best {
			best, normal = gap, n
		}
	}
	return normal
}

// support is how far an outline reaches along a direction, or against it.
func support(o geometry.Outline, n [2]float64, way float64) float64 {
	most := math.Inf(-1)
	for _, p := range o.Outer.Points() {
		most = max(most, way*(float64(p.X)*n[0]+float64(p.Y)*n[1]))
	}
	return way * most
}

func TestForecastEveryLayout(t *testing.T) {
	for _, l := range fronts.All() {
		if l.Name == "own shapes" {
			continue
		}
		t.Run(l.Name, func(t *testing.T) {
			d := design(t, l.Name)
			p := sums.Forecast(card(t, d), d.Front.Gap, sums.UsualAccuracy([]layouts.Tool{layouts.Trimmer}, false, false))
			require.Len(t, p.Margins, 2)
			for _, g := range p.Gaps {
				require.GreaterOrEqual(t, g.Closes, 0.0)
				require.LessOrEqual(t, g.Closes, 1.0)
				require.LessOrEqual(t, g.RSS, g.Worst)
			}
			if len(p.Gaps) > 0 {
				require.InDelta(t, float64(in/8), float64(p.Gaps[0].Gap), float64(in/1000), "the narrowest gap is the design's")
			} else {
				t.Log("no straight gaps: " + l.Name)
			}
		})
	}
}

func TestUsualAccuracy(t *testing.T) {
	require.Equal(t, in/16, sums.UsualAccuracy([]layouts.Tool{layouts.Knife}, false, true).Cut)
	require.Equal(t, in/64, sums.UsualAccuracy([]layouts.Tool{layouts.Knife}, true, false).Place)
	require.Equal(t, geometry.Millimetre/10, sums.UsualAccuracy([]layouts.Tool{layouts.Cutter}, false, false).Cut)
	require.Error(t, sums.Accuracy{Cut: -1}.Check(geometry.Inches))
	require.NoError(t, sums.Accuracy{}.Check(geometry.Inches))
}
