package geometry

import (
	"math"
	"math/big"
	"slices"
)

// Apart reports whether two regions have no inside in common and their
// borders are nowhere closer than the distance. At distance 0 they may
// touch and share edges. Exact for straight outlines; curves are replaced by
// polygons around them within 1 micrometre, so that the answer errs to no.
// The outlines must be valid; a negative distance is a caller's bug and panics.
func Apart(a, b Outline, distance Length) bool {
	if distance < 0 {
		panic("geometry: negative distance")
	}
	if boundsApart(a.Bounds(), b.Bounds(), distance) {
		return true
	}
	p, q := OutwardPolygon(a), OutwardPolygon(b)
	if distance > 0 && !bordersApart(p, q, distance) {
		return false
	}
	return !insidesMeet(p, q)
}

// Overlap reports whether two regions have more of their insides in common
// than a border is wide: they lie on one another by more than 2 micrometres.
// Regions that touch or share edges, straight or curved, turned and rounded,
// do not. The outlines must be valid.
func Overlap(a, b Outline) bool {
	const within = Micrometre
	if boundsApart(a.Bounds(), b.Bounds(), 0) || !insidesMeet(inwardPolygon(a), inwardPolygon(b)) {
		return false
	}
	p, err := a.Inset(within)
	q, err2 := b.Inset(within)
	if err != nil || err2 != nil { // an inset reaches nowhere new
		return true
	}
	for _, one := range p {
		for _, other := range q {
			if !Apart(one, other, 0) {
				return true
			}
		}
	}
	return false
}

// boundsApart reports whether two upright oblongs are that far apart in x or
// in y, which is enough for what lies in them.
func boundsApart(r, s Rect, d Length) bool {
	return s.Min.X-r.Max.X >= d || r.Min.X-s.Max.X >= d ||
		s.Min.Y-r.Max.Y >= d || r.Min.Y-s.Max.Y >= d
}

// OutwardPolygon replaces curves by straight lines around the region, within 1
// micrometre: what [Apart] takes an outline for.
func OutwardPolygon(o Outline) Outline {
	if o.IsStraight() {
		return o
	}
	out := Outline{Outer: RingFromPoints(o.Outer.FlattenOutward(Micrometre)...)}
	for _, h := range o.Holes {
		out.Holes = append(out.Holes, RingFromPoints(h.FlattenOutward(Micrometre)...))
	}
	return out
}

// inwardPolygon replaces curves by straight lines inside the region.
func inwardPolygon(o Outline) Outline {
	if o.IsStraight() {
		return o
	}
	inward := func(r Ring) Ring {
		points := r.Reversed().FlattenOutward(Micrometre)
		slices.Reverse(points)
		return RingFromPoints(points...)
	}
	in := Outline{Outer: inward(o.Outer)}
	for _, h := range o.Holes {
		in.Holes = append(in.Holes, inward(h))
	}
	return in
}

// boxAround returns the upright oblong around a side.
func boxAround(p, q Point) Rect { return Rect{p, p}.including(q) }

// segment is a straight side of an outline.
type segment struct{ a, b Point }

// sidesNear lists the sides that can be closer to an oblong than the distance.
func (o Outline) sidesNear(r Rect, distance Length) []segment {
	var out []segment
	for _, ring := range o.Rings() {
		for i, s := range ring {
			if from := ring.from(i); !boundsApart(boxAround(from, s.To), r, distance) {
				out = append(out, segment{from, s.To})
			}
		}
	}
	return out
}

// eachSidePair calls f for each side of a with each side of b that can be
// closer to it than the distance (1 nm or more, so that sides which touch
// are called), until f returns false, and reports whether it never did.
func eachSidePair(a, b Outline, distance Length, f func(a0, a1, b0, b1 Point) bool) bool {
	others := b.sidesNear(a.Bounds(), distance)
	for _, s := range a.sidesNear(b.Bounds(), distance) {
		box := boxAround(s.a, s.b)
		for _, t := range others {
			if !boundsApart(box, boxAround(t.a, t.b), distance) && !f(s.a, s.b, t.a, t.b) {
				return false
			}
		}
	}
	return true
}

func bordersApart(a, b Outline, d Length) bool {
	return eachSidePair(a, b, d, func(a0, a1, b0, b1 Point) bool {
		return !segmentsMeet(a0, a1, b0, b1) &&
			farFromSegment(a0, b0, b1, d) && farFromSegment(a1, b0, b1, d) &&
			farFromSegment(b0, a0, a1, d) && farFromSegment(b1, a0, a1, d)
	})
}

// farFromSegment reports whether p is at least d from each point of the
// segment a-b; exact, float64 deciding only where its error cannot matter.
func farFromSegment(p, a, b Point, d Length) bool {
	ab, ap := b.Sub(a), p.Sub(a)
	square := mulWide(int64(d), int64(d))
	along := dot(ab, ap)
	if along.sign() <= 0 {
		return dot(ap, ap).cmp(square) >= 0
	}
	length := dot(ab, ab)
	if along.cmp(length) >= 0 {
		bp := p.Sub(b)
		return dot(bp, bp).cmp(square) >= 0
	}
	// The distance to the line is |ab × ap| / |ab|.
	area := cross(ab, ap)
	distance := math.Abs(area.float()) / math.Sqrt(length.float())
	if off := distance - float64(d); math.Abs(off) > 1e-9*float64(d)+1e-3 {
		return off > 0
	}
	n := area.big()
	lhs := n.Mul(n, n)
	rhs := new(big.Int).Mul(square.big(), length.big())
	return lhs.Cmp(rhs) >= 0
}

// insidesMeet reports whether two straight-edged regions have a point
// inside both. If so, borders cross, or a stretch of one border between
// neighbouring meeting points runs inside the other region, or the two share
// a stretch with both regions on the same hand of it.
func insidesMeet(a, b Outline) bool {
	apart := eachSidePair(a, b, Nanometre, func(a0, a1, b0, b1 Point) bool {
		return !segmentsCross(a0, a1, b0, b1)
	})
	return !apart || stretchInside(a, b) || stretchInside(b, a) || sharedSameWay(a, b)
}

// stretchInside reports whether some stretch of a's border, cut where b's
// border meets it, lies inside b. Where borders do not cross, a border is
// inside or outside all along from one place where it meets the other to the
// next, so that sides which meet nothing are looked at once in a row.
// Coordinates are doubled so that the middle of a stretch is a whole point.
func stretchInside(a, b Outline) bool {
	bounds := b.Bounds()
	near := b.sidesNear(a.Bounds(), Nanometre)
	double := b.mapped(func(p Point) Point { return Point{2 * p.X, 2 * p.Y} })
	inside := func(p, q Point) bool { return double.InteriorContains(Point{p.X + q.X, p.Y + q.Y}) }
	for _, r := range a.Rings() {
		outside := false // the side before meets nothing and is outside
		for i, s := range r {
			from := r.from(i)
			box := boxAround(from, s.To)
			if boundsApart(box, bounds, Nanometre) {
				outside = true
				continue
			}
			if !meetsAny(segment{from, s.To}, box, near) {
				if !outside && inside(from, s.To) {
					return true
				}
				outside = true
				continue
			}
			outside = false
			stops := stopsOn(from, s.To, near)
			for k := 1; k < len(stops); k++ {
				if inside(stops[k-1], stops[k]) {
					return true
				}
			}
		}
	}
	return false
}

// meetsAny reports whether a side, with the box around it, touches or crosses
// one of others.
func meetsAny(s segment, box Rect, others []segment) bool {
	for _, t := range others {
		if !boundsApart(box, boxAround(t.a, t.b), Nanometre) && segmentsMeet(s.a, s.b, t.a, t.b) {
			return true
		}
	}
	return false
}

// stopsOn returns p, where sides end on the segment p-q, in order, and q.
func stopsOn(p, q Point, sides []segment) []Point {
	stops := []Point{p}
	for _, s := range sides {
		if s.b != p && s.b != q && onSegment(s.b, p, q) {
			stops = append(stops, s.b)
		}
	}
	stops = append(stops, q)
	d := q.Sub(p)
	for i := 1; i < len(stops); i++ { // few: insertion
		for j := i; j > 0 && dot(d, stops[j].Sub(p)).cmp(dot(d, stops[j-1].Sub(p))) < 0; j-- {
			stops[j], stops[j-1] = stops[j-1], stops[j]
		}
	}
	return stops
}

// sharedSameWay reports whether the borders share a stretch of some length
// that both run in the same direction: both regions lie on its right hand.
func sharedSameWay(a, b Outline) bool {
	return !eachSidePair(a, b, Nanometre, func(a0, a1, b0, b1 Point) bool {
		da, db := a1.Sub(a0), b1.Sub(b0)
		if cross(da, db).sign() != 0 || dot(da, db).sign() <= 0 || (Line{a0, a1}).Side(b0) != 0 {
			return true
		}
		// On one line and the same way: do they overlap?
		startsBefore := dot(da, b0.Sub(a1)).sign() < 0
		endsAfter := dot(da, b1.Sub(a0)).sign() > 0
		return !(startsBefore && endsAfter)
	})
}
