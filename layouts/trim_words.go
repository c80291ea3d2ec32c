package layouts

import (
	"fmt"
	"math"
	"strings"

	"panelry/geometry"
	"panelry/geometry/trimming"
	"panelry/layouts/papers"
	"panelry/layouts/wording"
)

// trimWords says steps as sentences.
type trimWords struct {
	plan *TrimPlan
	stop geometry.Length // where the stop is
}

func (w *trimWords) sentence(s trimming.Step) string {
	var parts []string
	if s.Stop > 0 {
		if s.Stop == w.stop {
			parts = append(parts, "Leave the stop at "+w.length(s.Stop))
		} else {
			parts = append(parts, "Set the stop at "+w.length(s.Stop))
		}
		w.stop = s.Stop
	}
	switch s.Work {
	case trimming.CleanEdge:
		parts = append(parts, fmt.Sprintf("Trim the %s side off %s, for a clean edge to measure from", w.side(s), w.parts(s)))
	case trimming.Strips:
		parts = append(parts, fmt.Sprintf("Cut %s off %s, with the %s side against the stop", counted(s.Cuts, "strip"), w.parts(s), w.side(s)))
	case trimming.SlantStrips:
		parts = append(parts, fmt.Sprintf("Cut %s off %s, with the slanted edge against the stop", counted(s.Cuts, "strip"), w.parts(s)))
	case trimming.Slant:
		parts = append(parts, w.slant(s)...)
	case trimming.Score:
		parts = append(parts, w.score(s)...)
	}
	if most := w.mostInPile(s); most > 1 && s.Parts() > 1 {
		parts[len(parts)-1] += fmt.Sprintf(", in piles of up to %d, all right side up", most)
	}
	parts = append(parts, w.outcome(s)...)
	for i, p := range parts {
		parts[i] = strings.ToUpper(p[:1]) + p[1:]
	}
	return strings.Join(parts, ". ") + "."
}

// side is the side of a part that lies against the stop.
func (w *trimWords) side(s trimming.Step) string {
	if s.Upright {
		return "left"
	}
	return "upper"
}

func (w *trimWords) mostInPile(s trimming.Step) int {
	most := 0
	if s.Work == trimming.Score {
		return 0
	}
	for _, share := range s.Of {
		most = max(most, w.plan.Stocks[share.Stock].Pile)
	}
	return most
}

// parts names what is worked on, with its papers where it is a sheet.
func (w *trimWords) parts(s trimming.Step) string {
	size := w.size(s.Shape.Bounds().Size())
	n := s.Parts()
	switch {
	case strings.HasPrefix(s.Part, "block"):
		what := "block"
		if strings.HasSuffix(s.Part, "pair") {
			what = "pair"
		} else if !isOblong(s.Shape) {
			what = "cut block"
		}
		if n == 1 {
			return "a " + what + " of " + size
		}
		return fmt.Sprintf("each of %d %ss of %s", n, what, size) // there may be more
	case !strings.ContainsAny(s.Part, "0123456789") && w.plan.Stocks[s.Of[0].Stock].Roll:
		return "the length " + s.Part + " of the roll, " + size
	case !strings.ContainsAny(s.Part, "0123456789"):
		return some(n, "sheet") + " " + s.Part + w.papers(s.Of) + ", " + size
	}
	return some(n, "strip") + " " + s.Part + ", " + size
}

func some(n int, what string) string {
	if n == 1 {
		return "the " + what
	}
	return fmt.Sprintf("each of the %d %ss", n, what)
}

// mostPapers is how many papers a sentence lists.
const mostPapers = 8

// papers lists the papers of some sheets.
func (w *trimWords) papers(of []trimming.Share) string {
	var names []string
	for _, share := range of {
		name := w.plan.Stocks[share.Stock].Name
		if name == "" {
			return ""
		}
		if share.Count > 1 && len(of) > 1 {
			name = fmt.Sprintf("%d %s", share.Count, name)
		}
		names = append(names, name)
	}
	if len(names) > mostPapers {
		names = append(names[:mostPapers-1], fmt.Sprintf("%d more", len(names)-mostPapers+1))
	}
	return " (" + wording.AndPlain(names) + ")"
}

// slant says how a slanted cut is laid: tip to tip, or by two marks.
func (w *trimWords) slant(s trimming.Step) []string {
	from, to := w.mark(s.Shape, s.Line.A), w.mark(s.Shape, s.Line.B)
	if from.off == 0 && to.off == 0 {
		lay := fmt.Sprintf("turn %s right side up%s, both tips on the cutting line, %s to %s, point to the %s", w.parts(s), w.upright(s), from.corner, to.corner, w.point(s))
		return []string{lay, "cut"}
	}
	return []string{
		fmt.Sprintf("lay %s right side up%s", w.parts(s), w.upright(s)),
		fmt.Sprintf("mark %s and %s, and lay both marks on the cutting line, at %s to the upper side", from.text(w), to.text(w), angleText(s.Line)),
		"cut",
	}
}

// angleText is the angle of a slant to a level line.
func angleText(l geometry.Line) string {
	v := l.B.Sub(l.A)
	return fmt.Sprintf("%.0f°", math.Atan2(math.Abs(float64(v.Y)), math.Abs(float64(v.X)))*180/math.Pi)
}

// upright says how the pattern lies, for papers that have one.
func (w *trimWords) upright(s trimming.Step) string {
	for _, share := range s.Of {
		if p := w.plan.Stocks[share.Stock].Paper; p.Pattern == papers.TwoWay || p.Pattern == papers.OneWay {
			if p.PatternUp != 0 {
				return ", the pattern as it runs on the sheet"
			}
			return ", pattern upright"
		}
	}
	return ""
}

// point is the corner that what falls off points to.
func (w *trimWords) point(s trimming.Step) string {
	best, far := geometry.Point{}, -1.0
	v := s.Line.B.Sub(s.Line.A)
	for _, p := range s.Shape.Outer.Points() {
		u := p.Sub(s.Line.A)
		left := -(float64(v.X)*float64(u.Y) - float64(v.Y)*float64(u.X))
		if left > far {
			best, far = p, left
		}
	}
	return cornerName(best, s.Shape.Bounds())
}

// cornerName says where a corner is on a part: "upper left", or "upper" alone
// for one about half way along.
func cornerName(p geometry.Point, box geometry.Rect) string {
	middle := box.Centre()
	var words []string
	if d := p.Y - middle.Y; 4*d.Abs() > box.H() {
		words = append(words, map[bool]string{true: "lower", false: "upper"}[d > 0])
	}
	if d := p.X - middle.X; 4*d.Abs() > box.W() || len(words) == 0 {
		words = append(words, map[bool]string{true: "right", false: "left"}[d > 0])
	}
	return strings.Join(words, " ")
}

// mark is a point on a part's border: a corner, or so far from one along a
// side.
type mark struct {
	corner string
	off    geometry.Length
	side   string
}

func (m mark) text(w *trimWords) string {
	if m.off == 0 {
		return "the " + m.corner + " tip"
	}
	return fmt.Sprintf("the %s side %s from the %s tip", m.side, w.length(m.off), m.corner)
}

func (w *trimWords) mark(o geometry.Outline, p geometry.Point) mark {
	const close = 2 * geometry.Micrometre
	points := o.Outer.Points()
	box := o.Bounds()
	best, bestOff := mark{}, math.Inf(1)
	for i, a := range points {
		b := points[(i+1)%len(points)]
		along := p.Sub(a)
		side := b.Sub(a)
		off := math.Abs(float64(side.X)*float64(along.Y)-float64(side.Y)*float64(along.X)) / side.Len()
		if off > float64(close) {
			continue
		}
		for _, end := range []geometry.Point{a, b} {
			if d := p.Sub(end).Len(); d < bestOff {
				bestOff = d
				best = mark{cornerName(end, box), geometry.Length(math.Round(d)), sideName(a, b, box)}
			}
		}
	}
	if best.off <= close {
		best.off = 0
	}
	return best
}

// sideName says which side of a part runs between two corners.
func sideName(a, b geometry.Point, box geometry.Rect) string {
	const close = geometry.Micrometre
	switch {
	case (a.Y-box.Min.Y).Abs() <= close && (b.Y-box.Min.Y).Abs() <= close:
		return "upper"
	case (a.Y-box.Max.Y).Abs() <= close && (b.Y-box.Max.Y).Abs() <= close:
		return "lower"
	case (a.X-box.Min.X).Abs() <= close && (b.X-box.Min.X).Abs() <= close:
		return "left"
	case (a.X-box.Max.X).Abs() <= close && (b.X-box.Max.X).Abs() <= close:
		return "right"
	}
	return "slanted"
}

// score says which face lies up, and how the paper is folded then. All folds
// of the bases here stand up towards the outside.
func (w *trimWords) score(s trimming.Step) []string {
	way := "from side to side"
	if s.Upright {
		way = "from top to bottom"
	}
	return []string{
		fmt.Sprintf("lay %s with the outside of the card up and the %s side against the stop", w.parts(s), w.side(s)),
		fmt.Sprintf("score %s; do not cut. Fold with the scored side out", way),
	}
}

// outcome says what came off and what is left.
func (w *trimWords) outcome(s trimming.Step) []string {
	var parts []string
	left := s.Rest
	if len(s.Falls) == 1 && s.Falls[0].Count == 1 && !s.Falls[0].Offcut() && left.Count == 1 && left.Name != s.Part && w.what(s, s.Falls[0]) == w.what(s, left) {
		return []string{"both halves are " + w.what(s, left)}
	}
	for _, f := range s.Falls {
		switch {
		case f.Offcut() && s.Work == trimming.CleanEdge:
			parts = append(parts, "the strip is waste")
		case f.Offcut():
			parts = append(parts, w.offcut(f, "what falls off"))
		case len(s.Falls) == 1 && f.Count == 1:
			parts = append(parts, "what falls off is "+w.what(s, f))
		case len(s.Falls) == 1:
			parts = append(parts, "they are "+w.what(s, f))
		case f.Count == 1:
			parts = append(parts, "one is "+w.what(s, f))
		default:
			parts = append(parts, fmt.Sprintf("%d are %s", f.Count, w.what(s, f)))
		}
	}
	switch {
	case s.Work == trimming.Score || left.Count == 0 || left.Name == s.Part:
	case left.Offcut():
		parts = append(parts, w.offcut(left, "what is left"))
	default:
		parts = append(parts, "what is left is "+w.what(s, left))
	}
	return parts
}

// what says what a part that came off is.
func (w *trimWords) what(s trimming.Step, f trimming.Fall) string {
	turn := ""
	if f.Turned {
		turn = ", to be turned by a quarter"
	}
	size := w.size(f.Shape.Bounds().Size())
	switch {
	case f.Piece >= 0 && w.plan.Stocks[s.Of[0].Stock].Name == "":
		return plural("piece", f.Count) + " of " + size + turn
	case f.Piece >= 0:
		return w.pieces(s.Of, f.Piece) + turn
	case strings.HasSuffix(f.Name, "pair"):
		return plural("pair", f.Count) + " of " + size + turn
	case strings.HasPrefix(f.Name, "block"):
		return plural("block", f.Count) + " of " + size + turn
	}
	return plural("strip", f.Count) + " " + f.Name + ", " + size + turn
}

func plural(word string, n int) string {
	if n == 1 {
		return "a " + word
	}
	return word + "s"
}

// pieces names what a piece is in each stock: its kind, and the places on the
// first card.
func (w *trimWords) pieces(of []trimming.Share, piece int) string {
	var names []string
	for _, share := range of {
		g := w.plan.Stocks[share.Stock].Give(piece)
		name := g.Kind
		if len(g.Places) > 0 {
			places := g.Places
			if len(places) > 4 {
				places = append(places[:3:3], fmt.Sprintf("%d more", len(places)-3))
			}
			name += " (" + strings.Join(places, ", ") + ")"
		}
		names = append(names, name)
	}
	if len(names) > mostPapers {
		names = append(names[:mostPapers-1], fmt.Sprintf("%d more", len(names)-mostPapers+1))
	}
	return wording.AndPlain(names)
}

// keepable is the least side of an offcut that is worth keeping. Common
// practice, no source.
const keepable = geometry.Inch

func (w *trimWords) offcut(f trimming.Fall, what string) string {
	size := f.Shape.Bounds().Size()
	if f.Count > 1 {
		return fmt.Sprintf("%s is waste", what)
	}
	if min(size.W, size.H) < keepable || len(f.Shape.Outer) != 4 {
		return fmt.Sprintf("%s, %s, is waste", what, w.size(size))
	}
	return "keep the offcut, " + w.size(size)
}

// size writes a size as on the ruler where it lies on it.
func (w *trimWords) size(s geometry.Size) string { return s.Format(w.plan.Units) }

// length writes a length in the unit, with mm beside inches.
func (w *trimWords) length(l geometry.Length) string { return withMM(l, w.plan.Units) }

// withMM writes a length in the unit, with mm beside inches.
func withMM(l geometry.Length, unit geometry.Unit) string {
	if unit != geometry.Inches {
		return l.Format(unit)
	}
	mm := math.Round(l.In(geometry.Millimetres)*10) / 10
	return fmt.Sprintf("%s (%g mm)", l.Format(unit), mm)
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Summary says how many sheets and straight cuts a stock takes, and how they
// compare.
func (s TrimStock) Summary(unit geometry.Unit) string {
	best := fmt.Sprintf("at least %d %s", s.Bound, s.BoundName)
	if s.Proved {
		best = "proved best " + s.BoundName
	}
	if s.Roll {
		best := fmt.Sprintf("at least %s %s", s.BoundLength.Format(unit), s.BoundName)
		if s.Proved {
			best = "proved best " + s.BoundName
		}
		return fmt.Sprintf("%s from %s of the roll (%s), %.0f %% used; %s", counted(s.Pieces(), "piece"), s.Sheet.H.Format(unit), best, s.UsedPercent(), counted(s.Cuts, "straight cut"))
	}
	text := fmt.Sprintf("%s on %s of %s (%s), %.0f %% used; %s: %s and %s", counted(s.Pieces(), "piece"), counted(s.Sheets, "sheet"), s.Sheet.Format(unit), best,
		s.UsedPercent(), counted(s.Cuts, "straight cut"), counted(s.Blocks, "block"), counted(s.Offcuts, "offcut"))
	if s.PlainSheets > 0 && (s.PlainSheets != s.Sheets || s.Plain != s.Cuts) {
		text += fmt.Sprintf("; strip by strip it would be %s on %s", counted(s.Plain, "cut"), counted(s.PlainSheets, "sheet"))
	}
	if s.Pile > 1 {
		text += fmt.Sprintf("; piles of up to %d", s.Pile)
	}
	return text
}

// Summary says how often the stop is set, and how many strokes of the blade
// the whole plan takes.
func (t TrimPlan) Summary() string {
	best := ""
	if len(t.Stocks) == 1 && t.Stocks[0].Fewest {
		best = " (proved fewest)"
	}
	return fmt.Sprintf("%s, %s of the stop, %s of the blade%s", counted(len(t.Steps), "step"), counted(t.Settings(), "setting"), counted(t.Strokes(), "stroke"), best)
}
