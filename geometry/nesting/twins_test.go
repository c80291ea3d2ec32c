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
		if !job.Shapes[p.Shape].Turns.Allow(p.Turn) || p.Over && !job.Shapes[p.Shape].Mirror {
			return false
		}
		size := job.Stock[layout.Sheets[p.Sheet]].Size
		for _, o := range job.PlacedBlock(p) {
			b := o.Bounds()
			if b.Min.X < job.Edge || b.Min.Y < job.Edge || size.W-b.Max.X < job.Edge || size.H-b.Max.Y < job.Edge {
				return false
			}
			if scrap := job.Stock[layout.Sheets[p.Sheet]]; scrap.IsScrap() && !insideScrap(o, scrap.Outline, job.Edge) {
				return false
			}
		}
	}
	return true
}

func allApart(job nesting.Job, layout nesting.Layout) bool {
	for i, p := range layout.Placements {
		for _, q := range layout.Placements[:i] {
			if p.Sheet != q.Sheet {
				continue
			}
			for _, a := range job.PlacedBlock(p) {
				for _, b := range job.PlacedBlock(q) {
					if !job.InHoles {
						a.Holes, b.Holes = nil, nil
					}
					if !geometry.Apart(a, b, job.Spacing) {
						return false
					}
				}
			}
		}
	}
	return true
}

// insideScrap looks at corners, and at each side of the scrap as a sliver a
// nanometre thick on its far side; straight sides only.
func insideScrap(o, scrap geometry.Outline, edge geometry.Length) bool {
	parts := []geometry.Outline{scrap}
	for _, p := range o.Outer.Points() {
		if !scrap.Contains(p) {
			return false
		}
	}
	for _, r := range parts[0].Rings() {
		for _, p := range r.Points() {
			if o.InteriorContains(p) {
				return false
			}
		}
		thin := r.Points()
		for i, p := range thin { // each side as a sliver, on its own
			q := thin[(i+1)%len(thin)]
			out := geometry.Point{X: q.X + sign(q.Y-p.Y), Y: q.Y - sign(q.X-p.X)} // rings run with the scrap on the right
			side := geometry.OutlineFromPoints(p, q, out)
			if side.Validate() == nil && edge > 0 && !geometry.Apart(o, side, edge) {
				return false
			}
		}
	}
	return true
}

func sign(l geometry.Length) geometry.Length {
	switch {
	case l > 0:
		return 1
	case l < 0:
		return -1
	}
	return 0
}
