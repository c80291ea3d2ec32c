package wording_test

import (
	"flag"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/layouts/wording"
)

var _ = flag.Bool("update", false, "rewrite golden files (there are none in this package)")

func TestOr(t *testing.T) {
	require.Equal(t, `"a"`, wording.Or([]string{"a"}))
	require.Equal(t, `"a", "b" or "c"`, wording.Or([]string{"a", "b", "c"}))
	require.Equal(t, "", wording.Or(nil))
}

func TestNearest(t *testing.T) {
	known := []string{"margin", "gap", "columns", "rows"}
	tests := []struct{ word, want string }{
		{"marign", "margin"},
		{"Margin", "margin"},
		{"colums", "columns"},
		{"gp", "gap"},
		{"gpa", "gap"}, // two letters exchanged
		{"gaps", "gap"},
		{"rowsssss", "rows"}, // it begins like one
		{"slant", ""},        // nothing is near
	}
	for _, test := range tests {
		t.Run(test.word, func(t *testing.T) {
			got, _ := wording.Nearest(test.word, known)
			require.Equal(t, test.want, got)
		})
	}
}

// The pair kitten and sitting, 3 apart, is the usual example in textbooks.
func TestDistance(t *testing.T) {
	require.Equal(t, 3, wording.Distance("kitten", "sitting"))
	require.Equal(t, 0, wording.Distance("Kelp", "kelp"))
}

// slowDistance is the recursive definition.
func slowDistance(a, b string) int {
	if a == "" || b == "" {
		return len(a) + len(b)
	}
	least := len(a) + len(b)
	if len(a) > 1 && len(b) > 1 && a[0] == b[1] && a[1] == b[0] {
		least = slowDistance(a[2:], b[2:]) + 1
	}
	change := slowDistance(a[1:], b[1:])
	if a[0] != b[0] {
		change++
	}
	return min(least, change, slowDistance(a[1:], b)+1, slowDistance(a, b[1:])+1)
}

func TestDistanceAgainstDefinition(t *testing.T) {
	word := rapid.StringMatching(`[abc]{0,6}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		require.Equal(t, slowDistance(a, b), wording.Distance(a, b))
	})
}
