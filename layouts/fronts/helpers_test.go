package fronts_test

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

const (
	mm   = geometry.Millimetre
	inch = geometry.Inch
)

func layout(t testing.TB, name string) fronts.Layout {
	t.Helper()
	l, ok := fronts.Find(name)
	require.True(t, ok, name)
	return l
}

// options are what a design says of a layout, as TOML gives it.
type options map[string]any

// needsAFile names the layouts that are nothing without a file.
const needsAFile = "own shapes"

// selfSufficient returns the layouts that can be made from options alone.
func selfSufficient() []fronts.Layout {
	return slices.DeleteFunc(fronts.All(), func(l fronts.Layout) bool { return l.Name == needsAFile })
}

// brief reads options, as the design's reader does, and fills in the defaults.
func brief(t testing.TB, l fronts.Layout, frame geometry.Rect, gap geometry.Length, given options) fronts.Brief {
	t.Helper()
	b := fronts.Brief{Frame: frame, Gap: gap, Options: l.Defaults(), Unit: geometry.Millimetres}
	read := fronts.Options{}
	for name, value := range given {
		v, err := l.ReadOption(name, value, geometry.Millimetres)
		require.NoError(t, err, name)
		read[name] = v
	}
	maps.Copy(b.Options, read)
	return b
}

// divide makes a front that can be made.
func divide(t testing.TB, l fronts.Layout, frame geometry.Rect, gap geometry.Length, given options) fronts.Front {
	t.Helper()
	front, err := l.Divide(brief(t, l, frame, gap, given))
	require.NoError(t, err)
	return front
}

// refused returns why a front cannot be made.
func refused(t testing.TB, l fronts.Layout, frame geometry.Rect, gap geometry.Length, given options) error {
	t.Helper()
	front, err := l.Divide(brief(t, l, frame, gap, given))
	require.Error(t, err)
	require.Empty(t, front)
	return err
}

func frameOf(w, h geometry.Length) geometry.Rect {
	return geometry.RectFromSize(geometry.Point{X: 2 * mm, Y: 3 * mm}, geometry.Size{W: w, H: h})
}

// frames are what the properties are tried on: common fronts (common
// practice, no source; ISO A6 from ISO 216), the smallest and the largest
// that are sensible, and sizes that nothing divides.
var frames = []struct {
	name  string
	frame geometry.Rect
}{
	{"4 1/4 x 5 1/2 in", frameOf(17*inch/4, 11*inch/2)},
	{"4 1/8 x 5 3/8 in", frameOf(33*inch/8, 43*inch/8)},
	{"5 in square", frameOf(5*inch, 5*inch)},
	{"slimline 3 1/2 x 8 1/2 in", frameOf(7*inch/2, 17*inch/2)},
	{"slimline lying", frameOf(17*inch/2, 7*inch/2)},
	{"ISO A6", frameOf(105*mm, 148*mm)},
	{"40 mm square", frameOf(40*mm, 40*mm)},
	{"600 mm square", frameOf(600*mm, 600*mm)},
	{"odd nanometres", geometry.RectFromSize(geometry.Point{X: 1_000_003, Y: 7}, geometry.Size{W: 101_234_567, H: 77_777_777})},
	{"odd and oblong", geometry.RectFromSize(geometry.Point{X: 3_333_333, Y: 1}, geometry.Size{W: 41_000_001, H: 199_999_997})},
}

// gaps are common practice (trade facts, section 5: 1/16 to 1/8 in or 1.5 to
// 3 mm), none at all, a nanometre, odd ones and a large one.
var gaps = []geometry.Length{0, 1, inch / 32, inch / 16, inch / 8, 3 * mm, 1_234_567, 2_999_998, 10 * mm}

// usualGap is the widest gap that every layout must take on every frame.
const usualGap = inch / 8

// everyFront runs f on each layout, by itself and with some of its options,
// with each frame and gap, where a front can be made.
func everyFront(t *testing.T, f func(*testing.T, fronts.Brief, fronts.Front)) {
	t.Helper()
	for _, l := range selfSufficient() {
		for i, given := range append([]options{nil}, variants[l.Name]...) {
			for _, fr := range frames {
				t.Run(fmt.Sprintf("%s %d/%s", l.Name, i, fr.name), func(t *testing.T) {
					for _, gap := range gaps {
						b := brief(t, l, fr.frame, gap, given)
						if front, err := l.Divide(b); err == nil {
							f(t, b, front)
						}
					}
				})
			}
		}
	}
}

// variants are options besides the defaults that the properties are tried
// with. A layout that is not listed is tried with its defaults. Layouts in
// files of their own add theirs in init.
var variants = map[string][]options{
	"grid": {
		{"columns": int64(1), "rows": int64(1)},
		{"columns": int64(3), "rows": int64(2)},
		{"columns": int64(7), "rows": int64(5)},
	},
	"strips": {
		{"run": "level"},
		{"count": int64(1)},
		{"run": "level", "count": int64(7)},
		{"widths": []any{"10", "rest", 7.25}},
	},
	"diagonal halves": {
		{"columns": int64(1), "rows": int64(1)},
		{"columns": int64(3), "rows": int64(3)},
		{"columns": int64(2), "rows": int64(2), "slant": []any{"//", "//"}},
		{"columns": int64(3), "rows": int64(2), "slant": []any{`\/\`, `//\`}},
	},
}

// panelNamed finds a panel.
func panelNamed(t testing.TB, f fronts.Front, name string) fronts.Panel {
	t.Helper()
	for _, p := range f.Panels {
		if p.Name == name {
			return p
		}
	}
	require.Fail(t, "no panel "+name)
	return fronts.Panel{}
}

func panelNames(f fronts.Front) []string {
	var names []string
	for _, p := range f.Panels {
		names = append(names, p.Name)
	}
	return names
}

func total(terms []fronts.Term) geometry.Length {
	var sum geometry.Length
	for _, term := range terms {
		sum += term.Length
	}
	return sum
}
