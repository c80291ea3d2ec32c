package layouts

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"panelry/geometry"
	"panelry/geometry/nesting"
	"panelry/layouts/fronts"
	"panelry/layouts/papers"
	"panelry/layouts/wording"
)

// Plan works out everything that follows from a design: the card, the
// pieces of the whole batch by kind, and the sheets. Its errors are
// sentences about the design: a panel with nothing left of it, a piece that
// fits on no sheet, more pieces than [MostPieces].
func Plan(ctx context.Context, d Design) (Kit, error) {
	return plan(ctx, d, nesting.Rows{})
}

func plan(ctx context.Context, d Design, packer nesting.Packer) (Kit, error) {
	card, err := planCard(d)
	if err != nil {
		return Kit{}, err
	}
	if n := (len(card.Panels)+1)*d.Batch.Cards + len(card.Panels)*d.Batch.Spares; n > MostPieces {
		return Kit{}, fmt.Errorf("batch.cards: %d cards of %d panels are %d pieces with bases and spares; at most %d go in one kit, so make it in parts",
			d.Batch.Cards, len(card.Panels), n, MostPieces)
	}
	kit := Kit{Design: d, Card: card, Warnings: slices.Clone(d.notes)}
	sorting := sortPieces(d, card)
	for i := range kit.Card.Panels {
		kit.Card.Panels[i].Kind = sorting.ofFirstCard[i].kind.ID
		kit.Card.Panels[i].Paper = sorting.ofFirstCard[i].kind.Paper
	}
	for _, p := range d.Papers {
		use, sheets, err := planSheets(ctx, d, p, sorting.byPaper[p.Name], packer)
		if err != nil {
			return Kit{}, err
		}
		for i := range sheets {
			sheets[i].Number = len(kit.Sheets) + i + 1
		}
		kit.Sheets = append(kit.Sheets, sheets...)
		kit.Stock = append(kit.Stock, use)
		for _, k := range sorting.byPaper[p.Name] {
			kit.Kinds = append(kit.Kinds, *k.Kind)
		}
	}
	kit.Totals = totals(kit)
	kit.Warnings = append(kit.Warnings, warnings(kit)...)
	return kit, nil
}

// planCard lays the base flat and divides the front.
func planCard(d Design) (Card, error) {
	size := d.Card.Size
	base, err := d.Card.Base.Lay(size)
	if err != nil {
		return Card{}, fmt.Errorf("card: %w", err)
	}
	frame, err := geometry.RectFromSize(geometry.Point{}, size).Inset(d.Front.Margin)
	if err != nil {
		return Card{}, fmt.Errorf("front.margin: %w", err)
	}
	front, err := d.Front.Layout.Divide(d.brief(frame))
	if err != nil {
		return Card{}, fmt.Errorf("front, %s: %w", d.Front.Layout.Name, err)
	}
	card := Card{Size: size, Base: base, Frame: frame, Front: front}
	for _, p := range front.Panels {
		degrees := d.Front.Direction.Degrees(p.Outline, frame.Centre())
		card.Panels = append(card.Panels, Panel{Panel: p, PatternDegrees: degrees})
	}
	return card, checkPanelPapers(d, card)
}

// brief is what the layout has to go by.
func (d Design) brief(frame geometry.Rect) fronts.Brief {
	return fronts.Brief{Frame: frame, Gap: d.Front.Gap, Options: d.Front.Options, Unit: d.Units}
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
			return fmt.Errorf("front.papers.%s: there is no such panel%s", oneLine(panel, mostKeyText), meantPanel(panel, names))
		}
	}
	for _, name := range names {
		if d.Front.ByPanel[name] == "" && len(d.Front.Papers) == 0 {
			return fmt.Errorf(`front.papers: panel %s has no paper; name one, or write rest = "..." for all others`, name)
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

// paperOf returns the paper of a panel on a card, which counts from 0.
func (d Design) paperOf(p Panel, card int) string {
	if paper, ok := d.Front.ByPanel[p.Name]; ok {
		return paper
	}
	return papers.PlanNamed(d.Batch.Plan).Paper(d.Front.Papers, p.Role, card)
}

// PaperOn returns the paper that a panel is cut from on a card, which counts
// from 1.
func (k Kit) PaperOn(p Panel, card int) papers.Paper {
	return k.Design.Paper(k.Design.paperOf(p, card-1))
}

func totals(kit Kit) Totals {
	t := Totals{Cards: kit.Design.Batch.Cards, Spares: kit.Design.Batch.Spares, Kinds: len(kit.Kinds), Sheets: len(kit.Sheets)}
	var used, all float64
	for _, s := range kit.Sheets {
		t.Pieces += len(s.Pieces)
		area := s.Size.W.In(geometry.Millimetres) * s.Size.H.In(geometry.Millimetres)
		all += area
		used += s.UsedPercent() * area
	}
	t.UsedPercent = used / all
	return t
}

// warnings are what a maker should know before she cuts.
func warnings(kit Kit) []Warning {
	var out []Warning
	for _, use := range kit.Stock {
		name := use.Paper.Name
		switch have := use.Paper.Have; {
		case use.Sheets == 0:
			out = append(out, Warning{"unused-paper", fmt.Sprintf("paper %q is not used", name), "papers." + name})
		case have != nil && *have < use.Sheets:
			out = append(out, Warning{"short-of-sheets",
				fmt.Sprintf("paper %q: %d sheets needed, %d at hand", name, use.Sheets, *have), "papers." + name})
		}
	}
	return out
}
