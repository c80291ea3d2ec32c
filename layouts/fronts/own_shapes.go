package fronts

import (
	"math"

	"panelry/geometry"
)

// Own shapes: closed outlines from a file, as panels. They are numbered in
// reading order.
func init() {
	Register(Layout{
		Name:    "own shapes",
		Summary: "your own outlines from an SVG file",
		Roles:   "in reading order",
		Options: []Option{
			{Name: "shapes", Kind: File, Help: "an SVG file beside the design, in which closed outlines lie at true size"},
			{Name: "fit", Kind: Choice, Default: "fit", Words: []string{"fit", "true size"}, Help: "fit: as large as the frame allows, centred; true size: from the frame's top left"},
		},
		Divide: divideOwnShapes,
	})
}

// mostShapes is how many outlines a front takes.
const mostShapes = 2000

func divideOwnShapes(b Brief) (Front, error) {
	switch n := len(b.Shapes); {
	case n == 0:
		return Front{}, wrongOption("shapes", "there are no closed outlines; name an SVG file that has some")
	case n > mostShapes:
		return Front{}, wrongOption("shapes", "%d outlines are too many; at most %d", n, mostShapes)
	}
	front := Front{Across: terms([]geometry.Length{b.Frame.W()}, 0), Down: terms([]geometry.Length{b.Frame.H()}, 0)}
	shapes := b.Shapes
	if b.Options.Text("fit") == "fit" {
		shapes = fitted(shapes, b.Frame)
	} else {
		shapes = movedAll(shapes, b.Frame.Min.Sub(geometry.Point{}))
	}
	for _, o := range shapes {
		front.Panels = append(front.Panels, Panel{Outline: o})
	}
	front.number()
	for i := range front.Panels {
		front.Panels[i].Role = i
	}
	return front, checkShapes(b, front.Panels)
}

func movedAll(shapes []geometry.Outline, by geometry.Vector) []geometry.Outline {
	out := make([]geometry.Outline, len(shapes))
	for i, o := range shapes {
		out[i] = o.Moved(by)
	}
	return out
}

// fitted scales shapes evenly to the frame and centres them.
func fitted(shapes []geometry.Outline, frame geometry.Rect) []geometry.Outline {
	box := shapes[0].Bounds()
	for _, o := range shapes[1:] {
		s := o.Bounds()
		box = geometry.Rect{
			Min: geometry.Point{X: min(box.Min.X, s.Min.X), Y: min(box.Min.Y, s.Min.Y)},
			Max: geometry.Point{X: max(box.Max.X, s.Max.X), Y: max(box.Max.Y, s.Max.Y)},
		}
	}
	k := math.Min(float64(frame.W())/float64(box.W()), float64(frame.H())/float64(box.H()))
	size := geometry.Size{W: geometry.Length(math.Floor(float64(box.W()) * k)), H: geometry.Length(math.Floor(float64(box.H()) * k))}
	corner := geometry.Point{X: frame.Min.X + (frame.W()-size.W)/2, Y: frame.Min.Y + (frame.H()-size.H)/2}
	place := func(p geometry.Point) geometry.Point {
		scale := func(v geometry.Length, most geometry.Length) geometry.Length {
			return min(geometry.Length(math.Round(float64(v)*k)), most)
		}
		return geometry.Point{X: corner.X + scale(p.X-box.Min.X, size.W), Y: corner.Y + scale(p.Y-box.Min.Y, size.H)}
	}
	out := make([]geometry.Outline, len(shapes))
	for i, o := range shapes {
		out[i] = o.Mapped(place)
	}
	return out
}

// checkShapes refuses panels outside the frame, too small, or over each
// other.
func checkShapes(b Brief, list []Panel) error {
	for i, p := range list {
		box := p.Outline.Bounds()
		if !b.Frame.ContainsRect(box) {
			return wrongOption("shapes", "outline %s reaches out of the frame of %s; use fit = \"fit\", or smaller shapes", p.Name, b.Frame.Size().Format(b.Unit))
		}
		if err := checkSize(p.Name, box.Size(), b, "use larger shapes"); err != nil {
			return err
		}
		if err := p.Outline.ValidateIn(b.Unit); err != nil {
			return wrongOption("shapes", "outline %s: %v", p.Name, err)
		}
		for _, q := range list[:i] {
			if boxesMeet(box, q.Outline.Bounds(), 0) && !geometry.Apart(p.Outline, q.Outline, 0) {
				return wrongOption("shapes", "outlines %s and %s lie over each other", q.Name, p.Name)
			}
		}
	}
	return nil
}
