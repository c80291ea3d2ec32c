package reader

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func requireMatrix(t require.TestingT, want, got matrix, text ...any) {
	require.InDeltaSlice(t, []float64{want.a, want.b, want.c, want.d, want.e, want.f}, []float64{got.a, got.b, got.c, got.d, got.e, got.f}, 1e-12, text...)
}

// The matrices are those of SVG 1.1 §7.6 and css-transforms-1 §12.
func TestTransform(t *testing.T) {
	r, half := math.Sqrt(0.5), math.Sqrt(3)/2
	tests := map[string]struct {
		text string
		want matrix
	}{
		"empty":           {"", identity},
		"white space":     {" \n", identity},
		"none":            {" none ", identity},
		"matrix":          {"matrix(1 2 3 4 5 6)", matrix{1, 2, 3, 4, 5, 6}},
		"commas":          {"matrix( 1,2 , 3\t4\n5 6 )", matrix{1, 2, 3, 4, 5, 6}},
		"packed":          {"matrix(1-2 .5.5-4+5e1)", matrix{1, -2, 0.5, 0.5, -4, 50}},
		"translate":       {"translate(10 20)", matrix{1, 0, 0, 1, 10, 20}},
		"translate one":   {"translate(10)", matrix{1, 0, 0, 1, 10, 0}},
		"scale":           {"scale(2 3)", matrix{2, 0, 0, 3, 0, 0}},
		"scale one":       {"scale(-2)", matrix{-2, 0, 0, -2, 0, 0}},
		"rotate":          {"rotate(30)", matrix{half, 0.5, -0.5, half, 0, 0}},
		"rotate back":     {"rotate(-45)", matrix{r, -r, r, r, 0, 0}},
		"rotate about":    {"rotate(90 25 40)", matrix{0, 1, -1, 0, 65, 15}},
		"rotate often":    {"rotate(-630)", matrix{0, 1, -1, 0, 0, 0}},
		"skewX":           {"skewX(45)", matrix{1, 0, 1, 1, 0, 0}},
		"skewY":           {"skewY(-45)", matrix{1, -1, 0, 1, 0, 0}},
		"list":            {"translate(10 20) scale(2)", matrix{2, 0, 0, 2, 10, 20}},
		"other way round": {"scale(2) translate(10 20)", matrix{2, 0, 0, 2, 20, 40}},
		"comma between":   {"translate(10 20) , scale(2)", matrix{2, 0, 0, 2, 10, 20}},
		"nothing between": {"translate(10 20)scale(2)", matrix{2, 0, 0, 2, 10, 20}},
		"nothing left":    {"scale(0)", matrix{}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			got, note, err := parseTransform(test.text)
			require.Nil(t, err)
			require.Equal(t, plainTransform, note)
			requireMatrix(t, test.want, got)
		})
	}
	_, note, err := parseTransform("translate (1)")
	require.Nil(t, err)
	require.Equal(t, spaceBeforeBracket, note)
}

// One mistake voids the whole list: css-transforms-1 §6, "the presentation
// attribute" is parsed as a whole.
func TestTransformErrors(t *testing.T) {
	tests := map[string]struct {
		text string
		at   int
		want string
	}{
		"wrong case":            {"rotateX(5)", 0, `there is no transform "rotateX"`},
		"case":                  {"scale(2) Rotate(5)", 9, `transform Rotate must be written rotate`},
		"case of skewX":         {"skewx(5)", 0, `transform skewx must be written skewX`},
		"unknown":               {"shift(5)", 0, `there is no transform "shift"`},
		"two to rotate":         {"rotate(5 6)", 0, `rotate takes 1 number or 3 numbers, and here is 2 numbers`},
		"three to scale":        {"scale(1 2 3)", 0, `scale takes 1 number or 2 numbers, and here is 3 numbers`},
		"five to matrix":        {"matrix(1 2 3 4 5)", 0, `matrix takes 6 numbers, and here is 5 numbers`},
		"seven":                 {"matrix(1 2 3 4 5 6 7)", 19, `matrix has too many numbers`},
		"none to scale":         {"scale()", 6, `found ')' where a number should stand`},
		"a unit":                {"translate(10px 5px)", 12, `found 'p' where a number should stand`},
		"degrees":               {"rotate(45deg)", 9, `found 'd' where a number should stand`},
		"percent":               {"translate(10%)", 12, `found '%' where a number should stand`},
		"not closed":            {"scale(2", 7, `found the end where a number should stand`},
		"not opened":            {"scale 2)", 6, `found '2' where the ( of a transform should stand`},
		"name alone":            {"scale", 5, `found the end where the ( of a transform should stand`},
		"semicolon":             {"scale(2);", 8, `found ';' where the ( of a transform should stand`},
		"a comma too many":      {"scale(2),", 9, `found the end behind a comma; another transform must follow`},
		"two commas":            {"scale(2),,scale(2)", 9, `found ',' where the ( of a transform should stand`},
		"comma first":           {",scale(2)", 0, `found ',' where the ( of a transform should stand`},
		"comma in the brackets": {"scale(2,)", 8, `found ')' where a number should stand`},
		"none and more":         {"none scale(2)", 5, `found 's' where the ( of a transform should stand`},
		"no name":               {"(2)", 0, `there is no transform ""`},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			got, _, err := parseTransform(test.text)
			require.NotNil(t, err)
			require.Equal(t, identity, got)
			require.Equal(t, test.want, err.Error())
			require.Equal(t, test.at, err.at)
		})
	}
}

// css-transforms-1 §10 and §11, CSS Values 4 §7.1 for angles.
func TestCSSTransform(t *testing.T) {
	box := BoxOf([]Point{{10, 20}, {210, 120}}) // 200 x 100
	ctx := lengthContext{fontSize: 10, rootFont: 20}
	tan := math.Tan(math.Pi / 6)
	tests := map[string]struct {
		text string
		want matrix
	}{
		"none":               {"none", identity},
		"translate":          {"translate(10px, 1in)", translation(10, 96)},
		"translate one":      {"translate(2.54cm)", translation(96, 0)},
		"percent":            {"translate(50%, 50%)", translation(100, 50)},
		"em and rem":         {"translate(2em, 2rem)", translation(20, 40)},
		"a zero":             {"translate(0, 0)", identity},
		"calc":               {"translate(calc(10px + 25%), min(3px, 4px))", translation(60, 3)},
		"translateX":         {"translateX(5px)", translation(5, 0)},
		"translateY percent": {"translatey(10%)", translation(0, 10)},
		"scale":              {"scale(2, 50%)", scaling(2, 0.5)},
		"scale one":          {"SCALE(2)", scaling(2, 2)},
		"scaleX":             {"scaleX(3)", scaling(3, 1)},
		"scaleY":             {"scaleY(3)", scaling(1, 3)},
		"deg":                {"rotate(30deg)", matrix{math.Sqrt(3) / 2, 0.5, -0.5, math.Sqrt(3) / 2, 0, 0}},
		"grad":               {"rotate(100grad)", matrix{0, 1, -1, 0, 0, 0}},
		"rad":                {"rotate(3.141592653589793rad)", matrix{-1, 0, 0, -1, 0, 0}},
		"turn":               {"rotate(-.25turn)", matrix{0, -1, 1, 0, 0, 0}},
		"angle zero":         {"rotate(0)", identity},
		"skew":               {"skew(30deg, 45deg)", matrix{1, 1, tan, 1, 0, 0}},
		"skew one":           {"skew(30deg)", matrix{1, 0, tan, 1, 0, 0}},
		"skewX":              {"skewX(30deg)", matrix{1, 0, tan, 1, 0, 0}},
		"skewY":              {"skewY(30deg)", matrix{1, tan, 0, 1, 0, 0}},
		"matrix":             {"matrix(1, 2, 3, 4, 5, 6)", matrix{1, 2, 3, 4, 5, 6}},
		// css-transforms-2 §12: without perspective, depth is not seen.
		"translate3d":     {"translate3d(10px, 10%, 3px)", translation(10, 10)},
		"scale3d":         {"scale3d(2, 3, 4)", scaling(2, 3)},
		"rotateZ":         {"rotateZ(90deg)", matrix{0, 1, -1, 0, 0, 0}},
		"translateZ":      {"translateZ(5px)", identity},
		"scaleZ":          {"scaleZ(5)", identity},
		"list":            {"translate(10px, 20px)  scale(2)", matrix{2, 0, 0, 2, 10, 20}},
		"nothing between": {"scale(2)translate(10px, 20px)", matrix{2, 0, 0, 2, 20, 40}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			got, ok := parseCSSTransform(test.text, ctx, box)
			require.True(t, ok)
			requireMatrix(t, test.want, got)
		})
	}
	for name, text := range map[string]string{
		"no unit": "translate(10)", "no comma": "translate(10px 5px)", "no degrees": "rotate(45)", "a comma between": "scale(2), scale(3)",
		"unknown": "shift(1px)", "not closed": "scale(2", "nothing inside": "scale()", "three": "translate(1px, 2px, 3px)", "two to rotate": "rotate(1deg, 2deg)",
		"five to matrix": "matrix(1,2,3,4,5)", "a length as a factor": "scale(2px)", "solid": "rotate3d(1, 0, 0, 30deg)", "two to translate3d": "translate3d(1px, 2px)", "two to scale3d": "scale3d(1, 2)", "no unit deep": "translateZ(5)", "font": "translate(1ex)", "window": "translate(1vw)",
		"two to skewX": "skewX(1deg, 2deg)", "word": "rotate", "a space": "scale (2)", "two to scaleX": "scaleX(1, 2)", "two to scaleY": "scaleY(1, 2)",
		"two to translateX": "translateX(1px, 2px)", "two to translateY": "translateY(1px, 2px)", "two to skewY": "skewY(1deg, 2deg)", "three to skew": "skew(0, 0, 0)", "three to scale": "scale(1, 1, 1)",
	} {
		t.Run("refused: "+name, func(t *testing.T) {
			_, ok := parseCSSTransform(text, ctx, box)
			require.False(t, ok)
		})
	}
}

// css-transforms-1 §8: the origin within the reference box.
func TestTransformOrigin(t *testing.T) {
	box := BoxOf([]Point{{10, 20}, {210, 120}}) // 200 x 100
	ctx := lengthContext{fontSize: 10, rootFont: 20}
	for text, want := range map[string]Point{
		"left top": {10, 20}, "top left": {10, 20}, "center": {110, 70}, "right": {210, 70}, "bottom": {110, 120}, "top": {110, 20}, "bottom right": {210, 120},
		"center left": {10, 70}, "top center": {110, 20}, "center top": {110, 20}, "50% 25%": {110, 45}, "5px 2em": {15, 40}, "5px": {15, 70}, "0 0": {10, 20}, "RIGHT 1px": {210, 21},
		"left 10px 5px": {10, 30}, "-5 -5": {5, 15},
	} {
		got, ok := parseOrigin(text, ctx, box)
		require.True(t, ok, text)
		requireNear(t, want, got, 1e-12, text)
	}
	for _, text := range []string{"", "a b", "1px 2px 3px 4px", "1ex", "1px 1vw"} {
		_, ok := parseOrigin(text, ctx, box)
		require.False(t, ok, text)
	}
}

// A list is the product of its members, the first outermost; and an inverse
// behind a transform undoes it.
func TestTransformProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, n, p := drawMatrix(t), drawMatrix(t), drawPoint(t, "p")
		requireNear(t, m.point(n.point(p)), m.then(n).point(p), 1e-9)
		requireNear(t, m.point(p).sub(m.point(Point{})), m.vector(p), 1e-9)

		write := func(m matrix) string {
			return "matrix(" + full(m.a) + " " + full(m.b) + "," + full(m.c) + " " + full(m.d) + " " + full(m.e) + " " + full(m.f) + ")"
		}
		got, _, err := parseTransform(write(m) + write(n))
		require.Nil(t, err)
		require.Equal(t, m.then(n), got)

		angle, about := drawNumber(t, "angle", -1000, 1000), drawPoint(t, "about")
		turned := rotation(angle).about(about.X, about.Y)
		requireNear(t, about, turned.point(about), 1e-9)
		require.InDelta(t, p.sub(about).length(), turned.point(p).sub(about).length(), 1e-9)
		requireNear(t, p, rotation(-angle).about(about.X, about.Y).point(turned.point(p)), 1e-9)
		require.False(t, turned.singular())
		require.True(t, turned.finite())
	})
	require.True(t, matrix{2, 4, 1, 2, 5, 5}.singular())
	require.False(t, matrix{a: math.Inf(1)}.finite())
	require.False(t, matrix{f: math.NaN()}.finite())
}

// Quarter turns leave no rounding behind.
func TestQuarterTurns(t *testing.T) {
	for degrees, want := range map[float64]matrix{
		0: {1, 0, 0, 1, 0, 0}, 90: {0, 1, -1, 0, 0, 0}, 180: {-1, 0, 0, -1, 0, 0}, 270: {0, -1, 1, 0, 0, 0}, -90: {0, -1, 1, 0, 0, 0}, 450: {0, 1, -1, 0, 0, 0}, 36000180: {-1, 0, 0, -1, 0, 0},
	} {
		got := rotation(degrees)
		require.True(t, want == got, "%v: %v", degrees, got)
	}
}
