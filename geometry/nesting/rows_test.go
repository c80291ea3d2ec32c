package nesting_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/geometry/nesting"
)

// The demo's halves, by hand. Legs 1.92143 x 2.52187 in, long side 3.17044
// (trade facts, section 6, case 2, for a gap of 1/8 in). Two of them 1/16 in
// apart fill an oblong that is longer by (1/16)/2 x 3.17044/2.52187 = 0.03929
// one way and by (1/16)/2 x 3.17044/1.92143 = 0.05156 the other: 1.96072 x
// 2.57343 in. A 6 in sheet with an edge of 1/4 in has 5.5 in to use. Side by
// side 2 x 1.96072 + 1/16 = 3.98394 fit, a third would make 6.00716; above
// each other 2 x 2.57343 + 1/16 = 5.20936 fit. So four pairs, eight halves.
func demoHalf() geometry.Outline {
	const w, h = geometry.Length(1.92143 * 25.4e6), geometry.Length(2.52187 * 25.4e6)
	return geometry.OutlineFromPoints(geometry.Point{}, geometry.Point{X: w}, geometry.Point{Y: h})
}

func demoJob(count int, turns nesting.Turns) nesting.Job {
	return nesting.Job{
		Shapes: []nesting.Shape{want("half", demoHalf(), count, turns)},
		Stock:  endless(6*inch, 6*inch), Edge: inch / 4, Spacing: inch / 16,
	}
}

func TestRowsOnTheDemosSheet(t *testing.T) {
	for _, c := range []struct {
		name   string
		count  int
		turns  nesting.Turns
		sheets int
	}{
		{"eight two-way halves", 8, nesting.HalfTurns, 1},
		{"eight plain halves", 8, nesting.AnyTurn, 1},
		{"a ninth takes a second sheet", 9, nesting.HalfTurns, 2},
		// A half by itself: 2 x 1.92143 + 1/16 = 3.90536 in, and a third makes
		// 5.88929; 2 x 2.52187 + 1/16 = 5.10624: four.
		{"one-way halves stand alone, four a sheet", 8, nesting.NoTurn, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Len(t, pack(t, demoJob(c.count, c.turns)).Sheets, c.sheets)
		})
	}
}

// Two kinds on the demo's sheet, four "/" halves and four "\" halves: two
// pairs of each, the same oblongs as above.
func TestRowsOfBothHands(t *testing.T) {
	job := demoJob(4, nesting.HalfTurns)
	job.Shapes = append(job.Shapes, want("other hand", demoHalf().Mirrored(), 4, nesting.HalfTurns))
	require.Len(t, pack(t, job).Sheets, 1)
}

// Sheet counts by hand; the sums stand with the cases. All in mm.
var rowCases = []struct {
	name          string
	shape         string
	count         int
	turns         nesting.Turns
	sheet         [2]string
	edge, spacing string
	sheets        int
}{
	{"one", "0,0 10,0 10,10 0,10", 1, nesting.NoTurn, [2]string{"10", "10"}, "0", "0", 1},
	{"3 x 2 a sheet, 7 wanted", "0,0 10,0 10,10 0,10", 7, nesting.NoTurn, [2]string{"39", "29"}, "0", "0", 2},
	// 3 + 10 + 4 + 10 + 3 = 30 across, 3 + 10 + 3 = 16 down.
	{"edge and spacing just fit", "0,0 10,0 10,10 0,10", 2, nesting.NoTurn, [2]string{"30", "16"}, "3", "4", 1},
	{"1 nm short", "0,0 10,0 10,10 0,10", 2, nesting.NoTurn, [2]string{"29.999999", "16"}, "3", "4", 2},
	{"spacing 1 nm too large", "0,0 10,0 10,10 0,10", 2, nesting.NoTurn, [2]string{"30", "16"}, "3", "4.000001", 2},
	{"edge 1 nm too large", "0,0 10,0 10,10 0,10", 2, nesting.NoTurn, [2]string{"30", "17"}, "3.000001", "4", 2},
	{"rows above each other", "0,0 10,0 10,10 0,10", 2, nesting.NoTurn, [2]string{"16", "30"}, "3", "4", 1},
	// 20 x 30 upright on 60 x 40: 3 side by side; turned 30 x 20: 2 x 2.
	{"as it is: 3 a sheet", "0,0 20,0 20,30 0,30", 4, nesting.HalfTurns, [2]string{"60", "40"}, "0", "0", 2},
	{"quarter turns: 4 a sheet", "0,0 20,0 20,30 0,30", 4, nesting.QuarterTurns, [2]string{"60", "40"}, "0", "0", 1},
	{"a quarter turn to the left: 4 a sheet", "0,0 20,0 20,30 0,30", 4, nesting.TurnsFrom(270), [2]string{"60", "40"}, "0", "0", 1},
	{"fits only after a quarter turn", "0,0 10,0 10,30 0,30", 1, nesting.QuarterTurns, [2]string{"30", "10"}, "0", "0", 1},
	{"fits only after a turn to the left", "0,0 10,0 10,30 0,30", 1, nesting.TurnsFrom(270), [2]string{"30", "10"}, "0", "0", 1},
	// A box of 40 x 40 each, whatever its dent: 2 x 1 on 80 x 50.
	{"L shapes keep to their boxes", "0,0 40,0 40,10 10,10 10,40 0,40", 3, nesting.AnyTurn, [2]string{"80", "50"}, "0", "0", 2},
	{"frames, nothing in their holes", "0,0 40,0 40,40 0,40; 10,10 30,10 30,30 10,30", 2, nesting.AnyTurn, [2]string{"80", "40"}, "0", "0", 1},
	// Legs 30 x 20 make an oblong of 30 x 20.
	{"right triangles in pairs", "0,0 30,0 0,20", 2, nesting.HalfTurns, [2]string{"30", "20"}, "0", "0", 1},
	{"one-way right triangles alone", "0,0 30,0 0,20", 2, nesting.NoTurn, [2]string{"30", "20"}, "0", "0", 2},
	// A pair is 1 nm larger than the sheet with any spacing, a single is not.
	{"a pair that fits on no sheet goes by ones", "0,0 30,0 0,20", 2, nesting.HalfTurns, [2]string{"30", "20"}, "0", "0.000001", 2},
	// 31 x 21 after the turn, on 21 x 31 only.
	{"a pair is turned as one", "0,0 30,0 0,20", 2, nesting.QuarterTurns, [2]string{"20", "30"}, "0", "0", 1},
	{"a dented triangle makes no pair", "0,0 30,0 10,8 0,20", 2, nesting.HalfTurns, [2]string{"30", "20"}, "0", "0", 2},
}

func TestRowsByHand(t *testing.T) {
	for _, c := range rowCases {
		t.Run(c.name, func(t *testing.T) {
			job := nesting.Job{
				Shapes: []nesting.Shape{want("piece", shape(c.shape), c.count, c.turns)},
				Stock:  endless(millimetres(c.sheet[0]), millimetres(c.sheet[1])),
				Edge:   millimetres(c.edge), Spacing: millimetres(c.spacing),
			}
			require.Len(t, pack(t, job).Sheets, c.sheets)
		})
	}
}

// Two bases of 4 1/4 x 11 in lie side by side on a Letter sheet, 8 1/2 x 11
// in: 2 x 4 1/4 = 8 1/2.
func TestRowsOfBasesOnLetter(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("base", oblong(17*inch/4, 11*inch), 5, nesting.HalfTurns)},
		Stock:  endless(17*inch/2, 11*inch),
	}
	require.Len(t, pack(t, job).Sheets, 3, "two, two and one")
	job.Spacing = 1
	require.Len(t, pack(t, job).Sheets, 5, "a nanometre between them is too much")
}

// 4 pieces, 10 mm square, in 3 + 10 + 4 + 10: first the row, then the next.
func TestRowsKeepEdgeAndSpacingExactly(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("square", oblong(10*mm, 10*mm), 4, nesting.NoTurn)},
		Stock:  endless(30*mm, 30*mm), Edge: 3 * mm, Spacing: 4 * mm,
	}
	require.Equal(t, []string{"3,3", "17,3", "3,17", "17,17"}, corners(job, pack(t, job)))
}

// Two 5 mm squares stand on each other beside one of 10 mm.
func TestRowsStackSmallPieces(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{
			want("small", oblong(5*mm, 5*mm), 2, nesting.NoTurn),
			want("large", oblong(10*mm, 10*mm), 1, nesting.NoTurn),
		},
		Stock: endless(15*mm, 10*mm),
	}
	require.Equal(t, []string{"0,0", "10,0", "10,5"}, corners(job, pack(t, job)))
}

func TestRowsPackCurves(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("disc", disc(10*mm), 4, nesting.AnyTurn)},
		Stock:  endless(44*mm, 44*mm), Edge: mm, Spacing: 2 * mm, // 1 + 20 + 2 + 20 + 1
	}
	require.Len(t, pack(t, job).Sheets, 1)
}

func TestRowsOfNothing(t *testing.T) {
	for name, shapes := range map[string][]nesting.Shape{
		"no shapes":    nil,
		"none of them": {want("square", oblong(10*mm, 10*mm), 0, nesting.AnyTurn)},
	} {
		t.Run(name, func(t *testing.T) {
			layout := pack(t, nesting.Job{Shapes: shapes, Stock: endless(30*mm, 30*mm)})
			require.Empty(t, layout.Sheets)
			require.Empty(t, layout.Placements)
		})
	}
}

// What is not wanted takes no part, however large it is.
func TestRowsLeaveOutWhatIsNotWanted(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{
			want("sea", oblong(900*mm, 900*mm), 0, nesting.NoTurn),
			want("square", oblong(10*mm, 10*mm), 1, nesting.NoTurn),
		},
		Stock: endless(30*mm, 30*mm),
	}
	require.Equal(t, []nesting.Placement{{Shape: 1}}, pack(t, job).Placements)
}

func TestRowsNumberCopiesSheetBySheet(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("square", oblong(10*mm, 10*mm), 5, nesting.NoTurn)},
		Stock:  endless(20*mm, 10*mm),
	}
	var copies, sheets []int
	for _, p := range pack(t, job).Placements {
		copies, sheets = append(copies, p.Copy), append(sheets, p.Sheet)
	}
	require.Equal(t, []int{0, 1, 2, 3, 4}, copies)
	require.Equal(t, []int{0, 0, 1, 1, 2}, sheets)
}

func TestRowsStopWithTheContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := nesting.Rows{}.Pack(ctx, demoJob(8, nesting.AnyTurn))
	require.ErrorIs(t, err, context.Canceled)
}

// Slanted strips of one kind close up: by hand, parallelograms 10 mm broad
// along their level sides that lean by 40 mm over a height of 40 have boxes
// of 50, and stand 10 mm apart without spacing: (100-50)/10 + 1 = 6 in a row of
// 100 mm. With 1 mm of spacing square to the slant they stand 10 + sqrt 2 apart:
// 50/11.414 + 1 = 5.
func TestSlantedPiecesCloseUp(t *testing.T) {
	for spacing, want := range map[geometry.Length]int{0: 6, geometry.Millimetre: 5} {
		job := nesting.Job{
			Shapes: []nesting.Shape{{Name: "strip", Count: want, Outline: geometry.OutlineFromPoints(
				geometry.Point{Y: 40 * geometry.Millimetre}, geometry.Point{X: 10 * geometry.Millimetre, Y: 40 * geometry.Millimetre},
				geometry.Point{X: 50 * geometry.Millimetre}, geometry.Point{X: 40 * geometry.Millimetre})}},
			Stock:   []nesting.Sheet{{Size: geometry.Size{W: 100 * geometry.Millimetre, H: 40 * geometry.Millimetre}}},
			Spacing: spacing,
		}
		layout, err := nesting.Rows{}.Pack(context.Background(), job)
		require.NoError(t, err)
		require.NoError(t, nesting.Verify(job, layout))
		require.Len(t, layout.Sheets, 1)
		job.Shapes[0].Count++
		layout, err = nesting.Rows{}.Pack(context.Background(), job)
		require.NoError(t, err)
		require.Len(t, layout.Sheets, 2)
	}
}
