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
	box := geometry.Rect{
		Min: geometry.Point{X: min(a.X, b.X, c.X), Y: min(a.Y, b.Y, c.Y)},
		Max: geometry.Point{X: max(a.X, b.X, c.X), Y: max(a.Y, b.Y, c.Y)},
	}
	for _, p := range points {
		if p.X < box.Min.X || p.X > box.Max.X || p.Y < box.Min.Y || p.Y > box.Max.Y || p == a || p == b || p == c {
			continue
		}
		if geometry.Turn(a, b, p) >= 0 && geometry.Turn(b, c, p) >= 0 && geometry.Turn(c, a, p) >= 0 {
			return false
		}
	}
	return true
}

// joinConvex joins parts along shared sides while the whole stays convex,
// the largest whole first, which leaves few parts.
func joinConvex(parts [][]geometry.Point) [][]geometry.Point {
	j := &joiner{parts: parts, owner: map[directed]sideOf{}, whole: make([][]joint, len(parts))}
	for i := range parts {
		j.own(i)
	}
	for i := range parts {
		j.weigh(i)
	}
	for {
		var best joint
		for i := range j.whole {
			for _, c := range j.whole[i] {
				if c.area > best.area {
					best = c
				}
			}
		}
		if best.area == 0 {
			break
		}
		j.join(best)
	}
	return slices.DeleteFunc(parts, func(p []geometry.Point) bool { return p == nil })
}

// joiner keeps what joinConvex knows, so that a joint costs no more than a look
// at the parts around it.
type joiner struct {
	parts [][]geometry.Point // nil: joined to an earlier one
	owner map[directed]sideOf
	whole [][]joint // of each part with earlier ones, those that are convex
}

// directed is a side from one end to the other; a neighbour has it the other
// way round.
type directed struct{ from, to geometry.Point }

// sideOf is a part and the corner where a side of it starts.
type sideOf struct{ part, at int }

// joint says that two parts share a side, and the area of both together.
type joint struct {
	a, b sideOf
	area float64
}

func (j *joiner) own(part int) {
	for k, p := range j.parts[part] {
		j.owner[directed{p, around(j.parts[part], k+1)}] = sideOf{part, k}
	}
}

// neighbour returns the corner at which another part's side starts that is one
// of this part's too.
func (j *joiner) neighbour(c sideOf) (sideOf, bool) {
	ring := j.parts[c.part]
	other, ok := j.owner[directed{around(ring, c.at+1), ring[c.at]}]
	return other, ok
}

// weigh lists the joints of a part with earlier ones that make a convex whole.
func (j *joiner) weigh(part int) {
	j.whole[part] = j.whole[part][:0]
	for k := range j.parts[part] {
		b := sideOf{part, k}
		a, ok := j.neighbour(b)
		if !ok || a.part >= part {
			continue
		}
		if ring := j.joined(a, b); isConvex(ring) {
			j.whole[part] = append(j.whole[part], joint{a, b, ringArea(ring)})
		}
	}
}

// joined returns the ring around two parts that share a side.
func (j *joiner) joined(a, b sideOf) []geometry.Point {
	p, q := j.parts[a.part], j.parts[b.part]
	out := make([]geometry.Point, 0, len(p)+len(q)-2)
	for k := range p {
		out = append(out, p[(a.at+1+k)%len(p)])
	}
	for k := range len(q) - 2 {
		out = append(out, q[(b.at+2+k)%len(q)])
	}
	return out
}

// join puts two parts together, as the earlier one, and weighs those around
// them anew.
func (j *joiner) join(c joint) {
	whole := withoutStraightCorners(j.joined(c.a, c.b))
	around := map[int]bool{c.a.part: true}
	for _, part := range []int{c.a.part, c.b.part} {
		for k, p := range j.parts[part] {
			if n, ok := j.neighbour(sideOf{part, k}); ok {
				around[n.part] = true
			}
			delete(j.owner, directed{p, j.parts[part][(k+1)%len(j.parts[part])]})
		}
	}
	j.parts[c.a.part], j.parts[c.b.part], j.whole[c.b.part] = whole, nil, nil
	j.own(c.a.part)
	for k := range whole {
		if n, ok := j.neighbour(sideOf{c.a.part, k}); ok {
			around[n.part] = true
		}
	}
	for part := range around {
		if j.parts[part] != nil {
			j.weigh(part)
		}
	}
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
