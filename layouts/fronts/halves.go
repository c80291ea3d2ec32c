package fronts

import (
	"fmt"
	"slices"

	"panelry/geometry"
)

// Diagonal halves: a grid whose cells are each cut once from corner to
// corner. A cell cut "/" gives an upper left and a lower right half, one
// cut "\" an upper right and a lower left half. The two halves of a cell
// are alike, one turned by half a turn; a "/" half and a "\" half of an
// oblong cell are mirror images, and no turn makes one into the other.
//
//	+----+ +----+
//	|\ a | | a /|   A1 is cut "\": A1a is its upper right half
//	| \  | |  / |   B1 is cut "/": B1a is its upper left half
//	| b\ | | /b |
//	+----+ +----+
func init() {
	Register(Layout{
		Name:    "diagonal halves",
		Summary: "a grid whose cells are each cut in half on a diagonal",
		Roles:   "cell by cell in reading order, so that neighbours differ: with two papers, light and dark alternate",
		Options: append(lattice(2, 2), Option{
			Name: "slant", Kind: Rows,
			Help: `the cuts drawn as they look, one text a row, like ['\/', '/\']; left out: all towards the middle`,
		}),
		Divide: divideHalves,
	})
}

// slants returns the cuts of all cells, row by row, as '/' and '\'.
func slants(b Brief) ([]string, error) {
	columns, rows := b.Options.Count("columns"), b.Options.Count("rows")
	given := b.Options.Rows("slant")
	if given == nil {
		return towardsMiddle(columns, rows), nil
	}
	if len(given) != rows {
		return nil, wrongCells("slant", "", len(given), "row", rows, "row")
	}
	for i, row := range given {
		where := fmt.Sprintf("row %d: ", i+1)
		for _, c := range row {
			if c != '/' && c != '\\' {
				return nil, wrongOption("slant", `%s%q is not a cut; write / or \`, where, string(c))
			}
		}
		if len(row) != columns {
			return nil, wrongCells("slant", where, len(row), "cut", columns, "column")
		}
	}
	return given, nil
}

// towardsMiddle slants each cut so that it points at the front's middle. A
// middle column counts as left, a middle row as upper.
func towardsMiddle(columns, rows int) []string {
	out := make([]string, rows)
	for row := range out {
		for column := range columns {
			left, upper := 2*column < columns, 2*row < rows
			if left == upper {
				out[row] += `\`
			} else {
				out[row] += `/`
			}
		}
	}
	return out
}

func divideHalves(b Brief) (Front, error) {
	slants, err := slants(b)
	if err != nil {
		return Front{}, err
	}
	cells, front, err := cells(b.exact())
	if err != nil {
		return Front{}, err
	}
	legs, err := halfLegs(b, cells, &front)
	if err != nil {
		return Front{}, err
	}
	light := lightFirst(slants)
	for i, c := range cells {
		hand := string(slants[c.row][c.column])
		halves, err := halveCell(b, c, hand, legs)
		if err != nil {
			return Front{}, err
		}
		for k, half := range halves {
			role := 2 * i
			if light(c.column, c.row, isLeft(hand, k)) {
				role++
			}
			front.Panels = append(front.Panels, Panel{Name: half.Panel, Outline: half.Outline, Role: role, Hand: hand})
		}
	}
	return front, nil
}

// halfLegs returns the legs of all halves where they fall on the ruler, and
// notes the gap that this leaves; nothing where the front is exact. Cells may
// differ by a nanometre, so the smallest decides.
func halfLegs(b Brief, cells []cell, front *Front) (*rulerLegs, error) {
	if b.Ruler == 0 {
		return nil, nil
	}
	least := cells[0].Outline.Bounds().Size()
	for _, c := range cells {
		size := c.Outline.Bounds().Size()
		least = geometry.Size{W: min(least.W, size.W), H: min(least.H, size.H)}
	}
	legs, gap, ok := RulerPair(least, b.Gap, b.Ruler)
	if !ok {
		return nil, fmt.Errorf("halves of cells of %s have no size on a ruler of %s; use larger cells, or sizes = \"exact\"",
			least.Format(b.Unit), b.Ruler.Format(b.Unit))
	}
	if gap != b.Gap {
		front.Rounded = append(front.Rounded, Rounding{What: "gap on the diagonal", Asked: b.Gap, Now: gap, Piece: legs})
	}
	return &rulerLegs{legs, gap}, nil
}

// rulerLegs are the legs of halves that fall on the ruler, and the gap that
// they leave.
type rulerLegs struct {
	geometry.Size
	gap geometry.Length
}

// halveCell cuts a cell from corner to corner and names its halves. An odd
// gap is taken a nanometre wider, so that both halves lose the same and stay
// alike. With legs, each half has them exactly and sits in its corner.
func halveCell(b Brief, c cell, hand string, legs *rulerLegs) ([]*Node, error) {
	box := c.Outline.Bounds()
	line := geometry.Line{A: box.Min, B: box.Max}
	if hand == "/" {
		line = geometry.Line{A: geometry.Point{X: box.Min.X, Y: box.Max.Y}, B: geometry.Point{X: box.Max.X, Y: box.Min.Y}}
	}
	if legs != nil {
		c.halveOnRuler(hand, *legs)
	} else {
		c.Split(Cut{line, b.Gap + b.Gap%2})
	}
	const try = "use a smaller gap, or fewer columns or rows"
	if len(c.Parts) != 2 {
		return nil, checkSize(c.name()+"a", geometry.Size{}, b, try)
	}
	halves := slices.Clone(c.Parts)
	sortByReading(halves)
	for k, half := range halves {
		half.Panel = c.name() + partName(k)
		if err := checkSize(half.Panel, half.Outline.Bounds().Size(), b, try); err != nil {
			return nil, err
		}
	}
	return halves, nil
}

// halveOnRuler puts a right triangle with the legs into each of the two
// corners that the cut does not meet. The cut runs along their long sides,
// through the middle of the cell.
func (c cell) halveOnRuler(hand string, legs rulerLegs) {
	box := c.Outline.Bounds()
	w, h := legs.W, legs.H
	left, right, top, bottom := box.Min.X, box.Max.X, box.Min.Y, box.Max.Y
	at := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }
	along := geometry.Vector{X: w, Y: h}
	upper := geometry.OutlineFromPoints(at(right, top), at(right, top+h), at(right-w, top))
	lower := geometry.OutlineFromPoints(at(left, bottom), at(left, bottom-h), at(left+w, bottom))
	if hand == "/" {
		along.Y = -h
		upper = geometry.OutlineFromPoints(at(left, top), at(left+w, top), at(left, top+h))
		lower = geometry.OutlineFromPoints(at(right, bottom), at(right-w, bottom), at(right, bottom-h))
	}
	middle := box.Centre()
	c.Cut = &Cut{geometry.Line{A: middle.Add(along.Neg()), B: middle.Add(along)}, legs.gap}
	c.Parts = []*Node{{Outline: upper}, {Outline: lower}}
}

// isLeft reports whether half k (0 is the upper one) has the cell's left
// side: the upper half of "/" and the lower half of "\" do.
func isLeft(hand string, k int) bool { return (hand == "/") == (k == 0) }

// lightFirst shares the halves out in two sets so that, wherever it can be,
// neighbours across a gap belong to different ones. With all left halves of
// a row in one set, neighbours in the row always differ. Two cells above
// each other meet with a left and a right half when they are cut alike, and
// with two of one side when not: so a row changes over when most of its
// cuts differ from the row above.
func lightFirst(slants []string) func(column, row int, left bool) bool {
	changed := make([]bool, len(slants))
	for row := 1; row < len(slants); row++ {
		differ := 0
		for column := range slants[row] {
			if slants[row][column] != slants[row-1][column] {
				differ++
			}
		}
		changed[row] = changed[row-1] != (2*differ > len(slants[row]))
	}
	return func(_, row int, left bool) bool { return left != changed[row] }
}
