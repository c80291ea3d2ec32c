package checker

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A line that ends on an outline does not cross it; one that goes through
// does, by however little a blade can follow.
func TestLinesThatEndOnOutlines(t *testing.T) {
	const head = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50"><g id="cut" fill="none" stroke="#000000"><path d="M10 10H30V30H10Z"/>`
	for line, want := range map[string][]string{
		"M10 20H30":           nil, // from side to side
		"M10 20H29":           nil,
		"M10.0000001 20H30":   nil,
		"M9.9999999 20H30":    nil,
		"M10 10L30 30":        nil, // from corner to corner
		"M9 20H30":            {"crossing-outlines"},
		"M9.99 20H20":         {"crossing-outlines"},
		"M10 20H31":           {"crossing-outlines"},
		"M5 20H35":            {"crossing-outlines"},
		"M10 20H30M10 25H31":  {"crossing-outlines"},
		"M5 5L10 10L20 15H15": {"crossing-outlines"}, // in through the corner
	} {
		t.Run(line, func(t *testing.T) {
			r := Check([]byte(head+`<path d="`+line+`"/></g></svg>`), Demands{})
			var got []string
			for _, f := range r.Findings {
				if f.Rule.ID == "crossing-outlines" || f.Rule.ID == "doubled-edge" {
					got = append(got, f.Rule.ID)
				}
			}
			require.Equal(t, want, got)
		})
	}
}
