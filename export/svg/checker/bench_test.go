package checker

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

// sheetOf writes n outlines in a grid, 4 mm apart from middle to middle, of
// the kinds in turn.
func sheetOf(n int, kinds ...string) []byte {
	var b strings.Builder
	const columns = 100
	rows := (n + columns - 1) / columns
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%dmm" height="%dmm" viewBox="0 0 %d %d"><g id="cut" fill="none" stroke="#000000">`,
		4*columns, 4*rows, 4*columns, 4*rows)
	for i := range n {
		fmt.Fprintf(&b, kinds[i%len(kinds)]+"\n", 4*(i%columns), 4*(i/columns))
	}
	b.WriteString("</g></svg>")
	return []byte(b.String())
}

const (
	square  = `<path d="M %[1]d.5 %[2]d.5 h 3 v 3 h -3 Z"/>`
	wedge   = `<path d="M %[1]d.5 %[2]d.5 l 3 3 h -3 Z"/>`
	disc    = `<circle cx="%[1]d" cy="%[2]d" r="1.4" transform="translate(2 2)"/>`
	blob    = `<path d="M %[1]d.5 %[2]d.5 c 3 0 3 0 3 3 c -3 0 -3 0 -3 -3 Z"/>`
	windows = `<path d="M %[1]d.5 %[2]d.5 h 3 v 3 h -3 Z m 1 1 v 1 h 1 v -1 Z"/>`
)

// The sheet of the issue: 10,000 outlines, with the search for overlaps,
// doubled edges and pieces too close, in under a second.
func BenchmarkCheck10000(b *testing.B) {
	for name, kinds := range map[string][]string{
		"squares": {square}, "discs": {disc}, "mixed": {square, wedge, disc, blob, windows},
	} {
		b.Run(name, func(b *testing.B) {
			data := sheetOf(10_000, kinds...)
			r := Check(data, Demands{Spacing: 0.9})
			require.Empty(b, errorsOf(r))
			for _, f := range r.Findings {
				require.NotEqual(b, findings.NotCompared, f.Rule, "all of it must be compared")
			}
			b.ReportAllocs()
			b.SetBytes(int64(len(data)))
			for b.Loop() {
				Check(data, Demands{Spacing: 0.9})
			}
		})
	}
}
