package nesting

import (
	"cmp"
	"math"
	"slices"
)

// largest returns the larger two thirds of the items.
func (b *board) largest() []int {
	order := make([]int, len(b.items))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(b.form(j).area, b.form(i).area) })
	return order[:max((2*len(order)+2)/3, 1)]
}

// fewer takes away one sheet after another, the emptiest of the last stock
// first, and throws its items into the others, until the bound or the end of
// the work is reached. found says whether a state could be had exactly.
func (b *board) fewer(bound int, found func() bool) {
	best := append([]item(nil), b.items...)
	rooms := slices.Clone(b.rooms)
	for len(rooms) > max(bound, 1) && !b.work.over() {
		b.fill(rooms, best)
		gone := b.emptiest()
		b.rooms = slices.Delete(b.rooms, gone, gone+1)
		b.standWalls()
		if !b.scatter(gone) || !b.settleDown(found) {
			return
		}
		best, rooms = append(best[:0], b.items...), slices.Clone(b.rooms)
	}
	b.fill(rooms, best)
}

// emptiest returns the room of the last stock that holds least.
func (b *board) emptiest() int {
	area := make([]float64, len(b.rooms))
	for i, it := range b.items {
		area[it.room] += b.form(i).area
	}
	best := 0
	for r := range b.rooms {
		if c := cmp.Or(cmp.Compare(b.rooms[best].stock, b.rooms[r].stock), cmp.Compare(area[r], area[best])); c < 0 {
			best = r
		}
	}
	return best
}

// scatter throws the items of a room that is gone into the others.
func (b *board) scatter(gone int) bool {
	for i, it := range b.items {
		if it.room != gone {
			if it.room > gone {
				b.items[i].room--
			}
			continue
		}
		if !b.throw(i) {
			return false
		}
	}
	return true
}

// throw puts an item anywhere in a room that holds it.
func (b *board) throw(i int) bool {
	turns := b.cat.of[b.items[i].shape]
	for k, start := 0, b.rng.IntN(len(b.rooms)); k < len(b.rooms); k++ {
		r := (start + k) % len(b.rooms)
		for _, v := range turns {
			if s, ok := b.span(r, v); ok {
				b.put(i, v, r, spot{s.x0 + b.rng.Float64()*(s.x1-s.x0), b.rng.Float64() * s.y1})
				return true
			}
		}
	}
	return false
}

// settleDown separates, with exchanges between tries, until it succeeds, and
// exactly so, or the work ends.
func (b *board) settleDown(found func() bool) bool {
	var pool []failed
	for {
		o := b.separate()
		if o == 0 && found() {
			return true
		}
		b.work.add(10_000)
		if b.work.over() {
			return false
		}
		pool = keep(pool, failed{append([]item(nil), b.items...), o})
		k := min(int(math.Abs(b.rng.NormFloat64())*0.25*float64(len(pool))), len(pool)-1)
		b.reset(pool[k].items)
		b.exchange()
	}
}
