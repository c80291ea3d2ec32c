package geometry_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

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
// new corners may differ by a nanometre. Gaps of a few nanometres are left
// out: they leave crumbs of no size, and rounding decides which stay.
func TestSplitTurnsWithItsInput(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCut().Draw(t, "cut")
		if c.gap < 10 {
			c.gap = 0
		}
		degrees := rapid.SampledFrom([]float64{90, 180, 270}).Draw(t, "degrees")
		path := geometry.PathFromPoints(c.line.A, c.line.B).Turned(degrees).Points()
		left, right := c.o.Split(c.line, c.gap)
		turnedLeft, turnedRight := c.o.Turned(degrees).Split(geometry.Line{A: path[0], B: path[1]}, c.gap)
		requireAllNear(t, left, turnedLeft, degrees)
		requireAllNear(t, right, turnedRight, degrees)
	})
}

// requireAllNear compares part with part: each corner of one lies within 3 nm
// of the other's border. (A straight-on vertex can be there in one and not in
// the other.)
func requireAllNear(t *rapid.T, parts, turned []geometry.Outline, degrees float64) {
	require.Len(t, turned, len(parts))
	for i, part := range parts {
		want := part.Turned(degrees)
		require.Len(t, turned[i].Holes, len(want.Holes))
		requireNear(t, want, turned[i])
		requireNear(t, turned[i], want)
	}
}

func requireNear(t *rapid.T, corners, border geometry.Outline) {
	sides := allEdges(border)
	for _, c := range allEdges(corners) {
		near := slices.ContainsFunc(sides, func(s edge) bool { return !geometry.FarFromSegment(c.a, s.a, s.b, 3) })
		require.True(t, near, "%v is off", c.a)
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
