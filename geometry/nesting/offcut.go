package nesting

import (
	"cmp"
	"slices"

	"panelry/geometry"
)

// offcut returns the largest oblong in a corner of the last sheet on which
// nothing lies: at least the spacing from the boxes around the pieces' convex
// parts, as far as the sheet's own sides, edges included. There is none on a
// scrap, whose sides are not straight, nor on a roll, which is cut off behind
// its pieces.
func (j Job) offcut(l Layout) geometry.Rect {
	last := len(l.Sheets) - 1
	if stock := j.Stock[l.Sheets[last]]; stock.IsScrap() || stock.Roll {
		return geometry.Rect{}
	}
	var on []Placement
	for _, p := range l.Placements {
		if p.Sheet == last {
			on = append(on, p)
		}
	}
	return j.leftBy(on, j.Stock[l.Sheets[last]].Size)
}

// leftBy is the offcut that some pieces leave of a sheet.
func (j Job) leftBy(list []Placement, size geometry.Size) geometry.Rect {
	var taken []geometry.Rect
	boxes := map[turnedKey][]geometry.Rect{}
	for _, p := range list {
		key := turnedKey{p.Shape, p.Over, p.Turn}
		if _, ok := boxes[key]; !ok {
			boxes[key] = j.partBoxes(key)
		}
		for _, r := range boxes[key] {
			taken = append(taken, r.Moved(p.Move))
		}
	}
	return freeCorner(taken, size, j.Spacing)
}

// partBoxes returns the boxes around the convex parts of a shape in a pose, its
// holes filled.
func (j Job) partBoxes(key turnedKey) []geometry.Rect {
	var out []geometry.Rect
	for _, o := range j.Shapes[key.shape].in(pose{key.over, key.turn}) {
		if o.IsConvex() {
			out = append(out, o.Bounds())
			continue
		}
		for _, part := range convexParts(polygonAround(filled(o), flatness(o.Bounds()))) {
			out = append(out, geometry.OutlineFromPoints(part...).Bounds())
		}
	}
	return out
}

// freeCorner returns the largest oblong that reaches into a corner of a sheet
// and is at least the spacing from what is taken: below all if it is there, or
// beside all, or in a corner that both leave.
func freeCorner(taken []geometry.Rect, size geometry.Size, spacing geometry.Length) geometry.Rect {
	var best geometry.Rect
	for _, c := range []struct{ right, below bool }{{true, true}, {false, true}, {true, false}, {false, false}} {
		seen := make([]geometry.Rect, len(taken)) // from that corner
		for i, r := range taken {
			seen[i] = flipped(r, size, c.right, c.below)
		}
		if free := flipped(freeOrigin(seen, size, spacing), size, c.right, c.below); area(free) > area(best) {
			best = free
		}
	}
	return best
}

// flipped returns an oblong as it lies seen from another corner of the sheet.
func flipped(r geometry.Rect, size geometry.Size, right, below bool) geometry.Rect {
	if right {
		r.Min.X, r.Max.X = size.W-r.Max.X, size.W-r.Min.X
	}
	if below {
		r.Min.Y, r.Max.Y = size.H-r.Max.Y, size.H-r.Min.Y
	}
	return r
}

// freeOrigin is freeCorner at the origin: as the oblong grows wider, each thing
// that is taken and that it reaches makes it lower.
func freeOrigin(taken []geometry.Rect, size geometry.Size, spacing geometry.Length) geometry.Rect {
	slices.SortFunc(taken, func(a, b geometry.Rect) int { return cmp.Compare(a.Min.X, b.Min.X) })
	var best geometry.Rect
	high := size.H
	take := func(w geometry.Length) {
		if r := geometry.RectFromSize(geometry.Point{}, geometry.Size{W: w, H: high}); w > 0 && area(r) > area(best) {
			best = r
		}
	}
	for _, r := range taken {
		take(min(r.Min.X-spacing, size.W))
		high = min(high, max(r.Min.Y-spacing, 0))
	}
	take(size.W)
	return best
}

func area(r geometry.Rect) float64 { return float64(r.W()) * float64(r.H()) }
