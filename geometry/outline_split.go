package geometry

import (
	"math/big"
	"slices"
)

// Split cuts the region along a line and takes away a strip as wide as the
// gap, centred on the line (an odd nanometre goes to the right hand). It
// returns what lies on the left and on the right hand of somebody who walks
// along the line from A to B; either can be nothing, one region or several.
//
// Both edges of the strip are exactly parallel to the line. A new corner on
// an upright or level side lies exactly on that side, so there the parts and
// the strip add up to the whole; on a slanted side it is rounded to the
// nearest nanometre. A part that would have no area is left out. A hole that
// only reaches an edge of the strip with one vertex stays a hole: the vertex
// is moved off the edge by 2 nm, for the part to be valid.
//
// The outline must be valid; a negative gap is a caller's bug and panics.
func (o Outline) Split(l Line, gap Length) (left, right []Outline) {
	if gap < 0 {
		panic("geometry: negative gap")
	}
	leftHalf := gap / 2
	rightEdge := l.Moved(l.toTheRight(gap - leftHalf))
	leftEdge := l.Moved(l.toTheRight(leftHalf).Neg())
	return o.onRight(Line{leftEdge.B, leftEdge.A}), o.onRight(rightEdge)
}

// SplitAll cuts each of the parts, as [Outline.Split] does, and returns all
// that is left: for each part what lies on the left hand, then what lies on
// the right.
func SplitAll(parts []Outline, l Line, gap Length) []Outline {
	var out []Outline
	for _, part := range parts {
		left, right := part.Split(l, gap)
		out = append(append(out, left...), right...)
	}
	return out
}

// Clip returns the part of the region that lies within a convex window,
// given by its corners in clockwise order as seen on the page.
func (o Outline) Clip(window []Point) []Outline {
	parts := []Outline{o}
	for i, p := range window {
		side := Line{p, window[(i+1)%len(window)]}
		var kept []Outline
		for _, part := range parts {
			kept = append(kept, part.onRight(side)...)
		}
		parts = kept
	}
	return parts
}

// onRight returns what lies on the right hand of the line.
//
// Each ring falls into runs of segments that lie on the right, which begin
// and end on the line. Along the line, in its direction, ends and beginnings
// alternate, and between an end and the next beginning lies the region: so
// each run is continued by the run that begins next.
func (o Outline) onRight(l Line) []Outline {
	var runs []run
	var whole []Ring
	for _, r := range o.Rings() {
		rs, all := runsOnRight(r, l)
		if all != nil {
			whole = append(whole, all)
		}
		runs = append(runs, rs...)
	}
	outers := joinRuns(runs, l)
	for _, r := range whole {
		if r.Area().Sign() > 0 {
			outers = append(outers, Outline{Outer: r})
		}
	}
	for _, r := range whole {
		if r.Area().Sign() < 0 {
			addHole(outers, r)
		}
	}
	return outers
}

// addHole gives a hole to the region that it lies in.
func addHole(outers []Outline, hole Ring) {
	for i := range outers {
		if len(outers) == 1 || (Outline{Outer: outers[i].Outer}).Contains(hole.Start()) {
			outers[i].Holes = append(outers[i].Holes, hole)
			return
		}
	}
}

// run is a stretch of a ring on the right hand of the line.
type run struct {
	from Point
	then []Segment
}

func (r run) to() Point { return r.then[len(r.then)-1].To }

// stretch is a segment, or a piece of one, wholly on one hand of the line.
type stretch struct {
	from    Point
	segment Segment
	right   bool
}

// runsOnRight returns a ring's runs on the right hand of the line, or the
// whole ring if all of it lies there. A run ends at each vertex on the line,
// so that a dent that just reaches the line parts the region, and so does a
// hole that reaches it twice.
func runsOnRight(r Ring, l Line) (runs []run, whole Ring) {
	var stretches []stretch
	for i, s := range r {
		stretches = append(stretches, cutSegment(r.from(i), s, l)...)
	}
	hole := r.Area().Sign() < 0
	first := slices.IndexFunc(stretches, func(s stretch) bool { return !s.right })
	if first < 0 && hole {
		first = slices.IndexFunc(stretches, func(s stretch) bool { return l.Side(s.from) == 0 })
	}
	if first < 0 {
		return nil, r
	}
	open := false
	for k := range stretches {
		s := stretches[(first+k)%len(stretches)]
		if s.right && (!open || l.Side(s.from) == 0) {
			runs = append(runs, run{from: s.from})
		}
		if open = s.right; open {
			last := &runs[len(runs)-1]
			last.then = append(last.then, s.segment)
		}
	}
	if hole && len(runs) == 1 && runs[0].from == runs[0].to() {
		return nil, Ring(runs[0].then).movedOff(runs[0].from, l)
	}
	return runs, nil
}

// movedOff returns the ring with one vertex, and its handles, moved to the
// right hand of the line by 2 nm: more than the rounding of that vertex and
// of the border along the line, 0.71 nm each, can take back.
func (r Ring) movedOff(vertex Point, l Line) Ring {
	off := l.toTheRight(2 * Nanometre)
	out := slices.Clone(r)
	for i, s := range r {
		if s.To != vertex {
			continue
		}
		out[i].To = s.To.Add(off)
		if s.Curved {
			out[i].C2 = s.C2.Add(off)
		}
		if next := &out[(i+1)%len(out)]; next.Curved {
			next.C1 = next.C1.Add(off)
		}
	}
	return out
}

// cutSegment cuts one segment where it crosses the line.
func cutSegment(from Point, s Segment, l Line) []stretch {
	if s.Curved {
		return cutCurve(from, s, l)
	}
	a, b := l.Side(from), l.Side(s.To)
	if a*b >= 0 {
		return []stretch{{from, s, a > 0 || b > 0}}
	}
	at := crossingPoint(from, s.To, l)
	return []stretch{{from, LineTo(at), a > 0}, {at, s, b > 0}}
}

// crossingPoint returns where the segment p-q crosses the line, rounded to
// the nearest nanometre; p and q lie on different hands of it.
func crossingPoint(p, q Point, l Line) Point {
	d := l.B.Sub(l.A)
	sp, sq := cross(d, p.Sub(l.A)), cross(d, q.Sub(l.A))
	num, den := sp.big(), sp.sub(sq).big()
	share := func(whole Length) Length {
		if whole == 0 {
			return 0
		}
		return Length(roundQuo(new(big.Int).Mul(big.NewInt(int64(whole)), num), den))
	}
	return Point{p.X + share(q.X-p.X), p.Y + share(q.Y-p.Y)}
}

// cutCurve cuts a curve at its crossings with the line, found in float64:
// they are within a nanometre for outlines of a few metres.
func cutCurve(from Point, s Segment, l Line) []stretch {
	d := l.B.Sub(l.A)
	var heights [4]float64
	for i, p := range []Point{from, s.C1, s.C2, s.To} {
		heights[i] = cross(d, p.Sub(l.A)).float()
	}
	whole := cubicFrom(from, s)
	ends := append(append([]float64{0}, crossings(heights)...), 1)
	var out []stretch
	for i := 1; i < len(ends); i++ {
		start, part := whole.part(ends[i-1], ends[i]).segment()
		if len(out) > 0 {
			start = out[len(out)-1].segment.To
		}
		if i == len(ends)-1 {
			part.To = s.To
		}
		if start == part.To && start == part.C1 && start == part.C2 {
			continue
		}
		middle := bernstein(heights, (ends[i-1]+ends[i])/2)
		out = append(out, stretch{start, part, middle > 0})
	}
	return out
}

// end is where a run meets the line.
type end struct {
	along  wide // how far along the line
	leaves bool // the run ends here, rather than begins
	run    int
}

// joinRuns continues each run by the one that begins next along the line.
func joinRuns(runs []run, l Line) []Outline {
	ends := make([]end, 0, 2*len(runs))
	d := l.B.Sub(l.A)
	for i, r := range runs {
		ends = append(ends,
			end{dot(d, r.to().Sub(l.A)), true, i},
			end{dot(d, r.from.Sub(l.A)), false, i})
	}
	slices.SortStableFunc(ends, func(a, b end) int { return a.along.cmp(b.along) })
	next := make([]int, len(runs))
	for i := 0; i+1 < len(ends); i += 2 {
		bring(ends, i, true)
		bring(ends, i+1, false)
		next[ends[i].run] = ends[i+1].run
	}
	return traceRuns(runs, next)
}

// bring puts the next end of the wanted sort in place i. Sorted ends
// alternate, but for those that lie on one spot (or were rounded past each
// other by a nanometre).
func bring(ends []end, i int, leaves bool) {
	for j := i; j < len(ends); j++ {
		if ends[j].leaves == leaves {
			ends[i], ends[j] = ends[j], ends[i]
			return
		}
	}
}

// traceRuns follows the runs round and closes them along the line.
func traceRuns(runs []run, next []int) []Outline {
	var out []Outline
	seen := make([]bool, len(runs))
	for first := range runs {
		var ring Ring
		for i := first; !seen[i]; i = next[i] {
			seen[i] = true
			ring = append(ring, runs[i].then...)
			ring = append(ring, LineTo(runs[next[i]].from))
		}
		if ring = ring.tidy(); ring.Area().Sign() > 0 {
			out = append(out, Outline{Outer: ring})
		}
	}
	return out
}

// Tidied returns the region without segments of no length and without
// straight-on vertices between two straight segments.
func (o Outline) Tidied() Outline {
	out := Outline{Outer: o.Outer.tidy()}
	for _, h := range o.Holes {
		out.Holes = append(out.Holes, h.tidy())
	}
	return out
}

// tidy drops segments of no length and straight-on vertices between two
// straight segments.
func (r Ring) tidy() Ring {
	for again := true; again && len(r) > 0; {
		again = false
		kept := make(Ring, 0, len(r))
		from := r.Start()
		for i, s := range r {
			next := r[(i+1)%len(r)]
			switch {
			case s.To == from && !s.Curved:
				again = true
				continue
			case !s.Curved && !next.Curved && s.To != next.To && Turn(from, s.To, next.To) == 0:
				again = true
				continue // next goes on from where this one started
			}
			kept = append(kept, s)
			from = s.To
		}
		r = kept
	}
	return r
}
