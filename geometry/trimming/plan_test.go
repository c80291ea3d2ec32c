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
		if rapid.Bool().Draw(t, "short cuts") {
			job.Longest = geometry.Length(rapid.IntRange(10, 60).Draw(t, "longest")) * unit
		}
		plan, err := trimming.Plan(job)
		if job.Longest > 0 && err != nil {
			require.ErrorContains(t, err, "the longest cut is")
			require.Less(t, job.Longest, max(job.Stock.Size.W, job.Stock.Size.H))
			return
		}
		require.NoError(t, err)
		replayed(t, job, plan)
		if job.Longest > 0 {
			for _, tree := range plan.Trees {
				require.LessOrEqual(t, longestCut(tree), job.Longest)
			}
		}
		again, err := trimming.Plan(job)
		require.NoError(t, err)
		require.Equal(t, plan, again, "the same seed gives the same plan")
	})
}

func longestCut(p *trimming.Part) geometry.Length {
	if p.Cut == nil {
		return 0
	}
	here := p.Box.W()
	if p.Cut.Upright {
		here = p.Box.H()
	}
	return max(here, longestCut(p.Parts[0]), longestCut(p.Parts[1]))
}

// By hand: 12 of 6 x 6 and one of 1 x 1 have more area than three sheets of
// 12 x 12; 5 x 5 go four to a sheet of 14 x 14, so nine need three; of pieces
// more than half as wide and high as the sheet no two share one; a sheet of
// 19 x 19 gives nine of 5 x 5 or larger, so 28 of two sizes need four.
func TestBoundsByHand(t *testing.T) {
	piece := func(w, h, n int) trimming.Piece { return trimming.Piece{Size: sizeOf(w, h), Count: n, Turn: true} }
	for _, c := range []struct {
		sheet  geometry.Size
		pieces []trimming.Piece
		want   int
		name   string
	}{
		{sizeOf(12, 12), []trimming.Piece{piece(6, 6, 12), piece(1, 1, 1)}, 4, "by area"},
		{sizeOf(14, 14), []trimming.Piece{piece(5, 5, 9)}, 3, "by the most of one size that a sheet gives"},
		{sizeOf(13, 13), []trimming.Piece{piece(7, 7, 3), piece(7, 8, 2)}, 5, "by large pieces"},
		{sizeOf(19, 19), []trimming.Piece{piece(5, 5, 14), piece(6, 6, 14)}, 4, "by the most of all sizes that a sheet gives"},
	} {
		plan, err := trimming.Plan(trimming.Job{Stock: trimming.Stock{Size: c.sheet}, Pieces: c.pieces})
		require.NoError(t, err)
		require.Equal(t, c.want, plan.Bound, "%s", c.name)
		require.Equal(t, c.name, plan.BoundName)
	}
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
		"long cuts":  {trimming.Job{Stock: sheet, Longest: 5 * unit, Pieces: []trimming.Piece{{Size: sizeOf(2, 2), Count: 1}}}, "cannot be cut from a sheet of"},
		"few sheets": {trimming.Job{Stock: trimming.Stock{Size: sizeOf(10, 10), Count: 1}, Pieces: []trimming.Piece{{Size: sizeOf(10, 6), Count: 2}}}, "the pieces need 2 sheets and there are 1"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := trimming.Plan(c.job)
			require.ErrorContains(t, err, c.want)
		})
	}
}

// 500 pieces of 20 sizes: under 2 s with an effort of 100,000.
func BenchmarkPlan500(b *testing.B) {
	job := trimming.Job{Stock: trimming.Stock{Size: sizeOf(12*64, 12*64)}, Effort: 100_000}
	for i := range 20 {
		job.Pieces = append(job.Pieces, trimming.Piece{Size: sizeOf(60+17*i%200, 70+29*i%230), Count: 25, Turn: i%2 == 0})
	}
	var plan trimming.Planned
	for b.Loop() {
		var err error
		plan, err = trimming.Plan(job)
		require.NoError(b, err)
	}
	replayed(b, job, plan)
	b.ReportMetric(float64(len(plan.Trees)), "sheets")
	b.ReportMetric(float64(plan.Bound), "bound")
	b.Logf("%s", plan.BoundName)
}

// binEffort is the effort for each instance of BenchmarkBinClasses.
const binEffort = 500_000

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
					job := trimming.Job{Stock: trimming.Stock{Size: sizeOf(in.Bin[0], in.Bin[1])}, Effort: binEffort}
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
