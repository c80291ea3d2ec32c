package layouts

import (
	"fmt"
	"math"
	"slices"

	"panelry/geometry"
)

// warnings are what a maker should know before she cuts.
func warnings(kit Kit) []Warning {
	var out []Warning
	add := func(code, where, format string, args ...any) {
		out = append(out, Warning{code, fmt.Sprintf(format, args...), where})
	}
	unit := kit.Design.Units
	front := kit.Design.Front
	for _, thin := range []struct {
		name   string
		length geometry.Length
	}{{"margin", front.Margin}, {"gap", front.Gap}} {
		if thin.length > 0 && thin.length < thinnest {
			add("thin-"+thin.name, "front."+thin.name, "front.%s: %s is too narrow to keep even by hand; is its unit right?", thin.name, thin.length.Format(unit))
		}
	}
	out = append(out, frontWarnings(kit)...)
	out = append(out, toolWarnings(kit)...)
	for _, use := range kit.Stock {
		p, where := use.Paper, "papers."+use.Paper.Name
		if doubt := p.CaliperDoubt(unit); doubt != "" {
			add("caliper-doubt", where, "paper %q: %s", p.Name, doubt)
		}
		if use.Sheets == 0 {
			add("unused-paper", where, "paper %q is not used", p.Name)
			continue
		}
		if p.Have != nil && *p.Have < use.Sheets {
			add("short-of-sheets", where, "paper %q: %d sheets needed, %d at hand", p.Name, use.Sheets, *p.Have)
		}
		if usual := p.Drawing.Usual(); p.Pattern.Freer(usual) {
			add("drawing-turned", where, "paper %q: pattern is %s, so pieces may lie turned in ways that its drawing of %s shows; is it %s?", p.Name, p.Pattern, p.Drawing, usual)
		}
		if kit.Design.bleed(p) > 0 && p.Colour == "" {
			add("no-colour", where, "paper %q has no colour, so its print is grey; write one, or bleed = 0 for this paper", p.Name)
		}
	}
	out = append(out, raised(kit)...)
	out = append(out, stockWarnings(kit)...)
	told := ""
	for _, s := range kit.Sheets {
		if told != s.Paper.Name && s.cutsOnBorder() && slices.Contains(kit.Design.Tools, Cutter) {
			add("cut-on-border", "papers."+s.Paper.Name, "paper %q: pieces reach the sheet's own border, where few cutters can cut; keep an edge, or cut these on a trimmer", s.Paper.Name)
			told = s.Paper.Name
		}
	}
	return out
}

// frontWarnings tell what became of slivers, and of panels whose count does
// not suit the shape of the card.
func frontWarnings(kit Kit) []Warning {
	var out []Warning
	if n := kit.Card.Front.Slivers.Merged; n > 0 {
		out = append(out, Warning{"slivers", fmt.Sprintf("front: %s at the border merged with a neighbour", slivers(n)), "front.slivers"})
	}
	if n := kit.Card.Front.Slivers.LeftOut; n > 0 {
		out = append(out, Warning{"slivers", fmt.Sprintf("front: %s at the border left out; the base shows there", slivers(n)), "front.slivers"})
	}
	return append(out, shapeAdvice(kit)...)
}

func slivers(n int) string {
	if n == 1 {
		return "1 sliver"
	}
	return fmt.Sprintf("%d slivers", n)
}

// tooLong is how many times as long as broad a cell may be before a word is
// said: past it a grid reads as strips. Common practice, no source.
const tooLong = 3

// shapeAdvice says when the cells of a front with columns and rows come out
// long and narrow, or smaller than a hand can hold, and which counts would
// make them nearly square.
func shapeAdvice(kit Kit) []Warning {
	front, frame := kit.Design.Front, kit.Card.Frame
	columns, rows := front.Options.Count("columns"), front.Options.Count("rows")
	if columns == 0 || rows == 0 {
		return nil
	}
	cell := func(columns, rows int) geometry.Size {
		return geometry.Size{
			W: (frame.W()+front.Gap)/geometry.Length(columns) - front.Gap,
			H: (frame.H()+front.Gap)/geometry.Length(rows) - front.Gap,
		}
	}
	c := cell(columns, rows)
	if max(c.W, c.H) <= tooLong*min(c.W, c.H) && min(c.W, c.H) >= SmallPiece {
		return nil
	}
	betterColumns, betterRows := squarerCounts(frame.Size(), columns*rows)
	better := cell(betterColumns, betterRows)
	text := fmt.Sprintf("front: cells of %s", c.Format(kit.Design.Units))
	switch {
	case min(c.W, c.H) < SmallPiece && max(c.W, c.H) <= tooLong*min(c.W, c.H):
		text += " are small to hold; fewer columns or rows make them larger"
	case betterColumns == columns && betterRows == rows || min(better.W, better.H) < SmallPiece:
		text += " are long and narrow; other columns and rows suit this card better"
	default:
		text += fmt.Sprintf(" are long and narrow; columns = %d and rows = %d make them %s",
			betterColumns, betterRows, better.Format(kit.Design.Units))
	}
	return []Warning{{"cell-shape", text, "front.columns"}}
}

// squarerCounts returns the columns and rows, about as many cells in all,
// whose cells are nearest to squares.
func squarerCounts(frame geometry.Size, cells int) (columns, rows int) {
	best := math.Inf(1)
	for c := 1; c <= cells; c++ {
		r := max(1, int(math.Round(float64(cells)/float64(c))))
		w, h := float64(frame.W)/float64(c), float64(frame.H)/float64(r)
		off := math.Abs(math.Log(w/h)) + math.Abs(math.Log(float64(c*r)/float64(cells)))
		if off < best {
			best, columns, rows = off, c, r
		}
	}
	return columns, rows
}

// raised tells of an edge and a spacing that are written in the design, for
// all papers or for one, and that bleed makes wider on a paper that is used.
func raised(kit Kit) []Warning {
	d := kit.Design
	var out []Warning
	for i, use := range kit.Stock {
		p := use.Paper
		bleed := d.bleed(p)
		if bleed == 0 || use.Sheets == 0 {
			continue
		}
		edge, spacing := d.room(p)
		tell := func(key string, written, to geometry.Length) {
			own := fmt.Sprintf("papers.%d.%s", i, key)
			if d.keys.places[own] == (place{}) && d.keys.places["sheets."+key] == (place{}) || written >= to {
				return
			}
			out = append(out, Warning{"raised-" + key, fmt.Sprintf("paper %q: %s raised from %s to %s, for the bleed",
				p.Name, key, written.Format(d.Units), to.Format(d.Units)), "papers." + p.Name})
		}
		tell("edge", chosen(p.Edge, d.Sheets.Edge), edge-bleed)
		tell("spacing", chosen(p.Spacing, d.Sheets.Spacing), spacing)
	}
	return out
}

// chosen returns a paper's own length where it has one.
func chosen(own *geometry.Length, otherwise geometry.Length) geometry.Length {
	if own != nil {
		return *own
	}
	return otherwise
}

// thinnest is the narrowest gap or margin that passes without a word. Common
// practice, no source: even 1/32 in is hard to keep even.
const thinnest = geometry.Inch / 64

// cutsOnBorder reports whether a piece touches the sheet's border.
func (s Sheet) cutsOnBorder() bool {
	inside := geometry.Rect{Min: geometry.Point{X: 1, Y: 1}, Max: geometry.Point{X: s.Size.W - 1, Y: s.Size.H - 1}}
	return s.Edge == 0 && slices.ContainsFunc(s.Pieces, func(p Piece) bool { return !inside.ContainsRect(p.Outline.Bounds()) })
}
