package layouts_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

const aidDesign = `
units = "mm"
[card]
size = "100 x 140"
base = "top fold"
paper = "p"
[front]
layout = "diagonal halves"
margin = 3
gap = 2
papers = ["p"]
[[papers]]
name = "p"
sheet = "400 x 400"
`

// Every panel fits its window with the play all round, and no two windows of
// a jig are closer than its bars are to be.
func TestJigsHoldEveryPanel(t *testing.T) {
	kit := planned(t, aidDesign)
	aids, notes := kit.Aids()
	require.Empty(t, notes)
	windows := map[string]int{}
	for _, a := range aids {
		for _, o := range a.Cuts {
			require.NoError(t, o.Validate(), a.Name)
		}
		if !strings.HasPrefix(a.Name, "jig-") {
			continue
		}
		holes := a.Cuts[0].Holes
		windows[a.Name[len("jig-1-"):]] += len(holes)
		for i, h := range holes {
			o := geometry.OutlineFromRing(h.Reversed())
			for _, other := range holes[i+1:] {
				require.True(t, geometry.Apart(o, geometry.OutlineFromRing(other.Reversed()), 4*geometry.Millimetre))
			}
			fits := false
			for _, p := range kit.Card.Panels {
				// The edge of a quarter inch, and the flap of 15 mm or the rim of 12 mm.
				by := geometry.Vector{X: 21_350_000, Y: 21_350_000}
				if strings.HasSuffix(a.Name, "left-hand") {
					by.X = 18_350_000
				}
				moved := p.Outline.Moved(by)
				fits = fits || inside(moved, o)
			}
			require.True(t, fits, a.Name)
		}
	}
	require.Equal(t, map[string]int{"right-hand": 8, "left-hand": 8}, windows)
}

func inside(o, in geometry.Outline) bool {
	for _, p := range o.Outer.Points() {
		if !in.Contains(p) {
			return false
		}
	}
	return true
}

// The strip is as wide as the gap; without a gap there is none, and without
// a margin no jig, and both are told.
func TestAidsThatCannotBe(t *testing.T) {
	aids, _ := planned(t, aidDesign).Aids()
	last := aids[len(aids)-1]
	require.Equal(t, "spacers", last.Name)
	require.Equal(t, 2*geometry.Millimetre, last.Cuts[0].Bounds().H())
	require.Equal(t, 3*geometry.Millimetre, last.Cuts[1].Bounds().H())
	none, notes := planned(t, strings.NewReplacer("margin = 3", "margin = 0", "gap = 2", "gap = 0").Replace(aidDesign)).Aids()
	require.Len(t, none, 1)
	require.Len(t, notes, 2)
	require.Contains(t, notes[0], "There is no jig: it wants a margin of 1.2 mm or more")
}

// Ticks lie inside their panels, a quarter of a millimetre from the edge.
func TestTicksHideUnderPanels(t *testing.T) {
	kit := planned(t, aidDesign)
	ticks := kit.Ticks()
	require.Len(t, ticks, 24)
	for _, tick := range ticks {
		hidden := false
		for _, p := range kit.Card.Panels {
			all := true
			for _, q := range tick.Points() {
				all = all && p.Outline.InteriorContains(q)
			}
			hidden = hidden || all
		}
		require.True(t, hidden)
	}
}
