package fronts_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

func shapesBrief(t *testing.T, given options, shapes ...geometry.Outline) fronts.Brief {
	t.Helper()
	b := brief(t, layout(t, needsAFile), frameOf(100*mm, 60*mm), 0, given)
	b.Shapes = shapes
	return b
}

func box(x, y, w, h geometry.Length) geometry.Outline {
	return geometry.RectFromSize(geometry.Point{X: x * mm, Y: y * mm}, geometry.Size{W: w * mm, H: h * mm}).Outline()
}

// By hand: shapes that together are 50 x 20 mm fit a frame of 100 x 60 at
// twice their size, 10 mm from its top; the frame's top left is (2, 3).
func TestOwnShapesFit(t *testing.T) {
	f, err := layout(t, needsAFile).Divide(shapesBrief(t, nil, box(10, 10, 20, 20), box(40, 10, 20, 20)))
	require.NoError(t, err)
	require.Equal(t, []string{"1", "2"}, panelNames(f))
	require.Equal(t, geometry.RectFromSize(geometry.Point{X: 2 * mm, Y: 13 * mm}, geometry.Size{W: 40 * mm, H: 40 * mm}), f.Panels[0].Outline.Bounds())
	require.Equal(t, 102*mm, f.Panels[1].Outline.Bounds().Max.X)
}

func TestOwnShapesAtTrueSize(t *testing.T) {
	f, err := layout(t, needsAFile).Divide(shapesBrief(t, options{"fit": "true size"}, box(10, 10, 20, 20)))
	require.NoError(t, err)
	require.Equal(t, geometry.RectFromSize(geometry.Point{X: 12 * mm, Y: 13 * mm}, geometry.Size{W: 20 * mm, H: 20 * mm}), f.Panels[0].Outline.Bounds())
}

func TestOwnShapesRefused(t *testing.T) {
	bowTie := geometry.Outline{Outer: geometry.RingFromPoints(
		geometry.Point{}, geometry.Point{X: 20 * mm, Y: 20 * mm}, geometry.Point{X: 30 * mm}, geometry.Point{Y: 20 * mm})}
	for _, c := range []struct {
		name   string
		given  options
		shapes []geometry.Outline
		want   string
	}{
		{"none", nil, nil, "shapes: there are no closed outlines"},
		{"too large", options{"fit": "true size"}, []geometry.Outline{box(0, 0, 101, 20)}, "shapes: outline 1 reaches out of the frame"},
		{"over each other", nil, []geometry.Outline{box(0, 0, 20, 20), box(10, 10, 20, 20)}, "shapes: outlines 1 and 2 lie over each other"},
		{"crossing itself", nil, []geometry.Outline{bowTie}, "shapes: outline 1: the outline has no area"},
		{"too small", options{"fit": "true size"}, []geometry.Outline{box(0, 0, 20, 20), geometry.RectFromSize(geometry.Point{X: 30 * mm}, geometry.Size{W: mm / 2, H: mm}).Outline()}, "panel 1: only"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := layout(t, needsAFile).Divide(shapesBrief(t, c.given, c.shapes...))
			require.ErrorContains(t, err, c.want)
		})
	}
}
