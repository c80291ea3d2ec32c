package trimming_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/geometry/trimming"
)

// stepsOf writes a plan as steps, and carries them out: exactly the pieces
// wanted must come off, each of its size.
func stepsOf(t require.TestingT, job trimming.Job, plan trimming.Planned) []trimming.Step {
	sheets := plan.Sheets(0, job.Stock.Size)
	var blocks []trimming.Block
	for i := range job.Pieces {
		blocks = append(blocks, trimming.Block{Piece: i})
	}
	steps := trimming.StraightSteps(sheets, blocks, job.Kerf)
	var supply []trimming.Supply
	got := make([]int, len(job.Pieces))
	for _, lot := range trimming.Lots(sheets, job.Kerf) {
		require.Equal(t, job.Stock.Size, lot.Sheet.Size)
		if tree := lot.Sheet.Tree; tree.Cut == nil && plan.Clean.At == 0 { // the sheet is the piece
			got[tree.Piece] += lot.Of[0].Count
			continue
		}
		supply = append(supply, trimming.Supply{Name: lot.Name, Size: lot.Sheet.Size, Of: lot.Of})
	}
	done, err := trimming.CarryOut(supply, steps, job.Kerf, job.Longest)
	require.NoError(t, err)
	for _, d := range done {
		size := d.Outline.Bounds().Size()
		require.Equal(t, job.Pieces[d.Piece].Size, size)
		require.True(t, job.Pieces[d.Piece].Turn || !d.Turned)
		got[d.Piece]++
	}
	for i, p := range job.Pieces {
		require.Equal(t, p.Count, got[i])
	}
	return steps
}

func randomJob(t *rapid.T, side, kinds, count int) trimming.Job {
	job := trimming.Job{Stock: trimming.Stock{Size: sizeOf(rapid.IntRange(side/2, side).Draw(t, "w"), rapid.IntRange(side/2, side).Draw(t, "h"))}, Effort: 50}
	for range rapid.IntRange(1, kinds).Draw(t, "kinds") {
		job.Pieces = append(job.Pieces, trimming.Piece{
			Size:  sizeOf(rapid.IntRange(1, side/2).Draw(t, "pw"), rapid.IntRange(1, side/2).Draw(t, "ph")),
			Count: rapid.IntRange(1, count).Draw(t, "count"), Turn: rapid.Bool().Draw(t, "turn"),
		})
	}
	return job
}

func TestStepsGiveEveryPiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := randomJob(t, 40, 5, 9)
		job.Seed = int64(rapid.IntRange(0, 3).Draw(t, "seed"))
		job.Kerf = geometry.Length(rapid.IntRange(0, 2).Draw(t, "kerf")) * unit
		if rapid.Bool().Draw(t, "clean") {
			job.Clean = unit
			job.Stock.Size.W += unit + job.Kerf
			job.Stock.Size.H += unit + job.Kerf
		}
		plan, err := trimming.Plan(job)
		require.NoError(t, err)
		steps := stepsOf(t, job, plan)
		cuts, leaves := 0, 0
		for _, s := range steps {
			cuts += s.Cuts * s.Parts()
		}
		for _, s := range steps {
			for _, f := range append(s.Falls, s.Rest) {
				if f.Piece >= 0 || f.Offcut() {
					leaves += f.Count * s.Parts()
				}
			}
		}
		if job.Kerf == 0 { // each cut makes two parts of one: n pieces and w offcuts from s sheets take n + w - s cuts
			whole := 0
			for _, tree := range plan.Trees {
				whole += btoi(tree.Cut == nil && plan.Clean.At == 0)
			}
			require.Equal(t, leaves-(len(plan.Trees)-whole), cuts)
		}
	})
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// By hand: 24 pieces of 3 x 4 and a strip of 12 x 2 need three settings.
func TestSteps(t *testing.T) {
	job := trimming.Job{Stock: trimming.Stock{Size: sizeOf(12, 12)}, Pieces: []trimming.Piece{{Size: sizeOf(3, 4), Count: 24}, {Size: sizeOf(2, 2), Count: 3}}}
	plan, err := trimming.Plan(job)
	require.NoError(t, err)
	require.Len(t, plan.Trees, 3)
	steps := stepsOf(t, job, plan)
	require.Equal(t, 3, trimming.Settings(steps))
}

// The simulator must notice when steps are wrong.
func TestCarryOutFindsFaults(t *testing.T) {
	job := trimming.Job{Stock: trimming.Stock{Size: sizeOf(12, 12)}, Pieces: []trimming.Piece{{Size: sizeOf(3, 4), Count: 9}, {Size: sizeOf(2, 2), Count: 3}}}
	plan, err := trimming.Plan(job)
	require.NoError(t, err)
	for name, spoil := range map[string]func(steps []trimming.Step){
		"stop":      func(s []trimming.Step) { s[0].Stop += unit / 2 },
		"order":     func(s []trimming.Step) { s[0], s[len(s)-1] = s[len(s)-1], s[0] },
		"count":     func(s []trimming.Step) { s[0].Cuts++ },
		"direction": func(s []trimming.Step) { s[1].Upright = !s[1].Upright },
		"name":      func(s []trimming.Step) { s[1].Part = "elsewhere" },
		"fewer":     func(s []trimming.Step) { s[len(s)-1].Of = nil },
	} {
		t.Run(name, func(t *testing.T) {
			sheets := plan.Sheets(0, job.Stock.Size)
			steps := trimming.StraightSteps(sheets, []trimming.Block{{Piece: 0}, {Piece: 1}}, 0)
			spoil(steps)
			var supply []trimming.Supply
			for _, lot := range trimming.Lots(sheets, 0) {
				supply = append(supply, trimming.Supply{Name: lot.Name, Size: lot.Sheet.Size, Of: lot.Of})
			}
			_, err := trimming.CarryOut(supply, steps, 0, 0)
			require.Error(t, err)
		})
	}
	sheets := []trimming.CutSheet{{Size: job.Stock.Size, Tree: plan.Trees[0]}}
	_, err = trimming.CarryOut([]trimming.Supply{{Name: "A", Size: sizeOf(12, 12), Of: []trimming.Share{{Count: 1}}}},
		trimming.StraightSteps(sheets, []trimming.Block{{Piece: 0}, {Piece: 1}}, 0), 0, 11*unit)
	require.ErrorContains(t, err, "longer than")
}
