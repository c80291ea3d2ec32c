package nesting

import (
	"cmp"
	"math"
	"slices"

	"panelry/geometry"
)

// mostPushes is how many rounds of pushing by nanometres are tried to mend
// what rounding to whole nanometres did.
const mostPushes = 36

// mostRounded is how far, in nanometres, a piece may come to be inside
// another one by rounding and by pushes that went on from piece to piece.
const mostRounded = 1000

// settle turns the board into a layout in whole nanometres that is exactly
// as far apart as asked. Pieces that rounding pushed into each other are
// pushed apart again; it fails where that does not come to an end.
func (b *board) settle() (Layout, bool) {
	at := make([]geometry.Vector, len(b.items))
	for i, it := range b.items {
		at[i] = b.intoRoom(i, it.at)
	}
	order, rank := b.fromTheLeft()
	for round := range mostPushes {
		moved, stuck := false, false
		for _, i := range order {
			b.eachCloser(i, at, func(j int) {
				if rank[j] < rank[i] {
					return
				}
				for range 4 {
					if b.apart(i, j, at) {
						return
					}
					moved = true
					stuck = stuck || !b.push(i, j, at, round/6)
				}
			})
		}
		if !moved {
			return b.layout(at), true
		}
		if stuck {
			break
		}
	}
	return Layout{}, false
}

// looseWork is how much work it may be, at most, to move an item a little.
const looseWork = 80_000

// settleLoosely is for a board that cannot be settled: its pieces are moved
// apart by nanometres, so that rounding has room. Where that fails, the board
// is as it was.
func (b *board) settleLoosely() (Layout, bool) {
	was, exact, limit := slices.Clone(b.items), b.cat, b.work.limit
	b.work.limit = min(limit, b.work.done+max(limit/4, looseWork*len(b.items)))
	b.cat = exact.loosened()
	apart := b.separate() == 0
	b.cat, b.work.limit = exact, limit
	if apart {
		if l, ok := b.settle(); ok {
			return l, true
		}
	}
	b.reset(was)
	return Layout{}, false
}

// fromTheLeft returns the items in the order of their places, and where each
// comes in it: pushes to the right are done in one round that way.
func (b *board) fromTheLeft() (order, rank []int) {
	order, rank = make([]int, len(b.items)), make([]int, len(b.items))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(b.items[i].at.x, b.items[j].at.x) })
	for k, i := range order {
		rank[i] = k
	}
	return order, rank
}

// intoRoom rounds a place to nanometres, inside its room; the room's own
// corner is the origin.
func (b *board) intoRoom(i int, p spot) geometry.Vector {
	r, f := b.rooms[b.items[i].room], b.form(i)
	use := b.cat.job.usable(r.stock)
	x, y := geometry.Length(math.Round(p.x-r.left)), geometry.Length(math.Round(p.y))
	return geometry.Vector{
		X: min(max(x, 0), use.W-geometry.Length(f.w)),
		Y: min(max(y, 0), use.H-geometry.Length(f.h)),
	}
}

// finerBy is by how much the polygons that Verify goes by can stand out of the
// coarser ones of the search: what rounding does to both.
const finerBy = 4 * geometry.Nanometre

// apartWork is what a side costs geometry.Apart, which costs some ten besides.
const apartWork = 20

// apart reports whether two items are the spacing apart, as Verify sees them.
func (b *board) apart(i, j int, at []geometry.Vector) bool {
	f, g, spacing := b.form(i), b.form(j), b.cat.job.Spacing
	if f.curved || g.curved {
		b.work.add(apartWork * (10 + f.corners + g.corners))
		if allApart(f.polygons, g.polygons, at[i], at[j], spacing+finerBy) {
			return true
		}
	}
	b.work.add(apartWork * (10 + f.sides + g.sides))
	return allApart(f.fine, g.fine, at[i], at[j], spacing)
}

func allApart(these, those []geometry.Outline, at, other geometry.Vector, spacing geometry.Length) bool {
	for _, p := range these {
		p = p.Moved(at)
		for _, q := range those {
			if !geometry.Apart(p, q.Moved(other), spacing) {
				return false
			}
		}
	}
	return true
}

// eachCloser visits the other items in i's room that may be too close.
func (b *board) eachCloser(i int, at []geometry.Vector, visit func(j int)) {
	p := b.items[i].at
	const around = 2 * mostRounded
	b.grid.each(window{p.x - around, p.y - around, p.x + around, p.y + around}, b.form(i), func(j int) {
		if j == i || b.items[j].room != b.items[i].room {
			return
		}
		d := at[i].Add(at[j].Neg())
		box := b.cat.region(b.cat.variants[b.items[i].variant].form, b.cat.variants[b.items[j].variant].form).box
		if x, y := float64(d.X), float64(d.Y); x >= box.x0 && x <= box.x1 && y >= box.y0 && y <= box.y1 {
			visit(j)
		}
	})
}

// push moves one of two items out of the other by a nanometre or so, square
// to the side of the no-fit part that it is least inside of. Which of the two,
// and along which axis, changes from one stretch of rounds to the next, so
// that pushes do not run in circles. It fails where they overlap by more than
// rounding can.
func (b *board) push(i, j int, at []geometry.Vector, stretch int) bool {
	region := b.cat.region(b.cat.variants[b.items[i].variant].form, b.cat.variants[b.items[j].variant].form)
	d := at[i].Add(at[j].Neg())
	var way spot
	deepest := -1.0 // rounding alone can make exact pairs too close by this
	for k := range region.parts {
		least, n := math.Inf(1), spot{}
		for _, h := range region.parts[k].planes {
			if depth := h.depth(float64(d.X), float64(d.Y)); depth < least {
				least, n = depth, spot{h.nx, h.ny}
			}
		}
		if least > deepest {
			deepest, way = least, n
		}
	}
	if deepest > mostRounded {
		return false
	}
	step := geometry.Vector{X: reaching(deepest*way.x, way.x), Y: reaching(deepest*way.y, way.y)}
	const slanted = 0.2
	switch {
	case stretch%3 == 0 && math.Abs(way.x) > slanted: // along a roll there is room
		step = geometry.Vector{X: reaching(deepest/way.x, way.x)}
	case stretch%3 == 1 && math.Abs(way.y) > slanted:
		step = geometry.Vector{Y: reaching(deepest/way.y, way.y)}
	}
	first, second := i, j
	if rightwards := way.x > 0 || way.x == 0 && way.y > 0; rightwards == (stretch/3%2 == 1) {
		first, second, step = j, i, step.Neg()
	}
	return b.nudge(first, step, at) || b.nudge(second, step.Neg(), at)
}

// reaching rounds a step away from nought, to a nanometre at least, with the
// sign of its direction; none where the direction hardly has that part.
func reaching(by, way float64) geometry.Length {
	if math.Abs(way) < 1e-9 {
		return 0
	}
	return geometry.Length(math.Copysign(max(1, math.Ceil(math.Abs(by))), way))
}

// nudge moves an item, if that keeps it in its room.
func (b *board) nudge(i int, by geometry.Vector, at []geometry.Vector) bool {
	f, use := b.form(i), b.cat.job.usable(b.rooms[b.items[i].room].stock)
	to := at[i].Add(by)
	to.X = min(max(to.X, 0), use.W-geometry.Length(f.w))
	to.Y = min(max(to.Y, 0), use.H-geometry.Length(f.h))
	moved := to != at[i]
	at[i] = to
	return moved
}

// layout leaves out rooms without items and numbers the copies.
func (b *board) layout(at []geometry.Vector) Layout {
	sheet := make([]int, len(b.rooms))
	for i := range sheet {
		sheet[i] = -1
	}
	for _, it := range b.items {
		sheet[it.room] = 0
	}
	f := filling{job: b.cat.job, copies: make([]int, len(b.cat.job.Shapes))}
	for r := range b.rooms {
		if sheet[r] == 0 {
			sheet[r] = len(f.layout.Sheets)
			f.layout.Sheets = append(f.layout.Sheets, b.rooms[r].stock)
		}
	}
	edge := geometry.Vector{X: b.cat.job.Edge, Y: b.cat.job.Edge}
	for i, it := range b.items {
		v := b.cat.variants[it.variant]
		move := at[i].Add(edge).Add(geometry.Point{}.Sub(v.min))
		f.layout.Placements = append(f.layout.Placements,
			Placement{Shape: v.shape, Sheet: sheet[it.room], Over: v.pose.over, Turn: v.pose.turn, Move: move})
	}
	f.number()
	return f.layout
}
