package layouts

import (
	"cmp"
	"fmt"
	"math"
	"slices"
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
	if piles := w.piles(s); piles != "" {
		parts[len(parts)-1] += piles
	}
	parts = append(parts, w.outcome(s)...)
	for i, p := range parts {
		parts[i] = strings.ToUpper(p[:1]) + p[1:]
	}
	return strings.Join(parts, ". ") + "."
}

// side is the side of a part that lies against the stop. For the left hand the
// paper lies turned half around.
func (w *trimWords) side(s trimming.Step) string {
	if s.Upright {
		return w.handed("left")
	}
	return w.handed("upper")
}

var turnedHalf = strings.NewReplacer("left", "right", "right", "left", "upper", "lower", "lower", "upper")

// handed turns the names of sides and corners half around for the left hand.
func (w *trimWords) handed(name string) string {
	if w.plan.Trimmer.LeftHanded {
		return turnedHalf.Replace(name)
	}
	return name
}

// piles says how many parts are cut at once: by paper where they differ.
func (w *trimWords) piles(s trimming.Step) string {
	if s.Work == trimming.Score || s.Parts() < 2 {
		return ""
	}
	var each []string
	least, most := math.MaxInt, 0
	for _, share := range s.Of {
		stock := w.plan.Stocks[share.Stock]
		n := min(stock.Pile, share.Count)
		least, most = min(least, stock.Pile), max(most, stock.Pile)
		each = append(each, fmt.Sprintf("%d of %s", n, stock.Name))
	}
	switch {
	case most < 2:
		return ""
	case least == most:
		return fmt.Sprintf(", in piles of up to %d, all right side up", min(most, s.Parts()))
	}
	return ", in piles of up to " + wording.OrPlain(each) + ", all right side up"
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
			return "a " + what + " of " + size + w.papers(s.Of)
		}
		return fmt.Sprintf("each of %d %ss of %s", n, what, size) + w.papers(s.Of) // there may be more
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

// papers lists the papers of some parts, and how many of each there are.
func (w *trimWords) papers(of []trimming.Share) string {
	var names []string
	alike := true
	for _, share := range of {
		if w.plan.Stocks[share.Stock].Name == "" {
			return ""
		}
		alike = alike && share.Count == of[0].Count
	}
	for _, share := range of {
		name := w.plan.Stocks[share.Stock].Name
		if !alike {
			name = fmt.Sprintf("%d %s", share.Count, name)
		}
		names = append(names, name)
	}
	if len(names) > mostPapers {
		names = append(names[:mostPapers-1], fmt.Sprintf("%d more papers", len(names)-mostPapers+1))
	}
	each := ""
	if alike && len(of) > 1 && of[0].Count > 1 {
		each = fmt.Sprintf("%d each of ", of[0].Count)
	}
	return " (" + each + wording.AndPlain(names) + ")"
}

// slant says how a slanted cut is laid: tip to tip, or by marks.
func (w *trimWords) slant(s trimming.Step) []string {
	corners := w.corners(s.Shape)
	from, to := w.mark(s.Shape, corners, s.Line.A), w.mark(s.Shape, corners, s.Line.B)
	lay := fmt.Sprintf("%s right side up%s", w.parts(s), w.upright(s))
	angle := fmt.Sprintf("on the cutting line, at %s to the %s side", angleText(s.Line), w.handed("upper"))
	switch {
	case from.off == 0 && to.off == 0:
		return []string{fmt.Sprintf("turn %s, both tips on the cutting line, %s to %s, point to the %s", lay, from.corner, to.corner, corners[w.point(s)]), "cut"}
	case from.off == 0:
		return []string{"lay " + lay, "mark " + to.place(w), fmt.Sprintf("lay the %s corner and the mark %s", from.corner, angle), "cut"}
	case to.off == 0:
		return []string{"lay " + lay, "mark " + from.place(w), fmt.Sprintf("lay the mark and the %s corner %s", to.corner, angle), "cut"}
	}
	return []string{"lay " + lay, "mark " + from.place(w), "mark " + to.place(w), "lay both marks " + angle, "cut"}
}

// angleText is the angle of a slant to a level line.
func angleText(l geometry.Line) string {
	v := l.B.Sub(l.A)
	return fmt.Sprintf("%.0f°", math.Atan2(math.Abs(float64(v.Y)), math.Abs(float64(v.X)))*180/math.Pi)
}

// upright says how the pattern lies, for papers that have one. All papers of a
// slant have theirs one way.
func (w *trimWords) upright(s trimming.Step) string {
	for _, share := range s.Of {
		if p := w.plan.Stocks[share.Stock].Paper; p.Pattern == papers.TwoWay || p.Pattern == papers.OneWay {
			up := int(p.PatternUp)
			if w.plan.Trimmer.LeftHanded {
				up = (up + 180) % 360
			}
			return map[int]string{0: ", pattern upright", 180: ", pattern upside down", 90: ", the pattern's top to the right", 270: ", the pattern's top to the left"}[up]
		}
	}
	return ""
}

// point is the corner, by its number, that what falls off points to.
func (w *trimWords) point(s trimming.Step) int {
	best, far := 0, -1.0
	v := s.Line.B.Sub(s.Line.A)
	for i, p := range s.Shape.Outer.Points() {
		u := p.Sub(s.Line.A)
		if left := -(float64(v.X)*float64(u.Y) - float64(v.Y)*float64(u.X)); left > far {
			best, far = i, left
		}
	}
	return best
}

// cornerSlack is how near a corner is to a side of the box that it lies on.
const cornerSlack = 2 * geometry.Micrometre

// corners names the corners of a convex part, each by another name: those on
// the upper and lower side of its box, from the left to the right, and then
// those between, from the upper to the lower.
func (w *trimWords) corners(o geometry.Outline) []string {
	points, box := o.Outer.Points(), o.Bounds()
	names := make([]string, len(points))
	groups := map[string][]int{}
	for i, p := range points {
		switch left := p.X < box.Centre().X; {
		case p.Y-box.Min.Y <= cornerSlack:
			groups["upper"] = append(groups["upper"], i)
		case box.Max.Y-p.Y <= cornerSlack:
			groups["lower"] = append(groups["lower"], i)
		case left:
			groups["left"] = append(groups["left"], i)
		default:
			groups["right"] = append(groups["right"], i)
		}
	}
	for _, level := range []string{"upper", "lower"} {
		list := groups[level]
		slices.SortFunc(list, func(a, b int) int { return cmp.Compare(points[a].X, points[b].X) })
		for k, i := range list {
			switch p := points[i]; {
			case len(list) > 1:
				names[i] = level + map[bool]string{true: " left", false: " right"}[k == 0]
			case p.X-box.Min.X <= cornerSlack:
				names[i] = level + " left"
			case box.Max.X-p.X <= cornerSlack:
				names[i] = level + " right"
			default:
				names[i] = level
			}
		}
	}
	for _, side := range []string{"left", "right"} {
		list := groups[side]
		slices.SortFunc(list, func(a, b int) int { return cmp.Compare(points[a].Y, points[b].Y) })
		for k, i := range list {
			names[i] = side
			if len(list) > 1 {
				names[i] = fmt.Sprintf("%s of the %d on the %s", ordinal(k+1, w.plan.Trimmer.LeftHanded, len(list)), len(list), side)
			}
		}
	}
	for i := range names {
		names[i] = w.handed(names[i])
	}
	return names
}

// ordinal counts corners from the top; for the left hand the last is the
// first.
func ordinal(k int, turned bool, of int) string {
	if turned {
		k = of + 1 - k
	}
	words := []string{"first", "second", "third", "fourth", "fifth", "sixth"}
	if k > len(words) {
		return fmt.Sprintf("%dth", k)
	}
	return words[k-1]
}

// mark is a point on a part's border: a corner, or so far from one along a
// side.
type mark struct {
	corner string
	off    geometry.Length
	side   string
}

// place says where the mark is to be made.
func (m mark) place(w *trimWords) string {
	return fmt.Sprintf("the %s side %s from the %s corner", m.side, w.length(m.off), m.corner)
}

func (w *trimWords) mark(o geometry.Outline, corners []string, p geometry.Point) mark {
	points := o.Outer.Points()
	best, bestOff := mark{}, math.Inf(1)
	for i, a := range points {
		j := (i + 1) % len(points)
		along, side := p.Sub(a), points[j].Sub(a)
		if off := math.Abs(float64(side.X)*float64(along.Y)-float64(side.Y)*float64(along.X)) / side.Len(); off > float64(cornerSlack) {
			continue
		}
		for _, end := range []int{i, j} {
			if d := p.Sub(points[end]).Len(); d < bestOff {
				bestOff = d
				best = mark{corners[end], geometry.Length(math.Round(d)), w.handed(sideName(a, points[j], o.Bounds()))}
			}
		}
	}
	if best.off <= cornerSlack {
		best.off = 0
	}
	return best
}

// sideName says which side of a part runs between two corners.
func sideName(a, b geometry.Point, box geometry.Rect) string {
	on := func(p, q, at geometry.Length) bool { return (p-at).Abs() <= cornerSlack && (q-at).Abs() <= cornerSlack }
	switch {
	case on(a.Y, b.Y, box.Min.Y):
		return "upper"
	case on(a.Y, b.Y, box.Max.Y):
		return "lower"
	case on(a.X, b.X, box.Min.X):
		return "left"
	case on(a.X, b.X, box.Max.X):
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
		left.Count = 2
		return []string{"both halves are " + w.what(s, left)}
	}
	for _, f := range s.Falls {
		switch {
		case f.Offcut() && s.Work == trimming.CleanEdge:
			parts = append(parts, "the strip is waste")
		case f.Offcut():
			parts = append(parts, w.offcut(s, f, "what falls off"))
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
		parts = append(parts, w.offcut(s, left, "what is left"))
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
		return plural("piece", f.Count) + " of " + size
	case f.Piece >= 0:
		return w.pieces(s.Of, f.Piece)
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
	if len(names) > 1 {
		return "by paper " + wording.AndPlain(names)
	}
	return names[0]
}

// keepable is the least side of an offcut that is worth keeping. Common
// practice, no source.
const keepable = geometry.Inch

func (w *trimWords) offcut(s trimming.Step, f trimming.Fall, what string) string {
	size := f.Shape.Bounds().Size()
	switch {
	case f.Count > 1 || !isOblong(f.Shape):
		return what + " is waste"
	case min(size.W, size.H) < keepable:
		return fmt.Sprintf("%s, %s, is waste", what, w.size(size))
	case what == "what is left":
		return "keep the offcut, " + w.size(size)
	}
	return fmt.Sprintf("keep %s, %s, as an offcut", what, w.size(size))
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
	text := fmt.Sprintf("%s, %s of the stop, %s of the blade", counted(len(t.Steps), "step"), counted(t.Settings(), "setting"), counted(t.Strokes(), "stroke"))
	if n := t.ByMarks(); n > 0 {
		text += fmt.Sprintf(", %d of them laid by tips or marks", n)
	}
	if len(t.Stocks) == 1 && t.Stocks[0].Fewest && t.Stocks[0].Pile < 2 && t.ByMarks() == 0 {
		text += " (settings and cuts proved fewest for as many sheets)"
	}
	return text
}

// Head says, line by line, what a plan takes.
func (t TrimPlan) Head() []string {
	var lines, texts []string
	names := map[string][]string{} // stocks that take the same share a line
	for _, s := range t.Stocks {
		text := s.Summary(t.Units)
		if names[text] == nil {
			texts = append(texts, text)
		}
		names[text] = append(names[text], s.Name)
	}
	for _, text := range texts {
		if list := names[text]; len(list) > 1 {
			text = wording.AndPlain(list) + ": each " + text
		} else if list[0] != "" {
			text = list[0] + ": " + text
		}
		lines = append(lines, text)
	}
	lines = append(lines, t.Summary())
	for _, r := range t.Rounded {
		lines = append(lines, r.Text(t.Units, t.Ruler))
	}
	return append(lines, t.Notes...)
}

// Foot names what straight cuts cannot make, and what can.
func (t TrimPlan) Foot() []string {
	var lines []string
	for _, r := range t.Refused {
		lines = append(lines, fmt.Sprintf("%s (%s for %s) cannot be cut straight: %s", r.Kind, counted(r.Count, "piece"), wording.AndPlain(r.Places), r.Why))
	}
	return lines
}

// TrimCaution stands above every list of cuts.
const TrimCaution = "Keep fingers behind the guard and blades from children, and mind the trimmer's manual. Cut a trial piece on scrap first."
