package reader

import (
	"bytes"
	"slices"
	"strings"

	"panelry/export/svg/findings"
	"panelry/export/svg/markup"
)

// Namespaces.
const (
	svgNamespace   = "http://www.w3.org/2000/svg"
	xlinkNamespace = "http://www.w3.org/1999/xlink"
	xmlNamespace   = "http://www.w3.org/XML/1998/namespace"
)

// mostElements is how many elements a file may have.
const mostElements = 400_000

// A node is one element of the file.
type node struct {
	name     string // "" for an element that is not SVG's
	at       int
	attrs    []markup.Attribute
	parent   *node
	children []*node
	index    int    // among the parent's children
	text     []byte // of <style> and <title> only
	styled   []declaration
}

// attribute returns the value of an attribute of SVG, "" where it is not
// given.
func (n *node) attribute(name string) string {
	if a := n.find(name); a != nil {
		return a.Value
	}
	return ""
}

// find returns an attribute without namespace, or nil.
func (n *node) find(name string) *markup.Attribute {
	for i := range n.attrs {
		if n.attrs[i].Name == name {
			return &n.attrs[i]
		}
	}
	return nil
}

// href returns what a reference points to: href beats xlink:href (SVG 2
// §16.1.2).
func (n *node) href() *markup.Attribute {
	if a := n.find("href"); a != nil {
		return a
	}
	for i := range n.attrs {
		if n.attrs[i].Space == xlinkNamespace && n.attrs[i].Local == "href" {
			return &n.attrs[i]
		}
	}
	return nil
}

// before returns the element before this one under the same parent.
func (n *node) before() *node {
	if n.parent == nil || n.index == 0 {
		return nil
	}
	return n.parent.children[n.index-1]
}

// siblings counts the elements before and behind this one under the same
// parent, or only those of the same kind.
func (n *node) siblings(same bool, budget *int) (before, behind int) {
	if n.parent == nil {
		return 0, 0
	}
	if !same {
		return n.index, len(n.parent.children) - n.index - 1
	}
	*budget -= len(n.parent.children) / 8
	for i, c := range n.parent.children {
		switch {
		case c.name != n.name:
		case i < n.index:
			before++
		case i > n.index:
			behind++
		}
	}
	return before, behind
}

// label names the element in a finding: its tag with its id.
func (n *node) label() string {
	if id := n.attribute("id"); id != "" {
		return n.name + "#" + markup.Shorten(id)
	}
	return n.name
}

// A candidate is a value that a property of an element may take.
type candidate struct {
	value string
	css   bool // from a style sheet or a style attribute
	at    int  // where to point to
	inner *markup.Attribute
}

// candidates returns the values that are declared for a property, the one
// that counts most first: style sheets and the style attribute beat the
// presentation attribute (SVG 2 §6.6).
func (n *node) candidates(property string) []candidate {
	var list []candidate
	for i := len(n.styled) - 1; i >= 0; i-- {
		if n.styled[i].property == property {
			at := n.at
			if a := n.find("style"); a != nil {
				at = a.At
			}
			list = append(list, candidate{value: n.styled[i].value, css: true, at: at})
		}
	}
	if a := n.find(property); a != nil {
		list = append(list, candidate{value: a.Value, at: a.At, inner: a})
	}
	return list
}

// first returns the candidate that counts most, or false.
func (n *node) first(property string) (candidate, bool) {
	if len(n.styled) == 0 {
		if a := n.find(property); a != nil {
			return candidate{value: strings.Trim(a.Value, " \t\r\n\f"), at: a.At, inner: a}, true
		}
		return candidate{}, false
	}
	list := n.candidates(property)
	if len(list) == 0 {
		return candidate{}, false
	}
	list[0].value = strings.Trim(list[0].value, " \t\r\n\f")
	return list[0], true
}

// A tree is the elements of a file.
type tree struct {
	root   *node
	ids    map[string]*node
	sheet  styleSheet
	styles []*node // the <style> elements
}

// parse reads the whole file into a tree. Whatever is wrong with the file as
// such ends up in the findings; then the tree is nil.
func parse(data []byte, found *findings.List) *tree {
	if text := bytes.TrimLeft(data[:min(len(data), 4096)], " \t\r\n\f\uFEFF"); len(text) > 0 && text[0] > ' ' && text[0] < 0x7f && text[0] != '<' {
		found.AddAt(findings.NotSVG, markup.Place{Line: 1, Column: 1}, "", "the file is not an SVG drawing, nor any XML")
		return nil
	}
	tokens, odd, err := markup.Open(data)
	if err != nil {
		addFault(found, err)
		return nil
	}
	found.Places = tokens.Places
	for _, o := range odd {
		found.AddAt(oddRules[o.Kind], o.Place, "", "%s", o.Text)
	}
	t := &tree{ids: map[string]*node{}}
	b := builder{tree: t, found: found, prefixes: map[string]bool{}, declared: map[string]bool{}}
	if err := b.run(tokens); err != nil {
		addFault(found, err)
		return nil
	}
	return t
}

var oddRules = map[markup.OddityKind]*findings.Rule{
	markup.ByteOrderMark: findings.ByteOrderMark,
	markup.Encoding:      findings.Encoding,
	markup.Packed:        findings.Packed,
	markup.Doctype:       findings.Doctype,
	markup.Entities:      findings.Entities,
	markup.Declarations:  findings.Declarations,
}

func addFault(found *findings.List, err error) {
	fault := err.(*markup.Fault)
	found.AddAt(findings.XML, fault.Place, "", "%s", fault.Text)
}

type builder struct {
	*tree
	found    *findings.List
	here     *node
	count    int
	prefixes map[string]bool // that were reported
	declared map[string]bool // namespaces that a prefix stands for
}

func (b *builder) run(tokens *markup.Tokens) error {
	for {
		token, err := tokens.Next()
		if err != nil {
			return err
		}
		switch token.Kind {
		case markup.EndOfFile:
			return nil
		case markup.Instruction:
			if token.Name == "xml-stylesheet" {
				b.found.Add(findings.StyleSheetOutside, token.At, "", "the file asks for a style sheet from outside, which may change sizes")
			}
		case markup.Characters:
			if b.here != nil && (b.here.name == "style" || b.here.name == "title") {
				b.here.text = append(b.here.text, token.Text...)
			}
		case markup.EndTag:
			b.here = b.here.parent
		case markup.StartTag:
			if b.count++; b.count > mostElements {
				return tokens.Fault(token.At, "more than %d elements, the most that are read", mostElements)
			}
			b.start(token)
		}
	}
}

func (b *builder) start(token markup.Token) {
	n := &node{name: token.Name, at: token.At, attrs: token.Attrs, parent: b.here}
	for _, a := range token.Attrs {
		if a.Space == "xmlns" || a.Name == "xmlns" {
			b.declared[a.Value] = true
		}
	}
	if token.Space != svgNamespace {
		n.name = ""
		b.prefix(token.Space, token.At)
	}
	for _, a := range token.Attrs {
		if a.Space != "" {
			b.prefix(a.Space, a.At)
		}
	}
	if b.here == nil {
		b.root = n
	} else {
		n.index = len(b.here.children)
		b.here.children = append(b.here.children, n)
	}
	b.here = n
	if n.name == "style" {
		b.styles = append(b.styles, n)
	}
	if a := n.find("id"); a != nil && a.Value != "" {
		b.id(n, a)
	}
}

// prefix reports a prefix that no xmlns attribute declares: encoding/xml
// hands it on in the place of the namespace (Namespaces in XML §5).
func (b *builder) prefix(space string, at int) {
	if space == "" || space == "xmlns" || space == xmlNamespace || b.declared[space] || b.prefixes[space] {
		return
	}
	b.prefixes[space] = true
	b.found.Add(findings.Prefix, at, "", "the prefix %s is not declared", quoted(space))
}

func (b *builder) id(n *node, a *markup.Attribute) {
	if _, twice := b.ids[a.Value]; twice {
		b.found.Add(findings.DuplicateID, a.At, n.label(), "the id %s is given to more than one element", quoted(a.Value))
		return
	}
	b.ids[a.Value] = n
}

// cascade gives each element what style sheets and style attributes declare
// for it, the strongest last (CSS Cascade 4 §6.1).
func (t *tree) cascade(found *findings.List) {
	for _, s := range t.styles {
		if kind := strings.TrimSpace(s.attribute("type")); kind == "" || strings.EqualFold(kind, "text/css") {
			if media := s.attribute("media"); media == "" || onScreens(media) {
				t.sheet.add(string(s.text))
			}
		}
	}
	for _, strange := range t.sheet.strange {
		found.Add(findings.StyleUnknown, t.styles[0].at, "style", "%s in a style sheet is not understood here", quoted(strange))
	}
	budget := styleBudget{matches: 5_000_000, declarations: 500_000}
	t.style(t.root, &budget)
	if budget.matches < 0 || budget.declarations < 0 {
		found.Add(findings.TooMuch, t.root.at, "", "the styles are too many to be followed")
	}
}

// A styleBudget is how much work styles may still make.
type styleBudget struct{ matches, declarations int }

func (t *tree) style(n *node, budget *styleBudget) {
	type ranked struct {
		declaration
		rank [3]int // important, style attribute, specificity
	}
	var list []ranked
	add := func(d declaration, attribute, specificity int) {
		r := ranked{d, [3]int{0, attribute, specificity}}
		if d.important {
			r.rank[0] = 1
		}
		if budget.declarations--; budget.declarations < 0 {
			return
		}
		list = append(list, r)
	}
	for _, rule := range t.sheet.rules {
		if budget.matches < 0 || budget.declarations < 0 {
			return
		}
		if n.name != "" && rule.selector.matches(n, 0, &budget.matches) {
			for _, d := range rule.declared {
				add(d, 0, rule.specificity)
			}
		}
	}
	if a := n.find("style"); a != nil {
		for _, d := range parseDeclarations(a.Value) {
			add(d, 1, 0)
		}
	}
	slices.SortStableFunc(list, func(a, b ranked) int { return slices.Compare(a.rank[:], b.rank[:]) })
	for _, r := range list {
		n.styled = append(n.styled, r.declaration)
	}
	for _, c := range n.children {
		t.style(c, budget)
	}
}
