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
	pieces  []wanted
	box     geometry.Size    // of the first outline
	largest geometry.Outline // of the kind, as Kind.Outline is the smallest
	front   geometry.Point   // of a base: the middle of its front
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
func sortPieces(d Design, card Card, l dealt) sorting {
	s := &sorter{design: d, known: map[[2]string]pose{}, pieces: map[*Kind]*kindPieces{}, ids: map[string]int{}}
	s.byPaper = map[string][]*kindPieces{}
	base := part{folds: card.Base.Folds, middle: card.Base.Front.Centre()}
	base.Name, base.Outline = "base", card.Base.Outline
	for c := range d.Batch.Cards + d.Batch.Spares {
		label := d.Batch.label(c + 1)
		for _, p := range card.Panels {
			pose := s.add(label, c, part{Panel: p}, l.paper(p.Name, c))
			if c == 0 {
				s.ofFirstCard = append(s.ofFirstCard, pose)
			}
		}
		if c < d.Batch.Cards {
			s.add(label, c, base, d.Card.Paper)
		}
	}
	return s.sorting
}

// CardLabel returns how a card is called, from 1: "07", or "S1" for a spare set.
func (k Kit) CardLabel(card int) string { return k.Design.Batch.label(card) }

func (b BatchSettings) label(card int) string {
	if card > b.Cards {
		return fmt.Sprintf("S%0*d", len(fmt.Sprint(b.Spares)), card-b.Cards)
	}
	return fmt.Sprintf("%0*d", digits(b.Cards), card)
}

// digits returns how many digits card numbers have: at least two.
func digits(n int) int { return max(2, len(fmt.Sprint(n))) }

// part is what one piece is cut for: a panel, or a base with its folds and
// the middle of its front.
type part struct {
	Panel
	folds  []cards.Fold
	middle geometry.Point
}

// add sorts one piece in and returns how it is laid.
func (s *sorter) add(label string, card int, p part, paper string) pose {
	key := [2]string{p.Name, paper}
	laid, ok := s.known[key]
	if !ok {
		laid = s.pose(p, s.design.Paper(paper))
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
func (s *sorter) pose(p part, paper papers.Paper) pose {
	upright := 0.0
	if paper.Pattern != papers.Plain { // plain paper has no way to run, and turning would round corners
		upright = geometry.NormalDegrees(paper.PatternUp - p.PatternDegrees)
	}
	outline := p.Outline.Turned(upright)
	box := outline.Bounds().Size()
	for _, k := range s.byPaper[paper.Name] {
		if (len(p.folds) > 0) != (len(k.Folds) > 0) || !k.mayTake(box) {
			continue
		}
		if turn, ok := k.turnFor(outline, 0); ok {
			k.take(outline.Turned(turn))
			return pose{k.Kind, geometry.NormalDegrees(upright + turn), false}
		}
		if !paper.BothAlike {
			continue
		}
		// The pattern's up on the sheet, u, is at -u once turned over sideways,
		// and back at u after a turn by 2u.
		if turn, ok := k.turnFor(outline.Mirrored(), 2*paper.PatternUp); ok {
			// Mirroring after a turn is turning back after mirroring.
			k.take(outline.Mirrored().Turned(turn))
			return pose{k.Kind, geometry.NormalDegrees(turn - upright), true}
		}
	}
	return pose{s.newKind(p, outline, upright, paper), upright, false}
}

func (s *sorter) newKind(p part, outline geometry.Outline, turn float64, paper papers.Paper) *Kind {
	s.ids[paper.Name]++
	k := &Kind{ID: fmt.Sprintf("%s-%d", paper.Name, s.ids[paper.Name]), Paper: paper.Name, Outline: outline, turns: paper.Turns()}
	for _, f := range p.folds {
		k.Folds = append(k.Folds, cards.Fold{Line: f.Line.Turned(turn), Kind: f.Kind})
	}
	s.pieces[k] = &kindPieces{Kind: k, box: outline.Bounds().Size(), largest: outline, front: p.middle.Turned(turn)}
	s.byPaper[paper.Name] = append(s.byPaper[paper.Name], s.pieces[k])
	return k
}

// mayTake is a quick no to most outlines that are not of the kind: where
// only half turns are allowed, boxes are alike. A kind's own outlines differ
// by the tolerance on each side.
func (k *kindPieces) mayTake(box geometry.Size) bool {
	const alike = 4 * KindTolerance
	return k.turns.AllowAny() || (box.W-k.box.W).Abs() <= alike && (box.H-k.box.H).Abs() <= alike
}

// turnFor returns a turn that brings the outline onto both the smallest and
// the largest of the kind, and that the pattern allows: counted from the
// turn that makes it run right.
func (k *kindPieces) turnFor(outline geometry.Outline, right float64) (float64, bool) {
	turn, ok := k.allowedTurn(outline, k.Outline, right)
	if ok && k.largest.Area() != k.Outline.Area() {
		_, ok = k.allowedTurn(outline, k.largest, right)
	}
	return turn, ok
}

func (k *kindPieces) allowedTurn(outline, onto geometry.Outline, right float64) (float64, bool) {
	for _, turn := range geometry.TurnsOnto(outline, onto, KindTolerance) {
		if k.turns.Allow(turn - right) {
			return turn, true
		}
	}
	return 0, false
}

// take keeps an outline that lies as the kind's do: the smallest is what is
// cut. Kinds with folds keep theirs.
func (k *kindPieces) take(outline geometry.Outline) {
	if area := outline.Area(); len(k.Folds) > 0 {
		return
	} else if area.Cmp(k.Outline.Area()) < 0 {
		k.Outline = outline
	} else if area.Cmp(k.largest.Area()) > 0 {
		k.largest = outline
	}
}

// middle returns where a name goes on the kind's outline.
func (k *kindPieces) middle() geometry.Point {
	if len(k.Folds) > 0 {
		return k.front
	}
	return k.Outline.Centre()
}

// shapes turns kinds into what the packer wants.
func shapes(kinds []*kindPieces) []nesting.Shape {
	out := make([]nesting.Shape, len(kinds))
	for i, k := range kinds {
		out[i] = nesting.Shape{Name: k.ID, Outline: k.Outline, Count: k.Count, Turns: k.turns}
	}
	return out
}
