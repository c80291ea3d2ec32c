package trimming

// free is the table of best values with any number of each piece: value of
// every rectangle whose sides are normal lengths, by dynamic programming
// over all first cuts (P. C. Gilmore, R. E. Gomory, "The theory and
// computation of knapsack functions", Operations Research 14 (1966); J. E.
// Beasley, "Algorithms for unconstrained two-dimensional guillotine cutting",
// Journal of the Operational Research Society 36 (1985)).
type free struct {
	problem
	downX, downY []int   // longest normal length not longer
	xs, ys       []int   // the normal lengths, rising, 0 first
	indexX       []int   // of a length's normal length in xs
	indexY       []int   // in ys
	value        []int64 // by index in xs times len(ys) + index in ys
	choice       []int32 // how: 0 nothing, n > 0 item n-1, else a cut, see cutChoice
}

// The choice of a cut: -1 - 2·index of the first part's length, and one less
// for a level cut.
func cutChoice(index int, upright bool) int32 {
	c := int32(-1 - 2*index)
	if !upright {
		c--
	}
	return c
}

// mostTable is the largest table, and mostTableWork the most steps, of the
// free problem.
const (
	mostTable     = 2_000_000
	mostTableWork = 600_000_000
)

// newFree fills the table; false where it would be too large.
func newFree(q problem) (*free, bool) {
	f := &free{problem: q, downX: normal(q.w, q.widths()), downY: normal(q.h, q.heights())}
	list := func(down []int) (points, index []int) {
		index = make([]int, len(down))
		for x, d := range down {
			if d == x {
				points = append(points, x)
			}
			index[x] = len(points) - 1
		}
		return points, index
	}
	f.xs, f.indexX = list(f.downX)
	f.ys, f.indexY = list(f.downY)
	nx, ny := len(f.xs), len(f.ys)
	if nx*ny > mostTable || nx*ny*(nx+ny) > 2*mostTableWork {
		return nil, false
	}
	f.value = make([]int64, nx*ny)
	f.choice = make([]int32, nx*ny)
	for n, it := range q.items {
		at := f.indexX[it.w]*ny + f.indexY[it.h]
		if it.value > f.value[at] {
			f.value[at], f.choice[at] = it.value, int32(n+1)
		}
	}
	for i := 1; i < nx; i++ {
		for j := 1; j < ny; j++ {
			at := i*ny + j
			best, choice := f.value[at], f.choice[at]
			// What a slightly smaller rectangle gives, this one gives.
			if v := f.value[at-1]; v > best {
				best, choice = v, cutChoice(j-1, false)
			}
			if v := f.value[at-ny]; v > best {
				best, choice = v, cutChoice(i-1, true)
			}
			x, y := f.xs[i], f.ys[j]
			for k := 1; k < nx && 2*f.xs[k] <= x; k++ {
				if v := f.value[k*ny+j] + f.value[f.indexX[x-f.xs[k]]*ny+j]; v > best {
					best, choice = v, cutChoice(k, true)
				}
			}
			for k := 1; k < ny && 2*f.ys[k] <= y; k++ {
				if v := f.value[i*ny+k] + f.value[i*ny+f.indexY[y-f.ys[k]]]; v > best {
					best, choice = v, cutChoice(k, false)
				}
			}
			f.value[at], f.choice[at] = best, choice
		}
	}
	return f, true
}

// at returns the best value of a rectangle of w by h units.
func (f *free) at(w, h int) int64 {
	if w <= 0 || h <= 0 {
		return 0
	}
	return f.value[f.indexX[w]*len(f.ys)+f.indexY[h]]
}

// tree writes the best cuts of a rectangle of w by h units into a part.
func (f *free) tree(p *Part, w, h int) {
	i, j := f.indexX[w], f.indexY[h]
	if f.value[i*len(f.ys)+j] == 0 {
		return
	}
	switch c := f.choice[i*len(f.ys)+j]; {
	case c > 0:
		f.place(p, w, h, f.items[c-1])
	case c < 0:
		upright := c%2 != 0
		k := int(-c-1) / 2
		if upright {
			f.split(p, true, f.xs[k], w, h, f.tree)
		} else {
			f.split(p, false, f.ys[k], w, h, f.tree)
		}
	}
}

// split cuts a part of w by h units at a number of units and goes on with
// both parts.
func (q problem) split(p *Part, upright bool, at, w, h int, then func(*Part, int, int)) {
	whole := h
	if upright {
		whole = w
	}
	if at >= whole {
		then(p, w, h)
		return
	}
	first, second := p.split(upright, q.length(at), q.kerf)
	if upright {
		then(first, at, h)
		then(second, w-at, h)
	} else {
		then(first, w, at)
		then(second, w, h-at)
	}
}

// place cuts an item off the corner of a part of w by h units.
func (q problem) place(p *Part, w, h int, it item) {
	size := p.Box.Size()
	if cut := q.length(it.w); cut < size.W {
		p, _ = p.split(true, cut, q.kerf)
	}
	if cut := q.length(it.h); cut < size.H {
		p, _ = p.split(false, cut, q.kerf)
	}
	p.Piece, p.Turned = it.piece, it.turned
}
