package export

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
)

// A sheet that would not cut cleanly is not put in place.
func TestSheetsGoThroughTheChecker(t *testing.T) {
	sheet := layouts.Sheet{
		Size: geometry.Size{W: 100 * geometry.Millimetre, H: 50 * geometry.Millimetre},
		Edge: 5 * geometry.Millimetre, Spacing: 2 * geometry.Millimetre,
	}
	file := `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50"><g id="cut" fill="none" stroke="#000000">` +
		`<path d="M 5 5 L 25 5 L 25 25 L 5 25 Z"/><path id="next" d="M 27 5 L 47 5 L 47 25 L 27 25 Z"/></g></svg>`
	require.NoError(t, checkSheet([]byte(file), sheet))
	for name, c := range map[string]struct{ old, new, want string }{
		"too close":   {"M 27 5", "M 26.999 5", "(too-close)"},
		"in the edge": {"L 5 25 Z", "L 4.999 25 Z", "(in-edge)"},
		"off":         {"L 47 25 L 27 25 Z", "L 47 55 L 27 55 Z", "(off-sheet)"},
		"other sheet": {`width="100mm" height="50mm" viewBox="0 0 100 50"`, `width="90mm" height="50mm" viewBox="0 0 90 50"`, "(wrong-sheet)"},
		"crossing":    {"L 27 25 Z", "L 20 24 Z", "(crossing-outlines)"},
		"twice":       {"</g>", `<path d="M 5 5 L 25 5 L 25 25 L 5 25 Z"/></g>`, "(doubled-edge)"},
		"self":        {"L 25 5 L 25 25", "L 25 25 L 25 5", "(self-crossing)"},
		"no size":     {` width="100mm"`, "", "(one-sided-size)"},
	} {
		t.Run(name, func(t *testing.T) {
			broken := strings.Replace(file, c.old, c.new, 1)
			require.NotEqual(t, file, broken)
			require.ErrorContains(t, checkSheet([]byte(broken), sheet), c.want)
		})
	}
}
