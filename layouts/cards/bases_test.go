package cards_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/layouts/cards"
)

func TestBases(t *testing.T) {
	require.Equal(t, []cards.Base{cards.Flat, cards.TopFold, cards.SideFold}, cards.Bases())
}

// Base sizes: 4 1/4 x 11 for a US A2 card, 10 x 7 and 5 x 14 for 5 x 7, 7 x
// 8 1/2 for a slimline card and 9 x 6 1/4 for US A6: common practice, no
// source. An A6 card is a folded A5: ISO 216 halving (A5 is 148 mm high, so
// a side fold comes out 210 x 148 exactly).
func TestLaySize(t *testing.T) {
	tests := []struct {
		base        cards.Base
		front, want string
	}{
		{cards.Flat, "4 1/4 x 5 1/2 in", "4 1/4 x 5 1/2 in"},
		{cards.TopFold, "4 1/4 x 5 1/2 in", "4 1/4 x 11 in"},
		{cards.SideFold, "4 1/4 x 5 1/2 in", "8 1/2 x 5 1/2 in"},
		{cards.SideFold, "5 x 7 in", "10 x 7 in"},
		{cards.TopFold, "5 x 7 in", "5 x 14 in"},
		{cards.SideFold, "3 1/2 x 8 1/2 in", "7 x 8 1/2 in"},
		{cards.SideFold, "4 1/2 x 6 1/4 in", "9 x 6 1/4 in"},
		{cards.SideFold, "105 x 148 mm", "210 x 148 mm"},
	}
	for _, tt := range tests {
		t.Run(string(tt.base)+" of "+tt.front, func(t *testing.T) {
			laid, err := tt.base.Lay(sizeOf(t, tt.front))
			require.NoError(t, err)
			require.Equal(t, sizeOf(t, tt.want), laid.Outline.Bounds().Size())
		})
	}
}

// Where the front and the fold lie, by hand for a front of 100 x 150 mm.
//
//	top fold          side fold
//	+-------+         +-------+-------+
//	| back  |         |       :       |
//	+ - - - + 150     | back  : front |
//	| front |         |       :       |
//	+-------+ 300     +-------+-------+
//	                         100     200
func TestLayPlaces(t *testing.T) {
	mm := func(x, y geometry.Length) geometry.Point {
		return geometry.Point{X: x * geometry.Millimetre, Y: y * geometry.Millimetre}
	}
	tests := []struct {
		base  cards.Base
		front geometry.Rect
		fold  []geometry.Point
	}{
		{cards.Flat, geometry.Rect{Min: mm(0, 0), Max: mm(100, 150)}, nil},
		{cards.TopFold, geometry.Rect{Min: mm(0, 150), Max: mm(100, 300)}, []geometry.Point{mm(0, 150), mm(100, 150)}},
		{cards.SideFold, geometry.Rect{Min: mm(100, 0), Max: mm(200, 150)}, []geometry.Point{mm(100, 0), mm(100, 150)}},
	}
	for _, tt := range tests {
		t.Run(string(tt.base), func(t *testing.T) {
			laid, err := tt.base.Lay(sizeOf(t, "100 x 150 mm"))
			require.NoError(t, err)
			require.Equal(t, tt.front, laid.Front)
			if tt.fold == nil {
				require.Empty(t, laid.Folds)
				return
			}
			require.Len(t, laid.Folds, 1)
			require.Equal(t, tt.fold, laid.Folds[0].Line.Points())
			require.Equal(t, cards.Mountain, laid.Folds[0].Kind)
		})
	}
}

func TestLayRefuses(t *testing.T) {
	tests := []struct {
		name  string
		base  cards.Base
		front string
		want  string
	}{
		{"too wide", cards.Flat, "1000.000001 x 100 mm", "card front: 1000.000001 mm wide, more than the 1000 mm allowed; check its unit"},
		{"too high", cards.Flat, "100 x 1000.000001 mm", "card front: 1000.000001 mm high, more than the 1000 mm allowed; check its unit"},
		{"inches for mm", cards.TopFold, "105 x 148 in", "card front: 2667 mm wide, more than the 1000 mm allowed; check its unit"},
		{"too narrow", cards.SideFold, "4.25 x 5.5 mm", "card front: 4.25 mm wide, less than the 10 mm allowed; check its unit"},
		{"too low", cards.SideFold, "10 x 9.999999 mm", "card front: 9.999999 mm high, less than the 10 mm allowed; check its unit"},
		{"below 0", cards.Flat, "-50 x 50 mm", "card front: -50 mm wide, less than the 10 mm allowed; check its unit"},
		{"unknown base", "tap fold", "50 x 50 mm", `"tap fold" is no known base; write flat, top fold or side fold; did you mean "top fold"?`},
		{"no base", "", "50 x 50 mm", "the card's base is missing; write flat, top fold or side fold"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			laid, err := tt.base.Lay(sizeOf(t, tt.front))
			require.EqualError(t, err, tt.want)
			require.Zero(t, laid)
		})
	}
}

func TestLayTakesTheLimits(t *testing.T) {
	for _, base := range cards.Bases() {
		for _, side := range []geometry.Length{cards.SmallestFront, cards.LargestFront} {
			t.Run(string(base)+" "+side.String(), func(t *testing.T) {
				_, err := base.Lay(geometry.Size{W: side, H: side})
				require.NoError(t, err)
			})
		}
	}
}

func TestParseBase(t *testing.T) {
	for _, base := range cards.Bases() {
		t.Run(string(base), func(t *testing.T) {
			got, err := cards.ParseBase(string(base))
			require.NoError(t, err)
			require.Equal(t, base, got)
		})
	}
	for text, want := range map[string]cards.Base{"Top Fold": cards.TopFold, "side-fold": cards.SideFold, " FLAT ": cards.Flat} {
		t.Run(text, func(t *testing.T) {
			got, err := cards.ParseBase(text)
			require.NoError(t, err)
			require.Equal(t, want, got)
		})
	}
	for text, want := range map[string]string{
		"sidefolded": `"sidefolded" is no known base; write flat, top fold or side fold; did you mean "side fold"?`,
		"  ":         "the card's base is missing; write flat, top fold or side fold",
	} {
		t.Run("refused "+text, func(t *testing.T) {
			_, err := cards.ParseBase(text)
			require.EqualError(t, err, want)
		})
	}
}

// For any front and base: the base is a whole number of fronts, the front
// lies inside it, each fold runs from edge to edge, and cutting along it
// leaves two halves of the front's shape.
func TestLayProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Int64Range(int64(cards.SmallestFront), int64(cards.LargestFront))
		front := geometry.Size{W: geometry.Length(side.Draw(t, "w")), H: geometry.Length(side.Draw(t, "h"))}
		base := rapid.SampledFrom(cards.Bases()).Draw(t, "base")
		laid, err := base.Lay(front)
		require.NoError(t, err)
		require.NoError(t, laid.Outline.Validate())
		require.Equal(t, geometry.Point{}, laid.Outline.Bounds().Min)
		require.Equal(t, front, laid.Front.Size())
		require.True(t, laid.Outline.Bounds().ContainsRect(laid.Front))

		leaves := []geometry.Outline{laid.Outline}
		for _, fold := range laid.Folds {
			points := fold.Line.Points()
			require.Len(t, points, 2)
			for _, p := range points {
				require.True(t, laid.Outline.Contains(p) && !laid.Outline.InteriorContains(p), "%s is on the border", p)
			}
			require.True(t, laid.Outline.InteriorContains(geometry.Rect{Min: points[0], Max: points[1]}.Centre()))
			leaves = geometry.SplitAll(leaves, geometry.Line{A: points[0], B: points[1]}, 0)
		}
		require.Len(t, leaves, len(laid.Folds)+1)
		var sum geometry.Area
		isLeaf := false
		for _, leaf := range leaves {
			sum = sum.Add(laid.Front.Outline().Area())
			require.Contains(t, geometry.TurnsOnto(leaf, laid.Front.Outline(), 0), 0.0)
			isLeaf = isLeaf || leaf.Bounds() == laid.Front
		}
		require.True(t, isLeaf, "the front is one of the leaves")
		require.Zero(t, laid.Outline.Area().Cmp(sum))
	})
}
