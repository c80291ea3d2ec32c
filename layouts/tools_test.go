package layouts_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
)

// kindWith returns the first kind of the first card that serves a panel.
func kindWith(t *testing.T, kit layouts.Kit, panel string) layouts.Kind {
	t.Helper()
	for _, k := range kit.Kinds {
		for _, p := range k.Places {
			if p == panel {
				return k
			}
		}
	}
	require.Fail(t, "no kind for "+panel)
	return layouts.Kind{}
}

func toolWarnings(kit layouts.Kit) []string {
	var out []string
	for _, w := range kit.Warnings {
		if w.Code == "tool" {
			out = append(out, w.Text)
		}
	}
	return out
}

// Limits: trade-facts section 5 (common practice, no source): a trimmer holds
// 1/4 in, a knife along a ruler 1/8; tips want care under 30 degrees by hand
// and under 20 on a drag knife, and are not cut by hand under 15; pieces under
// 1/2 in are hard to hold.
func TestToolsByBreadth(t *testing.T) {
	strips := func(width, tool string) string {
		return changedIn(sample, `layout = "diagonal halves"`, "layout = \"strips\"\nwidths = [\""+width+"\", \"rest\"]", `tool = "cutter"`, `tool = "`+tool+`"`)
	}
	all := []layouts.Tool{layouts.Cutter, layouts.Trimmer, layouts.Knife}
	tests := []struct {
		width, tool string
		want        []layouts.Tool
		told        []string
	}{
		{"1/2", "trimmer", all, nil},
		{"1/4", "trimmer", all, []string{"panel 1 with the trimmer: under 1/2 in: cut it from a strip, last"}},
		{"15/64", "trimmer", []layouts.Tool{layouts.Cutter, layouts.Knife},
			[]string{"panel 1 not for the trimmer: only 15/64 in broad, and a trimmer holds 1/4 in; use a cutter or a knife"}},
		{"15/64", "cutter", []layouts.Tool{layouts.Cutter, layouts.Knife}, nil},
		{"7/64", "knife", []layouts.Tool{layouts.Cutter},
			[]string{"panel 1 not for the knife: only 7/64 in broad, and a knife holds 1/8 in; use a cutter"}},
	}
	for _, tt := range tests {
		t.Run(tt.width+" "+tt.tool, func(t *testing.T) {
			kit := mustPlan(t, strips(tt.width, tt.tool))
			require.Equal(t, tt.want, kindWith(t, kit, "1").Tools)
			require.Equal(t, tt.told, toolWarnings(kit))
		})
	}
}

// A cell of 1 x 3 in halved has a tip of atan(1/3) = 18.4 degrees, one of
// 1 x 4 in of 14.04.
func TestToolsByTip(t *testing.T) {
	halves := func(height, tool string) string {
		return changedIn(sample, `size = "4 x 6 in"`, `size = "1 x `+height+` in"`, `margin = "1/4"`, "margin = 0\ncolumns = 1\nrows = 1",
			`gap = "1/8"`, `gap = 0`, `tool = "cutter"`, `tool = "`+tool+`"`)
	}
	tests := []struct {
		height, tool string
		want         []string
	}{
		{"3", "cutter", []string{"panels A1a, A1b with the cutter: a tip of 18 degrees, which a drag knife can tear: cut slowly"}},
		{"3", "knife", []string{"panels A1a, A1b with the knife: a tip of 18 degrees: cut it last, with a new blade"}},
		{"4", "trimmer", []string{"panels A1a, A1b not for the trimmer: a tip of 14 degrees, too sharp by hand; use a cutter"}},
		{"1 1/2", "knife", nil}, // 33.7 degrees
	}
	for _, tt := range tests {
		t.Run(tt.height+" "+tt.tool, func(t *testing.T) {
			require.Equal(t, tt.want, toolWarnings(mustPlan(t, halves(tt.height, tt.tool))))
		})
	}
}

// The angles of a 3-4-5 triangle are 36.87, 53.13 and 90 degrees.
func TestCornerAngles(t *testing.T) {
	mm := geometry.Millimetre
	require.Equal(t, []int{37, 53, 90}, layouts.CornerAngles(geometry.OutlineFromPoints(geometry.Point{}, geometry.Point{X: 30 * mm}, geometry.Point{Y: 40 * mm})))
	round := geometry.OutlineFromRing(geometry.Ring{
		geometry.CurveTo(geometry.Point{X: mm}, geometry.Point{X: mm, Y: mm}, geometry.Point{Y: mm}), geometry.LineTo(geometry.Point{})})
	require.Empty(t, layouts.CornerAngles(round))
}

// A slimline of 3 1/2 x 8 1/2 in in 6 columns and 4 rows has cells of about
// 1/2 x 2 in; 3 columns and 8 rows make as many, nearly square.
func TestShapeAdvice(t *testing.T) {
	grid := func(columns, rows string) string {
		return changedIn(sample, `size = "4 x 6 in"`, `size = "3 1/2 x 8 1/2 in"`, `layout = "diagonal halves"`, "layout = \"grid\"\ncolumns = "+columns+"\nrows = "+rows,
			`margin = "1/4"`, `margin = 0`, `gap = "1/8"`, `gap = 0`)
	}
	advice := func(text string) []string {
		var out []string
		for _, w := range mustPlan(t, text).Warnings {
			if w.Code == "cell-shape" {
				out = append(out, w.Text)
			}
		}
		return out
	}
	require.Equal(t, []string{"front: cells of 0.5833 x 2 1/8 in are long and narrow; columns = 3 and rows = 8 make them 1.1667 x 1 1/16 in"}, advice(grid("6", "4")))
	require.Empty(t, advice(grid("3", "8")))
	require.Empty(t, advice(grid("2", "2")))
	require.Equal(t, []string{"front: cells of 7/16 x 0.4722 in are small to hold; fewer columns or rows make them larger"}, advice(grid("8", "18")))
}
