package geometry

import "math"

// cubic is a Bézier curve in float64 nanometres, x and y apart.
type cubic struct{ x, y [4]float64 }

func cubicFrom(p Point, s Segment) cubic {
	return cubic{
		[4]float64{float64(p.X), float64(s.C1.X), float64(s.C2.X), float64(s.To.X)},
		[4]float64{float64(p.Y), float64(s.C1.Y), float64(s.C2.Y), float64(s.To.Y)},
	}
}

// bernstein returns the value at t of a cubic with the given coefficients.
func bernstein(c [4]float64, t float64) float64 {
	u := 1 - t
	return u*u*u*c[0] + 3*u*u*t*c[1] + 3*u*t*t*c[2] + t*t*t*c[3]
}

// turningPoints returns where in (0, 1) the cubic's derivative is 0.
func turningPoints(c [4]float64) []float64 {
	a := c[3] - 3*c[2] + 3*c[1] - c[0]
	b := 2 * (c[2] - 2*c[1] + c[0])
	d := c[1] - c[0]
	var found []float64
	add := func(t float64) {
		if t > 0 && t < 1 { // false for NaN
			found = append(found, t)
		}
	}
	disc := b*b - 4*a*d
	if disc < 0 {
		return nil
	}
	q := -(b + math.Copysign(math.Sqrt(disc), b)) / 2 // avoids cancellation
	add(q / a)
	if disc > 0 {
		add(d / q)
	}
	if len(found) == 2 && found[0] > found[1] {
		found[0], found[1] = found[1], found[0]
	}
	return found
}

// crossings returns the parameters in (0, 1), rising, where the cubic with
// the given coefficients changes its sign: between turning points it is
// monotone, so bisection finds each one.
func crossings(c [4]float64) []float64 {
	ends := append(append([]float64{0}, turningPoints(c)...), 1)
	var found []float64
	for i := 1; i < len(ends); i++ {
		lo, hi := ends[i-1], ends[i]
		below := bernstein(c, lo) <= 0
		if below == (bernstein(c, hi) <= 0) {
			continue
		}
		for range 60 {
			mid := (lo + hi) / 2
			if (bernstein(c, mid) <= 0) == below {
				lo = mid
			} else {
				hi = mid
			}
		}
		found = append(found, hi)
	}
	return found
}

// part returns the curve between two parameters, by blossoming.
func (c cubic) part(t0, t1 float64) cubic {
	return cubic{partOf(c.x, t0, t1), partOf(c.y, t0, t1)}
}

func partOf(c [4]float64, t0, t1 float64) [4]float64 {
	blossom := func(a, b, d float64) float64 {
		mix := func(u, v, t float64) float64 { return u + (v-u)*t }
		ab := [3]float64{mix(c[0], c[1], a), mix(c[1], c[2], a), mix(c[2], c[3], a)}
		return mix(mix(ab[0], ab[1], b), mix(ab[1], ab[2], b), d)
	}
	return [4]float64{blossom(t0, t0, t0), blossom(t0, t0, t1), blossom(t0, t1, t1), blossom(t1, t1, t1)}
}

// segment rounds the curve to whole nanometres.
func (c cubic) segment() (from Point, s Segment) {
	return pointFrom(c.x[0], c.y[0]), CurveTo(
		pointFrom(c.x[1], c.y[1]), pointFrom(c.x[2], c.y[2]), pointFrom(c.x[3], c.y[3]))
}

// curveBounds returns the extent of a curved segment, rounded outward. It is
// worked out from the segment's start, so that moving the curve moves its
// bounds and rounds nothing anew.
func curveBounds(from Point, s Segment) Rect {
	home := func(p Point) Point { return Point{}.Add(p.Sub(from)) }
	c := cubicFrom(Point{}, CurveTo(home(s.C1), home(s.C2), home(s.To)))
	span := func(v [4]float64) (lo, hi Length) {
		least, most := math.Min(v[0], v[3]), math.Max(v[0], v[3])
		for _, t := range turningPoints(v) {
			at := bernstein(v, t)
			least, most = math.Min(least, at), math.Max(most, at)
		}
		return Length(math.Floor(least)), Length(math.Ceil(most))
	}
	x0, x1 := span(c.x)
	y0, y1 := span(c.y)
	return Rect{Point{x0, y0}, Point{x1, y1}}.Moved(from.Sub(Point{}))
}

// maxPieces bounds how finely one curve is cut up: at the limit of 100 m and
// a tolerance of 1 micrometre, the wildest curve needs 29 129 chords.
const maxPieces = 1 << 15

// pieces returns into how many parts of equal parameter a curve must be cut
// so that its control polygon, and so the curve, stays within the tolerance
// of each part's chord. A chord of a curve whose second derivative is at
// most m is off by at most m/8 n^2 (Taylor); the control points of a part
// by at most twice that.
func (c cubic) pieces(tolerance Length) int {
	second := func(v [4]float64) float64 {
		return 6 * math.Max(math.Abs(v[0]-2*v[1]+v[2]), math.Abs(v[1]-2*v[2]+v[3]))
	}
	m := math.Hypot(second(c.x), second(c.y))
	n := math.Ceil(math.Sqrt(m / 4 / float64(tolerance)))
	return int(math.Max(1, math.Min(n, maxPieces)))
}

// Flatten returns the ring as a polygon whose sides stay within the
// tolerance of the curves. A straight ring gives its own vertices.
func (r Ring) Flatten(tolerance Length) []Point { return r.flatten(tolerance, false) }

// FlattenOutward returns a polygon that contains the region inside the ring
// (lies inside it, for a hole): spacing kept from the polygon is kept from
// the curve. It stays within the tolerance of the curves, and the 2 nm that
// rounding to the outside can take. So much aside, the polygon at a tolerance
// over a micrometre also contains the one at a micrometre.
func (r Ring) FlattenOutward(tolerance Length) []Point { return r.flatten(tolerance, true) }

func (r Ring) flatten(tolerance Length, outward bool) []Point {
	points := make([]Point, 0, len(r))
	for i, s := range r {
		from := r.from(i)
		points = append(points, from)
		if !s.Curved {
			continue
		}
		whole := cubicFrom(from, s)
		n, step := whole.pieces(tolerance), 1
		if outward && tolerance > Micrometre { // its cuts are some of the finer ones, so that hulls lie in hulls
			fine := whole.pieces(Micrometre)
			n, step = fine, fine/n
		}
		for k := 0; k < n; k += step {
			part := whole.part(float64(k)/float64(n), float64(min(k+step, n))/float64(n))
			if k > 0 {
				points = append(points, part.start(outward))
			}
			if outward {
				points = append(points, outerHull(part)...)
			}
		}
	}
	return dropRepeats(points)
}

// start returns where the curve starts, as a corner of a polygon along it
// or, where asked, of one around it.
func (c cubic) start(outward bool) Point {
	if outward {
		return c.onLeft(0, c.x[1]-c.x[0], c.y[1]-c.y[0])
	}
	return pointFrom(c.x[0], c.y[0])
}

// onLeft returns control point k rounded to a place on the left hand of
// somebody who walks along (dx, dy): rounding moves it by up to 0.71 nm
// either way, so that it is first moved to the left by 1 nm.
func (c cubic) onLeft(k int, dx, dy float64) Point {
	x, y := c.x[k], c.y[k]
	if long := math.Hypot(dx, dy); long > 0 {
		x, y = x+dy/long, y-dx/long
	}
	return pointFrom(x, y)
}

// outerHull returns the control points of a flat piece of curve that stand
// on its left hand, away from the region, as far as they are corners of the
// hull on that side: the curve lies inside its control points' hull.
func outerHull(c cubic) []Point {
	dx, dy := c.x[3]-c.x[0], c.y[3]-c.y[0]
	height := func(k int) float64 { return (c.x[k]-c.x[0])*dy - (c.y[k]-c.y[0])*dx }
	along := func(k int) float64 { return (c.x[k]-c.x[0])*dx + (c.y[k]-c.y[0])*dy }
	h1, h2 := height(1), height(2)
	at := func(k int) Point { return c.onLeft(k, dx, dy) }
	switch {
	case h1 <= 0 && h2 <= 0:
		return nil
	case h1 <= 0:
		return []Point{at(2)}
	case h2 <= 0:
		return []Point{at(1)}
	}
	if h1*along(2) < h2*along(1) { // the first lies under the roof over the second
		return []Point{at(2)}
	}
	if h2*(along(3)-along(1)) < h1*(along(3)-along(2)) {
		return []Point{at(1)}
	}
	return []Point{at(1), at(2)}
}

// dropRepeats removes points that repeat the one before, around the ring.
func dropRepeats(points []Point) []Point {
	out := points[:0]
	for _, p := range points {
		if len(out) == 0 || out[len(out)-1] != p {
			out = append(out, p)
		}
	}
	for len(out) > 1 && out[len(out)-1] == out[0] {
		out = out[:len(out)-1]
	}
	return out
}
