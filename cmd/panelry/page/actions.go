package page

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sort"
	"strconv"
	"strings"

	"panelry/geometry"
	"panelry/layouts"
)

// act carries out a button: "paper.add", "step front.margin 1", "choose
// front.gap=1/8|front.margin=1/16". The second result names it, for undo.
func (sv *Server) act(ctx context.Context, s *state, button string, fields map[string]string) (*state, string, error) {
	word, rest, _ := strings.Cut(button, " ")
	switch word {
	case "paper.add":
		return sv.done(ctx, s, s.addPaper(), "a new paper", "papers")
	case "paper.drop", "paper.up", "paper.down":
		n, err := strconv.Atoi(rest)
		if err != nil || n < 0 || n >= len(s.design.Papers) {
			return s, "", nil
		}
		text, err := s.movePaper(word, n)
		if err != nil {
			s.errors[fmt.Sprintf("papers.%d", n)] = wrong{text: sentence(err.Error())}
			return s, "", nil
		}
		what := map[string]string{"paper.drop": "taking out ", "paper.up": "order of ", "paper.down": "order of "}[word]
		return sv.done(ctx, s, text, what+s.design.Papers[n].Name, "papers")
	case "step":
		return sv.step(ctx, s, rest, fields)
	case "choose":
		typed := map[string]string{}
		for _, pair := range strings.Split(rest, "|") {
			if key, value, ok := strings.Cut(pair, "="); ok {
				typed[key] = value
			}
		}
		return sv.change(ctx, s, s.changesOf(typed))
	case "slant":
		return sv.slant(ctx, s, rest)
	}
	return s, "", nil
}

// done goes on with a text, or tells at a key why it cannot be.
func (sv *Server) done(ctx context.Context, s *state, text []byte, name, key string) (*state, string, error) {
	next, problem, err := sv.take(ctx, s, text)
	switch {
	case err != nil:
		return nil, "", err
	case next == nil:
		s.errors[key] = wrong{text: s.told(problem.Text)}
		return s, "", nil
	}
	return next, name, nil
}

// addPaper adds a paper with the sheet of the last one, and puts it last
// among the papers of the panels, where the design lists them.
func (s *state) addPaper() []byte {
	names := []string{}
	sheet := `"12 x 12 in"`
	if s.show() == geometry.Millimetres {
		sheet = `"ISO A4"`
	}
	if s.paperless() {
		return s.firstPapers(sheet)
	}
	for i, p := range s.design.Papers {
		names = append(names, p.Name)
		if raw := s.raw[fmt.Sprintf("papers.%d.sheet", i)]; raw != "" && !strings.HasPrefix(raw, "[") {
			sheet = raw
		}
	}
	name := ""
	for n := len(names) + 1; name == "" || slices.Contains(names, name); n++ {
		name = fmt.Sprintf("paper %d", n)
	}
	text := layouts.AddTable(s.text, "papers", []layouts.Edit{{Key: "papers.x.name", Value: layouts.QuoteText(name)}, {Key: "papers.x.sheet", Value: sheet}})
	if list := s.raw["front.papers"]; strings.HasPrefix(list, "[") && s.reads {
		names := append(slices.Clone(s.design.Front.Papers), name)
		if changed, err := layouts.Rewrite(text, []layouts.Edit{{Key: "front.papers", Value: listText(names)}}); err == nil {
			return changed
		}
	}
	return text
}

func listText(names []string) string {
	items := make([]string, len(names))
	for i, n := range names {
		items[i] = layouts.QuoteText(n)
	}
	return "[" + strings.Join(items, ", ") + "]"
}

// movePaper takes a paper out, or changes places with a neighbour.
func (s *state) movePaper(word string, n int) ([]byte, error) {
	switch word {
	case "paper.up":
		if n == 0 {
			return s.text, nil
		}
		return layouts.SwapTables(s.text, "papers", n-1)
	case "paper.down":
		if n+1 >= len(s.design.Papers) {
			return s.text, nil
		}
		return layouts.SwapTables(s.text, "papers", n)
	}
	name := s.design.Papers[n].Name
	if used := s.usedByName(name); used != "" {
		return nil, errors.New(used)
	}
	text, err := layouts.DropTable(s.text, "papers", n)
	if err != nil || !s.reads || !strings.HasPrefix(s.raw["front.papers"], "[") {
		return text, err
	}
	left := slices.DeleteFunc(slices.Clone(s.design.Front.Papers), func(other string) bool { return other == name })
	if len(left) == 0 {
		return nil, fmt.Errorf("%s is the only paper of the panels", name)
	}
	return layouts.Rewrite(text, []layouts.Edit{{Key: "front.papers", Value: listText(left)}})
}

// step goes some marks of the ruler, or some whole numbers, up or down from
// what was typed: "front.margin 1", "front.gap -4".
func (sv *Server) step(ctx context.Context, s *state, order string, fields map[string]string) (*state, string, error) {
	key, by, _ := strings.Cut(order, " ")
	c, ok := controlFor(key, s.layout())
	steps, err := strconv.Atoi(by)
	if !ok || err != nil || steps == 0 || steps < -1000 || steps > 1000 {
		return s, "", nil
	}
	typed, sent := fields[key]
	if !sent {
		typed = s.shown(c)
	}
	next, ok := s.stepped(c, typed, steps)
	if !ok {
		return s, "", nil
	}
	after, name, err := sv.change(ctx, s, s.changesOf(map[string]string{key: next}))
	if err != nil || steps < 0 || !after.refused() {
		return after, name, err
	}
	return sv.stepMost(ctx, after, c, typed, steps)
}

// stepMost takes as many of some refused steps up as can be; where not even
// what was typed can be taken, the state stays, with its error.
func (sv *Server) stepMost(ctx context.Context, s *state, c control, typed string, steps int) (*state, string, error) {
	var best *state
	var failed error
	sort.Search(steps, func(fewer int) bool { // the most that can be come first
		text := typed
		if n := steps - 1 - fewer; n > 0 {
			text, _ = s.stepped(c, typed, n)
		}
		next := s
		if changes := s.changesOf(map[string]string{c.Key: text}); len(changes) > 0 && failed == nil {
			next, _, failed = sv.try(ctx, s, changes)
		}
		if next != nil {
			best = next
		}
		return next != nil
	})
	switch {
	case failed != nil || best == nil:
		return s, "", failed
	case best == s:
		delete(s.errors, c.Key)
		return s, "", nil
	}
	return best, s.nameOf(c.Key), nil
}

// stepped returns what stands some steps further.
func (s *state) stepped(c control, typed string, steps int) (string, bool) {
	switch c.Kind {
	case asCount, asPercent:
		n, err := strconv.Atoi(strings.TrimSpace(typed))
		if typed == "" {
			n, err = 0, nil
		}
		return strconv.Itoa(max(0, n+steps)), err == nil
	case asLength:
		unit := s.show()
		text := strings.TrimSpace(typed)
		if text == "" {
			text = "0"
		}
		l, err := geometry.ParseLength(text, unit)
		if err != nil {
			return "", false
		}
		own := "" // a unit that was typed stays
		for _, u := range []geometry.Unit{geometry.Millimetres, geometry.Centimetres, geometry.Inches} {
			if strings.HasSuffix(text, u.String()) {
				unit, own = u, " "+u.String()
			}
		}
		l = nextMark(l, s.rulerStep(unit), steps)
		return bare(l, unit) + own, true
	}
	return "", false
}

// rulerStep is what an arrow key steps by: the design's ruler in its own kind
// of unit, else 1/16 in or 1 mm.
func (s *state) rulerStep(unit geometry.Unit) geometry.Length {
	step := geometry.Inch / 16
	if unit != geometry.Inches {
		step = geometry.Millimetre
	}
	if s.reads && geometry.RulerUnit(s.design.Ruler) == unit && s.design.Ruler < step {
		step = s.design.Ruler
	}
	return step
}

// nextMark goes to the next mark of a ruler first, and then mark by mark. It
// stops at 0.
func nextMark(l, step geometry.Length, steps int) geometry.Length {
	marks := l / step
	if l%step != 0 && steps < 0 {
		marks++
	}
	return max(0, (marks+geometry.Length(steps))*step)
}

// slant turns the cut of a cell of diagonal halves: "A1".
func (sv *Server) slant(ctx context.Context, s *state, cell string) (*state, string, error) {
	rows := s.slants()
	var column, row int
	if n, err := fmt.Sscanf(cell, "%d,%d", &column, &row); n != 2 || err != nil || row < 0 || column < 0 || row >= len(rows) || column >= len(rows[row]) {
		return s, "", nil
	}
	line := []byte(rows[row])
	if line[column] == '/' {
		line[column] = '\\'
	} else {
		line[column] = '/'
	}
	rows[row] = string(line)
	next, _, err := sv.change(ctx, s, map[string]string{"front.slant": strings.Join(rows, "\n")})
	return next, "turn of a cut", err
}

// slants reads from the card which way each cell is cut, row by row; none
// where it is not one of diagonal halves.
func (s *state) slants() []string {
	if !s.drawn || s.layout().Name != "diagonal halves" {
		return nil
	}
	columns, rows := s.kit.Design.Front.Options.Count("columns"), s.kit.Design.Front.Options.Count("rows")
	panels := s.kit.Card.Panels
	if len(panels) != 2*columns*rows || columns*rows > 64 {
		return nil
	}
	out := make([]string, rows)
	hand := map[string]string{}
	for _, p := range panels {
		hand[strings.TrimRight(p.Name, "ab")] = p.Hand
	}
	for r := range rows {
		for c := range columns {
			mark := hand[fmt.Sprintf("%c%d", 'A'+c, r+1)]
			if mark == "" {
				return nil
			}
			out[r] += mark
		}
	}
	return out
}
