package nesting

import (
	"context"
	"sync"
)

// seedStep keeps the seeds of threads apart from those a person gives.
const seedStep = 0x9e3779b97f4a7c15

// findInThreads searches with as many seeds at once and takes the best
// layout, the first of equals. A thread that has a proven best ends those
// behind it, which could only be its equals: the answer does not depend on
// which thread is quicker.
func (s Search) findInThreads(ctx context.Context, job Job) (Result, error) {
	n := s.Threads
	results, errs := make([]Result, n), make([]error, n)
	shared := &sharedProgress{tell: s.Progress, parts: make([]Progress, n)}
	ctxs, stops := make([]context.Context, n), make([]context.CancelFunc, n)
	for i := range n {
		ctxs[i], stops[i] = context.WithCancel(ctx)
		defer stops[i]()
	}
	var done sync.WaitGroup
	for i := range n {
		one := s
		one.Threads, one.Seed, one.Progress, one.beside = 1, s.Seed+uint64(i)*seedStep, shared.of(i), n-1
		done.Go(func() {
			results[i], errs[i] = one.Find(ctxs[i], job)
			if errs[i] == nil && results[i].Proved {
				for _, stop := range stops[i+1:] {
					stop()
				}
			}
		})
	}
	done.Wait()
	best := 0
	for i := range n {
		if errs[i] == nil && (errs[best] != nil || job.better(results[i].Layout, results[best].Layout)) {
			best = i
		}
		if errs[i] == nil && results[i].Proved {
			break
		}
	}
	return results[best], errs[best]
}

// sharedProgress puts the progress of several threads together.
type sharedProgress struct {
	lock  sync.Mutex
	tell  func(Progress)
	parts []Progress
}

func (p *sharedProgress) of(i int) func(Progress) {
	if p.tell == nil {
		return nil
	}
	return func(now Progress) {
		p.lock.Lock()
		defer p.lock.Unlock()
		p.parts[i] = now
		best, done := now, 0.0
		for _, part := range p.parts {
			done += part.Done / float64(len(p.parts))
			if part.Sheets > 0 && (part.Sheets < best.Sheets || part.Sheets == best.Sheets && part.Length < best.Length) {
				best = part
			}
		}
		best.Done = done
		p.tell(best)
	}
}
