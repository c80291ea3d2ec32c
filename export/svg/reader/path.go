package reader

import (
	"iter"
	"math"
)

// A Point is a point in millimetres on the sheet, or in user units while a
// file is being read; x to the right, y down.
type Point struct{ X, Y float64 }

func (p Point) add(q Point) Point         { return Point{p.X + q.X, p.Y + q.Y} }
func (p Point) sub(q Point) Point         { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) times(f float64) Point     { return Point{f * p.X, f * p.Y} }
func (p Point) cross(q Point) float64     { return p.X*q.Y - p.Y*q.X }
func (p Point) dot(q Point) float64       { return p.X*q.X + p.Y*q.Y }
func (p Point) length() float64           { return math.Hypot(p.X, p.Y) }
func between(p, q Point, t float64) Point { return Point{p.X + t*(q.X-p.X), p.Y + t*(q.Y-p.Y)} }

// A Path is sub-paths of lines, quadratic and cubic Bezier curves and
// elliptical arcs, each kept as what it is. It is stored in two runs, one
// byte a segment and its numbers, since path data can hold millions.
type Path struct {
	ops     []SegmentKind
	numbers []float64
}

// A SegmentKind says how a [Segment] runs.
type SegmentKind byte

const (
	move      SegmentKind = 'M'
	Line      SegmentKind = 'L'
	Quadratic SegmentKind = 'Q'
	Cubic     SegmentKind = 'C'
	Arc       SegmentKind = 'A'
	Closing   SegmentKind = 'Z' // the straight line back to the start, often of no length
)

// A Segment is one step of a sub-path.
type Segment struct {
	Kind   SegmentKind
	From   Point
	C1, C2 Point // the control points of a curve; a quadratic has only C1
	Ellipse
	To Point
}

// An Ellipse is the way of an [Arc]: Centre + U cos a + V sin a, with the
// angle a going from Start by Turn, in radians. U and V are conjugate half
// diameters, so the image under any affine map has the same form.
type Ellipse struct {
	Centre, U, V Point
	Start, Turn  float64
}

func (e Ellipse) at(angle float64) Point {
	sin, cos := math.Sincos(angle)
	return Point{e.Centre.X + e.U.X*cos + e.V.X*sin, e.Centre.Y + e.U.Y*cos + e.V.Y*sin}
}

func (p *Path) moveTo(q Point) { p.put(move, q) }
func (p *Path) lineTo(q Point) { p.put(Line, q) }
func (p *Path) close()         { p.ops = append(p.ops, Closing) }

func (p *Path) put(kind SegmentKind, points ...Point) {
	p.ops = append(p.ops, kind)
	for _, q := range points {
		p.numbers = append(p.numbers, q.X, q.Y)
	}
}

func (p *Path) arcTo(e Ellipse, to Point) {
	p.put(Arc, e.Centre, e.U, e.V, Point{e.Start, e.Turn}, to)
}

// points is how many points stand in Path.numbers for each kind.
func (k SegmentKind) points() int {
	switch k {
	case Closing:
		return 0
	case Quadratic:
		return 2
	case Cubic:
		return 3
	case Arc:
		return 5
	}
	return 1
}

// Segments returns every segment with the number of its sub-path, from 0. A
// sub-path starts at each moveto, and behind each closepath; one without a
// segment draws nothing and is not counted (SVG 2 §9.3.3, §9.5.3).
func (p Path) Segments() iter.Seq2[int, Segment] {
	return func(yield func(int, Segment) bool) {
		n := p.numbers
		point := func(i int) Point { return Point{n[2*i], n[2*i+1]} }
		var from, start Point
		sub, fresh := -1, true
		for _, kind := range p.ops {
			s := Segment{Kind: kind, From: from}
			switch kind {
			case move:
				from, fresh = point(0), true
				start = from
				n = n[2:]
				continue
			case Closing:
				s.To = start
			case Line:
				s.To = point(0)
			case Quadratic:
				s.C1, s.To = point(0), point(1)
			case Cubic:
				s.C1, s.C2, s.To = point(0), point(1), point(2)
			case Arc:
				s.Ellipse = Ellipse{point(0), point(1), point(2), n[6], n[7]}
				s.To = point(4)
			}
			n = n[2*kind.points():]
			if fresh {
				sub, fresh = sub+1, false
			}
			if !yield(sub, s) {
				return
			}
			from = s.To
			fresh = kind == Closing
		}
	}
}

// weight is what the path takes of the segments that a file may have; an arc
// counts as the curves that it would otherwise be.
func (p Path) weight() int { return max(len(p.ops), len(p.numbers)/4) }

// mapped applies m in place.
func (p *Path) mapped(m matrix) {
	i := 0
	for _, kind := range p.ops {
		for j := range kind.points() {
			at := p.numbers[i : i+2 : i+2]
			i += 2
			if kind == Arc && j == 3 {
				continue // the angles
			}
			q := Point{at[0], at[1]}
			if kind == Arc && (j == 1 || j == 2) {
				q = m.vector(q)
			} else {
				q = m.point(q)
			}
			at[0], at[1] = q.X, q.Y
		}
	}
}

// A Box is the smallest box around points; the zero value holds none.
type Box struct {
	Min, Max Point
	filled   bool
}

// Empty reports whether the box holds no point at all.
func (b Box) Empty() bool { return !b.filled }

// W and H are the sides.
func (b Box) W() float64 { return b.Max.X - b.Min.X }
func (b Box) H() float64 { return b.Max.Y - b.Min.Y }

func (b *Box) add(p Point) {
	if !b.filled {
		*b = Box{p, p, true}
		return
	}
	b.Min.X, b.Min.Y = min(b.Min.X, p.X), min(b.Min.Y, p.Y)
	b.Max.X, b.Max.Y = max(b.Max.X, p.X), max(b.Max.Y, p.Y)
}

func (b *Box) addBox(c Box) {
	if c.filled {
		b.add(c.Min)
		b.add(c.Max)
	}
}

// Bounds returns the tight box: of the curve, not of its control points
// (SVG 2 §8.10).
func (p Path) Bounds() Box {
	var b Box
	for _, s := range p.Segments() {
		b.add(s.From)
		b.add(s.To)
		switch s.Kind {
		case Quadratic:
			for _, t := range [2]float64{
				quadraticExtreme(s.From.X, s.C1.X, s.To.X), quadraticExtreme(s.From.Y, s.C1.Y, s.To.Y),
			} {
				if t > 0 && t < 1 {
					b.add(s.At(t))
				}
			}
		case Cubic:
			for _, axis := range [2][4]float64{{s.From.X, s.C1.X, s.C2.X, s.To.X}, {s.From.Y, s.C1.Y, s.C2.Y, s.To.Y}} {
				roots, n := cubicExtremes(axis)
				for _, t := range roots[:n] {
					if t > 0 && t < 1 {
						b.add(s.At(t))
					}
				}
			}
		case Arc:
			for _, peak := range [2]float64{math.Atan2(s.V.X, s.U.X), math.Atan2(s.V.Y, s.U.Y)} {
				for _, angle := range [2]float64{peak, peak + math.Pi} {
					if s.passes(angle) {
						b.add(s.Ellipse.at(angle))
					}
				}
			}
		}
	}
	return b
}

// passes reports whether the arc runs through the angle.
func (e Ellipse) passes(angle float64) bool {
	way := math.Mod(angle-e.Start, 2*math.Pi)
	if e.Turn < 0 {
		way = -way
	}
	if way < 0 {
		way += 2 * math.Pi
	}
	return way <= math.Abs(e.Turn)
}

// quadraticExtreme returns where the derivative of one coordinate is zero.
func quadraticExtreme(a, b, c float64) float64 {
	if d := a - 2*b + c; d != 0 {
		return (a - b) / d
	}
	return -1
}

// cubicExtremes solves the quadratic equation of the derivative without
// losing digits to cancellation.
func cubicExtremes(p [4]float64) (roots [2]float64, n int) {
	a := -p[0] + 3*p[1] - 3*p[2] + p[3]
	b := 2 * (p[0] - 2*p[1] + p[2])
	c := p[1] - p[0]
	if a == 0 {
		if b == 0 {
			return roots, 0
		}
		return [2]float64{-c / b}, 1
	}
	d := b*b - 4*a*c
	if d < 0 {
		return roots, 0
	}
	q := -(b + math.Copysign(math.Sqrt(d), b)) / 2
	roots[0] = q / a
	if q == 0 {
		return roots, 1
	}
	roots[1] = c / q
	return roots, 2
}

// At returns the point at t between 0 and 1.
func (s Segment) At(t float64) Point {
	switch s.Kind {
	case Quadratic:
		return between(between(s.From, s.C1, t), between(s.C1, s.To, t), t)
	case Cubic:
		a, b, c := between(s.From, s.C1, t), between(s.C1, s.C2, t), between(s.C2, s.To, t)
		return between(between(a, b, t), between(b, c, t), t)
	case Arc:
		return s.Ellipse.at(s.Start + t*s.Turn)
	}
	return between(s.From, s.To, t)
}

// velocity returns the derivative at t.
func (s Segment) velocity(t float64) Point {
	switch s.Kind {
	case Quadratic:
		return between(s.C1.sub(s.From), s.To.sub(s.C1), t).times(2)
	case Cubic:
		a, b, c := s.C1.sub(s.From), s.C2.sub(s.C1), s.To.sub(s.C2)
		return between(between(a, b, t), between(b, c, t), t).times(3)
	case Arc:
		sin, cos := math.Sincos(s.Start + t*s.Turn)
		return s.V.times(cos).sub(s.U.times(sin)).times(s.Turn)
	}
	return s.To.sub(s.From)
}

// Length returns the length of the segment to about 1e-9 of itself.
func (s Segment) Length() float64 {
	switch s.Kind {
	case Line, Closing:
		return s.To.sub(s.From).length()
	case Arc: // by quarters, so that a thin ellipse's tips are not stepped over
		parts := max(1, math.Ceil(math.Abs(s.Turn)/quarter*2))
		var sum float64
		for i := range int(parts) {
			from, to := float64(i)/parts, float64(i+1)/parts
			sum += s.lengthBetween(from, to, s.gauss(from, to), 14)
		}
		return sum
	case Quadratic:
		s = s.cubics()[0]
	}
	polygon := s.polygon()
	return s.tameLength(1e-11*polygon, 50)
}

// polygon is the length of a cubic's control polygon, which the curve's never
// exceeds.
func (s Segment) polygon() float64 {
	return s.C1.sub(s.From).length() + s.C2.sub(s.C1).length() + s.To.sub(s.C2).length()
}

// turnsBack reports whether a leg of the control polygon runs against the one
// before, as at a kink.
func (s Segment) turnsBack() bool {
	a, b, c := s.C1.sub(s.From), s.C2.sub(s.C1), s.To.sub(s.C2)
	return a.dot(b) < 0 || b.dot(c) < 0 || a.dot(c) < 0
}

// tameLength halves a cubic until its polygon is hardly longer than its
// chord and nowhere turns back, so that no kink hides between the points of the rule, and then
// integrates. Source of the bound by polygon and chord: J. Gravesen,
// "Adaptive subdivision and the length and energy of Bezier curves",
// Computational Geometry 8 (1997).
func (s Segment) tameLength(negligible float64, depth int) float64 {
	polygon, chord := s.polygon(), s.To.sub(s.From).length()
	switch {
	case polygon <= negligible || depth == 0:
		return (polygon + chord) / 2
	case polygon-chord <= 0.05*polygon && !s.turnsBack():
		return s.lengthBetween(0, 1, s.gauss(0, 1), 12)
	}
	a, b := s.halves()
	return a.tameLength(negligible, depth-1) + b.tameLength(negligible, depth-1)
}

// halves cuts a cubic in two at its middle (de Casteljau).
func (s Segment) halves() (Segment, Segment) {
	a, b, c := between(s.From, s.C1, 0.5), between(s.C1, s.C2, 0.5), between(s.C2, s.To, 0.5)
	d, e := between(a, b, 0.5), between(b, c, 0.5)
	m := between(d, e, 0.5)
	return Segment{Kind: Cubic, From: s.From, C1: a, C2: d, To: m}, Segment{Kind: Cubic, From: m, C1: e, C2: c, To: s.To}
}

// gaussNodes and gaussWeights are those of the Gauss-Legendre rule with five
// points on -1 to 1. Source: NIST Digital Library of Mathematical Functions,
// table 3.5.1.
var (
	gaussNodes   = [5]float64{0, 0.538469310105683, -0.538469310105683, 0.906179845938664, -0.906179845938664}
	gaussWeights = [5]float64{0.568888888888889, 0.478628670499366, 0.478628670499366, 0.236926885056189, 0.236926885056189}
)

func (s Segment) gauss(from, to float64) float64 {
	half, mid := (to-from)/2, (to+from)/2
	var sum float64
	for i, x := range gaussNodes {
		sum += gaussWeights[i] * s.velocity(mid+half*x).length()
	}
	return half * sum
}

func (s Segment) lengthBetween(from, to, whole float64, depth int) float64 {
	mid := (from + to) / 2
	left, right := s.gauss(from, mid), s.gauss(mid, to)
	if depth == 0 || math.Abs(left+right-whole) <= 1e-10*(1+whole) {
		return left + right
	}
	return s.lengthBetween(from, mid, left, depth-1) + s.lengthBetween(mid, to, right, depth-1)
}

// Area returns the signed area between the segment and the rays from o to
// its ends: half the integral of (P-o) x P', which is exact for each kind.
func (s Segment) Area(o Point) float64 {
	switch s.Kind {
	case Line, Closing:
		return s.From.sub(o).cross(s.To.sub(o)) / 2
	case Arc:
		return (s.Centre.sub(o).cross(s.To.sub(s.From)) + s.U.cross(s.V)*s.Turn) / 2
	}
	// A polynomial of degree 5 at most: three points are exact (DLMF 3.5.1).
	node := math.Sqrt(0.6)
	var sum float64
	for i, t := range [3]float64{0.5 - node/2, 0.5, 0.5 + node/2} {
		weight := [3]float64{5, 8, 5}[i] / 18
		sum += weight * s.At(t).sub(o).cross(s.velocity(t))
	}
	return sum / 2
}

// Length returns the length of the whole path, closing lines included.
func (p Path) Length() float64 {
	var sum float64
	for _, s := range p.Segments() {
		sum += s.Length()
	}
	return sum
}

// Flatten returns points along the segment behind its start, so that no
// point of it is farther than the tolerance from the chords.
func (s Segment) Flatten(tolerance float64, points []Point) []Point {
	n := 1
	switch s.Kind {
	case Quadratic: // the second derivative is constant
		n = steps(s.From.sub(s.C1.times(2)).add(s.To).length()*2, tolerance)
	case Cubic: // and here largest at one of the ends
		a := s.From.sub(s.C1.times(2)).add(s.C2).length()
		b := s.C1.sub(s.C2.times(2)).add(s.To).length()
		n = steps(6*max(a, b), tolerance)
	case Arc:
		n = steps(s.reach()*s.Turn*s.Turn, tolerance)
	}
	for i := 1; i < n; i++ {
		points = append(points, s.At(float64(i)/float64(n)))
	}
	return append(points, s.To)
}

// reach is the ellipse's long half axis: the larger singular value of the
// matrix with the columns U and V.
func (e Ellipse) reach() float64 {
	a, b, c := e.U.dot(e.U), e.V.dot(e.V), e.U.dot(e.V)
	return math.Sqrt((a + b + math.Hypot(a-b, 2*c)) / 2)
}

// steps returns how many chords a curve with second derivatives up to bend
// needs: each is off by at most bend/(8n²). More than 1000 are never made.
func steps(bend, tolerance float64) int {
	n := math.Ceil(math.Sqrt(bend / (8 * tolerance)))
	if !(n >= 1) {
		return 1
	}
	return int(min(n, 1000))
}

// BoxOf returns the box around points.
func BoxOf(points []Point) Box {
	var b Box
	for _, p := range points {
		b.add(p)
	}
	return b
}

// Direction returns the unit vector along the segment at its start (t = 0)
// or its end (t = 1); the zero vector where it has no length.
func (s Segment) Direction(t float64) Point {
	d := s.velocity(t)
	if d.length() < 1e-12 { // a control point lies on the end
		near := s.At(1e-4)
		d = near.sub(s.From)
		if t > 0.5 {
			d = s.To.sub(s.At(1 - 1e-4))
		}
	}
	if l := d.length(); l > 0 {
		return d.times(1 / l)
	}
	return Point{}
}
