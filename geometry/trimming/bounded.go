package trimming

import "container/heap"

// build is a rectangle put together from pieces by guillotine cuts.
type build struct {
	w, h   int
	value  int64
	bound  int64 // at most what a sheet with it in a corner can reach
	counts []uint8
	item   int // index of the item; -1 for two builds put together
	a, b   *build
	beside bool // a left of b; else a above b
}

// bounded searches for the best sheet where pieces are limited in number: it
// puts builds together side by side and above each other, the one with the
// highest bound first (K. V. Viswanathan, A. Bagchi, "Best-first search
// methods for constrained two-dimensional cutting stock problems", Operations
// Research 41 (1993), after P. Y. Wang, ibid. 31 (1983)). A bound is the
// build's value and the most that the rest of the sheet can give if pieces
// were not limited, which the table of [free] knows.
type bounded struct {
	*free
	most    []int   // of each piece
	capped  bool    // more of a piece would fit than builds can count
	outside []int64 // by width and height of a build, in units
	open    openBuilds
	closed  []*build
	seen    map[string][]*build
	best    *build
	left    int // builds that may still be made
}

type openBuilds []*build

func (o openBuilds) Len() int { return len(o) }
func (o openBuilds) Less(i, j int) bool {
	if o[i].bound != o[j].bound {
		return o[i].bound > o[j].bound
	}
	return o[i].value > o[j].value
}
func (o openBuilds) Swap(i, j int) { o[i], o[j] = o[j], o[i] }
func (o *openBuilds) Push(x any)   { *o = append(*o, x.(*build)) }
func (o *openBuilds) Pop() any {
	old := *o
	last := old[len(old)-1]
	old[len(old)-1] = nil
	*o = old[:len(old)-1]
	return last
}

// mostOfPiece is how many of a piece a build can count.
const mostOfPiece = 255

// newBounded works out what the rest of the sheet can give for every size of
// a build: the most over all ways to widen it, or make it higher, step by
// step to the whole sheet.
func newBounded(f *free, pieces []Piece, budget int) *bounded {
	b := &bounded{free: f, seen: map[string][]*build{}, left: budget, most: make([]int, len(pieces))}
	for i, p := range pieces {
		most := p.Count
		for _, it := range f.items { // no more than fit
			if it.piece == i {
				most = min(most, f.w*f.h/(it.w*it.h))
			}
		}
		b.most[i] = min(most, mostOfPiece)
		b.capped = b.capped || most > mostOfPiece
	}
	w, h := f.w, f.h
	b.outside = make([]int64, (w+1)*(h+1))
	at := func(x, y int) int { return x*(h+1) + y }
	for x := w; x >= 0; x-- {
		for y := h; y >= 0; y-- {
			var best int64
			if x < w { // a strip of one unit may be lost
				best = b.outside[at(x+1, y)]
			}
			if y < h {
				best = max(best, b.outside[at(x, y+1)])
			}
			for _, u := range f.xs[1:] {
				if x+u > w {
					break
				}
				best = max(best, b.outside[at(x+u, y)]+f.at(u, y))
			}
			for _, v := range f.ys[1:] {
				if y+v > h {
					break
				}
				best = max(best, b.outside[at(x, y+v)]+f.at(x, v))
			}
			b.outside[at(x, y)] = best
		}
	}
	return b
}

// mostOutside is the most steps for the table of what the rest can give.
const mostOutside = 60_000_000

// run returns the best build, and whether it is proved best.
func (b *bounded) run() (*build, bool) {
	for n, it := range b.items {
		counts := make([]uint8, len(b.most))
		counts[it.piece] = 1
		if b.most[it.piece] > 0 {
			b.offer(&build{w: it.w, h: it.h, value: it.value, counts: counts, item: n})
		}
	}
	for b.open.Len() > 0 {
		top := heap.Pop(&b.open).(*build)
		if b.best != nil && top.bound <= b.best.value {
			return b.best, true
		}
		b.closed = append(b.closed, top)
		for _, other := range b.closed {
			b.join(top, other)
			if b.left <= 0 {
				return b.best, false
			}
		}
	}
	return b.best, true
}

// join puts two builds side by side, and above each other.
func (b *bounded) join(p, q *build) {
	b.left--
	if p.w+q.w > b.w && p.h+q.h > b.h {
		return
	}
	for i, n := range p.counts {
		if int(n)+int(q.counts[i]) > b.most[i] {
			return
		}
	}
	value := p.value + q.value
	w, h := p.w+q.w, max(p.h, q.h)
	if w <= b.w && b.worth(w, h, value) {
		b.offer(&build{w: w, h: h, value: value, counts: added8(p.counts, q.counts), item: -1, a: p, b: q, beside: true})
	}
	w, h = max(p.w, q.w), p.h+q.h
	if h <= b.h && b.worth(w, h, value) {
		b.offer(&build{w: w, h: h, value: value, counts: added8(p.counts, q.counts), item: -1, a: p, b: q})
	}
}

func (b *bounded) worth(w, h int, value int64) bool {
	return b.best == nil || value+b.outside[w*(b.h+1)+h] > b.best.value
}

func added8(a, c []uint8) []uint8 {
	sum := make([]uint8, len(a))
	for i := range a {
		sum[i] = a[i] + c[i]
	}
	return sum
}

// offer keeps a build unless one of the same pieces is no larger either way.
func (b *bounded) offer(n *build) {
	n.bound = n.value + b.outside[n.w*(b.h+1)+n.h]
	if b.best != nil && n.bound <= b.best.value {
		return
	}
	key := string(n.counts)
	for _, s := range b.seen[key] {
		if s.w <= n.w && s.h <= n.h {
			return
		}
	}
	b.seen[key] = append(b.seen[key], n)
	if b.best == nil || n.value > b.best.value {
		b.best = n
	}
	heap.Push(&b.open, n)
}

// write puts a build into the corner of a part of w by h units.
func (b *bounded) write(n *build, p *Part, w, h int) {
	if n.item >= 0 {
		b.place(p, w, h, b.items[n.item])
		return
	}
	first := true
	at := n.a.h
	if n.beside {
		at = n.a.w
	}
	b.split(p, n.beside, at, w, h, func(part *Part, w, h int) {
		if first {
			first = false
			b.write(n.a, part, w, h)
			return
		}
		b.write(n.b, part, w, h)
	})
}
