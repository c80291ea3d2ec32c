package svg

import (
	"fmt"

	"panelry/geometry"
)

// Compare reports the first difference between two drawings: in size, title,
// description, layers and their order, colours, attributes and their order,
// and every point of every outline and line, to the nanometre. A layer
// without shapes counts as not there, and a layer without a stroke has its
// own colour.
func Compare(meant, got Drawing) error {
	if err := differ("size", meant.Size, got.Size); err != nil {
		return err
	}
	if err := differ("title", meant.Title, got.Title); err != nil {
		return err
	}
	if err := differ("description", meant.Desc, got.Desc); err != nil {
		return err
	}
	a, b := meant.written(), got.written()
	for i := range min(len(a), len(b)) {
		if err := compareLayers(a[i], b[i]); err != nil {
			return fmt.Errorf("layer %d: %w", i+1, err)
		}
	}
	return differ("number of layers", len(a), len(b))
}

// differ returns an error where two values are not the same.
func differ[T comparable](what string, meant, got T) error {
	if meant == got {
		return nil
	}
	if _, text := any(meant).(string); text {
		return fmt.Errorf("%s: meant %q, found %q", what, any(meant), any(got))
	}
	return fmt.Errorf("%s: meant %v, found %v", what, meant, got)
}

func compareLayers(a, b Layer) error {
	if err := differ("id", a.ID, b.ID); err != nil {
		return err
	}
	if err := differ("title", a.Title, b.Title); err != nil {
		return err
	}
	if err := differ("stroke", a.stroke(), b.stroke()); err != nil {
		return err
	}
	if err := compareAttributes(a.Attributes, b.Attributes); err != nil {
		return err
	}
	for i := range min(len(a.Shapes), len(b.Shapes)) {
		if err := compareShapes(a.Shapes[i], b.Shapes[i]); err != nil {
			return fmt.Errorf("shape %d%s: %w", i+1, a.Shapes[i].name(), err)
		}
	}
	return differ("number of shapes", len(a.Shapes), len(b.Shapes))
}

func compareShapes(a, b Shape) error {
	if err := differ("fill", a.Fill, b.Fill); err != nil {
		return err
	}
	if err := compareAttributes(a.Attributes, b.Attributes); err != nil {
		return err
	}
	if err := differ("number of outlines", len(a.Rings), len(b.Rings)); err != nil {
		return err
	}
	for i, r := range a.Rings {
		if err := compareSegments(r, b.Rings[i]); err != nil {
			return fmt.Errorf("outline %d: %w", i+1, err)
		}
	}
	if err := differ("number of lines", len(a.Lines), len(b.Lines)); err != nil {
		return err
	}
	for i, p := range a.Lines {
		err := differ("start", p.From, b.Lines[i].From)
		if err == nil {
			err = compareSegments(p.Then, b.Lines[i].Then)
		}
		if err != nil {
			return fmt.Errorf("line %d: %w", i+1, err)
		}
	}
	return nil
}

func compareAttributes(a, b []Attribute) error {
	for i := range min(len(a), len(b)) {
		if err := differ("attribute", a[i].Name, b[i].Name); err != nil {
			return err
		}
		if err := differ("attribute "+a[i].Name, a[i].Value, b[i].Value); err != nil {
			return err
		}
	}
	return differ("number of attributes", len(a), len(b))
}

func compareSegments(a, b []geometry.Segment) error {
	for i := range min(len(a), len(b)) {
		if a[i].Curved != b[i].Curved {
			return fmt.Errorf("side %d to %s: one is a curve, the other straight", i+1, a[i].To)
		}
		err := differ("end", a[i].To, b[i].To)
		if err == nil && a[i].Curved {
			err = differ("first control point", a[i].C1, b[i].C1)
		}
		if err == nil && a[i].Curved {
			err = differ("second control point", a[i].C2, b[i].C2)
		}
		if err != nil {
			return fmt.Errorf("side %d: %w", i+1, err)
		}
	}
	return differ("number of sides", len(a), len(b))
}
