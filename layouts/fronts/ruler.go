package fronts

import (
	"fmt"
	"math"
	"slices"

	"panelry/geometry"
)

// A Rounding is what cutting on the ruler changes: a gap that comes out
// otherwise than asked, because the pieces fall on marks.
type Rounding struct {
	What  string // "gap across", "gap down", "gap on the diagonal"
	Asked geometry.Length
	Now   geometry.Length // to the nanometre; a gap on a diagonal has no finite decimals
	Piece geometry.Size   // what is cut, on the ruler; a side of 0 is not bound
}

// Text says what a rounding changes, in the design's unit.
func (r Rounding) Text(unit geometry.Unit, ruler geometry.Length) string {
	piece := "pieces"
	marks := geometry.RulerUnit(ruler)
	switch {
	case r.Piece.W > 0 && r.Piece.H > 0:
		piece = "halves of " + r.Piece.Format(marks)
	case r.Piece.W > 0:
		piece = "pieces " + r.Piece.W.Format(marks) + " wide"
	case r.Piece.H > 0:
		piece = "pieces " + r.Piece.H.Format(marks) + " high"
	}
	return fmt.Sprintf("%s: the %s is %s %s instead of %s", piece, r.What, r.Now.Decimal(unit, 5), unit, r.Asked.Format(unit))
}

// RulerPair returns the legs p and q of the two right triangles that, laid
// into opposite corners of a cell, leave a gap between their long sides that
// is as near the wished one as any whose legs are multiples of the ruler's
// step and no longer than the cell's sides:
//
//	gap = ((w-p)·q + (h-q)·p) / √(p²+q²)
//
// What is left over goes into that gap, and nothing into the margins. Halves
// of a square cell keep equal legs, so that either hand can stand for the
// other. It returns false where no such pair leaves the cell's halves at least
// a step.
func RulerPair(cell geometry.Size, wish, ruler geometry.Length) (legs geometry.Size, gap geometry.Length, ok bool) {
	w, h := float64(cell.W), float64(cell.H)
	best, bestArea := math.Inf(1), 0.0
	// The gap only widens as a leg gets shorter while it is longer than half
	// its side: its derivative along q has the sign of (w-2p)p - hq. Wide gaps
	// in small cells may lie beyond that, and then every pair is tried.
	narrow := float64(wish)*math.Hypot(w, h)/(2*w*h) < 0.4
	square := (cell.W - cell.H).Abs() <= 10*geometry.Micrometre
	const close = 1.0 // nm: two gaps this near are one, and larger pieces win
	for p := cell.W / ruler * ruler; p > 0; p -= ruler {
		nearer := false
		for q := cell.H / ruler * ruler; q > 0; q -= ruler {
			if square && q != p {
				continue
			}
			pf, qf := float64(p), float64(q)
			g := ((w-pf)*qf + (h-qf)*pf) / math.Hypot(pf, qf)
			off := math.Abs(g - float64(wish))
			if off < best-close || off < best+close && pf*qf > bestArea {
				best, bestArea = off, pf*qf
				legs, gap, ok = geometry.Size{W: p, H: q}, geometry.Length(math.Round(g)), true
				nearer = true
			}
			if narrow && p > cell.W/2 && g >= float64(wish) { // shorter legs only widen it
				break
			}
		}
		// With q at its longest the gap is at its least; once that is past the
		// wish and no nearer, shorter p cannot help.
		qf := float64(cell.H / ruler * ruler)
		if least := ((w-float64(p))*qf + (h-qf)*float64(p)) / math.Hypot(float64(p), qf); narrow && least > float64(wish)+best && !nearer {
			break
		}
	}
	return legs, gap, ok
}

// onRuler shortens equal shares of a length to marks of the ruler and gives
// the rest to the gaps between them; all add up as before. A single share
// keeps its length.
func onRuler(b Brief, lengths []geometry.Length) (shares, gaps []geometry.Length) {
	gaps = slices.Repeat([]geometry.Length{b.Gap}, max(0, len(lengths)-1))
	if b.Ruler == 0 || len(lengths) < 2 {
		return lengths, gaps
	}
	least := lengths[0]
	var rest geometry.Length
	for _, l := range lengths {
		least = min(least, l)
	}
	least = least / b.Ruler * b.Ruler
	if least < LeastPanel {
		return lengths, gaps
	}
	shares = make([]geometry.Length, len(lengths))
	for i, l := range lengths {
		shares[i] = least
		rest += l - least
	}
	for i := range gaps {
		gaps[i] += rest.Share(i+1, len(gaps)) - rest.Share(i, len(gaps))
	}
	return shares, gaps
}
