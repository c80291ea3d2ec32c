package shopping

import (
	"slices"

	"panelry/layouts"
	"panelry/layouts/papers"
)

// A List is the shopping list of a batch.
type List struct {
	Kit       layouts.Kit
	Papers    []Sheets // those that are used, in the design's order
	Envelopes int
	Fixing    Fixing
	// Batch is what the batch uses up: sheets as they are needed, an envelope
	// a card, whole rolls and packs. Card is its share of that. ToPay is what is
	// to be bought: sheets to spare included, sheets at hand not.
	Batch, Card, ToPay papers.Price
	Unpriced           []string // what has no price, and is in no sum
	Weight             Weight
}

// Sheets is what is needed of one paper.
type Sheets struct {
	Paper    papers.Paper
	Need     int          // for all pieces, spare sets included
	Extra    int          // to spare
	Buy      int          // less what is at hand
	Cost     papers.Price // of Buy
	StandIns []string     // papers of the design that can stand in for it
}

// Weight is what finished cards weigh in grams, without what holds them
// together; unknown are the papers whose weight is not known.
type Weight struct {
	Lightest, Heaviest, Batch float64
	Unknown                   []string
}

// For makes the shopping list of a kit. An error is a sentence: prices in two
// currencies, say.
func For(kit layouts.Kit) (List, error) {
	l := List{Kit: kit, Envelopes: kit.Design.Batch.Cards}
	var err error
	if l.Fixing, err = fixingOf(kit); err != nil {
		return l, err
	}
	swaps := kit.Swaps()
	beside := besides(kit, swaps)
	onPanels := map[string]bool{}
	for _, p := range swaps.Papers {
		onPanels[p.Paper] = true
	}
	for _, use := range kit.Stock {
		if use.Sheets > 0 {
			l.Papers = append(l.Papers, sheetsOf(kit, use, beside[use.Paper.Name], onPanels[use.Paper.Name]))
		}
	}
	if err := l.cost(); err != nil {
		return l, err
	}
	l.weigh()
	return l, nil
}

func sheetsOf(kit layouts.Kit, use layouts.PaperUse, beside []papers.Paper, onPanels bool) Sheets {
	d, p := kit.Design, use.Paper
	s := Sheets{Paper: p, Need: use.Sheets, Extra: (use.Sheets*d.Shop.Extra + 99) / 100}
	s.Buy = s.Need + s.Extra
	if p.Have != nil {
		s.Buy = max(0, s.Buy-*p.Have)
	}
	if p.Price != nil {
		s.Cost = p.Price.Times(s.Buy)
	}
	if onPanels && p.Name != d.Card.Paper {
		for _, q := range papers.Substitutes(p, d.Papers, beside) {
			s.StandIns = append(s.StandIns, q.Name)
		}
	}
	return s
}

// besides lists, for each paper of a panel, the base's paper and those that
// lie beside it on some card.
func besides(kit layouts.Kit, swaps layouts.Swaps) map[string][]papers.Paper {
	d, pairs := kit.Design, kit.Beside()
	out := map[string][]papers.Paper{}
	seen := map[[2]string]bool{}
	add := func(a, b string) {
		if !seen[[2]string{a, b}] {
			seen[[2]string{a, b}] = true
			out[a] = append(out[a], d.Paper(b))
		}
	}
	for _, p := range d.Papers {
		add(p.Name, d.Card.Paper)
	}
	for _, card := range swaps.Cards {
		for _, pair := range pairs {
			a, b := card.Papers[pair[0]], card.Papers[pair[1]]
			if a != b {
				add(a, b)
				add(b, a)
			}
		}
	}
	return out
}

// cost sums prices up.
func (l *List) cost() error {
	shop := l.Kit.Design.Shop
	add := func(what string, price papers.Price, known bool, use, buy int) error {
		if !known {
			if use > 0 {
				l.Unpriced = append(l.Unpriced, what)
			}
			return nil
		}
		var err error
		if l.Batch, err = l.Batch.Plus(price.Times(use)); err != nil {
			return err
		}
		l.ToPay, err = l.ToPay.Plus(price.Times(buy))
		return err
	}
	for _, s := range l.Papers {
		price := papers.Price{}
		if s.Paper.Price != nil {
			price = *s.Paper.Price
		}
		if err := add(s.Paper.Name, price, s.Paper.Price != nil, s.Need, s.Buy); err != nil {
			return err
		}
	}
	for _, line := range []struct {
		what  string
		price papers.Price
		n     int
	}{
		{"envelopes", shop.Envelope, l.Envelopes}, {"tape", shop.RollPrice, l.Fixing.Rolls}, {"foam pads", shop.PackPrice, l.Fixing.Packs},
	} {
		if err := add(line.what, line.price, !line.price.Zero(), line.n, line.n); err != nil {
			return err
		}
	}
	if l.Fixing.Kind == layouts.Tape && shop.Roll == 0 {
		l.Unpriced = append(l.Unpriced, "tape")
	}
	if l.Fixing.Kind == layouts.FoamPads && shop.Pack == 0 {
		l.Unpriced = append(l.Unpriced, "foam pads")
	}
	l.Card = l.Batch.Shared(l.Kit.Design.Batch.Cards)
	return nil
}

func (l *List) weigh() {
	w := &l.Weight
	for card := 1; card <= l.Kit.Design.Batch.Cards; card++ {
		grams, unknown := l.Kit.CardMass(card)
		if card == 1 {
			w.Lightest = grams
		}
		w.Lightest, w.Heaviest = min(w.Lightest, grams), max(w.Heaviest, grams)
		w.Batch += grams
		for _, name := range unknown {
			if !slices.Contains(w.Unknown, name) {
				w.Unknown = append(w.Unknown, name)
			}
		}
	}
}
