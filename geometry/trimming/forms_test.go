package trimming_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/geometry/trimming"
)

const mm = geometry.Millimetre

func shape(points ...geometry.Length) geometry.Outline {
	var list []geometry.Point
	for i := 0; i < len(points); i += 2 {
		list = append(list, geometry.Point{X: points[i], Y: points[i+1]})
	}
	return geometry.OutlineFromPoints(list...)
}

var slanted = map[string]geometry.Outline{
	"right triangle":  shape(0, 0, 50*mm, 0, 0, 70*mm),
	"other hand":      shape(0, 0, 50*mm, 0, 50*mm, 70*mm),
	"triangle":        shape(20*mm, 0, 60*mm, 50*mm, 0, 50*mm),
	"hanging":         shape(0, 0, 60*mm, 0, 25*mm, 50*mm),
	"parallelogram":   shape(15*mm, 0, 55*mm, 0, 40*mm, 30*mm, 0, 30*mm),
	"backwards":       shape(0, 0, 40*mm, 0, 55*mm, 30*mm, 15*mm, 30*mm),
	"upright run":     shape(0, 15*mm, 30*mm, 0, 30*mm, 40*mm, 0, 55*mm),
	"trapezium":       shape(10*mm, 0, 40*mm, 0, 60*mm, 30*mm, 0, 30*mm),
	"right trapezium": shape(0, 0, 40*mm, 0, 60*mm, 30*mm, 0, 30*mm),
	"rhombus":         shape(30*mm, 0, 60*mm, 45*mm, 30*mm, 90*mm, 0, 45*mm),
	"hexagon":         shape(20*mm, 0, 60*mm, 0, 80*mm, 35*mm, 60*mm, 70*mm, 20*mm, 70*mm, 0, 35*mm),
	"kite":            shape(20*mm, 0, 45*mm, 30*mm, 20*mm, 90*mm, 0, 30*mm),
	"lone triangle":   shape(0, 0, 50*mm, 20*mm, 10*mm, 60*mm),
}

// carryForm cuts so many units with a form and returns the pieces.
func carryForm(t require.TestingT, f trimming.Form, units int, kerf geometry.Length) []trimming.Done {
	s := trimming.Slicing{Form: f, Name: "block", Units: []trimming.Share{{Count: units}}, AsIs: 0, HalfTurned: 1}
	done, err := trimming.CarryOut([]trimming.Supply{{Name: "block", Size: f.Size, Of: s.Oblongs()}}, s.Steps(kerf), kerf, 0)
	require.NoError(t, err)
	return done
}

func checkForms(t require.TestingT, o geometry.Outline, free trimming.Freedom, pairs bool, kerf geometry.Length, units int) []trimming.Form {
	sheet := geometry.Size{W: 305 * mm, H: 300 * mm}
	forms := trimming.Forms(o, free, pairs, sheet, kerf)
	require.True(t, len(forms) > 0 || kerf > 0)
	for _, f := range forms {
		require.Truef(t, f.Size.W <= sheet.W && f.Size.H <= sheet.H || free == trimming.AnyTurn && f.Size.H <= sheet.W && f.Size.W <= sheet.H || f.Units == 1, "%v", f.Size)
		require.GreaterOrEqual(t, f.Size.W.In(geometry.Millimetres)*f.Size.H.In(geometry.Millimetres), float64(f.Pieces())*o.Area().SquareMM()*(1-1e-6))
		got := [2]int{}
		for _, d := range carryForm(t, f, units, kerf) {
			got[d.Piece]++
			want := o.Turned(f.Turn)
			if d.Piece == 1 {
				want = want.Turned(180)
			}
			require.Containsf(t, geometry.TurnsOnto(d.Outline, want, 10*geometry.Micrometre), 0.0, "a piece of another shape, or turned: %v, wanted %v", d.Outline.Outer.Points(), want.Outer.Points())
		}
		require.Equal(t, units, got[0])
		if f.Paired {
			require.Equal(t, units, got[1])
			require.True(t, pairs || free != trimming.AsItIs)
		}
		require.True(t, f.Turn == 0 || free == trimming.AnyTurn)
	}
	return forms
}

func TestFormsGiveThePiece(t *testing.T) {
	for name, o := range slanted {
		t.Run(name, func(t *testing.T) {
			for _, free := range []trimming.Freedom{trimming.AsItIs, trimming.HalfTurn, trimming.AnyTurn} {
				for _, kerf := range []geometry.Length{0, mm / 5} {
					for _, pairs := range []bool{false, true} {
						for _, units := range []int{1, 3, 7} {
							checkForms(t, o, free, pairs, kerf, units)
						}
					}
				}
			}
		})
	}
}

// By hand: how much paper a piece of the best form takes, as a multiple of its
// own area for endless strips; what the ends of strips waste comes on top.
func TestBestForms(t *testing.T) {
	sheet := geometry.Size{W: 305 * mm, H: 305 * mm}
	for name, c := range map[string]struct {
		free   trimming.Freedom
		pieces int
		paper  float64 // sq. mm a piece
	}{
		"right triangle":  {trimming.HalfTurn, 2, 50 * 70 / 2},
		"right trapezium": {trimming.HalfTurn, 2, 100 * 30 / 2},
		"parallelogram":   {trimming.AsItIs, 7, 305 * 30 / 7.0},   // 15 + 7 x 40 of a strip from side to side
		"upright run":     {trimming.AsItIs, 7, 305 * 30 / 7.0},   // the same, from top to bottom
		"triangle":        {trimming.HalfTurn, 4, 140 * 50 / 4.0}, // 20 + 2 x 60
		"trapezium":       {trimming.HalfTurn, 4, 190 * 30 / 4.0}, // 10 + 2 x 90
		"hexagon":         {trimming.HalfTurn, 1, 80 * 70},        // the oblong around it
		"lone triangle":   {trimming.AsItIs, 1, 50 * 60},
	} {
		best := trimming.Forms(slanted[name], c.free, false, sheet, 0)[0]
		require.Equal(t, c.pieces, best.Pieces(), name)
		require.InDelta(t, c.paper, best.Size.W.In(geometry.Millimetres)*best.Size.H.In(geometry.Millimetres)/float64(best.Pieces()), 1e-3, name)
	}
}

func TestFormsOfAnyConvexShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 7).Draw(t, "corners")
		var at []float64
		for range n {
			at = append(at, rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle"))
		}
		slices.Sort(at)
		rx, ry := rapid.Float64Range(15, 60).Draw(t, "rx"), rapid.Float64Range(15, 60).Draw(t, "ry")
		var points []geometry.Point
		for i, a := range at {
			if i > 0 && a-at[i-1] < 0.2 {
				continue
			}
			p, err := geometry.PointFromMM(70+rx*math.Cos(a), 70+ry*math.Sin(a))
			require.NoError(t, err)
			points = append(points, p)
		}
		if len(points) < 3 || at[len(at)-1]-at[0] > 2*math.Pi-0.2 {
			return
		}
		o := geometry.OutlineFromPoints(points...)
		if o.Validate() != nil || o.Breadth() < 5*mm {
			return
		}
		free := rapid.SampledFrom([]trimming.Freedom{trimming.AsItIs, trimming.HalfTurn, trimming.AnyTurn}).Draw(t, "free")
		checkForms(t, o, free, rapid.Bool().Draw(t, "pairs"), geometry.Length(rapid.IntRange(0, 2).Draw(t, "kerf"))*mm/10, rapid.IntRange(1, 5).Draw(t, "units"))
	})
}
