package fronts

import (
	"math"

	"panelry/geometry"
)

// The honeycomb: regular hexagons, cut off by the front. With side a, a
// hexagon is 1.73205 a from side to side and 2 a from point to point. They
// are fitted between the frame's left and right (points up) so that every
// second row begins with a half. Panels are numbered in reading order.
//
//	 / \ / \ / \
//	|   |   |   |
//	 \ / \ / \ /
//	  |   |   |
func init() {
	Register(Layout{
		Name:    "honeycomb",
		Summary: "regular hexagons, cut off by the front",
		Roles:   "three in turn, so that no two of one paper touch",
		Options: []Option{
			{Name: "columns", Kind: Count, Help: "how many hexagons stand side by side; left out: 4, or more on a broad card"},
			slivers,
		},
		Divide: divideHoneycomb,
	})
}

func divideHoneycomb(b Brief) (Front, error) {
	columns := b.Options.Count("columns")
	if columns == 0 {
		columns = max(3, min(9, int(math.Round(4*math.Sqrt(float64(b.Frame.W())/float64(b.Frame.H()))))))
	}
	// Corners lie at half widths across and half sides down, from the middle
	// of the frame.
	side := float64(b.Frame.W()) / float64(columns) / math.Sqrt(3)
	middle := b.Frame.Centre().Y
	at := func(i, j int) geometry.Point {
		return geometry.Point{
			X: b.Frame.Min.X + scaled(b.Frame.W(), i, 2*columns),
			Y: middle + geometry.Length(math.Round(float64(j)*side/2)),
		}
	}
	rows := int(math.Ceil(float64(b.Frame.H())/2/(1.5*side))) + 1
	var cells []Cell
	for r := -rows; r <= rows; r++ {
		odd := r & 1
		for c := -1; c <= columns; c++ {
			i, j := 2*c+1+odd, 3*r // the middle of the hexagon
			cells = append(cells, Cell{
				Outline: geometry.OutlineFromPoints(at(i, j-2), at(i+1, j-1), at(i+1, j+1), at(i, j+2), at(i-1, j+1), at(i-1, j-1)),
				// Along a row roles go up by 1; every second row is 2 on, so that both
				// hexagons above and below a side have others.
				Role: mod(c+2*odd, 3),
			})
		}
	}
	return frontFromCells(b, cells, "use a smaller gap or margin, or fewer columns")
}

// mod returns a modulo n, from 0 up.
func mod(a, n int) int { return ((a % n) + n) % n }
