package geometry_test

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

const (
	mm   = geometry.Millimetre
	inch = geometry.Inch
)

// anyLength draws lengths within the limit, short ones often.
func anyLength() *rapid.Generator[geometry.Length] {
	return rapid.OneOf(
		rapid.Map(rapid.Int64Range(-1e6, 1e6), func(n int64) geometry.Length { return geometry.Length(n) }),
		rapid.Map(rapid.Int64Range(int64(-geometry.Limit), int64(geometry.Limit)),
			func(n int64) geometry.Length { return geometry.Length(n) }),
	)
}

func TestUnitsOfLength(t *testing.T) {
	// 1 in is 25.4 mm exactly (international agreement of 1959).
	require.Equal(t, 254*mm, 10*inch)
	// 25 400 000 / 64, hand sum.
	require.Equal(t, geometry.Length(396_875), inch/64)
	require.Equal(t, geometry.Length(0), inch%64, "all marks of 1/64 in are whole nanometres")

	for _, c := range []struct {
		unit   geometry.Unit
		length geometry.Length
		symbol string
	}{
		{geometry.NoUnit, 0, ""},
		{geometry.Inches, inch, "in"},
		{geometry.Millimetres, mm, "mm"},
		{geometry.Centimetres, 10 * mm, "cm"},
	} {
		require.Equal(t, c.length, c.unit.Length())
		require.Equal(t, c.symbol, c.unit.String())
	}
}

func TestParseUnit(t *testing.T) {
	for text, want := range map[string]geometry.Unit{"in": geometry.Inches, "mm": geometry.Millimetres} {
		unit, ok := geometry.ParseUnit(text)
		require.True(t, ok, text)
		require.Equal(t, want, unit)
	}
	for _, text := range []string{"", "cm", "IN", "inch", " mm"} {
		_, ok := geometry.ParseUnit(text)
		require.False(t, ok, text)
	}
}

func TestLengthAsNumber(t *testing.T) {
	require.Equal(t, 2.625, (2*inch + 5*inch/8).In(geometry.Inches)) // 2 5/8
	require.Equal(t, 66.675, (2*inch + 5*inch/8).In(geometry.Millimetres))
	require.Equal(t, -6.6675, -(2*inch + 5*inch/8).In(geometry.Centimetres))
}

func TestLengthText(t *testing.T) {
	for want, l := range map[string]geometry.Length{
		"0":                     0,
		"0.000001":              1,
		"-0.000001":             -1,
		"53.975":                2*inch + inch/8, // 2.125 x 25.4
		"-0.5":                  -mm / 2,
		"100000":                geometry.Limit,
		"9223372036854.775807":  math.MaxInt64, // 2^63 - 1
		"-9223372036854.775808": math.MinInt64,
	} {
		require.Equal(t, want, l.MM())
		require.Equal(t, want+" mm", l.String())
	}
}

func TestLengthTextIsTheExactDecimal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := geometry.Length(rapid.Int64().Draw(t, "l"))
		slow := big.NewRat(int64(l), int64(mm)).FloatString(6)
		slow = strings.TrimRight(strings.TrimRight(slow, "0"), ".")
		if l == 0 {
			slow = "0"
		}
		require.Equal(t, slow, l.MM())
		require.Equal(t, "x"+slow, string(l.AppendMM([]byte("x"))))
	})
}

func TestDecimal(t *testing.T) {
	for _, c := range []struct {
		l      geometry.Length
		unit   geometry.Unit
		places int
		want   string
	}{
		{inch / 8, geometry.Inches, 3, "0.125"},
		{inch / 8, geometry.Inches, 2, "0.13"}, // half away from zero
		{-inch / 8, geometry.Inches, 2, "-0.13"},
		{10 * mm, geometry.Millimetres, 0, "10"}, // no zeros taken off whole numbers
		{10 * mm, geometry.Inches, 4, "0.3937"},  // 10 / 25.4 = 0.393700...
		{50 * mm, geometry.Centimetres, 1, "5"},
		{-1, geometry.Millimetres, 2, "0"}, // never "-0"
		{-1, geometry.Millimetres, 0, "0"},
		{0, geometry.Inches, 3, "0"},
	} {
		require.Equal(t, c.want, c.l.Decimal(c.unit, c.places))
	}
}

func TestOnRuler(t *testing.T) {
	for _, c := range []struct {
		name    string
		l, step geometry.Length
		mark    string
		off     geometry.Length
	}{
		{"on the mark", 2*inch + 5*inch/8, inch / 8, "2 5/8 in", 0},
		{"in lowest terms", 2*inch + inch/2, inch / 64, "2 1/2 in", 0},
		{"whole", 4 * inch, inch / 16, "4 in", 0},
		{"under one", 3 * inch / 16, inch / 16, "3/16 in", 0},
		{"nothing", 0, inch / 16, "0 in", 0},
		{"longer than the mark", inch + 100, inch / 16, "1 in", 100},
		{"shorter than the mark", inch - 100, inch / 16, "1 in", -100},
		{"halfway goes to the longer mark", inch / 32, inch / 16, "1/16 in", -inch / 32},
		{"below zero", -(2*inch + 5*inch/8), inch / 8, "-2 5/8 in", 0},
		{"below zero, under one", -inch / 8, inch / 8, "-1/8 in", 0},
		{"whole millimetres", 48*mm + 804_000, mm, "49 mm", -196_000},
		{"half millimetres", 48*mm + 604_000, mm / 2, "48.5 mm", 104_000},
		// 25.4 mm is 254 tenths and 127 fifths, yet nobody owns such an inch ruler.
		{"tenths of a millimetre", 48*mm + 804_000, mm / 10, "48.8 mm", 4_000},
		{"fifths of a millimetre", 48*mm + 804_000, mm / 5, "48.8 mm", 4_000},
		{"tenths of an inch", 3 * inch / 10, inch / 10, "3/10 in", 0},
		{"hundredths of an inch", inch / 100, inch / 100, "1/100 in", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			mark, off := c.l.OnRuler(c.step)
			require.Equal(t, c.mark, mark)
			require.Equal(t, c.off, off)
		})
	}
	require.Panics(t, func() { inch.OnRuler(0) })
	require.Panics(t, func() { inch.OnRuler(-1) })
}

func TestMarkAndRestGiveTheLength(t *testing.T) {
	steps := []geometry.Length{inch, inch / 8, inch / 10, inch / 16, inch / 32, inch / 64, mm, mm / 2, mm / 5, mm / 10, 5 * mm}
	rapid.Check(t, func(t *rapid.T) {
		l := anyLength().Draw(t, "l")
		step := rapid.SampledFrom(steps).Draw(t, "step")
		mark, off := l.OnRuler(step)
		at, err := geometry.ParseLength(mark, geometry.NoUnit)
		if l.Abs() <= geometry.Limit-step { // rounding must not pass the limit
			require.NoError(t, err)
			require.Equal(t, l, at+off)
		}
		require.LessOrEqual(t, 2*off.Abs(), step)
	})
}

func TestShare(t *testing.T) {
	// 10 nm in three: 3.33 and 6.67 round to 3 and 7; parts 3, 4, 3.
	var cuts []geometry.Length
	for k := range 4 {
		cuts = append(cuts, geometry.Length(10).Share(k, 3))
	}
	require.Equal(t, []geometry.Length{0, 3, 7, 10}, cuts)

	require.Panics(t, func() { inch.Share(0, 0) })
	require.Panics(t, func() { inch.Share(-1, 3) })
	require.Panics(t, func() { inch.Share(4, 3) })
}

func TestSharesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := anyLength().Draw(t, "whole")
		n := rapid.IntRange(1, 500).Draw(t, "n")
		require.Zero(t, whole.Share(0, n))
		require.Equal(t, whole, whole.Share(n, n))
		least, most := geometry.Length(math.MaxInt64), geometry.Length(math.MinInt64)
		var sum geometry.Length
		for k := 1; k <= n; k++ {
			part := whole.Share(k, n) - whole.Share(k-1, n)
			least, most, sum = min(least, part), max(most, part), sum+part
		}
		require.Equal(t, whole, sum)
		require.LessOrEqual(t, most-least, geometry.Nanometre)
	})
}

func TestShareIsTheRoundedQuotient(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := rapid.Int64().Draw(t, "whole") // past the limit too
		n := rapid.IntRange(1, 1e9).Draw(t, "n")
		k := rapid.IntRange(0, n).Draw(t, "k")
		share := new(big.Rat).Mul(big.NewRat(whole, 1), big.NewRat(int64(k), int64(n)))
		require.Equal(t, roundedSlowly(share), int64(geometry.Length(whole).Share(k, n)))
	})
}

// roundedSlowly returns the nearest integer, half upwards: floor(x + 1/2).
func roundedSlowly(x *big.Rat) int64 {
	x = new(big.Rat).Add(x, big.NewRat(1, 2))
	floor := new(big.Int).Div(x.Num(), x.Denom()) // Euclid; the denominator is above 0
	return floor.Int64()
}

func TestAbs(t *testing.T) {
	require.Equal(t, mm, (-mm).Abs())
	require.Equal(t, mm, mm.Abs())
	require.Zero(t, geometry.Length(0).Abs())
}
