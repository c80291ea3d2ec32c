package geometry

import (
	"cmp"
	"slices"
)

// SharedEdges draws the borders of regions that lie side by side so that
// each stretch is drawn once, however many regions it belongs to: straight
// stretches on one line that overlap or touch end to end are joined into one
// long stroke, and a curve that two regions share is drawn once. Stretches
// count as one only where they lie exactly on one line. The strokes come in
// the order of the regions that they first belong to, a region's holes before
// its outer ring.
func SharedEdges(regions []Outline) []Path {
	m := &edgeMap{lines: map[lineKey]*lineEdges{}, curves: map[Segment]bool{}}
	for _, o := range regions {
		for _, r := range append(slices.Clone(o.Holes), o.Outer) { // windows first: then the piece may slip
			for i, s := range r {
				m.add(r.from(i), s)
			}
		}
	}
	return m.strokes()
}

// lineKey names one endless line: its direction in lowest terms, pointing
// right or straight down, and its cross product with the line's points.
type lineKey struct {
	direction Vector
	offset    wide
}

// lineEdges are the stretches on one line.
type lineEdges struct {
	order     int // of first use, among all strokes
	stretches [][2]Point
}

type edgeMap struct {
	lines  map[lineKey]*lineEdges
	curves map[Segment]bool // with the start in place of the end, both ways
	drawn  []orderedStroke
	count  int
}

type orderedStroke struct {
	order int
	path  Path
}

func (m *edgeMap) add(from Point, s Segment) {
	m.count++
	if s.Curved {
		m.addCurve(from, s)
		return
	}
	a, b := from, s.To
	if comparePoints(a, b) > 0 {
		a, b = b, a
	}
	d := b.Sub(a)
	g := gcd(d.X.Abs(), d.Y.Abs())
	key := lineKey{direction: Vector{d.X / g, d.Y / g}}
	key.offset = cross(key.direction, a.Sub(Point{}))
	if m.lines[key] == nil {
		m.lines[key] = &lineEdges{order: m.count}
	}
	m.lines[key].stretches = append(m.lines[key].stretches, [2]Point{a, b})
}

// addCurve draws a curve unless it was drawn before, either way round.
func (m *edgeMap) addCurve(from Point, s Segment) {
	back := CurveTo(s.C2, s.C1, from)
	if m.curves[s] && m.curves[back] {
		return
	}
	m.curves[s], m.curves[back] = true, true
	m.drawn = append(m.drawn, orderedStroke{m.count, Path{From: from, Then: []Segment{s}}})
}

func (m *edgeMap) strokes() []Path {
	for _, line := range m.lines {
		slices.SortFunc(line.stretches, func(s, t [2]Point) int { return comparePoints(s[0], t[0]) })
		open := line.stretches[0]
		for _, s := range line.stretches[1:] {
			if comparePoints(s[0], open[1]) > 0 {
				m.drawn = append(m.drawn, orderedStroke{line.order, PathFromPoints(open[0], open[1])})
				open = s
			} else if comparePoints(s[1], open[1]) > 0 {
				open[1] = s[1]
			}
		}
		m.drawn = append(m.drawn, orderedStroke{line.order, PathFromPoints(open[0], open[1])})
	}
	slices.SortFunc(m.drawn, func(s, t orderedStroke) int {
		return cmp.Or(cmp.Compare(s.order, t.order), comparePoints(s.path.From, t.path.From))
	})
	paths := make([]Path, len(m.drawn))
	for i, s := range m.drawn {
		paths[i] = s.path
	}
	return paths
}

// comparePoints orders points from the left, and from the top on one
// upright line; along any line that is the order of places.
func comparePoints(p, q Point) int {
	return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y))
}

func gcd(a, b Length) Length {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, 1)
}
