package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

func TestRingFromPoints(t *testing.T) {
	p := places("0,0 10,0 10,5")
	r := geometry.RingFromPoints(p...)
	require.Equal(t, p, r.Points(), "vertex 0 is the first point")
	require.Equal(t, p[0], r.Start())
	require.True(t, r.IsStraight())
}

func TestRingReversed(t *testing.T) {
	r := geometry.Ring{
		geometry.CurveTo(place("0,5"), place("5,10"), place("10,10")),
		geometry.LineTo(place("10,0")),
		geometry.LineTo(place("0,0")),
	}
	require.False(t, r.IsStraight())
	back := r.Reversed()
	require.Equal(t, places("0,0 10,0 10,10"), back.Points())
	require.Equal(t, geometry.CurveTo(place("5,10"), place("0,5"), place("0,0")), back[2])
	require.Equal(t, r, back.Reversed())
}

func TestOutlineFromPointsTakesEitherDirection(t *testing.T) {
	require.Equal(t,
		shapeText(geometry.OutlineFromPoints(places("0,0 10,0 10,5")...)),
		shapeText(geometry.OutlineFromPoints(places("10,5 10,0 0,0")...)))
}

func TestPath(t *testing.T) {
	p := geometry.PathFromPoints(place("0,0"), place("10,0"), place("10,5"))
	require.Equal(t, places("0,0 10,0 10,5"), p.Points())
	p.Then = append(p.Then, geometry.CurveTo(place("10,6"), place("9,7"), place("8,7")))
	moved := p.Moved(geometry.Vector{X: mm, Y: 2 * mm})
	require.Equal(t, places("1,2 11,2 11,7 9,9"), moved.Points())
	require.Equal(t, geometry.CurveTo(place("11,8"), place("10,9"), place("9,9")), moved.Then[2])
	require.Equal(t, place("10,6"), p.Then[2].C1, "the path itself stays")
}

func TestRings(t *testing.T) {
	o := shape("0,0 10,0 10,10 0,10; 2,2 4,2 4,5 2,5; 6,6 7,6 7,7")
	require.Len(t, o.Rings(), 3)
	require.Equal(t, o.Outer, o.Rings()[0])
	require.True(t, o.IsStraight())
	round := disc(mm)
	require.False(t, geometry.Outline{Outer: o.Outer, Holes: []geometry.Ring{round.Outer.Reversed()}}.IsStraight())
}

func TestBounds(t *testing.T) {
	require.Equal(t, upright("-2,1 7,9"), shape("-2,5 3,1 7,9").Bounds())
	require.Equal(t, upright("0,0 10,10"), shape("0,0 10,0 10,10 0,10; 2,2 4,2 4,5").Bounds())
	// The extremes of a circle are vertices.
	require.Equal(t, upright("-7,-5 13,15"), circle(place("3,5"), 10*mm).Bounds())
}

// The cubic (0,0) (0,10) (10,10) (10,0) is highest halfway, at 3/4 of its
// handles: y(1/2) = (3 x 10 + 3 x 10)/8 = 7.5, hand sum. Its handles do not count.
func TestBoundsOfACurveBetweenItsEnds(t *testing.T) {
	arch := geometry.OutlineFromRing(geometry.Ring{
		geometry.CurveTo(place("0,10"), place("10,10"), place("10,0")),
		geometry.LineTo(place("0,0")),
	})
	require.Equal(t, upright("0,0 10,7.5"), arch.Bounds())
}

func TestBoundsHoldTheTrueCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRing().Draw(t, "ring")
		b := geometry.Outline{Outer: r}.Bounds()
		x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
		for _, p := range samples(r, 200) {
			x0, x1, y0, y1 = min(x0, p.x), max(x1, p.x), min(y0, p.y), max(y1, p.y)
		}
		// Sampling errs by the square of 1/200 of the handles; float64 by 2^-53 of 100 m.
		slack, tiny := 1e-4*float64(max(b.W(), b.H()))+1, 1e-3
		require.InDelta(t, x0, float64(b.Min.X)+slack/2, slack/2+tiny)
		require.InDelta(t, y0, float64(b.Min.Y)+slack/2, slack/2+tiny)
		require.InDelta(t, x1, float64(b.Max.X)-slack/2, slack/2+tiny)
		require.InDelta(t, y1, float64(b.Max.Y)-slack/2, slack/2+tiny)
	})
}

func TestIsConvex(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       bool
	}{
		{"triangle", "0,0 10,0 0,10", true},
		{"oblong with a vertex on a side", "0,0 5,0 10,0 10,10 0,10", true},
		{"dart", "0,0 10,5 0,10 3,5", false},
		{"dent of a nanometre", "0,0 5,0.000001 10,0 10,10 0,10", false},
		{"with a hole", "0,0 10,0 10,10 0,10; 2,2 4,2 4,5", false},
		{"five-pointed star run twice round", "5,0 8,9 0,3 10,3 2,9", false},
		{"spike", "0,0 10,0 10,10 10,20 10,10 0,10", false},
		{"two points", "0,0 10,0", false},
		{"anti-clockwise", "0,0 0,10 10,0", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, rawShape(c.text).IsConvex())
		})
	}
	require.False(t, disc(10*mm).IsConvex(), "a circle is not straight-edged")
	require.False(t, geometry.Outline{}.IsConvex())
}

// 0,0 ┌──────────┐
//
//	│ ┌──┐     │   the hole's border belongs to the region
//	│ └──┘     │
//	└──────────┘ 10,10
func TestContains(t *testing.T) {
	o := shape("0,0 10,0 10,10 0,10; 2,2 4,2 4,4 2,4")
	for _, c := range []struct {
		at               string
		contains, within bool
	}{
		{"5,5", true, true},
		{"1,3", true, true},
		{"3,3", false, false}, // in the hole
		{"2,3", true, false},  // on the hole's side
		{"4,4", true, false},  // on its corner
		{"0,0", true, false},
		{"10,5", true, false},
		{"10.000001,5", false, false},
		{"9.999999,5", true, true},
		{"5,-1", false, false},
		{"-1,10", false, false}, // level with a side
		{"11,0", false, false},
		{"-1,4", false, false}, // level with the hole's corners
	} {
		t.Run(c.at, func(t *testing.T) {
			require.Equal(t, c.contains, o.Contains(place(c.at)))
			require.Equal(t, c.within, o.InteriorContains(place(c.at)))
		})
	}
}

func TestContainsFollowsCurves(t *testing.T) {
	round := disc(10 * mm)
	// At 45 degrees: 10 mm / sqrt 2 = 7.0710678, and a circle of cubics is
	// exact there but for its handles' rounding.
	require.True(t, round.InteriorContains(place("7.07,7.07")))
	require.False(t, round.Contains(place("7.072,7.072")))
	require.True(t, round.Contains(place("10,0")))
	require.False(t, round.InteriorContains(place("10,0")))
}

func TestContainsAgainstAngles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := rapid.SampledFrom(gridShapes()).Draw(t, "shape")
		for range 10 {
			// Every half millimetre: corners, points on sides and level with them.
			half := func() geometry.Length {
				return geometry.Length(rapid.IntRange(-1, 2*gridSide+1).Draw(t, "half")) * mm / 2
			}
			p := geometry.Point{X: half(), Y: half()}
			border := onBorderSlowly(p, o)
			inside := !border && insideSlowly(p, o)
			require.Equal(t, inside || border, o.Contains(p), "%v", p)
			require.Equal(t, inside, o.InteriorContains(p), "%v", p)
		}
	})
}

// The same far from the origin and enlarged to 100 m, where float64 and int64
// would no longer do.
func TestContainsIsExactAtTheLimit(t *testing.T) {
	const k = geometry.Limit / (gridSide * mm)
	rapid.Check(t, func(t *rapid.T) {
		o := rapid.SampledFrom(gridShapes()).Draw(t, "shape")
		large := geometry.Outline{Outer: scaled(o.Outer, k)}
		for _, h := range o.Holes {
			large.Holes = append(large.Holes, scaled(h, k))
		}
		s := rapid.SampledFrom(allEdges(large)).Draw(t, "side")
		d := s.b.Sub(s.a)
		n := geometry.Length(rapid.IntRange(1, 7).Draw(t, "part"))
		nudge := func() geometry.Length { return geometry.Length(rapid.IntRange(-1, 1).Draw(t, "nm")) }
		p := s.a.Add(geometry.Vector{X: d.X/8*n + nudge(), Y: d.Y/8*n + nudge()})
		require.Equal(t, onBorderSlowly(p, large), large.Contains(p) && !large.InteriorContains(p), "%v", p)
	})
}

func scaled(r geometry.Ring, k geometry.Length) geometry.Ring {
	out := make(geometry.Ring, len(r))
	for i, s := range r {
		out[i] = geometry.LineTo(geometry.Point{X: k * s.To.X, Y: k * s.To.Y})
	}
	return out
}

func TestPerimeter(t *testing.T) {
	require.InDelta(t, 12e6, shape("0,0 4,0 0,3").Perimeter(), 1e-6) // 3 + 4 + 5
	// 40 round the outside, 10 round the hole.
	require.InDelta(t, 50e6, shape("0,0 10,0 10,10 0,10; 2,2 4,2 4,5 2,5").Perimeter(), 1e-6)
	// 2 pi r; four cubics are longer by less than 0.03 % (their radius is).
	require.InEpsilon(t, 2*math.Pi*10e6, disc(10*mm).Perimeter(), 3e-4)
}

func TestOutlineMethodsKeepTheirInput(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := rapid.SampledFrom(gridShapes()).Draw(t, "shape")
		before := copyOf(o)
		_, _, _ = o.Area(), o.Bounds(), o.Perimeter()
		_, _ = o.IsConvex(), o.Validate()
		_, _, _ = o.Moved(geometry.Vector{X: 1}), o.Turned(30), o.Mirrored()
		_ = o.Outer.Reversed()
		_ = append(o.Rings(), geometry.Ring{})
		require.Equal(t, before, o)
	})
}
