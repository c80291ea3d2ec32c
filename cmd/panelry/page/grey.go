package page

import (
	"context"
	"fmt"
	"slices"

	"panelry/layouts"
)

// noPapers is what is wrong with a design that has none, in place of every
// key that would name one.
var noPapers = layouts.Problems{{Path: "papers", Text: "there are no papers yet, so the card is drawn in greys; add one"}}

// inGreys works out the card of a design without papers, in greys; false
// where more than that is wrong with it.
func inGreys(ctx context.Context, w *worked) bool {
	text := w.text
	var names []string
	for i, grey := range greys {
		names = append(names, fmt.Sprintf("grey %d", i+1))
		text = layouts.AddTable(text, "papers", []layouts.Edit{
			{Key: "papers.x.name", Value: layouts.QuoteText(names[i])},
			{Key: "papers.x.sheet", Value: `"3000 x 3000 mm"`},
			{Key: "papers.x.colour", Value: layouts.QuoteText(grey)},
		})
	}
	text, err := layouts.Rewrite(text, []layouts.Edit{
		{Key: "card.paper", Value: layouts.QuoteText(names[len(names)-1])},
		{Key: "front.papers", Value: listText(names[:len(names)-1])},
		{Key: "batch.plan", Value: `"same"`}, {Key: "batch.by_hand"},
		{Key: "sheets.effort", Value: `"quick"`},
	})
	if err != nil {
		return false
	}
	text, _ = layouts.WithoutUnknown(text)
	d, err := read(text)
	if err != nil {
		return false
	}
	kit, _ := layouts.Plan(ctx, d)
	if len(kit.Card.Panels) == 0 {
		return false
	}
	w.kit, w.drawn, w.design, w.reads, w.problems = kit, true, d, true, noPapers
	w.kit.Warnings = nil // they are about the greys
	w.design.Papers, w.design.Source = nil, w.text
	return true
}

// paperless reports that the card is drawn in greys.
func (w *worked) paperless() bool { return w.drawn && len(w.design.Papers) == 0 }

// Papers counts the design's papers.
func (p *pageData) Papers() int { return len(p.design.Papers) }

// firstPapers adds papers to a design that has none: those that it names
// already, or one, for the base and the panels.
func (s *state) firstPapers(sheet string) []byte {
	var named []string
	for _, key := range []string{"card.paper", "front.papers"} {
		value, _ := layouts.ReadValue(s.raw[key])
		list, ok := value.([]any)
		if !ok {
			list = []any{value}
		}
		for _, one := range list {
			if name, ok := one.(string); ok && name != "" && !slices.Contains(named, name) {
				named = append(named, name)
			}
		}
	}
	if len(named) == 0 {
		named = []string{"paper 1"}
	}
	text := s.text
	for _, name := range named {
		text = layouts.AddTable(text, "papers", []layouts.Edit{{Key: "papers.x.name", Value: layouts.QuoteText(name)}, {Key: "papers.x.sheet", Value: sheet}})
	}
	var edits []layouts.Edit
	if s.raw["card.paper"] == "" {
		edits = append(edits, layouts.Edit{Key: "card.paper", Value: layouts.QuoteText(named[0])})
	}
	if _, apart := s.dotted("front.papers"); !apart && s.raw["front.papers"] == "" {
		edits = append(edits, layouts.Edit{Key: "front.papers", Value: listText(named[len(named)-1:])})
	}
	changed, err := layouts.Rewrite(text, edits)
	if err != nil {
		return text
	}
	return changed
}
