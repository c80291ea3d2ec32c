package nesting_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/geometry/nesting"
)

// faulty is a sound layout to plant faults in: three 10 mm squares, two of
// them one kind, and a frame with a hole of 20 mm, on two sheets of
// 50 x 40 mm with an edge of 3 and a spacing of 2.
func faulty() (nesting.Job, nesting.Layout) {
	job := nesting.Job{
		Shapes: []nesting.Shape{
			want("square", oblong(10*mm, 10*mm), 2, nesting.HalfTurns),
			want("one-way", oblong(10*mm, 10*mm), 1, nesting.NoTurn),
			want("frame", shape("0,0 30,0 30,30 0,30; 5,5 25,5 25,25 5,25"), 1, nesting.AnyTurn),
		},
		Stock: []nesting.Sheet{stock(50, 40, 2)}, Edge: 3 * mm, Spacing: 2 * mm, InHoles: true,
	}
	at := func(x, y geometry.Length) geometry.Vector { return geometry.Vector{X: x * mm, Y: y * mm} }
	return job, nesting.Layout{
		Sheets: []int{0, 0},
		Placements: []nesting.Placement{
			{Shape: 0, Copy: 0, Sheet: 0, Move: at(3, 3)},
			{Shape: 0, Copy: 1, Sheet: 0, Turn: 180, Move: at(25, 13)}, // covers 15..25 x 3..13
			{Shape: 1, Copy: 0, Sheet: 1, Move: at(10, 10)},            // in the frame's hole, 8..28 mm
			{Shape: 2, Copy: 0, Sheet: 1, Move: at(3, 3)},
		},
	}
}

func TestVerifyAcceptsWhatIsSound(t *testing.T) {
	job, layout := faulty()
	require.NoError(t, nesting.Verify(job, layout), "and a piece in a hole, 2 mm from its sides")
}

// plants are the ways to go wrong, and a part of what is said about each.
var plants = []struct {
	name  string
	plant func(*nesting.Job, *nesting.Layout)
	says  string
}{
	{"in the edge by a nanometre, left", move(0, -1, 0), "sheet 1: square, copy 1: outside"},
	{"in the edge by a nanometre, top", move(0, 0, -1), "sheet 1: square, copy 1: outside"},
	{"in the edge by a nanometre, right", move(1, 22*mm+1, 0), "sheet 1: square, copy 2: outside"},
	{"in the edge by a nanometre, bottom", move(1, 0, 24*mm+1), "sheet 1: square, copy 2: outside"},
	{"far outside", move(3, -90*mm, 0), "sheet 2: frame, copy 1: outside"},
	{"too close by a nanometre", move(1, -1, 0), "sheet 1: square, copy 1 and square, copy 2: closer than 2 mm"},
	{"on top of another", move(1, -12*mm, 0), "closer than 2 mm"},
	{"too close to a hole's side", move(2, -1, 0), "sheet 2: frame, copy 1 and one-way, copy 1: closer than 2 mm"},
	{"across a hole's side", move(2, 12*mm, 0), "closer than 2 mm"},
	{"missing", func(_ *nesting.Job, l *nesting.Layout) { l.Placements = l.Placements[:3] }, "3 pieces placed, 4 wanted"},
	{"twice", func(_ *nesting.Job, l *nesting.Layout) { l.Placements[1].Copy = 0 }, "square, copy 1: placed twice"},
	{"one too many", func(j *nesting.Job, _ *nesting.Layout) { j.Shapes[0].Count = 1 }, "square, copy 2: placed twice, or not wanted"},
	{"copy under 0", func(_ *nesting.Job, l *nesting.Layout) { l.Placements[0].Copy = -1 }, "not wanted"},
	{"a turn that is not allowed", func(_ *nesting.Job, l *nesting.Layout) { l.Placements[2].Turn = 90 }, "one-way, copy 1: turned by 90 degrees"},
	{"a turn that is no number", func(_ *nesting.Job, l *nesting.Layout) { l.Placements[3].Turn = notANumber }, "frame, copy 1: turned by NaN degrees"},
	{"in a hole where nothing may be", func(j *nesting.Job, _ *nesting.Layout) { j.InHoles = false }, "closer than 2 mm"},
	{"turned over", func(_ *nesting.Job, l *nesting.Layout) { l.Placements[2].Over = true }, "one-way, copy 1: turned over, which is not allowed"},
	{"on another of another block", func(j *nesting.Job, _ *nesting.Layout) {
		j.Shapes[0].Block = []geometry.Outline{oblong(10*mm, 10*mm).Moved(geometry.Vector{X: 11 * mm})}
	}, "square, copy 1 and square, copy 2: closer than 2 mm"},
	{"outside a scrap by a nanometre", func(j *nesting.Job, _ *nesting.Layout) {
		j.Stock[0].Outline = shape("0,0 35.999999,0 35.999999,40 0,40")
	}, "sheet 2: frame, copy 1: outside the scrap"},
	{"in a scrap's hole", func(j *nesting.Job, _ *nesting.Layout) {
		j.Stock[0].Outline = shape("0,0 50,0 50,40 0,40; 20,1 21,1 21,2 20,2")
	}, "sheet 1: square, copy 2: outside the scrap"},
	{"unknown shape", func(_ *nesting.Job, l *nesting.Layout) { l.Placements[0].Shape = 3 }, "no such shape or sheet"},
	{"shape under 0", func(_ *nesting.Job, l *nesting.Layout) { l.Placements[0].Shape = -1 }, "no such shape or sheet"},
	{"unknown sheet", func(_ *nesting.Job, l *nesting.Layout) { l.Placements[0].Sheet = 2 }, "no such shape or sheet"},
	{"sheet under 0", func(_ *nesting.Job, l *nesting.Layout) { l.Placements[0].Sheet = -1 }, "no such shape or sheet"},
	{"sheet that is not in stock", func(_ *nesting.Job, l *nesting.Layout) { l.Sheets[1] = 1 }, "sheet 2: not in stock"},
	{"stock under 0", func(_ *nesting.Job, l *nesting.Layout) { l.Sheets[0] = -1 }, "sheet 1: not in stock"},
	{"more sheets than in stock", func(j *nesting.Job, _ *nesting.Layout) { j.Stock[0].Count = 1 }, "sheet 2: only 1 of that size in stock"},
}

// move plants a piece that lies elsewhere.
func move(piece int, x, y geometry.Length) func(*nesting.Job, *nesting.Layout) {
	return func(_ *nesting.Job, l *nesting.Layout) {
		l.Placements[piece].Move = l.Placements[piece].Move.Add(geometry.Vector{X: x, Y: y})
	}
}

func TestVerifyFindsPlantedFaults(t *testing.T) {
	for _, c := range plants {
		t.Run(c.name, func(t *testing.T) {
			job, layout := faulty()
			c.plant(&job, &layout)
			require.ErrorContains(t, nesting.Verify(job, layout), c.says)
			require.False(t, verifySlowly(job, layout), "nor may the slow twin take it")
		})
	}
}

// The last nanometre that is allowed, each way.
func TestVerifyAcceptsTheLastNanometre(t *testing.T) {
	for name, plant := range map[string]func(*nesting.Job, *nesting.Layout){
		"spacing just kept":     move(1, 0, 0), // 3 + 10 + 2 = 15
		"right edge just kept":  move(1, 22*mm, 0),
		"bottom edge just kept": move(1, 0, 24*mm),
		"a scrap just wide enough": func(j *nesting.Job, _ *nesting.Layout) {
			j.Stock[0].Outline = shape("0,0 36,0 36,40 0,40")
		},
		"turned by a whole turn":  func(_ *nesting.Job, l *nesting.Layout) { l.Placements[2].Turn = 360 },
		"endless stock":           func(j *nesting.Job, _ *nesting.Layout) { j.Stock[0].Count = 0 },
		"a sheet without a piece": func(j *nesting.Job, l *nesting.Layout) { j.Stock[0].Count = 3; l.Sheets = append(l.Sheets, 0) },
	} {
		t.Run(name, func(t *testing.T) {
			job, layout := faulty()
			plant(&job, &layout)
			require.NoError(t, nesting.Verify(job, layout))
			require.True(t, verifySlowly(job, layout))
		})
	}
}

// With no spacing pieces may touch, along a side and in a point, but not
// overlap by a nanometre.
func TestVerifyWithoutSpacing(t *testing.T) {
	job := nesting.Job{Shapes: squares(2, nesting.NoTurn), Stock: endless(30*mm, 30*mm)}
	for _, c := range []struct {
		name string
		to   geometry.Vector
		ok   bool
	}{
		{"side by side", geometry.Vector{X: 10 * mm}, true},
		{"corner to corner", geometry.Vector{X: 10 * mm, Y: 10 * mm}, true},
		{"overlapping by a nanometre", geometry.Vector{X: 10*mm - 1}, false},
		{"overlapping in a corner of a nanometre", geometry.Vector{X: 10*mm - 1, Y: 10*mm - 1}, false},
		{"on one place", geometry.Vector{}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			layout := nesting.Layout{Sheets: []int{0}, Placements: []nesting.Placement{{}, {Copy: 1, Move: c.to}}}
			require.Equal(t, c.ok, nesting.Verify(job, layout) == nil)
			require.Equal(t, c.ok, verifySlowly(job, layout))
		})
	}
}

// A long piece lies across many short ones: the neighbour sweep must look
// past those in between.
func TestVerifyLooksPastShortNeighbours(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{
			want("long", oblong(200*mm, 10*mm), 1, nesting.NoTurn),
			want("short", oblong(10*mm, 10*mm), 10, nesting.NoTurn),
		},
		Stock: endless(300*mm, 50*mm),
	}
	layout := nesting.Layout{Sheets: []int{0}, Placements: []nesting.Placement{{}}}
	for i := range 10 {
		layout.Placements = append(layout.Placements, nesting.Placement{
			Shape: 1, Copy: i, Move: geometry.Vector{X: geometry.Length(15*i) * mm, Y: 20 * mm},
		})
	}
	require.NoError(t, nesting.Verify(job, layout))
	layout.Placements[10].Move.Y = 10*mm - 1
	require.ErrorContains(t, nesting.Verify(job, layout), "long, copy 1 and short, copy 10: closer than 0 mm")
}
