package fronts

import "panelry/geometry"

// The attic window: in each cell a pane with two strips along two of its
// sides that meet in a mitre, like the reveal of a window. In a cell the
// parts are named in reading order.
//
//	+--+-------+
//	|  |       |
//	|  | pane  |
//	|  |       |
//	| /+-------+
//	|/         |
//	+----------+
func init() {
	Register(Layout{
		Name:    "attic window",
		Summary: "cells with a pane and two mitred strips along two of its sides",
		Roles:   "the panes, then the upright strips, then the level ones",
		Options: append([]Option{
			{Name: "corner", Kind: Choice, Default: "bottom left", Words: []string{"bottom left", "bottom right", "top left", "top right"}, Help: "where the two strips meet"},
			{Name: "strip", Kind: Portion, Default: "1/4", Help: "how broad the strips are, as a share of the cell's shorter side"},
		}, nearlySquare...),
		Divide: divideAttic,
	})
}

func divideAttic(b Brief) (Front, error) {
	b = withCounts(b, 2)
	share, _ := b.Options.Share("strip")
	corner := b.Options.Text("corner")
	return frontFromLattice(b, "use a smaller gap or margin, fewer cells or broader strips", func(box geometry.Rect) []Cell {
		t := share.Of(min(box.W(), box.H()))
		// Drawn with the strips left and below, then mirrored as wanted.
		mirror := func(points ...geometry.Point) geometry.Outline {
			for i, p := range points {
				if corner == "bottom right" || corner == "top right" {
					points[i].X = box.Min.X + box.Max.X - p.X
				}
				if corner == "top left" || corner == "top right" {
					points[i].Y = box.Min.Y + box.Max.Y - p.Y
				}
			}
			return geometry.OutlineFromPoints(points...)
		}
		x0, y0, x1, y1 := box.Min.X, box.Min.Y, box.Max.X, box.Max.Y
		at := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }
		return []Cell{
			{Outline: mirror(at(x0+t, y0), at(x1, y0), at(x1, y1-t), at(x0+t, y1-t)), Role: 0},
			{Outline: mirror(at(x0, y0), at(x0+t, y0), at(x0+t, y1-t), at(x0, y1)), Role: 1},
			{Outline: mirror(at(x0+t, y1-t), at(x1, y1-t), at(x1, y1), at(x0, y1)), Role: 2},
		}
	})
}

// frontFromLattice makes a front of cells in columns and rows, each divided
// by the same function, which draws without gaps. The parts of a cell carry
// its name and letters in reading order.
func frontFromLattice(b Brief, try string, divide func(geometry.Rect) []Cell) (Front, error) {
	columns, rows := b.Options.Count("columns"), b.Options.Count("rows")
	half := (b.Gap + 1) / 2
	window, err := b.Frame.Inset(-half)
	if err != nil {
		return Front{}, err
	}
	var cells []Cell
	for row := range rows {
		for column := range columns {
			box := geometry.Rect{
				Min: geometry.Point{X: window.Min.X + window.W().Share(column, columns), Y: window.Min.Y + window.H().Share(row, rows)},
				Max: geometry.Point{X: window.Min.X + window.W().Share(column+1, columns), Y: window.Min.Y + window.H().Share(row+1, rows)},
			}
			for _, c := range divide(box) {
				c.Name = cellName(column, row)
				cells = append(cells, c)
			}
		}
	}
	front, err := frontFromCells(b, cells, try)
	if err != nil {
		return Front{}, err
	}
	front.Across = terms(shareOut(b.Frame.W(), b.Gap, columns), b.Gap)
	front.Down = terms(shareOut(b.Frame.H(), b.Gap, rows), b.Gap)
	return front, nil
}
