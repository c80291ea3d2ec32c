package markup

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Slips that a review found.
func TestOpenSlips(t *testing.T) {
	const doctype = `<!DOCTYPE a [<!ENTITY e "x">]>`
	for name, c := range map[string]struct{ text, want string }{
		// XML 1.0 §2.5 [15]: the hyphens of <!-- do not end the comment.
		"comment that looks closed":  {`<!DOCTYPE a [<!ENTITY e "--><x/><!--">]><a><!--> &e; --></a>`, "<a>"},
		"comment inside the DOCTYPE": {`<!DOCTYPE a [<!--> <!ENTITY e "x"> -->]><a>&e;</a>`, "fault: line 1, column 47: not well-formed XML: invalid character entity &e;"},
		// §3.1 [40]: a tag holds attributes, not references.
		"in a tag":         {doctype + `<a &e;/>`, "fault: line 1, column 34: entity e stands inside a tag, where it can only stand in a value"},
		"as a tag's name":  {doctype + `<&e;/>`, "fault: line 1, column 32: entity e stands inside a tag, where it can only stand in a value"},
		"leading zeros":    {`<!DOCTYPE a [<!ENTITY e "&#0000000060;b/>">]><a>&e;</a>`, "<a><b>"}, // §4.1, §4.5
		"half a character": {"\xff\xfe<\x00a\x00>\x00\x00\xd8", "fault: line 1, column 1: the file is in UTF-16 and holds half a character; save it as UTF-8"},
	} {
		t.Run(name, func(t *testing.T) {
			tokens, _, err := Open([]byte(c.text))
			got := ""
			for err == nil {
				var token Token
				if token, err = tokens.Next(); err == nil && token.Kind == StartTag {
					got += "<" + token.Name + ">"
				}
				if token.Kind == EndOfFile {
					break
				}
			}
			if err != nil {
				got = "fault: " + err.Error()
			}
			require.Equal(t, c.want, got)
		})
	}
}

// Many references without an end are read in one pass. Looking for each end
// through all the rest took minutes here.
func TestManyReferencesWithoutEnd(t *testing.T) {
	for _, text := range []string{
		`<!DOCTYPE a [<!ENTITY e "` + strings.Repeat("&#", 2_000_000) + `">]><a/>`,
		`<!DOCTYPE a [<!ENTITY e "x">]><a>` + strings.Repeat("&", 2_000_000) + `</a>`,
	} {
		tokens, odd, err := Open([]byte(text))
		require.NoError(t, err)
		require.Len(t, odd, 1)
		_, err = tokens.Next()
		require.NoError(t, err)
	}
}
