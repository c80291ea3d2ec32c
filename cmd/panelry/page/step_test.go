package page

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Steps go on from what stands in the field, also where that could not be
// taken, and stop at the largest value that can be.
func TestSteps(t *testing.T) {
	s := serve(t, demoText(t))
	for _, c := range []struct {
		name    string
		pairs   []string
		undo    string
		text    string // a line of the design
		refused bool
	}{
		{"up", []string{fieldButton, "step front.margin 2"}, "margin", `margin = "3/16"`, false},
		{"down from what was refused", []string{fieldWrong, "front.margin=2 15/16", fieldButton, "step front.margin -19"}, "margin", `margin = "1 3/4"`, false},
		{"not far enough", []string{fieldWrong, "front.margin=2 15/16", fieldButton, "step front.margin -2"}, "", `margin = "1/16"`, true},
		{"up from what was refused", []string{"front.margin", "3", fieldButton, "step front.margin 1"}, "", `margin = "1/16"`, true},
		{"to the most", []string{fieldButton, "step front.margin 64"}, "margin", `margin = "1 15/16"`, false},
		{"at the most", []string{"front.margin", "1 15/16", fieldButton, "step front.margin 1"}, "margin", `margin = "1 15/16"`, false},
		{"a count", []string{"front.columns", "60", fieldButton, "step front.columns 16"}, "", "columns = 2", true},
		{"the most cards", []string{fieldButton, "step batch.cards 1000"}, "cards", "cards = 1008", false},
	} {
		p := s.set(t, demoText(t), c.pairs...)
		require.Equal(t, c.refused, p.Refused, c.name)
		require.Equal(t, c.undo, p.Undo, c.name)
		require.Contains(t, textOf(t, p), c.text, c.name)
	}
	widest := changed(t, `margin = "1/16"`, `margin = "1 15/16"`)
	for _, typed := range []string{"", "1 15/16"} {
		pairs := []string{fieldButton, "step front.margin 1"}
		if typed != "" {
			pairs = append(pairs, "front.margin", typed)
		}
		p := s.set(t, widest, pairs...)
		require.False(t, p.Refused)
		require.Equal(t, widest, textOf(t, p))
		require.Empty(t, p.Undo)
	}
}
