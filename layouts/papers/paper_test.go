package papers_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/layouts/papers"
)

// The words of a design file: interfaces, [[papers]].
func TestWords(t *testing.T) {
	require.Equal(t, []string{"plain", "two-way", "one-way"}, papers.Patterns())
	require.Equal(t, []string{"plain", "stripes", "dots", "checks", "sprigs"}, papers.Drawings())
	require.Equal(t, []string{"top", "right", "bottom", "left"}, papers.Ups())
}

// Degrees run clockwise from the top.
func TestUpDegrees(t *testing.T) {
	for word, want := range map[string]float64{"top": 0, "right": 90, "bottom": 180, "left": 270} {
		degrees, ok := papers.UpDegrees(word)
		require.True(t, ok)
		require.Equal(t, want, degrees, word)
	}
	for _, word := range []string{"", "up", "Top"} {
		_, ok := papers.UpDegrees(word)
		require.False(t, ok, word)
	}
}

// Which turns keep a pattern looking right: any for plain paper, half a turn
// for two-way patterns, none for one-way. A paper that says nothing is plain.
func TestTurns(t *testing.T) {
	for _, tt := range []struct {
		pattern papers.Pattern
		allowed []float64
		any     bool
	}{
		{papers.Plain, []float64{0, 90, 180, 270, 33.3}, true},
		{"", []float64{0, 90, 180, 270, 33.3}, true},
		{papers.TwoWay, []float64{0, 180}, false},
		{papers.OneWay, []float64{0}, false},
	} {
		t.Run(string(tt.pattern), func(t *testing.T) {
			turns := papers.Paper{Pattern: tt.pattern}.Turns()
			require.Equal(t, tt.any, turns.AllowAny())
			var allowed []float64
			for _, degrees := range []float64{0, 90, 180, 270, 33.3} {
				if turns.Allow(degrees) {
					allowed = append(allowed, degrees)
				}
			}
			require.Equal(t, tt.allowed, allowed)
		})
	}
}

func TestPlans(t *testing.T) {
	require.Equal(t, "same", papers.Plans()[0].Name) // what a design has that says nothing
	seen := map[string]bool{}
	for _, p := range papers.Plans() {
		require.False(t, seen[p.Name], p.Name)
		seen[p.Name] = true
		require.NotEmpty(t, p.Summary)
		require.Equal(t, p.Summary, papers.PlanNamed(p.Name).Summary)
	}
	require.Panics(t, func() { papers.PlanNamed("no such plan") })
}
