package fronts

import (
	"math"

	"panelry/geometry"
)

// withDisc puts a disc at the place where rays start, as far as it lies in
// the frame, and ends every ray on a circle one gap outside of it.
func withDisc(b Brief, front Front, centre geometry.Point, radius geometry.Length) (Front, error) {
	if radius < LeastPanel {
		return Front{}, wrongOption("disc", "a radius of %s is too small; at least %s", radius.Format(b.Unit), LeastPanel.Format(b.Unit))
	}
	for i, p := range front.Panels {
		o, ok := blunted(p.Outline, centre, radius+b.Gap)
		if !ok {
			return Front{}, wrongOption("disc", "a radius of %s leaves nothing of ray %s; use a smaller one", radius.Format(b.Unit), p.Name)
		}
		if err := checkSize(p.Name, o.Bounds().Size(), b, "use a smaller disc or gap, or fewer rays"); err != nil {
			return Front{}, err
		}
		front.Panels[i].Outline = o
	}
	parts := disc(centre, radius).Clip(b.Frame.Outline().Outer.Points())
	if len(parts) != 1 {
		return Front{}, wrongOption("disc", "a radius of %s does not fit here; use a smaller one", radius.Format(b.Unit))
	}
	k := len(front.Panels)
	front.Panels = append(front.Panels, Panel{Name: number(k), Outline: parts[0], Role: front.Panels[k-1].Role + 1})
	return front, nil
}

// disc returns a circle as four cubics; each is off by at most 2.7e-4 of the
// radius (svg-true-size section 3).
func disc(c geometry.Point, r geometry.Length) geometry.Outline {
	var ring geometry.Ring
	for k := range 4 {
		ring = append(ring, arc(c, float64(r), float64(k)*math.Pi/2, float64(k+1)*math.Pi/2)...)
	}
	return geometry.OutlineFromRing(ring)
}

// arc returns the way round c from one angle to another, in radians
// clockwise from the right, in cubics of at most a quarter turn.
func arc(c geometry.Point, r, from, to float64) []geometry.Segment {
	n := int(math.Ceil(math.Abs(to-from) / (math.Pi/2 + 1e-9)))
	step := (to - from) / float64(n)
	handle := 4.0 / 3 * math.Tan(step/4) * r
	at := func(a, along float64) geometry.Point {
		sin, cos := math.Sincos(a)
		return geometry.Point{
			X: c.X + geometry.Length(math.Round(r*cos-along*sin)),
			Y: c.Y + geometry.Length(math.Round(r*sin+along*cos)),
		}
	}
	var out []geometry.Segment
	for k := range n {
		a, z := from+step*float64(k), from+step*float64(k+1)
		out = append(out, geometry.CurveTo(at(a, handle), at(z, -handle), at(z, 0)))
	}
	return out
}

// blunted cuts the tip off a panel along a circle about the place that its
// sides run from.
func blunted(o geometry.Outline, c geometry.Point, radius geometry.Length) (geometry.Outline, bool) {
	points := o.Outer.Points()
	n := len(points)
	r := float64(radius)
	inside := func(p geometry.Point) bool { return p.Sub(c).Len() < r }
	first := -1 // the first point outside after points inside
	for i := range points {
		if !inside(points[i]) && inside(points[(i+n-1)%n]) {
			if first >= 0 {
				return o, false
			}
			first = i
		}
	}
	if first < 0 {
		return o, !inside(points[0]) // wholly outside is fine
	}
	last := first // the last point outside
	for !inside(points[(last+1)%n]) {
		last = (last + 1) % n
	}
	leave := onCircle(points[(first+n-1)%n], points[first], c, r)
	enter := onCircle(points[last], points[(last+1)%n], c, r)
	var ring geometry.Ring
	for i := first; ; i = (i + 1) % n {
		ring = append(ring, geometry.LineTo(points[i]))
		if i == last {
			break
		}
	}
	from, to := angleOf(enter, c), angleOf(leave, c)
	for to < from { // the panel lies on the right hand, so the arc runs clockwise on the page's other way
		to += 2 * math.Pi
	}
	if to-from > math.Pi {
		to -= 2 * math.Pi
	}
	curve := arc(c, r, from, to)
	curve[len(curve)-1].To = leave
	ring = append(append(ring, geometry.LineTo(enter)), curve...)
	out := geometry.OutlineFromRing(ring)
	return out, out.Validate() == nil
}

func angleOf(p, c geometry.Point) float64 { return math.Atan2(float64(p.Y-c.Y), float64(p.X-c.X)) }

// onCircle returns where the segment from p to q crosses a circle about c;
// one end lies inside and the other outside.
func onCircle(p, q, c geometry.Point, r float64) geometry.Point {
	px, py := float64(p.X-c.X), float64(p.Y-c.Y)
	dx, dy := float64(q.X-p.X), float64(q.Y-p.Y)
	a, b, d := dx*dx+dy*dy, px*dx+py*dy, px*px+py*py-r*r
	root := math.Sqrt(b*b - a*d)
	t := (-b + root) / a
	if t < 0 || t > 1 {
		t = (-b - root) / a
	}
	return geometry.Point{X: p.X + geometry.Length(math.Round(dx*t)), Y: p.Y + geometry.Length(math.Round(dy*t))}
}
