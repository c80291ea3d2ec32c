package markup

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// A Kind is what a [Token] is.
type Kind int

const (
	EndOfFile Kind = iota
	StartTag
	EndTag
	Characters
	Instruction // a processing instruction; only from [Open]
)

// A Token is a tag, a run of text or an instruction, with its place as a
// byte offset of the text.
type Token struct {
	Kind  Kind
	At    int
	Space string // namespace of a tag
	Name  string // of a tag, without prefix; the target of an instruction
	Attrs []Attribute
	Text  string // of characters or an instruction
	Raw   string // characters as written, references not resolved
}

// An Attribute is one attribute of a start tag, and where it stands.
type Attribute struct {
	Space string // namespace; "" for an attribute without prefix
	Name  string // as written, with its prefix
	Local string // without prefix
	Value string
	At    int
	Inner int    // where the value starts
	Raw   string // the value as written, references not resolved
}

// Place returns where byte i of the value stands. Behind a reference such as
// &amp; it is only known where the value starts.
func (a Attribute) Place(i int) int {
	if a.Raw != a.Value {
		return a.Inner
	}
	return a.Inner + i
}

// Tokens reads a text as XML. It knows nothing of SVG: it makes sure that
// the text is one well-formed element and gives each tag its place. On top
// of what encoding/xml checks it refuses a second root, text outside the
// root, an attribute given twice and elements nested deeper than [MostDeep];
// one from [New] also a DOCTYPE and processing instructions. Comments are
// left out.
type Tokens struct {
	text    string
	pieces  []piece // where the text comes from; none where it is the file
	file    string
	strict  bool
	decoder *xml.Decoder
	depth   int
	rooted  bool // the root has started
}

// MostDeep is how deep elements may be nested. A drawing rarely passes 20.
const MostDeep = 512

// New reads what must be plain UTF-8: no byte order mark, no other encoding,
// no DOCTYPE, no instruction but the XML declaration.
func New(data []byte) (*Tokens, error) {
	t := newTokens(string(data), string(data), nil, true)
	if bytes.HasPrefix(data, []byte("\uFEFF")) {
		return nil, t.Fault(0, "the file starts with a byte order mark; save it as UTF-8 without one")
	}
	return t, t.checkUTF8()
}

func newTokens(file, text string, pieces []piece, strict bool) *Tokens {
	t := &Tokens{file: file, text: text, pieces: pieces, strict: strict, decoder: xml.NewDecoder(strings.NewReader(text))}
	t.decoder.CharsetReader = func(_ string, r io.Reader) (io.Reader, error) {
		if strict {
			return nil, errEncoding
		}
		return r, nil // Open has turned it into UTF-8
	}
	return t
}

func (t *Tokens) checkUTF8() error {
	if utf8.ValidString(t.text) {
		return nil
	}
	for at := 0; ; {
		r, width := utf8.DecodeRuneInString(t.text[at:])
		if r == utf8.RuneError && width == 1 {
			return t.Fault(at, "the byte %#x is not UTF-8; save the file as UTF-8", t.text[at])
		}
		at += width
	}
}

// Next returns the next tag or text, and at the end of the file a token of
// the kind EndOfFile. Its errors are [Fault]s.
func (t *Tokens) Next() (Token, error) {
	for {
		at := int(t.decoder.InputOffset())
		read, err := t.decoder.Token()
		if errors.Is(err, io.EOF) {
			return t.endOfFile(at)
		}
		if err != nil {
			return Token{}, t.syntax(err)
		}
		raw := t.text[at:t.decoder.InputOffset()]
		switch read := read.(type) {
		case xml.StartElement:
			return t.start(read, at, raw)
		case xml.EndElement:
			t.depth--
			return Token{Kind: EndTag, At: at, Space: read.Name.Space, Name: read.Name.Local}, nil
		case xml.CharData:
			if t.depth > 0 {
				return Token{Kind: Characters, At: at, Text: string(read), Raw: raw}, nil
			}
			err = t.outside(at, raw)
		case xml.ProcInst:
			if read.Target != "xml" && !t.strict {
				return Token{Kind: Instruction, At: at, Name: read.Target, Text: string(read.Inst)}, nil
			}
			err = t.instruction(at, read.Target)
		case xml.Directive:
			err = t.Fault(at, "DOCTYPE and other declarations have no place here; delete it")
		}
		if err != nil {
			return Token{}, err
		}
	}
}

var errEncoding = errors.New("the file is declared to be in another encoding; save it as UTF-8")

// syntax gives an error of encoding/xml its place.
func (t *Tokens) syntax(err error) error {
	if errors.Is(err, errEncoding) {
		return t.Fault(int(t.decoder.InputOffset()), "%s", errEncoding)
	}
	text := strings.TrimPrefix(err.Error(), "xml: ")
	if s := (*xml.SyntaxError)(nil); errors.As(err, &s) {
		text = s.Msg
	}
	return t.Fault(int(t.decoder.InputOffset()), "not well-formed XML: %s", text)
}

func (t *Tokens) endOfFile(at int) (Token, error) {
	if !t.rooted {
		return Token{}, t.Fault(at, "the file holds no element; an SVG file has one <svg>")
	}
	return Token{Kind: EndOfFile, At: at}, nil
}

// outside allows only white space before and behind the root.
func (t *Tokens) outside(at int, raw string) error {
	rest := strings.TrimLeft(raw, Space)
	if rest == "" {
		return nil
	}
	return t.Fault(at+len(raw)-len(rest), "text outside the root element: %q", Shorten(rest))
}

func (t *Tokens) instruction(at int, target string) error {
	if target != "xml" {
		return t.Fault(at, "processing instruction <?%s?> has no place here; delete it", Shorten(target))
	}
	if at > 0 {
		return t.Fault(at, "the XML declaration must be the first thing in the file")
	}
	return nil
}

func (t *Tokens) start(read xml.StartElement, at int, raw string) (Token, error) {
	if t.depth == 0 && t.rooted {
		return Token{}, t.Fault(at, "a second root element <%s>; a file has one", Shorten(read.Name.Local))
	}
	if t.depth >= MostDeep {
		return Token{}, t.Fault(at, "elements are nested more than %d deep", MostDeep)
	}
	t.depth++
	t.rooted = true
	attrs, err := t.attributes(read, at, raw)
	return Token{Kind: StartTag, At: at, Space: read.Name.Space, Name: read.Name.Local, Attrs: attrs}, err
}

// Space is the white space of XML 1.0 §2.3.
const Space = " \t\r\n"

// attributes finds each attribute in the raw tag, which encoding/xml has
// read already, and refuses one that is given twice.
func (t *Tokens) attributes(read xml.StartElement, at int, raw string) ([]Attribute, error) {
	if len(read.Attr) == 0 {
		return nil, nil
	}
	attrs := make([]Attribute, 0, len(read.Attr))
	seen := make(map[xml.Name]bool, len(read.Attr))
	rest := strings.TrimLeft(raw[strings.IndexAny(raw, Space+"/>"):], "/")
	for _, parsed := range read.Attr {
		trimmed := strings.TrimLeft(rest, Space)
		a := Attribute{Space: parsed.Name.Space, Local: parsed.Name.Local, Value: parsed.Value, At: at + len(raw) - len(trimmed)}
		if len(trimmed) == len(rest) {
			return nil, t.Fault(a.At, "white space is missing before an attribute")
		}
		var ok bool
		if a.Name, a.Raw, rest, ok = cutAttribute(trimmed); !ok {
			return nil, t.Fault(a.At, "cannot tell the attributes of <%s> apart", Shorten(read.Name.Local))
		}
		if a.Raw == a.Value {
			a.Value = a.Raw // one copy of what may be long
		}
		a.Inner = at + len(raw) - len(rest) - 1 - len(a.Raw)
		if seen[parsed.Name] {
			return nil, t.Fault(a.At, "attribute %s is given twice", Shorten(a.Name))
		}
		seen[parsed.Name] = true
		attrs = append(attrs, a)
	}
	return attrs, nil
}

// cutAttribute cuts name="value" off the front of a tag's text.
func cutAttribute(text string) (name, value, rest string, ok bool) {
	end := strings.IndexAny(text, "="+Space)
	open := strings.IndexAny(text, `"'`)
	if end < 0 || open < end {
		return "", "", "", false
	}
	value, rest, ok = strings.Cut(text[open+1:], text[open:open+1])
	return text[:end], value, rest, ok
}

// Shorten keeps a message readable when the text it quotes is long.
func Shorten(text string) string {
	const most = 40
	count := 0
	for i := range text {
		if count == most {
			return text[:i] + "..."
		}
		count++
	}
	return text
}

// A Fault is what is wrong at one place of a file.
type Fault struct {
	At   int // byte offset of the text
	Text string
	Place
}

func (f *Fault) Error() string {
	return fmt.Sprintf("line %d, column %d: %s", f.Line, f.Column, f.Text)
}

// Fault returns an error at a byte of the text.
func (t *Tokens) Fault(at int, format string, args ...any) error {
	return &Fault{At: at, Text: fmt.Sprintf(format, args...), Place: t.Places([]int{at})[0]}
}
