package checker

import (
	"math"

	"panelry/export/svg/findings"
	"panelry/export/svg/reader"
)

const (
	// back is the angle in radians of the widest wedge that counts as no
	// wider than a line: a third of a degree.
	back = 0.005

	// bend is the cosine of the turn from which the boundary has a corner: 60
	// degrees.
	bend = 0.5

	// mostTurns is how many turns of one file are looked at closely; each
	// takes some thirty microseconds. Any further one counts as a spike.
	mostTurns = 20_000
)

// A turning is a point where a line turns back: it leaves as it came.
type turning struct {
	into, out reader.Segment
	at        int // among the ring's points
}

// turnsBack reports whether the way out of two segments' common point is the
// way back.
func turnsBack(a, b reader.Segment) bool {
	if a.Kind == 0 || b.Kind == 0 {
		return false
	}
	in, out := a.Direction(1), b.Direction(0)
	cross := in.X*out.Y - in.Y*out.X
	dot := in.X*out.X + in.Y*out.Y
	return dot < 0 && math.Abs(cross) < back
}

// A cusp is a turning whose sides part. Within its reach they are so near to
// each other that chords of curves may cross.
type cusp struct {
	at    reader.Point
	reach float64
}

// spikes reports where the ring runs back over itself, and keeps its cusps:
// at the notch of a heart the line turns back as well, but its two sides part.
func (c *checker) spikes(e *Element, r *ring, turns []turning) {
	for _, t := range turns {
		p := t.into.To
		if c.turns++; c.turns <= mostTurns {
			if reach, parts := t.parts(r); parts {
				r.cusps = append(r.cusps, cusp{p, reach})
				continue
			}
		}
		c.at(findings.Spike, e, p, "at %s, %s mm the line turns back on itself", mm(p.X), mm(p.Y))
	}
}

// parts reports whether the two sides of a turning part, and how far from it
// they are clear of each other. They do not where they run over the same line
// for a while, nor where they nowhere get further apart than a wedge of the
// angle back would before the boundary has a corner. Sides of a polygon may
// be so short that the boundary must be followed beyond them.
func (t turning) parts(r *ring) (reach float64, parts bool) {
	const clear = 2*flatness + contact
	a, b := legOf(t.into, 1), legOf(t.out, 0)
	far := min(a.reach, b.reach)
	// No two arcs are as near as this: not even of 200 and of 201 mm.
	const same = 1e-6
	if far >= leastDoubled && distance(a.at(leastDoubled), b.at(leastDoubled)) <= same {
		return 0, false
	}
	for x := far; x > far/1000; x /= 2 {
		gap := distance(a.at(x), b.at(x))
		parts = parts || gap > back*x+snap
		if gap > clear {
			reach = x
		} else if parts {
			break
		}
	}
	if parts && reach > 0 {
		return reach, true
	}
	if opens, ok := r.opens(t.at); ok {
		return opens, true
	}
	return far, parts
}

// A leg is a segment seen from one of its ends, as far as it only leads away.
type leg struct {
	segment reader.Segment
	end     float64 // 0 or 1: where it is seen from
	from    reader.Point
	most    float64 // of its parameter, from the end on
	reach   float64 // in mm, as the crow flies
}

func legOf(s reader.Segment, end float64) leg {
	l := leg{segment: s, end: end, from: s.From}
	if end == 1 {
		l.from = s.To
	}
	steps := 32
	if s.Kind == reader.Line || s.Kind == reader.Closing {
		steps = 1
	}
	for i := 1; i <= steps; i++ {
		t := float64(i) / float64(steps)
		d := l.away(l.point(t))
		if d <= l.reach {
			break
		}
		l.most, l.reach = t, d
	}
	l.reach = math.Sqrt(l.reach)
	return l
}

// point returns the point at a parameter that counts from the leg's end.
func (l *leg) point(t float64) reader.Point { return l.segment.At(math.Abs(l.end - t)) }

// away returns the square of a point's distance from the leg's end.
func (l *leg) away(p reader.Point) float64 {
	dx, dy := p.X-l.from.X, p.Y-l.from.Y
	return dx*dx + dy*dy
}

// at returns where the leg is x mm from its end.
func (l *leg) at(x float64) reader.Point {
	if l.segment.Kind == reader.Line || l.segment.Kind == reader.Closing {
		return l.point(x / l.reach)
	}
	lo, hi := 0.0, l.most
	p := l.point(hi)
	for range 40 {
		mid := (lo + hi) / 2
		q := l.point(mid)
		if l.away(q) < x*x {
			lo = mid
		} else {
			hi, p = mid, q
		}
	}
	return p
}

// opens reports whether the two sides at a point of the ring part before one
// of them has a corner, and how far from the point. Both are followed over
// equal lengths.
func (r *ring) opens(at int) (float64, bool) {
	a, b := walk{r: r, at: at, step: -1}, walk{r: r, at: at, step: 1}
	for x := 0.0; ; {
		d := min(a.left(), b.left())
		if d < 0 || a.count+b.count > len(r.points) {
			return 0, false
		}
		a.by(d)
		b.by(d)
		x += d
		if distance(a.here(), b.here()) > back*x+2*flatness+contact {
			return x, true
		}
	}
}

// A walk follows a ring's points one way.
type walk struct {
	r        *ring
	at, step int
	on       float64 // behind the point at
	count    int     // of points passed
}

// point returns a point of the ring, counted around it where it is closed.
func (w *walk) point(i int) (reader.Point, bool) {
	n := len(w.r.points)
	if w.r.closed() {
		return w.r.points[((i%n)+n)%n], true
	}
	if i < 0 || i >= n {
		return reader.Point{}, false
	}
	return w.r.points[i], true
}

// left returns how far it is to the next point; -1 where the walk is over.
func (w *walk) left() float64 {
	p, _ := w.point(w.at)
	q, ok := w.point(w.at + w.step)
	if !ok {
		return -1
	}
	way := distance(p, q)
	if before, has := w.point(w.at - w.step); has && w.count > 0 && w.on == 0 {
		on := (p.X-before.X)*(q.X-p.X) + (p.Y-before.Y)*(q.Y-p.Y)
		if on < bend*way*distance(before, p) {
			return -1
		}
	}
	return way - w.on
}

// by goes on by a length of at most what is left.
func (w *walk) by(d float64) {
	const little = 1e-12
	if w.left() <= d+little {
		w.at, w.on, w.count = w.at+w.step, 0, w.count+1
		return
	}
	w.on += d
}

func (w *walk) here() reader.Point {
	p, _ := w.point(w.at)
	q, ok := w.point(w.at + w.step)
	if l := distance(p, q); ok && l > 0 {
		return reader.Point{X: p.X + (q.X-p.X)*w.on/l, Y: p.Y + (q.Y-p.Y)*w.on/l}
	}
	return p
}
