package fronts

import (
	"cmp"
	"math"
	"slices"

	"panelry/geometry"
)

// The chevron: columns of slanted bands whose slope is mirrored at each
// column line, so that their points meet. Bargello: columns of level strips,
// each column a step higher or lower than the one before, up and down in a
// wave. A panel is named by its column and its place in it from the top.
//
//	\  |  /  \  |  /      --+  +--
//	 \ | /    \ | /       --|--|--
//	\ \|/ /  \ \|/ /      --|--|--
//	 \ | /    \ | /       --+--+--
//	chevron               bargello
func init() {
	Register(Layout{
		Name:    "chevron",
		Summary: "columns of slanted bands that meet in points",
		Roles:   "band by band, from the top",
		Options: []Option{
			{Name: "columns", Kind: Count, Help: "how many columns there are; left out: 4, or more on a broad card"},
			{Name: "bands", Kind: Count, Help: "how many bands stand above each other; left out: as many as suit the card"},
			{Name: "slope", Kind: Angle, Default: "35 deg", Help: "how steep the bands are, from level; less than 0 points the first column down"},
			slivers,
		},
		Divide: divideChevron,
	})
	Register(Layout{
		Name:    "bargello",
		Summary: "columns of strips, each column a step higher or lower than the one before",
		Roles:   "strip by strip along the wave",
		Options: []Option{
			{Name: "columns", Kind: Count, Help: "how many columns there are; left out: 5, or more on a broad card"},
			{Name: "strips", Kind: Count, Help: "how many strips stand above each other; left out: as many as suit the card"},
			{Name: "step", Kind: Portion, Default: "half", Help: "how far a column is moved against the one before, as a share of a strip"},
			{Name: "wave", Kind: Count, Default: 3, Least: 2, Most: 12, Help: "after how many columns the wave turns"},
			slivers,
		},
		Divide: divideBargello,
	})
}

// sortBy sorts nodes by a number, those of one number as they stood.
func sortBy(nodes []*Node, key func(*Node) float64) {
	slices.SortStableFunc(nodes, func(a, b *Node) int { return cmp.Compare(key(a), key(b)) })
}

// columnCounts fills in columns and bands that a design leaves out.
func columnCounts(b Brief, bands string, usual int, shape float64) (columns, n int) {
	columns, n = b.Options.Count("columns"), b.Options.Count(bands)
	w, h := float64(b.Frame.W()), float64(b.Frame.H())
	if columns == 0 {
		columns = max(usual, min(2*usual, int(math.Round(float64(usual)*w/h))))
	}
	if n == 0 {
		n = max(3, min(48/columns, int(math.Round(h/(w/float64(columns))*shape))))
	}
	return columns, n
}

const tryColumns = "use a smaller gap or margin, or fewer columns or bands"

// columnsOf splits the frame in columns and returns them from the left.
func columnsOf(b Brief, columns int) (*Node, []*Node, error) {
	least := geometry.Size{W: leastShare(b.Frame.W(), b.Gap, columns), H: b.Frame.H()}
	if err := checkSize("A1", least, b, tryColumns); err != nil {
		return nil, nil, err
	}
	root := &Node{Outline: b.Frame.Outline()}
	splitAlong(root, b, shareOut(b.Frame.W(), b.Gap, columns), true)
	list := root.Leaves()
	sortByCorner(list)
	return root, list, nil
}

func divideChevron(b Brief) (Front, error) {
	columns, bands := columnCounts(b, "bands", 4, 1.25)
	root, list, err := columnsOf(b, columns)
	if err != nil {
		return Front{}, err
	}
	slope := b.Options.Degrees("slope")
	if math.Abs(slope) > 75 {
		return Front{}, wrongOption("slope", "%g degrees is too steep; write an angle from -75 to 75 degrees", slope)
	}
	// From the middle of one column line to the middle of the next, the band
	// rises or falls by that much.
	pitch := float64(b.Frame.W()+b.Gap) / float64(columns)
	rise := geometry.Length(math.Round(pitch * math.Tan(slope*math.Pi/180)))
	whole := b.Frame.H() + rise.Abs()
	breadth := geometry.Length(float64(whole)/float64(bands+1)*math.Cos(slope*math.Pi/180)) - b.Gap
	if err := checkSize(cellName(0, 1), geometry.Size{W: breadth, H: breadth}, b, tryColumns); err != nil {
		return Front{}, err
	}
	step := func(k int) geometry.Length { return b.Frame.Min.Y - rise.Abs() + whole.Share(k, bands+1) }
	front := Front{Tree: root, Across: terms(shareOut(b.Frame.W(), b.Gap, columns), b.Gap), Down: terms([]geometry.Length{b.Frame.H()}, 0)}
	gap := evenGap(b)
	if rise == 0 {
		gap = b.Gap
	}
	for c, column := range list {
		left := b.Frame.Min.X + (b.Frame.W()+b.Gap).Share(c, columns) - b.Gap/2
		right := b.Frame.Min.X + (b.Frame.W()+b.Gap).Share(c+1, columns) - b.Gap/2
		for k := 1; k <= bands; k++ {
			low, high := step(k)+rise.Abs(), step(k)
			if (c%2 == 0) == (rise < 0) {
				low, high = high, low
			}
			column.SplitAll(Cut{geometry.Line{A: geometry.Point{X: left, Y: low}, B: geometry.Point{X: right, Y: high}}, gap})
		}
		front.Slivers.add(withoutSlivers(b, column))
	}
	return columnFront(b, front, list, func(_, k int) int { return k })
}

func divideBargello(b Brief) (Front, error) {
	columns, strips := columnCounts(b, "strips", 5, 1.4)
	root, list, err := columnsOf(b, columns)
	if err != nil {
		return Front{}, err
	}
	if err := checkSize("A1", geometry.Size{W: b.Frame.W(), H: leastShare(b.Frame.H(), b.Gap, strips)}, b, tryColumns); err != nil {
		return Front{}, err
	}
	share, _ := b.Options.Share("step")
	wave := b.Options.Count("wave")
	whole := b.Frame.H() + b.Gap
	front := Front{Tree: root, Across: terms(shareOut(b.Frame.W(), b.Gap, columns), b.Gap), Down: terms([]geometry.Length{b.Frame.H()}, 0)}
	first := make([]int, columns)
	for c, column := range list {
		place := c % (2 * wave)
		if place > wave {
			place = 2*wave - place
		}
		pitch := whole.Share(1, strips)
		down := share.Of(pitch) * geometry.Length(place)
		first[c] = -int((down + pitch - 1) / pitch)
		for k := first[c]; k <= strips; k++ {
			next := b.Frame.Min.Y + down + geometry.Length(k)*pitch
			if k >= 0 {
				next = b.Frame.Min.Y + down + whole.Share(k, strips)
			}
			if next-b.Gap > b.Frame.Min.Y && next < b.Frame.Max.Y {
				column.SplitAll(Cut{gapBefore(b, next, false), b.Gap})
			}
		}
		front.Slivers.add(withoutSlivers(b, column))
	}
	return columnFront(b, front, list, func(c, k int) int { return k + first[c] + wave*2 })
}

// columnFront names the panels of columns from the top; role gives each its
// role by column and place.
func columnFront(b Brief, front Front, columns []*Node, role func(column, place int) int) (Front, error) {
	least := math.MaxInt
	for c, column := range columns {
		leaves := column.Leaves()
		sortBy(leaves, func(n *Node) float64 { return float64(n.Outline.Centre().Y) })
		list, err := panels(b, leaves, tryColumns, func(k int, _ *Node) Panel {
			least = min(least, role(c, k))
			return Panel{Name: cellName(c, k), Role: role(c, k)}
		})
		if err != nil {
			return Front{}, err
		}
		front.Panels = append(front.Panels, list...)
	}
	for i := range front.Panels {
		front.Panels[i].Role -= least
	}
	return front, nil
}
