package checker

import (
	"fmt"
	"math"
	"sort"

	"panelry/export/svg/findings"
	"panelry/export/svg/reader"
)

const (
	// contact is the distance in mm below which two lines meet.
	contact = 1e-4

	mostEdges = 450_000 // about 10,000 discs
)

// A chain is one sub-path as it is compared with the others.
type chain struct {
	element *Element
	ring    *ring
	piece   int     // the outline of the piece that it belongs to
	around  int     // the smallest ring around it; -1 for none
	ends    [2]bool // whether an open end meets another line
}

// A meeting is what two chains, or one with itself, have in common.
type meeting struct {
	along    alongside
	crossing []reader.Point
	nearest  float64
	near     reader.Point
}

// passes returns where one chain passes through another, rather than touches
// it.
func (w *meeting) passes() []reader.Point { return unmatched(w.crossing, 0.001+w.along.near) }

// comparison is all chains of one step against one another.
type comparison struct {
	*checker
	chains   []chain
	edges    []edge
	curves   []reader.Segment // that edges are chords of
	met      map[[2]int]*meeting
	nearby   map[[2]int]*meeting // by piece, of those too close
	budget   budget
	spacing  float64
	shared   bool
	complete bool
}

// compare holds cut lines against cut lines, score lines against score
// lines, and each layer of shared edges by itself and against the rest.
func (c *checker) compare() {
	for _, s := range []Step{Cut, Score} {
		m := c.comparison(s)
		if s == Cut {
			m.spacing = c.demands.Spacing
		}
		m.pieces()
		m.search()
		m.report()
		if s == Cut {
			m.faces()
		}
		if !m.complete {
			c.found.Add(findings.NotCompared, 0, "svg", "the lines to %s are too many, or meet too often, to hold each against the others", s)
		}
	}
}

// comparison collects the lines of a step.
func (c *checker) comparison(s Step) *comparison {
	m := &comparison{checker: c, met: map[[2]int]*meeting{}, nearby: map[[2]int]*meeting{}, budget: newBudget(), complete: true}
	m.collect(s)
	return m
}

func (m *comparison) collect(s Step) {
	for i := range m.elements {
		if e := &m.elements[i]; e.Step == s && reachable(e.Bounds) && m.complete {
			m.add(e)
		}
	}
}

// add adds the chains and edges of an element, as many as there is room for.
func (m *comparison) add(e *Element) {
	first := make([]int, len(e.rings)) // edge of each ring, or -1
	curved := false
	for j := range e.rings {
		r := &e.rings[j]
		n := len(r.points)
		first[j] = -1
		if n < 2 || !m.complete {
			continue
		}
		if len(m.edges)+n > mostEdges {
			m.complete = false
			continue
		}
		k := len(m.chains)
		first[j], curved = len(m.edges), curved || r.curved
		m.chains = append(m.chains, chain{element: e, ring: r, piece: k, around: -1})
		m.shared = m.shared || shared(e)
		for i := 0; i+1 < n; i++ {
			m.edges = append(m.edges, edge{a: r.points[i], b: r.points[i+1], chain: int32(k), index: int32(i)})
		}
		if r.closed() {
			m.edges = append(m.edges, edge{a: r.points[n-1], b: r.points[0], chain: int32(k), index: int32(n - 1)})
		}
	}
	if curved {
		m.follow(e, first)
	}
}

// reachable leaves out what lies far from any sheet: it is reported already,
// and would make the grid too coarse.
func reachable(b reader.Box) bool {
	const far = 100_000
	return max(-b.Min.X, -b.Min.Y, b.Max.X, b.Max.Y) <= far
}

func shared(e *Element) bool { return e.Layer != nil && e.Layer.Shared }

// pieces gives a hole, and a slit, the piece of the ring around it: what lies
// inside a hole is a piece of its own again.
func (m *comparison) pieces() {
	if m.spacing <= 0 {
		return
	}
	rings := make([]ring, len(m.chains))
	for i, c := range m.chains {
		rings[i] = *c.ring
		if shared(c.element) {
			rings[i].end = Open
		}
	}
	if !nestWith(rings, &m.budget, true) {
		m.complete = false
		return
	}
	for i, r := range rings {
		m.chains[i].around = r.parent
		if r.inside%2 == 1 {
			m.chains[i].piece = r.parent
		}
	}
}

func (m *comparison) search() {
	if len(m.edges) == 0 {
		return
	}
	reach := max(m.spacing, chordReach)
	g := newGrid(m.edges, reach)
	seen := make([]int32, len(m.edges))
	for i := range m.edges {
		if !g.near(m.edges, i, reach, seen, func(j int) bool { return m.pair(&m.edges[i], &m.edges[j]) }) {
			m.complete = false
			return
		}
	}
}

// What comparing costs, in steps of the budget.
const (
	lookCost    = 1  // two edges that are far apart after all
	pairCost    = 8  // two that are not
	meetingCost = 80 // keeping what two chains have in common
	crossCost   = 20 // keeping where two lines cross
)

// pair compares two edges; false where the budget is spent.
func (m *comparison) pair(s, t *edge) bool {
	reach := m.reach()
	if m.together(s.chain, t.chain) {
		reach = chordReach // they may lie as close as they like
	}
	if min(s.a.X, s.b.X)-max(t.a.X, t.b.X) > reach || min(t.a.X, t.b.X)-max(s.a.X, s.b.X) > reach ||
		min(s.a.Y, s.b.Y)-max(t.a.Y, t.b.Y) > reach || min(t.a.Y, t.b.Y)-max(s.a.Y, s.b.Y) > reach {
		return m.budget.take(lookCost)
	}
	own := s.chain == t.chain
	if own && m.adjacent(s, t) {
		return true // a turn between them is a spike, or nothing
	}
	gap, at := apart(s, t)
	if gap <= chordReach {
		if a := m.lineUp(s, t); a.near > 0 && !(own && m.atCusp(s, a.where)) {
			if w := m.meeting(m.met, int(s.chain), int(t.chain)); w != nil {
				w.along.add(a)
			}
		}
	}
	bothShared := m.shared && shared(m.chains[s.chain].element) && shared(m.chains[t.chain].element)
	if gap <= contact && m.shared {
		m.touch(s, t)
	}
	switch {
	case bothShared: // lines of a map of pieces may cross
	case own && gap <= contact && m.atCusp(s, at):
	case own && gap <= contact:
		m.cross(s, t, at)
	case !own:
		if p, ok := crosses(s, t); ok && !m.atOpenEnd(p, s) && !m.atOpenEnd(p, t) {
			m.cross(s, t, p)
		}
		m.space(s, t, gap, at)
	}
	return m.budget.take(pairCost)
}

// atOpenEnd reports whether a point is the end of an edge's open line: a
// line that ends on another does not cross it.
func (m *comparison) atOpenEnd(p reader.Point, e *edge) bool {
	const near = 0.002
	r := m.chains[e.chain].ring
	return !r.closed() && (distance(p, r.points[0]) <= near || distance(p, r.points[len(r.points)-1]) <= near)
}

// atCusp reports whether a point lies in a cusp of an edge's chain.
func (m *comparison) atCusp(e *edge, p reader.Point) bool {
	cusps := m.chains[e.chain].ring.cusps
	m.budget.take(len(cusps) / 8)
	for _, c := range cusps {
		if distance(p, c.at) <= c.reach {
			return true
		}
	}
	return false
}

// cross keeps where two chains cross: the first places are enough to tell
// crossing from touching.
func (m *comparison) cross(s, t *edge, at reader.Point) {
	const enough = 100
	w := m.meeting(m.met, int(s.chain), int(t.chain))
	if w != nil && len(w.crossing) < enough && m.budget.take(crossCost) {
		w.crossing = append(w.crossing, at)
	}
}

// together reports whether two chains may lie as close as they like: a ring
// and a hole directly inside it, and the holes of one shape. Two shapes
// inside a third are held apart: they may be pieces in a border drawn around
// the sheet, or windows with a bridge between them.
func (m *comparison) together(i, j int32) bool {
	a, b := &m.chains[i], &m.chains[j]
	return i == j || a.piece == b.piece && (a.around == int(j) || b.around == int(i) || a.element == b.element)
}

func (m *comparison) reach() float64 { return max(m.spacing, chordReach) }

// adjacent reports whether two edges of a chain follow one another.
func (m *comparison) adjacent(s, t *edge) bool {
	r := m.chains[s.chain].ring
	n := int32(len(r.points))
	if d := t.index - s.index; d == 1 || d == -1 {
		return true
	}
	return r.closed() && (s.index == 0 && t.index == n-1 || t.index == 0 && s.index == n-1)
}

// meeting returns what is kept of two chains or pieces; nil where the budget
// is spent.
func (m *comparison) meeting(among map[[2]int]*meeting, i, j int) *meeting {
	key := [2]int{min(i, j), max(i, j)}
	w := among[key]
	if w == nil && m.budget.take(meetingCost) {
		w = &meeting{nearest: math.Inf(1)}
		among[key] = w
	}
	return w
}

// touch remembers that open ends meet a line.
func (m *comparison) touch(s, t *edge) {
	for _, pair := range [2][2]*edge{{s, t}, {t, s}} {
		c := &m.chains[pair[0].chain]
		if c.ring.closed() {
			continue
		}
		if pair[0].index == 0 && toLine(c.ring.points[0], pair[1]) <= contact {
			c.ends[0] = true
		}
		if n := int32(len(c.ring.points)); pair[0].index == n-2 && toLine(c.ring.points[n-1], pair[1]) <= contact {
			c.ends[1] = true
		}
	}
}

// space remembers pieces that lie too close.
func (m *comparison) space(s, t *edge, gap float64, at reader.Point) {
	a, b := &m.chains[s.chain], &m.chains[t.chain]
	if m.spacing <= 0 || m.together(s.chain, t.chain) || shared(a.element) && shared(b.element) {
		return
	}
	allowed := slack
	if s.curve != 0 || t.curve != 0 {
		allowed += 2 * flatness
	}
	if gap >= m.spacing-allowed {
		return
	}
	first, second := a.piece, b.piece
	if first == second { // two windows of one piece, or two pieces in one border
		first, second = int(s.chain), int(t.chain)
	}
	if w := m.meeting(m.nearby, first, second); w != nil && gap < w.nearest {
		w.nearest, w.near = gap, at
	}
}

// nudge moves one of two chains by less than a nanometre, so that a corner
// that lies exactly on a line is on one side of it: chains that pass through
// each other then cross once, those that touch cross twice or not at all.
var nudge = reader.Point{X: 3.7e-7, Y: 6.1e-7}

// crosses reports where two edges of different chains cross.
func crosses(s, t *edge) (reader.Point, bool) {
	if s.chain > t.chain {
		s, t = t, s
	}
	a, b := s.a, s.b
	c, d := reader.Point{X: t.a.X + nudge.X, Y: t.a.Y + nudge.Y}, reader.Point{X: t.b.X + nudge.X, Y: t.b.Y + nudge.Y}
	s1, s2 := turn(a, b, c), turn(a, b, d)
	s3, s4 := turn(c, d, a), turn(c, d, b)
	if s1*s2 >= 0 || s3*s4 >= 0 {
		return reader.Point{}, false
	}
	f := s3 / (s3 - s4)
	return reader.Point{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y)}, true
}

func turn(a, b, c reader.Point) float64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }

// toLine returns the distance of a point from an edge.
func toLine(p reader.Point, e *edge) float64 {
	_, d := nearest(p, e)
	return d
}

func nearest(p reader.Point, e *edge) (reader.Point, float64) {
	dx, dy := e.b.X-e.a.X, e.b.Y-e.a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(max(((p.X-e.a.X)*dx+(p.Y-e.a.Y)*dy)/l, 0), 1)
	}
	q := reader.Point{X: e.a.X + t*dx, Y: e.a.Y + t*dy}
	return q, distance(p, q)
}

// apart returns the distance between two edges, and where it is.
func apart(s, t *edge) (float64, reader.Point) {
	if d1, d2 := turn(s.a, s.b, t.a), turn(s.a, s.b, t.b); d1*d2 < 0 {
		if d3, d4 := turn(t.a, t.b, s.a), turn(t.a, t.b, s.b); d3*d4 < 0 {
			f := d3 / (d3 - d4)
			return 0, reader.Point{X: s.a.X + f*(s.b.X-s.a.X), Y: s.a.Y + f*(s.b.Y-s.a.Y)}
		}
	}
	least, at := math.Inf(1), s.a
	for _, one := range [4]struct {
		p reader.Point
		e *edge
	}{{s.a, t}, {s.b, t}, {t.a, s}, {t.b, s}} {
		if q, d := nearest(one.p, one.e); d < least {
			least, at = d, q
		}
	}
	return least, at
}

// report turns what was met into findings, in the order of the chains.
// Pieces that meet are not told to be too close as well.
func (m *comparison) report() {
	meet := map[[2]int]bool{}
	for _, key := range sortedKeys(m.met) {
		w := m.met[key]
		a, b := m.chains[key[0]].element, m.chains[key[1]].element
		crossings, doubled := w.crossing, w.along.doubled()
		if key[0] != key[1] {
			crossings = w.passes()
		}
		with := "itself"
		if a != b {
			with = other(b)
		} else if key[0] != key[1] {
			with = "another part of itself"
		}
		p, q := m.chains[key[0]].piece, m.chains[key[1]].piece
		pieces := [2]int{min(p, q), max(p, q)}
		meet[pieces] = meet[pieces] || doubled >= leastDoubled || len(crossings) > 0
		switch {
		case doubled >= leastDoubled:
			where := w.along.where
			m.at(findings.DoubledEdge, a, where, "at %s, %s mm it lies on %s for %s mm", mm(where.X), mm(where.Y), with, mm(doubled))
		case len(crossings) == 0, shared(a) && shared(b):
		case a == b:
			p := crossings[0]
			m.at(findings.SelfCrossing, a, p, "at %s, %s mm it crosses or touches %s", mm(p.X), mm(p.Y), with)
		default:
			p := crossings[0]
			m.at(findings.CrossingOutlines, a, p, "at %s, %s mm it crosses %s", mm(p.X), mm(p.Y), with)
		}
	}
	for _, key := range sortedKeys(m.nearby) {
		if meet[key] {
			continue
		}
		w := m.nearby[key]
		a, b := m.chains[key[0]].element, m.chains[key[1]].element
		m.at(findings.TooClose, a, w.near, "at %s, %s mm it lies %s mm from %s, and the spacing is %s mm", mm(w.near.X), mm(w.near.Y), mm(w.nearest), other(b), mm(m.spacing))
	}
}

// other names the second of two shapes: by its place where it has no id.
func other(e *Element) string {
	if e.ID != "" {
		return e.Label()
	}
	return fmt.Sprintf("the %s at %s, %s mm", e.Tag, mm(e.Bounds.Min.X), mm(e.Bounds.Min.Y))
}

func sortedKeys(m map[[2]int]*meeting) [][2]int {
	keys := make([][2]int, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Slice(keys, func(i, j int) bool {
		if keys[i][0] != keys[j][0] {
			return keys[i][0] < keys[j][0]
		}
		return keys[i][1] < keys[j][1]
	})
	return keys
}

// unmatched leaves out crossings that lie on one another two by two, or at
// the ends of a short edge that both have: there the chains only touch.
func unmatched(points []reader.Point, same float64) []reader.Point {
	used := make([]bool, len(points))
	var left []reader.Point
	for i, p := range points {
		if used[i] || len(left) > 3 {
			continue
		}
		pair := -1
		for j := i + 1; j < len(points) && j < i+200; j++ {
			if !used[j] && distance(p, points[j]) < same {
				pair = j
				break
			}
		}
		if pair >= 0 {
			used[pair] = true
			continue
		}
		left = append(left, p)
	}
	return left
}
