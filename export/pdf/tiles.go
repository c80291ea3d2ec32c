package pdf

import (
	"fmt"
	"math"

	"panelry/geometry"
)

// overlap is how much of a drawing two neighbouring tiles both show.
const overlap = 10.0

// subject is one drawing of the template, with what lies around it.
type subject struct {
	heading string
	notes   []string
	scene   scene
	trim    geometry.Rect // the finished thing in the scene
	bleed   geometry.Length
}

// grid is how a scene is cut into tiles.
type grid struct {
	leaf          leaf
	columns, rows int
	stepX, stepY  float64
	size          geometry.Size
}

func (d *document) grid(s subject, wide bool) grid {
	g := grid{leaf: d.leaf(wide, s.notes), size: s.scene.size}
	parts := func(whole, room float64) (int, float64) {
		if whole <= room+1e-6 {
			return 1, room
		}
		return int(math.Ceil((whole - overlap) / (room - overlap))), room - overlap
	}
	g.columns, g.stepX = parts(in(s.scene.size.W), g.leaf.roomW)
	g.rows, g.stepY = parts(in(s.scene.size.H), g.leaf.room)
	return g
}

// put draws a subject on one page, or on as many tiles as it takes, with a
// plan of them in front.
func (d *document) put(s subject) {
	g := d.grid(s, false)
	if wide := d.grid(s, true); wide.columns*wide.rows < g.columns*g.rows {
		g = wide
	}
	if g.columns*g.rows == 1 {
		left := (g.leaf.w - in(s.scene.size.W)) / 2
		d.open(g.leaf, s.heading, s.notes)
		d.draw(s.scene, whole(s.scene.size), left, g.leaf.top)
		d.box(g.leaf, left+in(s.trim.Min.X), g.leaf.top+in(s.trim.Min.Y), in(s.trim.W()), in(s.trim.H()), in(s.bleed))
		return
	}
	marked := s.scene
	marked.items = append([]item{}, s.scene.items...)
	g.mark(&marked)
	d.plan(s, g)
	for i := range g.columns * g.rows {
		w := g.window(i)
		note := fmt.Sprintf("Tile %d of %d. Lay the crosses of neighbouring tiles over one another and tape them; the tiles overlap by %g mm.", i+1, g.columns*g.rows, overlap)
		notes := append([]string{note}, s.notes...)
		for d.leaf(g.leaf.w > g.leaf.h, notes).top > g.leaf.top && len(notes) > 0 {
			notes = notes[:len(notes)-1]
		}
		if len(notes) == 0 {
			notes = []string{fmt.Sprintf("Tile %d of %d", i+1, g.columns*g.rows)}
		}
		d.open(g.leaf, fmt.Sprintf("%s, tile %d", s.heading, i+1), notes)
		d.draw(marked, w, g.leaf.left, g.leaf.top)
		d.pen(dimensions)
		d.pdf.Rect(g.leaf.left, g.leaf.top, in(w.W()), in(w.H()), "D")
		d.box(g.leaf, g.leaf.left, g.leaf.top, in(w.W()), in(w.H()), 0)
	}
}

func whole(size geometry.Size) geometry.Rect { return geometry.RectFromSize(geometry.Point{}, size) }

// window is what a tile shows, tiles counted row by row.
func (g grid) window(i int) geometry.Rect {
	x, y := float64(i%g.columns)*g.stepX, float64(i/g.columns)*g.stepY
	return geometry.Rect{
		Min: at(x, y),
		Max: geometry.Point{X: min(mm(x+g.leaf.roomW), g.size.W), Y: min(mm(y+g.leaf.room), g.size.H)},
	}
}

// mark puts lettered crosses where tiles overlap, two a seam.
func (g grid) mark(s *scene) {
	name := 'a'
	cross := func(x, y float64) {
		s.line(placing, at(x-3, y), at(x+3, y))
		s.line(placing, at(x, y-3), at(x, y+3))
		s.label(names, at(x+0.8, y-0.8), 2.6, start, string(name))
		if name++; name > 'z' {
			name = 'a'
		}
	}
	w, h := in(g.size.W), in(g.size.H)
	for i := range g.columns * g.rows {
		c, r := i%g.columns, i/g.columns
		x0, x1 := float64(c)*g.stepX, min(float64(c)*g.stepX+g.leaf.roomW, w)
		y0, y1 := float64(r)*g.stepY, min(float64(r)*g.stepY+g.leaf.room, h)
		if c+1 < g.columns {
			x := x1 - overlap/2
			cross(x, y0+(y1-y0)*0.25)
			cross(x, y0+(y1-y0)*0.75)
		}
		if r+1 < g.rows {
			y := y1 - overlap/2
			cross(x0+(x1-x0)*0.25, y)
			cross(x0+(x1-x0)*0.75, y)
		}
	}
}

// plan shows how tiles go together, smaller than life.
func (d *document) plan(s subject, g grid) {
	notes := append([]string{fmt.Sprintf("Larger than the page: %d tiles, put together as below. This page is a plan, smaller than life; the tiles behind it are at true size.", g.columns*g.rows)}, s.notes...)
	l := d.leaf(false, notes)
	scale := min(1, l.roomW/in(s.scene.size.W), l.room/in(s.scene.size.H))
	small := s.scene.scaled(scale)
	for i := range g.columns * g.rows {
		box := g.window(i)
		o := box.Outline().Mapped(scaling(scale))
		small.outline(placing, o)
		small.label(names, o.Bounds().Centre(), 6, middle, fmt.Sprint(i+1))
	}
	d.open(l, s.heading+": plan of the tiles", notes)
	d.draw(small, whole(small.size), (l.w-in(small.size.W))/2, l.top)
}

func scaling(scale float64) func(geometry.Point) geometry.Point {
	return func(p geometry.Point) geometry.Point {
		return geometry.Point{X: geometry.Length(math.Round(float64(p.X) * scale)), Y: geometry.Length(math.Round(float64(p.Y) * scale))}
	}
}

// scaled is a scene without its words, smaller than life.
func (s scene) scaled(scale float64) scene {
	f := scaling(scale)
	out := scene{size: geometry.Size{W: f(geometry.Point{X: s.size.W}).X, H: f(geometry.Point{Y: s.size.H}).Y}}
	for _, it := range s.items {
		if it.text != "" || it.solid || it.step == dimensions {
			continue
		}
		moved := it
		moved.rings = nil
		for _, r := range it.rings {
			moved.rings = append(moved.rings, geometry.Outline{Outer: r}.Mapped(f).Outer)
		}
		if it.path != nil {
			then := append([]geometry.Segment{}, it.path.Then...)
			for i, seg := range then {
				then[i] = geometry.Segment{To: f(seg.To), C1: f(seg.C1), C2: f(seg.C2), Curved: seg.Curved}
			}
			moved.path = &geometry.Path{From: f(it.path.From), Then: then}
		}
		out.items = append(out.items, moved)
	}
	return out
}
