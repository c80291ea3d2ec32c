package reader

import (
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

// Nothing here is rewritten by -update, but every package knows it.
var _ = flag.Bool("update", false, "rewrite golden files")

// expected is what a web browser measured for one case; testdata/cases has a
// README that says how.
type expected struct {
	Size     []float64 `json:"size_mm"` // none where the file has no true size
	Elements []struct {
		Tag    string
		ID     string
		Box    []float64 `json:"bbox_mm"`
		Exact  []float64 `json:"exact_mm"` // by the arc formula
		Length float64   `json:"length_px"`
		Hidden bool
	}
}

func cases(t *testing.T) map[string]expected {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", "cases", "expected.json"))
	require.NoError(t, err)
	var all map[string]expected
	require.NoError(t, json.Unmarshal(data, &all))
	require.Len(t, all, 276)
	return all
}

func readCase(t testing.TB, name string) (File, *findings.List) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", "cases", name))
	require.NoError(t, err)
	var found findings.List
	return Read(data, &found), &found
}

// Source: Chromium's getBBox with getScreenCTM. Its own arcs are cubics, up
// to 3.6e-4 of the radius short; where that matters the exact box is given.
func TestCasesAgainstChromium(t *testing.T) {
	for name, want := range cases(t) {
		t.Run(name, func(t *testing.T) {
			f, found := readCase(t, name)
			if want.Size == nil {
				require.False(t, f.Sized, "the file has no true size")
				require.Empty(t, f.Elements)
				require.True(t, hasError(found), "and nobody says so")
				return
			}
			require.True(t, f.Sized)
			require.InDelta(t, want.Size[0], f.W, 0.001)
			require.InDelta(t, want.Size[1], f.H, 0.001)
			require.Len(t, f.Elements, len(want.Elements))
			for i, e := range f.Elements {
				w := want.Elements[i]
				require.Equal(t, w.Tag, e.Tag)
				require.Equal(t, w.ID, e.ID)
				box, tolerance := w.Box, 0.02
				if w.Exact != nil {
					box, tolerance = w.Exact, 0.001
				}
				got := []float64{e.Bounds.Min.X, e.Bounds.Min.Y, e.Bounds.W(), e.Bounds.H()}
				require.InDeltaSlice(t, box, got, tolerance, "%v, not %v", got, box)
				require.Equal(t, w.Hidden, w.Hidden && !e.Visible)
			}
		})
	}
}

func hasError(found *findings.List) bool {
	for _, f := range found.Findings() {
		if f.Rule.Severity == findings.Error {
			return true
		}
	}
	return false
}
