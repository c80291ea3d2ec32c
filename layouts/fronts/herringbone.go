package fronts

import (
	"math"

	"panelry/geometry"
)

// The herringbone: bricks twice as long as broad, the end of each against the
// side of its neighbour, straight or turned by 45 degrees. Panels are
// numbered in reading order.
//
//	+----+-+----
//	|    | |
//	+-+--+ +----
//	| |  | |
//	| +--+-+--+-
//	| |    |  |
func init() {
	Register(Layout{
		Name:    "herringbone",
		Summary: "bricks set end against side",
		Roles:   "bricks that lie one way, then those that lie the other",
		Options: []Option{
			{Name: "lie", Kind: Choice, Default: "aslant", Words: []string{"aslant", "straight"}, Help: "aslant, at 45 degrees, or straight"},
			{Name: "bricks", Kind: Count, Least: 2, Most: 30, Help: "how many brick breadths go along the shorter side; left out: 5, or fewer on a long card"},
			slivers,
		},
		Divide: divideHerringbone,
	})
}

func divideHerringbone(b Brief) (Front, error) {
	short, long := float64(min(b.Frame.W(), b.Frame.H())), float64(max(b.Frame.W(), b.Frame.H()))
	bricks := b.Options.Count("bricks")
	if bricks == 0 {
		bricks = max(3, min(5, int(math.Round(7*math.Sqrt(short/long)))))
	}
	unit := short / float64(bricks)
	middle := b.Frame.Centre()
	sin, cos := 0.0, 1.0
	if b.Options.Text("lie") == "aslant" {
		sin = math.Sqrt2 / 2
		cos = sin
	}
	// Corners lie at whole units from the middle of the frame.
	at := func(i, j int) geometry.Point {
		x, y := float64(i)*unit, float64(j)*unit
		return geometry.Point{
			X: middle.X + geometry.Length(math.Round(x*cos-y*sin)),
			Y: middle.Y + geometry.Length(math.Round(x*sin+y*cos)),
		}
	}
	oblong := func(i, j, w, h int) geometry.Outline {
		// The corners of neighbours stand on the middles of long sides.
		return geometry.OutlineFromPoints(at(i, j), at(i+w, j), at(i+w, j+h), at(i, j+h))
	}
	far := int(math.Ceil(math.Hypot(float64(b.Frame.W()), float64(b.Frame.H()))/2/unit)) + 3
	var cells []Cell
	// A level brick at (k, k) and an upright one below its left end make a
	// step; steps go on down the diagonal, and stand 4 units apart.
	for k := -2 * far; k <= 2*far; k++ {
		for m := -far; m <= far; m++ {
			i, j := k+4*m, k
			if abs(i) > far+2 || abs(j) > far+2 {
				continue
			}
			cells = append(cells,
				Cell{Outline: oblong(i, j, 2, 1), Role: 0},
				Cell{Outline: oblong(i, j+1, 1, 2), Role: 1})
		}
	}
	return frontFromCells(b, cells, "use a smaller gap or margin, or fewer bricks")
}

func abs(n int) int { return max(n, -n) }
