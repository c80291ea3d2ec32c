package fronts_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

func init() {
	variants["diagonal stripes"] = []options{{"angle": "0 deg"}, {"angle": "90 deg", "bands": int64(4)}, {"angle": "-30 deg", "slivers": "leave out"}, {"angle": 70.5, "slivers": "keep", "bands": int64(12)}}
	variants["chevron"] = []options{{"slope": "-20 deg"}, {"columns": int64(3), "bands": int64(5), "slivers": "keep"}, {"slope": "0 deg"}}
	variants["bargello"] = []options{{"step": "1/3", "wave": int64(2)}, {"columns": int64(7), "strips": int64(6), "slivers": "keep"}}
	variants["harlequin"] = []options{{"columns": int64(2), "rows": int64(2)}, {"columns": int64(5), "rows": int64(3)}}
	variants["honeycomb"] = []options{{"columns": int64(2)}, {"columns": int64(7), "slivers": "keep"}, {"slivers": "leave out"}}
	variants["herringbone"] = []options{{"lie": "straight"}, {"bricks": int64(7), "slivers": "leave out"}, {"lie": "straight", "slivers": "keep"}}
	variants["sunburst"] = []options{{"rays": int64(7)}, {"rays": int64(5), "centre": "bottom"}, {"rays": int64(8), "share": "border"}, {"rays": int64(6), "centre": []any{"1/3", "1/4"}}, {"disc": "6 mm"}}
	variants["fan"] = []options{{"corner": "top right", "share": "border"}, {"rays": int64(3), "corner": "bottom right"}}
	variants["random mosaic"] = []options{{"seed": int64(2)}, {"pieces": int64(30), "seed": int64(99)}, {"pieces": int64(3), "least": "10 mm"}}
}

// whole returns the panels that the frame's border does not touch.
func whole(b geometry.Rect, f fronts.Front) []fronts.Panel {
	return slices.DeleteFunc(slices.Clone(f.Panels), func(p fronts.Panel) bool {
		box := p.Outline.Bounds()
		return box.Min.X <= b.Min.X || box.Min.Y <= b.Min.Y || box.Max.X >= b.Max.X || box.Max.Y >= b.Max.Y
	})
}

// Trade-facts section 6, case 8: a regular hexagon of side a is 1.73205 a
// from side to side, 2 a from point to point, and has the area 2.59808 a². Four
// without gaps on 100 mm are 25 mm from side to side.
func TestHoneycombIsRegular(t *testing.T) {
	frame := frameOf(100*mm, 140*mm)
	f := divide(t, layout(t, "honeycomb"), frame, 0, options{"columns": int64(4)})
	inner := whole(frame, f)
	require.NotEmpty(t, inner)
	a := 25 / 1.73205
	for _, p := range inner {
		size := p.Outline.Bounds().Size()
		require.InDelta(t, 25, size.W.In(geometry.Millimetres), 1e-4)
		require.InDelta(t, 2*a, size.H.In(geometry.Millimetres), 1e-4)
		require.InDelta(t, 2.59808*a*a, p.Outline.Area().SquareMM(), 1e-2)
		for _, angle := range p.Outline.Angles() {
			require.InDelta(t, 120, angle, 1e-4)
		}
	}
}

// A gap of g moves each side in by g/2: by hand, 100/4 - 2 from side to side.
func TestHoneycombWithGap(t *testing.T) {
	frame := frameOf(100*mm, 140*mm)
	for _, p := range whole(frame, divide(t, layout(t, "honeycomb"), frame, 2*mm, options{"columns": int64(4)})) {
		require.InDelta(t, 23, p.Outline.Bounds().W().In(geometry.Millimetres), 1e-5, p.Name)
	}
}

// No two neighbours in a honeycomb have one role.
func TestHoneycombRoles(t *testing.T) {
	f := divide(t, layout(t, "honeycomb"), frameOf(100*mm, 140*mm), mm, options{"columns": int64(5), "slivers": "keep"})
	for i, p := range f.Panels {
		for _, q := range f.Panels[:i] {
			if !geometry.Apart(p.Outline, q.Outline, mm+mm/10) {
				require.NotEqual(t, p.Role, q.Role, "%s and %s", p.Name, q.Name)
			}
		}
	}
}

// Trade-facts section 6, case 8: an eight-point star block is 3.4142 times
// the side of its diamonds: 12 in give 3.5147 in. Its corners are squares of
// that side, and all diamonds are alike.
func TestStarOfKnownSize(t *testing.T) {
	f := divide(t, layout(t, "eight-point star"), frameOf(12*inch, 12*inch), 0, nil)
	require.Len(t, f.Panels, 16)
	first := f.Panels[0].Outline
	for _, p := range f.Panels {
		size := p.Outline.Bounds().Size()
		switch {
		case p.Role < 2:
			require.NotEmpty(t, geometry.TurnsOnto(first, p.Outline, 10), p.Name)
			for _, side := range sidesIn(p.Outline) {
				require.InDelta(t, 3.5147, side, 1e-4)
			}
		case len(p.Outline.Tidied().Outer) == 4:
			require.InDelta(t, 3.5147, size.W.In(geometry.Inches), 1e-4)
			require.InDelta(t, 3.5147, size.H.In(geometry.Inches), 1e-4)
		default:
			// The long sides of the side pieces make, with the corners cut off, a
			// regular octagon of the square: 0.41421 of its side (section 6, case 8).
			require.InDelta(t, 0.41421*12, max(size.W, size.H).In(geometry.Inches), 1e-4)
		}
	}
}

// A wedge's tip stands (g/2)/sin(θ/2) back from the place (architecture,
// decision 3): for 12 rays θ is 30 degrees, and with a gap of 2 mm that is
// 1/sin 15° = 3.8637 mm.
func TestSunburstTipsStandBack(t *testing.T) {
	frame := frameOf(100*mm, 100*mm)
	f := divide(t, layout(t, "sunburst"), frame, 2*mm, nil)
	require.Len(t, f.Panels, 12)
	for _, p := range f.Panels {
		nearest := math.Inf(1)
		for _, c := range p.Outline.Outer.Points() {
			nearest = math.Min(nearest, c.Sub(frame.Centre()).Len())
		}
		require.InDelta(t, 3.8637e6, nearest, 100, p.Name)
	}
}

// Rays that share the border equally: 8 on a square of 100 mm end every 50 mm,
// at the corners and the middles of the sides, so without gaps all panels are
// triangles of 1250 mm2.
func TestSunburstSharesTheBorder(t *testing.T) {
	f := divide(t, layout(t, "sunburst"), frameOf(100*mm, 100*mm), 0, options{"rays": int64(8), "share": "border"})
	for _, p := range f.Panels {
		require.InDelta(t, 1250, p.Outline.Area().SquareMM(), 1e-3)
	}
}

// The disc is a circle of its radius (area π r², within what four cubics are
// off: 2.7e-4 r all round), and the rays end one gap outside of it.
func TestSunburstDisc(t *testing.T) {
	f := divide(t, layout(t, "sunburst"), frameOf(100*mm, 100*mm), 2*mm, options{"disc": "10 mm"})
	disc := f.Panels[len(f.Panels)-1]
	require.InDelta(t, math.Pi*100, disc.Outline.Area().SquareMM(), math.Pi*100*6e-4)
	for _, p := range f.Panels[:12] {
		require.True(t, geometry.Apart(p.Outline, disc.Outline, 2*mm-10*geometry.Micrometre), p.Name)
		require.False(t, geometry.Apart(p.Outline, disc.Outline, 2*mm+10*geometry.Micrometre), p.Name)
	}
}

// Four rays of a fan that share the border of 100 x 60 mm end 40 mm apart:
// at 40 and 80 mm along the upper side, and 20 mm down the right one.
func TestFanSharesTheBorder(t *testing.T) {
	f := divide(t, layout(t, "fan"), frameOf(100*mm, 60*mm), 0, options{"rays": int64(4), "share": "border"})
	var areas []float64
	for _, p := range f.Panels {
		areas = append(areas, p.Outline.Area().SquareMM())
	}
	// Triangles with the height 60 on 40, 40 and 20, and with the height 100 on 20
	// and 40.
	require.InDeltaSlice(t, []float64{1200, 1200, 600 + 1000, 2000}, areas, 1e-3)
}

// A fan of three from a corner of a square: the rays are at 30 and 60 degrees.
func TestFan(t *testing.T) {
	f := divide(t, layout(t, "fan"), frameOf(100*mm, 100*mm), 0, options{"rays": int64(3)})
	require.Len(t, f.Panels, 3)
	area := 100 * 100 * math.Tan(math.Pi/6) / 2 // the first and the last are right triangles
	require.InDelta(t, area, f.Panels[0].Outline.Area().SquareMM(), 1e-3)
	require.InDelta(t, area, f.Panels[2].Outline.Area().SquareMM(), 1e-3)
}

// Whole bricks of a herringbone are twice as long as broad: by hand, five
// breadths on 100 mm without gaps are 20 x 40.
func TestHerringboneBricks(t *testing.T) {
	frame := frameOf(100*mm, 140*mm)
	f := divide(t, layout(t, "herringbone"), frame, 0, options{"bricks": int64(5), "lie": "straight"})
	inner := whole(frame, f)
	require.NotEmpty(t, inner)
	for _, p := range inner {
		size := p.Outline.Bounds().Size()
		want := geometry.Size{W: 40 * mm, H: 20 * mm}
		if p.Role == 1 {
			want = want.Turned()
		}
		require.InDelta(t, float64(want.W), float64(size.W), 2, p.Name)
		require.InDelta(t, float64(want.H), float64(size.H), 2, p.Name)
	}
}

// Chevrons are the same mirrored left for right when their columns are even.
func TestChevronIsSymmetric(t *testing.T) {
	frame := frameOf(101*mm, 137*mm)
	f := divide(t, layout(t, "chevron"), frame, 2*mm, options{"columns": int64(4)})
	areas := map[string]float64{}
	for _, p := range f.Panels {
		areas[p.Name] = p.Outline.Area().SquareMM()
	}
	for name, area := range areas {
		other := string("DCBA"[name[0]-'A']) + name[1:]
		require.InDelta(t, area, areas[other], 1e-3, name)
	}
}

// A mosaic has as many pieces as asked where there is room, none narrower than
// asked, and another seed gives another one.
func TestMosaic(t *testing.T) {
	l, frame := layout(t, "random mosaic"), frameOf(600*mm, 600*mm)
	f := divide(t, l, frame, mm, options{"pieces": int64(2000)})
	require.Len(t, f.Panels, 2000)
	small := divide(t, l, frameOf(105*mm, 148*mm), 2*mm, options{"least": "12 mm", "pieces": int64(14)})
	require.Greater(t, len(small.Panels), 8)
	for _, p := range small.Panels {
		require.GreaterOrEqual(t, p.Outline.Breadth(), 12*mm)
		require.True(t, p.Outline.IsConvex())
	}
	other := divide(t, l, frameOf(105*mm, 148*mm), 2*mm, options{"least": "12 mm", "pieces": int64(14), "seed": int64(2)})
	require.NotEqual(t, small.Panels[0].Outline, other.Panels[0].Outline)
}

// Neighbours in a mosaic have different roles.
func TestMosaicRoles(t *testing.T) {
	f := divide(t, layout(t, "random mosaic"), frameOf(105*mm, 148*mm), 2*mm, options{"pieces": int64(20)})
	for i, p := range f.Panels {
		for _, q := range f.Panels[:i] {
			if !geometry.Apart(p.Outline, q.Outline, 2*mm+1000) {
				require.NotEqual(t, p.Role, q.Role, "%s and %s", p.Name, q.Name)
			}
		}
	}
}

// The presets' cuts as trade-facts section 7 draws them, for two by two cells.
func TestPresetSlants(t *testing.T) {
	for name, want := range map[string]string{
		"pinwheel": `\/ /\`, "broken dishes": `\/ /\`, "eight-ray X": `\/ /\`,
		"diamond in quarters": `/\ \/`, "diagonal ribbons": `// //`, "sawtooth": `// //`, "zigzag": `/\ /\`,
	} {
		f := divide(t, layout(t, name), frameOf(80*mm, 80*mm), 2*mm, options{"columns": int64(2), "rows": int64(2)})
		hands := map[string]string{}
		for _, p := range f.Panels {
			hands[p.Name[:2]] = p.Hand
		}
		require.Equal(t, want, strings.Join([]string{hands["A1"] + hands["B1"], hands["A2"] + hands["B2"]}, " "), name)
	}
}

// Round the middle of a pinwheel's block the two papers alternate; in broken
// dishes they come in pairs; the eight rays are all different; the diamond's
// four halves have one paper and the corners the other.
func TestPresetRoles(t *testing.T) {
	round := func(name string) []int {
		frame := frameOf(80*mm, 80*mm)
		f := divide(t, layout(t, name), frame, 2*mm, options{"columns": int64(2), "rows": int64(2)})
		slices.SortFunc(f.Panels, func(p, q fronts.Panel) int {
			at := func(p fronts.Panel) float64 {
				v := p.Outline.Centre().Sub(frame.Centre())
				return math.Mod(math.Atan2(float64(v.X), -float64(v.Y))+2*math.Pi, 2*math.Pi)
			}
			return int(math.Copysign(1, at(p)-at(q)))
		})
		var out []int
		for _, p := range f.Panels {
			out = append(out, p.Role)
		}
		return out
	}
	pinwheel := round("pinwheel")
	for i, role := range pinwheel {
		require.NotEqual(t, role, pinwheel[(i+1)%8])
	}
	dishes := round("broken dishes") // from the half right of the top
	require.Equal(t, dishes[7], dishes[0])
	for i := 1; i < 7; i += 2 {
		require.Equal(t, dishes[i], dishes[i+1])
		require.NotEqual(t, dishes[i-1], dishes[i])
	}
	rays := round("eight-ray X")
	slices.Sort(rays)
	require.Equal(t, []int{0, 1, 2, 3, 4, 5, 6, 7}, rays)
	f := divide(t, layout(t, "diamond in quarters"), frameOf(80*mm, 80*mm), 0, options{"columns": int64(2), "rows": int64(2)})
	for _, p := range f.Panels {
		inner := p.Outline.Contains(frameOf(80*mm, 80*mm).Centre())
		require.Equal(t, inner, p.Role == f.Panels[1].Role, p.Name)
	}
}
