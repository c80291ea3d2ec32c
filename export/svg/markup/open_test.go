package markup

import (
	"bytes"
	"compress/gzip"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"
)

// packed compresses texts, each as a member of its own (RFC 1952 §2.2).
func packed(t require.TestingT, texts ...string) string {
	var b bytes.Buffer
	for _, text := range texts {
		w := gzip.NewWriter(&b)
		_, err := w.Write([]byte(text))
		require.NoError(t, err)
		require.NoError(t, w.Close())
	}
	return b.String()
}

// wide writes a text in UTF-16 behind a byte order mark.
func wide(text string, little bool) string {
	var b strings.Builder
	for _, unit := range utf16.Encode([]rune("\uFEFF" + text)) {
		high, low := byte(unit>>8), byte(unit)
		if little {
			high, low = low, high
		}
		b.WriteByte(high)
		b.WriteByte(low)
	}
	return b.String()
}

func TestOpen(t *testing.T) {
	const text = "<a b='é€'>\n😀<c/></a>"
	const latin = "<?xml version='1.0' encoding='%'?>\n<a b='\xe9\x80'>\x9f\xff<c/></a>"
	plain := []string{`1:1 <a b="é€">`, `1:11 "\n😀"`, "2:2 <c>", "2:6 </c>", "2:6 </a>", "2:10 end"}
	behind := []string{`2:1 <a b="é€">`, `2:11 "Ÿÿ"`, "2:13 <c>", "2:17 </c>", "2:17 </a>", "2:21 end"} // WHATWG Encoding Standard, index windows-1252
	mark := Oddity{ByteOrderMark, "the file starts with a byte order mark", Place{1, 1}}
	utf16 := Oddity{Encoding, "the file is in the encoding UTF-16", Place{1, 1}}
	gzipped := Oddity{Packed, "the file is compressed with gzip", Place{1, 1}}
	in := func(name string) string { return strings.Replace(latin, "%", name, 1) }
	named := func(name string) Oddity { return Oddity{Encoding, "the file is in the encoding " + name, Place{1, 1}} }
	tests := map[string]struct {
		data string
		odd  []Oddity
		want []string
	}{
		"plain":           {text, nil, plain},
		"byte order mark": {"\uFEFF" + text, []Oddity{mark}, plain}, // XML 1.0 §4.3.3: the mark is not part of the text
		"UTF-16 LE":       {wide(text, true), []Oddity{utf16}, plain},
		"UTF-16 BE":       {wide(text, false), []Oddity{utf16}, plain},
		"UTF-16 declared": {wide("<?xml version='1.0' encoding='UTF-16'?>"+text, true), []Oddity{utf16},
			[]string{`1:40 <a b="é€">`, `1:50 "\n😀"`, "2:2 <c>", "2:6 </c>", "2:6 </a>", "2:10 end"}},
		"gzip":               {packed(t, text), []Oddity{gzipped}, plain},
		"gzip in two parts":  {packed(t, text[:9], text[9:]), []Oddity{gzipped}, plain},
		"gzip and a mark":    {packed(t, "\uFEFF"+text), []Oddity{gzipped, mark}, plain},
		"gzip and UTF-16":    {packed(t, wide(text, false)), []Oddity{gzipped, utf16}, plain},
		"gzip and DOCTYPE":   {packed(t, "<!DOCTYPE a>"+text), []Oddity{gzipped, {Doctype, "the file has a DOCTYPE", Place{1, 1}}}, []string{`1:13 <a b="é€">`, `1:23 "\n😀"`, "2:2 <c>", "2:6 </c>", "2:6 </a>", "2:10 end"}},
		"ISO 8859-1":         {in("ISO-8859-1"), []Oddity{named("ISO-8859-1")}, behind},
		"in small":           {in("iso-8859-1"), []Oddity{named("iso-8859-1")}, behind},
		"Latin 1":            {in("latin1"), []Oddity{named("latin1")}, behind},
		"Windows-1252":       {in("Windows-1252"), []Oddity{named("Windows-1252")}, behind},
		"cp1252":             {in("CP1252"), []Oddity{named("CP1252")}, behind},
		"double quotes":      {strings.ReplaceAll(in("latin1"), "'", `"`), []Oddity{named("latin1")}, behind},
		"space around equal": {strings.Replace(in("latin1"), "g='", "g =\n'", 1), []Oddity{named("latin1")}, []string{`3:1 <a b="é€">`, `3:11 "Ÿÿ"`, "3:13 <c>", "3:17 </c>", "3:17 </a>", "3:21 end"}}, // XML 1.0 §2.8 [25], [80]
		"UTF-8 declared":     {"<?xml version='1.0' encoding='UTF-8'?>" + text, nil, []string{`1:39 <a b="é€">`, `1:49 "\n😀"`, "2:2 <c>", "2:6 </c>", "2:6 </a>", "2:10 end"}},
		"ASCII declared":     {"<?xml version='1.0' encoding='us-ascii'?><a/>", nil, []string{"1:42 <a>", "1:46 </a>", "1:46 end"}},
		"instructions":       {"<?b c d?><a><?e?></a><?f g?>", nil, []string{"1:1 <?b c d?>", "1:10 <a>", "1:13 <?e ?>", "1:18 </a>", "1:22 <?f g?>", "1:29 end"}}, // XML 1.0 §2.6
		"not a declaration":  {"<a b=\"<?xml version='1.0' encoding='latin1'?>\"/>", nil, []string{"line 1, column 8: not well-formed XML: unescaped < inside quoted string"}},
		"not a declaration either": {"<?xml-stylesheet encoding='latin1'?><a>é</a>", nil,
			[]string{"1:1 <?xml-stylesheet encoding='latin1'?>", "1:37 <a>", `1:40 "é"`, "1:41 </a>", "1:45 end"}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			_, odd, err := Open([]byte(test.data))
			require.NoError(t, err)
			require.Equal(t, test.odd, odd)
			require.Equal(t, test.want, open(test.data))
		})
	}
}

// Every byte of Windows-1252 that stands for a character comes out as the
// WHATWG Encoding Standard has it (index windows-1252), which lets the five
// that stand for none be control characters.
func TestWindows1252(t *testing.T) {
	want := []rune("€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ")
	require.Len(t, want, 32)
	for i, r := range want {
		b := 0x80 + i
		tokens, _, err := Open([]byte("<?xml version='1.0' encoding='windows-1252'?><a>" + string([]byte{byte(b)}) + "</a>"))
		require.NoError(t, err)
		all, err := readAll(tokens)
		require.NoError(t, err)
		require.Equal(t, string(r), all[1].Text, "byte %#x", b)
	}
}

func TestOpenRefuses(t *testing.T) {
	const unpackable = "line 1, column 1: the file starts as one compressed with gzip but cannot be unpacked: "
	const tooLong = "line 1, column 1: the file is longer than 16 MB, the most that is read"
	whole := packed(t, "<a/>")
	long := "<a>" + strings.Repeat(" ", MostBytes-len("<a></a>")) + "</a>"
	longer := strings.Replace(long, " ", "  ", 1)
	broken := []byte(whole)
	broken[len(broken)-8] ^= 1 // the check sum, RFC 1952 §2.3.1
	tests := map[string]struct{ data, want string }{
		"broken gzip":          {"\x1f\x8b", unpackable + "unexpected EOF"},
		"not deflated":         {"\x1f\x8b\x07\x00\x00\x00\x00\x00\x00\x00", unpackable + "gzip: invalid header"}, // RFC 1952 §2.3.1: CM
		"gzip cut off":         {whole[:len(whole)-3], unpackable + "unexpected EOF"},
		"wrong check sum":      {string(broken), unpackable + "gzip: invalid checksum"},
		"behind gzip":          {whole + "<a>behind it</a>", unpackable + "gzip: invalid header"},
		"gzip in gzip":         {packed(t, whole), "line 1, column 2: the byte 0x8b is not UTF-8; save the file as UTF-8"},
		"gzip bomb":            {packed(t, strings.Repeat("\x00", 4*MostBytes)), tooLong},
		"too long when packed": {packed(t, longer), tooLong},
		"too long":             {longer, tooLong},
		"just right":           {long, "1:16777217 end"},
		"just right packed":    {packed(t, long), "1:16777217 end"},
		"too many attributes":  {"<a>" + strings.Repeat("=", mostAttributes+1) + "</a>", "line 1, column 1: the file has more than 500000 attributes, the most that are read"},
		"enough attributes":    {"<a>" + strings.Repeat("=", mostAttributes) + "</a>", "1:500008 end"},
		"UTF-16 cut off":       {"\xff\xfe<", "line 1, column 1: the file is in UTF-16 and ends within a character; save it as UTF-8"},
		"UTF-16 BE cut off":    {"\xfe\xff\x00", "line 1, column 1: the file is in UTF-16 and ends within a character; save it as UTF-8"},
		"UTF-16 by name only":  {"<?xml version='1.0' encoding='UTF-16'?><a/>", "line 1, column 1: the file is declared to be in the encoding UTF-16, which is not read here; save it as UTF-8"}, // XML 1.0 §4.3.3
		"unknown encoding":     {"<?xml version='1.0' encoding=\"Shift_JIS\"?><a/>", "line 1, column 1: the file is declared to be in the encoding Shift_JIS, which is not read here; save it as UTF-8"},
		"UTF-16 without mark":  {"<\x00a\x00/\x00>\x00", "line 1, column 2: not well-formed XML: expected element name after <"},
		"not UTF-8":            {"<a>\n \xe9</a>", "line 2, column 2: the byte 0xe9 is not UTF-8; save the file as UTF-8"},
		"ISO 8859-1 in UTF-8":  {"\uFEFF<?xml version='1.0' encoding='ISO-8859-1'?><a>\xe9</a>", "line 1, column 47: the byte 0xe9 is not UTF-8; save the file as UTF-8"},
		"two marks":            {"\uFEFF\uFEFF<a/>", `line 1, column 1: text outside the root element: "\ufeff"`},
		"nothing":              {"", "line 1, column 1: the file holds no element; an SVG file has one <svg>"},
		"a mark alone":         {"\uFEFF", "line 1, column 1: the file holds no element; an SVG file has one <svg>"},
		"text outside":         {"<a/>b", `line 1, column 5: text outside the root element: "b"`},
		"a second root":        {"<a/><b/>", "line 1, column 5: a second root element <b>; a file has one"},
		"attribute twice":      {"<a b='' b=''/>", "line 1, column 9: attribute b is given twice"},
		"a declaration late":   {" <?xml version='1.0'?><a/>", "line 1, column 2: the XML declaration must be the first thing in the file"},
		"control":              {"<a>\x01</a>", "line 1, column 5: not well-formed XML: illegal character code U+0001"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) { require.Equal(t, test.want, last(open(test.data))) })
	}
}
