package nesting

import (
	"context"
	"fmt"
	"math"
	"slices"

	"panelry/geometry"
)

// Turns are the angles by which a shape may be turned on its sheet, in
// degrees clockwise as seen on the page. The zero value is no turn at all.
type Turns struct {
	free    bool
	degrees []float64 // besides 0
}

// The usual turns: none, for one-way patterns; half, for two-way patterns;
// quarter turns; and any angle, for plain paper.
var (
	NoTurn       = Turns{}
	HalfTurns    = TurnsFrom(180)
	QuarterTurns = TurnsFrom(90, 180, 270)
	AnyTurn      = Turns{free: true}
)

// TurnsFrom allows 0 and the given angles.
func TurnsFrom(degrees ...float64) Turns {
	var t Turns
	for _, d := range degrees {
		if d = geometry.NormalDegrees(d); d != 0 && !slices.Contains(t.degrees, d) {
			t.degrees = append(t.degrees, d)
		}
	}
	return t
}

// angleTolerance is how far an angle may be from an allowed one, in
// degrees: float64 sums of angles differ by less than this, and at 1 m it
// moves no point by a nanometre.
const angleTolerance = 1e-8

// Allow reports whether a turn by that angle is allowed. What is no number
// or endless is no angle.
func (t Turns) Allow(degrees float64) bool {
	d := geometry.NormalDegrees(degrees)
	if t.free {
		return !math.IsNaN(d)
	}
	same := func(a float64) bool { return a-d < angleTolerance && d-a < angleTolerance }
	return same(0) || same(360) || slices.ContainsFunc(t.degrees, same)
}

// AllowAny reports whether every angle is allowed.
func (t Turns) AllowAny() bool { return t.free }

// A Shape is an outline that is wanted Count times.
type Shape struct {
	Name    string // for messages
	Outline geometry.Outline
	Count   int
	Turns   Turns
	Mirror  bool // it may be turned over

	// Block are more outlines that keep their places to Outline, as where a
	// pattern runs on from piece to piece. They may lie in each other's
	// spacing but not on each other.
	Block []geometry.Outline
}

// A Sheet is a size in stock. Count 0 means as many as it takes. A roll
// lies with its length along x: Size.W is how much there is, and as little
// of that as possible is to be used.
//
// A scrap has an Outline, in the oblong from the origin to Size; only what is
// inside of it can be used. There is a count of scraps.
type Sheet struct {
	Size    geometry.Size
	Count   int
	Roll    bool
	Outline geometry.Outline // none for a whole sheet
}

// Scrap returns so many scraps of one outline, wherever that lies. One that is an
// upright oblong is a sheet of that size.
func Scrap(o geometry.Outline, count int) Sheet {
	box := o.Bounds()
	s := Sheet{Size: box.Size(), Count: count}
	if len(o.Holes) > 0 || o.Outer.Area() != box.Outline().Outer.Area() {
		s.Outline = o.Moved(geometry.Point{}.Sub(box.Min))
	}
	return s
}

// IsScrap reports whether the sheet has an outline of its own.
func (s Sheet) IsScrap() bool { return len(s.Outline.Outer) > 0 }

// A Job is what is wanted. Stock is used in order.
type Job struct {
	Shapes  []Shape
	Stock   []Sheet
	Edge    geometry.Length // kept clear along all sides of a sheet
	Spacing geometry.Length // kept between pieces
	InHoles bool            // pieces may lie in holes of others
}

// A Placement puts one copy of a shape on a sheet: the outline is turned over
// (x becomes -x) if need be, turned about the origin, then moved; the sheet's
// top left is the origin.
type Placement struct {
	Shape, Copy int // index in Job.Shapes; 0 .. Count-1
	Sheet       int // index in Layout.Sheets
	Over        bool
	Turn        float64
	Move        geometry.Vector
}

// A Layout is where everything goes. Sheets holds, for each sheet used, its
// index in the job's stock.
type Layout struct {
	Sheets     []int
	Placements []Placement
}

// Placed returns the outline of a placement as it lies on its sheet.
func (j Job) Placed(p Placement) geometry.Outline {
	return pose{p.Over, p.Turn}.of(j.Shapes[p.Shape].Outline).Moved(p.Move)
}

// PlacedBlock returns all outlines of a placement, those of its block behind
// the shape's own.
func (j Job) PlacedBlock(p Placement) []geometry.Outline {
	out := j.Shapes[p.Shape].in(pose{p.Over, p.Turn})
	for i := range out {
		out[i] = out[i].Moved(p.Move)
	}
	return out
}

// pose is a way to hold a shape: turned over, then turned.
type pose struct {
	over bool
	turn float64
}

func (p pose) of(o geometry.Outline) geometry.Outline {
	if p.over {
		o = o.Mirrored()
	}
	return o.Turned(p.turn)
}

// outlines returns the outline and those of the block.
func (s Shape) outlines() []geometry.Outline {
	return append([]geometry.Outline{s.Outline}, s.Block...)
}

// in returns all outlines of a shape in a pose.
func (s Shape) in(p pose) []geometry.Outline {
	out := s.outlines()
	for i := range out {
		out[i] = p.of(out[i])
	}
	return out
}

// boundsOf returns the box around some outlines.
func boundsOf(outlines []geometry.Outline) geometry.Rect {
	box := outlines[0].Bounds()
	for _, o := range outlines[1:] {
		box = box.Union(o.Bounds())
	}
	return box
}

// solid returns what nothing else may lie on: the outline, and its holes
// unless pieces may lie in those.
func (j Job) solid(o geometry.Outline) geometry.Outline {
	if !j.InHoles {
		o.Holes = nil
	}
	return o
}

// A Packer finds a layout for a job. It returns a [TooLargeError] for a
// shape that fits no sheet, an [OutOfSheetsError] when the stock does not
// suffice, and the context's error when that ends before there is a layout.
type Packer interface {
	Pack(context.Context, Job) (Layout, error)
}

// TooLargeError says that a shape fits on no sheet in any allowed turn.
type TooLargeError struct {
	Shape  int           // index in Job.Shapes
	Size   geometry.Size // of its bounding box, as it was given
	Usable geometry.Size // the largest sheet in stock without its edges
}

func (e *TooLargeError) Error() string {
	return fmt.Sprintf("shape %d is %s, and a sheet has %s to use", e.Shape, e.Size, e.Usable)
}

// OutOfSheetsError says how many pieces found no room on the sheets in stock.
type OutOfSheetsError struct{ Left int }

func (e *OutOfSheetsError) Error() string {
	return fmt.Sprintf("the sheets in stock leave %d pieces over", e.Left)
}

// usable returns what a sheet of the stock has inside its edges; it can be
// less than nothing.
func (j Job) usable(stock int) geometry.Size {
	s := j.Stock[stock].Size
	return geometry.Size{W: s.W - 2*j.Edge, H: s.H - 2*j.Edge}
}
