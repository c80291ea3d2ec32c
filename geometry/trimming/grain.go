package trimming

import (
	"slices"

	"panelry/geometry"
)

// problem is one sheet in whole units: every length divided by what divides
// them all, kerf included. With a kerf k, a sheet of W + k and pieces of
// w + k that need no kerf have the same cuts.
type problem struct {
	w, h  int
	items []item
	unit  geometry.Length
	kerf  geometry.Length
}

// item is one way in which a piece can lie.
type item struct {
	piece  int
	turned bool
	w, h   int
	value  int64
}

// mostUnits is the most units along a side for the exact search.
const mostUnits = 1200

// newProblem takes lengths to units. The second result is false where they
// have no unit that is large enough for tables.
func newProblem(sheet geometry.Size, pieces []Piece, kerf geometry.Length) (problem, bool) {
	unit := sheet.W + kerf
	take := func(l geometry.Length) {
		for l != 0 {
			unit, l = l, unit%l
		}
	}
	take(sheet.H + kerf)
	for _, p := range pieces {
		take(p.Size.W + kerf)
		take(p.Size.H + kerf)
	}
	if unit <= 0 {
		return problem{}, false
	}
	// The sheet itself may stop short of a whole unit.
	fine := unit
	if (sheet.W+kerf)/fine > mostUnits || (sheet.H+kerf)/fine > mostUnits {
		unit = 0
		for _, p := range pieces {
			for _, l := range []geometry.Length{p.Size.W + kerf, p.Size.H + kerf} {
				if unit == 0 {
					unit = l
				} else {
					take(l)
				}
			}
		}
		if unit == 0 || (sheet.W+kerf)/unit > mostUnits || (sheet.H+kerf)/unit > mostUnits {
			return problem{}, false
		}
	}
	q := problem{w: int((sheet.W + kerf) / unit), h: int((sheet.H + kerf) / unit), unit: unit, kerf: kerf}
	for i, p := range pieces {
		value := p.Value
		w, h := int((p.Size.W+kerf)/unit), int((p.Size.H+kerf)/unit)
		if value == 0 {
			value = int64(w) * int64(h)
		}
		if w <= q.w && h <= q.h {
			q.items = append(q.items, item{i, false, w, h, value})
		}
		if p.Turn && w != h && h <= q.w && w <= q.h {
			q.items = append(q.items, item{i, true, h, w, value})
		}
	}
	return q, true
}

// normal returns, for each length up to n, the longest sum of the given
// lengths that is not longer: cuts elsewhere gain nothing (J. C. Herz,
// "Recursive computational procedure for two-dimensional stock cutting", IBM
// Journal of Research and Development 16 (1972)).
func normal(n int, lengths []int) []int {
	reach := make([]bool, n+1)
	reach[0] = true
	for x := 1; x <= n; x++ {
		for _, l := range lengths {
			if l <= x && reach[x-l] {
				reach[x] = true
				break
			}
		}
	}
	down := make([]int, n+1)
	last := 0
	for x := range down {
		if reach[x] {
			last = x
		}
		down[x] = last
	}
	return down
}

func (q problem) widths() []int {
	var list []int
	for _, i := range q.items {
		list = append(list, i.w)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

func (q problem) heights() []int {
	var list []int
	for _, i := range q.items {
		list = append(list, i.h)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// length returns what a number of units measures without its kerf.
func (q problem) length(units int) geometry.Length {
	return geometry.Length(units)*q.unit - q.kerf
}
