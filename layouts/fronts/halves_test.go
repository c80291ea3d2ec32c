package fronts_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

func halves(t testing.TB) fronts.Layout { return layout(t, "diagonal halves") }

// slanted gives the options for cuts drawn as they look.
func slanted(rows ...string) options {
	list := make([]any, len(rows))
	for i, row := range rows {
		list[i] = row
	}
	return options{"columns": int64(len(rows[0])), "rows": int64(len(rows)), "slant": list}
}

// legs returns a right triangle's legs and long side in inches.
func legs(t testing.TB, p fronts.Panel) (w, h, long float64) {
	t.Helper()
	points := p.Outline.Outer.Points()
	require.Len(t, points, 3)
	for i, at := range points {
		long = max(long, points[(i+1)%3].Sub(at).Len()/float64(inch))
	}
	size := p.Outline.Bounds().Size()
	return size.W.In(geometry.Inches), size.H.In(geometry.Inches), long
}

// Trade facts, section 6, case 2, tag D: halves of a cell of 2 x 2 5/8 in.
// The long sides for 1/16 and 1/4 are k d, k = 1 - (g/2) d/(w h), with d =
// 3.30009: 0.980357 and 0.921427 times that.
var tradeHalves = []struct {
	gap        geometry.Length
	w, h, long float64
}{
	{inch / 8, 1.92143, 2.52187, 3.17044},
	{inch / 16, 1.96071, 2.57344, 3.23526},
	{inch / 4, 1.84285, 2.41874, 3.04079},
}

// The check values have five decimals, so half a unit of the last one is
// allowed, and for the two products of rounded numbers a whole one.
func TestHalvesCheckValues(t *testing.T) {
	for _, c := range tradeHalves {
		t.Run(c.gap.Format(geometry.Inches), func(t *testing.T) {
			// Two cells of 2 x 2 5/8 in each way and one gap between them.
			f := divide(t, halves(t), frameOf(4*inch+c.gap, 21*inch/4+c.gap), c.gap, nil)
			require.Len(t, f.Panels, 8)
			for _, p := range f.Panels {
				w, h, long := legs(t, p)
				require.InDelta(t, c.w, w, 0.5e-5, p.Name)
				require.InDelta(t, c.h, h, 0.5e-5, p.Name)
				require.InDelta(t, c.long, long, 1e-5, p.Name)
			}
		})
	}
}

// The section's formula again, at any size: each half is its cell's triangle
// scaled by k about its right angle, so the right angle stands in the cell's
// corner.
func TestHalvesAreScaledTriangles(t *testing.T) {
	for _, fr := range frames {
		t.Run(fr.name, func(t *testing.T) {
			for _, gap := range gaps {
				f := divide(t, halves(t), fr.frame, gap, nil)
				grid := divide(t, layout(t, "grid"), fr.frame, gap, nil)
				for i, p := range f.Panels {
					requireScaled(t, grid.Panels[i/2].Outline.Bounds(), gap, p)
				}
			}
		})
	}
}

func requireScaled(t *testing.T, cell geometry.Rect, gap geometry.Length, p fronts.Panel) {
	t.Helper()
	w, h := float64(cell.W()), float64(cell.H())
	k := 1 - float64(gap)/2*math.Hypot(w, h)/(w*h)
	box := p.Outline.Bounds()
	// Half a nanometre of an odd gap and up to 1.5 nm of the strip's edge, times
	// the share of a leg that a nanometre of the strip takes.
	require.InDelta(t, k*w, float64(box.W()), 1+2*math.Hypot(w, h)/h, p.Name)
	require.InDelta(t, k*h, float64(box.H()), 1+2*math.Hypot(w, h)/w, p.Name)
	require.True(t, box.Min.X == cell.Min.X || box.Max.X == cell.Max.X, p.Name)
	require.True(t, box.Min.Y == cell.Min.Y || box.Max.Y == cell.Max.Y, p.Name)
}

// Which corner each half's right angle stands in, from the layout's own
// comment: "/" upper left and lower right, "\" upper right and lower left;
// the upper one comes first.
func TestHalvesNamesAndHands(t *testing.T) {
	for _, c := range []struct {
		hand   string
		corner map[string]geometry.Point // of a 40 x 50 mm frame at 2, 3
	}{
		{"/", map[string]geometry.Point{"A1a": {X: 2 * mm, Y: 3 * mm}, "A1b": {X: 42 * mm, Y: 53 * mm}}},
		{`\`, map[string]geometry.Point{"A1a": {X: 42 * mm, Y: 3 * mm}, "A1b": {X: 2 * mm, Y: 53 * mm}}},
	} {
		t.Run(c.hand, func(t *testing.T) {
			for _, gap := range gaps {
				f := divide(t, halves(t), frameOf(40*mm, 50*mm), gap, slanted(c.hand))
				require.Equal(t, []string{"A1a", "A1b"}, panelNames(f))
				for _, p := range f.Panels {
					require.Equal(t, c.hand, p.Hand)
					require.Contains(t, p.Outline.Outer.Points(), c.corner[p.Name], p.Name)
				}
			}
		})
	}
}

// Reading order of the centres, by a plain count: the first half's centre is
// higher.
func TestHalvesReadFromTheTop(t *testing.T) {
	everyFront(t, func(t *testing.T, _ fronts.Brief, f fronts.Front) {
		for i := 0; i+1 < len(f.Panels) && f.Panels[i].Hand != ""; i += 2 {
			a, b := f.Panels[i], f.Panels[i+1]
			require.True(t, strings.HasSuffix(a.Name, "a") && b.Name == strings.TrimSuffix(a.Name, "a")+"b")
			require.Less(t, a.Outline.Centre().Y, b.Outline.Centre().Y, a.Name)
		}
	})
}

// Trade facts, section 6, case 5: both halves of a cell are one, by half a
// turn, whichever way the nanometres fall.
func TestHalvesOfACellAreAlike(t *testing.T) {
	everyFront(t, func(t *testing.T, _ fronts.Brief, f fronts.Front) {
		for i := 0; i+1 < len(f.Panels) && f.Panels[i].Hand != ""; i += 2 {
			require.Contains(t, geometry.TurnsOnto(f.Panels[i].Outline, f.Panels[i+1].Outline, 2), 180.0, f.Panels[i].Name)
		}
	})
}

// Case 5 again: no turn brings a "/" half of an oblong cell onto a "\" half,
// and a quarter turn one way or the other does in a square cell. 0.01 mm is
// what a kind allows (interfaces.md, Names).
func TestHalvesOfBothHands(t *testing.T) {
	const alike = 10 * geometry.Micrometre
	for _, c := range []struct {
		name  string
		cell  geometry.Size
		turns []float64
	}{
		{"oblong", geometry.Size{W: 2 * inch, H: 21 * inch / 8}, nil},
		{"nearly square, by 0.1 mm", geometry.Size{W: 50 * mm, H: 50*mm + mm/10}, nil},
		{"square", geometry.Size{W: 50 * mm, H: 50 * mm}, []float64{90}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := divide(t, halves(t), frameOf(2*c.cell.W+3*mm, c.cell.H), 3*mm, slanted(`/\`))
			a, b := panelNamed(t, f, "A1a"), panelNamed(t, f, "B1a")
			require.Equal(t, c.turns, geometry.TurnsOnto(a.Outline, b.Outline, alike))
			require.Equal(t, []float64{0}, geometry.TurnsOnto(a.Outline.Mirrored(), b.Outline, alike), "its mirror image is")
		})
	}
}

// Left out, all cuts point at the front's middle; a middle column counts as
// left, a middle row as upper. Worked out by eye.
func TestHalvesTowardsTheMiddle(t *testing.T) {
	for _, rows := range [][]string{
		{`\`},
		{`\/`, `/\`},
		{`\\/`, `\\/`, `//\`},
		{`\\//`},
		{`\`, `\`, `/`},
	} {
		t.Run(strings.Join(rows, " over "), func(t *testing.T) {
			given := slanted(rows...)
			want := divide(t, halves(t), frameOf(120*mm, 90*mm), 3*mm, given)
			delete(given, "slant")
			require.Equal(t, want, divide(t, halves(t), frameOf(120*mm, 90*mm), 3*mm, given))
		})
	}
}

func TestHalvesSlantRefused(t *testing.T) {
	for _, c := range []struct {
		name  string
		slant []any
		want  string
	}{
		{"no row", []any{}, "slant: 0 rows given, and the front has 2 rows"},
		{"a row missing", []any{`\/`}, "slant: 1 row given, and the front has 2 rows"},
		{"a row too many", []any{`\/`, `\/`, `\/`}, "slant: 3 rows given, and the front has 2 rows"},
		{"too short a row", []any{`\/`, `\`}, "slant: row 2: 1 cut given, and the front has 2 columns"},
		{"too long a row", []any{`\/\`, `\/`}, "slant: row 1: 3 cuts given, and the front has 2 columns"},
		{"an empty row", []any{"", `\/`}, "slant: row 1: 0 cuts given, and the front has 2 columns"},
		{"a letter", []any{`\x`, `\/`}, `slant: row 1: "x" is not a cut; write / or \`},
		{"a space", []any{`\/`, `\ `}, `slant: row 2: " " is not a cut; write / or \`},
		{"a letter of two bytes", []any{`\/`, `é\`}, `slant: row 2: "é" is not a cut; write / or \`},
		{"a drawn stroke", []any{`\╱`, `\/`}, `slant: row 1: "╱" is not a cut; write / or \`},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := refused(t, halves(t), frameOf(120*mm, 90*mm), 3*mm, options{"slant": c.slant})
			require.EqualError(t, err, c.want)
		})
	}
}

func TestHalvesTooSmall(t *testing.T) {
	for _, c := range []struct {
		name string
		w, h geometry.Length
		gap  geometry.Length
		want string
	}{
		// Cell 10 x 10: k = 1 - (g/2) 14.142/100, so nothing at g = 14.142.
		{"the gap eats the halves", 10 * mm, 10 * mm, 15 * mm, "panel A1a: nothing is left of it; use a smaller gap, or fewer columns or rows"},
		// g = 13: k = 0.080761, a half of 0.808 mm.
		{"slivers", 10 * mm, 10 * mm, 13 * mm, "panel A1a: only 0.808 x 0.808 mm, and a panel needs 1 mm each way; use a smaller gap, or fewer columns or rows"},
		{"no cell", 10 * mm, mm / 2, 0, "panel A1: only 10 x 0.5 mm, and a panel needs 1 mm each way; use a smaller gap or margin, or fewer columns or rows"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := refused(t, halves(t), frameOf(c.w, c.h), c.gap, slanted("/"))
			require.EqualError(t, err, c.want)
			var small *fronts.TooSmallError
			require.ErrorAs(t, err, &small)
		})
	}
}

// On the way from a gap that leaves much to one that leaves nothing there is
// either a sound front or a plain refusal.
func TestHalvesWithGrowingGaps(t *testing.T) {
	for _, hand := range []string{"/", `\`} {
		for gap := geometry.Length(0); gap < 20*mm; gap += 333_331 {
			b := brief(t, halves(t), frameOf(10*mm, 13*mm), gap, slanted(hand))
			f, err := halves(t).Divide(b)
			var small *fronts.TooSmallError
			if err != nil {
				require.ErrorAs(t, err, &small)
				continue
			}
			require.Len(t, f.Panels, 2, fmt.Sprint(gap))
		}
	}
}
