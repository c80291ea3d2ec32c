package fronts

import "panelry/geometry"

// The hourglass: a grid whose cells are each cut on both diagonals into four
// triangles; opposite ones share a paper. The triangles of a cell are named
// in reading order: a at the top, b left, c right, d at the bottom.
//
//	\  a  /
//	 \   /
//	b  X  c
//	 /   \
//	/  d  \
func init() {
	Register(Layout{
		Name:    "hourglass",
		Summary: "a grid whose cells are cut on both diagonals",
		Roles:   "top and bottom triangles, then left and right ones",
		Options: nearlySquare,
		Divide:  divideHourglass,
	})
}

func divideHourglass(b Brief) (Front, error) {
	b = withCounts(b, 2)
	cells, front, err := cells(b.exact())
	if err != nil {
		return Front{}, err
	}
	for _, c := range cells {
		box := c.Outline.Bounds()
		corners := box.Outline().Outer.Points()
		cut := Cut{geometry.Line{A: corners[0], B: corners[2]}, evenGap(b)}
		c.Split(cut)
		c.SplitAll(Cut{geometry.Line{A: corners[3], B: corners[1]}, evenGap(b)})
		parts, err := cellParts(b, c, 4, tryCells)
		if err != nil {
			return Front{}, err
		}
		front.Panels = append(front.Panels, partPanels(c, parts, func(i int) int {
			if i == 0 || i == 3 {
				return 0
			}
			return 1
		})...)
	}
	return front, nil
}

// evenGap returns the gap for a slanted cut whose two parts must be alike: an
// odd gap gets a nanometre more.
func evenGap(b Brief) geometry.Length { return b.Gap + b.Gap%2 }

// cellParts returns a cell's parts in reading order, named; there must be as
// many as wanted, none too small.
func cellParts(b Brief, c cell, want int, try string) ([]*Node, error) {
	parts := c.Leaves()
	if len(parts) != want {
		return nil, checkSize(c.name()+"a", geometry.Size{}, b, try)
	}
	sortByReading(parts)
	for k, part := range parts {
		part.Panel = c.name() + partName(k)
		if err := checkSize(part.Panel, part.Outline.Bounds().Size(), b, try); err != nil {
			return nil, err
		}
	}
	return parts, nil
}

// partPanels returns a cell's parts as panels.
func partPanels(c cell, parts []*Node, role func(i int) int) []Panel {
	out := make([]Panel, len(parts))
	for i, part := range parts {
		out[i] = Panel{Name: part.Panel, Outline: part.Outline, Role: role(i)}
	}
	return out
}
