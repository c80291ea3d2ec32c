package layouts_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/geometry/trimming"
	"panelry/layouts"
	"panelry/layouts/fronts"
)

// The demo's straight cuts, reading left out.
func BenchmarkTrimDemo(b *testing.B) {
	f, err := os.Open("../cmd/panelry/demo/slipway.toml")
	require.NoError(b, err)
	defer f.Close()
	d, err := layouts.Read(f, nil)
	require.NoError(b, err)
	for b.Loop() {
		_, err := layouts.PlanTrim(d)
		require.NoError(b, err)
	}
}

// 500 pieces of 20 sizes at each effort.
func BenchmarkTrimSizes(b *testing.B) {
	for _, effort := range []string{"quick", "normal"} {
		b.Run(effort, func(b *testing.B) {
			list := layouts.TrimList{Units: geometry.Millimetres, Trimmer: layouts.TrimmerSettings{Narrowest: layouts.TrimmerBreadth}}
			list.Job.Stock.Size = geometry.Size{W: 305 * geometry.Millimetre, H: 305 * geometry.Millimetre}
			list.Job.Effort = layouts.TrimEfforts()[effort]
			for i := range 20 {
				w, h := geometry.Length(20+7*i%61)*geometry.Millimetre, geometry.Length(30+11*i%47)*geometry.Millimetre
				list.Job.Pieces = append(list.Job.Pieces, trimming.Piece{Size: geometry.Size{W: w, H: h}, Count: 25, Turn: i%2 == 0})
			}
			for b.Loop() {
				plan, err := layouts.PlanTrimList(list)
				require.NoError(b, err)
				b.ReportMetric(float64(plan.Stocks[0].Sheets), "sheets")
				b.ReportMetric(float64(plan.Stocks[0].Bound), "bound")
				b.ReportMetric(float64(plan.Settings()), "settings")
			}
		})
	}
}

// Card work: each layout for 24 cards in one plain, two-way or one-way paper.
// The figures are sums over all layouts: sheets and their bounds, straight
// cuts, and those that strips kind by kind take; on as many sheets these must
// not be fewer. "fewer-sheets" is how often the plan has fewer sheets. The bound
// of slanted panels is the area of the pieces, and far off where their pattern
// keeps them from lying along a strip; what is two sheets or more above it is
// listed.
func BenchmarkTrimLayouts(b *testing.B) {
	for _, pattern := range []string{"plain", "two-way", "one-way"} {
		b.Run(pattern, func(b *testing.B) {
			for b.Loop() {
				sums := map[string]int{}
				for _, l := range fronts.All() {
					if l.Name == "own shapes" {
						continue
					}
					plan := trimPlan(b, l.Name, pattern, "cards = 5", "cards = 24")
					sums["layouts"]++
					sums["settings"] += plan.Settings()
					for _, s := range plan.Stocks {
						if s.Name == "base" {
							continue
						}
						sums["sheets"] += s.Sheets
						sums["bound"] += s.Bound
						sums["cuts"] += s.Cuts
						sums["strip-by-strip"] += s.Plain
						if s.Sheets > s.Bound+1 {
							b.Logf("%s: %d sheets, bound %d %s", l.Name, s.Sheets, s.Bound, s.BoundName)
							sums["above-by-2-or-more"]++
						}
						if s.Cuts > s.Plain && s.Sheets >= s.PlainSheets {
							b.Errorf("%s: %d cuts, strip by strip %d", l.Name, s.Cuts, s.Plain)
						}
						if s.Sheets < s.PlainSheets {
							sums["fewer-sheets"]++
						}
						if s.Sheets > s.Bound {
							sums["above-bound"]++
						}
					}
				}
				for name, n := range sums {
					b.ReportMetric(float64(n), name)
				}
			}
			b.ReportMetric(0, "ns/op")
		})
	}
}
