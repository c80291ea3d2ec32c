package fronts

import (
	"panelry/geometry"
)

// mergeSlivers joins each region at the border that would become a sliver to
// the neighbour that it shares the longest stretch of border with, and
// returns how many it joined. Half is what a region's border moves in by.
func mergeSlivers(regions []region, half geometry.Length) ([]region, int) {
	merged := 0
	gone := make([]bool, len(regions))
	for i := range regions {
		r := regions[i]
		if gone[i] || !r.cut || !narrow(r.Outline, half) {
			continue
		}
		best, longest := -1, geometry.Length(0)
		for j := range regions {
			if i == j || gone[j] || !near(r.Outline.Bounds(), regions[j].Outline.Bounds()) {
				continue
			}
			if shared := sharedBorder(r.Outline, regions[j].Outline); shared > longest {
				best, longest = j, shared
			}
		}
		if best < 0 {
			continue
		}
		if o, ok := joined(regions[best].Outline, r.Outline); ok {
			regions[best].Outline, regions[best].cut = o, true
			gone[i] = true
			merged++
		}
	}
	var out []region
	for i, r := range regions {
		if !gone[i] {
			out = append(out, r)
		}
	}
	return out, merged
}

// narrow reports whether a region would be a sliver once its border has
// moved in.
func narrow(o geometry.Outline, half geometry.Length) bool {
	if o.Breadth() < 2*half+sliverBreadth {
		return true
	}
	parts, err := o.Inset(half)
	return err != nil || len(parts) == 0 || len(parts) == 1 && isSliver(parts[0])
}

// meeting is how far rounding may put corners of neighbours apart that are
// meant to be one.
const meeting = 5 * geometry.Nanometre

func near(r, s geometry.Rect) bool {
	return r.Min.X <= s.Max.X+meeting && s.Min.X <= r.Max.X+meeting &&
		r.Min.Y <= s.Max.Y+meeting && s.Min.Y <= r.Max.Y+meeting
}

// sharedBorder returns how long a stretch of border two straight-edged
// neighbours share, with the corners of each brought onto the other's.
func sharedBorder(a, b geometry.Outline) geometry.Length {
	sum := 0.0
	for _, s := range matchedSides(a, b) {
		if s.shared {
			sum += s.to.Sub(s.from).Len()
		}
	}
	return geometry.Length(sum)
}

// stretch is a piece of border between neighbouring corners of either
// region.
type stretch struct {
	from, to geometry.Point
	shared   bool // the other region has it too, the other way round
}

// matchedSides cuts a's border at the corners of b that lie on it, and marks
// the stretches that b has as well.
func matchedSides(a, b geometry.Outline) []stretch {
	cut := func(o, by geometry.Outline) []stretch {
		var out []stretch
		points := o.Outer.Points()
		for i, p := range points {
			q := points[(i+1)%len(points)]
			from := p
			for _, stop := range cornersOn(p, q, by) {
				out = append(out, stretch{from: from, to: stop})
				from = stop
			}
			out = append(out, stretch{from: from, to: q})
		}
		return out
	}
	own, others := cut(a, b), cut(b, a)
	for i := range own {
		for _, t := range others {
			if same(own[i].from, t.to) && same(own[i].to, t.from) {
				own[i].shared = true
			}
		}
	}
	return own
}

func same(p, q geometry.Point) bool {
	d := p.Sub(q)
	return d.X.Abs() <= meeting && d.Y.Abs() <= meeting
}

// cornersOn returns the corners of an outline that lie on the inside of the
// segment p-q, in order from p.
func cornersOn(p, q geometry.Point, o geometry.Outline) []geometry.Point {
	var out []geometry.Point
	d := q.Sub(p)
	length := d.Len()
	along := func(c geometry.Point) float64 {
		v := c.Sub(p)
		return (float64(v.X)*float64(d.X) + float64(v.Y)*float64(d.Y)) / length
	}
	for _, c := range o.Outer.Points() {
		v := c.Sub(p)
		off := (float64(v.X)*float64(d.Y) - float64(v.Y)*float64(d.X)) / length
		if same(c, p) || same(c, q) || off > float64(meeting) || off < -float64(meeting) || along(c) <= 0 || along(c) >= length {
			continue
		}
		at := len(out)
		for at > 0 && along(out[at-1]) > along(c) {
			at--
		}
		out = append(out[:at], append([]geometry.Point{c}, out[at:]...)...)
	}
	return out
}

// joined returns two neighbours as one region, if that is one ring.
func joined(a, b geometry.Outline) (geometry.Outline, bool) {
	var rest []stretch
	for _, list := range [][]stretch{matchedSides(a, b), matchedSides(b, a)} {
		for _, s := range list {
			if !s.shared {
				rest = append(rest, s)
			}
		}
	}
	if len(rest) < 3 {
		return geometry.Outline{}, false
	}
	var points []geometry.Point
	used := make([]bool, len(rest))
	for at := 0; ; {
		used[at] = true
		points = append(points, rest[at].from)
		next := -1
		for j, s := range rest {
			if !used[j] && same(s.from, rest[at].to) {
				next = j
				break
			}
		}
		if next < 0 {
			break
		}
		at = next
	}
	if len(points) != len(rest) {
		return geometry.Outline{}, false
	}
	o := geometry.OutlineFromPoints(points...).Tidied()
	return o, o.Validate() == nil
}
