package fronts_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

var update = flag.Bool("update", false, "rewrite golden files")

// goldenBriefs are the fronts that are kept on file for each layout.
var goldenBriefs = []struct {
	name   string
	margin geometry.Length
	card   geometry.Size
	gap    geometry.Length
}{
	{"4 1/4 x 5 1/2 in, margin 1/16, gap 1/8", inch / 16, geometry.Size{W: 17 * inch / 4, H: 11 * inch / 2}, inch / 8},
	{"105 x 148 mm, margin 3, gap 3", 3 * mm, geometry.Size{W: 105 * mm, H: 148 * mm}, 3 * mm},
	{"odd nanometres", 1_000_003, geometry.Size{W: 101_234_567, H: 77_777_777}, 1_234_567},
}

// Each layout with its default options, as text; whoever changes these files
// changes every card of that layout.
func TestGolden(t *testing.T) {
	for _, l := range selfSufficient() {
		t.Run(l.Name, func(t *testing.T) {
			var b strings.Builder
			for _, c := range goldenBriefs {
				frame, err := geometry.RectFromSize(geometry.Point{}, c.card).Inset(c.margin)
				require.NoError(t, err)
				fmt.Fprintf(&b, "%s: %s\n%s\n", l.Name, c.name, frontText(divide(t, l, frame, c.gap, nil)))
			}
			requireGolden(t, filepath.Join("testdata", "golden", l.Name+".txt"), b.String())
		})
	}
}

func requireGolden(t *testing.T, file, text string) {
	t.Helper()
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		t.Logf("%s is rewritten; look at the difference before you keep it", file)
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err, "write it with -update")
	require.Equal(t, string(want), text)
}

// No golden file is left over from a layout that is gone.
func TestGoldenFilesHaveALayout(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("testdata", "golden", "*.txt"))
	require.NoError(t, err)
	require.Len(t, files, len(selfSufficient()))
}

// frontText writes a front: its sums, and each panel's name, role, hand and
// corners in whole nanometres.
func frontText(f fronts.Front) string {
	var b strings.Builder
	fmt.Fprintf(&b, "across %s\ndown %s\n", sumText(f.Across), sumText(f.Down))
	for _, p := range f.Panels {
		fmt.Fprintf(&b, "%s role %d hand %q:", p.Name, p.Role, p.Hand)
		for _, at := range p.Outline.Outer.Points() {
			fmt.Fprintf(&b, " %d,%d", int64(at.X), int64(at.Y))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func sumText(terms []fronts.Term) string {
	var words []string
	for _, term := range terms {
		words = append(words, fmt.Sprintf("%s %d", term.What, int64(term.Length)))
	}
	return strings.Join(words, " + ")
}
