package layouts

import (
	"cmp"
	"errors"
	"io"
	"math"
	"slices"
	"strings"

	"panelry/geometry"
	"panelry/layouts/cards"
	"panelry/layouts/papers"
	"panelry/layouts/wording"
)

// An Opener fetches the outlines in a named file, for layouts that take
// shapes from one. Where the design keeps the file itself, under [shapes],
// that is its text, and nothing needs to be opened; else text is nil. The
// command line opens files beside the design; the page only reads what the
// design keeps.
type Opener func(name string, text []byte) ([]geometry.Outline, error)

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
	f, keys, problems := decode(data)
	if keys == nil {
		return Design{}, problems
	}
	in := &reading{file: f, keyring: keyringFrom(f, keys.places), unit: unit, open: open}
	in.design.Source, in.design.keys = data, in.keyring
	for _, u := range keys.unknown() {
		in.wrong(u.path, "no such key%s", meantKey(u.name, u.known))
	}
	in.all()
	in.checkCard()
	if len(in.problems) > 0 {
		in.problems.sort()
		return Design{}, in.problems
	}
	return in.design, nil
}

// reading is a design in the making.
type reading struct {
	file file
	keyring
	unit geometry.Unit
	open Opener

	design   Design
	problems Problems
	currency papers.Price // nothing, in the currency of the prices so far
}

// wrong notes a problem at a key, given as in places.
func (in *reading) wrong(key, format string, args ...any) {
	in.problems = append(in.problems, in.problem(key, format, args...))
}

// checkCard divides the front, if what is known of the card suffices, so
// that what is wrong with it is told together with all else.
func (in *reading) checkCard() {
	d := in.design
	for _, p := range in.problems {
		if strings.HasPrefix(p.Key, "card") || strings.HasPrefix(p.Key, "front") || strings.HasPrefix(p.Key, "batch") {
			return
		}
	}
	card, err := planCard(d)
	if err == nil {
		err = d.checkPieces(card)
	}
	if err == nil {
		_, err = d.dealPapers(card)
	}
	var problems Problems
	if errors.As(err, &problems) {
		in.problems = append(in.problems, problems...)
	}
}

func (in *reading) all() {
	d := &in.design
	in.top()
	in.tools()
	in.papers()
	in.card()
	in.shapes()
	in.front()
	d.Batch = in.batch()
	in.sheets()
	in.trimmer()
	in.shop()
}

func (in *reading) top() {
	d := &in.design
	d.Units = in.unit
	if d.Title = in.text("title", in.file.Title, ""); d.Title == "" {
		d.Title = "untitled card"
	}
	if len([]rune(d.Title)) > 300 || strings.ContainsFunc(d.Title, unprintable) {
		in.wrong("title", "write a title of one line and at most 300 letters")
	}
	if word := in.choice("units", in.file.Units, "", []string{"in", "mm"}); word != "" {
		d.Units, _ = geometry.ParseUnit(word)
		in.unit = d.Units
	} else if in.file.Units != nil && in.unit == geometry.NoUnit {
		in.unit = geometry.Inches // so that not every bare number is told as well
	}
	d.Ruler = UsualRuler(in.unit)
	if in.file.Ruler != nil {
		d.Ruler = in.length("ruler", in.file.Ruler, d.Ruler)
		if d.Ruler < 10*geometry.Micrometre || d.Ruler > geometry.Inch {
			in.wrong("ruler", "the smallest step must be from 0.01 mm to 1 in; write it like 1/16 in or 0.5 mm")
			d.Ruler = geometry.Millimetre
		}
	}
}

// UsualRuler returns the smallest step of a usual ruler: 1/16 in, or 1/2 mm.
// Common practice, no source.
func UsualRuler(unit geometry.Unit) geometry.Length {
	if unit == geometry.Millimetres {
		return geometry.Millimetre / 2
	}
	return geometry.Inch / 16
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
		if tool != "" && slices.Contains(in.design.Tools, tool) {
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
	case bySides && c.Height == nil:
		in.wrong("card.height", "missing; a card has a width and a height")
		return size
	case bySides && c.Width == nil:
		in.wrong("card.width", "missing; a card has a width and a height")
		return size
	case bySides:
		size = geometry.Size{W: in.side("card.width", c.Width), H: in.side("card.height", c.Height)}
	default:
		in.wrong("card", `the closed card's size is missing; write size = "US A2", or width and height`)
	}
	if size.W <= 0 || size.H <= 0 {
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

// side reads a width or a height; 0 with a problem noted.
func (in *reading) side(key string, value any) geometry.Length {
	before := len(in.problems)
	length := in.length(key, value, 0)
	if length <= 0 && len(in.problems) == before {
		in.wrong(key, "%s is not more than 0", length.Format(in.unit))
	}
	return max(0, length)
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
	if bleed := in.bleedOf("sheets.bleed", s.Bleed); bleed != nil {
		out.Bleed = *bleed
	}
	if word := in.choice("sheets.labels", s.Labels, "map", []string{"map", "waste", "back"}); word != "map" && word != "" {
		in.wrong("sheets.labels", `names on %s cannot be written yet; use "map", which puts them on the sheet maps`, word)
	}
	out.Effort = in.choice("sheets.effort", s.Effort, "quick", []string{"quick", "normal", "thorough"})
	out.InHoles = in.yes("sheets.in_holes", s.InHoles, !slices.ContainsFunc(in.design.Tools, func(t Tool) bool { return t != Cutter }))
	out.Seed = int64(in.count("sheets.seed", s.Seed, 0, 0, math.MaxInt32))
	out.Colours = LayerColours{
		Cut:   in.colour("sheets.cut_colour", s.CutColour, ""),
		Score: in.colour("sheets.score_colour", s.ScoreColour, ""),
		Print: in.colour("sheets.print_colour", s.PrintColour, ""),
	}
	slices.SortFunc(in.design.notes, func(a, b Warning) int { return cmp.Compare(a.Where, b.Where) })
}
