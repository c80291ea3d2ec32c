package trimming

import (
	"fmt"
	"math"
	"slices"

	"panelry/geometry"
)

// A Form is a way to cut pieces of one outline out of oblongs: an oblong by
// straight cuts along the sheet, then slants.
type Form struct {
	Size   geometry.Size // of the oblong
	Units  int           // pieces that it gives, or pairs of pieces
	Paired bool          // every unit gives a piece as it is and one turned by half a turn
	Turn   float64       // how the piece is turned in it, in degrees clockwise

	slants  []slant // that make the units, in order
	halve   *slant  // that cuts each unit in two
	swapped bool    // the half-turned piece falls off first
	unit    geometry.Outline
}

// slant is a cut, or several side by side, of what is left of the oblong.
type slant struct {
	line  geometry.Line   // the marks of the first; what falls off is on the left hand
	stop  geometry.Length // of cuts beside it; 0 where it is the only one
	cuts  int
	waste bool // what falls off is an offcut
}

// Freedom says how a piece may lie on its sheet.
type Freedom int

// The freedoms, from the least to the most.
const (
	AsItIs Freedom = iota
	HalfTurn
	AnyTurn
)

// levelSlack is what counts as level or upright after a turn, in nm.
const levelSlack = 30

// Forms returns the ways to cut a convex outline with straight sides that is
// no oblong along the sheet out of oblongs that fit the sheet, the ones that
// take the least paper a piece first:
//
//   - parallelograms from a strip as broad as they are, by cuts side by side at
//     one setting;
//   - triangles and trapezia two and two, as parallelograms or oblongs that
//     one more cut halves, tip to tip where they are triangles;
//   - anything from the oblong around it, side by side.
//
// `pairs` says whether what a half turn makes of the piece is wanted too. The
// kerf goes half to either side of a cut that is laid by its marks. There may
// be no form where the kerf is not 0.
func Forms(o geometry.Outline, free Freedom, pairs bool, sheet geometry.Size, kerf geometry.Length) []Form {
	var forms []Form
	for _, turn := range turnsFor(o, free) {
		p := polygonOf(o.Turned(turn))
		for _, upright := range []bool{false, true} {
			// A strip that runs from top to bottom is one from left to right
			// after a quarter turn; a piece in it is turned back at the end.
			q, s := p, sheet
			if upright {
				if free == AnyTurn {
					break // the other turns have it
				}
				q, s = p.turned(), sheet.Turned()
			}
			fits := []geometry.Size{s}
			if free == AnyTurn {
				fits = append(fits, s.Turned())
			}
			for _, f := range stripForms(q, pairs || free != AsItIs, fits, kerf) {
				f.Turn = turn
				if upright {
					f = f.turnedBack()
				}
				forms = append(forms, f)
			}
		}
		if f, ok := aroundForm(p, kerf); ok {
			f.Turn = turn
			forms = append(forms, f)
		}
	}
	slices.SortStableFunc(forms, func(a, b Form) int {
		switch x, y := a.paper(), b.paper(); {
		case x < y*(1-1e-9):
			return -1
		case y < x*(1-1e-9):
			return 1
		}
		return a.marked() - b.marked()
	})
	return forms
}

// paper is the area that a piece takes.
func (f Form) paper() float64 {
	return float64(f.Size.W) * float64(f.Size.H) / float64(f.Pieces())
}

// marked is how many cuts laid by marks a piece takes, times a thousand.
func (f Form) marked() int {
	n := 0
	for _, s := range f.slants {
		if s.stop == 0 {
			n++
		}
	}
	n *= 1000
	if f.halve != nil {
		n += 1000 * f.Units
	}
	return n / f.Pieces()
}

// Pieces counts the pieces that one oblong gives.
func (f Form) Pieces() int {
	if f.Paired {
		return 2 * f.Units
	}
	return f.Units
}

// LongestSlant is the length of the form's longest slanted cut.
func (f Form) LongestSlant() geometry.Length {
	longest := 0.0
	slants := f.slants
	if f.halve != nil {
		slants = append(slices.Clone(slants), *f.halve)
	}
	for _, s := range slants {
		longest = max(longest, s.line.B.Sub(s.line.A).Len())
	}
	return nearest(longest)
}

// Stop is where the stop is set for slanted strips; 0 for a form without.
func (f Form) Stop() geometry.Length {
	for _, s := range f.slants {
		if s.stop > 0 {
			return s.stop
		}
	}
	return 0
}

// Key is the same for forms that are cut the same way; a piece may be what
// falls off last in one and what is left in the other, see [Form.Swapped].
func (f Form) Key() string {
	key := fmt.Sprint(f.Size, f.Units, f.Paired, f.slants)
	if f.halve != nil {
		key += fmt.Sprint(*f.halve)
	}
	return key
}

// Bare reports whether the oblong is the piece.
func (f Form) Bare() bool { return len(f.slants) == 0 && f.halve == nil }

// Swapped reports whether, where a unit is cut in two, the piece as it is
// stays and what half a turn makes of it falls off.
func (f Form) Swapped() bool { return f.swapped }

// turnsFor lists the turns to try: as it is, or with each side level once.
func turnsFor(o geometry.Outline, free Freedom) []float64 {
	turns := []float64{0}
	if free != AnyTurn {
		return turns
	}
	points := o.Tidied().Outer.Points()
	for i, p := range points {
		q := points[(i+1)%len(points)]
		turn := geometry.NormalDegrees(-math.Atan2(float64(q.Y-p.Y), float64(q.X-p.X)) * 180 / math.Pi)
		if !slices.ContainsFunc(turns, func(t float64) bool { return math.Abs(t-turn) < 1e-6 }) {
			turns = append(turns, turn)
		}
	}
	return turns
}

// polygon is a convex outline, clockwise as seen, its box at the origin.
type polygon struct {
	points []geometry.Point
	w, h   geometry.Length
}

func polygonOf(o geometry.Outline) polygon {
	o = withoutCrumbs(o.Moved(geometry.Point{}.Sub(o.Bounds().Min)))
	points := o.Outer.Points()
	if len(points) > 2 && geometry.Turn(points[0], points[1], points[2]) < 0 {
		slices.Reverse(points)
	}
	size := o.Bounds().Size()
	return polygon{points, size.W, size.H}
}

// turned returns the polygon after a quarter turn clockwise.
func (p polygon) turned() polygon {
	q := polygon{w: p.h, h: p.w}
	for _, a := range p.points {
		q.points = append(q.points, geometry.Point{X: p.h - a.Y, Y: a.X})
	}
	return q
}

// halfTurned returns the polygon after half a turn.
func (p polygon) halfTurned() polygon { return p.turned().turned() }

// turnedBack turns a form by a quarter anticlockwise.
func (f Form) turnedBack() Form {
	back := func(a geometry.Point, w geometry.Length) geometry.Point { return geometry.Point{X: a.Y, Y: w - a.X} }
	line := func(l geometry.Line, w geometry.Length) geometry.Line {
		return geometry.Line{A: back(l.A, w), B: back(l.B, w)}
	}
	w := f.Size.W
	f.Size = f.Size.Turned()
	f.slants = slices.Clone(f.slants)
	for i := range f.slants {
		f.slants[i].line = line(f.slants[i].line, w)
	}
	unit := f.unit.Bounds().Size().W
	if f.halve != nil {
		halve := *f.halve
		halve.line = line(halve.line, unit)
		f.halve = &halve
	}
	f.unit = f.unit.Mapped(func(p geometry.Point) geometry.Point { return back(p, unit) })
	return f
}

// stripe is a polygon between two level lines: where its ends begin and end
// on either. Left and right are straight from top to bottom.
type stripe struct{ topLeft, topRight, bottomLeft, bottomRight geometry.Length }

// stripe returns the polygon's, where every corner is at the top or the
// bottom of its box.
func (p polygon) stripe() (s stripe, ok bool) {
	s = stripe{p.w, -1, p.w, -1}
	for _, a := range p.points {
		switch {
		case a.Y <= levelSlack:
			s.topLeft, s.topRight = min(s.topLeft, a.X), max(s.topRight, a.X)
		case a.Y >= p.h-levelSlack:
			s.bottomLeft, s.bottomRight = min(s.bottomLeft, a.X), max(s.bottomRight, a.X)
		default:
			return s, false
		}
	}
	return s, s.topRight >= 0 && s.bottomRight >= 0
}

// lean is how far to the right of its bottom the left side is at the top, and
// likewise the right side.
func (s stripe) lean() (left, right geometry.Length) {
	return s.topLeft - s.bottomLeft, s.topRight - s.bottomRight
}

// stripForms returns the forms in which pieces follow each other along a
// level strip: as many as the longest strip that fits takes, and half of them,
// and one.
func stripForms(p polygon, pairs bool, fits []geometry.Size, kerf geometry.Length) []Form {
	s, ok := p.stripe()
	if !ok {
		return nil
	}
	left, right := s.lean()
	if (left - right).Abs() <= levelSlack { // a parallelogram
		if left.Abs() <= levelSlack {
			return nil // an oblong
		}
		return runs(p.h, left, s.bottomRight-s.bottomLeft, 0, 0, false, fits, kerf)
	}
	if !pairs {
		return nil
	}
	swapped := right.Abs() <= levelSlack
	if swapped { // an upright side first, so that the pair is an oblong
		p = p.halfTurned()
		s, _ = p.stripe()
		left, right = s.lean()
	}
	// The piece, then itself turned by half a turn: the bottom of one beside the
	// top of the other, with the kerf between.
	h, top, bottom := float64(p.h), float64(s.topRight-s.topLeft), float64(s.bottomRight-s.bottomLeft)
	scale := 1.0
	if top == 0 || bottom == 0 { // of a triangle the kerf takes a strip along one side
		side := math.Hypot(float64(right), h)
		scale += float64(kerf) / 2 * side / (h * math.Max(top, bottom))
	}
	slantKerf := float64(kerf) * math.Hypot(float64(right), h) / h
	width := scale * (top + bottom)
	if top > 0 && bottom > 0 {
		width += slantKerf
	}
	lean := geometry.Length(math.Round(scale * float64(left)))
	first := scale * bottom
	firstTop := scale * top
	if top > 0 && bottom > 0 {
		first, firstTop = first+slantKerf/2, firstTop+slantKerf/2
	}
	forms := runs(nearest(scale*h), lean, nearest(width), nearest(first), nearest(firstTop), true, fits, kerf)
	for i := range forms {
		forms[i].swapped = swapped
	}
	return forms
}

// runs returns the forms of units h high and b wide that lean by so much,
// halved by a cut from `first` along the bottom to `firstTop` along the top.
func runs(h, lean, b, first, firstTop geometry.Length, halved bool, fits []geometry.Size, kerf geometry.Length) []Form {
	unit := geometry.OutlineFromPoints(
		geometry.Point{X: max(0, lean)}, geometry.Point{X: max(0, lean) + b},
		geometry.Point{X: max(0, -lean) + b, Y: h}, geometry.Point{X: max(0, -lean), Y: h})
	var halve *slant
	if halved {
		halve = &slant{cuts: 1, line: geometry.Line{
			A: geometry.Point{X: max(0, -lean) + first, Y: h}, B: geometry.Point{X: max(0, lean) + firstTop}}}
	}
	if lean.Abs() <= levelSlack { // the unit is an oblong; straight cuts make it
		return []Form{{Size: geometry.Size{W: b, H: h}, Units: 1, Paired: halved, halve: halve, unit: oblong(geometry.Size{W: b, H: h})}}
	}
	side := math.Hypot(float64(lean), float64(h))
	along := nearest(float64(kerf) * side / float64(h)) // the kerf, along the strip
	stop := nearest(float64(b) * float64(h) / side)
	most, whole := 0, geometry.Length(0)
	for _, s := range fits {
		if n := int((s.W - lean.Abs() - along) / (b + along)); s.H >= h && n > most {
			most, whole = n, s.W
		}
	}
	var forms []Form
	for _, n := range []int{most, (most + 1) / 2, (most + 2) / 3, 1} {
		if n < 1 || slices.ContainsFunc(forms, func(f Form) bool { return f.Units == n }) {
			continue
		}
		size := geometry.Size{W: lean.Abs() + along + geometry.Length(n)*(b+along), H: h}
		if n == most { // a strip from side to side need not be cut to length
			size.W = whole
		}
		mark := geometry.Line{A: geometry.Point{X: max(0, -lean) + along/2, Y: h}, B: geometry.Point{X: max(0, lean) + along/2}}
		forms = append(forms, Form{Size: size, Units: n, Paired: halved, halve: halve, unit: unit,
			slants: []slant{{line: mark, cuts: 1, waste: true}, {stop: stop, cuts: n}}})
	}
	return forms
}

// aroundForm returns the oblong around a polygon, from which each slanted
// side is cut by itself; false where a side is so nearly level or upright that
// a cut with its kerf does not enter the oblong.
func aroundForm(p polygon, kerf geometry.Length) (Form, bool) {
	f := Form{Size: geometry.Size{W: p.w, H: p.h}, Units: 1}
	left := oblong(f.Size)
	for i, a := range p.points {
		b := p.points[(i+1)%len(p.points)]
		if (a.X-b.X).Abs() <= levelSlack || (a.Y-b.Y).Abs() <= levelSlack {
			continue
		}
		line := besides(geometry.Line{A: a, B: b}, -kerf/2)
		marks, ok := marksOn(left, line)
		if !ok {
			continue
		}
		f.slants = append(f.slants, slant{line: marks, cuts: 1, waste: true})
		fall, rest := cutShape(left, besides(marks, -kerf/2), kerf)
		if len(fall.Outer) == 0 || len(rest.Outer) == 0 {
			return f, false
		}
		left = rest
	}
	f.unit = left
	return f, alike(left, geometry.OutlineFromPoints(p.points...))
}

// marksOn returns where a line enters and leaves a convex outline.
func marksOn(o geometry.Outline, l geometry.Line) (geometry.Line, bool) {
	v := l.B.Sub(l.A)
	points := o.Outer.Points()
	var found []geometry.Point
	for i, p := range points {
		q := points[(i+1)%len(points)]
		side := func(x geometry.Point) float64 {
			w := x.Sub(l.A)
			return (float64(v.X)*float64(w.Y) - float64(v.Y)*float64(w.X)) / v.Len()
		}
		dp, dq := side(p), side(q)
		switch {
		case math.Abs(dp) <= levelSlack:
			found = append(found, p)
		case math.Abs(dq) > levelSlack && dp*dq < 0:
			k := dp / (dp - dq)
			found = append(found, geometry.Point{X: p.X + nearest(k*float64(q.X-p.X)), Y: p.Y + nearest(k*float64(q.Y-p.Y))})
		}
	}
	if len(found) != 2 {
		return l, false
	}
	first, second := found[0], found[1]
	along := second.Sub(first)
	if float64(along.X)*float64(v.X)+float64(along.Y)*float64(v.Y) < 0 {
		first, second = second, first
	}
	return geometry.Line{A: first, B: second}, true
}

// UnitsFor returns how many units so many pieces need: as they are, and turned by
// half a turn. Where either can stand for the other, give the sum as the first.
func (f Form) UnitsFor(asIs, halfTurned int, alike bool) int {
	switch {
	case !f.Paired:
		return asIs + halfTurned
	case alike:
		return (asIs + halfTurned + 1) / 2
	}
	return max(asIs, halfTurned)
}

// A Slicing is oblongs that are cut into the pieces of a form: under which
// name they lie, and how many units each stock is to give.
type Slicing struct {
	Form  Form
	Name  string
	Units []Share
	// The numbers of the pieces: as they are, and turned by half a turn.
	AsIs, HalfTurned int
}

// Add adds units of a stock.
func (s *Slicing) Add(units Share) { s.Units = addShare(s.Units, units) }

// Oblongs counts the oblongs that each stock gives.
func (s Slicing) Oblongs() []Share {
	var of []Share
	for _, u := range s.Units {
		of = append(of, Share{u.Stock, (u.Count + s.Form.Units - 1) / s.Form.Units})
	}
	return of
}

// Steps writes the slants as steps: first of all oblongs that are cut up
// whole, then of those that have fewer units than they could. A form without
// slants has no steps.
func (s Slicing) Steps(kerf geometry.Length) []Step {
	whole := map[int][]Share{} // by units of an oblong
	for _, u := range s.Units {
		if n := u.Count / s.Form.Units; n > 0 {
			whole[s.Form.Units] = append(whole[s.Form.Units], Share{u.Stock, n})
		}
		if n := u.Count % s.Form.Units; n > 0 {
			whole[n] = append(whole[n], Share{u.Stock, 1})
		}
	}
	var steps []Step
	for n := s.Form.Units; n > 0; n-- {
		if of := whole[n]; of != nil {
			steps = append(steps, s.cutUp(of, n, kerf)...)
		}
	}
	if s.Form.halve != nil {
		steps = append(steps, s.halved(kerf))
	}
	return steps
}

// unitName is what a unit is called until it is halved.
func (s Slicing) unitName() string {
	if len(s.Form.slants) == 0 {
		return s.Name
	}
	return s.Name + " pair"
}

// cutUp writes the steps that make so many units of an oblong.
func (s Slicing) cutUp(of []Share, units int, kerf geometry.Length) []Step {
	var steps []Step
	shape := oblong(s.Form.Size)
	for i, c := range s.Form.slants {
		step := Step{Work: Slant, Part: s.Name, Of: of, Shape: toOriginShape(shape), Stop: c.stop, Line: c.line, Cuts: c.cuts}
		line := besides(c.line, -kerf/2)
		if c.stop > 0 { // beside the cut before
			step.Work, step.Cuts = SlantStrips, units
			edge := besides(s.Form.slants[i-1].line, kerf-kerf/2)
			step.Line = edge.Moved(geometry.Point{}.Sub(shape.Bounds().Min))
			line = besides(edge, c.stop)
		}
		fall := Fall{Piece: -1, Count: step.Cuts}
		for range step.Cuts {
			fall.Shape, shape = cutShape(shape, line, kerf)
			fall.Shape = toOriginShape(fall.Shape)
			line = besides(line, kerf+c.stop)
		}
		if !c.waste {
			s.unit(&fall)
		}
		step.Falls = []Fall{fall}
		step.Rest = Fall{Name: s.Name, Piece: -1, Count: 1, Shape: toOriginShape(shape)}
		if i == len(s.Form.slants)-1 {
			step.Rest.Name = ""
			if c.waste { // what the last cut of a single piece leaves
				s.unit(&step.Rest)
			}
		}
		steps = append(steps, step)
	}
	return steps
}

// unit names a unit that comes off.
func (s Slicing) unit(f *Fall) {
	if s.Form.halve != nil {
		f.Name = s.unitName()
		return
	}
	f.Piece = s.AsIs
}

// halved writes the step that cuts the units of all oblongs in two.
func (s Slicing) halved(kerf geometry.Length) Step {
	fall, rest := cutShape(s.Form.unit, besides(s.Form.halve.line, -kerf/2), kerf)
	step := Step{Work: Slant, Part: s.unitName(), Of: s.Units, Shape: s.Form.unit, Line: s.Form.halve.line, Cuts: 1,
		Falls: []Fall{{Piece: s.AsIs, Count: 1, Shape: toOriginShape(fall)}}, Rest: Fall{Piece: s.HalfTurned, Count: 1, Shape: toOriginShape(rest)}}
	if s.Form.swapped {
		step.Falls[0].Piece, step.Rest.Piece = s.HalfTurned, s.AsIs
	}
	return step
}

// cutShape cuts an outline along a line and takes the kerf away on its right
// hand; the shapes stay where they are.
func cutShape(o geometry.Outline, l geometry.Line, kerf geometry.Length) (fall, rest geometry.Outline) {
	left, _ := o.Split(l, 0)
	_, right := o.Split(besides(l, kerf), 0)
	if len(left) > 0 {
		fall = left[0]
	}
	if len(right) > 0 {
		rest = right[0]
	}
	return fall, rest
}

func toOriginShape(o geometry.Outline) geometry.Outline {
	return o.Moved(geometry.Point{}.Sub(o.Bounds().Min))
}
