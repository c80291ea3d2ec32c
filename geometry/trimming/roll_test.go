package trimming_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/geometry/trimming"
)

type stripFile struct {
	Instances []struct {
		Name    string
		Width   int `json:"strip_width"`
		Optimal int `json:"optimal_height"`
		Rects   [][2]int
	}
}

// rolledOff carries the cuts out and makes sure that every piece comes off.
func rolledOff(t require.TestingT, job trimming.RollJob, out trimming.Rolled) {
	sheet := geometry.Size{W: job.Width, H: out.Length}
	got, err := trimming.Replay([]geometry.Size{sheet}, []*trimming.Part{out.Tree}, job.Pieces, job.Kerf)
	require.NoError(t, err)
	for i, p := range job.Pieces {
		require.Equal(t, p.Count, got[i])
	}
	require.GreaterOrEqual(t, out.Length, out.Bound)
}

// The instances of Hopper and Turton (2001) and of Hopper's thesis (2000),
// whose least heights are known by their making; "over" is in percent of
// them. T is reachable by straight cuts; C in part, and N is not.
func BenchmarkStripHopper(b *testing.B) {
	var file stripFile
	bench(b, "strip_hopper.json", &file)
	for _, class := range "TCN" {
		b.Run(string(class), func(b *testing.B) {
			over, n := 0.0, 0
			for b.Loop() {
				over, n = 0, 0
				for _, in := range file.Instances {
					if in.Name[0] != byte(class) {
						continue
					}
					job := trimming.RollJob{Width: sizeOf(in.Width, 0).W, Effort: 300_000}
					for _, r := range in.Rects {
						job.Pieces = append(job.Pieces, trimming.Piece{Size: sizeOf(r[0], r[1]), Count: 1, Turn: true})
					}
					out, err := trimming.Roll(job)
					require.NoError(b, err)
					rolledOff(b, job, out)
					here := 100 * (float64(out.Length/unit)/float64(in.Optimal) - 1)
					b.Logf("%s: %d, optimum %d, %.2f %% over, proved %v", in.Name, out.Length/unit, in.Optimal, here, out.Proved)
					over += here
					n++
				}
			}
			b.ReportMetric(over/float64(n), "%over")
		})
	}
}
