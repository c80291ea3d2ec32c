package layouts

import (
	"context"

	"panelry/geometry/nesting"
)

// quickEach is the most work that quick effort spends on a piece, about two
// milliseconds: few pieces are not worth more.
const quickEach = nesting.Quick / 100

// Progress is how far a search for sheets is.
type Progress struct {
	Paper  string  // whose sheets are searched
	Done   float64 // share of the most work that it may do, 0 to 1
	Sheets int     // of the whole kit, as far as it is known
}

// PlanWatched is [Plan] that tells its progress: with each paper that is
// done, and with each better layout. Papers that were not searched yet count
// with the sheets that they take in a kit from before, of a brief search; an
// empty kit will do. When the context ends during the search, the kit holds
// the best so far.
func PlanWatched(ctx context.Context, d Design, before Kit, tell func(Progress)) (Kit, error) {
	w := &watch{tell: tell, before: map[string]int{}}
	for _, use := range before.Stock {
		w.before[use.Paper.Name] = use.Sheets
	}
	return plan(ctx, d, nil, w)
}

// watch is who is told of a search.
type watch struct {
	tell   func(Progress)
	before map[string]int // sheets of the papers not searched yet
	now    map[string]int // of the others
	done   float64        // told so far
}

// progress tells how far the search of one paper is.
func (w *watch) progress(paper string, sheets int, done float64) {
	if w == nil {
		return
	}
	if w.now == nil {
		w.now = map[string]int{}
	}
	w.now[paper] = sheets
	w.done = max(w.done, min(1, done)) // a job can be searched twice
	p := Progress{Paper: paper, Done: w.done}
	for _, n := range w.now {
		p.Sheets += n
	}
	for name, n := range w.before {
		if _, searched := w.now[name]; !searched {
			p.Sheets += n
		}
	}
	w.tell(p)
}

// searcher is the packer of a plan: a search whose work, that of the design's
// effort, is shared out among the papers. What one paper does not need, as its
// rows are proved best, say, goes to those after it.
type searcher struct {
	seed      uint64
	all, left nesting.Effort
	brief     nesting.Effort // of each paper, once the context has ended
	papers    int            // still to be laid
	paper     string         // that is being laid
	watch     *watch
}

func (d Design) searcher(pieces, papers int) *searcher {
	efforts := map[string]nesting.Effort{"quick": nesting.Quick, "normal": nesting.Normal, "thorough": nesting.Thorough}
	quick := min(nesting.Quick, quickEach*nesting.Effort(pieces))
	all := efforts[d.Sheets.Effort]
	if all == nesting.Quick {
		all = quick
	}
	return &searcher{seed: uint64(d.Sheets.Seed), all: all, left: all, brief: quick / nesting.Effort(max(1, papers)), papers: papers}
}

// Pack implements [nesting.Packer].
func (s *searcher) Pack(ctx context.Context, job nesting.Job) (nesting.Layout, error) {
	search := nesting.Search{Seed: s.seed, Effort: max(1, s.left/nesting.Effort(max(1, s.papers)))}
	s.papers--
	spent := float64(s.all - s.left)
	search.Progress = func(p nesting.Progress) {
		s.watch.progress(s.paper, p.Sheets, (spent+p.Done*float64(search.Effort))/float64(s.all))
	}
	var r nesting.Result
	var err error
	if ctx.Err() == nil {
		r, err = search.Find(ctx, job)
		s.left -= r.Work
	}
	if ctx.Err() != nil && s.watch == nil {
		return r.Layout, ctx.Err()
	}
	if ctx.Err() != nil { // no worse than a brief search
		search.Effort, search.Progress = max(1, s.brief), nil
		brief, briefErr := search.Find(context.WithoutCancel(ctx), job)
		if r.Layout.Sheets == nil || err != nil || briefErr == nil && len(brief.Layout.Sheets) < len(r.Layout.Sheets) {
			r, err = brief, briefErr
		}
	}
	if err == nil {
		done := float64(s.all-s.left) / float64(s.all)
		if s.papers <= 0 {
			done = 1
		}
		s.watch.progress(s.paper, len(r.Layout.Sheets), done)
	}
	return r.Layout, err
}
