package fronts

import "panelry/geometry"

// The rail fence: square cells of parallel strips, every second cell turned
// by a quarter. The basketweave is the same with two strips a cell, and its
// papers change with the way that the strips run.
//
//	| | | ======
//	| | | ======
//	| | | ======
//	====== | | |
//	====== | | |
//	====== | | |
func init() {
	Register(Layout{
		Name:    "rail fence",
		Summary: "cells of parallel strips, every second cell turned by a quarter",
		Roles:   "strip by strip in each cell",
		Options: append([]Option{{Name: "strips", Kind: Count, Default: 3, Least: 2, Most: 8, Help: "how many strips a cell has"}}, nearlySquare...),
		Divide: func(b Brief) (Front, error) {
			return divideRails(b, b.Options.Count("strips"), func(strip int, _ bool) int { return strip })
		},
	})
	Register(Layout{
		Name:    "basketweave",
		Summary: "cells of two strips, every second cell turned by a quarter",
		Roles:   "upright strips, then level ones",
		Options: nearlySquare,
		Divide: func(b Brief) (Front, error) {
			return divideRails(b, 2, func(_ int, upright bool) int {
				if upright {
					return 0
				}
				return 1
			})
		},
	})
}

func divideRails(b Brief, strips int, role func(strip int, upright bool) int) (Front, error) {
	cells, front, err := cells(withCounts(b, 2))
	if err != nil {
		return Front{}, err
	}
	for _, c := range cells {
		upright := (c.column+c.row)%2 == 0
		box := c.Outline.Bounds()
		length := box.H()
		if upright {
			length = box.W()
		}
		lengths := shareOut(length, b.Gap, strips)
		if leastShare(length, b.Gap, strips) < LeastPanel {
			return Front{}, checkSize(c.name()+"a", geometry.Size{W: leastShare(length, b.Gap, strips), H: LeastPanel}, b, "use a smaller gap, or fewer cells or strips")
		}
		splitAlong(c.Node, Brief{Frame: box, Gap: b.Gap}, lengths, upright)
		parts, err := cellParts(b, c, strips, "use a smaller gap, or fewer cells or strips")
		if err != nil {
			return Front{}, err
		}
		front.Panels = append(front.Panels, partPanels(c, parts, func(i int) int { return role(i, upright) })...)
	}
	return front, nil
}
