package geometry

import (
	"fmt"
	"slices"
)

// Validate reports the first thing that keeps the outline from being one
// region with an inside and an outside: a ring with too few segments, a
// point past [Limit], two neighbouring points on one spot, a border that
// crosses or touches itself or another, a hole that is not inside, or a ring
// that runs the wrong way. The error says so in plain words: which hole, and
// which corner, counted from 1 at the ring's start, with its place in mm.
// Curves are followed within 1 micrometre.
func (o Outline) Validate() error { return o.ValidateIn(Millimetres) }

// ValidateIn is [Outline.Validate] with places in another unit.
func (o Outline) ValidateIn(u Unit) error {
	w := words{u, len(o.Holes)}
	rings := o.Rings()
	for i, r := range rings {
		if err := r.validate(w, i); err != nil {
			return err
		}
		if sign := r.Area().Sign(); sign == 0 {
			return fmt.Errorf("%s has no area", w.ring(i))
		} else if (sign > 0) != (i == 0) {
			return fmt.Errorf("%s runs the wrong way round", w.ring(i))
		}
	}
	if err := checkCrossings(rings, w); err != nil {
		return err
	}
	return checkNesting(rings, w)
}

// words name the parts of an outline with so many holes.
type words struct {
	unit  Unit
	holes int
}

var ordinals = []string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"}

// ring names a ring: 0 is the outline itself.
func (w words) ring(i int) string {
	switch {
	case i == 0:
		return "the outline"
	case w.holes == 1:
		return "its hole"
	case i <= len(ordinals):
		return "its " + ordinals[i-1] + " hole"
	}
	return fmt.Sprintf("its hole %d", i)
}

func (w words) place(p Point) string { return p.X.Format(w.unit) + ", " + p.Y.Format(w.unit) }

// corner names the corner that segment i of a ring starts at.
func (w words) corner(i int, p Point) string {
	return fmt.Sprintf("corner %d at %s", i+1, w.place(p))
}

// validate checks ring k by itself, except for crossings.
func (r Ring) validate(w words, k int) error {
	least := 3
	if !r.IsStraight() {
		least = 2
	}
	if len(r) == 0 {
		return fmt.Errorf("%s has no sides", w.ring(k))
	}
	for i, s := range r {
		if !s.To.InRange() || s.Curved && !(s.C1.InRange() && s.C2.InRange()) {
			return fmt.Errorf("%s goes past the limit of 100 m: %s", w.ring(k), w.corner((i+1)%len(r), s.To))
		}
		if from := r.from(i); s.To == from && (!s.Curved || s.C1 == from && s.C2 == from) && len(r) > 1 {
			return fmt.Errorf("%s has one point twice: %s", w.ring(k), w.corner(i, from))
		}
	}
	if len(r) < least {
		return fmt.Errorf("%s has too few sides to close: %d", w.ring(k), len(r))
	}
	return nil
}

// side is one straight side of a flattened ring.
type side struct {
	a, b         Point
	ring, at, of int // side number at of that many in the ring
	left, right  Length
	vertex       int   // the outline's own vertex that it starts at or after
	start        Point // and where that is
	top, bottom  Length
}

func (s side) neighbours(t side) bool {
	if s.ring != t.ring {
		return false
	}
	apart := (s.at - t.at + s.of) % s.of
	return apart == 1 || apart == s.of-1
}

// sides flattens the rings, leftmost side first.
func sides(rings []Ring) []side {
	var all []side
	for ring, r := range rings {
		points := r.Flatten(Micrometre)
		vertices := r.Points()
		vertex := 0
		for i, a := range points {
			for vertex+1 < len(vertices) && a == vertices[vertex+1] {
				vertex++
			}
			b := points[(i+1)%len(points)]
			all = append(all, side{
				a: a, b: b, ring: ring, at: i, of: len(points), vertex: vertex, start: vertices[vertex],
				left: min(a.X, b.X), right: max(a.X, b.X),
				top: min(a.Y, b.Y), bottom: max(a.Y, b.Y),
			})
		}
	}
	slices.SortFunc(all, func(s, t side) int { return int(min(1, max(-1, s.left-t.left))) })
	return all
}

// checkCrossings finds sides that meet where they should not. Sides are
// visited from left to right and compared with those whose x extents they
// share.
func checkCrossings(rings []Ring, w words) error {
	all := sides(rings)
	for i, s := range all {
		for _, t := range all[i+1:] {
			if t.left > s.right {
				break
			}
			if t.top > s.bottom || t.bottom < s.top {
				continue
			}
			if meetWrongly(s, t) && !excused(rings, s, t) {
				return crossingError(w, s, t)
			}
		}
	}
	return nil
}

func crossingError(w words, s, t side) error {
	if s.ring > t.ring || s.ring == t.ring && s.at > t.at {
		s, t = t, s
	}
	if s.ring == t.ring {
		return fmt.Errorf("%s crosses or touches itself, between the sides behind %s and %s",
			w.ring(s.ring), w.corner(s.vertex, s.start), w.corner(t.vertex, t.start))
	}
	return fmt.Errorf("%s crosses or touches %s near %s", w.ring(s.ring), w.ring(t.ring), w.place(t.a))
}

// meetWrongly reports whether two sides share a point, other than the
// vertex that joins neighbours.
func meetWrongly(s, t side) bool {
	if !s.neighbours(t) {
		return segmentsMeet(s.a, s.b, t.a, t.b)
	}
	if s.of == 2 {
		return true
	}
	if (s.at+1)%s.of != t.at {
		s, t = t, s
	}
	// s ends where t starts: they may only fold straight back.
	return Turn(s.a, s.b, t.b) == 0 && dot(s.b.Sub(s.a), t.b.Sub(t.a)).sign() < 0
}

// segmentsMeet reports whether two segments share a point; exact.
func segmentsMeet(a, b, c, d Point) bool {
	if segmentsCross(a, b, c, d) {
		return true
	}
	return onSegment(a, c, d) || onSegment(b, c, d) || onSegment(c, a, b) || onSegment(d, a, b)
}

// segmentsCross reports whether two segments cross at a point inside both.
func segmentsCross(a, b, c, d Point) bool {
	ab, cd := Line{a, b}, Line{c, d}
	return ab.Side(c)*ab.Side(d) < 0 && cd.Side(a)*cd.Side(b) < 0
}

// checkNesting makes sure that each hole lies in the outer ring and in no
// other hole; borders are known not to meet.
func checkNesting(rings []Ring, w words) error {
	for i, hole := range rings[1:] {
		p := hole.Start()
		if !(Outline{Outer: rings[0]}).Contains(p) {
			return fmt.Errorf("%s lies outside the outline", w.ring(i+1))
		}
		for j, other := range rings[1:] {
			if i != j && (Outline{Outer: other.Reversed()}).Contains(p) {
				return fmt.Errorf("%s lies inside %s", w.ring(i+1), w.ring(j+1))
			}
		}
	}
	return nil
}
