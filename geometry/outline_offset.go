package geometry

import (
	"fmt"
	"math"
	"slices"
)

// fullMitre is the limit that [Outline.Inset] works with: a dent keeps its
// mitre unless it is sharper than 2 asin(1/10), 11.5 degrees. Without any
// limit a slit with a pointed end would part a whole sheet.
const fullMitre = 10

// fineness is the number of steps in a nanometre of the grid that the work
// is done on, so that a corner is rounded once, at the end. Coordinates stay
// under 2^50 steps, and their products under 2^105.
const fineness = 1024

// surplus is added to each distance, in steps. A moved side is off by up to
// 0.71 steps, half the diagonal of one; with the surplus, two sides that
// should just meet (a notch half as wide as its bleed, an inset as deep as
// the inscribed circle) do meet. A corner moves by under 0.02 nm for it.
const surplus = 2

// Offset moves the border of the region by the distance: outward when it is
// positive (bleed), inward when it is negative (inset). Holes shrink when
// the region grows, and may vanish; an inset may part the region, and a hole
// may open into the border. The result is none, one or several regions from
// left to right, each valid, none when an inset leaves nothing.
//
// Corners are mitred. Where a mitre would reach further from the corner than
// limit times the distance, it is cut off square to its own direction, that
// far from the corner; a limit under 1 counts as 1. An inset needs mitres
// only at dents, and there the limit rules in the same way.
//
// Curves become polygons within 1 micrometre, outside the curve for a
// positive distance and inside for a negative one: the border always moves
// at least as far as asked, but for the last rounding. At distance 0 the
// region is returned as it is, curves and all. New corners are within 1 nm of
// the exact place, unless their sides meet at less than a degree, and exact
// between upright and level sides. Parts and holes thinner than about 1 nm
// are left out, and where a region would touch itself at a point, a few
// nanometres there are filled (outward) or cut away (inward).
//
// The outline must be valid. The only error is a result past [Limit]. Curves
// take time where hundreds of their sides vanish at once without leaving a
// plain corner: seconds for a heart of 100 mm inset by 20 mm, milliseconds
// for insets smaller than the curves' radius.
func (o Outline) Offset(distance Length, limit float64) ([]Outline, error) {
	switch {
	case distance == 0:
		return []Outline{o.Moved(Vector{})}, nil
	case distance > 2*Limit:
		return nil, fmt.Errorf("an offset by %s goes past the limit of 100 m", distance)
	case distance < -Limit || fillsUp(o.Outer, -distance):
		return nil, nil
	}
	open := Outline{Outer: o.Outer}
	for _, hole := range o.Holes {
		if !fillsUp(hole, distance) {
			open.Holes = append(open.Holes, hole)
		}
	}
	m := moverBy(distance, limit)
	var raw [][]Point
	for _, ring := range open.offsetBase(distance > 0) {
		raw = append(raw, m.ring(ring))
	}
	rings := apartFromThemselves(coarse(positiveRings(raw)), distance > 0)
	for _, ring := range rings {
		if i := slices.IndexFunc(ring, func(p Point) bool { return !p.InRange() }); i >= 0 {
			return nil, fmt.Errorf("an offset by %s reaches %s, past the limit of 100 m", distance, ring[i])
		}
	}
	return outlinesFromRings(rings), nil
}

// Inset returns what is left of the region when everything nearer to the
// border than by is taken away: none, one or several regions from left to
// right. Corners stay sharp; dents are mitred, all but those sharper than
// 11.5 degrees. It is [Outline.Offset] by -by with a limit of 10, and what
// stands there about curves and rounding holds here. A negative length grows
// the region. The only error is a result past [Limit].
func (o Outline) Inset(by Length) ([]Outline, error) {
	return o.Offset(-by, fullMitre)
}

// fillsUp reports whether the ring is so low or so narrow that nothing in it
// is further than the distance from its border. It spares the work for
// shapes that vanish whole, and is not the only way in which they do.
func fillsUp(r Ring, distance Length) bool {
	bounds := Outline{Outer: r}.Bounds()
	return 2*distance >= min(bounds.W(), bounds.H())
}

// moverBy returns the mover for a distance in nanometres. A mitre longer
// than 4 times the limit of 100 m is past it wherever it starts, and so is
// cut off there, to keep the numbers small.
func moverBy(distance Length, limit float64) mover {
	m := mover{side: 1, by: float64(distance.Abs()*fineness + surplus), limit: 1}
	if distance < 0 {
		m.side = -1
	}
	if limit > 1 {
		m.limit = math.Min(limit, math.Max(1, float64(4*Limit*fineness)/m.by))
	}
	return m
}

// offsetBase returns the rings as polygons on the fine grid. Polygons around
// (or inside) curves may overlap by a micrometre where the curves nearly
// touch; such rings are made good.
func (o Outline) offsetBase(outward bool) [][]Point {
	var base [][]Point
	for _, r := range o.Rings() {
		var points []Point
		switch {
		case r.IsStraight():
			points = r.Points()
		case outward:
			points = r.FlattenOutward(Micrometre)
		default:
			points = r.Reversed().FlattenOutward(Micrometre)
			slices.Reverse(points)
		}
		for i, p := range points {
			points[i] = Point{p.X * fineness, p.Y * fineness}
		}
		base = append(base, points)
	}
	if !o.IsStraight() {
		base = positiveRings(base)
	}
	return base
}

// coarse rounds rings from the fine grid to whole nanometres, half upwards
// wherever the shape stands: moving a shape changes nothing.
func coarse(rings [][]Point) [][]Point {
	for _, ring := range rings {
		for i, p := range ring {
			ring[i] = Point{Length(roundDiv(int64(p.X), fineness)), Length(roundDiv(int64(p.Y), fineness))}
		}
	}
	return rings
}

// apartFromThemselves returns the border of the region inside the rings with
// no ring passing a point twice. Where one does, a small square is filled or
// cut away, and a larger one if that was not enough.
func apartFromThemselves(rings [][]Point, fill bool) [][]Point {
	for half := Length(2); ; half *= 2 {
		rings = positiveRings(rings)
		twice := passedTwice(rings)
		if len(twice) == 0 {
			return rings
		}
		for _, p := range twice {
			square := Rect{Point{p.X - half, p.Y - half}, Point{p.X + half, p.Y + half}}
			corners := square.Outline().Outer.Points()
			if !fill {
				slices.Reverse(corners)
			}
			rings = append(rings, corners)
		}
	}
}

// passedTwice returns the points that one ring passes more than once.
func passedTwice(rings [][]Point) []Point {
	var twice []Point
	for _, ring := range rings {
		seen := make(map[Point]bool, len(ring))
		for _, p := range ring {
			if seen[p] {
				twice = append(twice, p)
			}
			seen[p] = true
		}
	}
	return twice
}

// outlinesFromRings gives each hole to the smallest outer ring around it.
// Rings that enclose next to nothing are what rounding leaves of a region
// that closed.
func outlinesFromRings(rings [][]Point) []Outline {
	var outers []Outline
	var holes []Ring
	for _, points := range rings {
		ring := RingFromPoints(points...).tidy()
		area := ring.Area()
		switch {
		case isSliver(ring):
		case area.Sign() > 0:
			outers = append(outers, Outline{Outer: ring})
		default:
			holes = append(holes, ring)
		}
	}
	for _, hole := range holes {
		if best := smallestAround(outers, hole); best >= 0 {
			outers[best].Holes = append(outers[best].Holes, hole)
		}
	}
	return outers
}

// isSliver reports whether a ring is less than 1 nm wide on the average: a
// strip's area is half its perimeter times its width.
func isSliver(r Ring) bool {
	area := math.Abs(r.Area().twentieths.float()) / 20
	return area < (Outline{Outer: r}).Perimeter()/2
}

// smallestAround returns which outer ring the hole lies in, or -1. A region
// that lies inside the hole, and may touch it, is smaller than the hole.
func smallestAround(outers []Outline, hole Ring) int {
	best := -1
	least := hole.Reversed().Area()
	for i, o := range outers {
		area := o.Outer.Area()
		if area.Cmp(least) <= 0 || best >= 0 && area.Cmp(outers[best].Outer.Area()) >= 0 {
			continue
		}
		if (Outline{Outer: o.Outer}).Contains(hole.Start()) {
			best = i
		}
	}
	return best
}
