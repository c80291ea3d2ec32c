package checker

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/export/svg/reader"
)

func ringOf(l loop) ring {
	r := ring{end: ByZ, area: float64(l.twice()) / 2, parent: -1}
	for _, p := range l {
		r.points = append(r.points, reader.Point{X: float64(p.x), Y: float64(p.y)})
	}
	r.bounds = reader.BoxOf(r.points)
	return r
}

// liesAround reports whether loop o lies around loop l, which it does not cross:
// by the first corner or middle of a side of l that is not on o.
func liesAround(o, l loop) bool {
	double := make(loop, len(o))
	for i, p := range o {
		double[i] = spot{2 * p.x, 2 * p.y}
	}
	for _, s := range l.bars() {
		for _, p := range []spot{{2 * s.a.x, 2 * s.a.y}, {s.a.x + s.b.x, s.a.y + s.b.y}} {
			if side := double.inside(p); side != 0 {
				return side > 0
			}
		}
	}
	return false
}

func requireNested(t require.TestingT, drawn []loop, open []bool) {
	rings := make([]ring, len(drawn))
	for i, l := range drawn {
		rings[i] = ringOf(l)
		if open[i] {
			rings[i].end = Open
		}
	}
	b := newBudget()
	require.True(t, nest(rings, &b))
	for i, l := range drawn {
		inside, parent := 0, -1
		for j, o := range drawn {
			if i == j || open[i] || open[j] || !liesAround(o, l) {
				continue
			}
			inside++
			if parent < 0 || abs(o.twice()) < abs(drawn[parent].twice()) {
				parent = j
			}
		}
		require.Equal(t, inside, rings[i].inside, "depth of %v among %v", l, drawn)
		require.Equal(t, parent, rings[i].parent, "parent of %v among %v", l, drawn)
	}
}

func abs(i int64) int64 { return max(i, -i) }

// boxesIn draws rectangles inside a rectangle, side by side and one in
// another, often on the same lines.
func boxesIn(t *rapid.T, a, b spot, depth int, add func(loop)) {
	if depth == 0 || b.x-a.x < 2 || b.y-a.y < 2 {
		return
	}
	number := func(low, high int64, name string) int64 { return rapid.Int64Range(low, high).Draw(t, name) }
	if rapid.Bool().Draw(t, "split") {
		x := number(a.x+1, b.x-1, "at")
		boxesIn(t, a, spot{x, b.y}, depth-1, add)
		boxesIn(t, spot{x, a.y}, b, depth-1, add)
		return
	}
	c := spot{number(a.x, a.x+1, "left"), number(a.y, a.y+1, "top")}
	d := spot{number(max(c.x+1, b.x-1), b.x, "right"), number(max(c.y+1, b.y-1), b.y, "bottom")}
	if c == a && d == b {
		d.x--
	}
	l := loop{c, {d.x, c.y}, d, {c.x, d.y}}
	if rapid.Bool().Draw(t, "reversed") {
		l = loop{c, {c.x, d.y}, d, {d.x, c.y}}
	}
	add(l)
	boxesIn(t, c, d, depth-1, add)
}

func TestNestAgainstTwin(t *testing.T) {
	deepest := 0
	flags := func(t *rapid.T, n int) []bool {
		open := make([]bool, n)
		for i := range open {
			open[i] = rapid.IntRange(0, 7).Draw(t, "open") == 0
		}
		return open
	}
	t.Run("rectangles", rapid.MakeCheck(func(t *rapid.T) {
		var drawn []loop
		boxesIn(t, spot{0, 0}, spot{24, 24}, 9, func(l loop) { drawn = append(drawn, l) })
		drawn = rapid.Permutation(drawn).Draw(t, "rectangles")
		for _, l := range drawn {
			depth := 0
			for _, o := range drawn {
				if liesAround(o, l) {
					depth++
				}
			}
			deepest = max(deepest, depth)
		}
		requireNested(t, drawn, flags(t, len(drawn)))
	}))
	require.Greater(t, deepest, 3)
	// Polygons that touch at most at single spots.
	t.Run("polygons", rapid.MakeCheck(func(t *rapid.T) {
		var drawn []loop
		for _, l := range rapid.SliceOfN(loops(16), 1, 25).Draw(t, "loops") {
			free := true
			for _, o := range drawn {
				free = free && relationOf(o, l) <= touches
			}
			if free {
				drawn = append(drawn, l)
			}
		}
		requireNested(t, drawn, flags(t, len(drawn)))
	}))
}

func TestNestStopsWhereTheBudgetIsSpent(t *testing.T) {
	rings := []ring{ringOf(loop{{0, 0}, {9, 0}, {9, 9}, {0, 9}}), ringOf(loop{{1, 1}, {2, 1}, {2, 2}, {1, 2}})}
	// One ring to look at, then two, then the four corners of the outer one.
	for left, want := range map[int]bool{0: false, 1: false, 2: false, 3: false, 6: false, 7: true} {
		require.Equal(t, want, nest(rings, &budget{left}), "%d steps", left)
	}
}

// Which side of a ring a point lies on, against the even-odd rule in whole
// numbers.
func TestSideAgainstTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := loops(9).Draw(t, "loop")
		p := spot{rapid.Int64Range(-1, 10).Draw(t, "x"), rapid.Int64Range(-1, 10).Draw(t, "y")}
		require.Equal(t, l.inside(p), side(ringOf(l).points, reader.Point{X: float64(p.x), Y: float64(p.y)}))
	})
}
