package geometry

// Area is an exact signed area, counted in twentieths of a square
// nanometre: the area inside cubic curves whose points have whole
// coordinates is a whole number of those. The zero value is no area.
type Area struct{ twentieths wide }

// SquareMM returns the area in square millimetres, as the nearest float64.
func (a Area) SquareMM() float64 { return a.twentieths.float() / 20 / 1e12 }

// Add returns a + b.
func (a Area) Add(b Area) Area { return Area{a.twentieths.add(b.twentieths)} }

// Sub returns a - b.
func (a Area) Sub(b Area) Area { return Area{a.twentieths.sub(b.twentieths)} }

// Sign returns -1, 0 or 1.
func (a Area) Sign() int { return a.twentieths.sign() }

// Cmp returns -1 where a is less than b, 1 where it is more, else 0.
func (a Area) Cmp(b Area) int { return a.twentieths.cmp(b.twentieths) }

// areaUnder returns what the segment from p adds to the area of a ring, by
// Green's theorem, with all points taken from the origin o. For a line it
// is half the cross product of its ends. For a cubic with control points
// p0..p3 it is
//
//	(6 p0×p1 + 3 p0×p2 + p0×p3 + 3 p1×p2 + 3 p1×p3 + 6 p2×p3) / 20,
//
// which follows from integrating the Bernstein polynomials term by term.
func areaUnder(o, p Point, s Segment) Area {
	p0, p3 := p.Sub(o), s.To.Sub(o)
	if !s.Curved {
		return Area{cross(p0, p3).times(10)}
	}
	p1, p2 := s.C1.Sub(o), s.C2.Sub(o)
	sum := cross(p0, p1).add(cross(p2, p3)).times(6)
	sum = sum.add(cross(p0, p2).add(cross(p1, p2)).add(cross(p1, p3)).times(3))
	return Area{sum.add(cross(p0, p3))}
}
