package nesting

import (
	"math"
	"slices"

	"panelry/geometry"
)

// Bound is what no layout can do with less of.
type Bound struct {
	Sheets int     // of the last entry of the stock: 1 or more, where it is the only one
	Length float64 // in nanometres, for a roll
	Kind   string  // "area", "area in whole pieces", "oblongs side by side" or "the longest piece"
}

// areaWithSpacing returns at least how much of a sheet, itself made larger by
// half the spacing all round, a piece or a block takes with half the spacing
// around it: exactly for convex pieces (Steiner's formula), else at least as
// much as the Brunn-Minkowski inequality says. In square nanometres.
func areaWithSpacing(outlines []geometry.Outline, spacing float64) float64 {
	area := 0.0
	for _, o := range outlines {
		area += o.Area().SquareMM() * 1e12
	}
	if spacing == 0 {
		return area
	}
	r := spacing / 2
	if o := outlines[0]; len(outlines) == 1 && o.IsConvex() {
		return area + o.Perimeter()*r + math.Pi*r*r
	}
	side := math.Sqrt(area) + math.Sqrt(math.Pi)*r
	return side * side
}

// wantedArea adds up areaWithSpacing over all pieces.
func (j Job) wantedArea() float64 {
	sum := 0.0
	for _, s := range j.Shapes {
		sum += float64(s.Count) * areaWithSpacing(j.solids(s), float64(j.Spacing))
	}
	return sum
}

// sheetRoom returns the area that pieces on a sheet can have at most, each
// with half the spacing around it.
func (j Job) sheetRoom(stock int) float64 {
	use, s := j.usable(stock), float64(j.Spacing)
	w, h := float64(use.W), float64(use.H)
	room := w*h + (w+h)*s + math.Pi*s*s/4
	if sheet := j.Stock[stock]; sheet.IsScrap() {
		o := sheet.Outline // without its edge, which only makes it smaller
		room = min(room, o.Area().SquareMM()*1e12+o.Perimeter()*s/2+math.Pi*s*s/4)
	}
	return max(room, 0)
}

// sheetsFor returns how many sheets of one entry of the stock an area needs.
func (j Job) sheetsFor(area float64, stock int) int {
	if area <= 0 {
		return 0
	}
	room := j.sheetRoom(stock)
	if room <= 0 {
		return 0 // nothing lies on such a sheet
	}
	return int(math.Ceil(area/room - 1e-9))
}

// severalBound returns how many sheets of the last entry of a stock of several
// are needed when all others are used up.
func (j Job) severalBound() Bound {
	area, last := j.wantedArea(), len(j.Stock)-1
	for i, s := range j.Stock[:last] {
		if s.Count == 0 {
			return Bound{Kind: "area"}
		}
		area -= float64(s.Count) * j.sheetRoom(i)
	}
	return Bound{Sheets: j.sheetsFor(area, last), Kind: "area"}
}

// fewest reports whether no layout can take less of a stock of several
// entries, by area: less of the last, or then of the one before, and so on.
func (j Job) fewest(l Layout) bool {
	used := make([]int, len(j.Stock))
	for _, s := range l.Sheets {
		used[s]++
	}
	later := 0.0 // what the sheets taken of later entries hold
	for i := len(used) - 1; i >= 0; i-- {
		area := j.wantedArea() - later
		for k, s := range j.Stock[:i] {
			if s.Count == 0 {
				area = 0
			}
			area -= float64(s.Count) * j.sheetRoom(k)
		}
		if used[i] > j.sheetsFor(area, i) {
			return false
		}
		later += float64(used[i]) * j.sheetRoom(i)
	}
	return true
}

// tooLargeForHoles returns the job of those shapes only that lie in no hole, as
// none is as large as they are; ok is false where no shape has a hole.
func (j Job) tooLargeForHoles() (large Job, ok bool) {
	hole := 0.0
	for _, s := range j.Shapes {
		for _, o := range s.outlines() {
			for _, h := range o.Holes {
				hole = max(hole, geometry.OutlineFromRing(h.Reversed()).Area().SquareMM())
			}
		}
	}
	large = j
	large.InHoles, large.Shapes = false, nil
	for _, s := range j.Shapes {
		small := func(o geometry.Outline) bool { return filled(o).Area().SquareMM() < hole }
		if !slices.ContainsFunc(s.outlines(), small) {
			large.Shapes = append(large.Shapes, s)
		}
	}
	return large, hole > 0 && len(large.Shapes) > 0
}

// bound returns what is proven for a job: where pieces may lie in holes, the
// larger of what all of them need and of what those need that fit in no hole.
func (j Job) bound() Bound {
	b := j.plainBound()
	if large, ok := j.tooLargeForHoles(); ok && j.InHoles {
		if c := large.plainBound(); c.Sheets > b.Sheets || c.Length > b.Length {
			return c
		}
	}
	return b
}

func (j Job) plainBound() Bound {
	if len(j.Stock) > 1 {
		return j.severalBound()
	}
	use := j.usable(0)
	h, s := float64(use.H), float64(j.Spacing)
	area := j.wantedArea()
	if j.Stock[0].Roll {
		// Area = (L + s)(H + s) less the four corners that rounding leaves out.
		b := Bound{Length: (area+(1-math.Pi/4)*s*s)/(h+s) - s, Kind: "area"}
		if n := float64(j.longestPiece()); n > b.Length {
			b = Bound{Length: n, Kind: "the longest piece"}
		}
		return b
	}
	b := Bound{Sheets: max(1, j.sheetsFor(area, 0)), Kind: "area"}
	if n := j.wholeBound(); n > b.Sheets {
		b = Bound{Sheets: n, Kind: "area in whole pieces"}
	}
	if n := j.oblongBound(); n > b.Sheets {
		b = Bound{Sheets: n, Kind: "oblongs side by side"}
	}
	return b
}

// longestPiece returns how long a piece is at least that takes most of a roll's
// length, however it is turned.
func (j Job) longestPiece() geometry.Length {
	use := j.usable(0).H
	longest := geometry.Length(0)
	for _, s := range j.Shapes {
		if s.Count == 0 {
			continue
		}
		if s.Turns.free {
			if s.Outline.IsConvex() { // of others Breadth is no bound
				longest = max(longest, s.Outline.Breadth())
			}
			continue
		}
		least, fits := geometry.Length(0), false
		for _, turn := range append([]float64{0}, s.Turns.degrees...) {
			for _, over := range []bool{false, s.Mirror} {
				if box := boundsOf(s.in(pose{over, turn})); box.H() <= use && (!fits || box.W() < least) {
					least, fits = box.W(), true
				}
			}
		}
		longest = max(longest, least)
	}
	return longest
}

// wholeBound returns a number of sheets that follows from the pieces' areas and
// from each lying on one sheet whole: pieces of a little over a third of a sheet
// go two to one. With any dual feasible function, the scaled areas on a sheet
// add up to at most 1 (Lueker 1983). It leaves room for what floats round.
func (j Job) wholeBound() int {
	room := j.sheetRoom(0)
	if room <= 0 {
		return 0
	}
	best := 0
	for _, f := range feasible {
		sum := 0.0
		for _, s := range j.Shapes {
			share := areaWithSpacing(j.solids(s), float64(j.Spacing)) / room
			sum += float64(s.Count) * f(share*(1-1e-9))
		}
		best = max(best, int(math.Ceil(sum-1e-6)))
	}
	return best
}

// solids returns what nothing else may lie on of a shape with its block. A
// part in a hole of another one lies on what that one has taken already.
func (j Job) solids(s Shape) []geometry.Outline {
	all := s.outlines()
	if j.InHoles {
		return all
	}
	inOther := func(o geometry.Outline) bool { // parts lie apart: in full, or not at all
		return slices.ContainsFunc(all, func(other geometry.Outline) bool {
			return filled(other).InteriorContains(o.Outer.Start())
		})
	}
	var out []geometry.Outline
	for _, o := range all {
		if !inOther(o) {
			out = append(out, filled(o))
		}
	}
	return out
}

// filled returns an outline without its holes.
func filled(o geometry.Outline) geometry.Outline { return geometry.Outline{Outer: o.Outer} }

// oblongBound returns a number of sheets that oblongs need however they lie
// at right angles to the sheet: with any two dual feasible functions, the
// pieces' scaled areas on one sheet add up to at most 1 (Fekete and
// Schepers 2001; Lueker 1983). An oblong that may lie either way counts with
// the smaller of its two. It returns 0 where some shape is no upright oblong
// or may lie askew.
func (j Job) oblongBound() int {
	use := j.usable(0)
	w, h := float64(use.W+j.Spacing), float64(use.H+j.Spacing)
	type oblong struct {
		w, h  float64
		count int
		both  bool
	}
	var list []oblong
	for _, s := range j.Shapes {
		box := s.Outline.Bounds()
		if s.Count == 0 {
			continue
		}
		if s.Turns.free || len(s.Block) > 0 || j.InHoles && len(s.Outline.Holes) > 0 || len(s.Outline.Outer) != 4 || s.Outline.Outer.Area() != box.Outline().Outer.Area() {
			return 0
		}
		for _, d := range s.Turns.degrees {
			if math.Mod(d, 90) != 0 {
				return 0
			}
		}
		both := s.Turns.Allow(90) || s.Turns.Allow(270)
		list = append(list, oblong{float64(box.W() + j.Spacing), float64(box.H() + j.Spacing), s.Count, both})
	}
	best := 0
	for _, f := range feasible {
		for _, g := range feasible {
			sum := 0.0
			for _, o := range list {
				v := f(o.w/w) * g(o.h/h)
				if o.both {
					v = min(v, f(o.h/w)*g(o.w/h))
				}
				sum += float64(o.count) * v
			}
			best = max(best, int(math.Ceil(sum-1e-6)))
		}
	}
	return best
}

// feasible are dual feasible functions: wherever numbers add up to at most
// 1, so do the function's values.
var feasible = func() []func(float64) float64 {
	out := []func(float64) float64{func(x float64) float64 { return x }}
	for k := 1; k <= 4; k++ { // Fekete and Schepers' u(k)
		out = append(out, func(x float64) float64 {
			if v := x * float64(k+1); math.Abs(v-math.Round(v)) < 1e-12 {
				return x
			} else {
				return math.Floor(v) / float64(k)
			}
		})
	}
	for e := 1; e <= 10; e++ { // their U(epsilon): large is 1, small is nothing
		eps := float64(e) / 20
		out = append(out, func(x float64) float64 {
			switch {
			case x > 1-eps+1e-12:
				return 1
			case x < eps-1e-12:
				return 0
			}
			return x
		})
	}
	return out
}()
