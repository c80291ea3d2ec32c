package page

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"strings"
	"time"
)

//go:embed style.css page.js queue.js templates/*.html
var files embed.FS

// A Server answers the page's requests. It keeps nothing but what can be
// worked out again, and writes nothing to disk.
type Server struct {
	desk  *desk
	start string // the packed design that the page opens with
	pages *template.Template
	mux   *http.ServeMux

	searches searches
}

// most time for a request: a look at a design, and a kit with a long search.
const (
	lookTime   = 20 * time.Second
	kitTime    = 5 * time.Minute
	searchTime = 30 * time.Minute
)

// New returns a server that opens with the given design. It works out so many
// designs at once as there are processors to do so.
func New(design []byte, atOnce int) *Server {
	sv := &Server{desk: newDesk(max(1, atOnce)), start: encode(design), mux: http.NewServeMux()}
	sv.pages = template.Must(template.New("").Funcs(templateFuncs).ParseFS(files, "templates/*.html"))
	sv.mux.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) {
		http.Redirect(w, r, place(sv.start), http.StatusSeeOther)
	})
	sv.mux.HandleFunc("GET /favicon.ico", func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) })
	sv.mux.HandleFunc("GET /style.css", own("style.css", "text/css; charset=utf-8"))
	sv.mux.HandleFunc("GET /page.js", own("page.js", "text/javascript; charset=utf-8"))
	sv.mux.HandleFunc("GET /queue.js", own("queue.js", "text/javascript; charset=utf-8"))
	sv.mux.HandleFunc("GET /front.svg", sv.serveFront)
	sv.mux.HandleFunc("GET /d/{design}/{$}", sv.timed(lookTime, sv.servePage))
	sv.mux.HandleFunc("GET /d/{design}/kit.zip", sv.timed(kitTime, sv.serveZip))
	sv.mux.HandleFunc("GET /d/{design}/design.toml", sv.timed(lookTime, sv.serveDesign))
	sv.mux.HandleFunc("GET /d/{design}/files/{name...}", sv.timed(kitTime, sv.serveFile))
	sv.mux.HandleFunc("GET /d/{design}/cuts/{step}", sv.timed(lookTime, sv.serveCut))
	sv.mux.HandleFunc("GET /d/{design}/search", sv.timed(searchTime, sv.serveSearch))
	sv.mux.HandleFunc("POST /set", sv.timed(lookTime, sv.serveSet))
	sv.mux.HandleFunc("POST /open", sv.timed(lookTime, sv.serveOpen))
	sv.mux.HandleFunc("POST /take", sv.timed(kitTime, sv.serveTake))
	return sv
}

// Handler returns the server behind its guard.
func (sv *Server) Handler() http.Handler { return guard(squeezed(sv.mux)) }

// HTTP returns a server that serves the page, with limits on what a client
// may take.
func (sv *Server) HTTP() *http.Server {
	return &http.Server{
		Handler:           sv.Handler(),
		ReadHeaderTimeout: 10 * time.Second,
		ReadTimeout:       30 * time.Second,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    1 << 18,
	}
}

// own serves one of the page's own files.
func own(name, kind string) http.HandlerFunc {
	data, err := files.ReadFile(name)
	if err != nil {
		panic(err)
	}
	return func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", kind)
		w.Header().Set("Cache-Control", "no-cache")
		http.ServeContent(w, r, "", time.Time{}, strings.NewReader(string(data)))
	}
}

// timed ends a request's work after a while, or when its reader has gone.
func (sv *Server) timed(most time.Duration, serve func(http.ResponseWriter, *http.Request) error) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		ctx, stop := context.WithTimeout(r.Context(), most)
		defer stop()
		w.Header().Set("Cache-Control", "no-store")
		late := time.Now().Add(most + 10*time.Second)
		answer := http.NewResponseController(w)
		answer.SetWriteDeadline(late)
		answer.SetReadDeadline(late) // past it the server takes the reader for gone
		sv.tell(w, serve(w, r.WithContext(ctx)))
	}
}

// A told error goes to the reader with its status.
type told struct {
	status int
	text   string
}

func (t *told) Error() string { return t.text }

// tell answers with an error, if there is one.
func (sv *Server) tell(w http.ResponseWriter, err error) {
	var t *told
	var large *http.MaxBytesError
	switch {
	case err == nil || errors.Is(err, context.Canceled):
		return
	case errors.As(err, &t):
	case errors.As(err, &large):
		t = &told{http.StatusRequestEntityTooLarge, "That is more than a design file may be."}
	case errors.Is(err, errBadLink) || errors.Is(err, errLongLink):
		t = &told{http.StatusBadRequest, sentence(err.Error())}
	case errors.Is(err, context.DeadlineExceeded):
		t = &told{http.StatusServiceUnavailable, "This took too long and was stopped. Use fewer cards or a plainer front, or a brief search."}
	default:
		t = &told{http.StatusInternalServerError, fmt.Sprintf("This could not be done: %v.", err)}
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(t.status)
	sv.pages.ExecuteTemplate(w, "trouble", t.text)
}

// stateOf reads the design in an address and works it out.
func (sv *Server) stateOf(r *http.Request) (*state, error) {
	text, err := decode(r.PathValue("design"))
	if err != nil {
		return nil, err
	}
	w, err := sv.desk.work(r.Context(), text)
	if err != nil {
		return nil, err
	}
	return newState(w, viewFrom(r.URL.Query())), nil
}

// servePage answers with the page, or with its sections alone.
func (sv *Server) servePage(w http.ResponseWriter, r *http.Request) error {
	if r.PathValue("design") == inPage {
		return &told{http.StatusBadRequest, "This design was too long for an address, and only the page that showed it had it. Open the saved file."}
	}
	s, err := sv.stateOf(r)
	if err != nil {
		return err
	}
	if wantsParts(r) {
		return sv.answerParts(w, r, s, "", laterParts(r)...)
	}
	return sv.answerPage(w, r, http.StatusOK, s)
}

func wantsParts(r *http.Request) bool { return r.Header.Get("Accept") == "application/json" }

func (sv *Server) answerPage(w http.ResponseWriter, r *http.Request, status int, s *state) error {
	var b strings.Builder
	p := newPage(s)
	if err := sv.asked(r, p); err != nil {
		return err
	}
	if err := sv.pages.ExecuteTemplate(&b, "page", p); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	w.Write([]byte(b.String())) // who does not read to the end has gone
	return nil
}
