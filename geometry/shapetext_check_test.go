package geometry_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// The notation that the other tests are written in has tests of its own.

func TestShapeNotation(t *testing.T) {
	o := shape("0,0 0,10 10,10 10,0; 2,2 4,2 4,4")
	require.Equal(t, 1, o.Outer.Area().Sign(), "the outer ring runs clockwise")
	require.Equal(t, -1, o.Holes[0].Area().Sign(), "a hole runs the other way")
	require.Equal(t, "0,0 10,0 10,10 0,10; 2,2 4,4 4,2", shapeText(o))
	require.Equal(t, geometry.Point{X: 1_500_000, Y: -3}, place("1.5,-0.000003"))
	require.Panics(t, func() { place("1.5 mm") }, "a corner without a y")
}

func TestShapeTextDoesNotDependOnTheStart(t *testing.T) {
	require.Equal(t,
		sameTexts("5,5 9,5 9,9", "0,0 10,0 10,10"),
		sameTexts("10,10 0,0 10,0", "9,9 5,5 9,5"))
}

func TestRawShapeKeepsTheDirection(t *testing.T) {
	require.Equal(t, -1, rawShape("0,0 0,10 10,10").Outer.Area().Sign())
}

func TestCircleRunsClockwise(t *testing.T) {
	require.NoError(t, circle(place("3,4"), geometry.Millimetre).Validate())
}

func TestStoredShapesAreWorthTrying(t *testing.T) {
	holes, concave, most := 0, 0, 0
	for _, o := range gridShapes() {
		holes += len(o.Holes)
		most = max(most, len(o.Outer))
		if !o.IsConvex() {
			concave++
		}
	}
	t.Logf("%d shapes, %d holes, %d concave, up to %d sides", len(gridShapes()), holes, concave, most)
	require.Greater(t, holes, 40)
	require.Greater(t, concave, 120)
	require.Greater(t, most, 7)
}
