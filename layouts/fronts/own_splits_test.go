package fronts_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

func init() {
	variants["own splits"] = []options{
		{"splits": []any{"all from top left to bottom right", "all from top right to bottom left"}},
		{"splits": []any{"all level at 30 %", "all upright at half", "ba, bb from left 1/4 to right 3/4"}},
	}
}

// By hand, on a frame of 100 x 60 mm with a gap of 4: a third of what is left
// across is (100-4)/3 = 32; a half of 60-4 down is 28.
func TestOwnSplits(t *testing.T) {
	f := divide(t, layout(t, "own splits"), frameOf(100*mm, 60*mm), 4*mm, options{
		"splits": []any{"all upright at 1/3", "a level at half", "b level at 10 mm"}})
	require.Equal(t, []string{"ba", "aa", "bb", "ab"}, panelNames(f), "in reading order")
	sizes := map[string]geometry.Size{}
	for _, p := range f.Panels {
		sizes[p.Name] = p.Outline.Bounds().Size()
	}
	require.Equal(t, map[string]geometry.Size{
		"aa": {W: 32 * mm, H: 28 * mm}, "ab": {W: 32 * mm, H: 28 * mm},
		"ba": {W: 64 * mm, H: 10 * mm}, "bb": {W: 64 * mm, H: 46 * mm},
	}, sizes)
}

func TestOwnSplitsRefused(t *testing.T) {
	for _, c := range []struct {
		name string
		list []any
		want string
	}{
		{"not a split", []any{"in two"}, `splits: item 1, "in two": write it like "all upright at half", "a level at 1/3" or "b from top left to bottom right"`},
		{"no such part", []any{"all level at half", "c level at half"}, `splits: item 2, "c level at half": there is no part c; there are a, b`},
		{"before the first", []any{"a level at half"}, `splits: item 1, "a level at half": there is no part a; there are no parts yet, so write all`},
		{"a part that was split", []any{"all level at half", "a upright at half", "a upright at half"}, `splits: item 3, "a upright at half": there is no part a; there are aa, ab, b`},
		{"too far", []any{"all upright at 200 mm"}, `splits: item 1, "all upright at 200 mm": leaves nothing on one side`},
		{"no unit", []any{"all upright at 20"}, `splits: item 1, "all upright at 20": 20 is no place; write a share like "half" or "1/3", or a length with its unit`},
		{"no place", []any{"all from here to bottom"}, `splits: item 1, "all from here to bottom": here is no place; write "top left", "right" or "left 1/4"`},
		{"along a side", []any{"all from top left to top right"}, `splits: item 1, "all from top left to top right": this line meets no part`},
		{"one place", []any{"all from top to top"}, `splits: item 1, "all from top to top": both places are the same`},
		{"none", []any{}, `splits: write from 1 to 200 splits`},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.EqualError(t, refused(t, layout(t, "own splits"), frameOf(100*mm, 60*mm), 4*mm, options{"splits": c.list}), c.want)
		})
	}
}
