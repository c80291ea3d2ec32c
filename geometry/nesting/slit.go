package nesting

import (
	"slices"

	"panelry/geometry"
)

// slit joins holes to a ring, the one furthest right first: from its
// rightmost corner to the nearest corner of the ring that it sees.
func slit(ring []geometry.Point, holes []geometry.Ring) []geometry.Point {
	left := make([][]geometry.Point, len(holes))
	for i, h := range holes {
		left[i] = startingRightmost(h.Points())
	}
	slices.SortStableFunc(left, func(a, b []geometry.Point) int { return comparePoints(b[0], a[0]) })
	for i, hole := range left {
		at := nearestSeen(ring, hole[0], left[i:])
		if at < 0 {
			continue // it touches the outer ring: no valid outline does
		}
		with := append(slices.Clone(ring[:at+1]), hole...)
		ring = append(append(with, hole[0]), ring[at:]...)
	}
	return ring
}

func startingRightmost(points []geometry.Point) []geometry.Point {
	first := 0
	for i, p := range points {
		if comparePoints(p, points[first]) > 0 {
			first = i
		}
	}
	return append(slices.Clone(points[first:]), points[:first]...)
}

// nearestSeen returns which corner of a ring is nearest to a hole's corner, of
// those that no side of the ring or of the holes hides; -1 if there is none.
func nearestSeen(ring []geometry.Point, from geometry.Point, holes [][]geometry.Point) int {
	best, nearest := -1, 0.0
	for i, p := range ring {
		d := p.Sub(from).Len()
		if best >= 0 && d >= nearest || !opensTo(ring, i, from) || hidden(from, p, ring) {
			continue
		}
		if slices.ContainsFunc(holes, func(h []geometry.Point) bool { return hidden(from, p, h) }) {
			continue
		}
		best, nearest = i, d
	}
	return best
}

// opensTo reports whether a place lies in the inside angle of a ring's corner.
func opensTo(ring []geometry.Point, i int, to geometry.Point) bool {
	a, b, c := around(ring, i-1), ring[i], around(ring, i+1)
	first, second := geometry.Turn(a, b, to) > 0, geometry.Turn(b, c, to) > 0
	if geometry.Turn(a, b, c) >= 0 {
		return first && second
	}
	return first || second
}

// hidden reports whether a ring meets the line from p to q anywhere but at its
// ends.
func hidden(p, q geometry.Point, ring []geometry.Point) bool {
	for i, a := range ring {
		b := around(ring, i+1)
		if onOpenLine(a, p, q) {
			return true
		}
		s, t := geometry.Turn(p, q, a)*geometry.Turn(p, q, b), geometry.Turn(a, b, p)*geometry.Turn(a, b, q)
		if s < 0 && t < 0 {
			return true
		}
	}
	return false
}

// onOpenLine reports whether a point lies between p and q.
func onOpenLine(a, p, q geometry.Point) bool {
	if a == p || a == q || geometry.Turn(p, q, a) != 0 {
		return false
	}
	return min(p.X, q.X) <= a.X && a.X <= max(p.X, q.X) && min(p.Y, q.Y) <= a.Y && a.Y <= max(p.Y, q.Y)
}
