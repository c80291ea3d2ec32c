package nesting

import (
	"cmp"
	"fmt"
	"slices"

	"panelry/geometry"
)

// Verify reports the first way in which a layout does not do what the job
// asks: every copy exactly once, on a sheet that is in stock, in an allowed
// turn, inside the edges, and at least the spacing from all others; the
// outlines of one block may be closer to each other. It is plain and exact and
// uses nothing of the packers'.
func Verify(job Job, layout Layout) error {
	if err := verifyCounts(job, layout); err != nil {
		return err
	}
	bySheet := make([][]placed, len(layout.Sheets))
	turned := map[turnedKey][]geometry.Outline{}
	for _, p := range layout.Placements {
		key := turnedKey{p.Shape, p.Over, p.Turn}
		if _, ok := turned[key]; !ok {
			turned[key] = job.turnedForCheck(p)
		}
		for _, o := range turned[key] {
			o = o.Moved(p.Move)
			bySheet[p.Sheet] = append(bySheet[p.Sheet], placed{p, o, o.Bounds()})
		}
	}
	for sheet, pieces := range bySheet {
		if err := verifySheet(job, layout.Sheets[sheet], pieces); err != nil {
			return fmt.Errorf("sheet %d: %w", sheet+1, err)
		}
	}
	return nil
}

type turnedKey struct {
	shape int
	over  bool
	turn  float64
}

// turnedForCheck returns the outlines of a placement before it is moved; holes
// are paper where nothing may lie in them.
func (j Job) turnedForCheck(p Placement) []geometry.Outline {
	p.Move = geometry.Vector{}
	all := j.PlacedBlock(p)
	for i := range all {
		if !j.InHoles {
			all[i].Holes = nil
		}
	}
	return all
}

type placed struct {
	Placement
	outline geometry.Outline
	bounds  geometry.Rect
}

func (p placed) name(job Job) string {
	return fmt.Sprintf("%s, copy %d", job.Shapes[p.Shape].Name, p.Copy+1)
}

func verifyCounts(job Job, layout Layout) error {
	seen := map[[2]int]bool{}
	want := 0
	for _, s := range job.Shapes {
		want += s.Count
	}
	for _, p := range layout.Placements {
		if p.Shape < 0 || p.Shape >= len(job.Shapes) || p.Sheet < 0 || p.Sheet >= len(layout.Sheets) {
			return fmt.Errorf("a piece of shape %d on sheet %d: no such shape or sheet", p.Shape, p.Sheet)
		}
		s := job.Shapes[p.Shape]
		if p.Copy < 0 || p.Copy >= s.Count || seen[[2]int{p.Shape, p.Copy}] {
			return fmt.Errorf("%s, copy %d: placed twice, or not wanted", s.Name, p.Copy+1)
		}
		seen[[2]int{p.Shape, p.Copy}] = true
		if p.Over && !s.Mirror {
			return fmt.Errorf("%s, copy %d: turned over, which is not allowed", s.Name, p.Copy+1)
		}
		if !s.Turns.Allow(p.Turn) {
			return fmt.Errorf("%s, copy %d: turned by %v degrees, which is not allowed", s.Name, p.Copy+1, p.Turn)
		}
	}
	if len(layout.Placements) != want {
		return fmt.Errorf("%d pieces placed, %d wanted", len(layout.Placements), want)
	}
	return verifyStock(job, layout)
}

func verifyStock(job Job, layout Layout) error {
	used := make([]int, len(job.Stock))
	for i, stock := range layout.Sheets {
		if stock < 0 || stock >= len(job.Stock) {
			return fmt.Errorf("sheet %d: not in stock", i+1)
		}
		used[stock]++
		if have := job.Stock[stock].Count; have > 0 && used[stock] > have {
			return fmt.Errorf("sheet %d: only %d of that size in stock", i+1, have)
		}
	}
	return nil
}

// verifySheet compares each piece with those whose x extents, the spacing
// added, it shares.
func verifySheet(job Job, stock int, pieces []placed) error {
	if job.Stock[stock].IsScrap() {
		if err := verifyScrap(job, job.Stock[stock].Outline, pieces); err != nil {
			return err
		}
	}
	size := job.Stock[stock].Size
	inside := geometry.Rect{
		Min: geometry.Point{X: job.Edge, Y: job.Edge},
		Max: geometry.Point{X: size.W - job.Edge, Y: size.H - job.Edge},
	}
	for _, p := range pieces {
		if !inside.ContainsRect(p.bounds) {
			return fmt.Errorf("%s: outside the sheet or in its edge", p.name(job))
		}
	}
	slices.SortFunc(pieces, func(a, b placed) int { return cmp.Compare(a.bounds.Min.X, b.bounds.Min.X) })
	for i, p := range pieces {
		for _, q := range pieces[i+1:] {
			if q.bounds.Min.X-p.bounds.Max.X >= job.Spacing {
				break
			}
			if p.Shape == q.Shape && p.Copy == q.Copy {
				continue // of one block
			}
			if !geometry.Apart(p.outline, q.outline, job.Spacing) {
				return fmt.Errorf("%s and %s: closer than %s", p.name(job), q.name(job), job.Spacing)
			}
		}
	}
	return nil
}

// verifyScrap makes sure that pieces lie inside a scrap and its edge: apart
// from what is around it and from its holes.
func verifyScrap(job Job, scrap geometry.Outline, pieces []placed) error {
	box := scrap.Bounds()
	far := geometry.Vector{X: box.W() + job.Edge, Y: box.H() + job.Edge}
	around := geometry.Rect{Min: box.Min.Add(far.Neg()), Max: box.Max.Add(far)}.Outline()
	around.Holes = []geometry.Ring{scrap.Outer.Reversed()}
	missing := []geometry.Outline{around}
	for _, hole := range scrap.Holes {
		missing = append(missing, geometry.OutlineFromRing(hole.Reversed()))
	}
	for _, p := range pieces {
		for _, m := range missing {
			if !geometry.Apart(p.outline, m, job.Edge) {
				return fmt.Errorf("%s: outside the scrap or in its edge", p.name(job))
			}
		}
	}
	return nil
}
