package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

// spot is a place between whole nanometres.
type spot struct{ x, y float64 }

// samples returns n places a segment on the true border, by de Casteljau's
// rule: mixing points, then the mixtures, until one is left.
func samples(r geometry.Ring, n int) []spot {
	var out []spot
	from := r.Start()
	for _, s := range r {
		control := []geometry.Point{from, s.To}
		if s.Curved {
			control = []geometry.Point{from, s.C1, s.C2, s.To}
		}
		for k := range n {
			out = append(out, casteljau(control, float64(k)/float64(n)))
		}
		from = s.To
	}
	return out
}

func casteljau(control []geometry.Point, t float64) spot {
	var row []spot
	for _, p := range control {
		row = append(row, spot{float64(p.X), float64(p.Y)})
	}
	for len(row) > 1 {
		for i := range row[1:] {
			row[i] = spot{row[i].x*(1-t) + row[i+1].x*t, row[i].y*(1-t) + row[i+1].y*t}
		}
		row = row[:len(row)-1]
	}
	return row[0]
}

// offSide returns how far p is from the segment a-b.
func (p spot) offSide(a, b geometry.Point) float64 {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	px, py := p.x-float64(a.X), p.y-float64(a.Y)
	if long := dx*dx + dy*dy; long > 0 {
		t := min(1, max(0, (px*dx+py*dy)/long))
		px, py = px-t*dx, py-t*dy
	}
	return math.Hypot(px, py)
}

// offPolygon returns how far p is from the polygon's border.
func (p spot) offPolygon(points []geometry.Point) float64 {
	least := math.Inf(1)
	for i, a := range points {
		least = min(least, p.offSide(a, points[(i+1)%len(points)]))
	}
	return least
}

// inPolygon counts the sides on the right of p.
func (p spot) inPolygon(points []geometry.Point) bool {
	inside := false
	for i, a := range points {
		b := points[(i+1)%len(points)]
		ax, ay, bx, by := float64(a.X), float64(a.Y), float64(b.X), float64(b.Y)
		if (ay > p.y) != (by > p.y) && p.x < ax+(bx-ax)*(p.y-ay)/(by-ay) {
			inside = !inside
		}
	}
	return inside
}

// blob draws a round-cornered region: corners about a centre, in order, with
// handles that bulge or dent each side.
func blob() *rapid.Generator[geometry.Outline] {
	return rapid.Custom(func(t *rapid.T) geometry.Outline {
		n := rapid.IntRange(3, 7).Draw(t, "corners")
		radius := rapid.Float64Range(1e6, 500e6).Draw(t, "radius")
		at := func(turns, share float64) geometry.Point {
			sin, cos := math.Sincos(2 * math.Pi * turns)
			return geometry.Point{X: geometry.Length(radius * share * cos), Y: geometry.Length(radius * share * sin)}
		}
		var r geometry.Ring
		for i := range n {
			bulge := func() float64 { return rapid.Float64Range(0.6, 1.3).Draw(t, "handle") }
			step := 1 / float64(n)
			turn := float64(i) * step
			r = append(r, geometry.CurveTo(at(turn+step/3, bulge()), at(turn+2*step/3, bulge()), at(turn+step, 1)))
		}
		return geometry.Outline{Outer: r}
	})
}

func TestFlattenKeepsStraightRings(t *testing.T) {
	o := shape("0,0 10,0 10,10 0,10; 2,2 4,2 4,5")
	require.Equal(t, o.Outer.Points(), o.Outer.Flatten(1))
	require.Equal(t, o.Holes[0].Points(), o.Holes[0].FlattenOutward(mm))
}

func TestFlattenDropsRepeats(t *testing.T) {
	r := geometry.RingFromPoints(places("0,0 10,0 10,0 10,10 0,0")...)
	require.Equal(t, places("0,0 10,0 10,10"), r.Flatten(1))
}

// The widest gap between an arc and its chord is r (1 - cos(a/2)); for 1
// micrometre at 10 mm that allows 222 chords a circle (hand sum: a =
// 2 arccos(1 - 1e-4) = 0.02828). Equal steps of a cubic need more, not ten times more.
func TestFlattenIsNotWasteful(t *testing.T) {
	n := len(disc(10 * mm).Outer.Flatten(geometry.Micrometre))
	require.Greater(t, n, 200)
	require.Less(t, n, 600)
}

func TestFlattenStaysWithinTheTolerance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := blob().Draw(t, "blob")
		tolerance := geometry.Length(rapid.IntRange(20_000, 2_000_000).Draw(t, "tolerance"))
		flat, out := o.Outer.Flatten(tolerance), o.Outer.FlattenOutward(tolerance)
		limit := float64(tolerance) + 1.5 // points are rounded to the nanometre
		for _, p := range samples(o.Outer, 25) {
			require.LessOrEqual(t, p.offPolygon(flat), limit)
			require.LessOrEqual(t, p.offPolygon(out), limit+2)
		}
		border := chords(samples(o.Outer, 400))
		for i := 0; i < len(out); i += 1 + len(out)/40 {
			p := spot{float64(out[i].X), float64(out[i].Y)}
			require.LessOrEqual(t, p.offPolygon(border), limit+2, "%v", out[i]) // and 2 nm to the outside
		}
	})
}

// chords rounds places to corners of a polygon.
func chords(places []spot) []geometry.Point {
	var out []geometry.Point
	for _, s := range places {
		out = append(out, geometry.Point{X: geometry.Length(math.Round(s.x)), Y: geometry.Length(math.Round(s.y))})
	}
	return out
}

func TestFlattenOutwardHoldsTheTrueCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := blob().Draw(t, "blob")
		tolerance := geometry.Length(rapid.IntRange(2_000, 2_000_000).Draw(t, "tolerance"))
		out := o.Outer.FlattenOutward(tolerance)
		for _, p := range samples(o.Outer, 60) {
			if !p.inPolygon(out) {
				// On the border, as far as float64 can tell at half a metre.
				require.Less(t, p.offPolygon(out), 1e-3, "%v", p)
			}
		}
	})
}

// A coarse polygon holds the one at a micrometre, but for rounding: what keeps
// clear of the one keeps clear of the other.
func TestFlattenOutwardHoldsTheFineOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := blob().Draw(t, "blob")
		tolerance := geometry.Length(rapid.IntRange(1_001, 2_000_000).Draw(t, "tolerance"))
		out := o.Outer.FlattenOutward(tolerance)
		for _, p := range o.Outer.FlattenOutward(geometry.Micrometre) {
			if s := (spot{float64(p.X), float64(p.Y)}); !s.inPolygon(out) {
				require.Less(t, s.offPolygon(out), 4.0, "nanometres at %v", p)
			}
		}
	})
}

// A hole's polygon lies inside the hole, so that the paper round it grows.
func TestFlattenOutwardOfAHoleLiesInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := blob().Draw(t, "blob")
		out := o.Outer.Reversed().FlattenOutward(100 * geometry.Micrometre)
		for _, p := range samples(o.Outer, 60) {
			if p.inPolygon(out) {
				require.Less(t, p.offPolygon(out), 1e-3, "%v", p)
			}
		}
	})
}

func TestFlattenOutwardHoldsFlatten(t *testing.T) {
	for _, radius := range []geometry.Length{mm, 7 * mm, 10 * mm, 333 * mm} {
		for _, tolerance := range []geometry.Length{geometry.Micrometre, 50 * geometry.Micrometre, mm / 2} {
			r := disc(radius).Outer
			out := geometry.OutlineFromPoints(r.FlattenOutward(tolerance)...)
			for _, p := range r.Flatten(tolerance) {
				require.True(t, out.Contains(p), "%v of radius %v", p, radius)
			}
			require.Equal(t, 1, out.Area().Cmp(disc(radius).Area()))
		}
	}
}

// A curve that spans all of the allowed field, from corner to corner with
// its handles in the other two, still stays within 1 micrometre.
func TestFlattenAtTheLimit(t *testing.T) {
	l := geometry.Limit
	control := []geometry.Point{{X: -l, Y: -l}, {X: l, Y: -l}, {X: -l, Y: l}, {X: l, Y: l}}
	r := geometry.Ring{
		geometry.CurveTo(control[1], control[2], control[3]),
		geometry.LineTo(geometry.Point{X: -l, Y: l}),
		geometry.LineTo(control[0]),
	}
	flat := r.Flatten(geometry.Micrometre)
	n := len(flat) - 2 // chords of the curve
	for k := range 200 {
		i := k * n / 200
		middle := casteljau(control, (float64(i)+0.5)/float64(n))
		require.LessOrEqual(t, middle.offSide(flat[i], flat[i+1]), 1000+1.5)
	}
}

// Moving a curve moves its bounds by exactly as much, however far.
func TestBoundsOfCurvesMove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string) geometry.Length {
			return geometry.Length(rapid.Int64Range(-5e7, 5e7).Draw(t, name))
		}
		p := func(name string) geometry.Point { return geometry.Point{X: mm(name + " x"), Y: mm(name + " y")} }
		o := geometry.Outline{Outer: geometry.Ring{geometry.CurveTo(p("a"), p("b"), p("c")), geometry.LineTo(p("d"))}}
		far := geometry.Vector{X: geometry.Length(rapid.Int64Range(-9e10, 9e10).Draw(t, "far")), Y: 1}
		require.Equal(t, o.Bounds().Moved(far), o.Moved(far).Bounds())
	})
}
