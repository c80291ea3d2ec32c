package page

import (
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"net/url"
	"strings"

	"panelry/export/svg/checker"
	"panelry/layouts"
	"panelry/layouts/fronts"
)

// serveOpen takes a design file, or an SVG file with shapes for the design.
func (sv *Server) serveOpen(w http.ResponseWriter, r *http.Request) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	name, data, err := upload(r)
	if err != nil {
		return err
	}
	if strings.HasSuffix(strings.ToLower(name), ".svg") || strings.Contains(string(data[:min(len(data), 1000)]), "<svg") {
		return sv.openShapes(w, r, form, name, data)
	}
	work, err := sv.desk.work(r.Context(), data)
	if err != nil {
		return err
	}
	looked, _ := url.ParseQuery(form.Get(fieldView))
	s := newState(work, view{unit: viewFrom(looked).unit, card: 1, sheet: 1})
	if !work.reads && form.Get(fieldDesign) != "" {
		old, err := sv.formState(r, form)
		if err != nil {
			return err
		}
		lines := problemLines(work.problems)
		first := min(len(lines), firstLines)
		old.errors["open"] = wrong{text: name + " cannot be opened. " + strings.Join(lines[:first], " "), more: lines[first:]}
		if s, _, err = sv.stillWrong(r, old, "", nil, form[fieldWrong]); err != nil {
			return err
		}
	}
	if wantsParts(r) {
		return sv.answerParts(w, r, s, "opening of "+name)
	}
	return sv.answerForm(w, r, s)
}

// Of what is wrong with a file the first lines are told at once, the others
// unfolded.
const firstLines, mostLines = 3, 200

// problemLines writes problems as sentences with their places.
func problemLines(problems layouts.Problems) []string {
	var lines []string
	for i, p := range problems {
		if i == mostLines {
			return append(lines, fmt.Sprintf("And %d more.", len(problems)-mostLines))
		}
		line := sentence(p.Text)
		if p.Key != "" {
			line = p.Key + ": " + ended(p.Text)
		}
		if p.Line > 0 {
			line = fmt.Sprintf("Line %d: %s", p.Line, line)
		}
		lines = append(lines, line)
	}
	return lines
}

// upload returns the file that was sent.
func upload(r *http.Request) (name string, data []byte, err error) {
	file, header, err := r.FormFile("file")
	if err != nil {
		return "", nil, &told{http.StatusBadRequest, "No file was chosen."}
	}
	defer file.Close()
	data, err = io.ReadAll(io.LimitReader(multipart.File(file), layouts.MostBytes+1))
	switch {
	case err != nil:
		return "", nil, &told{http.StatusBadRequest, "The file could not be read."}
	case len(data) > layouts.MostBytes:
		return "", nil, &told{http.StatusRequestEntityTooLarge, fmt.Sprintf("%s is larger than a design file may be.", header.Filename)}
	}
	return header.Filename, data, nil
}

// openShapes puts an SVG file into the design, and makes its outlines the
// front.
func (sv *Server) openShapes(w http.ResponseWriter, r *http.Request, form url.Values, name string, data []byte) error {
	s, err := sv.formState(r, form)
	if err != nil {
		return err
	}
	next, undo, err := sv.keepShapes(r, s, name, string(data))
	if err != nil {
		return err
	}
	if wantsParts(r) {
		return sv.answerParts(w, r, next, undo)
	}
	return sv.answerForm(w, r, next)
}

func (sv *Server) keepShapes(r *http.Request, s *state, name, data string) (*state, string, error) {
	refuse := func(text string) (*state, string, error) {
		s.errors["shapes"] = wrong{text: text}
		return s, "", nil
	}
	if _, err := checker.Shapes([]byte(data)); err != nil {
		return refuse(ended(fmt.Sprintf("%s: %v", name, err)))
	}
	edits := []layouts.Edit{{Key: "front.layout", Value: layouts.QuoteText(ownShapes)}, {Key: "front.shapes", Value: layouts.QuoteText(name)}, shapesEdit(name, data)}
	s.dropOptions(ownShapes, func(key, v string) { edits = append(edits, layouts.Edit{Key: key, Value: v}) })
	return sv.rewritten(r.Context(), s, once(edits), "shapes of "+name, "shapes")
}

// shapesEdit puts the text of an SVG file into a design.
func shapesEdit(name, data string) layouts.Edit {
	value := "'''\n" + strings.ReplaceAll(data, "\r\n", "\n") + "'''"
	if strings.Contains(data, "'''") {
		value = layouts.QuoteText(data)
	}
	return layouts.Edit{Key: "shapes." + name, Value: value}
}

// KeepShapes puts the SVG files that a front takes its shapes from into the
// text of a design, as the page opens no files. open reads one that is not
// kept there yet. It returns the names of those that were put in.
func KeepShapes(d layouts.Design, open func(name string) ([]byte, error)) (text []byte, kept []string, err error) {
	var edits []layouts.Edit
	for _, o := range d.Front.Layout.Options {
		raw, said := d.RawValue("front." + o.Name)
		value, _ := layouts.ReadValue(raw)
		name, isText := value.(string)
		if o.Kind != fronts.File || !said || !isText {
			continue
		}
		if _, there := d.RawValue("shapes." + name); there {
			continue
		}
		data, err := open(name)
		if err != nil {
			return nil, nil, err
		}
		edits = append(edits, shapesEdit(name, string(data)))
		kept = append(kept, name)
	}
	text, err = layouts.Rewrite(d.Source, edits)
	if err == nil && len(text) > layouts.MostBytes {
		err = fmt.Errorf("with %s in it the design is larger than a design file may be", strings.Join(kept, " and "))
	}
	return text, kept, err
}
