package checker

import (
	"math"
	"sort"

	"panelry/export/svg/findings"
	"panelry/export/svg/reader"
)

// snap is the distance in mm within which ends and crossings are one node.
const snap = 0.001

// thinFace is the least width in mm of a piece: its area over its length from
// corner to corner of its box.
const thinFace = 0.5

// faces judges each layer of shared edges: every open end must meet another
// line, and the pieces are what the lines close.
func (m *comparison) faces() {
	for _, l := range m.file.Layers {
		if !l.Shared || !m.complete {
			continue
		}
		var edges []edge
		for _, e := range m.edges {
			if m.chains[e.chain].element.Layer == l {
				edges = append(edges, e)
			}
		}
		if len(edges) == 0 {
			continue
		}
		for _, c := range m.chains {
			if c.element.Layer != l || c.ring.closed() {
				continue
			}
			for i, p := range [2]reader.Point{c.ring.points[0], c.ring.points[len(c.ring.points)-1]} {
				if !c.ends[i] {
					m.at(findings.DanglingEnd, c.element, p, "the line ends at %s, %s mm on no other line", mm(p.X), mm(p.Y))
				}
			}
		}
		found, ok := facesOf(edges, &m.budget)
		if !ok {
			m.complete = false
			return
		}
		if len(found) == 0 {
			m.found.Add(findings.Faces, l.At, "g", "%s closes no piece", layerName(l))
			continue
		}
		least, most := found[0].area, found[0].area
		for _, f := range found {
			least, most = min(least, f.area), max(most, f.area)
			if f.area/math.Hypot(f.box.W(), f.box.H()) < thinFace {
				m.found.AddSpot(findings.ThinFace, l.At, "g", findings.Spot{X: f.at.X, Y: f.at.Y}, "at %s, %s mm %s closes a piece of %.2f mm²", mm(f.at.X), mm(f.at.Y), layerName(l), f.area)
			}
		}
		m.found.Add(findings.Faces, l.At, "g", "%s closes %s of %.1f to %.1f mm²", layerName(l), counted(len(found), "piece"), least, most)
	}
}

// A face is one bounded region between lines.
type face struct {
	area float64
	box  reader.Box
	at   reader.Point // a corner
}

// facesOf cuts edges where they meet and walks around each region that they
// bound. What lies in a region without touching its border is not taken off.
func facesOf(edges []edge, b *budget) ([]face, bool) {
	cuts, ok := meetings(edges, b)
	if !ok {
		return nil, false
	}
	n := newNodes()
	type link struct{ from, to int }
	links := map[link]bool{}
	for i, e := range edges {
		at := append(cuts[i], 0, 1)
		sort.Float64s(at)
		last := -1
		for _, t := range at {
			node := n.at(reader.Point{X: e.a.X + t*(e.b.X-e.a.X), Y: e.a.Y + t*(e.b.Y-e.a.Y)})
			if last >= 0 && node != last {
				links[link{last, node}], links[link{node, last}] = true, true
			}
			last = node
		}
	}
	out := make([][]int, len(n.points))
	for l := range links {
		out[l.from] = append(out[l.from], l.to)
	}
	for from, list := range out {
		p := n.points[from]
		angle := func(to int) float64 { return math.Atan2(n.points[to].Y-p.Y, n.points[to].X-p.X) }
		sort.Slice(list, func(i, j int) bool {
			a, c := angle(list[i]), angle(list[j])
			return a < c || a == c && list[i] < list[j]
		})
	}
	var found []face
	walked := map[link]bool{}
	for start := range out {
		for _, to := range out[start] {
			l := link{start, to}
			if walked[l] {
				continue
			}
			f := face{at: n.points[start]}
			var corners []reader.Point
			for !walked[l] {
				walked[l] = true
				p, q := n.points[l.from], n.points[l.to]
				f.area += ((p.X-f.at.X)*(q.Y-f.at.Y) - (p.Y-f.at.Y)*(q.X-f.at.X)) / 2
				corners = append(corners, q)
				// The next line is the one before this in the order of
				// angles: the sharpest turn to the same side.
				around := out[l.to]
				i := 0
				for around[i] != l.from {
					i++
				}
				l = link{l.to, around[(i+len(around)-1)%len(around)]}
			}
			if f.area > 1e-6 {
				f.box = reader.BoxOf(corners)
				found = append(found, f)
			}
		}
	}
	return found, true
}

// meetings returns where on each edge, from 0 to 1, others meet or cross it.
func meetings(edges []edge, b *budget) ([][]float64, bool) {
	cuts := make([][]float64, len(edges))
	g := newGrid(edges, sameLine)
	seen := make([]int32, len(edges))
	for i := range edges {
		ok := g.near(edges, i, snap, seen, func(j int) bool {
			s, t := &edges[i], &edges[j]
			for _, one := range [4]struct {
				p  reader.Point
				on int
			}{{s.a, j}, {s.b, j}, {t.a, i}, {t.b, i}} {
				if q, d := nearest(one.p, &edges[one.on]); d <= snap {
					cuts[one.on] = append(cuts[one.on], along(q, &edges[one.on]))
				}
			}
			if gap, p := apart(s, t); gap == 0 {
				cuts[i] = append(cuts[i], along(p, s))
				cuts[j] = append(cuts[j], along(p, t))
				b.take(meetingCost)
			}
			return b.take(pairCost)
		})
		if !ok {
			return nil, false
		}
	}
	return cuts, true
}

// along returns how far along an edge a point on it lies, from 0 to 1.
func along(p reader.Point, e *edge) float64 {
	dx, dy := e.b.X-e.a.X, e.b.Y-e.a.Y
	if math.Abs(dx) > math.Abs(dy) {
		return (p.X - e.a.X) / dx
	}
	if dy != 0 {
		return (p.Y - e.a.Y) / dy
	}
	return 0
}

// nodes gives points that lie within snap of one another one number.
type nodes struct {
	points []reader.Point
	cells  map[[2]int][]int
}

func newNodes() *nodes { return &nodes{cells: map[[2]int][]int{}} }

func (n *nodes) at(p reader.Point) int {
	const cell = 2 * snap
	x, y := int(math.Floor(p.X/cell)), int(math.Floor(p.Y/cell))
	for dx := -1; dx <= 1; dx++ {
		for dy := -1; dy <= 1; dy++ {
			for _, i := range n.cells[[2]int{x + dx, y + dy}] {
				if distance(n.points[i], p) <= snap {
					return i
				}
			}
		}
	}
	key := [2]int{x, y}
	n.cells[key] = append(n.cells[key], len(n.points))
	n.points = append(n.points, p)
	return len(n.points) - 1
}
