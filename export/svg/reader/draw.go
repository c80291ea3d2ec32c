package reader

import (
	"math"
	"strings"

	"panelry/export/svg/findings"
	"panelry/export/svg/markup"
)

// context is what the elements around one say about it.
type context struct {
	ctm      matrix // from user units to mm
	viewport Point  // width and height that percentages refer to
	style    style
	layer    *Layer
	uses     []*node // the use elements that lead here
	via      string
	window   *Box // of nested viewports that hide what lies outside, in mm
	unplaced bool // in a group whose transform waits for its box
}

// A category says how an element is rendered.
type category int

const (
	unknown   category = iota // not an element of SVG: not rendered
	never                     // never rendered by itself (SVG 2 §3.2.3)
	container                 // its children are
	shape
	other // rendered, but without an outline
	special
)

var categories = categoriesOf(map[category]string{
	never: `defs symbol clipPath mask marker pattern linearGradient radialGradient stop filter style title desc
			metadata view cursor font font-face glyph missing-glyph color-profile hkern vkern set animate animateMotion animateTransform
			animateColor mpath discard script solidcolor mesh meshgradient hatch tspan tref textPath altGlyph altGlyphDef altGlyphItem glyphRef`,
	container: "g a",
	shape:     "path rect circle ellipse line polyline polygon",
	other:     "text image foreignObject video audio canvas iframe",
	special:   "svg use switch",
})

func categoriesOf(lists map[category]string) map[string]category {
	of := map[string]category{}
	for c, names := range lists {
		for _, name := range strings.Fields(names) {
			of[name] = c
		}
	}
	return of
}

// children renders the children of an element.
func (r *reader) children(n *node, ctx context) {
	for _, c := range n.children {
		inner := ctx
		if n == r.root {
			inner.layer = r.layer(c)
		}
		r.render(c, inner)
	}
}

// layer returns the layer that a child of the root makes, or nil.
func (r *reader) layer(n *node) *Layer {
	if n.name != "g" {
		return nil
	}
	l := &Layer{ID: n.attribute("id"), Shared: n.attribute("data-edges") == "shared", At: n.at}
	for _, a := range n.attrs {
		if a.Space != "" && a.Local == "label" {
			l.Label = a.Value
		}
	}
	for _, c := range n.children {
		if c.name == "title" {
			l.Title = strings.TrimSpace(string(c.text))
			break
		}
	}
	r.file.Layers = append(r.file.Layers, l)
	return l
}

// render draws an element and all in it.
func (r *reader) render(n *node, ctx context) {
	if n.name == "" || r.stopped {
		return
	}
	if r.visits--; r.visits < 0 {
		r.stop(n)
		return
	}
	kind := categories[n.name]
	switch kind {
	case unknown:
		r.add(findings.UnknownElement, n, "<%s> is not an element of SVG", markup.Shorten(n.name))
		return
	case never:
		r.active(n)
		return
	}
	if d, none := displayNone(n); none {
		r.hides(n, d)
		return
	}
	if !r.holds(n) {
		return
	}
	r.activeChildren(n)
	ctx.style = r.styleOf(n, ctx.style, r.rootFont)
	if kind == other {
		r.file.Others = append(r.file.Others, Other{n.name, n.attribute("id"), ctx.layer, n.at})
		return
	}
	r.transformed(n, ctx, func(ctx context) {
		switch {
		case kind == shape:
			r.shape(n, ctx)
		case n.name == "svg":
			r.nested(n, ctx, nil)
		case n.name == "use":
			r.use(n, ctx)
		case n.name == "switch":
			for _, c := range n.children {
				if categories[c.name] != never && c.name != "" && r.holds(c) {
					r.render(c, ctx)
					break
				}
			}
		default:
			r.children(n, ctx)
		}
	})
}

// displays are the words that display takes (CSS Display 3); another is void.
var displays = words(`none inline block contents inline-block list-item flow-root table inline-table flex inline-flex grid
	inline-grid ruby run-in math table-row table-cell table-column table-caption table-row-group table-header-group
	table-footer-group table-column-group inherit initial unset revert`)

// displayNone reports whether the display that counts is none.
func displayNone(n *node) (candidate, bool) {
	if len(n.styled) == 0 && n.find("display") == nil {
		return candidate{}, false
	}
	for _, c := range n.candidates("display") {
		if value := strings.ToLower(strings.TrimSpace(c.value)); displays[value] {
			return c, value == "none"
		}
	}
	return candidate{}, false
}

// stop ends the reading of a drawing that grows beyond all bounds.
func (r *reader) stop(n *node) {
	r.stopped = true
	r.add(findings.TooMuch, n, "the drawing has more than %d elements or %d segments, counting each use", mostVisits, mostSegments)
}

// active reports what can change the drawing after it was read.
func (r *reader) active(n *node) {
	switch n.name {
	case "script":
		r.add(findings.Script, n, "the file holds a script")
	case "set", "animate", "animateMotion", "animateTransform", "animateColor", "discard":
		r.add(findings.Animation, n, "<%s> changes the drawing in time", n.name)
	case "style":
		r.found.AddOnce(findings.StyleSheet, n.at, n.label(), "the file has a style sheet")
	case "defs":
		for _, c := range n.children {
			if c.name == "style" || c.name == "script" {
				r.active(c)
			}
		}
	}
}

// activeChildren looks for animations of a shape, which its rendering skips.
func (r *reader) activeChildren(n *node) {
	if categories[n.name] == shape || n.name == "use" {
		for _, c := range n.children {
			r.active(c)
		}
	}
}

// holds reports whether the conditions on an element are met (SVG 2 §5.6). A
// reader whose user reads English is assumed; that others may differ is
// reported.
func (r *reader) holds(n *node) bool {
	if a := n.find("requiredExtensions"); a != nil {
		return false
	}
	a := n.find("systemLanguage")
	if a == nil {
		return true
	}
	r.addAt(findings.Language, a.At, n, "systemLanguage is %s", quoted(a.Value))
	for _, tag := range strings.Split(a.Value, ",") {
		tag = strings.ToLower(strings.TrimSpace(tag))
		if tag == "en" || strings.HasPrefix(tag, "en-") {
			return true
		}
	}
	return false
}

// nested renders an svg or symbol in a viewport of its own (SVG 2 §8.8). A
// use that leads to it may give another width and height.
func (r *reader) nested(n *node, ctx context, use *node) {
	r.found.AddOnce(findings.Indirect, n.at, n.label(), "a viewport inside the drawing")
	x := r.attributeLength(n, "x", ctx, ctx.viewport.X, false)
	y := r.attributeLength(n, "y", ctx, ctx.viewport.Y, false)
	w := r.attributeLength(n, "width", ctx, ctx.viewport.X, true)
	h := r.attributeLength(n, "height", ctx, ctx.viewport.Y, true)
	if use != nil {
		if v := r.attributeLength(use, "width", ctx, ctx.viewport.X, true); v.given {
			w = v
		}
		if v := r.attributeLength(use, "height", ctx, ctx.viewport.Y, true); v.given {
			h = v
		}
	}
	if x.unknown || y.unknown || w.unknown || h.unknown {
		return
	}
	if !w.given {
		w.value = ctx.viewport.X
	}
	if !h.given {
		h.value = ctx.viewport.Y
	}
	if w.value == 0 || h.value == 0 {
		r.add(findings.DrawsNothing, n, "the viewport has no width or no height")
		return
	}
	outer := ctx.ctm
	box, ok := r.viewBoxOf(n)
	f := r.fitOf(n)
	switch {
	case ok && (box[2] == 0 || box[3] == 0):
		r.add(findings.ZeroViewBox, n, "the viewBox is %s x %s", number(box[2]), number(box[3]))
		return
	case ok:
		ctx.ctm = outer.then(f.onto(box, x.value, y.value, w.value, h.value))
		ctx.viewport = Point{box[2], box[3]}
	default:
		ctx.ctm = outer.then(translation(x.value, y.value))
		ctx.viewport = Point{w.value, h.value}
	}
	if o, ok := n.first("overflow"); !ok || o.value != "visible" && o.value != "auto" {
		ctx.window = windowOf(outer, x.value, y.value, w.value, h.value, ctx.window)
	}
	r.children(n, ctx)
}

// windowOf returns the box on the sheet that a viewport shows, within the
// one around it. A turned viewport gets the box around it, so what lies
// outside may be missed, but nothing inside is reported.
func windowOf(m matrix, x, y, w, h float64, around *Box) *Box {
	var b Box
	for _, p := range [4]Point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}} {
		b.add(m.point(p))
	}
	if around != nil {
		b.Min = Point{max(b.Min.X, around.Min.X), max(b.Min.Y, around.Min.Y)}
		b.Max = Point{min(b.Max.X, around.Max.X), min(b.Max.Y, around.Max.Y)}
	}
	return &b
}

// use renders what a use refers to (SVG 2 §5.5).
func (r *reader) use(n *node, ctx context) {
	r.found.AddOnce(findings.Indirect, n.at, n.label(), "a shape drawn through use")
	ref := n.href()
	if ref == nil || strings.TrimSpace(ref.Value) == "" {
		r.add(findings.UseMissing, n, "the use refers to nothing")
		return
	}
	id, inside := strings.CutPrefix(strings.TrimSpace(ref.Value), "#")
	if !inside {
		r.addAt(findings.UseOutside, ref.At, n, "the use refers to %s", quoted(ref.Value))
		return
	}
	target := r.ids[id]
	if target == nil {
		r.addAt(findings.UseMissing, ref.At, n, "there is no element with the id %s", quoted(id))
		return
	}
	for _, u := range append(ctx.uses, n) {
		if u == target || inTree(u, target) {
			r.addAt(findings.UseCycle, ref.At, n, "the use stands inside %s, which it refers to", quoted(id))
			return
		}
	}
	if len(ctx.uses) >= mostUses {
		r.add(findings.TooMuch, n, "uses of uses more than %d deep", mostUses)
		return
	}
	x := r.styledLength(n, "x", ctx, ctx.viewport.X)
	y := r.styledLength(n, "y", ctx, ctx.viewport.Y)
	if x.unknown || y.unknown {
		return
	}
	ctx.ctm = ctx.ctm.then(translation(x.value, y.value))
	ctx.uses = append(append([]*node{}, ctx.uses...), n)
	name := markup.Shorten(n.attribute("id"))
	if name == "" {
		name = "use"
	}
	if ctx.via != "" {
		name = ctx.via + "/" + name
	}
	ctx.via = name
	switch target.name {
	case "symbol":
		r.symbol(target, n, ctx)
	case "svg":
		if _, none := displayNone(target); none || !r.holds(target) {
			return
		}
		ctx.style = r.styleOf(target, ctx.style, r.rootFont)
		r.transformed(target, ctx, func(ctx context) { r.nested(target, ctx, n) })
	default:
		r.render(target, ctx)
	}
}

// inTree reports whether n stands inside ancestor.
func inTree(n, ancestor *node) bool {
	for up := n.parent; up != nil; up = up.parent {
		if up == ancestor {
			return true
		}
	}
	return false
}

func (r *reader) symbol(n, use *node, ctx context) {
	if r.visits--; r.visits < 0 {
		r.stop(n)
		return
	}
	if _, none := displayNone(n); none || !r.holds(n) {
		return
	}
	if a := n.find("refX"); a != nil || n.find("refY") != nil {
		r.add(findings.SymbolPoint, n, "the symbol has a reference point")
	}
	ctx.style = r.styleOf(n, ctx.style, r.rootFont)
	r.transformed(n, ctx, func(ctx context) { r.nested(n, ctx, use) })
}

// transform is how an element is transformed.
type transform struct {
	any    bool
	fixed  matrix // from the attribute
	list   []string
	ctx    lengthContext
	origin string // "" for none given
	onBox  bool   // the reference box is that of the element itself
	bad    bool
}

// transformOf collects what transforms an element.
func (r *reader) transformOf(n *node, ctx context) transform {
	t := transform{fixed: identity, ctx: r.lengths(ctx, 0)}
	if len(n.styled) == 0 && n.find("transform") == nil {
		return t
	}
	for _, c := range n.candidates("transform") {
		if c.css {
			c.value = noneInSmall(c.value)
			r.addAt(findings.StyledTransform, c.at, n, "a style transforms the element")
			if _, ok := parseCSSTransform(c.value, t.ctx, Box{filled: true}); !ok {
				r.addAt(findings.BadTransform, c.at, n, "transform: %s cannot be followed", quoted(c.value))
				t.bad = t.bad || notHere(c.value) || strings.Contains(c.value, "3d(") || strings.Contains(c.value, "perspective(")
				continue
			}
			t.any, t.list = true, []string{c.value}
			break
		}
		m, note, err := parseTransform(c.value)
		if err != nil {
			r.addAt(findings.BadTransform, c.inner.Place(err.at), n, "transform %s: %s", quoted(c.value), err)
			break
		}
		if note == spaceBeforeBracket {
			r.addAt(findings.TransformSpace, c.at, n, "transform %s", quoted(c.value))
		}
		t.any = strings.TrimSpace(c.value) != ""
		t.fixed = m
		break
	}
	r.singleTransforms(n, &t)
	if c, ok := n.first("transform-origin"); ok && t.any {
		t.origin = c.value
		r.addAt(findings.StyledTransform, c.at, n, "transform-origin %s", quoted(c.value))
	}
	if c, ok := n.first("transform-box"); ok && t.any {
		switch c.value {
		case "fill-box", "stroke-box", "content-box", "border-box":
			t.onBox = true
		}
		r.addAt(findings.StyledTransform, c.at, n, "transform-box %s", quoted(c.value))
	}
	return t
}

func noneInSmall(value string) string {
	if strings.EqualFold(value, "none") {
		return "none"
	}
	return value
}

// singleTransforms takes the properties translate, rotate and scale, which
// stand before transform in this order (css-transforms-2 §6).
func (r *reader) singleTransforms(n *node, t *transform) {
	var before []string
	for _, property := range [...]string{"translate", "rotate", "scale"} {
		c, ok := n.first(property)
		if !ok || !c.css || c.value == "none" {
			continue
		}
		r.addAt(findings.StyledTransform, c.at, n, "a style transforms the element with %s", property)
		value := property + "(" + strings.Join(strings.Fields(c.value), ",") + ")"
		if _, ok := parseCSSTransform(value, t.ctx, Box{filled: true}); ok {
			before, t.any = append(before, value), true
		}
	}
	t.list = append(before, t.list...)
	if _, ok := n.first("offset-path"); ok {
		t.bad = true
		r.add(findings.BadTransform, n, "offset-path is not followed here")
	}
}

// matrix returns the whole transform for a reference box; origin holds where
// none is given.
func (t transform) matrix(box Box, origin Point) (matrix, bool) {
	m := identity
	for _, one := range t.list {
		next, ok := parseCSSTransform(one, t.ctx, box)
		if !ok {
			return identity, false
		}
		m = m.then(next)
	}
	m = m.then(t.fixed)
	if t.origin != "" {
		var ok bool
		if origin, ok = parseOrigin(t.origin, t.ctx, box); !ok {
			return m, true
		}
	}
	return m.about(origin.X, origin.Y), true
}

// parseOrigin reads a transform-origin within a reference box
// (css-transforms-1 §8).
func parseOrigin(value string, ctx lengthContext, box Box) (Point, bool) {
	words := strings.Fields(strings.ToLower(value))
	if len(words) == 0 || len(words) > 3 {
		return Point{}, false
	}
	if len(words) > 1 && (words[0] == "top" || words[0] == "bottom" || words[1] == "left" || words[1] == "right") {
		words[0], words[1] = words[1], words[0]
	}
	if len(words) == 1 {
		if words[0] == "top" || words[0] == "bottom" {
			words = []string{"center", words[0]}
		} else {
			words = append(words, "center")
		}
	}
	var at [2]float64
	for i, side := range [2]float64{box.W(), box.H()} {
		switch words[i] {
		case "left", "top":
		case "right", "bottom":
			at[i] = side
		case "center":
			at[i] = side / 2
		default:
			l, err := parseLength(words[i])
			if err != nil {
				return Point{}, false
			}
			ctx.percent = side
			var problem lengthProblem
			if at[i], problem = l.resolve(ctx); problem != "" {
				return Point{}, false
			}
		}
	}
	return Point{box.Min.X + at[0], box.Min.Y + at[1]}, true
}

// transformed draws an element inside its transform. Where that refers to
// the element's own box, the element is drawn first and moved afterwards.
func (r *reader) transformed(n *node, ctx context, draw func(context)) {
	t := r.transformOf(n, ctx)
	if t.bad {
		return
	}
	if !t.onBox {
		if t.any {
			view := Box{Point{}, ctx.viewport, true}
			m, ok := t.matrix(view, Point{})
			if !ok {
				return
			}
			if m.singular() {
				r.add(findings.FlatTransform, n, "the transform flattens the element")
				return
			}
			ctx.ctm = ctx.ctm.then(m)
			if !ctx.ctm.finite() {
				r.add(findings.FarCoordinate, n, "the transform moves the element beyond all numbers")
				return
			}
		}
		draw(ctx)
		return
	}
	outer, first := ctx, len(r.file.Elements)
	ctx.ctm, ctx.window, ctx.unplaced = identity, nil, true
	draw(ctx)
	var box Box
	for _, e := range r.file.Elements[first:] {
		box.addBox(e.Bounds)
	}
	m, ok := t.matrix(box, Point{})
	if !ok || m.singular() {
		r.add(findings.FlatTransform, n, "the transform flattens the element")
		r.file.Elements = r.file.Elements[:first]
		return
	}
	kept := r.file.Elements[:first]
	for _, e := range r.file.Elements[first:] {
		e.Path.mapped(outer.ctm.then(m))
		e.Bounds = e.Path.Bounds()
		if outer.unplaced || r.place(&e, outer.window) {
			kept = append(kept, e)
		}
	}
	r.file.Elements = kept
}

// lengths is the context in which the lengths of an element are resolved.
func (r *reader) lengths(ctx context, percent float64) lengthContext {
	root := r.rootFont
	if root == 0 {
		root = ctx.style.fontSize
	}
	return lengthContext{percent: percent, fontSize: ctx.style.fontSize, rootFont: root}
}

// finiteBox reports whether all of a box is numbers.
func finiteBox(b Box) bool {
	sum := b.Min.X + b.Min.Y + b.Max.X + b.Max.Y
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

func label(tag, id string) string {
	if id == "" {
		return tag
	}
	return tag + "#" + markup.Shorten(id)
}
