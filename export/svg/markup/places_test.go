package markup

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// placeSlowly walks through the file from its start.
func placeSlowly(file string, at int) Place {
	place := Place{1, 1}
	for i, r := range file {
		if i >= at {
			break
		}
		place.Column++
		if r == '\n' {
			place = Place{place.Line + 1, 1}
		}
	}
	return place
}

// starts returns where the characters of a text start, and its end.
func starts(text string) []int {
	var at []int
	for i := range text {
		at = append(at, i)
	}
	return append(at, len(text))
}

func TestPlacesTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOf(rapid.SampledFrom([]string{"a", " ", "\n", "\r\n", "\t", "é", "€", "😀", "\u0301"})).Draw(t, "text"), "")
		tokens, err := New([]byte(text))
		require.NoError(t, err)
		at := rapid.SliceOf(rapid.SampledFrom(starts(text))).Draw(t, "at")
		want := make([]Place, len(at))
		for i, a := range at {
			want[i] = placeSlowly(text, a)
		}
		require.Equal(t, want, tokens.Places(at))
	})
}

func TestPlaces(t *testing.T) {
	tokens, err := New([]byte("é\n\nb"))
	require.NoError(t, err)
	tests := map[string]struct {
		at   []int
		want []Place
	}{
		"none":           {nil, []Place{}},
		"the start":      {[]int{0}, []Place{{1, 1}}},
		"a line end":     {[]int{2}, []Place{{1, 2}}},
		"an empty line":  {[]int{3}, []Place{{2, 1}}},
		"the end":        {[]int{5}, []Place{{3, 2}}},
		"beyond the end": {[]int{6, 1000}, []Place{{3, 2}, {3, 2}}},
		"before all":     {[]int{-1, -1000}, []Place{{1, 1}, {1, 1}}},
		"back and forth": {[]int{4, 0, 4, 2, 3}, []Place{{3, 1}, {1, 1}, {3, 1}, {1, 2}, {2, 1}}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) { require.Equal(t, test.want, tokens.Places(test.at)) })
	}
}

// A character that comes from the file has its own place; one that an
// entity brought has the place of the entity's use.
func TestPlacesBehindEntities(t *testing.T) {
	values := map[string]string{"e": "x", "long": "a much longer\ntext <b/>", "none": "", "deep": "(&long;)"}
	full := map[string]string{"e": values["e"], "long": values["long"], "none": "", "deep": "(" + values["long"] + ")"}
	names := []string{"e", "long", "none", "deep"}
	var head strings.Builder
	head.WriteString("<!-- é -->\n<!DOCTYPE a [\n")
	for _, name := range names {
		head.WriteString("<!ENTITY " + name + " '" + values[name] + "'>\n")
	}
	head.WriteString("]>")
	rapid.Check(t, func(t *rapid.T) {
		file := head.String() + "<a>"
		text := "<!-- é -->\n<a>"
		var from []int // where each byte of the text comes from
		for len(from) < len("<!-- é -->\n") {
			from = append(from, len(from))
		}
		for i := range "<a>" {
			from = append(from, head.Len()+i)
		}
		add := func(s string) {
			for i := range len(s) {
				from = append(from, len(file)+i)
			}
			file, text = file+s, text+s
		}
		for range rapid.IntRange(0, 8).Draw(t, "parts") {
			add(rapid.StringOf(rapid.SampledFrom([]rune("ab \né😀"))).Draw(t, "text"))
			if name := rapid.SampledFrom(append(names, "")).Draw(t, "name"); name != "" {
				for range len(full[name]) {
					from = append(from, len(file))
				}
				file, text = file+"&"+name+";", text+full[name]
			}
		}
		add("</a>")
		tokens, _, err := Open([]byte(file))
		require.NoError(t, err)
		require.Equal(t, text, tokens.text)
		var at []int
		var want []Place
		for _, i := range starts(text)[:len(starts(text))-1] {
			at, want = append(at, i), append(want, placeSlowly(file, from[i]))
		}
		require.Equal(t, want, tokens.Places(at))
		all, err := readAll(tokens)
		checkSound(t, tokens, all, err)
		require.NoError(t, err)
	})
}

// anyDocument draws texts that are close to well-formed ones.
func anyDocument() *rapid.Generator[string] {
	part := rapid.SampledFrom([]string{
		"<a>", "</a>", "<b c='1'>", "</b>", "<b/>", "<p:d xmlns:p=\"u\"/>", "é\n", "text", " ", "&amp;", "&#x41;", "&", "]]>", "<![CDATA[<a>]]>", "<!-- <a> -->", "<?p q?>",
	})
	return rapid.Custom(func(t *rapid.T) string {
		if rapid.Bool().Draw(t, "well-formed") {
			return anyElement(3).Draw(t, "root")
		}
		return "<a>" + strings.Join(rapid.SliceOfN(part, 0, 8).Draw(t, "parts"), "") + "</a>"
	})
}

func anyElement(deep int) *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		name := rapid.SampledFrom([]string{"a", "b", "é", "xml.x"}).Draw(t, "name")
		var b strings.Builder
		b.WriteString("<" + name + rapid.SampledFrom([]string{"", " ", " x='1'", "\n y = \">\"", " x='' y='&lt;é'"}).Draw(t, "attributes") + ">")
		if deep > 0 {
			for range rapid.IntRange(0, 3).Draw(t, "inside") {
				b.WriteString(anyElement(deep-1).Draw(t, "element"))
				b.WriteString(rapid.SampledFrom([]string{"", "\n", "text", "<!-- <b> -->", "<![CDATA[</a>]]>", "<?p <c>?>", "&gt;"}).Draw(t, "text"))
			}
		}
		return b.String() + "</" + name + ">"
	})
}

// namesBySelf reads the names of all elements with encoding/xml alone.
func namesBySelf(text string) ([]string, error) {
	decoder := xml.NewDecoder(strings.NewReader(text))
	decoder.CharsetReader = func(_ string, r io.Reader) (io.Reader, error) { return r, nil }
	var names []string
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return names, nil
		}
		if err != nil {
			return names, err
		}
		if start, ok := token.(xml.StartElement); ok {
			names = append(names, start.Name.Space+" "+start.Name.Local)
		}
	}
}

func namesOf(all []Token) []string {
	var names []string
	for _, token := range all {
		if token.Kind == StartTag {
			names = append(names, token.Space+" "+token.Name)
		}
	}
	return names
}

func TestOpenAgreesWithDecoder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := anyDocument().Draw(t, "text")
		want, wantErr := namesBySelf(text)
		tokens, odd, err := Open([]byte(text))
		require.NoError(t, err)
		require.Empty(t, odd)
		all, err := readAll(tokens)
		checkSound(t, tokens, all, err)
		if err == nil {
			require.NoError(t, wantErr)
			require.Equal(t, want, namesOf(all))
		} else {
			names := namesOf(all)
			require.LessOrEqual(t, len(names), len(want))
			require.Equal(t, want[:len(names)], append([]string{}, names...))
		}
		if wantErr != nil {
			require.Error(t, err)
		}
	})
}
