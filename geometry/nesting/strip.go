package nesting

import "math"

// How a roll's length is worked down: by these shares of it at a time.
const (
	firstStep, mostStep, leastStep = 0.006, 0.015, 0.0008
	fineStep, finestStep           = 0.0005, 0.00001
	explored                       = 0.8 // of the work; the rest makes the best one shorter
	mostPool                       = 20
)

// used returns how far right items reach in room 0.
func (b *board) used() float64 {
	right := 0.0
	for i, it := range b.items {
		right = max(right, it.at.x+b.form(i).w)
	}
	return right
}

// stretch moves all items a little to the right, the further the further right
// they are, so that rounding has room: by a few nanometres between two.
func (b *board) stretch(share float64) {
	for i, it := range b.items {
		b.putInside(i, it.variant, it.room, spot{it.at.x * (1 + share), it.at.y})
	}
}

// narrow makes room 0 shorter and pushes in what stands out.
func (b *board) narrow(length float64) bool {
	b.rooms[0].w = length
	for i, it := range b.items {
		s, ok := b.span(0, it.variant)
		if !ok {
			return false
		}
		b.put(i, it.variant, 0, spot{min(it.at.x, s.x1), it.at.y})
	}
	return true
}

// failed is a state of the board with some overlap left.
type failed struct {
	items   []item
	overlap float64
}

// shorten works a roll's length down until its bound or the end of the work
// is reached; found is called with each shorter state and says whether it
// could be had exactly.
func (b *board) shorten(bound float64, found func(length float64) bool) {
	best := append([]item(nil), b.items...)
	length := b.used()
	total := b.work.limit
	b.work.limit = b.work.done + int(explored*float64(total-b.work.done))
	var pool []failed
	target := 0.0
	step := firstStep
	fails := 0
	aim := func(by float64) bool {
		target = max(length*(1-by), bound)
		return target < length*(1-1e-9)
	}
	success := func() bool {
		reached := b.used()
		if !found(reached) {
			return false
		}
		length = reached
		best = append(best[:0], b.items...)
		return true
	}
	for aim(step) && b.narrow(target) && !b.work.over() {
		for {
			if o := b.separate(); o == 0 {
				b.work.add(100_000)
				if success() {
					step = min(step*1.3, mostStep)
					pool, fails = nil, 0
				} else {
					b.reset(best)
				}
				break
			} else {
				pool = keep(pool, failed{append([]item(nil), b.items...), o})
			}
			if b.work.over() {
				break
			}
			if fails++; fails%3 == 0 && step > leastStep {
				step = max(step/2, leastStep)
				b.reset(best)
				pool = nil
				break
			}
			k := min(int(math.Abs(b.rng.NormFloat64())*0.25*float64(len(pool))), len(pool)-1)
			b.reset(pool[k].items)
			b.exchange()
		}
	}
	b.work.limit = total
	for step := fineStep; step >= finestStep && aim(step) && !b.work.over(); {
		b.reset(best)
		if b.narrow(target) && b.separate() == 0 && success() {
			continue
		}
		b.work.add(100_000)
		step *= 0.8
	}
	b.rooms[0].w = length
	b.reset(best)
}

// keep adds a state to a pool in order of overlap; the worst falls out.
func keep(pool []failed, f failed) []failed {
	at := 0
	for at < len(pool) && pool[at].overlap <= f.overlap {
		at++
	}
	pool = append(pool[:at], append([]failed{f}, pool[at:]...)...)
	return pool[:min(len(pool), mostPool)]
}

// exchange lets two different items of the larger two thirds change places.
func (b *board) exchange() {
	large := b.largest()
	for range 20 {
		i, j := large[b.rng.IntN(len(large))], large[b.rng.IntN(len(large))]
		p, q := b.items[i], b.items[j]
		if b.cat.variants[p.variant].form == b.cat.variants[q.variant].form {
			continue
		}
		f, g := b.form(i), b.form(j)
		by := spot{(f.w - g.w) / 2, (f.h - g.h) / 2}
		b.putInside(i, p.variant, q.room, q.at.sub(by))
		b.putInside(j, q.variant, p.room, p.at.add(by))
		return
	}
}

// putInside moves an item as near to a place as its room allows.
func (b *board) putInside(i, variant, room int, at spot) {
	if s, ok := b.span(room, variant); ok {
		b.put(i, variant, room, spot{min(max(at.x, s.x0), s.x1), min(max(at.y, s.y0), s.y1)})
	}
}
