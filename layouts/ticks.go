package layouts

import (
	"math"

	"panelry/geometry"
)

// Ticks mark where panels' corners come: each tick is a small angle just
// inside its corner, so that the panel in its place hides it.
const (
	TickInset  = geometry.Millimetre / 4
	tickLength = 5 * geometry.Millimetre / 2
)

// Ticks returns the corner ticks of the card's panels, on its front. A panel
// with curves or too narrow for ticks has none there.
func (k Kit) Ticks() []geometry.Path {
	var ticks []geometry.Path
	for _, p := range k.Card.Panels {
		if !p.Outline.IsStraight() {
			continue
		}
		inner, err := p.Outline.Inset(TickInset)
		if err != nil {
			continue
		}
		for _, o := range inner {
			ticks = append(ticks, cornerTicks(o.Outer.Points())...)
		}
	}
	return ticks
}

// cornerTicks are the angles at a polygon's corners.
func cornerTicks(points []geometry.Point) []geometry.Path {
	var ticks []geometry.Path
	n := len(points)
	for i, p := range points {
		before, after := points[(i+n-1)%n], points[(i+1)%n]
		ticks = append(ticks, geometry.PathFromPoints(towards(p, before), p, towards(p, after)))
	}
	return ticks
}

// towards is the place a tick's length, and at most a quarter of the way,
// from p to q.
func towards(p, q geometry.Point) geometry.Point {
	v := q.Sub(p)
	share := math.Min(0.25, float64(tickLength)/v.Len())
	return p.Add(geometry.Vector{X: geometry.Length(math.Round(float64(v.X) * share)), Y: geometry.Length(math.Round(float64(v.Y) * share))})
}
