package nesting_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/geometry/nesting"
)

func stock(w, h geometry.Length, count int) nesting.Sheet {
	return nesting.Sheet{Size: geometry.Size{W: w * mm, H: h * mm}, Count: count}
}

func squares(count int, turns nesting.Turns) []nesting.Shape {
	return []nesting.Shape{want("square", oblong(10*mm, 10*mm), count, turns)}
}

// Squares of 10 mm on named stock, in its order.
func TestRowsUseStockInOrder(t *testing.T) {
	for _, c := range []struct {
		name  string
		count int
		stock []nesting.Sheet
		want  []int
	}{
		{"two of the first, the rest of the second", 7, []nesting.Sheet{stock(20, 10, 2), stock(10, 10, 0)}, []int{0, 0, 1, 1, 1}},
		{"just enough", 4, []nesting.Sheet{stock(20, 10, 2)}, []int{0, 0}},
		{"the first is too small", 2, []nesting.Sheet{stock(9, 90, 0), stock(10, 20, 1)}, []int{1}},
		{"both run out together", 3, []nesting.Sheet{stock(10, 10, 1), stock(20, 10, 1)}, []int{0, 1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			layout := pack(t, nesting.Job{Shapes: squares(c.count, nesting.NoTurn), Stock: c.stock})
			require.Equal(t, c.want, layout.Sheets)
		})
	}
}

func TestRowsSayHowManyAreLeft(t *testing.T) {
	for _, c := range []struct {
		name   string
		shapes []nesting.Shape
		stock  []nesting.Sheet
		left   int
	}{
		{"7 squares, room for 4", squares(7, nesting.NoTurn), []nesting.Sheet{stock(20, 10, 2)}, 3},
		{"two sizes, room for 5", squares(7, nesting.NoTurn), []nesting.Sheet{stock(20, 10, 2), stock(10, 10, 1)}, 2},
		// A sheet of 30 x 20 holds one pair, so of 5 triangles 3 are left.
		{"a pair counts as two", []nesting.Shape{want("half", shape("0,0 30,0 0,20"), 5, nesting.HalfTurns)}, []nesting.Sheet{stock(30, 20, 1)}, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := nesting.Rows{}.Pack(context.Background(), nesting.Job{Shapes: c.shapes, Stock: c.stock})
			var out *nesting.OutOfSheetsError
			require.ErrorAs(t, err, &out)
			require.Equal(t, c.left, out.Left)
			require.NotEmpty(t, out.Error())
		})
	}
}

// What fits lying down on a sheet that runs out may stand on the next.
// Stock: one sheet of 60 x 40 mm that holds 20 x 30 mm pieces better when
// turned (2 x 2 against 3 x 1), and sheets of 20 x 30 mm.
func TestRowsTurnAgainForAnotherSheet(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("piece", oblong(20*mm, 30*mm), 6, nesting.QuarterTurns)},
		Stock:  []nesting.Sheet{stock(60, 40, 1), stock(20, 30, 0)},
	}
	require.Equal(t, []int{0, 1, 1}, pack(t, job).Sheets, "four, and one each")
}

// A pair with spacing fits only the larger sheet; once that is used up, its
// triangles go by ones. The pair is 30 x 20 mm and 1 mm apart: 30.9 x 20.6.
func TestRowsPartPairsForAnotherSheet(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("half", shape("0,0 30,0 0,20"), 4, nesting.HalfTurns)},
		Stock:  []nesting.Sheet{stock(31, 21, 1), stock(30, 20, 0)}, Spacing: mm,
	}
	require.Equal(t, []int{0, 1, 1}, pack(t, job).Sheets)
}

func TestRowsRefuseWhatIsTooLarge(t *testing.T) {
	for _, c := range []struct {
		name   string
		text   string
		turns  nesting.Turns
		edge   geometry.Length
		usable geometry.Size
	}{
		{"wider", "0,0 101,0 101,10 0,10", nesting.NoTurn, 0, geometry.Size{W: 100 * mm, H: 80 * mm}},
		{"by a nanometre", "0,0 100.000001,0 100.000001,10 0,10", nesting.HalfTurns, 0, geometry.Size{W: 100 * mm, H: 80 * mm}},
		{"by its edges", "0,0 95,0 95,10 0,10", nesting.HalfTurns, 3 * mm, geometry.Size{W: 94 * mm, H: 74 * mm}},
		{"only upright, and one-way", "0,0 10,0 10,90 0,90", nesting.NoTurn, 0, geometry.Size{W: 100 * mm, H: 80 * mm}},
		{"edges eat the sheet", "0,0 1,0 1,1 0,1", nesting.AnyTurn, 60 * mm, geometry.Size{W: -20 * mm, H: -40 * mm}},
	} {
		t.Run(c.name, func(t *testing.T) {
			large := shape(c.text)
			_, err := nesting.Rows{}.Pack(context.Background(), nesting.Job{
				Shapes: append(squares(0, nesting.NoTurn), want("large", large, 2, c.turns)),
				Stock:  []nesting.Sheet{stock(50, 50, 0), stock(100, 80, 0)}, Edge: c.edge,
			})
			var e *nesting.TooLargeError
			require.ErrorAs(t, err, &e)
			require.Equal(t, nesting.TooLargeError{Shape: 1, Size: large.Bounds().Size(), Usable: c.usable}, *e)
			require.Contains(t, err.Error(), large.Bounds().Size().String())
			require.Contains(t, err.Error(), c.usable.String())
		})
	}
}

// Sheets at hand that save no new one are left alone: 12 squares of 10 mm go on
// two sheets of eight with the strip of one, and without it.
func TestStockThatSavesNothingIsLeft(t *testing.T) {
	job := nesting.Job{Shapes: squares(12, nesting.NoTurn), Stock: []nesting.Sheet{stock(10, 10, 1), stock(40, 20, 0)}}
	require.Equal(t, []int{1, 1}, searched(t, job, nesting.Quick).Layout.Sheets)
	job.Shapes[0].Count = 9
	require.Equal(t, []int{0, 1}, searched(t, job, nesting.Quick).Layout.Sheets)
}
