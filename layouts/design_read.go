package layouts

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"panelry/geometry"
	"panelry/layouts/cards"
	"panelry/layouts/fronts"
	"panelry/layouts/papers"
	"panelry/layouts/wording"
)

// An Opener fetches the outlines in a named file, for layouts that take
// shapes from one. The command line opens files beside the design; the page
// refuses.
type Opener func(name string) ([]geometry.Outline, error)

// Read reads and checks a design file. The error, if the file could be read
// at all, is [Problems]: all that is wrong with it at once, each with its
// place, its key and a sentence.
func Read(r io.Reader, open Opener) (Design, error) {
	return ReadIn(geometry.NoUnit, r, open)
}

// ReadIn is [Read] with the unit of bare numbers in a file that has no
// `units` of its own.
func ReadIn(unit geometry.Unit, r io.Reader, open Opener) (Design, error) {
	data, err := io.ReadAll(io.LimitReader(r, MostBytes+1))
	if err != nil {
		return Design{}, err
	}
	f, where, problems := decode(data)
	if where == nil {
		return Design{}, problems
	}
	in := &reading{file: f, places: where, problems: problems, unit: unit, open: open}
	in.design.Source = data
	in.all()
	if len(in.problems) > 0 {
		slices.SortStableFunc(in.problems, func(a, b Problem) int {
			return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
		})
		return Design{}, in.problems
	}
	return in.design, nil
}

// reading is a design in the making.
type reading struct {
	file   file
	places map[string]place
	unit   geometry.Unit
	open   Opener

	design   Design
	problems Problems
}

// wrong notes a problem at a key, given as in places.
func (in *reading) wrong(key, format string, args ...any) {
	at := in.places[key]
	for k := key; at.line == 0 && k != ""; { // a missing key is told at its table
		k = k[:max(0, strings.LastIndexByte(k, '.'))]
		at = in.places[k]
	}
	in.problems = append(in.problems, Problem{at.line, at.column, in.shown(key), fmt.Sprintf(format, args...)})
}

// shown writes "papers.1.sheet" as a maker would look for it: "papers 2
// (kelp): sheet".
func (in *reading) shown(key string) string {
	rest, found := strings.CutPrefix(key, "papers.")
	if !found {
		return key
	}
	number, rest, _ := strings.Cut(rest, ".")
	i, err := strconv.Atoi(number)
	if err != nil || i >= len(in.file.Papers) {
		return key
	}
	name := ""
	if text, ok := in.file.Papers[i].Name.(string); ok {
		name = " (" + text + ")"
	}
	return strings.TrimSuffix(fmt.Sprintf("papers %d%s: %s", i+1, name, rest), ": ")
}

func (in *reading) all() {
	d := &in.design
	in.top()
	in.tools()
	in.papers()
	in.card()
	in.front()
	d.Batch = in.batch()
	in.sheets()
}

func (in *reading) top() {
	d := &in.design
	d.Title = in.text("title", in.file.Title, "untitled card")
	if len([]rune(d.Title)) > 300 || strings.ContainsFunc(d.Title, unicode.IsControl) {
		in.wrong("title", "write a title of one line and at most 300 letters")
	}
	if word := in.choice("units", in.file.Units, "", []string{"in", "mm"}); word != "" {
		d.Units, _ = geometry.ParseUnit(word)
		in.unit = d.Units
	}
	d.Ruler = geometry.Inch / 16 // common practice, no source
	if d.Units == geometry.Millimetres {
		d.Ruler = geometry.Millimetre / 2
	}
	if in.file.Ruler != nil {
		d.Ruler = in.length("ruler", in.file.Ruler, d.Ruler)
		if d.Ruler < 10*geometry.Micrometre {
			in.wrong("ruler", "the smallest step must be at least 0.01 mm; write it like 1/16 in or 0.5 mm")
			d.Ruler = geometry.Millimetre
		}
	}
}

func (in *reading) tools() {
	known := []string{string(Cutter), string(Trimmer), string(Knife)}
	list, isList := in.file.Tool.([]any)
	if !isList {
		in.design.Tools = []Tool{Tool(in.choice("tool", in.file.Tool, string(Cutter), known))}
		return
	}
	for _, v := range list {
		tool := Tool(in.choice("tool", v, "", known))
		if slices.Contains(in.design.Tools, tool) {
			in.wrong("tool", "%q stands twice", tool)
		}
		in.design.Tools = append(in.design.Tools, tool)
	}
	if len(list) == 0 {
		in.wrong("tool", "the list is empty; write %s", wording.Or(known))
	}
}

func (in *reading) card() {
	c, card := in.file.Card, &in.design.Card
	card.Size = in.cardSize()
	base, err := cards.ParseBase(in.text("card.base", c.Base, string(cards.Flat)))
	if err != nil {
		in.wrong("card.base", "%v", err)
	}
	card.Base = base
	card.Paper = in.paperName("card.paper", c.Paper)
	if card.Size != (geometry.Size{}) && base != "" {
		if _, err := base.Lay(card.Size); err != nil {
			in.wrong("card", "%v", err)
			card.Size = geometry.Size{}
		}
	}
}

// cardSize returns the closed front's size, or nothing with a problem noted.
func (in *reading) cardSize() geometry.Size {
	c := in.file.Card
	byName, bySides := c.Size != nil, c.Width != nil || c.Height != nil
	var size geometry.Size
	switch {
	case byName && bySides:
		in.wrong("card.size", "write either size, or width and height, not both")
		return size
	case byName:
		size = in.size("card.size", c.Size, cards.ForCard)
	case c.Width != nil && c.Height != nil:
		size = geometry.Size{W: in.length("card.width", c.Width, 0), H: in.length("card.height", c.Height, 0)}
	default:
		in.wrong("card", `the closed card's size is missing; write size = "US A2", or width and height`)
	}
	if size.W <= 0 || size.H <= 0 {
		if size != (geometry.Size{}) {
			in.wrong("card", "width and height must be more than 0")
		}
		return geometry.Size{}
	}
	way := in.choice("card.orientation", c.Orientation, "", []string{"upright", "landscape"})
	turn := way == "upright" && size.W > size.H || way == "landscape" && size.W < size.H
	if turn && bySides {
		in.wrong("card.orientation", "%q, but the card is %s; exchange width and height, or leave orientation out", way, size.Format(in.unit))
	}
	if turn {
		size = size.Turned()
	}
	return size
}

func (in *reading) front() {
	values, front := in.file.Front, &in.design.Front
	front.Margin = in.notNegative("front.margin", values["margin"], in.usual())
	front.Gap = in.notNegative("front.gap", values["gap"], in.usual())
	direction, err := ParseDirection(in.text("front.direction", values["direction"], "upright"))
	if err != nil {
		in.wrong("front.direction", "%v", err)
	}
	front.Direction = direction
	in.frontPapers(values["papers"])
	in.layout(values)
	size := in.design.Card.Size
	if least := min(size.W, size.H); least > 0 && 2*front.Margin >= least {
		in.wrong("front.margin", "two margins of %s leave nothing of %s; use less than %s",
			front.Margin.Format(in.unit), least.Format(in.unit), (least / 2).Format(in.unit))
	}
}

// usual is the margin and the gap of a design that does not say: common
// practice, no source.
func (in *reading) usual() geometry.Length {
	if in.unit == geometry.Millimetres {
		return 3 * geometry.Millimetre
	}
	return geometry.Inch / 8
}

// layout finds the layout and reads its options.
func (in *reading) layout(values map[string]any) {
	var names []string
	for _, l := range fronts.All() {
		names = append(names, l.Name)
	}
	name := in.choice("front.layout", values["layout"], "", names)
	if values["layout"] == nil {
		in.wrong("front.layout", "missing; write one of %s", wording.Or(names))
	}
	layout, ok := fronts.Find(name)
	if !ok {
		return
	}
	front := &in.design.Front
	front.Layout, front.Options = layout, layout.Defaults()
	known := slices.Clone(frontKeys)
	for _, o := range layout.Options {
		known = append(known, o.Name)
	}
	for key, value := range values {
		if !slices.Contains(known, key) {
			in.wrong("front."+key, "%q has no such key%s", name, meantKey(key, known))
			continue
		}
		if slices.Contains(frontKeys, key) {
			continue
		}
		read, err := layout.ReadOption(key, value, in.unit)
		if err != nil {
			in.wrong("front."+key, "%v", err)
			continue
		}
		front.Options[key] = read
	}
}

// frontPapers reads papers in turn, or by panel.
func (in *reading) frontPapers(value any) {
	front := &in.design.Front
	switch v := value.(type) {
	case nil:
		for _, name := range paperNames(in.design.Papers) {
			if name != in.design.Card.Paper {
				front.Papers = append(front.Papers, name)
			}
		}
	case string:
		front.Papers = []string{in.paperName("front.papers", v)}
	case []any:
		for _, item := range v {
			front.Papers = append(front.Papers, in.paperName("front.papers", item))
		}
	case map[string]any:
		front.ByPanel = map[string]string{}
		for panel, paper := range v {
			front.ByPanel[panel] = in.paperName("front.papers."+panel, paper)
		}
		if rest, ok := front.ByPanel["rest"]; ok {
			front.Papers = []string{rest}
			delete(front.ByPanel, "rest")
		}
	default:
		in.wrong("front.papers", `write a list of papers, like ["kelp", "tide"], or a table by panel`)
	}
	if len(front.Papers) == 0 && len(front.ByPanel) == 0 {
		in.wrong("front.papers", "there is no paper for the panels; name one, and describe it under [[papers]]")
	}
}

// paperName reads the name of a paper that must be described.
func (in *reading) paperName(key string, value any) string {
	if value == nil {
		in.wrong(key, "missing; name the paper, and describe it under [[papers]]")
		return ""
	}
	name := in.text(key, value, "")
	known := paperNames(in.design.Papers)
	if name != "" && !slices.Contains(known, name) {
		in.wrong(key, "no paper is called %q%s", name, meantPaper(name, known))
	}
	return name
}

func meantPaper(name string, known []string) string {
	if len(known) == 0 {
		return "; describe it under [[papers]]"
	}
	return meantKey(name, known)
}

func (in *reading) batch() BatchSettings {
	b := in.file.Batch
	out := BatchSettings{
		Cards:  in.count("batch.cards", b.Cards, 1, 1, MostCards),
		Spares: in.count("batch.spares", b.Spares, 0, 0, MostSpares),
	}
	var names []string
	for _, p := range papers.Plans() {
		names = append(names, p.Name)
	}
	out.Plan = in.choice("batch.plan", b.Plan, names[0], names)
	return out
}

// Edge and spacing when a design does not say: interfaces, [sheets].
const (
	cutterEdge    = geometry.Inch / 4
	cutterSpacing = geometry.Inch / 16
)

func (in *reading) sheets() {
	s, out := in.file.Sheets, &in.design.Sheets
	edge, spacing := geometry.Length(0), geometry.Length(0)
	if slices.Contains(in.design.Tools, Cutter) {
		edge, spacing = cutterEdge, cutterSpacing
	}
	out.Edge = in.notNegative("sheets.edge", s.Edge, edge)
	out.Spacing = in.notNegative("sheets.spacing", s.Spacing, spacing)
	out.Bleed = in.notNegative("sheets.bleed", s.Bleed, 0)
	if most := geometry.Inch; out.Bleed > most {
		in.wrong("sheets.bleed", "%s is more than %s", out.Bleed.Format(in.unit), most.Format(in.unit))
	}
	if word := in.choice("sheets.labels", s.Labels, "map", []string{"map", "waste", "back"}); word != "map" && word != "" {
		in.wrong("sheets.labels", `names on %s cannot be written yet; use "map", which puts them on the sheet maps`, word)
	}
	out.Effort = in.choice("sheets.effort", s.Effort, "quick", []string{"quick", "normal", "thorough"})
	out.Seed = int64(in.count("sheets.seed", s.Seed, 0, 0, math.MaxInt32))
	out.Colours = LayerColours{
		Cut:   in.colour("sheets.cut_colour", s.CutColour, ""),
		Score: in.colour("sheets.score_colour", s.ScoreColour, ""),
		Print: in.colour("sheets.print_colour", s.PrintColour, ""),
	}
	for key, value := range map[string]any{"effort": s.Effort, "seed": s.Seed} {
		if value != nil {
			in.design.notes = append(in.design.notes, Warning{"no-effect",
				"sheets." + key + " has no effect: pieces are laid in rows, without a search", "sheets." + key})
		}
	}
	slices.SortFunc(in.design.notes, func(a, b Warning) int { return cmp.Compare(a.Where, b.Where) })
}
