package checker

import (
	"math"

	"panelry/export/svg/findings"
	"panelry/export/svg/reader"
)

const (
	// flatness is how far chords may lie from a curve, in mm: well under
	// what a blade can follow.
	flatness = 0.005

	// endGap is the distance in mm up to which an end lies on its start, and
	// shortest the length below which a segment makes the blade stutter.
	endGap   = 0.01
	shortest = 0.01

	// nearGap is the distance in mm up to which an outline was surely meant
	// to be closed.
	nearGap = 1.0
)

// A ring is one sub-path, flattened.
type ring struct {
	points []reader.Point // the start is not repeated where the ring is closed
	end    Closing
	curved bool
	area   float64 // signed, of the true curves; clockwise on the page is positive
	bounds reader.Box
	inside int // depth: how many rings of the same element lie around it
	parent int // the smallest of those, or -1
	cusps  []cusp
}

func (r ring) closed() bool { return r.end != Open }

// outlines works out each element and looks at it by itself.
func (c *checker) outlines() {
	for _, l := range c.file.Layers {
		c.layered = c.layered || named(l)
	}
	c.elements = make([]Element, len(c.file.Elements))
	budget := newBudget()
	for i, read := range c.file.Elements {
		e := &c.elements[i]
		e.Element = read
		e.Step, _ = step(read.Layer)
		c.flatten(e)
		c.area(e, &budget)
		if e.Step != Print {
			c.place(e)
			c.looks(e)
		}
	}
}

// place holds the element against the sheet and the edge to be left free.
func (c *checker) place(e *Element) {
	edge := c.demands.Edge
	b := e.Bounds
	out := max(-b.Min.X, -b.Min.Y, b.Max.X-c.file.W, b.Max.Y-c.file.H)
	if out > slack {
		c.whole(findings.OffSheet, e, "it reaches %s mm beyond the sheet", mm(out))
	} else if into := out + edge; edge > 0 && into > slack {
		c.whole(findings.InEdge, e, "it reaches %s mm into the edge of %s mm", mm(into), mm(edge))
	}
}

// looks reports what a machine and a person see differently.
func (c *checker) looks(e *Element) {
	if !e.Visible {
		c.whole(findings.Hidden, e, "the <%s> is not to be seen", e.Tag)
	}
	if e.Dashed {
		c.whole(findings.Dashes, e, "the line is dashed")
	}
	if e.Outside {
		c.whole(findings.OutsideViewport, e, "it reaches out of its viewport")
	}
}

// flatten cuts the element's path into rings and looks at each segment.
func (c *checker) flatten(e *Element) {
	judged := e.Step != Print
	var r ring
	last := -1
	var before, firstOf reader.Segment
	var turns []turning
	turn := func(a, b reader.Segment, at int) {
		if judged && turnsBack(a, b) {
			turns = append(turns, turning{a, b, at})
		}
	}
	finish := func() {
		if last < 0 {
			return
		}
		if c.close(e, &r, turns, judged); r.end == Touching {
			turn(before, firstOf, 0)
		}
		c.spikes(e, &r, turns)
		e.rings, turns = append(e.rings, r), turns[:0]
	}
	for sub, s := range e.Path.Segments() {
		if sub != last {
			finish()
			r = ring{points: []reader.Point{s.From}, end: Open, parent: -1}
			last, firstOf, before = sub, s, reader.Segment{}
		}
		length := s.Length()
		e.Length += length
		r.area += s.Area(r.points[0])
		r.curved = r.curved || s.Kind != reader.Line && s.Kind != reader.Closing
		if judged {
			c.segment(e, s, length)
		}
		if length > 0 {
			turn(before, s, len(r.points)-1)
		}
		switch s.Kind {
		case reader.Closing:
			r.end = ByZ
			if length > 0 {
				turn(s, firstOf, 0)
			} else {
				turn(before, firstOf, 0)
			}
		case reader.Line:
			r.points = append(r.points, s.To)
		default:
			r.points = s.Flatten(flatness, r.points)
		}
		if length > 0 {
			before = s
		}
	}
	finish()
	c.open(e, judged)
	e.Closing = ByZ
	for _, r := range e.rings {
		if r.end == Open || r.end == Touching && e.Closing == ByZ {
			e.Closing = r.end
		}
	}
}

// close finishes a ring: how it ends, and its points without repeats, by
// which the places of the turns are counted anew.
func (c *checker) close(e *Element, r *ring, turns []turning, judged bool) {
	start, end := r.points[0], r.points[len(r.points)-1]
	gap := distance(start, end)
	if r.end == Open && len(r.points) > 2 && gap <= endGap {
		r.end = Touching
	}
	kept := r.points[:1]
	for i, p := range r.points[1:] {
		if distance(p, kept[len(kept)-1]) > 2*contact {
			kept = append(kept, p)
		}
		for len(turns) > 0 && turns[0].at == i+1 {
			turns[0].at, turns = len(kept)-1, turns[1:]
		}
	}
	if r.closed() {
		for len(kept) > 1 && distance(kept[len(kept)-1], start) <= 2*contact {
			kept = kept[:len(kept)-1]
		}
	}
	r.points = kept
	r.bounds = reader.BoxOf(kept)
	if !judged || e.Layer != nil && e.Layer.Shared {
		return
	}
	if len(kept) == 1 && r.end == ByZ {
		c.at(findings.ZeroLength, e, start, "the outline at %s, %s mm is one point", mm(start.X), mm(start.Y))
		return
	}
	switch {
	case e.Step == Score: // fold lines are open
	case r.end == Touching:
		c.at(findings.Touching, e, start, "it returns to its start without Z")
	case r.end == Open && len(kept) > 2 && gap <= nearGap && e.Length > 10*gap:
		c.at(findings.NearlyClosed, e, end, "it ends %s mm beside its start", mm(gap))
	}
}

// open reports the open lines of an element once. A row of short lines is a
// perforation.
func (c *checker) open(e *Element, judged bool) {
	if !judged || e.Step == Score || e.Layer != nil && e.Layer.Shared {
		return
	}
	const dash = 10 // mm
	n, short := 0, 0
	var first reader.Point
	for _, r := range e.rings {
		start, end := r.points[0], r.points[len(r.points)-1]
		if r.end != Open || len(r.points) > 2 && distance(start, end) <= nearGap && e.Length > 10*distance(start, end) {
			continue
		}
		if n++; n == 1 {
			first = start
		}
		if len(r.points) == 2 && distance(start, end) <= dash {
			short++
		}
	}
	switch {
	case n == 0, short == n && n >= 3:
	case n == 1:
		c.at(findings.OpenOutline, e, first, "the line is open")
	default:
		c.at(findings.OpenOutline, e, first, "%d lines are open, the first at %s, %s mm", n, mm(first.X), mm(first.Y))
	}
}

// segment looks at the length of one segment.
func (c *checker) segment(e *Element, s reader.Segment, length float64) {
	switch {
	case length == 0 && s.Kind != reader.Closing:
		c.at(findings.ZeroLength, e, s.To, "a segment at %s, %s mm has no length", mm(s.To.X), mm(s.To.Y))
	case length > 0 && length < shortest:
		c.at(findings.ShortSegment, e, s.To, "a segment at %s, %s mm is %.5f mm long", mm(s.To.X), mm(s.To.Y), length)
	}
}

// area works out the area of a closed element, and the direction of its
// holes.
func (c *checker) area(e *Element, budget *budget) {
	if e.Closing == Open {
		return
	}
	if len(e.rings) > 1 {
		if !nest(e.rings, budget) {
			c.found.AddOnce(findings.NotCompared, e.At, e.Label(), "the rings of the shape are too many to see which lies in which")
			return
		}
	}
	e.HasArea = true
	for _, r := range e.rings {
		size := math.Abs(r.area)
		if r.inside%2 == 1 {
			size = -size
		}
		e.Area += size
		if e.Step == Cut && e.Filled && !e.EvenOdd && r.inside%2 == 1 && r.area*e.rings[r.parent].area > 0 {
			c.at(findings.HoleDirection, e, r.points[0], "a hole runs the same way round as what is around it")
		}
	}
	e.HasArea = !math.IsInf(e.Area, 0) && !math.IsNaN(e.Area)
}

func distance(p, q reader.Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }
