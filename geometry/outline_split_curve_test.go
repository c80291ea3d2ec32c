package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

// A chord at distance h from the centre cuts a cap of r^2 arccos(h/r) -
// h sqrt(r^2 - h^2) off a circle (closed form); four cubics are larger by less
// than 0.03 % of the circle.
func TestSplitACircle(t *testing.T) {
	r, round := 10.0, disc(10*mm)
	for _, h := range []float64{0, 1, 5, 9} {
		at := geometry.Length(h * float64(mm))
		line := geometry.Line{A: geometry.Point{Y: at}, B: geometry.Point{X: 1, Y: at}}
		left, right := round.Split(line, 0)
		cap := r*r*math.Acos(h/r) - h*math.Sqrt(r*r-h*h)
		require.InDelta(t, cap, areaOf(right).SquareMM(), 3e-4*math.Pi*r*r)
		require.InDelta(t, round.Area().SquareMM(), areaOf(left).Add(areaOf(right)).SquareMM(), 0.5e-12*round.Perimeter())
		require.NoError(t, right[0].Validate())
		require.NoError(t, left[0].Validate())
		require.False(t, right[0].IsStraight(), "curves stay curves")
	}
	left, right := round.Split(lineThrough("-20,10 20,10"), 0)
	require.Equal(t, []geometry.Outline{round}, left, "a line that touches")
	require.Empty(t, right)
}

// Curves cut at any slant: parts are valid, add up, and keep their gap.
func TestSplitCurves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := blob().Draw(t, "blob")
		b := o.Bounds()
		at := func() geometry.Point {
			x := rapid.Int64Range(int64(b.Min.X), int64(b.Max.X)).Draw(t, "x")
			y := rapid.Int64Range(int64(b.Min.Y), int64(b.Max.Y)).Draw(t, "y")
			return geometry.Point{X: geometry.Length(x), Y: geometry.Length(y)}
		}
		c := cut{o, geometry.Line{A: at(), B: at()}, geometry.Length(rapid.Int64Range(0, 1e6).Draw(t, "gap"))}
		if c.line.A == c.line.B {
			t.Skip("no line")
		}
		left, right := o.Split(c.line, c.gap)
		sum := areaOf(left).Add(areaOf(right)).Add(areaOf(c.stripOf()))
		require.InDelta(t, o.Area().SquareMM(), sum.SquareMM(), 1e-12*o.Perimeter())
		for _, l := range left {
			require.NoError(t, l.Validate())
			for _, r := range right {
				// 1 micrometre of polygon around each curve, and the rounding
				require.True(t, geometry.Apart(l, r, max(0, c.gap-2010)) || c.gap < 2010)
			}
		}
		for _, r := range right {
			require.NoError(t, r.Validate())
		}
	})
}
