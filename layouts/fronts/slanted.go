package fronts

import (
	"math"
	"strconv"

	"panelry/geometry"
)

// Diagonal stripes: parallel bands at an angle, cut off by the front. They
// are counted across the bands, from the left.
//
//	+--/--/--/-+
//	| /  /  /  /
//	|/  /  /  /|
//	/  /  /  / |
//	+-/--/--/--+
func init() {
	Register(Layout{
		Name:    "diagonal stripes",
		Summary: "parallel bands at an angle",
		Roles:   "band by band",
		Options: []Option{
			{Name: "angle", Kind: Angle, Default: "45 deg", Help: "which way the bands run, clockwise from upright"},
			{Name: "bands", Kind: Count, Default: 7, Help: "how many bands there are from corner to corner"},
			slivers,
		},
		Divide: divideStripes,
	})
}

// direction returns a vector of 10 m that points that way, clockwise from
// up, rounded to the nanometre: 10 m so that rounding turns nothing.
func direction(degrees float64) geometry.Vector {
	switch degrees = geometry.NormalDegrees(degrees); degrees {
	case 0:
		return geometry.Vector{Y: -10 * geometry.Metre}
	case 90:
		return geometry.Vector{X: 10 * geometry.Metre}
	}
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	ten := 10 * float64(geometry.Metre)
	return geometry.Vector{X: geometry.Length(math.Round(sin * ten)), Y: geometry.Length(math.Round(-cos * ten))}
}

// across returns how far p lies to the right hand of a line through o that
// runs along d, in nanometres.
func across(o geometry.Point, d geometry.Vector, p geometry.Point) float64 {
	v := p.Sub(o)
	return (float64(d.X)*float64(v.Y) - float64(d.Y)*float64(v.X)) / d.Len()
}

// stripeLines returns lines along d that share the frame out in n bands with
// gaps between them, from the left hand to the right, and how broad a band is.
func stripeLines(b Brief, d geometry.Vector, n int) (lines []geometry.Line, breadth geometry.Length) {
	middle := b.Frame.Centre()
	reach := 0.0
	for _, c := range b.Frame.Outline().Outer.Points() {
		reach = math.Max(reach, across(middle, d, c))
	}
	pitch := (2*reach + float64(b.Gap)) / float64(n)
	for k := 1; k < n; k++ {
		off := float64(k)*pitch - reach - float64(b.Gap)/2
		at := geometry.Vector{
			X: geometry.Length(math.Round(-float64(d.Y) / d.Len() * off)),
			Y: geometry.Length(math.Round(float64(d.X) / d.Len() * off)),
		}
		a := middle.Add(at)
		lines = append(lines, geometry.Line{A: a, B: a.Add(d)})
	}
	return lines, geometry.Length(pitch) - b.Gap
}

func divideStripes(b Brief) (Front, error) {
	d := direction(b.Options.Degrees("angle"))
	const try = "use a smaller gap or margin, or fewer bands"
	lines, breadth := stripeLines(b, d, b.Options.Count("bands"))
	if err := checkSize("2", geometry.Size{W: breadth, H: breadth}, b, try); err != nil {
		return Front{}, err
	}
	root := &Node{Outline: b.Frame.Outline()}
	for _, line := range lines {
		root.SplitAll(Cut{line, b.Gap})
	}
	front := Front{Tree: root, Across: terms([]geometry.Length{b.Frame.W()}, 0), Down: terms([]geometry.Length{b.Frame.H()}, 0)}
	front.Slivers = withoutSlivers(b, root)
	leaves := root.Leaves()
	middle := b.Frame.Centre()
	sortBy(leaves, func(n *Node) float64 { return across(middle, d, n.Outline.Centre()) })
	var err error
	front.Panels, err = panels(b, leaves, try, func(i int, _ *Node) Panel {
		return Panel{Name: strconv.Itoa(i + 1), Role: i}
	})
	return front, err
}
