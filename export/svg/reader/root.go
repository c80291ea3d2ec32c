package reader

import (
	"strings"

	"panelry/export/svg/findings"
)

// mmPerUnit is what one px, the user unit of the outermost viewport, counts
// on paper (CSS Values 4 §6.2).
const mmPerUnit = 25.4 / 96

// drawing reads the root and then all that it draws.
func (r *reader) drawing() {
	root := r.root
	ctx := context{viewport: Point{300, 150}, style: usualStyle}
	ctx.style = r.styleOf(root, ctx.style, 0)
	r.rootFont = ctx.style.fontSize
	w, h := r.rootSize(root, ctx)
	sized := w.known && h.known
	r.file.Sized = sized
	px := Point{w.value, h.value}
	if sized {
		r.file.W, r.file.H = px.X*mmPerUnit, px.Y*mmPerUnit
		r.file.InPixels = w.inPixels && h.inPixels
	} else {
		px = ctx.viewport // only to find what is wrong inside
	}
	if sized && max(r.file.W, r.file.H) > farAway {
		r.add(findings.FarCoordinate, root, "the sheet is %s x %s mm", number(r.file.W), number(r.file.H))
	}
	if sized && (px.X == 0 || px.Y == 0) {
		r.add(findings.ZeroSize, root, "the sheet is %s x %s mm", number(r.file.W), number(r.file.H))
		return
	}
	if d, ok := root.first("display"); ok && strings.EqualFold(d.value, "none") {
		r.addAt(findings.RootHidden, d.at, root, "display none on the root")
		return
	}
	if !r.holds(root) {
		return
	}
	box, ok := r.viewBoxOf(root)
	moved, ok2 := r.rootTransform(root, px, ctx)
	if !ok2 {
		return
	}
	ctx.ctm = scaling(mmPerUnit, mmPerUnit).then(moved)
	ctx.viewport = px
	r.noBox = !ok
	f := r.fitOf(root)
	switch {
	case ok && (box[2] == 0 || box[3] == 0):
		r.add(findings.ZeroViewBox, root, "the viewBox is %s x %s", number(box[2]), number(box[3]))
		return
	case ok:
		m := f.onto(box, 0, 0, px.X, px.Y)
		ctx.ctm = ctx.ctm.then(m)
		ctx.viewport = Point{box[2], box[3]}
		if ratio := px.X / px.Y / (box[2] / box[3]); sized && (ratio > 1.001 || ratio < 0.999) {
			r.add(findings.Aspect, root, "the sheet is %s x %s mm and the viewBox %s x %s", number(r.file.W), number(r.file.H), number(box[2]), number(box[3]))
		}
	case root.find("viewBox") == nil && sized:
		r.add(findings.NoViewBox, root, "the root has no viewBox")
	}
	if a := root.find("viewbox"); a != nil {
		r.addAt(findings.ViewBoxCase, a.At, root, "the attribute is written viewbox")
	}
	r.children(root, ctx)
}

// A side is the width or height of the sheet, in px.
type side struct {
	value    float64
	known    bool
	inPixels bool
	given    bool
}

// rootSize works out the sheet's size as a stand-alone file has it: CSS
// properties that attributes may set (SVG 2 §7.8, §8.12).
func (r *reader) rootSize(root *node, ctx context) (w, h side) {
	w, h = r.rootSide(root, "width", ctx), r.rootSide(root, "height", ctx)
	for _, p := range []string{"zoom", "box-sizing", "aspect-ratio", "padding", "padding-left", "padding-right", "padding-top", "padding-bottom", "border", "border-width", "border-left", "border-top", "margin"} {
		if c, ok := root.first(p); ok && c.css {
			r.addAt(findings.StyledSize, c.at, root, "the style's %s changes the size or the place of the whole drawing", p)
			if p != "margin" {
				w.known, h.known = false, false
			}
		}
	}
	if w.known != h.known && r.found.Count(findings.PercentSize)+r.found.Count(findings.BadSize)+r.found.Count(findings.WindowUnit)+r.found.Count(findings.FontUnit) == 0 {
		have, lack := "width", "height"
		if h.known {
			have, lack = lack, have
		}
		r.add(findings.OneSided, root, "the root has a %s and no %s", have, lack)
	} else if !w.given && !h.given {
		r.add(findings.NoSize, root, "the root has no width and no height, so the sheet has no true size")
	}
	return w, h
}

func (r *reader) rootSide(root *node, name string, ctx context) side {
	s := r.rootLength(root, name, ctx)
	if !s.known {
		return s
	}
	for _, limit := range []string{"max-" + name, "min-" + name} {
		c, ok := root.first(limit)
		if !ok || !c.css || c.value == "none" || c.value == "auto" {
			continue
		}
		l, err := parseLength(c.value)
		if err != nil {
			continue
		}
		v, problem := l.resolve(r.lengths(ctx, 0))
		r.addAt(findings.StyledSize, c.at, root, "the style gives a %s", limit)
		switch {
		case l.relative() || problem != "":
			return side{given: true}
		case limit[:3] == "max":
			s.value = min(s.value, v)
		default:
			s.value = max(s.value, v)
		}
	}
	return s
}

func (r *reader) rootLength(root *node, name string, ctx context) side {
	for _, c := range root.candidates(name) {
		value := strings.Trim(withoutComments(c.value), " \t\r\n\f")
		if c.css {
			r.addAt(findings.StyledSize, c.at, root, "a style sets the sheet's %s", name)
		}
		switch strings.ToLower(value) {
		case "auto", "initial", "unset", "revert", "fit-content", "min-content", "max-content", "stretch":
			return side{}
		}
		l, err := parseLength(value)
		if err != nil {
			r.addAt(findings.BadSize, c.at, root, "%s: %s", name, err)
			if c.css && notHere(value) {
				return side{given: true}
			}
			continue
		}
		s := side{given: true}
		if l.isCalculation() {
			r.addAt(findings.CalculatedLength, c.at, root, "%s is %s", name, quoted(value))
		}
		if l.relative() {
			r.addAt(findings.PercentSize, c.at, root, "%s is %s", name, quoted(value))
			return s
		}
		v, problem := l.resolve(r.lengths(ctx, 0))
		switch {
		case problem == windowProblem:
			r.addAt(findings.WindowUnit, c.at, root, "%s is %s", name, quoted(value))
			return s
		case problem == fontProblem:
			r.addAt(findings.FontUnit, c.at, root, "%s is %s", name, quoted(value))
			return s
		case v < 0 && !l.isCalculation():
			r.addAt(findings.BadSize, c.at, root, "%s is %s, below zero", name, quoted(value))
			continue
		}
		r.font(l, c.at, root, ctx)
		s.value, s.known = max(v, 0), true
		s.inPixels = !l.isCalculation() && (l.unit == "" || l.unit == "px")
		if s.inPixels && v > 0 {
			r.found.AddOnce(findings.PixelSize, c.at, root.label(), "%s is %s, in px", name, quoted(value))
		}
		return s
	}
	_, css := root.first(name)
	return side{given: css}
}

// font reports a length that counts in a font size which the file does not
// state: 16 px is only what most readers take.
func (r *reader) font(l length, at int, n *node, ctx context) {
	if l.uses("em") && !ctx.style.fontStated || l.uses("rem") && !r.rootStatesFont() {
		r.addAt(findings.FontUnit, at, n, "a length counts in the font's size, and the file does not say how large that is")
	}
}

func (r *reader) rootStatesFont() bool {
	_, ok := r.root.first("font-size")
	return ok
}

// rootTransform is the transform of the root, in px: it acts as if it stood
// on a parent, about the middle of the sheet unless an origin is given
// (css-transforms-1 §8; SVG 2 §8.5).
func (r *reader) rootTransform(root *node, px Point, ctx context) (matrix, bool) {
	t := r.transformOf(root, ctx)
	if t.any {
		r.add(findings.RootTransform, root, "the root has a transform")
	}
	box := Box{Point{}, px, true}
	m, ok := t.matrix(box, Point{px.X / 2, px.Y / 2})
	switch {
	case !ok:
		return identity, true
	case m.singular():
		r.add(findings.FlatTransform, root, "the transform flattens the whole drawing")
		return m, false
	}
	return m, true
}

// viewBoxOf reads the viewBox of an element that has one.
func (r *reader) viewBoxOf(n *node) ([4]float64, bool) {
	a := n.find("viewBox")
	if a == nil {
		return [4]float64{}, false
	}
	box, err := parseViewBox(a.Value)
	if err != nil {
		r.addAt(findings.VoidViewBox, a.Place(err.at), n, "viewBox %s: %s", quoted(a.Value), err)
		return box, false
	}
	return box, true
}

func (r *reader) fitOf(n *node) fit {
	a := n.find("preserveAspectRatio")
	if a == nil {
		return usualFit
	}
	f, ok := parseFit(a.Value)
	if !ok {
		r.addAt(findings.BadAspect, a.At, n, "preserveAspectRatio is %s", quoted(a.Value))
	}
	return f
}
