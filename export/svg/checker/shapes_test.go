package checker

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestOutlinesOfOneElement(t *testing.T) {
	for name, c := range map[string]struct {
		d       string
		crossed bool
	}{
		"discs that touch":        {roundData("arcs", 30, 50, 10, 0) + roundData("arcs", 50, 50, 10, 1), false},
		"discs that overlap":      {roundData("arcs", 30, 50, 10, 0) + roundData("arcs", 49.9, 50, 10, 1), true},
		"a disc at a side":        {roundData("cubics", 30, 50, 10, 2) + "M 40 20 H 60 V 80 H 40 Z", false},
		"a shared side":           {"M 10 10 H 30 V 40 H 10 Z M 30 20 H 50 V 60 H 30 Z", false},
		"a shared curve":          {"M 20 50 C 40 20 60 80 80 50 V 90 H 20 Z M 80 50 C 60 80 40 20 20 50 V 10 H 80 Z", false},
		"over each other in line": {"M 10 10 H 40 V 40 H 10 Z M 30 10 H 60 V 40 H 30 Z", true},
		"over a corner":           {"M 10 10 H 40 V 40 H 10 Z M 30 30 H 60 V 60 H 30 Z", true},
		"corner to corner":        {"M 10 10 H 40 V 40 H 10 Z M 40 40 H 60 V 60 H 40 Z", false},
		"the same twice":          {"M 10 10 H 40 V 40 H 10 Z M 10 10 H 40 V 40 H 10 Z", true},
		"in the hole of another":  {"M 10 10 H 80 V 80 H 10 Z M 20 20 H 60 V 60 H 20 Z M 30 30 H 50 V 50 H 30 Z", false},
		"two holes":               {"M 10 10 H 80 V 80 H 10 Z M 20 20 H 40 V 60 H 20 Z M 50 20 H 60 V 60 H 50 Z", false},
	} {
		t.Run(name, func(t *testing.T) {
			for _, turn := range []float64{0, 31, 90} {
				_, err := Shapes([]byte(cutLayer(fmt.Sprintf(`<path transform="rotate(%g 50 50)" d="%s"/>`, turn, c.d))))
				if c.crossed {
					require.ErrorContains(t, err, "its outlines cross each other")
				} else {
					require.NoError(t, err, "turned by %v", turn)
				}
			}
		})
	}
}

// However many outlines an element has, two that cross are found: here the
// last two of ten thousand.
func TestTenThousandOutlinesOfOneElement(t *testing.T) {
	var b strings.Builder
	for i := range 10_000 {
		fmt.Fprintf(&b, "M %d %d h 0.9 v 0.9 h -0.9 Z ", i%100, i/100)
	}
	list, err := Shapes([]byte(cutLayer(pathOf("a", b.String()))))
	require.NoError(t, err)
	require.Len(t, list, 10_000)
	_, err = Shapes([]byte(cutLayer(pathOf("a", b.String()+"M 99.5 99.5 h 0.8 v 0.8 h -0.8 Z"))))
	require.EqualError(t, err, "path#a: its outlines cross each other; join them into one, or draw them apart")
}
