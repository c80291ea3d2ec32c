package picture

import (
	"bytes"
	"fmt"
	"math"

	"panelry/export/svg"
	"panelry/geometry"
	"panelry/layouts"
)

// The look of card pictures, in millimetres and colours.
const (
	around       = 8 * geometry.Millimetre // ground around and between cards
	groundColour = "#ffffff"
	shadowColour = "#d8d5ce"
	lineColour   = "#55524c"
)

// A Ground is what a picture stands on.
type Ground struct{ colour, shadow, text string }

// The grounds.
var (
	Light = Ground{groundColour, shadowColour, textColour}
	Dark  = Ground{"#2b2a27", "#161513", "#f1eee6"}
)

// Cards draws the closed fronts of the given cards, counted from 1, side by
// side in rows, at true size and in their papers' colours, on light ground.
func Cards(kit layouts.Kit, cards ...int) ([]byte, error) { return CardsOn(kit, Light, cards...) }

// CardsOn is [Cards] on any ground.
func CardsOn(kit layouts.Kit, ground Ground, cards ...int) ([]byte, error) {
	for _, c := range cards {
		if most := kit.Design.Batch.Cards; c < 1 || c > most {
			return nil, fmt.Errorf("there is no card %d; the batch has cards 1 to %d", c, most)
		}
	}
	columns := columnsFor(len(cards), kit.Card.Size)
	rows := (len(cards) + columns - 1) / columns
	step := geometry.Vector{X: kit.Card.Size.W + around, Y: kit.Card.Size.H + around}
	size := geometry.Size{W: geometry.Length(columns)*step.X + around, H: geometry.Length(rows)*step.Y + around}
	var b bytes.Buffer
	c := svg.NewCanvas(&b, size)
	c.Title(kit.Design.Title)
	c.Desc(cardsText(kit, cards))
	c.Path(svg.PathData(geometry.RectFromSize(geometry.Point{}, size).Outline().Outer), attr("fill", ground.colour))
	f := cardFills(c, kit, cards)
	for i, card := range cards {
		at := geometry.Vector{
			X: around + geometry.Length(i%columns)*step.X,
			Y: around + geometry.Length(i/columns)*step.Y,
		}
		c.Group(attr("id", fmt.Sprintf("card-%d", card)))
		drawCard(c, f, kit, card, at, ground)
		c.EndGroup()
	}
	err := c.End()
	return b.Bytes(), err
}

// columnsFor makes the whole about half as wide again as it is high.
func columnsFor(n int, card geometry.Size) int {
	wish := math.Sqrt(1.5 * float64(n) * float64(card.H) / float64(card.W))
	return max(1, min(n, int(math.Round(wish))))
}

// cardsText describes the picture in words.
func cardsText(kit layouts.Kit, cards []int) string {
	what := fmt.Sprintf("Card %d", cards[0])
	if len(cards) > 1 {
		what = fmt.Sprintf("%d cards", len(cards))
	}
	return fmt.Sprintf("%s, %s, %s: %d panels in %s.", what, kit.Card.Size.Format(kit.Design.Units),
		kit.Design.Card.Orientation(), len(kit.Card.Panels), kit.Design.Front.Layout.Name)
}

// cardFills defines all fills that the cards need.
func cardFills(c *svg.Canvas, kit layouts.Kit, cards []int) *fills {
	f := &fills{canvas: c, ids: map[string]string{}}
	c.Open("defs")
	f.prepare(kit.Design.Paper(kit.Design.Card.Paper), 0)
	for _, card := range cards {
		for _, p := range kit.Card.Panels {
			f.prepare(kit.PaperOn(p, card), p.PatternDegrees)
		}
	}
	c.Close()
	return f
}

func drawCard(c *svg.Canvas, f *fills, kit layouts.Kit, card int, at geometry.Vector, ground Ground) {
	base := kit.Design.Paper(kit.Design.Card.Paper)
	front := geometry.RectFromSize(geometry.Point{}, kit.Card.Size).Outline().Moved(at)
	drop := geometry.Vector{X: geometry.Millimetre * 6 / 10, Y: geometry.Millimetre * 9 / 10}
	c.Path(svg.PathData(front.Moved(drop).Outer), attr("fill", ground.shadow))
	c.Path(svg.PathData(front.Outer), attr("fill", f.of(base, 0)),
		attr("stroke", lineColour), attr("stroke-width", "0.15"))
	if kit.Design.Front.Gap == 0 {
		drawSeams(c, f, kit, card, at)
	}
	drawPanelShadow(c, kit.Card.Panels, at)
	for _, p := range kit.Card.Panels {
		paper := kit.PaperOn(p, card)
		c.Path(svg.PathData(p.Outline.Moved(at).Rings()...), attr("fill", f.of(paper, p.PatternDegrees)),
			attr("data-panel", p.Name), attr("data-paper", paper.Name))
	}
}

// drawPanelShadow draws one light shadow under all panels.
func drawPanelShadow(c *svg.Canvas, panels []layouts.Panel, at geometry.Vector) {
	drop := at.Add(geometry.Vector{X: geometry.Millimetre / 4, Y: geometry.Millimetre * 35 / 100})
	var rings []geometry.Ring
	for _, p := range panels {
		rings = append(rings, p.Outline.Moved(drop).Rings()...)
	}
	c.Path(svg.PathData(rings...), attr("fill", "#000000"), attr("fill-opacity", "0.16"))
}

// drawSeams lays the papers' colours under the lines along which panels
// touch. A renderer smooths both sides of such a line by itself, and would
// let the base shine through. What goes past the frame is covered again.
func drawSeams(c *svg.Canvas, f *fills, kit layouts.Kit, card int, at geometry.Vector) {
	for _, p := range kit.Card.Panels {
		colour := kit.PaperOn(p, card).Shown()
		c.Path(svg.PathData(p.Outline.Moved(at).Rings()...), attr("fill", "none"), attr("stroke", colour), attr("stroke-width", "0.3"))
	}
	frame := kit.Card.Frame.Outline().Outer
	whole := geometry.RectFromSize(geometry.Point{}, kit.Card.Size)
	if kit.Card.Frame == whole {
		return
	}
	margin := geometry.Outline{Outer: whole.Outline().Outer, Holes: []geometry.Ring{frame.Reversed()}}
	c.Path(svg.PathData(margin.Moved(at).Rings()...), attr("fill", f.of(kit.Design.Paper(kit.Design.Card.Paper), 0)))
}
