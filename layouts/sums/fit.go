package sums

import (
	"fmt"
	"math"

	"panelry/geometry"
)

// Pieces are pieces of one size that are cut already, for a lattice of
// columns and rows on a card.
type Pieces struct {
	Card          geometry.Size
	Piece         geometry.Size // the oblong, before a half is cut from it
	Columns, Rows int
	Halves        bool // each is cut once from tip to tip
	Trimmed       bool // halves are trimmed afterwards, so that they fill the oblong's place with a gap between them; else they stay whole and are moved apart
	Unit          geometry.Unit
}

// Hold is what must come out as given; nil leaves it open.
type Hold struct {
	Margin, Gap *geometry.Length
	// Square moves whole halves apart square to their cut; else they are
	// moved so that margins and gaps come out alike.
	Square bool
}

// A Way is one answer: margins and gaps that add up to the card.
type Way struct {
	What                     string // which of them are alike
	MarginAcross, MarginDown geometry.Length
	GapAcross, GapDown       geometry.Length // 0 where there is one column, or one row
	Diagonal                 geometry.Length // between the two halves of a piece
	MoveAcross, MoveDown     geometry.Length // how far halves that stay whole are moved apart
	Trimmed                  geometry.Size   // the legs of trimmed halves
	LeftAcross, LeftDown     geometry.Length // what pieces, moved apart, leave for margins and middle gaps
}

// Alike reports whether all margins and gaps are one, within a micrometre.
func (w Way) Alike(p Pieces) bool {
	list := []geometry.Length{w.MarginAcross, w.MarginDown}
	if p.Columns > 1 {
		list = append(list, w.GapAcross)
	}
	if p.Rows > 1 {
		list = append(list, w.GapDown)
	}
	if p.Halves {
		list = append(list, w.Diagonal)
	}
	for _, l := range list {
		if (l - list[0]).Abs() > geometry.Micrometre {
			return false
		}
	}
	return true
}

// lattice is the unknowns' equations in nanometres:
//
//	2 m + (C-1) g + C a = x   across
//	2 m + (R-1) g + R b = y   down
//	g d = a h + b w           on the diagonal of halves that stay whole
type lattice struct {
	Pieces
	x, y    float64 // what the pieces leave of the card
	w, h, d float64
	c, r    float64
}

// Fit returns the margins and gaps that a card leaves to pieces that are cut
// already, the most even way first. Its errors are sentences with what is
// missing.
func Fit(p Pieces, hold Hold) ([]Way, error) {
	l := lattice{
		Pieces: p, c: float64(p.Columns), r: float64(p.Rows), w: float64(p.Piece.W), h: float64(p.Piece.H),
		x: float64(p.Card.W) - float64(p.Columns)*float64(p.Piece.W),
		y: float64(p.Card.H) - float64(p.Rows)*float64(p.Piece.H),
	}
	l.d = math.Hypot(l.w, l.h)
	if err := l.room(hold); err != nil {
		return nil, err
	}
	var ways []Way
	var err error
	switch whole := p.Halves && !p.Trimmed; {
	case whole && hold.Square:
		ways, err = l.squareToCut(hold)
	case whole:
		ways, err = l.movedApart(hold)
	default:
		ways, err = l.oblongs(hold)
	}
	if err != nil {
		return nil, err
	}
	if p.Halves && p.Trimmed {
		for i := range ways {
			if err := l.trim(&ways[i]); err != nil {
				return nil, err
			}
		}
	}
	return ways, nil
}

// room refuses what cannot be, whatever the gaps: pieces that are too large,
// or margins that leave nothing.
func (l lattice) room(hold Hold) error {
	margin := geometry.Length(0)
	if hold.Margin != nil {
		margin = *hold.Margin
	}
	gap := geometry.Length(0)
	if hold.Gap != nil {
		gap = *hold.Gap
	}
	for _, way := range []struct {
		word        string
		left        float64
		n           int
		piece, card geometry.Length
	}{{"across", l.x, l.Columns, l.Piece.W, l.Card.W}, {"down", l.y, l.Rows, l.Piece.H, l.Card.H}} {
		need := geometry.Length(way.n)*way.piece + 2*margin + geometry.Length(way.n-1)*gap
		if need <= way.card {
			continue
		}
		text := counted(way.n, "piece") + " of " + way.piece.Format(l.Unit)
		if margin > 0 {
			text = "two margins of " + margin.Format(l.Unit) + " and " + text
		}
		if gap > 0 && way.n > 1 {
			text += " with " + counted(way.n-1, "gap") + " of " + gap.Format(l.Unit)
		}
		return fmt.Errorf("%s: %s take %s, which is %s more than the %s there are",
			way.word, text, need.Format(l.Unit), (need - way.card).Format(l.Unit), way.card.Format(l.Unit))
	}
	return nil
}

// oblongs answers for pieces that lie as they are: across and down are two
// sums of their own.
func (l lattice) oblongs(hold Hold) ([]Way, error) {
	way := func(what string, mx, my, gx, gy float64) Way {
		w := Way{What: what, MarginAcross: round(mx), MarginDown: round(my), LeftAcross: round(l.x), LeftDown: round(l.y)}
		if l.Columns > 1 {
			w.GapAcross = round(gx)
		}
		if l.Rows > 1 {
			w.GapDown = round(gy)
		}
		return w
	}
	switch {
	case hold.Margin != nil && hold.Gap != nil:
		m, g := float64(*hold.Margin), float64(*hold.Gap)
		return l.bothHeld(way("both held", m, m, g, g))
	case hold.Margin != nil:
		m := float64(*hold.Margin)
		gx, gy := (l.x-2*m)/(l.c-1), (l.y-2*m)/(l.r-1)
		mx, my := m, m
		if l.Columns == 1 {
			mx = l.x / 2
		}
		if l.Rows == 1 {
			my = l.y / 2
		}
		what := "margins held"
		if (mx != m || my != m) && l.Columns+l.Rows > 2 {
			what = "margins held where there is a gap to give"
		}
		return []Way{way(what, mx, my, gx, gy)}, nil
	case hold.Gap != nil:
		g := float64(*hold.Gap)
		return []Way{way("gaps held", (l.x-(l.c-1)*g)/2, (l.y-(l.r-1)*g)/2, g, g)}, nil
	}
	gx, gy := l.x/(l.c+1), l.y/(l.r+1)
	if math.Abs(gx-gy) < 1 {
		return []Way{way("all margins and gaps alike", gx, gy, gx, gy)}, nil
	}
	g := min(gx, gy)
	ways := []Way{
		way("all gaps and the narrower margins alike", (l.x-(l.c-1)*g)/2, (l.y-(l.r-1)*g)/2, g, g),
		way("alike across, and alike down", gx, gy, gx, gy),
	}
	if l.Columns != l.Rows {
		g := (l.x - l.y) / (l.c - l.r)
		if m := (l.x - (l.c-1)*g) / 2; g > 0 && m >= 0 {
			ways = append([]Way{way("all gaps alike, and all margins alike", m, m, g, g)}, ways...)
		}
	}
	return ways, nil
}

// bothHeld answers where nothing is open: either it adds up, or it says by
// how much it does not.
func (l lattice) bothHeld(w Way) ([]Way, error) {
	overAcross := round(l.x) - 2*w.MarginAcross - geometry.Length(l.Columns-1)*w.GapAcross
	overDown := round(l.y) - 2*w.MarginDown - geometry.Length(l.Rows-1)*w.GapDown
	if overAcross == 0 && overDown == 0 {
		return []Way{w}, nil
	}
	return nil, fmt.Errorf("margin and gap are both held, and then %s are over across and %s down; hold one of them",
		overAcross.Format(l.Unit), overDown.Format(l.Unit))
}

// trim works out the legs of halves that are trimmed to leave a gap: each is
// the half of the oblong scaled about its right angle by
//
//	k = 1 - (g/2)·d/(w·h)
//
// where g is the gap of the way across, or down where there is only that.
func (l lattice) trim(w *Way) error {
	g := float64(w.GapAcross)
	if l.Columns == 1 {
		g = float64(w.GapDown)
	}
	if l.Columns == 1 && l.Rows == 1 {
		g = float64(min(w.MarginAcross, w.MarginDown))
	}
	k := 1 - g/2*l.d/(l.w*l.h)
	if k <= 0 {
		return fmt.Errorf("a gap of %s leaves nothing of halves of %s", round(g).Format(l.Unit), l.Piece.Format(l.Unit))
	}
	w.Diagonal = round(g)
	w.Trimmed = geometry.Size{W: round(k * l.w), H: round(k * l.h)}
	return nil
}

// movedApart answers for halves that stay whole, moved so that what she
// wants alike is alike.
func (l lattice) movedApart(hold Hold) ([]Way, error) {
	p, q := l.h/l.c, l.w/l.r // weights of across and down in the diagonal's equation
	m, g := 0.0, 0.0
	what := "all margins and gaps alike"
	switch {
	case hold.Margin != nil && hold.Gap != nil:
		return nil, fmt.Errorf("margin and gap are both held, and halves that stay whole leave one gap to each margin; hold one of them")
	case hold.Margin != nil:
		what, m = "margins held, all gaps alike", float64(*hold.Margin)
		g = (p*(l.x-2*m) + q*(l.y-2*m)) / (l.d + p*(l.c-1) + q*(l.r-1))
	case hold.Gap != nil:
		what, g = "gaps held, all margins alike", float64(*hold.Gap)
		m = (p*l.x + q*l.y - g*(l.d+p*(l.c-1)+q*(l.r-1))) / (2 * (p + q))
	default:
		g = (p*l.x + q*l.y) / (l.d + p*(l.c+1) + q*(l.r+1))
		m = g
	}
	a, b := (l.x-2*m-(l.c-1)*g)/l.c, (l.y-2*m-(l.r-1)*g)/l.r
	var ways []Way
	if m >= 0 && g > 0 && a >= -0.5 && b >= -0.5 {
		ways = append(ways, l.whole(what, m, m, g, a, b))
	}
	if hold.Margin == nil && math.Abs(a-b) > 1 {
		if w, ok := l.evenly(hold); ok {
			ways = append(ways, w)
		}
	}
	if len(ways) == 0 {
		return nil, l.nothingLeft(hold, m, g, a, b)
	}
	return ways, nil
}

// whole is a way for halves that stay whole. What is rounded is put back into
// the margins, so that the sums come out.
func (l lattice) whole(what string, mx, my, g, a, b float64) Way {
	w := Way{
		What: what, MarginAcross: round(mx), MarginDown: round(my), Diagonal: round(g), MoveAcross: round(a), MoveDown: round(b),
		LeftAcross: round(l.x - l.c*a), LeftDown: round(l.y - l.r*b),
	}
	if l.Columns > 1 {
		w.GapAcross = round(g)
	}
	if l.Rows > 1 {
		w.GapDown = round(g)
	}
	return w
}

// evenly moves halves as far across as down, for one gap everywhere; the
// margins then differ across and down, and the narrower is as wide as the gap
// unless that is held.
func (l lattice) evenly(hold Hold) (Way, bool) {
	per := l.d / (l.w + l.h) // a for each unit of gap
	g := min(l.x/(l.c+1+l.c*per), l.y/(l.r+1+l.r*per))
	if hold.Gap != nil {
		g = float64(*hold.Gap)
	}
	a := g * per
	mx, my := (l.x-(l.c-1)*g-l.c*a)/2, (l.y-(l.r-1)*g-l.r*a)/2
	return l.whole("halves moved as far across as down, all gaps alike", mx, my, g, a, a), g > 0 && mx >= 0 && my >= 0
}

// squareToCut moves halves along the normal of their cut: a = g·h/d, b =
// g·w/d.
func (l lattice) squareToCut(hold Hold) ([]Way, error) {
	ax, by := l.h/l.d, l.w/l.d
	var g float64
	what := "square to the cut, all gaps and the narrower margins alike"
	switch {
	case hold.Gap != nil && hold.Margin != nil:
		return nil, fmt.Errorf("margin and gap are both held, and then nothing is open; hold one of them")
	case hold.Gap != nil:
		what, g = "square to the cut, gaps held", float64(*hold.Gap)
	case hold.Margin != nil:
		what = "square to the cut, the narrower margins held"
		m := float64(*hold.Margin)
		g = min((l.x-2*m)/(l.c-1+l.c*ax), (l.y-2*m)/(l.r-1+l.r*by))
	default:
		g = min(l.x/(l.c+1+l.c*ax), l.y/(l.r+1+l.r*by))
	}
	a, b := g*ax, g*by
	mx, my := (l.x-(l.c-1)*g-l.c*a)/2, (l.y-(l.r-1)*g-l.r*b)/2
	if g <= 0 || mx < -0.5 || my < -0.5 {
		return nil, l.nothingLeft(hold, min(mx, my), g, a, b)
	}
	return []Way{l.whole(what, mx, my, g, a, b)}, nil
}

// nothingLeft says how much is missing for halves that stay whole.
func (l lattice) nothingLeft(hold Hold, m, g, a, b float64) error {
	least := geometry.Inch / 32
	if l.Unit == geometry.Millimetres {
		least = geometry.Millimetre
	}
	if hold.Gap != nil {
		least = *hold.Gap
	}
	margin, held := geometry.Length(0), "no margins"
	if hold.Margin != nil {
		margin = *hold.Margin
		held = "margins of " + margin.Format(l.Unit)
	}
	// For that gap, moved as far across as down.
	move := float64(least) * l.d / (l.w + l.h)
	missing := func(left, n float64) geometry.Length {
		return round(2*float64(margin) + (n-1)*float64(least) + n*move - left)
	}
	across, down := missing(l.x, l.c), missing(l.y, l.r)
	leave := func(left float64) geometry.Length { return round(left) - 2*margin }
	if across <= 0 && down <= 0 { // there is room, but not for what is to be alike
		return fmt.Errorf("with %s, one gap everywhere would need halves moved by %s across and %s down, and one of these is below zero; hold the gap, or let the margins differ",
			held, round(a).Decimal(l.Unit, 5), round(b).Decimal(l.Unit, 5)+" "+l.Unit.String())
	}
	return fmt.Errorf("with %s, whole halves leave %s across and %s down for all gaps; for gaps of %s it is %s short across and %s down",
		held, leave(l.x).Format(l.Unit), leave(l.y).Format(l.Unit), least.Format(l.Unit), short(across, l.Unit), short(down, l.Unit))
}

// short writes how much is missing: nothing where there is enough.
func short(missing geometry.Length, unit geometry.Unit) string {
	if missing <= 0 {
		return "0 " + unit.String()
	}
	return missing.Decimal(unit, 5) + " " + unit.String()
}

func round(f float64) geometry.Length { return geometry.Length(math.Round(f)) }

func counted(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
