package nesting_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/geometry/nesting"
)

// aLittle is work enough to lay a small job and try to take a sheet away.
const aLittle = nesting.Quick / 100

func searched(t testing.TB, job nesting.Job, effort nesting.Effort) nesting.Result {
	t.Helper()
	r, err := nesting.Search{Effort: effort, Seed: 1}.Find(context.Background(), job)
	require.NoError(t, err)
	require.NoError(t, nesting.Verify(job, r.Layout))
	return r
}

// smallJob is one of anyJob's that a search is soon done with: few shapes,
// of which only the first may be turned freely.
func smallJob(t *rapid.T) nesting.Job {
	job := anyJob(t)
	job.Shapes = job.Shapes[:min(len(job.Shapes), 3)]
	for i := range job.Shapes {
		if i > 0 && job.Shapes[i].Turns.AllowAny() {
			job.Shapes[i].Turns, job.Shapes[i].Mirror = nesting.QuarterTurns, false // a mirrored outline rounds otherwise elsewhere
		}
	}
	return job
}

func rapidSearched(t *rapid.T, job nesting.Job, effort nesting.Effort) nesting.Result {
	r, err := nesting.Search{Effort: effort, Seed: 1}.Find(context.Background(), job)
	require.NoError(t, err)
	require.NoError(t, nesting.Verify(job, r.Layout))
	return r
}

// Never more sheets than rows, never fewer than the bound, and more work
// never takes more sheets.
func TestSearchAlwaysVerifies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := smallJob(t)
		little, more := rapidSearched(t, job, aLittle), rapidSearched(t, job, 3*aLittle)
		require.LessOrEqual(t, len(little.Layout.Sheets), len(packed(t, job).Sheets))
		require.LessOrEqual(t, len(more.Layout.Sheets), len(little.Layout.Sheets))
		require.GreaterOrEqual(t, len(more.Layout.Sheets), little.Bound.Sheets)
		require.Equal(t, little, rapidSearched(t, copyOf(job), aLittle), "the same job and seed")
	})
}

func TestSearchDoesNotMindWhereOutlinesLie(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := smallJob(t)
		for i := range job.Shapes {
			job.Shapes[i].Turns = nesting.QuarterTurns
		}
		moved := copyOf(job)
		for i := range moved.Shapes {
			moved.Shapes[i] = movedShape(moved.Shapes[i], geometry.Vector{X: 7 * mm, Y: -3 * mm})
		}
		require.Equal(t, placedOutlines(job, rapidSearched(t, job, aLittle).Layout),
			placedOutlines(moved, rapidSearched(t, moved, aLittle).Layout))
	})
}

// Pieces cut from one sheet by straight lines fit back on a sheet with a
// fifth of room to spare.
func TestSearchFitsBackWhatWasCut(t *testing.T) {
	parts := []geometry.Outline{oblong(100*mm, 80*mm)}
	for _, l := range []geometry.Line{
		{A: geometry.Point{X: 0, Y: 30 * mm}, B: geometry.Point{X: 100 * mm, Y: 45 * mm}},
		{A: geometry.Point{X: 35 * mm}, B: geometry.Point{X: 55 * mm, Y: 80 * mm}},
		{A: geometry.Point{X: 0, Y: 75 * mm}, B: geometry.Point{X: 100 * mm, Y: 10 * mm}},
	} {
		parts = geometry.SplitAll(parts, l, 0)
	}
	require.Len(t, parts, 7)
	job := nesting.Job{Stock: endless(120*mm, 96*mm)}
	for _, p := range parts {
		job.Shapes = append(job.Shapes, want("part", p, 1, nesting.NoTurn))
	}
	r := searched(t, job, nesting.Quick)
	require.Len(t, r.Layout.Sheets, 1)
	require.True(t, r.Proved)
}

// The optimum of dighe1 is a strip without waste, 100 long (bench README).
func TestSearchSolvesAJigsaw(t *testing.T) {
	r := searched(t, strip(t, "dighe1"), nesting.Normal)
	require.Equal(t, 100*mm, r.Length)
	require.True(t, r.Proved)
	require.Equal(t, "area", r.Bound.Kind)
}

// Nothing is gained over rows: the rows stay, exactly as they are.
func TestNeatRowsStay(t *testing.T) {
	half := geometry.OutlineFromPoints(geometry.Point{}, geometry.Point{X: 30 * mm}, geometry.Point{Y: 20 * mm})
	job := nesting.Job{
		Shapes:  []nesting.Shape{want("half", half, 40, nesting.HalfTurns)},
		Stock:   endless(200*mm, 150*mm),
		Spacing: mm, Edge: 5 * mm,
	}
	r := searched(t, job, nesting.Quick)
	require.Equal(t, pack(t, job), r.Layout)
	require.True(t, r.Proved)
	require.Equal(t, geometry.Length(200*mm), r.Offcut.W())
}

// L shapes interlock: rows of their boxes need two sheets, pairs one.
func TestSearchBeatsRowsOnHooks(t *testing.T) {
	hook := shape("0,0 30,0 30,10 10,10 10,30 0,30")
	job := nesting.Job{
		Shapes: []nesting.Shape{want("hook", hook, 6, nesting.HalfTurns)},
		Stock:  endless(82*mm, 62*mm), Spacing: mm,
	}
	require.Len(t, pack(t, job).Sheets, 2)
	require.Len(t, searched(t, job, nesting.Quick).Layout.Sheets, 1)
}

func TestSearchStopsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	job := nesting.Job{Stock: endless(82*mm, 62*mm), Spacing: mm}
	job.Shapes = []nesting.Shape{want("hook", shape("0,0 30,0 30,10 10,10 10,30 0,30"), 60, nesting.HalfTurns)}
	told := 0
	r, err := nesting.Search{Effort: nesting.Thorough, Progress: func(nesting.Progress) { told++; cancel() }}.Find(ctx, job)
	require.NoError(t, err)
	require.NoError(t, nesting.Verify(job, r.Layout))
	require.Positive(t, told)
	require.Less(t, r.Work, nesting.Normal, "it went on")
}

// Rows lie across a roll, so that it is short even where no search is made.
func TestRowsLieAcrossARoll(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("ell", shape("0,0 30,0 30,10 10,10 10,40 0,40"), 97, nesting.NoTurn), want("kite", shape("10,0 20,10 10,33 0,10"), 40, nesting.AnyTurn)},
		Stock:  []nesting.Sheet{{Size: geometry.Size{W: 50 * geometry.Metre, H: 300 * mm}, Count: 1, Roll: true}}, Edge: 5 * mm, Spacing: mm,
	}
	r := searched(t, job, 1)
	require.LessOrEqual(t, r.Length, 700*mm, "97 boxes of 31 x 41 mm are 14 columns of seven, and 40 of 21 x 34 mm are 5")
	ctx, cancel := context.WithCancel(t.Context())
	s := nesting.Search{Effort: nesting.Thorough, Progress: func(nesting.Progress) { cancel() }}
	r, err := s.Find(ctx, job)
	require.NoError(t, err)
	require.LessOrEqual(t, r.Length, 700*mm)
}

// A roll is no shorter than its longest piece: 100 x 10 mm that may only lie
// along it, or 30 mm broad at the least.
func TestTheLongestPieceBoundsARoll(t *testing.T) {
	roll := []nesting.Sheet{{Size: geometry.Size{W: 5 * geometry.Metre, H: 60 * mm}, Count: 1, Roll: true}}
	strip := nesting.Job{Stock: roll, Shapes: []nesting.Shape{want("strip", oblong(100*mm, 10*mm), 3, nesting.QuarterTurns)}}
	require.Equal(t, nesting.Bound{Length: 100e6, Kind: "the longest piece"}, strip.Least())
	require.True(t, searched(t, strip, nesting.Quick).Proved)
	free := nesting.Job{Stock: roll, Shapes: []nesting.Shape{want("tile", oblong(30*mm, 50*mm), 1, nesting.AnyTurn)}}
	require.Equal(t, nesting.Bound{Length: 30e6, Kind: "the longest piece"}, free.Least())
}

// Stock is used in order: the offcuts first, and new sheets for the rest.
func TestSearchUsesStockInOrder(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("tile", oblong(40*mm, 30*mm), 12, nesting.NoTurn)},
		Stock: []nesting.Sheet{
			{Size: geometry.Size{W: 90 * mm, H: 40 * mm}, Count: 2},
			{Size: geometry.Size{W: 90 * mm, H: 70 * mm}},
		},
	}
	r := searched(t, job, nesting.Quick)
	require.Equal(t, []int{0, 0, 1, 1}, r.Layout.Sheets)
}

func TestSearchRefusesWhatNobodyCanLay(t *testing.T) {
	bow := shape("0,0 20,20 20,0 0,20")
	for _, c := range []struct {
		name, says string
		shapes     []nesting.Shape
	}{
		{"too many", "50001 pieces are more than the 50000", []nesting.Shape{want("dot", oblong(mm, mm), 50_001, nesting.NoTurn)}},
		{"crossing", "bow: ", []nesting.Shape{want("bow", bow, 1, nesting.NoTurn)}},
		{"too large", "shape 0 is 200 x 20 mm", []nesting.Shape{want("big", oblong(200*mm, 20*mm), 1, nesting.NoTurn)}},
		{"copies", "-1 copies", []nesting.Shape{want("few", oblong(mm, mm), -1, nesting.NoTurn)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := nesting.Search{}.Find(context.Background(), nesting.Job{Shapes: c.shapes, Stock: endless(100*mm, 100*mm)})
			require.ErrorContains(t, err, c.says)
		})
	}
}

// A roll holds what rows need a longer one for, and reports its bound.
func TestSearchShortensARoll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := smallJob(t)
		job.Stock = []nesting.Sheet{{Size: geometry.Size{W: 5 * geometry.Metre, H: lengths(t, "width", 70, 150)}, Count: 1, Roll: true}}
		r := rapidSearched(t, job, aLittle)
		if len(r.Layout.Placements) == 0 {
			return
		}
		require.GreaterOrEqual(t, float64(r.Length-2*job.Edge)*(1+1e-9)+1, r.Bound.Length)
		right := geometry.Length(0)
		for _, o := range placedOutlines(job, r.Layout) {
			right = max(right, o.Bounds().Max.X)
		}
		require.Equal(t, right+job.Edge, r.Length)
	})
}
