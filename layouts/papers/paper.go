package papers

import (
	"panelry/geometry"
	"panelry/geometry/nesting"
)

// Pattern says what a turn does to a paper's print.
type Pattern string

// The patterns: plain looks the same in every direction; two-way, like
// stripes or checks, the same upside down; one-way only upright.
const (
	Plain  Pattern = "plain"
	TwoWay Pattern = "two-way"
	OneWay Pattern = "one-way"
)

// Patterns lists them as a design file may have them.
func Patterns() []string { return []string{string(Plain), string(TwoWay), string(OneWay)} }

// Drawing is the simple picture that stands for a paper's print.
type Drawing string

// The drawings. Sprigs point up, the others look the same upside down.
const (
	NoDrawing Drawing = "plain"
	Stripes   Drawing = "stripes"
	Dots      Drawing = "dots"
	Checks    Drawing = "checks"
	Sprigs    Drawing = "sprigs"
)

// Drawings lists them as a design file may have them.
func Drawings() []string {
	return []string{string(NoDrawing), string(Stripes), string(Dots), string(Checks), string(Sprigs)}
}

// Usual returns the pattern that a drawing has: what shows upside down is
// one-way, what has a direction two-way.
func (d Drawing) Usual() Pattern {
	switch d {
	case Sprigs:
		return OneWay
	case Stripes, Dots, Checks:
		return TwoWay
	}
	return Plain
}

// Freer reports whether a pattern allows turns that another does not.
func (p Pattern) Freer(than Pattern) bool {
	rank := map[Pattern]int{OneWay: 0, TwoWay: 1, Plain: 2}
	return rank[p] > rank[than]
}

// Ups are the words for the side of the sheet that a pattern's up points to.
func Ups() []string { return []string{"top", "right", "bottom", "left"} }

// UpDegrees returns the direction of one of [Ups], clockwise from the top.
func UpDegrees(word string) (degrees float64, ok bool) {
	for i, up := range Ups() {
		if up == word {
			return float64(i) * 90, true
		}
	}
	return 0, false
}

// A Paper is one kind of sheet that pieces are cut from.
type Paper struct {
	Name      string
	Sheet     geometry.Size // as it lies: width, height; the measured size where there is one
	Sizes     []Sized       // where sheets of several sizes are sold, all of them; Sheet is one
	Have      *int          // sheets at hand; nil when not said
	Most      int           // panels that may be cut from it; 0 for as many as it takes
	Colour    string        // "#rrggbb"; "" when not said
	Drawing   Drawing
	Pattern   Pattern
	PatternUp float64 // where the pattern's up points on the sheet: degrees clockwise from its top edge
	BothAlike bool    // both sides look the same, so a piece may be turned over
	Grain     string  // "long" or "short" side of the sheet; "" when not said
	GSM       float64 // grams per square metre, ISO 536; 0 when not said
	Caliper   geometry.Length
	Price     *Price           // of a sheet; nil when not said
	Edge      *geometry.Length // instead of the design's
	Spacing   *geometry.Length // instead of the design's
	Bleed     *geometry.Length // instead of the design's
}

// Sized is a size of sheet with its price; the price is nil when not said.
type Sized struct {
	Size  geometry.Size
	Price *Price
}

// In returns the paper in one of its sizes.
func (p Paper) In(s Sized) Paper {
	p.Sheet, p.Price = s.Size, s.Price
	return p
}

// Grey is how pictures show a paper whose colour is not said.
const Grey = "#c9c5ba"

// Shown returns the colour that pictures show the paper in.
func (p Paper) Shown() string {
	if p.Colour == "" {
		return Grey
	}
	return p.Colour
}

// Turns returns how a piece of this paper may be turned on its sheet once
// its pattern runs the right way.
func (p Paper) Turns() nesting.Turns {
	switch p.Pattern {
	case OneWay:
		return nesting.NoTurn
	case TwoWay:
		return nesting.HalfTurns
	}
	return nesting.AnyTurn
}
