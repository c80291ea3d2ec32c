package geometry_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

func TestCentre(t *testing.T) {
	for _, c := range []struct{ name, shape, want string }{
		{"oblong", "1,2 11,2 11,6 1,6", "6,4"},
		{"triangle: the mean of its corners", "0,0 9,0 0,6", "3,2"},
		// (400 x 10 - 100 x 15) / 300 = 8.333333
		{"L of 20 with a 10 square out", "0,0 20,0 20,10 10,10 10,20 0,20", "8.333333,8.333333"},
		// (100 x 5 - 8 x 3) / 92 = 5.173913; (100 x 5 - 8 x 4) / 92 = 5.086957
		{"window", "0,0 10,0 10,10 0,10; 2,2 4,2 4,6 2,6", "5.173913,5.086957"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, place(c.want), shape(c.shape).Centre())
		})
	}
	require.Equal(t, place("3,4"), circle(place("3,4"), 10*mm).Centre())
}

func TestCentreMovesAndTurnsWithTheShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := rapid.SampledFrom(gridShapes()).Draw(t, "shape")
		by := geometry.Vector{X: anyLength().Draw(t, "x"), Y: anyLength().Draw(t, "y")}
		require.Equal(t, o.Centre().Add(by), o.Moved(by).Centre())
		turned := o.Turned(90).Centre() // halves round away from zero
		require.LessOrEqual(t, (turned.X + o.Centre().Y).Abs(), geometry.Nanometre)
		require.LessOrEqual(t, (turned.Y - o.Centre().X).Abs(), geometry.Nanometre)
	})
}
