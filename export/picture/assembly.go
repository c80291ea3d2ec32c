package picture

import (
	"bytes"
	"fmt"

	"panelry/export/svg"
	"panelry/geometry"
	"panelry/layouts"
)

// AssemblyStep draws the front after the first steps of an assembly, and with
// the panels of the steps from..to being placed now: those have a thick edge
// and an arrow from the side of the hand that places them. Panels still to
// come are dashed.
func AssemblyStep(kit layouts.Kit, steps []layouts.AssemblyStep, from, to int, left bool) ([]byte, error) {
	room := 12 * geometry.Millimetre
	card := kit.Card.Size
	size := geometry.Size{W: card.W + 2*room, H: card.H + room}
	at := geometry.Vector{X: room, Y: room / 2}
	var b bytes.Buffer
	c := svg.NewCanvas(&b, size, attr("font-family", fontFamily))
	c.Title(stepTitle(kit, steps, from, to))
	c.Path(svg.PathData(geometry.RectFromSize(geometry.Point{}, size).Outline().Outer), attr("fill", groundColour))
	f := cardFills(c, kit, []int{1})
	front := geometry.RectFromSize(geometry.Point{}, card).Outline().Moved(at)
	c.Path(svg.PathData(front.Outer), attr("fill", f.of(kit.Design.Paper(kit.Design.Card.Paper), 0)), attr("stroke", lineColour), attr("stroke-width", "0.4"))
	for i := len(steps) - 1; i >= 0; i-- { // what is placed now comes last
		p := kit.Card.Panels[steps[i].Panel]
		d := svg.PathData(p.Outline.Moved(at).Rings()...)
		fill := f.of(kit.PaperOn(p, 1), p.PatternDegrees)
		switch {
		case i > to:
			c.Path(d, attr("fill", "none"), attr("stroke", lineColour), attr("stroke-width", "0.3"), attr("stroke-dasharray", "1.5 1"))
		case i < from:
			c.Path(d, attr("fill", fill))
		}
	}
	for i := from; i <= to; i++ {
		p := kit.Card.Panels[steps[i].Panel]
		o := p.Outline.Moved(at)
		c.Path(svg.PathData(o.Rings()...), attr("fill", f.of(kit.PaperOn(p, 1), p.PatternDegrees)), attr("stroke", "#000000"), attr("stroke-width", "1"))
		drawStepName(c, o, p.Name)
	}
	if from == to {
		centre := kit.Card.Panels[steps[from].Panel].Outline.Centre().Add(at)
		place, turn := geometry.Point{X: size.W - room/2, Y: centre.Y}, 270.0
		if left {
			place.X, turn = room/2, 90
		}
		c.Group(attr("fill", "#000000"))
		drawArrow(c, place, 7, turn)
		c.EndGroup()
	}
	err := c.End()
	return b.Bytes(), err
}

func stepTitle(kit layouts.Kit, steps []layouts.AssemblyStep, from, to int) string {
	first := kit.Card.Panels[steps[from].Panel].Name
	if from == to {
		return fmt.Sprintf("Step %d: panel %s", from+1, first)
	}
	return fmt.Sprintf("Steps %d to %d: panels %s to %s", from+1, to+1, first, kit.Card.Panels[steps[to].Panel].Name)
}

// drawStepName writes a panel's name on a light patch in its middle.
func drawStepName(c *svg.Canvas, o geometry.Outline, name string) {
	room := 2 * o.Area().SquareMM() / (o.Perimeter() / float64(geometry.Millimetre))
	letters := float64(len([]rune(name)))
	size := min(6, 1.4*room/(0.6*letters))
	if size < 1 {
		return
	}
	mm := func(x float64) geometry.Length { return geometry.Length(x * float64(geometry.Millimetre)) }
	middle := o.Centre()
	patch := geometry.RectFromSize(middle.Add(geometry.Vector{X: -mm(size * (0.33*letters + 0.2)), Y: -mm(size * 0.6)}), geometry.Size{W: mm(size * (0.66*letters + 0.4)), H: mm(size * 1.2)})
	c.Path(svg.PathData(patch.Outline().Outer), attr("fill", groundColour), attr("fill-opacity", "0.85"))
	c.Text(middle.Add(geometry.Vector{Y: mm(size * 0.35)}), name, attr("font-size", number(size)), attr("text-anchor", "middle"), attr("fill", textColour))
}
