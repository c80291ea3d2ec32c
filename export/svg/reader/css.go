package reader

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// A declaration is one property of a style sheet or a style attribute.
type declaration struct {
	property  string // lower case
	value     string // without comments and white space around it
	important bool
}

// A styleRule is a selector with its declarations.
type styleRule struct {
	selector    selector
	specificity int
	order       int
	declared    []declaration
}

// A styleSheet is the rules of all <style> elements, and what in them is not
// understood.
type styleSheet struct {
	rules   []styleRule
	strange []string // at-rules and selectors that were left out
}

// mostRules is how many rules a file may have.
const mostRules = 5000

// add reads the text of a <style> element (CSS Syntax 3 in short: rules,
// at-rules, comments, strings and brackets).
func (s *styleSheet) add(text string) {
	text = strings.NewReplacer("<!--", " ", "-->", " ").Replace(spaceComments(text))
	s.rulesIn(text, 0)
}

// spaceComments puts a space where a comment stands.
func spaceComments(text string) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(text, "/*")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		b.WriteByte(' ')
		if _, text, found = strings.Cut(rest, "*/"); !found {
			return b.String()
		}
	}
}

func (s *styleSheet) rulesIn(text string, depth int) {
	for {
		text = strings.TrimLeft(text, " \t\r\n\f")
		if text == "" || len(s.rules) >= mostRules {
			return
		}
		end := cssEnd(text, "{;")
		if text[0] != '@' {
			end = cssEnd(text, "{")
		}
		if end == len(text) {
			return
		}
		prelude := strings.TrimSpace(text[:end])
		if text[end] == ';' {
			if !strings.HasPrefix(strings.ToLower(prelude), "@charset") {
				s.leaveOut(prelude)
			}
			text = text[end+1:]
			continue
		}
		body, rest := cssBlock(text[end+1:])
		text = rest
		switch {
		case prelude == "" || prelude[0] != '@':
			s.rule(prelude, body)
		case isForScreens(prelude) && depth < 8:
			s.rulesIn(body, depth+1)
		case strings.HasPrefix(strings.ToLower(prelude), "@font-face"):
		default:
			s.leaveOut(prelude)
		}
	}
}

// leaveOut remembers what is not understood, the first few.
func (s *styleSheet) leaveOut(text string) {
	if len(s.strange) < 20 {
		s.strange = append(s.strange, text)
	}
}

// isForScreens reports whether an @media rule surely holds on a screen.
func isForScreens(prelude string) bool {
	media, ok := strings.CutPrefix(strings.ToLower(prelude), "@media")
	return ok && onScreens(media)
}

// onScreens reports whether a list of media has all or screen in it.
func onScreens(media string) bool {
	for _, m := range strings.Split(strings.ToLower(media), ",") {
		if m = strings.TrimSpace(m); m == "all" || m == "screen" {
			return true
		}
	}
	return false
}

func (s *styleSheet) rule(prelude, body string) {
	declared := parseDeclarations(body)
	for prelude != "" && len(s.rules) < mostRules {
		end := cssEnd(prelude, ",")
		text := strings.TrimSpace(prelude[:end])
		prelude = prelude[min(end+1, len(prelude)):]
		sel, ok := parseSelector(text)
		if !ok {
			s.leaveOut(text)
			continue
		}
		s.rules = append(s.rules, styleRule{sel, sel.specificity(), len(s.rules), declared})
	}
}

// cssEnd returns where one of the characters stands first outside strings
// and brackets, or the length of the text.
func cssEnd(text, ends string) int {
	depth := 0
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case depth == 0 && strings.IndexByte(ends, c) >= 0:
			return i
		case c == '\\':
			i++
		case c == '"' || c == '\'':
			close := strings.IndexByte(text[i+1:], c)
			if close < 0 {
				return len(text)
			}
			i += close + 1
		case c == '(' || c == '[' || c == '{':
			depth++
		case (c == ')' || c == ']' || c == '}') && depth > 0:
			depth--
		}
	}
	return len(text)
}

// cssBlock splits the text behind a { at the } that closes it.
func cssBlock(text string) (body, rest string) {
	end := cssEnd(text, "}")
	return text[:end], text[min(end+1, len(text)):]
}

// parseDeclarations reads "name: value; ...", as in a style attribute.
func parseDeclarations(text string) []declaration {
	var list []declaration
	if strings.Contains(text, "/*") {
		text = spaceComments(text)
	}
	for text != "" && len(list) < mostDeclarations {
		end := cssEnd(text, ";")
		one := text[:end]
		text = text[min(end+1, len(text)):]
		name, value, ok := strings.Cut(one, ":")
		if !ok {
			continue
		}
		d := declaration{property: strings.ToLower(strings.Trim(name, " \t\r\n\f")), value: strings.Trim(value, " \t\r\n\f")}
		if i := strings.LastIndexByte(d.value, '!'); i >= 0 && strings.EqualFold(strings.TrimSpace(d.value[i+1:]), "important") {
			d.value, d.important = strings.TrimRight(d.value[:i], " \t\r\n\f"), true
		}
		if properties[d.property] {
			list = append(list, d)
		}
	}
	return list
}

// mostDeclarations is how many declarations of one rule are read.
const mostDeclarations = 1000

// properties are those that bear on what is drawn where. All others are left
// out as soon as they are read.
var properties = words(`x y width height cx cy r rx ry d
		min-width max-width min-height max-height padding padding-left padding-top padding-right padding-bottom
		border border-width border-left border-top margin zoom box-sizing aspect-ratio
		transform transform-origin transform-box translate rotate scale offset-path
		display visibility opacity overflow content-visibility
		fill fill-opacity fill-rule stroke stroke-width stroke-opacity stroke-dasharray
		clip-path mask mask-image filter clip
		font font-size`)

func words(text string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(text) {
		set[w] = true
	}
	return set
}

// A selector is compounds with what stands between them, from right to left:
// the first is that of the element itself.
type selector []compound

// A compound is all that one element must be.
type compound struct {
	tag        string // "" for any
	parts      []selectorPart
	combinator byte // how the next compound to the left is found: ' ', '>', '+', '~'; 0 for the last
}

type selectorPart struct {
	kind        byte // '#', '.', '[', ':'
	name, value string
	operator    string    // of an attribute: "", "=", "~=", "|=", "^=", "$=", "*="
	step, from  int       // of :nth-child and its kin: every step-th, counted from there
	not         *compound // of :not
}

// parseSelector reads a selector of types, classes, ids, attributes and the
// pseudo-classes of structure with the four combinators (Selectors 3). It
// refuses what it does not know, so that nothing is matched wrongly.
func parseSelector(text string) (selector, bool) {
	p := &selectorParser{text: strings.TrimSpace(text)}
	var sel selector
	for {
		c, ok := p.compound()
		if !ok {
			return nil, false
		}
		sel = append(sel, c)
		if p.at == len(p.text) {
			break
		}
		combinator := p.combinator()
		if combinator == 0 || p.at == len(p.text) || len(sel) > 20 {
			return nil, false
		}
		sel[len(sel)-1].combinator = combinator
	}
	// Each combinator belongs to the compound on its right.
	for i := len(sel) - 1; i > 0; i-- {
		sel[i].combinator = sel[i-1].combinator
	}
	sel[0].combinator = 0
	slices.Reverse(sel)
	return sel, true
}

type selectorParser struct {
	text string
	at   int
}

func isNameByte(c byte) bool {
	return c|0x20-'a' < 26 || c-'0' <= 9 || c == '-' || c == '_' || c >= 0x80
}

func (p *selectorParser) name() string {
	start := p.at
	for p.at < len(p.text) && isNameByte(p.text[p.at]) {
		p.at++
	}
	return p.text[start:p.at]
}

func (p *selectorParser) combinator() byte {
	found := byte(0)
	for p.at < len(p.text) {
		c := p.text[p.at]
		switch {
		case isSpace(c):
			if found == 0 {
				found = ' '
			}
		case (c == '>' || c == '+' || c == '~') && (found == 0 || found == ' '):
			found = c
		default:
			return found
		}
		p.at++
	}
	return found
}

func (p *selectorParser) compound() (compound, bool) {
	var c compound
	start := p.at
	if p.at < len(p.text) && p.text[p.at] == '*' {
		p.at++
	} else {
		c.tag = p.name()
	}
	for p.at < len(p.text) {
		kind := p.text[p.at]
		switch kind {
		case '#', '.':
			p.at++
			name := p.name()
			if name == "" || name[0]-'0' <= 9 {
				return c, false
			}
			c.parts = append(c.parts, selectorPart{kind: kind, name: name})
		case '[':
			part, ok := p.attribute()
			if !ok {
				return c, false
			}
			c.parts = append(c.parts, part)
		case ':':
			p.at++
			part, ok := p.pseudo()
			if !ok {
				return c, false
			}
			c.parts = append(c.parts, part)
		default:
			return c, p.at > start
		}
	}
	return c, p.at > start
}

// pseudo reads a pseudo-class behind its colon (Selectors 3 §6.6).
func (p *selectorParser) pseudo() (selectorPart, bool) {
	part := selectorPart{kind: ':', name: strings.ToLower(p.name())}
	if p.at >= len(p.text) || p.text[p.at] != '(' {
		switch part.name {
		case "first-child", "last-child", "only-child", "first-of-type", "last-of-type", "only-of-type", "empty", "root", "link",
			"hover", "active", "focus", "target", "visited":
			return part, true
		}
		return part, false
	}
	raw, _, ok := cutBracket(p.text[p.at+1:])
	if !ok {
		return part, false
	}
	p.at += len(raw) + 2
	inside := strings.TrimSpace(raw)
	switch part.name {
	case "nth-child", "nth-last-child", "nth-of-type", "nth-last-of-type":
		part.step, part.from, ok = parseNth(strings.ToLower(inside))
		return part, ok
	case "not":
		q := &selectorParser{text: inside}
		c, ok := q.compound()
		part.not = &c
		return part, ok && q.at == len(q.text) && len(c.parts) < 20
	}
	return part, false
}

// nthForm is the grammar of Selectors 3 §6.6.5.2: white space may only stand
// around the sign behind the n.
var nthForm = regexp.MustCompile(`^(odd|even|[+-]?\d+|[+-]?\d*n(\s*[+-]\s*\d+)?)$`)

// parseNth reads odd, even, a number, or "an+b".
func parseNth(text string) (step, from int, ok bool) {
	if !nthForm.MatchString(text) {
		return 0, 0, false
	}
	text = strings.Join(strings.Fields(text), "")
	switch text {
	case "odd":
		return 2, 1, true
	case "even":
		return 2, 0, true
	}
	number := func(s string) (int, bool) {
		n, err := strconv.Atoi(s)
		return n, err == nil && n > -1e6 && n < 1e6
	}
	a, b, found := strings.Cut(text, "n")
	if !found {
		from, ok = number(text)
		return 0, from, ok
	}
	switch a {
	case "", "+":
		step, ok = 1, true
	case "-":
		step, ok = -1, true
	default:
		step, ok = number(a)
	}
	if b != "" && ok {
		from, ok = number(b)
	}
	return step, from, ok
}

func (p *selectorParser) attribute() (selectorPart, bool) {
	end := cssEnd(p.text[p.at+1:], "]") + p.at + 1
	if end >= len(p.text) {
		return selectorPart{}, false
	}
	inside := strings.TrimSpace(p.text[p.at+1 : end])
	p.at = end + 1
	part := selectorPart{kind: '[', name: inside}
	if i := strings.IndexByte(inside, '='); i >= 0 {
		part.operator = "="
		name := inside[:i]
		if i > 0 && strings.IndexByte("~|^$*", inside[i-1]) >= 0 {
			part.operator, name = inside[i-1:i+1], inside[:i-1]
		}
		part.name = strings.TrimSpace(name)
		part.value = strings.TrimSpace(inside[i+1:])
		if n := len(part.value); n >= 2 && (part.value[0] == '"' || part.value[0] == '\'') {
			if strings.IndexByte(part.value[1:], part.value[0]) != n-2 {
				return part, false // something stands behind it
			}
			part.value = part.value[1 : n-1]
		} else if !isIdentifier(part.value) {
			return part, false
		}
	}
	for i := range len(part.name) {
		if !isNameByte(part.name[i]) {
			return part, false
		}
	}
	return part, part.name != ""
}

func isIdentifier(text string) bool {
	for i := range len(text) {
		if !isNameByte(text[i]) {
			return false
		}
	}
	return text != "" && text[0]-'0' > 9
}

// specificity orders rules as Selectors 3 §9 does.
func (s selector) specificity() int {
	sum := 0
	for _, c := range s {
		if c.tag != "" {
			sum++
		}
		for _, p := range c.parts {
			switch {
			case p.not != nil: // counts as what it holds
				sum += selector{*p.not}.specificity()
			case p.kind == '#':
				sum += 1 << 20
			default:
				sum += 1 << 10
			}
		}
	}
	return sum
}

// matches reports whether the selector's compounds from i on fit the node
// and those around it; budget keeps hostile selectors from taking for ever.
func (s selector) matches(n *node, i int, budget *int) bool {
	if *budget--; *budget < 0 || n == nil || !s[i].fits(n, budget) {
		return false
	}
	if i+1 == len(s) {
		return true
	}
	switch s[i].combinator {
	case '>':
		return s.matches(n.parent, i+1, budget)
	case '+':
		return s.matches(n.before(), i+1, budget)
	case '~':
		for b := n.before(); b != nil; b = b.before() {
			if s.matches(b, i+1, budget) {
				return true
			}
		}
	default:
		for up := n.parent; up != nil; up = up.parent {
			if s.matches(up, i+1, budget) {
				return true
			}
		}
	}
	return false
}

func (c compound) fits(n *node, budget *int) bool {
	if c.tag != "" && c.tag != n.name {
		return false
	}
	for _, p := range c.parts {
		if !p.fits(n, budget) {
			return false
		}
	}
	return true
}

func (p selectorPart) fitsPseudo(n *node, budget *int) bool {
	switch p.name {
	case "root":
		return n.parent == nil
	case "link":
		return n.name == "a" && n.href() != nil
	case "empty":
		return len(n.children) == 0 && len(n.text) == 0
	case "not":
		return !p.not.fits(n, budget)
	}
	same := strings.Contains(p.name, "of-type")
	before, behind := n.siblings(same, budget)
	switch p.name {
	case "first-child", "first-of-type":
		return before == 0
	case "last-child", "last-of-type":
		return behind == 0
	case "only-child", "only-of-type":
		return before+behind == 0
	case "nth-child", "nth-of-type":
		return isNth(before+1, p.step, p.from)
	case "nth-last-child", "nth-last-of-type":
		return isNth(behind+1, p.step, p.from)
	}
	return false // what somebody points at or has clicked
}

// isNth reports whether n is step·k + from for a k of 0 or more.
func isNth(n, step, from int) bool {
	if step == 0 {
		return n == from
	}
	return (n-from)%step == 0 && (n-from)/step >= 0
}

func (p selectorPart) fits(n *node, budget *int) bool {
	switch p.kind {
	case '#':
		return n.attribute("id") == p.name
	case '.':
		class := n.attribute("class")
		*budget -= len(class) / 16
		return slices.Contains(strings.Fields(class), p.name)
	case ':':
		return p.fitsPseudo(n, budget)
	}
	a := n.find(p.name)
	if a == nil {
		return false
	}
	v := a.Value
	*budget -= len(v) / 16
	switch p.operator {
	case "":
		return true
	case "=":
		return v == p.value
	case "~=":
		return p.value != "" && slices.Contains(strings.Fields(v), p.value)
	case "|=":
		return v == p.value || strings.HasPrefix(v, p.value+"-")
	case "^=":
		return p.value != "" && strings.HasPrefix(v, p.value)
	case "$=":
		return p.value != "" && strings.HasSuffix(v, p.value)
	}
	return p.value != "" && strings.Contains(v, p.value)
}
