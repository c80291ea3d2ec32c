package layouts

import (
	"fmt"
	"slices"
	"strings"

	"panelry/geometry"
	"panelry/layouts/fronts"
	"panelry/layouts/papers"
)

// dealt says which paper each panel of each card is cut from.
type dealt struct {
	fixed  map[string]string // panels that have one paper on every card
	places map[string]int    // of the others, in the front's order
	papers []string
	deal   papers.Deal
}

// paper returns the paper of a panel on a card, which counts from 0.
func (l dealt) paper(panel string, card int) string {
	if name, ok := l.fixed[panel]; ok {
		return name
	}
	return l.papers[l.deal.Paper(card, l.places[panel])]
}

// dealPapers carries out the design's plan on a card's panels. Spare sets
// count as cards after the last.
func (d Design) dealPapers(card Card) (dealt, error) {
	if len(d.Batch.ByHand) > 0 {
		return d.dealByHand(card)
	}
	plan := papers.PlanNamed(d.Batch.Plan)
	l := dealt{fixed: d.Front.ByPanel, places: map[string]int{}, papers: d.Front.Papers}
	batch := papers.Batch{Papers: len(l.papers), Cards: d.Batch.Cards + d.Batch.Spares}
	var free []fronts.Panel
	for _, p := range card.Panels {
		if _, ok := l.fixed[p.Name]; !ok {
			l.places[p.Name] = len(free)
			free = append(free, p.Panel)
			batch.Roles = append(batch.Roles, p.Role)
		}
	}
	if plan.Beside {
		batch.Beside = fronts.Beside(free, d.widest(card))
	}
	batch.Blocks = blocksOf(free)
	for _, name := range l.papers {
		batch.Most = append(batch.Most, d.Paper(name).Most)
	}
	if len(free) > 0 {
		var err error
		if l.deal, err = plan.Deal(batch); err != nil {
			return l, d.wrong("batch.plan", "%s", err)
		}
	}
	if plan.Beside {
		if err := d.checkApart(card, l); err != nil {
			return l, err
		}
	}
	return l, d.checkMost(card, l)
}

// checkMost holds the pieces of each paper against what it may give.
func (d Design) checkMost(card Card, l dealt) error {
	if !slices.ContainsFunc(d.Papers, func(p papers.Paper) bool { return p.Most > 0 }) {
		return nil
	}
	pieces := map[string]int{}
	for c := range d.Batch.Cards + d.Batch.Spares {
		for _, p := range card.Panels {
			pieces[l.paper(p.Name, c)]++
		}
	}
	for _, p := range d.Papers {
		if n := pieces[p.Name]; p.Most > 0 && n > p.Most {
			return d.wrong(d.paperKey(p.Name)+".most_panels", `%d of its panels are wanted, and it gives %d; make fewer cards, or try plan = "whole blocks", which keeps to it`, n, p.Most)
		}
	}
	return nil
}

// Beside returns the pairs of panels that lie beside each other, by their
// numbers on the card.
func (k Kit) Beside() [][2]int {
	return fronts.Beside(k.Card.Front.Panels, k.Design.widest(k.Card))
}

// widest returns the widest gap of a front: the ruler can make one wider.
func (d Design) widest(card Card) geometry.Length {
	gap := d.Front.Gap
	for _, r := range card.Front.Rounded {
		gap = max(gap, r.Now)
	}
	return gap
}

// blocksOf finds the halves that one block gives: those of one cell.
func blocksOf(panels []fronts.Panel) [][2]int {
	var blocks [][2]int
	first := map[string]int{}
	for i, p := range panels {
		if p.Hand == "" {
			continue
		}
		cell := strings.TrimRight(p.Name, "abcdefghijklmnopqrstuvwxyz")
		if other, ok := first[cell]; ok {
			blocks = append(blocks, [2]int{other, i})
		} else {
			first[cell] = i
		}
	}
	return blocks
}

// checkApart makes sure that panels with a paper of their own keep apart too.
func (d Design) checkApart(card Card, l dealt) error {
	if len(l.fixed) == 0 {
		return nil
	}
	for _, pair := range fronts.Beside(card.Front.Panels, d.widest(card)) {
		a, b := card.Panels[pair[0]].Name, card.Panels[pair[1]].Name
		if name := l.paper(a, 0); name == l.paper(b, 0) {
			return d.wrong("batch.plan", "panels %s and %s lie side by side, and front.papers gives both %q", a, b, name)
		}
	}
	return nil
}

// dealByHand takes the papers that the design names, card by card.
func (d Design) dealByHand(card Card) (dealt, error) {
	l := dealt{places: map[string]int{}, papers: paperNames(d.Papers)}
	names := make([]string, len(card.Panels))
	for i, p := range card.Panels {
		l.places[p.Name], names[i] = i, p.Name
	}
	if n := len(d.Batch.ByHand); n != d.Batch.Cards {
		return l, d.wrong("batch.by_hand", "%d of %d cards have papers; write one list a card", n, d.Batch.Cards)
	}
	for i, hand := range d.Batch.ByHand {
		key := fmt.Sprintf("batch.by_hand.%d", i)
		for panel := range hand.ByPanel {
			if !slices.Contains(names, panel) {
				return l, d.wrong(key+"."+panel, "there is no such panel%s", meantPanel(panel, names))
			}
		}
		if n := len(hand.Papers); hand.ByPanel == nil && n != len(names) {
			return l, d.wrong(key, "%d papers for %d panels; write one for each, in the order of panelry show", n, len(names))
		}
		row := make([]int, len(names))
		for place, name := range names {
			paper := hand.paper(name, place)
			if paper == "" {
				return l, d.wrong(key, `panel %s has no paper; name one, or write rest = "..." for all others`, name)
			}
			row[place] = slices.Index(l.papers, paper)
		}
		l.deal.Cards = append(l.deal.Cards, row)
	}
	return l, d.checkMost(card, l)
}

// paper returns the paper of a panel; "" for none.
func (h HandDeal) paper(panel string, place int) string {
	switch name, ok := h.ByPanel[panel]; {
	case ok:
		return name
	case h.ByPanel == nil:
		return h.Papers[place]
	case len(h.Papers) > 0:
		return h.Papers[0]
	}
	return ""
}
