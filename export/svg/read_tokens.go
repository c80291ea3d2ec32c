package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// A fault is what is wrong at one place of a file; line and column count
// from 1, columns in characters.
type fault struct {
	line, column int
	text         string
}

func (f *fault) Error() string {
	return fmt.Sprintf("line %d, column %d: %s", f.line, f.column, f.text)
}

type tokenKind int

const (
	endOfFile tokenKind = iota
	startTag
	endTag
	characters
)

// A token is a tag or a run of text, with its place as a byte offset.
type token struct {
	kind  tokenKind
	at    int
	space string // namespace of a tag
	name  string // of a tag, without prefix
	attrs []attribute
	text  string // of characters
	raw   string // as written, references not resolved
}

// An attribute is one attribute of a start tag, and where it stands.
type attribute struct {
	space string // namespace; "" for an attribute of SVG itself
	name  string // as written, with its prefix
	value string
	at    int
	inner int    // where the value starts
	raw   string // the value as written, references not resolved
}

// place returns where byte i of the value stands. Behind a reference such as
// &amp; it is only known where the value starts.
func (a attribute) place(i int) int {
	if a.raw != a.value {
		return a.inner
	}
	return a.inner + i
}

// tokens reads a file as XML. It knows nothing of SVG: it makes sure that
// the file is one well-formed element and gives each tag its place. On top
// of what encoding/xml checks it refuses a DOCTYPE, processing instructions,
// a second root, text outside the root, and an attribute given twice.
// Comments are left out.
type tokens struct {
	data    []byte
	decoder *xml.Decoder
	depth   int
	rooted  bool // the root has started
}

// newTokens refuses what is not UTF-8 and what starts with a byte order
// mark.
func newTokens(data []byte) (*tokens, error) {
	t := &tokens{data: data, decoder: xml.NewDecoder(bytes.NewReader(data))}
	t.decoder.CharsetReader = func(string, io.Reader) (io.Reader, error) { return nil, errEncoding }
	if bytes.HasPrefix(data, []byte("\uFEFF")) {
		return nil, t.fault(0, "the file starts with a byte order mark; save it as UTF-8 without one")
	}
	for at := 0; at < len(data); {
		r, width := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && width == 1 {
			return nil, t.fault(at, "the byte %#x is not UTF-8; save the file as UTF-8", data[at])
		}
		at += width
	}
	return t, nil
}

// fault returns an error at a byte of the file.
func (t *tokens) fault(at int, format string, args ...any) error {
	before := t.data[:min(at, len(t.data))]
	start := bytes.LastIndexByte(before, '\n') + 1
	return &fault{
		line:   1 + bytes.Count(before, []byte("\n")),
		column: 1 + utf8.RuneCount(before[start:]),
		text:   fmt.Sprintf(format, args...),
	}
}

// next returns the next tag or text, and at the end of the file a token of
// the kind endOfFile.
func (t *tokens) next() (token, error) {
	for {
		at := int(t.decoder.InputOffset())
		read, err := t.decoder.Token()
		if errors.Is(err, io.EOF) {
			return t.endOfFile(at)
		}
		if err != nil {
			return token{}, t.syntax(err)
		}
		raw := string(t.data[at:t.decoder.InputOffset()])
		switch read := read.(type) {
		case xml.StartElement:
			return t.start(read, at, raw)
		case xml.EndElement:
			t.depth--
			return token{kind: endTag, at: at, space: read.Name.Space, name: read.Name.Local}, nil
		case xml.CharData:
			if t.depth > 0 {
				return token{kind: characters, at: at, text: string(read), raw: raw}, nil
			}
			err = t.outside(at, raw)
		case xml.ProcInst:
			err = t.instruction(at, read.Target)
		case xml.Directive:
			err = t.fault(at, "DOCTYPE and other declarations have no place here; delete it")
		}
		if err != nil {
			return token{}, err
		}
	}
}

var errEncoding = errors.New("the file is declared to be in another encoding; save it as UTF-8")

// syntax gives an error of encoding/xml its place.
func (t *tokens) syntax(err error) error {
	if errors.Is(err, errEncoding) {
		return t.fault(int(t.decoder.InputOffset()), "%s", errEncoding)
	}
	text := strings.TrimPrefix(err.Error(), "xml: ")
	if s := (*xml.SyntaxError)(nil); errors.As(err, &s) {
		text = s.Msg
	}
	return t.fault(int(t.decoder.InputOffset()), "not well-formed XML: %s", text)
}

func (t *tokens) endOfFile(at int) (token, error) {
	if !t.rooted {
		return token{}, t.fault(at, "the file holds no element; an SVG file has one <svg>")
	}
	return token{kind: endOfFile, at: at}, nil
}

// outside allows only white space before and behind the root.
func (t *tokens) outside(at int, raw string) error {
	rest := strings.TrimLeft(raw, xmlSpace)
	if rest == "" {
		return nil
	}
	return t.fault(at+len(raw)-len(rest), "text outside the root element: %q", shorten(rest))
}

func (t *tokens) instruction(at int, target string) error {
	if target != "xml" {
		return t.fault(at, "processing instruction <?%s?> has no place here; delete it", shorten(target))
	}
	if at > 0 {
		return t.fault(at, "the XML declaration must be the first thing in the file")
	}
	return nil
}

func (t *tokens) start(read xml.StartElement, at int, raw string) (token, error) {
	if t.depth == 0 && t.rooted {
		return token{}, t.fault(at, "a second root element <%s>; a file has one", shorten(read.Name.Local))
	}
	t.depth++
	t.rooted = true
	attrs, err := t.attributes(read, at, raw)
	return token{kind: startTag, at: at, space: read.Name.Space, name: read.Name.Local, attrs: attrs}, err
}

const xmlSpace = " \t\r\n"

// attributes finds each attribute in the raw tag, which encoding/xml has
// read already, and refuses one that is given twice.
func (t *tokens) attributes(read xml.StartElement, at int, raw string) ([]attribute, error) {
	var attrs []attribute
	seen := make(map[xml.Name]bool, len(read.Attr))
	rest := strings.TrimLeft(raw[strings.IndexAny(raw, xmlSpace+"/>"):], "/")
	for _, parsed := range read.Attr {
		trimmed := strings.TrimLeft(rest, xmlSpace)
		a := attribute{space: parsed.Name.Space, value: parsed.Value, at: at + len(raw) - len(trimmed)}
		if len(trimmed) == len(rest) {
			return nil, t.fault(a.at, "white space is missing before an attribute")
		}
		var ok bool
		if a.name, a.raw, rest, ok = cutAttribute(trimmed); !ok {
			return nil, t.fault(a.at, "cannot tell the attributes of <%s> apart", shorten(read.Name.Local))
		}
		a.inner = at + len(raw) - len(rest) - 1 - len(a.raw)
		if seen[parsed.Name] {
			return nil, t.fault(a.at, "attribute %s is given twice", shorten(a.name))
		}
		seen[parsed.Name] = true
		attrs = append(attrs, a)
	}
	return attrs, nil
}

// cutAttribute cuts name="value" off the front of a tag's text.
func cutAttribute(text string) (name, value, rest string, ok bool) {
	end := strings.IndexAny(text, "="+xmlSpace)
	open := strings.IndexAny(text, `"'`)
	if end < 0 || open < end {
		return "", "", "", false
	}
	value, rest, ok = strings.Cut(text[open+1:], text[open:open+1])
	return text[:end], value, rest, ok
}
