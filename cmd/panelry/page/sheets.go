package page

import (
	"fmt"
	"html"
	"html/template"
	"math"
	"strings"

	"panelry/export/picture"
	"panelry/geometry"
	"panelry/layouts"
)

// A sheetRow is one line of the list of sheets: alike ones stand once.
type sheetRow struct {
	Number int // of the first
	Count  int
	Paper  string
	Text   string
	Link   string
	Now    bool
	Small  template.HTML
}

// mostSheetRows bounds the list of sheets.
const mostSheetRows = 40

// sheetRows lists the sheets of the kit, alike ones together.
func (s *state) sheetRows(in *picture.Inline) (rows []sheetRow, more int) {
	at := map[string]int{}
	drawn := 0
	for i, sheet := range s.kit.Sheets {
		key := alike(sheet)
		if n, ok := at[key]; ok {
			rows[n].Count++
			rows[n].Now = rows[n].Now || s.sheet == i+1
			continue
		}
		if len(rows) == mostSheetRows {
			more++
			continue
		}
		at[key] = len(rows)
		small := template.HTML("")
		if drawn += len(sheet.Pieces); drawn <= mostSmall {
			small = smallSheet(in, sheet)
		}
		v := s.view
		v.sheet = i + 1
		rows = append(rows, sheetRow{Number: i + 1, Count: 1, Paper: sheet.Paper.Name, Link: s.link(v, "sheets"), Now: s.sheet == i+1,
			Text: fmt.Sprintf("%s, %.0f %%", counted(len(sheet.Pieces), "piece", "pieces"), sheet.UsedPercent()), Small: small})
	}
	for i := range rows {
		if rows[i].Count > 1 {
			rows[i].Text = fmt.Sprintf("%d sheets alike, each %s", rows[i].Count, rows[i].Text)
		}
	}
	return rows, more
}

// alike is the same for sheets on which the same kinds lie in the same places.
func alike(s layouts.Sheet) string {
	var b strings.Builder
	fmt.Fprint(&b, s.Paper.Name, s.Size)
	for _, p := range s.Pieces {
		fmt.Fprint(&b, " ", p.Kind, p.Middle)
	}
	return b.String()
}

// smallSheet draws a sheet for the list: its paper, and the pieces on it.
func smallSheet(in *picture.Inline, sheet layouts.Sheet) template.HTML {
	w, h := mm(sheet.Size.W), mm(sheet.Size.H)
	var outlines []geometry.Outline
	for _, p := range sheet.Pieces {
		outlines = append(outlines, p.Outline)
	}
	return template.HTML(fmt.Sprintf(`<svg viewBox="0 0 %s %s" aria-hidden="true"><rect class="shp" width="%s" height="%s" stroke-width="%s"/><path class="cut" stroke-width="%s" fill="%s" d="%s"/></svg>`,
		num(w), num(h), num(w), num(h), num(w/60), num(w/90), sheet.Paper.Shown(), coarse(outlines)))
}

// coarse is path data for a picture of a finger's breadth: whole millimetres.
func coarse(outlines []geometry.Outline) string {
	var b strings.Builder
	for _, o := range outlines {
		for i, p := range o.Outer.Flatten(geometry.Millimetre) {
			fmt.Fprintf(&b, "%c%d %d", "ML"[min(i, 1)], int(math.Round(mm(p.X))), int(math.Round(mm(p.Y))))
		}
		b.WriteByte('Z')
	}
	return b.String()
}

// sheetNow is the sheet that is looked at; nil when there is none.
func (s *state) sheetNow() *layouts.Sheet {
	if !s.planned || s.sheet > len(s.kit.Sheets) {
		return nil
	}
	return &s.kit.Sheets[s.sheet-1]
}

// sheetPicture draws a sheet large, face up, with names and arrows.
func (s *state) sheetPicture(in *picture.Inline) template.HTML {
	sheet := s.sheetNow()
	if sheet == nil {
		return ""
	}
	w, h := mm(sheet.Size.W), mm(sheet.Size.H)
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="big" viewBox="0 0 %s %s" role="img" aria-label="%s">`, num(w), num(h), html.EscapeString(s.sheetText()))
	fmt.Fprintf(&b, `<rect class="shp" width="%s" height="%s"/><rect fill="%s" fill-opacity=".14" width="%s" height="%s"/>`, num(w), num(h), sheet.Paper.Shown(), num(w), num(h))
	if sheet.Edge > 0 {
		e := mm(sheet.Edge)
		fmt.Fprintf(&b, `<rect class="keep" x="%s" y="%s" width="%s" height="%s"/>`, num(e), num(e), num(w-2*e), num(h-2*e))
	}
	for _, r := range sheet.Offcuts(s.design.Ruler) {
		offcut(&b, r, w, r.Size().Format(s.show()))
	}
	fill := in.Fill(sheet.Paper, sheet.Paper.PatternUp)
	var outlines []geometry.Outline
	for _, p := range sheet.Pieces {
		outlines = append(outlines, p.Outline)
	}
	fmt.Fprintf(&b, `<path class="cut" stroke-width="%s" fill="%s" d="%s"/>`, num(w/430), fill, picture.PathData(outlines...))
	for _, p := range sheet.Pieces {
		for _, fold := range p.Folds {
			from, to := ends(fold.Line)
			fmt.Fprintf(&b, `<path class="scoreline" d="M%s %sL%s %s"/>`, num(mm(from.X)), num(mm(from.Y)), num(mm(to.X)), num(mm(to.Y)))
		}
		sheetChip(&b, p, w)
	}
	b.WriteString(`</svg>`)
	return template.HTML(b.String())
}

// offcut draws what can be cut off a sheet in one oblong, and writes its size
// where there is room.
func offcut(b *strings.Builder, r geometry.Rect, width float64, size string) {
	x, y, w, h := mm(r.Min.X), mm(r.Min.Y), mm(r.W()), mm(r.H())
	fmt.Fprintf(b, `<rect class="off" x="%s" y="%s" width="%s" height="%s"/>`, num(x), num(y), num(w), num(h))
	if letters := width / 34; w > 0.55*letters*float64(len(size)) && h > 1.5*letters {
		fmt.Fprintf(b, `<text x="%s" y="%s" text-anchor="middle" font-size="%s">%s</text>`, num(x+w/2), num(y+h/2), num(letters), html.EscapeString(size))
	}
}

// sheetChip writes a piece's name where it would be large enough to read: the
// picture is about 430 px wide.
func sheetChip(b *strings.Builder, p layouts.Piece, width float64) {
	room := 2 * p.Outline.Area().SquareMM() / (p.Outline.Perimeter() / float64(geometry.Millimetre))
	size := math.Min(width/40, 1.9*room/(0.62*float64(len(p.ID)+2)))
	if size < width/48 {
		return
	}
	x, y := mm(p.Middle.X), mm(p.Middle.Y)
	w, h := size*(0.66*float64(len(p.ID))+1.5), size*1.4
	fmt.Fprintf(b, `<g class="chip"><rect x="%s" y="%s" width="%s" height="%s"/><text x="%s" y="%s" font-size="%s">%s</text>`,
		num(x-w/2), num(y-h/2), num(w), num(h), num(x-0.45*size), num(y+0.35*size), num(size), html.EscapeString(p.ID))
	fmt.Fprintf(b, `<path class="way" transform="translate(%s %s) rotate(%s) scale(%s)" d="M0-4L2.4-.6H.7V4H-.7V-.6H-2.4Z"/></g>`,
		num(x+w/2-0.75*size), num(y), num(p.Turn), num(size/10))
}

// sheetText says in a sentence what lies on the sheet.
func (s *state) sheetText() string {
	sheet := s.sheetNow()
	return fmt.Sprintf("%s, sheet %d of %d, %s: %s, %.0f %% used, drawn face up.", sheet.Paper.Name, s.sheet, len(s.kit.Sheets),
		sheet.Size.Format(s.show()), counted(len(sheet.Pieces), "piece", "pieces"), sheet.UsedPercent())
}

// pieceList lists the pieces on the sheet in words.
func (s *state) pieceList() string {
	sheet := s.sheetNow()
	if sheet == nil {
		return ""
	}
	const most = 200
	var names []string
	for i, p := range sheet.Pieces {
		if i == most {
			names = append(names, fmt.Sprintf("and %d more", len(sheet.Pieces)-most))
			break
		}
		name := p.ID
		if p.Turn != 0 {
			name += fmt.Sprintf(" turned %.4g°", p.Turn)
		}
		if p.Over {
			name += " over"
		}
		names = append(names, name)
	}
	return strings.Join(names, ", ")
}

// fewest says how the number of sheets stands against what can be.
func (s *state) fewest() (text string, proved bool) {
	t := s.kit.Totals
	least, known := 0, true
	for _, u := range s.kit.Stock {
		if u.Sheets > 0 && u.Least == 0 {
			known = false
		}
		least += u.Least
	}
	sheets := counted(t.Sheets, "sheet", "sheets")
	switch {
	case known && least == t.Sheets:
		return sheets + "; fewer cannot do it.", true
	case known:
		return fmt.Sprintf("%s. Fewer than %d cannot do it.", sheets, least), false
	}
	return sheets + ".", false
}

// ends returns where a fold begins and ends: it is one straight line.
func ends(p geometry.Path) (from, to geometry.Point) {
	points := p.Points()
	return points[0], points[len(points)-1]
}
