package fronts_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

// besideText names the pairs: "A1-B1 A1-A2".
func besideText(f fronts.Front, gap geometry.Length) string {
	var pairs []string
	for _, p := range fronts.Beside(f.Panels, gap) {
		pairs = append(pairs, f.Panels[p[0]].Name+"-"+f.Panels[p[1]].Name)
	}
	return strings.Join(pairs, " ")
}

// Counted by eye on a sketch of each front.
func TestBeside(t *testing.T) {
	for _, tt := range []struct {
		layout string
		given  options
		want   string
	}{
		{"grid", options{"columns": int64(2), "rows": int64(2)}, "A1-B1 A1-A2 B1-B2 A2-B2"},
		{"grid", options{"columns": int64(3), "rows": int64(1)}, "A1-B1 B1-C1"},
		{"strips", options{"count": int64(4), "run": "level"}, "1-2 2-3 3-4"},
		{"diagonal halves", slanted(`\/`), "A1a-A1b A1a-B1a B1a-B1b"},
		{"diagonal halves", slanted(`//`), "A1a-A1b A1b-B1a B1a-B1b"},
	} {
		t.Run(fmt.Sprint(tt.layout, tt.given), func(t *testing.T) {
			for _, gap := range []geometry.Length{0, mm, 3 * mm, 5 * mm} {
				require.Equal(t, tt.want, besideText(divide(t, layout(t, tt.layout), frameOf(120*mm, 60*mm), gap, tt.given), gap), "gap %s", gap)
			}
		})
	}
}

// Without a gap, neighbours share a stretch of border: the plainest way to
// find them, exact to the nanometre, is the twin of Beside. With a gap the
// same panels lie beside each other.
func TestBesideIsSharingBorder(t *testing.T) {
	frame := frameOf(120*mm, 160*mm)
	for _, l := range selfSufficient() {
		t.Run(l.Name, func(t *testing.T) {
			closed, err := l.Divide(brief(t, l, frame, 0, nil))
			require.NoError(t, err)
			straight := true
			want := map[string]bool{}
			for i, p := range closed.Panels {
				straight = straight && p.Outline.IsStraight() && len(p.Outline.Holes) == 0
				for _, q := range closed.Panels[i+1:] {
					if shareBorder(p.Outline, q.Outline) {
						want[p.Name+"-"+q.Name] = true
					}
				}
			}
			text := besideText(closed, 0)
			got := map[string]bool{}
			for _, pair := range strings.Fields(text) {
				got[pair] = true
			}
			if straight && !roundedBorders[l.Name] {
				require.Equal(t, want, got)
			}
			for pair := range want {
				require.True(t, got[pair], pair)
			}
			opened, err := l.Divide(brief(t, l, frame, 2*mm, nil))
			require.NoError(t, err)
			if !movesWithGap[l.Name] {
				require.Len(t, opened.Panels, len(closed.Panels))
				require.Equal(t, text, besideText(opened, 2*mm))
			}
		})
	}
}

// roundedBorders are the fronts where corners off the axes are rounded off
// their neighbours' sides, so that an exact test finds no shared border.
var roundedBorders = map[string]bool{"herringbone": true, "random mosaic": true}

// movesWithGap are the fronts that a gap changes: a honeycomb numbers its
// cells by their centres, and a mosaic has borders shorter than the gap.
var movesWithGap = map[string]bool{"honeycomb": true, "random mosaic": true}
