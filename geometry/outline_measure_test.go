package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

func TestBreadth(t *testing.T) {
	tests := []struct {
		name, shape string
		want        geometry.Length
	}{
		{"oblong", "0,0 100,0 100,40 0,40", 40 * geometry.Millimetre},
		// The altitude on the long side: 30·40/50 (3-4-5 triangle).
		{"right triangle", "0,0 30,0 0,40", 24 * geometry.Millimetre},
		// 13-14-15: area 84, so 2·84/15 on the longest side.
		{"13-14-15", "0,0 14,0 5,12", 11_200_000},
		// An L 30 x 30 of arms 10 wide lies within 30 each way, and aslant along
		// its inner corner's diagonal within the distance from corner (30,0)-(0,30)
		// to (0,0): 30/sqrt 2 = 21.213; but no side runs that way.
		{"L", "0,0 30,0 30,10 10,10 10,30 0,30", 30 * geometry.Millimetre},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) { require.Equal(t, test.want, shape(test.shape).Breadth()) })
	}
}

// A slow twin for convex shapes: the narrowest of many directions is never
// under the breadth, and comes near it.
func TestBreadthAgainstManyDirections(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := geometry.Length(rapid.Int64Range(1e6, 1e8).Draw(t, "w"))
		h := geometry.Length(rapid.Int64Range(1e6, 1e8).Draw(t, "h"))
		x := geometry.Length(rapid.Int64Range(0, int64(w)).Draw(t, "x"))
		o := geometry.OutlineFromPoints(geometry.Point{}, geometry.Point{X: w}, geometry.Point{X: x, Y: h})
		least := math.Inf(1)
		for k := range 1800 {
			sin, cos := math.Sincos(float64(k) / 1800 * math.Pi)
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, p := range o.Outer.Points() {
				at := float64(p.X)*cos + float64(p.Y)*sin
				lo, hi = math.Min(lo, at), math.Max(hi, at)
			}
			least = math.Min(least, hi-lo)
		}
		got := float64(o.Breadth())
		require.LessOrEqual(t, got, least+1)
		require.Less(t, least-got, float64(w+h)*math.Pi/1800) // the next direction is that far off at most
	})
}

// Angles of a 3-4-5 triangle: 90, atan(4/3) = 53.1301, 36.8699 degrees; of a
// hexagon 120; an L has one of 270. A full circle of four cubics has no
// corner: 180 everywhere.
func TestAngles(t *testing.T) {
	require.InDeltaSlice(t, []float64{90, 53.1301, 36.8699}, shape("0,0 30,0 0,40").Angles(), 1e-4)
	require.InDeltaSlice(t, []float64{90, 90, 90, 270, 90, 90}, shape("0,0 30,0 30,10 10,10 10,30 0,30").Angles(), 1e-9)
	const h = 5_522_847 // the handle of a quarter circle of 10 mm: 0.5522847 r
	mm := geometry.Millimetre
	p := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }
	circle := geometry.OutlineFromRing(geometry.Ring{
		geometry.CurveTo(p(10*mm, h), p(h, 10*mm), p(0, 10*mm)), geometry.CurveTo(p(-h, 10*mm), p(-10*mm, h), p(-10*mm, 0)),
		geometry.CurveTo(p(-10*mm, -h), p(-h, -10*mm), p(0, -10*mm)), geometry.CurveTo(p(h, -10*mm), p(10*mm, -h), p(10*mm, 0)),
	})
	require.InDeltaSlice(t, []float64{180, 180, 180, 180}, circle.Angles(), 1e-9)
}

// The inside angles of a simple polygon of n corners add up to (n-2)·180.
func TestAnglesAddUp(t *testing.T) {
	for _, text := range []string{"0,0 30,0 30,10 10,10 10,30 0,30", "0,0 50,0 20,10 60,40 0,30"} {
		o := shape(text)
		sum := 0.0
		for _, a := range o.Angles() {
			sum += a
		}
		require.InDelta(t, float64(len(o.Outer)-2)*180, sum, 1e-9)
	}
}
