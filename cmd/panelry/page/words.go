package page

import (
	"html/template"
	"math"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/papers"
)

// evenSentence says whether papers come out even.
func evenSentence(e papers.Evenness, _ layouts.Kit) string { return sentence(e.String()) }

// Nearby are numbers of cards with which papers would come out even.
func (p *pageData) Nearby() []int {
	even := p.kit.Swaps().Even
	if even == nil || even.Even() {
		return nil
	}
	var out []int
	for _, n := range []int{even.Below, even.Above} {
		if n > 0 && n <= layouts.MostCards {
			out = append(out, n)
		}
	}
	return out
}

// Even reports whether papers come out even; false also where they need not.
func (p *pageData) Even() bool {
	even := p.kit.Swaps().Even
	return even != nil && even.Even()
}

// Slip is what the open panel's slip says.
type slip struct {
	Name, Place, Turn string
	Size              template.HTML
	MM                string
	Long              template.HTML
}

// Slip returns the open panel's slip; nil for none.
func (p *pageData) Slip() *slip {
	panel := p.openPanel()
	if panel == nil {
		return nil
	}
	size := panel.Outline.Bounds().Size()
	out := &slip{Name: panel.Name, Size: p.S(size), MM: p.MM(size)}
	out.Place = sentence(placeWords(p.kit.Card, *panel))
	paper := p.paperOn(*panel)
	out.Turn = map[papers.Pattern]string{
		papers.Plain:  "May lie turned any way on the sheet, as its paper is plain.",
		papers.TwoWay: "May lie half turned on the sheet, as its paper's pattern is two-way.",
		papers.OneWay: "Lies upright on the sheet, as its paper's pattern is one-way.",
	}[paper.Pattern]
	if longest := longestSide(panel.Outline); panel.Hand != "" {
		out.Long = p.L(longest)
	}
	return out
}

func longestSide(o geometry.Outline) geometry.Length {
	points := o.Outer.Flatten(geometry.Micrometre)
	longest := 0.0
	for i, a := range points {
		longest = math.Max(longest, points[(i+1)%len(points)].Sub(a).Len())
	}
	return geometry.Length(math.Round(longest))
}

// CloseSlip is the address without the slip.
func (p *pageData) CloseSlip() string {
	v := p.view
	v.panel = ""
	return p.link(v, "card")
}

// A rowOfSheets is for the template.
func (p *pageData) SheetRows() []sheetRow {
	rows, _ := p.sheetRows(p.In)
	return rows
}

// MoreSheets counts the sheets that the list leaves out.
func (p *pageData) MoreSheets() int {
	_, more := p.sheetRows(p.In)
	return more
}

// SheetText, PieceList, Fewest are the words for the sheets.
func (p *pageData) SheetText() string { return p.sheetText() }
func (p *pageData) PieceList() string { return p.pieceList() }
func (p *pageData) Fewest() string    { text, _ := p.fewest(); return text }
func (p *pageData) Proved() bool      { _, proved := p.fewest(); return proved }

// Searching reports that a longer search is asked for and not done.
func (p *pageData) Searching() bool { return p.planned && p.thorough() && !p.searched && !p.stopped }

// Stopped reports that the search was stopped before its end.
func (p *pageData) Stopped() bool { return p.stopped }
