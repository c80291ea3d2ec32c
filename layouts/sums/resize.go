package sums

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/cards"
	"panelry/layouts/fronts"
	"panelry/layouts/papers"
)

// A ResizeWish says what a design is to become.
type ResizeWish struct {
	Size  string // of the closed card: a name or two lengths
	Sheet string // of all papers; "" keeps theirs
}

// A Changed is one thing that Resize changed, or left although it might have
// been expected to change.
type Changed struct {
	What     string // a key of the design, or "panel A1a"
	From, To string
	Why      string // "" where it goes without saying
}

// Resize returns the text of a design for another card, with every change.
// Comments and all that need not change stay. The unit becomes that in which
// the new size is usual; margins and gaps go to the nearest handy length of
// it, and columns and rows change where the cells would get another shape.
func Resize(d layouts.Design, wish ResizeWish, open layouts.Opener) ([]byte, []Changed, error) {
	r := &resizing{old: d}
	size, err := cards.ParseSize(wish.Size, d.Units, cards.ForCard)
	if err != nil {
		return nil, nil, err
	}
	r.unit = unitOf(wish.Size, d.Units)
	landscape := d.Card.Size.W > d.Card.Size.H
	_, stated := d.RawValue("card.orientation")
	if stated && size.W != size.H && (size.W > size.H) != landscape || landscape && size.W < size.H {
		size = size.Turned()
		r.note("card", "", size.Format(r.unit), "the card stays "+d.Card.Orientation())
	}
	r.size = size
	r.units()
	r.card(wish.Size)
	r.lengths()
	r.cells()
	if err := r.sheets(wish.Sheet); err != nil {
		return nil, nil, err
	}
	text, err := layouts.Rewrite(d.Source, r.edits)
	if err != nil {
		return nil, nil, err
	}
	next, err := layouts.ReadIn(r.unit, bytes.NewReader(text), open)
	if err != nil {
		return nil, nil, fmt.Errorf("on %s the design does not work as it is: %w", size.Format(r.unit), err)
	}
	if err := r.panels(next); err != nil {
		return nil, nil, err
	}
	return text, r.changes, nil
}

// resizing collects what changes.
type resizing struct {
	old     layouts.Design
	unit    geometry.Unit
	size    geometry.Size
	edits   []layouts.Edit
	changes []Changed
}

func (r *resizing) note(what, from, to, why string) {
	r.changes = append(r.changes, Changed{what, from, to, why})
}

// set changes a key and notes it.
func (r *resizing) set(key, value, why string) {
	from, _ := r.old.RawValue(key)
	if from == value {
		return
	}
	r.edits = append(r.edits, layouts.Edit{Key: key, Value: value})
	r.note(r.told(key), from, value, why)
}

// told is how a key is told: papers by their names.
func (r *resizing) told(key string) string {
	for i, p := range r.old.Papers {
		if rest, ok := strings.CutPrefix(key, fmt.Sprintf("papers.%d.", i)); ok {
			return fmt.Sprintf("paper %s: %s", p.Name, rest)
		}
	}
	return key
}

// unitOf returns the unit in which a size is usual.
func unitOf(size string, otherwise geometry.Unit) geometry.Unit {
	lower := strings.ToLower(size)
	switch {
	case strings.Contains(lower, "mm"), strings.Contains(lower, "cm"), strings.Contains(lower, "iso "), strings.Contains(lower, "jis "):
		return geometry.Millimetres
	case strings.Contains(lower, "in"), strings.Contains(lower, `"`), strings.HasPrefix(lower, "us "), strings.HasPrefix(lower, "letter"):
		return geometry.Inches
	}
	return otherwise
}

// Handy returns the nearest length that is easy to set: whole millimetres
// from 2.5 mm on and half ones below, or sixteenths of an inch and, below
// 1/16, thirty-seconds. Common practice, no source: 1/8 in becomes 3 mm.
func Handy(l geometry.Length, unit geometry.Unit) geometry.Length {
	step := geometry.Inch / 16
	switch {
	case unit == geometry.Millimetres && l < geometry.Millimetre*5/2:
		step = geometry.Millimetre / 2
	case unit == geometry.Millimetres:
		step = geometry.Millimetre
	case l < geometry.Inch/16:
		step = geometry.Inch / 32
	}
	handy := (l + step/2) / step * step
	if handy == 0 && l > 0 {
		return step
	}
	return handy
}

// units changes the unit, and gives bare numbers that stay the unit that they
// were meant in.
func (r *resizing) units() {
	d := r.old
	if r.unit == d.Units {
		return
	}
	r.set("units", quote(r.unit.String()), "the new size is usual in "+r.unit.String())
	if _, stated := d.RawValue("ruler"); stated {
		ruler := layouts.UsualRuler(r.unit)
		r.set("ruler", quote(ruler.Format(geometry.RulerUnit(ruler))), "a usual ruler in "+r.unit.String())
	}
	keys := []string{"sheets.edge", "sheets.spacing", "sheets.bleed", "shop.inset", "shop.roll", "shop.pad_every"}
	for i, p := range d.Papers {
		if len(p.Sizes) > 1 {
			r.set(fmt.Sprintf("papers.%d.sheet", i), sizeList(p.Sizes, d.Units), "they keep their sizes")
		}
		for _, key := range []string{"edge", "spacing", "bleed", "sheet", "measured", "caliper"} {
			keys = append(keys, fmt.Sprintf("papers.%d.%s", i, key))
		}
	}
	for _, key := range keys {
		raw, ok := d.RawValue(key)
		if !ok {
			continue
		}
		if strings.HasPrefix(raw, "[") {
			continue // a list of sizes
		}
		text := strings.Trim(raw, `"'`)
		if _, err := cards.ParseSize(text, geometry.NoUnit, 0); err == nil {
			continue // it says its unit, or is a name
		}
		if _, err := geometry.ParseLength(text, geometry.NoUnit); err == nil {
			continue
		}
		r.set(key, quote(text+" "+d.Units.String()), "it keeps its size")
	}
}

func (r *resizing) card(wish string) {
	if _, ok := r.old.RawValue("card.width"); ok {
		r.set("card.width", quote(r.size.W.Format(r.unit)), "")
		r.set("card.height", quote(r.size.H.Format(r.unit)), "")
		return
	}
	value := wish
	if size, err := cards.ParseSize(wish, r.unit, cards.ForCard); err != nil || size != r.size {
		if _, stated := r.old.RawValue("card.orientation"); !stated {
			value = r.size.Format(r.unit)
		}
	}
	r.set("card.size", quote(value), "the size that was asked for")
}

// lengths takes margin and gap to the new unit, and the layout's own lengths
// along with the card.
func (r *resizing) lengths() {
	d := r.old
	changed := r.unit != d.Units
	for _, one := range []struct {
		key string
		l   geometry.Length
	}{{"front.margin", d.Front.Margin}, {"front.gap", d.Front.Gap}} {
		_, stated := d.RawValue(one.key)
		if changed && stated {
			handy := Handy(one.l, r.unit)
			why := "the nearest handy length"
			if handy == one.l {
				why = ""
			}
			r.set(one.key, quote(handy.Format(r.unit)), why)
		}
	}
	ratio := min(float64(r.size.W)/float64(d.Card.Size.W), float64(r.size.H)/float64(d.Card.Size.H))
	for _, o := range d.Front.Layout.Options {
		key := "front." + o.Name
		if _, stated := d.RawValue(key); !stated {
			continue
		}
		switch o.Kind {
		case fronts.Length:
			if l, ok := d.Front.Options[o.Name].(geometry.Length); ok {
				r.set(key, quote(Handy(round(ratio*float64(l)), r.unit).Format(r.unit)), "in proportion to the card, at a handy length")
			}
		case fronts.Lengths:
			var parts []string
			for _, l := range d.Front.Options.Lengths(o.Name) {
				if l == fronts.Rest {
					parts = append(parts, quote("rest"))
				} else {
					parts = append(parts, quote(Handy(round(ratio*float64(l)), r.unit).Format(r.unit)))
				}
			}
			r.set(key, "["+strings.Join(parts, ", ")+"]", "in proportion to the card, at handy lengths")
		}
	}
}

// cells changes columns and rows where the old numbers would give the cells
// another shape: by more than a quarter longer or shorter for their width.
func (r *resizing) cells() {
	d := r.old
	columns, hasColumns := d.Front.Layout.Option("columns")
	rows, hasRows := d.Front.Layout.Option("rows")
	if !hasColumns || !hasRows || columns.Kind != fronts.Count || rows.Kind != fronts.Count {
		return
	}
	c, w := d.Front.Options.Count("columns"), d.Front.Options.Count("rows")
	if c == 0 || w == 0 {
		return
	}
	shape := func(s geometry.Size, c, r int) float64 {
		return math.Log(float64(s.W) / float64(c) * float64(r) / float64(s.H))
	}
	old := shape(d.Card.Size, c, w)
	off := func(c, w int) float64 { return math.Abs(shape(r.size, c, w) - old) }
	if off(c, w) <= math.Log(1.25) {
		return
	}
	bestC, bestW, best := c, w, off(c, w)
	for nc := 1; nc <= 2*max(c, w); nc++ {
		for nw := 1; nw <= 2*max(c, w); nw++ {
			more := math.Abs(math.Log(float64(nc*nw) / float64(c*w)))
			if cost := off(nc, nw) + 0.35*more; cost < best-1e-9 {
				bestC, bestW, best = nc, nw, cost
			}
		}
	}
	if bestC == c && bestW == w {
		return
	}
	was, now := fmt.Sprintf("%d x %d", c, w), fmt.Sprintf("%d x %d", bestC, bestW)
	for _, o := range d.Front.Layout.Options {
		if _, stated := d.RawValue("front." + o.Name); stated && o.Kind == fronts.Rows {
			r.note("front.columns", was, was, fmt.Sprintf("%s would keep the shape of the cells, but %s is drawn for %s", now, o.Name, was))
			return
		}
	}
	if len(d.Front.ByPanel) > 0 || len(d.Batch.ByHand) > 0 {
		r.note("front.columns", was, was, fmt.Sprintf("%s would keep the shape of the cells, but papers are given by panel", now))
		return
	}
	why := fmt.Sprintf("%s would make the cells %.0f %% %s for their height", was, 100*math.Abs(math.Exp(shape(r.size, c, w)-old)-1), wider(shape(r.size, c, w) > old))
	r.set("front.columns", fmt.Sprint(bestC), why)
	r.set("front.rows", fmt.Sprint(bestW), why)
}

func wider(yes bool) string {
	if yes {
		return "wider"
	}
	return "narrower"
}

// sheets swaps the papers' sheets, where one is named.
func (r *resizing) sheets(sheet string) error {
	if sheet == "" {
		return nil
	}
	size, err := cards.ParseSize(sheet, r.unit, cards.ForSheet)
	if err != nil {
		return err
	}
	for i, p := range r.old.Papers {
		key := fmt.Sprintf("papers.%d.", i)
		if p.Sheet == size && len(p.Sizes) == 0 {
			continue
		}
		r.drop(key + "sheet") // the old size need not be spelled out
		r.set(key+"sheet", quote(sheet), "the sheet that was asked for")
		if _, stated := r.old.RawValue(key + "measured"); stated {
			r.drop(key + "measured")
			r.set(key+"measured", "", "it was the true size of the old sheet")
		}
		if len(p.Sizes) > 1 && p.Price != nil {
			r.set(key+"price", "", "they were the prices of the old sizes")
		}
	}
	return nil
}

// drop takes back a change.
func (r *resizing) drop(key string) {
	edits, changes := r.edits[:0], r.changes[:0]
	for _, e := range r.edits {
		if e.Key != key {
			edits = append(edits, e)
		}
	}
	for _, c := range r.changes {
		if c.What != r.told(key) {
			changes = append(changes, c)
		}
	}
	r.edits, r.changes = edits, changes
}

// panels lists the sizes that the first panels had and get.
func (r *resizing) panels(next layouts.Design) error {
	before, err := layouts.PlanCard(r.old)
	if err != nil {
		return err
	}
	after, err := layouts.PlanCard(next)
	if err != nil {
		return err
	}
	if a, b := len(before.Panels), len(after.Panels); a != b {
		r.note("panels", fmt.Sprint(a), fmt.Sprint(b), "")
	}
	seen := map[string]bool{}
	for i, p := range before.Panels {
		if i >= len(after.Panels) || len(seen) == 3 {
			break
		}
		from := p.Outline.Bounds().Size().Format(r.old.Units)
		to := after.Panels[i].Outline.Bounds().Size().Format(next.Units)
		if !seen[from+to] {
			seen[from+to] = true
			r.note("panel "+p.Name, from, to, "")
		}
	}
	return nil
}

// sizeList writes sizes with their unit, each as it is exact.
func sizeList(sizes []papers.Sized, unit geometry.Unit) string {
	texts := make([]string, len(sizes))
	for i, s := range sizes {
		texts[i] = quote(s.Size.String())
		if s.Size.W.FormatsExactly(unit) && s.Size.H.FormatsExactly(unit) {
			texts[i] = quote(s.Size.Format(unit))
		}
	}
	return "[" + strings.Join(texts, ", ") + "]"
}

func quote(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}
