package picture

import (
	"bytes"
	"fmt"

	"panelry/export/svg"
	"panelry/geometry"
	"panelry/layouts"
)

// Likely draws cards as they may come out, each with its own panels, side by
// side at true size, with a line of text below. The panels of each are those of the kit's card, in its
// order, with other outlines.
func Likely(kit layouts.Kit, likely []layouts.Card, text string) ([]byte, error) {
	if len(likely) == 0 {
		return nil, fmt.Errorf("there are no cards to draw")
	}
	columns := columnsFor(len(likely), kit.Card.Size)
	for columns > 1 && len(likely)%columns != 0 { // full rows compare better
		columns--
	}
	rows := (len(likely) + columns - 1) / columns
	step := geometry.Vector{X: kit.Card.Size.W + around, Y: kit.Card.Size.H + around}
	size := geometry.Size{W: geometry.Length(columns)*step.X + around, H: geometry.Length(rows)*step.Y + around + captionLine}
	var b bytes.Buffer
	c := svg.NewCanvas(&b, size, attr("font-family", fontFamily))
	c.Title(kit.Design.Title + ": how it may come out")
	c.Desc(text)
	c.Path(svg.PathData(geometry.RectFromSize(geometry.Point{}, size).Outline().Outer), attr("fill", groundColour))
	f := cardFills(c, kit, []int{1})
	for i, card := range likely {
		one := kit
		one.Card = card
		c.Group(attr("id", fmt.Sprintf("likely-%d", i+1)))
		drawCard(c, f, one, 1, geometry.Vector{
			X: around + geometry.Length(i%columns)*step.X,
			Y: around + geometry.Length(i/columns)*step.Y,
		}, Light)
		c.EndGroup()
	}
	c.Text(geometry.Point{X: around, Y: size.H - around/2}, text, attr("font-size", number(captionFit(text, size.W))), attr("fill", textColour))
	err := c.End()
	return b.Bytes(), err
}
