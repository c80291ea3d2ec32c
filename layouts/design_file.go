package layouts

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"panelry/layouts/wording"
)

// file is the design file as TOML has it. Values are kept as they came, so
// that each can be judged in the maker's words; [front] takes any key,
// because each layout has options of its own.
type file struct {
	Title  any            `toml:"title"`
	Units  any            `toml:"units"`
	Ruler  any            `toml:"ruler"`
	Tool   any            `toml:"tool"`
	Card   fileCard       `toml:"card"`
	Front  map[string]any `toml:"front"`
	Batch  fileBatch      `toml:"batch"`
	Sheets fileSheets     `toml:"sheets"`
	Papers []filePaper    `toml:"papers"`
}

type fileCard struct {
	Size        any `toml:"size"`
	Width       any `toml:"width"`
	Height      any `toml:"height"`
	Orientation any `toml:"orientation"`
	Base        any `toml:"base"`
	Paper       any `toml:"paper"`
}

type fileBatch struct {
	Cards  any `toml:"cards"`
	Plan   any `toml:"plan"`
	Spares any `toml:"spares"`
}

type fileSheets struct {
	Edge    any `toml:"edge"`
	Spacing any `toml:"spacing"`
	Bleed   any `toml:"bleed"`
	Labels  any `toml:"labels"`
	Effort  any `toml:"effort"`
	Seed    any `toml:"seed"`

	CutColour   any `toml:"cut_colour"`
	ScoreColour any `toml:"score_colour"`
	PrintColour any `toml:"print_colour"`
}

type filePaper struct {
	Name      any `toml:"name"`
	Sheet     any `toml:"sheet"`
	Measured  any `toml:"measured"`
	Have      any `toml:"have"`
	Colour    any `toml:"colour"`
	Drawing   any `toml:"drawing"`
	Pattern   any `toml:"pattern"`
	PatternUp any `toml:"pattern_up"`
	Sides     any `toml:"sides"`
	Grain     any `toml:"grain"`
	GSM       any `toml:"gsm"`
	Weight    any `toml:"weight"`
	Caliper   any `toml:"caliper"`
	Price     any `toml:"price"`
	Edge      any `toml:"edge"`
	Spacing   any `toml:"spacing"`
}

// frontKeys are the keys of [front] that every layout has.
var frontKeys = []string{"layout", "margin", "gap", "papers", "direction"}

// A Problem is one thing wrong with a design file.
type Problem struct {
	Line, Column int    // from 1; 0 when it belongs to no place
	Key          string // "front.margin", "papers 2 (kelp).sheet", or ""
	Text         string // a sentence, lower case, without a full stop
}

func (p Problem) Error() string {
	text := p.Text
	if p.Key != "" {
		text = p.Key + ": " + text
	}
	if p.Line > 0 {
		text = fmt.Sprintf("%d:%d: %s", p.Line, p.Column, text)
	}
	return text
}

// Problems are all things wrong with a design file, in the file's order.
type Problems []Problem

func (p Problems) Error() string {
	lines := make([]string, len(p))
	for i := range p {
		lines[i] = p[i].Error()
	}
	return strings.Join(lines, "\n")
}

// place is where a key stands in the file.
type place struct{ line, column int }

// decode reads TOML strictly. What cannot be read as TOML at all, or has a
// value where a table belongs, is one problem; unknown keys are one each.
func decode(data []byte) (file, map[string]place, Problems) {
	if p, bad := notText(data); bad {
		return file{}, nil, Problems{p}
	}
	var f file
	err := toml.NewDecoder(bytes.NewReader(data)).DisallowUnknownFields().Decode(&f)
	var unknown *toml.StrictMissingError
	var wrong *toml.DecodeError
	switch {
	case errors.As(err, &unknown):
		var problems Problems
		for i := range unknown.Errors {
			problems = append(problems, unknownKey(&unknown.Errors[i]))
		}
		return f, places(data), problems
	case errors.As(err, &wrong):
		return file{}, nil, Problems{unreadable(wrong, data)}
	case err != nil:
		return file{}, nil, Problems{{Text: "this cannot be read as a design file"}}
	}
	return f, places(data), nil
}

func notText(data []byte) (Problem, bool) {
	if len(data) > MostBytes {
		return Problem{Text: fmt.Sprintf("larger than %d bytes; is this a design file?", MostBytes)}, true
	}
	for i, line := 0, 1; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && size == 1 || r == 0 {
			return Problem{Line: line, Column: 1, Text: "not a text file; a design is a TOML file in UTF-8"}, true
		}
		if r == '\n' {
			line++
		}
		i += size
	}
	return Problem{}, false
}

// unknownKey names the nearest key of the same table.
func unknownKey(e *toml.DecodeError) Problem {
	line, column := e.Position()
	key := e.Key()
	known := knownKeys(key[:len(key)-1])
	last := key[len(key)-1]
	return Problem{line, column, strings.Join(key, "."), "no such key" + meantKey(last, known)}
}

// meantKey ends a sentence with the nearest key, or with all of a few.
func meantKey(key string, known []string) string {
	if meant := wording.Meant(key, known); meant != "" {
		return meant
	}
	return "; known here: " + strings.Join(known, ", ")
}

// knownKeys lists the keys of a table, which is given by its own key.
func knownKeys(table []string) []string {
	t := reflect.TypeFor[file]()
	for _, name := range table {
		for t.Kind() == reflect.Slice {
			t = t.Elem()
		}
		if t.Kind() != reflect.Struct {
			return nil
		}
		for i := range t.NumField() {
			if t.Field(i).Tag.Get("toml") == name {
				t = t.Field(i).Type
				break
			}
		}
	}
	for t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct {
		return nil
	}
	var keys []string
	for i := range t.NumField() {
		keys = append(keys, t.Field(i).Tag.Get("toml"))
	}
	return keys
}

// unreadable puts the parser's complaint in other words: its own can name
// types of the program.
func unreadable(e *toml.DecodeError, data []byte) Problem {
	line, column := e.Position()
	key := strings.Join(e.Key(), ".")
	if key != "" && slices.Contains([]string{"card", "front", "batch", "sheets"}, key) {
		return Problem{line, column, key, fmt.Sprintf("this is a table; write [%s] on a line of its own and its keys below", key)}
	}
	if key == "papers" {
		return Problem{line, column, key, "each paper is a table; write [[papers]] on a line of its own and its keys below"}
	}
	text := "this is not TOML"
	if lines := strings.Split(string(data), "\n"); line >= 1 && line <= len(lines) && looksLikeLength(lines[line-1]) {
		text += `; put fractions in quotes, like margin = "1/16"`
	} else {
		text += " (" + strings.TrimPrefix(e.Error(), "toml: ") + ")"
	}
	return Problem{line, column, "", text}
}

// looksLikeLength reports whether a line sets a key to a bare fraction.
func looksLikeLength(line string) bool {
	_, value, found := strings.Cut(line, "=")
	value = strings.TrimSpace(value)
	return found && value != "" && value[0] >= '0' && value[0] <= '9' && strings.ContainsAny(value, "/ ")
}

// places finds where each key stands: "front.margin", "papers.0.name".
func places(data []byte) map[string]place {
	found := map[string]place{}
	counts := map[string]int{}
	var p unstable.Parser
	p.Reset(data)
	table := ""
	for p.NextExpression() {
		e := p.Expression()
		key, at := keyOf(&p, e)
		switch e.Kind {
		case unstable.Table:
			table = key + "."
			found[key] = at
		case unstable.ArrayTable:
			table = key + "." + strconv.Itoa(counts[key]) + "."
			found[strings.TrimSuffix(table, ".")] = at
			counts[key]++
		case unstable.KeyValue:
			found[table+key] = at
			placesInside(&p, e.Value(), table+key, found)
		}
	}
	return found
}

// placesInside finds the keys of an inline table.
func placesInside(p *unstable.Parser, value *unstable.Node, prefix string, found map[string]place) {
	if value == nil || value.Kind != unstable.InlineTable {
		return
	}
	for it := value.Children(); it.Next(); {
		key, at := keyOf(p, it.Node())
		found[prefix+"."+key] = at
	}
}

// keyOf returns a dotted key and where it starts.
func keyOf(p *unstable.Parser, e *unstable.Node) (string, place) {
	var parts []string
	var at place
	for it := e.Key(); it.Next(); {
		n := it.Node()
		if len(parts) == 0 {
			start := p.Shape(n.Raw).Start
			at = place{start.Line, start.Column}
		}
		parts = append(parts, string(n.Data))
	}
	return strings.Join(parts, "."), at
}
