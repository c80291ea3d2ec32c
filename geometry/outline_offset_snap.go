package geometry

import (
	"cmp"
	"math"
	"slices"
)

// A strand is a straight piece of the borders between two points of the
// grid, a before b by x and then by y; runs is how many more borders run
// along it from a to b than back.
type strand struct {
	a, b Point
	runs int
}

// appendStrand adds the step from p to q, as many times as runs tells.
func appendStrand(to []strand, p, q Point, runs int) []strand {
	switch comparePoints(p, q) {
	case -1:
		return append(to, strand{p, q, runs})
	case 1:
		return append(to, strand{q, p, -runs})
	}
	return to
}

// strandsOf returns the rings as strands that meet only at their ends. It
// rounds to the grid as "snap rounding" does: each end and each crossing
// point claims the square of one step around its nearest grid point, and a
// strand that passes through such a square is bent to pass its middle. So no
// strand moves by more than a step (but for rare chains), and none passes
// another.
func strandsOf(rings [][]Point) []strand {
	var strands []strand
	for _, ring := range rings {
		for i, p := range ring {
			strands = appendStrand(strands, p, ring[(i+1)%len(ring)], 1)
		}
	}
	strands = merged(strands)
	for {
		nodes := nodesOf(strands)
		split := make([]strand, 0, len(strands))
		for _, s := range strands {
			split = appendSplit(split, s, nodes)
		}
		if len(split) == len(strands) {
			return strands
		}
		strands = merged(split)
	}
}

// merged sorts strands and makes one of those that share both ends; where as
// many borders run one way as the other, none is left.
func merged(strands []strand) []strand {
	slices.SortFunc(strands, func(s, t strand) int {
		return cmp.Or(comparePoints(s.a, t.a), comparePoints(s.b, t.b))
	})
	kept := strands[:0]
	for i := 0; i < len(strands); {
		sum := strands[i]
		for i++; i < len(strands) && strands[i].a == sum.a && strands[i].b == sum.b; i++ {
			sum.runs += strands[i].runs
		}
		if sum.runs != 0 {
			kept = append(kept, sum)
		}
	}
	return kept
}

// nodesOf returns the ends and the rounded crossing points, sorted. Strands
// come sorted, and each is compared with those whose x extents it shares.
func nodesOf(strands []strand) []Point {
	nodes := make([]Point, 0, 2*len(strands))
	for i, s := range strands {
		nodes = append(nodes, s.a, s.b)
		top, bottom := min(s.a.Y, s.b.Y), max(s.a.Y, s.b.Y)
		for _, t := range strands[i+1:] {
			if t.a.X > s.b.X {
				break
			}
			if t.a.Y < top && t.b.Y < top || t.a.Y > bottom && t.b.Y > bottom {
				continue
			}
			if segmentsCross(s.a, s.b, t.a, t.b) {
				nodes = append(nodes, crossingPoint(s.a, s.b, Line{t.a, t.b}))
			}
		}
	}
	slices.SortFunc(nodes, comparePoints)
	return slices.Compact(nodes)
}

// appendSplit adds the strand, bent to pass all nodes in its way.
func appendSplit(to []strand, s strand, nodes []Point) []strand {
	first, _ := slices.BinarySearchFunc(nodes, s.a.X, func(p Point, x Length) int {
		return cmp.Compare(p.X, x)
	})
	var stops []Point
	for _, p := range nodes[first:] {
		if p.X > s.b.X {
			break
		}
		if s.passes(p) {
			stops = append(stops, p)
		}
	}
	d := s.b.Sub(s.a)
	slices.SortStableFunc(stops, func(p, q Point) int {
		return dot(d, p.Sub(q)).sign()
	})
	from := s.a
	for _, p := range append(stops, s.b) {
		to = appendStrand(to, from, p, s.runs)
		from = p
	}
	return to
}

// passes reports whether the strand has a point in the square of one step
// around p, borders included, p being none of its ends. The square's corners
// are half a step from p in x and y, so that twice the cross product changes
// by at most |x| + |y| of the strand's vector from p to a corner.
func (s strand) passes(p Point) bool {
	if p.Y < min(s.a.Y, s.b.Y) || p.Y > max(s.a.Y, s.b.Y) || p == s.a || p == s.b {
		return false
	}
	d := s.b.Sub(s.a)
	twice := cross(d, p.Sub(s.a)).times(2)
	if twice.sign() < 0 {
		twice = twice.neg()
	}
	return twice.cmp(wideFrom(int64(d.X.Abs()+d.Y.Abs()))) <= 0
}

// A slab index finds strands by x: slab k holds, of the strands given to it,
// those that have a part between bounds k and k+1.
type slabIndex struct {
	bounds []Length
	slabs  [][]strand
}

// slabsOf spreads sorted strands over four times as many slabs as strands
// start in each.
func slabsOf(strands []strand) slabIndex {
	step := int(math.Sqrt(float64(len(strands)))/2) + 1
	var index slabIndex
	for i := 0; i < len(strands); i += step {
		x := strands[i].a.X
		if n := len(index.bounds); n == 0 || index.bounds[n-1] < x {
			index.bounds = append(index.bounds, x)
		}
	}
	index.slabs = make([][]strand, len(index.bounds))
	for _, s := range strands {
		for k := index.slabAt(s.a.X); k < len(index.bounds) && index.bounds[k] <= s.b.X; k++ {
			index.slabs[k] = append(index.slabs[k], s)
		}
	}
	return index
}

func (x slabIndex) slabAt(at Length) int {
	k, found := slices.BinarySearch(x.bounds, at)
	if found {
		return k
	}
	return k - 1
}

// below returns the winding number just below the middle of a strand, or
// just to the right of the middle of an upright one: it counts the strands
// that a plumb line from there meets. Those that run from right to left have
// the region above them, on their right hand. Coordinates are doubled so
// that the middle is a whole point.
func (x slabIndex) below(s strand) int {
	middle := Point{s.a.X + s.b.X, s.a.Y + s.b.Y}
	sum := 0
	for _, t := range x.slabs[x.slabAt(s.a.X+(s.b.X-s.a.X)/2)] {
		if 2*t.a.X > middle.X || 2*t.b.X <= middle.X || 2*max(t.a.Y, t.b.Y) < middle.Y {
			continue
		}
		line := Line{Point{2 * t.a.X, 2 * t.a.Y}, Point{2 * t.b.X, 2 * t.b.Y}}
		if line.Side(middle) < 0 {
			sum -= t.runs
		}
	}
	return sum
}

// windings returns the winding numbers on the left and the right hand of
// somebody who walks along the strand from a to b.
func (x slabIndex) windings(s strand) (left, right int) {
	if s.a.X == s.b.X { // he walks down the page, with the counted side on his left
		left = x.below(s)
		return left, left + s.runs
	}
	right = x.below(s)
	return right - s.runs, right
}
