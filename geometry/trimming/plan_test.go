package trimming_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/geometry/trimming"
)

type binFile struct {
	Instances []struct {
		Name  string
		Bin   [2]int
		Lower int   `json:"area_lower_bound"`
		Best  []int `json:"best_known_bins"`
		Rects [][2]int
	}
}

// replayed carries a plan out and makes sure that every piece comes off.
func replayed(t require.TestingT, job trimming.Job, plan trimming.Planned) {
	var sheets []geometry.Size
	for range plan.Trees {
		sheets = append(sheets, job.Stock.Size)
	}
	got, err := trimming.Replay(sheets, plan.Trees, job.Pieces, job.Kerf)
	require.NoError(t, err)
	for i, p := range job.Pieces {
		require.Equal(t, p.Count, got[i])
	}
	require.GreaterOrEqual(t, len(plan.Trees), plan.Bound)
}

func TestPlanCutsEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := trimming.Job{Stock: trimming.Stock{Size: sizeOf(rapid.IntRange(20, 60).Draw(t, "w"), rapid.IntRange(20, 60).Draw(t, "h"))},
			Kerf: geometry.Length(rapid.IntRange(0, 3).Draw(t, "kerf")) * unit, Effort: 100}
		for range rapid.IntRange(1, 5).Draw(t, "kinds") {
			job.Pieces = append(job.Pieces, trimming.Piece{
				Size:  sizeOf(rapid.IntRange(1, 20).Draw(t, "pw"), rapid.IntRange(1, 20).Draw(t, "ph")),
				Count: rapid.IntRange(1, 8).Draw(t, "count"), Turn: rapid.Bool().Draw(t, "turn"),
			})
		}
		plan, err := trimming.Plan(job)
		require.NoError(t, err)
		replayed(t, job, plan)
		again, err := trimming.Plan(job)
		require.NoError(t, err)
		require.Equal(t, plan, again, "the same seed gives the same plan")
	})
}

func TestPlanRefuses(t *testing.T) {
	sheet := trimming.Stock{Size: sizeOf(10, 10)}
	for name, c := range map[string]struct {
		job  trimming.Job
		want string
	}{
		"too large":  {trimming.Job{Stock: sheet, Pieces: []trimming.Piece{{Size: sizeOf(11, 2), Count: 1, Turn: true}}}, "a piece of"},
		"no size":    {trimming.Job{Stock: sheet, Pieces: []trimming.Piece{{Size: sizeOf(0, 2), Count: 1}}}, "has no size"},
		"too many":   {trimming.Job{Stock: sheet, Pieces: []trimming.Piece{{Size: sizeOf(1, 1), Count: 5001}}}, "more than 5000 pieces"},
		"few sheets": {trimming.Job{Stock: trimming.Stock{Size: sizeOf(10, 10), Count: 1}, Pieces: []trimming.Piece{{Size: sizeOf(10, 6), Count: 2}}}, "the pieces need 2 sheets and there are 1"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := trimming.Plan(c.job)
			require.ErrorContains(t, err, c.want)
		})
	}
}

// Every fourth of the 500 classic instances (Berkey and Wang 1987, Martello
// and Vigo 1998) against the best known guillotine results. "over" is how
// many sheets more than those, in percent of them.
func BenchmarkBinClasses(b *testing.B) {
	var file binFile
	bench(b, "bin_classes.json", &file)
	for _, turn := range []bool{false, true} {
		name, column := "fixed", 0
		if turn {
			name, column = "turned", 1
		}
		b.Run(name, func(b *testing.B) {
			sheets, best := 0, 0
			for b.Loop() {
				sheets, best = 0, 0
				for i := 0; i < len(file.Instances); i += 4 {
					in := file.Instances[i]
					job := trimming.Job{Stock: trimming.Stock{Size: sizeOf(in.Bin[0], in.Bin[1])}, Effort: 300_000}
					for _, r := range in.Rects {
						job.Pieces = append(job.Pieces, trimming.Piece{Size: sizeOf(r[0], r[1]), Count: 1, Turn: turn})
					}
					plan, err := trimming.Plan(job)
					require.NoError(b, err)
					replayed(b, job, plan)
					sheets += len(plan.Trees)
					best += in.Best[column]
				}
			}
			b.ReportMetric(float64(sheets), "sheets")
			b.ReportMetric(100*float64(sheets-best)/float64(best), "%over")
		})
	}
}
