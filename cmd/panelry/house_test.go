package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// goPackage is as much of `go list -json` as is read here.
type goPackage struct {
	Dir, ImportPath, Doc               string
	Imports, TestGoFiles, XTestGoFiles []string
}

func goPackages(t *testing.T) []goPackage {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=Dir,ImportPath,Doc,Imports,TestGoFiles,XTestGoFiles", "./...")
	cmd.Dir = filepath.Join("..", "..")
	out, err := cmd.Output()
	require.NoError(t, err)
	var list []goPackage
	for d := json.NewDecoder(strings.NewReader(string(out))); d.More(); {
		var p goPackage
		require.NoError(t, d.Decode(&p))
		list = append(list, p)
	}
	return list
}

// floors is the house from the ground up (architecture.md): a package may
// import those of its own floor or below.
var floors = []string{"panelry/geometry", "panelry/layouts", "panelry/export", "panelry/cmd"}

func floorOf(path string) int {
	return slices.IndexFunc(floors, func(f string) bool { return path == f || strings.HasPrefix(path, f+"/") })
}

// libraries are the modules that each room may use besides the standard
// library.
var libraries = map[string][]string{
	"panelry/layouts":               {"github.com/pelletier/go-toml/v2"},
	"panelry/export":                {"golang.org/x/sys/unix"},
	"panelry/export/svg":            {"github.com/ajstarks/svgo/float"},
	"panelry/export/pdf":            {"codeberg.org/go-pdf/fpdf", "golang.org/x/image/font"},
	"panelry/export/picture/raster": {"golang.org/x/image"},
	"panelry/cmd/panelry":           {"github.com/spf13/cobra", "github.com/spf13/pflag"}, // the second is the first's flags
}

func TestImportsGoDown(t *testing.T) {
	for _, p := range goPackages(t) {
		for _, imported := range p.Imports {
			switch {
			case floorOf(imported) >= 0:
				require.LessOrEqual(t, floorOf(imported), floorOf(p.ImportPath), "%s imports %s", p.ImportPath, imported)
				if svg := "panelry/export/svg"; p.ImportPath == svg || strings.HasPrefix(p.ImportPath, svg+"/") {
					own := imported == svg || strings.HasPrefix(imported, svg+"/")
					require.True(t, own || imported == "panelry/geometry", "%s imports %s: %s needs only geometry", p.ImportPath, imported, svg)
				}
			case strings.Contains(strings.Split(imported, "/")[0], "."):
				require.True(t, slices.ContainsFunc(libraries[p.ImportPath], func(l string) bool {
					return imported == l || strings.HasPrefix(imported, l+"/")
				}), "%s imports %s", p.ImportPath, imported)
			}
		}
	}
}

// Every package says what it is for, and every test binary knows -update, so
// that `go test ./... -update` works.
func TestEveryPackageIsComplete(t *testing.T) {
	for _, p := range goPackages(t) {
		require.NotEmpty(t, p.Doc, "%s has no package comment", p.ImportPath)
		tests := append(p.TestGoFiles, p.XTestGoFiles...)
		require.NotEmpty(t, tests, "%s has no tests", p.ImportPath)
		require.True(t, slices.ContainsFunc(tests, func(name string) bool {
			text, err := os.ReadFile(filepath.Join(p.Dir, name))
			return err == nil && strings.Contains(string(text), `flag.Bool("update"`)
		}), "the tests of %s do not know -update", p.ImportPath)
	}
}
