package main

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// demoGoldens are files of the demo's kit that are kept, so that a change in
// what is written shows; the README's pictures are among them.
var demoGoldens = []string{"picture.svg", "maps/sheet-05-kelp.svg", "sheets/sheet-05-kelp.svg", "sheets/sheet-01-chalk.svg", "pieces.csv", "kit.json"}

func TestDemoGoldens(t *testing.T) {
	kit := filepath.Join(t.TempDir(), "kit")
	runOK(t, "", "make", "-o", kit)
	for _, name := range demoGoldens {
		golden := filepath.Join("..", "..", "testdata", "demo", filepath.Base(filepath.Dir(name))+"-"+filepath.Base(name))
		if !strings.Contains(name, "/") {
			golden = filepath.Join("..", "..", "testdata", "demo", name)
		}
		requireGolden(t, golden, filepath.Join(kit, filepath.FromSlash(name)))
	}
}

// requireGolden compares a file with a golden one, or rewrites that.
func requireGolden(t *testing.T, golden, file string) {
	t.Helper()
	got, err := os.ReadFile(file)
	require.NoError(t, err)
	if *update {
		t.Logf("rewriting %s", golden)
		require.NoError(t, os.MkdirAll(filepath.Dir(golden), 0o755))
		require.NoError(t, os.WriteFile(golden, got, 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	require.Equal(t, string(want), string(got), golden)
}

// Every front's picture is kept, and the page of them all that the README
// shows.
func TestFrontPictures(t *testing.T) {
	t.Chdir(t.TempDir())
	_, here, _, _ := runtime.Caller(0)
	goldens := filepath.Join(filepath.Dir(here), "..", "..", "testdata", "fronts")
	for _, layout := range layoutNames() {
		if layout == "own shapes" {
			continue // has no defaults
		}
		name := strings.ReplaceAll(layout, " ", "-") + ".svg"
		runOK(t, "", "layouts", layout)
		requireGolden(t, filepath.Join(goldens, name), name)
	}
	runOK(t, "", "layouts", "--sheet", "all-fronts.svg")
	requireGolden(t, filepath.Join(goldens, "all-fronts.svg"), "all-fronts.svg")
}

// The design in the README is one that can be made.
func TestReadmeDesign(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	_, design, found := strings.Cut(string(readme), "```toml\n")
	require.True(t, found)
	design, _, found = strings.Cut(design, "```")
	require.True(t, found)
	runOK(t, design, "make", "-", "-o", filepath.Join(t.TempDir(), "kit"))
}

// manyPieces is a design of about that many pieces: eight panels and a base
// a card.
func manyPieces(pieces int) string {
	design := strings.Replace(outsideDesigns["halves with pairs"], "spares = 1", "spares = 0", 1)
	return strings.Replace(design, "cards = 5", fmt.Sprintf("cards = %d", pieces/9), 1)
}

// The whole of make, from the design to the files on disk.
func BenchmarkMake(b *testing.B) {
	for _, pieces := range []int{100, 1_000, 10_000} {
		b.Run(fmt.Sprint(pieces), func(b *testing.B) {
			design := manyPieces(pieces)
			dir := filepath.Join(b.TempDir(), "kit")
			b.ReportAllocs()
			for b.Loop() {
				runOK(b, design, "make", "-", "-o", dir)
			}
		})
	}
}

func BenchmarkMakeDemo(b *testing.B) {
	dir := filepath.Join(b.TempDir(), "kit")
	for b.Loop() {
		runOK(b, "", "make", "-o", dir)
	}
}
