package nesting

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

// jagged draws a star-shaped polygon, most often concave, with its corners
// on a grid so that sides often touch exactly.
func jagged(t *rapid.T) geometry.Outline {
	n := rapid.IntRange(3, 9).Draw(t, "corners")
	points := make([]geometry.Point, n)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r := rapid.Float64Range(2, 20).Draw(t, "radius")
		points[i] = geometry.Point{X: geometry.Length(r*cos) * 1_000_000, Y: geometry.Length(r*sin) * 1_000_000}
	}
	o := geometry.OutlineFromPoints(points...)
	if o.Validate() != nil || o.Area().Sign() <= 0 {
		t.Skip("crosses itself")
	}
	return o
}

func catalogueOf(spacing geometry.Length, outlines ...geometry.Outline) *catalogue {
	job := Job{Spacing: spacing, Stock: []Sheet{{Size: geometry.Size{W: geometry.Metre, H: geometry.Metre}}}}
	for _, o := range outlines {
		job.Shapes = append(job.Shapes, Shape{Outline: o, Count: 1})
	}
	return newCatalogue(job, cuts{})
}

func TestConvexPartsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := jagged(t)
		points := o.Outer.Points()
		sum := 0.0
		for _, p := range convexParts(geometry.OutlineFromPoints(points...)) {
			require.True(t, isConvex(p))
			sum += ringArea(p)
		}
		require.InEpsilon(t, o.Area().SquareMM()*1e12, sum, 1e-12)
		require.LessOrEqual(t, len(convexParts(geometry.OutlineFromPoints(points...))), max(1, len(points)-2))
	})
}

// The exact test of the outlines themselves is the brute force: a place is
// inside the no-fit region just when they are not apart.
func TestNoFitAgreesWithApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, f := jagged(t), jagged(t)
		spacing := geometry.Length(rapid.SampledFrom([]int64{0, 0, 1_500_000}).Draw(t, "spacing"))
		c := catalogueOf(spacing, m, f)
		region := c.region(c.variants[c.of[0][0]].form, c.variants[c.of[1][0]].form)
		m = m.Moved(geometry.Point{}.Sub(m.Bounds().Min))
		f = f.Moved(geometry.Point{}.Sub(f.Bounds().Min))
		for range 30 {
			at := geometry.Vector{
				X: geometry.Length(rapid.Int64Range(-45, 45).Draw(t, "x")) * 1_000_000,
				Y: geometry.Length(rapid.Int64Range(-45, 45).Draw(t, "y")) * 1_000_000,
			}
			inside := region.depth(float64(at.X), float64(at.Y)) > 1
			apart := geometry.Apart(m.Moved(at), f, spacing)
			if spacing == 0 {
				require.Equal(t, !apart, inside, "at %v", at)
			} else if !inside { // mitred corners: it may keep more than the spacing
				require.True(t, geometry.Apart(m.Moved(at), f, spacing-2), "at %v", at)
			}
		}
	})
}

// An exact line search finds nothing worse than a thousand places on the line.
func TestLineSearchAgainstPlacesOnTheLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := catalogueOf(0, jagged(t), jagged(t), jagged(t), jagged(t))
		b := newBoard(c, rand.New(rand.NewPCG(1, 1)), &work{ctx: t.Context(), limit: 1e9})
		var items []item
		for i := range 4 {
			at := spot{rapid.Float64Range(0, 4e7).Draw(t, "x"), rapid.Float64Range(0, 4e7).Draw(t, "y")}
			items = append(items, item{shape: i, variant: c.of[i][0], at: at})
		}
		b.fill([]room{{w: 1e9, h: 1e9}}, items)
		w := window{0, 0, 8e7, 8e7}
		near := b.gather(0, items[0].variant, everywhere)
		b.collect(near, w)
		sin, cos := math.Sincos(rapid.Float64Range(0, 3).Draw(t, "angle"))
		p := items[0].at
		_, best, _ := b.searchLine(p, spot{cos, sin}, w)
		t0, t1 := clipLine(p, spot{cos, sin}, w)
		for k := range 1001 {
			q := p.add(spot{cos, sin}.times(t0 + (t1-t0)*float64(k)/1000))
			require.LessOrEqual(t, best, overlap(near, q, math.Inf(1), b.work)+1e-2)
		}
	})
}

func TestDualFeasibleFunctions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom(feasible).Draw(t, "f")
		left, sum := 1.0, 0.0
		for range rapid.IntRange(1, 12).Draw(t, "numbers") {
			x := rapid.Float64Range(0, left).Draw(t, "x")
			left -= x
			sum += f(x)
		}
		require.LessOrEqual(t, sum, 1+1e-9)
	})
}
