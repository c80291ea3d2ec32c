package page

import (
	"context"
	"fmt"
	"html/template"
	"math"
	"strings"
	"time"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/cards"
	"panelry/layouts/fronts"
	"panelry/layouts/papers"
	"panelry/layouts/shopping"
	"panelry/layouts/sums"
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

// Grid reports whether both sums have the same parts, so that one head serves
// both.
func (p *pageData) Heads() []sumCell {
	rows := p.Sums()
	if len(rows[0].Cells) != len(rows[1].Cells) {
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

type trimmed struct {
	plan layouts.TrimPlan
	err  error
}

// Trimming is the plan of straight cuts.
func (p *pageData) Trimming() *trimmed { return p.cuts }

// trimming plans the straight cuts, briefly.
func (p *pageData) trimming() *trimmed {
	d := p.design
	d.Sheets.Effort = "quick"
	plan, err := layouts.PlanTrim(d)
	return &trimmed{plan, err}
}

// Steps, Refused, Notes and Trouble are for the template.
func (t *trimmed) Steps() []layouts.TrimStep      { return t.plan.Steps }
func (t *trimmed) Refused() []layouts.TrimRefused { return t.plan.Refused }
func (t *trimmed) Notes() []string                { return t.plan.Notes }
func (t *trimmed) Fact() string {
	return fmt.Sprintf("%s, %s of the stop, %s of the blade.", counted(len(t.plan.Steps), "step", "steps"),
		counted(t.plan.Settings(), "setting", "settings"), counted(t.plan.Strokes(), "stroke", "strokes"))
}
func (t *trimmed) Trouble() string {
	if t.err == nil {
		return ""
	}
	return sentence(t.err.Error())
}

// An envelope that holds the card.
type envelope struct {
	Name string
	Size template.HTML
	Room string
}

// Envelopes are the smallest named envelopes that hold the card.
func (p *pageData) Envelopes() []envelope {
	card := p.kit.Card.Size
	if card.W > card.H {
		card = card.Turned()
	}
	var out []envelope
	for _, s := range cards.Sizes() {
		if s.Use&cards.ForEnvelope == 0 || s.Holds.W < card.W || s.Holds.H < card.H {
			continue
		}
		if s.Holds.W-card.W > geometry.Inch || s.Holds.H-card.H > geometry.Inch {
			continue
		}
		out = append(out, envelope{s.Name, p.S(s.Size), ""})
	}
	return out[:min(len(out), 3)]
}

// Weighs says what a finished card weighs.
func (p *pageData) Weighs() string {
	if !p.planned {
		return ""
	}
	list, err := shopping.For(p.kit)
	if err != nil {
		return sentence(err.Error())
	}
	w := list.Weight
	if len(w.Unknown) > 0 {
		return "Not known: " + strings.Join(w.Unknown, ", ") + " has no weight. Name it under Papers."
	}
	if w.Lightest == w.Heaviest {
		return fmt.Sprintf("%.1f g a card, without what holds it together.", w.Lightest)
	}
	return fmt.Sprintf("%.1f to %.1f g a card, without what holds it together.", w.Lightest, w.Heaviest)
}

// FlatBase draws the base laid flat, with its folds.
func (p *pageData) FlatBase() template.HTML {
	base := p.kit.Card.Base
	size := base.Outline.Bounds().Size()
	w, h := mm(size.W), mm(size.H)
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="fold" viewBox="-2 -2 %s %s" role="img" aria-label="The base laid flat, outside up, %s"><rect class="base" width="%s" height="%s" fill="%s" stroke-width=".6"/>`,
		num(w+4), num(h+4), size.Format(p.show()), num(w), num(h), p.In.Fill(p.design.Paper(p.design.Card.Paper), 0))
	for _, f := range base.Folds {
		from, to := ends(f.Line)
		fmt.Fprintf(&b, `<path class="scoreline" d="M%s %sL%s %s"/>`, num(mm(from.X)), num(mm(from.Y)), num(mm(to.X)), num(mm(to.Y)))
	}
	front := base.Front
	fmt.Fprintf(&b, `<rect class="off" x="%s" y="%s" width="%s" height="%s"/></svg>`, num(mm(front.Min.X)+2), num(mm(front.Min.Y)+2), num(mm(front.W())-4), num(mm(front.H())-4))
	return template.HTML(b.String())
}

// niceTime is how long to look for nicer margins and gaps.
const niceTime = 3 * time.Second

// A nicer margin and gap, as a button.
type nicer struct{ Do, Text string }

// Nicer offers margins and gaps that put every size on the ruler.
func (p *pageData) Nicer() []nicer {
	if !p.drawn || !p.nice {
		return nil
	}
	wish := sums.NiceWish{Tolerance: geometry.Inch / 16, Most: 3}
	if p.design.Units == geometry.Millimetres {
		wish.Tolerance = geometry.Millimetre * 3 / 2
	}
	d := p.design
	d.Sheets.Effort = "quick"
	ctx, stop := context.WithTimeout(context.Background(), niceTime)
	defer stop()
	choices, err := sums.Nice(ctx, d, wish)
	if err != nil {
		return nil
	}
	var out []nicer
	for _, c := range choices {
		sizes := "exact"
		if c.OnRuler {
			sizes = "on the ruler"
		}
		do := fmt.Sprintf("choose front.margin=%s|front.gap=%s|front.sizes=%s", p.exact(c.Margin), p.exact(c.Gap), sizes)
		text := fmt.Sprintf("margin %s, gap %s, sizes %s", c.Margin.Format(p.show()), c.Gap.Format(p.show()), sizes)
		if c.OffRuler > 0 {
			text += fmt.Sprintf(", %s beside a mark", counted(c.OffRuler, "size", "sizes"))
		}
		out = append(out, nicer{do, text})
	}
	return out
}

// NiceLink asks for them.
func (p *pageData) NiceLink() string {
	v := p.view
	v.nice = true
	return p.link(v, "h-sums")
}

// AskedNice and AskedFit report what was asked for.
func (p *pageData) AskedNice() bool  { return p.nice }
func (p *pageData) AskedFit() string { return p.fit }

// FitPanel is the panel whose size is asked about: that of the slip, else the
// first.
func (p *pageData) FitPanel() string {
	if panel := p.openPanel(); panel != nil {
		return panel.Name
	}
	return p.kit.Card.Panels[0].Name
}

// Fitting answers which margin, gap or card gives a panel the asked size.
func (p *pageData) Fitting() (list []nicer) {
	if !p.drawn || p.fit == "" {
		return nil
	}
	size, err := geometry.ParseSize(p.fit, p.show())
	if err != nil {
		return []nicer{{"", sentence(err.Error())}}
	}
	answers, err := sums.Solve(p.design, sums.Target{Panel: p.FitPanel(), Size: size})
	if err != nil {
		return []nicer{{"", sentence(err.Error())}}
	}
	for _, a := range answers {
		if a.Why != "" {
			continue
		}
		do := fmt.Sprintf("choose front.margin=%s|front.gap=%s", p.exact(a.Margin), p.exact(a.Gap))
		text := fmt.Sprintf("margin %s, gap %s", a.Margin.Format(p.show()), a.Gap.Format(p.show()))
		if a.Card != p.design.Card.Size {
			do += fmt.Sprintf("|card.width=%s|card.height=%s", p.exact(a.Card.W), p.exact(a.Card.H))
			text += ", card " + a.Card.Format(p.show())
		}
		if !a.Exact() {
			text += fmt.Sprintf("; the panel is then %s", a.Got.Format(p.show()))
		}
		list = append(list, nicer{do, text})
	}
	if len(list) == 0 {
		list = []nicer{{"", "No margin, gap or card makes it that size."}}
	}
	return list
}

// Slants are the cells of diagonal halves, for turning their cuts.
type slantCell struct {
	Do, Name string
	Rising   bool
}

// Slants returns rows of cells; none where the front has no such.
func (p *pageData) Slants() [][]slantCell {
	var out [][]slantCell
	for r, row := range p.slants() {
		var cells []slantCell
		for c, mark := range row {
			cells = append(cells, slantCell{fmt.Sprintf("slant %d,%d", c, r), fmt.Sprintf("%c%d", 'A'+c, r+1), mark == '/'})
		}
		out = append(out, cells)
	}
	return out
}
