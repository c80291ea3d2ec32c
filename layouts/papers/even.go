package papers

import "fmt"

// A Sum is a batch in numbers: how many papers, places on a card and cards.
// All papers are cut alike, in sets: a set is one piece for each place of a
// card.
type Sum struct{ Papers, Places, Cards int }

// An Evenness says what is left over when papers are cut alike by sets.
// Papers take turns, so that each paper gives nearly as many pieces as any
// other; and one set each of n papers makes n cards with nothing over.
type Evenness struct {
	Sum
	Sets int // to cut of each paper
	// LeftLeast and LeftMost are the pieces left over of each paper: some
	// papers may have one fewer left than others. Left is all of them.
	LeftLeast, LeftMost, Left int
	Below, Above              int // the nearest numbers of cards that come out even; Below is 0 for none
	// Repeats is how many pieces of each card are of a paper that the card
	// has already: none where papers are as many as places.
	Repeats int
}

// Even works a batch out. All three numbers are at least 1.
func Even(s Sum) Evenness {
	e := Evenness{Sum: s, Sets: (s.Cards + s.Papers - 1) / s.Papers, Repeats: max(0, s.Places-s.Papers)}
	used := s.Cards * s.Places
	cut := e.Sets * s.Places
	e.LeftLeast = cut - (used+s.Papers-1)/s.Papers
	e.LeftMost = cut - used/s.Papers
	e.Left = s.Papers*cut - used
	e.Below = s.Cards / s.Papers * s.Papers
	e.Above = e.Sets * s.Papers
	return e
}

// Even reports whether nothing is left over.
func (e Evenness) Even() bool { return e.Left == 0 }

// String says it in a sentence, without a full stop.
func (e Evenness) String() string {
	text := fmt.Sprintf("%s for %s of %s", counted(e.Papers, "paper", "papers"), counted(e.Cards, "card", "cards"), counted(e.Places, "panel", "panels"))
	comes, leaves := "come", "leave"
	if e.Papers == 1 {
		comes, leaves = "comes", "leaves"
	}
	if e.Even() {
		text += fmt.Sprintf(" %s out even: %s of each paper", comes, counted(e.Sets, "set", "sets"))
	} else {
		each := fmt.Sprint(e.LeftMost)
		if e.LeftLeast != e.LeftMost {
			each = fmt.Sprintf("%d or %d", e.LeftLeast, e.LeftMost)
		}
		pieces := "pieces"
		if e.LeftMost == 1 {
			pieces = "piece"
		}
		text += fmt.Sprintf(" %s %s %s of each, %d in all; %s leave none", leaves, each, pieces, e.Left, e.evenCards())
	}
	switch {
	case e.Repeats == 1:
		text += "; on each card 1 panel repeats a paper"
	case e.Repeats > 1:
		text += fmt.Sprintf("; on each card %d panels repeat a paper", e.Repeats)
	}
	return text
}

func (e Evenness) evenCards() string {
	if e.Below == 0 {
		return counted(e.Above, "card", "cards")
	}
	return fmt.Sprintf("%d or %d cards", e.Below, e.Above)
}
