package geometry

import "slices"

// A Segment is one step of a ring or a path, from where the step before
// ended to To: a straight line, or a cubic Bézier curve with the control
// points C1 and C2 where Curved is set.
type Segment struct {
	To     Point
	C1, C2 Point // only where Curved
	Curved bool
}

// LineTo is a straight segment.
func LineTo(p Point) Segment { return Segment{To: p} }

// CurveTo is a cubic segment.
func CurveTo(c1, c2, p Point) Segment { return Segment{To: p, C1: c1, C2: c2, Curved: true} }

// A Ring is a closed run of segments; it starts where its last one ends.
type Ring []Segment

// A Path is an open run of segments: a score line, a mark.
type Path struct {
	From Point
	Then []Segment
}

// PathFromPoints joins the points, of which there are at least two, with
// straight lines.
func PathFromPoints(first Point, others ...Point) Path {
	path := Path{From: first}
	for _, p := range others {
		path.Then = append(path.Then, LineTo(p))
	}
	return path
}

// Moved returns the path moved by v.
func (p Path) Moved(v Vector) Path {
	move := moveBy(v)
	return Path{move(p.From), mapSegments(p.Then, move)}
}

// End returns where the path ends.
func (p Path) End() Point {
	if n := len(p.Then); n > 0 {
		return p.Then[n-1].To
	}
	return p.From
}

// IsClosed reports whether the path ends where it starts: its segments are a
// ring then.
func (p Path) IsClosed() bool { return len(p.Then) > 0 && p.End() == p.From }

// Reversed returns the same path run the other way.
func (p Path) Reversed() Path {
	back := Path{From: p.End()}
	for i := len(p.Then) - 1; i >= 0; i-- {
		to := p.From
		if i > 0 {
			to = p.Then[i-1].To
		}
		back.Then = append(back.Then, Segment{To: to, C1: p.Then[i].C2, C2: p.Then[i].C1, Curved: p.Then[i].Curved})
	}
	return back
}

// Points returns where the path starts and where each segment ends.
func (p Path) Points() []Point {
	points := []Point{p.From}
	for _, s := range p.Then {
		points = append(points, s.To)
	}
	return points
}

// RingFromPoints joins the points with straight lines and closes the ring.
func RingFromPoints(points ...Point) Ring {
	ring := make(Ring, len(points))
	for i := range points {
		ring[i] = LineTo(points[(i+1)%len(points)])
	}
	return ring
}

// Start returns where the ring starts and ends. The ring is not empty.
func (r Ring) Start() Point { return r[len(r)-1].To }

// Points returns the vertices, from [Ring.Start] on; control points are no
// vertices.
func (r Ring) Points() []Point {
	points := make([]Point, len(r))
	for i := range r {
		points[i] = r.from(i)
	}
	return points
}

// from returns where segment i starts.
func (r Ring) from(i int) Point {
	if i == 0 {
		return r.Start()
	}
	return r[i-1].To
}

// IsStraight reports whether no segment is a curve.
func (r Ring) IsStraight() bool {
	return !slices.ContainsFunc(r, func(s Segment) bool { return s.Curved })
}

// Area returns the signed area inside: positive when the ring runs
// clockwise as seen on the page. Exact, curves included.
func (r Ring) Area() Area {
	var sum Area
	if len(r) == 0 {
		return sum
	}
	o := r.Start()
	for i, s := range r {
		sum = sum.Add(areaUnder(o, r.from(i), s))
	}
	return sum
}

// Reversed returns the same ring run the other way, from the same start.
func (r Ring) Reversed() Ring {
	back := make(Ring, len(r))
	for i, s := range r {
		back[len(r)-1-i] = Segment{To: r.from(i), C1: s.C2, C2: s.C1, Curved: s.Curved}
	}
	return back
}

// An Outline is one region: what lies inside the outer ring and outside
// all holes. The outer ring runs clockwise on the page (positive area), the
// holes run the other way; [Outline.Validate] says what else must hold.
type Outline struct {
	Outer Ring
	Holes []Ring
}

// OutlineFromPoints returns the region inside straight lines through the
// points, whichever way round they are given.
func OutlineFromPoints(points ...Point) Outline {
	return OutlineFromRing(RingFromPoints(points...))
}

// OutlineFromRing returns the region inside a ring of either direction.
func OutlineFromRing(r Ring) Outline {
	if r.Area().Sign() < 0 {
		r = r.Reversed()
	}
	return Outline{Outer: r}
}

// Rings returns the outer ring and then the holes.
func (o Outline) Rings() []Ring {
	return append([]Ring{o.Outer}, o.Holes...)
}

// Area returns the area of the region, exactly.
func (o Outline) Area() Area {
	var sum Area
	for _, r := range o.Rings() {
		sum = sum.Add(r.Area())
	}
	return sum
}

// IsStraight reports whether no segment is a curve.
func (o Outline) IsStraight() bool {
	return !slices.ContainsFunc(o.Rings(), func(r Ring) bool { return !r.IsStraight() })
}

// Bounds returns the smallest upright oblong around the region. Curves
// count with their true extent, rounded outward to the nanometre.
func (o Outline) Bounds() Rect {
	var b Rect
	for i, s := range o.Outer {
		from := o.Outer.from(i)
		if i == 0 {
			b = Rect{from, from}
		}
		b = b.including(s.To)
		if s.Curved {
			b = b.Union(curveBounds(from, s))
		}
	}
	return b
}

// IsConvex reports whether the region is straight-edged, without holes, and
// has no dent; straight-on vertices are allowed.
func (o Outline) IsConvex() bool {
	if len(o.Holes) > 0 || !o.Outer.IsStraight() || len(o.Outer) < 3 {
		return false
	}
	points := o.Outer.Points()
	n := len(points)
	for i := range points {
		if Turn(points[i], points[(i+1)%n], points[(i+2)%n]) < 0 {
			return false
		}
	}
	return o.Validate() == nil
}

// Contains reports whether p lies inside or on the border. Curves are
// followed within 1 micrometre.
func (o Outline) Contains(p Point) bool {
	inside, border := o.locate(p)
	return inside || border
}

// InteriorContains reports whether p lies inside and not on the border.
// Curves are followed within 1 micrometre.
func (o Outline) InteriorContains(p Point) bool {
	inside, border := o.locate(p)
	return inside && !border
}

// locate counts how often the rings pass on the right of p; exact.
func (o Outline) locate(p Point) (inside, border bool) {
	for _, r := range o.Rings() {
		points := r.Flatten(Micrometre)
		for i, a := range points {
			b := points[(i+1)%len(points)]
			if onSegment(p, a, b) {
				return false, true
			}
			if (a.Y > p.Y) == (b.Y > p.Y) {
				continue
			}
			if side := (Line{a, b}).Side(p); (b.Y > a.Y) == (side > 0) {
				inside = !inside
			}
		}
	}
	return inside, false
}

// onSegment reports whether p lies on the segment a-b, ends included.
func onSegment(p, a, b Point) bool {
	return min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) &&
		min(a.Y, b.Y) <= p.Y && p.Y <= max(a.Y, b.Y) &&
		cross(b.Sub(a), p.Sub(a)).sign() == 0
}

// Perimeter returns the length of all borders in nanometres, curves within
// 1 micrometre a curve.
func (o Outline) Perimeter() float64 {
	sum := 0.0
	for _, r := range o.Rings() {
		points := r.Flatten(Micrometre)
		for i, p := range points {
			sum += points[(i+1)%len(points)].Sub(p).Len()
		}
	}
	return sum
}
