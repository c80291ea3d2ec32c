package layouts

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"sort"

	"panelry/geometry"
	"panelry/geometry/nesting"
	"panelry/layouts/fronts"
	"panelry/layouts/papers"
	"panelry/layouts/wording"
)

// Plan works out everything that follows from a design: the card, the
// pieces of the whole batch by kind, and the sheets. An error is [Problems],
// as those of [Read], unless the context ended: a piece that fits on no
// sheet, say. The kit then still holds the card and the kinds, which can be
// shown.
func Plan(ctx context.Context, d Design) (Kit, error) {
	return plan(ctx, d, nil, nil)
}

// plan is Plan with a packer; nil is the search, which tells a watch, if there is
// one, how it goes on.
func plan(ctx context.Context, d Design, packer nesting.Packer, watch *watch) (Kit, error) {
	kit, sorting, err := planPieces(d)
	if err != nil {
		return Kit{}, err
	}
	if err := ctx.Err(); err != nil && watch == nil {
		return kit, err
	}
	search := d.searcher((len(kit.Card.Panels)+1)*d.Batch.Cards, len(sorting.byPaper))
	search.watch = watch
	if packer == nil {
		packer = search
	}
	var problems Problems
	kit.Design.Papers = slices.Clone(d.Papers)
	for i, p := range d.Papers {
		search.paper = p.Name
		use, sheets, err := planSheets(ctx, d, p, sorting.byPaper[p.Name], packer)
		var found Problems
		if errors.As(err, &found) {
			problems = append(problems, found...)
		} else if err != nil {
			return kit, err
		}
		if use.Sheets > 0 {
			kit.Design.Papers[i] = use.Paper // in the size that was chosen
		}
		for i := range sheets {
			sheets[i].Number = len(kit.Sheets) + i + 1
		}
		kit.Sheets = append(kit.Sheets, sheets...)
		kit.Stock = append(kit.Stock, use)
	}
	if len(problems) > 0 {
		return kit, problems
	}
	kit.Totals = totals(kit)
	kit.Warnings = append(kit.Warnings, warnings(kit)...)
	return kit, nil
}

// planPieces works out the card and the pieces of the batch by kind, before
// anything is laid on sheets.
func planPieces(d Design) (Kit, sorting, error) {
	card, err := planCard(d)
	if err != nil {
		return Kit{}, sorting{}, err
	}
	if err := d.checkPieces(card); err != nil {
		return Kit{}, sorting{}, err
	}
	kit := Kit{Design: d, Card: card, Warnings: slices.Clone(d.notes)}
	if kit.dealt, err = d.dealPapers(card); err != nil {
		return Kit{}, sorting{}, err
	}
	sorted := sortPieces(d, card, kit.dealt)
	for i := range kit.Card.Panels {
		kit.Card.Panels[i].Kind = sorted.ofFirstCard[i].kind.ID
		kit.Card.Panels[i].Paper = sorted.ofFirstCard[i].kind.Paper
	}
	for _, p := range d.Papers {
		for _, k := range sorted.byPaper[p.Name] {
			k.Tools = canCut(k.Outline)
			kit.Kinds = append(kit.Kinds, *k.Kind)
		}
	}
	return kit, sorted, nil
}

// PlanCard works out the card alone: its base laid flat and its front
// divided. Panels have no kind and no paper yet. An error is [Problems].
func PlanCard(d Design) (Card, error) { return planCard(d) }

// planCard lays the base flat and divides the front.
func planCard(d Design) (Card, error) {
	size := d.Card.Size
	base, err := d.Card.Base.Lay(size)
	if err != nil {
		return Card{}, d.wrong("card", "%v", err)
	}
	frame, err := geometry.RectFromSize(geometry.Point{}, size).Inset(d.Front.Margin)
	if err != nil {
		return Card{}, d.wrong("front.margin", "%v", err)
	}
	front, err := d.Front.Layout.Divide(d.brief(frame))
	if err != nil {
		return Card{}, d.wrongFront(frame, err)
	}
	card := Card{Size: size, Base: base, Frame: frame, Front: front}
	for _, p := range front.Panels {
		direction, ok := d.Front.DirectionOf[p.Name]
		if !ok {
			direction = d.Front.Direction
		}
		degrees := direction.Degrees(p.Outline, frame.Centre())
		card.Panels = append(card.Panels, Panel{Panel: p, PatternDegrees: degrees})
	}
	return card, checkPanelPapers(d, card)
}

// wrongFront tells a layout's complaint at the option that it is about; a
// panel that is too small, at the gap, with the widest that there can be.
func (d Design) wrongFront(frame geometry.Rect, err error) error {
	var option *fronts.OptionError
	var small *fronts.TooSmallError
	switch {
	case errors.As(err, &option):
		return d.wrong("front."+option.Option, "%s", option.Text)
	case !errors.As(err, &small):
		return d.wrong("front.layout", "%v", err)
	}
	if widest, ok := d.widestGap(frame); ok {
		return d.wrong("front.gap", "%v; at this size and margin the widest gap is %s", err, widest.Format(d.Units))
	}
	return d.wrong("front.layout", "%v", err)
}

// widestGap returns the widest gap, in steps of the ruler, at which the
// front can be divided; ok is false when there is none.
func (d Design) widestGap(frame geometry.Rect) (gap geometry.Length, ok bool) {
	tooMany := int(d.Front.Gap/d.Ruler) + 1
	divides := func(steps int) bool {
		d.Front.Gap = geometry.Length(steps) * d.Ruler
		_, err := d.Front.Layout.Divide(d.brief(frame))
		return err == nil
	}
	if !divides(0) {
		return 0, false
	}
	steps := sort.Search(tooMany, func(i int) bool { return !divides(i + 1) })
	return geometry.Length(steps) * d.Ruler, true
}

// checkPieces holds the batch against the limit.
func (d Design) checkPieces(card Card) error {
	n := (len(card.Panels)+1)*d.Batch.Cards + len(card.Panels)*d.Batch.Spares
	if n <= MostPieces {
		return nil
	}
	return d.wrong("batch.cards", "%d cards of %d panels are %d pieces with bases and spares; at most %d go in one kit, so make it in parts",
		d.Batch.Cards, len(card.Panels), n, MostPieces)
}

// brief is what the layout has to go by.
func (d Design) brief(frame geometry.Rect) fronts.Brief {
	b := fronts.Brief{Frame: frame, Gap: d.Front.Gap, Options: d.Front.Options, Unit: d.Units, Shapes: d.Front.Shapes}
	if d.Front.OnRuler {
		b.Ruler = d.Ruler
	}
	return b
}

// checkPanelPapers makes sure that a table of papers by panel names panels
// that there are, and all of them.
func checkPanelPapers(d Design, card Card) error {
	names := make([]string, len(card.Panels))
	for i, p := range card.Panels {
		names[i] = p.Name
	}
	for _, panel := range slices.Sorted(maps.Keys(d.Front.ByPanel)) {
		if !slices.Contains(names, panel) {
			return d.wrong("front.papers."+panel, "there is no such panel%s", meantPanel(panel, names))
		}
	}
	for _, panel := range slices.Sorted(maps.Keys(d.Front.DirectionOf)) {
		if !slices.Contains(names, panel) {
			return d.wrong("front.direction."+panel, "there is no such panel%s", meantPanel(panel, names))
		}
	}
	for _, name := range names {
		if d.Front.ByPanel[name] == "" && len(d.Front.Papers) == 0 {
			return d.wrong("front.papers", `panel %s has no paper; name one, or write rest = "..." for all others`, name)
		}
	}
	return nil
}

func meantPanel(name string, names []string) string {
	if meant := wording.Meant(name, names); meant != "" && len(names) > 12 {
		return meant
	}
	return fmt.Sprintf("; the panels are %s to %s", names[0], names[len(names)-1])
}

// PaperOn returns the paper that a panel is cut from on a card, which counts
// from 1.
func (k Kit) PaperOn(p Panel, card int) papers.Paper {
	return k.Design.Paper(k.dealt.paper(p.Name, card-1))
}

func totals(kit Kit) Totals {
	t := Totals{Cards: kit.Design.Batch.Cards, Spares: kit.Design.Batch.Spares, Kinds: len(kit.Kinds), Sheets: len(kit.Sheets)}
	var used, all float64
	for _, s := range kit.Sheets {
		t.Pieces += len(s.Pieces)
		area := s.area()
		all += area
		used += s.UsedPercent() * area
	}
	t.UsedPercent = used / all
	return t
}
