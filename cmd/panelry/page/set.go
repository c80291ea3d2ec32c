package page

import (
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"
)

// Fields of a form that are no keys of the design begin with this.
const (
	fieldDesign = "~d"    // the packed design
	fieldView   = "~v"    // what is looked at, as behind the question mark
	fieldButton = "~do"   // the button that was pressed
	fieldHave   = "~have" // the sections that the page has, "card=1f2e,..."
	fieldTyping = "~typing"
	fieldWrong  = "~wrong" // a field that could not be taken before, "front.margin=1/6th"
)

// serveSet takes changed fields, or a button, and answers with the new design.
func (sv *Server) serveSet(w http.ResponseWriter, r *http.Request) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	s, err := sv.formState(r, form)
	if err != nil {
		return err
	}
	fields := map[string]string{}
	for key, list := range form {
		if !strings.HasPrefix(key, "~") && len(list) > 0 {
			fields[key] = list[len(list)-1]
		}
	}
	button := form.Get(fieldButton)
	for _, pair := range form[fieldWrong] { // steps go on from what stands in the field
		key, typed, _ := strings.Cut(pair, "=")
		if _, sent := fields[key]; !sent && strings.HasPrefix(button, "step "+key+" ") {
			fields[key] = typed
		}
	}
	next, name, err := sv.apply(r, s, fields, button)
	if err != nil {
		return err
	}
	if name != "" { // what was asked has been answered
		next.nice, next.fit = false, ""
	}
	if next, name, err = sv.stillWrong(r, next, name, fields, form[fieldWrong]); err != nil {
		return err
	}
	if wantsParts(r) {
		return sv.answerParts(w, r, next, name)
	}
	return sv.answerForm(w, r, next)
}

// apply carries out what a form asks for: the changed fields, then its button.
func (sv *Server) apply(r *http.Request, s *state, fields map[string]string, button string) (*state, string, error) {
	ctx := r.Context()
	for _, key := range sortedKeys(fields) {
		if answer := s.slipAnswer(key, fields[key]); answer != nil {
			return sv.panelChange(ctx, s, *answer)
		}
	}
	changes := s.changesOf(fields)
	word, rest, _ := strings.Cut(button, " ")
	if key, _, ok := strings.Cut(rest, " "); ok && word == "step" {
		delete(changes, key)
	}
	next, name, err := sv.change(ctx, s, changes)
	if err != nil || button == "" || len(next.errors) > 0 {
		return next, name, err
	}
	after, done, err := sv.act(ctx, next, button, fields)
	if done == "" {
		done = name
	}
	return after, done, err
}

// mostWrong bounds how many fields stay wrong side by side.
const mostWrong = 12

// stillWrong tries fields again that could not be taken before, so that what
// is wrong with them, and what was typed, stays on the page while others
// change. One that can be taken now is.
func (sv *Server) stillWrong(r *http.Request, s *state, name string, fields map[string]string, list []string) (*state, string, error) {
	for _, pair := range list[:min(mostWrong, len(list))] {
		key, typed, _ := strings.Cut(pair, "=")
		_, sent := fields[key]
		_, wrongNow := s.errors[key]
		one := s.changesOf(map[string]string{key: typed})
		if sent || wrongNow || len(one) == 0 {
			continue
		}
		next, complaint, err := sv.try(r.Context(), s, one)
		if err != nil {
			return nil, "", err
		}
		if next == nil {
			s.errors[key] = wrong{typed: typed, text: complaint, before: true}
			continue
		}
		next.errors, next.nice, next.fit = s.errors, s.nice, s.fit
		if name == "" {
			name = s.nameOf(key)
		} else {
			name = "several changes"
		}
		s = next
	}
	return s, name, nil
}

// refused reports whether something that was just sent could not be taken.
func (s *state) refused() bool {
	for _, e := range s.errors {
		if !e.before {
			return true
		}
	}
	return false
}

// answerForm sends a browser without script to the new address; where there
// is something to tell, it gets the page at once.
func (sv *Server) answerForm(w http.ResponseWriter, r *http.Request, s *state) error {
	s.base = place(s.packed) // for this answer stands at another address
	if len(s.errors) > 0 {
		return sv.answerPage(w, r, http.StatusUnprocessableEntity, s)
	}
	if len(s.packed) > longestLink {
		return sv.answerPage(w, r, http.StatusOK, s)
	}
	to := place(s.packed)
	if q := s.query(); q != "" {
		to += "?" + q
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
	return nil
}

// formOf reads a form of either kind.
func formOf(r *http.Request) (url.Values, error) {
	var large *http.MaxBytesError
	err := r.ParseForm()
	if kind := r.Header.Get("Content-Type"); err == nil && strings.HasPrefix(kind, "multipart/") {
		err = r.ParseMultipartForm(mostBody) // all of it in memory, nothing on disk
	}
	switch {
	case errors.As(err, &large):
		return nil, err
	case err != nil:
		return nil, &told{http.StatusBadRequest, "This form is damaged."}
	}
	return r.PostForm, nil
}

// formState is the design that a form brings with it.
func (sv *Server) formState(r *http.Request, form url.Values) (*state, error) {
	text, err := decode(form.Get(fieldDesign))
	if err != nil {
		return nil, err
	}
	work, err := sv.desk.work(r.Context(), text)
	if err != nil {
		return nil, err
	}
	looked, _ := url.ParseQuery(form.Get(fieldView))
	return newState(work, viewFrom(looked)), nil
}

// parts is what a page with script gets: the sections that it has not.
type parts struct {
	Address  string            `json:"address"`
	Design   string            `json:"design"`
	View     string            `json:"view"`
	Title    string            `json:"title"`
	Sections map[string]string `json:"sections"` // those that changed
	Tags     map[string]string `json:"tags"`     // by which all are known
	Undo     string            `json:"undo"`     // what the step is called; "" when nothing changed
	Refused  bool              `json:"refused"`  // something could not be taken
	Wrong    []string          `json:"wrong"`    // the fields that could not, as in ~wrong
	Status   string            `json:"status"`
	Search   bool              `json:"search"` // a longer search is asked for
}

// answerParts answers with the sections that the page has not, or with some
// that it asked for.
func (sv *Server) answerParts(w http.ResponseWriter, r *http.Request, s *state, undo string, only ...string) error {
	p := newPage(s)
	if err := sv.asked(r, p); err != nil {
		return err
	}
	out := parts{Address: place(s.packed), Design: s.packed, View: s.query(), Title: p.Title(), Sections: map[string]string{}, Tags: map[string]string{},
		Undo: undo, Refused: s.refused(), Status: p.Status(), Search: s.thorough() && !s.searched && !s.stopped && s.planned}
	if out.View != "" {
		out.Address += "?" + out.View
	}
	for _, key := range sortedKeys(s.errors) {
		if e := s.errors[key]; e.typed != "" {
			out.Wrong = append(out.Wrong, key+"="+e.typed)
		}
	}
	if !(out.Refused && r.FormValue(fieldTyping) != "") { // half a number is no error yet
		have := havePairs(r.FormValue(fieldHave))
		if len(only) == 0 {
			only = sections
		}
		for _, name := range only {
			text, tag, err := sv.section(p, name)
			if err != nil {
				return err
			}
			out.Tags[name] = tag
			if have[name] != tag {
				out.Sections[name] = text
			}
		}
	}
	w.Header().Set("Content-Type", "application/json")
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.Encode(out) // who does not read to the end has gone
	return nil
}

// laterParts are the sections that hold what asked works out.
func laterParts(r *http.Request) (only []string) {
	if r.URL.Query().Get("trim") == "1" {
		only = append(only, "cuts")
	}
	if r.URL.Query().Get("files") == "1" {
		only = append(only, "take")
	}
	return only
}

// asked works out what a page shows only when it is asked to: the straight
// cuts, and the list of all files.
func (sv *Server) asked(r *http.Request, p *pageData) error {
	q := r.URL.Query()
	if p.planned && q.Get("trim") == "1" {
		done, err := sv.desk.turn(r.Context())
		if err != nil {
			return err
		}
		defer done()
		p.Trim = true
		p.trimming()
	}
	if p.planned && q.Get("files") == "1" {
		made, err := sv.files(r.Context(), p.kit)
		if err != nil {
			return err
		}
		p.All = allFiles(made)
	}
	return nil
}

// sections are the parts of the page that are replaced whole.
var sections = []string{"papersdefs", "head", "strip", "card", "batch", "deck", "sheets", "trimmer", "cuts", "post", "take"}

// section draws one section, and the tag by which it is known.
func (sv *Server) section(p *pageData, name string) (text, tag string, err error) {
	var b strings.Builder
	err = sv.pages.ExecuteTemplate(&b, "s-"+name, p)
	sum := sha256.Sum256([]byte(b.String()))
	return b.String(), fmt.Sprintf("%x", sum[:6]), err
}

func havePairs(text string) map[string]string {
	have := map[string]string{}
	for _, pair := range strings.Split(text, ",") {
		if name, tag, ok := strings.Cut(pair, "="); ok {
			have[name] = tag
		}
	}
	return have
}
