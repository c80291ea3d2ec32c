package svg_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg"
	"panelry/geometry"
)

// A stroke that comes back to its start ends with Z, unless it encloses
// nothing.
func TestShapeFromPath(t *testing.T) {
	const mm = geometry.Millimetre
	at := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x * mm, Y: y * mm} }
	bow := geometry.CurveTo(at(5, 1), at(5, 3), at(1, 4))
	for name, c := range map[string]struct {
		path   geometry.Path
		closed bool
	}{
		"open":             {geometry.PathFromPoints(at(1, 1), at(2, 1), at(2, 2)), false},
		"closed":           {geometry.PathFromPoints(at(1, 1), at(2, 1), at(2, 2), at(1, 1)), true},
		"there and back":   {geometry.PathFromPoints(at(1, 1), at(2, 1), at(1, 1)), false},
		"a bow":            {geometry.Path{From: at(1, 1), Then: []geometry.Segment{bow, geometry.LineTo(at(1, 1))}}, true},
		"one curve around": {geometry.Path{From: at(1, 4), Then: []geometry.Segment{bow}}, false},
	} {
		t.Run(name, func(t *testing.T) {
			s := svg.ShapeFromPath(c.path)
			require.Equal(t, c.closed, len(s.Rings) == 1)
			require.Equal(t, c.closed, len(s.Lines) == 0)
			_, err := svg.Encode(svg.Drawing{
				Size: geometry.Size{W: 10 * mm, H: 10 * mm}, Title: "A sheet",
				Layers: []svg.Layer{{ID: svg.Cut, Title: "Cut", Shapes: []svg.Shape{s}}},
			})
			require.NoError(t, err)
		})
	}
}
