package geometry_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

func TestAreaOfStraightRings(t *testing.T) {
	for _, c := range []struct {
		name, ring string
		squareMM   float64
	}{
		{"oblong", "0,0 30,0 30,10 0,10", 300},                                   // 30 x 10
		{"the other way round", "0,0 0,10 30,10 30,0", -300},                     //
		{"3-4-5 triangle", "0,0 4,0 0,3", 6},                                     // 3 x 4 / 2
		{"L of 20 with a 10 square out", "0,0 20,0 20,10 10,10 10,20 0,20", 300}, // 400 - 100
		{"there and back", "0,0 10,0 20,0 10,0", 0},
		{"bow-tie of two equal loops", "0,0 10,10 10,0 0,10", 0},
		{"the half of case 1", "0,0 50.8,0 0,66.675", 1693.545}, // 2.625 sq in x 645.16
	} {
		t.Run(c.name, func(t *testing.T) {
			require.InDelta(t, c.squareMM, rawShape(c.ring).Outer.Area().SquareMM(), 1e-9)
		})
	}
	require.Zero(t, geometry.Ring(nil).Area())
}

func TestAreaSums(t *testing.T) {
	small, large := shape("0,0 1,0 1,1").Area(), shape("0,0 2,0 2,2").Area()
	require.Equal(t, 2.5, small.Add(large).SquareMM()) // 0.5 + 2
	require.Equal(t, -1.5, small.Sub(large).SquareMM())
	require.Equal(t, -1, small.Cmp(large))
	require.Equal(t, 1, large.Cmp(small))
	require.Equal(t, 0, small.Cmp(small))
	require.Equal(t, -1, small.Sub(large).Sign())
	require.Equal(t, 0, geometry.Area{}.Sign())
}

func TestAreaLeavesHolesOut(t *testing.T) {
	// 10 x 10 less 2 x 3
	require.Equal(t, 94.0, shape("0,0 10,0 10,10 0,10; 2,2 4,2 4,5 2,5").Area().SquareMM())
}

// Four cubics with handles of c radii enclose 2 + 2.4 c - 0.6 c^2 square
// radii: a quarter is (10 + 12 c - 3 c^2)/20 by the formula of areaUnder,
// worked by hand for (1,0), (1,c), (c,1), (0,1). With c = 0.5522847498 that is
// 3.142472333, 0.028 % over pi.
func TestAreaOfACircle(t *testing.T) {
	r := 50 * mm
	require.InDelta(t, 3.142472333*2500, disc(r).Area().SquareMM(), 1e-4)
}

// polynomial is a polynomial with exact coefficients, lowest first.
type polynomial []*big.Rat

func (p polynomial) times(q polynomial) polynomial {
	out := make(polynomial, len(p)+len(q)-1)
	for i := range out {
		out[i] = new(big.Rat)
	}
	for i := range p {
		for j := range q {
			out[i+j].Add(out[i+j], new(big.Rat).Mul(p[i], q[j]))
		}
	}
	return out
}

func (p polynomial) derived() polynomial {
	var out polynomial
	for i := 1; i < len(p); i++ {
		out = append(out, new(big.Rat).Mul(p[i], big.NewRat(int64(i), 1)))
	}
	return out
}

// integral is taken from 0 to 1.
func (p polynomial) integral() *big.Rat {
	sum := new(big.Rat)
	for i := range p {
		sum.Add(sum, new(big.Rat).Quo(p[i], big.NewRat(int64(i+1), 1)))
	}
	return sum
}

// powers returns a cubic Bézier coordinate in powers of t.
func powers(a, b, c, d geometry.Length) polynomial {
	var out polynomial
	for _, n := range []geometry.Length{a, 3 * (b - a), 3 * (a - 2*b + c), d - 3*c + 3*b - a} {
		out = append(out, big.NewRat(int64(n), 1))
	}
	return out
}

// areaSlowly integrates x dy around the ring, term by term, in twentieths.
func areaSlowly(r geometry.Ring) *big.Rat {
	sum := new(big.Rat)
	from := r.Start()
	for _, s := range r {
		x := polynomial{big.NewRat(int64(from.X), 1), big.NewRat(int64(s.To.X-from.X), 1)}
		y := polynomial{big.NewRat(int64(from.Y), 1), big.NewRat(int64(s.To.Y-from.Y), 1)}
		if s.Curved {
			x = powers(from.X, s.C1.X, s.C2.X, s.To.X)
			y = powers(from.Y, s.C1.Y, s.C2.Y, s.To.Y)
		}
		sum.Add(sum, x.times(y.derived()).integral())
		from = s.To
	}
	return sum.Mul(sum, big.NewRat(20, 1))
}

// anyRing draws rings of lines and cubics, crossing themselves as they like.
func anyRing() *rapid.Generator[geometry.Ring] {
	return rapid.Custom(func(t *rapid.T) geometry.Ring {
		var r geometry.Ring
		for range rapid.IntRange(1, 5).Draw(t, "sides") {
			to := anyPoint().Draw(t, "to")
			if rapid.Bool().Draw(t, "straight") {
				r = append(r, geometry.LineTo(to))
			} else {
				r = append(r, geometry.CurveTo(anyPoint().Draw(t, "c1"), anyPoint().Draw(t, "c2"), to))
			}
		}
		return r
	})
}

func TestAreaIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRing().Draw(t, "ring")
		want := areaSlowly(r)
		require.Equal(t, want.Num().String(), r.Area().Twentieths().String())
		require.True(t, want.IsInt(), "a whole number of twentieths")
		f, _ := want.Float64()
		require.InEpsilon(t, 1, (r.Area().SquareMM()+1)/(f/20/1e12+1), 1e-12)
		require.Equal(t, geometry.Area{}, r.Area().Add(r.Reversed().Area()))
	})
}
