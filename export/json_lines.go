package export

// brokenDepth is how deep JSON is broken into lines: down to a line a piece.
const brokenDepth = 3

// breakLines lays out compact JSON: what lies deeper than [brokenDepth], and
// a list of plain values at any depth, stays on one line, so that a piece, a
// kind or a size is one line.
func breakLines(compact []byte) []byte {
	out := make([]byte, 0, len(compact)+len(compact)/8)
	var broken []bool // of the lists and objects that are open
	inText := false
	newLine := func() {
		out = append(out, '\n')
		for range broken {
			out = append(out, ' ', ' ')
		}
	}
	for i, c := range compact {
		switch {
		case inText:
			inText = c != '"' || oddBackslashes(compact[:i])
			out = append(out, c)
		case c == '{' || c == '[':
			out = append(out, c)
			breaks := len(broken) < brokenDepth && !plainList(compact[i:])
			if broken = append(broken, breaks); breaks {
				newLine()
			}
		case c == '}' || c == ']':
			breaks := broken[len(broken)-1]
			if broken = broken[:len(broken)-1]; breaks {
				newLine()
			}
			out = append(out, c)
		case c == ',' && broken[len(broken)-1]:
			out = append(out, c)
			newLine()
		case c == ',' || c == ':':
			out = append(out, c, ' ')
		default:
			inText = c == '"'
			out = append(out, c)
		}
	}
	return out
}

// plainList reports whether compact JSON begins with a list that holds no
// list and no object, or with an empty object.
func plainList(compact []byte) bool {
	if compact[0] == '{' {
		return compact[1] == '}'
	}
	inText := false
	for i, c := range compact[1:] {
		switch {
		case inText:
			inText = c != '"' || oddBackslashes(compact[:i+1])
		case c == '"':
			inText = true
		case c == '[' || c == '{':
			return false
		case c == ']':
			return true
		}
	}
	return true
}

// oddBackslashes reports whether an odd number of backslashes ends the text.
func oddBackslashes(text []byte) bool {
	n := 0
	for i := len(text) - 1; i >= 0 && text[i] == '\\'; i-- {
		n++
	}
	return n%2 == 1
}
