package geometry_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

func TestParseLengthReads(t *testing.T) {
	const eighth = inch / 8
	for _, c := range []struct {
		text string
		unit geometry.Unit
		want geometry.Length
	}{
		{"4 1/4", geometry.Inches, 34 * eighth},
		{"4-1/4", geometry.Inches, 34 * eighth},
		{"4¼", geometry.Inches, 34 * eighth},
		{"4 ¼ in", geometry.NoUnit, 34 * eighth},
		{"4-¼ in", geometry.NoUnit, 34 * eighth},
		{"  4  1/4  in ", geometry.NoUnit, 34 * eighth},
		{"1/8", geometry.Inches, eighth},
		{"1⁄8", geometry.Inches, eighth}, // the slanted stroke of word processors
		{"⅛", geometry.Inches, eighth},
		{"9/8 in", geometry.NoUnit, 9 * eighth},
		{"0 1/8 in", geometry.NoUnit, eighth},
		{`1/8"`, geometry.NoUnit, eighth},
		{"1/8″", geometry.NoUnit, eighth},
		{"1/8”", geometry.NoUnit, eighth},
		{"1 inch", geometry.NoUnit, inch},
		{"12 inches", geometry.Millimetres, 12 * inch}, // a written unit wins
		{"0.5 IN", geometry.NoUnit, inch / 2},
		{".5in", geometry.NoUnit, inch / 2},
		{"5. mm", geometry.NoUnit, 5 * mm},
		{"3.2", geometry.Millimetres, 3_200_000},
		{"3,2", geometry.Millimetres, 3_200_000},
		{"0,125", geometry.Inches, 3_175_000}, // 1/8 in; a comma after 0 cannot mean thousands
		{"3,25 cm", geometry.NoUnit, 32_500_000},
		{"3.125mm", geometry.Inches, 3_125_000},
		{"-4 1/4", geometry.Inches, -34 * eighth},
		{"−3 mm", geometry.NoUnit, -3 * mm}, // the true minus sign
		{"- 3 mm", geometry.NoUnit, -3 * mm},
		{"-¼ in", geometry.NoUnit, -2 * eighth},
		{"0", geometry.Centimetres, 0},
		{"0.0000004 mm", geometry.NoUnit, 0},   // 0.4 nm
		{"0.0000005 mm", geometry.NoUnit, 1},   // half upwards
		{"1/3 in", geometry.NoUnit, 8_466_667}, // 25 400 000 / 3 = 8 466 666.67
		{"2/3 mm", geometry.NoUnit, 666_667},   // 666 666.67
		{"100000 mm", geometry.NoUnit, geometry.Limit},
		{"-10000 cm", geometry.NoUnit, -geometry.Limit},
	} {
		t.Run(c.text, func(t *testing.T) {
			got, err := geometry.ParseLength(c.text, c.unit)
			require.NoError(t, err)
			require.Equal(t, c.want, got)
		})
	}
}

// Every one-character fraction stands for the fraction that it shows; the
// values are those of the Unicode character database, block Number Forms.
func TestParseLengthReadsVulgarFractions(t *testing.T) {
	pairs := "¼ 1/4 ½ 1/2 ¾ 3/4 ⅐ 1/7 ⅑ 1/9 ⅒ 1/10 ⅓ 1/3 ⅔ 2/3 ⅕ 1/5 ⅖ 2/5 ⅗ 3/5 ⅘ 4/5 ⅙ 1/6 ⅚ 5/6 ⅛ 1/8 ⅜ 3/8 ⅝ 5/8 ⅞ 7/8"
	words := strings.Fields(pairs)
	for i := 0; i < len(words); i += 2 {
		short, err := geometry.ParseLength("7"+words[i], geometry.Inches)
		require.NoError(t, err, words[i])
		long, err := geometry.ParseLength("7 "+words[i+1], geometry.Inches)
		require.NoError(t, err, words[i+1])
		require.Equal(t, long, short, words[i])
	}
}

func TestParseLengthRefuses(t *testing.T) {
	for text, part := range map[string]string{
		"":                            "a length is missing",
		"  ":                          "a length is missing",
		"wide":                        `"wide" is not a length; write it like 4 1/4`,
		"mm":                          `"mm" is not a length`,
		"-":                           `"-" is not a length`,
		"4 z":                         `"4 z" is not a length`,
		"1.2.3 mm":                    `"1.2.3 mm" is not a length`,
		"1e3 mm":                      "is not a length",
		"0x10 mm":                     "is not a length",
		"NaN":                         "is not a length",
		"Inf mm":                      "is not a length",
		"1/0 in":                      "is not a length",
		"1/ in":                       "is not a length",
		"/8 in":                       "is not a length",
		"1/2/4 in":                    "is not a length",
		"1.5 1/4 in":                  "is not a length",
		"4 -1/4 in":                   "is not a length",
		"--4 mm":                      "is not a length",
		"--1/4 in":                    "is not a length",
		"--¼ in":                      "is not a length",
		"4--¼ in":                     "is not a length",
		"4 1/-4 in":                   "is not a length",
		"+4 mm":                       "is not a length",
		"٣ mm":                        "is not a length",
		"¼¼ in":                       "is not a length",
		"1/4¼ in":                     "is not a length",
		"4 mm mm":                     "is not a length",
		"1,250 mm":                    "could mean thousands or a decimal comma",
		"100001 mm":                   `"100001 mm" is more than 100 m`,
		"-100000.001":                 "is more than 100 m",
		"100000.0000005 mm":           "is more than 100 m",
		"\xff\xfe":                    "is not a length",
		strings.Repeat("9", 49):       "is too long for a length",
		"a" + strings.Repeat("¼", 30): `"a¼¼¼¼¼¼¼¼¼"… is too long`, // never half a character
		strings.Repeat("¼", 30):       "is too long for a length",
	} {
		t.Run(text, func(t *testing.T) {
			got, err := geometry.ParseLength(text, geometry.Millimetres)
			require.ErrorContains(t, err, part)
			require.Zero(t, got)
			require.NotContains(t, err.Error(), "\n")
		})
	}
}

func TestParseLengthAsksForAUnit(t *testing.T) {
	_, err := geometry.ParseLength(" 4 1/4 ", geometry.NoUnit)
	// 4.25 x 25.4 = 107.95, hand sum.
	require.EqualError(t, err, `"4 1/4" has no unit: is it 4 1/4 in (107.95 mm) or 4 1/4 mm?`)

	_, err = geometry.ParseLength("5000", geometry.NoUnit) // 5 m, or 127 m
	require.ErrorContains(t, err, `"5000" has no unit`)

	for _, nothing := range []string{"0", " 0.0 ", "0/8"} {
		got, err := geometry.ParseLength(nothing, geometry.NoUnit)
		require.NoError(t, err, nothing)
		require.Zero(t, got)
	}
}

func TestParseLengthReadsWhatIsPrinted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLength().Draw(t, "l")
		for _, text := range []string{l.String(), l.MM() + "mm", l.Decimal(geometry.Centimetres, 7) + " cm"} {
			got, err := geometry.ParseLength(text, geometry.NoUnit)
			require.NoError(t, err)
			require.Equal(t, l, got, text)
		}
	})
}

func TestParseSizeReads(t *testing.T) {
	card := geometry.Size{W: 34 * inch / 8, H: 44 * inch / 8}
	for _, c := range []struct {
		text string
		unit geometry.Unit
		want geometry.Size
	}{
		{"4 1/4 x 5 1/2 in", geometry.NoUnit, card},
		{"4 1/4 in x 5 1/2", geometry.NoUnit, card},
		{"4 1/4 x 5 1/2", geometry.Inches, card},
		{"4¼×5½ in", geometry.Millimetres, card},
		{`4.25" X 5.5"`, geometry.NoUnit, card},
		{"107.95 mm x 5 1/2 in", geometry.NoUnit, card},
		{"210x297mm", geometry.NoUnit, geometry.Size{W: 210 * mm, H: 297 * mm}},
		{"21 x 29,7 cm", geometry.Inches, geometry.Size{W: 210 * mm, H: 297 * mm}},
	} {
		t.Run(c.text, func(t *testing.T) {
			got, err := geometry.ParseSize(c.text, c.unit)
			require.NoError(t, err)
			require.Equal(t, c.want, got)
		})
	}
}

func TestParseSizeRefuses(t *testing.T) {
	for text, part := range map[string]string{
		"":               "is not a size; write it like 4 1/4 x 5 1/2 in",
		"12 in":          `"12 in" is not a size`,
		"x":              "a length is missing",
		"12 x":           "a length is missing",
		"x 12":           "a length is missing",
		"12 x 12":        `"12" has no unit`,
		"12 x 12 x 3 mm": "is not a length",
		"12 x wide mm":   "is not a length",
		"wide x 12":      "is not a length",
		"1 mm x 101 m":   "is not a length",
		"1 x 100001 mm":  "is more than 100 m",
	} {
		t.Run(text, func(t *testing.T) {
			got, err := geometry.ParseSize(text, geometry.NoUnit)
			require.ErrorContains(t, err, part)
			require.Zero(t, got)
		})
	}
}

func TestSize(t *testing.T) {
	s := geometry.Size{W: 34 * inch / 8, H: 44 * inch / 8}
	require.Equal(t, "107.95 x 139.7 mm", s.String()) // 4.25 and 5.5 x 25.4
	require.Equal(t, geometry.Size{W: s.H, H: s.W}, s.Turned())
}

func TestParseSizeReadsWhatIsPrinted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := geometry.Size{W: anyLength().Draw(t, "w"), H: anyLength().Draw(t, "h")}
		got, err := geometry.ParseSize(s.String(), geometry.NoUnit)
		require.NoError(t, err)
		require.Equal(t, s, got)
	})
}
