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

// noFitOf builds the no-fit region of two forms at a spacing.
func noFitOf(moving, fixed *form, spacing float64) *noFit {
	n := &noFit{box: window{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}}
	n.parts = make([]noFitPart, 0, len(moving.parts)*len(fixed.parts))
	for _, f := range fixed.parts {
		for _, m := range moving.parts {
			part := noFitPartOf(m, f, spacing)
			n.box.include(part.box)
			n.parts = append(n.parts, part)
		}
	}
	return n
}

func (w *window) include(v window) {
	w.x0, w.y0 = min(w.x0, v.x0), min(w.y0, v.y0)
	w.x1, w.y1 = max(w.x1, v.x1), max(w.y1, v.y1)
}

// edge is a side of a no-fit part, from where it starts.
type edge struct{ from, way spot }

// sharpTurn is the turn at a corner (its cosine) past which a spaced part's
// corner is cut off square; at a corner that turns by less, the two sides
// moved out by the spacing reach at most 1.42 spacings from it.
const sharpTurn = -0.01

// noFitPartOf builds the sum of a convex part and another one turned by half
// a turn, moved out by the spacing. Its corners are mitred, the sharp ones
// also cut off, so that it holds all places closer than the spacing.
func noFitPartOf(moving, fixed []spot, spacing float64) noFitPart {
	edges := sumOfConvex(fixed, reflected(moving))
	type side struct {
		halfPlane
		at     spot
		length float64
	}
	var sides []side
	add := func(n, at spot, length float64) {
		sides = append(sides, side{halfPlane{n.x, n.y, n.dot(at) + spacing}, at, length})
	}
	for i, e := range edges {
		length := e.way.len()
		n := spot{e.way.y / length, -e.way.x / length}
		add(n, e.from, length)
		next := around(edges, i+1)
		m := spot{next.way.y, -next.way.x}.times(1 / next.way.len())
		if spacing > 0 && n.dot(m) < sharpTurn {
			if sum := n.add(m); sum.len() > 1e-6 {
				add(sum.times(1/sum.len()), next.from, 0)
			}
		}
	}
	p := noFitPart{box: window{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}}
	for i, s := range sides {
		t := around(sides, i+1)
		n, m := spot{s.nx, s.ny}, spot{t.nx, t.ny}
		corner := t.at.add(n.add(m).times(spacing / (1 + max(n.dot(m), -0.99))))
		p.corners = append(p.corners, corner)
		p.box.include(window{corner.x, corner.y, corner.x, corner.y})
	}
	slices.SortStableFunc(sides, func(a, b side) int { return cmp.Compare(b.length, a.length) })
	p.planes = make([]halfPlane, len(sides))
	for i, s := range sides {
		p.planes[i] = s.halfPlane
	}
	return p
}

// reflected returns a ring turned by half a turn; it runs the same way round.
func reflected(ring []spot) []spot {
	out := make([]spot, len(ring))
	for i, p := range ring {
		out[i] = spot{-p.x, -p.y}
	}
	return out
}

// sumOfConvex returns the sides of the Minkowski sum of two convex rings:
// both rings' sides in the order of their directions, parallel ones joined.
func sumOfConvex(a, b []spot) []edge {
	ways, start := sidesByDirection(a)
	others, start2 := sidesByDirection(b)
	ways = append(ways, others...)
	slices.SortStableFunc(ways, compareDirections)
	joined := ways[:1]
	for _, w := range ways[1:] {
		last := &joined[len(joined)-1]
		if last.dot(w) > 0 && math.Abs(last.cross(w)) <= 1e-13*last.len()*w.len() {
			*last = last.add(w)
			continue
		}
		joined = append(joined, w)
	}
	at := start.add(start2)
	out := make([]edge, len(joined))
	for i, w := range joined {
		out[i] = edge{at, w}
		at = at.add(w)
	}
	return out
}

// sidesByDirection returns a convex ring's sides in the order of
// compareDirections, and where the first of them starts.
func sidesByDirection(ring []spot) ([]spot, spot) {
	first := 0
	ways := make([]spot, 0, 2*len(ring))
	for i, p := range ring {
		ways = append(ways, around(ring, i+1).sub(p))
		if compareDirections(ways[i], ways[first]) < 0 {
			first = i
		}
	}
	start := ring[first]
	out := make([]spot, 0, 2*len(ring))
	out = append(out, ways[first:]...)
	return append(out, ways[:first]...), start
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
