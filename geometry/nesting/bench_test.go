package nesting_test

import (
	"context"
	"fmt"
	"math"
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
