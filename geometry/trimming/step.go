package trimming

import (
	"panelry/geometry"
)

// Work is what a step does.
type Work string

// The kinds of work, in the order in which they are done.
const (
	CleanEdge   Work = "clean edge"     // a narrow strip off one side, for a straight edge to measure from
	Strips      Work = "strips"         // strips off one side, each as broad as the stop says
	Slant       Work = "slant"          // one cut through two marks
	SlantStrips Work = "slanted strips" // strips off the side that a slant left, each as broad as the stop says
	Score       Work = "score"          // a score line as far from one side as the stop says
)

// A Step is one thing that hands do to a part, or to several that are alike:
// cuts at one setting of the stop, which alone makes the breadth of what comes
// off. What is left at the end is as broad as the sheet leaves it.
type Step struct {
	Work    Work
	Part    string           // the name of what is worked on: "A" for a sheet, "A1" for a strip of it
	Of      []Share          // how many such parts there are, by stock
	Shape   geometry.Outline // one of them before the step; its box begins at the origin
	Upright bool             // the line runs from top to bottom; the stop is on the left, else at the top
	Stop    geometry.Length  // from the edge at the stop to the blade; 0 for a slant laid by its marks
	Line    geometry.Line    // of a slant: the marks, with what falls off on the left hand; of slanted strips: the edge at the stop
	Cuts    int              // of each part
	Falls   []Fall           // what comes off each part, in turn
	Rest    Fall             // what is left of each; under the part's own name where it is worked on further
}

// A Share is a number of parts that come from one stock.
type Share struct{ Stock, Count int }

// A Fall is what comes off: a part that is worked on further, which has a
// name, or a piece, or an offcut.
type Fall struct {
	Name   string
	Piece  int // -1 for none
	Count  int
	Shape  geometry.Outline
	Turned bool // it lies turned by a quarter, and is turned back once it is off
}

// Offcut reports whether nothing more is made of it.
func (f Fall) Offcut() bool { return f.Name == "" && f.Piece < 0 }

// Shown is a step as a picture shows it, where the part lies before it.
type Shown struct {
	Blades []geometry.Line    // where the blade, or the scoring tool, goes
	Off    []geometry.Outline // what comes off, one by one
	Rest   geometry.Outline
}

// Show works out what a picture of the step shows.
func (s Step) Show(kerf geometry.Length) Shown {
	var shown Shown
	rest := s.Shape
	box := rest.Bounds()
	line := geometry.Line{A: geometry.Point{Y: s.Stop}, B: geometry.Point{X: box.Max.X, Y: s.Stop}}
	if s.Upright {
		line = geometry.Line{A: geometry.Point{X: s.Stop, Y: box.Max.Y}, B: geometry.Point{X: s.Stop}}
	}
	switch s.Work {
	case Score:
		return Shown{Blades: []geometry.Line{line}, Rest: rest}
	case Slant:
		line = besides(s.Line, -kerf/2)
	case SlantStrips:
		line = besides(s.Line, s.Stop)
	}
	for range s.Cuts {
		blade := line
		if marks, ok := marksOn(rest, line); ok && s.Work == SlantStrips {
			blade = marks // the ends of the line where the paper is
		}
		shown.Blades = append(shown.Blades, blade)
		var fall geometry.Outline
		fall, rest = cutShape(rest, line, kerf)
		shown.Off = append(shown.Off, fall)
		line = besides(line, kerf+s.Stop)
	}
	shown.Rest = rest
	return shown
}

// Each lists what comes off one by one, in the order of [Shown.Off].
func (s Step) Each() []Fall { return eachFall(s.Falls) }

// Parts counts the parts of a step, over all stocks.
func (s Step) Parts() int { return parts(s.Of) }

// Settings counts how often the stop is set when steps are done one after
// another: steps in a row at one stop need it once.
func Settings(steps []Step) int {
	n := 0
	var last geometry.Length
	for _, s := range steps {
		if s.Stop != 0 && s.Stop != last {
			n++
			last = s.Stop
		}
	}
	return n
}

// Strokes counts the strokes of the blade, where a pile holds so many of a
// stock's sheets at once; score lines are no cuts.
func (s Step) Strokes(pile func(stock int) int) int {
	if s.Work == Score {
		return 0
	}
	return s.Piles(pile) * s.Cuts
}

// Piles counts the piles that the parts of a step are laid in: parts of
// different stocks share one as far as each fills its part of it.
func (s Step) Piles(pile func(stock int) int) int {
	piles, room := 0, 0.0
	for _, share := range s.Of {
		one := 1 / float64(max(1, pile(share.Stock)))
		for range share.Count {
			if room < one-1e-9 {
				piles++
				room = 1
			}
			room -= one
		}
	}
	return piles
}

// oblong is the outline of a size at the origin.
func oblong(s geometry.Size) geometry.Outline {
	return geometry.RectFromSize(geometry.Point{}, s).Outline()
}
