package reader

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Selectors 3 §9: ids, then classes, attributes and pseudo-classes, then
// types; most of these stand there.
func TestSpecificity(t *testing.T) {
	for text, want := range map[string][3]int{
		"*": {0, 0, 0}, "li": {0, 0, 1}, "ul li": {0, 0, 2}, "ul ol+li": {0, 0, 3}, "h1 + *[rel=up]": {0, 1, 1}, "ul ol li.red": {0, 1, 3}, "li.red.level": {0, 2, 1},
		"#x34y": {1, 0, 0}, "#a#b": {2, 0, 0}, "g#a > .b:first-child rect": {1, 2, 2}, "[a][b]": {0, 2, 0}, "rect:root": {0, 1, 1}, "*.a": {0, 1, 0},
	} {
		s, ok := parseSelector(text)
		require.True(t, ok, text)
		require.Equal(t, want[0]<<20+want[1]<<10+want[2], s.specificity(), text)
	}
}

// What is not understood must not be taken for something else.
func TestSelectorsRefused(t *testing.T) {
	for _, text := range []string{
		"", " ", ">", "> rect", "rect >", "rect > > g", "rect + ~ g", ".", "#", "rect.", "[", "[]", "[=a]", "[a", `[a="b]`, "[a b]", "[a:b]", "rect:lang(xxx)", "rect:not(g .a)", "rect::before", ":is(g)",
		"svg|rect", "*|*", "rect && g", "rect!", "rect{}", "@media", "rect\\.a", "rect,g", "rect*", "rect /deep/ g", strings.Repeat("g ", 30) + "rect", "é!",
	} {
		_, ok := parseSelector(text)
		require.False(t, ok, "%q", text)
	}
}

// garden is a document in which selectors look for something. Elements are
// known by their ids, in the order of the alphabet.
const garden = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:f="http://example.org/f" id="a">
<g id="b" class="one two" lang="en-GB">
	<rect id="c" data-a="xyz"/><rect id="d" class=" two
	three " data-a="x y z"/><f:rect id="e" class="one"/><path id="f" class="onetwo"/>
</g>
<g id="g"><g id="h" class="one"><rect id="i" class="one"/></g><circle id="j" lang="en"/></g>
</svg>`

// matching returns the ids of the elements that the selector matches.
func matching(t *tree, s selector) string {
	var ids strings.Builder
	var walk func(n *node)
	walk = func(n *node) {
		budget := 1_000_000
		if s.matches(n, 0, &budget) {
			ids.WriteString(n.attribute("id"))
		}
		for _, c := range n.children {
			walk(c)
		}
	}
	walk(t.root)
	return ids.String()
}

// Selectors 3 §5 to §8. The foreign element e has no type that matches.
func TestSelectors(t *testing.T) {
	garden, _ := treeOf(t, garden)
	for text, want := range map[string]string{
		"*": "abcdefghij", "rect": "cdi", "RECT": "", "svg": "a", ":root": "a", "svg:root": "a", "g:root": "",
		".one": "behi", ".two": "bd", ".one.two": "b", ".three": "d", ".thre": "", "g.one": "bh", "#d": "d", "rect#d": "d", "g#d": "", "#d.two": "d", "#d#c": "",
		// §8: combinators.
		"g rect": "cdi", "svg g rect": "cdi", "g g rect": "i", "g > rect": "cdi", "svg > rect": "", "svg > g": "bg", "g>g": "h", "svg g > g > rect": "i",
		"rect + rect": "d", "rect+*": "de", "g + g": "g", "rect ~ path": "f", "rect~*": "def", "rect + path": "", "g ~ circle": "j", "g + circle": "j",
		".one > .one": "ei", "#b ~ #g rect": "i", "#b + #g > g rect": "i", "svg > g + g circle": "j", "* * * *": "i", "g  >\n rect": "cdi",
		// §6.3: attributes.
		"[data-a]": "cd", "[class]": "bdefhi", "[data-a=xyz]": "c", `[data-a="x y z"]`: "d", "[data-a='xyz']": "c", "[ data-a = 'xyz' ]": "c", "[data-a~=y]": "d", `[data-a~=""]`: "", "[data-a~=xyz]": "c",
		"[lang|=en]": "bj", "[lang|=en-GB]": "b", "[lang|=e]": "", "[data-a^=x]": "cd", `[data-a^=""]`: "", "[data-a$=z]": "cd", `[data-a$="yz"]`: "c", "[data-a*=y]": "cd", `[data-a*=" y "]`: "d", `[data-a*=""]`: "",
		"[class=one]": "ehi", "[class^=one]": "befhi", "rect[data-a][class]": "d", "[id=b] [data-a]": "cd", "[data-A]": "", "[lang=EN]": "", `[data-a="]"]`: "",
		// §6.6: pseudo-classes; the root is an only child (Selectors 4 §13.3). Those of a mouse hold for nothing on paper.
		":first-child": "abchi", ":last-child": "afgij", "rect:first-child": "ci", "g:last-child": "g", ":first-child:last-child": "ai", ":FIRST-CHILD": "abchi",
		"rect:hover": "", "rect:active": "", "*:focus": "", ":target": "", "path:visited": "",
	} {
		s, ok := parseSelector(text)
		require.True(t, ok, text)
		require.Equal(t, want, matching(garden, s), text)
	}
}

// A drawn selector has its text and what is obviously meant by it.
type drawnPart struct {
	text  string
	holds func(n *node) bool
	next  string // the combinator behind it
}

var drawnParts = []drawnPart{
	{text: "*", holds: func(*node) bool { return true }},
	{text: "g", holds: func(n *node) bool { return n.name == "g" }},
	{text: "rect", holds: func(n *node) bool { return n.name == "rect" }},
	{text: ".k", holds: func(n *node) bool { return strings.Contains(" "+n.attribute("class")+" ", " k ") }},
	{text: "g.k", holds: func(n *node) bool { return n.name == "g" && n.attribute("class") == "k" }},
	{text: ":first-child", holds: func(n *node) bool { return n.parent == nil || n.parent.children[0] == n }},
	{text: "rect:last-child", holds: func(n *node) bool {
		return n.name == "rect" && n.parent.children[len(n.parent.children)-1] == n
	}},
	{text: "[class]", holds: func(n *node) bool { return n.attribute("class") != "" }},
}

// obvious goes from the left: the set of all that fit the first part, then
// of all that fit the second and stand to one of those as they should.
func obvious(all []*node, parts []drawnPart) []*node {
	var set []*node
	for i, part := range parts {
		var next []*node
		for _, n := range all {
			if part.holds(n) && (i == 0 || slices.ContainsFunc(set, func(m *node) bool { return related(m, n, parts[i-1].next) })) {
				next = append(next, n)
			}
		}
		set = next
	}
	return set
}

func related(m, n *node, combinator string) bool {
	switch combinator {
	case ">":
		return n.parent == m
	case "+":
		return n.parent != nil && n.parent == m.parent && n.index == m.index+1
	case "~":
		return n.parent != nil && n.parent == m.parent && n.index > m.index
	}
	return inTree(n, m)
}

func TestSelectorsAgainstSets(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		document := `<svg xmlns="http://www.w3.org/2000/svg">`
		depth := 0
		for range rapid.IntRange(1, 20).Draw(rt, "elements") {
			class := rapid.SampledFrom([]string{"", ` class="k"`}).Draw(rt, "class")
			switch rapid.IntRange(0, 2).Draw(rt, "kind") {
			case 0:
				document += "<g" + class + ">"
				depth++
			case 1:
				document += "<rect" + class + "/>"
			default:
				if depth > 0 {
					document += "</g>"
					depth--
				}
			}
		}
		tr, _ := treeOf(t, document+strings.Repeat("</g>", depth)+"</svg>")
		var all []*node
		var walk func(n *node)
		walk = func(n *node) {
			all = append(all, n)
			for _, c := range n.children {
				walk(c)
			}
		}
		walk(tr.root)

		var parts []drawnPart
		text := ""
		for i := range rapid.IntRange(1, 4).Draw(rt, "parts") {
			part := rapid.SampledFrom(drawnParts).Draw(rt, "part")
			part.next = rapid.SampledFrom([]string{" ", ">", "+", "~"}).Draw(rt, "combinator")
			if i > 0 {
				text += parts[i-1].next
			}
			text += part.text
			parts = append(parts, part)
		}
		s, ok := parseSelector(text)
		require.True(rt, ok, text)
		var got []*node
		for _, n := range all {
			budget := 1_000_000
			if s.matches(n, 0, &budget) {
				got = append(got, n)
			}
		}
		require.Equal(rt, len(obvious(all, parts)), len(got), "%s in %s", text, document)
		for i, n := range obvious(all, parts) {
			require.True(rt, n == got[i], "%s in %s", text, document)
		}
	})
}

// What counts for x, by CSS Cascade 4 §6.1 to §6.4 and SVG 2 §6.6: important
// first, then the style attribute, then specificity, then order; the
// presentation attribute last of all.
func TestCascade(t *testing.T) {
	tests := map[string]struct{ sheet, attributes, want string }{
		"attribute alone":               {"", `x="1"`, "1"},
		"style over attribute":          {"", `x="1" style="x:2px"`, "2px"},
		"sheet over attribute":          {"rect{x:3px}", `x="1"`, "3px"},
		"the weakest sheet over it":     {"*{x:3px}", `x="1"`, "3px"},
		"style over sheet":              {"#r{x:3px}", `style="x:2px"`, "2px"},
		"important sheet over style":    {"rect{x:3px !important}", `style="x:2px"`, "3px"},
		"important style over that":     {"#r{x:3px!important}", `style="x:2px ! Important"`, "2px"},
		"id over class":                 {"#r{x:1px}.k{x:2px}", "", "1px"},
		"class over type":               {".k{x:1px}rect{x:2px}", "", "1px"},
		"class over many types":         {".k{x:1px}svg svg rect,svg rect{x:2px}", "", "1px"},
		"later of the same":             {".k{x:1px}.k{x:2px}", "", "2px"},
		"later in one rule":             {".k{x:1px;x:2px}", "", "2px"},
		"important before later":        {".k{x:1px !important;x:2px}", "", "1px"},
		"important by specificity":      {"#r{x:1px !important}rect{x:2px !important}", "", "1px"},
		"later style sheet":             {"rect{x:1px}</style><style>rect{x:2px}", "", "2px"},
		"list":                          {"circle, rect , path{x:1px}", "", "1px"},
		"each of a list by itself":      {"rect,#r{x:1px}.k{x:2px}", "", "1px"},
		"one of a list not understood":  {"rect:lang(xxx),rect{x:1px}", "", "1px"},
		"no match":                      {"circle{x:1px}", `x="5"`, "5"},
		"property in capitals":          {"rect{X:1px}", "", "1px"},
		"white space":                   {" rect \n{ \t x \n : \r 1px ; } ", "", "1px"},
		"comments":                      {"/* a */rect/* b */{/* c */x/**/:/* d */1px/* e */;}/* f", "", "1px"},
		"comment in a style":            {"", `style="/* x:9px; */x:/**/2px"`, "2px"},
		"comment parts what is around":  {"re/**/ct{x:1px}", `x="5"`, "5"},
		"html comment":                  {"<![CDATA[<!-- rect{x:1px} -->]]>", "", "1px"},
		"semicolon in a string":         {`rect{d:"a;x:9px";x:1px}`, "", "1px"},
		"bracket in a string":           {`[data-a="{"]{x:9px}rect{x:1px}`, "", "1px"},
		"semicolon in brackets":         {"rect{fill:url(a;x:9px);x:1px}", "", "1px"},
		"no semicolon at the end":       {"rect{y:2px;x:1px", "", "1px"},
		"junk between":                  {"rect{;;junk;:;x:1px;y}", "", "1px"},
		"a block in a block":            {"rect{y:2px;circle{x:9px}x:3px;x:1px}", "", "1px"},
		"junk before":                   {"}rect{x:9px}rect{x:1px}", "", "1px"},
		"charset":                       {`@charset "utf-8";rect{x:1px}`, "", "1px"},
		"import is left out":            {`@import url("a;b.css");rect{x:1px}`, "", "1px"},
		"media all":                     {"@media all{rect{x:1px}}", "", "1px"},
		"media screen":                  {"@MEDIA  Screen {rect{x:1px}}", "", "1px"},
		"media list":                    {"@media print , screen{rect{x:1px}}", "", "1px"},
		"media inside media":            {"@media all{@media screen{rect{x:1px}}}", "", "1px"},
		"media print":                   {"@media print{rect{x:9px}}", `x="5"`, "5"},
		"media with a condition":        {"@media (min-width:1px){rect{x:9px}}", `x="5"`, "5"},
		"behind media print":            {"@media print{rect{x:9px}}rect{x:1px}", "", "1px"},
		"font-face":                     {"@font-face{x:9px}rect{x:1px}", "", "1px"},
		"keyframes":                     {"@keyframes a{from{x:9px}}rect{x:1px}", "", "1px"},
		"another type of style":         {`</style><style type="text/less">rect{x:9px}`, `x="5"`, "5"},
		"its own type":                  {`</style><style type=" Text/CSS ">rect{x:1px}`, "", "1px"},
		"media attribute":               {`</style><style media="print">rect{x:9px}`, `x="5"`, "5"},
		"media attribute with a screen": {`</style><style media="print, SCREEN">rect{x:1px}`, "", "1px"},
		"marked characters":             {"<![CDATA[svg>rect{x:1px}]]>", "", "1px"},
		"references":                    {"svg&gt;rect{x:1px}", "", "1px"},
		"none at all":                   {"", "", ""},
		"value with a colon":            {"rect{x:a:b}", "", "a:b"},
		"an exclamation that is none":   {"rect{x:1px !imp}", "", "1px !imp"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			tr, _ := treeOf(t, sheet+"<style>"+test.sheet+`</style><rect id="r" class="k" `+test.attributes+`/></svg>`)
			c, ok := tr.ids["r"].first("x")
			require.Equal(t, test.want != "", ok)
			require.Equal(t, test.want, c.value)
		})
	}
}

// Where the value that counts stands: an attribute's own place, or the style
// attribute, or the element.
func TestCascadePlaces(t *testing.T) {
	document := sheet + `<style>.k{x:1px}</style><rect id="r" class="k" x="5" y="6" style="height:1px"/></svg>`
	tr, _ := treeOf(t, document)
	n := tr.ids["r"]
	list := n.candidates("x")
	require.Len(t, list, 2)
	require.Equal(t, strings.Index(document, `style="height`), list[0].at)
	require.True(t, list[0].css)
	require.Equal(t, strings.Index(document, `x="5"`), list[1].at)
	require.False(t, list[1].css)
	require.Equal(t, "5", list[1].inner.Value)
	c, ok := n.first("y")
	require.True(t, ok)
	require.Equal(t, strings.Index(document, `y="6"`), c.at)
	_, ok = n.first("width")
	require.False(t, ok)

	tr, _ = treeOf(t, sheet+`<style>*{x:1px}</style><rect id="r"/></svg>`)
	c, _ = tr.ids["r"].first("x")
	require.Equal(t, tr.ids["r"].at, c.at)
}

// What in a style sheet is not understood is said, up to twenty times.
func TestStrangeStyles(t *testing.T) {
	for text, want := range map[string][]string{
		"rect{x:1px}@media all{g{x:1px}}@font-face{a:b}@charset 'a';": nil,
		"rect:lang(xxx){x:1px}":                                         {"rect:lang(xxx)"},
		"g, rect:not(a,b), circle{x:1px}":                               {"rect:not(a,b)"},
		"@import 'a.css';@supports (x:y){rect{x:1px}}@media print{g{}}": {"@import 'a.css'", "@supports (x:y)", "@media print"},
		"@page{margin:1cm}":                                             {"@page"},
	} {
		var s styleSheet
		s.add(text)
		require.Equal(t, want, s.strange, text)
	}
	var s styleSheet
	s.add(strings.Repeat("a!{x:1px}", 50))
	require.Len(t, s.strange, 20)
}

// Sheets without end stop somewhere.
func TestStyleLimits(t *testing.T) {
	var s styleSheet
	s.add(strings.Repeat("a{x:1px}", mostRules+5))
	require.Len(t, s.rules, mostRules)
	require.Len(t, parseDeclarations(strings.Repeat("x:1px;", mostDeclarations+5)), mostDeclarations)
	require.Empty(t, parseDeclarations(strings.Repeat("color:red;", 10)), "nothing that bears on the drawing")

	nested := strings.Repeat("@media all{", 20) + "rect{x:1px}" + strings.Repeat("}", 20)
	s = styleSheet{}
	s.add(nested)
	require.Empty(t, s.rules)
	require.Len(t, s.strange, 1)

	sel, ok := parseSelector(strings.Repeat("* ", 19) + "*")
	require.True(t, ok)
	tr, _ := treeOf(t, `<svg xmlns="http://www.w3.org/2000/svg">`+strings.Repeat("<g>", 200)+`<rect id="deep"/>`+strings.Repeat("</g>", 200)+"</svg>")
	budget := 10
	require.False(t, sel.matches(tr.ids["deep"], 0, &budget))
	require.Negative(t, budget)
}

func TestDeclarations(t *testing.T) {
	got := fmt.Sprint(parseDeclarations(" x : 1px ; Y:2px!IMPORTANT;color:red; --a:b;transform:translate(1px, 2px) "))
	require.Equal(t, "[{x 1px false} {y 2px true} {transform translate(1px, 2px) false}]", got)
}
