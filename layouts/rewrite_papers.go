package layouts

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
)

// AddTable returns a design file with one more table of a list at its end:
// AddTable(source, "papers", ...) adds a [[papers]] with the given keys.
func AddTable(source []byte, list string, keys []Edit) []byte {
	text := endLine(source) + "\n[[" + list + "]]\n" + keyLines(keys, "", "\n") + "\n"
	return append(bytes.Clone(source), text...)
}

// DropTable returns a design file without the table of that number, from 0,
// and without the comments that stand right above it.
func DropTable(source []byte, list string, number int) ([]byte, error) {
	source = bytes.TrimPrefix(source, byteOrderMark)
	from, to, err := tableAt(source, list, number)
	if err != nil {
		return nil, err
	}
	return changed(source, []change{{from, to, ""}}), nil
}

// SwapTables returns a design file in which a table of a list and the next
// one have changed places, with the comments right above them.
func SwapTables(source []byte, list string, number int) ([]byte, error) {
	source = bytes.TrimPrefix(source, byteOrderMark)
	from, to, err := tableAt(source, list, number)
	if err != nil {
		return nil, err
	}
	from2, to2, err := tableAt(source, list, number+1)
	if err != nil {
		return nil, err
	}
	first, second := withLineEnd(source[from:to]), withLineEnd(source[from2:to2])
	return changed(source, []change{{from, to, second}, {from2, to2, first}}), nil
}

func withLineEnd(text []byte) string { return string(text) + endLine(text) }

// tableAt returns the lines of a table of a list: from the comments right
// above its head to those that belong to the next table.
func tableAt(source []byte, list string, number int) (from, to int, err error) {
	heads := findHeads(source)
	name := fmt.Sprintf("%s.%d", list, number)
	i := slices.IndexFunc(heads, func(h head) bool { return h.name == name })
	if i < 0 {
		return 0, 0, fmt.Errorf("there is no [[%s]] of number %d on a line of its own", list, number+1)
	}
	last := i
	for last+1 < len(heads) && strings.HasPrefix(heads[last+1].name, name+".") {
		last++ // a table within it
	}
	to = len(source)
	if last+1 < len(heads) {
		to = aboveHead(source, heads[last+1].line)
	}
	return aboveHead(source, heads[i].line), to, nil
}

// head is the line of a table's name.
type head struct {
	name string // "card", "papers.1"
	line int    // the offset at which its line starts
}

// findHeads lists the heads of tables in the file's order.
func findHeads(source []byte) []head {
	keys := findKeys(source)
	var out []head
	for _, path := range keys.paths {
		name := strings.Join(path, ".")
		if keys.values[name] {
			continue
		}
		at := offsetOf(source, keys.places[name])
		start := bytes.LastIndexByte(source[:at], '\n') + 1
		if bytes.HasPrefix(bytes.TrimLeft(source[start:at], " \t"), []byte("[")) {
			out = append(out, head{name, start})
		}
	}
	return out
}

// aboveHead goes up from the line of a head over the comments right above it.
func aboveHead(source []byte, line int) int {
	for line > 0 {
		start := bytes.LastIndexByte(source[:line-1], '\n') + 1
		if text := bytes.TrimSpace(source[start:line]); len(text) == 0 || text[0] != '#' {
			return line
		}
		line = start
	}
	return line
}

// QuoteText writes a text as a TOML value: in single quotes where it holds a
// backslash or double quotes, else in double ones.
func QuoteText(text string) string {
	plain := !strings.ContainsFunc(text, func(r rune) bool { return r < 0x20 && r != '\t' || r == 0x7f })
	if plain && strings.ContainsAny(text, `\"`) && !strings.Contains(text, "'") {
		return "'" + text + "'"
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteString(`\` + string(r))
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r < 0x20 || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
