package page

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/fronts"
)

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

// changesOf compares what was sent with what stood in the fields, and returns
// the keys that were changed with what was typed. Keys that the page does not
// have are left out.
func (s *state) changesOf(fields map[string]string) map[string]string {
	out := map[string]string{}
	for key, typed := range fields {
		if number, ok := paperNumber(key); ok && number >= len(s.design.Papers) {
			continue
		}
		c, ok := controlFor(key, s.layout())
		if ok && tidy(typed) != tidy(s.shown(c)) {
			out[key] = typed
		}
	}
	return out
}

// tidy takes out what a browser does to line ends.
func tidy(text string) string {
	return strings.TrimSpace(strings.ReplaceAll(text, "\r\n", "\n"))
}

// with returns the text of the design with some keys changed.
func (s *state) with(typed map[string]string) ([]byte, error) {
	text := s.text
	var edits []layouts.Edit
	set := func(key, value string) { edits = append(edits, layouts.Edit{Key: key, Value: value}) }
	for _, key := range sortedKeys(typed) {
		c, ok := controlFor(key, s.layout())
		if !ok && strings.HasPrefix(key, "front.") {
			l, _ := fronts.Find(typed["front.layout"]) // an option of the layout that is chosen with it
			c, ok = controlFor(key, l)
		}
		if !ok {
			return nil, fmt.Errorf("%s is no key of a design", key)
		}
		value := tidy(typed[key])
		if key == "title" {
			value = strings.Join(strings.Fields(value), " ") // its field has lines, a title has none
		}
		toml := c.tomlOf(s.withUnit(c, value), s.raw[key])
		switch {
		case key == "card.size":
			s.cardSize(value, set)
		case key == "card.width" || key == "card.height":
			s.cardSide(key, toml, typed, set)
		case key == "card.orientation" && s.raw["card.width"] != "":
			set("card.width", s.raw["card.height"])
			set("card.height", s.raw["card.width"])
		case key == "front.layout":
			set(key, toml)
			s.dropOptions(value, set)
		case key == "batch.cards":
			set(key, toml)
			s.otherCards(value, typed, set)
		case key == "batch.plan":
			s.plan(value, typed["batch.by_hand"], set)
		case strings.HasSuffix(key, ".name") && strings.HasPrefix(key, "papers."):
			if value == "" {
				return nil, errors.New("a paper needs a name")
			}
			set(key, toml)
			s.rename(key, value, set)
		default:
			if _, apart := s.dotted(key); apart {
				return nil, fmt.Errorf("%s stands in a table of its own in the file, and this page changes none of those; change it there", key)
			}
			set(key, toml)
		}
	}
	return layouts.Rewrite(text, once(edits))
}

// once keeps the last of several edits of a key.
func once(edits []layouts.Edit) []layouts.Edit {
	var out []layouts.Edit
	for i, e := range edits {
		if !slices.ContainsFunc(edits[i+1:], func(f layouts.Edit) bool { return f.Key == e.Key }) {
			out = append(out, e)
		}
	}
	return out
}

// withUnit puts the unit that is looked at behind a bare number, where that is
// not the design's own.
func (s *state) withUnit(c control, typed string) string {
	if c.Kind != asLength || !s.reads || s.unit == geometry.NoUnit || s.unit == s.design.Units || typed == "" {
		return typed
	}
	if _, err := geometry.ParseLength(typed, geometry.NoUnit); err == nil {
		return typed // it has its own
	}
	if _, err := geometry.ParseLength(typed, s.unit); err != nil {
		return typed
	}
	return typed + " " + s.unit.String()
}

// cardSize takes a named size, or puts the two sides of the present one.
func (s *state) cardSize(name string, set func(key, value string)) {
	if name != "" {
		set("card.size", layouts.QuoteText(name))
		set("card.width", "")
		set("card.height", "")
		return
	}
	if s.raw["card.size"] == "" || !s.reads {
		return
	}
	set("card.size", "")
	set("card.orientation", "")
	set("card.width", layouts.QuoteText(s.exact(s.design.Card.Size.W)))
	set("card.height", layouts.QuoteText(s.exact(s.design.Card.Size.H)))
}

// exact writes a length with its unit, in a unit that can say it.
func (s *state) exact(l geometry.Length) string {
	if unit := s.design.Units; unit != geometry.NoUnit && l.FormatsExactly(unit) {
		return l.Format(unit)
	}
	return l.MM() + " mm"
}

// cardSide changes a side; a card that had a named size then has two sides.
func (s *state) cardSide(key, toml string, typed map[string]string, set func(key, value string)) {
	if typed["card.size"] != "" {
		return // a named size, chosen with it, says both
	}
	if s.raw["card.size"] != "" {
		s.cardSize("", set)
	}
	set(key, toml)
}

// dropOptions takes out what another layout does not have: options of the old
// one, and papers and directions by panel, since panels have other names.
func (s *state) dropOptions(name string, set func(key, value string)) {
	l, ok := fronts.Find(name)
	if !ok {
		return
	}
	old := s.layout()
	for _, o := range old.Options {
		key := "front." + o.Name
		raw, there := s.raw[key]
		if !there {
			continue
		}
		n, has := l.Option(o.Name)
		value, _ := layouts.ReadValue(raw)
		if has && n.Kind == o.Kind {
			if _, err := l.ReadOption(o.Name, value, s.design.Units); err == nil {
				continue
			}
		}
		set(key, "")
	}
	for _, key := range []string{"front.papers", "front.direction"} {
		if strings.HasPrefix(s.raw[key], "{") {
			set(key, "")
		}
	}
	if s.raw["batch.by_hand"] != "" {
		set("batch.by_hand", "")
		set("batch.plan", "")
	}
}

// plan changes the plan. "by hand" begins with the papers as they are.
func (s *state) plan(name, typed string, set func(key, value string)) {
	set("batch.plan", layouts.QuoteText(name))
	switch {
	case name != "by hand":
		set("batch.by_hand", "")
	case s.raw["batch.by_hand"] == "" && typed == "" && s.drawn && !s.paperless():
		set("batch.by_hand", s.dealt(nil))
	}
}

// dealt writes the papers of every card, as they are now but for some panels
// of one card.
func (s *state) dealt(other func(card int, panel string) (string, bool)) string {
	var rows []string
	for card := 1; card <= s.kit.Design.Batch.Cards; card++ {
		var names []string
		for _, p := range s.kit.Card.Panels {
			name := s.kit.PaperOn(p, card).Name
			if other != nil {
				if n, ok := other(card, p.Name); ok {
					name = n
				}
			}
			names = append(names, layouts.QuoteText(name))
		}
		rows = append(rows, "["+strings.Join(names, ", ")+"]")
	}
	return "[\n  " + strings.Join(rows, ",\n  ") + "]"
}

// namesPapers are the keys that name papers.
var namesPapers = []string{"card.paper", "front.papers", "batch.by_hand"}

// rename changes a paper's name wherever it is named.
func (s *state) rename(key, name string, set func(key, value string)) {
	value, _ := layouts.ReadValue(s.raw[key])
	old, _ := value.(string)
	if old == "" || name == "" {
		return
	}
	for k, raw := range s.raw {
		for _, names := range namesPapers {
			if k != names && !strings.HasPrefix(k, names+".") {
				continue
			}
			if changed := renamed(raw, old, name); changed != raw {
				set(k, changed)
			}
		}
	}
}

// quoted finds the strings of a value.
var quoted = regexp.MustCompile(`"(?:[^"\\\n]|\\.)*"|'[^'\n]*'`)

// renamed changes a name in a value, and leaves what is a key in it.
func renamed(raw, old, name string) string {
	var b strings.Builder
	from := 0
	for _, at := range quoted.FindAllStringIndex(raw, -1) {
		value, _ := layouts.ReadValue(raw[at[0]:at[1]])
		isKey := strings.HasPrefix(strings.TrimLeft(raw[at[1]:], " \t"), "=")
		b.WriteString(raw[from:at[0]])
		if value == old && !isKey {
			b.WriteString(layouts.QuoteText(name))
		} else {
			b.WriteString(raw[at[0]:at[1]])
		}
		from = at[1]
	}
	return b.String() + raw[from:]
}

// change carries out changed fields. What cannot be taken is noted beside its
// field, and the rest is done. The second result names what was changed, for
// undo.
func (sv *Server) change(ctx context.Context, s *state, typed map[string]string) (*state, string, error) {
	if len(typed) == 0 {
		return s, "", nil
	}
	next, complaint, err := sv.try(ctx, s, typed)
	if err != nil {
		return nil, "", err
	}
	if next != nil {
		return next, s.names(sortedKeys(typed)), nil
	}
	if len(typed) == 1 {
		for key, text := range typed {
			s.errors[key] = wrong{typed: text, text: complaint}
		}
		return s, "", nil
	}
	var done []string
	errors := map[string]wrong{}
	for _, key := range sortedKeys(typed) { // one by one, and each that can be
		one, complaint, err := sv.try(ctx, s, map[string]string{key: typed[key]})
		if err != nil {
			return nil, "", err
		}
		if one == nil {
			errors[key] = wrong{typed: typed[key], text: complaint}
			continue
		}
		s = one
		done = append(done, key)
	}
	s.errors = errors
	return s, s.names(done), nil
}

// try carries out changes together; a complaint says why it cannot be.
func (sv *Server) try(ctx context.Context, s *state, typed map[string]string) (next *state, complaint string, err error) {
	text, err := s.with(typed)
	if err != nil {
		return nil, s.told(err.Error()), nil
	}
	next, problem, err := sv.take(ctx, s, text)
	return next, s.complaint(typed, problem), err
}

// take goes on with another text, unless more is wrong with it than was
// before.
func (sv *Server) take(ctx context.Context, s *state, text []byte) (next *state, problem layouts.Problem, err error) {
	if bytes.Equal(text, s.text) {
		return s, problem, nil
	}
	if len(text) > layouts.MostBytes {
		return nil, layouts.Problem{Text: "the design would get longer than a design file may be"}, nil
	}
	w, err := sv.desk.work(ctx, text)
	if err != nil {
		return nil, problem, err
	}
	if worse := len(w.problems) > 0 && (len(s.problems) == 0 || len(w.problems) > len(s.problems)); worse {
		return nil, newProblem(s.problems, w.problems), nil
	}
	return newState(w, s.view), problem, nil
}
