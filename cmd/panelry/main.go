// Command panelry turns the design of a paneled card into sheets that a
// cutter can cut and score at true size. See README.md, or run
// panelry --help.
package main

import (
	"context"
	"io"
	"os"
)

func main() {
	// An interrupt ends the process at once: kits and files are put in place
	// whole or not at all, so there is nothing to tidy.
	os.Exit(run(context.Background(), os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run is the program without its process: it returns the exit code.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	root := newRoot()
	root.SetArgs(args)
	root.SetIn(stdin)
	root.SetOut(stdout)
	root.SetErr(stderr)
	return report(stderr, root.ExecuteContext(ctx))
}
