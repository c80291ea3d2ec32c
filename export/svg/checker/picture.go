package checker

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"

	"panelry/export/svg"
	"panelry/export/svg/findings"
	"panelry/export/svg/reader"
	"panelry/geometry"
)

// The look of the picture. Each severity has a shape and a number besides
// its colour (Okabe and Ito's vermilion, orange and sky blue), so that
// nothing rests on colour alone.
const (
	around     = 8.0 // mm about the sheet
	lineHeight = 5.0
	textSize   = 3.2
	letters    = 0.56 // of the text's size, the width of a letter
)

var severityColours = map[findings.Severity]string{findings.Error: "#D55E00", findings.Warning: "#E69F00", findings.Note: "#56B4E9"}

// mostDrawn is the distance in mm up to which anything is drawn: a sheet or a
// shape of 100 m is told about in words.
const mostDrawn = 100_000

// mostMarked is how many findings the picture numbers.
const mostMarked = 60

// Picture draws the outlines of a file with its findings numbered over them
// and written out below. It is a picture, not for cutting. A file without a
// true size gets the list alone.
func Picture(name string, r Report) ([]byte, error) {
	w, h := 120.0, 0.0
	var box reader.Box
	drawn := r.Sized && max(r.W, r.H) <= mostDrawn
	if drawn {
		box = reader.BoxOf([]reader.Point{{}, {X: r.W, Y: r.H}})
		for _, e := range r.Elements {
			if drawable(e.Bounds) {
				box = reader.BoxOf([]reader.Point{box.Min, box.Max, e.Bounds.Min, e.Bounds.Max})
			}
		}
		// What lies far out is not worth a picture of that size.
		const far = 500
		box.Min = reader.Point{X: max(box.Min.X, -far), Y: max(box.Min.Y, -far)}
		box.Max = reader.Point{X: min(box.Max.X, r.W+far), Y: min(box.Max.Y, r.H+far)}
		w, h = max(w, box.W()), box.H()
	}
	list := r.marked()
	lines := captionLines(name, r, list, int(w/(letters*textSize)))
	size := geometry.Size{W: length(w + 2*around), H: length(h + 2*around + lineHeight*float64(len(lines)+1))}
	var b bytes.Buffer
	c := svg.NewCanvas(&b, size, svg.Attribute{Name: "font-family", Value: "sans-serif"})
	c.Title("Findings in " + name)
	c.Empty("rect", attrs("width", size.W.MM(), "height", size.H.MM(), "fill", "#ffffff")...)
	if drawn {
		p := pen{c, around - box.Min.X, around - box.Min.Y}
		p.sheet(r)
		p.elements(r)
		for i, f := range list {
			p.mark(i+1, f)
		}
	}
	for i, line := range lines {
		c.Text(geometry.Point{X: length(around), Y: length(h + 2*around + lineHeight*float64(i+1))}, line.text,
			attrs("font-size", decimal(textSize), "fill", "#22201c", "font-weight", line.weight)...)
	}
	err := c.End()
	return b.Bytes(), err
}

// drawable leaves out what reaches far beyond any sheet.
func drawable(b reader.Box) bool {
	return max(-b.Min.X, -b.Min.Y, b.Max.X, b.Max.Y) <= mostDrawn
}

// marked returns the findings that get a number: errors first.
func (r Report) marked() []findings.Finding {
	var list []findings.Finding
	for s := findings.Error; s >= findings.Note; s-- {
		for _, f := range r.Findings {
			if f.Rule.Severity == s && len(list) < mostMarked {
				list = append(list, f)
			}
		}
	}
	return list
}

type captionLine struct{ text, weight string }

func captionLines(name string, r Report, list []findings.Finding, columns int) []captionLine {
	lines := []captionLine{{name + ": " + r.Summary(), "bold"}}
	switch {
	case r.Sized && len(r.Elements) > 0 && max(r.W, r.H) <= mostDrawn:
		lines = append(lines, captionLine{"Cuts are drawn black, scores dashed, print thin.", "normal"})
	case !r.Sized:
		lines = append(lines, captionLine{"The file has no true size, so nothing is drawn here.", "normal"})
	case max(r.W, r.H) > mostDrawn:
		lines = append(lines, captionLine{"The sheet is too large to be drawn here.", "normal"})
	}
	for i, f := range list {
		place := ""
		if f.Line > 0 {
			place = fmt.Sprintf("line %d: ", f.Line)
		}
		element := ""
		if f.Element != "" {
			element = f.Element + ": "
		}
		text := fmt.Sprintf("%d  %s, %s%s%s", i+1, f.Rule.Severity, place, element, f.Message)
		for j, part := range wrap(text, columns) {
			if j > 0 {
				part = "     " + part
			}
			lines = append(lines, captionLine{part, "normal"})
		}
	}
	if more := len(r.Findings) - len(list); more > 0 {
		lines = append(lines, captionLine{fmt.Sprintf("and %d more", more), "normal"})
	}
	return lines
}

// wrap breaks a text between words into lines of so many characters.
func wrap(text string, columns int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len(line)+1+len(word) > columns {
			lines = append(lines, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}

// Summary says in a few words what the report comes to.
func (r Report) Summary() string {
	errors, warnings := r.Count(findings.Error), r.Count(findings.Warning)
	text := "no true size"
	if r.Sized {
		text = mm(r.W) + " x " + mm(r.H) + " mm"
	}
	switch {
	case errors > 0 && warnings > 0:
		return text + ", " + counted(errors, "error") + " and " + counted(warnings, "warning")
	case errors > 0:
		return text + ", " + counted(errors, "error")
	case warnings > 0:
		return text + ", no errors, " + counted(warnings, "warning")
	}
	return text + ", nothing wrong"
}

// pen draws on the canvas, moved so that the sheet has room around it.
type pen struct {
	*svg.Canvas
	dx, dy float64
}

func (p pen) sheet(r Report) {
	p.Empty("rect", attrs("x", decimal(p.dx), "y", decimal(p.dy), "width", decimal(r.W), "height", decimal(r.H),
		"fill", "#f6f4ef", "stroke", "#8a857b", "stroke-width", "0.3")...)
}

// elements draws each outline by its step: cuts solid, scores dashed, print
// thin.
func (p pen) elements(r Report) {
	looks := map[Step][]string{
		Cut:   {"stroke", svg.CutStroke, "stroke-width", "0.25"},
		Score: {"stroke", svg.ScoreStroke, "stroke-width", "0.25", "stroke-dasharray", "2 1"},
		Print: {"stroke", svg.PrintStroke, "stroke-width", "0.1"},
	}
	for _, s := range []Step{Print, Score, Cut} {
		p.Group(attrs(append([]string{"fill", "none"}, looks[s]...)...)...)
		for _, e := range r.Elements {
			if e.Step != s || !drawable(e.Bounds) {
				continue
			}
			if d := p.data(e); d != "" {
				p.Path(d)
			}
		}
		p.EndGroup()
	}
}

func (p pen) data(e Element) string {
	var d strings.Builder
	for _, r := range e.rings {
		for i, q := range r.points {
			d.WriteString([2]string{"L ", "M "}[boolean(i == 0)])
			d.WriteString(decimal(q.X+p.dx) + " " + decimal(q.Y+p.dy) + " ")
		}
		if r.closed() {
			d.WriteString("Z ")
		}
	}
	return strings.TrimSpace(d.String())
}

func boolean(b bool) int {
	if b {
		return 1
	}
	return 0
}

// mark draws a finding's number at its place: a box around all of it, a ring
// at a point.
func (p pen) mark(n int, f findings.Finding) {
	if f.Spot == nil || max(math.Abs(f.Spot.X), math.Abs(f.Spot.Y), f.Spot.W, f.Spot.H) > mostDrawn {
		return
	}
	colour := severityColours[f.Rule.Severity]
	x, y := f.Spot.X+p.dx, f.Spot.Y+p.dy
	if f.Spot.W > 0 || f.Spot.H > 0 {
		p.Empty("rect", attrs("x", decimal(x-0.6), "y", decimal(y-0.6), "width", decimal(f.Spot.W+1.2), "height", decimal(f.Spot.H+1.2),
			"fill", "none", "stroke", colour, "stroke-width", "0.5")...)
	} else {
		p.Empty("circle", attrs("cx", decimal(x), "cy", decimal(y), "r", "1.6", "fill", "none", "stroke", colour, "stroke-width", "0.5")...)
	}
	label := strconv.Itoa(n)
	p.Empty("rect", attrs("x", decimal(x+1.2), "y", decimal(y-4.6), "width", decimal(1.2+2*float64(len(label))), "height", "4",
		"rx", "0.8", "fill", "#ffffff", "stroke", colour, "stroke-width", "0.4")...)
	p.Text(geometry.Point{X: length(x + 1.8), Y: length(y - 1.5)}, label, attrs("font-size", "3.2", "fill", "#22201c")...)
}

func attrs(pairs ...string) []svg.Attribute {
	list := make([]svg.Attribute, 0, len(pairs)/2)
	for i := 0; i < len(pairs); i += 2 {
		list = append(list, svg.Attribute{Name: pairs[i], Value: pairs[i+1]})
	}
	return list
}

// decimal writes a number of the picture, to the micrometre.
func decimal(f float64) string { return mm(f) }

func length(f float64) geometry.Length {
	return geometry.Length(math.Round(f * float64(geometry.Millimetre)))
}
