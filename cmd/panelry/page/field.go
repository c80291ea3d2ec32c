package page

import (
	"fmt"
	"html"
	"html/template"
	"slices"
	"strings"

	"panelry/layouts"
)

// Blank draws a control within a sentence.
func (p *pageData) Blank(key string) template.HTML { return p.field(key, "") }

// Labelled draws a control with its label above and its help below.
func (p *pageData) Labelled(key string) template.HTML {
	c, ok := controlFor(key, p.layout())
	if !ok {
		return ""
	}
	var b strings.Builder
	id := idOf(key)
	fmt.Fprintf(&b, `<div class="lab"><label for="%s">%s</label>%s`, id, html.EscapeString(c.Label), p.field(key, id))
	if c.Help != "" {
		fmt.Fprintf(&b, `<p class="help" id="%s-help">%s</p>`, id, html.EscapeString(sentence(c.Help)))
	}
	b.WriteString(string(p.Errors(key)))
	b.WriteString(`</div>`)
	return template.HTML(b.String())
}

// idOf makes an element's id of a key.
func idOf(key string) string {
	return "f-" + strings.ReplaceAll(strings.ReplaceAll(key, ".", "-"), " ", "_")
}

// typedNow is what stands in a field: what was typed and not taken, else what
// the design says.
func (p *pageData) typedNow(c control) string {
	if e, ok := p.errors[c.Key]; ok && e.typed != "" {
		return e.typed
	}
	return p.shown(c)
}

// field draws a control. With a label of its own it needs no name besides.
func (p *pageData) field(key, labelled string) template.HTML {
	c, ok := controlFor(key, p.layout())
	if !ok {
		return ""
	}
	attrs := fmt.Sprintf(` form="set" autocomplete="off" name="%s" id="%s"`, html.EscapeString(key), idOf(key))
	if labelled == "" {
		attrs += fmt.Sprintf(` aria-label="%s"`, html.EscapeString(p.spoken(c)))
	} else if number, ok := paperNumber(key); ok && number < len(p.design.Papers) {
		attrs += fmt.Sprintf(` aria-label="%s"`, html.EscapeString(p.spoken(c)))
	}
	var describes []string
	if len(p.complaints(key)) > 0 {
		attrs += ` aria-invalid="true"`
		describes = append(describes, "err-"+idOf(key))
	}
	if labelled != "" && c.Help != "" {
		describes = append(describes, idOf(key)+"-help")
	}
	if len(describes) > 0 {
		attrs += ` aria-describedby="` + strings.Join(describes, " ") + `"`
	}
	value := p.typedNow(c)
	switch {
	case c.Words != nil:
		return p.choice(c, value, attrs)
	case c.Key == "title": // on one line or more, as there is room
		return template.HTML(fmt.Sprintf(`<textarea class="blank" rows="%d"%s>%s</textarea>`, 1+len([]rune(value))/40, attrs, html.EscapeString("\n"+value)))
	case c.Wide:
		rows := min(8, 1+strings.Count(value, "\n")+len(value)/60)
		return template.HTML(fmt.Sprintf(`<textarea class="blank wide" rows="%d" spellcheck="false"%s>%s</textarea>`, rows, attrs, html.EscapeString("\n"+value)))
	case c.Kind == asLength || c.Kind == asCount || c.Key == "batch.spares":
		return p.stepper(c, value, attrs)
	}
	return template.HTML(fmt.Sprintf(`<input class="blank" size="%d" value="%s" spellcheck="false"%s>`, sizeOf(value), html.EscapeString(value), attrs))
}

// sizeOf is how wide a field is, in letters.
func sizeOf(value string) int { return min(28, max(3, len([]rune(value))+1)) }

// spoken is a control's name of its own.
func (p *pageData) spoken(c control) string {
	if number, ok := paperNumber(c.Key); ok && number < len(p.design.Papers) {
		return c.Label + " of " + p.design.Papers[number].Name
	}
	return c.Label
}

// choice draws a choice. A value that is none of the words stands there too.
func (p *pageData) choice(c control, value, attrs string) template.HTML {
	list := c.Words(p.design)
	if !slices.ContainsFunc(list, func(w word) bool { return w.Value == value }) {
		text := value
		if value == "" {
			text = "not said"
		}
		list = append([]word{{value, text}}, list...)
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<select class="blank"%s>`, attrs)
	for _, w := range list {
		chosen := ""
		if w.Value == value {
			chosen = " selected"
		}
		if w.Value == w.Text {
			fmt.Fprintf(&b, `<option%s>%s</option>`, chosen, html.EscapeString(w.Text))
		} else {
			fmt.Fprintf(&b, `<option value="%s"%s>%s</option>`, html.EscapeString(w.Value), chosen, html.EscapeString(w.Text))
		}
	}
	b.WriteString(`</select>`)
	return template.HTML(b.String())
}

// stepper draws a number or a length, with a step less and a step more at its
// ends for touch.
func (p *pageData) stepper(c control, value, attrs string) template.HTML {
	name := html.EscapeString(p.spoken(c))
	key := html.EscapeString(c.Key)
	placeholder := ""
	if usual := p.usual(c); usual != "" { // stands there while the field is empty
		placeholder = fmt.Sprintf(` placeholder="%s"`, html.EscapeString(usual))
	}
	mode := "text"
	if c.Kind == asCount {
		mode = "numeric"
	}
	return template.HTML(fmt.Sprintf(`<span class="steps"><button type="submit" form="set" name="~do" value="step %s -1" tabindex="-1" aria-label="%s: one step less">−</button>`+
		`<input class="blank num" data-step="%s" size="%d" value="%s"%s inputmode="%s" spellcheck="false"%s>`+
		`<button type="submit" form="set" name="~do" value="step %s 1" tabindex="-1" aria-label="%s: one step more">+</button></span>`,
		key, name, c.Kind, sizeOf(value), html.EscapeString(value), placeholder, mode, attrs, key, name))
}

// complaints are what is wrong with a key.
func (p *pageData) complaints(key string) []string {
	if e, ok := p.errors[key]; ok {
		return []string{e.text}
	}
	var out []string
	for _, problem := range p.problems {
		if problem.Path == key {
			out = append(out, p.told(problem.Text))
		}
	}
	return out
}

// Errors draws what is wrong with some keys, below their sentence.
func (p *pageData) Errors(keys ...string) template.HTML {
	var b strings.Builder
	for _, key := range keys {
		texts := p.complaints(key)
		if len(texts) == 0 {
			continue
		}
		fmt.Fprintf(&b, `<p class="err" id="err-%s"><b>%s</b> `, idOf(key), html.EscapeString(p.labelOf(key)))
		b.WriteString(html.EscapeString(strings.Join(texts, " ")))
		if c, ok := controlFor(key, p.layout()); ok && p.drawn && p.errors[key].typed != "" && !c.Wide {
			if now := p.shown(c); now != "" {
				fmt.Fprintf(&b, ` The card still shows %s.`, html.EscapeString(now))
			}
		}
		b.WriteString(`</p>`)
	}
	return template.HTML(b.String())
}

func (p *pageData) labelOf(key string) string {
	if c, ok := controlFor(key, p.layout()); ok {
		return p.spoken(c) + ":"
	}
	return ""
}

// Options draws the options of the front's layout, but for those that stand
// behind "More".
func (p *pageData) Options() template.HTML { return p.options(false) }

// MoreOptions draws the others: cuts that can be turned with buttons.
func (p *pageData) MoreOptions() template.HTML { return p.options(true) }

func (p *pageData) options(more bool) template.HTML {
	turned := p.slants() != nil
	var b strings.Builder
	for _, o := range p.layout().Options {
		if more == (turned && o.Name == "slant" && len(p.complaints("front.slant")) == 0) {
			b.WriteString(string(p.Labelled("front." + o.Name)))
		}
	}
	return template.HTML(b.String())
}

// Said reports whether the design says one of some keys, so that the part of
// the page that holds them is open.
func (p *pageData) Said(keys ...string) bool {
	return slices.ContainsFunc(keys, func(key string) bool {
		_, ok := p.raw[key]
		_, bad := p.errors[key]
		return ok || bad
	})
}

// Wrong reports whether something is wrong with one of some keys, so that
// what folds over them is open.
func (p *pageData) Wrong(before string, keys []string) bool {
	return slices.ContainsFunc(keys, func(key string) bool { return len(p.complaints(before+key)) > 0 })
}

// PanelPaper draws the choice of paper on a panel's slip.
func (p *pageData) PanelPaper() template.HTML {
	panel := p.openPanel()
	return p.choice(control{Words: paperWords}, p.paperOn(*panel).Name, p.slipAttrs(slipPaper, "panel-paper"))
}

func (p *pageData) slipAttrs(what, id string) string {
	return fmt.Sprintf(` form="set" name="%s" id="%s"`, html.EscapeString(p.slipField(what)), id)
}

// PanelWay draws the choice of the way of its pattern.
func (p *pageData) PanelWay() template.HTML {
	way := p.wayOf(*p.openPanel())
	list := func(layouts.Design) []word {
		out := []word{{"upright", "upright"}, {"radiating", "outward"}, {"along", "along its long side"}}
		for _, turn := range []string{"45 deg", "90 deg", "135 deg", "180 deg", "270 deg"} {
			out = append(out, word{turn, strings.TrimSuffix(turn, " deg") + "° from upright"})
		}
		return out
	}
	return p.choice(control{Words: list}, way, p.slipAttrs(slipWay, "panel-way"))
}
