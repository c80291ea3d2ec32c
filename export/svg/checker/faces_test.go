package checker

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/export/svg/findings"
	"panelry/export/svg/reader"
)

func segment(x1, y1, x2, y2 float64) edge {
	return edge{a: reader.Point{X: x1, Y: y1}, b: reader.Point{X: x2, Y: y2}}
}

func frame(x, y, w, h float64) []edge {
	return []edge{segment(x, y, x+w, y), segment(x+w, y, x+w, y+h), segment(x+w, y+h, x, y+h), segment(x, y+h, x, y)}
}

// areasOf returns the areas of the faces, smallest first.
func areasOf(t require.TestingT, edges []edge) []float64 {
	b := newBudget()
	list, ok := facesOf(edges, &b)
	require.True(t, ok)
	areas := []float64{}
	for _, f := range list {
		areas = append(areas, f.area)
	}
	slices.Sort(areas)
	return areas
}

func TestFaces(t *testing.T) {
	diagonals := func(edges []edge, x, y, w, h float64) []edge {
		return append(edges, segment(x, y, x+w, y+h), segment(x+w, y, x, y+h))
	}
	tests := map[string]struct {
		edges []edge
		want  []float64
	}{
		"a square":                       {frame(0, 0, 4, 4), []float64{16}},
		"every edge twice":               {append(frame(0, 0, 4, 4), frame(0, 0, 4, 4)...), []float64{16}},
		"a diagonal":                     {append(frame(0, 0, 4, 2), segment(0, 0, 4, 2)), []float64{4, 4}},
		"a diagonal cross":               {diagonals(frame(0, 0, 4, 2), 0, 0, 4, 2), []float64{2, 2, 2, 2}},
		"a cross through edges":          {append(frame(0, 0, 4, 4), segment(-1, 1, 5, 1), segment(3, -1, 3, 5)), []float64{1, 3, 3, 9}},
		"a T":                            {append(frame(0, 0, 4, 4), segment(0, 1, 4, 1), segment(3, 1, 3, 4)), []float64{3, 4, 9}},
		"a line that dangles":            {append(frame(0, 0, 4, 4), segment(0, 2, 3, 2)), []float64{16}},
		"a line outside":                 {append(frame(0, 0, 4, 4), segment(4, 2, 9, 2)), []float64{16}},
		"a line alone":                   {[]edge{segment(0, 0, 4, 0)}, []float64{}},
		"an open corner":                 {frame(0, 0, 4, 4)[:3], []float64{}},
		"two pieces":                     {append(frame(0, 0, 4, 4), frame(9, 0, 1, 1)...), []float64{1, 16}},
		"two that share a part of edges": {append(frame(0, 0, 4, 4), frame(4, 1, 2, 1)...), []float64{2, 16}},
		"two that touch at a corner":     {append(frame(0, 0, 4, 4), frame(4, 4, 2, 1)...), []float64{2, 16}},
		"one in another":                 {append(frame(0, 0, 4, 4), frame(1, 1, 1, 1)...), []float64{1, 16}}, // not taken off
		"ends 0.0009 mm apart":           {[]edge{segment(0, 0, 4, 0), segment(4, 0.0009, 4, 4), segment(4, 4, 0, 0)}, []float64{8}},
		"ends 0.002 mm apart":            {[]edge{segment(0, 0, 4, 0), segment(4, 0.002, 4, 4), segment(4, 4, 0, 0)}, []float64{}},
		"an end 0.0009 mm before a line": {append(frame(0, 0, 4, 4), segment(0.0009, 1, 3.9991, 1)), []float64{4, 12}},
		"an edge in many parts":          {append(frame(0, 0, 4, 4)[1:], segment(0, 0, 1, 0), segment(1, 0, 2.5, 0), segment(2, 0, 4, 0)), []float64{16}},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			require.InDeltaSlice(t, c.want, areasOf(t, c.edges), 0.005)
			require.Len(t, areasOf(t, c.edges), len(c.want))
			turned := slices.Clone(c.edges)
			for i, e := range turned {
				turned[i] = edge{a: e.b, b: e.a}
			}
			slices.Reverse(turned)
			require.Len(t, areasOf(t, turned), len(c.want), "whichever way the edges run")
		})
	}
}

// n x m cells of 3 x 2: by long lines, by one edge for each side of a cell,
// and by every cell with four edges of its own.
func TestFacesOfLattices(t *testing.T) {
	for _, size := range [][2]int{{1, 1}, {2, 1}, {1, 5}, {3, 3}, {7, 4}, {20, 15}} {
		n, m := size[0], size[1]
		w, h := 3*float64(n), 2*float64(m)
		var long, sides, cells []edge
		for i := range n + 1 {
			x := 3 * float64(i)
			long = append(long, segment(x, 0, x, h))
			for j := range m {
				sides = append(sides, segment(x, 2*float64(j), x, 2*float64(j+1)))
			}
		}
		for j := range m + 1 {
			y := 2 * float64(j)
			long = append(long, segment(0, y, w, y))
			for i := range n {
				sides = append(sides, segment(3*float64(i), y, 3*float64(i+1), y))
			}
		}
		for i := range n {
			for j := range m {
				cells = append(cells, frame(3*float64(i), 2*float64(j), 3, 2)...)
			}
		}
		for name, edges := range map[string][]edge{"long lines": long, "sides": sides, "cells": cells} {
			t.Run(fmt.Sprintf("%d x %d, %s", n, m, name), func(t *testing.T) {
				areas := areasOf(t, edges)
				require.Len(t, areas, n*m)
				require.InDelta(t, 6, areas[0], 1e-9)
				require.InDelta(t, 6, areas[len(areas)-1], 1e-9)
			})
		}
	}
}

// Bricks of 2 x 1, every second row moved by half a brick: each upright ends
// in the middle of a long edge, above and below.
func TestFacesOfBricks(t *testing.T) {
	const rows, columns = 6, 8
	var edges []edge
	for j := range rows + 1 {
		edges = append(edges, segment(0, float64(j), 2*columns, float64(j)))
	}
	for j := range rows {
		y := float64(j)
		edges = append(edges, segment(0, y, 0, y+1), segment(2*columns, y, 2*columns, y+1))
		for i := 1; i <= columns; i++ {
			if x := 2*float64(i) - float64(j%2); x < 2*columns {
				edges = append(edges, segment(x, y, x, y+1))
			}
		}
	}
	areas := areasOf(t, edges)
	// A moved row has two halves and one whole brick less.
	require.Len(t, areas, rows*columns+rows/2)
	for i, area := range areas {
		want := 2.0
		if i < rows {
			want = 1
		}
		require.InDelta(t, want, area, 1e-9)
	}
}

// However lines that reach from edge to edge divide a frame, the pieces are
// all of it.
func TestFacesFillTheFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const w, h = 60.0, 40.0
		edges := frame(0, 0, w, h)
		lines := rapid.IntRange(0, 12).Draw(t, "lines")
		for range lines {
			x := func() float64 { return float64(rapid.IntRange(0, 12).Draw(t, "x")) * w / 12 }
			y := func() float64 { return float64(rapid.IntRange(0, 8).Draw(t, "y")) * h / 8 }
			switch rapid.IntRange(0, 3).Draw(t, "from") {
			case 0:
				edges = append(edges, segment(x(), 0, x(), h))
			case 1:
				edges = append(edges, segment(0, y(), w, y()))
			case 2:
				edges = append(edges, segment(0, y(), x(), 0))
			default:
				edges = append(edges, segment(w, y(), x(), h))
			}
		}
		var sum float64
		for _, area := range areasOf(t, edges) {
			sum += area
		}
		require.InDelta(t, w*h, sum, 0.01, "%v", edges)
	})
}

// Lines in general position: a frame with k chords that cross in c places
// has 1 + k + c pieces (Euler).
func TestFacesAreCounted(t *testing.T) {
	order := []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}
	rapid.Check(t, func(t *rapid.T) {
		// Each end has a place of its own on the upper or the lower edge.
		upper := rapid.Permutation(order).Draw(t, "upper ends")
		lower := rapid.Permutation(order).Draw(t, "lower ends")
		edges := frame(0, 0, 100, 100)
		var crossings []reader.Point
		chords := 0
		for i := range rapid.IntRange(0, len(order)).Draw(t, "chords") {
			u, l := float64(upper[i]), float64(lower[i])
			chord := segment(u*u/2+math.Sqrt(u), 0, l*l/2+math.Sqrt(l+0.3), 100)
			here, free := crossings, true
			for _, c := range edges[4:] {
				// At the height y both are as far to the right.
				if d, e := chord.a.X-c.a.X, chord.b.X-c.b.X; d*e < 0 {
					y := 100 * d / (d - e)
					p := reader.Point{X: chord.a.X + y/100*(chord.b.X-chord.a.X), Y: y}
					for _, q := range crossings { // three in one point would be one crossing
						free = free && distance(p, q) > 0.05
					}
					here = append(here, p)
				}
			}
			if free {
				edges, crossings = append(edges, chord), here
				chords++
			}
		}
		require.Len(t, areasOf(t, edges), 1+chords+len(crossings))
	})
}

// What a file's shared edges come to.
func TestSharedEdges(t *testing.T) {
	shared := func(d ...string) string {
		var b strings.Builder
		for _, one := range d {
			b.WriteString(pathOf("", one))
		}
		return layer(`id="cut" data-edges="shared"`, b.String())
	}
	tests := map[string]struct {
		file, want string
		errors     []string
	}{
		"a lattice of long lines": {shared("M 10 10 H 40 V 30 H 10 Z", "M 20 10 V 30", "M 30 10 V 30", "M 10 20 H 40"),
			`layer "cut" closes 6 pieces of 100.0 to 100.0 mm²`, nil},
		"a curve for two": {shared("M 10 10 H 30 V 30 H 10 Z", "M 20 10 C 25 15 15 25 20 30"),
			`layer "cut" closes 2 pieces of 200.0 to 200.0 mm²`, nil},
		"a circle in a frame": {shared("M 10 10 H 30 V 30 H 10 Z", "M 15 20 a 5 5 0 0 0 10 0 a 5 5 0 0 0 -10 0 Z", "M 10 20 H 15", "M 25 20 H 30"),
			`layer "cut" closes 3 pieces of 78.4 to 160.8 mm²`, nil}, // 72 chords: 36 * 25 sin 5° = 78.44, and half of the rest of 400
		"an edge drawn twice": {shared("M 10 10 H 20 V 20 H 10 Z", "M 20 10 H 30 V 20 H 20 Z"),
			`layer "cut" closes 2 pieces of 100.0 to 100.0 mm²`,
			[]string{"doubled-edge: at 20, 15 mm it lies on the path at 20, 10 mm for 10 mm; where a shape stands there twice, delete one; where two pieces share an edge, cut it once or move them apart"}},
		"a title for a name": {layer(`data-edges="shared"`, "<title>Sky</title>"+pathOf("", squareA)),
			`the group with the title "Sky" closes 1 piece of 400.0 to 400.0 mm²`, nil},
		"two layers, each by itself": {layer(`id="cut" data-edges="shared"`, pathOf("", squareA)+`</g><g data-edges="shared" id="more">`+pathOf("", "M 40 40 h 2 v 2 h -2 Z")),
			`layer "cut" closes 1 piece of 400.0 to 400.0 mm²` + "\n" + `layer "more" closes 1 piece of 4.0 to 4.0 mm²`, nil},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			r := Check([]byte(c.file), Demands{})
			require.Equal(t, c.want, strings.Join(messagesOf(r, findings.Faces), "\n"))
			require.Equal(t, c.errors, errorsOf(r))
		})
	}
}

// A face is thin by its area over half its border, so a square of 0.4 mm and
// a long strip of 0.2 mm are thin, a square of 1.1 mm and a strip of 0.6 mm
// are not.
func TestThinFaces(t *testing.T) {
	for name, c := range map[string]struct {
		shape string
		want  int
	}{
		"a square of 0.4 mm":         {"M 10 10 h 0.4 v 0.4 h -0.4 Z", 1},
		"a square of 1.1 mm":         {"M 10 10 h 1.1 v 1.1 h -1.1 Z", 0},
		"a strip of 0.2 mm":          {"M 10 10 h 40 v 0.2 h -40 Z", 1},
		"a strip of 0.6 mm":          {"M 10 10 h 40 v 0.6 h -40 Z", 0},
		"two strips of 0.2 mm":       {"M 10 10 h 40 v 0.2 h -40 Z M 10 20 h 40 v 0.2 h -40 Z", 2},
		"a strip beside a piece":     {"M 10 10 h 20 v 20 h -20 Z M 10 29.8 h 20", 1},
		"a wedge of 0.2 mm on 20 mm": {"M 10 10 h 20 v 0.2 Z", 1},
	} {
		t.Run(name, func(t *testing.T) {
			r := Check([]byte(layer(`id="cut" data-edges="shared"`, pathOf("", c.shape))), Demands{})
			require.Len(t, messagesOf(r, findings.ThinFace), c.want)
		})
	}
}

// Points within snap of one another are one node, over the borders of cells.
func TestNodes(t *testing.T) {
	n := newNodes()
	first := n.at(reader.Point{X: 0.002, Y: 0.002})
	for _, p := range []reader.Point{{X: 0.0011, Y: 0.002}, {X: 0.0029, Y: 0.002}, {X: 0.002, Y: 0.0011}, {X: 0.0026, Y: 0.0026}, {X: 0.0014, Y: 0.0014}} {
		require.Equal(t, first, n.at(p), "%v", p)
	}
	for i, p := range []reader.Point{{X: 0.0009, Y: 0.002}, {X: 0.0028, Y: 0.0028}, {X: -5, Y: -7}} {
		require.Equal(t, i+1, n.at(p), "%v", p)
	}
	require.Equal(t, 3, n.at(reader.Point{X: -5.0009, Y: -7}))
}
