package geometry_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

// starShape draws a star about (60, 60) mm with 3 to 24 corners between 5
// and 50 mm from its middle; it can be no valid outline when it has few.
func starShape(rng *rand.Rand) geometry.Outline {
	n := 3 + rng.IntN(22)
	var points []geometry.Point
	for i := range n {
		angle := (float64(i) + 0.8*rng.Float64()) / float64(n) * 2 * math.Pi
		radius := 5 + 45*rng.Float64()
		points = append(points, roundedMM(60+radius*math.Cos(angle), 60+radius*math.Sin(angle)))
	}
	return geometry.OutlineFromPoints(points...)
}

func roundedMM(x, y float64) geometry.Point {
	p, err := geometry.PointFromMM(x, y)
	if err != nil {
		panic(err)
	}
	return p
}

// offsetShapes is the store of grid shapes, whose sides and corners often
// just meet when moved by a round number, and as many stars.
func offsetShapes() []geometry.Outline {
	rng := rand.New(rand.NewPCG(3, 4))
	all := slices.Clone(gridShapes())
	for len(all) < 400 {
		if o := starShape(rng); o.Validate() == nil {
			all = append(all, o)
		}
	}
	return all
}

// eachOffset calls f for each shape with round and odd distances, in and out.
func eachOffset(t *testing.T, f func(t require.TestingT, o geometry.Outline, distance geometry.Length, limit float64, got []geometry.Outline)) {
	rng := rand.New(rand.NewPCG(7, 8))
	for _, o := range offsetShapes() {
		for range 2 {
			distance := geometry.Length(rng.IntN(3_000_000)) - 1_500_000
			if rng.IntN(2) == 0 {
				distance = geometry.Length(rng.IntN(12)-6) * mm / 4
			}
			limit := []float64{1, 2, 5, 10}[rng.IntN(4)]
			before := copyOf(o)
			got, err := o.Offset(distance, limit)
			require.NoError(t, err)
			require.Equal(t, before, o, "the input is left alone")
			requireValid(t, got)
			f(t, o, distance, limit, got)
		}
	}
}

// inOffsetSlowly is the slow twin: growing adds to the region, and an inset
// takes from it, an oblong on each side and a mitred wedge at each corner
// where the moved sides leave each other.
func inOffsetSlowly(p geometry.Point, o geometry.Outline, distance geometry.Length, limit float64) bool {
	grows := distance > 0
	if o.Contains(p) == grows {
		return grows
	}
	for _, r := range o.Rings() {
		points := r.Points()
		if !grows {
			slices.Reverse(points)
		}
		n := len(points)
		for i, b := range points {
			a, c := points[(i+n-1)%n], points[(i+1)%n]
			if sweeps(p, a, b, c, math.Abs(float64(distance)), limit) {
				return grows
			}
		}
	}
	return !grows
}

// sweeps reports whether p lies in the oblong on the left of a-b or in the
// wedge at b.
func sweeps(p, a, b, c geometry.Point, by, limit float64) bool {
	unit := func(v geometry.Vector) [2]float64 {
		return [2]float64{float64(v.X) / v.Len(), float64(v.Y) / v.Len()}
	}
	times := func(v, w [2]float64) float64 { return v[0]*w[0] + v[1]*w[1] }
	s, t := unit(b.Sub(a)), unit(c.Sub(b))
	left := func(v [2]float64) [2]float64 { return [2]float64{v[1], -v[0]} }
	q := [2]float64{float64(p.X - b.X), float64(p.Y - b.Y)}
	over, along := times(q, left(s)), times(q, s)
	if over >= 0 && over < by && along <= 0 && along >= -b.Sub(a).Len() {
		return true
	}
	middle := [2]float64{s[0] - t[0], s[1] - t[1]}
	size := math.Hypot(middle[0], middle[1])
	return geometry.Turn(a, b, c) > 0 && along >= 0 && times(q, t) <= 0 &&
		over < by && times(q, left(t)) < by && times(q, middle) < limit*by*size
}

func TestOffsetAgainstItsSlowTwin(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	eachOffset(t, func(t require.TestingT, o geometry.Outline, distance geometry.Length, limit float64, got []geometry.Outline) {
		if distance == 0 {
			return
		}
		box := o.Bounds()
		for range 25 {
			p := geometry.Point{
				X: box.Min.X - 2*mm + geometry.Length(rng.Int64N(int64(box.W()+4*mm))),
				Y: box.Min.Y - 2*mm + geometry.Length(rng.Int64N(int64(box.H()+4*mm)))}
			inside := slices.ContainsFunc(got, func(g geometry.Outline) bool { return g.Contains(p) })
			if inside != inOffsetSlowly(p, o, distance, limit) && borderDistance(p, got) > 2 {
				require.Fail(t, "on the wrong side", "%s of %s by %s, limit %v", p, shapeText(o), distance, limit)
			}
		}
	})
}

// borderDistance returns how far p is from the nearest border, in nm.
func borderDistance(p geometry.Point, all []geometry.Outline) float64 {
	least := math.Inf(1)
	for _, o := range all {
		for _, r := range o.Rings() {
			for i, a := range r.Points() {
				least = math.Min(least, segmentDistance(p, a, r[i].To))
			}
		}
	}
	return least
}

func segmentDistance(p, a, b geometry.Point) float64 {
	d, q := b.Sub(a), p.Sub(a)
	x, y := float64(q.X), float64(q.Y)
	share := (x*float64(d.X) + y*float64(d.Y)) / (d.Len() * d.Len())
	share = math.Max(0, math.Min(1, share))
	return math.Hypot(x-share*float64(d.X), y-share*float64(d.Y))
}

// Two borders are nearest to each other at a corner of one of them.
func bordersDistance(a, b []geometry.Outline) float64 {
	least := math.Inf(1)
	for range 2 {
		for _, o := range a {
			for _, r := range o.Rings() {
				for _, p := range r.Points() {
					least = math.Min(least, borderDistance(p, b))
				}
			}
		}
		a, b = b, a
	}
	return least
}

func TestOffsetKeepsItsDistance(t *testing.T) {
	eachOffset(t, func(t require.TestingT, o geometry.Outline, distance geometry.Length, limit float64, got []geometry.Outline) {
		if distance == 0 || len(got) == 0 {
			return
		}
		least := bordersDistance([]geometry.Outline{o}, got)
		require.GreaterOrEqual(t, least, math.Abs(float64(distance))-2, "%s by %s", shapeText(o), distance)
		for _, g := range got {
			if distance < 0 {
				require.True(t, o.InteriorContains(g.Outer.Start()))
			}
		}
		if distance > 0 {
			require.Len(t, got, 1, "what holds together still does")
			require.True(t, got[0].InteriorContains(o.Outer.Start()))
		}
	})
}

func TestOffsetMovesAndTurnsWithTheShape(t *testing.T) {
	eachOffset(t, func(t require.TestingT, o geometry.Outline, distance geometry.Length, limit float64, got []geometry.Outline) {
		by := geometry.Vector{X: 12_345_678_901, Y: -987_654_321}
		moved, err := o.Moved(by).Offset(distance, limit)
		require.NoError(t, err)
		want := make([]geometry.Outline, len(got))
		for i, g := range got {
			want[i] = g.Moved(by)
		}
		require.Equal(t, shapeTexts(want), shapeTexts(moved))
		for _, angle := range []float64{90, 180, 270} {
			turned, err := o.Turned(angle).Offset(distance, limit)
			require.NoError(t, err)
			for i, g := range got {
				want[i] = g.Turned(angle)
			}
			requireSameCorners(t, want, turned, 1)
		}
	})
}

// convexShape draws corners on a circle, 5 to 50 mm from the middle and no
// closer than 20 degrees to each other.
func convexShape() *rapid.Generator[geometry.Outline] {
	return rapid.Custom(func(t *rapid.T) geometry.Outline {
		n := rapid.IntRange(3, 9).Draw(t, "corners")
		radius := rapid.Float64Range(5, 50).Draw(t, "radius")
		var points []geometry.Point
		for i := range n {
			angle := (float64(i) + rapid.Float64Range(0, 0.5).Draw(t, "shift")) / float64(n) * 2 * math.Pi
			points = append(points, roundedMM(radius*math.Cos(angle), radius*math.Sin(angle)))
		}
		return geometry.OutlineFromPoints(points...)
	})
}

// Each rounding moves a corner by up to 0.71 nm, and so a side; where two
// sides meet, that is multiplied by the mitre factor (1 / sin of half the
// angle between them) or its like for a flat corner.
func TestOffsetAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := convexShape().Draw(t, "shape")
		by := geometry.Length(rapid.IntRange(1, 5_000_000).Draw(t, "by"))
		out, err := o.Offset(by, 100)
		require.NoError(t, err)
		require.Len(t, out, 1)
		back, err := out[0].Inset(by)
		require.NoError(t, err)
		require.Len(t, back, 1)
		within := geometry.Length(math.Ceil(2 * sharpest(o)))
		requireSameCorners(t, []geometry.Outline{o}, back, within)
	})
}

// sharpest returns the largest of 1 / sin(a / 2) and 1 / cos(a / 2) over the
// corners with the angle a.
func sharpest(o geometry.Outline) float64 {
	worst := 1.0
	p := o.Outer.Points()
	for i := range p {
		v, w := p[i].Sub(p[(i+1)%len(p)]), p[(i+2)%len(p)].Sub(p[(i+1)%len(p)])
		cos := (float64(v.X)*float64(w.X) + float64(v.Y)*float64(w.Y)) / v.Len() / w.Len()
		worst = max(worst, 1/math.Sqrt((1-cos)/2), 1/math.Sqrt((1+cos)/2))
	}
	return worst
}

// Steiner's formula for mitred corners: a convex polygon with the area A,
// the perimeter P and the turns t at its corners grows to
// A + P d + d^2 (sum of tan t/2); for a regular one of n corners on a circle
// of radius R, A = n R^2 sin(2 pi/n) / 2, P = 2 n R sin(pi/n), t = 2 pi/n.
// It holds for an inset, d < 0, up to the inradius.
func TestOffsetAreaOfRegularPolygons(t *testing.T) {
	const radius, d = 40.0, 7.0
	for n := 3; n <= 12; n++ {
		var points []geometry.Point
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			points = append(points, roundedMM(radius*cos, radius*sin))
		}
		half := math.Pi / float64(n)
		for _, d := range []float64{d, -d} {
			t.Run(fmt.Sprintf("%d corners by %v", n, d), func(t *testing.T) {
				corners := float64(n)
				want := corners*radius*radius*math.Sin(2*half)/2 +
					2*corners*radius*math.Sin(half)*d + corners*math.Tan(half)*d*d
				got, err := geometry.OutlineFromPoints(points...).Offset(geometry.Length(d)*mm, 10)
				require.NoError(t, err)
				require.Len(t, got, 1)
				// 1 nm along the whole border, at most 300 mm long.
				require.InDelta(t, want, got[0].Area().SquareMM(), 300*1e-6)
			})
		}
	}
}
