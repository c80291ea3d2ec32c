package geometry

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The slow twin of all 128-bit arithmetic is math/big.

// anyInt64 draws the whole range, its ends and words full of ones.
func anyInt64() *rapid.Generator[int64] {
	return rapid.OneOf(rapid.Int64(), rapid.Int64Range(-9, 9), rapid.SampledFrom([]int64{
		math.MinInt64, math.MinInt64 + 1, math.MaxInt64, 1 << 32, -1 << 32, 1<<32 - 1, 1 << 62,
	}))
}

// anyWide draws products of two 62-bit numbers, so that sums of a few fit.
func anyWide() *rapid.Generator[wide] {
	return rapid.Custom(func(t *rapid.T) wide {
		a, b := anyInt64().Draw(t, "a")/4, anyInt64().Draw(t, "b")/4
		return mulWide(a, b).add(wideFrom(anyInt64().Draw(t, "low")))
	})
}

func bigProduct(a, b int64) *big.Int { return new(big.Int).Mul(big.NewInt(a), big.NewInt(b)) }

func TestWideProducts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyInt64().Draw(t, "a"), anyInt64().Draw(t, "b")
		require.Equal(t, bigProduct(a, b).String(), mulWide(a, b).big().String())
		require.Equal(t, big.NewInt(a).String(), wideFrom(a).big().String())
	})
}

func TestWideSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyWide().Draw(t, "a"), anyWide().Draw(t, "b")
		x, y := a.big(), b.big()
		require.Equal(t, new(big.Int).Add(x, y).String(), a.add(b).big().String())
		require.Equal(t, new(big.Int).Sub(x, y).String(), a.sub(b).big().String())
		require.Equal(t, new(big.Int).Neg(x).String(), a.neg().big().String())
		require.Equal(t, x.Cmp(y), a.cmp(b))
		require.Equal(t, 0, a.cmp(a))
		require.Equal(t, x.Sign(), a.sign())
	})
}

func TestWideTimes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := mulWide(rapid.Int64Range(-1<<58, 1<<58).Draw(t, "a"), rapid.Int64Range(-1<<58, 1<<58).Draw(t, "b"))
		k := rapid.Int64Range(-20, 20).Draw(t, "k")
		want := new(big.Int).Mul(a.big(), big.NewInt(k))
		require.Equal(t, want.String(), a.times(k).big().String())
	})
}

func TestWideAsFloat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyWide().Draw(t, "a")
		want, _ := new(big.Float).SetInt(a.big()).Float64() // the nearest
		// Two roundings of half a bit and one of the sum: 2 bits of 53.
		require.InDelta(t, want, a.float(), math.Abs(want)*0x1p-52)
	})
}

func TestRoundQuo(t *testing.T) {
	for _, c := range []struct{ n, d, want int64 }{
		{5, 2, 3}, {-5, 2, -2}, {5, -2, -2}, {-5, -2, 3}, // half upwards
		{7, 3, 2}, {8, 3, 3}, {-7, 3, -2}, {0, -3, 0},
	} {
		require.Equal(t, c.want, roundQuo(big.NewInt(c.n), big.NewInt(c.d)), "%d/%d", c.n, c.d)
	}
}

func TestRoundingAgreesAndKeepsItsInputs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(-1<<60, 1<<60).Draw(t, "n")
		d := rapid.Int64Range(1, 1<<60).Draw(t, "d")
		x, y := big.NewInt(n), big.NewInt(d)
		got := roundQuo(x, y)
		require.Equal(t, got, roundDiv(n, d))
		require.Equal(t, got, roundQuo(big.NewInt(-n), big.NewInt(-d)))
		require.Equal(t, n, x.Int64())
		require.Equal(t, d, y.Int64())
		// |n/d - got| <= 1/2
		off := new(big.Rat).Sub(big.NewRat(n, d), big.NewRat(got, 1))
		require.LessOrEqual(t, off.Abs(off).Cmp(big.NewRat(1, 2)), 0)
	})
}
