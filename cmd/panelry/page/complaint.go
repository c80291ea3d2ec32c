package page

import (
	"fmt"
	"regexp"
	"sort"
	"strings"

	"panelry/geometry"
	"panelry/layouts"
)

// complaint says why changed fields cannot be taken: in words of the field
// that was changed, in the unit that is looked at, and in fractions where
// those were typed.
func (s *state) complaint(typed map[string]string, p layouts.Problem) string {
	if len(typed) != 1 {
		return s.told(p.Text)
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
		return sentence(measuresIn(s.pageWords(p.Text), s.show(), !strings.Contains(text, ".")))
	}
	return ""
}

// keyName finds keys of a design file in a sentence.
var keyName = regexp.MustCompile(`\b[a-z]+\.[a-z_]+\b`)

// told is what the planning tells, as a sentence of the page.
func (s *state) told(text string) string { return sentence(s.inPageWords(text)) }

// inPageWords tells it in words of the page, with measures in the unit that is
// looked at, in fractions where the design has those.
func (s *state) inPageWords(text string) string {
	return measuresIn(s.pageWords(text), s.show(), !strings.Contains(s.raw["front.margin"]+s.raw["front.gap"], "."))
}

// pageWords puts the labels of the page for the keys of the file, and its
// words for how to write them.
func (s *state) pageWords(text string) string {
	return plainWords.Replace(keyName.ReplaceAllStringFunc(text, func(key string) string {
		if c, ok := controlFor(key, s.layout()); ok {
			return "“" + c.Label + "”"
		}
		return key
	}))
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
