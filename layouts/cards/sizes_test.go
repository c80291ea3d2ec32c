package cards_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/cards"
)

// sizeNamed returns the row with exactly that name.
func sizeNamed(t *testing.T, name string) cards.NamedSize {
	t.Helper()
	for _, row := range cards.Sizes() {
		if row.Name == name {
			return row
		}
	}
	t.Fatalf("no size is named %q", name)
	return cards.NamedSize{}
}

// sizeOf reads a size with its unit.
func sizeOf(t *testing.T, text string) geometry.Size {
	t.Helper()
	size, err := geometry.ParseSize(text, geometry.NoUnit)
	require.NoError(t, err)
	return size
}

func TestSizesRows(t *testing.T) {
	seen := make(map[string]bool)
	for _, row := range cards.Sizes() {
		t.Run(row.Name, func(t *testing.T) {
			name := strings.ToLower(strings.ReplaceAll(row.Name, " ", ""))
			require.False(t, seen[name], "the name is taken")
			seen[name] = true
			require.NotEmpty(t, row.Source)
			require.NotZero(t, row.Use)
			require.NotEqual(t, geometry.NoUnit, row.Unit)
			require.Positive(t, row.Size.W)
			require.LessOrEqual(t, row.Size.W, row.Size.H, "upright")
			if row.Holds != (geometry.Size{}) {
				require.Equal(t, cards.ForEnvelope, row.Use, "only an envelope holds a card")
				require.LessOrEqual(t, row.Holds.W, row.Holds.H, "upright")
				require.Less(t, row.Holds.W, row.Size.W)
				require.Less(t, row.Holds.H, row.Size.H)
			}
		})
	}
}

func TestSizesGivesACopy(t *testing.T) {
	first := cards.Sizes()
	first[0].Name = "changed"
	require.NotEqual(t, first[0], cards.Sizes()[0])
	require.Equal(t, cards.Sizes(), cards.Sizes())
}

func TestNamedSizeString(t *testing.T) {
	// Hand-written: the form that the trade uses.
	require.Equal(t, "US A2 (4 1/4 x 5 1/2 in)", sizeNamed(t, "US A2").String())
	require.Equal(t, "ISO C6 (114 x 162 mm)", sizeNamed(t, "ISO C6").String())
}

func TestUseString(t *testing.T) {
	tests := []struct {
		use  cards.Use
		want string
	}{
		{0, ""},
		{cards.ForCard, "card"},
		{cards.ForCard | cards.ForSheet, "card or sheet"},
		{cards.ForCard | cards.ForSheet | cards.ForEnvelope, "card, sheet or envelope"},
	}
	for _, tt := range tests {
		t.Run(tt.want, func(t *testing.T) { require.Equal(t, tt.want, tt.use.String()) })
	}
}

// ISO 216: each size is the one before, cut in halves across its long side;
// a half millimetre is dropped. The C envelopes follow the same rule (found
// in the table of ISO 269, not read as a clause).
func TestISOHalving(t *testing.T) {
	for _, series := range []string{"A", "B", "C"} {
		for n := 3; n < 8; n++ {
			t.Run(fmt.Sprintf("%s%d to %s%d", series, n, series, n+1), func(t *testing.T) {
				big := sizeNamed(t, fmt.Sprintf("ISO %s%d", series, n)).Size
				half := big.H / 2 / geometry.Millimetre * geometry.Millimetre
				require.Equal(t, geometry.Size{W: half, H: big.W},
					sizeNamed(t, fmt.Sprintf("ISO %s%d", series, n+1)).Size)
			})
		}
	}
}

// ISO 216: A0 has 1 m2 and sides as 1 to the square root of 2, so A(n) has
// sides 2^(-1/4-n/2) m and 2^(1/4-n/2) m. Each halving drops less than a
// millimetre.
func TestISOAFromOneSquareMetre(t *testing.T) {
	for n := 3; n <= 8; n++ {
		t.Run(fmt.Sprintf("A%d", n), func(t *testing.T) {
			size := sizeNamed(t, fmt.Sprintf("ISO A%d", n)).Size
			w := 1000 * math.Pow(2, -0.25-float64(n)/2)
			h := 1000 * math.Pow(2, 0.25-float64(n)/2)
			require.InDelta(t, w, size.W.In(geometry.Millimetres), 1)
			require.InDelta(t, h, size.H.In(geometry.Millimetres), 1)
			area := size.W.In(geometry.Millimetres) * size.H.In(geometry.Millimetres) / 1e6
			require.InEpsilon(t, math.Pow(2, -float64(n)), area, 0.015) // A8: 0.5 mm of 52 mm is 1 %
		})
	}
}

// ISO 216: B(n) lies at the geometric mean of A(n-1) and A(n). C(n) lies at
// that of A(n) and B(n) (from memory).
func TestISOGeometricMeans(t *testing.T) {
	mean := func(a, b geometry.Length) float64 {
		return math.Sqrt(a.In(geometry.Millimetres) * b.In(geometry.Millimetres))
	}
	check := func(t *testing.T, name, first, second string) {
		t.Run(name, func(t *testing.T) {
			got, a, b := sizeNamed(t, name).Size, sizeNamed(t, first).Size, sizeNamed(t, second).Size
			require.InDelta(t, mean(a.W, b.W), got.W.In(geometry.Millimetres), 1)
			require.InDelta(t, mean(a.H, b.H), got.H.In(geometry.Millimetres), 1)
		})
	}
	for n := 3; n <= 8; n++ {
		if n > 3 {
			check(t, fmt.Sprintf("ISO B%d", n), fmt.Sprintf("ISO A%d", n-1), fmt.Sprintf("ISO A%d", n))
		}
		check(t, fmt.Sprintf("ISO C%d", n), fmt.Sprintf("ISO A%d", n), fmt.Sprintf("ISO B%d", n))
	}
}

// JIS P 0138 (from memory): B(n) has one and a half times the area of A(n),
// and halving drops a half millimetre.
func TestJISBSeries(t *testing.T) {
	for n := 4; n <= 7; n++ {
		t.Run(fmt.Sprintf("JIS B%d", n), func(t *testing.T) {
			b, a := sizeNamed(t, fmt.Sprintf("JIS B%d", n)).Size, sizeNamed(t, fmt.Sprintf("ISO A%d", n)).Size
			ratio := float64(b.W) * float64(b.H) / (float64(a.W) * float64(a.H))
			require.InDelta(t, 1.5, ratio, 0.02)
			if n < 7 {
				half := b.H / 2 / geometry.Millimetre * geometry.Millimetre
				require.Equal(t, geometry.Size{W: half, H: b.W}, sizeNamed(t, fmt.Sprintf("JIS B%d", n+1)).Size)
			}
		})
	}
}

// Clearance in all, both ways: at least 1/8 in (suggested from three trade
// charts); none of the table's pairs is looser than 1/2 in.
func TestUSEnvelopeClearance(t *testing.T) {
	for _, row := range cards.Sizes() {
		if row.Unit != geometry.Inches || row.Holds == (geometry.Size{}) {
			continue
		}
		t.Run(row.Name, func(t *testing.T) {
			for _, clearance := range []geometry.Length{row.Size.W - row.Holds.W, row.Size.H - row.Holds.H} {
				require.GreaterOrEqual(t, clearance, geometry.Inch/8)
				require.LessOrEqual(t, clearance, geometry.Inch/2)
			}
		})
	}
}

// Each US card has the envelope of its name, and the other way round.
func TestUSPairs(t *testing.T) {
	for _, row := range cards.Sizes() {
		if !strings.HasPrefix(row.Name, "US ") || row.Use != cards.ForCard {
			continue
		}
		t.Run(row.Name, func(t *testing.T) {
			require.Equal(t, row.Size, sizeNamed(t, row.Name+" envelope").Holds)
		})
	}
}

// Length by height of the envelopes, as printed in a trade chart: a slip in
// one number of the table shows here.
func TestUSEnvelopeProportions(t *testing.T) {
	tests := []struct {
		name  string
		ratio float64
	}{
		{"US A1 envelope", 1.414}, {"US A2 envelope", 1.314}, {"US A4 envelope", 1.471},
		{"US A6 envelope", 1.368}, {"US A7 envelope", 1.381}, {"US A8 envelope", 1.477},
		{"US A9 envelope", 1.522}, {"US A10 envelope", 1.583}, {"US Slimline envelope", 2.290},
		{"No. 9", 2.290}, {"No. 10", 2.303}, {"Monarch", 1.935},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			size := sizeNamed(t, tt.name).Size
			require.InDelta(t, tt.ratio, float64(size.H)/float64(size.W), 0.0005)
		})
	}
}

// Sheets in mm: 8 1/2 x 11 in is 215.9 x 279.4 mm (paper-size list); the
// others by hand, 25.4 mm to the inch.
func TestUSSheetsInMillimetres(t *testing.T) {
	tests := []struct{ name, mm string }{
		{"Letter", "215.9 x 279.4 mm"}, {"Legal", "215.9 x 355.6 mm"}, {"Tabloid", "279.4 x 431.8 mm"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			require.Equal(t, tt.mm, sizeNamed(t, tt.name).Size.String())
		})
	}
}
