package geometry

import (
	"fmt"
	"math"
)

// A Point is a place: x to the right, y down.
type Point struct{ X, Y Length }

// A Vector is the way from one place to another. Points and vectors are
// different types so that place + place does not compile.
type Vector struct{ X, Y Length }

// PointFromMM returns the point nearest to a place given in millimetres. It
// refuses what is no number and what lies past [Limit].
func PointFromMM(x, y float64) (Point, error) {
	limit := Limit.In(Millimetres)
	for _, v := range []float64{x, y} {
		if math.IsNaN(v) {
			return Point{}, fmt.Errorf("point (%v, %v): not a number", x, y)
		}
		if math.Abs(v) > limit {
			return Point{}, fmt.Errorf("point (%v, %v) mm: further than 100 m from the origin", x, y)
		}
	}
	mm := float64(Millimetre)
	return Point{Length(math.Round(x * mm)), Length(math.Round(y * mm))}, nil
}

// pointFrom rounds a place given in nanometres; the caller knows its range.
func pointFrom(x, y float64) Point {
	return Point{Length(math.Round(x)), Length(math.Round(y))}
}

// Add returns the place reached from p by v.
func (p Point) Add(v Vector) Point { return Point{p.X + v.X, p.Y + v.Y} }

// Sub returns the way from q to p.
func (p Point) Sub(q Point) Vector { return Vector{p.X - q.X, p.Y - q.Y} }

// String returns the place in millimetres: "(12.7, 3) mm".
func (p Point) String() string { return "(" + p.X.MM() + ", " + p.Y.MM() + ") mm" }

// InRange reports whether both coordinates lie within [Limit].
func (p Point) InRange() bool { return p.X.Abs() <= Limit && p.Y.Abs() <= Limit }

// Add returns one way after the other.
func (v Vector) Add(w Vector) Vector { return Vector{v.X + w.X, v.Y + w.Y} }

// Neg returns the way back.
func (v Vector) Neg() Vector { return Vector{-v.X, -v.Y} }

// Len returns the length of the way, as a float64 of nanometres.
func (v Vector) Len() float64 { return math.Hypot(float64(v.X), float64(v.Y)) }

// small bounds the differences whose products fit 63 bits together.
const small = 1 << 31

// fits reports whether v's products can be summed in an int64.
func (v Vector) fits() bool {
	return v.X < small && v.X > -small && v.Y < small && v.Y > -small
}

// cross returns v.X*w.Y - v.Y*w.X, exactly.
func cross(v, w Vector) wide {
	if v.fits() && w.fits() {
		return wideFrom(int64(v.X)*int64(w.Y) - int64(v.Y)*int64(w.X))
	}
	return mulWide(int64(v.X), int64(w.Y)).sub(mulWide(int64(v.Y), int64(w.X)))
}

// dot returns v.X*w.X + v.Y*w.Y, exactly.
func dot(v, w Vector) wide {
	return mulWide(int64(v.X), int64(w.X)).add(mulWide(int64(v.Y), int64(w.Y)))
}

// Turn tells which way the path a, b, c bends at b: 1 clockwise as seen on
// the page, -1 counter-clockwise, 0 not at all (or straight back). Exact for
// points within [Limit].
func Turn(a, b, c Point) int { return cross(b.Sub(a), c.Sub(b)).sign() }

// A Line is the endless straight line through two different points, with
// the way from A to B as its direction.
type Line struct{ A, B Point }

// Side tells where p lies for somebody who walks from A to B on the page: 1
// on the right hand, -1 on the left, 0 on the line.
func (l Line) Side(p Point) int { return cross(l.B.Sub(l.A), p.Sub(l.A)).sign() }

// Moved returns the line moved as a whole.
func (l Line) Moved(v Vector) Line { return Line{l.A.Add(v), l.B.Add(v)} }

// toTheRight returns the vector that points square to the line, to the right
// hand of somebody who walks from A to B. It is exact for a line along an
// axis. Otherwise each coordinate is rounded to the nanometre, so that what
// lies beyond is never closer to the line than by, and less than 1.5 nm more.
func (l Line) toTheRight(by Length) Vector {
	d := l.B.Sub(l.A)
	switch {
	case d.X == 0 && d.Y > 0:
		return Vector{-by, 0}
	case d.X == 0:
		return Vector{by, 0}
	case d.Y == 0 && d.X > 0:
		return Vector{0, by}
	case d.Y == 0:
		return Vector{0, -by}
	}
	scale := float64(by) / d.Len()
	x, y := -float64(d.Y)*scale, float64(d.X)*scale
	nearest := Vector{Length(math.Round(x)), Length(math.Round(y))}
	if reaches(d, nearest, by) {
		return nearest
	}
	return Vector{awayFromZero(x), awayFromZero(y)}
}

// reaches reports whether v takes one at least that far to the right of the
// line along d: cross(d, v) / |d| >= by; exact.
func reaches(d, v Vector, by Length) bool {
	area := cross(d, v).big()
	square := mulWide(int64(by), int64(by)).big()
	return area.Mul(area, area).Cmp(square.Mul(square, dot(d, d).big())) >= 0
}

func awayFromZero(x float64) Length {
	return Length(math.Copysign(math.Ceil(math.Abs(x)), x))
}
