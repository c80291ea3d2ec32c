package checker

import (
	"fmt"
	"math"
	"strings"

	"panelry/export/svg/findings"
	"panelry/export/svg/reader"
)

// Demands is what a file is held against besides the rules; zero values ask
// for nothing. Lengths are in mm.
type Demands struct {
	SheetW, SheetH float64 // the sheet at hand, either way round
	Edge           float64 // to be left free along each side
	Spacing        float64 // between pieces
}

// A Report is what Check finds.
type Report struct {
	W, H     float64 // of the sheet, in mm; only where Sized
	Sized    bool
	Elements []Element
	Layers   []*reader.Layer
	Findings []findings.Finding // by place in the file
}

// OK reports whether there is no error among the findings.
func (r Report) OK() bool { return r.Count(findings.Error) == 0 }

// Count returns how many findings have a severity.
func (r Report) Count(severity findings.Severity) int {
	n := 0
	for _, f := range r.Findings {
		if f.Rule.Severity == severity {
			n++
		}
	}
	return n
}

// A Step is what a machine does with an element, by the layer it is in.
type Step string

const (
	Cut   Step = "cut"
	Score Step = "score"
	Print Step = "print"
)

// A Closing says how an outline ends.
type Closing string

const (
	ByZ      Closing = "z"        // every sub-path with closepath
	Touching Closing = "touching" // some end on their start without it
	Open     Closing = "open"     // some do not return
)

// An Element is one drawn shape with what was worked out of it.
type Element struct {
	reader.Element
	Step    Step
	Closing Closing
	Length  float64 // mm
	Area    float64 // mm², holes taken off; only where Closing is not Open and HasArea
	HasArea bool
	rings   []ring
}

// step returns what an element is for, and whether its layer says so: by the
// first word of its id, of a label that a drawing program gave it, or of its
// title.
func step(l *reader.Layer) (Step, bool) {
	if l == nil {
		return Cut, false
	}
	for _, name := range []string{l.ID, l.Label, l.Title} {
		words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r < 'a' || r > 'z' })
		if len(words) == 0 {
			continue
		}
		switch words[0] {
		case "cut", "cuts", "cutting":
			return Cut, true
		case "score", "scores", "scoring":
			return Score, true
		case "print", "prints", "printing":
			return Print, true
		}
	}
	return Cut, false
}

// Check reads an SVG file and judges it.
func Check(data []byte, d Demands) Report {
	c := &checker{demands: d}
	c.file = reader.Read(data, &c.found)
	r := Report{W: c.file.W, H: c.file.H, Sized: c.file.Sized, Layers: c.file.Layers}
	if r.Sized {
		c.sheet()
		c.outlines()
		c.layers()
		c.others()
		c.compare()
	}
	r.Elements = c.elements
	r.Findings = c.found.Findings()
	return r
}

type checker struct {
	demands  Demands
	file     reader.File
	found    findings.List
	elements []Element
	layered  bool // some layer is named cut, score or print
	turns    int  // looked at for spikes
}

// at reports something about an element and where it lies on the sheet.
func (c *checker) at(rule *findings.Rule, e *Element, p reader.Point, format string, args ...any) {
	whole := func(f float64) float64 { return math.Round(f*1e5) / 1e5 }
	c.found.AddSpot(rule, e.At, e.Label(), findings.Spot{X: whole(p.X), Y: whole(p.Y)}, format, args...)
}

// whole reports something about all of an element.
func (c *checker) whole(rule *findings.Rule, e *Element, format string, args ...any) {
	b := e.Bounds
	c.found.AddSpot(rule, e.At, e.Label(), findings.Spot{X: b.Min.X, Y: b.Min.Y, W: b.W(), H: b.H()}, format, args...)
}

// slack is how far, in mm, a shape may pass a limit by rounding alone.
const slack = 1e-5

// sheet holds the size against the sheet at hand and against paper sizes at
// a wrong scale.
func (c *checker) sheet() {
	w, h := c.file.W, c.file.H
	if d := c.demands; d.SheetW > 0 && !sameSize(w, h, d.SheetW, d.SheetH, 0.05) && !sameSize(h, w, d.SheetW, d.SheetH, 0.05) {
		c.found.Add(findings.WrongSheet, 0, "svg", "the file is %s x %s mm and the sheet %s x %s mm", mm(w), mm(h), mm(d.SheetW), mm(d.SheetH))
	}
	if !c.file.InPixels {
		return
	}
	if _, scale := paperAt(w, h, 1); scale == 1 {
		return
	}
	for _, scale := range []float64{0.75, 0.9375} { // 72 and 90 for 96
		if name, _ := paperAt(w, h, scale); name != "" {
			c.found.Add(findings.PaperScale, 0, "svg", "the sheet is %s x %s mm, which is %s as if at %.0f px to the inch; write width=\"%smm\" height=\"%smm\"",
				mm(w), mm(h), name, 96*scale, tenth(w/scale), tenth(h/scale))
			return
		}
	}
}

// papers are common sheets in mm. Sources: ISO 216 for A and B sizes; US
// Letter, Legal and Tabloid by ANSI/ASME Y14.1 (8 1/2 x 11 and 11 x 17 in);
// 12 x 12 in, 8 x 8 in and 6 x 6 in are paper pads (common practice).
var papers = []struct {
	name string
	w, h float64
}{
	{"ISO A3", 297, 420}, {"ISO A4", 210, 297}, {"ISO A5", 148, 210}, {"ISO A6", 105, 148}, {"ISO B4", 250, 353}, {"ISO B5", 176, 250},
	{"Letter", 215.9, 279.4}, {"Legal", 215.9, 355.6}, {"Tabloid", 279.4, 431.8},
	{"12 x 12 in", 304.8, 304.8}, {"8 x 8 in", 203.2, 203.2}, {"6 x 6 in", 152.4, 152.4}, {"12 x 24 in", 304.8, 609.6},
}

// paperAt returns the paper that a size is at a scale, within 0.2 %.
func paperAt(w, h, scale float64) (string, float64) {
	for _, p := range papers {
		pw, ph := p.w*scale, p.h*scale
		if sameSize(w, h, pw, ph, pw*0.002) || sameSize(h, w, pw, ph, pw*0.002) {
			return p.name, scale
		}
	}
	return "", 0
}

func sameSize(w, h, w2, h2, tolerance float64) bool {
	return w > w2-tolerance && w < w2+tolerance && h > h2-tolerance && h < h2+tolerance
}

// A tally counts what a layer holds.
type tally struct{ closed, open int }

func (t tally) String() string {
	switch {
	case t.open == 0:
		return counted(t.closed, "closed outline")
	case t.closed == 0:
		return counted(t.open, "open line")
	}
	return counted(t.closed, "closed outline") + " and " + counted(t.open, "open line")
}

// layers says what is in which group.
func (c *checker) layers() {
	count := map[*reader.Layer]tally{}
	others := map[*reader.Layer]bool{} // that hold text or pictures
	for _, o := range c.file.Others {
		others[o.Layer] = true
	}
	for _, e := range c.elements {
		t := count[e.Layer]
		if e.Closing == Open {
			t.open++
		} else {
			t.closed++
		}
		count[e.Layer] = t
	}
	for _, l := range c.file.Layers {
		t := count[l]
		if t == (tally{}) {
			if s, _ := step(l); s == Print || others[l] {
				continue
			}
			c.found.Add(findings.EmptyLayer, l.At, "g", "%s draws no outline", layerName(l))
			continue
		}
		c.found.Add(findings.LayerContents, l.At, "g", "%s holds %s", layerName(l), t)
	}
	if len(c.elements) == 0 {
		return
	}
	if !c.layered {
		c.found.Add(findings.Unlayered, c.elements[0].At, "", "no layer is named cut, score or print, so everything counts as a cut: %s", counted(len(c.elements), "shape"))
		return
	}
	for i := range c.elements {
		if e := &c.elements[i]; !named(e.Layer) {
			c.whole(findings.Unlayered, e, "the shape stands in %s", layerName(e.Layer))
		}
	}
}

func named(l *reader.Layer) bool {
	_, ok := step(l)
	return ok
}

func layerName(l *reader.Layer) string {
	switch {
	case l == nil:
		return "no layer"
	case l.ID != "":
		return fmt.Sprintf("layer %q", l.ID)
	case l.Title != "":
		return fmt.Sprintf("the group with the title %q", l.Title)
	}
	return "a group without a name"
}

// others looks at what is drawn without an outline.
func (c *checker) others() {
	for _, o := range c.file.Others {
		if s, _ := step(o.Layer); s == Print {
			continue
		}
		switch o.Tag {
		case "text":
			c.found.Add(findings.Text, o.At, o.Label(), "text in %s", layerName(o.Layer))
		case "foreignObject", "iframe", "canvas", "audio", "video":
			c.found.Add(findings.ForeignObject, o.At, o.Label(), "<%s> in %s", o.Tag, layerName(o.Layer))
		default:
			c.found.Add(findings.Image, o.At, o.Label(), "a picture in %s", layerName(o.Layer))
		}
	}
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// tenth formats millimetres to a tenth, as sheets are sold.
func tenth(f float64) string { return mm(math.Round(f*10) / 10) }

// mm formats millimetres for a finding, to the micrometre.
func mm(f float64) string {
	text := strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.3f", f), "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}
