package svg

import (
	"bytes"
	"fmt"
	"io"
)

// Encode returns the drawing as a file, after reading the file back and
// comparing it with what was meant.
func Encode(d Drawing) ([]byte, error) {
	var b bytes.Buffer
	if err := Write(&b, d); err != nil {
		return nil, err
	}
	got, err := Read(b.Bytes())
	if err != nil {
		return nil, fmt.Errorf("the sheet as written cannot be read back: %w", err)
	}
	if err := Compare(d, got); err != nil {
		return nil, fmt.Errorf("the sheet as written does not say what was meant: %w", err)
	}
	return b.Bytes(), nil
}

// Write writes the drawing in the order given: the same drawing gives the
// same bytes. A drawing that does not pass [Drawing.Validate] is refused
// before the first byte. [Encode] also proves what was written.
func Write(w io.Writer, d Drawing) error {
	if err := d.Validate(); err != nil {
		return err
	}
	c := NewCanvas(w, d.Size)
	if d.Title != "" {
		c.Title(d.Title)
	}
	if d.Desc != "" {
		c.Desc(d.Desc)
	}
	for _, l := range d.written() {
		writeLayer(c, l)
	}
	return c.End()
}

func writeLayer(c *Canvas, l Layer) {
	c.Group(append([]Attribute{
		{"id", l.ID},
		{"fill", "none"},
		{"stroke", l.stroke()},
		{"stroke-width", strokeWidth},
	}, l.Attributes...)...)
	c.Title(l.Title)
	for _, s := range l.Shapes {
		attrs := s.Attributes
		if s.Fill != "" {
			attrs = append([]Attribute{{"fill", s.Fill}, {"stroke", "none"}}, attrs...)
		}
		c.Path(s.data(), attrs...)
	}
	c.EndGroup()
}
