package fronts

import (
	"strconv"

	"panelry/geometry"
)

// The running bond: rows of bricks, each row shifted against the one before.
//
//	+-----+ +-----+ +-----+
//	+--+ +-----+ +-----+ +--+
//	+-----+ +-----+ +-----+
func init() {
	Register(Layout{
		Name:    "running bond",
		Summary: "rows of bricks, each row shifted against the one before",
		Roles:   "brick by brick, one on in each row",
		Options: []Option{
			{Name: "run", Kind: Choice, Default: "level", Words: []string{"level", "upright"}, Help: "which way the rows run"},
			{Name: "rows", Kind: Count, Help: "how many rows; left out: as many as make bricks twice as long as high"},
			{Name: "bricks", Kind: Count, Help: "how many whole bricks a row has; left out: 3, or 2 on a narrow card"},
			{Name: "shift", Kind: Portion, Default: "half", Help: "how far each row is shifted, as a share of a brick; 0 stacks them"},
			slivers,
		},
		Divide: divideBond,
	})
}

func divideBond(b Brief) (Front, error) {
	upright := b.Options.Text("run") == "upright"
	along, down := b.Frame.W(), b.Frame.H()
	if upright {
		along, down = down, along
	}
	rows, bricks := bondCounts(b, along, down)
	least := geometry.Size{W: leastShare(along, b.Gap, bricks), H: leastShare(down, b.Gap, rows)}
	const try = "use a smaller gap or margin, or fewer bricks or rows"
	if err := checkSize("1", least, b, try); err != nil {
		return Front{}, err
	}
	shift, _ := b.Options.Share("shift")
	root := &Node{Outline: b.Frame.Outline()}
	splitAlong(root, b, shareOut(down, b.Gap, rows), upright)
	rowNodes := root.Leaves()
	sortByCorner(rowNodes)
	roles := map[*Node]int{}
	front := Front{Tree: root, Across: terms([]geometry.Length{b.Frame.W()}, 0), Down: terms(shareOut(down, b.Gap, rows), b.Gap)}
	if upright {
		front.Across, front.Down = front.Down, terms([]geometry.Length{b.Frame.H()}, 0)
	}
	for r, row := range rowNodes {
		splitBricks(b, row, r, bricks, shift, !upright)
		front.Slivers.add(withoutSlivers(b, row))
	}
	var leaves []*Node
	for r, row := range rowNodes {
		list := row.Leaves()
		sortByCorner(list)
		for i, leaf := range list {
			roles[leaf] = r + i
		}
		leaves = append(leaves, list...)
	}
	var err error
	front.Panels, err = panels(b, leaves, try, func(i int, leaf *Node) Panel {
		return Panel{Name: strconv.Itoa(i + 1), Role: roles[leaf]}
	})
	return front, err
}

// bondCounts fills in the counts that a design leaves out.
func bondCounts(b Brief, along, down geometry.Length) (rows, bricks int) {
	rows, bricks = b.Options.Count("rows"), b.Options.Count("bricks")
	if bricks == 0 {
		bricks = 3
		if 2*along < down {
			bricks = 2
		}
	}
	if rows == 0 {
		rows = min(16, clampCount(2*float64(down)*float64(bricks)/float64(along)))
	}
	return rows, bricks
}

// splitBricks cuts a row at the ends of its bricks, the whole row moved on by
// r times the shift.
func splitBricks(b Brief, row *Node, r, bricks int, shift Share, upright bool) {
	box := row.Outline.Bounds()
	start, length := box.Min.Y, box.H()
	if upright {
		start, length = box.Min.X, box.W()
	}
	pitch := (length + b.Gap).Share(1, bricks)
	by := shift.Of(pitch) * geometry.Length(r) % pitch
	for k := range bricks + 1 {
		next := start + (length+b.Gap).Share(k, bricks) + by
		if next-b.Gap <= start || next >= start+length {
			continue
		}
		row.SplitAll(Cut{gapBefore(Brief{Frame: box, Gap: b.Gap}, next, upright), b.Gap})
	}
}
