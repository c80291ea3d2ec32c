package geometry_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

// joinedTexts are the strokes of regions, joined.
func joinedTexts(regions ...geometry.Outline) []string {
	return strokeTexts(geometry.JoinStrokes(geometry.SharedEdges(regions)))
}

// By hand:
//
//	+--+--+    the side between two bases, and then once around
//	|  |  |
//	+--+--+
func TestJoinStrokes(t *testing.T) {
	left, right := shape("0,0 10,0 10,20 0,20"), shape("10,0 20,0 20,20 10,20")
	require.Equal(t, []string{"10,0 10,20", "0,0 20,0 20,20 0,20 0,0"}, joinedTexts(left, right))
	t.Run("one piece", func(t *testing.T) {
		require.Equal(t, []string{"0,0 10,0 10,20 0,20 0,0"}, joinedTexts(left))
	})
	t.Run("a window first", func(t *testing.T) {
		framed := shape("0,0 10,0 10,20 0,20; 2,2 8,2 8,8 2,8")
		got := joinedTexts(framed)
		require.Len(t, got, 2)
		require.Contains(t, got[0], "2,2")
	})
	t.Run("straight on where three meet", func(t *testing.T) {
		// At 10,10 the slanted side and the two halves of a bend meet.
		strokes := []geometry.Path{
			geometry.PathFromPoints(place("10,10"), place("20,11")),
			geometry.PathFromPoints(place("10,10"), place("10,30")),
			geometry.PathFromPoints(place("0,10"), place("10,10")),
		}
		require.Equal(t, []string{"10,10 10,30", "20,11 10,10 0,10"}, strokeTexts(geometry.JoinStrokes(strokes)))
	})
	t.Run("within a micrometre", func(t *testing.T) {
		strokes := []geometry.Path{
			geometry.PathFromPoints(place("0,0"), place("10,0")),
			geometry.PathFromPoints(place("10.000999,0"), place("10,5")),
			geometry.PathFromPoints(place("10,5.0011"), place("0,5")),
		}
		require.Equal(t, []string{"0,0 10,0 10,5", "10,5.0011 0,5"}, strokeTexts(geometry.JoinStrokes(strokes)))
	})
}

// A side of a micrometre, as drawn circles may have that are not quite closed,
// is joined like any other, and does not end on itself.
func TestJoinStrokesOfAShortSide(t *testing.T) {
	for _, text := range []string{"0,0 10,0 10,10 0.001,10 0,10", "0,0 10,0 10,10 0,10 0,0.0004"} {
		require.Len(t, joinedTexts(shape(text)), 1, text)
	}
	round := geometry.OutlineFromRing(geometry.Ring{
		geometry.CurveTo(place("30,20"), place("-20,20"), place("0.001,0")), geometry.LineTo(place("0,0")),
	})
	joined := geometry.JoinStrokes(geometry.SharedEdges([]geometry.Outline{round}))
	require.Len(t, joined, 1)
	require.Len(t, joined[0].Then, 2)
	require.True(t, joined[0].IsClosed())
}

// Two discs that touch an oblong, each in another way: one stroke a piece
// where there were twelve, none of them twice.
func TestJoinStrokesOfDiscs(t *testing.T) {
	regions := []geometry.Outline{
		shape("10,-20 30,-20 30,40 10,40"), disc(10 * mm), circle(place("20,50"), 10*mm),
	}
	apart := geometry.SharedEdges(regions)
	require.Len(t, apart, 12)
	joined := geometry.JoinStrokes(apart)
	require.Len(t, joined, 3)
	for i, p := range joined {
		require.True(t, p.IsClosed(), i)
		require.Equal(t, regions[i].Area().SquareMM(), geometry.OutlineFromRing(p.Then).Area().SquareMM())
	}
	require.ElementsMatch(t, segmentsOf(apart), segmentsOf(joined))
}

// segmentsOf are all segments of strokes, whichever way they run.
func segmentsOf(strokes []geometry.Path) []geometry.Path {
	var all []geometry.Path
	for _, p := range strokes {
		from := p.From
		for _, s := range p.Then {
			one := geometry.Path{From: from, Then: []geometry.Segment{s}}
			if a, b := one.From, one.End(); a.X > b.X || a.X == b.X && a.Y > b.Y {
				one = one.Reversed()
			}
			all, from = append(all, one), s.To
		}
	}
	return all
}

// Nothing is left out or added; ends that meet are joined but for one at
// each place; and no part comes before its own turn.
func TestJoinStrokesKeepsAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		corner := rapid.Custom(func(t *rapid.T) geometry.Point {
			return geometry.Point{X: geometry.Length(rapid.IntRange(0, 3).Draw(t, "x")) * mm, Y: geometry.Length(rapid.IntRange(0, 3).Draw(t, "y")) * mm}
		})
		var strokes []geometry.Path
		for range rapid.IntRange(0, 12).Draw(t, "strokes") {
			p := rapid.SliceOfNDistinct(corner, 2, 4, rapid.ID[geometry.Point]).Draw(t, "corners")
			path := geometry.PathFromPoints(p[0], p[1:]...)
			if rapid.Bool().Draw(t, "closed") && len(p) > 2 {
				path.Then = append(path.Then, geometry.LineTo(p[0]))
			}
			strokes = append(strokes, path)
		}
		joined := geometry.JoinStrokes(strokes)
		require.ElementsMatch(t, segmentsOf(strokes), segmentsOf(joined))
		ends := map[geometry.Point]int{}
		for _, p := range joined {
			if !p.IsClosed() {
				ends[p.From]++
				ends[p.End()]++
			}
		}
		for p, n := range ends {
			require.Equal(t, 1, n, "at %v", p)
		}
		back := slices.Clone(joined)
		for i, p := range back {
			back[i] = p.Reversed().Reversed()
		}
		require.Equal(t, joined, back)
	})
}
