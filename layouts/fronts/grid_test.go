package fronts_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

// frameInside is a front without its margins.
func frameInside(t testing.TB, w, h, margin geometry.Length) geometry.Rect {
	t.Helper()
	frame, err := geometry.RectFromSize(geometry.Point{}, geometry.Size{W: w, H: h}).Inset(margin)
	require.NoError(t, err)
	return frame
}

// Trade facts, section 5, two-by-two panels, tag D: ((W - 2m - g)/2,
// (H - 2m - g)/2), exact to the nanometre.
var twoByTwo = []struct {
	name              string
	w, h, margin, gap geometry.Length
	panel             geometry.Size
}{
	{"4 1/4 x 5 1/2, 1/8 and 1/8: 1 15/16 x 2 9/16", 17 * inch / 4, 11 * inch / 2, inch / 8, inch / 8, geometry.Size{W: 31 * inch / 16, H: 41 * inch / 16}},
	{"4 1/4 x 5 1/2, 1/16 and 1/8: 2 x 2 5/8", 17 * inch / 4, 11 * inch / 2, inch / 16, inch / 8, geometry.Size{W: 2 * inch, H: 21 * inch / 8}},
	{"4 1/4 x 5 1/2, 1/8 and 1/16: 1 31/32 x 2 19/32", 17 * inch / 4, 11 * inch / 2, inch / 8, inch / 16, geometry.Size{W: 63 * inch / 32, H: 83 * inch / 32}},
	{"5 x 7, 1/8 and 1/8: 2 5/16 x 3 5/16", 5 * inch, 7 * inch, inch / 8, inch / 8, geometry.Size{W: 37 * inch / 16, H: 53 * inch / 16}},
}

func TestGridTwoByTwo(t *testing.T) {
	for _, c := range twoByTwo {
		t.Run(c.name, func(t *testing.T) {
			f := divide(t, layout(t, "grid"), frameInside(t, c.w, c.h, c.margin), c.gap, nil)
			require.Equal(t, []string{"A1", "B1", "A2", "B2"}, panelNames(f))
			right, below := c.margin+c.panel.W+c.gap, c.margin+c.panel.H+c.gap
			for i, at := range []geometry.Point{{X: c.margin, Y: c.margin}, {X: right, Y: c.margin}, {X: c.margin, Y: below}, {X: right, Y: below}} {
				box := geometry.RectFromSize(at, c.panel)
				require.Equal(t, box, f.Panels[i].Outline.Bounds())
				require.Equal(t, box.Outline().Area(), f.Panels[i].Outline.Area())
				require.Equal(t, i, f.Panels[i].Role)
			}
			require.Equal(t, []fronts.Term{{What: "panel", Length: c.panel.W}, {What: "gap", Length: c.gap}, {What: "panel", Length: c.panel.W}}, f.Across)
			require.Equal(t, []fronts.Term{{What: "panel", Length: c.panel.H}, {What: "gap", Length: c.gap}, {What: "panel", Length: c.panel.H}}, f.Down)
		})
	}
}

// Columns and rows of any number differ by a nanometre at most, and lie as
// architecture.md decision 1 says: cut k at round(k (W + gap) / n).
func TestGridSharesOutEvenly(t *testing.T) {
	everyFront(t, func(t *testing.T, b fronts.Brief, f fronts.Front) {
		columns, rows := b.Options.Count("columns"), b.Options.Count("rows")
		if len(f.Panels) != columns*rows { // not a grid
			return
		}
		for i, p := range f.Panels {
			column, row := i%columns, i/columns
			x := b.Frame.Min.X + (b.Frame.W()+b.Gap).Share(column, columns)
			y := b.Frame.Min.Y + (b.Frame.H()+b.Gap).Share(row, rows)
			require.Equal(t, geometry.Point{X: x, Y: y}, p.Outline.Bounds().Min, p.Name)
			require.InDelta(t, float64(b.Frame.W()+b.Gap)/float64(columns), float64(p.Outline.Bounds().W()+b.Gap), 1)
			require.InDelta(t, float64(b.Frame.H()+b.Gap)/float64(rows), float64(p.Outline.Bounds().H()+b.Gap), 1)
		}
	})
}

// Letters go on after Z as in a spreadsheet; rows count from 1.
func TestGridNames(t *testing.T) {
	f := divide(t, layout(t, "grid"), frameOf(600*mm, 600*mm), mm, options{"columns": int64(60), "rows": int64(60)})
	require.Len(t, f.Panels, 3600)
	for i, name := range map[int]string{
		0: "A1", 25: "Z1", 26: "AA1", 51: "AZ1", 52: "BA1", 59: "BH1", 60: "A2", 3599: "BH60",
	} {
		require.Equal(t, name, f.Panels[i].Name)
	}
}

func TestGridTooSmall(t *testing.T) {
	for _, c := range []struct {
		name    string
		gap     geometry.Length
		columns int64
		rows    int64
		want    string
	}{
		// (40 + 4)/10 - 4 = 0.4
		{"narrow columns", 4 * mm, 10, 1, "panel A1: only 0.4 x 60 mm, and a panel needs 1 mm each way; use a smaller gap or margin, or fewer columns or rows"},
		// (60 + 10)/7 - 10 = 0
		{"no height", 10 * mm, 1, 7, "panel A1: nothing is left of it (it is 1 mm short); use a smaller gap or margin, or fewer columns or rows"},
		// (40 + 50)/2 - 50 = -5, (60 + 50)/2 - 50 = 5
		{"the gap eats the panels", 50 * mm, 2, 2, "panel A1: nothing is left of it (it is 6 mm short); use a smaller gap or margin, or fewer columns or rows"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := refused(t, layout(t, "grid"), frameOf(40*mm, 60*mm), c.gap, options{"columns": c.columns, "rows": c.rows})
			require.EqualError(t, err, c.want)
			var small *fronts.TooSmallError
			require.ErrorAs(t, err, &small)
			require.Equal(t, "A1", small.Panel)
		})
	}
}

// The last millimetre: (40 + g)/2 - g = 1 for g = 38.
func TestGridOfTheLeastPanels(t *testing.T) {
	b := options{"columns": int64(2), "rows": int64(1)}
	f := divide(t, layout(t, "grid"), frameOf(40*mm, 60*mm), 38*mm, b)
	require.Equal(t, fronts.LeastPanel, f.Panels[0].Outline.Bounds().W())
	refused(t, layout(t, "grid"), frameOf(40*mm, 60*mm), 38*mm+1, b)
}
