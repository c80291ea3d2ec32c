package svg

import (
	"errors"
	"fmt"
	"strings"

	"panelry/geometry"
)

// Validate reports the first thing that keeps the drawing from being a sheet
// that can be written and read back: a size that is not above 0, an unknown
// layer or one given twice, a layer without title, an id given twice, an
// attribute that a sheet does not hold, text that XML cannot hold, an empty
// path, a ring with too few sides, two neighbouring points on one spot, or a
// point outside the sheet. Shapes, outlines and lines are counted from 1.
func (d Drawing) Validate() error {
	if err := checkSize(d.Size); err != nil {
		return err
	}
	if err := errors.Join(checkText("sheet title", d.Title), checkText("sheet description", d.Desc)); err != nil {
		return err
	}
	ids := idSet{}
	for _, l := range d.Layers {
		if err := l.validate(ids); err != nil {
			return err
		}
		for i, s := range l.Shapes {
			if err := s.validate(d.Size, ids); err != nil {
				return fmt.Errorf("layer %s, shape %d%s: %w", l.ID, i+1, s.name(), err)
			}
		}
	}
	return nil
}

// checkSize refuses a sheet without extent: by SVG 2 §8.6 a width or height
// of 0 in the viewBox switches the drawing off, and a negative one is an
// error.
func checkSize(size geometry.Size) error {
	if size.W <= 0 || size.H <= 0 {
		return fmt.Errorf("sheet size %s: width and height must be above 0", size)
	}
	if size.W > geometry.Limit || size.H > geometry.Limit {
		return fmt.Errorf("sheet size %s: larger than %s, the most that a length may be", size, geometry.Limit)
	}
	return nil
}

// validate checks the layer itself, not its shapes.
func (l Layer) validate(ids idSet) error {
	if l.ID != Cut && l.ID != Score && l.ID != Print {
		return fmt.Errorf("layer %q: a sheet has the layers %s, %s and %s", l.ID, Cut, Score, Print)
	}
	if err := ids.add(l.ID); err != nil {
		return fmt.Errorf("layer %s: %w", l.ID, err)
	}
	err := checkText("title", l.Title)
	if l.Title == "" {
		err = errors.New("has no title; give it one, such as \"Score lines\"")
	}
	if err == nil && l.Stroke != "" {
		err = checkColour("stroke", l.Stroke)
	}
	if err == nil {
		err = checkAttributes(l.Attributes, false, ids)
	}
	if err != nil {
		return fmt.Errorf("layer %s: %w", l.ID, err)
	}
	return nil
}

// validate checks the shape for a sheet of that size.
func (s Shape) validate(sheet geometry.Size, ids idSet) error {
	if err := checkAttributes(s.Attributes, true, ids); err != nil {
		return err
	}
	if s.Fill != "" {
		if err := checkColour("fill", s.Fill); err != nil {
			return err
		}
		if len(s.Lines) > 0 {
			return errors.New("an open line in a filled shape would be filled too; put it in a shape of its own")
		}
	}
	if len(s.Rings)+len(s.Lines) == 0 {
		return errors.New("an empty path: holds no outline and no line; leave the shape out")
	}
	for i, r := range s.Rings {
		if err := checkRing(r, sheet); err != nil {
			return fmt.Errorf("outline %d: %w", i+1, err)
		}
	}
	for i, p := range s.Lines {
		if err := checkLine(p, sheet); err != nil {
			return fmt.Errorf("line %d: %w", i+1, err)
		}
	}
	return nil
}

func checkRing(r geometry.Ring, sheet geometry.Size) error {
	switch {
	case len(r) == 0:
		return errors.New("an empty path: has no sides; leave it out")
	case len(r) < 2, len(r) == 2 && r.IsStraight():
		return fmt.Errorf("has too few sides (%d): it takes three, or two of which one is a curve", len(r))
	}
	return checkSegments(r.Start(), r, sheet)
}

func checkLine(p geometry.Path, sheet geometry.Size) error {
	if len(p.Then) == 0 {
		return errors.New("an empty path: only a start and nowhere to go; leave it out")
	}
	return checkSegments(p.From, p.Then, sheet)
}

func checkSegments(from geometry.Point, then []geometry.Segment, sheet geometry.Size) error {
	if err := checkOnSheet(geometry.Rect{Min: from, Max: from}, sheet, 0); err != nil {
		return err
	}
	for _, s := range then {
		if s.To == from && (!s.Curved || s.C1 == from && s.C2 == from) {
			return fmt.Errorf("the point %s twice in a row; leave one out", s.To)
		}
		if err := checkOnSheet(geometry.Rect{Min: s.To, Max: s.To}, sheet, 0); err != nil {
			return err
		}
		if err := checkCurve(from, s, sheet); err != nil {
			return err
		}
		from = s.To
	}
	return nil
}

// checkCurve looks at how far a curve really goes; its control points may
// lie outside the sheet.
func checkCurve(from geometry.Point, s geometry.Segment, sheet geometry.Size) error {
	if !s.Curved {
		return nil
	}
	for _, p := range []geometry.Point{s.C1, s.C2} {
		if !p.InRange() {
			return fmt.Errorf("control point %s is further than %s from the sheet's corner", p, geometry.Limit)
		}
	}
	closed := geometry.Ring{s, geometry.LineTo(from)}
	// Bounds rounds outward to the nanometre, so a curve that touches the
	// border may seem to pass it by one.
	return checkOnSheet(geometry.Outline{Outer: closed}.Bounds(), sheet, geometry.Nanometre)
}

func checkOnSheet(r geometry.Rect, sheet geometry.Size, slack geometry.Length) error {
	least, mostX, mostY := -slack, sheet.W+slack, sheet.H+slack
	for _, p := range []geometry.Point{r.Min, r.Max} {
		if p.X < least || p.Y < least || p.X > mostX || p.Y > mostY {
			return fmt.Errorf("reaches %s, outside the sheet of %s", p, sheet)
		}
	}
	return nil
}

// checkColour takes "#" and six hexadecimal digits, the form that every
// reader knows.
func checkColour(what, text string) error {
	if len(text) != 7 || text[0] != '#' || strings.Trim(text[1:], "0123456789abcdefABCDEF") != "" {
		return fmt.Errorf("%s %q: write a colour as # and six hexadecimal digits, such as %s", what, text, ScoreStroke)
	}
	return nil
}

// checkAttributes allows data-*, and where withID an id.
func checkAttributes(attrs []Attribute, withID bool, ids idSet) error {
	for i, a := range attrs {
		for _, b := range attrs[:i] {
			if a.Name == b.Name {
				return fmt.Errorf("attribute %s is given twice", a.Name)
			}
		}
		switch {
		case withID && a.Name == "id":
			if err := ids.add(a.Value); err != nil {
				return err
			}
		case !isDataName(a.Name):
			return fmt.Errorf("attribute %q has no place on a sheet; give it a name that starts with data-", a.Name)
		}
		if err := checkText("attribute "+a.Name, a.Value); err != nil {
			return err
		}
	}
	return nil
}

// isDataName reports whether the name is "data-" and then small letters,
// digits, hyphens, dots or underscores.
func isDataName(name string) bool {
	rest, ok := strings.CutPrefix(name, "data-")
	return ok && rest != "" && strings.Trim(rest, "abcdefghijklmnopqrstuvwxyz0123456789-._") == ""
}

// idSet holds the ids of a file.
type idSet map[string]bool

// add takes ids of ASCII letters, digits, hyphens, dots and underscores that
// start with a letter: those are names in XML and in every reader.
func (s idSet) add(id string) error {
	if !isName(id) || id[0] == '_' {
		return fmt.Errorf("id %q: start with a letter, and use only letters, digits, hyphens, dots and underscores", id)
	}
	if s[id] {
		return fmt.Errorf("id %q is used twice in the sheet", id)
	}
	s[id] = true
	return nil
}
