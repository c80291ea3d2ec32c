package geometry_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"sync"

	"panelry/geometry"
)

// Slow, obvious twins of the package's clever routines, and a store of small
// shapes to try them on.

// edge is one straight side of an outline.
type edge struct{ a, b geometry.Point }

// edgesOf lists the sides of a straight outline, ring by ring.
func edgesOf(o geometry.Outline) [][]edge {
	var out [][]edge
	for _, r := range o.Rings() {
		p := r.Points()
		var ring []edge
		for i := range p {
			ring = append(ring, edge{p[i], p[(i+1)%len(p)]})
		}
		out = append(out, ring)
	}
	return out
}

func allEdges(o geometry.Outline) []edge {
	var all []edge
	for _, ring := range edgesOf(o) {
		all = append(all, ring...)
	}
	return all
}

// rational is a point with exact coordinates.
type rational struct{ x, y *big.Rat }

func rationalFrom(p geometry.Point) rational {
	return rational{big.NewRat(int64(p.X), 1), big.NewRat(int64(p.Y), 1)}
}

func (p rational) minus(q rational) rational {
	return rational{new(big.Rat).Sub(p.x, q.x), new(big.Rat).Sub(p.y, q.y)}
}

func crossOf(v, w rational) *big.Rat {
	return new(big.Rat).Sub(new(big.Rat).Mul(v.x, w.y), new(big.Rat).Mul(v.y, w.x))
}

func dotOf(v, w rational) *big.Rat {
	return new(big.Rat).Add(new(big.Rat).Mul(v.x, w.x), new(big.Rat).Mul(v.y, w.y))
}

// along returns p + t v.
func (p rational) along(v rational, t *big.Rat) rational {
	return rational{
		new(big.Rat).Add(p.x, new(big.Rat).Mul(t, v.x)),
		new(big.Rat).Add(p.y, new(big.Rat).Mul(t, v.y)),
	}
}

var zero, one = new(big.Rat), big.NewRat(1, 1)

func within01(t *big.Rat) bool { return t.Cmp(zero) >= 0 && t.Cmp(one) <= 0 }

// squareDistance returns how far p is from the side, squared: the foot of
// the perpendicular, or the nearer end.
func squareDistance(p rational, s edge) *big.Rat {
	a, b := rationalFrom(s.a), rationalFrom(s.b)
	foot := a
	if d := b.minus(a); dotOf(d, d).Sign() > 0 {
		t := new(big.Rat).Quo(dotOf(p.minus(a), d), dotOf(d, d))
		switch {
		case t.Cmp(zero) < 0:
			t = zero
		case t.Cmp(one) > 0:
			t = one
		}
		foot = a.along(d, t)
	}
	way := p.minus(foot)
	return dotOf(way, way)
}

// meetSlowly reports whether two sides share a point: it solves
// a + s (b - a) = c + t (d - c) for both parameters.
func meetSlowly(s, t edge) bool {
	if !boxesMeet(s, t) {
		return false
	}
	a, b, c, d := rationalFrom(s.a), rationalFrom(s.b), rationalFrom(t.a), rationalFrom(t.b)
	ab, cd, ac := b.minus(a), d.minus(c), c.minus(a)
	det := crossOf(ab, cd)
	if det.Sign() != 0 {
		return within01(new(big.Rat).Quo(crossOf(ac, cd), det)) && within01(new(big.Rat).Quo(crossOf(ac, ab), det))
	}
	// Parallel sides meet only where an end of one lies on the other.
	return squareDistance(a, t).Sign() == 0 || squareDistance(b, t).Sign() == 0 ||
		squareDistance(c, s).Sign() == 0 || squareDistance(d, s).Sign() == 0
}

func boxesMeet(s, t edge) bool {
	return max(s.a.X, s.b.X) >= min(t.a.X, t.b.X) && max(t.a.X, t.b.X) >= min(s.a.X, s.b.X) &&
		max(s.a.Y, s.b.Y) >= min(t.a.Y, t.b.Y) && max(t.a.Y, t.b.Y) >= min(s.a.Y, s.b.Y)
}

// insideSlowly adds up the angles under which a point sees all sides: 2 pi
// when it lies inside, else 0. It is for points that lie on no side.
func insideSlowly(p geometry.Point, o geometry.Outline) bool {
	sum := 0.0
	for _, s := range allEdges(o) {
		a, b := s.a.Sub(p), s.b.Sub(p)
		ax, ay, bx, by := float64(a.X), float64(a.Y), float64(b.X), float64(b.Y)
		sum += math.Atan2(ax*by-ay*bx, ax*bx+ay*by)
	}
	return math.Abs(sum) > math.Pi
}

// onBorderSlowly reports whether a point lies on a side.
func onBorderSlowly(p geometry.Point, o geometry.Outline) bool {
	for _, s := range allEdges(o) {
		if squareDistance(rationalFrom(p), s).Sign() == 0 {
			return true
		}
	}
	return false
}

// validSlowly looks at each pair of sides, then at directions and nesting.
func validSlowly(o geometry.Outline) bool {
	rings := edgesOf(o)
	for i, ring := range rings {
		if len(ring) < 3 || o.Rings()[i].Area().Sign() != map[bool]int{true: 1, false: -1}[i == 0] {
			return false
		}
		for j, s := range ring {
			for k, t := range ring[:j] {
				if !sidesMayStand(t, s, j-k == 1, j-k == len(ring)-1) {
					return false
				}
			}
			for _, other := range rings[:i] {
				for _, t := range other {
					if meetSlowly(s, t) {
						return false
					}
				}
			}
		}
	}
	return nestedSlowly(o)
}

// sidesMayStand reports whether two sides of one ring meet in nothing but
// the corner that joins them: next when the later one follows, last when the
// later one comes round to the start of the earlier.
func sidesMayStand(earlier, later edge, next, last bool) bool {
	if earlier.a == earlier.b || later.a == later.b {
		return false
	}
	if last {
		earlier, later = later, earlier
	}
	if next || last {
		// No side's far end lies on its neighbour.
		return squareDistance(rationalFrom(later.b), earlier).Sign() > 0 &&
			squareDistance(rationalFrom(earlier.a), later).Sign() > 0
	}
	return !meetSlowly(earlier, later)
}

func nestedSlowly(o geometry.Outline) bool {
	for i, h := range o.Holes {
		if !insideSlowly(h.Start(), geometry.Outline{Outer: o.Outer}) {
			return false
		}
		for j, k := range o.Holes {
			if i != j && insideSlowly(h.Start(), geometry.Outline{Outer: k}) {
				return false
			}
		}
	}
	return true
}

// gridPoint draws a corner on a grid of whole millimetres, 0 to side.
func gridPoint(rng *rand.Rand, side int) geometry.Point {
	at := func() geometry.Length { return geometry.Length(rng.IntN(side+1)) * mm }
	return geometry.Point{X: at(), Y: at()}
}

// untangled draws corners on a grid and, where two sides cross, runs the
// ring between them the other way, until none do or patience ends.
func untangled(rng *rand.Rand, corners, side int) geometry.Ring {
	p := make([]geometry.Point, corners)
	for i := range p {
		p[i] = gridPoint(rng, side)
	}
	n := len(p)
	for range 40 {
		crossed := false
		for i := range n {
			for j := i + 2; j < n; j++ {
				if (i+n-j)%n != 1 && geometry.SegmentsMeet(p[i], p[i+1], p[j], p[(j+1)%n]) {
					reverse(p[i+1 : j+1])
					crossed = true
				}
			}
		}
		if !crossed {
			break
		}
	}
	return geometry.OutlineFromPoints(p...).Outer
}

func reverse(p []geometry.Point) {
	for i, j := 0, len(p)-1; i < j; i, j = i+1, j-1 {
		p[i], p[j] = p[j], p[i]
	}
}

// gridSide is how many millimetres the stored shapes are wide and high.
const gridSide = 8

// gridShapes is a store of valid shapes with corners on a grid, so small
// that lines through grid points often run through corners and along sides;
// every second one has been tried with holes. Always the same ones.
var gridShapes = sync.OnceValue(func() []geometry.Outline {
	rng := rand.New(rand.NewPCG(1, 2))
	var store []geometry.Outline
	for len(store) < 240 {
		o := geometry.Outline{Outer: untangled(rng, 3+rng.IntN(8), gridSide)}
		if !validSlowly(o) {
			continue
		}
		if len(store)%2 == 0 {
			o = withHoles(rng, o)
		}
		store = append(store, o)
	}
	return store
})

// withHoles puts up to two small holes into the outline where they fit.
func withHoles(rng *rand.Rand, o geometry.Outline) geometry.Outline {
	for range 60 {
		hole := untangled(rng, 3+rng.IntN(2), 3).Reversed()
		by := gridPoint(rng, gridSide-3).Sub(geometry.Point{})
		more := copyOf(o)
		more.Holes = append(more.Holes, geometry.Outline{Outer: hole}.Moved(by).Outer)
		if validSlowly(more) {
			o = more
		}
		if len(o.Holes) == 2 {
			break
		}
	}
	return o
}
