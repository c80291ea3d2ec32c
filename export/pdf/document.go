package pdf

import (
	"bytes"
	"fmt"
	"strings"
	"time"
	"unicode"

	"codeberg.org/go-pdf/fpdf"

	"panelry/geometry"
)

// Pages, in millimetres. Home printers leave 3 to 6 mm unprinted (common
// practice, no source), so nothing is nearer to the edge than around.
const (
	around      = 10.0
	footer      = 34.0
	titleType   = 5.0
	headingType = 4.2
	noteType    = 3.2
	lineFeed    = 1.35
)

// document is a PDF under way.
type document struct {
	pdf     *fpdf.Fpdf
	letters *letters
	page    geometry.Size // upright
	title   string
	layers  map[step]int
	boxes   []string // of each page: /BleedBox and /TrimBox
}

func newDocument(title string, page geometry.Size) (*document, error) {
	l, err := newLetters()
	if err != nil {
		return nil, err
	}
	p := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: in(page.W), Ht: in(page.H)}})
	d := &document{pdf: p, letters: l, page: page, title: l.fit(title), layers: map[step]int{}}
	fixed := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC) // same design, same bytes
	p.SetCreationDate(fixed)
	p.SetModificationDate(fixed)
	p.SetCatalogSort(true)
	p.SetProducer("Panelry", true)
	p.SetTitle(strings.ToValidUTF8(title, "�"), true)
	p.SetLang("en")
	p.SetMargins(0, 0, 0)
	p.SetAutoPageBreak(false, 0)
	for _, style := range []string{"", "B"} {
		p.AddUTF8FontFromBytes(family, style, faces[style])
	}
	for _, s := range allSteps {
		d.layers[s] = p.AddLayer(looks[s].name, true)
	}
	return d, p.Error()
}

// finish returns the bytes of the file.
func (d *document) finish() ([]byte, error) {
	var b bytes.Buffer
	if err := d.pdf.Output(&b); err != nil {
		return nil, fmt.Errorf("cannot write the PDF: %w", err)
	}
	var steps []string
	for _, s := range allSteps {
		steps = append(steps, metadata(looks[s]))
	}
	return amend(b.Bytes(), steps, d.boxes)
}

// metadata is what ISO 19593-1 puts into the dictionary of a step's optional
// content group; nothing for what is no step.
func metadata(l look) string {
	switch {
	case l.group == "":
		return ""
	case l.typ == "":
		return fmt.Sprintf("/GTS_Metadata <</GTS_ProcStepsGroup /%s>>", l.group)
	}
	return fmt.Sprintf("/GTS_Metadata <</GTS_ProcStepsGroup /%s /GTS_ProcStepsType /%s>>", l.group, l.typ)
}

// leaf is a page: its size as it lies and the window left for drawings.
type leaf struct {
	w, h        float64
	left, top   float64
	roomW, room float64
}

// leaf measures a page under a heading with so many lines of notes.
func (d *document) leaf(wide bool, notes []string) leaf {
	size := d.page
	if wide {
		size = size.Turned()
	}
	l := leaf{w: in(size.W), h: in(size.H), left: around, top: around + 12}
	l.roomW = l.w - 2*around
	for _, n := range notes {
		l.top += noteType * lineFeed * float64(len(d.wrap(n, noteType, "", l.roomW)))
	}
	l.top += 2
	l.room = l.h - around - footer - l.top
	return l
}

// open begins a page with its heading, notes and footer.
func (d *document) open(l leaf, heading string, notes []string) {
	d.pdf.AddPageFormat("P", fpdf.SizeType{Wd: l.w, Ht: l.h})
	d.boxes = append(d.boxes, "")
	d.pdf.Bookmark(heading, 0, 0)
	y := around + titleType*0.8
	d.text(around, y, titleType, "B", start, d.cutShort(heading, titleType, "B", l.roomW*0.62))
	d.text(l.w-around, y, noteType, "", end, d.cutShort(d.title, noteType, "", l.roomW*0.36))
	y += 3
	for _, n := range notes {
		for _, line := range d.wrap(n, noteType, "", l.roomW) {
			y += noteType * lineFeed
			d.text(around, y, noteType, "", start, line)
		}
	}
	d.foot(l)
}

// text writes one line, its baseline at y.
func (d *document) text(x, y, size float64, style string, a align, text string) {
	text = d.letters.fit(text)
	d.pdf.SetFont(family, style, 10)
	d.pdf.SetFontUnitSize(size)
	switch width := d.pdf.GetStringWidth(text); a {
	case middle:
		x -= width / 2
	case end:
		x -= width
	}
	d.pdf.Text(x, y, text)
}

func (d *document) width(text string, size float64, style string) float64 {
	d.pdf.SetFont(family, style, 10)
	d.pdf.SetFontUnitSize(size)
	return d.pdf.GetStringWidth(text)
}

// breaks is where a line may be broken: at spaces, but not at those that hold
// a number and its fraction together.
func breaks(r rune) bool { return unicode.IsSpace(r) && r != '\u00a0' }

// wrap breaks a text into lines that fit.
func (d *document) wrap(text string, size float64, style string, room float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(text, breaks) {
		word = d.cutShort(word, size, style, room)
		if line != "" && d.width(line+" "+word, size, style) > room {
			lines = append(lines, line)
			line = ""
		}
		line = strings.TrimSpace(line + " " + word)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// cutShort ends a text that is too wide with an ellipsis.
func (d *document) cutShort(text string, size float64, style string, room float64) string {
	text = d.letters.fit(text)
	if d.width(text, size, style) <= room {
		return text
	}
	runes := []rune(text)
	for len(runes) > 1 && d.width(string(runes)+"…", size, style) > room {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "…"
}

// pen sets a step's look.
func (d *document) pen(s step) {
	l := looks[s]
	d.pdf.SetDrawColor(l.grey, l.grey, l.grey)
	d.pdf.SetTextColor(0, 0, 0)
	d.pdf.SetLineWidth(max(l.width, 0.1))
	d.pdf.SetLineCapStyle("butt")
	d.pdf.SetDashPattern(l.dash, 0)
}

// draw puts a scene on the page: the scene's place from goes to left, top;
// nothing outside the window is drawn.
func (d *document) draw(s scene, window geometry.Rect, left, top float64) {
	dx, dy := left-in(window.Min.X), top-in(window.Min.Y)
	for _, st := range allSteps {
		began := false
		for _, it := range s.items {
			if it.step != st || !it.reaches(window) {
				continue
			}
			if !began {
				began = true
				d.pdf.BeginLayer(d.layers[st])
				d.pdf.ClipRect(left, top, in(window.W()), in(window.H()), false)
				d.pen(st)
			}
			d.item(it, dx, dy)
		}
		if began {
			d.pdf.ClipEnd()
			d.pdf.EndLayer()
		}
	}
	d.pdf.SetDashPattern(nil, 0)
}

// reaches reports whether any of an item may show in a window.
func (it item) reaches(w geometry.Rect) bool {
	reach := w
	room := mm(2)
	if it.text != "" {
		room = mm(it.type_ * float64(len([]rune(it.text))))
	}
	box := geometry.Rect{Min: it.at, Max: it.at}
	switch {
	case len(it.rings) > 0:
		box = geometry.Outline{Outer: it.rings[0]}.Bounds()
	case it.path != nil:
		points := it.path.Points()
		box = geometry.Rect{Min: points[0], Max: points[0]}
		for _, p := range points {
			box.Min.X, box.Min.Y = min(box.Min.X, p.X), min(box.Min.Y, p.Y)
			box.Max.X, box.Max.Y = max(box.Max.X, p.X), max(box.Max.Y, p.Y)
		}
	}
	return box.Min.X <= reach.Max.X+room && box.Max.X >= reach.Min.X-room &&
		box.Min.Y <= reach.Max.Y+room && box.Max.Y >= reach.Min.Y-room
}

func (d *document) item(it item, dx, dy float64) {
	x := func(p geometry.Point) (float64, float64) { return in(p.X) + dx, in(p.Y) + dy }
	switch {
	case it.text != "":
		px, py := x(it.at)
		if it.turn != 0 {
			d.pdf.TransformBegin()
			d.pdf.TransformRotate(it.turn, px, py)
			defer d.pdf.TransformEnd()
		}
		d.text(px, py, it.type_, "", it.align, it.text)
	case it.path != nil:
		d.pdf.MoveTo(x(it.path.From))
		d.segments(it.path.Then, dx, dy)
		d.pdf.DrawPath("D")
	default:
		for _, r := range it.rings {
			d.pdf.MoveTo(x(r.Start()))
			d.segments(r, dx, dy)
			d.pdf.ClosePath()
		}
		switch {
		case it.fill != "":
			var r, g, b int
			fmt.Sscanf(it.fill, "#%02x%02x%02x", &r, &g, &b)
			d.pdf.SetFillColor(r, g, b)
			d.pdf.DrawPath("F")
		case it.solid:
			d.pdf.SetFillColor(0, 0, 0)
			d.pdf.DrawPath("F")
		default:
			d.pdf.DrawPath("D")
		}
	}
}

func (d *document) segments(list []geometry.Segment, dx, dy float64) {
	for _, s := range list {
		if s.Curved {
			d.pdf.CurveBezierCubicTo(in(s.C1.X)+dx, in(s.C1.Y)+dy, in(s.C2.X)+dx, in(s.C2.Y)+dy, in(s.To.X)+dx, in(s.To.Y)+dy)
			continue
		}
		d.pdf.LineTo(in(s.To.X)+dx, in(s.To.Y)+dy)
	}
}

// box names a page's finished size, in millimetres from its top left, and
// the bleed around it (ISO 32000-1 §14.11.2: points from the bottom left).
func (d *document) box(l leaf, left, top, w, h, bleed float64) {
	pt := func(v float64) string { return fmt.Sprintf("%.4f", v*72/25.4) }
	rect := func(by float64) string {
		return fmt.Sprintf("[%s %s %s %s]", pt(left-by), pt(l.h-top-h-by), pt(left+w+by), pt(l.h-top+by))
	}
	d.boxes[len(d.boxes)-1] = "/BleedBox " + rect(bleed) + " /TrimBox " + rect(0)
}
