package fronts

import (
	"strconv"

	"panelry/geometry"
)

// The log cabin: a middle, and strips laid round it one after the other,
// always turning the same way. Courthouse steps have the strips laid in
// opposite pairs instead. Panels are counted outwards from the middle, in the
// order in which they are laid.
//
//	+-------------+   +-------------+
//	|      5      |   |      4      |
//	+--+-------+--+   +--+-------+--+
//	|  |   1   |  |   |  |   1   |  |
//	|4 +-------+2 |   |2 +-------+3 |
//	|  +-------+--+   +--+-------+--+
//	+--+     3    |   |      5      |
//	log cabin         courthouse steps
func init() {
	options := []Option{
		{Name: "rounds", Kind: Count, Default: 2, Most: 8, Help: "how often the strips go round"},
		{Name: "middle", Kind: Portion, Default: "1/3", Help: "the middle's share of the shorter side"},
	}
	Register(Layout{
		Name:    "log cabin",
		Summary: "a middle with strips laid round it, always turning the same way",
		Roles:   "the middle, then two light sides and two dark ones",
		Options: options,
		Divide: func(b Brief) (Front, error) {
			return divideCabin(b, []string{"right", "bottom", "left", "top"}, []int{1, 1, 2, 2})
		},
	})
	Register(Layout{
		Name:    "courthouse steps",
		Summary: "a middle with strips laid round it in opposite pairs",
		Roles:   "the middle, then the strips left and right, then those above and below",
		Options: options,
		Divide: func(b Brief) (Front, error) {
			return divideCabin(b, []string{"left", "right", "top", "bottom"}, []int{1, 1, 2, 2})
		},
	})
}

// divideCabin takes the strips off from the outside, the last laid first.
// All strips are equally broad; the middle takes what is left.
func divideCabin(b Brief, laid []string, roles []int) (Front, error) {
	rounds := b.Options.Count("rounds")
	share, _ := b.Options.Share("middle")
	short := min(b.Frame.W(), b.Frame.H())
	breadth := (short-share.Of(short))/geometry.Length(2*rounds) - b.Gap
	const try = "use a smaller gap or margin, fewer rounds or a smaller middle"
	if err := checkSize(strconv.Itoa(4*rounds+1), geometry.Size{W: breadth, H: short}, b, try); err != nil {
		return Front{}, err
	}
	root := &Node{Outline: b.Frame.Outline()}
	rest := root
	order := make([]*Node, 4*rounds+1)
	for k := 4 * rounds; k > 0; k-- {
		order[k], rest = takeStrip(b, rest, laid[(k-1)%4], breadth)
	}
	order[0] = rest
	front := Front{Tree: root, Across: cabinTerms(b.Frame.W(), breadth, b.Gap, rounds), Down: cabinTerms(b.Frame.H(), breadth, b.Gap, rounds)}
	var err error
	front.Panels, err = panels(b, order, try, func(i int, _ *Node) Panel {
		role := 0
		if i > 0 {
			role = roles[(i-1)%4]
		}
		return Panel{Name: strconv.Itoa(i + 1), Role: role}
	})
	return front, err
}

// takeStrip cuts a strip off one side and returns it and the rest.
func takeStrip(b Brief, n *Node, side string, breadth geometry.Length) (strip, rest *Node) {
	box := n.Outline.Bounds()
	upright := side == "left" || side == "right"
	length := box.H()
	if upright {
		length = box.W()
	}
	lengths := []geometry.Length{breadth, length - b.Gap - breadth}
	last := side == "right" || side == "bottom"
	if last {
		lengths[0], lengths[1] = lengths[1], lengths[0]
	}
	splitAlong(n, Brief{Frame: box, Gap: b.Gap}, lengths, upright)
	parts := n.Leaves()
	sortByCorner(parts)
	if last {
		return parts[len(parts)-1], parts[0]
	}
	return parts[0], parts[len(parts)-1]
}

// cabinTerms is the sum through the middle.
func cabinTerms(whole, breadth, gap geometry.Length, rounds int) []Term {
	var lengths []geometry.Length
	for range rounds {
		lengths = append(lengths, breadth)
	}
	lengths = append(lengths, whole-geometry.Length(2*rounds)*(breadth+gap))
	for range rounds {
		lengths = append(lengths, breadth)
	}
	return terms(lengths, gap)
}
