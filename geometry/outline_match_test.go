package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

// tol is how closely pieces must match to be one kind: 0.01 mm, far under
// what anybody cuts (common practice, no source).
const tol = mm / 100

// ┌────╱│     │╲────┐     an oblong cell cut "/" gives two pieces of one
// │  ╱  │     │  ╲  │     kind; those of a cell cut "\" are mirror images
// │╱────┘     └────╲│     of them and no turn makes them fit
func TestTurnsOntoHalvesOfACell(t *testing.T) {
	slashUpper, slashLower := shape("0,0 30,0 0,40"), shape("30,0 30,40 0,40")
	backUpper, backLower := shape("0,0 30,0 30,40"), shape("0,0 30,40 0,40")
	require.Equal(t, []float64{0}, geometry.TurnsOnto(slashUpper, slashUpper, tol))
	require.Equal(t, []float64{180}, geometry.TurnsOnto(slashUpper, slashLower, tol))
	require.Equal(t, []float64{180}, geometry.TurnsOnto(backUpper, backLower, tol))
	require.Empty(t, geometry.TurnsOnto(slashUpper, backUpper, tol))
	require.Empty(t, geometry.TurnsOnto(slashUpper, backLower, tol))
	require.Equal(t, []float64{0}, geometry.TurnsOnto(slashUpper.Mirrored(), backUpper, tol))
}

// In a square cell every half is every other one, turned by quarters.
func TestTurnsOntoHalvesOfASquareCell(t *testing.T) {
	halves := []string{"0,0 30,0 0,30", "0,0 30,0 30,30", "30,0 30,30 0,30", "0,0 30,30 0,30"}
	for i, a := range halves {
		for j, b := range halves {
			// Corner at top left, top right, bottom right, bottom left: clockwise.
			want := float64((j - i + 4) % 4 * 90)
			require.Equal(t, []float64{want}, geometry.TurnsOnto(shape(a), shape(b), tol))
		}
	}
}

func TestTurnsOnto(t *testing.T) {
	for _, c := range []struct {
		name, a, b string
		want       []float64
	}{
		{"oblong", "0,0 30,0 30,10 0,10", "5,5 35,5 35,15 5,15", []float64{0, 180}},
		{"oblong stood up", "0,0 30,0 30,10 0,10", "0,0 10,0 10,30 0,30", []float64{90, 270}},
		{"square", "0,0 10,0 10,10 0,10", "0,0 10,0 10,10 0,10", []float64{0, 90, 180, 270}},
		{"with a vertex on a side", "0,0 30,0 30,10 0,10", "0,0 7,0 30,0 30,10 0,10", []float64{0, 180}},
		{"started elsewhere", "0,0 30,0 30,10", "30,10 0,0 30,0", []float64{0}},
		{"other sizes", "0,0 30,0 30,10 0,10", "0,0 31,0 31,10 0,10", nil},
		{"other corners", "0,0 30,0 30,10 0,10", "0,0 30,0 0,10", nil},
		{"window in the middle", "0,0 30,0 30,10 0,10; 12,4 18,4 18,6 12,6", "0,0 30,0 30,10 0,10; 12,4 18,4 18,6 12,6", []float64{0, 180}},
		{"window at one end", "0,0 30,0 30,10 0,10; 2,4 6,4 6,6 2,6", "0,0 30,0 30,10 0,10; 24,4 28,4 28,6 24,6", []float64{180}},
		{"window gone", "0,0 30,0 30,10 0,10; 2,4 6,4 6,6 2,6", "0,0 30,0 30,10 0,10", nil},
		{"window elsewhere", "0,0 30,0 30,10 0,10; 2,4 6,4 6,6 2,6", "0,0 30,0 30,10 0,10; 3,4 7,4 7,6 3,6", nil},
		{"windows in another order", "0,0 30,0 30,10 0,10; 2,4 6,4 6,6; 9,3 9,5 12,5",
			"0,0 30,0 30,10 0,10; 9,3 9,5 12,5; 2,4 6,4 6,6", []float64{0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, geometry.TurnsOnto(shape(c.a), shape(c.b), tol))
		})
	}
	require.Empty(t, geometry.TurnsOnto(geometry.Outline{}, geometry.Outline{}, tol))
}

// Each corner of an oblong 20 micrometres wider is 10 micrometres, the whole
// tolerance, from its place; one nanometre more is too much.
func TestTurnsOntoAtTheTolerance(t *testing.T) {
	a := shape("0,0 50,0 50,30 0,30")
	require.Equal(t, []float64{0, 180}, geometry.TurnsOnto(a, shape("0,0 50.02,0 50.02,30 0,30"), tol))
	require.Empty(t, geometry.TurnsOnto(a, shape("0,0 50.020002,0 50.020002,30 0,30"), tol))
	require.Equal(t, []float64{90, 270}, geometry.TurnsOnto(a, shape("0,0 30.02,0 30.02,50 0,50"), tol))
	require.Empty(t, geometry.TurnsOnto(a, shape("0,0 30.020002,0 30.020002,50 0,50"), tol))

	window := "; 20,10 25,10 25,20 20,20"
	near, off := "; 20.01,10 25.01,10 25.01,20 20.01,20", "; 20.010001,10 25.010001,10 25.010001,20 20.010001,20"
	const frame = "0,0 50,0 50,30 0,30"
	require.Equal(t, []float64{0}, geometry.TurnsOnto(shape(frame+window), shape(frame+near), tol))
	require.Empty(t, geometry.TurnsOnto(shape(frame+window), shape(frame+off), tol))
}

// Pieces that are a hair askew still count as quarter turns, exactly.
func TestTurnsOntoGivesQuarterTurnsExactly(t *testing.T) {
	a := shape("0,0 30,0 30,10 0,10")
	askew := a.Turned(90.005) // 30 mm x 0.005 degrees = 2.6 micrometres
	require.Equal(t, []float64{90, 270}, geometry.TurnsOnto(a, askew, tol))
	skew := geometry.TurnsOnto(a, a.Turned(359.999), tol)
	require.Equal(t, []float64{0, 180}, skew)
}

func TestTurnsOntoFindsOddAngles(t *testing.T) {
	// A regular hexagon of 20 mm: 10 sqrt 3 = 17.320508.
	hexagon := shape("20,0 10,17.320508 -10,17.320508 -20,0 -10,-17.320508 10,-17.320508")
	found := geometry.TurnsOnto(hexagon, hexagon, tol)
	require.InDeltaSlice(t, []float64{0, 60, 120, 180, 240, 300}, found, 1e-5)
}

func TestTurnsOntoMatchesCurves(t *testing.T) {
	round := disc(10 * mm)
	require.Equal(t, []float64{0, 90, 180, 270}, geometry.TurnsOnto(round, circle(place("30,7"), 10*mm), tol))
	require.Empty(t, geometry.TurnsOnto(round, shape("10,0 0,10 -10,0 0,-10"), tol))
	require.Empty(t, geometry.TurnsOnto(round, disc(11*mm), tol))
	var handles []geometry.Point // a polygon through the circle's corners and handles
	for _, s := range round.Outer {
		handles = append(handles, s.C1, s.C2, s.To)
	}
	require.Empty(t, geometry.TurnsOnto(round, geometry.OutlineFromPoints(handles...), tol))
	drop := geometry.Outline{Outer: geometry.Ring{
		geometry.CurveTo(place("12,0"), place("15,10"), place("0,10")), geometry.LineTo(place("0,0"))}}
	require.Equal(t, []float64{270}, geometry.TurnsOnto(drop, drop.Turned(270).Moved(geometry.Vector{X: 3 * mm}), tol))
	require.Empty(t, geometry.TurnsOnto(drop, drop.Mirrored(), tol))
}

// What is turned and moved is found again at that angle, and the turn found
// brings each corner to its place.
func TestTurnsOntoFindsTheTurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.SampledFrom(gridShapes()).Draw(t, "shape")
		degrees := float64(rapid.IntRange(0, 359).Draw(t, "degrees"))
		by := geometry.Vector{X: geometry.Length(rapid.Int64Range(-1e9, 1e9).Draw(t, "x")), Y: 5 * mm}
		before := copyOf(a)
		b := a.Turned(degrees).Moved(by)
		near := math.Inf(1)
		for _, d := range geometry.TurnsOnto(a, b, tol) {
			off := math.Abs(d - degrees)
			near = min(near, off, 360-off)
		}
		require.Less(t, near, 1e-4, "%v degrees", degrees)
		require.Equal(t, before, a)
	})
}

// Turns found one way are found back the other way, as 360 degrees less.
func TestTurnsOntoAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.SampledFrom(gridShapes()).Draw(t, "a")
		b := rapid.SampledFrom(gridShapes()).Draw(t, "b")
		if rapid.Bool().Draw(t, "same") {
			b = a.Turned(90)
		}
		there, back := geometry.TurnsOnto(a, b, tol), geometry.TurnsOnto(b, a, tol)
		require.Len(t, back, len(there))
		for _, d := range there {
			require.Contains(t, back, geometry.NormalDegrees(-d))
		}
	})
}
