package nesting_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/geometry/nesting"
)

// lengths draws from lo to hi mm, to the nanometre.
func lengths(t *rapid.T, label string, lo, hi geometry.Length) geometry.Length {
	return geometry.Length(rapid.Int64Range(int64(lo*mm), int64(hi*mm)).Draw(t, label))
}

// star draws a polygon about a centre; most are concave.
func star(t *rapid.T) geometry.Outline {
	n := rapid.IntRange(3, 9).Draw(t, "corners")
	points := make([]geometry.Point, n)
	for i := range points {
		angle := 2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.4).Draw(t, "bend")) / float64(n)
		radius := float64(lengths(t, "radius", 3, 20))
		points[i] = geometry.Point{
			X: geometry.Length(radius * math.Cos(angle)), Y: geometry.Length(radius * math.Sin(angle)),
		}
	}
	return geometry.OutlineFromPoints(points...)
}

// round draws corners on an ellipse: a convex polygon.
func round(t *rapid.T) geometry.Outline {
	n := rapid.IntRange(3, 12).Draw(t, "corners")
	w, h := float64(lengths(t, "w", 3, 20)), float64(lengths(t, "h", 3, 20))
	points := make([]geometry.Point, n)
	for i := range points {
		angle := 2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.4).Draw(t, "bend")) / float64(n)
		points[i] = geometry.Point{X: geometry.Length(w * math.Cos(angle)), Y: geometry.Length(h * math.Sin(angle))}
	}
	return geometry.OutlineFromPoints(points...)
}

// half draws a right triangle on its legs, in any of the four corners.
func half(t *rapid.T) geometry.Outline {
	w, h := lengths(t, "w", 3, 30), lengths(t, "h", 3, 30)
	quarter := rapid.IntRange(0, 3).Draw(t, "quarter turns")
	return geometry.OutlineFromPoints(geometry.Point{}, geometry.Point{X: w}, geometry.Point{Y: h}).Turned(90 * float64(quarter))
}

// anyShape draws an outline somewhere on the plane, often turned.
func anyShape(t *rapid.T) geometry.Outline {
	draw := rapid.SampledFrom([]func(*rapid.T) geometry.Outline{star, round, half, half, box, ringShape}).Draw(t, "draw")
	o := draw(t)
	if rapid.Bool().Draw(t, "askew") {
		o = o.Turned(rapid.Float64Range(0, 360).Draw(t, "angle"))
	}
	if o.Validate() != nil {
		t.Skip("crossed itself after rounding")
	}
	return o.Moved(geometry.Vector{X: lengths(t, "x", -500, 500), Y: lengths(t, "y", -500, 500)})
}

func box(t *rapid.T) geometry.Outline { return oblong(lengths(t, "w", 3, 40), lengths(t, "h", 3, 20)) }

func ringShape(t *rapid.T) geometry.Outline {
	o := disc(lengths(t, "outer", 10, 20))
	o.Holes = []geometry.Ring{disc(lengths(t, "inner", 2, 9)).Outer.Reversed()}
	return o
}

func anyTurns(t *rapid.T) nesting.Turns {
	switch rapid.IntRange(0, 5).Draw(t, "turns") {
	case 0:
		return nesting.NoTurn
	case 1:
		return nesting.HalfTurns
	case 2:
		return nesting.QuarterTurns
	case 3:
		return nesting.TurnsFrom(rapid.SliceOfN(rapid.Float64Range(-360, 360), 1, 4).Draw(t, "listed")...)
	}
	return nesting.AnyTurn
}

// anyJob draws a job that can be done: sheets of at least 90 mm hold each of
// the shapes, the boxes of which are at most 44.8 mm either way.
func anyJob(t *rapid.T) nesting.Job {
	job := nesting.Job{
		Stock: endless(lengths(t, "sheet w", 90, 200), lengths(t, "sheet h", 90, 200)),
		Edge:  lengths(t, "edge", 0, 10),
	}
	if rapid.Bool().Draw(t, "spaced") {
		job.Spacing = lengths(t, "spacing", 0, 5)
	}
	job.InHoles = rapid.Bool().Draw(t, "in holes")
	for range rapid.IntRange(1, 5).Draw(t, "shapes") {
		job.Shapes = append(job.Shapes, want("shape", anyShape(t), rapid.IntRange(0, 12).Draw(t, "count"), anyTurns(t)))
		s := &job.Shapes[len(job.Shapes)-1]
		s.Mirror = rapid.IntRange(0, 3).Draw(t, "mirror") == 0
		if rapid.IntRange(0, 4).Draw(t, "block") == 0 { // a small tile, close to the shape's right
			b := s.Outline.Bounds()
			tile := oblong(lengths(t, "tile", 3, 10), 4*mm).Moved(geometry.Vector{X: b.Max.X + mm, Y: b.Min.Y})
			s.Block = []geometry.Outline{tile}
		}
	}
	return job
}

func packed(t *rapid.T, job nesting.Job) nesting.Layout {
	layout, err := nesting.Rows{}.Pack(context.Background(), job)
	require.NoError(t, err)
	return layout
}

func TestRowsAlwaysVerify(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := anyJob(t)
		require.NoError(t, nesting.Verify(job, packed(t, job)))
	})
}

// Right triangles that lie askew are where rounding bites most.
func TestRowsOfHalvesAlwaysVerify(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := nesting.Job{Stock: endless(lengths(t, "sheet w", 60, 99), lengths(t, "sheet h", 60, 99))}
		if rapid.Bool().Draw(t, "spaced") {
			job.Spacing = lengths(t, "spacing", 0, 5)
		}
		for range rapid.IntRange(1, 3).Draw(t, "shapes") {
			o := half(t).Turned(rapid.Float64Range(0, 360).Draw(t, "angle"))
			job.Shapes = append(job.Shapes, want("half", o, rapid.IntRange(1, 6).Draw(t, "count"), anyTurns(t)))
		}
		require.NoError(t, nesting.Verify(job, packed(t, job)))
	})
}

// As in a front: two one-way kinds that come from one cell, a few
// nanometres off each other.
func TestRowsOfUnequalHalvesAlwaysVerify(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := lengths(t, "w", 3, 30), lengths(t, "h", 3, 30)
		off := func(l geometry.Length) geometry.Length {
			return l + geometry.Length(rapid.Int64Range(-12_000, 12_000).Draw(t, "off"))
		}
		a := geometry.OutlineFromPoints(geometry.Point{}, geometry.Point{X: off(w)}, geometry.Point{Y: off(h)})
		b := geometry.OutlineFromPoints(geometry.Point{}, geometry.Point{X: off(w)}, geometry.Point{Y: off(h)}).Turned(180)
		job := nesting.Job{
			Shapes: []nesting.Shape{want("a", a, 2, nesting.NoTurn), want("b", b, 2, nesting.NoTurn)},
			Stock:  endless(50*mm, 50*mm), Spacing: lengths(t, "spacing", 0, 5),
		}
		require.NoError(t, nesting.Verify(job, packed(t, job)))
	})
}

func TestRowsAreRepeatableAndChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := anyJob(t)
		before := copyOf(job)
		first := packed(t, job)
		require.Equal(t, before, job)
		require.Equal(t, first, packed(t, copyOf(job)))
	})
}

// One piece a sheet is the most; a sheet's area inside its edges is the
// most that pieces on it can have together.
func TestRowsUseSensiblyManySheets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := anyJob(t)
		pieces, area := 0, 0.0
		for _, s := range job.Shapes {
			pieces += s.Count
			area += float64(s.Count) * s.Outline.Area().SquareMM()
		}
		use := job.Stock[0].Size
		room := (use.W - 2*job.Edge).In(geometry.Millimetres) * (use.H - 2*job.Edge).In(geometry.Millimetres)
		sheets := len(packed(t, job).Sheets)
		require.LessOrEqual(t, sheets, pieces)
		require.GreaterOrEqual(t, float64(sheets)*room, area*(1-1e-9))
	})
}

// Wherever the given outlines lie, the pieces come to lie on the same
// places: exactly so for quarter turns. (A turn by an odd angle about
// another origin rounds otherwise.)
func TestRowsDoNotMindWhereOutlinesLie(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := anyJob(t)
		for i := range job.Shapes {
			job.Shapes[i].Turns = rapid.SampledFrom([]nesting.Turns{nesting.NoTurn, nesting.HalfTurns, nesting.QuarterTurns}).Draw(t, "turns")
		}
		moved := copyOf(job)
		for i := range moved.Shapes {
			by := geometry.Vector{X: lengths(t, "by x", -900, 900), Y: lengths(t, "by y", -900, 900)}
			moved.Shapes[i] = movedShape(moved.Shapes[i], by)
		}
		require.Equal(t, placedOutlines(job, packed(t, job)), placedOutlines(moved, packed(t, moved)))
	})
}

// movedShape moves a shape with its block.
func movedShape(s nesting.Shape, by geometry.Vector) nesting.Shape {
	s.Outline = s.Outline.Moved(by)
	s.Block = slices.Clone(s.Block)
	for i := range s.Block {
		s.Block[i] = s.Block[i].Moved(by)
	}
	return s
}

func placedOutlines(job nesting.Job, layout nesting.Layout) []geometry.Outline {
	var out []geometry.Outline
	for _, p := range layout.Placements {
		out = append(out, job.PlacedBlock(p)...)
	}
	return out
}

// The neighbour sweep finds what comparing all pairs finds: on packed
// layouts with a piece pushed about.
func TestVerifyAgreesWithItsTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := anyJob(t)
		layout := packed(t, job)
		for range rapid.IntRange(0, 3).Draw(t, "pushes") {
			if len(layout.Placements) == 0 {
				t.Skip("no pieces")
			}
			p := &layout.Placements[rapid.IntRange(0, len(layout.Placements)-1).Draw(t, "piece")]
			p.Move = p.Move.Add(geometry.Vector{X: lengths(t, "push x", -8, 8), Y: lengths(t, "push y", -8, 8)})
		}
		require.Equal(t, verifySlowly(job, layout), nesting.Verify(job, layout) == nil)
	})
}

// With few sheets of several sizes there is a sound layout, or an error that
// counts pieces, none of which may be more than there are.
func TestRowsOnFewSheets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := anyJob(t)
		job.Stock = nil
		pieces := 0
		for _, s := range job.Shapes {
			pieces += s.Count
		}
		for range rapid.IntRange(1, 3).Draw(t, "sizes") {
			job.Stock = append(job.Stock, nesting.Sheet{
				Size:  geometry.Size{W: lengths(t, "sheet w", 66, 120), H: lengths(t, "sheet h", 66, 120)},
				Count: rapid.IntRange(1, 4).Draw(t, "have"),
			})
		}
		layout, err := nesting.Rows{}.Pack(context.Background(), job)
		var out *nesting.OutOfSheetsError
		if errors.As(err, &out) {
			require.Positive(t, out.Left)
			require.Less(t, out.Left, pieces)
			return
		}
		require.NoError(t, err)
		require.NoError(t, nesting.Verify(job, layout))
	})
}
