package page

import (
	"fmt"
	"html/template"
	"slices"
	"strings"

	"panelry/export/picture"
	"panelry/geometry"
	"panelry/layouts"
)

// templateFuncs are what the templates need besides the page's methods.
var templateFuncs = template.FuncMap{"fractions": fractions, "counted": counted, "sentence": sentence}

// fractions sets the fractions of a text as such.
func fractions(text string) template.HTML {
	var b strings.Builder
	for i, word := range strings.Split(text, " ") {
		if i > 0 {
			b.WriteByte(' ')
		}
		upper, lower, ok := strings.Cut(word, "/")
		if ok && wholeNumber.MatchString(upper) && wholeNumber.MatchString(lower) {
			b.WriteString(`<span class="fr">` + word + `</span>`)
		} else {
			b.WriteString(template.HTMLEscapeString(word))
		}
	}
	return template.HTML(b.String())
}

// pageData is what the templates draw: a state, with methods for the words.
type pageData struct {
	*state
	In   *picture.Inline
	Trim bool      // the straight cuts are worked out too
	All  []kitFile // every file of the kit, when they were asked for
}

func newPage(s *state) *pageData {
	p := &pageData{state: s, In: picture.NewInline()}
	if s.drawn { // so that the numbers of the patterns stay, whatever is drawn first
		for _, paper := range s.kit.Design.Papers {
			p.In.Fill(paper, 0)
		}
	}
	return p
}

// Design is the packed design, for the forms.
func (p *pageData) Design() string { return p.packed }

// View is what is looked at, for the forms.
func (p *pageData) View() string { return p.query() }

// Base stands before links to the design's own address.
func (p *pageData) Base() string { return p.base }

// Short reports whether the design goes into an address.
func (p *pageData) Short() bool { return len(p.packed) <= longestLink }

// Drawn and Planned report whether there is a card, and sheets.
func (p *pageData) Drawn() bool   { return p.drawn }
func (p *pageData) Planned() bool { return p.planned }

// Kit is the kit, for templates.
func (p *pageData) Kit() layouts.Kit { return p.kit }

// Title is the design's.
func (p *pageData) Title() string {
	if p.reads {
		return p.design.Title
	}
	return "A design with something to put right"
}

// L writes a length in the unit that is looked at.
func (p *pageData) L(l geometry.Length) template.HTML { return fractions(l.Format(p.show())) }

// S writes a size.
func (p *pageData) S(size geometry.Size) template.HTML {
	return fractions(strings.ReplaceAll(size.Format(p.show()), " x ", " × "))
}

// MM writes a size in millimetres.
func (p *pageData) MM(size geometry.Size) string {
	return fmt.Sprintf("%.2f × %.2f mm", mm(size.W), mm(size.H))
}

// UnitLink is the address of the same page in another unit.
func (p *pageData) UnitLink(unit string) string {
	v := p.view
	v.unit, _ = geometry.ParseUnit(unit)
	return p.link(v, "")
}

// InUnit reports whether lengths are shown in a unit.
func (p *pageData) InUnit(unit string) bool { return p.show().String() == unit }

// numberWords are written out where a sentence begins with them.
var numberWords = []string{"No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve"}

func spelled(n int, one, many string) string {
	if n == 1 {
		return "One " + one
	}
	if n >= 0 && n < len(numberWords) {
		return numberWords[n] + " " + many
	}
	return counted(n, one, many)
}

// Sum is the page's first sentence.
func (p *pageData) Sum() string {
	if !p.drawn {
		return "The card cannot be drawn until this is put right."
	}
	t := p.kit.Totals
	cards := p.kit.Design.Batch.Cards
	panels := len(p.kit.Card.Panels) * (cards + p.kit.Design.Batch.Spares)
	text := fmt.Sprintf("%s, %s: %s and %s", spelled(cards, "card", "cards"), strings.ReplaceAll(p.kit.Card.Size.Format(p.show()), " x ", " by "),
		counted(panels, "panel", "panels"), counted(cards, "base", "bases"))
	if !p.planned {
		return text + ". The sheets cannot be laid out yet."
	}
	return text + " from " + counted(t.Sheets, "sheet", "sheets") + ". Every sum is exact."
}

// Status says what a change brought, for those who do not see it.
func (p *pageData) Status() string {
	for _, key := range sortedKeys(p.errors) {
		if !p.errors[key].before {
			return p.errors[key].text
		}
	}
	if !p.drawn {
		return p.Sum()
	}
	size := p.kit.Card.Panels[0].Outline.Bounds().Size()
	text := fmt.Sprintf("Margin %s, gap %s. First panel %s.", p.design.Front.Margin.Format(p.show()), p.design.Front.Gap.Format(p.show()), size.Format(p.show()))
	if p.planned {
		text += " " + counted(p.kit.Totals.Sheets, "sheet", "sheets") + "."
	}
	return text
}

// Unknown says which keys of the file mean nothing here; "" for none.
func (p *pageData) Unknown() string {
	const most = 12
	list := p.unknown
	if len(list) == 0 {
		return ""
	}
	text := strings.Join(list[:min(most, len(list))], ", ")
	if n := len(list) - most; n > 0 {
		text += fmt.Sprintf(" and %d more", n)
	}
	return "Keys that this page does not know are kept as they are: " + text + ". They change nothing here, and the command line does not take them."
}

// A notice is a problem or something worth knowing, and where it belongs.
type notice struct {
	Key, Text string
	Problem   bool
	More      []string
}

// WorthOf lists what is worth knowing about keys that begin in one of some ways.
func (p *pageData) WorthOf(starts ...string) []notice { return p.notices(false, starts) }

// ToPutRight lists the problems of such keys, for places away from the fields.
func (p *pageData) ToPutRight(starts ...string) []notice { return p.notices(true, starts) }

func (p *pageData) notices(problems bool, starts []string) []notice {
	var out []notice
	for _, n := range p.all() {
		if n.Problem == problems && slices.ContainsFunc(starts, func(s string) bool { return strings.HasPrefix(n.Key, s) }) {
			out = append(out, n)
		}
	}
	return out
}

// elsewhere are the places of what is worth knowing that are not the card's.
var elsewhere = []string{"papers", "batch", "sheets", "trimmer", "shop", "tool"}

// OfTheCard lists what is worth knowing about the card: all that belongs
// nowhere else.
func (p *pageData) OfTheCard() []notice {
	var out []notice
	for _, n := range p.all() {
		if !n.Problem && !slices.ContainsFunc(elsewhere, func(s string) bool { return strings.HasPrefix(n.Key, s) }) {
			out = append(out, n)
		}
	}
	return out
}

// Loose lists what belongs to no place on the page.
func (p *pageData) Loose() []notice {
	var out []notice
	for _, n := range p.all() {
		if n.Problem && (!p.drawn || n.Key == "") {
			out = append(out, n)
		}
	}
	for _, key := range []string{"open"} {
		if e, ok := p.errors[key]; ok {
			out = append(out, notice{"", e.text, true, e.more})
		}
	}
	return out
}

func (p *pageData) all() []notice {
	var out []notice
	for _, problem := range p.problems {
		text := p.told(problem.Text)
		if !p.drawn {
			text = p.openLine(problem)
		}
		out = append(out, notice{problem.Path, text, true, nil})
	}
	if p.drawn {
		for _, w := range p.kit.Warnings {
			out = append(out, notice{w.Where, p.told(w.Text), false, nil})
		}
	}
	return out
}

func (p *pageData) openLine(problem layouts.Problem) string {
	text := p.told(problem.Text)
	if problem.Key != "" {
		text = "“" + problem.Key + "”: " + ended(p.inPageWords(problem.Text))
	}
	if problem.Line > 0 {
		text = fmt.Sprintf("Line %d: %s", problem.Line, text)
	}
	return text
}

// Worth counts what is worth knowing.
func (p *pageData) Worth() int {
	if !p.drawn {
		return 0
	}
	return len(p.kit.Warnings)
}

// Defs are the patterns of the papers, for all pictures of the page.
func (p *pageData) Defs() template.HTML {
	if p.drawn {
		p.cardPicture(p.In)
		for card := 1; card <= min(p.kit.Design.Batch.Cards, p.deckSize()); card++ {
			for _, panel := range p.kit.Card.Panels {
				p.In.Fill(p.kit.PaperOn(panel, card), panel.PatternDegrees)
			}
		}
		if sheet := p.sheetNow(); sheet != nil {
			p.In.Fill(sheet.Paper, sheet.Paper.PatternUp)
		}
	}
	return template.HTML(p.In.Defs())
}

// The pictures.
func (p *pageData) CardPicture() template.HTML  { return p.cardPicture(p.In) }
func (p *pageData) SheetPicture() template.HTML { return p.sheetPicture(p.In) }

// NowSmall is the card that is looked at, small.
func (p *pageData) NowSmall() template.HTML { return p.smallCard(p.In, p.card) }

// Gallery returns the fronts that are shown at once, or the others.
func (p *pageData) Gallery(others bool) []sample {
	first, rest := p.gallery()
	if others {
		return rest
	}
	return first
}
