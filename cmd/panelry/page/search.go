package page

import (
	"encoding/json"
	"fmt"
	"net/http"
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
	ctx := r.Context()
	done, err := sv.desk.turn(ctx)
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
			if !stopped {
				send(found{Done: 1, Sheets: len(got.kit.Sheets), End: true})
			}
			return nil
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
