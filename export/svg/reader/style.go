package reader

import (
	"strconv"
	"strings"

	"panelry/export/svg/findings"
)

// style is what elements inherit and the reader needs.
type style struct {
	fontSize    float64 // px
	fontStated  bool    // by the file, not left to the reader
	hidden      bool    // visibility
	transparent bool    // opacity 0 here or on an ancestor
	fill        bool    // painted inside
	stroke      bool    // painted along the line
	noWidth     bool    // the stroke has no width
	faintFill   bool    // fill-opacity 0
	faintStroke bool    // stroke-opacity 0
	dashed      bool
	evenOdd     bool
	clipped     bool // a clip, a mask or a filter here or on an ancestor
}

// usualStyle is what holds where a file says nothing (SVG 2 §13, CSS Fonts 4
// §2.5: medium is 16 px by custom).
var usualStyle = style{fontSize: 16, fill: true}

var fontSizes = map[string]float64{ // CSS Fonts 4 §2.5, as shares of medium
	"xx-small": 16 * 3.0 / 5, "x-small": 16 * 3.0 / 4, "small": 16 * 8.0 / 9, "medium": 16,
	"large": 16 * 6.0 / 5, "x-large": 16 * 3.0 / 2, "xx-large": 32, "xxx-large": 48,
}

// styleOf returns the style of an element from that of its parent.
func (r *reader) styleOf(n *node, parent style, rootFont float64) style {
	s := parent
	if size, ok := fontSizeOf(n, parent, rootFont); ok {
		s.fontSize, s.fontStated = size, true
	}
	if c, ok := n.first("visibility"); ok {
		switch strings.ToLower(c.value) {
		case "hidden", "collapse":
			s.hidden = true
			r.hides(n, c)
		case "visible", "initial":
			s.hidden = false
		}
	}
	if c, ok := n.first("opacity"); ok {
		if v, ok := cssFactor(c.value); ok && v <= 0 {
			s.transparent = true
		}
	}
	paint := func(property string, into *bool) {
		if c, ok := n.first(property); ok && c.value != "" && c.value != "inherit" {
			*into = !strings.EqualFold(c.value, "none") && !strings.EqualFold(c.value, "transparent")
		}
	}
	paint("fill", &s.fill)
	paint("stroke", &s.stroke)
	zero := func(property string, into *bool) {
		if c, ok := n.first(property); ok && c.value != "inherit" {
			*into = isZero(c.value)
		}
	}
	zero("fill-opacity", &s.faintFill)
	zero("stroke-opacity", &s.faintStroke)
	zero("stroke-width", &s.noWidth)
	if c, ok := n.first("stroke-dasharray"); ok && c.value != "inherit" {
		s.dashed = strings.ContainsAny(c.value, "123456789")
	}
	if c, ok := n.first("fill-rule"); ok && c.value != "inherit" {
		s.evenOdd = c.value == "evenodd"
	}
	for _, property := range [...]string{"clip-path", "mask", "mask-image", "filter"} {
		if c, ok := n.first(property); ok && !strings.EqualFold(c.value, "none") && c.value != "" {
			s.clipped = true
			r.addAt(findings.Clipped, c.at, n, "%s %s", property, quoted(c.value))
		}
	}
	return s
}

// hides reports that a style, and not an attribute, keeps something from
// being drawn.
func (r *reader) hides(n *node, c candidate) {
	if c.css {
		r.addAt(findings.StyledHiding, c.at, n, "a style hides the element")
	}
}

// isZero reports whether a value is a number, a percentage or a length of
// zero.
func isZero(value string) bool {
	s := &scanner{text: value}
	v, err := s.number()
	return err == nil && v == 0
}

// fontSizeOf returns the computed font-size, in px, where the element
// declares one.
func fontSizeOf(n *node, parent style, rootFont float64) (float64, bool) {
	for i := len(n.styled) - 1; i >= 0; i-- { // the last of both counts
		d := n.styled[i]
		switch d.property {
		case "font-size":
			if size, ok := fontSize(strings.ToLower(d.value), parent, rootFont); ok {
				return size, true
			}
		case "font":
			for _, word := range strings.Fields(strings.ToLower(d.value)) {
				word, _, _ = strings.Cut(word, "/")
				if _, weight := wholeNumber(word); weight {
					continue
				}
				if size, ok := fontSize(word, parent, rootFont); ok {
					return size, true
				}
			}
		}
	}
	if a := n.find("font-size"); a != nil {
		return fontSize(strings.ToLower(strings.Trim(a.Value, " \t\r\n\f")), parent, rootFont)
	}
	return 0, false
}

func fontSize(word string, parent style, rootFont float64) (float64, bool) {
	if size, ok := fontSizes[word]; ok {
		return size, true
	}
	switch word {
	case "larger":
		return parent.fontSize * 1.2, true
	case "smaller":
		return parent.fontSize / 1.2, true
	case "inherit":
		return parent.fontSize, true
	}
	l, err := parseLength(word)
	if err != nil {
		return 0, false
	}
	if rootFont == 0 {
		rootFont = parent.fontSize // on the root itself rem is the usual size
	}
	size, problem := l.resolve(lengthContext{percent: parent.fontSize, fontSize: parent.fontSize, rootFont: rootFont})
	return size, problem == "" && size >= 0
}

// number formats a float for a finding: at most three decimals.
func number(f float64) string {
	text := strconv.FormatFloat(f, 'f', 3, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}
