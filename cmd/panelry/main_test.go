package main

import (
	"context"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"

	"panelry/layouts/fronts"
)

var update = flag.Bool("update", false, "rewrite golden files")

func TestMain(m *testing.M) {
	testscript.Main(thenEnd{m}, map[string]func(){"panelry": main})
}

// thenEnd ends what tests share once all have run.
type thenEnd struct{ *testing.M }

func (m thenEnd) Run() int {
	defer endChromium()
	return m.M.Run()
}

// Each script is one behaviour of the command line.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/script",
		UpdateScripts: *update,
		// A script that changes nothing by mistake must not pass.
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"files": listFiles,
		},
	})
}

// listFiles is the script command "files DIR": it prints the files below a
// folder to stdout, a line each, hidden ones too.
func listFiles(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: files dir")
	}
	root := ts.MkAbs(args[0])
	var names []string
	err := filepath.WalkDir(root, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			name, _ := filepath.Rel(root, path)
			names = append(names, filepath.ToSlash(name))
		}
		return err
	})
	ts.Check(err)
	_, err = ts.Stdout().Write([]byte(strings.Join(names, "\n") + "\n"))
	ts.Check(err)
}

// runOK runs the program in this process and wants exit code 0.
func runOK(tb testing.TB, stdin string, args ...string) (stdout string) {
	tb.Helper()
	var out, errs strings.Builder
	code := run(context.Background(), args, strings.NewReader(stdin), &out, &errs)
	require.Equal(tb, exitDone, code, "panelry %v\n%s", args, errs.String())
	return out.String()
}

// Every layout and both units: what `new` writes must be made without a
// change and, but for slivers at the border, without a warning.
func TestNewMakesWithoutChange(t *testing.T) {
	t.Parallel()
	for _, layout := range layoutNames() {
		if layout == "own shapes" {
			continue // wants a file of hers
		}
		for _, units := range []string{"in", "mm"} {
			t.Run(layout+" "+units, func(t *testing.T) {
				dir := t.TempDir()
				card := filepath.Join(dir, "card.toml")
				runOK(t, "", "new", card, "--layout", layout, "--units", units)
				make := []string{"make", card, "-o", filepath.Join(dir, "kit")}
				l, _ := fronts.Find(layout)
				if _, cut := l.Option("slivers"); !cut {
					make = append(make, "--strict")
				}
				runOK(t, "", make...)
			})
		}
	}
}
