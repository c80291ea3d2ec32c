package picture

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"unicode/utf8"

	"panelry/export/svg"
	"panelry/geometry"
	"panelry/layouts"
)

// The look of sheet maps.
const (
	mapAround   = 6 * geometry.Millimetre
	captionLine = 5 * geometry.Millimetre
	captionSize = 3.4 // mm
	fontFamily  = "sans-serif"
	pieceColour = "#ffffff"
	textColour  = "#22201c"
)

// SheetMap draws a sheet as it lies, with the name of each piece and an
// arrow that points to the card's top. It is a picture: nothing in it is
// meant for the cutter.
func SheetMap(kit layouts.Kit, s layouts.Sheet) ([]byte, error) {
	lines := caption(kit, s)
	size := geometry.Size{
		W: max(s.Size.W, 120*geometry.Millimetre) + 2*mapAround,
		H: s.Size.H + 2*mapAround + geometry.Length(len(lines))*captionLine,
	}
	var b bytes.Buffer
	c := svg.NewCanvas(&b, size, attr("font-family", fontFamily))
	c.Title(fmt.Sprintf("Map of sheet %d: %s", s.Number, s.Paper.Name))
	c.Desc(lines[0])
	c.Path(svg.PathData(geometry.RectFromSize(geometry.Point{}, size).Outline().Outer), attr("fill", groundColour))
	f := &fills{canvas: c, ids: map[string]string{}}
	c.Open("defs")
	f.prepare(s.Paper, s.Paper.PatternUp)
	c.Close()
	at := geometry.Vector{X: mapAround, Y: mapAround}
	sheet := geometry.RectFromSize(geometry.Point{}, s.Size).Outline()
	if len(s.Scrap.Outer) > 0 {
		sheet = s.Scrap
	}
	c.Path(svg.PathData(sheet.Moved(at).Rings()...), attr("fill", f.of(s.Paper, s.Paper.PatternUp)),
		attr("stroke", lineColour), attr("stroke-width", "0.3"))
	c.Group(attr("id", "pieces"), attr("fill", pieceColour), attr("fill-opacity", "0.82"),
		attr("stroke", "#000000"), attr("stroke-width", "0.25"))
	for _, p := range s.Pieces {
		c.Path(svg.PathData(p.Outline.Moved(at).Rings()...), attr("data-piece", p.ID))
		for _, fold := range p.Folds {
			c.Path(svg.OpenPathData(fold.Line.Moved(at)), attr("fill", "none"), attr("stroke-dasharray", "4 1.5"))
		}
	}
	c.EndGroup()
	c.Group(attr("id", "names"), attr("fill", textColour), attr("text-anchor", "middle"))
	for _, p := range s.Pieces {
		drawName(c, p, at)
	}
	c.EndGroup()
	for i, line := range lines {
		y := mapAround + s.Size.H + captionLine*geometry.Length(i+1)
		c.Text(geometry.Point{X: mapAround, Y: y}, line, attr("font-size", number(captionFit(line, size.W))), attr("fill", textColour))
	}
	err := c.End()
	return b.Bytes(), err
}

// drawName writes a piece's name in its middle, as large as there is room
// for, with the arrow below it.
func drawName(c *svg.Canvas, p layouts.Piece, at geometry.Vector) {
	middle := p.Middle.Add(at)
	// The radius of a circle that fits in, exactly so for triangles.
	room := 2 * p.Outline.Area().SquareMM() / (p.Outline.Perimeter() / float64(geometry.Millimetre))
	name := p.ID
	if p.Over {
		name += " over"
	}
	letters := float64(utf8.RuneCountInString(name))
	size := math.Max(0.8, math.Min(4, 1.7*room/(0.6*letters)))
	lift := geometry.Length(size * 0.2 * float64(geometry.Millimetre))
	c.Text(middle.Add(geometry.Vector{Y: -lift}), name, attr("font-size", number(math.Round(size*100)/100)))
	drawArrow(c, middle.Add(geometry.Vector{Y: geometry.Length(size * 0.75 * float64(geometry.Millimetre))}), size, p.Turn)
}

// drawArrow draws an arrow to the card's top around a place.
func drawArrow(c *svg.Canvas, at geometry.Point, size, degrees float64) {
	k := func(x, y float64) geometry.Point {
		scale := size * 0.6 * float64(geometry.Millimetre)
		return geometry.Point{X: geometry.Length(x * scale), Y: geometry.Length(y * scale)}
	}
	arrow := geometry.RingFromPoints(k(0, -1), k(0.55, -0.2), k(0.16, -0.2), k(0.16, 1), k(-0.16, 1), k(-0.16, -0.2), k(-0.55, -0.2))
	turned := geometry.Outline{Outer: arrow}.Turned(degrees).Moved(at.Sub(geometry.Point{}))
	c.Path(svg.PathData(turned.Outer))
}

// caption says what the sheet is and how to read the map, line by line.
func caption(kit layouts.Kit, s layouts.Sheet) []string {
	lines := []string{
		fmt.Sprintf("Sheet %d of %d: %s, %s, %s, %.0f %% used",
			s.Number, len(kit.Sheets), s.Paper.Name, s.Size.Format(kit.Design.Units), pieces(len(s.Pieces)), s.UsedPercent()),
		"Arrow: to the top of the card. Long dashes: score.",
		"A picture only; the file of the same name in sheets is for the cutter.",
	}
	if slices.ContainsFunc(s.Pieces, func(p layouts.Piece) bool { return p.Over }) {
		lines = append(lines, "Over: turn the piece over sideways before it goes on the card.")
	}
	return lines
}

// captionFit returns the size of type at which a line fits under the map:
// letters are about 0.55 of it wide.
func captionFit(line string, width geometry.Length) float64 {
	room := (width - 2*mapAround).In(geometry.Millimetres)
	fit := math.Min(captionSize, room/(0.55*float64(utf8.RuneCountInString(line))))
	return math.Round(fit*100) / 100
}

func pieces(n int) string {
	if n == 1 {
		return "1 piece"
	}
	return fmt.Sprintf("%d pieces", n)
}
