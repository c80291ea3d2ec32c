package fronts

import "panelry/geometry"

// The five-piece spiral: in each cell four oblongs that turn round a middle,
// each with an end against the side of the next. In a cell the parts are
// named in reading order, so that the middle is c.
//
//	+--------+---+
//	|   a    |   |
//	+---+----+ b |
//	|   | c  |   |
//	| d +----+---+
//	|   |   e    |
//	+---+--------+
func init() {
	Register(Layout{
		Name:    "five-piece spiral",
		Summary: "cells of four oblongs that turn round a middle",
		Roles:   "the oblongs above and below, those at the sides, then the middle",
		Options: append([]Option{
			{Name: "turn", Kind: Choice, Default: "clockwise", Words: []string{"clockwise", "counter-clockwise"}, Help: "which way the oblongs turn"},
			{Name: "middle", Kind: Portion, Default: "1/3", Help: "the middle's share of the cell, each way"},
		}, nearlySquare...),
		Divide: divideSpiral,
	})
}

func divideSpiral(b Brief) (Front, error) {
	b = withCounts(b, 1)
	share, _ := b.Options.Share("middle")
	back := b.Options.Text("turn") == "counter-clockwise"
	return frontFromLattice(b, "use a smaller gap or margin, fewer cells or a larger middle", func(box geometry.Rect) []Cell {
		w, h := box.W(), box.H()
		x1, y1 := (w-share.Of(w))/2, (h-share.Of(h))/2
		x2, y2 := w-x1, h-y1
		oblong := func(left, top, right, bottom geometry.Length, role int) Cell {
			if back {
				left, right = w-right, w-left
			}
			return Cell{Role: role, Outline: geometry.Rect{
				Min: geometry.Point{X: box.Min.X + left, Y: box.Min.Y + top},
				Max: geometry.Point{X: box.Min.X + right, Y: box.Min.Y + bottom}}.Outline()}
		}
		return []Cell{
			oblong(0, 0, x2, y1, 0), oblong(x2, 0, w, y2, 1), oblong(x1, y2, w, h, 0),
			oblong(0, y1, x1, h, 1), oblong(x1, y1, x2, y2, 2),
		}
	})
}
