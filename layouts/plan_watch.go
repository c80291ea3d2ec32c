package layouts

import (
	"context"

	"panelry/geometry/nesting"
)

// Progress is how far a search for sheets is.
type Progress struct {
	Done   float64 // share of the most work that it may do, 0 to 1
	Sheets int     // of the whole kit, as far as it is known
}

// PlanWatched is [Plan] that tells its progress: with each paper that is
// done, and with each better layout. Papers that were not searched yet count
// with the sheets that they take in a kit from before, of a brief search.
// When the context ends, the kit holds the best so far.
func PlanWatched(ctx context.Context, d Design, before Kit, tell func(Progress)) (Kit, error) {
	effort := d.Sheets.Effort
	kit, _, err := planPieces(d)
	if err != nil {
		return kit, err
	}
	pieces := (len(kit.Card.Panels) + 1) * d.Batch.Cards
	w := &watched{search: d.search(pieces).(nesting.Search), tell: tell}
	d.Sheets.Effort = "quick"
	w.brief = d.search(pieces)
	d.Sheets.Effort = effort
	for _, use := range before.Stock {
		if use.Sheets > 0 {
			w.before = append(w.before, use.Sheets)
		}
	}
	return plan(ctx, d, w)
}

// watched is a packer that tells of its progress.
type watched struct {
	search nesting.Search
	brief  nesting.Packer // for papers whose turn does not come
	tell   func(Progress)
	done   float64 // told so far
	before []int   // sheets of each paper, before
	packed int     // jobs that are done
	sheets int     // of those
}

// progress adds what a job has so far to those before and after it.
func (w *watched) progress(done float64, sheets int) Progress {
	w.done = max(w.done, min(1, (float64(w.packed)+min(1, done))/float64(max(1, len(w.before))))) // a job can be searched twice
	p := Progress{Done: w.done, Sheets: w.sheets + sheets}
	for i := w.packed + 1; i < len(w.before); i++ {
		p.Sheets += w.before[i]
	}
	return p
}

func (w *watched) Pack(ctx context.Context, job nesting.Job) (nesting.Layout, error) {
	search := w.search
	search.Progress = func(p nesting.Progress) { w.tell(w.progress(p.Done, p.Sheets)) }
	layout, err := search.Pack(ctx, job)
	if ctx.Err() != nil {
		brief, briefErr := w.brief.Pack(context.WithoutCancel(ctx), job)
		if err != nil || briefErr == nil && len(brief.Sheets) < len(layout.Sheets) {
			layout, err = brief, briefErr
		}
	}
	w.tell(w.progress(1, len(layout.Sheets)))
	w.packed++
	w.sheets += len(layout.Sheets)
	return layout, err
}
