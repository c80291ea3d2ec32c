package svg

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// TestForeignCases runs Read over SVG files whose true sizes were measured
// in a browser (their README says how): each must end in an error that says
// where, or in the same sheet.
func TestForeignCases(t *testing.T) {
	folder := filepath.Join("reader", "testdata", "cases")
	data, err := os.ReadFile(filepath.Join(folder, "expected.json"))
	require.NoError(t, err)
	var expected map[string]struct {
		Size     []float64 `json:"size_mm"`
		Elements []struct{ Tag string }
	}
	require.NoError(t, json.Unmarshal(data, &expected))
	taken := 0
	for name, want := range expected {
		file, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		d, err := Read(file)
		if err != nil {
			require.Regexp(t, `^line \d+, column \d+: [^\n]+$`, err.Error(), name)
			continue
		}
		taken++
		require.NotNil(t, want.Size)
		require.InDelta(t, want.Size[0], d.Size.W.In(geometry.Millimetres), 0.001, name)
		require.InDelta(t, want.Size[1], d.Size.H.In(geometry.Millimetres), 0.001, name)
		paths := 0
		for _, l := range d.Layers {
			paths += len(l.Shapes)
		}
		require.Len(t, want.Elements, paths, name)
	}
	t.Logf("%d files, of which %d are sheets", len(expected), taken)
}
