package nesting_test

import (
	"math"

	"panelry/geometry"
	"panelry/geometry/nesting"
)

var notANumber = math.NaN()

// verifySlowly holds a layout against a job in the plainest way: it counts
// each copy of each shape, and compares each piece with each other.
func verifySlowly(job nesting.Job, layout nesting.Layout) bool {
	for _, p := range layout.Placements {
		if p.Shape < 0 || p.Shape >= len(job.Shapes) || p.Sheet < 0 || p.Sheet >= len(layout.Sheets) {
			return false
		}
	}
	return stockSuffices(job, layout) && eachCopyOnce(job, layout) && allInside(job, layout) && allApart(job, layout)
}

func stockSuffices(job nesting.Job, layout nesting.Layout) bool {
	used := map[int]int{}
	for _, stock := range layout.Sheets {
		if stock < 0 || stock >= len(job.Stock) {
			return false
		}
		if used[stock]++; job.Stock[stock].Count > 0 && used[stock] > job.Stock[stock].Count {
			return false
		}
	}
	return true
}

func eachCopyOnce(job nesting.Job, layout nesting.Layout) bool {
	wanted := 0
	for i, s := range job.Shapes {
		wanted += s.Count
		for copy := range s.Count {
			times := 0
			for _, p := range layout.Placements {
				if p.Shape == i && p.Copy == copy {
					times++
				}
			}
			if times != 1 {
				return false
			}
		}
	}
	return len(layout.Placements) == wanted
}

func allInside(job nesting.Job, layout nesting.Layout) bool {
	for _, p := range layout.Placements {
		if !job.Shapes[p.Shape].Turns.Allow(p.Turn) {
			return false
		}
		size := job.Stock[layout.Sheets[p.Sheet]].Size
		b := job.Placed(p).Bounds()
		if b.Min.X < job.Edge || b.Min.Y < job.Edge || size.W-b.Max.X < job.Edge || size.H-b.Max.Y < job.Edge {
			return false
		}
	}
	return true
}

func allApart(job nesting.Job, layout nesting.Layout) bool {
	for i, p := range layout.Placements {
		for _, q := range layout.Placements[:i] {
			if p.Sheet == q.Sheet && !geometry.Apart(job.Placed(p), job.Placed(q), job.Spacing) {
				return false
			}
		}
	}
	return true
}
