package layouts

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
)

// An Edit gives a key of a design file another value, as TOML text; an empty
// one takes the key out.
type Edit struct {
	Key   string // with full stops: "front.margin", "papers.0.sheet"
	Value string
}

// Rewrite returns a design file with keys changed and all else, comments
// too, as it was. A key that is not there is put below the head of its table;
// a table that is not there goes to the end of the file.
func Rewrite(source []byte, edits []Edit) ([]byte, error) {
	source = bytes.TrimPrefix(source, byteOrderMark)
	keys := findKeys(source)
	type change struct {
		from, to int
		text     string
	}
	var changes []change
	missing := map[string][]Edit{}
	var tables []string
	for _, e := range edits {
		at, ok := keys.places[e.Key]
		if !ok {
			if e.Value == "" {
				continue
			}
			table := ""
			if i := strings.LastIndexByte(e.Key, '.'); i >= 0 {
				table = e.Key[:i]
			}
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
		if e.Value == "" {
			from, to = lineAround(source, start, to)
		}
		changes = append(changes, change{from, to, e.Value})
	}
	for _, table := range tables {
		var lines strings.Builder
		for _, e := range missing[table] {
			name := e.Key[strings.LastIndexByte(e.Key, '.')+1:]
			lines.WriteString(name + " = " + e.Value + "\n")
		}
		at, text := 0, lines.String()
		if table != "" {
			place, ok := keys.places[table]
			if ok {
				at = offsetOf(source, place)
				if end := bytes.IndexByte(source[at:], '\n'); end >= 0 {
					at += end + 1
				} else {
					at, text = len(source), "\n"+text
				}
			} else {
				at, text = len(source), "\n["+table+"]\n"+text
			}
		}
		changes = append(changes, change{at, at, text})
	}
	slices.SortStableFunc(changes, func(a, b change) int { return b.from - a.from })
	out := slices.Clone(source)
	for _, c := range changes {
		out = slices.Concat(out[:c.from], []byte(c.text), out[c.to:])
	}
	return out, nil
}

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
