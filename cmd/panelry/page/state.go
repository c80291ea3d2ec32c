package page

import (
	"net/url"
	"strconv"
	"strings"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/fronts"
)

// view says what of a design is looked at. It is no part of the design; the
// address holds it behind the question mark.
type view struct {
	unit  geometry.Unit // lengths are shown in it; NoUnit: the design's
	card  int           // from 1
	sheet int           // from 1
	panel string        // whose slip is open; "" for none
	nice  bool          // margins and gaps on the ruler are asked for
	fit   string        // the size that a panel should have; "" when not asked
}

func viewFrom(q url.Values) view {
	v := view{card: 1, sheet: 1, panel: q.Get("panel")}
	if unit, ok := geometry.ParseUnit(q.Get("u")); ok && (unit == geometry.Inches || unit == geometry.Millimetres) {
		v.unit = unit
	}
	if n, err := strconv.Atoi(q.Get("card")); err == nil && n > 0 {
		v.card = n
	}
	if n, err := strconv.Atoi(q.Get("sheet")); err == nil && n > 0 {
		v.sheet = n
	}
	v.nice, v.fit = q.Get("nice") == "1", q.Get("fit")
	if len(v.panel) > 40 {
		v.panel = ""
	}
	if len(v.fit) > 80 {
		v.fit = ""
	}
	return v
}

// query writes a view as viewFrom reads it.
func (v view) query() string {
	q := url.Values{}
	if v.unit != geometry.NoUnit {
		q.Set("u", v.unit.String())
	}
	if v.card > 1 {
		q.Set("card", strconv.Itoa(v.card))
	}
	if v.sheet > 1 {
		q.Set("sheet", strconv.Itoa(v.sheet))
	}
	if v.panel != "" {
		q.Set("panel", v.panel)
	}
	if v.nice {
		q.Set("nice", "1")
	}
	if v.fit != "" {
		q.Set("fit", v.fit)
	}
	return q.Encode()
}

// state is a design, worked out, and what is looked at.
type state struct {
	*worked
	view
	errors map[string]wrong // by key: what was typed and could not be taken
	front  fronts.Layout    // as far as it is known
	base   string           // what stands before links; "" at the design's own address
}

// wrong is an answer that could not be taken.
type wrong struct {
	typed, text string
	more        []string // further sentences, to be unfolded
	before      bool     // it was told before, and is still so
}

func newState(w *worked, v view) *state {
	s := &state{worked: w, view: v, errors: map[string]wrong{}}
	name, _ := layouts.ReadValue(w.raw["front.layout"])
	text, _ := name.(string)
	s.front, _ = fronts.Find(text)
	if w.drawn {
		s.card = min(s.card, max(1, w.kit.Design.Batch.Cards))
		s.sheet = min(s.sheet, max(1, len(w.kit.Sheets)))
	}
	return s
}

// link is the address of the same design, looked at in some way.
func (s *state) link(v view, place string) string {
	to := s.base + "?" + v.query()
	if place != "" {
		to += "#" + place
	}
	return to
}

// show is the unit that lengths are shown in.
func (s *state) show() geometry.Unit {
	if s.unit != geometry.NoUnit {
		return s.unit
	}
	if s.reads && s.design.Units != geometry.NoUnit {
		return s.design.Units
	}
	if s.raw["units"] == `"mm"` {
		return geometry.Millimetres
	}
	return geometry.Inches
}

// layout is the front's layout, as far as it is known.
func (s *state) layout() fronts.Layout { return s.front }

// shown returns what stands in a control's field.
func (s *state) shown(c control) string {
	raw, ok := s.raw[c.Key]
	if !ok {
		raw, ok = s.dotted(c.Key)
	}
	if !ok {
		return s.usual(c)
	}
	typed := c.typedOf(raw)
	if c.Kind == asLength {
		return s.lengthShown(typed)
	}
	if c.Kind == asTools {
		return orderedTools(typed)
	}
	return typed
}

// dotted finds a table of names that stands in the file as a table of its
// own, like [front.papers].
func (s *state) dotted(key string) (string, bool) {
	if key != "front.papers" && key != "front.direction" {
		return "", false
	}
	var items []string
	for _, k := range sortedKeys(s.raw) {
		if name, ok := strings.CutPrefix(k, key+"."); ok {
			items = append(items, layouts.QuoteText(name)+" = "+s.raw[k])
		}
	}
	return "{" + strings.Join(items, ", ") + "}", len(items) > 0
}

// lengthShown writes a length of the file in the unit that is looked at.
func (s *state) lengthShown(typed string) string {
	if !s.reads || s.unit == geometry.NoUnit || s.unit == s.design.Units {
		return typed
	}
	l, err := geometry.ParseLength(typed, s.design.Units)
	if err != nil {
		return typed
	}
	return bare(l, s.unit)
}

// bare writes a length without its unit.
func bare(l geometry.Length, unit geometry.Unit) string {
	return strings.TrimSuffix(l.Format(unit), " "+unit.String())
}

func orderedTools(typed string) string {
	var out []string
	for _, t := range layouts.AllTools() {
		for _, name := range strings.Split(typed, ", ") {
			if name == string(t) {
				out = append(out, name)
			}
		}
	}
	if len(out) == 0 {
		return typed
	}
	return strings.Join(out, ", ")
}

// usual is what a key that the file leaves out stands for.
func (s *state) usual(c control) string {
	if !s.reads {
		return ""
	}
	d := s.design
	length := func(l geometry.Length) string {
		if d.Units == geometry.NoUnit {
			return l.Format(s.show())
		}
		return bare(l, s.show())
	}
	switch c.Key {
	case "title":
		return d.Title
	case "ruler":
		return length(d.Ruler)
	case "tool":
		return string(layouts.Cutter)
	case "card.width":
		return length(d.Card.Size.W)
	case "card.height":
		return length(d.Card.Size.H)
	case "card.base":
		return string(d.Card.Base)
	case "front.margin":
		return length(d.Front.Margin)
	case "front.gap":
		return length(d.Front.Gap)
	case "front.direction":
		return d.Front.Direction.String()
	case "batch.cards":
		return strconv.Itoa(d.Batch.Cards)
	case "batch.spares":
		return strconv.Itoa(d.Batch.Spares)
	case "batch.plan":
		return d.Batch.Plan
	case "sheets.edge":
		return length(d.Sheets.Edge)
	case "sheets.spacing":
		return length(d.Sheets.Spacing)
	case "sheets.effort":
		return d.Sheets.Effort
	case "trimmer.narrowest":
		return length(d.Trimmer.Narrowest)
	case "trimmer.hand":
		return "right"
	case "shop.adhesive":
		return d.Shop.Adhesive
	}
	if rest, ok := strings.CutPrefix(c.Key, "papers."); ok && strings.HasSuffix(rest, ".drawing") {
		return "plain"
	}
	if name, ok := strings.CutPrefix(c.Key, "front."); ok {
		if o, ok := s.layout().Option(name); ok && o.Default != nil {
			switch v := o.Default.(type) {
			case string:
				return v
			case int:
				return strconv.Itoa(v)
			case []string:
				return strings.Join(v, "\n")
			}
		}
	}
	return ""
}
