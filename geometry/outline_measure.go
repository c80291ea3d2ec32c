package geometry

import "math"

// Breadth returns the narrowest that the region is in any direction: the
// width of the narrowest strip that it fits in, rounded to the nanometre. For
// a straight-edged convex region that strip has a border along one of its
// sides; a concave region is measured as its sides and corners tell, and
// curves are followed within 10 micrometres.
func (o Outline) Breadth() Length {
	points := o.Outer.Flatten(10 * Micrometre)
	least := math.Inf(1)
	for i, p := range points {
		side := points[(i+1)%len(points)].Sub(p)
		length := side.Len()
		if length == 0 {
			continue
		}
		lo, hi := 0.0, 0.0
		for _, q := range points {
			h := cross(side, q.Sub(p)).float() / length
			lo, hi = math.Min(lo, h), math.Max(hi, h)
		}
		least = math.Min(least, hi-lo)
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return Length(math.Round(least))
}

// Angles returns the angles inside the region at its corners, in degrees
// from 0 to 360: ring by ring, the outer one first, in the order of
// [Ring.Points]. Where a curve starts or ends, its direction there counts.
func (o Outline) Angles() []float64 {
	var out []float64
	for _, r := range o.Rings() {
		for i, s := range r {
			before := (i + len(r) - 1) % len(r)
			in, on := arriving(r.from(before), r[before]), leaving(r.from(i), s)
			turn := math.Atan2(cross(in, on).float(), dot(in, on).float()) * 180 / math.Pi
			out = append(out, 180-turn)
		}
	}
	return out
}

// arriving returns the direction in which a segment from p ends.
func arriving(p Point, s Segment) Vector {
	if !s.Curved {
		return s.To.Sub(p)
	}
	for _, from := range []Point{s.C2, s.C1, p} {
		if from != s.To {
			return s.To.Sub(from)
		}
	}
	return Vector{}
}

// leaving returns the direction in which a segment from p starts.
func leaving(p Point, s Segment) Vector {
	if !s.Curved {
		return s.To.Sub(p)
	}
	for _, to := range []Point{s.C1, s.C2, s.To} {
		if to != p {
			return to.Sub(p)
		}
	}
	return Vector{}
}
