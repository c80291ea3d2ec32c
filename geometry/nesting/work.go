package nesting

import "context"

// work counts what a search does, in units of about 4 ns on the
// machine it was measured on; clocks decide nothing. Each stage has a limit.
type work struct {
	ctx   context.Context
	done  int
	limit int
	fill  int // the limit of a first fill
	ended bool
	next  int    // done at which to tell next
	tell  func() // how far it is; nil for nobody
}

func (w *work) add(units int) { w.done += units }

// over reports whether the limit is reached or the context has ended.
func (w *work) over() bool {
	if w.tell != nil && w.done >= w.next {
		w.next = w.done + w.limit/100 + 1
		w.tell()
	}
	if !w.ended && w.ctx.Err() != nil {
		w.ended = true
	}
	return w.ended || w.done >= w.limit
}
