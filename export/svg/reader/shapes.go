package reader

import (
	"strings"

	"panelry/export/svg/findings"
)

// A measure is one length of an element, in user units.
type measure struct {
	value   float64
	given   bool // not left out, not auto, not void
	unknown bool // it has no definite value, so neither has the element
}

// attributeLength reads a length that only an attribute may give.
func (r *reader) attributeLength(n *node, name string, ctx context, percent float64, size bool) measure {
	a := n.find(name)
	if a == nil {
		return measure{}
	}
	return r.measure(n, name, []candidate{{value: a.Value, at: a.At, inner: a}}, ctx, percent, size)
}

// styledLength reads a coordinate that a style may give too.
func (r *reader) styledLength(n *node, name string, ctx context, percent float64) measure {
	return r.measure(n, name, n.candidates(name), ctx, percent, false)
}

// styledSize reads a width, height or radius that a style may give too: it
// must not be negative.
func (r *reader) styledSize(n *node, name string, ctx context, percent float64) measure {
	return r.measure(n, name, n.candidates(name), ctx, percent, true)
}

// measure takes the first candidate that is a length.
func (r *reader) measure(n *node, name string, list []candidate, ctx context, percent float64, size bool) measure {
	for _, c := range list {
		value := strings.Trim(c.value, " \t\r\n\f")
		if lower := strings.ToLower(value); lower == "auto" || lower == "initial" || lower == "unset" {
			return measure{}
		}
		l, err := parseLength(value)
		if err != nil {
			r.addAt(findings.BadLength, c.at, n, "%s: %s", name, err)
			if c.css && notHere(value) {
				return measure{unknown: true}
			}
			continue
		}
		if c.css {
			r.addAt(findings.StyledGeometry, c.at, n, "a style gives %s", name)
		}
		if l.isCalculation() {
			r.addAt(findings.CalculatedLength, c.at, n, "%s is %s", name, quoted(value))
		}
		v, problem := l.resolve(r.lengths(ctx, percent))
		switch problem {
		case windowProblem:
			r.addAt(findings.WindowUnit, c.at, n, "%s is %s, so the element has no true place and is left out", name, quoted(value))
			return measure{unknown: true}
		case fontProblem:
			r.addAt(findings.FontUnit, c.at, n, "%s is %s, so the element has no true place and is left out", name, quoted(value))
			return measure{unknown: true}
		}
		r.font(l, c.at, n, ctx)
		if l.relative() && r.noBox {
			r.addAt(findings.Percent, c.at, n, "%s is %s, and the root has no viewBox", name, quoted(value))
		}
		if size && v < 0 {
			if l.isCalculation() {
				return measure{given: true}
			}
			r.addAt(findings.NegativeLength, c.at, n, "%s is %s", name, quoted(value))
			continue
		}
		return measure{value: v, given: true}
	}
	return measure{}
}

// notHere reports whether a value of CSS gets its meaning from elsewhere, so
// that it may well be right.
func notHere(value string) bool {
	value = strings.ToLower(value)
	return value == "inherit" || strings.Contains(value, "var(") || strings.Contains(value, "env(") || strings.Contains(value, "attr(")
}

// shape draws one of the basic shapes or a path (SVG 2 chapters 9 and 10).
func (r *reader) shape(n *node, ctx context) {
	p, ok := r.pathOf(n, ctx)
	if !ok {
		return
	}
	drawn := false
	for range p.Segments() {
		drawn = true
		break
	}
	if !drawn {
		r.add(findings.DrawsNothing, n, "the <%s> draws nothing", n.name)
		return
	}
	if r.segments -= p.weight(); r.segments < 0 {
		r.stop(n)
		return
	}
	p.mapped(ctx.ctm)
	s := ctx.style
	e := Element{
		Copies: n.attribute("data-copies"),
		Block:  n.attribute("data-block"),
		Tag:    n.name, ID: n.attribute("id"), Via: ctx.via, Layer: ctx.layer, At: n.at, Path: p, Bounds: p.Bounds(),
		Filled:  s.fill && !s.faintFill && n.name != "line",
		Stroked: s.stroke && !s.faintStroke && !s.noWidth,
		Dashed:  s.dashed, EvenOdd: s.evenOdd, Clipped: s.clipped,
	}
	e.Visible = (e.Filled || e.Stroked) && !s.hidden && !s.transparent
	if ctx.unplaced || r.place(&e, ctx.window) {
		r.file.Elements = append(r.file.Elements, e)
	}
}

// farAway is the distance in mm from which a coordinate is a finding.
const farAway = 100_000

// place looks at where an element has come to lie; false where that is no
// place at all.
func (r *reader) place(e *Element, window *Box) bool {
	b := e.Bounds
	if !finiteBox(b) {
		r.found.Add(findings.FarCoordinate, e.At, e.Label(), "the shape reaches beyond all numbers, and is left out")
		return false
	}
	if max(-b.Min.X, -b.Min.Y, b.Max.X, b.Max.Y) > farAway {
		r.found.Add(findings.FarCoordinate, e.At, e.Label(), "the shape reaches from %s, %s to %s, %s mm", number(b.Min.X), number(b.Min.Y), number(b.Max.X), number(b.Max.Y))
	}
	if w := window; w != nil {
		const slack = 0.001
		e.Outside = e.Outside || b.Min.X < w.Min.X-slack || b.Min.Y < w.Min.Y-slack || b.Max.X > w.Max.X+slack || b.Max.Y > w.Max.Y+slack
	}
	return true
}

// pathOf returns the shape in user units; false where it has no definite
// form.
func (r *reader) pathOf(n *node, ctx context) (Path, bool) {
	w, h := ctx.viewport.X, ctx.viewport.Y
	across := func(name string) measure { return r.styledLength(n, name, ctx, w) }
	down := func(name string) measure { return r.styledLength(n, name, ctx, h) }
	known := func(list ...measure) bool {
		for _, m := range list {
			if m.unknown {
				return false
			}
		}
		return true
	}
	switch n.name {
	case "path":
		return r.dataOf(n), true
	case "rect":
		x, y := across("x"), down("y")
		width, height := r.styledSize(n, "width", ctx, w), r.styledSize(n, "height", ctx, h)
		rx, ry := r.styledSize(n, "rx", ctx, w), r.styledSize(n, "ry", ctx, h)
		if !known(x, y, width, height, rx, ry) {
			return Path{}, false
		}
		return rectangle(x.value, y.value, width.value, height.value, rx, ry), true
	case "circle":
		cx, cy := across("cx"), down("cy")
		radius := r.styledSize(n, "r", ctx, diagonal(w, h))
		return ellipse(cx.value, cy.value, radius.value, radius.value), known(cx, cy, radius)
	case "ellipse":
		cx, cy := across("cx"), down("cy")
		rx, ry := r.styledSize(n, "rx", ctx, w), r.styledSize(n, "ry", ctx, h)
		if rx.given != ry.given {
			r.add(findings.OneRadius, n, "the ellipse has one radius")
			rx, ry = oneForBoth(rx, ry)
		}
		return ellipse(cx.value, cy.value, rx.value, ry.value), known(cx, cy, rx, ry)
	case "line":
		at := func(name string, percent float64) measure { return r.attributeLength(n, name, ctx, percent, false) }
		x1, y1, x2, y2 := at("x1", w), at("y1", h), at("x2", w), at("y2", h)
		var p Path
		p.moveTo(Point{x1.value, y1.value})
		p.lineTo(Point{x2.value, y2.value})
		return p, known(x1, y1, x2, y2)
	}
	return r.pointsOf(n), true // polyline and polygon
}

// dataOf reads the path data of a path, from its style or its attribute.
func (r *reader) dataOf(n *node) Path {
	for _, c := range n.candidates("d") {
		if !c.css {
			break
		}
		inside, ok := strings.CutPrefix(c.value, "path(")
		if c.value == "none" {
			r.addAt(findings.StyledGeometry, c.at, n, "a style gives d")
			return Path{}
		}
		inside = strings.Trim(strings.TrimSuffix(strings.TrimSpace(inside), ")"), " \t\r\n\f")
		if !ok || len(inside) < 2 || inside[0] != inside[len(inside)-1] || inside[0] != '"' && inside[0] != '\'' {
			continue
		}
		r.addAt(findings.StyledGeometry, c.at, n, "a style gives d")
		p, err := parsePath(inside[1:len(inside)-1], r.segments)
		if err != nil { // CSS drops what is not right as a whole
			r.addAt(findings.PathError, c.at, n, "path data: %s", err)
			continue
		}
		return p
	}
	a := n.find("d")
	if a == nil || strings.Trim(a.Value, " \t\r\n\f") == "none" {
		return Path{}
	}
	p, err := parsePath(a.Value, r.segments)
	switch {
	case err != nil && err.much:
		r.addAt(findings.TooMuch, a.Place(err.at), n, "path data: %s", err)
	case err != nil:
		r.addAt(findings.PathError, a.Place(err.at), n, "path data: %s", err)
	}
	return p
}

// pointsOf reads the points of a polyline or polygon (SVG 2 §10.6). An odd
// number at the end is left out; anything that is no number voids the list.
func (r *reader) pointsOf(n *node) Path {
	var p Path
	a := n.find("points")
	if a == nil {
		return p
	}
	s := &scanner{text: a.Value}
	fault := func(err *dataError) {
		r.addAt(findings.PointsError, a.Place(err.at), n, "points: %s", err)
	}
	s.space()
	for s.at < len(s.text) {
		x, err := s.number()
		if err != nil {
			fault(err)
			return Path{}
		}
		s.separator()
		if s.at == len(s.text) {
			fault(s.fault("an odd number of coordinates; the last is left out"))
			break
		}
		y, err := s.number()
		if err != nil {
			fault(err)
			return Path{}
		}
		if len(p.ops) >= r.segments {
			fault(s.fault("more points than are read"))
			break
		}
		if len(p.ops) == 0 {
			p.moveTo(Point{x, y})
		} else {
			p.lineTo(Point{x, y})
		}
		if s.separator() && s.at == len(s.text) {
			fault(s.fault("a comma behind the last point"))
		}
	}
	if len(p.ops) < 2 {
		return Path{}
	}
	if n.name == "polygon" {
		p.close()
	}
	return p
}

// oneForBoth puts the radius that is given in the place of the one that is
// not.
func oneForBoth(rx, ry measure) (measure, measure) {
	if rx.given {
		return rx, measure{value: rx.value, given: true, unknown: ry.unknown}
	}
	return measure{value: ry.value, given: true, unknown: rx.unknown}, ry
}

// rectangle starts behind the top left corner and runs clockwise (SVG 2
// §10.2). A missing radius equals the other; each is at most half its side.
func rectangle(x, y, w, h float64, rx, ry measure) Path {
	var p Path
	if w <= 0 || h <= 0 {
		return p
	}
	if rx.given != ry.given {
		rx, ry = oneForBoth(rx, ry)
	}
	a, b := min(rx.value, w/2), min(ry.value, h/2)
	if a <= 0 || b <= 0 {
		a, b = 0, 0
	}
	corner := func(cx, cy, from float64, to Point) {
		if a > 0 {
			p.arcTo(Ellipse{Centre: Point{cx, cy}, U: Point{a, 0}, V: Point{0, b}, Start: from, Turn: quarter}, to)
		}
	}
	side := func(to Point) {
		p.lineTo(to)
	}
	p.moveTo(Point{x + a, y})
	if w > 2*a {
		side(Point{x + w - a, y})
	}
	corner(x+w-a, y+b, -quarter, Point{x + w, y + b})
	if h > 2*b {
		side(Point{x + w, y + h - b})
	}
	corner(x+w-a, y+h-b, 0, Point{x + w - a, y + h})
	if w > 2*a {
		side(Point{x + a, y + h})
	}
	corner(x+a, y+h-b, quarter, Point{x, y + h - b})
	if h > 2*b && a > 0 {
		side(Point{x, y + b})
	}
	corner(x+a, y+b, 2*quarter, Point{x + a, y})
	p.close()
	return p
}

// ellipse starts at three o'clock and runs clockwise (SVG 2 §10.3, §10.4).
func ellipse(cx, cy, rx, ry float64) Path {
	var p Path
	if rx <= 0 || ry <= 0 {
		return p
	}
	p.moveTo(Point{cx + rx, cy})
	for i, to := range [4]Point{{cx, cy + ry}, {cx - rx, cy}, {cx, cy - ry}, {cx + rx, cy}} {
		p.arcTo(Ellipse{Centre: Point{cx, cy}, U: Point{rx, 0}, V: Point{0, ry}, Start: float64(i) * quarter, Turn: quarter}, to)
	}
	p.close()
	return p
}
