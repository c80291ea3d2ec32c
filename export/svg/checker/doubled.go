package checker

import (
	"math"

	"panelry/export/svg/reader"
)

const (
	// Two lines lie on one another where they run side by side within
	// sameLine, in mm, and surely so within a sixteenth of it.
	sameLine = 0.02
	surely   = sameLine / 16

	// leastDoubled is the length in mm from which a doubled edge counts.
	leastDoubled = 0.3

	// chordReach is how far apart the chords of curves may lie that are
	// within sameLine of one another.
	chordReach = sameLine + 2*flatness
)

// alongside is how far two lines run side by side, in mm.
type alongside struct {
	near, sure float64 // within sameLine, and within surely
	where      reader.Point
}

func (a *alongside) add(b alongside) {
	if a.sure == 0 {
		a.where = b.where
	}
	a.near += b.near
	a.sure += b.sure
}

// doubled returns over what length the lines are one and the same. Where
// curves only touch, their gap grows with the square of the way from there,
// so that they are within a sixteenth of a distance over a quarter of the way
// for which they are within all of it; so are the sides of fine polygons.
// That share is taken off. What is left of a true double is all of it.
func (a alongside) doubled() float64 { return max(0, (4*a.sure-a.near)/3) }

// lineUp compares two edges: straight ones as they are, chords of curves by
// the curves themselves.
func (m *comparison) lineUp(s, t *edge) alongside {
	if s.curve == 0 && t.curve == 0 {
		return straightAlong(s, t)
	}
	if s.curve == 0 {
		s, t = t, s
	}
	return m.curveAlong(s, t)
}

// straightAlong compares two straight edges. Long ones are doubled wherever
// they are within sameLine, unless they draw apart.
func straightAlong(s, t *edge) alongside {
	const long = 2 // mm
	if distance(s.a, s.b) < distance(t.a, t.b) {
		s, t = t, s
	}
	f, ok := rulerAlong(s)
	if !ok {
		return alongside{}
	}
	from, offFrom := f.of(t.a)
	to, offTo := f.of(t.b)
	if from > to {
		from, to, offFrom, offTo = to, from, offTo, offFrom
	}
	start, end := max(from, 0), min(to, f.length)
	if end-start < 1e-3 {
		return alongside{}
	}
	at := func(x float64) float64 { return offFrom + (x-from)/(to-from)*(offTo-offFrom) }
	worst := max(math.Abs(at(start)), math.Abs(at(end)))
	if worst > sameLine || worst > (end-start)/5 {
		return alongside{}
	}
	a := alongside{near: end - start, where: f.point((start + end) / 2)}
	if worst <= surely || a.near >= long && math.Abs(at(end)-at(start)) <= back*a.near {
		a.sure = a.near
	}
	return a
}

// curveAlong follows the curve of edge s and looks how far it is from t's,
// over the part that lies beside t.
func (m *comparison) curveAlong(s, t *edge) alongside {
	f, ok := rulerAlong(t)
	if !ok {
		return alongside{}
	}
	const parts = 8
	var a alongside
	var before reader.Point
	var gapBefore float64
	first, last := -1, 0 // parts that are surely on the other
	for i := range parts + 1 {
		p := m.on(s, float64(i)/parts)
		along, off := f.of(p)
		gap := off - m.offOf(t, f, along)
		if i > 0 {
			beside, _ := f.of(middle(before, p))
			if beside >= 0 && beside < f.length {
				near, sure := within(gapBefore, gap, sameLine), within(gapBefore, gap, surely)
				d := distance(before, p)
				a.near += near * d
				a.sure += sure * d
				if sure > 0 && first < 0 {
					first = i - 1
				}
				if sure > 0 {
					last = i
				}
			}
		}
		before, gapBefore = p, gap
	}
	a.where = m.on(s, float64(first+last)/2/parts)
	return a
}

func middle(p, q reader.Point) reader.Point {
	return reader.Point{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2}
}

// within returns on what share of the way from a to b a number is no further
// than limit from 0.
func within(a, b, limit float64) float64 {
	if a > b {
		a, b = b, a
	}
	if a >= -limit && b <= limit {
		return 1
	}
	return max(0, min(b, limit)-max(a, -limit)) / (b - a)
}

// on returns a point of an edge, or of the curve that it is the chord of, at
// a share of it.
func (m *comparison) on(e *edge, share float64) reader.Point {
	if e.curve == 0 {
		return reader.Point{X: e.a.X + share*(e.b.X-e.a.X), Y: e.a.Y + share*(e.b.Y-e.a.Y)}
	}
	return m.curves[e.curve-1].At(e.from + share*(e.to-e.from))
}

// offOf returns how far the curve of an edge is from its chord at a place
// along the chord.
func (m *comparison) offOf(e *edge, f ruler, along float64) float64 {
	if e.curve == 0 {
		return 0
	}
	share, off := along/f.length, 0.0
	for range 3 {
		var at float64
		at, off = f.of(m.on(e, share))
		share += (along - at) / f.length
	}
	return off
}

// A ruler measures along an edge and square to it.
type ruler struct {
	from   reader.Point
	ux, uy float64
	length float64
}

func rulerAlong(e *edge) (ruler, bool) {
	l := distance(e.a, e.b)
	if l == 0 {
		return ruler{}, false
	}
	return ruler{e.a, (e.b.X - e.a.X) / l, (e.b.Y - e.a.Y) / l, l}, true
}

func (f ruler) of(p reader.Point) (along, off float64) {
	dx, dy := p.X-f.from.X, p.Y-f.from.Y
	return dx*f.ux + dy*f.uy, dy*f.ux - dx*f.uy
}

func (f ruler) point(along float64) reader.Point {
	return reader.Point{X: f.from.X + along*f.ux, Y: f.from.Y + along*f.uy}
}

// follow tells the edges of an element's curves which part of them they are
// the chord of. first holds the first edge of each of its rings, or -1.
func (m *comparison) follow(e *Element, first []int) {
	last, k := -1, 0
	var r *ring
	var points []reader.Point
	for sub, s := range e.Path.Segments() {
		if sub != last {
			last, k, r = sub, 0, &e.rings[sub]
		}
		if first[sub] < 0 || !r.curved {
			continue
		}
		points = append(points[:0], s.To)
		curved := s.Kind != reader.Line && s.Kind != reader.Closing
		if curved {
			points = s.Flatten(flatness, points[:0])
			m.curves = append(m.curves, s)
		}
		from := 0.0
		for i, p := range points {
			back := k+1 == len(r.points) && r.closed() && i == len(points)-1 && distance(p, r.points[0]) <= 2*contact
			if !back && (k+1 >= len(r.points) || r.points[k+1] != p) {
				continue // left out, since it repeats the one before
			}
			if to := float64(i+1) / float64(len(points)); curved {
				one := &m.edges[first[sub]+k]
				one.curve, one.from, one.to = int32(len(m.curves)), from, to
				from = to
			}
			if !back {
				k++
			}
		}
	}
}
