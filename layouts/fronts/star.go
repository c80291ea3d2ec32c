package fronts

import (
	"math"

	"panelry/geometry"
)

// The eight-point star: eight diamonds of 45 degrees about the middle, with
// four corner pieces and four side pieces. The star is as large as the
// shorter side allows: with side a of a diamond it is 3.4142 a broad. On an
// oblong card the pieces beyond it reach out to the border. The diamonds are
// counted first, clockwise from the top, then the other pieces, clockwise from
// the top.
//
//	+---\  /---+
//	|  \ \/ /  |
//	|--_\/\/_--|
//	|--¯/\/\¯--|
//	|  / /\ \  |
//	+---/  \---+
func init() {
	Register(Layout{
		Name:    "eight-point star",
		Summary: "eight diamonds about the middle, with corners and sides around them",
		Roles:   "the star's points in two papers in turn, then the pieces around it",
		Divide:  divideStar,
	})
}

func divideStar(b Brief) (Front, error) {
	half := (b.Gap + 1) / 2
	window, err := b.Frame.Inset(-half)
	if err != nil {
		return Front{}, err
	}
	middle := b.Frame.Centre()
	side := float64(min(window.W(), window.H())) / (2 + math.Sqrt2)
	// Directions at multiples of 45 degrees from up, clockwise.
	unit := func(k int) (x, y float64) {
		sin, cos := math.Sincos(float64(k) * math.Pi / 4)
		return sin * side, -cos * side
	}
	at := func(x, y float64) geometry.Point {
		return geometry.Point{X: middle.X + geometry.Length(math.Round(x)), Y: middle.Y + geometry.Length(math.Round(y))}
	}
	inner := func(k int) geometry.Point { x, y := unit(k); return at(x, y) }
	tip := func(k int) geometry.Point { // of diamond k, between directions k and k+1
		x1, y1 := unit(k)
		x2, y2 := unit(k + 1)
		return at(x1+x2, y1+y2)
	}
	var cells []Cell
	for k := range 8 {
		cells = append(cells, Cell{Name: number(k), Role: k % 2,
			Outline: geometry.OutlineFromPoints(middle, inner(k), tip(k), inner(k+1))})
	}
	for k := range 8 {
		// Between the tips of diamonds k-1 and k: a side piece about direction k
		// when k is even, a corner piece when it is odd.
		from, to := tip(k+7), tip(k)
		ring := []geometry.Point{inner(k), from}
		ring = append(ring, outward(window, from, to, k)...)
		ring = distinct(append(ring, to))
		cells = append(cells, Cell{Name: number(8 + k), Role: 2 + k%2, Outline: geometry.OutlineFromPoints(ring...)})
	}
	front, err := frontFromCells(b, cells, "use a smaller gap or margin")
	if err != nil {
		return Front{}, err
	}
	sortByNumber(front.Panels)
	return front, nil
}

// distinct drops points that fall on the one before: a tip that touches the
// border is moved out by nothing, or by rounding.
func distinct(points []geometry.Point) []geometry.Point {
	var out []geometry.Point
	for _, p := range points {
		if len(out) == 0 || !same(out[len(out)-1], p) {
			out = append(out, p)
		}
	}
	return out
}

// outward returns the corners of the way from one tip to the next by way of
// the window's border.
func outward(window geometry.Rect, from, to geometry.Point, k int) []geometry.Point {
	edge := func(p geometry.Point, k int) geometry.Point { // p moved out in direction k: 0 up, 2 right, 4 down, 6 left
		switch k {
		case 0:
			p.Y = window.Min.Y
		case 2:
			p.X = window.Max.X
		case 4:
			p.Y = window.Max.Y
		default:
			p.X = window.Min.X
		}
		return p
	}
	if k%2 == 0 {
		return []geometry.Point{edge(from, k), edge(to, k)}
	}
	first, second := k-1, (k+1)%8
	a := edge(from, first)
	z := edge(to, second)
	return []geometry.Point{a, edge(a, second), z}
}
