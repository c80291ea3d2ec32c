package layouts

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// By hand: a parallelogram, a triangle on its side, a hexagon; and no two
// corners of a part share a name.
func TestCornerNames(t *testing.T) {
	at := func(xy ...geometry.Length) geometry.Outline {
		var points []geometry.Point
		for i := 0; i < len(xy); i += 2 {
			points = append(points, geometry.Point{X: xy[i] * geometry.Millimetre, Y: xy[i+1] * geometry.Millimetre})
		}
		return geometry.OutlineFromPoints(points...)
	}
	for _, c := range []struct {
		o    geometry.Outline
		want []string
	}{
		{at(0, 0, 30, 0, 30, 20, 0, 20), []string{"lower left", "lower right", "upper left", "upper right"}},
		{at(10, 0, 60, 0, 50, 20, 0, 20), []string{"lower left", "lower right", "upper left", "upper right"}},
		{at(0, 10, 40, 0, 40, 20), []string{"left", "lower right", "upper right"}},
		{at(10, 0, 30, 0, 40, 15, 30, 30, 10, 30, 0, 15), []string{"left", "lower left", "lower right", "right", "upper left", "upper right"}},
		{at(0, 5, 20, 0, 20, 30, 0, 20), []string{"first of the 2 on the left", "lower right", "second of the 2 on the left", "upper right"}},
	} {
		for _, left := range []bool{false, true} {
			w := trimWords{plan: &TrimPlan{Trimmer: TrimmerSettings{LeftHanded: left}}}
			names := w.corners(c.o)
			slices.Sort(names)
			require.Len(t, slices.Compact(slices.Clone(names)), len(names))
			if !left {
				require.Equal(t, c.want, names)
			}
		}
	}
}
