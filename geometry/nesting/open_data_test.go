package nesting_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/geometry/nesting"
)

// The open data of the bench folder (its README names the sources), one unit
// a millimetre. PANELRY_NESTING_WORK divides the work of a full run, for a
// quick look.

// openData reads a file of the bench folder, or skips.
func openData(t testing.TB, name string, into any) {
	folder := os.Getenv("PANELRY_BENCH")
	if folder == "" {
		t.Skip("PANELRY_BENCH is not set")
	}
	data, err := os.ReadFile(filepath.Join(folder, name))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(data, into))
}

type openItem struct {
	Demand  int
	Polygon [][2]float64
}

func (o openItem) outline(t testing.TB) geometry.Outline {
	var points []geometry.Point
	for _, xy := range o.Polygon {
		p, err := geometry.PointFromMM(xy[0], xy[1])
		require.NoError(t, err)
		points = append(points, p)
	}
	return geometry.OutlineFromRing(geometry.RingFromPoints(points...))
}

// strip reads one of the irregular strips.
func strip(t testing.TB, name string) nesting.Job {
	var data struct {
		StripWidth float64   `json:"strip_width"`
		Rotations  []float64 `json:"allowed_rotations_deg"`
		Items      []openItem
	}
	openData(t, "irregular/"+name+".json", &data)
	job := nesting.Job{Stock: []nesting.Sheet{{
		Size: geometry.Size{W: 20 * geometry.Metre, H: geometry.Length(data.StripWidth * 1e6)}, Count: 1, Roll: true}}}
	for i, it := range data.Items {
		job.Shapes = append(job.Shapes, want(fmt.Sprint(i+1), it.outline(t), it.Demand, nesting.TurnsFrom(data.Rotations...)))
	}
	return job
}

// found searches and holds the result against the job.
func found(t testing.TB, job nesting.Job, effort nesting.Effort, seed uint64) (nesting.Result, time.Duration) {
	t.Helper()
	start := time.Now()
	r, err := nesting.Search{Effort: effort, Seed: seed}.Find(context.Background(), job)
	took := time.Since(start)
	require.NoError(t, err)
	require.NoError(t, nesting.Verify(job, r.Layout))
	return r, took
}

func effortOf(t testing.TB, full nesting.Effort) nesting.Effort {
	var part int
	if n, _ := fmt.Sscan(os.Getenv("PANELRY_NESTING_WORK"), &part); n == 1 && part > 0 {
		return full / nesting.Effort(part)
	}
	return full
}

func BenchmarkNestingStrips(b *testing.B) {
	for _, name := range strings.Fields("shapes0 shapes1 blaz1 fu marques jakobs1 dagli dighe1 poly1a poly2b three threep2") {
		b.Run(name, func(b *testing.B) {
			job := strip(b, name)
			for b.Loop() {
				sum := 0.0
				for seed := uint64(1); seed <= 3; seed++ {
					r, took := found(b, job, effortOf(b, nesting.Thorough), seed)
					fmt.Printf("%-8s seed %d: %6.2f %% in %5.1f s, proved %v\n", name, seed, 100*r.Density, took.Seconds(), r.Proved)
					sum += r.Density
				}
				b.ReportMetric(100*sum/3, "%")
			}
		})
	}
}
