package geometry_test

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

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

// cut is a shape, a line and a gap, drawn so that the line often runs
// through corners and along sides.
type cut struct {
	o    geometry.Outline
	line geometry.Line
	gap  geometry.Length
}

func anyCut() *rapid.Generator[cut] {
	gaps := []geometry.Length{0, 0, 1, 2, 3, mm / 2, mm, 2 * mm, inch / 8, 333_333}
	return rapid.Custom(func(t *rapid.T) cut {
		at := func() geometry.Length { return geometry.Length(rapid.IntRange(-1, gridSide+1).Draw(t, "mm")) * mm }
		c := cut{o: rapid.SampledFrom(gridShapes()).Draw(t, "shape"), gap: rapid.SampledFrom(gaps).Draw(t, "gap")}
		c.line = geometry.Line{A: geometry.Point{X: at(), Y: at()}, B: geometry.Point{X: at(), Y: at()}}
		if c.line.A == c.line.B {
			c.line.B.X++
		}
		return c
	})
}

func (c cut) alongAnAxis() bool {
	return c.line.A.X == c.line.B.X || c.line.A.Y == c.line.B.Y
}

// edges returns the two edges of the strip, both in the line's direction.
func (c cut) edges() (left, right geometry.Line) {
	return c.line.Moved(c.line.ToTheRight(c.gap / 2).Neg()), c.line.Moved(c.line.ToTheRight(c.gap - c.gap/2))
}

func TestSplitPartsAreValid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCut().Draw(t, "cut")
		left, right := c.o.Split(c.line, c.gap)
		for _, parts := range [][]geometry.Outline{left, right} {
			for i, part := range parts {
				require.NoError(t, part.Validate(), shapeText(part))
				for _, other := range parts[:i] {
					require.True(t, geometry.Apart(part, other, 0), "%s and %s", shapeText(part), shapeText(other))
				}
			}
		}
	})
}

// A place lies in a part on the left exactly where it lies in the shape and
// on the left of the strip; likewise on the right.
func TestSplitByPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCut().Draw(t, "cut")
		left, right := c.o.Split(c.line, c.gap)
		leftEdge, rightEdge := c.edges()
		for range 15 {
			at := func() geometry.Length {
				return geometry.Length(rapid.IntRange(0, gridSide*10).Draw(t, "at"))*mm/10 + 12_345
			}
			p := geometry.Point{X: at(), Y: at()}
			if c.near(p) {
				continue
			}
			in := insideSlowly(p, c.o)
			require.Equal(t, in && leftEdge.Side(p) < 0, insideOne(p, left), "%v", p)
			require.Equal(t, in && rightEdge.Side(p) > 0, insideOne(p, right), "%v", p)
		}
	})
}

// near reports whether p lies so near a border that rounding to the
// nanometre decides where it belongs.
func (c cut) near(p geometry.Point) bool {
	left, right := c.edges()
	for _, s := range append(allEdges(c.o), edge{stretched(left, -20), stretched(left, 20)}, edge{stretched(right, -20), stretched(right, 20)}) {
		if !geometry.FarFromSegment(p, s.a, s.b, 5) {
			return true
		}
	}
	return false
}

// stretched returns the place k times as far along the line as B is.
func stretched(l geometry.Line, k geometry.Length) geometry.Point {
	d := l.B.Sub(l.A)
	return l.A.Add(geometry.Vector{X: k * d.X, Y: k * d.Y})
}

func insideOne(p geometry.Point, parts []geometry.Outline) bool {
	n := 0
	for _, part := range parts {
		if insideSlowly(p, part) {
			n++
		}
	}
	return n == 1
}

func areaOf(parts []geometry.Outline) (sum geometry.Area) {
	for _, part := range parts {
		sum = sum.Add(part.Area())
	}
	return sum
}

// areaOnRight returns the exact area of what a straight shape has on the
// right hand of a line, in square nanometres. Each side, with a fixed place
// on the line, makes a triangle; those cut by the line and summed with their
// signs give the whole.
func areaOnRight(o geometry.Outline, l geometry.Line) *big.Rat {
	a, d := rationalFrom(l.A), rationalFrom(l.B).minus(rationalFrom(l.A))
	sum := new(big.Rat)
	for _, s := range allEdges(o) {
		p, q := rationalFrom(s.a).minus(a), rationalFrom(s.b).minus(a)
		hp, hq := crossOf(d, p), crossOf(d, q)
		switch {
		case hp.Sign() <= 0 && hq.Sign() <= 0:
			continue
		case hp.Sign() < 0:
			p = p.along(q.minus(p), new(big.Rat).Quo(hp, new(big.Rat).Sub(hp, hq)))
		case hq.Sign() < 0:
			q = p.along(q.minus(p), new(big.Rat).Quo(hp, new(big.Rat).Sub(hp, hq)))
		}
		sum.Add(sum, crossOf(p, q))
	}
	return sum.Mul(sum, big.NewRat(1, 2))
}

// Rounded corners cost at most half a nanometre along the border.
func TestSplitAreasAreRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCut().Draw(t, "cut")
		left, right := c.o.Split(c.line, c.gap)
		leftEdge, rightEdge := c.edges()
		slack := 0.5e-12 * c.o.Perimeter() // in square millimetres
		for _, hand := range []struct {
			parts []geometry.Outline
			edge  geometry.Line
		}{{left, geometry.Line{A: leftEdge.B, B: leftEdge.A}}, {right, rightEdge}} {
			want, _ := areaOnRight(c.o, hand.edge).Float64()
			require.InDelta(t, want/1e12, areaOf(hand.parts).SquareMM(), slack+1e-15*c.o.Area().SquareMM())
		}
	})
}

// stripOf returns what the split takes away, cut out in two splits.
func (c cut) stripOf() []geometry.Outline {
	leftEdge, rightEdge := c.edges()
	_, rest := c.o.Split(leftEdge, 0)
	var strip []geometry.Outline
	for _, part := range rest {
		left, _ := part.Split(rightEdge, 0)
		strip = append(strip, left...)
	}
	return strip
}

func TestSplitPartsAndStripAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCut().Draw(t, "cut")
		left, right := c.o.Split(c.line, c.gap)
		sum := areaOf(left).Add(areaOf(right)).Add(areaOf(c.stripOf()))
		off := sum.Sub(c.o.Area()).SquareMM()
		require.LessOrEqual(t, math.Abs(off), 0.5e-12*c.o.Perimeter())
	})
}

// stepped draws regions with upright and level sides only: staircases with
// a window.
func stepped() *rapid.Generator[geometry.Outline] {
	return rapid.Custom(func(t *rapid.T) geometry.Outline {
		step := func() geometry.Length { return geometry.Length(rapid.Int64Range(2e6, 40e6).Draw(t, "step")) }
		var top []geometry.Point
		x := geometry.Length(0)
		for range rapid.IntRange(1, 5).Draw(t, "steps") {
			y := -step()
			top = append(top, geometry.Point{X: x, Y: y})
			x += step()
			top = append(top, geometry.Point{X: x, Y: y})
		}
		floor := 10 * mm
		o := geometry.OutlineFromPoints(append(top, geometry.Point{X: x, Y: floor}, geometry.Point{Y: floor})...)
		w := geometry.RectFromSize(geometry.Point{X: mm, Y: mm}, geometry.Size{W: step() % (x - 2*mm + 1), H: 5 * mm})
		if w.W() > 0 {
			o.Holes = append(o.Holes, w.Outline().Outer.Reversed())
		}
		return o
	})
}

// On upright and level sides each new corner lies on its side, so that the
// parts and the strip add up without an error, whatever the line.
func TestSplitAddsUpExactlyOnUprightAndLevelSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := cut{o: stepped().Draw(t, "shape"), gap: geometry.Length(rapid.Int64Range(0, 9e6).Draw(t, "gap"))}
		at := func() geometry.Length { return geometry.Length(rapid.Int64Range(-50e6, 150e6).Draw(t, "at")) }
		c.line = geometry.Line{A: geometry.Point{X: at(), Y: at()}, B: geometry.Point{X: at(), Y: at()}}
		if c.line.A == c.line.B {
			t.Skip("no line")
		}
		left, right := c.o.Split(c.line, c.gap)
		sum := areaOf(left).Add(areaOf(right)).Add(areaOf(c.stripOf()))
		require.Equal(t, 0, sum.Cmp(c.o.Area()), "off by %v mm2", sum.Sub(c.o.Area()).SquareMM())
	})
}

// A shape of W x H cut upright loses exactly gap x H.
func TestSplitOblongLosesTheStrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string) geometry.Length { return geometry.Length(rapid.Int64Range(1, 1e11).Draw(t, name)) }
		w, h := side("w"), side("h")
		gap := side("gap") % (w + 1)
		x := gap/2 + side("x")%(w-gap+1)
		o := geometry.RectFromSize(geometry.Point{}, geometry.Size{W: w, H: h}).Outline()
		left, right := o.Split(geometry.Line{A: geometry.Point{X: x, Y: 1}, B: geometry.Point{X: x}}, gap) // up: the right hand is at larger x
		require.LessOrEqual(t, len(left), 1)
		require.LessOrEqual(t, len(right), 1)
		lost := o.Area().Sub(areaOf(left)).Sub(areaOf(right))
		want := new(big.Int).Mul(big.NewInt(int64(gap)), big.NewInt(20*int64(h)))
		require.Equal(t, want.String(), lost.Twentieths().String())
	})
}

// Along an axis the gap is kept exactly. Along a slanted line new corners are
// rounded, so that 2 nm may be missing; without a gap two parts may lie over
// each other by as much, and are pulled apart by 2 nm first.
func TestSplitKeepsTheGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCut().Draw(t, "cut")
		left, right := c.o.Split(c.line, c.gap)
		for _, l := range left {
			for _, r := range right {
				gap := c.gap
				switch {
				case c.alongAnAxis():
				case gap >= 2:
					gap -= 2
				default:
					l, gap = l.Moved(c.line.ToTheRight(2).Neg()), 0
				}
				require.True(t, geometry.Apart(l, r, gap), "%s and %s", shapeText(l), shapeText(r))
			}
		}
	})
}

// The same for lines at any slant through shapes of any slant.
func TestSplitKeepsTheGapAtAnySlant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := rapid.Float64Range(0, 360).Draw(t, "degrees")
		o := rapid.SampledFrom(gridShapes()).Draw(t, "shape").Turned(turn)
		line := geometry.Line{A: anyPlace(t), B: anyPlace(t)}
		if line.A == line.B {
			t.Skip("no line")
		}
		gap := geometry.Length(rapid.Int64Range(2, 3e6).Draw(t, "gap"))
		left, right := o.Split(line, gap)
		for _, l := range left {
			for _, r := range right {
				require.True(t, geometry.Apart(l, r, gap-2), "%s and %s", shapeText(l), shapeText(r))
			}
		}
	})
}

// anyPlace draws a place within 10 mm of the origin.
func anyPlace(t *rapid.T) geometry.Point {
	at := func() geometry.Length { return geometry.Length(rapid.Int64Range(-10e6, 10e6).Draw(t, "nm")) }
	return geometry.Point{X: at(), Y: at()}
}

func TestSplitMovesWithItsInput(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCut().Draw(t, "cut")
		far := int64(geometry.Limit - 20*mm) // the gap's edges and the line stay in range
		by := geometry.Vector{
			X: geometry.Length(rapid.Int64Range(-far, far).Draw(t, "x")),
			Y: geometry.Length(rapid.Int64Range(-far, far).Draw(t, "y")),
		}
		left, right := c.o.Split(c.line, c.gap)
		movedLeft, movedRight := c.o.Moved(by).Split(c.line.Moved(by), c.gap)
		require.Equal(t, all(left, by), movedLeft)
		require.Equal(t, all(right, by), movedRight)
	})
}

func all(parts []geometry.Outline, by geometry.Vector) (moved []geometry.Outline) {
	for _, part := range parts {
		moved = append(moved, part.Moved(by))
	}
	return moved
}

// Halves round upwards whichever way the shape lies, so that a turned shape's
// new corners may differ by a nanometre.
func TestSplitTurnsWithItsInput(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCut().Draw(t, "cut")
		degrees := rapid.SampledFrom([]float64{90, 180, 270}).Draw(t, "degrees")
		path := geometry.PathFromPoints(c.line.A, c.line.B).Turned(degrees).Points()
		left, right := c.o.Split(c.line, c.gap)
		turnedLeft, turnedRight := c.o.Turned(degrees).Split(geometry.Line{A: path[0], B: path[1]}, c.gap)
		requireAllNear(t, left, turnedLeft, degrees)
		requireAllNear(t, right, turnedRight, degrees)
	})
}

func requireAllNear(t *rapid.T, parts, turned []geometry.Outline, degrees float64) {
	require.Len(t, turned, len(parts))
	for i, part := range parts {
		want := part.Turned(degrees).Rings()
		for k, ring := range turned[i].Rings() {
			require.Len(t, ring, len(want[k]))
			for j, p := range ring.Points() {
				off := p.Sub(want[k].Points()[j])
				require.True(t, off.X.Abs() <= 1 && off.Y.Abs() <= 1, "%v is off by %v", p, off)
			}
		}
	}
}

// Walked the other way, left is right; an even gap has no odd nanometre.
func TestSplitFromTheOtherEnd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCut().Draw(t, "cut")
		c.gap += c.gap % 2
		left, right := c.o.Split(c.line, c.gap)
		backLeft, backRight := c.o.Split(geometry.Line{A: c.line.B, B: c.line.A}, c.gap)
		require.Equal(t, shapeTexts(left), shapeTexts(backRight))
		require.Equal(t, shapeTexts(right), shapeTexts(backLeft))
	})
}

func TestSplitKeepsItsInput(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCut().Draw(t, "cut")
		before := copyOf(c.o)
		parts := []geometry.Outline{c.o}
		geometry.SplitAll(parts, c.line, c.gap)
		window := places("2,2 6,2 6,6 2,6")
		c.o.Clip(window)
		require.Equal(t, before, c.o)
		require.Equal(t, before, parts[0])
		require.Equal(t, places("2,2 6,2 6,6 2,6"), window)
	})
}

// A window clips like the splits along its sides, seen place by place.
func TestClipByPlaces(t *testing.T) {
	window := places("1,4 4,0 7,3 5,7 2,7")
	wall := geometry.OutlineFromPoints(window...)
	rapid.Check(t, func(t *rapid.T) {
		o := rapid.SampledFrom(gridShapes()).Draw(t, "shape")
		parts := o.Clip(window)
		for _, part := range parts {
			require.NoError(t, part.Validate(), shapeText(part))
		}
		for range 15 {
			at := func() geometry.Length {
				return geometry.Length(rapid.IntRange(0, gridSide*10).Draw(t, "at"))*mm/10 + 12_345
			}
			p := geometry.Point{X: at(), Y: at()}
			sides := append(allEdges(o), allEdges(wall)...)
			if slices.ContainsFunc(sides, func(s edge) bool { return !geometry.FarFromSegment(p, s.a, s.b, 5) }) {
				continue
			}
			require.Equal(t, insideSlowly(p, o) && insideSlowly(p, wall), insideOne(p, parts), "%v", p)
		}
	})
}

func TestCrossingPointIsTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := geometry.Line{A: anyPoint().Draw(t, "a"), B: anyPoint().Draw(t, "b")}
		p, q := anyPoint().Draw(t, "p"), anyPoint().Draw(t, "q")
		if l.Side(p)*l.Side(q) >= 0 {
			t.Skip("no crossing")
		}
		d := rationalFrom(l.B).minus(rationalFrom(l.A))
		hp := crossOf(d, rationalFrom(p).minus(rationalFrom(l.A)))
		hq := crossOf(d, rationalFrom(q).minus(rationalFrom(l.A)))
		at := rationalFrom(p).along(rationalFrom(q).minus(rationalFrom(p)), new(big.Rat).Quo(hp, new(big.Rat).Sub(hp, hq)))
		want := geometry.Point{X: geometry.Length(roundedSlowly(at.x)), Y: geometry.Length(roundedSlowly(at.y))}
		require.Equal(t, want, geometry.CrossingPoint(p, q, l))
		require.Equal(t, want, geometry.CrossingPoint(q, p, l))
	})
}

// A chord at distance h from the centre cuts a cap of r^2 arccos(h/r) -
// h sqrt(r^2 - h^2) off a circle (closed form); four cubics are larger by less
// than 0.03 % of the circle.
func TestSplitACircle(t *testing.T) {
	r, round := 10.0, disc(10*mm)
	for _, h := range []float64{0, 1, 5, 9} {
		at := geometry.Length(h * float64(mm))
		line := geometry.Line{A: geometry.Point{Y: at}, B: geometry.Point{X: 1, Y: at}}
		left, right := round.Split(line, 0)
		cap := r*r*math.Acos(h/r) - h*math.Sqrt(r*r-h*h)
		require.InDelta(t, cap, areaOf(right).SquareMM(), 3e-4*math.Pi*r*r)
		require.InDelta(t, round.Area().SquareMM(), areaOf(left).Add(areaOf(right)).SquareMM(), 0.5e-12*round.Perimeter())
		require.NoError(t, right[0].Validate())
		require.NoError(t, left[0].Validate())
		require.False(t, right[0].IsStraight(), "curves stay curves")
	}
	left, right := round.Split(lineThrough("-20,10 20,10"), 0)
	require.Equal(t, []geometry.Outline{round}, left, "a line that touches")
	require.Empty(t, right)
}

// Curves cut at any slant: parts are valid, add up, and keep their gap.
func TestSplitCurves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := blob().Draw(t, "blob")
		b := o.Bounds()
		at := func() geometry.Point {
			x := rapid.Int64Range(int64(b.Min.X), int64(b.Max.X)).Draw(t, "x")
			y := rapid.Int64Range(int64(b.Min.Y), int64(b.Max.Y)).Draw(t, "y")
			return geometry.Point{X: geometry.Length(x), Y: geometry.Length(y)}
		}
		c := cut{o, geometry.Line{A: at(), B: at()}, geometry.Length(rapid.Int64Range(0, 1e6).Draw(t, "gap"))}
		if c.line.A == c.line.B {
			t.Skip("no line")
		}
		left, right := o.Split(c.line, c.gap)
		sum := areaOf(left).Add(areaOf(right)).Add(areaOf(c.stripOf()))
		require.InDelta(t, o.Area().SquareMM(), sum.SquareMM(), 1e-12*o.Perimeter())
	})
}
