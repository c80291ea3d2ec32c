package page

import (
	"fmt"
	"html/template"
	"net/http"
	"strconv"
	"strings"

	"panelry/export/picture"
	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/cards"
	"panelry/layouts/shopping"
)

// trimmed is a plan of straight cuts, or why there is none.
type trimmed struct {
	plan layouts.TrimPlan
	err  error
}

// Trimming is the plan of straight cuts.
func (p *pageData) Trimming() *trimmed { return p.trimming() }

// trimming plans the straight cuts, briefly, and once.
func (w *worked) trimming() *trimmed {
	w.trimOnce.Do(func() {
		d := w.design
		d.Sheets.Effort = "quick"
		plan, err := layouts.PlanTrim(d)
		w.cuts = &trimmed{plan, err}
	})
	return w.cuts
}

// serveCut answers with the picture of one step of the straight cuts:
// "3.svg".
func (sv *Server) serveCut(w http.ResponseWriter, r *http.Request) error {
	s, err := sv.stateOf(r)
	if err != nil {
		return err
	}
	number, err := strconv.Atoi(strings.TrimSuffix(r.PathValue("step"), ".svg"))
	if err != nil || !s.planned {
		return &told{http.StatusNotFound, "There is no such step."}
	}
	done, err := sv.desk.turn(r.Context())
	if err != nil {
		return err
	}
	defer done()
	cuts := s.trimming()
	if cuts.err != nil || number < 1 || number > len(cuts.plan.Steps) {
		return &told{http.StatusNotFound, "There is no such step."}
	}
	data, err := picture.TrimStep(cuts.plan, cuts.plan.Steps[number-1])
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "image/svg+xml")
	w.Write(data)
	return nil
}

// Steps, Refused, Notes and Trouble are for the template.
func (t *trimmed) Steps() []layouts.TrimStep      { return t.plan.Steps }
func (t *trimmed) Refused() []layouts.TrimRefused { return t.plan.Refused }
func (t *trimmed) Notes() []string                { return t.plan.Notes }

// Fact is the plan in numbers, Trouble what is wrong.
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
		out = append(out, envelope{s.Name, p.S(s.Size)})
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
		has := "has"
		if len(w.Unknown) > 1 {
			has = "have"
		}
		return fmt.Sprintf("Not known: %s %s no weight yet. Write it beside the paper.", strings.Join(w.Unknown, ", "), has)
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
		num(w+4), num(h+4), size.Format(p.show()), num(w), num(h), p.In.Fill(p.kit.Design.Paper(p.kit.Design.Card.Paper), 0))
	for _, f := range base.Folds {
		from, to := ends(f.Line)
		fmt.Fprintf(&b, `<path class="scoreline" d="M%s %sL%s %s"/>`, num(mm(from.X)), num(mm(from.Y)), num(mm(to.X)), num(mm(to.Y)))
	}
	front := base.Front
	fmt.Fprintf(&b, `<rect class="off" x="%s" y="%s" width="%s" height="%s"/></svg>`, num(mm(front.Min.X)+2), num(mm(front.Min.Y)+2), num(mm(front.W())-4), num(mm(front.H())-4))
	return template.HTML(b.String())
}

// CutLink is the address of the picture of a step.
func (p *pageData) CutLink(step int) string {
	return fmt.Sprintf("%scuts/%d.svg", place(p.packed), step)
}
