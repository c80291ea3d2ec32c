package fronts

import (
	"fmt"
	"strings"

	"panelry/geometry"
)

// A Brief is what a layout has to go by.
type Brief struct {
	Frame   geometry.Rect // the front without its margins, on the card
	Gap     geometry.Length
	Options Options
	Unit    geometry.Unit      // for the sentences of errors
	Shapes  []geometry.Outline // from the file that a File option names
	Ruler   geometry.Length    // pieces fall on its marks, where the layout can do so; 0 leaves them exact
}

// A Front is a divided frame. All outlines are placed on the card, with the
// card's top left at the origin.
type Front struct {
	Panels []Panel
	// Across and Down are the frame's sums, panels and gaps in turn. They add
	// up to the frame's width and height exactly. A layout that is no grid
	// in one of the two ways gives the whole frame as one term.
	Across, Down []Term
	Tree         *Node // how it was made, when it was made by straight splits
	// Slivers counts the narrow left-overs at the border that were merged with
	// a neighbour, and those that were left out.
	Slivers Slivers
	// Rounded says what became of gaps where pieces fall on the ruler.
	Rounded []Rounding
}

// Slivers counts what became of narrow left-overs.
type Slivers struct{ Merged, LeftOut int }

func (s *Slivers) add(t Slivers) { s.Merged, s.LeftOut = s.Merged+t.Merged, s.LeftOut+t.LeftOut }

// A Panel is one piece of the front.
type Panel struct {
	Name    string
	Outline geometry.Outline
	Role    int    // papers are given to roles 0, 1, 2 ... in turn
	Hand    string // "/" or "\" for a half of a cell, by its cut; else ""
}

// A Term is one length in a sum.
type Term struct {
	What   string // "panel" or "gap" (the margins are the card's: "margin")
	Length geometry.Length
}

// cellName returns a column's letters and a row's number: "A1", "AB12".
func cellName(column, row int) string {
	letters := ""
	for n := column; n >= 0; n = n/26 - 1 {
		letters = string(rune('A'+n%26)) + letters
	}
	return fmt.Sprintf("%s%d", letters, row+1)
}

// partName returns the small letters of part i of a cell: "a", "b", ... "aa".
func partName(i int) string {
	return strings.ToLower(strings.TrimSuffix(cellName(i, 0), "1"))
}

// LeastPanel is the narrowest a panel may be, either way. Common practice,
// no source: paper narrower than this cannot be picked up or glued.
const LeastPanel = geometry.Millimetre

// A TooSmallError says that a panel has less than [LeastPanel] left.
type TooSmallError struct {
	Panel string
	Size  geometry.Size // what is left; can be less than nothing
	Unit  geometry.Unit
	Try   string // what to change
}

func (e *TooSmallError) Error() string {
	found := "nothing is left of it"
	if e.Size.W > 0 && e.Size.H > 0 {
		found = fmt.Sprintf("only %s, and a panel needs %s each way", e.Size.Format(e.Unit), LeastPanel.Format(e.Unit))
	} else if e.Size != (geometry.Size{}) {
		short := min(e.Size.W, e.Size.H)
		found = fmt.Sprintf("nothing is left of it (it is %s short)", (LeastPanel - short).Format(e.Unit))
	}
	return fmt.Sprintf("panel %s: %s; %s", e.Panel, found, e.Try)
}

// checkSize refuses a panel that is too small to exist.
func checkSize(panel string, s geometry.Size, b Brief, try string) error {
	if s.W >= LeastPanel && s.H >= LeastPanel {
		return nil
	}
	return &TooSmallError{panel, s, b.Unit, try}
}
