package nesting

import (
	"cmp"
	"math"
	"slices"
)

// filler sets items one by one at the place furthest left, the highest
// there, in the first room that has one (bottom-left fill; the largest item
// first). It goes along upright lines; what each line leaves free is exact.
type filler struct {
	*board
	open  func() bool // adds a room, if there may be one more
	from  []corner    // for each variant: where the search for a place starts
	free  []float64   // area left in each room
	spans []span      // scratch
}

// span is a part of a line that is taken.
type span struct{ lo, hi float64 }

// corner is a line in a room.
type corner struct {
	room int
	x    float64
}

// roomsTried is in how many of the last rooms with area enough a piece that
// is the only one of its shape is tried.
const roomsTried = 8

// fillRooms places the items, which have no place yet, in their order. It
// returns how many found one; those come first.
func (b *board) fillRooms(rooms []room, items []item, open func() bool) int {
	f := &filler{board: b, open: open, from: make([]corner, len(b.cat.variants))}
	b.rooms, b.items = rooms, items
	b.weights = nil
	b.standWalls()
	b.grid.build(b, 0)
	placed := 0
	for i := range items {
		if b.work.ctx.Err() != nil || b.work.done > b.work.fill {
			break
		}
		if !f.place(i) {
			continue
		}
		items[placed], items[i] = items[i], items[placed]
		if placed != i {
			b.grid.swapIn(i, placed)
		}
		placed++
	}
	return placed
}

// alikeInSize is how much smaller the smallest piece may be of those among
// which shapes take turns.
const alikeInSize = 0.98

// largestFirst orders items by area, those of one area by shape.
func (b *board) largestFirst(items []item) {
	slices.SortStableFunc(items, func(p, q item) int { return cmp.Compare(b.areaOf(q), b.areaOf(p)) })
}

func (b *board) areaOf(it item) float64 { return b.cat.form(b.cat.of[it.shape][0]).area }

// shapesInTurn reorders items of falling area: among those of about one size
// shapes take turns, so that a slanted piece finds its other half beside it.
// (Spacing keeps it from gaps between pieces that stand side by side.)
func (b *board) shapesInTurn(items []item) {
	for from := 0; from < len(items); {
		to := from
		for to < len(items) && b.areaOf(items[to]) >= alikeInSize*b.areaOf(items[from]) {
			to++
		}
		takeTurns(items[from:to])
		from = to
	}
}

// takeTurns reorders items so that the first of each shape come first, then
// the second of each.
func takeTurns(items []item) {
	turn := map[int]int{}
	type numbered struct {
		item
		turn int
	}
	list := make([]numbered, len(items))
	for i, it := range items {
		list[i] = numbered{it, turn[it.shape]}
		turn[it.shape]++
	}
	slices.SortStableFunc(list, func(p, q numbered) int { return cmp.Compare(p.turn, q.turn) })
	for i, n := range list {
		items[i] = n.item
	}
}

// place finds a room for an item, opening one if need be.
func (f *filler) place(i int) bool {
	turns := f.cat.of[f.items[i].shape]
	area := f.cat.form(turns[0]).area
	first := len(f.rooms)
	for _, v := range turns {
		first = min(first, f.from[v].room)
	}
	if f.cat.job.Shapes[f.items[i].shape].Count == 1 {
		first = max(first, f.lately(area))
	}
	for r := first; ; r++ {
		if r == len(f.rooms) && !f.open() {
			return false
		}
		for len(f.free) < len(f.rooms) {
			f.free = append(f.free, f.rooms[len(f.free)].w*f.rooms[len(f.free)].h)
		}
		if f.free[r] < area {
			continue
		}
		if v, at, ok := f.bestIn(i, r, turns); ok {
			f.free[r] -= area
			f.put(i, v, r, at)
			return true
		}
	}
}

// manySpans is from how many parts on one line the next line is not drawn at
// the first one's end but a little further on.
const manySpans = 30

// lately returns the first of the last rooms that have some area left.
func (f *filler) lately(area float64) int {
	n := 0
	for r := len(f.free) - 1; r >= 0; r-- {
		if f.free[r] >= area {
			if n++; n == roomsTried {
				return r
			}
		}
	}
	return 0
}

// bestIn returns the variant and place in a room that keep furthest left.
func (f *filler) bestIn(i, r int, turns []int) (variant int, at spot, ok bool) {
	best := spot{math.Inf(1), math.Inf(1)}
	for _, v := range turns {
		start := f.from[v]
		if start.room > r {
			continue
		}
		if start.room < r {
			start = corner{r, math.Inf(-1)}
		}
		s, fits := f.span(r, v)
		if !fits {
			f.from[v] = corner{r + 1, math.Inf(-1)}
			continue
		}
		g := f.cat.form(v)
		p, found := f.firstPlace(i, v, max(start.x, s.x0), best.x-g.w, s)
		if !found {
			if math.IsInf(best.x, 1) { // it was looked for to the end
				f.from[v] = corner{r + 1, math.Inf(-1)}
			}
			continue
		}
		f.from[v] = corner{r, max(start.x, p.x)}
		if end := (spot{p.x + g.w, p.y + g.h}); end.x < best.x-touching || end.x < best.x+touching && end.y < best.y {
			variant, at, ok, best = v, p, true, end
		}
	}
	return variant, at, ok
}

// firstPlace goes right from a line until there is a free place, and no
// further than a limit; the place is then slid left and up.
func (f *filler) firstPlace(i, v int, x, limit float64, s window) (spot, bool) {
	step := 0.1 * f.cat.form(v).w
	for {
		near := f.gather(i, v, window{x, s.y0 - 1, x, s.y1 + 1})
		y, next, ok := f.gap(near, x, s)
		if ok {
			p := spot{x, y}
			near = f.gather(i, v, window{x - step - 1, -1, x + 1, y + 1})
			f.collect(near, window{x - step, 0, x, y})
			for range 2 {
				p = f.slide(p, spot{-1, 0}, min(step, p.x-s.x0))
				p = f.slide(p, spot{0, -1}, p.y)
			}
			return p, true
		}
		if x >= s.x1 || x > limit {
			return spot{}, false
		}
		least := touching
		if len(f.spans) > manySpans {
			least = 0.3 * step
		}
		x = min(max(next, x+least), x+step, s.x1)
	}
}

// gap returns the least y on an upright line that is free, or the x at
// which the next part in the way ends.
func (f *filler) gap(near []neighbour, x float64, s window) (y, next float64, ok bool) {
	f.spans = f.spans[:0]
	next = math.Inf(1)
	for k := range near {
		o := &near[k]
		for j := range o.region.parts {
			p := &o.region.parts[j]
			at := x - o.at.x
			if at <= p.box.x0 || at >= p.box.x1 {
				continue
			}
			next = min(next, p.box.x1+o.at.x)
			if lo, hi := p.upright(at); hi-lo > touching {
				f.spans = append(f.spans, span{lo + o.at.y, hi + o.at.y})
			}
			f.work.add(4 + 2*len(p.planes))
		}
	}
	y = s.y0
	for left, last := f.spans, math.Inf(-1); y > last && y <= s.y1+touching; {
		last = y
		f.work.add(len(left) / 2)
		ahead := left[:0]
		for _, p := range left {
			if p.lo >= y {
				ahead = append(ahead, p)
			} else {
				y = max(y, p.hi)
			}
		}
		left = ahead
	}
	return min(y, s.y1), next, y <= s.y1+touching
}

// upright returns where an upright line runs through a part.
func (p *noFitPart) upright(x float64) (lo, hi float64) {
	lo, hi = math.Inf(-1), math.Inf(1)
	for i := range p.planes {
		h := &p.planes[i]
		a := h.c - h.nx*x
		switch {
		case h.ny > 1e-12:
			hi = min(hi, a/h.ny)
		case h.ny < -1e-12:
			lo = max(lo, a/h.ny)
		case a <= touching:
			return 0, 0
		}
	}
	return lo, hi
}

// slide moves a free place along until it touches one of the collected
// parts, at most so far.
func (f *filler) slide(p, way spot, most float64) spot {
	s := &f.line
	s.stretches, s.planes, s.ends = s.stretches[:0], s.planes[:0], s.ends[:0]
	for k := range f.parts {
		s.cross(&f.parts[k], p, way, 0, most)
	}
	for _, st := range s.stretches {
		most = min(most, max(0, st.lo))
	}
	return p.add(way.times(max(0, most)))
}
