package geometry

import "fmt"

// A Rect is an upright oblong with Min at its top left and Max at its
// bottom right.
type Rect struct{ Min, Max Point }

// RectFromSize returns the oblong of that size with its top left at p.
func RectFromSize(p Point, s Size) Rect { return Rect{p, Point{p.X + s.W, p.Y + s.H}} }

// W returns the width.
func (r Rect) W() Length { return r.Max.X - r.Min.X }

// H returns the height.
func (r Rect) H() Length { return r.Max.Y - r.Min.Y }

// Size returns width and height.
func (r Rect) Size() Size { return Size{r.W(), r.H()} }

// Centre returns the middle, rounded down to the nanometre.
func (r Rect) Centre() Point {
	return Point{r.Min.X + r.W()/2, r.Min.Y + r.H()/2}
}

// Inset returns the oblong with the same length taken off all four sides
// (added, when negative). It is refused when nothing would be left.
func (r Rect) Inset(by Length) (Rect, error) {
	in := Rect{Point{r.Min.X + by, r.Min.Y + by}, Point{r.Max.X - by, r.Max.Y - by}}
	if in.W() <= 0 || in.H() <= 0 {
		return Rect{}, fmt.Errorf("%s on each side leaves nothing of %s", by, r.Size())
	}
	return in, nil
}

// Outline returns the oblong as a region.
func (r Rect) Outline() Outline {
	return Outline{Outer: RingFromPoints(
		r.Min, Point{r.Max.X, r.Min.Y}, r.Max, Point{r.Min.X, r.Max.Y})}
}

// Moved returns the oblong moved by v.
func (r Rect) Moved(v Vector) Rect { return Rect{r.Min.Add(v), r.Max.Add(v)} }

// ContainsRect reports whether s lies within r; borders may touch.
func (r Rect) ContainsRect(s Rect) bool {
	return r.Min.X <= s.Min.X && r.Min.Y <= s.Min.Y && s.Max.X <= r.Max.X && s.Max.Y <= r.Max.Y
}

func (r Rect) including(p Point) Rect { return r.Union(Rect{p, p}) }

// Union returns the smallest upright oblong around both.
func (r Rect) Union(s Rect) Rect {
	return Rect{
		Point{min(r.Min.X, s.Min.X), min(r.Min.Y, s.Min.Y)},
		Point{max(r.Max.X, s.Max.X), max(r.Max.Y, s.Max.Y)},
	}
}
