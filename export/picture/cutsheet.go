package picture

import (
	"bytes"
	"fmt"
	"math"

	"panelry/export/svg"
	"panelry/geometry"
	"panelry/geometry/trimming"
	"panelry/layouts"
)

// CutSheet draws a sheet with its straight cuts: the blocks that come off,
// named, with the slant that they are cut on, and offcuts grey. It is a
// picture, not for a machine.
func CutSheet(kit layouts.Kit, t layouts.TrimPaper, a trimming.Alike) ([]byte, error) {
	unit := kit.Design.Units
	sheet := t.Paper.Sheet
	size := geometry.Size{W: max(sheet.W, 100*geometry.Millimetre) + 2*mapAround, H: sheet.H + 2*mapAround + captionLine}
	var b bytes.Buffer
	c := svg.NewCanvas(&b, size, attr("font-family", fontFamily))
	c.Title(fmt.Sprintf("Sheet %s of %s: straight cuts", a.Name, t.Paper.Name))
	c.Path(svg.PathData(geometry.RectFromSize(geometry.Point{}, size).Outline().Outer), attr("fill", groundColour))
	at := geometry.Vector{X: mapAround, Y: mapAround}
	c.Path(svg.PathData(geometry.RectFromSize(geometry.Point{}, sheet).Outline().Moved(at).Outer), attr("fill", "#e4e1da"), attr("stroke", lineColour), attr("stroke-width", "0.4"))
	for _, leaf := range a.Tree.Leaves() {
		if leaf.Piece < 0 {
			continue
		}
		box := leaf.Box.Moved(at)
		c.Path(svg.PathData(box.Outline().Outer), attr("fill", pieceColour), attr("stroke", "#000000"), attr("stroke-width", "0.3"))
		for _, line := range t.SlantsOn(leaf) {
			c.Path(svg.OpenPathData(line.Moved(at)), attr("fill", "none"), attr("stroke", "#000000"), attr("stroke-width", "0.3"), attr("stroke-dasharray", "3 1.5"))
		}
		name := box.Size().Format(unit)
		high := math.Min(3.4, 0.25*min(box.W(), box.H()).In(geometry.Millimetres))
		high = math.Min(high, 1.5*box.W().In(geometry.Millimetres)/float64(len(name)))
		middle := box.Centre()
		middle.Y += geometry.Length(high * 0.35 * float64(geometry.Millimetre))
		c.Text(middle, name, attr("font-size", number(math.Round(high*100)/100)), attr("text-anchor", "middle"), attr("fill", textColour))
	}
	text := fmt.Sprintf("%s of %s, %s", sheetsOf(a), t.Paper.Name, sheet.Format(unit))
	c.Text(geometry.Point{X: mapAround, Y: size.H - mapAround/2}, text, attr("font-size", number(captionSize)), attr("fill", textColour))
	err := c.End()
	return b.Bytes(), err
}

func sheetsOf(a trimming.Alike) string {
	if a.Count == 1 {
		return "Sheet " + a.Name
	}
	return fmt.Sprintf("Sheet %s, %d alike,", a.Name, a.Count)
}
