package layouts

import (
	"fmt"
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
	for _, use := range kit.Stock {
		p, where := use.Paper, "papers."+use.Paper.Name
		if use.Sheets == 0 {
			add("unused-paper", where, "paper %q is not used", p.Name)
			continue
		}
		if p.Have != nil && *p.Have < use.Sheets {
			add("short-of-sheets", where, "paper %q: %d sheets needed, %d at hand", p.Name, use.Sheets, *p.Have)
		}
		if kit.Design.bleed(p) > 0 && p.Colour == "" {
			add("no-colour", where, "paper %q has no colour, so its print is grey; write one, or bleed = 0 for this paper", p.Name)
		}
	}
	out = append(out, raised(kit.Design)...)
	told := ""
	for _, s := range kit.Sheets {
		if told != s.Paper.Name && s.cutsOnBorder() && slices.Contains(kit.Design.Tools, Cutter) {
			add("cut-on-border", "papers."+s.Paper.Name, "paper %q: pieces reach the sheet's own border, where few cutters can cut; keep an edge, or cut these on a trimmer", s.Paper.Name)
			told = s.Paper.Name
		}
	}
	return out
}

// raised tells of an edge and a spacing that are written in the design, and
// that bleed makes wider.
func raised(d Design) []Warning {
	bleed := d.Sheets.Bleed
	if bleed == 0 {
		return nil
	}
	var out []Warning
	add := func(key string, to geometry.Length, why string) {
		if d.keys.places["sheets."+key] != (place{}) {
			out = append(out, Warning{"raised-" + key, fmt.Sprintf("sheets.%s: raised to %s, %s", key, to.Format(d.Units), why), "sheets." + key})
		}
	}
	if d.Sheets.Edge < PrintedEdge {
		add("edge", PrintedEdge, "which a printed sheet needs")
	}
	if d.Sheets.Spacing < 2*bleed {
		add("spacing", 2*bleed, "twice the bleed")
	}
	return out
}

// thinnest is the narrowest gap or margin that passes without a word. Common
// practice, no source: even 1/32 in is hard to keep even.
const thinnest = geometry.Inch / 64

// cutsOnBorder reports whether a piece touches the sheet's border.
func (s Sheet) cutsOnBorder() bool {
	inside := geometry.Rect{Min: geometry.Point{X: 1, Y: 1}, Max: geometry.Point{X: s.Size.W - 1, Y: s.Size.H - 1}}
	return s.Edge == 0 && slices.ContainsFunc(s.Pieces, func(p Piece) bool { return !inside.ContainsRect(p.Outline.Bounds()) })
}
