package nesting

import "panelry/geometry"

// A wall is what is missing of a scrap: a form that no piece may overlap and
// that never moves. Walls count behind the items wherever pairs are counted.
type wall struct {
	form int
	at   spot
}

// wallRim is how far a wall reaches past its scrap's box; wallMore how much
// larger it is than it must be, so that rounding has room.
const (
	wallRim  = geometry.Millimetre
	wallMore = 2 * geometry.Micrometre
)

// addWalls adds the form around each scrap of the stock.
func (c *catalogue) addWalls() {
	c.walls = make([]wall, len(c.job.Stock))
	for i, s := range c.job.Stock {
		c.walls[i].form = -1
		if !s.IsScrap() {
			continue
		}
		f := wallAround(s, c.job.Edge)
		box := boundsOf(f.polygons)
		for k := range f.polygons {
			f.polygons[k] = f.polygons[k].Moved(geometry.Point{}.Sub(box.Min))
		}
		f.w, f.h = float64(box.W()), float64(box.H())
		f.cut(f.key(), c.cuts)
		at := box.Min.Add(geometry.Vector{X: -c.job.Edge, Y: -c.job.Edge}) // rooms begin inside the edge
		c.walls[i] = wall{len(c.forms), spot{float64(at.X), float64(at.Y)}}
		c.forms = append(c.forms, f)
	}
}

// wallAround is an oblong without the scrap inside its edge.
func wallAround(s Sheet, edge geometry.Length) *form {
	f := &form{wall: true}
	frame := geometry.Rect{
		Min: geometry.Point{X: -wallRim, Y: -wallRim},
		Max: geometry.Point{X: s.Size.W + wallRim, Y: s.Size.H + wallRim},
	}.Outline()
	inside, err := s.Outline.Inset(edge + wallMore)
	if err != nil {
		inside = nil
	}
	for _, part := range inside {
		frame.Holes = append(frame.Holes, part.Outer.Reversed())
	}
	f.add(polygonAround(frame, geometry.Micrometre))
	for _, part := range inside {
		for _, hole := range part.Holes {
			f.add(polygonAround(geometry.OutlineFromRing(hole.Reversed()), geometry.Micrometre))
		}
	}
	return f
}

// standWalls puts up the walls of all rooms.
func (b *board) standWalls() {
	b.walls = b.walls[:0]
	for _, r := range b.rooms {
		if w := b.cat.walls[r.stock]; w.form >= 0 {
			b.walls = append(b.walls, wall{w.form, spot{r.left + w.at.x, w.at.y}})
		}
	}
	for len(b.weights) < len(b.items)+len(b.walls) {
		b.weights = append(b.weights, 1)
	}
}
