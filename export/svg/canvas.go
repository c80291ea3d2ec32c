package svg

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"

	svgo "github.com/ajstarks/svgo/float"

	"panelry/geometry"
)

// An Attribute is one name="value" of an element. Values are escaped when
// they are written, so they may hold any text.
type Attribute struct{ Name, Value string }

// A Canvas writes one SVG document from top to bottom. One user unit is one
// millimetre. Nothing is drawn outside a call, and no call has a default
// colour: what an element looks like is what its attributes say.
//
// No method but [Canvas.End] returns an error. The first thing that goes
// wrong (a failing writer, an attribute given twice, a name that is no name,
// an element closed that was never opened) is kept, the rest is not written,
// and End reports it. Control characters and bytes that are not UTF-8 cannot
// stand in XML; the canvas writes U+FFFD in their place.
type Canvas struct {
	svg *svgo.SVG
	out *bufio.Writer // keeps its own first error

	open  []string // tags not closed yet, the root left out
	ended bool
	err   error // the first misuse
}

// NewCanvas begins a document of the given size, which is above 0 both ways.
// The root gets width and height in millimetres, a viewBox of the same two
// numbers, and then the other attributes; the namespaces follow by
// themselves.
func NewCanvas(w io.Writer, size geometry.Size, attrs ...Attribute) *Canvas {
	out := bufio.NewWriter(w)
	c := &Canvas{svg: svgo.New(out), out: out}
	if err := checkSize(size); err != nil {
		c.fail(err)
		return c
	}
	if list, ok := c.attributes("svg", rootAttributes(size, attrs), "xmlns", "xmlns:xlink"); ok {
		c.svg.Startraw(list...)
	}
	return c
}

// rootAttributes says the true size. SVG 2 §8.9 and CSS Values 3 §5.2: a
// width without a unit would be px, 96 to the inch. SVG 2 §8.2 and §8.6:
// with a viewBox of the same two numbers, one user unit is one millimetre.
func rootAttributes(size geometry.Size, more []Attribute) []Attribute {
	w, h := size.W.MM(), size.H.MM()
	return append([]Attribute{
		{"width", w + "mm"},
		{"height", h + "mm"},
		{"viewBox", "0 0 " + w + " " + h},
	}, more...)
}

// Title writes a title. It names the element it stands in, and belongs
// before the other children.
func (c *Canvas) Title(text string) {
	if c.ready() {
		c.svg.Title(text)
	}
}

// Desc writes a longer description; it belongs behind the title.
func (c *Canvas) Desc(text string) {
	if c.ready() {
		c.svg.Desc(text)
	}
}

// Group opens a group, which [Canvas.EndGroup] closes.
func (c *Canvas) Group(attrs ...Attribute) {
	if list, ok := c.attributes("g", attrs); ok {
		c.open = append(c.open, "g")
		c.svg.Group(list...)
	}
}

// EndGroup closes the group that was opened last; nothing else may be open
// inside it.
func (c *Canvas) EndGroup() {
	if c.pop("g") {
		c.svg.Gend()
	}
}

// Path writes a path; d comes from [PathData] or [OpenPathData].
func (c *Canvas) Path(d string, attrs ...Attribute) {
	if list, ok := c.attributes("path", attrs, "d"); ok {
		c.svg.Path(escape(d), list...)
	}
}

// Text writes one line of text that starts, unless a text-anchor says
// otherwise, at the place given.
func (c *Canvas) Text(at geometry.Point, text string, attrs ...Attribute) {
	attrs = append([]Attribute{{"x", at.X.MM()}, {"y", at.Y.MM()}}, attrs...)
	if list, ok := c.attributes("text", attrs); ok {
		c.print("<text", join(list), ">", escape(text), "</text>\n")
	}
}

// Open opens an element that has no method of its own (defs, pattern,
// clipPath); [Canvas.Close] closes it.
func (c *Canvas) Open(tag string, attrs ...Attribute) {
	if list, ok := c.attributes(tag, attrs); ok {
		c.open = append(c.open, tag)
		c.print("<", tag, join(list), ">\n")
	}
}

// Close closes the element that was opened last.
func (c *Canvas) Close() {
	if n := len(c.open); n == 0 {
		c.pop("element")
	} else if tag := c.open[n-1]; c.pop(tag) {
		c.print("</", tag, ">\n")
	}
}

// Empty writes an element without content.
func (c *Canvas) Empty(tag string, attrs ...Attribute) {
	if list, ok := c.attributes(tag, attrs); ok {
		c.print("<", tag, join(list), "/>\n")
	}
}

// End closes the root and hands the last bytes to the writer. It returns the
// first thing that went wrong since [NewCanvas].
func (c *Canvas) End() error {
	if c.ready() && len(c.open) > 0 {
		c.fail(fmt.Errorf("svg: <%s> is still open at the end", c.open[len(c.open)-1]))
	}
	if c.err != nil {
		return c.err
	}
	c.svg.End()
	c.ended = true
	if err := c.out.Flush(); err != nil {
		return fmt.Errorf("svg: cannot write the drawing: %w", err)
	}
	return nil
}

// ready reports whether anything may still be written.
func (c *Canvas) ready() bool {
	if c.ended {
		c.fail(errors.New("svg: the drawing has ended already"))
	}
	return c.err == nil
}

func (c *Canvas) fail(err error) {
	if c.err == nil {
		c.err = err
	}
}

func (c *Canvas) pop(tag string) bool {
	if !c.ready() {
		return false
	}
	n := len(c.open)
	if n == 0 || c.open[n-1] != tag {
		open := append([]string{"svg"}, c.open...)
		c.fail(fmt.Errorf("svg: no %s to close here; <%s> was opened last", tag, open[n]))
		return false
	}
	c.open = c.open[:n-1]
	return true
}

func (c *Canvas) print(parts ...string) {
	for _, p := range parts {
		c.out.WriteString(p) // a failure stays in the buffer until End
	}
}

// attributes returns the attributes as svgo takes them, one name="value"
// each: it would make a style of anything without an equals sign. The names
// in taken are written by somebody else.
func (c *Canvas) attributes(tag string, attrs []Attribute, taken ...string) ([]string, bool) {
	if !c.ready() {
		return nil, false
	}
	if !isName(tag) {
		c.fail(fmt.Errorf("svg: %q cannot be the name of an element", tag))
		return nil, false
	}
	list := make([]string, 0, len(attrs))
	for i, a := range attrs {
		again := func(b Attribute) bool { return b.Name == a.Name }
		switch {
		case !isAttributeName(a.Name):
			c.fail(fmt.Errorf("svg: <%s>: %q cannot be the name of an attribute", tag, a.Name))
			return nil, false
		case slices.Contains(taken, a.Name), slices.ContainsFunc(attrs[:i], again):
			c.fail(fmt.Errorf("svg: <%s>: attribute %s is given twice", tag, a.Name))
			return nil, false
		}
		list = append(list, a.Name+`="`+escape(a.Value)+`"`)
	}
	return list, true
}
