package page

import (
	"fmt"
	"math"
	"regexp"
	"sort"
	"strconv"
	"strings"

	"panelry/geometry"
	"panelry/layouts"
)

// complaint says why changed fields cannot be taken: in words of the field
// that was changed, and in fractions where those were typed.
func (s *state) complaint(typed map[string]string, p layouts.Problem) string {
	if len(typed) != 1 {
		return sentence(p.Text)
	}
	for key, text := range typed {
		switch {
		case key == "front.layout" && text == ownShapes && s.raw["front.shapes"] == "":
			return "Choose the SVG file that has them, here below."
		case key == "front.margin" && p.Path != key && strings.HasPrefix(p.Path, "front."):
			if widest, ok := s.widestMargin(); ok {
				unit := s.show()
				margin, _ := geometry.ParseLength(strings.TrimSpace(text), unit)
				return fmt.Sprintf("A margin of %s leaves too little for the panels. At this size and gap the widest margin is %s.", margin.Format(unit), widest.Format(unit))
			}
		}
		if s.show() == geometry.Inches && !strings.Contains(text, ".") {
			return sentence(inFractions(p.Text))
		}
	}
	return sentence(p.Text)
}

// keyName finds keys of a design file in a sentence.
var keyName = regexp.MustCompile(`\b[a-z]+\.[a-z_]+\b`)

// told is what the planning tells, with the labels of the page for the keys of
// the file, and in fractions where the design has those.
func (s *state) told(text string) string {
	text = keyName.ReplaceAllStringFunc(text, func(key string) string {
		if c, ok := controlFor(key, s.layout()); ok {
			return "“" + c.Label + "”"
		}
		return key
	})
	if s.show() == geometry.Inches && !strings.Contains(s.raw["front.margin"]+s.raw["front.gap"], ".") {
		text = inFractions(text)
	}
	return sentence(text)
}

// widestMargin is the widest margin, in steps of the ruler, at which the front
// can be divided; false when that is unknown.
func (s *state) widestMargin() (geometry.Length, bool) {
	if !s.drawn || !s.reads {
		return 0, false
	}
	d := s.design
	if s.paperless() {
		d = s.kit.Design
	}
	divides := func(steps int) bool {
		d.Front.Margin = geometry.Length(steps) * d.Ruler
		_, err := layouts.PlanCard(d)
		return err == nil
	}
	most := int(min(d.Card.Size.W, d.Card.Size.H)/2/d.Ruler) + 1
	steps := sort.Search(most, func(i int) bool { return !divides(i + 1) })
	return geometry.Length(steps) * d.Ruler, divides(steps)
}

// decimalInches finds a decimal of inches, alone or in a size.
var decimalInches = regexp.MustCompile(`(\d+\.\d+)((?: x [\d./ ]+?)? in\b)`)

// inFractions writes decimals of inches as the nearest 1/64, which is finer
// than a ruler.
func inFractions(text string) string {
	for range 4 { // each number of a size has its turn
		text = decimalInches.ReplaceAllStringFunc(text, func(found string) string {
			parts := decimalInches.FindStringSubmatch(found)
			inches, _ := strconv.ParseFloat(parts[1], 64)
			mark := geometry.Length(max(1, math.Round(64*inches))) * geometry.Inch / 64
			return "about " + bare(mark, geometry.Inches) + parts[2]
		})
	}
	return strings.ReplaceAll(text, " x about ", " x ")
}
