package picture

import (
	"bytes"
	"fmt"
	"strings"

	"panelry/export/svg"
	"panelry/geometry"
	"panelry/layouts"
)

// block is the panels of one cell, and which cells are just the same.
type block struct {
	cells  []string
	panels []layouts.Panel
}

// blocksOf groups a card's panels by cell: a panel's name without the letter
// of its part. Cells of the same kinds in the same places are one block.
func blocksOf(kit layouts.Kit) []block {
	var order []string
	cells := map[string][]layouts.Panel{}
	for _, p := range kit.Card.Panels {
		cell := strings.TrimRight(p.Name, "abcdefghijklmnopqrstuvwxyz")
		if cell == "" {
			cell = p.Name
		}
		if cells[cell] == nil {
			order = append(order, cell)
		}
		cells[cell] = append(cells[cell], p)
	}
	var list []block
	at := map[string]int{}
	for _, cell := range order {
		var key strings.Builder
		from := boxOf(cells[cell]).Min
		for _, p := range cells[cell] {
			off := p.Outline.Centre().Sub(from)
			fmt.Fprintf(&key, "%s %d %d;", p.Kind, off.X/geometry.Millimetre, off.Y/geometry.Millimetre)
		}
		if i, known := at[key.String()]; known {
			list[i].cells = append(list[i].cells, cell)
			continue
		}
		at[key.String()] = len(list)
		list = append(list, block{[]string{cell}, cells[cell]})
	}
	return list
}

func boxOf(panels []layouts.Panel) geometry.Rect {
	box := panels[0].Outline.Bounds()
	for _, p := range panels[1:] {
		b := p.Outline.Bounds()
		box.Min.X, box.Min.Y = min(box.Min.X, b.Min.X), min(box.Min.Y, b.Min.Y)
		box.Max.X, box.Max.Y = max(box.Max.X, b.Max.X), max(box.Max.Y, b.Max.Y)
	}
	return box
}

const (
	blockSpace = 12 * geometry.Millimetre
	blockApart = 3 * geometry.Millimetre // how far parts are pulled from the middle
)

// Blocks draws each block of the first card once, at true size, with its
// parts pulled apart and named, in their papers.
func Blocks(kit layouts.Kit, ground Ground) ([]byte, error) {
	list := blocksOf(kit)
	var cell geometry.Size
	for _, b := range list {
		s := boxOf(b.panels).Size()
		cell.W, cell.H = max(cell.W, s.W), max(cell.H, s.H)
	}
	columns := columnsFor(len(list), cell)
	rows := (len(list) + columns - 1) / columns
	step := geometry.Vector{X: cell.W + blockSpace, Y: cell.H + blockSpace + captionLine}
	size := geometry.Size{W: geometry.Length(columns)*step.X + blockSpace, H: geometry.Length(rows)*step.Y + blockSpace}
	var b bytes.Buffer
	c := svg.NewCanvas(&b, size, attr("font-family", fontFamily))
	c.Title(kit.Design.Title + ": blocks")
	c.Desc(fmt.Sprintf("The %d different blocks of a card, parts pulled apart.", len(list)))
	c.Path(svg.PathData(geometry.RectFromSize(geometry.Point{}, size).Outline().Outer), attr("fill", ground.colour))
	f := cardFills(c, kit, []int{1})
	for i, bl := range list {
		drawBlock(c, f, kit, bl, ground, cell, geometry.Vector{
			X: blockSpace + geometry.Length(i%columns)*step.X,
			Y: blockSpace + geometry.Length(i/columns)*step.Y,
		})
	}
	err := c.End()
	return b.Bytes(), err
}

func drawBlock(c *svg.Canvas, f *fills, kit layouts.Kit, b block, ground Ground, cell geometry.Size, at geometry.Vector) {
	box := boxOf(b.panels)
	at = at.Add(geometry.Vector{X: (cell.W-box.W())/2 - box.Min.X, Y: (cell.H-box.H())/2 - box.Min.Y})
	for _, p := range b.panels {
		away := p.Outline.Centre().Sub(box.Centre())
		if l := away.Len(); l > float64(geometry.Millimetre) {
			away = geometry.Vector{X: geometry.Length(float64(away.X) / l * float64(blockApart)), Y: geometry.Length(float64(away.Y) / l * float64(blockApart))}
		} else {
			away = geometry.Vector{}
		}
		o := p.Outline.Moved(at).Moved(away)
		paper := kit.PaperOn(p, 1)
		c.Path(svg.PathData(o.Rings()...), attr("fill", f.of(paper, p.PatternDegrees)), attr("stroke", lineColour), attr("stroke-width", "0.15"), attr("data-panel", p.Name))
	}
	name := strings.Join(b.cells, ", ")
	foot := geometry.Point{X: box.Min.X, Y: box.Max.Y + blockApart + captionLine}.Add(at)
	c.Text(foot, name, attr("font-size", number(captionFit(name, cell.W+2*mapAround))), attr("fill", ground.text))
}
