package geometry_test

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

func TestApart(t *testing.T) {
	const square = "0,0 10,0 10,10 0,10"
	const frame = square + "; 2,2 8,2 8,8 2,8"
	for _, c := range []struct {
		name, a, b string
		distance   geometry.Length
		want       bool
	}{
		{"beside each other", square, "13,0 20,0 20,10 13,10", 3 * mm, true},
		{"a nanometre too near", square, "13,0 20,0 20,10 13,10", 3*mm + 1, false},
		{"3-4-5 from corner to corner", square, "13,14 20,14 20,20", 5 * mm, true},
		{"3-4-5, a nanometre too near", square, "13,14 20,14 20,20", 5*mm + 1, false},
		{"touching along a side", square, "10,2 20,2 20,8 10,8", 0, true},
		{"touching with a corner", square, "10,5 20,0 20,10", 0, true},
		{"touching is not a nanometre apart", square, "10,5 20,0 20,10", 1, false},
		{"over each other by a nanometre", square, "9.999999,5 20,0 20,10", 0, false},
		{"the same twice", square, square, 0, false},
		{"one inside the other", square, "2,2 8,2 8,8", 0, false},
		{"inside, with two sides in common", square, "0,0 8,0 0,8", 0, false},
		{"in the window", frame, "4,4 6,4 6,6", 2 * mm, true},
		{"in the window, too near", frame, "4,4 6,4 6,6", 2*mm + 1, false},
		{"fills the window", frame, "2,2 8,2 8,8 2,8", 0, true},
		{"over the window's edge", frame, "1,4 6,4 6,6", 0, false},
		{"covers the window", frame, "1,1 9,1 9,9 1,9", 0, false},
		{"covers all", frame, "-1,-1 11,-1 11,11 -1,11", 0, false},
		{"the same frame", frame, frame, 0, false},
		{"a cross of two bars", "0,4 10,4 10,6 0,6", "4,0 6,0 6,10 4,10", 0, false},
		{"corner to corner through a square's corners", square, "0,0 10,10 0,10", 0, false},
		{"halves of one cell", "0,0 10,0 0,10", "10,0 10,10 0,10", 0, true},
		{"standing on three feet", square, "9,0 8,-3 2,-3 1,0 3,-2 5,0 7,-2", 0, true},
		{"three feet a nanometre deep", square, "9,0 8,-3 2,-3 1,0 3,-2 5,0.000001 7,-2", 0, false},
		{"corners on sides, insides in common", "0,0 6,0 6,6 0,6", "3,0 6,3 3,6 0,3", 0, false},
		{"a tooth in a notch", "0,0 10,0 10,10 6,10 5,5 4,10 0,10", "4,10 5,5 6,10", 0, true},
		{"a tooth too wide for the notch", "0,0 10,0 10,10 6,10 5,5 4,10 0,10", "3,10 5,5 6,10", 0, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, geometry.Apart(shape(c.a), shape(c.b), c.distance))
			require.Equal(t, c.want, geometry.Apart(shape(c.b), shape(c.a), c.distance))
		})
	}
	require.PanicsWithValue(t, "geometry: negative distance", func() { geometry.Apart(disc(mm), disc(mm), -1) })
}

// Two discs of 10 mm whose centres are 30 mm apart at 3-4-5, so that their
// borders are nearest between vertices: 10 mm apart. Four cubics bulge by up to
// 0.03 % of the radius, 3 micrometres each; polygons around them by 1 micrometre.
func TestApartWithCurves(t *testing.T) {
	a, b := disc(10*mm), circle(place("18,24"), 10*mm)
	require.True(t, geometry.Apart(a, b, 10*mm-8*geometry.Micrometre))
	require.False(t, geometry.Apart(a, b, 10*mm+geometry.Micrometre))
	require.True(t, geometry.Apart(a, circle(place("20,0"), 10*mm), 0), "touching at vertices; bounds settle it")
	require.False(t, geometry.Apart(a, circle(place("19.999,0"), 10*mm), 0))
	ring := disc(10 * mm)
	ring.Holes = []geometry.Ring{disc(8 * mm).Outer.Reversed()}
	require.True(t, geometry.Apart(ring, disc(6*mm), 2*mm-2*geometry.Micrometre))
	require.False(t, geometry.Apart(ring, disc(6*mm), 2*mm+1))
}

// Whatever the answer yes, samples of the true borders are that far apart.
func TestApartWithCurvesErrsToNo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := blob().Draw(t, "a")
		b := disc(a.Bounds().W()/3 + mm)
		by := rapid.Float64Range(0, 2*math.Pi).Draw(t, "direction")
		sin, cos := math.Sincos(by)
		reach := float64(a.Bounds().W()) * 1.1
		b = b.Moved(geometry.Vector{X: geometry.Length(reach * cos), Y: geometry.Length(reach * sin)})
		least := math.Inf(1)
		for _, p := range samples(a.Outer, 25) {
			for _, q := range samples(b.Outer, 25) {
				least = min(least, math.Hypot(p.x-q.x, p.y-q.y))
			}
		}
		require.False(t, geometry.Apart(a, b, geometry.Length(least)+1))
	})
}

// distanceSlowly returns the least squared distance of two borders.
func distanceSlowly(a, b geometry.Outline) *big.Rat {
	var least *big.Rat
	take := func(d *big.Rat) {
		if least == nil || d.Cmp(least) < 0 {
			least = d
		}
	}
	for _, s := range allEdges(a) {
		for _, u := range allEdges(b) {
			if meetSlowly(s, u) {
				return new(big.Rat)
			}
			take(squareDistance(rationalFrom(s.a), u))
			take(squareDistance(rationalFrom(u.a), s))
		}
	}
	return least
}

// commonArea returns twice the area that two straight shapes have in common.
// Each side makes a signed triangle with a fixed corner; the triangles of one
// and of the other, cut with each other, add up with their signs.
func commonArea(a, b geometry.Outline) *big.Rat {
	sum := new(big.Rat)
	for _, s := range allEdges(a) {
		p, signP := triangle(s)
		for _, u := range allEdges(b) {
			q, signQ := triangle(u)
			if signP*signQ != 0 {
				sum.Add(sum, new(big.Rat).Mul(big.NewRat(int64(signP*signQ), 1), doubleArea(cutConvex(p, q))))
			}
		}
	}
	return sum
}

// triangle returns a side's triangle with a corner far off, clockwise, and
// the sign with which it counts.
func triangle(s edge) ([]rational, int) {
	tip := rationalFrom(geometry.Point{X: -3 * mm, Y: -5 * mm})
	a, b := rationalFrom(s.a), rationalFrom(s.b)
	sign := crossOf(a.minus(tip), b.minus(tip)).Sign()
	if sign < 0 {
		a, b = b, a
	}
	return []rational{tip, a, b}, sign
}

// cutConvex keeps of one convex polygon what lies in another, side by side.
func cutConvex(p, window []rational) []rational {
	for i := range window {
		a, d := window[i], window[(i+1)%len(window)].minus(window[i])
		var kept []rational
		for j := range p {
			u, v := p[j], p[(j+1)%len(p)]
			hu, hv := crossOf(d, u.minus(a)), crossOf(d, v.minus(a))
			if hu.Sign() >= 0 {
				kept = append(kept, u)
			}
			if hu.Sign()*hv.Sign() < 0 {
				kept = append(kept, u.along(v.minus(u), new(big.Rat).Quo(hu, new(big.Rat).Sub(hu, hv))))
			}
		}
		p = kept
	}
	return p
}

func doubleArea(p []rational) *big.Rat {
	sum := new(big.Rat)
	for i := range p {
		sum.Add(sum, crossOf(p[i], p[(i+1)%len(p)]))
	}
	return sum
}

func TestApartAgainstSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.SampledFrom(gridShapes()).Draw(t, "a")
		b := rapid.SampledFrom(gridShapes()).Draw(t, "b")
		by := func() geometry.Length { return geometry.Length(rapid.IntRange(-gridSide, gridSide).Draw(t, "by")) * mm }
		b = b.Moved(geometry.Vector{X: by(), Y: by()})
		over := commonArea(a, b).Sign() > 0
		require.Equal(t, !over, geometry.Apart(a, b, 0))
		require.Equal(t, !over, geometry.Apart(b, a, 0))

		square := distanceSlowly(a, b)
		f, _ := square.Float64()
		for _, d := range []geometry.Length{1, mm, geometry.Length(math.Sqrt(f)), geometry.Length(math.Sqrt(f)) + 1} {
			enough := square.Cmp(big.NewRat(0, 1).SetInt(new(big.Int).Mul(big.NewInt(int64(d)), big.NewInt(int64(d))))) >= 0
			require.Equal(t, !over && enough, geometry.Apart(a, b, d), "distance %v", d)
		}
	})
}

func TestApartMovesAndTurnsWithItsInput(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.SampledFrom(gridShapes()).Draw(t, "a")
		b := rapid.SampledFrom(gridShapes()).Draw(t, "b").Moved(geometry.Vector{X: 6 * mm, Y: 3 * mm})
		d := geometry.Length(rapid.Int64Range(0, 3e6).Draw(t, "distance"))
		beforeA, beforeB := copyOf(a), copyOf(b)
		want := geometry.Apart(a, b, d)
		far := geometry.Vector{X: geometry.Limit - 20*mm, Y: -geometry.Limit + 20*mm}
		require.Equal(t, want, geometry.Apart(a.Moved(far), b.Moved(far), d))
		require.Equal(t, want, geometry.Apart(a.Turned(90), b.Turned(90), d))
		require.Equal(t, want, geometry.Apart(a.Mirrored(), b.Mirrored(), d))
		require.Equal(t, beforeA, a)
		require.Equal(t, beforeB, b)
	})
}

// The exact answer, with distances chosen to be just right or just missed.
func TestFarFromSegmentIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPoint().Draw(t, "p")
		s := edge{anyPoint().Draw(t, "a"), anyPoint().Draw(t, "b")}
		if rapid.Bool().Draw(t, "near") {
			s.a, s.b, p = threeInARow(t)
		}
		square := squareDistance(rationalFrom(p), s)
		floor := new(big.Int).Quo(square.Num(), square.Denom())
		root := floor.Sqrt(floor).Int64()
		for d := max(0, root-1); d <= root+2; d++ {
			enough := square.Cmp(new(big.Rat).SetInt(new(big.Int).Mul(big.NewInt(d), big.NewInt(d)))) >= 0
			require.Equal(t, enough, geometry.FarFromSegment(p, s.a, s.b, geometry.Length(d)), "distance %d of %d", d, root)
		}
	})
}

// Multiples of 3-4-5 triangles put the foot of the perpendicular at exactly
// the wanted distance, which no float64 would tell.
func TestFarFromSegmentAtExactlyTheDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := geometry.Length(rapid.Int64Range(1, 1e9).Draw(t, "k"))
		m := geometry.Length(rapid.Int64Range(1, 1e9).Draw(t, "m"))
		a := geometry.Point{X: -4 * m, Y: -3 * m}
		b := geometry.Point{X: 4 * k, Y: 3 * k}
		p := geometry.Point{X: -3 * k, Y: 4 * k} // 5 k from the origin, square to a-b
		require.True(t, geometry.FarFromSegment(p, a, b, 5*k))
		require.False(t, geometry.FarFromSegment(p, a, b, 5*k+1))
		require.True(t, geometry.FarFromSegment(p, b, a, 5*k))
		require.False(t, geometry.FarFromSegment(p, b, a, 5*k+1))
	})
}

// What two regions must share to lie on one another; a strip of less than 2
// micrometres is no more than rounding.
func TestOverlap(t *testing.T) {
	square := shape("0,0 10,0 10,10 0,10")
	for _, c := range []struct {
		name string
		a, b geometry.Outline
		want bool
	}{
		{"far apart", square, shape("20,0 30,0 30,10"), false},
		{"side to side", square, shape("10,2 20,2 20,8 10,8"), false},
		{"corner to corner", square, shape("10,10 20,10 20,20"), false},
		{"a micrometre", square, shape("9.999,0 20,0 20,10 9.999,10"), false},
		{"three micrometres", square, shape("9.997,0 20,0 20,10 9.997,10"), true},
		{"a corner", square, shape("9,9 20,9 20,20 9,20"), true},
		{"the same", square, square, true},
		{"inside", square, shape("2,2 8,2 8,8"), true},
		{"in a hole", shape("0,0 10,0 10,10 0,10; 2,2 2,8 8,8 8,2"), shape("2,2 8,2 8,8 2,8"), false},
		{"discs that touch", disc(10 * mm), circle(place("20,0"), 10*mm), false},
		{"discs in one another", disc(10 * mm), circle(place("19.9,0"), 10*mm), true},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, turn := range []float64{0, 30, 45, 200.3} {
				a, b := c.a.Turned(turn), c.b.Turned(turn)
				require.Equal(t, c.want, geometry.Overlap(a, b), turn)
				require.Equal(t, c.want, geometry.Overlap(b, a), turn)
			}
		})
	}
}
