package reader

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// In user units, with 100 % = 400, em = 10 and rem = 20. Sources: CSS Values
// 4 §6.2 for the absolute units (1in = 96px = 2.54cm = 25.4mm = 101.6Q =
// 72pt = 6pc), §6.1 for em and rem, §10 for calculations, SVG 2 §8.9.
func TestLength(t *testing.T) {
	for text, want := range map[string]float64{
		"7": 7, "7px": 7, "1in": 96, "2.54cm": 96, "25.4mm": 96, "101.6Q": 96, "72pt": 96, "6pc": 96, "0": 0, "0mm": 0,
		"50%": 200, "-25%": -100, "2em": 20, "2rem": 40, "+5.0E1mm": 50 * 96 / 25.4, ".5in": 48, "-.5e1px": -5, "1e0em": 10, "2e1em": 200,
		// Case, white space and comments.
		"1IN": 96, "25.4Mm": 96, "101.6q": 96, "1REM": 20, " \t\r\n\f7 ": 7, "/* a */7px": 7, "7px /* mm */": 7, "/**/ 7 /* * / */": 7, "7px/* not closed": 7,
		// Calculations.
		"calc(50mm + 2cm)": 70 * 96 / 25.4, "calc( 1in - 72pt )": 0, "calc(2 * 3px)": 6, "calc(3px*2)": 6, "calc(6px/4)": 1.5, "calc(-1 * (2px + 3px))": -5,
		"calc(50% - 2em)": 180, "calc(1px + 2px * 3)": 7, "calc((1px + 2px) * 3)": 9, "calc(1px - 2px - 3px)": -4, "calc(12px / 2 / 3)": 2, "calc(calc(1px) + (1px))": 2,
		"CALC(1PX + 2Px)": 3, "calc(2 * 3)": 6, "calc(1px + -2px)": -1, "calc(1px - +2px)": -1, "calc(\n1px\t+\f2px)": 3, "calc(1px + /* a */ 2px)": 3, "calc(10px / (2 + 3))": 2,
		"min(3px, 2px, 1in)": 2, "max(3px,2px)": 3, "max(1%, 1px)": 4, "clamp(1px, 5px, 3px)": 3, "clamp(4px, 1px, 3px)": 4, "clamp(1px, 2px, 3px)": 2, "min(calc(1px + 1px), 3px)": 2, "calc(max(1px, 2px))": 2, "min(5px)": 5,
	} {
		t.Run(text, func(t *testing.T) {
			l, err := parseLength(text)
			require.NoError(t, err)
			got, problem := l.resolve(lengthContext{percent: 400, fontSize: 10, rootFont: 20})
			require.Empty(t, problem)
			require.InDelta(t, want, got, 1e-12*(1+math.Abs(want)))
			require.Equal(t, strings.Contains(text, "%"), l.relative())
			require.Equal(t, strings.Contains(text, "("), l.isCalculation())
		})
	}
}

func TestLengthRefused(t *testing.T) {
	for text, want := range map[string]string{
		"":                        `"" is not a length`,
		"auto":                    `"auto" is not a length`,
		"mm":                      `"mm" is not a length`,
		"%":                       `"%" is not a length`,
		"10.mm":                   `"10.mm" is not a length`,
		"--5":                     `"--5" is not a length`,
		"1e39mm":                  `"1e39mm" is not a length`,
		"100 mm":                  `"100 mm" has white space before its unit`,
		"100\tMM":                 `"100\tMM" has white space before its unit`,
		"100furlong":              `"100furlong" has the unit "furlong", which does not exist`,
		"100 Furlong":             `"100 Furlong" has the unit " Furlong", which does not exist`,
		"5m":                      `"5m" has the unit "m", which does not exist`,
		"5e":                      `"5e" has the unit "e", which does not exist`,
		"5e+":                     `"5e+" has the unit "e+", which does not exist`,
		"5mm5":                    `"5mm5" has the unit "mm5", which does not exist`,
		"5 5":                     `"5 5" has the unit " 5", which does not exist`,
		"5,5":                     `"5,5" has the unit ",5", which does not exist`,
		"5deg":                    `"5deg" has the unit "deg", which does not exist`,
		"5svx":                    `"5svx" has the unit "svx", which does not exist`,
		"5mm;":                    `"5mm;" has the unit "mm;", which does not exist`,
		"(5mm)":                   `"(5mm)" is not a length`,
		"calc(1mm+2mm)":           `"calc(1mm+2mm)" cannot be worked out`, // CSS Values 4 §10.1: white space around + and -
		"calc(1mm +2mm)":          `"calc(1mm +2mm)" cannot be worked out`,
		"calc(1mm+ 2mm)":          `"calc(1mm+ 2mm)" cannot be worked out`,
		"calc(1mm + 2)":           `"calc(1mm + 2)" cannot be worked out`, // §10.9: both sides of one type
		"calc(1 - 2mm)":           `"calc(1 - 2mm)" cannot be worked out`,
		"calc(1mm * 2mm)":         `"calc(1mm * 2mm)" cannot be worked out`, // no square millimetres
		"calc(1mm / 2mm)":         `"calc(1mm / 2mm)" cannot be worked out`,
		"calc(1 / 2mm)":           `"calc(1 / 2mm)" cannot be worked out`,
		"calc(1mm / 0)":           `"calc(1mm / 0)" cannot be worked out`,
		"calc()":                  `"calc()" cannot be worked out`,
		"calc(1mm":                `"calc(1mm" cannot be worked out`,
		"calc(1mm))":              `"calc(1mm))" cannot be worked out`,
		"calc(1mm, 2mm)":          `"calc(1mm, 2mm)" cannot be worked out`,
		"calc(1mm +)":             `"calc(1mm +)" cannot be worked out`,
		"calc(1mm * )":            `"calc(1mm * )" cannot be worked out`,
		"calc(1furlong)":          `"calc(1furlong)" cannot be worked out`,
		"calc(auto)":              `"calc(auto)" cannot be worked out`,
		"calc (1mm)":              `"calc (1mm)" cannot be worked out`,
		"calc(1mm)mm":             `"calc(1mm)mm" cannot be worked out`,
		"calc(1mm) 5":             `"calc(1mm) 5" cannot be worked out`,
		"min()":                   `"min()" cannot be worked out`,
		"clamp(1mm, 2mm)":         `"clamp(1mm, 2mm)" cannot be worked out`,
		"min(1mm; 2mm)":           `"min(1mm; 2mm)" cannot be worked out`,
		"calc(min(1mm, 2mm) * 2)": `"calc(min(1mm, 2mm) * 2)" cannot be worked out`,
		"calc(2 * min(1mm, 2mm))": `"calc(2 * min(1mm, 2mm))" cannot be worked out`,
		"var(--a)":                `"var(--a)" cannot be worked out`,
		"sin(1mm)":                `"sin(1mm)" cannot be worked out`,
	} {
		t.Run(text, func(t *testing.T) {
			_, err := parseLength(text)
			require.EqualError(t, err, want)
		})
	}
	_, err := parseLength(strings.Repeat("calc(", 1000) + "1mm" + strings.Repeat(")", 1000))
	require.Error(t, err, "nested without end")
}

// CSS Values 4 §6.1.1 and §6.1.2: units that follow a font or the window.
func TestLengthWithoutValue(t *testing.T) {
	font := "ex rex ch rch cap rcap ic ric lh rlh EX Lh"
	window := "vw vh vi vb vmin vmax svw svh lvw lvh dvw dvh svi svb lvi lvb dvi dvb svmin svmax lvmin lvmax dvmin dvmax cqw cqh cqi cqb cqmin cqmax VW"
	for problem, units := range map[lengthProblem]string{fontProblem: font, windowProblem: window} {
		for _, unit := range strings.Fields(units) {
			for _, form := range []string{"5%s", "0%s", "calc(1px + 2%s)", "min(1px, 2%s)", "calc(2 * 2%s)"} {
				text := fmt.Sprintf(form, unit)
				l, err := parseLength(text)
				require.NoError(t, err, text)
				_, got := l.resolve(lengthContext{percent: 1, fontSize: 1, rootFont: 1})
				require.Equal(t, problem, got, text)
				require.False(t, l.relative())
			}
		}
	}
}

// A calculation is worked out as the same sum of its own numbers.
func TestCalculations(t *testing.T) {
	ctx := lengthContext{percent: 400, fontSize: 10, rootFont: 20}
	units := map[string]float64{"px": 1, "mm": 96 / 25.4, "in": 96, "%": 4, "em": 10, "rem": 20}
	type value struct {
		text  string
		value float64
	}
	var draw func(t *rapid.T, depth int) value
	draw = func(t *rapid.T, depth int) value {
		form := rapid.IntRange(0, 4).Draw(t, "form")
		if depth == 0 {
			form = 0
		}
		number := float64(rapid.IntRange(-999, 999).Draw(t, "number")) / 100
		switch form {
		case 1, 2:
			a, b := draw(t, depth-1), draw(t, depth-1)
			if form == 1 {
				return value{"(" + a.text + " + " + b.text + ")", a.value + b.value}
			}
			return value{"calc(" + a.text + " - " + b.text + ")", a.value - b.value}
		case 3:
			a := draw(t, depth-1)
			if rapid.Bool().Draw(t, "in front") {
				return value{full(number) + "*" + a.text, a.value * number}
			}
			return value{a.text + " * " + full(number), a.value * number}
		case 4:
			a := draw(t, depth-1)
			if number == 0 {
				number = 1
			}
			return value{a.text + "/" + full(number), a.value / number}
		}
		unit := rapid.SampledFrom([]string{"px", "mm", "in", "%", "em", "rem"}).Draw(t, "unit")
		return value{full(number) + unit, number * units[unit]}
	}
	rapid.Check(t, func(t *rapid.T) {
		v := draw(t, 4)
		l, err := parseLength("calc(" + v.text + ")")
		require.NoError(t, err)
		got, problem := l.resolve(ctx)
		require.Empty(t, problem)
		require.InDelta(t, v.value, got, 1e-9*(1e6+math.Abs(v.value)), v.text)
	})
}

// SVG 2 §8.9: sqrt((w^2 + h^2)/2), which is 1 % of 200 x 100 at 1.58114.
func TestDiagonal(t *testing.T) {
	require.InDelta(t, 158.113883, diagonal(200, 100), 1e-6)
	require.Equal(t, 7.0, diagonal(7, 7))
}

func TestTextsForFindings(t *testing.T) {
	require.Equal(t, "1 number", counted(1, "number"))
	require.Equal(t, "0 numbers", counted(0, "number"))
	require.Equal(t, `"a\"b"`, quoted(`a"b`))
	require.Equal(t, `"123456789012345678901234567890..."`, quoted("1234567890123456789012345678901"))
	for f, want := range map[float64]string{1: "1", 0.12345: "0.123", -0.0001: "0", 10: "10", 100.5: "100.5", 0: "0"} {
		require.Equal(t, want, number(f))
	}
}
