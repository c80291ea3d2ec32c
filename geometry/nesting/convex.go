package nesting

import (
	"cmp"
	"slices"

	"panelry/geometry"
)

// convexParts cuts a polygon into convex ones by diagonals only: holes are
// joined to the outer ring by a slit each, ears are clipped, the best-shaped
// first, then neighbours are joined again while they stay convex, the largest
// first (after Hertel and Mehlhorn 1983). The outer ring runs clockwise as
// seen on the page, and so do the parts. All decisions are exact.
func convexParts(o geometry.Outline) [][]geometry.Point {
	points := withoutStraightCorners(o.Outer.Points())
	if len(o.Holes) > 0 {
		points = slit(points, o.Holes)
	} else if isConvex(points) {
		return [][]geometry.Point{points}
	}
	return joinConvex(clipEars(points))
}

// withoutStraightCorners drops corners at which a ring does not bend.
func withoutStraightCorners(points []geometry.Point) []geometry.Point {
	out := slices.Compact(slices.Clone(points))
	for changed := true; changed && len(out) > 3; {
		changed = false
		for i := 0; i < len(out) && len(out) > 3; i++ {
			if geometry.Turn(around(out, i-1), out[i], around(out, i+1)) == 0 {
				out = slices.Delete(out, i, i+1)
				changed = true
				i--
			}
		}
	}
	return out
}

// around returns entry i of a ring; i may be one short or one over.
func around[T any](ring []T, i int) T { return ring[(i+len(ring))%len(ring)] }

func isConvex(points []geometry.Point) bool {
	for i, p := range points {
		if geometry.Turn(around(points, i-1), p, around(points, i+1)) < 0 {
			return false
		}
	}
	return true
}

// clipEars cuts a polygon into triangles.
func clipEars(points []geometry.Point) [][]geometry.Point {
	rest := slices.Clone(points)
	var out [][]geometry.Point
	for len(rest) > 3 {
		i := bestEar(rest)
		a, b, c := around(rest, i-1), rest[i], around(rest, i+1)
		if geometry.Turn(a, b, c) > 0 {
			out = append(out, []geometry.Point{a, b, c})
		}
		rest = slices.Delete(rest, i, i+1)
	}
	if geometry.Turn(rest[0], rest[1], rest[2]) > 0 {
		out = append(out, rest)
	}
	return out
}

// bestEar returns the corner whose triangle can be cut off and is least
// thin; a corner that does not bend goes at once.
func bestEar(points []geometry.Point) int {
	best, quality := -1, -1.0
	for i, b := range points {
		a, c := around(points, i-1), around(points, i+1)
		turn := geometry.Turn(a, b, c)
		if turn == 0 {
			return i
		}
		if q := fullness(a, b, c); turn > 0 && q > quality && isEar(points, a, b, c) {
			best, quality = i, q
		}
	}
	return max(best, 0)
}

// fullness is larger for a triangle that is less thin: twice the area over
// the square of the longest side.
func fullness(a, b, c geometry.Point) float64 {
	u, v := b.Sub(a), c.Sub(a)
	area := float64(u.X)*float64(v.Y) - float64(u.Y)*float64(v.X)
	longest := max(u.Len(), v.Len(), c.Sub(b).Len())
	return area / (longest * longest)
}

// isEar reports whether no other corner lies in a triangle or on its side
// from c to a.
func isEar(points []geometry.Point, a, b, c geometry.Point) bool {
	for _, p := range points {
		if p == a || p == b || p == c {
			continue
		}
		if geometry.Turn(a, b, p) >= 0 && geometry.Turn(b, c, p) >= 0 && geometry.Turn(c, a, p) >= 0 {
			return false
		}
	}
	return true
}

// joint says that two parts share a side, which starts at those corners.
type joint struct {
	a, b         int
	sideA, sideB int
}

// joinConvex joins parts along shared sides while the whole stays convex,
// the pair with most corners first, which leaves few parts.
func joinConvex(parts [][]geometry.Point) [][]geometry.Point {
	for {
		var best []geometry.Point
		var at joint
		size := 0.0
		for _, j := range joints(parts) {
			whole := joined(parts, j)
			if s := ringArea(whole); s > size && isConvex(whole) {
				best, at, size = whole, j, s
			}
		}
		if best == nil {
			return parts
		}
		parts[at.a] = withoutStraightCorners(best)
		parts = slices.Delete(parts, at.b, at.b+1)
	}
}

// joints lists the sides that two parts share, in order.
func joints(parts [][]geometry.Point) []joint {
	type side struct{ from, to geometry.Point }
	type place struct{ part, corner int }
	seen := map[side]place{}
	var out []joint
	for i, part := range parts {
		for k, p := range part {
			q := around(part, k+1)
			if other, ok := seen[side{q, p}]; ok {
				out = append(out, joint{other.part, i, other.corner, k})
			}
			seen[side{p, q}] = place{i, k}
		}
	}
	return out
}

func joined(parts [][]geometry.Point, j joint) []geometry.Point {
	var out []geometry.Point
	for k := range parts[j.a] {
		out = append(out, around(parts[j.a], (j.sideA+1+k)%len(parts[j.a])))
	}
	for k := range len(parts[j.b]) - 2 {
		out = append(out, around(parts[j.b], (j.sideB+2+k)%len(parts[j.b])))
	}
	return out
}

// ringArea returns the area of a ring of points in square nanometres.
func ringArea(points []geometry.Point) float64 {
	sum := 0.0
	for i := 1; i+1 < len(points); i++ {
		u, v := points[i].Sub(points[0]), points[i+1].Sub(points[0])
		sum += float64(u.X)*float64(v.Y) - float64(u.Y)*float64(v.X)
	}
	return sum / 2
}

// comparePoints orders points by x, then y.
func comparePoints(p, q geometry.Point) int {
	return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y))
}
