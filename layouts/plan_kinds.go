package layouts

import (
	"fmt"

	"panelry/geometry"
	"panelry/geometry/nesting"
	"panelry/layouts/cards"
	"panelry/layouts/papers"
)

// wanted is one piece of the batch before it has a place on a sheet.
type wanted struct {
	id    string
	card  int
	panel string
	pose
}

// pose is how a piece of the card becomes the outline of its kind: turned
// over first if need be, then turned.
type pose struct {
	kind *Kind
	turn float64 // degrees clockwise
	over bool
}

// sorting is the whole batch sorted into kinds.
type sorting struct {
	byPaper     map[string][]*kindPieces
	ofFirstCard []pose // by panel
}

// kindPieces is a kind with its pieces in the order of the cards.
type kindPieces struct {
	*Kind
	pieces []wanted
}

// sorter sorts pieces into kinds. A panel of one paper is the same on every
// card, so it is judged once.
type sorter struct {
	design Design
	sorting
	known  map[[2]string]pose // by panel and paper
	pieces map[*Kind]*kindPieces
	ids    map[string]int // kinds there are of each paper
}

// sortPieces makes all pieces of the batch: card by card, panels in the
// front's order and then the base; after the cards, the spare sets.
func sortPieces(d Design, card Card) sorting {
	s := &sorter{design: d, known: map[[2]string]pose{}, pieces: map[*Kind]*kindPieces{}, ids: map[string]int{}}
	s.byPaper = map[string][]*kindPieces{}
	base := Panel{}
	base.Name, base.Outline = "base", card.Base.Outline
	cardWidth, spareWidth := digits(d.Batch.Cards), len(fmt.Sprint(d.Batch.Spares))
	for c := range d.Batch.Cards + d.Batch.Spares {
		label := fmt.Sprintf("%0*d", cardWidth, c+1)
		if c >= d.Batch.Cards {
			label = fmt.Sprintf("S%0*d", spareWidth, c-d.Batch.Cards+1)
		}
		for _, p := range card.Panels {
			pose := s.add(label, c, p, d.paperOf(p, c), nil)
			if c == 0 {
				s.ofFirstCard = append(s.ofFirstCard, pose)
			}
		}
		if c < d.Batch.Cards {
			s.add(label, c, base, d.Card.Paper, card.Base.Folds)
		}
	}
	return s.sorting
}

// digits returns how many digits card numbers have: at least two.
func digits(n int) int { return max(2, len(fmt.Sprint(n))) }

// add sorts one piece in and returns how it is laid.
func (s *sorter) add(label string, card int, p Panel, paper string, folds []cards.Fold) pose {
	key := [2]string{p.Name, paper}
	laid, ok := s.known[key]
	if !ok {
		laid = s.pose(p, s.design.Paper(paper), folds)
		s.known[key] = laid
	}
	k := s.pieces[laid.kind]
	k.Count++
	if card == 0 {
		k.Places = append(k.Places, p.Name)
	}
	k.pieces = append(k.pieces, wanted{label + "-" + p.Name, card + 1, p.Name, laid})
	return laid
}

// pose finds the kind of a panel cut from a paper, or makes a new one. The
// panel is first turned so that its pattern runs as on the sheet; then, if
// one of the turns that the pattern allows (after turning it over, if both
// sides of the paper are alike) brings it onto a kind that is known, it is
// of that kind.
func (s *sorter) pose(p Panel, paper papers.Paper, folds []cards.Fold) pose {
	upright := geometry.NormalDegrees(paper.PatternUp - p.PatternDegrees)
	outline := p.Outline.Turned(upright)
	for _, k := range s.byPaper[paper.Name] {
		if (len(folds) > 0) != (len(k.Folds) > 0) {
			continue
		}
		if turn, ok := allowedTurn(outline, k.Kind, 0); ok {
			s.takeSmaller(k.Kind, outline.Turned(turn))
			return pose{k.Kind, geometry.NormalDegrees(upright + turn), false}
		}
		// The pattern's up on the sheet, u, is at -u once turned over sideways,
		// and back at u after a turn by 2u.
		if turn, ok := allowedTurn(outline.Mirrored(), k.Kind, 2*paper.PatternUp); ok && paper.BothAlike {
			// Mirroring after a turn is turning back after mirroring.
			s.takeSmaller(k.Kind, outline.Mirrored().Turned(turn))
			return pose{k.Kind, geometry.NormalDegrees(turn - upright), true}
		}
	}
	return pose{s.newKind(outline, upright, paper, folds), upright, false}
}

func (s *sorter) newKind(outline geometry.Outline, turn float64, paper papers.Paper, folds []cards.Fold) *Kind {
	s.ids[paper.Name]++
	k := &Kind{ID: fmt.Sprintf("%s-%d", paper.Name, s.ids[paper.Name]), Paper: paper.Name, Outline: outline, turns: paper.Turns()}
	for _, f := range folds {
		k.Folds = append(k.Folds, cards.Fold{Line: f.Line.Turned(turn), Kind: f.Kind})
	}
	s.pieces[k] = &kindPieces{Kind: k}
	s.byPaper[paper.Name] = append(s.byPaper[paper.Name], s.pieces[k])
	return k
}

// allowedTurn returns a turn that brings the outline onto a kind, and that
// the pattern allows: counted from the turn that makes it run right.
func allowedTurn(outline geometry.Outline, k *Kind, right float64) (float64, bool) {
	for _, turn := range geometry.TurnsOnto(outline, k.Outline, KindTolerance) {
		if k.turns.Allow(turn - right) {
			return turn, true
		}
	}
	return 0, false
}

// takeSmaller makes an outline the one that is cut, if it is smaller than
// the kind's so far. Kinds with folds keep theirs.
func (s *sorter) takeSmaller(k *Kind, outline geometry.Outline) {
	if len(k.Folds) == 0 && outline.Area().Cmp(k.Outline.Area()) < 0 {
		k.Outline = outline
	}
}

// shapes turns kinds into what the packer wants.
func shapes(kinds []*kindPieces) []nesting.Shape {
	out := make([]nesting.Shape, len(kinds))
	for i, k := range kinds {
		out[i] = nesting.Shape{Name: k.ID, Outline: k.Outline, Count: k.Count, Turns: k.turns}
	}
	return out
}
