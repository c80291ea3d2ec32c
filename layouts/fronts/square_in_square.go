package fronts

import "panelry/geometry"

// The square in a square: in each cell the middles of the sides are joined,
// which makes a diamond and four corners. In a cell the corners are a, b, d
// and e, and the diamond is c.
//
//	+----/\----+
//	| a /  \ b |
//	|  /    \  |
//	| <   c  > |
//	|  \    /  |
//	| d \  / e |
//	+----\/----+
func init() {
	Register(Layout{
		Name:    "square in a square",
		Summary: "in each cell a diamond between the middles of the sides, and four corners",
		Roles:   "the diamonds, then the corners",
		Options: nearlySquare,
		Divide:  divideSquareInSquare,
	})
}

func divideSquareInSquare(b Brief) (Front, error) {
	cells, front, err := cells(withCounts(b, 1))
	if err != nil {
		return Front{}, err
	}
	for _, c := range cells {
		box := c.Outline.Bounds()
		middle := box.Centre()
		middles := []geometry.Point{
			{X: middle.X, Y: box.Min.Y}, {X: box.Max.X, Y: middle.Y},
			{X: middle.X, Y: box.Max.Y}, {X: box.Min.X, Y: middle.Y},
		}
		rest := c.Node
		for i, p := range middles {
			rest.Split(Cut{geometry.Line{A: p, B: middles[(i+1)%4]}, evenGap(b)})
			if len(rest.Parts) != 2 {
				return Front{}, checkSize(c.name()+"c", geometry.Size{}, b, tryCells)
			}
			rest = rest.Parts[1] // the lines run clockwise, so what is left lies on the right hand
		}
		parts, err := cellParts(b, c, 5, tryCells)
		if err != nil {
			return Front{}, err
		}
		front.Panels = append(front.Panels, partPanels(c, parts, func(i int) int {
			if i == 2 {
				return 0
			}
			return 1
		})...)
	}
	return front, nil
}
