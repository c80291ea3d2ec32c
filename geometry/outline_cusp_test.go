package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

// horn is the region between two arcs of one angle that leave the origin to
// the right; the second ends on the line from the origin through the end of
// the first, so that they meet nowhere else. A negative radius bends up.
func horn(r1, r2, angle, turned float64) geometry.Outline {
	at := func(x, y float64) geometry.Point {
		sin, cos := math.Sincos(turned)
		return geometry.Point{
			X: geometry.Length(math.Round(1e6 * (x*cos - y*sin))),
			Y: geometry.Length(math.Round(1e6 * (x*sin + y*cos))),
		}
	}
	sin, cos := math.Sincos(angle)
	handle := 4.0 / 3 * math.Tan(angle/4)
	arc := func(r float64) (c1, c2, to geometry.Point) {
		w := math.Abs(r)
		return at(handle*w, 0), at(w*(sin-handle*cos), r*(1-cos-handle*sin)), at(w*sin, r*(1-cos))
	}
	a1, a2, a := arc(r1)
	b1, b2, b := arc(r2)
	return geometry.OutlineFromRing(geometry.Ring{
		geometry.CurveTo(a1, a2, a), geometry.LineTo(b), geometry.CurveTo(b2, b1, geometry.Point{}),
	})
}

// A horn's sides part from its tip on, however much alike they bend, and the
// straight sides that stand for them do not count where they cross there.
// The area is (r1² - r2²)(a - sin a)/2 by the formula of a circle's segment.
func TestCuspsAreValid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r1 := rapid.Float64Range(5, 300).Draw(t, "r1")
		r2 := r1 * rapid.Float64Range(0.02, 0.97).Draw(t, "r2/r1")
		angle := rapid.Float64Range(0.3, 1).Draw(t, "angle")
		turned := rapid.OneOf(rapid.Float64Range(0, 7), rapid.SampledFrom([]float64{0, math.Pi / 2, math.Pi})).Draw(t, "turned")
		o := horn(r1, r2, angle, turned)
		require.NoError(t, o.Validate())
		want := (r1*r1 - r2*r2) * (angle - math.Sin(angle)) / 2
		require.InEpsilon(t, want, o.Area().SquareMM(), 1e-3)
		require.NoError(t, horn(r1, -r1, angle, turned).Validate(), "arcs to both hands")
		for _, by := range []geometry.Length{-mm / 10, mm} {
			moved, err := o.Offset(by, 2)
			require.NoError(t, err)
			for _, part := range moved {
				require.NoError(t, part.Validate())
			}
		}
	})
}

// Curves that leave one point alike and then change places do cross, and
// those that never part by two micrometres enclose nothing.
func TestCuspsThatCross(t *testing.T) {
	// y = 6 (x/30)³ and y = 3q (x/30)² meet again at x = 15 q.
	swap := func(q string) geometry.Outline {
		o := geometry.OutlineFromRing(geometry.Ring{
			geometry.CurveTo(place("10,0"), place("20,0"), place("30,6")),
			geometry.LineTo(place("30," + q)), // 3q
			geometry.CurveTo(geometry.Point{X: 20 * mm, Y: place("0,"+q).Y / 3}, place("10,0"), place("0,0")),
		})
		return o
	}
	for _, q := range []string{"0.9", "1.5", "3"} {
		require.ErrorContains(t, swap(q).Validate(), "crosses or touches itself", q)
	}
	require.Error(t, horn(30, 29.9999, 0.5, 1).Validate())
	straight := geometry.OutlineFromRing(geometry.Ring{ // back over itself, and home by another way
		geometry.CurveTo(place("10,10"), place("20,10"), place("30,0")),
		geometry.CurveTo(place("25,5"), place("20,7.5"), place("15,7.5")),
		geometry.LineTo(place("15,-9")), geometry.LineTo(place("0,0")),
	})
	require.ErrorContains(t, straight.Validate(), "crosses or touches itself")
}
