package fronts_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

func init() {
	variants["hourglass"] = []options{{"columns": int64(1), "rows": int64(1)}, {"columns": int64(3), "rows": int64(2)}}
	variants["square in a square"] = []options{{"columns": int64(2), "rows": int64(3)}}
	variants["flying geese"] = []options{{"fly": "down"}, {"fly": "left", "flocks": int64(3)}, {"fly": "right", "geese": int64(3)}}
	variants["checkerboard"] = []options{{"columns": int64(5)}, {"rows": int64(2)}}
}

// legs returns the three sides of a triangle in inches, rising.
func sidesIn(o geometry.Outline) []float64 {
	points := o.Outer.Points()
	var out []float64
	for i, p := range points {
		out = append(out, points[(i+1)%len(points)].Sub(p).Len()/float64(inch))
	}
	return out
}

// Trade-facts section 6, case 4 (hand sums): a cell of 4 x 5 1/4 in cut on
// both diagonals with a gap of 1/8 in has triangles of 3.84285 by 2.52187 in on
// its short sides, and of 5.04374 by 1.92143 in on its long ones.
func TestHourglassOfKnownSize(t *testing.T) {
	f := divide(t, layout(t, "hourglass"), frameOf(4*inch, 21*inch/4), inch/8, options{"columns": int64(1), "rows": int64(1)})
	require.Equal(t, []string{"A1a", "A1b", "A1c", "A1d"}, panelNames(f))
	for name, want := range map[string][2]float64{"A1a": {3.84285, 2.52187}, "A1d": {3.84285, 2.52187}, "A1b": {1.92143, 5.04374}, "A1c": {1.92143, 5.04374}} {
		size := panelNamed(t, f, name).Outline.Bounds().Size()
		require.InDelta(t, want[0], size.W.In(geometry.Inches), 5e-6, name)
		require.InDelta(t, want[1], size.H.In(geometry.Inches), 5e-6, name)
	}
	require.Equal(t, panelNamed(t, f, "A1a").Role, panelNamed(t, f, "A1d").Role)
	require.NotEqual(t, panelNamed(t, f, "A1a").Role, panelNamed(t, f, "A1b").Role)
}

// A square in a square of 100 mm without gaps: a diamond of half the area.
func TestSquareInSquare(t *testing.T) {
	f := divide(t, layout(t, "square in a square"), frameOf(100*mm, 100*mm), 0, options{"columns": int64(1), "rows": int64(1)})
	require.Equal(t, []string{"A1a", "A1b", "A1c", "A1d", "A1e"}, panelNames(f))
	require.InDelta(t, 5000, panelNamed(t, f, "A1c").Outline.Area().SquareMM(), 1e-6)
	require.InDelta(t, 1250, panelNamed(t, f, "A1a").Outline.Area().SquareMM(), 1e-6)
}

// A goose of 2 to 1 is a right triangle, with the right angle at its tip: the
// sides of 40 x 20 mm without a gap are 40 and twice 20 sqrt 2.
func TestFlyingGoose(t *testing.T) {
	f := divide(t, layout(t, "flying geese"), frameOf(40*mm, 20*mm), 0, options{"flocks": int64(1), "geese": int64(1)})
	require.Len(t, f.Panels, 3)
	for _, p := range f.Panels {
		if p.Role == 0 {
			sides := sidesIn(p.Outline)
			require.InDelta(t, 40/25.4+2*20*math.Sqrt2/25.4, sides[0]+sides[1]+sides[2], 1e-6)
			require.InDelta(t, 90, max(p.Outline.Angles()[0], p.Outline.Angles()[1], p.Outline.Angles()[2]), 1e-4)
		}
	}
}
