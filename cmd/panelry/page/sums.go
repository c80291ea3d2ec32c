package page

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/fronts"
)

// A sumCell is one part of a sum, with the mark in front of it.
type sumCell struct {
	What, Mark string
	Text       template.HTML
}

// A sumRow is one sum of the card.
type sumRow struct {
	Name  string
	Cells []sumCell
	Total template.HTML
	MM    string
}

// Sums are the card's two sums. More than three panels in a row are taken
// together.
func (p *pageData) Sums() []sumRow {
	across, down := p.kit.Card.Sums()
	size := p.kit.Card.Size
	return []sumRow{p.sum("Across", across, size.W), p.sum("Down", down, size.H)}
}

func (p *pageData) sum(name string, terms []fronts.Term, whole geometry.Length) sumRow {
	row := sumRow{Name: name, Total: p.bareL(whole), MM: whole.Decimal(geometry.Millimetres, 2)}
	add := func(what string, text template.HTML) {
		mark := "+"
		if len(row.Cells) == 0 {
			mark = ""
		}
		row.Cells = append(row.Cells, sumCell{what, mark, text})
	}
	if len(terms) <= 7 {
		for _, t := range terms {
			add(t.What, p.bareL(t.Length))
		}
		return row
	}
	counts := map[fronts.Term]int{}
	var order []fronts.Term
	for _, t := range terms { // lengths that differ by the nanometres of rounding are one
		shown := fronts.Term{What: t.What, Length: (t.Length + 50) / 100 * 100}
		if counts[shown] == 0 {
			order = append(order, shown)
		}
		counts[shown]++
	}
	for _, t := range order {
		text := p.bareL(t.Length)
		if n := counts[t]; n > 1 {
			text = template.HTML(fmt.Sprintf("%d × ", n)) + text
		}
		add(t.What, text)
	}
	return row
}

// bareL writes a length without its unit.
func (p *pageData) bareL(l geometry.Length) template.HTML { return fractions(bare(l, p.show())) }

// mostHeads is how many parts of a sum a phone has room for in one line.
const mostHeads = 5

// Heads are the parts of both sums, where those are the same and few, so that
// one head serves both; none where each sum is a line of words.
func (p *pageData) Heads() []sumCell {
	rows := p.Sums()
	if len(rows[0].Cells) != len(rows[1].Cells) || len(rows[0].Cells) > mostHeads {
		return nil
	}
	for i, c := range rows[0].Cells {
		if rows[1].Cells[i].What != c.What {
			return nil
		}
	}
	return rows[0].Cells
}

// A need is a line of the list of pieces of one card.
type need struct {
	Picture template.HTML
	Name    string
	Size    template.HTML
	MM      string
}

// mostNeeds bounds the list of pieces.
const mostNeeds = 12

// Needs lists the pieces of one card by shape.
func (p *pageData) Needs() (list []need) {
	type shape struct {
		hand string
		size geometry.Size
	}
	counts := map[shape]int{}
	first := map[shape]layouts.Panel{}
	var order []shape
	for _, panel := range p.kit.Card.Panels {
		size := panel.Outline.Bounds().Size()
		s := shape{panel.Hand, geometry.Size{W: round(size.W), H: round(size.H)}}
		if counts[s]++; counts[s] == 1 {
			order = append(order, s)
			first[s] = panel
		}
	}
	for i, s := range order {
		if i == mostNeeds {
			list = append(list, need{Name: fmt.Sprintf("and %d more sizes", len(order)-mostNeeds)})
			break
		}
		n := counts[s]
		name := counted(n, "panel", "panels")
		switch s.hand {
		case "/":
			name = counted(n, "rising half", "rising halves")
		case `\`:
			name = counted(n, "falling half", "falling halves")
		}
		size := first[s].Outline.Bounds().Size()
		list = append(list, need{glyph(first[s].Outline), name, p.S(size), p.MM(size)})
	}
	base := p.kit.Card.Base
	size := base.Outline.Bounds().Size()
	text := p.S(size)
	if len(base.Folds) > 0 {
		text += ", scored half way"
	}
	return append(list, need{glyph(base.Outline), "1 base", text, p.MM(size)})
}

func round(l geometry.Length) geometry.Length { return (l + 5000) / 10000 * 10000 }

// glyph draws an outline as a small mark.
func glyph(o geometry.Outline) template.HTML {
	box := o.Bounds()
	k := math.Min(18/mm(box.W()), 24/mm(box.H()))
	var b strings.Builder
	for _, ring := range o.Rings() {
		for i, at := range ring.Flatten(geometry.Millimetre / 4) {
			fmt.Fprintf(&b, "%c%s %s", "ML"[min(i, 1)], num(2+k*mm(at.X-box.Min.X)), num(2+k*mm(at.Y-box.Min.Y)))
		}
		b.WriteByte('Z')
	}
	return template.HTML(`<svg viewBox="0 0 22 28" aria-hidden="true"><path class="t1" d="` + b.String() + `"/></svg>`)
}
