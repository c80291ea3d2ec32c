package cards

import (
	"fmt"

	"panelry/geometry"
	"panelry/layouts/wording"
)

// A Base is how the card is folded.
type Base string

// The bases.
const (
	Flat     Base = "flat"      // one leaf, no fold
	TopFold  Base = "top fold"  // folded once, opens upwards
	SideFold Base = "side fold" // folded once on the left, opens like a book read left to right
)

// The limits of a closed front, each way. They only catch a slip of the
// pen, such as mm for in: 1 m is past any sheet of card that is sold, and
// 10 mm is less than a finger can hold.
const (
	SmallestFront = 10 * geometry.Millimetre
	LargestFront  = 1000 * geometry.Millimetre
)

// Kinds of fold, as seen from the outside of the card.
const (
	Mountain = "mountain" // the fold stands up towards the eye
	Valley   = "valley"   // the fold lies in a trough
)

// A Fold is one score line, an open path that runs from edge to edge of the
// base, and how the paper bends there.
//
// A base is seen with its outside up. A card that closes with its front
// outside bends both leaves away from the eye, and the fold is left standing
// as a ridge: so the one fold of a top or a side fold is a mountain.
type Fold struct {
	Line geometry.Path
	Kind string // Mountain or Valley
}

// Laid is a card base laid flat, outside up and its front upright.
type Laid struct {
	Outline geometry.Outline // with its own top left at the origin
	Folds   []Fold           // none for a flat card
	Front   geometry.Rect    // where the front is
}

// Bases returns all bases, the plainest first.
func Bases() []Base { return []Base{Flat, TopFold, SideFold} }

// ParseBase reads the name of a base; capitals, spaces and hyphens do not
// matter. The error for an unknown name lists the known ones.
func ParseBase(text string) (Base, error) {
	for _, known := range Bases() {
		if keyOf(string(known)) == keyOf(text) {
			return known, nil
		}
	}
	return "", unknownBase(text)
}

// Lay returns the base of a closed front laid flat. The base of a top fold
// is twice as tall as the front, which is its lower half; that of a side
// fold is twice as wide, and the front is its right half. A front past
// [SmallestFront] or [LargestFront] is refused, and so is an unknown base.
func (b Base) Lay(front geometry.Size) (Laid, error) {
	if err := checkFront(front); err != nil {
		return Laid{}, err
	}
	whole, at := front, geometry.Point{}
	var folds []Fold
	switch b {
	case Flat:
	case TopFold:
		whole.H, at.Y = 2*front.H, front.H
		folds = foldFrom(at, geometry.Point{X: whole.W, Y: at.Y})
	case SideFold:
		whole.W, at.X = 2*front.W, front.W
		folds = foldFrom(at, geometry.Point{X: at.X, Y: whole.H})
	default:
		return Laid{}, unknownBase(string(b))
	}
	return Laid{
		Outline: geometry.RectFromSize(geometry.Point{}, whole).Outline(),
		Folds:   folds,
		Front:   geometry.RectFromSize(at, front),
	}, nil
}

// foldFrom returns the one fold of a card that closes with its front outside.
func foldFrom(from, to geometry.Point) []Fold {
	return []Fold{{geometry.PathFromPoints(from, to), Mountain}}
}

func checkFront(front geometry.Size) error {
	sides := []struct {
		name   string
		length geometry.Length
	}{{"wide", front.W}, {"high", front.H}}
	for _, side := range sides {
		if side.length > LargestFront {
			return fmt.Errorf("card front: %s %s, more than the %s allowed; check its unit", side.length, side.name, LargestFront)
		}
		if side.length < SmallestFront {
			return fmt.Errorf("card front: %s %s, less than the %s allowed; check its unit", side.length, side.name, SmallestFront)
		}
	}
	return nil
}

// unknownBase lists the known bases and names the nearest one.
func unknownBase(text string) error {
	known := Bases()
	names := make([]string, len(known))
	for i, base := range known {
		names[i] = string(base)
	}
	list := wording.OrPlain(names)
	if keyOf(text) == "" {
		return fmt.Errorf("the card's base is missing; write %s", list)
	}
	return fmt.Errorf("%q is no known base; write %s%s", shortened(text), list, wording.Meant(shortened(text), names))
}
