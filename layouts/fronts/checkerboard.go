package fronts

// The checkerboard: a grid whose panels alternate between two papers.
//
//	+--+ +--+ +--+
//	|##| |  | |##|
//	+--+ +--+ +--+
//	+--+ +--+ +--+
//	|  | |##| |  |
//	+--+ +--+ +--+
func init() {
	Register(Layout{
		Name:    "checkerboard",
		Summary: "a grid of nearly square panels that alternate dark and light",
		Roles:   "dark, then light",
		Options: nearlySquare,
		Divide:  divideCheckerboard,
	})
}

// nearlySquare are the options of fronts of cells whose count follows the
// card's shape.
var nearlySquare = []Option{
	{Name: "columns", Kind: Count, Help: "how many cells stand side by side; left out: as many as make them nearly square"},
	{Name: "rows", Kind: Count, Help: "how many cells stand above each other; left out: as many as make them nearly square"},
}

// withCounts fills in the columns and rows that a design leaves out: short
// cells along the frame's shorter side, and as many along the longer one as
// make them nearly square, but no more than three times as many.
func withCounts(b Brief, short int) Brief {
	columns, rows := b.Options.Count("columns"), b.Options.Count("rows")
	w, h := float64(b.Frame.W()+b.Gap), float64(b.Frame.H()+b.Gap)
	along := func(side, otherSide float64, other int) int {
		if other > 0 {
			return clampCount(side / otherSide * float64(other))
		}
		return min(clampCount(side/min(w, h)*float64(short)), 3*short)
	}
	filled := Options{}
	for name, value := range b.Options {
		filled[name] = value
	}
	if columns == 0 {
		filled["columns"] = along(w, h, rows)
	}
	if rows == 0 {
		filled["rows"] = along(h, w, columns)
	}
	b.Options = filled
	return b
}

// clampCount rounds a number to a count that is allowed.
func clampCount(x float64) int { return max(1, min(MostCount, int(x+0.5))) }

func divideCheckerboard(b Brief) (Front, error) {
	cells, front, err := cells(withCounts(b, 3))
	if err != nil {
		return Front{}, err
	}
	front.Panels, err = panels(b, nodes(cells), tryCells, func(i int, _ *Node) Panel {
		return Panel{Name: cells[i].name(), Role: (cells[i].column + cells[i].row) % 2}
	})
	return front, err
}
