package pdf

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/fronts"
	"panelry/layouts/wording"
)

// Pages that a template can be printed on.
var pages = map[string]geometry.Size{
	"Letter": {W: geometry.Inch * 17 / 2, H: 11 * geometry.Inch},
	"A4":     {W: 210 * geometry.Millimetre, H: 297 * geometry.Millimetre}, // ISO 216
}

// Pages names them.
func Pages() []string { return []string{"Letter", "A4"} }

// UsualPage is Letter for designs in inches, else A4.
func UsualPage(unit geometry.Unit) string {
	if unit == geometry.Inches {
		return "Letter"
	}
	return "A4"
}

// Template writes a kit's true-scale template on the named page ("" is the
// usual one for its units), and says what it could not write as asked.
func Template(kit layouts.Kit, page string) (data []byte, notes []string, err error) {
	if page == "" {
		page = UsualPage(kit.Design.Units)
	}
	size, ok := pages[page]
	if !ok {
		return nil, nil, fmt.Errorf("the template goes on %s, and not on %q", wording.OrPlain(Pages()), page)
	}
	d, err := newDocument(kit.Design.Title, size)
	if err != nil {
		return nil, nil, err
	}
	t := template{d, kit}
	d.put(t.card())
	t.kinds()
	d.put(t.base())
	d.put(t.guide())
	d.put(t.layOut())
	t.maps()
	data, err = d.finish()
	if n := d.letters.note(); n != "" {
		notes = append(notes, n)
	}
	return data, notes, err
}

type template struct {
	*document
	kit layouts.Kit
}

// Room around a drawing for its dimension lines, in mm.
const (
	beside = 16.0
	before = 2.0
)

// framed is a scene with room for dimensions on the right and below, and
// where the drawing in it begins.
func framed(size geometry.Size) (scene, geometry.Vector) {
	room := mm(before + beside)
	return scene{size: geometry.Size{W: size.W + room, H: size.H + room}}, geometry.Vector{X: mm(before), Y: mm(before)}
}

// card is the finished front with its measures.
func (t template) card() subject {
	kit := t.kit
	d := kit.Design
	s, by := framed(kit.Card.Size)
	front := whole(kit.Card.Size).Moved(by)
	s.outline(cut, front.Outline())
	for _, p := range kit.Card.Panels {
		o := p.Outline.Moved(by)
		s.area(pale(kit.PaperOn(p, 1).Shown()), o)
		s.outline(cut, o)
		s.name(o, p.Name, p.PatternDegrees)
	}
	across, down := kit.Card.Sums()
	t.chain(&s, across, front, false)
	t.chain(&s, down, front, true)
	notes := []string{
		fmt.Sprintf("%s. Card %s, %s. Layout: %s.", d.Title, d.SizeInBothUnits(kit.Card.Size), d.Card.Orientation(), d.Front.Layout.Name),
		fmt.Sprintf("Margin %s, gap %s between panels. Arrows point to the top of each pattern.", d.BothUnits(d.Front.Margin), d.BothUnits(d.Front.Gap)),
	}
	if n := t.letters.fit(d.Title); n != d.Title {
		notes = append(notes, "□ stands for signs that this page's letters lack.")
	}
	notes[0] = shortened(notes[0], 400)
	return subject{"The card", notes, s, front, d.Sheets.Bleed}
}

func shortened(text string, most int) string {
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

// name writes a panel's name in its middle, as large as there is room for,
// with an arrow below it that shows the way of its pattern.
func (s *scene) name(o geometry.Outline, name string, degrees float64) {
	// The radius of a circle that fits in, exactly so for triangles.
	room := 2 * o.Area().SquareMM() / (o.Perimeter() / float64(geometry.Millimetre))
	size := math.Min(4.5, 1.5*room/(0.6*float64(len([]rune(name)))))
	if size < 0.9 {
		return // the sheet maps name what is too small here
	}
	centre := o.Centre()
	s.label(names, centre.Add(geometry.Vector{Y: -mm(size * 0.2)}), size, middle, name)
	s.arrow(centre.Add(geometry.Vector{Y: mm(size * 0.75)}), mm(size*1.2), degrees)
}

// chain draws dimension lines below a box, or on its right: the terms one by
// one, and the whole.
func (t template) chain(s *scene, terms []fronts.Term, box geometry.Rect, down bool) {
	unit := t.kit.Design.Units
	place := func(along geometry.Length, off float64) geometry.Point {
		if down {
			return geometry.Point{X: box.Max.X + mm(off), Y: box.Min.Y + along}
		}
		return geometry.Point{X: box.Min.X + along, Y: box.Max.Y + mm(off)}
	}
	word := func(from, to geometry.Length, off float64, text string) bool {
		const size = 2.4
		if t.width(t.letters.fit(text), size, "") > in(to-from) {
			return false
		}
		it := item{step: dimensions, text: text, at: place((from+to)/2, off-0.7), type_: size, align: middle}
		if down {
			it.turn, it.at = 90, place((from+to)/2, off-0.5)
		}
		s.items = append(s.items, it)
		return true
	}
	line := func(from, to geometry.Length, off float64) {
		s.line(dimensions, place(from, off), place(to, off))
		for _, end := range []geometry.Length{from, to} {
			s.line(dimensions, place(end, off-1), place(end, off+1))
		}
	}
	var from geometry.Length
	for _, term := range terms {
		if term.Length > 0 {
			line(from, from+term.Length, 5)
			if term.What == "panel" && !word(from, from+term.Length, 5, t.kit.Design.BothUnits(term.Length)) {
				word(from, from+term.Length, 5, term.Length.Format(unit))
			}
		}
		from += term.Length
	}
	line(0, from, 11)
	if !word(0, from, 11, t.kit.Design.BothUnits(from)) {
		word(0, from, 11, from.Format(unit))
	}
}

// pale is a colour most of the way to white, to write on.
func pale(colour string) string {
	var r, g, b int
	fmt.Sscanf(colour, "#%02x%02x%02x", &r, &g, &b)
	lift := func(v int) int { return 255 - (255-v)*3/10 }
	return fmt.Sprintf("#%02x%02x%02x", lift(r), lift(g), lift(b))
}

// base is the base laid flat, with its fold.
func (t template) base() subject {
	d, laid := t.kit.Design, t.kit.Card.Base
	size := laid.Outline.Bounds().Size()
	s, by := framed(size)
	s.outline(cut, laid.Outline.Moved(by))
	for _, f := range laid.Folds {
		s.path(crease, f.Line.Moved(by))
	}
	front := laid.Front.Moved(by)
	s.label(names, front.Centre(), 5, middle, "front")
	s.label(names, front.Centre().Add(geometry.Vector{Y: mm(6)}), 3, middle, "outside up; top of the card is up")
	box := whole(size).Moved(by)
	across, down := t.baseTerms(size)
	t.chain(&s, across, box, false)
	t.chain(&s, down, box, true)
	notes := []string{fmt.Sprintf("Card base, %s, of %s: %s laid flat, outside up.", d.Card.Base, d.Card.Paper, d.SizeInBothUnits(size))}
	if len(laid.Folds) > 0 {
		notes = append(notes, "Score along the dashed line on this side, then fold away from you: the line becomes the outer edge of the fold.")
	}
	return subject{"The base", notes, s, box, d.Sheets.Bleed}
}

// baseTerms parts the base's sides at its folds.
func (t template) baseTerms(size geometry.Size) (across, down []fronts.Term) {
	term := func(l geometry.Length) fronts.Term { return fronts.Term{What: "panel", Length: l} }
	across, down = []fronts.Term{term(size.W)}, []fronts.Term{term(size.H)}
	front := t.kit.Card.Base.Front
	if front.Min.X > 0 {
		across = []fronts.Term{term(front.Min.X), term(size.W - front.Min.X)}
	}
	if front.Min.Y > 0 {
		down = []fronts.Term{term(front.Min.Y), term(size.H - front.Min.Y)}
	}
	return across, down
}

// guide shows where panels' corners come on the front, with centre lines.
func (t template) guide() subject {
	kit := t.kit
	s, by := framed(kit.Card.Size)
	front := whole(kit.Card.Size).Moved(by)
	s.outline(cut, front.Outline())
	for _, tick := range kit.Ticks() {
		s.path(names, tick.Moved(by))
	}
	c := front.Centre()
	s.line(placing, geometry.Point{X: c.X, Y: front.Min.Y}, geometry.Point{X: c.X, Y: front.Max.Y})
	s.line(placing, geometry.Point{X: front.Min.X, Y: c.Y}, geometry.Point{X: front.Max.X, Y: c.Y})
	across, down := kit.Card.Sums()
	t.chain(&s, across, front, false)
	t.chain(&s, down, front, true)
	notes := []string{
		"Small angles show the corners of the panels; they lie just inside, so a panel in its place hides its own. Dash-dot lines are the card's centre lines.",
	}
	for _, axis := range []struct{ words, from string }{{"across", "left"}, {"down", "top"}} {
		if text := t.borders(axis.words == "across"); text != "" {
			notes = append(notes, fmt.Sprintf("Edges of panels %s, from the %s edge: %s.", axis.words, axis.from, text))
		}
	}
	return subject{"Placing guide", notes, s, front, 0}
}

// borders lists where upright boxes around panels begin and end.
func (t template) borders(across bool) string {
	var list []geometry.Length
	for _, p := range t.kit.Card.Panels {
		box := p.Outline.Bounds()
		if across {
			list = append(list, box.Min.X, box.Max.X)
		} else {
			list = append(list, box.Min.Y, box.Max.Y)
		}
	}
	slices.Sort(list)
	list = slices.CompactFunc(list, func(a, b geometry.Length) bool { return (a - b).Abs() < layouts.KindTolerance })
	if len(list) > 12 {
		return ""
	}
	var words []string
	for _, l := range list {
		words = append(words, strings.ReplaceAll(t.kit.Design.BothUnits(l), " ", "\u00a0"))
	}
	return strings.Join(words, ", ")
}

// layOut is a page to put cut pieces on, in the order in which they are
// glued.
func (t template) layOut() subject {
	kit := t.kit
	s := scene{size: geometry.Size{W: kit.Card.Size.W + mm(4), H: kit.Card.Size.H + mm(4)}}
	by := geometry.Vector{X: mm(2), Y: mm(2)}
	front := whole(kit.Card.Size).Moved(by)
	s.outline(cut, front.Outline())
	for i, step := range kit.Assembly() {
		p := kit.Card.Panels[step.Panel]
		o := p.Outline.Moved(by)
		s.outline(placing, o)
		s.name(o, fmt.Sprintf("%d: %s", i+1, p.Name), p.PatternDegrees)
	}
	notes := []string{"Put the cut pieces of one card on this page, good side up and arrows as shown. The numbers are the order in which they go onto the base."}
	return subject{"Lay-out page", notes, s, front, 0}
}
