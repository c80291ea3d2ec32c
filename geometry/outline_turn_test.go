package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

func TestTurnedByQuarters(t *testing.T) {
	o := shape("0,0 4,0 0,3")
	for degrees, want := range map[float64]string{
		0:     "0,0 4,0 0,3",
		90:    "0,0 0,4 -3,0", // right goes down
		180:   "0,0 -4,0 0,-3",
		270:   "0,0 0,-4 3,0",
		-90:   "0,0 0,-4 3,0",
		450:   "0,0 0,4 -3,0",
		-3600: "0,0 4,0 0,3",
	} {
		require.Equal(t, shapeText(shape(want)), shapeText(o.Turned(degrees)), "%v degrees", degrees)
	}
}

// A turn by 30 degrees takes (10, 0) to (10 cos 30, 10 sin 30) = (8.660254, 5),
// clockwise as seen on the page, so downwards.
func TestTurnedByAnOddAngle(t *testing.T) {
	turned := shape("0,0 10,0 10,10").Turned(30)
	require.Equal(t, place("8.660254,5"), turned.Outer.Points()[1])
	path := geometry.PathFromPoints(place("0,0"), place("10,0")).Turned(30)
	require.Equal(t, places("0,0 8.660254,5"), path.Points())
}

func TestTurnedTakesControlPointsAlong(t *testing.T) {
	quarter := disc(10 * mm).Turned(90)
	require.Equal(t, disc(10 * mm).Outer[1], quarter.Outer[0])
}

func TestNormalDegrees(t *testing.T) {
	for in, want := range map[float64]float64{
		0: 0, 90: 90, 359.5: 359.5, 360: 0, 361: 1, -1: 359, -360: 0, 720.25: 0.25, -1e-20: 0, math.Copysign(0, -1): 0,
	} {
		got := geometry.NormalDegrees(in)
		require.Equal(t, want, got, "%v", in)
		require.False(t, math.Signbit(got), "%v", in)
	}
}

func TestFourQuartersComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := rapid.SampledFrom(gridShapes()).Draw(t, "shape")
		require.Equal(t, o, o.Turned(90).Turned(90).Turned(90).Turned(90))
		require.Equal(t, o.Turned(180), o.Turned(90).Turned(90))
		require.Equal(t, o.Turned(270), o.Turned(-90))
		require.Equal(t, o, o.Mirrored().Mirrored())
		require.Equal(t, o.Area(), o.Turned(270).Area())
		require.Equal(t, o.Area(), o.Mirrored().Area())
		require.NoError(t, o.Mirrored().Validate())
		there := geometry.Vector{X: anyLength().Draw(t, "x"), Y: anyLength().Draw(t, "y")}
		require.Equal(t, o, o.Moved(there).Moved(there.Neg()))
		require.Equal(t, o.Area(), o.Moved(there).Area())
	})
}

// An odd turn moves each point by at most half a nanometre each way from
// where it belongs.
func TestTurnedRoundsToTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := rapid.SampledFrom(gridShapes()).Draw(t, "shape")
		degrees := rapid.Float64Range(-720, 720).Draw(t, "degrees")
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		turned := o.Turned(degrees).Outer.Points()
		for i, p := range o.Outer.Points() {
			x, y := float64(p.X), float64(p.Y)
			require.InDelta(t, x*cos-y*sin, float64(turned[i].X), 0.5001)
			require.InDelta(t, x*sin+y*cos, float64(turned[i].Y), 0.5001)
		}
	})
}

// "/" half     mirrored: "\" half
// ┌──╱              ╲──┐
// │╱                  ╲│
func TestMirrored(t *testing.T) {
	half := shape("0,0 4,0 0,3")
	require.Equal(t, sameTexts("0,0 -4,0 0,3"), shapeTexts([]geometry.Outline{half.Mirrored()}))
	windowed := shape("0,0 10,0 10,10 0,10; 2,2 4,2 4,5").Mirrored()
	require.NoError(t, windowed.Validate())
	require.Equal(t, "-10,0 0,0 0,10 -10,10; -4,2 -4,5 -2,2", shapeText(windowed))
}
