package nesting_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/geometry/nesting"
)

const (
	mm   = geometry.Millimetre
	inch = geometry.Inch
)

// millimetres reads a length in mm; a text that cannot be read is a fault
// of the test and panics.
func millimetres(text string) geometry.Length {
	l, err := geometry.ParseLength(text, geometry.Millimetres)
	if err != nil {
		panic(err)
	}
	return l
}

// ring reads corners in mm: "0,0 100,0 100,50".
func ring(text string) geometry.Ring {
	var points []geometry.Point
	for word := range strings.FieldsSeq(text) {
		x, y, _ := strings.Cut(word, ",")
		points = append(points, geometry.Point{X: millimetres(x), Y: millimetres(y)})
	}
	return geometry.RingFromPoints(points...)
}

// shape reads an outline, the rings of which have ";" between them, the
// outer one first, each in either direction.
func shape(text string) geometry.Outline {
	rings := strings.Split(text, ";")
	o := geometry.OutlineFromRing(ring(rings[0]))
	for _, hole := range rings[1:] {
		o.Holes = append(o.Holes, geometry.OutlineFromRing(ring(hole)).Outer.Reversed())
	}
	return o
}

// oblong is an upright oblong with its top left at the origin.
func oblong(w, h geometry.Length) geometry.Outline {
	return geometry.RectFromSize(geometry.Point{}, geometry.Size{W: w, H: h}).Outline()
}

// disc is a circle of four cubics; the handles have the usual 0.5522847498
// of the radius, 4/3 (sqrt 2 - 1).
func disc(radius geometry.Length) geometry.Outline {
	h := geometry.Length(float64(radius)*0.5522847498 + 0.5)
	at := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x, Y: y} }
	r := radius
	return geometry.Outline{Outer: geometry.Ring{
		geometry.CurveTo(at(r, h), at(h, r), at(0, r)),
		geometry.CurveTo(at(-h, r), at(-r, h), at(-r, 0)),
		geometry.CurveTo(at(-r, -h), at(-h, -r), at(0, -r)),
		geometry.CurveTo(at(h, -r), at(r, -h), at(r, 0)),
	}}
}

// want is a shape of a job.
func want(name string, o geometry.Outline, count int, turns nesting.Turns) nesting.Shape {
	return nesting.Shape{Name: name, Outline: o, Count: count, Turns: turns}
}

// endless is stock of one size, as many sheets as it takes.
func endless(w, h geometry.Length) []nesting.Sheet {
	return []nesting.Sheet{{Size: geometry.Size{W: w, H: h}}}
}

// pack packs in rows and holds the layout against the job.
func pack(t testing.TB, job nesting.Job) nesting.Layout {
	t.Helper()
	layout, err := nesting.Rows{}.Pack(context.Background(), job)
	require.NoError(t, err)
	require.NoError(t, nesting.Verify(job, layout))
	return layout
}

// turnsUsed returns the turns of a layout's pieces, each once, in rising order.
func turnsUsed(layout nesting.Layout) []float64 {
	var turns []float64
	for _, p := range layout.Placements {
		turns = append(turns, p.Turn)
	}
	slices.Sort(turns)
	return slices.Compact(turns)
}

// corners returns where the pieces' boxes have their top left, in mm.
func corners(job nesting.Job, layout nesting.Layout) []string {
	var out []string
	for _, p := range layout.Placements {
		at := job.Placed(p).Bounds().Min
		out = append(out, at.X.MM()+","+at.Y.MM())
	}
	return out
}

// copyOf returns a job that shares no memory with the other.
func copyOf(job nesting.Job) nesting.Job {
	c := job
	c.Shapes, c.Stock = slices.Clone(job.Shapes), slices.Clone(job.Stock)
	for i, s := range c.Shapes {
		c.Shapes[i].Outline = s.Outline.Moved(geometry.Vector{})
	}
	return c
}
