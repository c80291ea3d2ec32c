package geometry_test

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

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
