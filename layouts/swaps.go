package layouts

import (
	"math"
	"slices"

	"panelry/geometry"
	"panelry/layouts/papers"
)

// Swaps say how the pieces of a batch find their cards.
type Swaps struct {
	Plan papers.Plan
	// Even says whether papers cut alike come out even; nil where papers do not
	// take turns. Spare sets count as cards.
	Even *papers.Evenness
	// Stack is the papers in the order in which they lie in the stack, the first
	// on top, and Rounds the pile moves that make the plan by hand; empty where
	// piles do not make it.
	Stack  []string
	Rounds []SwapRound
	Papers []SwapPaper
	Cards  []SwapCard
}

// A SwapRound is the pile moves for the cards of one round, and of every
// round so many on: with one, the same moves make all cards.
type SwapRound struct{ Piles []SwapPile }

// A SwapPile is the pieces of one panel, as the cut stack gives them: all of
// one shape and hand. Move is how many go from its top to its bottom.
type SwapPile struct {
	Panel, Hand string
	Move        int
}

// A SwapPaper is what the batch takes of one paper. A block is cut into two
// halves; a half whose other half no panel takes is odd.
type SwapPaper struct {
	Paper  string
	Pieces int
	Halves int
	Odd    int
}

// A SwapCard is the papers of one card or spare set, panel by panel in the
// front's order.
type SwapCard struct {
	Card   int // from 1; spare sets go on counting after the last card
	Papers []string
}

// Swaps returns how the pieces of the batch find their cards.
func (k Kit) Swaps() Swaps {
	b := k.Design.Batch
	s := Swaps{Plan: papers.PlanNamed(b.Plan)}
	for card := 1; card <= b.Cards+b.Spares; card++ {
		row := SwapCard{Card: card}
		for _, p := range k.Card.Panels {
			row.Papers = append(row.Papers, k.dealt.paper(p.Name, card-1))
		}
		s.Cards = append(s.Cards, row)
	}
	s.piles(k)
	s.count(k)
	return s
}

// piles fills in what holds where papers take turns.
func (s *Swaps) piles(k Kit) {
	l := k.dealt
	turns := l.deal.Moves != nil || s.Plan.Each
	if !turns || len(l.papers) < 2 || len(l.places) == 0 || hasTwice(l.papers) {
		return
	}
	even := papers.Even(papers.Sum{Papers: len(l.papers), Places: len(l.places), Cards: len(s.Cards)})
	even.Repeats = 0
	for _, row := range l.deal.Cards {
		even.Repeats = max(even.Repeats, len(row)-len(slices.Compact(slices.Sorted(slices.Values(row)))))
	}
	s.Even = &even
	for _, moves := range l.deal.Moves {
		if s.Stack == nil {
			s.Stack = l.papers
		}
		var round SwapRound
		for _, p := range k.Card.Panels {
			if place, ok := l.places[p.Name]; ok {
				round.Piles = append(round.Piles, SwapPile{p.Name, p.Hand, moves[place]})
			}
		}
		s.Rounds = append(s.Rounds, round)
	}
}

func hasTwice(list []string) bool {
	return len(slices.Compact(slices.Sorted(slices.Values(list)))) < len(list)
}

// count counts pieces, and halves without their other half.
func (s *Swaps) count(k Kit) {
	half := map[string]bool{} // panels
	for _, p := range k.Card.Panels {
		half[p.Name] = p.Hand != ""
	}
	ofHalves := map[string]bool{} // kinds
	pieces := map[string]int{}
	for _, sheet := range k.Sheets {
		for _, p := range sheet.Pieces {
			if p.Panel != "base" {
				pieces[p.Kind]++
			}
			if half[p.Panel] {
				ofHalves[p.Kind] = true
			}
		}
	}
	for _, use := range k.Stock {
		paper := SwapPaper{Paper: use.Paper.Name}
		var kinds []Kind
		for _, kind := range k.Kinds {
			if kind.Paper != paper.Paper || pieces[kind.ID] == 0 {
				continue
			}
			paper.Pieces += pieces[kind.ID]
			if ofHalves[kind.ID] {
				paper.Halves += pieces[kind.ID]
				kinds = append(kinds, kind)
			}
		}
		paper.Odd = oddHalves(kinds, use.Paper.Pattern == papers.OneWay)
		if paper.Pieces > 0 {
			s.Papers = append(s.Papers, paper)
		}
	}
}

// oddHalves counts the halves whose other half nothing takes. A block gives
// two of one kind; but of a pattern that runs one way it gives two kinds, of
// which one is the other after half a turn.
func oddHalves(kinds []Kind, oneWay bool) int {
	odd := 0
	paired := make([]bool, len(kinds))
	for i, k := range kinds {
		if !oneWay {
			odd += k.Count % 2
			continue
		}
		if paired[i] {
			continue
		}
		left := k.Count
		for j := i + 1; j < len(kinds); j++ {
			if !paired[j] && halfTurnApart(k.Outline, kinds[j].Outline) {
				paired[j] = true
				left -= kinds[j].Count
				break
			}
		}
		odd += max(left, -left)
	}
	return odd
}

func halfTurnApart(a, b geometry.Outline) bool {
	return slices.ContainsFunc(geometry.TurnsOnto(a, b, KindTolerance), func(turn float64) bool {
		return math.Abs(turn-180) < 0.01
	})
}

// CardMass returns what a card weighs in grams: its base and its panels, without
// anything that holds them together. Unknown are the papers whose weight is
// not known, each once.
func (k Kit) CardMass(card int) (grams float64, unknown []string) {
	add := func(o geometry.Outline, p papers.Paper) {
		if p.GSM == 0 && !slices.Contains(unknown, p.Name) {
			unknown = append(unknown, p.Name)
		}
		grams += papers.Mass(o.Area(), p.GSM)
	}
	add(k.Card.Base.Outline, k.Design.Paper(k.Design.Card.Paper))
	for _, p := range k.Card.Panels {
		add(p.Outline, k.PaperOn(p, card))
	}
	return grams, unknown
}
