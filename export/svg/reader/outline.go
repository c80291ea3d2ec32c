package reader

import (
	"math"

	"panelry/geometry"
)

// Rings returns the closed sub-paths as exact rings, by the number that
// [Path.Segments] counts; nil for one that neither ends in Z nor, within
// endGap mm, on its start. Coordinates are rounded to the nanometre,
// quadratic curves become cubic ones, and arcs become cubics within a
// micrometre. A point past 100 m is an error.
func (p Path) Rings(endGap float64) ([]geometry.Ring, error) {
	var rings []geometry.Ring
	var ring geometry.Ring
	var start, here geometry.Point
	var from, to Point
	last, closed := -1, false
	finish := func() {
		if last < 0 {
			return
		}
		closed = closed || len(ring) > 1 && to.sub(from).length() <= endGap
		if closed && here != start {
			if n := len(ring); n > 1 && to.sub(from).length() <= endGap {
				ring[n-1].To = start
			} else {
				ring = append(ring, geometry.LineTo(start))
			}
		}
		if !closed || len(ring) < 2 {
			ring = nil
		}
		rings = append(rings, ring)
	}
	for sub, s := range p.Segments() {
		if sub != last {
			finish()
			var err error
			if start, err = exact(s.From); err != nil {
				return nil, err
			}
			ring, last, closed, here, from = nil, sub, false, start, s.From
		}
		closed = closed || s.Kind == Closing
		to = s.To
		for _, c := range s.cubics() {
			next, err := c.exact()
			if err != nil {
				return nil, err
			}
			if next.To == here && !next.Curved {
				continue
			}
			ring, here = append(ring, next), next.To
		}
	}
	finish()
	return rings, nil
}

func exact(p Point) (geometry.Point, error) { return geometry.PointFromMM(p.X, p.Y) }

func (s Segment) exact() (geometry.Segment, error) {
	to, err := exact(s.To)
	if err != nil || s.Kind != Cubic {
		return geometry.LineTo(to), err
	}
	c1, err := exact(s.C1)
	if err != nil {
		return geometry.Segment{}, err
	}
	c2, err := exact(s.C2)
	return geometry.CurveTo(c1, c2, to), err
}

// cubics returns the segment as lines and cubics.
func (s Segment) cubics() []Segment {
	switch s.Kind {
	case Quadratic: // the same curve with a degree more
		s.Kind, s.C1, s.C2 = Cubic, between(s.From, s.C1, 2.0/3), between(s.To, s.C1, 2.0/3)
	case Arc:
		return s.arcCubics()
	}
	return []Segment{s}
}

// arcCubics cuts an arc into equal parts and draws each as the cubic whose
// middle lies on the arc, off by about 2 r / 27 · sin⁶(a/4) / cos²(a/4) at
// most for a part of a radians: 2.7e-4 of the radius for a quarter turn,
// and 64 times less for half of it. Source: M. Goldapp, "Approximation of
// circular arcs by cubic polynomials", Computer Aided Geometric Design 8
// (1991).
func (s Segment) arcCubics() []Segment {
	const within = 0.001 // mm
	parts := max(1, math.Ceil(math.Abs(s.Turn)/quarter))
	for reach := s.reach(); parts < 1024; parts *= 2 {
		a := math.Abs(s.Turn) / parts
		if reach*2.0/27*math.Pow(math.Sin(a/4), 6)/math.Pow(math.Cos(a/4), 2)*2 <= within {
			break
		}
	}
	a := s.Turn / parts
	arm := 4.0 / 3 * math.Tan(a/4)
	tangent := func(angle float64) Point {
		sin, cos := math.Sincos(angle)
		return s.V.times(cos).sub(s.U.times(sin)).times(arm)
	}
	out := make([]Segment, int(parts))
	from := s.From
	for i := range out {
		start, end := s.Start+float64(i)*a, s.Start+float64(i+1)*a
		to := s.Ellipse.at(end)
		if i == len(out)-1 {
			to = s.To
		}
		out[i] = Segment{Kind: Cubic, From: from, C1: from.add(tangent(start)), C2: to.sub(tangent(end)), To: to}
		from = to
	}
	return out
}
