package trimming

import (
	"fmt"
	"math"
	"slices"

	"panelry/geometry"
)

// A Supply is sheets that steps begin with: a lot's name, and how many of
// each stock.
type Supply struct {
	Name string
	Size geometry.Size
	Of   []Share
}

// A Done is a piece that came off, as it lies when the paper's upright is.
type Done struct {
	Piece, Stock int
	Outline      geometry.Outline
	Scores       []geometry.Path
	Turned       bool // it lay turned by a quarter on its sheet
}

// CarryOut is a simulator of the hands that do the steps: it takes sheets of
// paper, cuts them at the stop step by step, and returns the pieces in the
// order in which they come off. It knows nothing of plans; the only things it
// takes from a step are what the maker is told. It is an error where a step
// asks for a part that is not there or has not the shape that it should have,
// where a cut misses its part or is longer than `longest` (0 for any), where
// what falls off has not the shape that was said, and where a part that was to
// be worked on is left.
func CarryOut(supply []Supply, steps []Step, kerf, longest geometry.Length) ([]Done, error) {
	t := &table{kerf: kerf, longest: longest, lying: map[place][]paper{}}
	for _, s := range supply {
		for _, share := range s.Of {
			for range share.Count {
				t.put(place{s.Name, share.Stock}, paper{outline: oblong(s.Size)})
			}
		}
	}
	for i, s := range steps {
		for _, share := range s.Of {
			for range share.Count {
				if err := t.do(s, share.Stock); err != nil {
					return nil, fmt.Errorf("step %d: %w", i+1, err)
				}
			}
		}
	}
	for _, s := range steps { // in order, so that the message is the same every time
		for _, share := range s.Of {
			if left := t.lying[place{s.Part, share.Stock}]; len(left) > 0 {
				return nil, fmt.Errorf("%d of %q are left when all steps are done", len(left), s.Part)
			}
		}
	}
	for _, left := range t.lying {
		if len(left) > 0 {
			return nil, fmt.Errorf("parts are left that no step works on")
		}
	}
	return t.done, nil
}

// table is where the paper lies.
type table struct {
	kerf, longest geometry.Length
	lying         map[place][]paper
	done          []Done
}

type place struct {
	name  string
	stock int
}

// paper is one piece of paper; its box begins at the origin.
type paper struct {
	outline geometry.Outline
	scores  []geometry.Path
	turned  bool
	slant   *geometry.Line // the last slanted cut, with the paper on its right hand
}

func (t *table) put(at place, p paper) {
	t.lying[at] = append(t.lying[at], p)
}

func (t *table) do(s Step, stock int) error {
	at := place{s.Part, stock}
	lying := t.lying[at]
	if len(lying) == 0 {
		return fmt.Errorf("there is no %q", s.Part)
	}
	n := slices.IndexFunc(lying, func(p paper) bool { return alike(p.outline, s.Shape) })
	if n < 0 {
		return fmt.Errorf("%q has another shape than it should", s.Part)
	}
	p := lying[n]
	t.lying[at] = slices.Delete(slices.Clone(lying), n, n+1)
	if s.Work == Score {
		line, err := t.score(p, s)
		if err != nil {
			return err
		}
		p.scores = append(slices.Clone(p.scores), line)
		return t.keep(s.Rest, stock, p)
	}
	falls := eachFall(s.Falls)
	if len(falls) != s.Cuts {
		return fmt.Errorf("%d cuts of %q cannot give %d strips", s.Cuts, s.Part, len(falls))
	}
	for _, f := range falls {
		line, err := t.blade(p, s)
		if err != nil {
			return err
		}
		fall, rest, err := t.cut(p, line)
		if err != nil {
			return fmt.Errorf("%q: %w", s.Part, err)
		}
		if err := t.keep(f, stock, fall); err != nil {
			return err
		}
		p = rest
	}
	return t.keep(s.Rest, stock, p)
}

// eachFall lists what comes off one by one.
func eachFall(falls []Fall) []Fall {
	var list []Fall
	for _, f := range falls {
		for range f.Count {
			list = append(list, f)
		}
	}
	return list
}

// blade is the line of the blade, with what falls off on its left hand; the
// kerf lies on its right.
func (t *table) blade(p paper, s Step) (geometry.Line, error) {
	box := p.outline.Bounds()
	switch s.Work {
	case CleanEdge, Strips:
		if s.Upright {
			return geometry.Line{A: geometry.Point{X: s.Stop, Y: box.Max.Y}, B: geometry.Point{X: s.Stop}}, nil
		}
		return geometry.Line{A: geometry.Point{Y: s.Stop}, B: geometry.Point{X: box.Max.X, Y: s.Stop}}, nil
	case Slant: // through the marks; half of the kerf on either side
		return besides(s.Line, -t.kerf/2), nil
	case SlantStrips:
		if p.slant == nil {
			return geometry.Line{}, fmt.Errorf("%q has no slanted side to lay against the stop", s.Part)
		}
		return besides(*p.slant, s.Stop), nil
	}
	return geometry.Line{}, fmt.Errorf("nobody knows how to do %q", s.Work)
}

// besides moves a line to its right hand.
func besides(l geometry.Line, by geometry.Length) geometry.Line {
	v := l.B.Sub(l.A)
	scale := float64(by) / v.Len()
	return l.Moved(geometry.Vector{X: nearest(-float64(v.Y) * scale), Y: nearest(float64(v.X) * scale)})
}

// nearest rounds to whole nanometres.
func nearest(x float64) geometry.Length { return geometry.Length(math.Round(x)) }

func (t *table) cut(p paper, l geometry.Line) (fall, rest paper, err error) {
	left, _ := p.outline.Split(l, 0)
	over := besides(l, t.kerf)
	_, right := p.outline.Split(over, 0)
	if len(left) != 1 || len(right) > 1 {
		return fall, rest, fmt.Errorf("the cut misses it")
	}
	if along := widthAlong(p.outline, l); t.longest > 0 && along > t.longest {
		return fall, rest, fmt.Errorf("a cut of %s is longer than the %s that the trimmer cuts", along, t.longest)
	}
	fall = toOrigin(paper{outline: left[0], turned: p.turned})
	if len(right) == 1 {
		rest = paper{outline: right[0], turned: p.turned, slant: &over}
		rest = toOrigin(rest)
	}
	return fall, rest, nil
}

// widthAlong is how long the line is inside the outline: what its ends reach.
func widthAlong(o geometry.Outline, l geometry.Line) geometry.Length {
	v := l.B.Sub(l.A)
	var ends []float64
	points := o.Outer.Points()
	for i, p := range points {
		q := points[(i+1)%len(points)]
		a, b := l.Side(p), l.Side(q)
		if a == b && a != 0 || a*b > 0 {
			continue
		}
		// Where the side crosses the line, measured along the line.
		d := func(x geometry.Point) float64 {
			w := x.Sub(l.A)
			return (float64(v.X)*float64(w.Y) - float64(v.Y)*float64(w.X)) / v.Len()
		}
		along := func(x geometry.Point) float64 {
			w := x.Sub(l.A)
			return (float64(v.X)*float64(w.X) + float64(v.Y)*float64(w.Y)) / v.Len()
		}
		dp, dq := d(p), d(q)
		k := 0.0
		if dp != dq {
			k = dp / (dp - dq)
		}
		ends = append(ends, along(p)+k*(along(q)-along(p)))
	}
	if len(ends) == 0 {
		return 0
	}
	return nearest(slices.Max(ends) - slices.Min(ends))
}

func toOrigin(p paper) paper {
	move := geometry.Point{}.Sub(p.outline.Bounds().Min)
	p.outline = p.outline.Moved(move)
	if p.slant != nil {
		moved := p.slant.Moved(move)
		p.slant = &moved
	}
	return p
}

func (t *table) score(p paper, s Step) (geometry.Path, error) {
	box := p.outline.Bounds()
	from, to, whole, long := geometry.Point{Y: s.Stop}, geometry.Point{X: box.Max.X, Y: s.Stop}, box.H(), box.W()
	if s.Upright {
		from, to, whole, long = geometry.Point{X: s.Stop}, geometry.Point{X: s.Stop, Y: box.Max.Y}, box.W(), box.H()
	}
	if s.Stop <= 0 || s.Stop >= whole {
		return geometry.Path{}, fmt.Errorf("the score line misses %q", s.Part)
	}
	if t.longest > 0 && long > t.longest {
		return geometry.Path{}, fmt.Errorf("a score of %s is longer than the %s that the trimmer reaches", long, t.longest)
	}
	return geometry.PathFromPoints(from, to), nil
}

// keep lays what came off where the step says that it goes.
func (t *table) keep(f Fall, stock int, p paper) error {
	if f.Count == 0 { // nothing should be left
		if len(p.outline.Outer) > 0 {
			return fmt.Errorf("something is left that nobody speaks of")
		}
		return nil
	}
	if !alike(p.outline, f.Shape) {
		return fmt.Errorf("what comes off (%s) has another shape than %q should", p.outline.Bounds().Size(), f.Name)
	}
	if f.Turned {
		p.outline, p.turned, p.slant = p.outline.Turned(90), !p.turned, nil
		p = toOrigin(p)
	}
	switch {
	case f.Name != "":
		t.put(place{f.Name, stock}, p)
	case f.Piece >= 0:
		t.done = append(t.done, Done{f.Piece, stock, withoutCrumbs(p.outline), p.scores, p.turned})
	}
	return nil
}

// shapeTolerance is how far two shapes may differ for one to be taken for the
// other: what corners on slanted sides lose to rounding.
const shapeTolerance = geometry.Micrometre

// alike reports whether each corner of either outline lies at one of the
// other's.
func alike(a, b geometry.Outline) bool {
	return cornersAt(a, b) && cornersAt(b, a)
}

func cornersAt(a, b geometry.Outline) bool {
	others := b.Outer.Points()
	for _, p := range a.Outer.Points() {
		if !slices.ContainsFunc(others, func(q geometry.Point) bool { return nearPoints(p, q) }) {
			return false
		}
	}
	return true
}

func nearPoints(p, q geometry.Point) bool {
	return (p.X-q.X).Abs() <= shapeTolerance && (p.Y-q.Y).Abs() <= shapeTolerance
}

// withoutCrumbs drops corners that only rounding has made.
func withoutCrumbs(o geometry.Outline) geometry.Outline {
	var kept []geometry.Point
	for _, p := range o.Tidied().Outer.Points() {
		if n := len(kept); n == 0 || !nearPoints(p, kept[n-1]) {
			kept = append(kept, p)
		}
	}
	if n := len(kept); n > 1 && nearPoints(kept[0], kept[n-1]) {
		kept = kept[:n-1]
	}
	return geometry.OutlineFromPoints(kept...)
}
