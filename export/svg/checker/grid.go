package checker

import (
	"math"

	"panelry/export/svg/reader"
)

// An edge is one chord of an outline that is compared with the others.
type edge struct {
	a, b     reader.Point
	chain    int32   // index of its chain
	index    int32   // within the chain
	curve    int32   // that it is the chord of, counted from 1; 0 for a straight line
	from, to float64 // the part of the curve
}

// grid finds edges that may come near one another. Each edge stands in the
// cells that its line passes through.
type grid struct {
	min        reader.Point
	cell       float64
	cols, rows int
	start      []int32 // of each cell's edges in items
	items      []int32
}

// newGrid makes cells about as large as an edge is long, and not so many
// that empty ones cost more than edges do.
func newGrid(edges []edge, reach float64) *grid {
	least, most := edges[0].a, edges[0].a
	var total float64
	for _, e := range edges {
		least = reader.Point{X: min(least.X, e.a.X, e.b.X), Y: min(least.Y, e.a.Y, e.b.Y)}
		most = reader.Point{X: max(most.X, e.a.X, e.b.X), Y: max(most.Y, e.a.Y, e.b.Y)}
		total += distance(e.a, e.b)
	}
	n := float64(len(edges))
	w, h := most.X-least.X+0.02, most.Y-least.Y+0.02
	cell := max(total/n, math.Sqrt(w*h/n)/2, reach, 0.05)
	for (w/cell+1)*(h/cell+1) > 4*n+64 || total/cell > 6*n {
		cell *= 1.5
	}
	g := &grid{min: reader.Point{X: least.X - 0.01, Y: least.Y - 0.01}, cell: cell}
	g.cols, g.rows = int(w/cell)+1, int(h/cell)+1
	g.start = make([]int32, g.cols*g.rows+1)
	for _, e := range edges {
		g.cells(e.a, e.b, 0, func(c int) { g.start[c+1]++ })
	}
	for i := 1; i < len(g.start); i++ {
		g.start[i] += g.start[i-1]
	}
	g.items = make([]int32, g.start[len(g.start)-1])
	fill := append([]int32{}, g.start[:len(g.start)-1]...)
	for i, e := range edges {
		g.cells(e.a, e.b, 0, func(c int) {
			g.items[fill[c]] = int32(i)
			fill[c]++
		})
	}
	return g
}

// cells calls f for each cell that a line comes within reach of, and perhaps
// for some more.
func (g *grid) cells(a, b reader.Point, reach float64, f func(int)) {
	if a.Y > b.Y {
		a, b = b, a
	}
	row := func(y float64) int { return min(max(int((y-g.min.Y)/g.cell), 0), g.rows-1) }
	col := func(x float64) int { return min(max(int((x-g.min.X)/g.cell), 0), g.cols-1) }
	const slack = 1e-9
	reach += slack
	for r, last := row(a.Y-reach), row(b.Y+reach); r <= last; r++ {
		// The part of the line that lies in this row, or within reach of it.
		x1, x2 := a.X, b.X
		if dy := b.Y - a.Y; dy > 0 {
			top, bottom := g.min.Y+float64(r)*g.cell-reach, g.min.Y+float64(r+1)*g.cell+reach
			at := func(y float64) float64 { return a.X + min(max((y-a.Y)/dy, 0), 1)*(b.X-a.X) }
			x1, x2 = at(top), at(bottom)
		}
		if x1 > x2 {
			x1, x2 = x2, x1
		}
		for c, end := col(x1-reach), col(x2+reach); c <= end; c++ {
			f(r*g.cols + c)
		}
	}
}

// near calls f with the index of each edge after i that may lie within reach
// of edge i, once.
func (g *grid) near(edges []edge, i int, reach float64, seen []int32, f func(j int) bool) bool {
	ok := true
	g.cells(edges[i].a, edges[i].b, reach, func(c int) {
		for _, j := range g.items[g.start[c]:g.start[c+1]] {
			if int(j) <= i || seen[j] == int32(i)+1 || !ok {
				continue
			}
			seen[j] = int32(i) + 1
			ok = f(int(j))
		}
	})
	return ok
}
