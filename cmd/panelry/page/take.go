package page

import (
	"context"
	"mime"
	"net/http"
	"path"
	"strings"

	"panelry/export"
	"panelry/layouts"
)

// kit returns the kit of a design, and waits for nothing: a search that goes
// on ends, and its best is taken; before that it is what a brief search found.
// The page then shows the same sheets. Only who asks to wait gets the search
// that the design asks for.
func (sv *Server) kit(ctx context.Context, text []byte, wait bool) (layouts.Kit, error) {
	w, err := sv.desk.work(ctx, text)
	if err != nil {
		return layouts.Kit{}, err
	}
	if len(w.problems) > 0 {
		return layouts.Kit{}, &told{http.StatusUnprocessableEntity, "There is no kit yet. " + strings.Join(problemLines(w.problems), " ")}
	}
	if !wait && !w.searched {
		w, err = sv.keepBest(ctx, w)
	}
	if err != nil || w.searched || !wait {
		return w.kit, err
	}
	done, err := sv.desk.longTurn(ctx)
	if err != nil {
		return layouts.Kit{}, err
	}
	defer done()
	kit, err := layouts.Plan(ctx, w.design)
	if err == nil && ctx.Err() == nil {
		sv.desk.put(w.with(kit, false))
	}
	if err == nil {
		err = ctx.Err()
	}
	return kit, err
}

// keepBest ends the searches of a design and keeps the best that is found.
func (sv *Server) keepBest(ctx context.Context, w *worked) (*worked, error) {
	sv.searches.stop(ctx, keyOf(w.text))
	w, err := sv.desk.work(ctx, w.text)
	if err == nil && !w.searched && !w.stopped {
		w = w.with(w.kit, true)
		sv.desk.put(w)
	}
	return w, err
}

// waits reports whether a request would rather wait for the longer search.
func waits(r *http.Request) bool { return r.URL.Query().Get("wait") == "1" }

// with is the same design with a longer search's kit.
func (w *worked) with(kit layouts.Kit, stopped bool) *worked {
	return &worked{text: w.text, packed: w.packed, raw: w.raw, design: w.design, unknown: w.unknown, reads: true, drawn: true, planned: true,
		kit: kit, searched: !stopped, stopped: stopped}
}

// goingOn is the same design, to be searched on.
func (w *worked) goingOn() *worked {
	on := w.with(w.kit, false)
	on.searched = false
	return on
}

func (sv *Server) serveZip(w http.ResponseWriter, r *http.Request) error {
	text, err := decode(r.PathValue("design"))
	if err != nil {
		return err
	}
	return sv.answerZip(w, r, text)
}

func (sv *Server) answerZip(w http.ResponseWriter, r *http.Request, text []byte) error {
	kit, err := sv.kit(r.Context(), text, waits(r))
	if err != nil {
		return err
	}
	made, err := sv.files(r.Context(), kit)
	if err != nil {
		return err
	}
	data, err := export.Zip(made)
	if err != nil {
		return err
	}
	send(w, fileStem(kit.Design.Title)+"-kit.zip", true, data)
	return nil
}

// files makes files of a kit, in its turn.
func (sv *Server) files(ctx context.Context, kit layouts.Kit, only ...string) ([]export.File, error) {
	done, err := sv.desk.turn(ctx)
	if err != nil {
		return nil, err
	}
	defer done()
	return export.Files(kit, only...)
}

// serveFile answers with one file of the kit.
func (sv *Server) serveFile(w http.ResponseWriter, r *http.Request) error {
	text, err := decode(r.PathValue("design"))
	if err != nil {
		return err
	}
	return sv.answerFile(w, r, text, r.PathValue("name"))
}

func (sv *Server) answerFile(w http.ResponseWriter, r *http.Request, text []byte, name string) error {
	kit, err := sv.kit(r.Context(), text, waits(r))
	if err != nil {
		return err
	}
	made, err := sv.files(r.Context(), kit, kindsOf(name)...)
	if err != nil {
		return err
	}
	for _, f := range made {
		if f.Name == name {
			send(w, path.Base(name), r.URL.Query().Get("look") == "", f.Data)
			return nil
		}
	}
	return &told{http.StatusNotFound, "This kit has no such file."}
}

// kindsOf says which kinds of file hold a name, so that not all are made; all,
// where it is not known.
func kindsOf(name string) []string {
	for _, k := range fileKinds {
		if strings.HasPrefix(name, k.prefix) {
			return []string{k.kind}
		}
	}
	return nil
}

var fileKinds = []struct{ prefix, kind string }{
	{"sheets/", "sheets"}, {"maps/", "maps"}, {"picture.", "picture"}, {"batch.svg", "picture"}, {"blocks.svg", "picture"},
	{"template.pdf", "template"}, {"guide", "guide"}, {"aids/", "aids"}, {"pieces.csv", "pieces"}, {"design.toml", "design"},
}

// serveDesign answers with the design file as it stands.
func (sv *Server) serveDesign(w http.ResponseWriter, r *http.Request) error {
	text, err := decode(r.PathValue("design"))
	if err != nil {
		return err
	}
	return sv.answerDesign(w, r, text)
}

func (sv *Server) answerDesign(w http.ResponseWriter, r *http.Request, text []byte) error {
	name := "card"
	if work, err := sv.desk.work(r.Context(), text); err == nil && work.reads {
		name = fileStem(work.design.Title)
	}
	send(w, name+".toml", true, text)
	return nil
}

// serveTake gives files of a design that is too long for an address.
func (sv *Server) serveTake(w http.ResponseWriter, r *http.Request) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	text, err := decode(form.Get(fieldDesign))
	if err != nil {
		return err
	}
	switch name := form.Get("~file"); name {
	case "":
		return sv.answerZip(w, r, text)
	case "design.toml":
		return sv.answerDesign(w, r, text)
	default:
		return sv.answerFile(w, r, text, name)
	}
}

// send answers with a file, to be saved or to be looked at. What is looked at
// may hold its own style (the guide does) and nothing else.
func send(w http.ResponseWriter, name string, save bool, data []byte) {
	kind := mime.TypeByExtension(path.Ext(name))
	switch path.Ext(name) {
	case ".toml", ".md", ".csv":
		kind = "text/plain; charset=utf-8"
	case ".zip":
		kind = "application/zip"
	}
	w.Header().Set("Content-Type", kind)
	if save {
		w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name}))
	} else {
		w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; img-src data:; sandbox; base-uri 'none'; frame-ancestors 'none'")
	}
	w.Write(data)
}

// fileStem makes a file's name of a title: letters and digits, with hyphens.
func fileStem(title string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(title) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 40 {
			break
		}
	}
	if stem := strings.Trim(b.String(), "-"); stem != "" {
		return stem
	}
	return "card"
}
