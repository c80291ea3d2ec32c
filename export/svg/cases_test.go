package svg

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// TestForeignCases runs Read over a folder of SVG files whose true sizes were
// measured in a browser: each must end in an error that says where, or in
// the same sheet. The folder is not part of the project.
func TestForeignCases(t *testing.T) {
	bench := os.Getenv("PANELRY_BENCH")
	if bench == "" {
		t.Skip("PANELRY_BENCH is not set, so there are no foreign files to read")
	}
	folder := filepath.Join(bench, "..", "svg-cases")
	data, err := os.ReadFile(filepath.Join(folder, "expected.json"))
	require.NoError(t, err)
	var expected struct {
		Files map[string]struct {
			Elements []struct{ Tag string }
			Outer    struct {
				Width  float64 `json:"width_mm"`
				Height float64 `json:"height_mm"`
			}
		}
	}
	require.NoError(t, json.Unmarshal(data, &expected))
	names, err := filepath.Glob(filepath.Join(folder, "*.svg"))
	require.NoError(t, err)
	require.NotEmpty(t, names)
	taken := 0
	for _, name := range names {
		file, err := os.ReadFile(name)
		require.NoError(t, err)
		d, err := Read(file)
		if err != nil {
			require.Regexp(t, `^line \d+, column \d+: [^\n]+$`, err.Error(), name)
			continue
		}
		taken++
		want := expected.Files[filepath.Base(name)]
		require.InDelta(t, want.Outer.Width, d.Size.W.In(geometry.Millimetres), 0.001, name)
		require.InDelta(t, want.Outer.Height, d.Size.H.In(geometry.Millimetres), 0.001, name)
		paths := 0
		for _, l := range d.Layers {
			paths += len(l.Shapes)
		}
		require.Len(t, want.Elements, paths, name)
	}
	t.Logf("%d files, of which %d are sheets", len(names), taken)
}
