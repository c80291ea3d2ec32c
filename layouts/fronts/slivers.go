package fronts

import "panelry/geometry"

// slivers is the option of layouts that the border cuts through.
var slivers = Option{
	Name: "slivers", Kind: Choice, Default: "merge", Words: []string{"merge", "leave out", "keep"},
	Help: "what becomes of pieces at the border narrower than 1/8 in",
}

// sliverBreadth is how narrow a piece at the border may get: under 1/8 in a
// piece wants a machine (trade-facts section 5, common practice, no source).
const sliverBreadth = geometry.Inch / 8

// isSliver reports whether a piece that the border has cut is too narrow.
func isSliver(o geometry.Outline) bool { return o.Breadth() < sliverBreadth }

// withoutSlivers takes the slivers out of a tree of splits, as the brief's
// option says. Merging undoes the cut that made a sliver: what lies beyond
// the cut is divided anew together with it, by the same lines.
func withoutSlivers(b Brief, root *Node) Slivers {
	var count Slivers
	if b.Options.Text("slivers") == "merge" {
		for root.graft(b.Frame, &count.Merged) {
		}
	}
	leaveOut := b.Options.Text("slivers") == "leave out"
	for _, leaf := range root.Leaves() {
		box := leaf.Outline.Bounds().Size()
		gone := min(box.W, box.H) < LeastPanel // too small to be kept
		if atBorder(leaf.Outline, b.Frame) && (gone || leaveOut && isSliver(leaf.Outline)) {
			leaf.leftOut = true
			count.LeftOut++
		}
	}
	return count
}

// graft undoes the first cut that has a sliver for a part, and reports
// whether there was one.
func (n *Node) graft(frame geometry.Rect, merged *int) bool {
	for i, part := range n.Parts {
		if part.Cut != nil {
			if part.graft(frame, merged) {
				return true
			}
			continue
		}
		if len(n.Parts) != 2 || !atBorder(part.Outline, frame) || !isSliver(part.Outline) {
			continue
		}
		other := n.Parts[1-i]
		n.Cut, n.Parts = nil, nil
		n.repeat(other)
		*merged++
		return true
	}
	return false
}

// repeat cuts a node as another one was cut.
func (n *Node) repeat(other *Node) {
	if other.Cut == nil {
		return
	}
	n.Split(*other.Cut)
	if n.Cut == nil {
		return
	}
	for i, part := range other.Parts {
		if i < len(n.Parts) {
			n.Parts[i].repeat(part)
		}
	}
}

// atBorder reports whether an outline touches the frame's border.
func atBorder(o geometry.Outline, frame geometry.Rect) bool {
	box := o.Bounds()
	return box.Min.X <= frame.Min.X || box.Min.Y <= frame.Min.Y || box.Max.X >= frame.Max.X || box.Max.Y >= frame.Max.Y
}
