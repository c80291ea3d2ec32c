package svg

import (
	"encoding/xml"
	"fmt"
	"strings"
	"unicode/utf8"
)

// escape returns text as it may stand in an attribute or between tags:
// quotes, angle brackets, ampersands, tabs and line breaks as references,
// what XML cannot hold as U+FFFD.
func escape(text string) string {
	if isPlain(text) {
		return text
	}
	var b strings.Builder
	xml.EscapeText(&b, []byte(text)) // a strings.Builder never fails
	return b.String()
}

// isPlain reports whether text needs no escaping; path data never does.
func isPlain(text string) bool {
	for i := range len(text) {
		if c := text[i]; c < ' ' || c >= utf8.RuneSelf || strings.IndexByte(`"'<>&`, c) >= 0 {
			return false
		}
	}
	return true
}

func join(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return " " + strings.Join(list, " ")
}

// isName reports whether text is an XML name of ASCII characters without a
// prefix; SVG has no other element names.
func isName(text string) bool {
	for i := range len(text) {
		c := text[i]
		letter := 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || c == '_'
		if !letter && (i == 0 || !('0' <= c && c <= '9' || c == '-' || c == '.')) {
			return false
		}
	}
	return text != ""
}

// isAttributeName allows the two prefixes that every document of ours knows:
// xml by the XML namespaces standard, xlink because svgo declares it.
func isAttributeName(text string) bool {
	for _, prefix := range []string{"xml:", "xlink:"} {
		if rest, ok := strings.CutPrefix(text, prefix); ok {
			return isName(rest)
		}
	}
	return isName(text)
}

// checkText refuses what XML 1.0 §2.2 (Char) cannot hold, so that a text is
// read back as it was written.
func checkText(what, text string) error {
	for i, r := range text {
		if r == utf8.RuneError {
			if _, width := utf8.DecodeRuneInString(text[i:]); width == 1 {
				return fmt.Errorf("%s %q: byte %d is not UTF-8; save the text as UTF-8", what, text, i+1)
			}
		}
		control := r < ' ' && r != '\t' && r != '\n' && r != '\r'
		if control || r == 0xFFFE || r == 0xFFFF {
			return fmt.Errorf("%s %q: holds the character %U, which an SVG file cannot hold; take it out",
				what, text, r)
		}
	}
	return nil
}
