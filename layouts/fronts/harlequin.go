package fronts

import (
	"math"
	"strconv"

	"panelry/geometry"
)

// Harlequin diamonds: a lattice of diamonds with half and quarter diamonds at
// the border; the diamonds that stand on the border's marks and those between
// them have different papers. Panels are numbered in reading order.
//
//	\ /\ /\ /
//	 X  X  X
//	/ \/ \/ \
//	\ /\ /\ /
//	 X  X  X
func init() {
	Register(Layout{
		Name:    "harlequin",
		Summary: "a lattice of diamonds with half diamonds at the border",
		Roles:   "row by row of diamonds, from the top",
		Options: []Option{
			{Name: "columns", Kind: Count, Help: "how many diamonds stand side by side; left out: 3, or more on a broad card"},
			{Name: "rows", Kind: Count, Help: "how many diamonds stand above each other; left out: as many as make them slender"},
		},
		Divide: divideHarlequin,
	})
}

func divideHarlequin(b Brief) (Front, error) {
	columns, rows := b.Options.Count("columns"), b.Options.Count("rows")
	w, h := float64(b.Frame.W()), float64(b.Frame.H())
	if columns == 0 {
		columns = max(3, min(8, int(math.Round(3*w/h))))
	}
	if rows == 0 {
		rows = max(2, min(8, int(math.Round(h/(w/float64(columns))/1.6))))
	}
	// Corners of the lattice lie at half diamonds across and down.
	at := func(i, j int) geometry.Point {
		return geometry.Point{
			X: b.Frame.Min.X + scaled(b.Frame.W(), i, 2*columns),
			Y: b.Frame.Min.Y + scaled(b.Frame.H(), j, 2*rows),
		}
	}
	root := &Node{Outline: b.Frame.Outline()}
	for i := 1 - 2*rows; i < 2*columns; i += 2 {
		root.SplitAll(Cut{geometry.Line{A: at(i, 0), B: at(i+2*rows, 2*rows)}, evenGap(b)})
		root.SplitAll(Cut{geometry.Line{A: at(i, 2*rows), B: at(i+2*rows, 0)}, evenGap(b)})
	}
	leaves := root.Leaves()
	sortByReading(leaves)
	front := Front{Tree: root, Across: terms([]geometry.Length{b.Frame.W()}, 0), Down: terms([]geometry.Length{b.Frame.H()}, 0)}
	const try = "use a smaller gap or margin, or fewer columns or rows"
	if len(leaves) != columns*rows+(columns+1)*(rows+1) {
		return Front{}, checkSize("1", geometry.Size{}, b, try)
	}
	var err error
	front.Panels, err = panels(b, leaves, try, func(i int, leaf *Node) Panel {
		return Panel{Name: strconv.Itoa(i + 1), Role: latticeRow(b, leaf, columns, rows)}
	})
	return front, err
}

// latticeRow returns which row of diamonds a panel belongs to: those that
// stand on the border's corners are rows 0, 2, 4, and those between 1, 3, 5.
func latticeRow(b Brief, n *Node, columns, rows int) int {
	c := n.Outline.Centre()
	u := float64(c.X-b.Frame.Min.X) / float64(b.Frame.W()) * float64(2*columns)
	v := float64(c.Y-b.Frame.Min.Y) / float64(b.Frame.H()) * float64(2*rows)
	best, row := math.Inf(1), 0
	for j := range 2*rows + 1 {
		for i := j % 2; i <= 2*columns; i += 2 {
			if d := math.Abs(u-float64(i)) + math.Abs(v-float64(j)); d < best {
				best, row = d, j
			}
		}
	}
	return row
}

// scaled returns round(l·k/n) for any whole k.
func scaled(l geometry.Length, k, n int) geometry.Length {
	return geometry.Length(math.Round(float64(l) * float64(k) / float64(n)))
}
