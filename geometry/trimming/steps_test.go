package trimming_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/geometry/trimming"
)

// 4 x 3 pieces of 3 x 4 from a sheet of 12 x 12: by hand two upright stops
// and one level one would do; the sum of what falls off is what was asked.
func TestStepsGiveEveryPiece(t *testing.T) {
	job := trimming.Job{Stock: trimming.Stock{Size: sizeOf(12, 12)}, Pieces: []trimming.Piece{{Size: sizeOf(3, 4), Count: 24}, {Size: sizeOf(2, 2), Count: 3}}}
	plan, err := trimming.Plan(job)
	require.NoError(t, err)
	require.Len(t, plan.Trees, 3)
	steps := trimming.Steps(plan.Trees)
	got := make([]int, 2)
	cuts := 0
	for _, s := range steps {
		cuts += s.Cuts * s.Parts
		width := s.Size.H
		if s.Upright {
			width = s.Size.W
		}
		require.Greater(t, s.Stop, geometry.Length(0))
		require.Less(t, s.Stop, width)
		for _, x := range s.Strips {
			if x.Piece >= 0 {
				got[x.Piece] += x.Count * s.Parts
			}
		}
	}
	require.Equal(t, []int{24, 3}, got)
	want := 0
	for _, tree := range plan.Trees {
		want += tree.Cuts()
	}
	require.Equal(t, want, cuts, "no cut more than the trees have")
	require.GreaterOrEqual(t, trimming.Stops(steps), 2)
	require.NotEmpty(t, steps[0].String())
}
