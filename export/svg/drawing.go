package svg

import (
	"strconv"
	"strings"

	"panelry/export/svg/markup"
	"panelry/geometry"
)

// The layers of a sheet, by their group's id.
const (
	Cut   = "cut"
	Score = "score"
	Print = "print"
)

// The stroke colours that the layers have unless the design changes them:
// black, bluish green and reddish purple of the set that people with any
// kind of colour vision can tell apart. Source: M. Okabe, K. Ito, "Color
// Universal Design: how to make figures and presentations that are friendly
// to colorblind people", 2002, revised 2008.
const (
	CutStroke   = "#000000"
	ScoreStroke = "#009E73"
	PrintStroke = "#CC79A7"
)

// strokeWidth is in millimetres. It only makes lines visible: a cutter
// follows the middle of a line, whatever its width (SVG 2 chapter 13: a stroke
// never moves the geometry).
const strokeWidth = "0.1"

// A Drawing is a cutting sheet as meant: its size, and its layers in the
// order in which they are written. Every point lies on the sheet, borders
// included.
type Drawing struct {
	Size        geometry.Size
	Title, Desc string // left out where empty
	Layers      []Layer
}

// A Layer is what one step of the work follows.
type Layer struct {
	ID         string // Cut, Score or Print; each once a sheet
	Title      string // must not be empty
	Stroke     string // "#" and six hexadecimal digits; "" is the layer's own colour
	Attributes []Attribute
	Shapes     []Shape // a layer without any is not written
}

// A Shape is one path of a layer. Its attributes are an id or start with
// "data-".
type Shape struct {
	Rings      []geometry.Ring // inner cuts first, then the outer one
	Lines      []geometry.Path // open strokes
	Fill       string          // as Stroke; "" is none. A filled shape has no stroke and no lines
	Attributes []Attribute
}

// ShapeFromOutline returns the outline as one shape, holes first: once the
// outer ring is cut, the piece may slip.
func ShapeFromOutline(o geometry.Outline, attrs ...Attribute) Shape {
	rings := make([]geometry.Ring, 0, len(o.Holes)+1)
	rings = append(append(rings, o.Holes...), o.Outer)
	return Shape{Rings: rings, Attributes: attrs}
}

// ShapeFromPath returns the path as one shape: an open stroke, or a ring where
// it ends on its start and has sides enough for one.
func ShapeFromPath(p geometry.Path, attrs ...Attribute) Shape {
	if n := len(p.Then); p.IsClosed() && (n > 2 || n == 2 && !geometry.Ring(p.Then).IsStraight()) {
		return Shape{Rings: []geometry.Ring{p.Then}, Attributes: attrs}
	}
	return Shape{Lines: []geometry.Path{p}, Attributes: attrs}
}

// stroke returns the colour that the layer is written with.
func (l Layer) stroke() string {
	if l.Stroke != "" {
		return l.Stroke
	}
	return map[string]string{Cut: CutStroke, Score: ScoreStroke, Print: PrintStroke}[l.ID]
}

// written returns the layers that the file holds.
func (d Drawing) written() []Layer {
	var layers []Layer
	for _, l := range d.Layers {
		if len(l.Shapes) > 0 {
			layers = append(layers, l)
		}
	}
	return layers
}

// name returns the card and the panel that the shape says it belongs to, for
// messages: " (07-A1a)", or "" where it says nothing.
func (s Shape) name() string {
	var parts []string
	for _, a := range s.Attributes {
		if a.Name == "data-card" || a.Name == "data-panel" {
			quoted := strconv.Quote(markup.Shorten(a.Value)) // control characters stay out of messages
			parts = append(parts, quoted[1:len(quoted)-1])
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, "-") + ")"
}
