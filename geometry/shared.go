package geometry

import (
	"cmp"
	"math"
	"slices"
)

// sharedWithin is how far apart two borders may lie and still be cut once:
// rounding puts turned and slanted neighbours a few nanometres apart, and a
// knife follows a line within far more than a micrometre.
const sharedWithin = Micrometre

// SharedEdges draws the borders of regions that lie side by side so that
// each stretch is drawn once, however many regions it belongs to: straight
// stretches on one line, within 1 micrometre, that overlap or touch end to end
// are joined into one long stroke, and a curve that two regions share is drawn
// once. The strokes come in the order of the regions that they first belong
// to, a region's holes before its outer ring.
func SharedEdges(regions []Outline) []Path {
	m := &edgeMap{lines: map[lineBucket][]*lineEdges{}, curves: map[Segment]bool{}}
	for _, o := range regions {
		for _, r := range append(slices.Clone(o.Holes), o.Outer) { // windows first: then the piece may slip
			for i, s := range r {
				m.add(r.from(i), s)
			}
		}
	}
	return m.strokes()
}

// lineBucket is where lines of nearly one angle and one distance from the
// origin are kept.
type lineBucket struct{ angle, offset int64 }

// angleStep is the width of a bucket in radians: over a sheet of 3 m a line
// that much aslant is off by 3 micrometres, so that what is within 1 is found
// in the same bucket or the next.
const angleStep = 1e-6

// lineEdges are the stretches on one line.
type lineEdges struct {
	from      Point
	dx, dy    float64 // unit vector
	order     int     // of first use, among all strokes
	stretches []lineStretch
}

// lineStretch is a stretch with its ends and how far along the line they lie.
type lineStretch struct {
	a, b   Point
	lo, hi float64
}

type edgeMap struct {
	lines  map[lineBucket][]*lineEdges
	all    []*lineEdges
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
	angle, dx, dy := lineAngle(s.To.Sub(from))
	bucket := lineBucket{
		angle:  int64(math.Floor(angle / angleStep)),
		offset: int64(math.Floor((dx*float64(from.Y) - dy*float64(from.X)) / float64(sharedWithin))),
	}
	line := m.find(bucket, from, s.To)
	if line == nil {
		line = &lineEdges{from: from, dx: dx, dy: dy, order: m.count}
		m.lines[bucket] = append(m.lines[bucket], line)
		m.all = append(m.all, line)
	}
	st := lineStretch{a: from, b: s.To, lo: line.along(from), hi: line.along(s.To)}
	if st.lo > st.hi {
		st = lineStretch{st.b, st.a, st.hi, st.lo}
	}
	line.stretches = append(line.stretches, st)
}

// lineAngle returns a line's angle in a range of half a turn, and its
// direction. The range begins at an angle that no design is likely to have,
// since a line there could be taken for two.
func lineAngle(d Vector) (angle, dx, dy float64) {
	const start = -0.1234567
	angle = math.Atan2(float64(d.Y), float64(d.X))
	dx, dy = float64(d.X)/d.Len(), float64(d.Y)/d.Len()
	if angle < start {
		return angle + math.Pi, -dx, -dy
	}
	if angle >= start+math.Pi {
		return angle - math.Pi, -dx, -dy
	}
	return angle, dx, dy
}

// find returns a line that both points lie on, if there is one.
func (m *edgeMap) find(b lineBucket, p, q Point) *lineEdges {
	for da := int64(-1); da <= 1; da++ {
		for do := int64(-4); do <= 4; do++ { // the angles' difference moves the offset, too
			for _, line := range m.lines[lineBucket{b.angle + da, b.offset + do}] {
				if line.off(p) <= float64(sharedWithin) && line.off(q) <= float64(sharedWithin) {
					return line
				}
			}
		}
	}
	return nil
}

func (l *lineEdges) along(p Point) float64 {
	v := p.Sub(l.from)
	return float64(v.X)*l.dx + float64(v.Y)*l.dy
}

func (l *lineEdges) off(p Point) float64 {
	v := p.Sub(l.from)
	return math.Abs(float64(v.Y)*l.dx - float64(v.X)*l.dy)
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
	for _, line := range m.all {
		slices.SortStableFunc(line.stretches, func(s, t lineStretch) int { return cmp.Compare(s.lo, t.lo) })
		open := line.stretches[0]
		for _, s := range line.stretches[1:] {
			if s.lo > open.hi+float64(sharedWithin) {
				m.draw(line.order, open)
				open = s
			} else if s.hi > open.hi {
				open.b, open.hi = s.b, s.hi
			}
		}
		m.draw(line.order, open)
	}
	slices.SortStableFunc(m.drawn, func(s, t orderedStroke) int {
		return cmp.Or(cmp.Compare(s.order, t.order), comparePoints(s.path.From, t.path.From))
	})
	paths := make([]Path, len(m.drawn))
	for i, s := range m.drawn {
		paths[i] = s.path
	}
	return paths
}

// draw adds a stroke, from the left or from the top.
func (m *edgeMap) draw(order int, s lineStretch) {
	if comparePoints(s.a, s.b) > 0 {
		s.a, s.b = s.b, s.a
	}
	m.drawn = append(m.drawn, orderedStroke{order, PathFromPoints(s.a, s.b)})
}

// comparePoints orders points from the left, and from the top on one
// upright line; along any line that is the order of places.
func comparePoints(p, q Point) int {
	return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y))
}
