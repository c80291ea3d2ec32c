package nesting

import (
	"context"
	"slices"

	"panelry/geometry"
)

// tidy makes the sheets of a layout look as if a person had laid them: the
// emptiest sheet of the last stock comes last, what rows can hold lies in
// rows, and the last sheet's pieces are pushed together so that one large
// oblong is left. Where that cannot be done the layout stays as it is.
func (h *hunt) tidy() {
	last := len(h.best.Sheets) - 1
	if last < 0 || h.job.Stock[0].Roll {
		return
	}
	was := h.best
	pieces := h.bySheet()
	h.emptiestLast(pieces)
	for i := range pieces {
		if stock := h.job.Stock[h.best.Sheets[i]]; !stock.IsScrap() {
			job := h.only(pieces[i], stock.Size)
			if l, ok := onOneSheet(job, job.units()); ok {
				pieces[i] = l
			}
		}
	}
	if stock := h.best.Sheets[last]; !h.job.Stock[stock].IsScrap() {
		pieces[last] = h.together(pieces[last], stock)
	}
	l := Layout{Sheets: h.best.Sheets}
	for i, list := range pieces {
		for _, p := range list {
			p.Sheet = i
			l.Placements = append(l.Placements, p)
		}
	}
	f := filling{layout: l, copies: make([]int, len(h.job.Shapes))}
	f.number()
	h.best = f.layout
	if area(h.job.offcut(h.best)) < area(h.job.offcut(was)) || Verify(h.job, h.best) != nil {
		h.best = was
	}
}

// bySheet returns the placements of each sheet.
func (h *hunt) bySheet() [][]Placement {
	out := make([][]Placement, len(h.best.Sheets))
	for _, p := range h.best.Placements {
		out[p.Sheet] = append(out[p.Sheet], p)
	}
	return out
}

// emptiestLast changes the last sheet with the emptiest one of its stock.
func (h *hunt) emptiestLast(pieces [][]Placement) {
	last := len(pieces) - 1
	least, at := 0.0, -1
	for i, list := range pieces {
		if h.best.Sheets[i] != h.best.Sheets[last] {
			continue
		}
		sum := 0.0
		for _, p := range list {
			for _, o := range h.job.Shapes[p.Shape].outlines() {
				sum += o.Area().SquareMM()
			}
		}
		if at < 0 || sum <= least*(1+1e-9) {
			least, at = sum, i
		}
	}
	gone := pieces[at]
	copy(pieces[at:], pieces[at+1:])
	pieces[last] = gone
	h.best.Sheets = slices.Clone(h.best.Sheets)
	stock := h.best.Sheets[at]
	copy(h.best.Sheets[at:], h.best.Sheets[at+1:])
	h.best.Sheets[last] = stock
}

// only returns the job of the pieces of one sheet, on sheets of another size.
func (h *hunt) only(list []Placement, size geometry.Size) Job {
	job := h.job
	job.Shapes = slices.Clone(job.Shapes)
	for i := range job.Shapes {
		job.Shapes[i].Count = 0
	}
	for _, p := range list {
		job.Shapes[p.Shape].Count++
	}
	job.Stock = []Sheet{{Size: size, Count: 1}}
	return job
}

// onOneSheet lays units in rows, if one sheet holds them.
func onOneSheet(job Job, units []unit) ([]Placement, bool) {
	l, err := packUnits(context.Background(), job, units)
	return l.Placements, err == nil && len(l.Sheets) == 1
}

// shrinkSteps is how often the sheet is halved in looking for the smallest one
// that holds the rows.
const shrinkSteps = 8

// together lays the last sheet's pieces so that the largest oblong is left, if
// there is a way that leaves a larger one than they do.
func (h *hunt) together(list []Placement, stock int) []Placement {
	whole := h.job.Stock[stock].Size
	job := h.only(list, whole)
	units := job.units()
	best, most := list, area(h.job.leftBy(list, whole))
	take := func(l []Placement, better float64) {
		if a := area(h.job.leftBy(l, whole)); a > most*better {
			best, most = l, a
		}
	}
	for _, narrow := range []func(by geometry.Length) geometry.Size{
		func(by geometry.Length) geometry.Size { return geometry.Size{W: whole.W, H: whole.H - by} },
		func(by geometry.Length) geometry.Size { return geometry.Size{W: whole.W - by, H: whole.H} },
	} {
		by := min(whole.W, whole.H)
		lo, hi := geometry.Length(0), by
		for range shrinkSteps {
			mid := (lo + hi) / 2
			job.Stock[0].Size = narrow(mid)
			if l, ok := onOneSheet(job, units); ok {
				take(l, 1+1e-9)
				lo = mid
			} else {
				hi = mid
			}
		}
	}
	return best
}
