package markup

import (
	"strconv"
	"strings"
)

// MostExpanded is how many bytes all uses of a file's own entities may add
// to it, and mostInside how deep one may stand inside another: a few short
// declarations must not grow to gigabytes.
const (
	MostExpanded = 1 << 20
	mostInside   = 16
)

// predefined are the entities that XML 1.0 §4.6 gives every file.
var predefined = map[string]bool{"amp": true, "lt": true, "gt": true, "quot": true, "apos": true}

// expand cuts the DOCTYPE out of the text and puts the replacement of each
// general entity that it declares where the entity is used (XML 1.0 §4.4).
func (t *Tokens) expand() (string, []piece, []Oddity, error) {
	text := t.text
	at := findDoctype(text)
	if at < 0 {
		return text, nil, nil, nil
	}
	d := &doctype{text: text, at: at + len("<!DOCTYPE"), tokens: t, entities: map[string]string{}}
	end, err := d.read()
	if err != nil {
		return "", nil, nil, err
	}
	odd := Oddity{Kind: Doctype, Place: t.Places([]int{at})[0], Text: "the file has a DOCTYPE"}
	if d.more {
		odd.Kind, odd.Text = Declarations, "the DOCTYPE declares more than entities, which is not read"
	} else if len(d.entities) > 0 {
		odd.Kind, odd.Text = Entities, "the DOCTYPE declares entities"
	}
	e := &expander{entities: d.entities, tokens: t, left: MostExpanded}
	for name := range d.entities {
		e.longest = max(e.longest, len(name))
	}
	e.copy(0, at)
	if err := e.run(text, end, 0, false); err != nil {
		return "", nil, nil, err
	}
	return e.out.String(), e.pieces, []Oddity{odd}, nil
}

// findDoctype returns where the DOCTYPE starts, or -1: it can only stand
// before the root, behind comments and instructions.
func findDoctype(text string) int {
	for at := 0; ; {
		open := strings.IndexByte(text[at:], '<')
		if open < 0 {
			return -1
		}
		at += open
		var end string
		switch rest := text[at:]; {
		case strings.HasPrefix(rest, "<!DOCTYPE"):
			return at
		case strings.HasPrefix(rest, "<!--"):
			at, end = at+4, "-->"
		case strings.HasPrefix(rest, "<?"):
			at, end = at+2, "?>"
		default:
			return -1
		}
		closed := strings.Index(text[at:], end)
		if closed < 0 {
			return -1
		}
		at += closed + len(end)
	}
}

// doctype reads a DOCTYPE and the entities that it declares.
type doctype struct {
	text     string
	at       int
	tokens   *Tokens
	entities map[string]string
	more     bool // declarations that are not read
}

func (d *doctype) fault(format string, args ...any) error {
	return d.tokens.Fault(min(d.at, len(d.text)), format, args...)
}

// read returns where the text goes on behind the DOCTYPE.
func (d *doctype) read() (int, error) {
	inside := false
	for d.at < len(d.text) {
		rest := d.text[d.at:]
		switch c := rest[0]; {
		case c == '>' && !inside:
			return d.at + 1, nil
		case c == '[' && !inside:
			inside = true
			d.at++
		case c == ']' && inside:
			inside = false
			d.at++
		case c == '"' || c == '\'':
			if _, ok := d.quoted(); !ok {
				return 0, d.fault("a quotation mark in the DOCTYPE is not closed")
			}
		case strings.HasPrefix(rest, "<!--"):
			d.at += len("<!--") // whose hyphens do not end it too
			if !d.skip("-->") {
				return 0, d.fault("a comment in the DOCTYPE is not closed")
			}
		case strings.HasPrefix(rest, "<?"):
			if !d.skip("?>") {
				return 0, d.fault("an instruction in the DOCTYPE is not closed")
			}
		case strings.HasPrefix(rest, "<!ENTITY") && inside:
			if err := d.entity(); err != nil {
				return 0, err
			}
		case strings.HasPrefix(rest, "<!") && inside:
			d.more = true
			d.at += 2
			if err := d.declaration(); err != nil {
				return 0, err
			}
		case c == '%' && inside: // a parameter entity's use
			d.more = true
			d.at++
		default:
			d.at++
		}
	}
	return 0, d.fault("the DOCTYPE is not closed")
}

func (d *doctype) skip(end string) bool {
	i := strings.Index(d.text[d.at:], end)
	if i < 0 {
		return false
	}
	d.at += i + len(end)
	return true
}

// quoted reads a literal in quotation marks.
func (d *doctype) quoted() (string, bool) {
	mark := d.text[d.at : d.at+1]
	value, _, ok := strings.Cut(d.text[d.at+1:], mark)
	if ok {
		d.at += len(value) + 2
	}
	return value, ok
}

// declaration skips to behind the > of a declaration.
func (d *doctype) declaration() error {
	for d.at < len(d.text) {
		switch d.text[d.at] {
		case '>':
			d.at++
			return nil
		case '"', '\'':
			if _, ok := d.quoted(); !ok {
				return d.fault("a quotation mark in the DOCTYPE is not closed")
			}
		default:
			d.at++
		}
	}
	return d.fault("a declaration in the DOCTYPE is not closed")
}

// entity reads <!ENTITY name "value">. The first declaration of a name
// counts (XML 1.0 §4.2). One that stands for another file, or for a part of
// the DOCTYPE, is not read.
func (d *doctype) entity() error {
	d.at += len("<!ENTITY")
	d.space()
	start := d.at
	for d.at < len(d.text) && !strings.ContainsRune(Space+`>"'`, rune(d.text[d.at])) {
		d.at++
	}
	name := d.text[start:d.at]
	d.space()
	if d.at < len(d.text) && (d.text[d.at] == '"' || d.text[d.at] == '\'') && name != "%" {
		value, ok := d.quoted()
		if !ok {
			return d.fault("the value of entity %s is not closed", Shorten(name))
		}
		if strings.Contains(value, "%") {
			d.more = true
		}
		if _, again := d.entities[name]; !again {
			d.entities[name] = resolveCharacters(value)
		}
	} else {
		d.more = true
	}
	return d.declaration()
}

func (d *doctype) space() {
	for d.at < len(d.text) && strings.IndexByte(Space, d.text[d.at]) >= 0 {
		d.at++
	}
}

// resolveCharacters puts in the characters that references such as &#38;
// stand for, which happens when an entity is declared (XML 1.0 §4.5).
func resolveCharacters(value string) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(value, "&#")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		// Only so far is looked for the end: else many references without one
		// would each look through all the rest.
		digits, _, closed := strings.Cut(rest[:min(len(rest), longestReference)], ";")
		base := 10
		number := digits
		if strings.HasPrefix(digits, "x") {
			base, number = 16, digits[1:]
		}
		code, err := strconv.ParseUint(number, base, 32)
		if !closed || err != nil || code > 0x10FFFF {
			b.WriteString("&#")
			value = rest
			continue
		}
		b.WriteRune(rune(code))
		value = rest[len(digits)+1:]
	}
}

// longestReference is how many bytes of a reference are looked at.
const longestReference = 100

// expander copies a text and resolves its entities.
type expander struct {
	entities map[string]string
	tokens   *Tokens
	out      strings.Builder
	pieces   []piece
	left     int // bytes that may still be added
	longest  int // length of the longest name
	from     int // where the entity that is being resolved stands in the file
}

// copy copies a part of the file as it is.
func (e *expander) copy(from, to int) {
	if from < to {
		e.pieces = append(e.pieces, piece{start: e.out.Len(), from: from})
		e.out.WriteString(e.tokens.text[from:to])
	}
}

// run copies text from at on. Inside an entity, depth levels deep, it counts
// what it adds; in an attribute's value a quotation mark that comes from an
// entity does not end the value.
func (e *expander) run(text string, at, depth int, inValue bool) error {
	write := func(from, to int) error {
		if depth == 0 {
			e.copy(from, to)
			return nil
		}
		part := text[from:to]
		if inValue {
			part = strings.NewReplacer(`"`, "&quot;", "'", "&apos;").Replace(part)
		}
		if e.left -= len(part); e.left < 0 {
			return e.tokens.Fault(e.from, "the entities of the DOCTYPE grow to more than %d MB", MostExpanded>>20)
		}
		e.out.WriteString(part)
		return nil
	}
	start := at
	var mark byte // the quotation mark of the attribute value we are in
	inTag := false
	for at < len(text) {
		c := text[at]
		switch {
		case c == '&':
			end := strings.IndexByte(text[at:min(len(text), at+e.longest+2)], ';')
			if end < 0 {
				at++
				continue
			}
			name := text[at+1 : at+end]
			value, ok := e.entities[name]
			if !ok || predefined[name] {
				at++
				continue
			}
			if inTag && mark == 0 {
				if depth == 0 {
					e.from = at
				}
				return e.tokens.Fault(e.from, "entity %s stands inside a tag, where it can only stand in a value", Shorten(name))
			}
			if err := write(start, at); err != nil {
				return err
			}
			if depth == 0 {
				e.from = at
				e.pieces = append(e.pieces, piece{start: e.out.Len(), from: at, entity: true})
			}
			if depth >= mostInside {
				return e.tokens.Fault(e.from, "entity %s: entities stand inside one another more than %d deep", Shorten(name), mostInside)
			}
			if e.left -= 8; e.left < 0 { // an empty entity costs time too
				return e.tokens.Fault(e.from, "the entities of the DOCTYPE are used too often")
			}
			if err := e.run(value, 0, depth+1, inValue || mark != 0); err != nil {
				return err
			}
			at += end + 1
			start = at
		case inValue:
			at++
		case mark != 0:
			if c == mark {
				mark = 0
			}
			at++
		case inTag && (c == '"' || c == '\''):
			mark = c
			at++
		case inTag:
			inTag = c != '>'
			at++
		case c == '<':
			skip := ""
			switch rest := text[at:]; {
			case strings.HasPrefix(rest, "<!--"):
				at, skip = at+len("<!--"), "-->"
			case strings.HasPrefix(rest, "<![CDATA["):
				at, skip = at+len("<![CDATA["), "]]>"
			case strings.HasPrefix(rest, "<?"):
				at, skip = at+len("<?"), "?>"
			default:
				at, inTag = at+1, true
			}
			if skip != "" {
				end := strings.Index(text[at:], skip)
				if end < 0 {
					end = len(text) - at
				}
				at += end
			}
		default:
			at++
		}
	}
	return write(start, len(text))
}
