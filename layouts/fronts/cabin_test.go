package fronts_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

func init() {
	for _, name := range []string{"log cabin", "courthouse steps"} {
		variants[name] = []options{{"rounds": int64(1)}, {"rounds": int64(4), "middle": "1/4"}}
	}
	variants["frames"] = []options{{"count": int64(2)}, {"count": int64(4), "breadth": "3 mm"}}
	variants["tri-band"] = []options{{"run": "upright"}, {"middle": "20 %"}}
	variants["stepped split"] = []options{{"large": "bottom"}, {"large": "left", "step": "half"}, {"large": "right", "share": "2/3"}}
	variants["rail fence"] = []options{{"strips": int64(4), "columns": int64(3)}}
	variants["basketweave"] = []options{{"columns": int64(4), "rows": int64(4)}}
	variants["running bond"] = []options{{"shift": "1/3"}, {"shift": 0.0, "rows": int64(4)}, {"run": "upright"}, {"slivers": "leave out", "shift": "1/20"}, {"slivers": "keep", "shift": "1/20"}}
	variants["attic window"] = []options{{"corner": "top right"}, {"columns": int64(3), "strip": "1/3"}}
	variants["five-piece spiral"] = []options{{"turn": "counter-clockwise"}, {"columns": int64(2), "rows": int64(2), "middle": "1/5"}}
}

// Trade-facts section 6, case 10 (hand sums): a middle of 1, strips of 1/2, two
// rounds: strips 1, 1.5, 1.5, 2, 2, 2.5, 2.5, 3 long, and 3 x 3 in all.
func TestLogCabinOfKnownSize(t *testing.T) {
	f := divide(t, layout(t, "log cabin"), frameOf(3*inch, 3*inch), 0, nil)
	var lengths []float64
	for i := range f.Panels {
		size := panelNamed(t, f, strconv.Itoa(i+1)).Outline.Bounds().Size()
		lengths = append(lengths, max(size.W, size.H).In(geometry.Inches))
		if i > 0 {
			require.Equal(t, inch/2, min(size.W, size.H))
		}
	}
	require.Equal(t, []float64{1, 1, 1.5, 1.5, 2, 2, 2.5, 2.5, 3}, lengths)
	area := 0.0
	for _, p := range f.Panels {
		area += p.Outline.Area().SquareMM()
	}
	require.InDelta(t, 9*25.4*25.4, area, 1e-6)
}

// In courthouse steps opposite strips are alike.
func TestCourthouseStepsArePairs(t *testing.T) {
	f := divide(t, layout(t, "courthouse steps"), frameOf(90*mm, 120*mm), 2*mm, nil)
	for k := 2; k < len(f.Panels); k += 2 {
		a, b := panelNamed(t, f, strconv.Itoa(k)), panelNamed(t, f, strconv.Itoa(k+1))
		require.Equal(t, a.Outline.Bounds().Size(), b.Outline.Bounds().Size())
		require.Equal(t, a.Role, b.Role)
	}
}

// By hand: 100 mm, three frames with gaps of 2: breadth (100 - 8)/6.
func TestFrames(t *testing.T) {
	f := divide(t, layout(t, "frames"), frameOf(100*mm, 100*mm), 2*mm, nil)
	breadth := geometry.Length(92 * mm / 6)
	require.Equal(t, 100*mm-2*(breadth+2*mm), f.Panels[1].Outline.Bounds().W())
	require.Len(t, f.Panels[0].Outline.Holes, 1)
	require.Len(t, f.Panels[1].Outline.Holes, 1)
	require.Empty(t, f.Panels[2].Outline.Holes)
}

// By hand: 100 mm with gaps of 2 leave 96; the middle is half of it.
func TestTriband(t *testing.T) {
	f := divide(t, layout(t, "tri-band"), frameOf(60*mm, 100*mm), 2*mm, nil)
	require.Equal(t, []fronts.Term{{What: "panel", Length: 24 * mm}, {What: "gap", Length: 2 * mm}, {What: "panel", Length: 48 * mm}, {What: "gap", Length: 2 * mm}, {What: "panel", Length: 24 * mm}}, f.Down)
}

// Bricks are one length, and every second row begins with half a brick: by
// hand, 3 bricks and 2 gaps of 2 on 100 mm are 32 each; moved on by half of 34,
// a row begins with 17 - 2 = 15 mm.
func TestRunningBond(t *testing.T) {
	f := divide(t, layout(t, "running bond"), frameOf(100*mm, 40*mm), 2*mm, options{"rows": int64(2), "bricks": int64(3)})
	var widths []geometry.Length
	for _, p := range f.Panels {
		widths = append(widths, p.Outline.Bounds().W())
	}
	require.Equal(t, []geometry.Length{32 * mm, 32 * mm, 32 * mm, 15 * mm, 32 * mm, 32 * mm, 15 * mm}, widths)
}

// A shift of a twentieth leaves a sliver in the second row: by hand, 3 bricks
// without gaps on 99 mm are 33, so 1.65 mm, under 1/8 in.
func TestSliversOfBond(t *testing.T) {
	given := func(what string) options {
		return options{"rows": int64(2), "bricks": int64(3), "shift": "1/20", "slivers": what}
	}
	merged := divide(t, layout(t, "running bond"), frameOf(99*mm, 40*mm), 0, given("merge"))
	require.Equal(t, fronts.Slivers{Merged: 1}, merged.Slivers)
	require.Len(t, merged.Panels, 6)
	left := divide(t, layout(t, "running bond"), frameOf(99*mm, 40*mm), 0, given("leave out"))
	require.Equal(t, fronts.Slivers{LeftOut: 1}, left.Slivers)
	require.Len(t, left.Panels, 6)
	kept := divide(t, layout(t, "running bond"), frameOf(99*mm, 40*mm), 0, given("keep"))
	require.Len(t, kept.Panels, 7)
}

// The attic window's mitre: without gaps, a cell of 40 mm with strips of 10
// has a pane of 30 x 30 and strips of (40+30)/2 · 10 mm2.
func TestAtticWindow(t *testing.T) {
	f := divide(t, layout(t, "attic window"), frameOf(40*mm, 40*mm), 0, options{"columns": int64(1), "rows": int64(1)})
	for _, p := range f.Panels {
		want := map[int]float64{0: 900, 1: 350, 2: 350}[p.Role]
		require.InDelta(t, want, p.Outline.Area().SquareMM(), 1e-6, p.Name)
	}
}

// The spiral is the same after a half turn, and mirrored turns the other way.
func TestSpiralTurns(t *testing.T) {
	l, frame := layout(t, "five-piece spiral"), frameOf(90*mm, 60*mm)
	one := options{"columns": int64(1), "rows": int64(1)}
	right := divide(t, l, frame, 3*mm, one)
	left := divide(t, l, frame, 3*mm, options{"columns": int64(1), "rows": int64(1), "turn": "counter-clockwise"})
	c := panelNamed(t, right, "A1c").Outline.Bounds()
	require.Equal(t, frame.Centre(), c.Centre())
	mirrored := map[geometry.Rect]bool{}
	for _, p := range left.Panels {
		mirrored[p.Outline.Bounds()] = true
	}
	for _, p := range right.Panels {
		b := p.Outline.Bounds()
		x := frame.Min.X + frame.Max.X
		require.True(t, mirrored[geometry.Rect{Min: geometry.Point{X: x - b.Max.X, Y: b.Min.Y}, Max: geometry.Point{X: x - b.Min.X, Y: b.Max.Y}}], p.Name)
	}
}
