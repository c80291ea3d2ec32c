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
	for seed := uint64(1); seed <= 3; seed++ {
		for _, name := range strings.Fields("shapes0 shapes1 blaz1 fu marques jakobs1 dagli dighe1 poly1a poly2b three threep2") {
			b.Run(fmt.Sprintf("seed%d/%s", seed, name), func(b *testing.B) {
				job := strip(b, name)
				for b.Loop() {
					r, took := found(b, job, effortOf(b, nesting.Thorough), seed)
					fmt.Printf("%-8s seed %d: %6.2f %% in %5.1f s, proved %v\n", name, seed, 100*r.Density, took.Seconds(), r.Proved)
					b.ReportMetric(100*r.Density, "%")
				}
			})
		}
	}
}

// sheetsOf is a job of one sheet size without limit.
func sheetsOf(w, h float64) nesting.Job {
	return nesting.Job{Stock: endless(geometry.Length(w*1e6), geometry.Length(h*1e6))}
}

// twentySeconds of work on the machine that Thorough takes a minute on.
const twentySeconds = nesting.Thorough / 3

func BenchmarkNestingSheets(b *testing.B) {
	for _, set := range []string{"terashima1", "terashima2"} {
		b.Run(set, func(b *testing.B) {
			var data struct {
				Instances []struct {
					Name    string
					Bin     [2]float64
					Optimal int `json:"optimal_bins"`
					Items   []openItem
				}
			}
			openData(b, "sheets/"+set+".json", &data)
			for b.Loop() {
				optimal, near, known := 0, 0, 0
				for i := 0; i < len(data.Instances); i += 2 {
					d := data.Instances[i]
					job := sheetsOf(d.Bin[0], d.Bin[1])
					for k, it := range d.Items {
						job.Shapes = append(job.Shapes, want(fmt.Sprint(k+1), it.outline(b), 1, nesting.NoTurn))
					}
					r, took := found(b, job, effortOf(b, twentySeconds), 1)
					n := len(r.Layout.Sheets)
					fmt.Printf("%-12s seed 1: %3d sheets, optimum %3d, bound %3d, %.1f %% in %4.1f s\n",
						d.Name, n, d.Optimal, r.Bound.Sheets, 100*r.Density, took.Seconds())
					if d.Optimal == 0 {
						continue
					}
					known++
					if n <= d.Optimal+1 {
						near++
					}
					if n <= d.Optimal {
						optimal++
					}
				}
				fmt.Printf("%s: optimum on %d, at most one more on %d, of %d\n", set, optimal, near, known)
			}
		})
	}
}

func BenchmarkNestingRectangles(b *testing.B) {
	var data struct {
		Instances []struct {
			Name  string
			Bin   [2]float64
			Best  [4]int `json:"best_known_bins"`
			Rects [][2]float64
		}
	}
	openData(b, "rectangles/bin_classes.json", &data)
	for b.Loop() {
		total, best := 0, 0
		for i := 0; i < len(data.Instances); i += 4 {
			d := data.Instances[i]
			job := sheetsOf(d.Bin[0], d.Bin[1])
			job.Shapes = rectangles(d.Rects)
			r, took := found(b, job, effortOf(b, twentySeconds), 1)
			total += len(r.Layout.Sheets)
			best += d.Best[3]
			fmt.Printf("%-16s seed 1: %3d sheets, best known %3d, bound %3d in %4.1f s\n",
				d.Name, len(r.Layout.Sheets), d.Best[3], r.Bound.Sheets, took.Seconds())
		}
		fmt.Printf("bin classes: %d sheets, best known %d, %+.2f %%\n", total, best, 100*float64(total-best)/float64(best))
	}
}

func rectangles(sizes [][2]float64) []nesting.Shape {
	var out []nesting.Shape
	for k, wh := range sizes {
		o := oblong(geometry.Length(wh[0]*1e6), geometry.Length(wh[1]*1e6))
		out = append(out, want(fmt.Sprint(k+1), o, 1, nesting.QuarterTurns))
	}
	return out
}

func BenchmarkNestingHopper(b *testing.B) {
	var data struct {
		Instances []struct {
			Name  string
			Width float64 `json:"strip_width"`
			Best  float64 `json:"optimal_height"`
			Rects [][2]float64
		}
	}
	openData(b, "rectangles/strip_hopper.json", &data)
	for b.Loop() {
		over, n := 0.0, 0
		for _, d := range data.Instances {
			if d.Name[0] == 'T' {
				continue
			}
			job := nesting.Job{Shapes: rectangles(d.Rects), Stock: []nesting.Sheet{{
				Size: geometry.Size{W: 20 * geometry.Metre, H: geometry.Length(d.Width * 1e6)}, Count: 1, Roll: true}}}
			r, took := found(b, job, effortOf(b, twentySeconds), 1)
			more := 100 * (r.Length.In(geometry.Millimetres)/d.Best - 1)
			over, n = over+more, n+1
			fmt.Printf("%-6s seed 1: length %.2f, optimum %.0f (%+.2f %%) in %4.1f s\n",
				d.Name, r.Length.In(geometry.Millimetres), d.Best, more, took.Seconds())
		}
		fmt.Printf("C and N: %+.2f %% over the optimum on average, of %d\n", over/float64(n), n)
	}
}
