package page

import (
	"fmt"
	"html"
	"html/template"
	"math"
	"strconv"
	"strings"

	"panelry/export/picture"
	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/fronts"
)

// num writes a number of millimetres for an attribute.
func num(x float64) string {
	return strconv.FormatFloat(math.Round(x*100)/100, 'f', -1, 64)
}

func mm(l geometry.Length) float64 { return l.In(geometry.Millimetres) }

// cardPixels is how large a millimetre of a card as wide as US A2 is drawn;
// letters then are as large on a card of any shape.
const cardPixels = 3.58

// cardPicture draws the card that is looked at with its measuring strips: in
// millimetres, everything around the card in proportion to it. Each panel is
// a link to its slip.
func (s *state) cardPicture(in *picture.Inline) template.HTML {
	card := s.kit.Card
	w, h := mm(card.Size.W), mm(card.Size.H)
	k := math.Max(w, 0.6*h) / 108 // what the sizes below were made for
	d := &cardDrawing{s: s, k: k, x: 25 * k, y: 25 * k, w: w, h: h}
	fmt.Fprintf(&d.b, `<svg class="card" width="%.0f" viewBox="0 0 %s %s" role="group" aria-labelledby="cardname"><title id="cardname">%s</title>`,
		cardPixels*(w+33*k)/k, num(w+33*k), num(h+27*k), html.EscapeString(s.cardName()))
	across, down := card.Sums()
	fmt.Fprintf(&d.b, `<g aria-hidden="true" font-size="%s" stroke-width="%s">`, num(4.9*k), num(0.35*k))
	d.strip(across, false)
	d.strip(down, true)
	d.totals()
	d.b.WriteString(`</g>`)
	fmt.Fprintf(&d.b, `<rect class="base" x="%s" y="%s" width="%s" height="%s" fill="%s" stroke-width="%s"/>`,
		num(d.x), num(d.y), num(w), num(h), in.Fill(s.kit.Design.Paper(s.kit.Design.Card.Paper), 0), num(0.3*k))
	fmt.Fprintf(&d.b, `<g transform="translate(%s %s)">`, num(d.x), num(d.y))
	for i, p := range card.Panels {
		d.panel(in, i, p)
	}
	d.chosen()
	d.b.WriteString(`</g></svg>`)
	return template.HTML(d.b.String())
}

type cardDrawing struct {
	s          *state
	b          strings.Builder
	k          float64 // the size of what stands around
	x, y, w, h float64 // the card
}

func (s *state) cardName() string {
	return fmt.Sprintf("Card %d of %d with its measuring strips. %s; choose one to change it.", s.card, s.kit.Design.Batch.Cards, counted(len(s.kit.Card.Panels), "panel", "panels"))
}

// strip draws one measuring strip: margins and gaps hatched, panels with the
// marks of the ruler, and the lengths beside.
func (d *cardDrawing) strip(terms []fronts.Term, down bool) {
	at, thick := 0.0, 5*d.k
	box := func(from, length float64, class string) {
		x, y, w, h := d.x+from, 14*d.k, length, thick
		if down {
			x, y, w, h = 14*d.k, d.y+from, thick, length
		}
		fmt.Fprintf(&d.b, `<rect class="%s" x="%s" y="%s" width="%s" height="%s"/>`, class, num(x), num(y), num(w), num(h))
	}
	whole := d.w
	if down {
		whole = d.h
	}
	box(0, whole, "sbg")
	told := map[string]bool{}
	edge := -10.0 // the end of the last label
	for _, t := range terms {
		length := mm(t.Length)
		if t.What != "panel" {
			box(at, length, "hat")
		} else {
			d.ticks(at, length, down)
		}
		text := bare(t.Length, d.s.show())
		room := float64(len(text)) * 2.9 * d.k
		if down {
			room = 5 * d.k
		}
		middle := at + length/2
		crowded := len(terms) > 9 && told[t.What+text]
		if !crowded && middle-room/2 >= edge {
			d.label(middle, text, down)
			edge = middle + room/2
			told[t.What+text] = true
		}
		at += length
	}
}

// ticks draws the marks of a sixteenth of an inch, or of a millimetre, where
// they are not too close to be told apart.
func (d *cardDrawing) ticks(from, length float64, down bool) {
	step, long := 25.4/16, 4
	if d.s.show() == geometry.Millimetres {
		step, long = 1, 5
	}
	if step/d.k < 1.1 {
		step, long = step*float64(long), 1
	}
	var path strings.Builder
	for i := 1; float64(i)*step < length-0.01 && i < 400; i++ {
		at, size := from+float64(i)*step, 0.9*d.k
		if i%long == 0 {
			size = 1.9 * d.k
		}
		if down {
			fmt.Fprintf(&path, "M%s %sh%s", num(19*d.k), num(d.y+at), num(-size))
		} else {
			fmt.Fprintf(&path, "M%s %sv%s", num(d.x+at), num(19*d.k), num(-size))
		}
	}
	fmt.Fprintf(&d.b, `<path class="tick" stroke-width="%s" d="%s"/>`, num(0.22*d.k), path.String())
}

func (d *cardDrawing) label(middle float64, text string, down bool) {
	if down {
		fmt.Fprintf(&d.b, `<text x="%s" y="%s" text-anchor="end">%s</text>`, num(12.6*d.k), num(d.y+middle+1.7*d.k), text)
		return
	}
	fmt.Fprintf(&d.b, `<text x="%s" y="%s" text-anchor="middle">%s</text>`, num(d.x+middle), num(12.2*d.k), text)
}

// totals writes the width above and the height at the left.
func (d *cardDrawing) totals() {
	unit := d.s.show()
	size := d.s.kit.Card.Size
	fmt.Fprintf(&d.b, `<text class="total" x="%s" y="%s" text-anchor="middle">%s</text>`, num(d.x+d.w/2), num(5*d.k), size.W.Format(unit))
	x, y := d.x+d.w+6.5*d.k, d.y+d.h/2
	fmt.Fprintf(&d.b, `<text class="total" transform="translate(%s %s) rotate(-90)" text-anchor="middle">%s</text>`, num(x), num(y), size.H.Format(unit))
}

// mostChips is how many panels are drawn with their names on them.
const mostChips = 60

// panel draws a panel as a link, with its name where there is room.
func (d *cardDrawing) panel(in *picture.Inline, i int, p layouts.Panel) {
	s := d.s
	v := s.view
	v.panel = p.Name
	tab := "-1"
	if p.Name == s.panel || s.openPanel() == nil && i == 0 {
		tab = "0"
	}
	fmt.Fprintf(&d.b, `<a href="%s" data-panel="%s" tabindex="%s" aria-label="%s"`,
		html.EscapeString(s.link(v, "panel")), html.EscapeString(p.Name), tab, html.EscapeString(s.panelName(p)))
	if p.Name == s.panel {
		d.b.WriteString(` aria-current="true"`)
	}
	paper := s.paperOn(p)
	fmt.Fprintf(&d.b, `><path class="pan" fill="%s" d="%s"/>`, in.Fill(paper, p.PatternDegrees), picture.PathData(p.Outline))
	if len(s.kit.Card.Panels) <= mostChips {
		d.chip(p)
	}
	d.b.WriteString(`</a>`)
}

// chip is the white label with a panel's name and the way of its pattern.
func (d *cardDrawing) chip(p layouts.Panel) {
	room := 2 * p.Outline.Area().SquareMM() / (p.Outline.Perimeter() / float64(geometry.Millimetre)) // of a circle that fits in
	letters := float64(len(p.Name)) + 1.2
	size := math.Min(3.75*d.k, 1.9*room/(0.6*letters))
	if size < 2*d.k {
		return
	}
	at := p.Outline.Centre()
	x, y := mm(at.X), mm(at.Y)
	w, h := size*(0.66*float64(len(p.Name))+1.5), size*1.5
	fmt.Fprintf(&d.b, `<g class="chip"><rect x="%s" y="%s" width="%s" height="%s" stroke-width="%s"/>`, num(x-w/2), num(y-h/2), num(w), num(h), num(0.2*d.k))
	fmt.Fprintf(&d.b, `<text x="%s" y="%s" font-size="%s">%s</text>`, num(x-0.45*size), num(y+0.35*size), num(size), html.EscapeString(p.Name))
	fmt.Fprintf(&d.b, `<path class="way" transform="translate(%s %s) rotate(%s) scale(%s)" d="M0-4L2.4-.6H.7V4H-.7V-.6H-2.4Z"/></g>`,
		num(x+w/2-0.75*size), num(y), num(p.PatternDegrees), num(size/10))
}

// chosen draws the line around the panel whose slip is open.
func (d *cardDrawing) chosen() {
	if p := d.s.openPanel(); p != nil {
		path := picture.PathData(p.Outline)
		fmt.Fprintf(&d.b, `<g class="ring on"><path class="o" stroke-width="%s" d="%s"/><path class="i" stroke-width="%s" d="%s"/></g>`,
			num(2.1*d.k), path, num(1.1*d.k), path)
	}
}

// panelName names a panel for those who do not see it.
func (s *state) panelName(p layouts.Panel) string {
	size := p.Outline.Bounds().Size()
	return fmt.Sprintf("%s, %s: %s, %s, pattern %s", p.Name, placeWords(s.kit.Card, p), s.paperOn(p).Name, size.Format(s.show()), s.wayOf(p))
}

// wayOf says how a panel's pattern runs.
func (s *state) wayOf(p layouts.Panel) string {
	if d, ok := s.design.Front.DirectionOf[p.Name]; ok {
		return d.String()
	}
	return s.design.Front.Direction.String()
}

// placeWords says where on the front a panel lies.
func placeWords(card layouts.Card, p layouts.Panel) string {
	at := p.Outline.Centre()
	third := func(v, whole geometry.Length) int { return min(2, max(0, int(3*v/max(1, whole)))) }
	words := [3][3]string{
		{"top left", "top", "top right"},
		{"left", "in the middle", "right"},
		{"bottom left", "bottom", "bottom right"},
	}[third(at.Y, card.Size.H)][third(at.X, card.Size.W)]
	switch p.Hand {
	case "/":
		words += ", half of a rising cut"
	case `\`:
		words += ", half of a falling cut"
	}
	return words
}

// counted writes a number with its noun.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// smallCard draws a card of the batch, small.
func (s *state) smallCard(in *picture.Inline, card int) template.HTML {
	var b strings.Builder
	size := s.kit.Card.Size
	fmt.Fprintf(&b, `<svg viewBox="0 0 %s %s" aria-hidden="true"><rect class="base" width="%s" height="%s" fill="%s"/>`,
		num(mm(size.W)), num(mm(size.H)), num(mm(size.W)), num(mm(size.H)), in.Fill(s.kit.Design.Paper(s.kit.Design.Card.Paper), 0))
	byFill := map[string][]geometry.Outline{}
	var order []string
	for _, p := range s.kit.Card.Panels {
		fill := in.Fill(s.kit.PaperOn(p, card), p.PatternDegrees)
		if byFill[fill] == nil {
			order = append(order, fill)
		}
		byFill[fill] = append(byFill[fill], p.Outline)
	}
	for _, fill := range order {
		fmt.Fprintf(&b, `<path class="pan" fill="%s" d="%s"/>`, fill, picture.PathData(byFill[fill]...))
	}
	b.WriteString(`</svg>`)
	return template.HTML(b.String())
}
