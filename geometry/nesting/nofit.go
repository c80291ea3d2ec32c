package nesting

import (
	"cmp"
	"math"
	"slices"
)

// spot is a place or a way in the search's plane, in nanometres.
type spot struct{ x, y float64 }

func (p spot) add(q spot) spot      { return spot{p.x + q.x, p.y + q.y} }
func (p spot) sub(q spot) spot      { return spot{p.x - q.x, p.y - q.y} }
func (p spot) dot(q spot) float64   { return p.x*q.x + p.y*q.y }
func (p spot) cross(q spot) float64 { return p.x*q.y - p.y*q.x }
func (p spot) times(k float64) spot { return spot{k * p.x, k * p.y} }
func (p spot) len() float64         { return math.Hypot(p.x, p.y) }

// window is an upright oblong in the plane.
type window struct{ x0, y0, x1, y1 float64 }

// meets reports whether two windows have some inside in common.
func (w window) meets(v window) bool {
	return w.x0 < v.x1 && v.x0 < w.x1 && w.y0 < v.y1 && v.y0 < w.y1
}

func (w window) moved(by spot) window {
	return window{w.x0 + by.x, w.y0 + by.y, w.x1 + by.x, w.y1 + by.y}
}

// halfPlane is where depth is above 0; its normal has length 1.
type halfPlane struct{ nx, ny, c float64 }

func (h halfPlane) depth(x, y float64) float64 { return h.c - h.nx*x - h.ny*y }

// noFitPart is a convex region that the moving piece's corner must not be
// in, seen from the fixed piece's corner.
type noFitPart struct {
	box     window
	planes  []halfPlane // those of long sides first
	corners []spot
}

// noFit is everywhere that a moving piece overlaps a fixed one, or comes
// closer than the spacing: the union of its parts.
type noFit struct {
	box   window
	parts []noFitPart
	asked int // the sweep before which it was last asked for, see catalogue.sweep
}

// touching is the depth, in nanometres, below which two pieces count as
// touching: float64 noise is far below, a nanometre far above.
const touching = 1e-3

// depth returns how far inside a part a place lies: the least distance to
// its sides, 0 outside. It is concave inside the part.
func (p *noFitPart) depth(x, y float64) float64 {
	least := math.Inf(1)
	for i := range p.planes {
		d := p.planes[i].depth(x, y)
		if d < least {
			if d <= touching {
				return 0
			}
			least = d
		}
	}
	return least
}

// depth returns the sum over the parts. The sum of any such functions is
// concave between the borders of the parts, so on a line its least value is
// where the line crosses a border: no descent by steps is needed.
func (n *noFit) depth(x, y float64) float64 {
	sum := 0.0
	if x <= n.box.x0 || x >= n.box.x1 || y <= n.box.y0 || y >= n.box.y1 {
		return 0
	}
	for i := range n.parts {
		sum += n.parts[i].depth(x, y)
	}
	return sum
}

func (w *window) include(v window) {
	w.x0, w.y0 = min(w.x0, v.x0), min(w.y0, v.y0)
	w.x1, w.y1 = max(w.x1, v.x1), max(w.y1, v.y1)
}

// nowhere includes nothing yet.
var nowhere = window{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}

// convex is a convex ring by its sides, in the order of their directions, and
// where the first of them starts.
type convex struct {
	ways  []spot
	start spot
}

// part is a convex part of a form, as it stands and turned by half a turn.
type part struct{ ring, reflected convex }

func partOfForm(ring []spot) part {
	return part{byDirection(ring), byDirection(reflected(ring))}
}

// reflected returns a ring turned by half a turn; it runs the same way round.
func reflected(ring []spot) []spot {
	out := make([]spot, len(ring))
	for i, p := range ring {
		out[i] = spot{-p.x, -p.y}
	}
	return out
}

// byDirection sorts a convex ring's sides, which do so but for their start.
func byDirection(ring []spot) convex {
	first := 0
	ways := make([]spot, len(ring))
	for i, p := range ring {
		ways[i] = around(ring, i+1).sub(p)
		if compareDirections(ways[i], ways[first]) < 0 {
			first = i
		}
	}
	return convex{append(slices.Clone(ways[first:]), ways[:first]...), ring[first]}
}

// compareDirections orders ways by their angle, from 0 up to a full turn.
func compareDirections(a, b spot) int {
	if c := cmp.Compare(halfTurnOf(a), halfTurnOf(b)); c != 0 {
		return c
	}
	return cmp.Compare(0, a.cross(b))
}

// halfTurnOf returns 0 for ways with an angle below half a turn, else 1.
func halfTurnOf(w spot) int {
	if w.y > 0 || w.y == 0 && w.x > 0 {
		return 0
	}
	return 1
}

// summing builds no-fit regions; it keeps what it needs for the next one.
type summing struct {
	edges   []edge
	sides   []sumSide
	lengths []float64
	planes  []halfPlane // of all parts so far, one behind the other
	corners []spot
	ends    []partEnd
}

// edge is a side of a sum, from where it starts.
type edge struct{ from, way spot }

// sumSide is a side of a no-fit part, moved out, and a place on it before that.
type sumSide struct {
	halfPlane
	at     spot
	length float64
}

// partEnd is where a part's planes and corners end.
type partEnd struct {
	box             window
	planes, corners int
}

// region builds the no-fit region of two forms at a spacing.
func (s *summing) region(moving, fixed *form, spacing float64) *noFit {
	s.planes, s.corners, s.ends = s.planes[:0], s.corners[:0], s.ends[:0]
	for i := range fixed.parts {
		for k := range moving.parts {
			s.add(&fixed.parts[i].ring, &moving.parts[k].reflected, spacing)
		}
	}
	n := &noFit{box: nowhere, parts: make([]noFitPart, len(s.ends))}
	planes, corners := slices.Clone(s.planes), slices.Clone(s.corners)
	was := partEnd{}
	for i, e := range s.ends {
		n.parts[i] = noFitPart{e.box, planes[was.planes:e.planes:e.planes], corners[was.corners:e.corners:e.corners]}
		n.box.include(e.box)
		was = e
	}
	return n
}

// sharpTurn is the turn at a corner (its cosine) past which a spaced part's
// corner is cut off square; at a corner that turns by less, the two sides
// moved out by the spacing reach at most 1.42 spacings from it.
const sharpTurn = -0.01

// add appends a part: the sum of a convex part and another one turned by half a
// turn, moved out by the spacing. Its corners are mitred, the sharp ones also
// cut off, so that it holds all places closer than the spacing.
func (s *summing) add(fixed, moving *convex, spacing float64) {
	s.sum(fixed, moving)
	s.sides = s.sides[:0]
	side := func(n, at spot, length float64) {
		s.sides = append(s.sides, sumSide{halfPlane{n.x, n.y, n.dot(at) + spacing}, at, length})
	}
	for i, e := range s.edges {
		length := e.way.len()
		n := spot{e.way.y / length, -e.way.x / length}
		side(n, e.from, length)
		if spacing == 0 {
			continue
		}
		next := around(s.edges, i+1)
		m := spot{next.way.y, -next.way.x}.times(1 / next.way.len())
		if n.dot(m) < sharpTurn {
			if sum := n.add(m); sum.len() > 1e-6 {
				side(sum.times(1/sum.len()), next.from, 0)
			}
		}
	}
	box := nowhere
	for i, a := range s.sides {
		b := around(s.sides, i+1)
		n, m := spot{a.nx, a.ny}, spot{b.nx, b.ny}
		corner := b.at.add(n.add(m).times(spacing / (1 + max(n.dot(m), -0.99))))
		s.corners = append(s.corners, corner)
		box.include(window{corner.x, corner.y, corner.x, corner.y})
	}
	s.longestFirst()
	s.ends = append(s.ends, partEnd{box, len(s.planes), len(s.corners)})
}

// longestFirst appends the sides' planes, those of long sides first, which are
// the most likely to say that a place is outside. Sides are few: insertion.
func (s *summing) longestFirst() {
	first := len(s.planes)
	s.lengths = s.lengths[:0]
	for i := range s.sides {
		length := s.sides[i].length
		s.planes, s.lengths = append(s.planes, s.sides[i].halfPlane), append(s.lengths, length)
		at := len(s.lengths) - 1
		for ; at > 0 && s.lengths[at-1] < length; at-- {
			s.planes[first+at], s.lengths[at] = s.planes[first+at-1], s.lengths[at-1]
		}
		s.planes[first+at], s.lengths[at] = s.sides[i].halfPlane, length
	}
}

// sum lists the sides of the Minkowski sum of two convex rings: both rings'
// sides in the order of their directions, parallel ones joined.
func (s *summing) sum(a, b *convex) {
	s.edges = s.edges[:0]
	at := a.start.add(b.start)
	for i, k := 0, 0; i < len(a.ways) || k < len(b.ways); {
		var way spot
		if k == len(b.ways) || i < len(a.ways) && compareDirections(a.ways[i], b.ways[k]) <= 0 {
			way = a.ways[i]
			i++
		} else {
			way = b.ways[k]
			k++
		}
		if n := len(s.edges); n > 0 {
			last := &s.edges[n-1]
			if last.way.dot(way) > 0 && math.Abs(last.way.cross(way)) <= 1e-13*last.way.len()*way.len() {
				last.way = last.way.add(way)
				at = last.from.add(last.way)
				continue
			}
		}
		s.edges = append(s.edges, edge{at, way})
		at = at.add(way)
	}
}
