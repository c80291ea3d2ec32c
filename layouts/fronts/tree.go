package fronts

import (
	"slices"

	"panelry/geometry"
)

// A Node is a part of the frame while it is being divided. A node that was
// cut has parts; one that was not is a panel, and named.
type Node struct {
	Outline geometry.Outline
	Cut     *Cut
	Parts   []*Node
	Panel   string

	leftOut bool // a sliver that is no panel
}

// A Cut is a straight split: a strip as wide as the gap, centred on the
// line, is taken away.
type Cut struct {
	Line geometry.Line
	Gap  geometry.Length
}

// Split cuts a node that was not cut yet. A cut that misses it, or only
// grazes it by less than rounding, leaves it as it is.
func (n *Node) Split(c Cut) {
	parts := geometry.SplitAll([]geometry.Outline{n.Outline}, c.Line, c.Gap)
	if len(parts) == 1 && grazed(n.Outline, parts[0]) {
		return
	}
	n.Cut = &c
	for _, o := range parts {
		n.Parts = append(n.Parts, &Node{Outline: o})
	}
}

// grazed reports whether a part is the whole but for a few nanometres along
// its border.
func grazed(whole, part geometry.Outline) bool {
	lost := whole.Area().Sub(part.Area())
	return lost.Sign() == 0 || lost.SquareMM() < whole.Perimeter()/1e6*4e-6
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

// sortByReading puts nodes in reading order.
func sortByReading(nodes []*Node) {
	slices.SortStableFunc(nodes, func(a, b *Node) int { return compareReading(a.Outline, b.Outline) })
}

// panels names a tree's leaves in the order given and returns them as panels;
// name returns each one's panel but for its outline. A leaf that is too small
// to exist is an error, unless it was left out as a sliver.
func panels(b Brief, leaves []*Node, try string, name func(i int, leaf *Node) Panel) ([]Panel, error) {
	var out []Panel
	for i, leaf := range leaves {
		if leaf.leftOut {
			continue
		}
		p := name(i, leaf)
		if err := checkSize(p.Name, leaf.Outline.Bounds().Size(), b, try); err != nil {
			return nil, err
		}
		leaf.Panel, p.Outline = p.Name, leaf.Outline
		out = append(out, p)
	}
	return out, nil
}
