package fronts

import (
	"cmp"
	"math"
	"slices"

	"panelry/geometry"
)

// besideStretch is the shortest stretch of border along which panels lie
// beside each other: less is a corner. Our own measure, no source.
const besideStretch = geometry.Millimetre / 2

// besideSlack is what a gap may be wider than asked, for rounded corners and
// flattened curves.
const besideSlack = geometry.Millimetre / 10

// Beside returns the pairs of panels that lie beside each other, each pair
// once and in order: along a stretch of their borders no more than one and a
// half gaps are between them. Panels that meet at a corner do not count, and
// no panel fits between the two, as the narrowest is [LeastPanel]. The gap is
// the widest that the front has.
func Beside(panels []Panel, gap geometry.Length) [][2]int {
	reach := gap*3/2 + besideSlack
	sides := make([][]stretchOfBorder, len(panels))
	boxes := make([]geometry.Rect, len(panels))
	fromLeft := make([]int, len(panels))
	for i, p := range panels {
		sides[i], boxes[i], fromLeft[i] = bordersOf(p.Outline), p.Outline.Bounds(), i
	}
	slices.SortStableFunc(fromLeft, func(i, j int) int { return cmp.Compare(boxes[i].Min.X, boxes[j].Min.X) })
	var pairs [][2]int
	for at, i := range fromLeft {
		for _, j := range fromLeft[at+1:] {
			if boxes[j].Min.X > boxes[i].Max.X+reach {
				break
			}
			if boxesMeet(boxes[i], boxes[j], reach) && facing(sides[i], sides[j], float64(reach)) >= float64(besideStretch) {
				pairs = append(pairs, [2]int{min(i, j), max(i, j)})
			}
		}
	}
	slices.SortFunc(pairs, func(p, q [2]int) int { return slices.Compare(p[:], q[:]) })
	return pairs
}

// stretchOfBorder is one straight side: where it starts, its unit direction
// and its length in nm.
type stretchOfBorder struct{ x, y, dx, dy, length float64 }

// bordersOf returns the sides of an outline, curves as chords within 0.01 mm.
func bordersOf(o geometry.Outline) []stretchOfBorder {
	var out []stretchOfBorder
	for _, r := range o.Rings() {
		points := r.Flatten(10 * geometry.Micrometre)
		for i, p := range points {
			v := points[(i+1)%len(points)].Sub(p)
			length := v.Len()
			if length > 0 {
				out = append(out, stretchOfBorder{float64(p.X), float64(p.Y), float64(v.X) / length, float64(v.Y) / length, length})
			}
		}
	}
	return out
}

// facing returns how long two borders run along each other within
// reach. Sides count that face each other and are parallel within 15 degrees:
// chords of one curve, and outlines drawn by hand.
func facing(a, b []stretchOfBorder, reach float64) float64 {
	const parallel = 0.966 // the cosine of 15 degrees
	sum := 0.0
	for _, s := range a {
		for _, t := range b {
			if math.Abs(s.dx*t.dx+s.dy*t.dy) >= parallel {
				sum += s.along(t, reach)
			}
		}
	}
	return sum
}

// along returns how much of s has t within reach, square to s.
func (s stretchOfBorder) along(t stretchOfBorder, reach float64) float64 {
	from, off := s.place(t.x, t.y)
	to, offTo := s.place(t.x+t.dx*t.length, t.y+t.dy*t.length)
	if from == to {
		return 0
	}
	if from > to {
		from, to, off, offTo = to, from, offTo, off
	}
	slope := (offTo - off) / (to - from)
	lo, hi := math.Max(from, 0), math.Min(to, s.length)
	// What of the stretch is farther off than reach does not count.
	for _, edge := range []float64{reach, -reach} {
		if slope == 0 {
			break
		}
		at := from + (edge-off)/slope
		if (edge > 0) == (slope > 0) {
			hi = math.Min(hi, at)
		} else {
			lo = math.Max(lo, at)
		}
	}
	if slope == 0 && math.Abs(off) > reach {
		return 0
	}
	return math.Max(0, hi-lo)
}

// place returns how far along the side a point lies, and how far off it.
func (s stretchOfBorder) place(x, y float64) (along, off float64) {
	x, y = x-s.x, y-s.y
	return x*s.dx + y*s.dy, x*s.dy - y*s.dx
}
