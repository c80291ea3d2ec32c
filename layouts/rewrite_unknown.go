package layouts

import (
	"bytes"
	"slices"
	"strings"
)

// WithoutUnknown returns a design file in which keys that no design file has
// are comments, so that it reads without them, and lists those keys. All lines
// stay where they were. A key that shares its line with others is left, for
// [Read] to tell of.
func WithoutUnknown(source []byte) (out []byte, unknown []string) {
	keys := findKeys(source)
	lines := bytes.SplitAfter(source, []byte("\n"))
	silent := make([]bool, len(lines))
	for _, u := range keys.unknown() {
		if keys.silence(source, u.path, silent) {
			unknown = append(unknown, u.path)
		}
	}
	for i, line := range lines {
		if silent[i] && len(bytes.TrimSpace(line)) > 0 {
			lines[i] = slices.Concat([]byte("# "), line)
		}
	}
	return bytes.Join(lines, nil), unknown
}

// silence marks the lines of a key, or of a table with all its keys.
func (k *fileKeys) silence(source []byte, key string, silent []bool) bool {
	value := "" // the last one: what is within it needs no lines of its own
	for _, path := range k.paths {
		name := strings.Join(path, ".")
		if name != key && !strings.HasPrefix(name, key+".") || value != "" && strings.HasPrefix(name, value+".") {
			continue
		}
		at := offsetOf(source, k.places[name])
		from, to := bytes.LastIndexByte(source[:at], '\n')+1, at
		if k.values[name] {
			value = name
			_, end, ok := valueAt(source, at)
			if from, to = lineAround(source, at, end); !ok || from == at && at > 0 && source[at-1] != '\n' {
				return false
			}
		} else if !bytes.HasPrefix(bytes.TrimLeft(source[from:], " \t"), []byte("[")) {
			return false // within a table on one line
		}
		first := bytes.Count(source[:from], []byte("\n"))
		last := first + bytes.Count(source[from:max(from, to-1)], []byte("\n"))
		for line := first; line <= last; line++ {
			silent[line] = true
		}
	}
	return true
}
