package markup

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNewTokens(t *testing.T) {
	tests := map[string]struct {
		text string
		want []string
	}{
		"an empty element":   {"<a/>", []string{"1:1 <a>", "1:5 </a>", "1:5 end"}},
		"two tags":           {"<a></a>", []string{"1:1 <a>", "1:4 </a>", "1:8 end"}},
		"space in tags":      {"<a \n></a\t>", []string{"1:1 <a>", "2:2 </a>", "2:7 end"}},
		"text":               {"<a>b</a>", []string{"1:1 <a>", `1:4 "b"`, "1:5 </a>", "1:9 end"}},
		"white space stays":  {"<a> \n\t</a>", []string{"1:1 <a>", `1:4 " \n\t"`, "2:2 </a>", "2:6 end"}},
		"a tree":             {"<a>\n <b/>\n <c/>\n</a>\n", []string{"1:1 <a>", `1:4 "\n "`, "2:2 <b>", "2:6 </b>", `2:6 "\n "`, "3:2 <c>", "3:6 </c>", `3:6 "\n"`, "4:1 </a>", "5:1 end"}},
		"wide characters":    {"<a>é😀<b/></a>", []string{"1:1 <a>", `1:4 "é😀"`, "1:6 <b>", "1:10 </b>", "1:10 </a>", "1:14 end"}}, // columns count characters
		"name of letters":    {"<é-1._/>", []string{"1:1 <é-1._>", "1:9 </é-1._>", "1:9 end"}},                                    // XML 1.0 §2.3 [5]
		"space around":       {"\n <a/>\n ", []string{"2:2 <a>", "2:6 </a>", "3:2 end"}},                                          // XML 1.0 §2.1 [1], §2.8 [27]
		"a declaration":      {`<?xml version="1.0" encoding="UTF-8" standalone="no"?><a/>`, []string{"1:55 <a>", "1:59 </a>", "1:59 end"}},
		"encoding in small":  {`<?xml version='1.0' encoding='utf-8'?><a/>`, []string{"1:39 <a>", "1:43 </a>", "1:43 end"}}, // XML 1.0 §4.3.3: case does not count
		"comments left out":  {"<!-- b --><a><!-- <c/> & -->d</a><!----><!-- e -->", []string{"1:11 <a>", `1:29 "d"`, "1:30 </a>", "1:51 end"}},
		"predefined":         {"<a>&amp;&lt;&gt;&quot;&apos;</a>", []string{"1:1 <a>", `1:4 "&<>\"'"`, "1:29 </a>", "1:33 end"}},  // XML 1.0 §4.6
		"by number":          {"<a>&#65;&#x42;&#x1F600;</a>", []string{"1:1 <a>", `1:4 "AB😀"`, "1:24 </a>", "1:28 end"}},          // XML 1.0 §4.1 [66]
		"not markup":         {"<a>&#60;b/></a>", []string{"1:1 <a>", `1:4 "<b/>"`, "1:12 </a>", "1:16 end"}},                     // XML 1.0 §2.4
		"marked characters":  {"<a><![CDATA[<b/>&amp;]]]></a>", []string{"1:1 <a>", `1:4 "<b/>&amp;]"`, "1:26 </a>", "1:30 end"}}, // XML 1.0 §2.7
		"text around CDATA":  {"<a>b<![CDATA[c]]>d</a>", []string{"1:1 <a>", `1:4 "b"`, `1:5 "c"`, `1:18 "d"`, "1:19 </a>", "1:23 end"}},
		"line ends are one":  {"<a>b\r\nc\rd</a>", []string{"1:1 <a>", `1:4 "b\nc\nd"`, "2:4 </a>", "2:8 end"}[:2]}, // XML 1.0 §2.11
		"default namespace":  {`<a xmlns="u"><b c="1"/></a>`, []string{`1:1 <{u}a xmlns="u">`, `1:14 <{u}b c="1">`, "1:24 </{u}b>", "1:24 </{u}a>", "1:28 end"}},
		"prefixed":           {`<p:a xmlns:p="u" p:b="1"/>`, []string{`1:1 <{u}a xmlns:p="u" p:b="1">`, "1:27 </{u}a>", "1:27 end"}},
		"undeclared prefix":  {`<p:a/>`, []string{"1:1 <{p}a>", "1:7 </{p}a>", "1:7 end"}},
		"greater in text":    {"<a>b > c</a>", []string{"1:1 <a>", `1:4 "b > c"`, "1:9 </a>", "1:13 end"}}, // XML 1.0 §2.4: > may stand
		"greater in a value": {`<a b=">" c='/>'/>`, []string{`1:1 <a b=">" c="/>">`, "1:18 </a>", "1:18 end"}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, test.want, strict(test.text)[:len(test.want)])
			// What New takes, Open reads the same way.
			require.Equal(t, strict(test.text), open(test.text))
			require.True(t, strings.HasSuffix(last(strict(test.text)), " end"))
		})
	}
}

func TestAttributes(t *testing.T) {
	const text = "<a xmlns:p='u'\n  b = \"1\"\tp:c='é\"&amp;&#x41;' d=\"\"\n\te='x>y/'>\n</a>"
	tokens, err := New([]byte(text))
	require.NoError(t, err)
	tag, err := tokens.Next()
	require.NoError(t, err)
	at := func(s string) int { return strings.Index(text, s) }
	require.Equal(t, []Attribute{
		{Space: "xmlns", Name: "xmlns:p", Local: "p", Value: "u", Raw: "u", At: at("xmlns"), Inner: at("u'")},
		{Name: "b", Local: "b", Value: "1", Raw: "1", At: at("b ="), Inner: at("1\"")},
		{Space: "u", Name: "p:c", Local: "c", Value: `é"&A`, Raw: `é"&amp;&#x41;`, At: at("p:c"), Inner: at("é")},
		{Name: "d", Local: "d", At: at("d="), Inner: at("\"\n")},
		{Name: "e", Local: "e", Value: "x>y/", Raw: "x>y/", At: at("e="), Inner: at("x>")},
	}, tag.Attrs)
	want := []string{"1:4", "1:13", "2:3", "2:8", "2:11", "2:16", "2:31", "2:34", "3:2", "3:5"}
	var got []string
	for _, a := range tag.Attrs {
		for _, place := range tokens.Places([]int{a.At, a.Inner}) {
			got = append(got, place.String())
		}
	}
	require.Equal(t, want, got)
}

func TestAttributePlace(t *testing.T) {
	tests := map[string]struct {
		text string
		byte int // of the value
		want string
	}{
		"the start":            {`<a b="M 1 2"/>`, 0, "1:7"},
		"further on":           {`<a b="M 1 2"/>`, 4, "1:11"},
		"behind its end":       {`<a b="M 1 2"/>`, 5, "1:12"},
		"behind a wide one":    {`<a b="é😀x"/>`, 6, "1:9"},
		"in its second line":   {"<a b='M 1\n  2'/>", 6, "2:3"},
		"behind a reference":   {`<a b="&#77; 1 2"/>`, 4, "1:7"}, // only the start is known
		"behind CR LF":         {"<a b='M 1\r\n2'/>", 4, "1:7"},  // read as one character, XML 1.0 §2.11
		"behind an entity":     {`<!DOCTYPE a [<!ENTITY e "M 1">]><a b="&e; 2"/>`, 4, "1:43"},
		"in an entity":         {`<!DOCTYPE a [<!ENTITY e "M 1">]><a b="2&e; 2"/>`, 3, "1:40"},
		"before an entity":     {`<!DOCTYPE a [<!ENTITY e "M 1">]><a b="2 &e; 2"/>`, 1, "1:40"},
		"an entity with quote": {`<!DOCTYPE a [<!ENTITY e '"'>]><a b="2 &e; 2"/>`, 4, "1:37"}, // only the start is known
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			tokens, _, err := Open([]byte(test.text))
			require.NoError(t, err)
			tag, err := tokens.Next()
			require.NoError(t, err)
			require.Len(t, tag.Attrs, 1)
			require.Equal(t, test.want, tokens.Places([]int{tag.Attrs[0].Place(test.byte)})[0].String())
		})
	}
}

func TestRawText(t *testing.T) {
	tests := map[string]struct{ text, value, raw string }{
		"plain":     {"<a>b c</a>", "b c", "b c"},
		"reference": {"<a>b&lt;&#x63;</a>", "b<c", "b&lt;&#x63;"},
		"marked":    {"<a><![CDATA[b&lt;]]></a>", "b&lt;", "<![CDATA[b&lt;]]>"},
		"line ends": {"<a>b\r\nc</a>", "b\nc", "b\r\nc"}, // XML 1.0 §2.11
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			tokens, err := New([]byte(test.text))
			require.NoError(t, err)
			all, err := readAll(tokens)
			require.NoError(t, err)
			require.Equal(t, Characters, all[1].Kind)
			require.Equal(t, test.value, all[1].Text)
			require.Equal(t, test.raw, all[1].Raw)
		})
	}
}

// Where encoding/xml finds the mistake the place is where it stopped
// reading: right behind the part that it could not take.
func TestNewRefuses(t *testing.T) {
	const doctype = "DOCTYPE and other declarations have no place here; delete it"
	const unclosed = "not well-formed XML: unexpected EOF"
	tests := map[string]struct{ text, want string }{
		// Outside the root: XML 1.0 §2.1 [1], §2.8 [22].
		"nothing":              {"", "line 1, column 1: the file holds no element; an SVG file has one <svg>"},
		"only space":           {" \n ", "line 2, column 2: the file holds no element; an SVG file has one <svg>"},
		"only a comment":       {"<!-- a -->", "line 1, column 11: the file holds no element; an SVG file has one <svg>"},
		"only a declaration":   {"<?xml version='1.0'?>", "line 1, column 22: the file holds no element; an SVG file has one <svg>"},
		"text before":          {"\n  é<a/>", `line 2, column 3: text outside the root element: "é"`},
		"text behind":          {"<a/>\n\n x", `line 3, column 2: text outside the root element: "x"`},
		"long text":            {"<a/>" + strings.Repeat("é", 41), `line 1, column 5: text outside the root element: "` + strings.Repeat("é", 40) + `..."`},
		"text of 40":           {"<a/>" + strings.Repeat("é", 40), `line 1, column 5: text outside the root element: "` + strings.Repeat("é", 40) + `"`},
		"a reference behind":   {"<a/>&#32;", `line 1, column 5: text outside the root element: "&#32;"`},
		"CDATA behind":         {"<a/><![CDATA[ ]]>", `line 1, column 5: text outside the root element: "<![CDATA[ ]]>"`},
		"no-break space":       {"<a/>\u00a0", "line 1, column 5: text outside the root element: \"\\u00a0\""}, // not white space, XML 1.0 §2.3 [3]
		"a second root":        {"<a/>\n <é/>", "line 2, column 2: a second root element <é>; a file has one"},
		"a declaration late":   {"\n<?xml version='1.0'?><a/>", "line 2, column 1: the XML declaration must be the first thing in the file"}, // XML 1.0 §2.8 [22]
		"a declaration inside": {"<a><?xml version='1.0'?></a>", "line 1, column 4: the XML declaration must be the first thing in the file"},

		// What New takes less of than XML.
		"byte order mark":       {"\uFEFF<a/>", "line 1, column 1: the file starts with a byte order mark; save it as UTF-8 without one"},
		"DOCTYPE":               {"<!-- b -->\n<!DOCTYPE a><a/>", "line 2, column 1: " + doctype},
		"DOCTYPE with entities": {"<!DOCTYPE a [<!ENTITY b 'c'>]><a>&b;</a>", "line 1, column 1: " + doctype},
		"DOCTYPE inside":        {"<a> <!DOCTYPE a></a>", "line 1, column 5: " + doctype},
		"DOCTYPE behind":        {"<a/><!DOCTYPE a>", "line 1, column 5: " + doctype},
		"instruction":           {"<a>\n é<?b c?></a>", "line 2, column 3: processing instruction <?b?> has no place here; delete it"},
		"instruction before":    {"<?xml-stylesheet href='a'?><a/>", "line 1, column 1: processing instruction <?xml-stylesheet?> has no place here; delete it"},
		"instruction behind":    {"<a/><?b?>", "line 1, column 5: processing instruction <?b?> has no place here; delete it"},
		"ISO 8859-1":            {"<?xml version='1.0' encoding='ISO-8859-1'?><a/>", "line 1, column 44: the file is declared to be in another encoding; save it as UTF-8"},
		"UTF-16 declared":       {"<?xml version='1.0' encoding='UTF-16'?><a/>", "line 1, column 40: the file is declared to be in another encoding; save it as UTF-8"},
		"ASCII declared":        {"<?xml version='1.0' encoding='US-ASCII'?><a/>", "line 1, column 42: the file is declared to be in another encoding; save it as UTF-8"},
		"XML 1.1":               {"<?xml version='1.1'?><a/>", `line 1, column 22: not well-formed XML: unsupported version "1.1"; only version 1.0 is supported`},

		// Characters: XML 1.0 §2.2 [2], §4.3.3.
		"not UTF-8":            {"<a>\né\xff</a>", "line 2, column 2: the byte 0xff is not UTF-8; save the file as UTF-8"},
		"a half character":     {"<a>\xc3</a>", "line 1, column 4: the byte 0xc3 is not UTF-8; save the file as UTF-8"},
		"a surrogate":          {"<a>\xed\xa0\x80</a>", "line 1, column 4: the byte 0xed is not UTF-8; save the file as UTF-8"},
		"too long a code":      {"<a>\xc0\xbc</a>", "line 1, column 4: the byte 0xc0 is not UTF-8; save the file as UTF-8"},
		"UTF-16":               {"\xff\xfe<\x00a\x00/\x00>\x00", "line 1, column 1: the byte 0xff is not UTF-8; save the file as UTF-8"},
		"compressed":           {"\x1f\x8b\x08", "line 1, column 2: the byte 0x8b is not UTF-8; save the file as UTF-8"},
		"NUL":                  {"<a>\x00</a>", "line 1, column 5: not well-formed XML: illegal character code U+0000"},
		"control":              {"<a>\n\x1b</a>", "line 2, column 2: not well-formed XML: illegal character code U+001B"},
		"control in a value":   {"<a b='\x01'/>", "line 1, column 9: not well-formed XML: illegal character code U+0001"},
		"control in CDATA":     {"<a><![CDATA[\x01]]></a>", "line 1, column 17: not well-formed XML: illegal character code U+0001"},
		"control in a name":    {"<a\x01/>", "line 1, column 3: not well-formed XML: expected attribute name in element"},
		"control by number":    {"<a>&#1;</a>", "line 1, column 8: not well-formed XML: illegal character code U+0001"},
		"U+FFFE":               {"<a>\uFFFE</a>", "line 1, column 5: not well-formed XML: illegal character code U+FFFE"},
		"beyond all by number": {"<a>&#x110000;</a>", "line 1, column 14: not well-formed XML: invalid character entity &#x110000;"},

		// Tags: XML 1.0 §3.1.
		"attribute twice":      {"<a b='1'\n c='2' b='1'/>", "line 2, column 8: attribute b is given twice"},
		"namespace twice":      {"<a xmlns='u' xmlns='u'/>", "line 1, column 14: attribute xmlns is given twice"},
		"twice by prefixes":    {"<a xmlns:p='u' xmlns:q='u' p:b='1' q:b='2'/>", "line 1, column 36: attribute q:b is given twice"}, // Namespaces in XML 1.0 §6.3
		"no space between":     {"<a b='1'c='2'/>", "line 1, column 9: white space is missing before an attribute"},
		"no quotation marks":   {"<a b=1/>", "line 1, column 7: not well-formed XML: unquoted or missing attribute value in element"},
		"no value":             {"<a b/>", "line 1, column 6: not well-formed XML: attribute name without = in element"},
		"less in a value":      {"<a b='<'/>", "line 1, column 8: not well-formed XML: unescaped < inside quoted string"},
		"other end tag":        {"<a>\n</b>", "line 2, column 5: not well-formed XML: element <a> closed by </b>"},
		"crossed tags":         {"<a><b></a></b>", "line 1, column 11: not well-formed XML: element <b> closed by </a>"},
		"an end tag too many":  {"<a/></a>", "line 1, column 9: not well-formed XML: unexpected end element </a>"},
		"only an end tag":      {"</a>", "line 1, column 5: not well-formed XML: unexpected end element </a>"},
		"attribute at the end": {"<a></a b='1'>", "line 1, column 9: not well-formed XML: invalid characters between </a and >"},
		"a name by digit":      {"<1a/>", "line 1, column 4: not well-formed XML: invalid XML name: 1a"}, // XML 1.0 §2.3 [4]
		"a space before":       {"< a/>", "line 1, column 2: not well-formed XML: expected element name after <"},

		// Text: XML 1.0 §2.4, §2.5, §4.1.
		"a bare ampersand":    {"<a>b & c</a>", "line 1, column 7: not well-formed XML: invalid character entity & (no semicolon)"},
		"undeclared entity":   {"<a>\n&nbsp;</a>", "line 2, column 7: not well-formed XML: invalid character entity &nbsp;"},
		"no semicolon":        {"<a>&amp b</a>", "line 1, column 8: not well-formed XML: invalid character entity &amp (no semicolon)"},
		"end of CDATA alone":  {"<a>]]></a>", "line 1, column 7: not well-formed XML: unescaped ]]> not in CDATA section"},
		"hyphens in comments": {"<a><!-- b -- c --></a>", `line 1, column 14: not well-formed XML: invalid sequence "--" not allowed in comments`},

		// Cut off.
		"in a name":         {"<a", "line 1, column 3: " + unclosed},
		"in a tag":          {"<a \n", "line 2, column 1: " + unclosed},
		"in an attribute":   {"<a b", "line 1, column 5: " + unclosed},
		"in a value":        {"<a b='é", "line 1, column 8: " + unclosed},
		"behind a start":    {"<a>", "line 1, column 4: " + unclosed},
		"in text":           {"<a>b\nc", "line 2, column 2: " + unclosed},
		"in an end tag":     {"<a></a", "line 1, column 7: " + unclosed},
		"in a reference":    {"<a>&am", "line 1, column 7: " + unclosed},
		"in a number":       {"<a>&#", "line 1, column 6: " + unclosed},
		"in a comment":      {"<!-- ", "line 1, column 6: " + unclosed},
		"in CDATA":          {"<a><![CDATA[", "line 1, column 13: not well-formed XML: unexpected EOF in CDATA section"},
		"in an instruction": {"<?xml ", "line 1, column 7: " + unclosed},
		"in a DOCTYPE":      {"<!DOCTYPE", "line 1, column 10: " + unclosed},
		"behind <":          {"<", "line 1, column 2: " + unclosed},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) { require.Equal(t, test.want, last(strict(test.text))) })
	}
}

// A file that is cut off anywhere is never taken for a whole one.
func TestCutOff(t *testing.T) {
	const whole = "<?xml version='1.0'?>\n<!-- é -->\n<a b=\"1\" c='&lt;'>\n d <e/><![CDATA[f]]>\n</a>"
	require.Equal(t, "5:5 end", last(strict(whole)))
	for end := range len(whole) {
		got := last(strict(whole[:end]))
		require.Regexp(t, `^line [1-5], column [0-9]+: `, got, "%q", whole[:end])
	}
}

func TestMostDeep(t *testing.T) {
	nested := func(n int) string { return strings.Repeat("<g>", n) + strings.Repeat("</g>", n) }
	for name, read := range map[string]func(string) []string{"New": strict, "Open": open} {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, "1:3585 end", last(read(nested(MostDeep)))) // 512 x 7 + 1
			require.Equal(t, "line 1, column 1537: elements are nested more than 512 deep", last(read(nested(MostDeep+1))))
			// One beside the other is not deep.
			require.Equal(t, "1:4008 end", last(read("<a>"+strings.Repeat("<b/>", 1000)+"</a>")))
		})
	}
}

func TestFault(t *testing.T) {
	tokens, err := New([]byte("<a>\n é</b>"))
	require.NoError(t, err)
	fault := tokens.Fault(7, "%s is %d", "that", 3)
	require.Equal(t, &Fault{At: 7, Text: "that is 3", Place: Place{2, 3}}, fault)
	require.EqualError(t, fault, "line 2, column 3: that is 3")
}

func TestShorten(t *testing.T) {
	for name, test := range map[string][2]string{
		"empty":      {"", ""},
		"short":      {"abc", "abc"},
		"40":         {strings.Repeat("é", 40), strings.Repeat("é", 40)},
		"41":         {strings.Repeat("é", 41), strings.Repeat("é", 40) + "..."},
		"many of it": {strings.Repeat("a", 1000), strings.Repeat("a", 40) + "..."},
	} {
		t.Run(name, func(t *testing.T) { require.Equal(t, test[1], Shorten(test[0])) })
	}
}
