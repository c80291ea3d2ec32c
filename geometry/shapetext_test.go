package geometry_test

import (
	"slices"
	"strings"

	"panelry/geometry"
)

// Shapes in tests are short texts: corners "x,y" in millimetres with spaces
// between them, rings with ";" between them, the outer ring first. A text
// that cannot be read is a fault of the test and panics.

// place reads one corner: "12.5,3".
func place(text string) geometry.Point {
	x, y, _ := strings.Cut(text, ",")
	return geometry.Point{X: millimetres(x), Y: millimetres(y)}
}

func millimetres(text string) geometry.Length {
	l, err := geometry.ParseLength(text, geometry.Millimetres)
	if err != nil {
		panic(err)
	}
	return l
}

// places reads corners: "0,0 100,0 100,50".
func places(text string) []geometry.Point {
	var out []geometry.Point
	for _, word := range strings.Fields(text) {
		out = append(out, place(word))
	}
	return out
}

// lineThrough reads the two points of a line.
func lineThrough(text string) geometry.Line {
	p := places(text)
	return geometry.Line{A: p[0], B: p[1]}
}

// rawShape reads rings in the direction that they are written in.
func rawShape(text string) geometry.Outline {
	rings := strings.Split(text, ";")
	o := geometry.Outline{Outer: geometry.RingFromPoints(places(rings[0])...)}
	for _, r := range rings[1:] {
		o.Holes = append(o.Holes, geometry.RingFromPoints(places(r)...))
	}
	return o
}

// shape reads rings and gives each the direction that an outline wants.
func shape(text string) geometry.Outline {
	o := rawShape(text)
	o.Outer = geometry.OutlineFromRing(o.Outer).Outer
	for i, h := range o.Holes {
		o.Holes[i] = geometry.OutlineFromRing(h).Outer.Reversed()
	}
	return o
}

// shapeText writes a straight outline so that equal regions give equal
// texts: each ring from its corner furthest to the left (then top), holes in
// the order of their texts.
func shapeText(o geometry.Outline) string {
	var holes []string
	for _, h := range o.Holes {
		holes = append(holes, ringText(h))
	}
	slices.Sort(holes)
	return strings.Join(append([]string{ringText(o.Outer)}, holes...), "; ")
}

func ringText(r geometry.Ring) string {
	p := r.Points()
	first := 0
	for i := range p {
		if p[i].X < p[first].X || p[i].X == p[first].X && p[i].Y < p[first].Y {
			first = i
		}
	}
	var words []string
	for i := range p {
		at := p[(first+i)%len(p)]
		words = append(words, at.X.MM()+","+at.Y.MM())
	}
	return strings.Join(words, " ")
}

// shapeTexts writes several outlines in the order of their texts.
func shapeTexts(all []geometry.Outline) []string {
	out := []string{}
	for _, o := range all {
		out = append(out, shapeText(o))
	}
	slices.Sort(out)
	return out
}

// sameTexts brings wanted shapes, written in any way, into the form that
// shapeTexts returns.
func sameTexts(texts ...string) []string {
	var all []geometry.Outline
	for _, text := range texts {
		all = append(all, shape(text))
	}
	return shapeTexts(all)
}

// circle is a round ring of four cubics; the length of the handles is the
// usual 0.5522847498 of the radius (4/3 (sqrt 2 - 1)), to the nanometre.
func circle(centre geometry.Point, radius geometry.Length) geometry.Outline {
	h := geometry.Length(float64(radius)*0.5522847498 + 0.5)
	at := func(x, y geometry.Length) geometry.Point {
		return geometry.Point{X: centre.X + x, Y: centre.Y + y}
	}
	r := radius
	return geometry.Outline{Outer: geometry.Ring{
		geometry.CurveTo(at(r, h), at(h, r), at(0, r)),
		geometry.CurveTo(at(-h, r), at(-r, h), at(-r, 0)),
		geometry.CurveTo(at(-r, -h), at(-h, -r), at(0, -r)),
		geometry.CurveTo(at(h, -r), at(r, -h), at(r, 0)),
	}}
}

// disc is the circle with its centre at the origin.
func disc(radius geometry.Length) geometry.Outline { return circle(geometry.Point{}, radius) }

// copyOf returns an outline that shares no memory with o.
func copyOf(o geometry.Outline) geometry.Outline {
	c := geometry.Outline{Outer: slices.Clone(o.Outer)}
	for _, h := range o.Holes {
		c.Holes = append(c.Holes, slices.Clone(h))
	}
	return c
}
