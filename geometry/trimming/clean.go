package trimming

import (
	"fmt"
	"slices"

	"panelry/geometry"
)

// planClean plans a job whose sheets lose a clean edge first, on the left or
// at the top: whichever comes out better, and among equals the side that the
// first cuts of the sheets are measured from. What is proved for one side is
// not proved for both.
func planClean(job Job) (Planned, error) {
	var best Planned
	var bestCost []int
	var first error
	bound, sides := 0, 0
	for _, upright := range []bool{false, true} {
		sub := job
		sub.Clean = 0
		if upright {
			sub.Stock.Size.W -= job.Clean + job.Kerf
		} else {
			sub.Stock.Size.H -= job.Clean + job.Kerf
		}
		if sub.Stock.Size.W <= 0 || sub.Stock.Size.H <= 0 {
			return Planned{}, fmt.Errorf("a clean edge of %s leaves nothing of a sheet of %s", job.Clean, job.Stock.Size)
		}
		plan, err := Plan(sub)
		if err == nil && job.Longest > 0 && edge(job.Stock.Size, upright) > job.Longest {
			err = fmt.Errorf("the clean edge is longer than the longest cut, %s", job.Longest)
		}
		if err != nil {
			if first == nil {
				first = err
			}
			continue
		}
		plan.Clean = Cut{Upright: upright, At: job.Clean}
		if sides++; bound == 0 || plan.Bound < bound {
			bound = plan.Bound
		}
		across := 0
		for _, t := range plan.Trees {
			across += b2i(t.Cut != nil && t.Cut.Upright != upright)
		}
		cost := append(append([]int{len(plan.Trees)}, plan.Weigh(job)...), across)
		if bestCost == nil || slices.Compare(cost, bestCost) < 0 {
			best, bestCost = plan, cost
		}
	}
	if bestCost == nil {
		return Planned{}, first
	}
	best.Bound, best.Fewest = bound, false
	best.Proved = sides == 2 && len(best.Trees) == bound
	return best, nil
}

// edge is how long a cut through a whole size is.
func edge(s geometry.Size, upright bool) geometry.Length {
	if upright {
		return s.H
	}
	return s.W
}
