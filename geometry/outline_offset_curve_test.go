package geometry_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// roundCorners is an oblong whose corners are quarter circles.
func roundCorners(w, h, r geometry.Length) geometry.Outline {
	k := r - geometry.Length(float64(r)*0.5522847498+0.5)
	at := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }
	return geometry.Outline{Outer: geometry.Ring{
		geometry.LineTo(at(w-r, 0)), geometry.CurveTo(at(w-k, 0), at(w, k), at(w, r)),
		geometry.LineTo(at(w, h-r)), geometry.CurveTo(at(w, h-k), at(w-k, h), at(w-r, h)),
		geometry.LineTo(at(r, h)), geometry.CurveTo(at(k, h), at(0, h-k), at(0, h-r)),
		geometry.LineTo(at(0, r)), geometry.CurveTo(at(0, k), at(k, 0), at(r, 0)),
	}}
}

// A corner's rounding is gone once the inset is deeper than its radius.
func TestInsetOfRoundCorners(t *testing.T) {
	for _, o := range []geometry.Outline{roundCorners(100*mm, 60*mm, 6*mm), roundCorners(100*mm, 60*mm, 9*mm)} {
		got, err := o.Inset(10 * mm)
		require.NoError(t, err)
		require.Equal(t, sameTexts("10,10 90,10 90,50 10,50"), shapeTexts(got))
	}
}

// A circle of cubics is outside the true one by up to 0.0273 percent
// (common knowledge of the 0.5523 handles), 14 micrometres of 50 mm; a
// micrometre more comes from the polygon. The border never moves by less
// than asked.
func TestOffsetOfCurves(t *testing.T) {
	o := disc(50 * mm)
	o.Holes = append(o.Holes, disc(30*mm).Outer.Reversed())
	for _, c := range []struct {
		name               string
		distance           geometry.Length
		outerMin, outerMax float64
		holeMin, holeMax   float64
	}{
		{"out", 5 * mm, 55, 55.0154, 24.999, 25.0104},
		{"in", -5 * mm, 44.999, 45.014, 35, 35.0104},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := o.Offset(c.distance, 2)
			require.NoError(t, err)
			requireValid(t, got)
			require.Len(t, got, 1)
			require.Len(t, got[0].Holes, 1)
			requireRadii(t, got[0].Outer, c.outerMin, c.outerMax)
			requireRadii(t, got[0].Holes[0], c.holeMin, c.holeMax)
		})
	}
	got, err := o.Offset(31*mm, 2)
	require.NoError(t, err)
	require.Len(t, got, 1)
	require.Empty(t, got[0].Holes)
	got, err = o.Inset(11 * mm)
	require.NoError(t, err)
	require.Empty(t, got)
}

// requireRadii checks how far the corners are from the origin, in mm.
func requireRadii(t require.TestingT, r geometry.Ring, least, most float64) {
	for _, p := range r.Points() {
		d := p.Sub(geometry.Point{}).Len() / float64(mm)
		require.GreaterOrEqual(t, d, least-1e-6)
		require.LessOrEqual(t, d, most)
	}
}
