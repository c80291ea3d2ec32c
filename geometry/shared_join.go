package geometry

import (
	"cmp"
	"math"
	"slices"
)

// JoinStrokes joins strokes that meet end to end into long ones, so that a
// knife is lifted less often: nothing is added, left out or drawn twice. Ends
// within 1 micrometre meet. Where more than two do, those that go on most
// nearly straight are joined. A stroke that comes back to its start is closed
// ([Path.IsClosed]).
//
// A joined stroke comes where the last of its parts came: what was drawn
// before the border of a region was done still is.
func JoinStrokes(strokes []Path) []Path {
	j := joiner{strokes: strokes, next: make([]strokeEnd, 2*len(strokes))}
	for i := range j.next {
		j.next[i] = none
	}
	for _, ends := range j.nodes() {
		j.pair(ends)
	}
	return j.trace()
}

// A strokeEnd is 2i for the start of stroke i and 2i+1 for its end.
type strokeEnd int

const none strokeEnd = -1

func (e strokeEnd) other() strokeEnd { return e ^ 1 }

type joiner struct {
	strokes []Path
	next    []strokeEnd // by end: the end that it is joined to
}

func (j *joiner) point(e strokeEnd) Point {
	if e%2 == 0 {
		return j.strokes[e/2].From
	}
	return j.strokes[e/2].End()
}

// nodes returns the ends that meet, by place, in the order of the strokes:
// those at one point, and of those that are alone there the ones next to each
// other.
func (j *joiner) nodes() [][]strokeEnd {
	var nodes [][]strokeEnd
	at := map[Point]int{}
	for e := range strokeEnd(2 * len(j.strokes)) {
		if j.strokes[e/2].IsClosed() {
			continue
		}
		p := j.point(e)
		n, known := at[p]
		if !known {
			n = len(nodes)
			at[p] = n
			nodes = append(nodes, nil)
		}
		nodes[n] = append(nodes[n], e)
	}
	return j.nearby(nodes)
}

// nearby puts ends that are alone together with another within 1 micrometre.
func (j *joiner) nearby(nodes [][]strokeEnd) [][]strokeEnd {
	cell := func(p Point, dx, dy Length) Point {
		const size = float64(sharedWithin)
		return Point{Length(math.Floor(float64(p.X)/size)) + dx, Length(math.Floor(float64(p.Y)/size)) + dy}
	}
	alone := map[Point][]int{}
	find := func(e strokeEnd) int {
		for dx := Length(-1); dx <= 1; dx++ {
			for dy := Length(-1); dy <= 1; dy++ {
				for _, n := range alone[cell(j.point(e), dx, dy)] {
					other := nodes[n][0]
					if other != e.other() && j.point(other).Sub(j.point(e)).Len() <= float64(sharedWithin) {
						return n
					}
				}
			}
		}
		return -1
	}
	for n, ends := range nodes {
		if len(ends) > 1 {
			continue
		}
		if other := find(ends[0]); other >= 0 {
			nodes[other] = append(nodes[other], ends[0])
			nodes[n] = nil
			continue
		}
		at := cell(j.point(ends[0]), 0, 0)
		alone[at] = append(alone[at], n)
	}
	return nodes
}

// pair joins ends two by two, the straightest first.
func (j *joiner) pair(ends []strokeEnd) {
	type couple struct {
		a, b strokeEnd
		turn float64
	}
	var couples []couple
	for i, a := range ends {
		for _, b := range ends[:i] {
			if b == a.other() {
				continue
			}
			couples = append(couples, couple{b, a, j.turn(a, b)})
		}
	}
	slices.SortStableFunc(couples, func(a, b couple) int { return cmp.Compare(a.turn, b.turn) })
	for _, c := range couples {
		if j.next[c.a] == none && j.next[c.b] == none {
			j.next[c.a], j.next[c.b] = c.b, c.a
		}
	}
}

// turn returns by how much somebody turns who arrives at one end and leaves
// by another: 0 for straight on, rounded so that rounding decides nothing.
func (j *joiner) turn(a, b strokeEnd) float64 {
	u, v := j.inward(a), j.inward(b)
	between := math.Abs(math.Atan2(cross(u, v).float(), dot(u, v).float()))
	return math.Round((math.Pi-between)*1e6) / 1e6
}

// inward returns the direction in which a stroke leaves its end.
func (j *joiner) inward(e strokeEnd) Vector {
	p := j.strokes[e/2]
	if e%2 == 0 {
		return leaving(p.From, p.Then[0])
	}
	last := len(p.Then) - 1
	from := p.From
	if last > 0 {
		from = p.Then[last-1].To
	}
	return arriving(from, p.Then[last]).Neg()
}

// trace follows the joins: first from ends that are joined to none, then
// around.
func (j *joiner) trace() []Path {
	var joined []orderedStroke
	done := make([]bool, len(j.strokes))
	follow := func(e strokeEnd) {
		path := Path{From: j.point(e)}
		order := 0
		for e != none && !done[e/2] {
			done[e/2] = true
			order = max(order, int(e/2))
			part := j.strokes[e/2]
			if e%2 == 1 {
				part = part.Reversed()
			}
			path.Then = append(path.Then, part.Then...)
			e = j.next[e.other()]
		}
		if e != none { // back where it began
			path.Then[len(path.Then)-1].To = path.From
		}
		joined = append(joined, orderedStroke{order, path})
	}
	for _, open := range []bool{true, false} {
		for e := range strokeEnd(len(j.next)) {
			if !done[e/2] && open == (j.next[e] == none) {
				follow(e)
			}
		}
	}
	slices.SortStableFunc(joined, func(a, b orderedStroke) int { return cmp.Compare(a.order, b.order) })
	paths := make([]Path, len(joined))
	for i, s := range joined {
		paths[i] = s.path
	}
	return paths
}
