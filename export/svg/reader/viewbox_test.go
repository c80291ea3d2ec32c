package reader

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// SVG 2 §8.6: four numbers, separated by white space, a comma or both.
func TestViewBox(t *testing.T) {
	for text, want := range map[string][4]float64{
		"0 0 200 100": {0, 0, 200, 100}, "0,0,200,100": {0, 0, 200, 100}, "0, 0 ,200 , 100": {0, 0, 200, 100}, "\t0\n0\r200\f100 ": {0, 0, 200, 100},
		"0 0 2e2 1.0E2": {0, 0, 200, 100}, "+0 -0 +200 +100": {0, 0, 200, 100}, "0-0+200+100": {0, 0, 200, 100}, ".5-.5.25 1": {0.5, -0.5, 0.25, 1}, "-100 -50 200 100": {-100, -50, 200, 100},
		"0 0 0 0": {}, "0 0 1e-3 1": {0, 0, 0.001, 1},
	} {
		got, err := parseViewBox(text)
		require.Nil(t, err, text)
		require.True(t, want == got, "%q: %v", text, got)
	}
	tests := map[string]struct {
		at   int
		want string
	}{
		"":                {0, "found the end where a number should stand"},
		"none":            {0, "found 'n' where a number should stand"},
		"0 0 200":         {7, "found the end where a number should stand"},
		"0 0 200 100 5":   {12, "found '5' behind the fourth number"},
		"0 0 200 100,":    {11, "found ',' behind the fourth number"},
		",0 0 200 100":    {0, "found ',' where a number should stand"},
		"0,,0 200 100":    {2, "found ',' where a number should stand"},
		"0 0 200mm 100mm": {7, "found 'm' where a number should stand"},
		"0 0 100% 100%":   {7, "found '%' where a number should stand"},
		"0;0;200;100":     {1, "found ';' where a number should stand"},
		"(0 0 200 100)":   {0, "found '(' where a number should stand"},
		"0 0 NaN 100":     {4, "found 'N' where a number should stand"},
		"0 0 -200 100":    {0, "the width or the height is negative"},
		"0 0 200 -1e-9":   {0, "the width or the height is negative"},
		"0 0 1e39 100":    {4, "number 1e39 is too large for any reader"},
		"0 0 5. 100":      {4, `number "5." has no digit behind its point: SVG 1.1 allows that, SVG 2 does not`},
	}
	for text, test := range tests {
		t.Run(text, func(t *testing.T) {
			_, err := parseViewBox(text)
			require.NotNil(t, err)
			require.Equal(t, test.want, err.Error())
			require.Equal(t, test.at, err.at)
		})
	}
}

// SVG 2 §8.7: the words, which are case-sensitive; what is wrong is as if
// not given.
func TestFit(t *testing.T) {
	for text, want := range map[string]fit{
		"xMinYMin": {x: 0, y: 0}, "xMidYMax meet": {x: 0.5, y: 1}, "xMaxYMid slice": {x: 1, y: 0.5, slice: true},
		" \txMaxYMax\n slice\r": {x: 1, y: 1, slice: true}, "none": {none: true}, "none slice": {none: true, slice: true}, "none meet": {none: true},
	} {
		got, ok := parseFit(text)
		require.True(t, ok, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{
		"", " ", "meet", "slice", "xmidymid", "XMidYMid", "xMidyMid", "xMidYMid Meet", "xMidYMid meet slice", "defer xMidYMid", "xMid YMid", "xMidYMid,meet", "xMidYMi", "yMidXMid", "xLowYMid", "xMidYLow", "None", "none;",
		"xMidYMid\u00a0meet",
	} {
		got, ok := parseFit(text)
		require.False(t, ok, text)
		require.Equal(t, usualFit, got, text)
	}
}

// SVG 2 §8.2, the equivalent transform, on a sheet of 120 x 80: the box of
// the whole viewBox. By hand from the formula; a web browser measured the
// same (testdata/cases, par-*.svg).
func TestFitOnto(t *testing.T) {
	wide, tall := [4]float64{5, -3, 40, 10}, [4]float64{-7, 2, 10, 40}
	tests := map[string]struct {
		box  [4]float64
		fit  string
		want string
	}{
		"wide, least":         {wide, "xMinYMin meet", "0 0 120 30"},
		"wide, middle":        {wide, "xMidYMid", "0 25 120 30"},
		"wide, most":          {wide, "xMaxYMax meet", "0 50 120 30"},
		"wide, slice, least":  {wide, "xMinYMin slice", "0 0 320 80"},
		"wide, slice, middle": {wide, "xMidYMid slice", "-100 0 320 80"},
		"wide, slice, most":   {wide, "xMaxYMax slice", "-200 0 320 80"},
		"wide, none":          {wide, "none", "0 0 120 80"},
		"wide, none slice":    {wide, "none slice", "0 0 120 80"},
		"tall, middle":        {tall, "xMidYMid meet", "50 0 20 80"},
		"tall, most":          {tall, "xMaxYMin meet", "100 0 20 80"},
		"tall, slice, most":   {tall, "xMidYMax slice", "0 -400 120 480"},
		"tall, slice, middle": {tall, "xMinYMid slice", "0 -200 120 480"},
		"same proportions":    {[4]float64{1, 2, 12, 8}, "xMaxYMin slice", "0 0 120 80"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			f, ok := parseFit(test.fit)
			require.True(t, ok)
			m := f.onto(test.box, 0, 0, 120, 80)
			b := test.box
			require.Equal(t, test.want, boxText(BoxOf([]Point{m.point(Point{b[0], b[1]}), m.point(Point{b[0] + b[2], b[1] + b[3]})})))
		})
	}
}

// Whatever the fit: meet lies within the viewport and touches two of its
// sides, slice covers it, none fills it; and moving the viewport moves all.
func TestFitProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(label string) float64 { return drawNumber(t, label, 0.1, 1000) }
		box := [4]float64{drawNumber(t, "x", -100, 100), drawNumber(t, "y", -100, 100), side("width"), side("height")}
		w, h := side("viewport width"), side("viewport height")
		f := fit{
			none: rapid.Bool().Draw(t, "none"), slice: rapid.Bool().Draw(t, "slice"),
			x: rapid.SampledFrom([]float64{0, 0.5, 1}).Draw(t, "across"), y: rapid.SampledFrom([]float64{0, 0.5, 1}).Draw(t, "down"),
		}
		m := f.onto(box, 0, 0, w, h)
		b := BoxOf([]Point{m.point(Point{box[0], box[1]}), m.point(Point{box[0] + box[2], box[1] + box[3]})})
		slack := 1e-9 * (1 + b.W() + b.H() + w + h + 100*(m.a+m.d))
		switch {
		case f.none:
			requireNear(t, Point{}, b.Min, slack)
			requireNear(t, Point{w, h}, b.Max, slack)
		case f.slice:
			require.InDelta(t, m.a, m.d, 0)
			require.True(t, b.Min.X <= slack && b.Min.Y <= slack && b.Max.X >= w-slack && b.Max.Y >= h-slack, "%v", b)
			require.InDelta(t, 0, min(b.W()-w, b.H()-h), slack)
		default:
			require.InDelta(t, m.a, m.d, 0)
			require.True(t, b.Min.X >= -slack && b.Min.Y >= -slack && b.Max.X <= w+slack && b.Max.Y <= h+slack, "%v", b)
			require.InDelta(t, 0, min(w-b.W(), h-b.H()), slack)
		}
		if !f.none {
			require.InDelta(t, f.x*(w-b.W()), b.Min.X, slack)
			require.InDelta(t, f.y*(h-b.H()), b.Min.Y, slack)
		}
		requireMatrix(t, translation(5, -6).then(m), f.onto(box, 5, -6, w, h))
	})
}
