package fronts

import (
	"slices"
	"strconv"

	"panelry/geometry"
)

// The stepped split: the front is split once, and one part once more the
// other way.
//
//	+------------+
//	|     1      |
//	+------------+
//	+----+ +-----+
//	| 2  | |  3  |
//	+----+ +-----+
func init() {
	Register(Layout{
		Name:    "stepped split",
		Summary: "one large panel, and two beside it that share the rest",
		Roles:   "the large panel first",
		Options: []Option{
			{Name: "large", Kind: Choice, Default: "top", Words: []string{"top", "bottom", "left", "right"}, Help: "the side that the large panel takes"},
			{Name: "share", Kind: Portion, Default: "3/5", Help: "how much of the front the large panel takes"},
			{Name: "step", Kind: Portion, Default: "2/5", Help: "how much of the rest the first of the two takes"},
		},
		Divide: divideStepped,
	})
}

func divideStepped(b Brief) (Front, error) {
	side := b.Options.Text("large")
	share, _ := b.Options.Share("share")
	step, _ := b.Options.Share("step")
	upright := side == "left" || side == "right" // the first cut
	root := &Node{Outline: b.Frame.Outline()}
	whole, across := b.Frame.H(), b.Frame.W()
	if upright {
		whole, across = across, whole
	}
	large := share.Of(whole - b.Gap)
	first := []geometry.Length{large, whole - b.Gap - large}
	if side == "bottom" || side == "right" {
		first[0], first[1] = first[1], first[0]
	}
	one := step.Of(across - b.Gap)
	second := []geometry.Length{one, across - b.Gap - one}
	for i, length := range append(first, second...) {
		if err := checkSize(strconv.Itoa(i%3+1), geometry.Size{W: length, H: length}, b, tryStepped); err != nil {
			return Front{}, err
		}
	}
	splitAlong(root, b, first, upright)
	parts := root.Leaves()
	sortByCorner(parts)
	rest := parts[len(parts)-1]
	if side == "bottom" || side == "right" {
		rest = parts[0]
	}
	splitAlong(rest, Brief{Frame: rest.Outline.Bounds(), Gap: b.Gap}, second, !upright)
	return steppedFront(b, root, rest)
}

// tryStepped is what to change when a panel comes out too small.
const tryStepped = "use a smaller gap or margin, or other shares"

// steppedFront names the large panel 1, and the others after it.
func steppedFront(b Brief, root, rest *Node) (Front, error) {
	front := Front{Tree: root, Across: terms([]geometry.Length{b.Frame.W()}, 0), Down: terms([]geometry.Length{b.Frame.H()}, 0)}
	var leaves []*Node
	for _, leaf := range root.Leaves() {
		if leaf != rest && !slices.Contains(rest.Parts, leaf) {
			leaves = append(leaves, leaf)
		}
	}
	small := rest.Leaves()
	sortByCorner(small)
	leaves = append(leaves, small...)
	var err error
	front.Panels, err = panels(b, leaves, tryStepped, func(i int, _ *Node) Panel {
		return Panel{Name: strconv.Itoa(i + 1), Role: i}
	})
	return front, err
}
