package layouts

import (
	"fmt"

	"panelry/geometry"
	"panelry/layouts/cards"
)

// An Aid helps to put panels in place: a jig, a strip, marks on the base. It
// is cut like any other piece, from a scrap of card of the given size.
type Aid struct {
	Name   string // "jig-1-right-hand"
	Title  string
	Use    string // what to do with it
	Size   geometry.Size
	Cuts   []geometry.Outline
	Folds  []cards.Fold
	Prints []geometry.Path // printed, or scored as lightly as can be
}

// The measures of aids: our own choices, not from a source.
const (
	aidEdge   = geometry.Inch / 4           // around each aid
	jigFlap   = 15 * geometry.Millimetre    // folds down over the card's edges
	jigRim    = 12 * geometry.Millimetre    // beyond the other two edges
	jigBar    = 4 * geometry.Millimetre     // the least card between two windows
	jigPlay   = 200 * geometry.Micrometre   // that a panel has in its window, all round
	jigMargin = 1 * geometry.Millimetre     // the least between a window and a flap
	jigWindow = 5 * geometry.Millimetre     // the narrowest window
	mostJigs  = 4                           // for one hand
	thinStrip = geometry.Millimetre * 4 / 5 // the narrowest strip that can be cut
)

// Aids returns a kit's placing aids, and says which there cannot be and why.
func (k Kit) Aids() (aids []Aid, notes []string) {
	aids = append(aids, k.tickAid())
	jigs, note := k.jigs()
	aids = append(aids, jigs...)
	if note != "" {
		notes = append(notes, note)
	}
	if strips, ok := k.spacers(); ok {
		aids = append(aids, strips)
	} else {
		notes = append(notes, "There is no spacer strip: panels touch, or the gap is too narrow to cut a strip.")
	}
	return aids, notes
}

// tickAid is the base with corner ticks on its front.
func (k Kit) tickAid() Aid {
	laid := k.Card.Base
	by := geometry.Vector{X: aidEdge, Y: aidEdge}
	a := Aid{
		Name: "base-ticks", Title: "Base with corner ticks",
		Use:  "Use it in place of the plain base, if you like: print the ticks, or score them as lightly as can be. A panel in its place hides its own ticks.",
		Size: withEdge(laid.Outline.Bounds().Size()),
		Cuts: []geometry.Outline{laid.Outline.Moved(by)},
	}
	for _, f := range laid.Folds {
		a.Folds = append(a.Folds, cards.Fold{Line: f.Line.Moved(by), Kind: f.Kind})
	}
	for _, t := range k.Ticks() {
		a.Prints = append(a.Prints, t.Moved(laid.Front.Min.Sub(geometry.Point{})).Moved(by))
	}
	return a
}

func withEdge(s geometry.Size) geometry.Size {
	return geometry.Size{W: s.W + 2*aidEdge, H: s.H + 2*aidEdge}
}

// jigs are frames that hook over two edges of the card, with windows for
// panels: as many as it takes to leave enough card between the windows, each
// for the right and for the left hand.
func (k Kit) jigs() ([]Aid, string) {
	f, size := k.Card.Frame, k.Card.Size
	if least := min(f.Min.X, f.Min.Y, size.W-f.Max.X, size.H-f.Max.Y); least < jigMargin+jigPlay {
		return nil, fmt.Sprintf("There is no jig: it wants a margin of %s or more. Use the corner ticks.", (jigMargin + jigPlay).Format(geometry.Millimetres))
	}
	var sets [][]geometry.Outline
	left := 0
	for _, p := range k.Card.Panels {
		if !addWindow(&sets, p.Outline) {
			left++
		}
	}
	if len(sets) == 0 {
		return nil, "There is no jig: the panels are too narrow for windows."
	}
	note := ""
	if left > 0 {
		note = fmt.Sprintf("%d of %d panels have no window in a jig: too narrow, or too many close together.", left, len(k.Card.Panels))
	}
	var aids []Aid
	for i, windows := range sets {
		for _, hand := range []string{"right", "left"} {
			aids = append(aids, k.jig(i+1, len(sets), hand, windows))
		}
	}
	return aids, note
}

// addWindow gives a panel its window in the first set that has room for it.
func addWindow(sets *[][]geometry.Outline, o geometry.Outline) bool {
	if o.Breadth() < jigWindow {
		return false
	}
	grown, err := o.Offset(jigPlay, 4)
	if err != nil || len(grown) != 1 {
		return false
	}
	window := geometry.OutlineFromRing(grown[0].Outer)
	for i, set := range *sets {
		if roomIn(set, window) {
			(*sets)[i] = append(set, window)
			return true
		}
	}
	if len(*sets) == mostJigs {
		return false
	}
	*sets = append(*sets, []geometry.Outline{window})
	return true
}

func roomIn(set []geometry.Outline, window geometry.Outline) bool {
	for _, other := range set {
		if !geometry.Apart(other, window, jigBar) {
			return false
		}
	}
	return true
}

// jig is one frame. Its flaps fold down over the card's top edge and, for a
// right hand, its left edge; for a left hand its right edge, so that the hand
// comes in from its own side.
func (k Kit) jig(n, of int, hand string, windows []geometry.Outline) Aid {
	w, h := k.Card.Size.W, k.Card.Size.H
	p := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }
	corners := []geometry.Point{p(0, -jigFlap), p(w+jigRim, -jigFlap), p(w+jigRim, h+jigRim), p(-jigFlap, h+jigRim), p(-jigFlap, 0), p(0, 0)}
	folds := [][2]geometry.Point{{p(0, 0), p(w+jigRim, 0)}, {p(0, 0), p(0, h+jigRim)}}
	by := geometry.Vector{X: aidEdge + jigFlap, Y: aidEdge + jigFlap}
	edges := "left"
	if hand == "left" {
		edges = "right"
		by.X = aidEdge + jigRim
		flip := func(q geometry.Point) geometry.Point { return p(w-q.X, q.Y) }
		var flipped []geometry.Point
		for i := range corners { // the other way round, so that it still runs clockwise
			flipped = append(flipped, flip(corners[len(corners)-1-i]))
		}
		corners = flipped
		for i, f := range folds {
			folds[i] = [2]geometry.Point{flip(f[0]), flip(f[1])}
		}
	}
	outline := geometry.OutlineFromPoints(corners...)
	for _, window := range windows {
		outline.Holes = append(outline.Holes, window.Outer.Reversed())
	}
	a := Aid{
		Name:  fmt.Sprintf("jig-%d-%s-hand", n, hand),
		Title: fmt.Sprintf("Placing jig %d of %d, %s hand", n, of, hand),
		Use: fmt.Sprintf("Cut it from scrap card. Score and fold the two flaps down, hook them over the card's top and %s edges, "+
			"glue a panel, and lay it in its window. Lift the jig before the glue sets.", edges),
		Size: withEdge(outline.Bounds().Size()),
		Cuts: []geometry.Outline{outline.Moved(by)},
	}
	for _, f := range folds {
		a.Folds = append(a.Folds, cards.Fold{Line: geometry.PathFromPoints(f[0].Add(by), f[1].Add(by)), Kind: cards.Mountain})
	}
	return a
}

// spacers are strips as wide as the gap and the margin.
func (k Kit) spacers() (Aid, bool) {
	gap, margin := k.Design.Front.Gap, k.Design.Front.Margin
	if gap < thinStrip {
		return Aid{}, false
	}
	long := max(k.Card.Size.W, k.Card.Size.H)
	a := Aid{Name: "spacers", Title: "Spacer strips: as wide as the gap"}
	strip := func(y, width geometry.Length) {
		a.Cuts = append(a.Cuts, geometry.RectFromSize(geometry.Point{X: aidEdge, Y: y}, geometry.Size{W: long, H: width}).Outline())
	}
	strip(aidEdge, gap)
	foot := aidEdge + gap
	a.Use = fmt.Sprintf("Lay the strip, %s wide, between a panel that lies already and the next one.", k.Design.BothUnits(gap))
	if margin >= thinStrip && margin != gap {
		strip(foot+aidEdge, margin)
		foot += aidEdge + margin
		a.Title += " and as the margin"
		a.Use += fmt.Sprintf(" The other one, %s wide, goes along the card's edge.", k.Design.BothUnits(margin))
	}
	a.Size = geometry.Size{W: long + 2*aidEdge, H: foot + aidEdge}
	return a, true
}
