package layouts

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"panelry/geometry"
	"panelry/layouts/papers"
)

const byHand = "by hand"

func (in *reading) batch() BatchSettings {
	b := in.file.Batch
	out := BatchSettings{Cards: in.count("batch.cards", b.Cards, 1, 1, MostCards)}
	out.Spares = in.spares(b.Spares, out.Cards)
	var names []string
	for _, p := range papers.Plans() {
		names = append(names, p.Name)
	}
	usual := names[0]
	if b.ByHand != nil {
		usual = byHand
	}
	out.Plan = in.choice("batch.plan", b.Plan, usual, names)
	switch {
	case out.Plan == byHand && b.ByHand == nil:
		in.wrong("batch.by_hand", "missing; write the papers of each card in a list of its own")
	case out.Plan != byHand && b.ByHand != nil:
		in.wrong("batch.by_hand", "these cards have no effect, as the plan is %q; write plan = %q", out.Plan, byHand)
	case out.Plan == byHand:
		out.ByHand = in.byHand(b.ByHand)
	default:
		in.eachOnce(out.Plan)
	}
	return out
}

// spares reads a number of sets, or a share of the cards, rounded up.
func (in *reading) spares(value any, cards int) int {
	percent, ok := percentOf(value)
	if !ok {
		return in.count("batch.spares", value, 0, 0, MostSpares)
	}
	sets := (cards*percent + 99) / 100
	if sets > MostSpares {
		in.wrong("batch.spares", "%d %% of %d cards are %d sets; at most %d", percent, cards, sets, MostSpares)
	}
	return sets
}

// percentOf reads a text like "10 %", from 0 to 100.
func percentOf(value any) (percent int, ok bool) {
	text, _ := value.(string)
	digits, found := strings.CutSuffix(strings.TrimSpace(text), "%")
	n, err := strconv.ParseUint(strings.TrimSpace(digits), 10, 16)
	return int(n), found && err == nil && n <= 100
}

// byHand reads a row a card: a list of papers, or a table by panel.
func (in *reading) byHand(value any) []HandDeal {
	rows, ok := value.([]any)
	if !ok || len(rows) == 0 {
		in.wrong("batch.by_hand", `write a list a card, like [["kelp", "tide"], ["tide", "kelp"]]`)
		return nil
	}
	if in.file.Front["papers"] != nil {
		in.design.notes = append(in.design.notes, Warning{"no-effect", "front.papers has no effect: batch.by_hand names all papers", "front.papers"})
	}
	var out []HandDeal
	for i, row := range rows {
		key := fmt.Sprintf("batch.by_hand.%d", i)
		var hand HandDeal
		switch v := row.(type) {
		case []any:
			for j, item := range v {
				hand.Papers = append(hand.Papers, in.paperName(fmt.Sprintf("%s.%d", key, j), item))
			}
		case map[string]any:
			hand.ByPanel, hand.Papers = in.papersByPanel(key, v)
		default:
			in.wrong(key, `write a list of papers, or a table by panel`)
		}
		out = append(out, hand)
	}
	return out
}

// eachOnce makes sure that a plan that goes by different papers gets such.
func (in *reading) eachOnce(plan string) {
	list := in.design.Front.Papers
	for i, name := range list {
		if papers.PlanNamed(plan).Each && slices.Contains(list[:i], name) {
			in.wrong("front.papers", "paper %q stands twice; the plan %q takes each paper once", name, plan)
			return
		}
	}
}

func (in *reading) shop() {
	s, out := in.file.Shop, &in.design.Shop
	percent, ok := percentOf(s.Extra)
	if s.Extra != nil && !ok {
		in.wrong("shop.extra", `write a share of the sheets, like "10 %%", up to "100 %%"`)
	}
	out.Extra = percent
	out.Envelope = in.price("shop.envelope", s.Envelope)
	out.Adhesive = in.choice("shop.adhesive", s.Adhesive, Tape, Adhesives())
	out.Inset = in.notNegative("shop.inset", s.Inset, in.usual())
	out.Roll = in.length("shop.roll", s.Roll, 0)
	if s.Roll != nil && (out.Roll <= 0 || out.Roll > geometry.Limit) {
		in.wrong("shop.roll", "a roll must be longer than nothing and at most %s", geometry.Limit)
	}
	out.RollPrice = in.price("shop.roll_price", s.RollPrice)
	out.PadEvery = in.notNegative("shop.pad_every", s.PadEvery, in.usualPads())
	if out.PadEvery < 5*geometry.Millimetre {
		in.wrong("shop.pad_every", "%s is too close for foam pads; write 5 mm or more", out.PadEvery.Format(in.unit))
	}
	out.Pack = in.count("shop.pack", s.Pack, 0, 1, 100_000)
	out.PackPrice = in.price("shop.pack_price", s.PackPrice)
}

// usualPads is how far foam pads along a side are apart, at most. Common
// practice, no source.
func (in *reading) usualPads() geometry.Length {
	if in.unit == geometry.Millimetres {
		return 50 * geometry.Millimetre
	}
	return 2 * geometry.Inch
}
