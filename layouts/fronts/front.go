package fronts

import (
	"fmt"
	"slices"
	"strings"

	"panelry/geometry"
)

// A Brief is what a layout has to go by.
type Brief struct {
	Frame   geometry.Rect // the front without its margins, on the card
	Gap     geometry.Length
	Options Options
	Unit    geometry.Unit // for the sentences of errors
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
}

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

// A Node is a part of the frame while it is being divided. A node that was
// cut has parts; one that was not is a panel, and named.
type Node struct {
	Outline geometry.Outline
	Cut     *Cut
	Parts   []*Node
	Panel   string
}

// A Cut is a straight split: a strip as wide as the gap, centred on the
// line, is taken away.
type Cut struct {
	Line geometry.Line
	Gap  geometry.Length
}

// Split cuts a node that was not cut yet. A cut that misses it leaves it as
// it is.
func (n *Node) Split(c Cut) {
	parts := geometry.SplitAll([]geometry.Outline{n.Outline}, c.Line, c.Gap)
	if len(parts) == 1 && parts[0].Area() == n.Outline.Area() {
		return
	}
	n.Cut = &c
	for _, o := range parts {
		n.Parts = append(n.Parts, &Node{Outline: o})
	}
}

// SplitAll cuts all of the node's leaves: for lines that are fixed in the
// frame.
func (n *Node) SplitAll(c Cut) {
	for _, leaf := range n.Leaves() {
		if !misses(c, leaf.Outline.Bounds()) {
			leaf.Split(c)
		}
	}
}

// misses reports whether the whole box, and so what is in it, lies on one
// hand of the line and further from it than the gap reaches.
func misses(c Cut, box geometry.Rect) bool {
	left, right, top, bottom := box.Min.X-c.Gap, box.Max.X+c.Gap, box.Min.Y-c.Gap, box.Max.Y+c.Gap
	side := c.Line.Side(geometry.Point{X: left, Y: top})
	return side != 0 &&
		side == c.Line.Side(geometry.Point{X: right, Y: top}) &&
		side == c.Line.Side(geometry.Point{X: right, Y: bottom}) &&
		side == c.Line.Side(geometry.Point{X: left, Y: bottom})
}

// Leaves returns what the node has been cut into so far; itself, if nothing.
func (n *Node) Leaves() []*Node { return n.appendLeaves(nil) }

func (n *Node) appendLeaves(leaves []*Node) []*Node {
	if n.Cut == nil {
		return append(leaves, n)
	}
	for _, part := range n.Parts {
		leaves = part.appendLeaves(leaves)
	}
	return leaves
}

// sortByReading puts nodes in reading order of their centres: from the top
// down, and from the left on one level. Levels closer than a micrometre are
// one, since centres are rounded.
func sortByReading(nodes []*Node) {
	level := func(n *Node) geometry.Length {
		return (n.Outline.Centre().Y + geometry.Micrometre/2) / geometry.Micrometre
	}
	slices.SortStableFunc(nodes, func(a, b *Node) int {
		if la, lb := level(a), level(b); la != lb {
			return int(min(1, max(-1, la-lb)))
		}
		return int(min(1, max(-1, a.Outline.Centre().X-b.Outline.Centre().X)))
	})
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
