package checker

import (
	"math"
	"sort"

	"panelry/export/svg/reader"
)

// A budget is how many steps, of about ten nanoseconds, may still be made;
// what would take longer is left out and reported.
type budget struct{ left int }

func newBudget() budget { return budget{20_000_000} }

func (b *budget) take(n int) bool {
	b.left -= n
	return b.left >= 0
}

// nest finds for each closed ring how many others lie around it, and the
// smallest of those. Rings are taken not to cross. It returns false where
// the budget is spent.
//
// Rings are entered in the order of their left sides, so only those whose
// box reaches over the point are asked.
func nest(rings []ring, b *budget) bool { return nestWith(rings, b, false) }

// nestWith is nest that finds the rings around open lines too, if asked.
func nestWith(rings []ring, b *budget, lines bool) bool {
	order := make([]int, len(rings))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(i, j int) bool {
		a, b := &rings[order[i]], &rings[order[j]]
		if a.bounds.Min.X != b.bounds.Min.X {
			return a.bounds.Min.X < b.bounds.Min.X
		}
		return math.Abs(a.area) > math.Abs(b.area) // what is around comes first
	})
	var active []int
	for _, i := range order {
		r := &rings[i]
		r.parent, r.inside = -1, 0
		kept := active[:0]
		for _, j := range active {
			if rings[j].bounds.Max.X >= r.bounds.Min.X {
				kept = append(kept, j)
			}
		}
		active = append(kept, i)
		if !b.take(len(active)) {
			return false
		}
		if !r.closed() && !lines {
			continue
		}
		for _, j := range kept {
			o := &rings[j]
			if !o.closed() || !holdsBox(o.bounds, r.bounds) {
				continue
			}
			if !b.take(len(o.points)) {
				return false
			}
			in, ok := surrounds(o, r, b)
			if !ok {
				return false
			}
			if !in {
				continue
			}
			r.inside++
			if r.parent < 0 || math.Abs(o.area) < math.Abs(rings[r.parent].area) {
				r.parent = j
			}
		}
	}
	return true
}

func holdsBox(outer, inner reader.Box) bool {
	return outer.Min.X <= inner.Min.X && outer.Min.Y <= inner.Min.Y && outer.Max.X >= inner.Max.X && outer.Max.Y >= inner.Max.Y
}

// surrounds reports whether ring o lies around ring r, or around an open
// line: whether a point of r that is not on o's border lies inside. The
// second result is false where the budget is spent.
func surrounds(o, r *ring, b *budget) (in, ok bool) {
	if r.closed() && math.Abs(o.area) <= math.Abs(r.area) {
		return false, true
	}
	n := len(r.points)
	for i, p := range r.points {
		tests := [2]reader.Point{p, p}
		if q := r.points[(i+1)%n]; r.closed() || i+1 < n {
			tests[1] = reader.Point{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2}
		}
		for _, t := range tests {
			switch side(o.points, t) {
			case 1:
				return true, true
			case -1:
				return false, true
			}
		}
		if !b.take(2 * len(o.points)) {
			return false, false
		}
	}
	return false, true
}

// side returns 1 for a point inside a ring by the even-odd rule, -1 for one
// outside, 0 for one on its border.
func side(ring []reader.Point, p reader.Point) int {
	in := -1
	a := ring[len(ring)-1]
	for _, b := range ring {
		if math.Abs(b.X-p.X) < 1e-7 && math.Abs(b.Y-p.Y) < 1e-7 {
			return 0
		}
		if (a.Y > p.Y) != (b.Y > p.Y) {
			x := a.X + (p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X)
			if math.Abs(x-p.X) < 1e-7 {
				return 0
			}
			if x > p.X {
				in = -in
			}
		} else if a.Y == b.Y && a.Y == p.Y && min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) {
			return 0
		}
		a = b
	}
	return in
}
