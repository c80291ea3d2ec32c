package trimming

import (
	"math"

	"panelry/geometry"
)

// raise takes a bound where it is higher than the one so far. Sheets come
// from floating point, so a little is taken off before it is rounded up.
func (p *planner) raise(sheets float64, name string) {
	if n := int(math.Ceil(sheets * (1 - 1e-9))); n > p.bound || p.boundName == "" {
		p.bound, p.boundName = n, name
	}
}

// sideSteps is how many steps each side is bounded with.
const sideSteps = 12

// boundByShapes counts pieces by area, and with sides rounded as in
// [roller.bound], both at once: a product of dual feasible functions is a
// bound (Fekete, Schepers 2004). With steps of half a sheet it counts the
// pieces that cannot share one.
func (p *planner) boundByShapes() {
	k := p.kerf
	w, h := p.job.Stock.Size.W+k, p.job.Stock.Size.H+k
	var across, down []geometry.Length
	for _, q := range p.job.Pieces {
		across, down = append(across, q.Size.W+k), append(down, q.Size.H+k)
		if q.Turn {
			across, down = append(across, q.Size.H+k), append(down, q.Size.W+k)
		}
	}
	downs := steps(down, h, sideSteps)
	for _, a := range steps(across, w, sideSteps) {
		for _, b := range downs {
			var sum float64
			for _, q := range p.job.Pieces {
				sum += float64(q.Count) * share(q, k, a, b, w, h)
			}
			name := "by area"
			if a > 0 || b > 0 {
				name = "by large pieces"
			}
			p.raise(sum/float64(w)/float64(h), name)
		}
	}
}

// share is the area that a piece counts at least, whichever way it lies.
func share(q Piece, kerf, a, b, w, h geometry.Length) float64 {
	least := math.Inf(1)
	for _, s := range [2]geometry.Size{q.Size, q.Size.Turned()} {
		if s.W += kerf; s.W <= w && s.H+kerf <= h {
			least = min(least, float64(rounded(s.W, a, w))*float64(rounded(s.H+kerf, b, h)))
		}
		if !q.Turn {
			break
		}
	}
	return least
}

// mostBounded is how many kinds are bounded by what a sheet gives of them.
const mostBounded = 30

// boundByKind is the most sheets that any kind needs alone, by the exact most
// of it that one sheet gives.
func (p *planner) boundByKind() {
	if len(p.job.Pieces) > mostBounded {
		return
	}
	for _, piece := range p.job.Pieces {
		one := piece
		one.Count, one.Value = 0, 1
		best, err := OneSheet(p.job.Stock.Size, []Piece{one}, p.kerf, 0)
		if err == nil && best.Value > 0 {
			p.raise(float64(piece.Count)/float64(best.Value), "by the most of one size that a sheet gives")
		}
	}
}

// patternRounds and patternWork limit the bound by patterns, and worthMost is
// about the worth of a sheet there.
const (
	patternRounds = 60
	patternWork   = 6_000_000
	worthMost     = 1e7
)

// boundByPatterns gives every size a worth: the worth of all pieces, divided
// by the exact most that a sheet gives, is a bound whatever the worths are.
// Sizes that the best sheet has too many of then lose some worth, and those it
// lacks gain (the dual of P. C. Gilmore, R. E. Gomory, "Multistage cutting
// stock problems of two and more dimensions", Operations Research 13 (1965),
// by small steps in place of a linear program).
func (p *planner) boundByPatterns() {
	var pieces []Piece
	var counts []float64
	for _, q := range p.job.Pieces {
		if q.Count > 0 {
			counts = append(counts, float64(q.Count))
			q.Count = 0
			pieces = append(pieces, q)
		}
	}
	if len(pieces) < 2 || len(pieces) > mostBounded {
		return
	}
	if work, ok := tableWork(p.job.Stock.Size, pieces, p.kerf); !ok || work > 4*patternWork {
		return
	}
	worth := make([]float64, len(pieces)) // as shares of a sheet
	for i, q := range pieces {
		worth[i] = float64(q.Size.W+p.kerf) * float64(q.Size.H+p.kerf) / p.area
	}
	work := 0
	for round := range patternRounds {
		var all, whole float64
		for i := range pieces {
			pieces[i].Value = 1 + int64(worthMost*worth[i])
			all += counts[i] * float64(pieces[i].Value)
		}
		best, err := OneSheet(p.job.Stock.Size, pieces, p.kerf, 0)
		if err != nil || best.Value == 0 {
			return
		}
		whole = float64(best.Value)
		p.raise(all/whole, "by the most of all sizes that a sheet gives")
		if work += best.work; work+best.work > patternWork {
			return
		}
		step := 2 / math.Sqrt(float64(round+1))
		for i := range pieces {
			v := float64(pieces[i].Value)
			gain := step * (counts[i]*v/all - float64(best.Counts[i])*v/whole)
			worth[i] = min(worth[i]*max(0.2, 1+gain), 1)
		}
	}
}
