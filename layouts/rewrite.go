package layouts

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// An Edit gives a key of a design file another value, as TOML text; an empty
// one takes the key out.
type Edit struct {
	Key   string // with full stops: "front.margin", "papers.0.sheet"
	Value string
}

// Rewrite returns a design file with keys changed and all else as it was.
// Comments stay: those of a key that is taken out, where it stood, and those
// within a value that is changed, above it. A key that is not there is put below the head of its table,
// or into the table where that stands on one line; a table that is not there
// goes to the end of the file. What cannot be changed in this way is an error.
func Rewrite(source []byte, edits []Edit) ([]byte, error) {
	source = bytes.TrimPrefix(source, byteOrderMark)
	keys := findKeys(source)
	var changes []change
	missing := map[string][]Edit{}
	var tables []string
	for _, e := range edits {
		at, ok := keys.places[e.Key]
		if !ok {
			if e.Value == "" {
				continue
			}
			table, _ := splitKey(e.Key)
			if missing[table] == nil {
				tables = append(tables, table)
			}
			missing[table] = append(missing[table], e)
			continue
		}
		start := offsetOf(source, at)
		from, to, ok := valueAt(source, start)
		if !ok {
			return nil, fmt.Errorf("%s cannot be changed where it stands; write it on a line of its own", e.Key)
		}
		left := commentsIn(source[from:to])
		if e.Value != "" {
			changes = append(changes, change{from, to, e.Value})
		} else if line, end := lineAround(source, start, to); line < start || end > to {
			changes = append(changes, change{line, end, left + commentsIn(source[to:end])})
			continue
		} else {
			changes = append(changes, change{start, to, ""})
		}
		if left != "" {
			above := expressionLine(source, start)
			changes = append(changes, change{above, above, left})
		}
	}
	for _, table := range tables {
		changes = append(changes, newKeys(source, keys, table, missing[table]))
	}
	return changed(source, changes), nil
}

// change puts a text in place of the bytes from..to.
type change struct {
	from, to int
	text     string
}

// changed carries out changes that do not overlap.
func changed(source []byte, changes []change) []byte {
	slices.SortStableFunc(changes, func(a, b change) int { return b.from - a.from })
	out := slices.Clone(source)
	for _, c := range changes {
		out = slices.Concat(out[:c.from], []byte(c.text), out[c.to:])
	}
	return out
}

// newKeys writes keys that a table has not yet.
func newKeys(source []byte, keys *fileKeys, table string, edits []Edit) change {
	at, before, after, between := 0, "", "\n", "\n"
	if table != "" {
		place, ok := keys.places[table]
		if !ok {
			return change{len(source), len(source), "\n[" + table + "]\n" + keyLines(edits, "", "\n") + "\n"}
		}
		at = offsetOf(source, place)
		start := bytes.LastIndexByte(source[:at], '\n') + 1
		value, _, hasValue := valueAt(source, at)
		switch isHead := bytes.HasPrefix(bytes.TrimLeft(source[start:], " \t"), []byte("[")); {
		case isHead:
			if end := bytes.IndexByte(source[at:], '\n'); end >= 0 {
				at += end + 1
			} else {
				at, before = len(source), "\n"
			}
		case hasValue && source[value] == '{' && keys.values[table]:
			at, before, after, between = value+1, "", ", ", ", "
			if rest := bytes.TrimLeft(source[at:], " \t\n"); len(rest) > 0 && rest[0] == '}' {
				after = ""
			}
		default: // written "card.size = ..."
			return change{start, start, keyLines(edits, table+".", "\n") + "\n"}
		}
	}
	return change{at, at, before + keyLines(edits, "", between) + after}
}

// endLine is what ends the last line of a text, where nothing does.
func endLine(source []byte) string {
	if len(source) == 0 || source[len(source)-1] == '\n' {
		return ""
	}
	return "\n"
}

func keyLines(edits []Edit, before, between string) string {
	lines := make([]string, len(edits))
	for i, e := range edits {
		_, name := splitKey(e.Key)
		lines[i] = before + quotedKey(name) + " = " + e.Value
	}
	return strings.Join(lines, between)
}

// splitKey parts a key from its table. A name of [shapes] may hold full
// stops; it is all that follows.
func splitKey(key string) (table, name string) {
	if rest, ok := strings.CutPrefix(key, "shapes."); ok {
		return "shapes", rest
	}
	i := strings.LastIndexByte(key, '.')
	return key[:max(0, i)], key[i+1:]
}

// quotedKey writes a name as a key.
func quotedKey(name string) string {
	if bareKey.MatchString(name) {
		return name
	}
	return QuoteText(name)
}

var bareKey = regexp.MustCompile(`^[A-Za-z0-9_-]+$`)

// offsetOf returns the byte where a place lies.
func offsetOf(data []byte, at place) int {
	offset := 0
	for line := 1; line < at.line; line++ {
		offset += bytes.IndexByte(data[offset:], '\n') + 1
	}
	return offset + at.column - 1
}

// valueAt returns where the value of the key at an offset starts and ends.
func valueAt(data []byte, key int) (from, to int, ok bool) {
	i := key
	for i < len(data) && data[i] != '=' && data[i] != '\n' {
		if data[i] == '"' || data[i] == '\'' { // a quoted key
			i = stringEnd(data, i)
			continue
		}
		i++
	}
	if i >= len(data) || data[i] != '=' {
		return 0, 0, false
	}
	i++
	for i < len(data) && (data[i] == ' ' || data[i] == '\t') {
		i++
	}
	from = i
	depth := 0
	for i < len(data) {
		switch c := data[i]; {
		case c == '"' || c == '\'':
			i = stringEnd(data, i)
			continue
		case c == '[' || c == '{':
			depth++
		case (c == ']' || c == '}') && depth > 0:
			depth--
		case c == '#' && depth > 0:
			for i < len(data) && data[i] != '\n' {
				i++
			}
			continue
		case depth == 0 && strings.IndexByte("\r\n#,}]", c) >= 0:
			return from, from + len(bytes.TrimRight(data[from:i], " \t")), i > from
		}
		i++
	}
	return from, from + len(bytes.TrimRight(data[from:], " \t\r\n")), depth == 0 && from < len(data)
}

// stringEnd returns where the string that starts at an offset ends.
func stringEnd(data []byte, at int) int {
	mark := data[at : at+1]
	if long := bytes.Repeat(mark, 3); bytes.HasPrefix(data[at:], long) {
		if end := bytes.Index(data[at+3:], long); end >= 0 {
			return at + 3 + end + 3
		}
		return len(data)
	}
	for i := at + 1; i < len(data) && data[i] != '\n'; i++ {
		if data[i] == '\\' && mark[0] == '"' {
			i++
		} else if data[i] == mark[0] {
			return i + 1
		}
	}
	return len(data)
}

// commentsIn returns the comments of a piece of TOML that begins outside of
// strings, each on a line of its own.
func commentsIn(data []byte) string {
	var b strings.Builder
	for i := 0; i < len(data); {
		switch data[i] {
		case '"', '\'':
			i = stringEnd(data, i)
		case '#':
			comment, _, _ := bytes.Cut(data[i:], []byte("\n"))
			b.Write(bytes.TrimRight(comment, "\r"))
			b.WriteByte('\n')
			i += len(comment)
		default:
			i++
		}
	}
	return b.String()
}

// expressionLine returns the start of the line on which the expression begins
// that a key stands in: the whole value, where that is a table on one line.
func expressionLine(data []byte, key int) int {
	var parser unstable.Parser
	parser.Reset(data)
	begin := 0
	for parser.NextExpression() {
		e := parser.Expression()
		if e.Kind != unstable.KeyValue {
			continue
		}
		parts := e.Key()
		if !parts.Next() || int(parts.Node().Raw.Offset) > key {
			break
		}
		begin = int(parts.Node().Raw.Offset)
	}
	return bytes.LastIndexByte(data[:begin], '\n') + 1
}

// lineAround widens a key and its value to their whole line, where nothing
// else stands on it.
func lineAround(data []byte, key, end int) (int, int) {
	start := bytes.LastIndexByte(data[:key], '\n') + 1
	stop := len(data)
	if i := bytes.IndexByte(data[end:], '\n'); i >= 0 {
		stop = end + i + 1
	}
	rest := bytes.TrimSpace(data[end:stop])
	if len(bytes.TrimSpace(data[start:key])) > 0 || len(rest) > 0 && rest[0] != '#' {
		return key, end
	}
	return start, stop
}

// RawValue returns the value of a key as it stands in the file; false where
// it does not.
func (d Design) RawValue(key string) (string, bool) {
	source := bytes.TrimPrefix(d.Source, byteOrderMark)
	at, ok := findKeys(source).places[key]
	if !ok {
		return "", false
	}
	from, to, ok := valueAt(source, offsetOf(source, at))
	return string(source[from:to]), ok
}

// ReadValue reads the text of one value as a design file has it: a string,
// an int64, a float64, a bool, a []any or a map[string]any.
func ReadValue(text string) (value any, ok bool) {
	var holder struct{ V any }
	err := toml.Unmarshal([]byte("V = "+text), &holder)
	return holder.V, err == nil && holder.V != nil
}

// RawValue returns the value of a key as it stands in the text of a design
// file; false where it does not.
func RawValue(source []byte, key string) (string, bool) { return Design{Source: source}.RawValue(key) }

// RawValues returns all keys of the text of a design file that have a value,
// with their values as they stand.
func RawValues(source []byte) map[string]string {
	source = bytes.TrimPrefix(source, byteOrderMark)
	keys := findKeys(source)
	out := map[string]string{}
	for key := range keys.values {
		if from, to, ok := valueAt(source, offsetOf(source, keys.places[key])); ok {
			out[key] = string(source[from:to])
		}
	}
	return out
}
