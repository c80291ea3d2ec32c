package pdf

import (
	"math"

	"panelry/geometry"
)

// A scene is a drawing at true size: its top left is the origin.
type scene struct {
	size  geometry.Size
	items []item
}

// item is one line, area or text of a scene.
type item struct {
	step  step
	rings []geometry.Ring // closed
	path  *geometry.Path  // open
	fill  string          // "#rrggbb"; areas without a line
	solid bool            // filled black, without a line

	text  string
	at    geometry.Point
	type_ float64 // height of the letters in mm
	align align
	turn  float64 // degrees anticlockwise
}

// align says what of a text lies at its place.
type align int

const (
	start align = iota
	middle
	end
)

func (s *scene) outline(st step, o geometry.Outline) {
	s.items = append(s.items, item{step: st, rings: o.Rings()})
}

func (s *scene) area(colour string, o geometry.Outline) {
	s.items = append(s.items, item{step: tint, rings: o.Rings(), fill: colour})
}

func (s *scene) line(st step, points ...geometry.Point) {
	p := geometry.PathFromPoints(points[0], points[1:]...)
	s.path(st, p)
}

func (s *scene) path(st step, p geometry.Path) {
	s.items = append(s.items, item{step: st, path: &p})
}

func (s *scene) label(st step, at geometry.Point, size float64, a align, text string) {
	s.items = append(s.items, item{step: st, text: text, at: at, type_: size, align: a})
}

// arrow draws an arrow of that length around a place, pointing so many
// degrees clockwise from up.
func (s *scene) arrow(at geometry.Point, length geometry.Length, degrees float64) {
	k := func(x, y float64) geometry.Point {
		return geometry.Point{X: geometry.Length(x * float64(length)), Y: geometry.Length(y * float64(length))}
	}
	head := geometry.OutlineFromPoints(k(0, -0.5), k(0.22, -0.1), k(0.05, -0.1), k(0.05, 0.5), k(-0.05, 0.5), k(-0.05, -0.1), k(-0.22, -0.1))
	s.items = append(s.items, item{step: names, rings: head.Turned(degrees).Moved(at.Sub(geometry.Point{})).Rings(), solid: true})
}

// mm makes a length of millimetres.
func mm(x float64) geometry.Length {
	return geometry.Length(math.Round(x * float64(geometry.Millimetre)))
}

// at makes a point of millimetres.
func at(x, y float64) geometry.Point { return geometry.Point{X: mm(x), Y: mm(y)} }

// in gives millimetres, as fpdf counts.
func in(l geometry.Length) float64 { return l.In(geometry.Millimetres) }
