package markup

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// declare puts declarations into a DOCTYPE in line 1; the body follows in
// line 2.
func declare(declarations, body string) string {
	return "<!DOCTYPE a [" + declarations + "]>\n" + body
}

func TestEntities(t *testing.T) {
	tests := map[string]struct {
		declarations, body string
		want               []string
	}{
		"in text":         {`<!ENTITY e "x">`, "<a>b&e;c</a>", []string{"2:1 <a>", `2:4 "bxc"`, "2:9 </a>", "2:13 end"}},
		"twice":           {`<!ENTITY e "x">`, "<a>&e;&e;</a>", []string{"2:1 <a>", `2:4 "xx"`, "2:10 </a>", "2:14 end"}},
		"in a value":      {`<!ENTITY e "x">`, "<a b='1&e;2'/>", []string{`2:1 <a b="1x2">`, "2:15 </a>", "2:15 end"}},
		"single quotes":   {`<!ENTITY e 'x"'>`, "<a>&e;</a>", []string{"2:1 <a>", `2:4 "x\""`, "2:7 </a>", "2:11 end"}},
		"empty":           {`<!ENTITY e "">`, "<a>b&e;c<d f='&e;'/></a>", []string{"2:1 <a>", `2:4 "bc"`, `2:9 <d f="">`, "2:21 </d>", "2:21 </a>", "2:25 end"}},
		"wide":            {`<!ENTITY é "😀">`, "<a>&é;<b/></a>", []string{"2:1 <a>", `2:4 "😀"`, "2:7 <b>", "2:11 </b>", "2:11 </a>", "2:15 end"}},
		"space in it":     {"<!ENTITY\n\te\r\n\"x\"\n>", "<a>&e;</a>", []string{"5:1 <a>", `5:4 "x"`, "5:7 </a>", "5:11 end"}},
		"several":         {`<!ENTITY e "x"> <!ENTITY f "y"><!-- <!ENTITY e "z"> ]> --><?p ]> ?>`, "<a>&f;&e;</a>", []string{"2:1 <a>", `2:4 "yx"`, "2:10 </a>", "2:14 end"}},
		"signs in values": {`<!ENTITY e "]>'"><!ENTITY f ']">'>`, "<a>&e;&f;</a>", []string{"2:1 <a>", `2:4 "]>']\">"`, "2:10 </a>", "2:14 end"}},

		// Markup in the replacement is read as such: XML 1.0 §4.4.2.
		"markup":            {`<!ENTITY e "<g id='1'>x</g>">`, "<a>&e;\n<b/></a>", []string{"2:1 <a>", `2:4 <g id="1">`, `2:4 "x"`, "2:4 </g>", `2:7 "\n"`, "3:1 <b>", "3:5 </b>", "3:5 </a>", "3:9 end"}},
		"a comment":         {`<!ENTITY e "<!-- x -->y">`, "<a>&e;</a>", []string{"2:1 <a>", `2:4 "y"`, "2:7 </a>", "2:11 end"}},
		"markup by number":  {`<!ENTITY e "&#60;g/>">`, "<a>&e;</a>", []string{"2:1 <a>", "2:4 <g>", "2:7 </g>", "2:7 </a>", "2:11 end"}},             // XML 1.0 §4.5, appendix D
		"CDATA by entity":   {`<!ENTITY e "<![CDATA[&f;]]>"><!ENTITY f "x">`, "<a>&e;</a>", []string{"2:1 <a>", `2:4 "&f;"`, "2:7 </a>", "2:11 end"}}, // XML 1.0 §2.7
		"attribute by it":   {`<!ENTITY e "<g b='&f;'/>"><!ENTITY f "x'y">`, "<a>&e;</a>", []string{"2:1 <a>", `2:4 <g b="x'y">`, "2:7 </g>", "2:7 </a>", "2:11 end"}},
		"both ways in text": {`<!ENTITY e "1 < 2">`, "<a/>", []string{"2:1 <a>", "2:5 </a>", "2:5 end"}}, // not used, so not read

		// References to characters are resolved when the entity is declared,
		// once: XML 1.0 §4.5 and appendix D.
		"number":           {`<!ENTITY e "&#65;&#x42;&#x1f600;">`, "<a>&e;</a>", []string{"2:1 <a>", `2:4 "AB😀"`, "2:7 </a>", "2:11 end"}},
		"number in value":  {`<!ENTITY e "&#65;">`, "<a b='&e;'/>", []string{`2:1 <a b="A">`, "2:13 </a>", "2:13 end"}},
		"escaped less":     {`<!ENTITY e "&#38;#60;">`, "<a b='&e;'>&e;</a>", []string{`2:1 <a b="<">`, `2:12 "<"`, "2:15 </a>", "2:19 end"}}, // as XML 1.0 §4.6 declares lt
		"escaped and":      {`<!ENTITY e "&#38;#38;">`, "<a b='&e;'>&e;</a>", []string{`2:1 <a b="&">`, `2:12 "&"`, "2:15 </a>", "2:19 end"}}, // as XML 1.0 §4.6 declares amp
		"predefined in it": {`<!ENTITY e "&lt;g/&gt; &amp;amp;">`, "<a>&e;</a>", []string{"2:1 <a>", `2:4 "<g/> &amp;"`, "2:7 </a>", "2:11 end"}},
		// XML 1.0 appendix D, first example.
		"an ampersand": {`<!ENTITY example "<p>An ampersand (&#38;#38;) may be escaped numerically (&#38;#38;#38;) or with a general entity (&amp;amp;).</p>" >`, "<a>&example;</a>",
			[]string{"2:1 <a>", "2:4 <p>", `2:4 "An ampersand (&) may be escaped numerically (&#38;) or with a general entity (&amp;)."`, "2:4 </p>", "2:13 </a>", "2:17 end"}},

		// XML 1.0 §4.4.4 to §4.4.7.
		"nested":             {`<!ENTITY e "[&f;]"><!ENTITY f "(&g;)"><!ENTITY g "x">`, "<a b='&e;'>&e;</a>", []string{`2:1 <a b="[(x)]">`, `2:12 "[(x)]"`, "2:15 </a>", "2:19 end"}},
		"first counts":       {`<!ENTITY e "1"><!ENTITY e "2">`, "<a>&e;</a>", []string{"2:1 <a>", `2:4 "1"`, "2:7 </a>", "2:11 end"}},                  // XML 1.0 §4.2
		"cases are apart":    {`<!ENTITY e "1"><!ENTITY E "2">`, "<a>&E;</a>", []string{"2:1 <a>", `2:4 "2"`, "2:7 </a>", "2:11 end"}},                  // XML 1.0 §1.2, match
		"quotes in a value":  {`<!ENTITY e 'x" c="y'>`, `<a b="&e;"/>`, []string{`2:1 <a b="x\" c=\"y">`, "2:13 </a>", "2:13 end"}},                     // XML 1.0 §4.4.5
		"other quotes":       {`<!ENTITY e "x' c='y">`, `<a b='&e;' d="&e;"/>`, []string{`2:1 <a b="x' c='y" d="x' c='y">`, "2:21 </a>", "2:21 end"}},   // XML 1.0 §4.4.5
		"quotes deep inside": {`<!ENTITY e "&f;"><!ENTITY f "'">`, `<a b='&e;'/>`, []string{`2:1 <a b="'">`, "2:13 </a>", "2:13 end"}},                  // XML 1.0 §4.4.5
		"greater in a value": {`<!ENTITY e ">">`, `<a b="&e;">&e;</a>`, []string{`2:1 <a b=">">`, `2:12 ">"`, "2:15 </a>", "2:19 end"}},                 //
		"behind a > inside":  {`<!ENTITY e '"'>`, `<a b=">&e;" c='1'>&e;</a>`, []string{`2:1 <a b=">\"" c="1">`, `2:19 "\""`, "2:22 </a>", "2:26 end"}}, //
		"quotes in text":     {`<!ENTITY e "it's">`, `<a>"<b c="&e;"/>'&e;</a>`, []string{"2:1 <a>", `2:4 "\""`, `2:5 <b c="it's">`, "2:17 </b>", `2:17 "'it's"`, "2:21 </a>", "2:25 end"}},

		// Not recognised there: XML 1.0 §2.5, §2.6, §2.7.
		"in CDATA":          {`<!ENTITY e "x">`, "<a><![CDATA[&e;]]>&e;</a>", []string{"2:1 <a>", `2:4 "&e;"`, `2:19 "x"`, "2:22 </a>", "2:26 end"}},
		"in a comment":      {`<!ENTITY e "--">`, "<!-- &e; --><a><!-- &e; --></a>", []string{"2:13 <a>", "2:28 </a>", "2:32 end"}},
		"in an instruction": {`<!ENTITY e "?>">`, "<a><?p &e;?></a>", []string{"2:1 <a>", "2:4 <?p &e;?>", "2:13 </a>", "2:17 end"}},
		"quote in comment":  {`<!ENTITY e "x">`, "<a><!-- it's --><b c='&e;'/></a>", []string{"2:1 <a>", `2:17 <b c="x">`, "2:29 </b>", "2:29 </a>", "2:33 end"}},

		// XML 1.0 §4.6.
		"predefined":           {`<!ENTITY e "x">`, "<a b='&quot;'>&lt;&gt;&amp;e;&apos;</a>", []string{`2:1 <a b="\"">`, `2:15 "<>&e;'"`, "2:36 </a>", "2:40 end"}},
		"predefined otherwise": {`<!ENTITY lt "x"><!ENTITY gt "y"><!ENTITY amp "z"><!ENTITY apos "v"><!ENTITY quot "w">`, "<a>&lt;&gt;&amp;&apos;&quot;</a>", []string{"2:1 <a>", `2:4 "<>&'\""`, "2:29 </a>", "2:33 end"}}, // an error, which need not be fatal: XML 1.0 §1.2
		"predefined declared":  {`<!ENTITY lt "&#38;#60;"><!ENTITY gt "&#62;"><!ENTITY amp "&#38;#38;"><!ENTITY apos "&#39;"><!ENTITY quot "&#34;">`, "<a b='&apos;&quot;'>&lt;&gt;&amp;</a>", []string{`2:1 <a b="'\"">`, `2:21 "<>&"`, "2:34 </a>", "2:38 end"}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, test.want, open(declare(test.declarations, test.body)))
			_, odd, err := Open([]byte(declare(test.declarations, test.body)))
			require.NoError(t, err)
			require.Equal(t, []Oddity{{Entities, "the DOCTYPE declares entities", Place{1, 1}}}, odd)
		})
	}
}

func TestEntityFaults(t *testing.T) {
	const more = "line 2, column %d: not well-formed XML: invalid character entity &%s;"
	chain := func(n int) string { // e1 holds e2 holds e3 ... holds en
		var b strings.Builder
		for i := 1; i < n; i++ {
			fmt.Fprintf(&b, `<!ENTITY e%d "&e%d;">`, i, i+1)
		}
		fmt.Fprintf(&b, `<!ENTITY e%d "x">`, n)
		return b.String()
	}
	const tooMuch = "the entities of the DOCTYPE grow to more than 1 MB"
	const tooOften = "the entities of the DOCTYPE are used too often"
	sized := func(n int) string { return `<!ENTITY e "` + strings.Repeat("x", n) + `">` }
	tests := map[string]struct{ declarations, body, want string }{
		"undeclared":            {`<!ENTITY e "x">`, "<a>&f;</a>", fmt.Sprintf(more, 7, "f")}, // XML 1.0 §4.1, WFC: Entity Declared
		"undeclared in a value": {`<!ENTITY e "x">`, "<a b='&f;'/>", fmt.Sprintf(more, 10, "f")},
		"undeclared in it":      {`<!ENTITY e "x &f; y">`, "<a>b&e;c</a>", fmt.Sprintf(more, 5, "f")},
		"undeclared behind it":  {`<!ENTITY e "x">`, "<a>&e;&f;</a>", fmt.Sprintf(more, 10, "f")},
		"only in a comment":     {`<!-- <!ENTITY e "x"> -->`, "<a>&e;</a>", fmt.Sprintf(more, 7, "e")},
		"in a declared value":   {`<!ENTITY d "<!ENTITY e 'x'>">`, "<a>&e;</a>", fmt.Sprintf(more, 7, "e")},
		"no semicolon":          {`<!ENTITY e "x">`, "<a>&e </a>", "line 2, column 6: not well-formed XML: invalid character entity &e (no semicolon)"},
		"no semicolon, another": {`<!ENTITY e "x">`, "<a>&e &e;</a>", "line 2, column 6: not well-formed XML: invalid character entity &e (no semicolon)"},
		"a value with <":        {`<!ENTITY e "<y">`, "<a b='x&e;'/>", "line 2, column 8: not well-formed XML: unescaped < inside quoted string"}, // XML 1.0 §3.1, WFC: No < in Attribute Values
		"a value with < number": {`<!ENTITY e "&#60;y">`, "<a b='x&e;'/>", "line 2, column 8: not well-formed XML: unescaped < inside quoted string"},
		"tags that do not pair": {`<!ENTITY e "<g></h> ">`, "<a>b&e;</a>", "line 2, column 5: not well-formed XML: element <g> closed by </h>"},
		"attribute twice in it": {`<!ENTITY e "<g b='' b=''/>">`, "<a>b&e;</a>", "line 2, column 5: attribute b is given twice"},
		"open comment":          {`<!ENTITY e "x">`, "<a>&e;<!-- &e;", "line 2, column 15: not well-formed XML: unexpected EOF"},
		"behind wide ones":      {`<!ENTITY e "x">`, "<a>é&e;😀&e;\né&e;é<b c='' c=''/></a>", "line 3, column 14: attribute c is given twice"},
		"NUL by number":         {`<!ENTITY e "&#0;">`, "<a>&e;</a>", "line 2, column 7: not well-formed XML: illegal character code U+0000"}, // XML 1.0 §4.1, WFC: Legal Character
		"beyond all by number":  {`<!ENTITY e "&#x110000; ">`, "<a>&e;</a>", fmt.Sprintf(more, 4, "#x110000")},

		// Recursion: XML 1.0 §4.1, WFC: No Recursion.
		"itself":            {`<!ENTITY e "&e;">`, "<a>b &e;</a>", "line 2, column 6: entity e: entities stand inside one another more than 16 deep"},
		"itself in a value": {`<!ENTITY e "&e;">`, "<a\nb='&e;'/>", "line 3, column 4: entity e: entities stand inside one another more than 16 deep"},
		"in a round":        {`<!ENTITY e "x&f;"><!ENTITY f "&e;">`, "<a>&e;</a>", "line 2, column 4: entity e: entities stand inside one another more than 16 deep"},
		"twice each time":   {`<!ENTITY e "&e;&e;">`, "<a>&e;</a>", "line 2, column 4: entity e: entities stand inside one another more than 16 deep"},
		"not recursive":     {chain(mostInside), "<a>&e1;</a>", "2:12 end"},
		"one too deep":      {chain(mostInside + 1), "<a>&e1;</a>", "line 2, column 4: entity e17: entities stand inside one another more than 16 deep"},

		// Growth; each use counts for 8 bytes more.
		"just right":          {sized(MostExpanded - 8), "<a>&e;</a>", "2:11 end"},
		"too large":           {sized(MostExpanded - 7), "<a>\n&e;</a>", "line 3, column 1: " + tooMuch},
		"the second use":      {sized(MostExpanded/2 - 7), "<a>&e;&e;</a>", "line 2, column 7: " + tooMuch},
		"not used":            {sized(MostExpanded + 1), "<a/>", "2:5 end"},
		"before a nested one": {`<!ENTITY f "">` + strings.Replace(sized(MostExpanded-7), "x\">", "x&f;\">", 1), "<a>&e;</a>", "line 2, column 4: " + tooMuch},
		"a long file":         {`<!ENTITY e "x">`, "<a>" + strings.Repeat(" ", 2*MostExpanded) + "&e;</a>", "2:2097163 end"}, // only what entities add counts
		"empty, often":        {`<!ENTITY e "">`, "<a>" + strings.Repeat("&e;", MostExpanded/8) + "</a>", "2:393224 end"},
		"empty, too often":    {`<!ENTITY e "">`, "<a>" + strings.Repeat("&e;", MostExpanded/8+1) + "</a>", "line 2, column 393220: " + tooOften},
		"ten to the tenth":    {strings.ReplaceAll(laughs(), "laugh", strings.Repeat("laugh", 1000)), "<a>\n &l10;</a>", "line 3, column 2: " + tooMuch},
		"nothing, and much":   {strings.ReplaceAll(laughs(), "laugh", ""), "<a>\n &l10;</a>", "line 3, column 2: " + tooOften},
		"in a value":          {laughs(), "<a b='&l10;'/>", "line 2, column 7: " + tooOften},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, test.want, last(open(declare(test.declarations, test.body))))
		})
	}
}

// laughs declares l0 to l10, each ten times the one before.
func laughs() string {
	var b strings.Builder
	b.WriteString(`<!ENTITY l0 "laugh">`)
	for i := 1; i <= 10; i++ {
		fmt.Fprintf(&b, `<!ENTITY l%d "%s">`, i, strings.Repeat(fmt.Sprintf("&l%d;", i-1), 10))
	}
	return b.String()
}

// The quotation marks that an entity brings into a value count as they are
// written there, so 6 bytes each.
func TestGrowthOfQuotes(t *testing.T) {
	n := (MostExpanded - 8) / len("&quot;")
	for name, test := range map[string]struct {
		quotes int
		want   string
	}{
		"just right": {n, "2:13 end"},
		"too large":  {n + 1, "line 2, column 7: the entities of the DOCTYPE grow to more than 1 MB"},
	} {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, test.want, last(open(declare("<!ENTITY e '"+strings.Repeat(`"`, test.quotes)+"'>", "<a b='&e;'/>"))))
		})
	}
}

func TestDoctypes(t *testing.T) {
	const plain, entities, more = "the file has a DOCTYPE", "the DOCTYPE declares entities", "the DOCTYPE declares more than entities, which is not read"
	tests := map[string]struct {
		text string
		odd  Oddity
		want string
	}{
		"bare":             {"<!DOCTYPE a>\n<a/>", Oddity{Doctype, plain, Place{1, 1}}, "2:5 end"},
		"nothing in it":    {"<!DOCTYPE a [ \n ] ><a/>", Oddity{Doctype, plain, Place{1, 1}}, "2:9 end"},
		"only a comment":   {"<!DOCTYPE a [<!-- it's > ] -->]><a/>", Oddity{Doctype, plain, Place{1, 1}}, "1:37 end"},
		"an instruction":   {"<!DOCTYPE a [<?p it's > ] ?>]><a/>", Oddity{Doctype, plain, Place{1, 1}}, "1:35 end"},
		"behind a comment": {"<?xml version='1.0'?>\n<!-- <!DOCTYPE b> --><?p?><!DOCTYPE a><a/>", Oddity{Doctype, plain, Place{2, 27}}, "2:43 end"}, // XML 1.0 §2.8 [22]
		"a public id": {`<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd"><svg/>`, // SVG 1.1 §1.3
			Oddity{Doctype, plain, Place{1, 1}}, "1:105 end"},
		"marks in the id":       {`<!DOCTYPE a SYSTEM "it's [ > ]"><a/>`, Oddity{Doctype, plain, Place{1, 1}}, "1:37 end"},
		"an id and entities":    {`<!DOCTYPE a SYSTEM 'x' [<!ENTITY e "x">]><a>&e;</a>`, Oddity{Entities, entities, Place{1, 1}}, "1:52 end"},
		"parameter entity":      {`<!DOCTYPE a [<!ENTITY % p "<!ENTITY e 'x'>">]><a/>`, Oddity{Declarations, more, Place{1, 1}}, "1:51 end"},
		"its use":               {`<!DOCTYPE a [%p;]><a/>`, Oddity{Declarations, more, Place{1, 1}}, "1:23 end"},
		"its use in a value":    {`<!DOCTYPE a [<!ENTITY e "%p;">]><a/>`, Oddity{Declarations, more, Place{1, 1}}, "1:37 end"},
		"never put in":          {`<!DOCTYPE a [<!ENTITY % p "<!ENTITY e 'x'>">%p;]><a>&e;</a>`, Oddity{Declarations, more, Place{1, 1}}, "line 1, column 56: not well-formed XML: invalid character entity &e;"},
		"external":              {`<!DOCTYPE a [<!ENTITY e SYSTEM "/etc/hostname">]><a/>`, Oddity{Declarations, more, Place{1, 1}}, "1:54 end"},
		"external, used":        {`<!DOCTYPE a [<!ENTITY e SYSTEM "/etc/hostname">]><a>&e;</a>`, Oddity{Declarations, more, Place{1, 1}}, "line 1, column 56: not well-formed XML: invalid character entity &e;"},
		"external, public":      {`<!DOCTYPE a [<!ENTITY e PUBLIC "p" "file:///etc/hostname">]><a>&e;</a>`, Oddity{Declarations, more, Place{1, 1}}, "line 1, column 67: not well-formed XML: invalid character entity &e;"},
		"not parsed":            {`<!DOCTYPE a [<!NOTATION n SYSTEM "n"><!ENTITY e SYSTEM "f" NDATA n>]><a/>`, Oddity{Declarations, more, Place{1, 1}}, "1:74 end"},
		"attribute list":        {`<!DOCTYPE a [<!ATTLIST a b CDATA "it's > ]">]><a/>`, Oddity{Declarations, more, Place{1, 1}}, "1:51 end"},
		"element declaration":   {`<!DOCTYPE a [<!ELEMENT a (#PCDATA)>]><a/>`, Oddity{Declarations, more, Place{1, 1}}, "1:42 end"},
		"entities and more":     {`<!DOCTYPE a [<!ENTITY e "x"><!ELEMENT a ANY>]><a>&e;</a>`, Oddity{Declarations, more, Place{1, 1}}, "1:57 end"},
		"a mark in a signature": {"\uFEFF<!DOCTYPE a><a/>", Oddity{Doctype, plain, Place{1, 1}}, "1:17 end"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			_, odd, err := Open([]byte(test.text))
			require.NoError(t, err)
			require.Equal(t, test.odd, odd[len(odd)-1])
			require.Equal(t, test.want, last(open(test.text)))
		})
	}
}

// The default of an attribute list is not put in: XML 1.0 §3.3.2 has it, but
// not every reader does, so that it only counts as an oddity.
func TestNoDefaults(t *testing.T) {
	require.Equal(t, []string{"2:1 <a>", "2:5 </a>", "2:5 end"}, open(declare(`<!ATTLIST a b CDATA "x">`, "<a/>")))
}

// XML 1.0 §2.8 [28], §2.1.
func TestDoctypeFaults(t *testing.T) {
	tests := map[string]struct{ text, want string }{
		"not closed":             {"\n<!DOCTYPE a ", "line 2, column 13: the DOCTYPE is not closed"},
		"subset not closed":      {"<!DOCTYPE a [<!ENTITY e 'x'>", "line 1, column 29: the DOCTYPE is not closed"},
		"no > behind":            {"<!DOCTYPE a []", "line 1, column 15: the DOCTYPE is not closed"},
		"quote not closed":       {"<!DOCTYPE a\n'b", "line 2, column 1: a quotation mark in the DOCTYPE is not closed"},
		"comment not closed":     {"<!DOCTYPE a [\n<!-- ]><a/>", "line 2, column 5: a comment in the DOCTYPE is not closed"},
		"instruction not closed": {"<!DOCTYPE a [\n <?p ]><a/>", "line 2, column 2: an instruction in the DOCTYPE is not closed"},
		"value not closed":       {"<!DOCTYPE a [\n<!ENTITY e 'x>]><a/>", "line 2, column 12: the value of entity e is not closed"},
		"entity not closed":      {"<!DOCTYPE a [<!ENTITY e 'x'", "line 1, column 28: a declaration in the DOCTYPE is not closed"},
		"declaration not closed": {"<!DOCTYPE a [<!ELEMENT a", "line 1, column 25: a declaration in the DOCTYPE is not closed"},
		"default not closed":     {"<!DOCTYPE a [<!ATTLIST a b CDATA 'c>]><a/>", "line 1, column 34: a quotation mark in the DOCTYPE is not closed"},
		"cut off in a name":      {"<!DOCTYPE a [<!ENTITY e", "line 1, column 24: a declaration in the DOCTYPE is not closed"},
		"in an open comment":     {"<!-- <!DOCTYPE a [<!ENTITY", "line 1, column 27: not well-formed XML: unexpected EOF"},
		"a second one":           {"<!DOCTYPE a>\n<!DOCTYPE a><a/>", "line 2, column 1: DOCTYPE and other declarations have no place here; delete it"},
		"behind the root":        {"<a/><!DOCTYPE a>", "line 1, column 5: DOCTYPE and other declarations have no place here; delete it"},
		"in the root":            {"<a><!DOCTYPE a [<!ENTITY e 'x'>]>&e;</a>", "line 1, column 4: DOCTYPE and other declarations have no place here; delete it"},
		"small letters":          {"<!doctype a><a/>", "line 1, column 1: DOCTYPE and other declarations have no place here; delete it"},
		"nothing behind":         {"<!DOCTYPE a>\n", "line 2, column 1: the file holds no element; an SVG file has one <svg>"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) { require.Equal(t, test.want, last(open(test.text))) })
	}
}
