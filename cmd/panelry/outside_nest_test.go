package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// nestShapes are hooks, discs, frames and a block, in mm.
const nestShapes = `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="200mm" viewBox="0 0 400 200">
<path id="hook" data-copies="14" d="M0 0H60V20H20V60H0Z"/>
<circle id="disc" data-copies="9" cx="100" cy="30" r="17"/>
<path id="frame" data-copies="3" d="M200 0H290V90H200Z M212 12V78H278V12Z"/>
<path id="left" data-copies="5" data-block="picture" d="M300 0H330L320 50H300Z"/>
<path id="right" data-copies="5" data-block="picture" d="M331 0H350V50H321Z"/>
</svg>`

const nestScrap = `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 200 200">
<path d="M0 0H200V80L120 120L100 200H0Z M40 40V52H52V40Z"/></svg>`

// Sheets of many kinds of job against GEOS, through python3-shapely.
func TestNestedSheetsAgainstGEOS(t *testing.T) {
	t.Parallel()
	python := geos(t)
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	shapes, scrap := write("shapes.svg", nestShapes), write("scrap.svg", nestScrap)
	for name, flags := range map[string][]string{
		"plain":    {"--sheet", "12x12in", "--spacing", "2mm", "--edge", "5mm"},
		"holes":    {"--sheet", "12x12in", "--spacing", "2mm", "--in-holes", "--turn", "quarter"},
		"free":     {"--sheet", "ISO A4", "--spacing", "1.5mm", "--turn", "free", "--in-holes"},
		"touching": {"--sheet", "300x200mm", "--turn", "half"},
		"mirrored": {"--sheet", "300x200mm", "--spacing", "1mm", "--turn", "half", "--mirror"},
		"scraps":   {"--sheet", scrap + ":2", "--sheet", "200x300mm", "--spacing", "1mm", "--edge", "3mm", "--turn", "half"},
		"roll":     {"--roll", "12in", "--spacing", "1mm", "--turn", "quarter", "--in-holes"},
		"seeds":    {"--sheet", "12x12in", "--spacing", "1mm", "--turn", "30 60", "--seed", "7"},
	} {
		t.Run(name, func(t *testing.T) {
			out := filepath.Join(t.TempDir(), "nest.json")
			require.NoError(t, os.WriteFile(out, []byte(runOK(t, "", append([]string{"nest", shapes, "--json"}, flags...)...)), 0o600))
			said, err := exec.Command(python, "testdata/geos_nest.py", out, "curved").CombinedOutput()
			require.NoError(t, err, string(said))
			require.Contains(t, string(said), "held 36 pieces")

			data, err := os.ReadFile(out)
			require.NoError(t, err)
			closer := strings.ReplaceAll(string(data), `"edge_mm": 0,`, `"edge_mm": 9,`)
			closer = strings.NewReplacer(`"edge_mm": 5,`, `"edge_mm": 9,`, `"edge_mm": 3,`, `"edge_mm": 9,`).Replace(closer)
			require.NoError(t, os.WriteFile(out, []byte(closer), 0o600))
			said, err = exec.Command(python, "testdata/geos_nest.py", out).CombinedOutput()
			require.Error(t, err, "a test of the test")
			require.Contains(t, string(said), "lies in the edge")
		})
	}
}
