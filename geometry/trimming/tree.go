package trimming

import (
	"fmt"

	"panelry/geometry"
)

// A Piece is an oblong that is wanted.
type Piece struct {
	Size  geometry.Size
	Count int   // how many; in OneSheet 0 stands for any number
	Turn  bool  // it may lie turned by a quarter
	Value int64 // in OneSheet; 0 stands for its area
}

// A Stock is sheets of one size.
type Stock struct {
	Size  geometry.Size
	Count int // 0 stands for any number
}

// A Part is a sheet, or what cuts have made of it, placed on the sheet. A
// part is cut in two, or is a piece, or is left over.
type Part struct {
	Box    geometry.Rect
	Cut    *Cut
	Parts  [2]*Part // where Cut is set: left and right, or upper and lower
	Piece  int      // index of the piece; -1 for none
	Turned bool     // the piece lies turned by a quarter
}

// A Cut runs from edge to edge of a part. It takes a strip as wide as the
// kerf, which begins at At.
type Cut struct {
	Upright bool
	At      geometry.Length // distance from the part's left or upper edge
}

// newPart returns a part that is left over as yet.
func newPart(box geometry.Rect) *Part { return &Part{Box: box, Piece: -1} }

// split cuts the part; what lies behind the kerf may have no width.
func (p *Part) split(upright bool, at, kerf geometry.Length) (first, second *Part) {
	a, b := p.Box, p.Box
	if upright {
		a.Max.X = a.Min.X + at
		b.Min.X = min(a.Max.X+kerf, b.Max.X)
	} else {
		a.Max.Y = a.Min.Y + at
		b.Min.Y = min(a.Max.Y+kerf, b.Max.Y)
	}
	p.Cut = &Cut{upright, at}
	p.Parts = [2]*Part{newPart(a), newPart(b)}
	return p.Parts[0], p.Parts[1]
}

// Leaves returns the parts that are not cut: pieces and what is left over.
func (p *Part) Leaves() []*Part {
	if p.Cut == nil {
		return []*Part{p}
	}
	return append(p.Parts[0].Leaves(), p.Parts[1].Leaves()...)
}

// Renamed returns the tree with other numbers for its pieces.
func (p *Part) Renamed(to func(piece int) int) *Part {
	q := *p
	if p.Cut != nil {
		q.Parts = [2]*Part{p.Parts[0].Renamed(to), p.Parts[1].Renamed(to)}
	} else if p.Piece >= 0 {
		q.Piece = to(p.Piece)
	}
	return &q
}

// A TooLargeError is a piece that fits the sheet in no way, or cannot be cut
// from it with the longest cut there is.
type TooLargeError struct {
	Piece, Sheet geometry.Size
	Longest      geometry.Length // 0 where the sheet is too small
}

func (e *TooLargeError) Error() string { return e.In(geometry.Millimetres) }

// In says the error with its lengths in a unit.
func (e *TooLargeError) In(u geometry.Unit) string {
	if e.Longest > 0 {
		return fmt.Sprintf("a piece of %s cannot be cut from a sheet of %s, as the longest cut is %s: take smaller sheets or a longer trimmer",
			e.Piece.Format(u), e.Sheet.Format(u), e.Longest.Format(u))
	}
	return fmt.Sprintf("a piece of %s is larger than the sheet of %s", e.Piece.Format(u), e.Sheet.Format(u))
}

// Cuts counts the cuts of a tree.
func (p *Part) Cuts() int {
	if p.Cut == nil {
		return 0
	}
	return 1 + p.Parts[0].Cuts() + p.Parts[1].Cuts()
}

// Replay carries out the cuts of each tree on a sheet of its own and returns
// how many of each piece come off. It trusts nothing in the trees but the
// cuts and which leaf is said to be which piece: sizes are worked out anew,
// and a leaf that has not its piece's size, or a cut that misses its part, is
// an error.
func Replay(sheets []geometry.Size, trees []*Part, pieces []Piece, kerf geometry.Length) ([]int, error) {
	if len(sheets) != len(trees) {
		return nil, fmt.Errorf("%d sheets and %d trees", len(sheets), len(trees))
	}
	got := make([]int, len(pieces))
	for i, t := range trees {
		if err := replay(t, sheets[i].W, sheets[i].H, pieces, kerf, got); err != nil {
			return nil, fmt.Errorf("sheet %d: %w", i+1, err)
		}
	}
	return got, nil
}

func replay(p *Part, w, h geometry.Length, pieces []Piece, kerf geometry.Length, got []int) error {
	switch {
	case p == nil:
		return fmt.Errorf("a part is missing")
	case p.Cut == nil && p.Piece < 0:
		return nil
	case p.Cut == nil:
		if p.Piece >= len(pieces) {
			return fmt.Errorf("there is no piece %d", p.Piece)
		}
		want := pieces[p.Piece]
		size := want.Size
		if p.Turned {
			if !want.Turn {
				return fmt.Errorf("piece %d must not be turned", p.Piece)
			}
			size = size.Turned()
		}
		if size.W != w || size.H != h {
			return fmt.Errorf("piece %d comes off as %s, not %s", p.Piece, geometry.Size{W: w, H: h}, size)
		}
		got[p.Piece]++
		return nil
	}
	whole := h
	if p.Cut.Upright {
		whole = w
	}
	at := p.Cut.At
	if at <= 0 || at >= whole {
		return fmt.Errorf("a cut at %s misses a part of %s", at, whole)
	}
	rest := max(0, whole-at-kerf)
	if p.Cut.Upright {
		if err := replay(p.Parts[0], at, h, pieces, kerf, got); err != nil {
			return err
		}
		return replay(p.Parts[1], rest, h, pieces, kerf, got)
	}
	if err := replay(p.Parts[0], w, at, pieces, kerf, got); err != nil {
		return err
	}
	return replay(p.Parts[1], w, rest, pieces, kerf, got)
}
