package svg

import (
	"errors"
	"slices"
	"strings"

	"panelry/export/svg/markup"
	"panelry/geometry"
)

// Read reads a cutting sheet that [Write] wrote, or one like it: numbers are
// exact to the nanometre, and everything that [Drawing] cannot hold is an
// error with its line and column, never left out. What Read returns passes
// [Drawing.Validate].
func Read(data []byte) (Drawing, error) {
	t, err := markup.New(data)
	if err != nil {
		return Drawing{}, err
	}
	r := sheetReader{Tokens: t, ids: idSet{}}
	if err := r.sheet(); err != nil {
		return Drawing{}, err
	}
	return r.drawing, nil
}

// sheetReader reads the elements of a sheet from outside in.
type sheetReader struct {
	*markup.Tokens
	drawing Drawing
	ids     idSet
}

func (r *sheetReader) sheet() error {
	root, err := r.child()
	if err == nil {
		err = r.root(root)
	}
	if err != nil {
		return err
	}
	next, err := r.child()
	for _, part := range []struct {
		tag  string
		text *string
	}{{"title", &r.drawing.Title}, {"desc", &r.drawing.Desc}} {
		if err == nil && next.Kind == markup.StartTag && next.Name == part.tag {
			*part.text, next, err = r.text(next)
		}
	}
	for err == nil && next.Kind == markup.StartTag {
		if err = r.layer(next); err == nil {
			next, err = r.child()
		}
	}
	if err == nil {
		_, err = r.child() // only the end of the file is left
	}
	return err
}

// child returns the next tag; between tags only white space may stand.
func (r *sheetReader) child() (markup.Token, error) {
	for {
		next, err := r.Next()
		if err != nil || next.Kind != markup.Characters {
			return next, err
		}
		if rest := strings.TrimLeft(next.Text, markup.Space); rest != "" {
			before := len(next.Raw) - len(strings.TrimLeft(next.Raw, markup.Space))
			return markup.Token{}, r.Fault(next.At+before, "text %q: only a title and a desc hold text", markup.Shorten(rest))
		}
	}
}

// root reads the size. SVG 2 §8.2 and §8.6: the viewBox maps its width and
// height onto those of the sheet, so with the same two numbers one user unit
// is one millimetre and nothing is moved.
func (r *sheetReader) root(root markup.Token) error {
	attrs, err := r.attributesOf(root, "svg")
	if err != nil {
		return err
	}
	if a, ok := attrs.known["xmlns:xlink"]; ok && a.Value != xlinkNamespace {
		return r.Fault(a.At, "%s=%q: it must be %q", a.Name, markup.Shorten(a.Value), xlinkNamespace)
	}
	size := &r.drawing.Size
	if size.W, err = r.side(root, attrs, "width"); err != nil {
		return err
	}
	if size.H, err = r.side(root, attrs, "height"); err != nil {
		return err
	}
	if err := checkSize(*size); err != nil {
		return r.Fault(root.At, "%s", err)
	}
	return r.viewBox(root, attrs)
}

// side reads width or height. Without one, or with a percentage, a file has
// no size of its own (SVG 2 §8.12).
func (r *sheetReader) side(root markup.Token, attrs attributeSet, name string) (geometry.Length, error) {
	a, ok := attrs.known[name]
	if !ok {
		return 0, r.Fault(root.At, "the root has no %s, so the sheet has no true size; write it like %s=\"304.8mm\"", name, name)
	}
	length, err := lengthFromMM(a.Value)
	if err != nil {
		return 0, r.Fault(a.Inner, "%s %q: %s", name, markup.Shorten(a.Value), err)
	}
	return length, nil
}

func (r *sheetReader) viewBox(root markup.Token, attrs attributeSet) error {
	size := r.drawing.Size
	want := "0 0 " + size.W.MM() + " " + size.H.MM()
	a, ok := attrs.known["viewBox"]
	if !ok {
		return r.Fault(root.At, "the root has no viewBox; write viewBox=%q", want)
	}
	numbers, err := scanNumbers(a.Value)
	if err != nil {
		return r.dataFault(a, "viewBox", err)
	}
	if !slices.Equal(numbers, []geometry.Length{0, 0, size.W, size.H}) {
		return r.Fault(a.Inner, "viewBox %q differs from the size of the sheet; write %q", markup.Shorten(a.Value), want)
	}
	return nil
}

// text reads a title or a desc, and returns the tag behind it.
func (r *sheetReader) text(tag markup.Token) (string, markup.Token, error) {
	if _, err := r.attributesOf(tag, tag.Name); err != nil {
		return "", markup.Token{}, err
	}
	var text strings.Builder
	for {
		next, err := r.Next()
		switch {
		case err != nil:
			return "", next, err
		case next.Kind == markup.Characters:
			text.WriteString(next.Text)
		case next.Kind == markup.StartTag:
			return "", next, r.Fault(next.At, "element <%s> inside a <%s>, which holds only text", markup.Shorten(next.Name), tag.Name)
		case text.Len() == 0:
			return "", next, r.Fault(tag.At, "an empty <%s>; leave it out or write a text", tag.Name)
		default:
			next, err = r.child()
			return text.String(), next, err
		}
	}
}

func (r *sheetReader) layer(tag markup.Token) error {
	attrs, err := r.attributesOf(tag, "g")
	if err != nil {
		return err
	}
	if err := r.fixed(tag, attrs, "fill", "none"); err != nil {
		return err
	}
	if err := r.fixed(tag, attrs, "stroke-width", strokeWidth); err != nil {
		return err
	}
	layer := Layer{ID: attrs.value("id"), Stroke: attrs.value("stroke"), Attributes: attrs.own}
	next, err := r.child()
	if err == nil && next.Kind == markup.StartTag && next.Name == "title" {
		layer.Title, next, err = r.text(next)
	}
	if err != nil {
		return err
	}
	if layer.Stroke == "" {
		return r.Fault(tag.At, "the layer has no stroke; write a colour such as stroke=%q", CutStroke)
	}
	if err := layer.validate(r.ids); err != nil {
		return r.Fault(tag.At, "%s", err)
	}
	for ; err == nil && next.Kind == markup.StartTag; next, err = r.child() {
		shape, err := r.shape(next)
		if err != nil {
			return err
		}
		layer.Shapes = append(layer.Shapes, shape)
	}
	if err == nil && len(layer.Shapes) == 0 {
		return r.Fault(tag.At, "layer %s holds no path; leave it out", layer.ID)
	}
	r.drawing.Layers = append(r.drawing.Layers, layer)
	return err
}

// fixed makes sure that an attribute has the one value that a sheet gives it.
func (r *sheetReader) fixed(tag markup.Token, attrs attributeSet, name, want string) error {
	a, ok := attrs.known[name]
	if !ok {
		return r.Fault(tag.At, "<%s> needs %s=%q", tag.Name, name, want)
	}
	if a.Value != want {
		return r.Fault(a.Inner, "%s %q: it must be %q here", name, markup.Shorten(a.Value), want)
	}
	return nil
}

// shape reads a path and everything inside it, which is nothing.
func (r *sheetReader) shape(tag markup.Token) (Shape, error) {
	attrs, err := r.attributesOf(tag, "path")
	if err != nil {
		return Shape{}, err
	}
	shape := Shape{Fill: attrs.value("fill"), Attributes: attrs.own}
	if fill, filled := attrs.known["fill"]; filled {
		if err := checkColour("fill", fill.Value); err != nil {
			return Shape{}, r.Fault(fill.Inner, "%s", err)
		}
		err = r.fixed(tag, attrs, "stroke", "none")
	} else if stroke, ok := attrs.known["stroke"]; ok {
		err = r.Fault(stroke.At, "only a filled path has a stroke of its own, which is none")
	}
	if err == nil {
		err = r.outlines(tag, attrs, &shape)
	}
	if err != nil {
		return Shape{}, err
	}
	if err := shape.validate(r.drawing.Size, r.ids); err != nil {
		return Shape{}, r.Fault(tag.At, "path%s: %s", shape.name(), err)
	}
	next, err := r.child()
	if err == nil && next.Kind == markup.StartTag {
		err = r.Fault(next.At, "element <%s> inside a <path>", markup.Shorten(next.Name))
	}
	return shape, err
}

func (r *sheetReader) outlines(tag markup.Token, attrs attributeSet, shape *Shape) error {
	d, ok := attrs.known["d"]
	if !ok {
		return r.Fault(tag.At, "the path has no d, so it draws nothing")
	}
	strokes, err := scanPath(d.Value)
	if err != nil {
		return r.dataFault(d, "path data", err)
	}
	for _, s := range strokes {
		switch {
		case !s.closed:
			shape.Lines = append(shape.Lines, s.path)
		case len(shape.Lines) > 0:
			return r.Fault(d.Inner, "a closed outline behind an open line; write the outlines first")
		default:
			shape.Rings = append(shape.Rings, s.path.Then)
		}
	}
	return nil
}

// dataFault gives an error inside an attribute its place in the file.
func (r *sheetReader) dataFault(a markup.Attribute, what string, err error) error {
	if f := (*dataFault)(nil); errors.As(err, &f) {
		return r.Fault(a.Place(f.at), "%s: %s", what, f.text)
	}
	return err
}
