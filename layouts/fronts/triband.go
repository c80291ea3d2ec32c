package fronts

import (
	"strconv"

	"panelry/geometry"
)

// The tri-band: three bands, the middle one twice as broad as the others.
//
//	+------------+
//	+------------+
//	+------------+
//	|            |
//	+------------+
//	+------------+
//	+------------+
func init() {
	Register(Layout{
		Name:    "tri-band",
		Summary: "three bands, the middle one twice as broad as the others",
		Roles:   "the outer bands, then the middle one",
		Options: []Option{
			{Name: "run", Kind: Choice, Default: "level", Words: []string{"level", "upright"}, Help: "which way the bands run"},
			{Name: "middle", Kind: Portion, Default: "half", Help: "the middle band's share of the whole"},
		},
		Divide: divideTriband,
	})
}

func divideTriband(b Brief) (Front, error) {
	upright := b.Options.Text("run") == "upright"
	whole := b.Frame.H()
	if upright {
		whole = b.Frame.W()
	}
	middle, _ := b.Options.Share("middle")
	// The outer bands are alike to the nanometre; the middle one has the rest.
	outer := (whole - 2*b.Gap - middle.Of(whole-2*b.Gap)) / 2
	lengths := []geometry.Length{outer, whole - 2*b.Gap - 2*outer, outer}
	return bands(b, lengths, upright, func(i int) int { return i % 2 })
}

// bands divides the frame into parallel bands, named by number.
func bands(b Brief, lengths []geometry.Length, upright bool, role func(i int) int) (Front, error) {
	for i, length := range lengths {
		size := geometry.Size{W: length, H: b.Frame.H()}
		if !upright {
			size = geometry.Size{W: b.Frame.W(), H: length}
		}
		if err := checkSize(strconv.Itoa(i+1), size, b, tryStrips); err != nil {
			return Front{}, err
		}
	}
	root := &Node{Outline: b.Frame.Outline()}
	splitAlong(root, b, lengths, upright)
	front := Front{Tree: root, Across: terms(lengths, b.Gap), Down: terms([]geometry.Length{b.Frame.H()}, 0)}
	if !upright {
		front.Across, front.Down = terms([]geometry.Length{b.Frame.W()}, 0), terms(lengths, b.Gap)
	}
	leaves := root.Leaves()
	sortByCorner(leaves)
	var err error
	front.Panels, err = panels(b, leaves, tryStrips, func(i int, _ *Node) Panel {
		return Panel{Name: strconv.Itoa(i + 1), Role: role(i)}
	})
	return front, err
}
