package pdf

import (
	"fmt"

	"panelry/geometry"
	"panelry/layouts"
)

// figure is a small drawing with lines of words below it.
type figure struct {
	scene scene
	words []string
}

const (
	figureType  = 2.6
	figureSpace = 5.0
)

// flow puts figures in rows onto pages, in their order.
func (t template) flow(heading string, notes []string, figures []figure) {
	l := t.leaf(false, notes)
	x, y, row := 0.0, 0.0, 0.0
	opened := false
	for _, f := range figures {
		w, h := in(f.scene.size.W), in(f.scene.size.H)
		for _, line := range f.words {
			w = max(w, t.width(t.letters.fit(line), figureType, ""))
		}
		w = min(w, l.roomW)
		h += figureType * lineFeed * (float64(len(f.words)) + 0.3)
		if x > 0 && x+w > l.roomW {
			x, y, row = 0, y+row+figureSpace, 0
		}
		if !opened || y+h > l.room {
			t.open(l, heading, notes)
			opened, x, y, row = true, 0, 0, 0
		}
		t.draw(f.scene, whole(f.scene.size), l.left+x, l.top+y)
		foot := l.top + y + in(f.scene.size.H)
		for i, line := range f.words {
			t.text(l.left+x, foot+figureType*lineFeed*(float64(i)+1), figureType, "", start, t.cutShort(line, figureType, "", l.roomW))
		}
		x += w + figureSpace
		row = max(row, h)
	}
}

// kinds shows each kind of panel once, with its count; kinds larger than the
// page come as tiles.
func (t template) kinds() {
	d := t.kit.Design
	notes := []string{"Each kind of piece once, at true size, right side up with its pattern upright on the sheet (arrow). Cut on the solid lines."}
	l := t.leaf(false, notes)
	var figures []figure
	var large []subject
	for _, k := range t.kit.Kinds {
		if isBase(k) {
			continue // has a page of its own
		}
		o := k.Outline.Moved(geometry.Point{}.Sub(k.Outline.Bounds().Min))
		size := o.Bounds().Size()
		wide := mm(1) + d.Sheets.Bleed
		edge := geometry.Vector{X: wide, Y: wide}
		s := scene{size: geometry.Size{W: size.W + 2*wide, H: size.H + 2*wide}}
		t.bleed(&s, o.Moved(edge))
		s.outline(cut, o.Moved(edge))
		s.name(o.Moved(edge), k.ID, 0)
		words := []string{
			fmt.Sprintf("%s: cut %d of %s", k.ID, k.Count, k.Paper),
			size.Format(d.Units),
			size.Format(other(d.Units)),
		}
		if in(s.size.W) > l.roomW || in(s.size.H)+15 > l.room {
			large = append(large, subject{"Piece " + k.ID, words, s, whole(size).Moved(edge), d.Sheets.Bleed})
			continue
		}
		figures = append(figures, figure{s, words})
	}
	t.flow("Each kind once", notes, figures)
	for _, s := range large {
		t.put(s)
	}
}

// bleed draws how far print goes around a piece.
func (t template) bleed(s *scene, o geometry.Outline) {
	if t.kit.Design.Sheets.Bleed == 0 {
		return
	}
	wider, err := o.Offset(t.kit.Design.Sheets.Bleed, 4)
	if err != nil {
		return // past any page
	}
	for _, w := range wider {
		s.outline(bleed, w)
	}
}

func other(unit geometry.Unit) geometry.Unit {
	if unit == geometry.Inches {
		return geometry.Millimetres
	}
	return geometry.Inches
}

func isBase(k layouts.Kind) bool { return len(k.Places) == 1 && k.Places[0] == "base" }

// mostMaps is how many sheet maps are printed; all are in the kit's maps.
const mostMaps = 48

// maps shows how pieces lie on the sheets, smaller than life.
func (t template) maps() {
	notes := []string{"How the pieces lie on each sheet. These are maps, smaller than life: cut from the files in sheets, or by the pages before."}
	var figures []figure
	sheets := t.kit.Sheets
	if len(sheets) > mostMaps {
		notes = append(notes, fmt.Sprintf("The first %d of %d sheets; the folder maps has them all.", mostMaps, len(sheets)))
		sheets = sheets[:mostMaps]
	}
	for _, sheet := range sheets {
		figures = append(figures, t.sheetMap(sheet))
	}
	if len(figures) > 0 {
		t.flow("Sheet maps", notes, figures)
	}
}

func (t template) sheetMap(sheet layouts.Sheet) figure {
	full := scene{size: sheet.Size}
	full.outline(placing, whole(sheet.Size).Outline())
	for _, p := range sheet.Pieces {
		full.outline(cut, p.Outline)
		for _, f := range p.Folds {
			full.path(crease, f.Line)
		}
	}
	scale := min(1, 90/in(sheet.Size.W), 80/in(sheet.Size.H))
	small := full.scaled(scale)
	for _, p := range sheet.Pieces {
		small.name(p.Outline.Mapped(scaling(scale)), p.ID, p.Turn)
	}
	small.size.W, small.size.H = small.size.W+mm(1), small.size.H+mm(1)
	return figure{small, []string{
		fmt.Sprintf("Sheet %d of %d: %s, %s", sheet.Number, len(t.kit.Sheets), sheet.Paper.Name, sheet.Size.Format(t.kit.Design.Units)),
		fmt.Sprintf("%d pieces, shown at %.0f %% of true size", len(sheet.Pieces), 100*scale),
	}}
}
