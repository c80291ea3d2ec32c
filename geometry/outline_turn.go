package geometry

import "math"

// moveBy returns the function that moves a point by v.
func moveBy(v Vector) func(Point) Point {
	return func(p Point) Point { return p.Add(v) }
}

// turnBy returns the function that turns a point about the origin by an
// angle in degrees, clockwise as seen on the page. Quarter turns are exact;
// others round to the nearest nanometre.
func turnBy(degrees float64) func(Point) Point {
	switch NormalDegrees(degrees) {
	case 0:
		return func(p Point) Point { return p }
	case 90:
		return func(p Point) Point { return Point{-p.Y, p.X} }
	case 180:
		return func(p Point) Point { return Point{-p.X, -p.Y} }
	case 270:
		return func(p Point) Point { return Point{p.Y, -p.X} }
	}
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return func(p Point) Point {
		x, y := float64(p.X), float64(p.Y)
		return pointFrom(x*cos-y*sin, x*sin+y*cos)
	}
}

// sincos returns sine and cosine of an angle in degrees, exactly for quarter
// turns.
func sincos(degrees float64) (sin, cos float64) {
	switch NormalDegrees(degrees) {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	}
	return math.Sincos(degrees * math.Pi / 180)
}

// NormalDegrees returns the same direction as an angle from 0 up to, but
// not including, 360 degrees.
func NormalDegrees(degrees float64) float64 {
	d := math.Mod(degrees, 360)
	if d < 0 {
		d += 360
	}
	if d >= 360 || d == 0 { // a tiny negative rounds up to 360; -0 is no angle
		return 0
	}
	return d
}

func mapSegments(in []Segment, f func(Point) Point) []Segment {
	out := make([]Segment, len(in))
	for i, s := range in {
		out[i] = Segment{To: f(s.To), Curved: s.Curved}
		if s.Curved {
			out[i].C1, out[i].C2 = f(s.C1), f(s.C2)
		}
	}
	return out
}

// Mapped returns the region with each corner and control point put where the
// function puts it. The function keeps directions of turning: it may scale,
// move and turn, and must not mirror.
func (o Outline) Mapped(f func(Point) Point) Outline { return o.mapped(f) }

func (o Outline) mapped(f func(Point) Point) Outline {
	out := Outline{Outer: mapSegments(o.Outer, f)}
	for _, h := range o.Holes {
		out.Holes = append(out.Holes, mapSegments(h, f))
	}
	return out
}

// Moved returns the region moved by v.
func (o Outline) Moved(v Vector) Outline { return o.mapped(moveBy(v)) }

// Turned returns the region turned about the origin by an angle in degrees,
// clockwise as seen on the page (y is down). Quarter turns are exact; others
// round each point to the nearest nanometre.
func (o Outline) Turned(degrees float64) Outline { return o.mapped(turnBy(degrees)) }

// Turned returns the point turned about the origin, as [Outline.Turned] does.
func (p Point) Turned(degrees float64) Point { return turnBy(degrees)(p) }

// Turned returns the path turned about the origin, as [Outline.Turned] does.
func (p Path) Turned(degrees float64) Path {
	turn := turnBy(degrees)
	return Path{turn(p.From), mapSegments(p.Then, turn)}
}

// Mirrored returns the region turned over sideways, left for right, about
// the line x = 0. A "/" half becomes a "\" half: call it only for paper
// whose two sides are alike.
func (o Outline) Mirrored() Outline {
	m := o.mapped(func(p Point) Point { return Point{-p.X, p.Y} })
	m.Outer = m.Outer.Reversed()
	for i := range m.Holes {
		m.Holes[i] = m.Holes[i].Reversed()
	}
	return m
}
