package main

import (
	"fmt"
	"io"
	"os"
	"strings"
)

// progressBar writes how far a search is over one line of a terminal, and
// nothing to a file or a pipe.
type progressBar struct {
	to    io.Writer // nil where there is no terminal
	shown bool
}

func newProgressBar(w io.Writer) *progressBar {
	if file, ok := w.(*os.File); ok {
		if info, err := file.Stat(); err == nil && info.Mode()&os.ModeCharDevice != 0 {
			return &progressBar{to: w}
		}
	}
	return &progressBar{}
}

// show draws the bar: a strip that fills up, the share of the work, and what
// there is so far.
func (b *progressBar) show(done float64, soFar string) {
	if b.to == nil {
		return
	}
	const wide = 20
	full := min(max(int(done*wide), 0), wide)
	fmt.Fprintf(b.to, "\r[%s%s] %3.0f %%  %s    ", strings.Repeat("=", full), strings.Repeat(" ", wide-full), 100*done, soFar)
	b.shown = true
}

// end leaves the line.
func (b *progressBar) end() {
	if b.shown {
		fmt.Fprintln(b.to)
	}
}
