package geometry_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// The line of each case runs to the right (or down), so that the left hand
// is the upper (or right) part.
func TestSplitShapes(t *testing.T) {
	for _, c := range []struct {
		name, shape, line string
		gap               geometry.Length
		left, right       []string
	}{
		{"oblong in two", "0,0 20,0 20,10 0,10", "0,4 20,4", 2 * mm,
			[]string{"0,0 20,0 20,3 0,3"}, []string{"0,5 20,5 20,10 0,10"}},
		{"no gap", "0,0 20,0 20,10 0,10", "0,4 1,4", 0,
			[]string{"0,0 20,0 20,4 0,4"}, []string{"0,4 20,4 20,10 0,10"}},
		{"an odd nanometre goes to the right hand", "0,0 20,0 20,10 0,10", "0,4 20,4", 3,
			[]string{"0,0 20,0 20,3.999999 0,3.999999"}, []string{"0,4.000002 20,4.000002 20,10 0,10"}},
		{"line past the shape", "0,0 20,0 20,10 0,10", "0,14 20,14", 2 * mm,
			[]string{"0,0 20,0 20,10 0,10"}, nil},
		{"line along the border", "0,0 20,0 20,10 0,10", "0,0 1,0", 0,
			nil, []string{"0,0 20,0 20,10 0,10"}},
		{"strip takes all", "0,0 20,0 20,10 0,10", "0,5 1,5", 10 * mm, nil, nil},
		{"strip edge along the border", "0,0 20,0 20,10 0,10", "0,1 20,1", 2 * mm,
			nil, []string{"0,2 20,2 20,10 0,10"}},
		// ╱ through both corners: the halves of a cell
		{"corner to corner", "0,0 30,0 30,40 0,40", "0,40 30,0", 0,
			[]string{"0,0 30,0 0,40"}, []string{"30,0 30,40 0,40"}},
		// 3-4-5: 2.4 mm square to the line are 4 mm along x and 3 mm along y.
		{"corner to corner with a gap", "0,0 30,0 30,40 0,40", "0,40 30,0", 4_800_000,
			[]string{"0,0 27,0 0,36"}, []string{"30,4 30,40 3,40"}},
		{"U falls into three", "0,0 2,0 2,6 4,6 4,0 6,0 6,8 0,8", "0,3 9,3", 0,
			[]string{"0,0 2,0 2,3 0,3", "4,0 6,0 6,3 4,3"}, []string{"0,3 2,3 2,6 4,6 4,3 6,3 6,8 0,8"}},
		{"along the floor of a U", "0,0 2,0 2,6 4,6 4,0 6,0 6,8 0,8", "0,6 9,6", 0,
			[]string{"0,0 2,0 2,6 0,6", "4,0 6,0 6,6 4,6"}, []string{"0,6 6,6 6,8 0,8"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			left, right := shape(c.shape).Split(lineThrough(c.line), c.gap)
			require.Equal(t, sameTexts(c.left...), shapeTexts(left))
			require.Equal(t, sameTexts(c.right...), shapeTexts(right))
		})
	}
}

// ──┐  ╱╲  ┌──      a dent whose tip just reaches the line parts what
//
//	│ ╱  ╲ │        lies below it, and what lies above stays whole
//
// ──┴──────┴── y=4
func TestSplitWhereADentReachesTheLine(t *testing.T) {
	dented := shape("0,0 12,0 12,9 8,9 6,4 4,9 0,9")
	left, right := dented.Split(lineThrough("0,4 12,4"), 0)
	require.Equal(t, sameTexts("0,0 12,0 12,4 0,4"), shapeTexts(left))
	require.Equal(t, sameTexts("0,4 6,4 4,9 0,9", "6,4 12,4 12,9 8,9"), shapeTexts(right))

	// From the other hand, and with a flat tip.
	left, right = dented.Split(lineThrough("12,4 0,4"), 0)
	require.Len(t, left, 2)
	require.Len(t, right, 1)
	flat := shape("0,0 12,0 12,9 8,9 7,4 5,4 4,9 0,9")
	_, right = flat.Split(lineThrough("0,4 12,4"), 0)
	require.Equal(t, sameTexts("0,4 5,4 4,9 0,9", "7,4 12,4 12,9 8,9"), shapeTexts(right))
}

// A shape that touches the line with a tip stays whole on its own hand.
func TestSplitWhereATipReachesTheLine(t *testing.T) {
	left, right := shape("0,0 8,0 4,5").Split(lineThrough("0,5 9,5"), 0)
	require.Equal(t, sameTexts("0,0 8,0 4,5"), shapeTexts(left))
	require.Empty(t, right)
	// Two tips: the teeth of a W.
	left, right = shape("0,0 8,0 6,5 4,2 2,5").Split(lineThrough("0,5 9,5"), 0)
	require.Equal(t, sameTexts("0,0 8,0 6,5 4,2 2,5"), shapeTexts(left))
	require.Empty(t, right)
}

func TestSplitWithWindows(t *testing.T) {
	const frame = "0,0 20,0 20,10 0,10"
	for _, c := range []struct {
		name, holes, line string
		left, right       []string
	}{
		{"beside the line", "; 2,2 4,2 4,4 2,4", "0,5 20,5",
			[]string{"0,0 20,0 20,5 0,5; 2,2 4,2 4,4 2,4"}, []string{"0,5 20,5 20,10 0,10"}},
		{"across the line", "; 2,2 4,2 4,8 2,8", "0,5 20,5",
			[]string{"0,0 20,0 20,5 4,5 4,2 2,2 2,5 0,5"}, []string{"0,5 2,5 2,8 4,8 4,5 20,5 20,10 0,10"}},
		{"with a side along the line", "; 2,2 4,2 4,5 2,5", "0,5 20,5",
			[]string{"0,0 20,0 20,5 4,5 4,2 2,2 2,5 0,5"}, []string{"0,5 20,5 20,10 0,10"}},
		{"one each side", "; 2,2 4,2 4,4 2,4; 12,6 14,6 14,8 12,8", "0,5 20,5",
			[]string{"0,0 20,0 20,5 0,5; 2,2 4,2 4,4 2,4"}, []string{"0,5 20,5 20,10 0,10; 12,6 14,6 14,8 12,8"}},
		{"one in each of two parts", "; 2,2 4,2 4,4 2,4; 9,1 11,1 11,9 9,9; 16,2 18,2 18,4 16,4", "10,0 10,10",
			[]string{"10,0 20,0 20,10 10,10 10,9 11,9 11,1 10,1; 16,2 18,2 18,4 16,4"},
			[]string{"0,0 10,0 10,1 9,1 9,9 10,9 10,10 0,10; 2,2 4,2 4,4 2,4"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			left, right := shape(frame+c.holes).Split(lineThrough(c.line), 0)
			require.Equal(t, sameTexts(c.left...), shapeTexts(left))
			require.Equal(t, sameTexts(c.right...), shapeTexts(right))
		})
	}
}

// ──────◇────── y=5    a window whose tip just reaches the line: the part
//
//	╱ ╲             below would hang together in one point. It is opened
//	╲ ╱             there by a nanometre each way, so that it is one ring.
//	 ◇
func TestSplitWhereAWindowReachesTheLine(t *testing.T) {
	o := shape("0,0 20,0 20,12 0,12; 10,5 12,7 10,9 8,7")
	left, right := o.Split(lineThrough("0,5 20,5"), 0)
	require.Equal(t, sameTexts("0,0 20,0 20,5 0,5"), shapeTexts(left))
	require.Equal(t, sameTexts("0,5 20,5 20,12 0,12; 10,5.000002 12,7 10,9 8,7"), shapeTexts(right))
	require.NoError(t, right[0].Validate())

	// Two tips part what lies between them from the rest.
	twoTips := shape("0,0 20,0 20,12 0,12; 6,5 10,8 14,5 10,10")
	_, right = twoTips.Split(lineThrough("0,5 20,5"), 0)
	require.Equal(t, sameTexts("6,5 14,5 10,8", "0,5 6,5 10,10 14,5 20,5 20,12 0,12"), shapeTexts(right))

	// A round window that the line only touches.
	round := shape("0,0 40,0 40,40 0,40")
	round.Holes = []geometry.Ring{circle(place("20,20"), 10*mm).Outer.Reversed()}
	for _, line := range []string{"0,10 40,10", "30,0 30,40", "0,30 40,30", "10,0 10,40"} {
		left, right := round.Split(lineThrough(line), 0)
		for _, part := range append(left, right...) {
			require.NoError(t, part.Validate(), line)
		}
	}
}

// Cases 1 and 2 of the check values: a cell of 2 x 2 5/8 in, its diagonal
// sqrt(4 + 6.890625) = 3.30009 in; with a gap of 1/8 in both halves are the
// cell's half times k = 1 - (g/2) d/(w h) = 0.960713: legs 1.92143 and 2.52187,
// hypotenuse 3.17044 in (hand sums).
func TestSplitCellCornerToCorner(t *testing.T) {
	cell := geometry.RectFromSize(geometry.Point{}, geometry.Size{W: 2 * inch, H: 2*inch + 5*inch/8}).Outline()
	p := cell.Outer.Points()
	for name, diagonal := range map[string]geometry.Line{"/": {A: p[3], B: p[1]}, `\`: {A: p[0], B: p[2]}} {
		t.Run(name, func(t *testing.T) {
			require.InDelta(t, 3.30009, diagonal.B.Sub(diagonal.A).Len()/float64(inch), 5e-6)
			left, right := cell.Split(diagonal, inch/8)
			require.Len(t, left, 1)
			require.Len(t, right, 1)
			for _, half := range []geometry.Outline{left[0], right[0]} {
				requireHalf(t, half, 1.92143, 2.52187, 3.17044)
			}
			require.Equal(t, []float64{180}, geometry.TurnsOnto(left[0], right[0], mm/100))
		})
	}
}

// requireHalf compares a right-angled half's legs and longest side, in inches
// as given to five decimals.
func requireHalf(t *testing.T, half geometry.Outline, w, h, long float64) {
	t.Helper()
	require.Len(t, half.Outer, 3)
	require.True(t, half.IsConvex())
	b := half.Bounds()
	require.InDelta(t, w, b.W().In(geometry.Inches), 5e-6)
	require.InDelta(t, h, b.H().In(geometry.Inches), 5e-6)
	longest := 0.0
	for _, s := range allEdges(half) {
		longest = max(longest, s.b.Sub(s.a).Len()/float64(inch))
	}
	require.InDelta(t, long, longest, 5e-6)
}

// More of case 2: the rectangle to cut both halves from, at other gaps.
func TestSplitCellAtOtherGaps(t *testing.T) {
	cell := geometry.RectFromSize(geometry.Point{}, geometry.Size{W: 2 * inch, H: 2*inch + 5*inch/8}).Outline()
	p := cell.Outer.Points()
	for _, c := range []struct {
		gap  geometry.Length
		w, h float64
	}{{inch / 16, 1.96071, 2.57344}, {inch / 4, 1.84285, 2.41874}} {
		left, _ := cell.Split(geometry.Line{A: p[3], B: p[1]}, c.gap)
		b := left[0].Bounds()
		require.InDelta(t, c.w, b.W().In(geometry.Inches), 5e-6)
		require.InDelta(t, c.h, b.H().In(geometry.Inches), 5e-6)
	}
}

// Case 4: both diagonals of 4 x 5 1/4 in with 1/8 in: four triangles, those
// on the short sides 3.84285 wide and 2.52187 high, on the long sides 5.04374 and 1.92143.
func TestSplitCellByBothDiagonals(t *testing.T) {
	cell := geometry.RectFromSize(geometry.Point{}, geometry.Size{W: 4 * inch, H: 5*inch + inch/4}).Outline()
	p := cell.Outer.Points()
	parts := geometry.SplitAll([]geometry.Outline{cell}, geometry.Line{A: p[0], B: p[2]}, inch/8)
	parts = geometry.SplitAll(parts, geometry.Line{A: p[3], B: p[1]}, inch/8)
	require.Len(t, parts, 4)
	for _, part := range parts {
		require.Len(t, part.Outer, 3)
		b := part.Bounds()
		if b.W() > b.H() {
			require.InDelta(t, 3.84285, b.W().In(geometry.Inches), 5e-6)
			require.InDelta(t, 2.52187, b.H().In(geometry.Inches), 5e-6)
		} else {
			require.InDelta(t, 5.04374, b.H().In(geometry.Inches), 5e-6)
			require.InDelta(t, 1.92143, b.W().In(geometry.Inches), 5e-6)
		}
	}
}

func TestSplitAllKeepsTheOrder(t *testing.T) {
	row := []geometry.Outline{shape("0,0 4,0 4,4 0,4"), shape("6,0 9,0 9,4 6,4")}
	parts := geometry.SplitAll(row, lineThrough("0,2 9,2"), 0)
	var texts []string
	for _, part := range parts {
		texts = append(texts, shapeText(part))
	}
	require.Equal(t, []string{"0,0 4,0 4,2 0,2", "0,2 4,2 4,4 0,4", "6,0 9,0 9,2 6,2", "6,2 9,2 9,4 6,4"}, texts)
	require.Empty(t, geometry.SplitAll(nil, lineThrough("0,2 9,2"), 0))
}

func TestClip(t *testing.T) {
	window := places("2,2 8,2 8,8 2,8")
	for _, c := range []struct {
		name, shape string
		want        []string
	}{
		{"all inside", "3,3 5,3 5,5", []string{"3,3 5,3 5,5"}},
		{"all outside", "0,0 1,0 1,1", nil},
		{"around the window", "0,0 10,0 10,10 0,10", []string{"2,2 8,2 8,8 2,8"}},
		{"a corner off", "0,0 6,0 0,6", []string{"2,2 4,2 2,4"}},
		{"U falls in two", "0,0 10,0 10,3 4,3 4,5 10,5 10,7 0,7",
			[]string{"2,2 8,2 8,3 4,3 4,5 8,5 8,7 2,7"}},
		{"two arms", "0,0 1,0 1,3 10,3 10,4 1,4 1,6 10,6 10,7 0,7", []string{"2,3 8,3 8,4 2,4", "2,6 8,6 8,7 2,7"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, sameTexts(c.want...), shapeTexts(shape(c.shape).Clip(window)))
		})
	}
}

func TestSplitRefusesANegativeGap(t *testing.T) {
	require.PanicsWithValue(t, "geometry: negative gap", func() { shape("0,0 9,0 9,9").Split(lineThrough("0,0 1,1"), -1) })
}
