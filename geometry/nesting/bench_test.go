package nesting_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/geometry/nesting"
)

// batch is a job of 20 kinds on 12 x 12 in sheets with a cutter's edge and
// spacing: halves, oblongs, discs and nine-pointed stars by turns.
func batch(pieces int) nesting.Job {
	job := nesting.Job{Stock: endless(12*inch, 12*inch), Edge: inch / 4, Spacing: inch / 16}
	for i := range 20 {
		grow := geometry.Length(i) * mm / 2
		w, h := 30*mm+grow, 45*mm-grow
		o := [...]geometry.Outline{
			geometry.OutlineFromPoints(geometry.Point{}, geometry.Point{X: w}, geometry.Point{Y: h}),
			oblong(w, h), disc(w / 2), points(9, w/2),
		}[i%4]
		turns := [...]nesting.Turns{nesting.AnyTurn, nesting.HalfTurns, nesting.NoTurn, nesting.QuarterTurns, nesting.AnyTurn}[i%5]
		job.Shapes = append(job.Shapes, want(fmt.Sprint("kind ", i+1), o, pieces/20, turns))
	}
	return job
}

// points is a star with that many points.
func points(n int, radius geometry.Length) geometry.Outline {
	corners := make([]geometry.Point, 2*n)
	for i := range corners {
		r := float64(radius) / float64(1+i%2)
		sin, cos := math.Sincos(math.Pi * float64(i) / float64(n))
		corners[i] = geometry.Point{X: geometry.Length(r * cos), Y: geometry.Length(r * sin)}
	}
	return geometry.OutlineFromPoints(corners...)
}

func TestTheBenchmarksJob(t *testing.T) { pack(t, batch(1000)) }

func BenchmarkRows(b *testing.B) {
	for _, pieces := range []int{100, 1000, 10_000} {
		b.Run(fmt.Sprint(pieces), func(b *testing.B) {
			job := batch(pieces)
			for b.Loop() {
				_, err := nesting.Rows{}.Pack(context.Background(), job)
				require.NoError(b, err)
			}
		})
	}
}

// panels is a job of random oblongs, triangles and trapezia, 20 to 200 mm
// either way, on a roll 1500 mm wide.
func panels(pieces, kinds int, turns nesting.Turns) nesting.Job {
	rng := rand.New(rand.NewPCG(1, 2))
	side := func() geometry.Length { return geometry.Length(20+rng.IntN(181)) * mm }
	job := nesting.Job{Stock: []nesting.Sheet{{Size: geometry.Size{W: 99 * geometry.Metre, H: 1500 * mm}, Count: 1, Roll: true}}}
	for i := range kinds {
		w, h := side(), side()
		cut := w * geometry.Length(1+rng.IntN(8)) / 10
		o := [...]geometry.Outline{
			oblong(w, h),
			geometry.OutlineFromPoints(geometry.Point{}, geometry.Point{X: w}, geometry.Point{X: cut, Y: h}),
			geometry.OutlineFromPoints(geometry.Point{}, geometry.Point{X: w}, geometry.Point{X: w - cut/2, Y: h}, geometry.Point{X: cut / 2, Y: h}),
		}[i%3]
		job.Shapes = append(job.Shapes, want(fmt.Sprint("kind ", i+1), o, pieces/kinds, turns))
	}
	return job
}

// The first full layout: a search that has no work left after it.
func BenchmarkNestingFill(b *testing.B) {
	for _, c := range []struct{ pieces, kinds int }{{100, 20}, {1000, 100}, {1000, 1000}, {10_000, 200}} {
		for name, turns := range map[string]nesting.Turns{"none": nesting.NoTurn, "half": nesting.HalfTurns} {
			b.Run(fmt.Sprintf("%d of %d kinds, turns %s", c.pieces, c.kinds, name), func(b *testing.B) {
				job := panels(c.pieces, c.kinds, turns)
				for b.Loop() {
					r, err := nesting.Search{Effort: 1}.Find(context.Background(), job)
					require.NoError(b, err)
					b.ReportMetric(100*r.Density, "%")
				}
			})
		}
	}
}

// What normal effort makes of the first full layout, and how both grow: the
// search must work at 1,000 pieces too.
func BenchmarkNestingGrowth(b *testing.B) {
	for _, c := range []struct{ pieces, kinds int }{{100, 20}, {1000, 100}, {10_000, 200}} {
		b.Run(fmt.Sprint(c.pieces), func(b *testing.B) {
			job := panels(c.pieces, c.kinds, nesting.HalfTurns)
			for b.Loop() {
				first, fill := found(b, job, 1, 1)
				better, took := found(b, job, effortOf(b, nesting.Normal), 1)
				fmt.Printf("%d pieces: %.2f %% in %.2f s, then %.2f %% in %.2f s\n", c.pieces,
					100*first.Density, fill.Seconds(), 100*better.Density, took.Seconds())
			}
		})
	}
}

func BenchmarkVerify(b *testing.B) {
	for _, pieces := range []int{100, 1000, 10_000} {
		b.Run(fmt.Sprint(pieces), func(b *testing.B) {
			job := batch(pieces)
			layout := pack(b, job)
			for b.Loop() {
				require.NoError(b, nesting.Verify(job, layout))
			}
		})
	}
}

// One roll, 10 m long and as wide as a hundred pieces: the sweep's worst.
func BenchmarkVerifyOneSheet(b *testing.B) {
	job := batch(10_000)
	job.Stock = endless(5000*mm, 10_000*mm)
	layout := pack(b, job)
	require.Len(b, layout.Sheets, 1)
	for b.Loop() {
		require.NoError(b, nesting.Verify(job, layout))
	}
}

// Quick effort on card work: 20 kinds on 12 x 12 in sheets.
func BenchmarkNestingQuick(b *testing.B) {
	for _, pieces := range []int{100, 1000} {
		b.Run(fmt.Sprint(pieces), func(b *testing.B) {
			job := batch(pieces)
			rows := pack(b, job)
			for b.Loop() {
				r := searched(b, job, nesting.Quick)
				b.ReportMetric(float64(len(r.Layout.Sheets)), "sheets")
				b.ReportMetric(float64(len(rows.Sheets)), "sheets-in-rows")
				b.ReportMetric(float64(r.Bound.Sheets), "sheets-at-least")
			}
		})
	}
}
