package nesting

import (
	"math"
	"math/rand/v2"
	"slices"
)

// room is a sheet inside its edges, somewhere along the plane; rooms are so
// far apart that pieces in two of them never meet.
type room struct {
	stock int
	left  float64
	w, h  float64
}

// item is one piece where it now lies: the top left of its form's box.
type item struct {
	shape, variant int
	room           int
	at             spot
}

// board is the state of a search: rooms with items in them, which may
// overlap but never stand out of their room.
type board struct {
	cat   *catalogue
	rooms []room
	items []item
	walls []wall

	raised  [][]raisedPair // for each item, the pairs whose weight is above 1
	factor  []float64      // for each form: its area's share in a pair's base weight
	weights []float64      // of the moving item with each other: scratch
	rng     *rand.Rand
	work    *work
	grid    grid

	near  []neighbour   // scratch of gather
	lists [][]neighbour // scratch of around: for each variant of the moving item
	parts []nearPart    // scratch of refine
	line  lineScratch
}

// raisedPair is a pair of items that has overlapped for some time.
type raisedPair struct {
	other  int
	weight float64
}

// neighbour is an item that a moving one could overlap.
type neighbour struct {
	box    window // where the moving item's corner would overlap it at all
	region *noFit
	at     spot
	weight float64
}

func newBoard(cat *catalogue, rng *rand.Rand, w *work) *board {
	b := &board{cat: cat, rng: rng, work: w}
	cat.work = w
	mean := 0.0
	for _, f := range cat.forms {
		b.factor = append(b.factor, math.Pow(f.area, 0.25))
		mean += b.factor[len(b.factor)-1]
	}
	for i := range b.factor {
		b.factor[i] *= float64(len(b.factor)) / mean
	}
	return b
}

// fill takes the items and rooms over.
func (b *board) fill(rooms []room, items []item) {
	b.rooms, b.items = slices.Clone(rooms), slices.Clone(items)
	b.raised = make([][]raisedPair, len(items))
	b.weights = nil
	b.standWalls()
	b.grid.build(b, len(items))
}

// put moves an item.
func (b *board) put(i, variant, room int, at spot) {
	b.items[i].variant, b.items[i].room, b.items[i].at = variant, room, at
	b.grid.move(i, at)
}

// form returns the form an item has now.
func (b *board) form(i int) *form { return b.cat.form(b.items[i].variant) }

// reset puts all items where they lay in a snapshot.
func (b *board) reset(items []item) {
	for i, it := range items {
		b.put(i, it.variant, it.room, it.at)
	}
}

// span returns where an item's corner may lie in a room, in a variant;
// false where it does not fit.
func (b *board) span(room, variant int) (window, bool) {
	r, f := b.rooms[room], b.cat.form(variant)
	return window{r.left, 0, r.left + r.w - f.w, r.h - f.h}, f.w <= r.w && f.h <= r.h
}

// gather lists the items that item i, in a variant, could overlap with its
// corner in the window.
func (b *board) gather(i, variant int, w window) []neighbour {
	b.near = b.near[:0]
	moving := b.cat.variants[variant].form
	mf := b.factor[moving]
	visited := 0
	visit := func(j int) {
		visited++
		if j == i {
			return
		}
		it := &b.items[j]
		fixed := b.cat.variants[it.variant].form
		region := b.cat.region(moving, fixed)
		if box := region.box.moved(it.at); box.meets(w) {
			b.near = append(b.near, neighbour{box, region, it.at, b.weights[j] * mf * b.factor[fixed]})
		}
	}
	cells := b.grid.each(w, b.cat.forms[moving], visit)
	for k, wl := range b.walls {
		region := b.cat.region(moving, wl.form)
		if box := region.box.moved(wl.at); box.meets(w) {
			b.near = append(b.near, neighbour{box, region, wl.at, b.weights[len(b.items)+k] * mf * b.factor[wl.form]})
		}
	}
	b.work.add(4*(visited+len(b.walls)) + 6*cells + 4)
	return b.near
}

// nearby lists at least the items that item i could overlap with its corner
// in the window. With few items, all are gathered once for a move.
func (b *board) nearby(i, variant int, w window) []neighbour {
	if b.grid.cells != nil {
		return b.gather(i, variant, w)
	}
	k := variant - b.cat.of[b.items[i].shape][0]
	for len(b.lists) <= k {
		b.lists = append(b.lists, nil)
	}
	if len(b.lists[k]) == 0 {
		b.lists[k] = append(b.lists[k], b.gather(i, variant, everywhere)...)
	}
	return b.lists[k]
}

// forget drops the lists that nearby keeps.
func (b *board) forget() {
	for k := range b.lists {
		b.lists[k] = b.lists[k][:0]
	}
}

var everywhere = window{math.Inf(-1), math.Inf(-1), math.Inf(1), math.Inf(1)}

// overlap returns the weighted overlap of an item with its corner at p; it
// stops counting past the limit.
func overlap(near []neighbour, p spot, limit float64, w *work) float64 {
	sum := 0.0
	n := 0
	for i := range near {
		o := &near[i]
		if p.x <= o.box.x0 || p.x >= o.box.x1 || p.y <= o.box.y0 || p.y >= o.box.y1 {
			continue
		}
		n += len(o.region.parts)
		x, y := p.x-o.at.x, p.y-o.at.y
		for k := range o.region.parts {
			part := &o.region.parts[k]
			if x <= part.box.x0 || x >= part.box.x1 || y <= part.box.y0 || y >= part.box.y1 {
				continue
			}
			sum += o.weight * part.depth(x, y)
		}
		if sum >= limit {
			break
		}
	}
	w.add(8 + len(near)/4 + 3*n)
	return sum
}

// pairDepth returns how deep two items overlap, times their base weight.
func (b *board) pairDepth(i, j int) float64 {
	f, g := b.cat.variants[b.items[i].variant].form, b.cat.variants[b.items[j].variant].form
	p := b.items[i].at.sub(b.items[j].at)
	return b.cat.region(f, g).depth(p.x, p.y) * b.factor[f] * b.factor[g]
}

// wallDepth returns how deep an item is in a wall, times their base weight.
func (b *board) wallDepth(i int, w wall) float64 {
	f := b.cat.variants[b.items[i].variant].form
	p := b.items[i].at.sub(w.at)
	return b.cat.region(f, w.form).depth(p.x, p.y) * b.factor[f] * b.factor[w.form]
}

// clash is a pair of items that overlap; j can be a wall, behind all items.
type clash struct {
	i, j  int
	depth float64
}

// clashes lists all pairs that overlap, and the sum of their depths.
func (b *board) clashes() (list []clash, total float64) {
	visited := 0
	for i := range b.items {
		at := b.items[i].at
		b.grid.each(window{at.x, at.y, at.x, at.y}, b.form(i), func(j int) {
			if j <= i {
				return
			}
			visited++
			if d := b.pairDepth(i, j); d > 0 {
				list = append(list, clash{i, j, d})
				total += d
			}
		})
		for k, wl := range b.walls {
			if d := b.wallDepth(i, wl); d > 0 {
				list = append(list, clash{i, len(b.items) + k, d})
				total += d
			}
		}
	}
	b.work.add(4 * (visited + len(b.items)*len(b.walls)))
	return list, total
}

// grid finds the items near a place: each is kept in the cell that holds
// its corner. Few items need no grid.
type grid struct {
	cell       float64
	nx, ny     int
	cells      [][]int32
	of         []int32
	maxW, maxH float64 // of all forms, with the spacing
	spacing    float64
	all        int
}

// fewItems is up to how many items are simply looked at one by one.
const fewItems = 150

// build takes in the first items; with more to come there are always cells.
func (g *grid) build(b *board, placed int) {
	g.all = len(b.items)
	g.cells = nil
	if g.all <= fewItems && placed == g.all {
		return
	}
	sum := 0.0
	g.maxW, g.maxH = 0, 0
	g.spacing = 2 * b.cat.spacing // mitred corners stand out further than the spacing
	for _, v := range b.cat.variants {
		f := b.cat.forms[v.form]
		g.maxW, g.maxH = max(g.maxW, f.w+g.spacing), max(g.maxH, f.h+g.spacing)
		sum += f.w + f.h
	}
	bottom := 0.0
	for i := range b.cat.job.Stock {
		bottom = max(bottom, float64(b.cat.job.usable(i).H))
	}
	g.cell = max(sum/float64(2*len(b.cat.variants)), bottom/200)
	g.nx, g.ny = 0, int(bottom/g.cell)+1
	g.cells = [][]int32{}
	g.of = make([]int32, g.all)
	for i := range g.of {
		g.of[i] = -1
	}
	for i, it := range b.items[:placed] {
		g.move(i, it.at)
	}
}

func (g *grid) column(x float64) int { return max(int(x/g.cell), 0) }
func (g *grid) row(y float64) int    { return min(max(int(y/g.cell), 0), g.ny-1) }

func (g *grid) move(i int, to spot) {
	if g.cells == nil {
		return
	}
	x := g.column(to.x)
	for ; g.nx <= x; g.nx++ {
		g.cells = append(g.cells, make([][]int32, g.ny)...)
	}
	c := int32(x*g.ny + g.row(to.y))
	if g.of[i] == c {
		return
	}
	if old := g.of[i]; old >= 0 {
		list := g.cells[old]
		k := slices.Index(list, int32(i))
		list[k] = list[len(list)-1]
		g.cells[old] = list[:len(list)-1]
	}
	g.of[i] = c
	g.cells[c] = append(g.cells[c], int32(i))
}

// each visits all items that one of that form could overlap with its corner
// in the window, and some more. It returns how many cells it looked into.
func (g *grid) each(w window, f *form, visit func(int)) int {
	if g.cells == nil {
		for i := range g.all {
			visit(i)
		}
		return 0
	}
	x0, x1 := g.column(w.x0-g.maxW), g.column(w.x1+f.w+g.spacing)
	y0, y1 := g.row(w.y0-g.maxH), g.row(w.y1+f.h+g.spacing)
	for x := x0; x <= min(x1, g.nx-1); x++ {
		for y := y0; y <= y1; y++ {
			for _, i := range g.cells[x*g.ny+y] {
				visit(int(i))
			}
		}
	}
	return max(0, min(x1, g.nx-1)-x0+1) * (y1 - y0 + 1)
}

// swapIn exchanges an item the grid knows with an entry it does not know.
func (g *grid) swapIn(known, free int) {
	c := g.of[known]
	list := g.cells[c]
	list[slices.Index(list, int32(known))] = int32(free)
	g.of[free], g.of[known] = c, -1
}
