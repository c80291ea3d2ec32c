package layouts_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
)

// A step's neighbours lie before it, and each step but the first has
// something to hold to: no panel is placed by one that is not there yet.
func TestAssemblyIsAnchored(t *testing.T) {
	for _, layout := range []string{"diagonal halves", "grid", "strips", "pinwheel", "sunburst", "log cabin", "honeycomb"} {
		t.Run(layout, func(t *testing.T) {
			kit := planned(t, `
units = "mm"
[card]
size = "100 x 140"
paper = "p"
[front]
layout = "`+layout+`"
margin = 3
gap = 2
papers = ["p"]
[[papers]]
name = "p"
sheet = "300 x 300"
`)
			steps := kit.Assembly()
			require.Len(t, steps, len(kit.Card.Panels))
			at := map[int]int{} // step of each panel
			for i, s := range steps {
				_, twice := at[s.Panel]
				require.False(t, twice)
				at[s.Panel] = i
				require.True(t, i == 0 || len(s.Edges)+len(s.Beside) > 0, s.Text)
				for _, n := range s.Beside {
					before, lies := at[n]
					require.True(t, lies && before < i, s.Text)
					// Slow twin: no point of one is a gap and a millimetre away.
					require.False(t, geometry.Apart(kit.Card.Panels[n].Outline, kit.Card.Panels[s.Panel].Outline, 3*geometry.Millimetre))
				}
			}
		})
	}
}

func planned(t *testing.T, design string) layouts.Kit {
	t.Helper()
	d, err := layouts.Read(strings.NewReader(design), nil)
	require.NoError(t, err)
	kit, err := layouts.Plan(context.Background(), d)
	require.NoError(t, err)
	return kit
}
