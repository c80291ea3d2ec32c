package geometry

import "math"

// Centre returns the region's centre of mass, rounded to the nanometre.
// Curves are followed within 1 micrometre. It can lie outside a concave
// region. The outline must be valid.
func (o Outline) Centre() Point {
	base := o.Outer.Start()
	var area, mx, my float64 // twice the area, six times the moments
	for _, r := range o.Rings() {
		points := r.Flatten(Micrometre)
		for i, p := range points {
			a, b := p.Sub(base), points[(i+1)%len(points)].Sub(base)
			w := cross(a, b).float()
			area += w
			mx += w * float64(a.X+b.X)
			my += w * float64(a.Y+b.Y)
		}
	}
	if area == 0 {
		return base
	}
	return base.Add(Vector{Length(math.Round(mx / area / 3)), Length(math.Round(my / area / 3))})
}
