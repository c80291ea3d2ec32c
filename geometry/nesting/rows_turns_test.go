package nesting_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/geometry/nesting"
)

// The two halves of a cell are two one-way kinds; as they lie in their cell
// they meet along their long sides, so neither needs a turn.
func TestRowsPairOneWayHalvesOfACell(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{
			want("a", shape("0,0 30,0 0,20"), 3, nesting.NoTurn),
			want("b", shape("30,0 30,20 0,20"), 3, nesting.NoTurn),
		},
		Stock: endless(30*mm, 60*mm),
	}
	layout := pack(t, job)
	require.Len(t, layout.Sheets, 1, "three oblongs of 30 x 20 above each other")
	require.Equal(t, []float64{0}, turnsUsed(layout))
}

// Of four a and two b, two a are left over and lie alone.
func TestRowsPairWhatTheyCan(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{
			want("a", shape("0,0 30,0 0,20"), 4, nesting.NoTurn),
			want("b", shape("30,0 30,20 0,20"), 2, nesting.NoTurn),
		},
		Stock: endless(30*mm, 80*mm),
	}
	require.Len(t, pack(t, job).Sheets, 1, "two oblongs and two triangles, 20 high each")
}

// Halves of unlike cells are not taken for a pair.
func TestRowsPairOnlyAlikeHalves(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{
			want("a", shape("0,0 30,0 0,20"), 1, nesting.NoTurn),
			want("b", shape("30,0 30,20.03 0,20.03"), 1, nesting.NoTurn),
		},
		Stock: endless(30*mm, 21*mm),
	}
	require.Len(t, pack(t, job).Sheets, 2)
}

func TestRowsTurnNoLoneOneWayKind(t *testing.T) {
	for name, text := range map[string]string{
		"right triangle": "0,0 30,0 0,20",
		"tall oblong":    "0,0 10,0 10,40 0,40",
		"tilted oblong":  "0,10 30,0 34,12 4,22",
	} {
		t.Run(name, func(t *testing.T) {
			job := nesting.Job{
				Shapes: []nesting.Shape{want(name, shape(text), 7, nesting.NoTurn)},
				Stock:  endless(100*mm, 100*mm), Spacing: mm,
			}
			require.Equal(t, []float64{0}, turnsUsed(pack(t, job)))
		})
	}
}

// 10 x 20 mm on 100 mm square: 50 either way, so it lies level.
func TestRowsLieLowOnATie(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("oblong", oblong(10*mm, 20*mm), 50, nesting.QuarterTurns)},
		Stock:  endless(100*mm, 100*mm),
	}
	layout := pack(t, job)
	require.Len(t, layout.Sheets, 1)
	require.Equal(t, []float64{90}, turnsUsed(layout))
}

func TestRowsTurnOnlyAsAllowed(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("half", shape("0,0 30,0 0,20"), 6, nesting.HalfTurns)},
		Stock:  endless(70*mm, 70*mm), Spacing: mm,
	}
	require.Equal(t, []float64{0, 180}, turnsUsed(pack(t, job)))
}

// A tilted oblong of 40 x 20 needs a box of 40 cos 30 + 20 sin 30 = 44.64 by
// 40 sin 30 + 20 cos 30 = 37.32 mm; level it needs 40 x 20, and 2 nm for
// rounding corners twice.
func TestRowsLayTiltedShapesLevel(t *testing.T) {
	rounded := geometry.Outline{Outer: geometry.Ring{
		geometry.LineTo(geometry.Point{X: 30 * mm}),
		geometry.CurveTo(geometry.Point{X: 43_333_333}, geometry.Point{X: 43_333_333, Y: 20 * mm}, geometry.Point{X: 30 * mm, Y: 20 * mm}),
		geometry.LineTo(geometry.Point{Y: 20 * mm}),
		geometry.LineTo(geometry.Point{}),
	}}
	for name, o := range map[string]geometry.Outline{
		"oblong":                   oblong(40*mm, 20*mm),
		"one end round":            rounded,
		"one end of some 64 sides": manySided(60, 1),
		"one end of many sides":    manySided(200, 1),
		"straight sides come last": manySided(205, 1),
	} {
		t.Run(name, func(t *testing.T) {
			require.NoError(t, o.Validate())
			size := o.Bounds().Size()
			job := nesting.Job{
				Shapes: []nesting.Shape{want(name, o.Turned(30), 1, nesting.AnyTurn)},
				Stock:  endless(size.W+2, size.H+2),
			}
			require.Len(t, pack(t, job).Sheets, 1)
		})
	}
}

// manySided is a tab of 30 x 20 mm with a round end of that many sides,
// begun at one of its corners.
func manySided(sides, first int) geometry.Outline {
	points := []geometry.Point{{}, {X: 30 * mm}}
	for i := 1; i < sides; i++ {
		arm := turnedPoint(geometry.Point{Y: -10 * mm}, 180*float64(i)/float64(sides))
		points = append(points, arm.Add(geometry.Vector{X: 30 * mm, Y: 10 * mm}))
	}
	points = append(points, geometry.Point{X: 30 * mm, Y: 20 * mm}, geometry.Point{Y: 20 * mm})
	return geometry.OutlineFromPoints(append(points[first:], points[:first]...)...)
}

// turnedPoint turns a point about the origin, clockwise.
func turnedPoint(p geometry.Point, degrees float64) geometry.Point {
	return geometry.PathFromPoints(geometry.Point{}, p).Turned(degrees).Then[0].To
}

// Right triangles that lie askew are laid on their legs and paired, and a
// tall pair is laid down: all within the nanometres of rounding.
func TestRowsPairTiltedTriangles(t *testing.T) {
	for degrees := 1.0; degrees < 360; degrees += 7.3 {
		for _, sheet := range [][]nesting.Sheet{endless(65*mm, 50*mm), endless(50*mm, 65*mm), endless(90*mm, 50*mm)} {
			job := nesting.Job{
				Shapes: []nesting.Shape{want("half", demoHalf().Turned(degrees), 2, nesting.AnyTurn)},
				Stock:  sheet,
			}
			// Legs 48.804 x 64.055 mm. On its long side, 80.529 mm, a half is 38.820
			// high: on the last sheet that would be one a sheet.
			require.Len(t, pack(t, job).Sheets, 1, "%v degrees", degrees)
		}
	}
}

// On a sheet of 60 mm square a strip of 70 x 2 mm fits only aslant: at 45
// degrees its box is (70 + 2) / sqrt 2 = 50.9 mm.
func TestRowsLayAStripAslant(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("strip", oblong(70*mm, 2*mm), 1, nesting.AnyTurn)},
		Stock:  endless(60*mm, 60*mm),
	}
	require.Len(t, pack(t, job).Sheets, 1)
	job.Shapes[0].Turns = nesting.TurnsFrom(45)
	require.Len(t, pack(t, job).Sheets, 1)
}

// A strip whose short side has an odd number of nanometres: turned by 150
// degrees that side ends at 0.5 nm, which rounds one way, and turned by 240
// the other way, so that the strip grows by a nanometre.
func TestRowsMeasureWhatTheyTurn(t *testing.T) {
	strip := geometry.OutlineFromPoints(geometry.Point{}, geometry.Point{X: 9_999_999},
		geometry.Point{X: -10_000_001, Y: 34_641_016}, geometry.Point{X: -20 * mm, Y: 34_641_016})
	tall, level := strip.Turned(150).Bounds(), strip.Turned(240).Bounds()
	require.Equal(t, tall.H()+1, level.W(), "or else this shows nothing")
	for _, c := range []struct {
		name  string
		width geometry.Length
		turns []float64
	}{
		// Some 8.66 x 45 mm: level 2 x 5 (5 x 8.66 + 4 = 47.3), upright 9
		// (9 x 8.66 + 8 = 85.9 of 91).
		{"two level ones just fit", 2*level.W() + mm, []float64{240}},
		{"only upright", 2*tall.H() + mm, []float64{150}},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := nesting.Job{
				Shapes: []nesting.Shape{want("strip", strip, 10, nesting.TurnsFrom(150, 240))},
				Stock:  endless(c.width, 48*mm), Spacing: mm,
			}
			require.Equal(t, c.turns, turnsUsed(pack(t, job)))
		})
	}
}

func TestTurns(t *testing.T) {
	for _, c := range []struct {
		name    string
		turns   nesting.Turns
		degrees float64
		allowed bool
	}{
		{"none at all", nesting.NoTurn, 0, true},
		{"a whole turn is none", nesting.NoTurn, -720, true},
		{"a hair under a whole turn", nesting.NoTurn, 360 - 1e-9, true},
		{"half where none", nesting.NoTurn, 180, false},
		{"half", nesting.HalfTurns, 180, true},
		{"half to the left", nesting.HalfTurns, -180, true},
		{"quarter where half", nesting.HalfTurns, 90, false},
		{"quarter", nesting.QuarterTurns, 270, true},
		{"quarter within rounding", nesting.QuarterTurns, 270 + 1e-9, true},
		{"a millionth of a degree off", nesting.QuarterTurns, 270 + 1e-6, false},
		{"listed", nesting.TurnsFrom(-30), 330, true},
		{"not listed", nesting.TurnsFrom(-30), 30, false},
		{"0 need not be listed", nesting.TurnsFrom(30), 0, true},
		{"any", nesting.AnyTurn, 123.456, true},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.allowed, c.turns.Allow(c.degrees)) })
	}
	require.True(t, nesting.AnyTurn.AllowAny())
	require.False(t, nesting.QuarterTurns.AllowAny())
}
