package guide

import (
	"flag"
	"testing"

	"github.com/stretchr/testify/require"
)

var _ = flag.Bool("update", false, "rewrite golden files (there are none in this package)")

// CommonMark 0.31 §2.4 and the starts of blocks that §4 and §5 name.
func TestEscape(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"plain words", "plain words"},
		{"a*b_c`d", "a\\*b\\_c\\`d"},
		{"<b>|x| [y](z) # &amp;", `\<b\>\|x\| \[y\](z) \# \&amp;`},
		{"- no list", `\- no list`}, {"+ no list", `\+ no list`}, {"=== no heading", `\=== no heading`},
		{"1. no list", `1\. no list`}, {"12) no list", `12\) no list`}, {"12 cards", "12 cards"},
		{"two\nlines\tof   it", "two lines of it"}, {"", ""},
	} {
		require.Equal(t, c.want, escape(c.in))
	}
}

// Each part comes out in both forms; pictures are named in Markdown and held
// in HTML.
func TestBothForms(t *testing.T) {
	doc := Document{"T <1>", "S", []Chapter{{"C & D", []Part{
		{Text: "words"}, {Caution: "mind"}, {Heading: "h"}, {List: []string{"a", "b"}},
		{Steps: []Step{{"do", &Figure{Name: "guide/x.svg", Alt: "seen", SVG: []byte("<svg/>"), Small: true}}}},
		{Table: &Table{"cap", []string{"k", "v"}, [][]string{{"1", "2"}}}},
		{Figure: &Figure{Name: "guide/y.svg", Alt: "alt", SVG: []byte("<svg/>")}},
	}}}}
	page, err := HTML(doc)
	require.NoError(t, err)
	for _, want := range []string{"<h1 dir=\"auto\">T &lt;1&gt;</h1>", `lang="en"`, "C &amp; D", "<p>words</p>", `<p class="caution">mind</p>`,
		"<h3>h</h3>", "<li>b</li>", `src="data:image/svg&#43;xml;base64,PHN2Zy8&#43;" alt="seen"`, `<th scope="row">1</th><td>2</td>`, `<caption>cap</caption>`} {
		require.Contains(t, string(page), want)
	}
	text, pictures := Markdown(doc)
	require.Equal(t, "# T \\<1\\>\n\nS\n\n## C \\& D\n\nwords\n\n> **mind**\n\n### h\n\n- a\n- b\n\n1. do\n\n   ![seen](guide/x.svg)\n\ncap:\n\n| k | v |\n|---|---|\n| 1 | 2 |\n\n![alt](guide/y.svg)\n", string(text))
	require.Len(t, pictures, 2)
}
