package layouts_test

import (
	"fmt"
	"math"
	"slices"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
)

// halves is a card whose four oblong cells are cut "\/" over "/\" from one
// paper, "moss".
const halves = `units = "mm"
tool = "knife"
[card]
size = "100 x 140 mm"
base = "flat"
paper = "oat"
[front]
layout = "diagonal halves"
margin = 10
gap = 4
papers = ["moss"]
[batch]
cards = 1
[[papers]]
name = "oat"
sheet = "ISO A4"
[[papers]]
name = "moss"
sheet = "ISO A4"
`

// strips is a card of three strips of 20, 36 and 20 mm.
const strips = `units = "mm"
tool = "knife"
[card]
size = "100 x 140 mm"
base = "side fold"
paper = "oat"
[front]
layout = "strips"
margin = 10
gap = 2
widths = [20, "rest", 20]
papers = ["moss", "clay"]
[batch]
cards = 2
[[papers]]
name = "oat"
sheet = "ISO A4"
[[papers]]
name = "moss"
sheet = "ISO A4"
[[papers]]
name = "clay"
sheet = "ISO A4"
`

func pieceCount(kit layouts.Kit) int { return len(piecesOf(kit)) }

func piecesOf(kit layouts.Kit) []layouts.Piece {
	var all []layouts.Piece
	for _, s := range kit.Sheets {
		all = append(all, s.Pieces...)
	}
	return all
}

func pieceNamed(t require.TestingT, kit layouts.Kit, id string) layouts.Piece {
	for _, p := range piecesOf(kit) {
		if p.ID == id {
			return p
		}
	}
	require.Failf(t, "no such piece", id)
	return layouts.Piece{}
}

// ids lists the pieces' names in their own order.
func ids(kit layouts.Kit) []string {
	var out []string
	for _, p := range piecesOf(kit) {
		out = append(out, p.ID)
	}
	slices.Sort(out)
	return out
}

// kindsOf lists the kinds of a paper as "moss-1 x 8: A1a A1b".
func kindsOf(kit layouts.Kit, paper string) []string {
	var out []string
	for _, k := range kit.Kinds {
		if k.Paper == paper {
			text := fmt.Sprintf("%s x %d:", k.ID, k.Count)
			for _, place := range k.Places {
				text += " " + place
			}
			out = append(out, text)
		}
	}
	return out
}

// handsOver lists the panels of the first card that are turned over.
func handsOver(kit layouts.Kit) []string {
	var out []string
	for _, p := range piecesOf(kit) {
		if p.Over && p.Card == 1 {
			out = append(out, p.Panel)
		}
	}
	slices.Sort(out)
	return out
}

// motion is how a piece goes from the card to its sheet, up to a move.
type motion struct {
	over bool
	turn float64
}

// of moves one point: turned over sideways about x = 0 first, then turned
// about the origin, clockwise on the page. Plain floats: a slow, obvious
// twin of what package geometry does.
func (m motion) of(p geometry.Point) (x, y float64) {
	x, y = float64(p.X), float64(p.Y)
	if m.over {
		x = -x
	}
	sin, cos := math.Sincos(m.turn * math.Pi / 180)
	return x*cos - y*sin, x*sin + y*cos
}

// requireMoved holds points against others that they are to lie on after
// the motion and one move for all of them, which is returned. The points
// need not come in the same order.
func requireMoved(t require.TestingT, m motion, from, to []geometry.Point, within float64) (dx, dy float64) {
	require.Len(t, to, len(from))
	n := float64(len(from))
	for i := range from {
		x, y := m.of(from[i])
		dx += (float64(to[i].X) - x) / n
		dy += (float64(to[i].Y) - y) / n
	}
	for _, p := range from {
		x, y := m.of(p)
		requireNear(t, x+dx, y+dy, to, within)
	}
	return dx, dy
}

func requireNear(t require.TestingT, x, y float64, points []geometry.Point, within float64) {
	for _, q := range points {
		if math.Hypot(x-float64(q.X), y-float64(q.Y)) <= within {
			return
		}
	}
	require.Failf(t, "no point there", "(%v, %v) nm is none of %v", x, y, points)
}

// requireSameAngle compares directions modulo a symmetry of the paper.
func requireSameAngle(t require.TestingT, want, got, modulo float64) {
	off := math.Mod(want-got, modulo)
	off = min(math.Abs(off), modulo-math.Abs(off))
	require.LessOrEqual(t, off, 1e-4, "%v and %v degrees differ modulo %v", want, got, modulo)
}
