package nesting_test

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/geometry/nesting"
)

// A frame's hole holds the tile that no other place has room for.
func TestPiecesLieInHoles(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{
			want("frame", shape("0,0 100,0 100,100 0,100; 10,10 90,10 90,90 10,90"), 1, nesting.NoTurn),
			want("tile", oblong(70*mm, 76*mm), 1, nesting.NoTurn),
		},
		Stock: endless(110*mm, 110*mm), Spacing: 2 * mm,
	}
	r := searched(t, job, nesting.Quick)
	require.Len(t, r.Layout.Sheets, 2)
	require.True(t, r.Proved, "the hole does not count where nothing may lie in it")
	job.InHoles = true
	require.Len(t, searched(t, job, nesting.Quick).Layout.Sheets, 1)
}

// Two right trapezia fill an oblong when one of them is turned over: half a
// turn would do too, but is not allowed.
func TestPiecesAreTurnedOverWhereTheyMay(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("slope", shape("0,0 60,0 40,50 0,50"), 2, nesting.TurnsFrom(180))},
		Stock:  endless(100*mm, 50*mm),
	}
	require.Len(t, searched(t, job, nesting.Quick).Layout.Sheets, 1, "by half a turn")
	job.Shapes[0].Turns = nesting.NoTurn
	require.Len(t, searched(t, job, nesting.Quick).Layout.Sheets, 2)
	job.Shapes[0].Mirror = true
	job.Shapes[0].Outline = shape("0,0 60,0 40,25 60,50 0,50") // alike upside down
	job.Stock = endless(120*mm, 50*mm)
	job.Shapes = append(job.Shapes, want("diamond", shape("20,0 40,25 20,50 0,25"), 1, nesting.NoTurn))
	r := searched(t, job, nesting.Quick)
	require.Len(t, r.Layout.Sheets, 1)
	require.True(t, r.Layout.Placements[0].Over != r.Layout.Placements[1].Over)
}

// A block moves and turns as one: distances between its parts stay.
func TestBlocksKeepTheirPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := smallJob(t)
		r := rapidSearched(t, job, aLittle)
		for _, p := range r.Layout.Placements {
			s := job.Shapes[p.Shape]
			for i, o := range job.PlacedBlock(p)[1:] {
				was := s.Block[i].Outer.Start().Sub(s.Outline.Outer.Start())
				if p.Over {
					continue // the ring runs the other way and starts elsewhere
				}
				is := o.Outer.Start().Sub(job.Placed(p).Outer.Start())
				require.InDelta(t, was.Len(), is.Len(), 3, "nanometres")
			}
		}
	})
}

func TestBlocksThatCannotBe(t *testing.T) {
	s := want("pair", oblong(10*mm, 10*mm), 1, nesting.NoTurn)
	s.Block = []geometry.Outline{oblong(10*mm, 10*mm).Moved(geometry.Vector{X: 9 * mm})}
	_, err := nesting.Search{}.Find(t.Context(), nesting.Job{Shapes: []nesting.Shape{s}, Stock: endless(100*mm, 100*mm)})
	require.ErrorContains(t, err, "pair: parts 1 and 2 of its block lie on each other")
}

// Discs of one block that touch at 3-4-5 do not lie on each other, whatever
// polygons stand for them.
func TestBlocksMayTouch(t *testing.T) {
	s := want("pair", disc(20*mm), 1, nesting.NoTurn)
	s.Block = []geometry.Outline{disc(20 * mm).Moved(geometry.Vector{X: 24 * mm, Y: 32 * mm})}
	r, err := nesting.Search{}.Find(t.Context(), nesting.Job{Shapes: []nesting.Shape{s}, Stock: endless(100*mm, 100*mm)})
	require.NoError(t, err)
	require.Len(t, r.Layout.Sheets, 1)
}

// scrapStock is a scrap, cut off askew and with a bite, then whole sheets.
func scrapStock() []nesting.Sheet {
	return []nesting.Sheet{
		{Size: geometry.Size{W: 100 * mm, H: 100 * mm}, Count: 1, Outline: shape("0,0 100,0 100,40 45,60 40,100 0,100; 20,20 26,20 26,26 20,26")},
		{Size: geometry.Size{W: 100 * mm, H: 100 * mm}},
	}
}

// Scraps come first: what they hold is not cut from a new sheet.
func TestScrapsAreUsedFirst(t *testing.T) {
	job := nesting.Job{Stock: scrapStock(), Spacing: mm, Edge: 2 * mm, Shapes: []nesting.Shape{want("tile", oblong(18*mm, 13*mm), 12, nesting.HalfTurns)}}
	r := searched(t, job, nesting.Quick)
	require.Equal(t, []int{0}, r.Layout.Sheets)
	job.Shapes[0].Count = 40
	r = searched(t, job, nesting.Quick)
	require.Equal(t, []int{0, 1}, r.Layout.Sheets)
}

// What a scrap does not hold lies in rows, which join right triangles: with
// little work, a fill of all sheets one piece at a time takes two new ones.
func TestScrapsAreFilledBeforeRows(t *testing.T) {
	job := nesting.Job{Spacing: mm, Stock: scrapStock(), Shapes: []nesting.Shape{
		want("one", shape("0,0 23,0 0,17"), 31, nesting.HalfTurns),
		want("other", shape("0,0 22,0 22,16"), 31, nesting.HalfTurns),
	}}
	require.Equal(t, []int{0, 1}, searched(t, job, nesting.Quick/100).Layout.Sheets)
}

// 18 corners of 70 mm fit into each other on one sheet of 290 mm, where rows take
// two: then offcuts before it save nothing, and stay.
func TestScrapsThatSaveNothingAreLeft(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("corner", shape("0,0 15,0 15,55 70,55 70,70 0,70"), 18, nesting.NoTurn)},
		Stock:  []nesting.Sheet{stock(80, 75, 2), stock(290, 290, 0)},
	}
	require.Equal(t, []int{1}, searched(t, job, nesting.Quick).Layout.Sheets)
}

// Two corners in each other leave 64 x 55 mm between their arms and the sheet's
// corner, more than the strip beside their box.
func TestTheCornerLeftBetweenArms(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("corner", shape("0,0 15,0 15,55 70,55 70,70 0,70"), 2, nesting.NoTurn)},
		Stock:  endless(95*mm, 95*mm),
	}
	r := searched(t, job, nesting.Quick)
	require.Len(t, r.Layout.Sheets, 1)
	require.GreaterOrEqual(t, float64(r.Offcut.W())*float64(r.Offcut.H()), 64e6*55e6)
}

func TestScrapsAlwaysVerify(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := smallJob(t)
		o := star(t)
		for i := range o.Outer {
			o.Outer[i].To.X, o.Outer[i].To.Y = 5*o.Outer[i].To.X, 5*o.Outer[i].To.Y
		}
		if o.Validate() != nil {
			t.Skip("crossed itself")
		}
		o = o.Moved(geometry.Point{}.Sub(o.Bounds().Min))
		job.Stock = append([]nesting.Sheet{{Size: o.Bounds().Size(), Count: 2, Outline: o}}, job.Stock...)
		rapidSearched(t, job, 3*aLittle)
	})
}

func TestScrapsThatCannotBe(t *testing.T) {
	for says, s := range map[string]nesting.Sheet{
		"there is a number of them": {Size: geometry.Size{W: 100 * mm, H: 100 * mm}, Outline: oblong(50*mm, 50*mm)},
		"stands out of its size":    {Size: geometry.Size{W: 100 * mm, H: 100 * mm}, Outline: oblong(50*mm, 101*mm), Count: 1},
		"no roll":                   {Size: geometry.Size{W: 100 * mm, H: 100 * mm}, Outline: oblong(50*mm, 50*mm), Count: 1, Roll: true},
	} {
		job := nesting.Job{Stock: []nesting.Sheet{s}, Shapes: squares(1, nesting.NoTurn)}
		_, err := nesting.Search{}.Find(t.Context(), job)
		require.ErrorContains(t, err, says)
	}
}

// Only scraps, and pieces that fit in one way: the rows, which do not know
// scraps, are no obstacle.
func TestScrapsAlone(t *testing.T) {
	job := nesting.Job{Stock: scrapStock()[:1], Shapes: []nesting.Shape{want("strip", oblong(96*mm, 15*mm), 1, nesting.QuarterTurns)}}
	require.Len(t, searched(t, job, nesting.Quick).Layout.Sheets, 1)
	job.Shapes[0].Count = 9
	_, err := nesting.Search{}.Find(t.Context(), job)
	var out *nesting.OutOfSheetsError
	require.ErrorAs(t, err, &out)
	require.Less(t, out.Left, 9)
}

// A polygon with holes comes apart into convex parts that add up to it and
// do not lie on each other.
func TestConvexPartsOfFrames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := oblong(100*mm, 100*mm).Turned(rapid.Float64Range(0, 90).Draw(t, "turn"))
		n := rapid.IntRange(1, 3).Draw(t, "across")
		for i := range n * n {
			hole := star(t).Moved(geometry.Vector{})
			if hole.Validate() != nil {
				t.Skip("crossed itself")
			}
			scale := 0.6 / float64(n)
			centre := o.Outer.Points()[0]
			u, v := o.Outer.Points()[1].Sub(centre), o.Outer.Points()[3].Sub(centre)
			at := func(a, b float64) geometry.Vector {
				return geometry.Vector{X: geometry.Length(a*float64(u.X) + b*float64(v.X)), Y: geometry.Length(a*float64(u.Y) + b*float64(v.Y))}
			}
			to := at((float64(i%n)+0.5)/float64(n), (float64(i/n)+0.5)/float64(n))
			hole = hole.Mapped(func(p geometry.Point) geometry.Point {
				return geometry.Point{X: centre.X + to.X + geometry.Length(scale*float64(p.X)), Y: centre.Y + to.Y + geometry.Length(scale*float64(p.Y))}
			})
			if hole.Validate() != nil {
				t.Skip("crossed itself after rounding")
			}
			o.Holes = append(o.Holes, hole.Outer.Reversed())
		}
		if o.Validate() != nil {
			t.Skip("no valid frame")
		}
		parts := nesting.ConvexParts(o)
		sum := 0.0
		for i, p := range parts {
			sum += p.Area().SquareMM()
			for _, q := range parts[:i] {
				require.True(t, geometry.Apart(p, q, 0))
			}
		}
		require.InEpsilon(t, o.Area().SquareMM(), sum, 1e-9)
		require.False(t, math.IsNaN(sum))
	})
}

// The last sheet's pieces are pushed together: 10 tiles on a sheet for 20
// leave half of it, 8 more than half.
func TestTheLastSheetLeavesALargeOblong(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("tile", oblong(40*mm, 30*mm), 20+10, nesting.NoTurn)},
		Stock:  endless(200*mm, 120*mm),
	}
	r := searched(t, job, nesting.Quick)
	require.Len(t, r.Layout.Sheets, 2)
	require.Equal(t, 200*mm, r.Offcut.W())
	require.Equal(t, 60*mm, r.Offcut.H())
	job.Shapes[0].Count = 20 + 8
	r = searched(t, job, nesting.Quick)
	require.Equal(t, geometry.Size{W: 120 * mm, H: 120 * mm}, r.Offcut.Size(), "two columns of four leave more than two rows")
}

// 20 tiles of 40 x 30 mm are 24,000 mm2; two offcuts hold at most 3,600 each,
// so that 16,800 are left for sheets of 6,300: three.
func TestTheBoundOfSeveralSizes(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("tile", oblong(40*mm, 30*mm), 20, nesting.NoTurn)},
		Stock: []nesting.Sheet{
			{Size: geometry.Size{W: 90 * mm, H: 40 * mm}, Count: 2},
			{Size: geometry.Size{W: 90 * mm, H: 70 * mm}},
		},
	}
	r := searched(t, job, nesting.Quick)
	require.Equal(t, nesting.Bound{Sheets: 3, Kind: "area"}, r.Bound)
	require.False(t, r.Proved, "four tiles go on a sheet: four sheets")
	job.Stock[0].Size, job.Stock[1].Size = geometry.Size{W: 80 * mm, H: 30 * mm}, geometry.Size{W: 80 * mm, H: 60 * mm}
	r = searched(t, job, nesting.Quick)
	require.Equal(t, []int{0, 0, 1, 1, 1, 1}, r.Layout.Sheets)
	require.True(t, r.Proved)
}

// What several threads find is the best of what their seeds find alone, and
// the same each time.
func TestThreads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := smallJob(t)
		find := func(threads int) nesting.Result {
			r, err := nesting.Search{Effort: aLittle, Seed: 3, Threads: threads}.Find(context.Background(), job)
			require.NoError(t, err)
			require.NoError(t, nesting.Verify(job, r.Layout))
			return r
		}
		alone, three := find(1), find(3)
		require.LessOrEqual(t, len(three.Layout.Sheets), len(alone.Layout.Sheets))
		require.Equal(t, three, find(3))
	})
}

// Frames of 60 x 60 mm do not lie in each other, whatever their holes: four
// need four sheets of 100 x 100, though their area would go on one.
func TestTheBoundOfFrames(t *testing.T) {
	job := nesting.Job{
		Shapes:  []nesting.Shape{want("frame", shape("0,0 60,0 60,60 0,60; 2,2 58,2 58,58 2,58"), 4, nesting.NoTurn)},
		Stock:   endless(100*mm, 100*mm),
		InHoles: true,
	}
	require.Equal(t, nesting.Bound{Sheets: 4, Kind: "oblongs side by side"}, job.Least())
}

// A post of 10 x 10 mm in the hole of a frame of 100 x 100 mm is one block with
// it. Where nothing may lie in holes the frame takes its whole box, and the post
// nothing more: nine go on a sheet of 300 x 300 mm.
func TestTheBoundOfBlocksWithinThemselves(t *testing.T) {
	frame := want("frame", shape("0,0 100,0 100,100 0,100; 10,10 90,10 90,90 10,90"), 9, nesting.NoTurn)
	frame.Block = []geometry.Outline{shape("20,20 80,20 80,80 20,80")}
	job := nesting.Job{Shapes: []nesting.Shape{frame}, Stock: endless(300*mm, 300*mm)}
	require.Equal(t, 1, job.Least().Sheets)
	require.Len(t, searched(t, job, nesting.Quick).Layout.Sheets, 1)
}

// A block of a large and a small tile, the small one of which lies in the hole
// of a frame: frame and block fit on one sheet, and no bound may say more.
func TestTheBoundOfBlocksInHoles(t *testing.T) {
	frame := want("frame", shape("0,0 100,0 100,100 0,100; 10,10 98,10 98,90 10,90"), 1, nesting.NoTurn)
	pair := want("pair", oblong(96*mm, 100*mm), 1, nesting.NoTurn)
	pair.Block = []geometry.Outline{oblong(60*mm, 60*mm).Moved(geometry.Vector{X: -70 * mm, Y: 20 * mm})}
	job := nesting.Job{Shapes: []nesting.Shape{frame, pair}, Stock: endless(196*mm, 100*mm), InHoles: true}
	layout := nesting.Layout{Sheets: []int{0}, Placements: []nesting.Placement{{Shape: 0}, {Shape: 1, Move: geometry.Vector{X: 100 * mm}}}}
	require.NoError(t, nesting.Verify(job, layout))
	require.Equal(t, 1, job.Least().Sheets)
}

// Eight pieces of 36 % of a sheet each: by area 2.9 sheets, but no sheet holds
// three of them, at whatever angle.
func TestTheBoundOfWholePieces(t *testing.T) {
	job := nesting.Job{
		Shapes: []nesting.Shape{want("base", oblong(90*mm, 40*mm), 8, nesting.AnyTurn)},
		Stock:  endless(100*mm, 100*mm),
	}
	require.Equal(t, nesting.Bound{Sheets: 4, Kind: "area in whole pieces"}, job.Least())
	require.True(t, searched(t, job, nesting.Quick).Proved)
}

// Progress goes from little to much, and is told often enough for a bar.
func TestProgressRises(t *testing.T) {
	job := nesting.Job{Stock: endless(82*mm, 62*mm), Spacing: mm}
	job.Shapes = []nesting.Shape{want("hook", shape("0,0 30,0 30,10 10,10 10,30 0,30"), 61, nesting.AnyTurn)}
	last, told := 0.0, 0
	_, err := nesting.Search{Effort: nesting.Quick, Seed: 1, Progress: func(p nesting.Progress) {
		require.GreaterOrEqual(t, p.Done, last)
		require.Positive(t, p.Sheets)
		require.Positive(t, p.Density)
		last = p.Done
		told++
	}}.Find(t.Context(), job)
	require.NoError(t, err)
	require.Greater(t, told, 50)
	require.Greater(t, last, 0.9)
}
