package nesting

import "slices"

// scrapsFirst fills the scraps, which rows do not know, and lays what is left
// over in rows: a start that wants fewer new sheets than rows alone where the
// scraps hold enough.
func (h *hunt) scrapsFirst(b *board, items []item) {
	if !slices.ContainsFunc(h.job.Stock, Sheet.IsScrap) {
		return
	}
	items = slices.Clone(items)
	b.largestFirst(items)
	open := &opener{job: h.job, board: b, used: make([]int, len(h.job.Stock)), scraps: true}
	placed := b.fillRooms(nil, items, open.next)
	if placed == 0 {
		return
	}
	b.fill(b.rooms, items[:placed])
	on, ok := b.settle()
	if !ok {
		return
	}
	rest := h.job
	rest.Shapes = slices.Clone(rest.Shapes)
	for _, it := range items[:placed] {
		rest.Shapes[it.shape].Count--
	}
	rows, err := Rows{}.Pack(b.work.ctx, rest)
	if err != nil {
		return
	}
	for _, p := range rows.Placements {
		p.Sheet += len(on.Sheets)
		on.Placements = append(on.Placements, p)
	}
	f := filling{layout: on, copies: make([]int, len(h.job.Shapes))}
	f.layout.Sheets = append(on.Sheets, rows.Sheets...)
	f.number()
	h.take(f.layout)
}
