package trimming

import (
	"fmt"

	"panelry/geometry"
)

// A Best is what OneSheet finds.
type Best struct {
	Tree   *Part
	Value  int64 // in the pieces' values; areas count in square units, see Unit
	Unit   geometry.Length
	Counts []int
	Proved bool // nothing is worth more
	work   int  // looks that would have taken as long
}

// OneSheet returns the most valuable set of pieces that straight cuts get
// from one sheet. Pieces with a Count of 0 come in any number; with all so,
// the answer is always proved best. Else the search makes at most effort
// joins; a million take about a second.
//
// It fails where the lengths have no common measure that is a useful part of
// the sheet: then [Plan] has to do.
func OneSheet(sheet geometry.Size, pieces []Piece, kerf geometry.Length, effort int) (Best, error) {
	q, ok := newProblem(sheet, pieces, kerf)
	if !ok {
		return Best{}, errNoUnit
	}
	f, ok := newFree(q)
	if !ok {
		return Best{}, errNoUnit
	}
	limited := false
	for _, p := range pieces {
		limited = limited || p.Count > 0
	}
	root := newPart(geometry.RectFromSize(geometry.Point{}, sheet))
	best := Best{Tree: root, Unit: q.unit, Counts: make([]int, len(pieces)), Proved: true}
	best.work = len(f.xs) * len(f.ys) * (len(f.xs) + len(f.ys)) / 4
	if !limited {
		best.Value = f.at(q.w, q.h)
		f.tree(root, q.w, q.h)
	} else {
		if (q.w+1)*(q.h+1)*(len(f.xs)+len(f.ys)) > mostOutside {
			return Best{}, errNoUnit
		}
		for i := range pieces { // any number is no more than fit
			if pieces[i].Count == 0 {
				pieces = append([]Piece{}, pieces...)
				pieces[i].Count = q.w * q.h
			}
		}
		b := newBounded(f, pieces, effort)
		found, proved := b.run()
		best.Proved = proved && (!b.capped || found != nil && found.value == f.at(q.w, q.h))
		best.work += (q.w+1)*(q.h+1)*(len(f.xs)+len(f.ys))/2 + looksPerJoin*(effort-b.left)
		if found != nil {
			best.Value = found.value
			b.write(found, root, q.w, q.h)
		}
	}
	for _, leaf := range root.Leaves() {
		if leaf.Piece >= 0 {
			best.Counts[leaf.Piece]++
		}
	}
	return best, nil
}

// tableWork is how many looks take as long as the tables of OneSheet do, before
// any is made: at most, as counts may leave one of them out.
func tableWork(sheet geometry.Size, pieces []Piece, kerf geometry.Length) (int, bool) {
	q, ok := newProblem(sheet, pieces, kerf)
	if !ok {
		return 0, false
	}
	count := func(down []int) (n int) {
		for x, d := range down {
			if d == x {
				n++
			}
		}
		return n
	}
	nx, ny := count(normal(q.w, q.widths())), count(normal(q.h, q.heights()))
	return nx*ny*(nx+ny)/4 + (q.w+1)*(q.h+1)*(nx+ny)/2, true
}

var errNoUnit = fmt.Errorf("the lengths have no common measure that is a useful part of the sheet")
