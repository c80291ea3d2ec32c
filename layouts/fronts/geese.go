package fronts

import "panelry/geometry"

// Flying geese: units twice as broad as high, each a large triangle between
// two small ones, all flying one way. A unit's large triangle is named by its
// cell and the letter that its centre's place gives.
//
//	+-----/\-----+
//	|   /    \   |
//	| /        \ |
//	+------------+
func init() {
	Register(Layout{
		Name:    "flying geese",
		Summary: "rows of large triangles between small ones, all flying one way",
		Roles:   "the large triangles, then the small ones",
		Options: []Option{
			{Name: "fly", Kind: Choice, Default: "up", Words: []string{"up", "down", "left", "right"}, Help: "the way that the tips point"},
			{Name: "flocks", Kind: Count, Default: 2, Most: 12, Help: "how many rows of geese fly side by side"},
			{Name: "geese", Kind: Count, Help: "how many geese a row has; left out: as many as make them twice as broad as long, up to 9"},
		},
		Divide: divideGeese,
	})
}

func divideGeese(b Brief) (Front, error) {
	fly, flocks, geese := b.Options.Text("fly"), b.Options.Count("flocks"), b.Options.Count("geese")
	across, along := b.Frame.W(), b.Frame.H()
	if fly == "left" || fly == "right" {
		across, along = along, across
	}
	if geese == 0 {
		geese = min(9, clampCount(2*float64(along)*float64(flocks)/float64(across)))
	}
	counts := Options{"columns": flocks, "rows": geese}
	if fly == "left" || fly == "right" {
		counts = Options{"columns": geese, "rows": flocks}
	}
	const try = "use a smaller gap or margin, or fewer geese or flocks"
	cells, front, err := cells(Brief{Frame: b.Frame, Gap: b.Gap, Options: counts, Unit: b.Unit})
	if err != nil {
		return Front{}, err
	}
	for _, c := range cells {
		goose, err := splitGoose(b, c, fly, try)
		if err != nil {
			return Front{}, err
		}
		parts, err := cellParts(b, c, 3, try)
		if err != nil {
			return Front{}, err
		}
		front.Panels = append(front.Panels, partPanels(c, parts, func(i int) int {
			if parts[i] == goose {
				return 0
			}
			return 1
		})...)
	}
	return front, nil
}

// splitGoose cuts a cell from its tip to both ends of its base, and returns
// the large triangle.
func splitGoose(b Brief, c cell, fly, try string) (*Node, error) {
	box := c.Outline.Bounds()
	corners := box.Outline().Outer.Points() // from the top left, clockwise
	middle := box.Centre()
	tips := map[string]geometry.Point{
		"up": {X: middle.X, Y: box.Min.Y}, "right": {X: box.Max.X, Y: middle.Y},
		"down": {X: middle.X, Y: box.Max.Y}, "left": {X: box.Min.X, Y: middle.Y},
	}
	first := map[string]int{"up": 2, "right": 3, "down": 0, "left": 1}[fly] // where the base starts, clockwise
	tip, from, to := tips[fly], corners[first], corners[(first+1)%4]
	rest := c.Node
	for _, line := range []geometry.Line{{A: to, B: tip}, {A: tip, B: from}} {
		rest.Split(Cut{line, evenGap(b)})
		if len(rest.Parts) != 2 {
			return nil, checkSize(c.name()+"a", geometry.Size{}, b, try)
		}
		rest = rest.Parts[1] // clockwise round the goose, which lies on the right hand
	}
	return rest, nil
}
