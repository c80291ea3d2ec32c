package sums_test

import (
	"flag"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/layouts/sums"
)

// Nothing here is rewritten by -update, but every package knows it.
var _ = flag.Bool("update", false, "rewrite golden files")

const in = geometry.Inch

func inches(f float64) geometry.Length { return geometry.Length(math.Round(f * float64(in))) }

func held(f float64) *geometry.Length { l := inches(f); return &l }

// quarters is the worked case of the issue: 2 by 2 5/8 in pieces as quarters
// of 4 1/4 by 5 1/2 in.
func quarters(halves, trimmed bool) sums.Pieces {
	return sums.Pieces{
		Card: geometry.Size{W: inches(4.25), H: inches(5.5)}, Piece: geometry.Size{W: inches(2), H: inches(2.625)},
		Columns: 2, Rows: 2, Halves: halves, Trimmed: trimmed, Unit: geometry.Inches,
	}
}

// Hand sums from the issue, in inches.
func TestFitWorkedCases(t *testing.T) {
	ways, err := sums.Fit(quarters(true, false), sums.Hold{})
	require.NoError(t, err)
	require.True(t, ways[0].Alike(quarters(true, false)))
	require.InDelta(t, 0.05647, ways[0].Diagonal.In(geometry.Inches), 5e-6)
	require.InDelta(t, 0.05647, ways[0].MarginAcross.In(geometry.Inches), 5e-6)
	require.InDelta(t, 0.04029, ways[0].MoveAcross.In(geometry.Inches), 5e-6)
	require.InDelta(t, 0.04029, ways[0].MoveDown.In(geometry.Inches), 5e-6)

	ways, err = sums.Fit(quarters(true, false), sums.Hold{Margin: held(0.0625)})
	require.NoError(t, err)
	require.InDelta(t, 0.05150, ways[0].Diagonal.In(geometry.Inches), 5e-6)
	require.InDelta(t, 0.05150, ways[0].GapAcross.In(geometry.Inches), 5e-6)

	ways, err = sums.Fit(quarters(true, false), sums.Hold{Gap: held(0.0625), Square: true})
	require.NoError(t, err)
	require.InDelta(t, 0.15057, ways[0].LeftAcross.In(geometry.Inches), 5e-6)
	require.InDelta(t, 0.17424, ways[0].LeftDown.In(geometry.Inches), 5e-6)

	_, err = sums.Fit(quarters(true, false), sums.Hold{Margin: held(0.125)})
	// For a gap of 1/32: a = g·d/(w+h) = 0.02230, so 2a + g = 0.07584 is short.
	require.EqualError(t, err, "with margins of 1/8 in, whole halves leave 0 in across and 0 in down for all gaps; "+
		"for gaps of 1/32 in it is 0.07585 in short across and 0.07585 in down")

	// trade-facts section 6, case 2: k = 0.960713 at 1/8 in. Here all margins
	// and gaps alike are (4.25 - 4)/3 = 0.08333.
	ways, err = sums.Fit(quarters(true, true), sums.Hold{})
	require.NoError(t, err)
	require.InDelta(t, 0.25/3, ways[0].Diagonal.In(geometry.Inches), 1e-7)
	d := math.Hypot(2, 2.625)
	require.InDelta(t, 2*(1-0.25/6*d/5.25), ways[0].Trimmed.W.In(geometry.Inches), 1e-6)
	ways, err = sums.Fit(quarters(true, true), sums.Hold{Gap: held(0.125)})
	require.NoError(t, err)
	require.InDelta(t, 1.92143, ways[0].Trimmed.W.In(geometry.Inches), 5e-6)
	require.InDelta(t, 2.52187, ways[0].Trimmed.H.In(geometry.Inches), 5e-6)
	require.Equal(t, inches(0.0625), ways[0].MarginAcross)
}

func TestFitRefuses(t *testing.T) {
	large := quarters(false, false)
	large.Piece.W = inches(2.25)
	for name, c := range map[string]struct {
		p    sums.Pieces
		hold sums.Hold
		want string
	}{
		"too large":           {large, sums.Hold{}, "across: 2 pieces of 2 1/4 in take 4 1/2 in, which is 1/4 in more than the 4 1/4 in there are"},
		"margins too wide":    {quarters(false, false), sums.Hold{Margin: held(0.1875)}, "across: two margins of 3/16 in and 2 pieces of 2 in take 4 3/8 in, which is 1/8 in more than the 4 1/4 in there are"},
		"gap too wide":        {quarters(false, false), sums.Hold{Gap: held(0.5)}, "across: 2 pieces of 2 in with 1 gap of 1/2 in take 4 1/2 in, which is 1/4 in more than the 4 1/4 in there are"},
		"both held":           {quarters(false, false), sums.Hold{Margin: held(0.0625), Gap: held(0.0625)}, "margin and gap are both held, and then 1/16 in are over across and 1/16 in down; hold one of them"},
		"both held for whole": {quarters(true, false), sums.Hold{Margin: held(0.0625), Gap: held(0.0625)}, "margin and gap are both held, and halves that stay whole leave one gap to each margin; hold one of them"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := sums.Fit(c.p, c.hold)
			require.EqualError(t, err, c.want)
		})
	}
	ways, err := sums.Fit(quarters(false, false), sums.Hold{Margin: held(0.0625), Gap: held(0.125)})
	require.NoError(t, err, "both held, and it adds up")
	require.Len(t, ways, 1)
}

// Whatever Fit answers adds up to the card, and the halves lie apart by the
// gap that it names: measured between their long sides, drawn.
func TestFitAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, least, most int64) geometry.Length {
			return geometry.Length(rapid.Int64Range(least, most).Draw(t, name))
		}
		p := sums.Pieces{
			Piece:   geometry.Size{W: length("w", 15e6, 70e6), H: length("h", 15e6, 70e6)},
			Columns: rapid.IntRange(1, 4).Draw(t, "columns"), Rows: rapid.IntRange(1, 4).Draw(t, "rows"),
			Halves: rapid.Bool().Draw(t, "halves"), Trimmed: rapid.Bool().Draw(t, "trimmed"), Unit: geometry.Millimetres,
		}
		p.Card = geometry.Size{
			W: geometry.Length(p.Columns)*p.Piece.W + length("more across", 1e6, 20e6),
			H: geometry.Length(p.Rows)*p.Piece.H + length("more down", 1e6, 20e6),
		}
		hold := sums.Hold{Square: rapid.Bool().Draw(t, "square")}
		switch rapid.IntRange(0, 2).Draw(t, "held") {
		case 1:
			m := length("margin", 0, 8e6)
			hold.Margin = &m
		case 2:
			g := length("gap", 1, 5e6)
			hold.Gap = &g
		}
		ways, err := sums.Fit(p, hold)
		if err != nil {
			require.NotContains(t, err.Error(), "NaN")
			return
		}
		require.NotEmpty(t, ways)
		for _, w := range ways {
			columns, rows := geometry.Length(p.Columns), geometry.Length(p.Rows)
			across := 2*w.MarginAcross + columns*(p.Piece.W+w.MoveAcross) + (columns-1)*w.GapAcross
			down := 2*w.MarginDown + rows*(p.Piece.H+w.MoveDown) + (rows-1)*w.GapDown
			require.InDelta(t, float64(p.Card.W), float64(across), 8, w.What)
			require.InDelta(t, float64(p.Card.H), float64(down), 8, w.What)
			require.GreaterOrEqual(t, int64(min(w.MarginAcross, w.MarginDown, w.GapAcross, w.GapDown, w.Diagonal)), int64(-1), w.What)
			if p.Halves && !p.Trimmed {
				require.InDelta(t, between(p.Piece, w), float64(w.Diagonal), 3, w.What)
			}
			if hold.Margin != nil && !hold.Square && p.Columns > 1 && p.Rows > 1 {
				require.Equal(t, *hold.Margin, w.MarginAcross, w.What)
			}
			if hold.Gap != nil && p.Columns > 1 {
				require.Equal(t, *hold.Gap, w.GapAcross, w.What)
			}
		}
	})
}

// between is the distance of the two long sides of a piece's halves, one of
// which was moved.
func between(piece geometry.Size, w sums.Way) float64 {
	// The long side runs from (0, h) to (w, 0); the other half's corner (w, 0)
	// has moved to (w + a, b).
	x, y := float64(piece.W), float64(piece.H)
	return math.Abs(float64(w.MoveAcross)*y+float64(w.MoveDown)*x) / math.Hypot(x, y)
}
