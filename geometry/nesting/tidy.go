package nesting

import (
	"context"
	"slices"

	"panelry/geometry"
)

// tidy makes the sheets of a layout look as if a person had laid them: the
// emptiest sheet of the last stock comes last, what rows can hold lies in
// rows, and the last sheet's pieces are pushed together so that a larger
// oblong is left in a corner. Where that cannot be done the layout stays as it is.
func (h *hunt) tidy(ctx context.Context) {
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
		pieces[last] = h.together(ctx, pieces[last], stock)
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
// there is a way that leaves a larger one than they do: in rows on part of the
// sheet, or, where rows do not hold them, pushed to one side.
func (h *hunt) together(ctx context.Context, list []Placement, stock int) []Placement {
	whole := h.job.Stock[stock].Size
	job := h.only(list, whole)
	units := job.units()
	best, most := list, area(h.job.leftBy(list, whole))
	take := func(l []Placement) {
		if a := area(h.job.leftBy(l, whole)); a > most*(1+1e-9) {
			best, most = l, a
		}
	}
	if _, ok := onOneSheet(job, units); !ok {
		for _, l := range [][]Placement{h.pushed(ctx, job), h.lifted(ctx, job)} {
			if len(l) > 0 {
				take(l)
			}
		}
		return best
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
				take(l)
				lo = mid
			} else {
				hi = mid
			}
		}
	}
	return best
}

// pushed lays the pieces of one sheet as far left as a search for a short roll
// brings them; none if they come out longer than the sheet. It takes a
// twentieth of the search's work, or a quarter of what is left of a quick one.
func (h *hunt) pushed(ctx context.Context, job Job) []Placement {
	size := job.Stock[0].Size
	job.Stock = []Sheet{{Size: geometry.Size{W: 2 * size.W, H: size.H}, Count: 1, Roll: true}}
	whole, spare := int(h.effort()), min(int(h.effort())-h.work.done, int(Quick))
	sub := &hunt{Search: h.Search, job: job, bound: job.bound(), work: &work{ctx: ctx, limit: max(whole/20, spare/4), fill: whole}}
	sub.Progress = nil
	sub.run()
	h.work.done += sub.work.done
	if !sub.have || job.rollUsed(sub.best) > size.W {
		return nil
	}
	return sub.best.Placements
}

// lifted lays them as far up. Nothing is turned over there, as that would not
// come back so.
func (h *hunt) lifted(ctx context.Context, job Job) []Placement {
	side := job.onItsSide(270)
	for i := range side.Shapes {
		side.Shapes[i].Mirror = false
	}
	list := slices.Clone(h.pushed(ctx, side))
	for i, p := range list {
		list[i].Move = geometry.Vector{X: job.Stock[0].Size.W - p.Move.Y, Y: p.Move.X}
	}
	return list
}

// onItsSide is a job of one entry of stock, looked at from a side: all of it is
// turned by 90 degrees or by 270.
func (j Job) onItsSide(turn float64) Job {
	size := j.Stock[0].Size
	side := j
	side.Stock = []Sheet{{Size: geometry.Size{W: size.H, H: size.W}, Count: j.Stock[0].Count}}
	side.Shapes = slices.Clone(j.Shapes)
	for i, s := range side.Shapes {
		all := s.in(pose{turn: turn})
		side.Shapes[i].Outline, side.Shapes[i].Block = all[0], all[1:]
	}
	return side
}
