package layouts

import (
	"panelry/geometry"
	"panelry/geometry/nesting"
	"panelry/layouts/cards"
	"panelry/layouts/fronts"
	"panelry/layouts/papers"
)

// A Kit is everything that follows from a design.
type Kit struct {
	Design   Design
	Card     Card
	Kinds    []Kind
	Sheets   []Sheet
	Stock    []PaperUse // what is used of each paper, in the design's order
	Totals   Totals
	Warnings []Warning

	dealt dealt
}

// A Card is one card: its base laid flat, and its front. Panels and frame
// have the closed front's top left as their origin, the base its own.
type Card struct {
	Size   geometry.Size
	Base   cards.Laid
	Frame  geometry.Rect
	Front  fronts.Front
	Panels []Panel
}

// A Panel is a panel of the front with the way its pattern runs.
type Panel struct {
	fronts.Panel
	PatternDegrees float64 // where the pattern's up points, clockwise from the card's up
	Kind           string  // on the first card
	Paper          string  // on the first card
}

// Sums are the lengths, margins and all, that make up the front across and
// down; they add up to its width and height to the nanometre.
func (c Card) Sums() (across, down []fronts.Term) {
	wrap := func(before geometry.Length, terms []fronts.Term, after geometry.Length) []fronts.Term {
		sum := append([]fronts.Term{{What: "margin", Length: before}}, terms...)
		return append(sum, fronts.Term{What: "margin", Length: after})
	}
	f := c.Frame
	return wrap(f.Min.X, c.Front.Across, c.Size.W-f.Max.X), wrap(f.Min.Y, c.Front.Down, c.Size.H-f.Max.Y)
}

// A Kind is what can stand for what: pieces of one paper, with one face up,
// whose patterns run one way, and of one shape within [KindTolerance].
type Kind struct {
	ID    string // "kelp-2": the paper, and which of its kinds
	Paper string
	Count int // in the whole batch
	// Outline is what is cut: the smallest of the kind, turned so that its
	// pattern runs as it does on an unturned sheet.
	Outline geometry.Outline
	Folds   []cards.Fold // of a base, placed like the outline
	Places  []string     // the panels of the first card, or "base", that it serves
	Tools   []Tool       // those that can cut it

	turns nesting.Turns
}

// KindTolerance is how much the outlines of one kind may differ: a tenth of
// the line that a knife cuts along. Interfaces, Names.
const KindTolerance = 10 * geometry.Micrometre

// A Piece is one piece of the batch where it lies on its sheet.
type Piece struct {
	ID      string // "07-A1a", "07-base", "S1-A1a" for a spare
	Card    int    // from 1; spare sets go on counting after the last card
	Panel   string // "base" for a base
	Kind    string
	Turn    float64 // from its place on the card to its place here, degrees clockwise
	Over    bool    // it must be turned over, sideways and before the turn, to go from the card to here
	Outline geometry.Outline
	Middle  geometry.Point // where a name goes: the middle of the piece; of a base, of its front
	Folds   []cards.Fold
	Print   []geometry.Outline // what is printed under it, out to its bleed; none without bleed
}

// A Sheet is one sheet with its pieces; its top left is the origin.
type Sheet struct {
	Number        int // across the kit, from 1
	Paper         papers.Paper
	Size          geometry.Size
	Scrap         geometry.Outline // of an offcut that is no oblong; none for others
	Edge, Spacing geometry.Length
	Bleed         geometry.Length
	Pieces        []Piece
	Marks         []geometry.Path // alignment marks of a printed sheet
}

// Printed reports whether the sheet has anything to print.
func (s Sheet) Printed() bool { return s.Bleed > 0 }

// UsedPercent returns the pieces' share of the whole sheet.
func (s Sheet) UsedPercent() float64 {
	var sum geometry.Area
	for _, p := range s.Pieces {
		sum = sum.Add(p.Outline.Area())
	}
	return 100 * sum.SquareMM() / s.area()
}

// area is a sheet's own, in sq. mm.
func (s Sheet) area() float64 {
	if len(s.Scrap.Outer) > 0 {
		return s.Scrap.Area().SquareMM()
	}
	return s.Size.W.In(geometry.Millimetres) * s.Size.H.In(geometry.Millimetres)
}

// PaperUse is what a kit takes of one paper.
type PaperUse struct {
	Paper       papers.Paper
	Sheets      int
	Pieces      int
	UsedPercent float64 // the pieces' share of all those sheets
	Least       int     // no layout takes fewer sheets; 0 where that is not known
	LeastName   string  // how that is known: "area"
	// New is how many of the sheets are not of the stock, and NewBound a number
	// that New cannot go below; both 0 when nothing is said of a stock.
	New, NewBound int
}

// Totals are the kit in numbers.
type Totals struct {
	Cards       int     `json:"cards"`
	Spares      int     `json:"spares"` // extra sets of panels
	Pieces      int     `json:"pieces"` // bases and spares included
	Kinds       int     `json:"kinds"`
	Sheets      int     `json:"sheets"`
	UsedPercent float64 `json:"used_percent"`
}
