package fronts_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

// What holds for every layout, on every frame and with every gap.

func TestNamesAreUnique(t *testing.T) {
	everyFront(t, func(t *testing.T, _ fronts.Brief, f fronts.Front) {
		seen := map[string]bool{}
		for _, name := range panelNames(f) {
			require.NotEmpty(t, name)
			require.False(t, seen[name], "two panels %s", name)
			seen[name] = true
		}
	})
}

func TestPanelsAreSoundAndInside(t *testing.T) {
	everyFront(t, func(t *testing.T, b fronts.Brief, f fronts.Front) {
		require.NotEmpty(t, f.Panels)
		for _, p := range f.Panels {
			require.NoError(t, p.Outline.Validate(), p.Name)
			require.True(t, b.Frame.ContainsRect(p.Outline.Bounds()), p.Name)
			size := p.Outline.Bounds().Size()
			require.GreaterOrEqual(t, min(size.W, size.H), fronts.LeastPanel, p.Name)
		}
	})
}

func TestSumsAddUpToTheFrame(t *testing.T) {
	everyFront(t, func(t *testing.T, b fronts.Brief, f fronts.Front) {
		require.Equal(t, b.Frame.W(), total(f.Across))
		require.Equal(t, b.Frame.H(), total(f.Down))
		for _, sum := range [][]fronts.Term{f.Across, f.Down} {
			for i, term := range sum {
				require.Equal(t, [...]string{"panel", "gap"}[i%2], term.What)
				if term.What == "gap" {
					require.Equal(t, b.Gap, term.Length)
				}
			}
			require.Equal(t, 1, len(sum)%2, "panels first and last")
		}
	})
}

// Slanted cuts are rounded: a point by up to 0.71 nm, so 2 nm between two; a
// cell's border is moved in after that was done once already, so 4 nm.
func TestPanelsStayTheGapApart(t *testing.T) {
	everyFront(t, func(t *testing.T, b fronts.Brief, f fronts.Front) {
		apart := b.Gap
		if !axisParallel(f.Tree) {
			apart = max(0, b.Gap-2)
			if f.Tree == nil {
				apart = max(0, b.Gap-4)
			}
		}
		outlines := make([]geometry.Outline, len(f.Panels))
		for i, p := range f.Panels {
			outlines[i] = p.Outline
			if apart == 0 && b.Gap < 4 && !axisParallel(f.Tree) {
				outlines[i] = thinner(t, p.Outline)
			}
		}
		for i := range outlines {
			for j := range outlines[:i] {
				p, q := f.Panels[i].Outline, f.Panels[j].Outline
				if !p.IsStraight() || !q.IsStraight() {
					// Arcs of one circle in different cubics are 2.7e-4 of the radius off
					// each; without a gap they lie over each other by so little.
					const off = 10 * geometry.Micrometre
					require.True(t, b.Gap < off || geometry.Apart(p, q, b.Gap-off), "%s and %s, gap %s", f.Panels[i].Name, f.Panels[j].Name, b.Gap)
					continue
				}
				require.True(t, geometry.Apart(outlines[i], outlines[j], apart), "%s and %s, gap %s", f.Panels[i].Name, f.Panels[j].Name, b.Gap)
			}
		}
	})
}

// thinner returns an outline 3 nm smaller all round: where there is no gap,
// the rounded corners of slanted neighbours can overlap by so little.
func thinner(t *testing.T, o geometry.Outline) geometry.Outline {
	t.Helper()
	parts, err := o.Inset(3)
	require.NoError(t, err)
	require.Len(t, parts, 1)
	return parts[0]
}

func TestPanelsReachTheFramesBorder(t *testing.T) {
	everyFront(t, func(t *testing.T, b fronts.Brief, f fronts.Front) {
		if f.Slivers.LeftOut > 0 {
			return // the base shows there
		}
		reach := f.Panels[0].Outline.Bounds()
		for _, p := range f.Panels {
			r := p.Outline.Bounds()
			reach.Min = geometry.Point{X: min(reach.Min.X, r.Min.X), Y: min(reach.Min.Y, r.Min.Y)}
			reach.Max = geometry.Point{X: max(reach.Max.X, r.Max.X), Y: max(reach.Max.Y, r.Max.Y)}
		}
		require.Equal(t, b.Frame, reach)
	})
}

func TestLeavesAreThePanels(t *testing.T) {
	everyFront(t, func(t *testing.T, b fronts.Brief, f fronts.Front) {
		if f.Tree == nil {
			return
		}
		require.Equal(t, b.Frame.Outline(), f.Tree.Outline)
		leaves := map[string]geometry.Outline{}
		left := 0
		for _, leaf := range f.Tree.Leaves() {
			if leaf.Panel == "" {
				left++ // a sliver
				continue
			}
			require.NotContains(t, leaves, leaf.Panel)
			leaves[leaf.Panel] = leaf.Outline
		}
		require.Len(t, leaves, len(f.Panels))
		require.Equal(t, f.Slivers.LeftOut, left)
		for _, p := range f.Panels {
			require.Equal(t, leaves[p.Name], p.Outline, p.Name)
		}
	})
}

// Each node of the tree is its parts and the strip between them: exactly
// where the cut runs along an axis, else within what rounding can take,
// 0.5 nm all round.
func TestNodesAreTheirPartsAndTheGap(t *testing.T) {
	everyFront(t, func(t *testing.T, b fronts.Brief, f fronts.Front) {
		if f.Tree != nil {
			requireParts(t, b.Gap, f.Tree)
		}
	})
}

func requireParts(t *testing.T, gap geometry.Length, n *fronts.Node) {
	t.Helper()
	if n.Cut == nil {
		require.Empty(t, n.Parts)
		return
	}
	require.Empty(t, n.Panel)
	require.Len(t, n.Parts, 2)
	if n.Cut.Gap != gap {
		require.False(t, alongAxis(n.Cut.Line))
		require.Equal(t, gap+gap%2, n.Cut.Gap, "an odd gap on a slant may be a nanometre wider, for both parts to lose the same")
	}
	parts := n.Parts[0].Outline.Area().Add(n.Parts[1].Outline.Area())
	if alongAxis(n.Cut.Line) {
		require.Equal(t, n.Outline.Area(), parts.Add(stripBetween(t, n)))
	} else {
		left := n.Outline.Area().Sub(parts).SquareMM() - slantedStrip(n)
		require.InDelta(t, 0, left, n.Outline.Perimeter()/1e6*3e-6, "3 nm all round: the strip's own corners are rounded too")
	}
	for _, part := range n.Parts {
		requireParts(t, gap, part)
	}
}

// stripBetween returns the area of what an upright or level cut took away.
func stripBetween(t *testing.T, n *fronts.Node) geometry.Area {
	t.Helper()
	whole, a, b := n.Outline.Bounds(), n.Parts[0].Outline.Bounds(), n.Parts[1].Outline.Bounds()
	strip := whole
	if n.Cut.Line.A.X == n.Cut.Line.B.X {
		strip.Min.X, strip.Max.X = min(a.Max.X, b.Max.X), max(a.Min.X, b.Min.X)
		require.Equal(t, n.Cut.Gap, strip.W())
	} else {
		strip.Min.Y, strip.Max.Y = min(a.Max.Y, b.Max.Y), max(a.Min.Y, b.Min.Y)
		require.Equal(t, n.Cut.Gap, strip.H())
	}
	if n.Cut.Gap == 0 {
		return geometry.Area{}
	}
	return strip.Outline().Area()
}

// slantedStrip returns the area, in mm2, of what a slanted cut took away: the
// node within a long oblong about the line, as wide as the gap.
func slantedStrip(n *fronts.Node) float64 {
	if n.Cut.Gap == 0 {
		return 0
	}
	a, d := n.Cut.Line.A, n.Cut.Line.B.Sub(n.Cut.Line.A)
	along, across := 2e9/d.Len(), float64(n.Cut.Gap)/2/d.Len()
	at := func(u, v float64) geometry.Point {
		x, y := float64(d.X), float64(d.Y)
		return a.Add(geometry.Vector{X: geometry.Length(math.Round(u*x - v*y)), Y: geometry.Length(math.Round(u*y + v*x))})
	}
	sum := 0.0
	for _, o := range n.Outline.Clip([]geometry.Point{at(-along, -across), at(along, -across), at(along, across), at(-along, across)}) {
		sum += o.Area().SquareMM()
	}
	return sum
}

func alongAxis(l geometry.Line) bool { return l.A.X == l.B.X || l.A.Y == l.B.Y }

// axisParallel reports whether all cuts run along an axis.
func axisParallel(n *fronts.Node) bool {
	if n == nil || n.Cut == nil {
		return n != nil
	}
	for _, part := range n.Parts {
		if !axisParallel(part) {
			return false
		}
	}
	return alongAxis(n.Cut.Line)
}

// A design may leave out all options, on any card there is.
func TestDefaultsSuitEveryFrame(t *testing.T) {
	for _, l := range selfSufficient() {
		for _, fr := range frames {
			t.Run(l.Name+"/"+fr.name, func(t *testing.T) {
				for _, gap := range gaps {
					if gap > usualGap {
						continue
					}
					f := divide(t, l, fr.frame, gap, nil)
					require.Greater(t, len(f.Panels), 1)
					require.LessOrEqual(t, len(f.Panels), 60, "what one card's front can be glued from in an evening")
				}
			})
		}
	}
}

// What cannot be made is refused as too small, with a panel's name, its size
// and what to change; the fronts above leave such out.
func TestWhatIsLeftOutIsTooSmall(t *testing.T) {
	for _, l := range selfSufficient() {
		t.Run(l.Name, func(t *testing.T) {
			for _, gap := range []geometry.Length{60 * mm, 40 * mm, 38 * mm, 20 * mm, 10 * mm} {
				b := brief(t, l, frameOf(40*mm, 40*mm), gap, nil)
				_, err := l.Divide(b)
				if err == nil {
					most := 38 * mm // two panels of 1 mm and 38 mm between them make 40
					if l.Name == "random mosaic" {
						most = 54 * mm // its first cut may run from corner to corner, 56.57 mm apart
					}
					require.LessOrEqual(t, gap, most)
					continue
				}
				var small *fronts.TooSmallError
				require.ErrorAs(t, err, &small)
				require.NotEmpty(t, small.Panel)
				require.NotEmpty(t, small.Try)
				require.Less(t, min(small.Size.W, small.Size.H), fronts.LeastPanel)
			}
		})
	}
}

// The same brief gives the same front, and dividing changes no option.
func TestDividingIsRepeatable(t *testing.T) {
	for _, l := range selfSufficient() {
		for _, given := range append([]options{nil}, variants[l.Name]...) {
			b := brief(t, l, frames[0].frame, usualGap, given)
			first, err := l.Divide(b)
			require.NoError(t, err, "%s %v", l.Name, given)
			require.Equal(t, brief(t, l, frames[0].frame, usualGap, given), b)
			again, err := l.Divide(b)
			require.NoError(t, err)
			require.Equal(t, first, again)
		}
	}
}

func TestRegistry(t *testing.T) {
	all := fronts.All()
	require.NotEmpty(t, all)
	for i, l := range all {
		require.NotEmpty(t, l.Summary, l.Name)
		require.NotContains(t, l.Summary, "\n")
		found, ok := fronts.Find(l.Name)
		require.True(t, ok)
		require.Equal(t, l.Summary, found.Summary)
		if i > 0 {
			require.Less(t, all[i-1].Name, l.Name)
		}
	}
	_, ok := fronts.Find("no such layout")
	require.False(t, ok)
	all[0].Name = "changed"
	require.NotEqual(t, "changed", fronts.All()[0].Name, "the list is a copy")
}

func TestRegisterRefusesBugs(t *testing.T) {
	require.PanicsWithValue(t, "fronts: two layouts are called grid", func() { fronts.Register(fronts.Layout{Name: "grid"}) })
	require.Panics(t, func() {
		fronts.Register(fronts.Layout{Name: "x", Options: []fronts.Option{{Name: "n", Kind: fronts.Count, Default: 0}}})
	}, "a default that cannot be read")
	require.Panics(t, func() {
		fronts.Register(fronts.Layout{Name: "x", Options: []fronts.Option{{Name: "n", Kind: "colour", Default: 1}}})
	}, "a kind that there is not")
	_, ok := fronts.Find("x")
	require.False(t, ok)
}

func TestTooSmallErrorSpeaksTheDesignsUnit(t *testing.T) {
	for _, c := range []struct {
		name string
		size geometry.Size
		unit geometry.Unit
		want string
	}{
		{"a sliver", geometry.Size{W: mm / 2, H: 30 * mm}, geometry.Millimetres, "panel A1: only 0.5 x 30 mm, and a panel needs 1 mm each way; use a smaller gap"},
		{"in inches", geometry.Size{W: inch / 32, H: inch}, geometry.Inches, "panel A1: only 1/32 x 1 in, and a panel needs 0.0394 in each way; use a smaller gap"},
		{"nothing", geometry.Size{}, geometry.Inches, "panel A1: nothing is left of it; use a smaller gap"},
		{"3 mm less than nothing", geometry.Size{W: -3 * mm, H: 30 * mm}, geometry.Millimetres, "panel A1: nothing is left of it (it is 4 mm short); use a smaller gap"},
		{"both ways", geometry.Size{W: -3 * mm, H: -5 * mm}, geometry.Millimetres, "panel A1: nothing is left of it (it is 6 mm short); use a smaller gap"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := error(&fronts.TooSmallError{Panel: "A1", Size: c.size, Unit: c.unit, Try: "use a smaller gap"})
			require.EqualError(t, err, c.want)
			var small *fronts.TooSmallError
			require.True(t, errors.As(err, &small))
		})
	}
}
