package layouts_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
)

// A design that keeps its shapes hands their text to the opener, by a name
// with a full stop too.
func TestShapesKeptInTheDesign(t *testing.T) {
	text := changed(`layout = "diagonal halves"`, "layout = \"own shapes\"\nshapes = \"leaves.svg\"") +
		"\n[shapes]\n\"leaves.svg\" = '''<svg/>'''\n"
	var got string
	_, err := layouts.Read(strings.NewReader(text), func(name string, kept []byte) ([]geometry.Outline, error) {
		got = name + ": " + string(kept)
		return []geometry.Outline{geometry.RectFromSize(geometry.Point{}, geometry.Size{W: geometry.Inch, H: geometry.Inch}).Outline()}, nil
	})
	require.NoError(t, err)
	require.Equal(t, "leaves.svg: <svg/>", got)
	_, err = layouts.Read(strings.NewReader(strings.Replace(text, "'''<svg/>'''", "3", 1)), nil)
	require.ErrorContains(t, err, "shapes.leaves.svg: write the text of an SVG file")
}

// One panel's pattern may run another way than the others'.
func TestDirectionByPanel(t *testing.T) {
	d, err := layouts.Read(strings.NewReader(changed(`gap = "1/8"`, "gap = \"1/8\"\ndirection = {A1a = \"30 deg\", rest = \"radiating\"}")), nil)
	require.NoError(t, err)
	card, err := layouts.PlanCard(d)
	require.NoError(t, err)
	require.Equal(t, 30.0, card.Panels[0].PatternDegrees)
	require.NotZero(t, card.Panels[1].PatternDegrees)
	_, err = layouts.Read(strings.NewReader(changed(`gap = "1/8"`, "gap = \"1/8\"\ndirection = {Z9 = \"30 deg\"}")), nil)
	require.ErrorContains(t, err, "front.direction.Z9: there is no such panel")
}
