package fronts

import (
	"fmt"
	"slices"

	"panelry/geometry"
)

// The grid: columns and rows of equal oblongs.
//
//	+----+ +----+
//	| A1 | | B1 |
//	+----+ +----+
//	+----+ +----+
//	| A2 | | B2 |
//	+----+ +----+
func init() {
	Register(Layout{
		Name:    "grid",
		Summary: "columns and rows of equal oblong panels",
		Roles:   "in reading order",
		Options: lattice(2, 2),
		Divide:  divideGrid,
	})
}

// lattice returns the two options that every front of cells has.
func lattice(columns, rows int) []Option {
	return []Option{
		{Name: "columns", Kind: Count, Default: columns, Help: "how many cells stand side by side"},
		{Name: "rows", Kind: Count, Default: rows, Help: "how many cells stand above each other"},
	}
}

// cell is one oblong of a lattice.
type cell struct {
	*Node
	column, row int
}

func (c cell) name() string { return cellName(c.column, c.row) }

// tryCells is what to change when cells come out too small.
const tryCells = "use a smaller gap or margin, or fewer columns or rows"

// cells cuts the frame into the columns and rows of the brief's options, and
// returns the cells in reading order.
func cells(b Brief) (cells []cell, front Front, err error) {
	columns, rows := b.Options.Count("columns"), b.Options.Count("rows")
	size := geometry.Size{
		W: leastShare(b.Frame.W(), b.Gap, columns),
		H: leastShare(b.Frame.H(), b.Gap, rows),
	}
	if err := checkSize(cellName(0, 0), size, b, tryCells); err != nil {
		return nil, Front{}, err
	}
	root := &Node{Outline: b.Frame.Outline()}
	across, gapsAcross := onRuler(b, shareOut(b.Frame.W(), b.Gap, columns))
	down, gapsDown := onRuler(b, shareOut(b.Frame.H(), b.Gap, rows))
	splitAt(root, b.Frame, across, gapsAcross, true)
	splitAt(root, b.Frame, down, gapsDown, false)
	leaves := root.Leaves()
	sortByCorner(leaves)
	for i, leaf := range leaves {
		cells = append(cells, cell{leaf, i % columns, i / columns})
	}
	front = Front{Across: termsOf(across, gapsAcross), Down: termsOf(down, gapsDown), Tree: root}
	front.round("gap across", b.Gap, gapsAcross, geometry.Size{W: across[0]})
	front.round("gap down", b.Gap, gapsDown, geometry.Size{H: down[0]})
	return cells, front, nil
}

// round notes gaps that came out otherwise than asked.
func (f *Front) round(what string, asked geometry.Length, gaps []geometry.Length, piece geometry.Size) {
	if len(gaps) == 0 || slices.Max(gaps) == asked && slices.Min(gaps) == asked {
		return
	}
	f.Rounded = append(f.Rounded, Rounding{What: what, Asked: asked, Now: gaps[0], Piece: piece})
}

// sortByCorner puts upright oblongs of a lattice in reading order.
func sortByCorner(nodes []*Node) {
	slices.SortFunc(nodes, func(a, b *Node) int {
		p, q := a.Outline.Bounds().Min, b.Outline.Bounds().Min
		if p.Y != q.Y {
			return int(min(1, max(-1, p.Y-q.Y)))
		}
		return int(min(1, max(-1, p.X-q.X)))
	})
}

// leastShare returns the smallest of n panels that share a length with gaps
// between them; it can be less than nothing.
func leastShare(length, gap geometry.Length, n int) geometry.Length {
	return (length+gap)/geometry.Length(n) - gap
}

// shareOut returns the lengths of n panels that share a length with gaps
// between them: they and the gaps add up exactly, and differ by 1 nm at most.
func shareOut(length, gap geometry.Length, n int) []geometry.Length {
	out := make([]geometry.Length, n)
	for k := range out {
		out[k] = (length+gap).Share(k+1, n) - (length+gap).Share(k, n) - gap
	}
	return out
}

// splitAlong cuts all leaves between panels of the given lengths, from the
// frame's left (upright cuts) or from its top.
func splitAlong(root *Node, b Brief, lengths []geometry.Length, upright bool) {
	splitAt(root, b.Frame, lengths, slices.Repeat([]geometry.Length{b.Gap}, len(lengths)-1), upright)
}

// splitAt is splitAlong with a gap of its own between any two panels.
func splitAt(root *Node, frame geometry.Rect, lengths, gaps []geometry.Length, upright bool) {
	at := frame.Min.Y
	if upright {
		at = frame.Min.X
	}
	for i, gap := range gaps {
		at += lengths[i] + gap
		root.SplitAll(Cut{gapBefore(Brief{Frame: frame, Gap: gap}, at, upright), gap})
	}
}

// gapBefore returns the line whose gap ends exactly where the next panel
// begins: [geometry.Outline.Split] gives an odd nanometre to the right hand,
// so an upright line runs up the page and a level one to the right.
func gapBefore(b Brief, next geometry.Length, upright bool) geometry.Line {
	line := next - (b.Gap - b.Gap/2)
	if upright {
		return geometry.Line{A: geometry.Point{X: line, Y: b.Frame.Max.Y}, B: geometry.Point{X: line, Y: b.Frame.Min.Y}}
	}
	return geometry.Line{A: geometry.Point{X: b.Frame.Min.X, Y: line}, B: geometry.Point{X: b.Frame.Max.X, Y: line}}
}

// terms interleaves panels and gaps.
func terms(lengths []geometry.Length, gap geometry.Length) []Term {
	return termsOf(lengths, slices.Repeat([]geometry.Length{gap}, max(0, len(lengths)-1)))
}

// termsOf is terms with a gap of its own between any two panels.
func termsOf(lengths, gaps []geometry.Length) []Term {
	var out []Term
	for i, length := range lengths {
		if i > 0 {
			out = append(out, Term{"gap", gaps[i-1]})
		}
		out = append(out, Term{"panel", length})
	}
	return out
}

// exact is the brief without a ruler: for layouts that divide their cells
// further, and so leave what is over to the gaps inside them.
func (b Brief) exact() Brief {
	b.Ruler = 0
	return b
}

func divideGrid(b Brief) (Front, error) {
	cells, front, err := cells(b)
	if err != nil {
		return Front{}, err
	}
	front.Panels, err = panels(b, nodes(cells), tryCells, func(i int, _ *Node) Panel {
		return Panel{Name: cells[i].name(), Role: i}
	})
	return front, err
}

// nodes returns the cells' nodes.
func nodes(cells []cell) []*Node {
	out := make([]*Node, len(cells))
	for i, c := range cells {
		out[i] = c.Node
	}
	return out
}

// wrongCells is the sentence for an option that does not fit the lattice:
// "slant: 1 row given, and the front has 2 rows".
func wrongCells(option, where string, got int, what string, want int, cells string) error {
	return wrongOption(option, "%s%s given, and the front has %s", where, counted(got, what), counted(want, cells))
}

// counted returns a number with its word: "1 row", "2 rows".
func counted(n int, word string) string {
	if n != 1 {
		word += "s"
	}
	return fmt.Sprintf("%d %s", n, word)
}
