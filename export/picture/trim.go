package picture

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"panelry/export/svg"
	"panelry/geometry"
	"panelry/geometry/trimming"
	"panelry/layouts"
	"panelry/layouts/papers"
)

// The look of pictures of straight cuts.
const (
	stepPanel   = 78 * geometry.Millimetre // the room for a part, each way
	stepAround  = 8 * geometry.Millimetre
	stepCaption = 9 * geometry.Millimetre
	stopColour  = "#0072b2" // Okabe and Ito's blue; the stop is also a thick bar
	wasteColour = "#e4e1da"
	partColour  = "#fbf6e9"
)

// TrimStep draws a step: on the left the part as it lies, with the stop and
// the line of the blade; on the right what has come off. The part lies right
// side up with its pattern upright; for the left hand it is turned half
// around, so that the stop is on the other side. It is a picture, not for a
// machine.
func TrimStep(plan layouts.TrimPlan, s layouts.TrimStep) ([]byte, error) {
	d := &stepDrawing{plan: plan, step: s, shown: s.Show(plan.Trimmer.Kerf), box: s.Shape.Bounds().Size()}
	size := geometry.Size{W: 2*stepPanel + 3*stepAround, H: stepPanel + 2*stepAround + stepCaption}
	var b bytes.Buffer
	c := svg.NewCanvas(&b, size, attr("font-family", fontFamily))
	c.Title(fmt.Sprintf("Step %d", s.Number))
	c.Desc(s.Text)
	c.Path(svg.PathData(geometry.RectFromSize(geometry.Point{}, size).Outline().Outer), attr("fill", groundColour))
	d.c = c
	d.before(geometry.Vector{X: stepAround, Y: stepAround})
	d.after(geometry.Vector{X: 2*stepAround + stepPanel, Y: stepAround})
	y := stepAround + stepPanel + stepCaption
	d.caption(geometry.Point{X: stepAround, Y: y}, d.doing())
	d.caption(geometry.Point{X: 2*stepAround + stepPanel, Y: y}, "what comes off")
	err := c.End()
	return b.Bytes(), err
}

type stepDrawing struct {
	c     *svg.Canvas
	plan  layouts.TrimPlan
	step  layouts.TrimStep
	shown trimming.Shown
	box   geometry.Size
}

// doing is the caption of the left picture.
func (d *stepDrawing) doing() string {
	s := d.step
	part := partName(s.Part)
	if n := s.Parts(); n > 1 {
		part = fmt.Sprintf("%s, %d of them", part, n)
	}
	return fmt.Sprintf("%d. %s", s.Number, part)
}

func (d *stepDrawing) caption(at geometry.Point, text string) {
	d.c.Text(at, text, attr("font-size", "4"), attr("fill", textColour))
}

// view takes points of the part to the picture: scaled into the room, and
// turned half around for the left hand.
type view struct {
	scale float64
	box   geometry.Rect
	at    geometry.Vector
	turn  bool
}

func viewOf(box geometry.Rect, room geometry.Length, at geometry.Vector, turn bool) view {
	scale := math.Min(float64(room)/float64(max(box.W(), 1)), float64(room)/float64(max(box.H(), 1)))
	scale = math.Min(scale, 1.5)
	v := view{scale: scale, box: box, turn: turn}
	v.at = at.Add(geometry.Vector{X: geometry.Length(float64(room)-float64(box.W())*scale) / 2, Y: geometry.Length(float64(room)-float64(box.H())*scale) / 2})
	return v
}

func (v view) point(p geometry.Point) geometry.Point {
	x, y := float64(p.X-v.box.Min.X), float64(p.Y-v.box.Min.Y)
	if v.turn {
		x, y = float64(v.box.W())-x, float64(v.box.H())-y
	}
	return geometry.Point{X: geometry.Length(x * v.scale), Y: geometry.Length(y * v.scale)}.Add(v.at)
}

func (v view) outline(o geometry.Outline) geometry.Outline { return o.Mapped(v.point) }

// before draws the part, the stop and the blade.
func (d *stepDrawing) before(at geometry.Vector) {
	v := viewOf(geometry.RectFromSize(geometry.Point{}, d.box), stepPanel-8*geometry.Millimetre, at.Add(geometry.Vector{X: 4 * geometry.Millimetre, Y: 4 * geometry.Millimetre}), d.plan.Trimmer.LeftHanded)
	d.c.Path(svg.PathData(v.outline(d.step.Shape).Outer), attr("fill", partColour), attr("stroke", lineColour), attr("stroke-width", "0.4"))
	d.pattern(v)
	if d.step.Stop > 0 {
		edge := d.stopEdge()
		d.line(v, edge, 2*geometry.Millimetre, -1.2, attr("stroke", stopColour), attr("stroke-width", "2"))
	}
	look := []svg.Attribute{attr("stroke", "#000000"), attr("stroke-width", "0.5"), attr("stroke-dasharray", "3 1.5")}
	if d.step.Work == trimming.Score {
		look = []svg.Attribute{attr("stroke", "#000000"), attr("stroke-width", "0.5"), attr("stroke-dasharray", "0.6 1.2")}
	}
	for i, blade := range d.shown.Blades {
		if i == mostBlades {
			break
		}
		d.line(v, blade, 4*geometry.Millimetre, 0, look...)
	}
	d.measure(v)
}

// mostBlades is how many cuts of a step are drawn.
const mostBlades = 40

// stopEdge is the edge of the part that lies against the stop, walked so that
// the part is on the right hand.
func (d *stepDrawing) stopEdge() geometry.Line {
	switch {
	case d.step.Work == trimming.SlantStrips:
		return d.step.Line
	case d.step.Upright:
		return geometry.Line{A: geometry.Point{Y: d.box.H}, B: geometry.Point{}}
	}
	return geometry.Line{A: geometry.Point{}, B: geometry.Point{X: d.box.W}}
}

// line draws a line of the part, longer by so much at either end, and moved
// to its right hand by so many mm of the picture.
func (d *stepDrawing) line(v view, l geometry.Line, longer geometry.Length, aside float64, look ...svg.Attribute) {
	a, b := v.point(l.A), v.point(l.B)
	w := b.Sub(a)
	n := w.Len()
	if n == 0 {
		return
	}
	ux, uy := float64(w.X)/n, float64(w.Y)/n
	along := func(p geometry.Point, by float64) geometry.Point {
		off := aside * float64(geometry.Millimetre)
		return geometry.Point{X: p.X + geometry.Length(ux*by-uy*off), Y: p.Y + geometry.Length(uy*by+ux*off)}
	}
	path := geometry.PathFromPoints(along(a, -float64(longer)), along(b, float64(longer)))
	d.c.Path(svg.OpenPathData(path), append([]svg.Attribute{attr("fill", "none")}, look...)...)
}

// measure writes how far the blade is from the stop.
func (d *stepDrawing) measure(v view) {
	if d.step.Stop == 0 {
		return
	}
	edge, blade := d.stopEdge(), d.shown.Blades[0]
	middle := func(l geometry.Line) geometry.Point {
		a, b := v.point(l.A), v.point(l.B)
		return geometry.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
	}
	a, b := middle(edge), middle(blade)
	at := geometry.Point{X: (a.X + b.X) / 2, Y: (a.Y+b.Y)/2 + 1200*geometry.Micrometre}
	d.text(at, d.step.Stop.Format(d.plan.Units), 3.4)
}

// text writes centred text with the ground behind it.
func (d *stepDrawing) text(at geometry.Point, text string, size float64) {
	w := geometry.Length(0.6 * size * float64(len([]rune(text))) * float64(geometry.Millimetre))
	h := geometry.Length(size * 1.2 * float64(geometry.Millimetre))
	box := geometry.RectFromSize(geometry.Point{X: at.X - w/2, Y: at.Y - h*3/4}, geometry.Size{W: w, H: h})
	d.c.Path(svg.PathData(box.Outline().Outer), attr("fill", groundColour), attr("fill-opacity", "0.85"))
	d.c.Text(at, text, attr("font-size", number(size)), attr("text-anchor", "middle"), attr("fill", textColour))
}

// pattern draws an arrow that points where the pattern's top is, for papers
// that have one.
func (d *stepDrawing) pattern(v view) {
	up := map[float64]bool{}
	for _, share := range d.step.Of {
		if p := d.plan.Stocks[share.Stock].Paper; p.Pattern == papers.OneWay || p.Pattern == papers.TwoWay {
			up[p.PatternUp] = true
		}
	}
	if len(up) != 1 { // papers whose patterns run otherwise are cut together here
		return
	}
	for degrees := range up {
		if v.turn {
			degrees += 180
		}
		d.c.Group(attr("fill", "#bfb8a6"))
		drawArrow(d.c, v.point(d.step.Shape.Centre()), 9, degrees)
		d.c.EndGroup()
	}
}

// after draws what came off, pulled apart, with names.
func (d *stepDrawing) after(at geometry.Vector) {
	type piece struct {
		outline geometry.Outline
		fall    trimming.Fall
	}
	var list []piece
	each := d.step.Each()
	gap := float64(max(d.box.W, d.box.H)) * 0.06
	for i, o := range d.shown.Off {
		push := gap * float64(len(d.shown.Off)-i)
		list = append(list, piece{o.Moved(d.away(push)), each[i]})
	}
	if len(d.shown.Rest.Outer) > 0 {
		list = append(list, piece{d.shown.Rest, d.step.Rest})
	}
	if len(list) == 0 {
		return
	}
	box := list[0].outline.Bounds()
	for _, p := range list {
		b := p.outline.Bounds()
		box.Min.X, box.Min.Y = min(box.Min.X, b.Min.X), min(box.Min.Y, b.Min.Y)
		box.Max.X, box.Max.Y = max(box.Max.X, b.Max.X), max(box.Max.Y, b.Max.Y)
	}
	v := viewOf(box, stepPanel, at, d.plan.Trimmer.LeftHanded)
	for _, p := range list {
		fill := partColour
		if p.fall.Offcut() {
			fill = wasteColour
		} else if p.fall.Piece >= 0 {
			fill = pieceColour
		}
		o := v.outline(p.outline)
		d.c.Path(svg.PathData(o.Outer), attr("fill", fill), attr("stroke", "#000000"), attr("stroke-width", "0.35"))
		if d.step.Work == trimming.Score {
			d.line(v, d.shown.Blades[0], 0, 0, attr("stroke", "#000000"), attr("stroke-width", "0.4"), attr("stroke-dasharray", "4 1.5"))
		}
		name := d.name(p.fall)
		box := o.Bounds()
		size := math.Min(3.4, math.Min(0.5*min(box.W(), box.H()).In(geometry.Millimetres), 1.5*box.W().In(geometry.Millimetres)/float64(len(name)+1)))
		if name == "" || size < 1 {
			continue
		}
		middle := o.Centre()
		middle.Y += geometry.Length(size * 0.35 * float64(geometry.Millimetre))
		d.c.Text(middle, name, attr("font-size", number(math.Round(size*100)/100)), attr("text-anchor", "middle"), attr("fill", textColour))
	}
}

// away is the way in which what falls off is pulled.
func (d *stepDrawing) away(by float64) geometry.Vector {
	l := d.shown.Blades[0]
	v := l.B.Sub(l.A)
	return geometry.Vector{X: geometry.Length(float64(v.Y) / v.Len() * by), Y: geometry.Length(-float64(v.X) / v.Len() * by)}
}

// name is what a part that came off is called: for pieces of several papers
// only that it is a piece.
func (d *stepDrawing) name(f trimming.Fall) string {
	switch {
	case f.Offcut():
		return "offcut"
	case f.Name == d.step.Part:
		return partName(f.Name)
	case f.Piece >= 0:
		g := d.plan.Stocks[d.step.Of[0].Stock].Give(f.Piece)
		if len(d.step.Of) > 1 {
			return "piece"
		}
		if len(g.Places) == 1 {
			return g.Places[0]
		}
		return g.Kind
	}
	return partName(f.Name)
}

// partName is what a part is called under a picture.
func partName(part string) string {
	switch {
	case strings.HasPrefix(part, "block") && strings.HasSuffix(part, "pair"):
		return "pair"
	case strings.HasPrefix(part, "block"):
		return "block"
	case strings.ContainsAny(part, "0123456789"):
		return "strip " + part
	}
	return "sheet " + part
}

// TrimSheet draws a sheet with its straight cuts: the blocks and pieces that
// come off, named, and offcuts grey. It is a picture, not for a machine.
func TrimSheet(plan layouts.TrimPlan, lot trimming.Lot) ([]byte, error) {
	sheet := lot.Sheet.Size
	size := geometry.Size{W: max(sheet.W, 120*geometry.Millimetre) + 2*mapAround, H: sheet.H + 2*mapAround + captionLine}
	var b bytes.Buffer
	c := svg.NewCanvas(&b, size, attr("font-family", fontFamily))
	c.Title(fmt.Sprintf("Sheet %s: straight cuts", lot.Name))
	c.Path(svg.PathData(geometry.RectFromSize(geometry.Point{}, size).Outline().Outer), attr("fill", groundColour))
	at := geometry.Vector{X: mapAround, Y: mapAround}
	c.Path(svg.PathData(geometry.RectFromSize(geometry.Point{}, sheet).Outline().Moved(at).Outer), attr("fill", wasteColour), attr("stroke", lineColour), attr("stroke-width", "0.4"))
	tree := at
	if clean := lot.Sheet.Clean; clean.Upright {
		tree.X += clean.At + plan.Trimmer.Kerf
	} else if clean.At > 0 {
		tree.Y += clean.At + plan.Trimmer.Kerf
	}
	for _, leaf := range lot.Sheet.Tree.Leaves() {
		if leaf.Piece < 0 {
			continue
		}
		box := leaf.Box.Moved(tree)
		c.Path(svg.PathData(box.Outline().Outer), attr("fill", pieceColour), attr("stroke", "#000000"), attr("stroke-width", "0.3"))
		name := box.Size().Format(plan.Units)
		high := math.Min(3.4, 0.25*min(box.W(), box.H()).In(geometry.Millimetres))
		high = math.Min(high, 1.5*box.W().In(geometry.Millimetres)/float64(len(name)))
		middle := box.Centre()
		middle.Y += geometry.Length(high * 0.35 * float64(geometry.Millimetre))
		c.Text(middle, name, attr("font-size", number(math.Round(high*100)/100)), attr("text-anchor", "middle"), attr("fill", textColour))
	}
	var of []string
	for _, share := range lot.Of {
		name := plan.Stocks[share.Stock].Name
		if name == "" {
			name = "alike"
		}
		of = append(of, fmt.Sprintf("%d %s", share.Count, name))
	}
	text := fmt.Sprintf("Sheet %s, %s: %s", lot.Name, sheet.Format(plan.Units), strings.Join(of, ", "))
	c.Text(geometry.Point{X: mapAround, Y: size.H - mapAround/2}, text, attr("font-size", number(captionFit(text, size.W))), attr("fill", textColour))
	err := c.End()
	return b.Bytes(), err
}
