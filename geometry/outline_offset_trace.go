package geometry

// positiveRings returns the border of all that the rings wind around a
// positive number of times, with the region on the right hand: outer rings
// of positive area, holes of negative area. No two rings cross, each ring
// starts at its leftmost point, and they are sorted by that. Rings may touch
// at points; one ring passes a point twice only where one and the same
// region lies between, as when a hole touches the outer ring.
func positiveRings(rings [][]Point) [][]Point {
	strands := strandsOf(rings)
	index := slabsOf(strands)
	t := tracer{leaving: map[Point][]int{}}
	for _, s := range strands {
		left, right := index.windings(s)
		switch {
		case right > 0 && left <= 0:
			t.add(s.a, s.b)
		case left > 0 && right <= 0:
			t.add(s.b, s.a)
		}
	}
	return t.rings()
}

// A step is a directed piece of the new border.
type step struct{ from, to Point }

// A tracer joins steps to rings.
type tracer struct {
	steps   []step
	leaving map[Point][]int // the steps that start at a point
	used    []bool
}

func (t *tracer) add(from, to Point) {
	t.leaving[from] = append(t.leaving[from], len(t.steps))
	t.steps = append(t.steps, step{from, to})
	t.used = append(t.used, false)
}

// rings follows the steps round. They come sorted by their left ends, so
// that the first one not yet used touches the leftmost point of its ring.
func (t *tracer) rings() [][]Point {
	var rings [][]Point
	for first := range t.steps {
		var ring []Point
		for i := first; !t.used[i]; i = t.next(i) {
			t.used[i] = true
			ring = append(ring, t.steps[i].from)
		}
		if len(ring) > 2 {
			rings = append(rings, startLeftmost(ring))
		}
	}
	return rings
}

// startLeftmost turns the ring so that it starts at its leftmost point, the
// topmost of several.
func startLeftmost(ring []Point) []Point {
	best := 0
	for i, p := range ring {
		if comparePoints(p, ring[best]) < 0 {
			best = i
		}
	}
	return append(append([]Point{}, ring[best:]...), ring[:best]...)
}

// next returns the step after step i: the one that bends most to the right,
// which keeps to the region that lies on the right hand.
func (t *tracer) next(i int) int {
	s := t.steps[i]
	way := s.to.Sub(s.from)
	choices := t.leaving[s.to]
	best := choices[0]
	for _, k := range choices[1:] {
		if bendsMore(way, t.steps[k].to.Sub(s.to), t.steps[best].to.Sub(s.to)) {
			best = k
		}
	}
	return best
}

// bendsMore reports whether v bends more to the right from the way than w.
func bendsMore(way, v, w Vector) bool {
	right, other := cross(way, v).sign(), cross(way, w).sign()
	if right != other {
		return right > other
	}
	return cross(w, v).sign() > 0
}
