package fronts_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

// widthsOf returns the strips' lengths across them, in mm.
func widthsOf(f fronts.Front, upright bool) []string {
	var out []string
	for _, p := range f.Panels {
		size := p.Outline.Bounds().Size()
		if !upright {
			size = size.Turned()
		}
		out = append(out, size.W.MM())
	}
	return out
}

// On a frame of 100 x 60 mm with gaps of 3; the sums stand with the cases.
var stripCases = []struct {
	name    string
	options options
	upright bool
	want    []string
}{
	// (100 + 3)/5 - 3
	{"five equal ones, when nothing is said", nil, true, []string{"17.6", "17.6", "17.6", "17.6", "17.6"}},
	// (60 + 3)/5 - 3
	{"level", options{"run": "level"}, false, []string{"9.6", "9.6", "9.6", "9.6", "9.6"}},
	{"two", options{"count": int64(2)}, true, []string{"48.5", "48.5"}},
	{"one", options{"count": int64(1)}, true, []string{"100"}},
	// 100 - 2 x 3 - 20 - 30
	{"given widths and the rest", options{"widths": []any{"20", "rest", "30 mm"}}, true, []string{"20", "44", "30"}},
	{"the rest first", options{"widths": []any{"rest", int64(20)}}, true, []string{"77", "20"}},
	{"the rest last, level", options{"run": "level", "widths": []any{12.5, "rest"}}, false, []string{"12.5", "44.5"}},
	{"only the rest", options{"widths": []any{"rest"}}, true, []string{"100"}},
	{"widths that just add up", options{"widths": []any{"20", "44", "30"}}, true, []string{"20", "44", "30"}},
	{"in inches", options{"widths": []any{"1 in", "rest"}}, true, []string{"25.4", "71.6"}},
	{"count and widths agree", options{"count": int64(2), "widths": []any{"20", "rest"}}, true, []string{"20", "77"}},
	{"no widths given", options{"widths": []any{}, "count": int64(2)}, true, []string{"48.5", "48.5"}},
}

func TestStrips(t *testing.T) {
	for _, c := range stripCases {
		t.Run(c.name, func(t *testing.T) {
			f := divide(t, layout(t, "strips"), frameOf(100*mm, 60*mm), 3*mm, c.options)
			require.Equal(t, c.want, widthsOf(f, c.upright))
			across, down := f.Across, f.Down
			if !c.upright {
				across, down = down, across
			}
			require.Len(t, across, 2*len(c.want)-1)
			require.Len(t, down, 1, "the other way the frame is one term")
		})
	}
}

func TestStripsAreCountedFromTheLeftAndFromTheTop(t *testing.T) {
	for _, run := range []string{"upright", "level"} {
		t.Run(run, func(t *testing.T) {
			f := divide(t, layout(t, "strips"), frameOf(100*mm, 60*mm), 3*mm, options{"run": run, "count": int64(12)})
			require.Equal(t, []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"}, panelNames(f))
			for i, p := range f.Panels[1:] {
				a, b := f.Panels[i].Outline.Bounds().Max, p.Outline.Bounds().Min
				require.True(t, a.X+3*mm == b.X || a.Y+3*mm == b.Y, p.Name)
				require.Equal(t, i+1, p.Role)
			}
		})
	}
}

// Sentences on the same frame; 100 - 3 = 97 for two strips.
func TestStripsRefused(t *testing.T) {
	for _, c := range []struct {
		name    string
		options options
		want    string
	}{
		{"short", options{"widths": []any{"20", "30"}}, `widths: with their gaps they are 47 mm short of the frame's 100 mm; make one of them "rest"`},
		{"over", options{"widths": []any{"20", "80"}}, `widths: with their gaps they are 3 mm more than the frame's 100 mm; make one of them "rest"`},
		{"level, over", options{"run": "level", "widths": []any{"20", "80"}}, `widths: with their gaps they are 43 mm more than the frame's 60 mm; make one of them "rest"`},
		{"two rests", options{"widths": []any{"rest", "20", "rest"}}, `widths: "rest" stands at 1 and at 3; one is enough`},
		{"another count", options{"count": int64(3), "widths": []any{"20", "rest"}}, `widths: 2 widths given, and count is 3`},
		{"one width, another count", options{"count": int64(3), "widths": []any{"rest"}}, `widths: 1 width given, and count is 3`},
		// 100 - 3 - 98 = -1
		{"nothing for the rest", options{"widths": []any{"98", "rest"}}, `panel 2: nothing is left of it (it is 2 mm short); use a smaller gap or margin, or fewer or narrower strips`},
		{"a sliver for the rest", options{"widths": []any{"96.5", "rest"}}, `panel 2: only 0.5 x 60 mm, and a panel needs 1 mm each way; use a smaller gap or margin, or fewer or narrower strips`},
		{"a sliver beside the rest", options{"widths": []any{"0.5", "rest"}}, `panel 1: only 0.5 x 60 mm, and a panel needs 1 mm each way; use a smaller gap or margin, or fewer or narrower strips`},
		{"a sliver among widths", options{"widths": []any{"96.5", "0.5"}}, `panel 2: only 0.5 x 60 mm, and a panel needs 1 mm each way; use a smaller gap or margin, or fewer or narrower strips`},
		{"a level sliver", options{"run": "level", "widths": []any{"0.5", "rest"}}, `panel 1: only 100 x 0.5 mm, and a panel needs 1 mm each way; use a smaller gap or margin, or fewer or narrower strips`},
		// (100 + 3)/30 - 3 = 0.433333
		{"too many", options{"count": int64(30)}, `panel 1: only 0.433 x 60 mm, and a panel needs 1 mm each way; use a smaller gap or margin, or fewer or narrower strips`},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.EqualError(t, refused(t, layout(t, "strips"), frameOf(100*mm, 60*mm), 3*mm, c.options), c.want)
		})
	}
}

func TestStripsAtMost(t *testing.T) {
	widths := []any{"rest"}
	for range fronts.MostCount {
		widths = append(widths, "2")
	}
	err := refused(t, layout(t, "strips"), frameOf(600*mm, 60*mm), 0, options{"widths": widths})
	require.EqualError(t, err, "widths: 61 strips are too many; at most 60")
	f := divide(t, layout(t, "strips"), frameOf(600*mm, 60*mm), 0, options{"widths": widths[:60]})
	require.Equal(t, 600*mm-59*2*mm, f.Panels[0].Outline.Bounds().W())
}

// Strips of a frame that is too narrow the other way name its size.
func TestStripsOfANarrowFrame(t *testing.T) {
	frame := geometry.RectFromSize(geometry.Point{}, geometry.Size{W: 100 * mm, H: mm / 2})
	require.EqualError(t, refused(t, layout(t, "strips"), frame, 0, nil),
		"panel 1: only 20 x 0.5 mm, and a panel needs 1 mm each way; use a smaller gap or margin, or fewer or narrower strips")
}
