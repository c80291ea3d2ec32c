package page

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"sync"
	"time"

	"panelry/layouts"
)

// found is one message of a search that goes on.
type found struct {
	Done   float64 `json:"done"` // share of the work, 0 to 1
	Sheets int     `json:"sheets"`
	Text   string  `json:"text"`
	End    bool    `json:"end"`
}

// serveSearch searches as long as the design says, and tells how far it is,
// as server-sent events (HTML standard, section 9.2). When the reader leaves
// or stops it, the best so far is kept.
func (sv *Server) serveSearch(w http.ResponseWriter, r *http.Request) error {
	text, err := decode(r.PathValue("design"))
	if err != nil {
		return err
	}
	work, err := sv.desk.work(r.Context(), text)
	if err != nil {
		return err
	}
	if !work.planned {
		return &told{http.StatusUnprocessableEntity, "There is nothing to search for yet."}
	}
	if r.URL.Query().Get("stop") != "" {
		if _, err = sv.keepBest(r.Context(), work); err == nil {
			w.WriteHeader(http.StatusNoContent)
		}
		return err
	}
	if r.URL.Query().Get("again") != "" {
		if work.stopped {
			sv.desk.put(work.goingOn())
		}
		w.WriteHeader(http.StatusNoContent)
		return nil
	}
	w.Header().Set("Content-Type", "text/event-stream")
	answer := http.NewResponseController(w)
	send := func(f found) {
		data, _ := json.Marshal(f)
		fmt.Fprintf(w, "data: %s\n\n", data)
		answer.Flush()
	}
	if work.searched {
		send(found{Done: 1, Sheets: len(work.kit.Sheets), End: true})
		return nil
	}
	return sv.search(r, work, send)
}

// search runs the search beside the answering, which goes on at most twice a
// second.
func (sv *Server) search(r *http.Request, work *worked, send func(found)) error {
	ctx, over := sv.searches.begin(r.Context(), keyOf(work.text))
	defer over()
	done, err := sv.desk.longTurn(ctx)
	if err != nil {
		return nil
	}
	defer done()
	now := found{Sheets: len(work.kit.Sheets)}
	news := make(chan layouts.Progress, 1)
	type result struct {
		kit layouts.Kit
		err error
	}
	end := make(chan result, 1)
	go func() {
		kit, err := layouts.PlanWatched(ctx, work.design, work.kit, func(p layouts.Progress) {
			select {
			case news <- p:
			default: // the last one was not told yet
			}
		})
		end <- result{kit, err}
	}()
	tick := time.NewTicker(500 * time.Millisecond)
	defer tick.Stop()
	for {
		select {
		case p := <-news:
			now.Done, now.Sheets = max(now.Done, p.Done), p.Sheets
		case <-tick.C:
			now.Text = searchText(now, work)
			send(now)
		case got := <-end:
			stopped := ctx.Err() != nil
			if got.err == nil && len(got.kit.Sheets) > 0 {
				sv.desk.put(work.with(got.kit, stopped))
			}
			send(found{Done: 1, Sheets: len(got.kit.Sheets), End: true}) // also where another request stopped it
			return nil
		}
	}
}

// searches are those that go on, by the text of their design.
type searches struct {
	mu sync.Mutex
	on map[string]map[*running]bool
}

type running struct {
	stop context.CancelFunc
	over chan struct{}
}

// begin notes a search; over must be called when it has ended.
func (s *searches) begin(ctx context.Context, key string) (own context.Context, over func()) {
	own, stop := context.WithCancel(ctx)
	r := &running{stop, make(chan struct{})}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.on == nil {
		s.on = map[string]map[*running]bool{}
	}
	if s.on[key] == nil {
		s.on[key] = map[*running]bool{}
	}
	s.on[key][r] = true
	return own, func() {
		stop()
		s.mu.Lock()
		defer s.mu.Unlock()
		delete(s.on[key], r)
		if len(s.on[key]) == 0 {
			delete(s.on, key)
		}
		close(r.over)
	}
}

// stop ends the searches of a design, and waits until what they found is
// kept.
func (s *searches) stop(ctx context.Context, key string) {
	s.mu.Lock()
	var list []*running
	for r := range s.on[key] {
		list = append(list, r)
	}
	s.mu.Unlock()
	for _, r := range list {
		r.stop()
		select {
		case <-r.over:
		case <-ctx.Done():
		}
	}
}

func searchText(now found, work *worked) string {
	least := 0
	for _, u := range work.kit.Stock {
		least += u.Least
	}
	text := fmt.Sprintf("%.0f %% of the work. Best so far: %s", 100*now.Done, counted(now.Sheets, "sheet", "sheets"))
	if least > 0 {
		text += fmt.Sprintf("; %d would be the fewest that could do", least)
	}
	return text + "."
}
