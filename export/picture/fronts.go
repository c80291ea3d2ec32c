package picture

import (
	"bytes"

	"panelry/export/svg"
	"panelry/geometry"
	"panelry/layouts/fronts"
)

// A Sample is a front to be shown by itself, without papers.
type Sample struct {
	Name  string
	Card  geometry.Size
	Front fronts.Front
}

// tones are what samples show roles in, in turn: from dark to light, so that
// light and dark can be told without colour too.
var tones = []string{"#33485a", "#d9c08c", "#7d98a3", "#efe4cc", "#a5643f"}

const (
	sampleBase  = "#fbf9f4"
	sampleRoom  = 9 * geometry.Millimetre // below each sample, for its name
	sampleType  = 5.0                     // mm
	sampleSpace = 10 * geometry.Millimetre
)

// Fronts draws fronts side by side in rows, each with its name, in tones for
// their roles. All cards are of one size.
func Fronts(title string, samples []Sample) ([]byte, error) {
	card := samples[0].Card
	columns := columnsFor(len(samples), card)
	rows := (len(samples) + columns - 1) / columns
	step := geometry.Vector{X: card.W + sampleSpace, Y: card.H + sampleSpace + sampleRoom}
	size := geometry.Size{
		W: geometry.Length(columns)*step.X + sampleSpace,
		H: geometry.Length(rows)*step.Y + sampleSpace,
	}
	var b bytes.Buffer
	c := svg.NewCanvas(&b, size, attr("font-family", fontFamily))
	c.Title(title)
	c.Path(svg.PathData(geometry.RectFromSize(geometry.Point{}, size).Outline().Outer), attr("fill", groundColour))
	for i, s := range samples {
		drawSample(c, s, geometry.Vector{
			X: sampleSpace + geometry.Length(i%columns)*step.X,
			Y: sampleSpace + geometry.Length(i/columns)*step.Y,
		})
	}
	err := c.End()
	return b.Bytes(), err
}

func drawSample(c *svg.Canvas, s Sample, at geometry.Vector) {
	c.Group()
	c.Title(s.Name)
	base := geometry.RectFromSize(geometry.Point{}, s.Card).Outline().Moved(at)
	c.Path(svg.PathData(base.Outer), attr("fill", sampleBase), attr("stroke", lineColour), attr("stroke-width", "0.2"))
	for _, p := range s.Front.Panels {
		c.Path(svg.PathData(p.Outline.Moved(at).Rings()...), attr("fill", tones[p.Role%len(tones)]), attr("data-panel", p.Name))
	}
	below := geometry.Point{X: s.Card.W / 2, Y: s.Card.H + sampleRoom*7/10}
	c.Text(below.Add(at), s.Name, attr("font-size", number(sampleType)), attr("text-anchor", "middle"), attr("fill", textColour))
	c.EndGroup()
}
