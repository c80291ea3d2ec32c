package nesting

import "slices"

// When a separation gives up: after so many rounds of so many passes without
// a gain of 2 %.
const (
	roundPasses = 120
	mostRounds  = 3
	realGain    = 0.98
)

// separate moves items apart until none overlap: guided local search (after
// Voudouris and Tsang 1999, as Egeblad and others 2007 use it), in which
// pairs that keep overlapping weigh more. It returns the least total overlap
// it saw, with the board in that state; 0 is success.
func (b *board) separate() float64 {
	for i := range b.raised {
		b.raised[i] = b.raised[i][:0]
	}
	_, total := b.clashes()
	best, bestTotal := slices.Clone(b.items), total
	for rounds := 0; rounds < mostRounds && bestTotal > 0 && !b.work.over(); rounds++ {
		b.reset(best)
		list, total := b.clashes()
		mark := bestTotal
		for passes := 0; passes < roundPasses && total > 0 && !b.work.over(); passes++ {
			b.pass(list)
			list, total = b.clashes()
			b.reweigh(list)
			if total < bestTotal {
				bestTotal = total
				copy(best, b.items)
				if total < realGain*mark {
					mark, passes = total, -1
					rounds = 0
				}
			}
		}
	}
	b.reset(best)
	return bestTotal
}

// pass moves each item that overlaps, in random order.
func (b *board) pass(list []clash) {
	var order []int
	seen := make([]bool, len(b.items))
	for _, c := range list {
		for _, i := range []int{c.i, c.j} {
			if i < len(b.items) && !seen[i] {
				seen[i] = true
				order = append(order, i)
			}
		}
	}
	b.rng.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
	for _, i := range order {
		if b.work.over() {
			return
		}
		b.move(i)
	}
}

// reweigh lets old weights fade and raises those of pairs that overlap.
func (b *board) reweigh(list []clash) {
	deepest := 0.0
	for _, c := range list {
		deepest = max(deepest, c.depth)
	}
	for i := range b.raised {
		kept := b.raised[i][:0]
		for _, p := range b.raised[i] {
			if p.weight *= 0.95; p.weight > 1 {
				kept = append(kept, p)
			}
		}
		b.raised[i] = kept
	}
	for _, c := range list {
		by := (1.2 + 0.8*c.depth/deepest) / 0.95
		b.raise(c.i, c.j, by)
		if c.j < len(b.items) {
			b.raise(c.j, c.i, by)
		}
	}
}

func (b *board) raise(i, j int, by float64) {
	for k, p := range b.raised[i] {
		if p.other == j {
			b.raised[i][k].weight *= by
			return
		}
	}
	b.raised[i] = append(b.raised[i], raisedPair{j, by * 0.95})
}
