package fronts_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

func level(y geometry.Length) geometry.Line {
	return geometry.Line{A: geometry.Point{Y: y * mm}, B: geometry.Point{X: mm, Y: y * mm}}
}

// A node of 40 x 50 mm at 2, 3; so it reaches from 3 to 53 mm down.
func node() *fronts.Node { return &fronts.Node{Outline: frameOf(40*mm, 50*mm).Outline()} }

func TestSplitLeavesWhatItMisses(t *testing.T) {
	for name, line := range map[string]geometry.Line{
		"above": level(0), "along the top": level(3), "below": level(60),
	} {
		t.Run(name, func(t *testing.T) {
			n := node()
			n.Split(fronts.Cut{Line: line})
			require.Equal(t, node(), n)
			n.SplitAll(fronts.Cut{Line: line})
			require.Equal(t, node(), n)
			require.Equal(t, []*fronts.Node{n}, n.Leaves())
		})
	}
}

// A line beside a node still takes away what its gap reaches: 2 mm of a gap
// of 6 about a line 1 mm above.
func TestSplitBesideANode(t *testing.T) {
	for name, split := range map[string]func(*fronts.Node, fronts.Cut){
		"one": (*fronts.Node).Split, "all": (*fronts.Node).SplitAll,
	} {
		t.Run(name, func(t *testing.T) {
			n := node()
			split(n, fronts.Cut{Line: level(2), Gap: 6 * mm})
			require.Len(t, n.Leaves(), 1)
			require.Equal(t, 48*mm, n.Leaves()[0].Outline.Bounds().H())
		})
	}
}

// Two crossing lines make four, whichever comes first.
func TestSplitAllInEitherOrder(t *testing.T) {
	upright := geometry.Line{A: geometry.Point{X: 20 * mm}, B: geometry.Point{X: 20 * mm, Y: mm}}
	areas := func(first, second geometry.Line) map[geometry.Area]int {
		n := node()
		n.SplitAll(fronts.Cut{Line: first, Gap: 3 * mm})
		n.SplitAll(fronts.Cut{Line: second, Gap: 3 * mm})
		count := map[geometry.Area]int{}
		for _, leaf := range n.Leaves() {
			count[leaf.Outline.Area()]++
		}
		require.Len(t, n.Leaves(), 4)
		return count
	}
	require.Equal(t, areas(level(20), upright), areas(upright, level(20)))
}

// A gap as wide as the node leaves nothing of it.
func TestSplitThatTakesAll(t *testing.T) {
	n := node()
	n.Split(fronts.Cut{Line: level(28), Gap: 50 * mm})
	require.NotNil(t, n.Cut)
	require.Empty(t, n.Leaves())
}

// SplitAll passes by the leaves that a cut misses; it must come out as if
// each leaf had been split.
func TestSplitAllAgreesWithItsTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := func(label string) geometry.Point {
			return geometry.Point{
				X: geometry.Length(rapid.Int64Range(0, 60).Draw(t, label+" x")) * mm,
				Y: geometry.Length(rapid.Int64Range(0, 60).Draw(t, label+" y")) * mm,
			}
		}
		quick, slow := node(), node()
		for range rapid.IntRange(1, 5).Draw(t, "cuts") {
			cut := fronts.Cut{
				Line: geometry.Line{A: at("a"), B: at("b")},
				Gap:  geometry.Length(rapid.Int64Range(0, int64(5*mm)).Draw(t, "gap")),
			}
			if cut.Line.A == cut.Line.B {
				t.Skip("no line")
			}
			quick.SplitAll(cut)
			for _, leaf := range slow.Leaves() {
				leaf.Split(cut)
			}
			require.Equal(t, slow, quick)
		}
	})
}
