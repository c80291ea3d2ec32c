package layouts

import (
	"bytes"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"panelry/layouts/wording"
)

// place is where a key stands in the file, from 1; columns count bytes, as
// the parser's do.
type place struct{ line, column int }

// fileKeys are the keys that stand in a file.
type fileKeys struct {
	places map[string]place // by path with full stops: "front.margin", "papers.0.name"
	paths  [][]string       // in the file's order: {"papers", "0", "name"}
	values map[string]bool  // the keys that have a value, so are no heads of tables

	parser unstable.Parser
	data   []byte
	counts map[string]int // array tables so far
	at     place          // of the offset
	offset int
}

// findKeys finds all keys up to the first place that is not TOML.
func findKeys(data []byte) *fileKeys {
	k := &fileKeys{places: map[string]place{}, values: map[string]bool{}, data: data, counts: map[string]int{}, at: place{1, 1}}
	k.parser.Reset(data)
	var table []string
	for k.parser.NextExpression() {
		e := k.parser.Expression()
		parts, at := k.keyOf(e)
		switch e.Kind {
		case unstable.Table:
			table = k.inTables(parts)
			k.note(table, at)
		case unstable.ArrayTable:
			table = k.inTables(parts[:len(parts)-1])
			table = append(table, parts[len(parts)-1])
			key := strings.Join(table, ".")
			table = append(table, strconv.Itoa(k.counts[key]))
			k.counts[key]++
			k.note(table, at)
		case unstable.KeyValue:
			path := slices.Concat(table, parts)
			k.note(path, at)
			k.values[strings.Join(path, ".")] = true
			k.inside(e.Value(), path, at)
		}
	}
	return k
}

// inTables adds the numbers of the array tables that a table stands in.
func (k *fileKeys) inTables(parts []string) []string {
	var path []string
	for _, part := range parts {
		path = append(path, part)
		if n := k.counts[strings.Join(path, ".")]; n > 0 {
			path = append(path, strconv.Itoa(n-1))
		}
	}
	return path
}

// inside finds the keys of inline tables, also of those in a list.
func (k *fileKeys) inside(value *unstable.Node, path []string, at place) {
	if value == nil || value.Kind != unstable.InlineTable && value.Kind != unstable.Array {
		return
	}
	for i, it := 0, value.Children(); it.Next(); i++ {
		node := it.Node()
		switch {
		case value.Kind == unstable.InlineTable:
			parts, at := k.keyOf(node)
			within := slices.Concat(path, parts)
			k.note(within, at)
			k.inside(node.Value(), within, at)
		case node.Kind == unstable.InlineTable:
			within := slices.Concat(path, []string{strconv.Itoa(i)})
			k.note(within, at)
			k.inside(node, within, at)
		case node.Kind == unstable.Array:
			k.list(node, slices.Concat(path, []string{strconv.Itoa(i)}))
		}
	}
}

// list finds the texts of a list that stands in a list, and with the first of
// them the list.
func (k *fileKeys) list(value *unstable.Node, path []string) {
	for i, it := 0, value.Children(); it.Next(); i++ {
		if node := it.Node(); node.Kind == unstable.String {
			k.note(slices.Concat(path, []string{strconv.Itoa(i)}), k.placeOf(int(node.Raw.Offset)))
		}
	}
}

// note records a key, and the tables above it that stand nowhere themselves.
func (k *fileKeys) note(path []string, at place) {
	for i := 1; i < len(path); i++ {
		above := strings.Join(path[:i], ".")
		if _, known := k.places[above]; !known {
			k.places[above] = at
		}
	}
	k.places[strings.Join(path, ".")] = at
	k.paths = append(k.paths, path)
}

// keyOf returns the parts of a dotted key and where it starts.
func (k *fileKeys) keyOf(e *unstable.Node) (parts []string, at place) {
	for it := e.Key(); it.Next(); {
		n := it.Node()
		if len(parts) == 0 {
			at = k.placeOf(int(n.Raw.Offset))
		}
		parts = append(parts, string(n.Data))
	}
	return parts, at
}

// placeOf goes on from the key before: keys come in the file's order.
func (k *fileKeys) placeOf(offset int) place {
	passed := k.data[k.offset:offset]
	if n := bytes.Count(passed, []byte("\n")); n > 0 {
		k.at.line += n
		k.at.column = len(passed) - bytes.LastIndexByte(passed, '\n')
	} else {
		k.at.column += len(passed)
	}
	k.offset = offset
	return k.at
}

// An unknownKey is a key that no design file has.
type unknownKey struct {
	path  string   // as in places
	name  string   // its last part
	known []string // the keys of its table
}

// unknown lists the keys that no design file has, each once. Keys below an
// unknown one are not told as well; those of [front] depend on the layout.
func (k *fileKeys) unknown() []unknownKey { return k.unknownIn(reflect.TypeFor[file]()) }

// unknownIn does so for another kind of file.
func (k *fileKeys) unknownIn(file reflect.Type) []unknownKey {
	var out []unknownKey
	told := map[string]bool{}
	for _, path := range k.paths {
		n, known := knownSteps(file, path)
		if n == len(path) {
			continue
		}
		key := strings.Join(path[:n+1], ".")
		if !told[key] {
			out = append(out, unknownKey{key, path[n], known})
			told[key] = true
		}
	}
	return out
}

// knownSteps returns how many steps of a path a kind of file has, and the
// keys that stand beside the first that it has not.
func knownSteps(t reflect.Type, path []string) (n int, known []string) {
	for n, step := range path {
		if t.Kind() == reflect.Slice {
			t = t.Elem()
			if _, err := strconv.Atoi(step); err == nil {
				continue
			}
		}
		if t.Kind() != reflect.Struct {
			return len(path), nil
		}
		fields := reflect.VisibleFields(t)
		i := slices.IndexFunc(fields, func(f reflect.StructField) bool { return f.Tag.Get("toml") == step })
		if i < 0 {
			return n, keysOf(fields)
		}
		t = fields[i].Type
	}
	return len(path), nil
}

func keysOf(fields []reflect.StructField) []string {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.Tag.Get("toml")
	}
	return keys
}

// meantKey ends a sentence with the nearest key, or with all of a few.
func meantKey(key string, known []string) string {
	if meant := wording.Meant(key, known); meant != "" {
		return meant
	}
	return "; known here: " + strings.Join(known, ", ")
}

// Keys lists every key that a design file can have, in the order of its
// tables: "title", "card.size", "papers.*.name". The options of a layout
// stand in [front] too, see the fronts' registry; [shapes] takes any name.
func Keys() []string {
	keys := keysBelow(reflect.TypeFor[file](), "")
	for _, name := range frontKeys {
		keys = append(keys, "front."+name)
	}
	return keys
}

// keysBelow lists the keys of a kind of table, with what stands before them.
func keysBelow(t reflect.Type, before string) []string {
	var keys []string
	for _, f := range reflect.VisibleFields(t) {
		key := before + f.Tag.Get("toml")
		switch f.Type.Kind() {
		case reflect.Struct:
			keys = append(keys, keysBelow(f.Type, key+".")...)
		case reflect.Slice:
			keys = append(keys, keysBelow(f.Type.Elem(), key+".*.")...)
		case reflect.Interface:
			keys = append(keys, key)
		}
	}
	return keys
}
