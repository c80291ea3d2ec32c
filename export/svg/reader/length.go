package reader

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A length is a number with its unit, or a calculation with several.
type length struct {
	value float64
	unit  string // lower case; "" for none, "%" for a percentage
	calc  []term // of calc() and its kin: what is added up
	from  *function
}

// A term is one summand of a calculation.
type term struct {
	value float64
	unit  string
}

// A function is min, max or clamp of lengths.
type function struct {
	name string
	args []length
}

// A lengthContext is what lengths that are not absolute refer to, in user
// units.
type lengthContext struct {
	percent  float64 // 100 %
	fontSize float64
	rootFont float64
}

// perUnit is how many user units an absolute unit has: 96 an inch, whatever
// the scale (CSS Values 4 §6.2, SVG 2 §8.9).
var perUnit = map[string]float64{
	"": 1, "px": 1, "in": 96, "cm": 96 / 2.54, "mm": 96 / 25.4, "q": 96 / 101.6, "pt": 96.0 / 72, "pc": 16,
}

// Units whose size depends on fonts, or on the window that shows the file.
var (
	fontUnits   = map[string]bool{"ex": true, "rex": true, "ch": true, "rch": true, "cap": true, "rcap": true, "ic": true, "ric": true, "lh": true, "rlh": true}
	windowUnits = []string{"vw", "vh", "vi", "vb", "vmin", "vmax", "cqw", "cqh", "cqi", "cqb", "cqmin", "cqmax"}
)

func isWindowUnit(unit string) bool {
	if len(unit) > 2 && strings.IndexByte("sld", unit[0]) >= 0 && unit[1] == 'v' {
		unit = unit[1:]
	}
	for _, u := range windowUnits {
		if unit == u {
			return true
		}
	}
	return false
}

func knownUnit(unit string) bool {
	_, absolute := perUnit[unit]
	return absolute || unit == "%" || unit == "em" || unit == "rem" || fontUnits[unit] || isWindowUnit(unit)
}

// parseLength reads a length, a percentage or a calculation. White space and
// comments may stand around it, nothing between number and unit (CSS Values
// 4 §6).
func parseLength(text string) (length, error) {
	text = strings.Trim(withoutComments(text), " \t\r\n\f")
	if open := strings.IndexByte(text, '('); open > 0 {
		c := &calculator{text: strings.ToLower(text), left: 200}
		l, ok := c.value()
		if ok && c.at == len(c.text) {
			return l, nil
		}
		return length{}, fmt.Errorf("%s cannot be worked out", quoted(text))
	}
	s := &scanner{text: text, units: true}
	value, err := s.number()
	if err != nil {
		return length{}, fmt.Errorf("%s is not a length", quoted(text))
	}
	unit := strings.ToLower(text[s.at:])
	if !knownUnit(unit) {
		if trimmed := strings.TrimLeft(unit, " \t\r\n\f"); trimmed != unit && knownUnit(trimmed) {
			return length{}, fmt.Errorf("%s has white space before its unit", quoted(text))
		}
		return length{}, fmt.Errorf("%s has the unit %s, which does not exist", quoted(text), quoted(text[s.at:]))
	}
	return length{value: value, unit: unit}, nil
}

// withoutComments takes CSS comments out; each parts what stands around it.
func withoutComments(text string) string {
	for {
		start := strings.Index(text, "/*")
		if start < 0 {
			return text
		}
		before, behind := text[:start], ""
		if end := strings.Index(text[start+2:], "*/"); end >= 0 {
			behind = text[start+2+end+2:]
		}
		text = before + " " + behind
	}
}

// isCalculation reports whether the length was written as calc() or the like.
func (l length) isCalculation() bool { return l.calc != nil || l.from != nil }

// relative reports whether the length is a percentage, alone or in a sum.
func (l length) relative() bool {
	if l.unit == "%" {
		return true
	}
	for _, t := range l.calc {
		if t.unit == "%" {
			return true
		}
	}
	if l.from != nil {
		for _, a := range l.from.args {
			if a.relative() {
				return true
			}
		}
	}
	return false
}

// uses reports whether the unit stands in the length, alone or in a
// calculation.
func (l length) uses(unit string) bool {
	if l.from != nil {
		for _, a := range l.from.args {
			if a.uses(unit) {
				return true
			}
		}
		return false
	}
	for _, t := range l.terms() {
		if t.unit == unit {
			return true
		}
	}
	return false
}

// A lengthProblem says why a length has no definite value; "" is none.
type lengthProblem string

const (
	fontProblem   lengthProblem = "font"   // depends on a font
	windowProblem lengthProblem = "window" // depends on the window
)

// resolve returns the length in user units, no larger than numbers of single
// precision are (CSS Values 4 §10.9).
func (l length) resolve(c lengthContext) (float64, lengthProblem) {
	v, problem := l.unclamped(c)
	if math.IsNaN(v) {
		v = 0
	}
	return min(max(v, -math.MaxFloat32), math.MaxFloat32), problem
}

func (l length) unclamped(c lengthContext) (float64, lengthProblem) {
	switch {
	case l.from != nil:
		return l.from.resolve(c)
	case l.calc != nil:
		var sum float64
		for _, t := range l.calc {
			v, problem := length{value: t.value, unit: t.unit}.resolve(c)
			if problem != "" {
				return 0, problem
			}
			sum += v
		}
		return sum, ""
	case l.unit == "%":
		return l.value * c.percent / 100, ""
	case l.unit == "em":
		return l.value * c.fontSize, ""
	case l.unit == "rem":
		return l.value * c.rootFont, ""
	case fontUnits[l.unit]:
		return 0, fontProblem
	case isWindowUnit(l.unit):
		return 0, windowProblem
	}
	return l.value * perUnit[l.unit], ""
}

func (f *function) resolve(c lengthContext) (float64, lengthProblem) {
	v := make([]float64, len(f.args))
	for i, a := range f.args {
		var problem lengthProblem
		if v[i], problem = a.resolve(c); problem != "" {
			return 0, problem
		}
	}
	switch f.name {
	case "clamp":
		return max(v[0], min(v[1], v[2])), ""
	case "min":
		for _, x := range v[1:] {
			v[0] = min(v[0], x)
		}
	case "max":
		for _, x := range v[1:] {
			v[0] = max(v[0], x)
		}
	}
	return v[0], ""
}

// A calculator reads calc(), min(), max() and clamp() (CSS Values 4 §10). A
// min, max or clamp may stand alone or be one side of a product or sum only
// where both its values are known, which here means: alone.
type calculator struct {
	text string
	at   int
	left int // how many values may still be read
}

func (c *calculator) space() {
	for c.at < len(c.text) && isSpace(c.text[c.at]) {
		c.at++
	}
}

// sum reads a + b - c; white space must stand around + and -.
func (c *calculator) sum() (length, bool) {
	total, ok := c.product()
	for ok {
		before := c.at
		c.space()
		if c.at+1 >= len(c.text) || c.at == before || c.text[c.at] != '+' && c.text[c.at] != '-' || !isSpace(c.text[c.at+1]) {
			break
		}
		sign := 1.0
		if c.text[c.at] == '-' {
			sign = -1
		}
		c.at++
		c.space()
		var next length
		if next, ok = c.product(); ok {
			total, ok = added(total, next, sign)
		}
	}
	return total, ok
}

func added(a, b length, sign float64) (length, bool) {
	_, bare := a.number()
	if _, other := b.number(); a.from != nil || b.from != nil || bare != other {
		return a, false // a number and a length cannot be added
	}
	terms := append([]term{}, a.terms()...)
	for _, t := range b.terms() {
		terms = append(terms, term{sign * t.value, t.unit})
	}
	return length{calc: terms}, true
}

func (l length) terms() []term {
	if l.calc != nil {
		return l.calc
	}
	return []term{{l.value, l.unit}}
}

// number reports whether the length is a bare number, as factors must be.
func (l length) number() (float64, bool) {
	if l.from != nil {
		return 0, false
	}
	var sum float64
	for _, t := range l.terms() {
		if t.unit != "" {
			return 0, false
		}
		sum += t.value
	}
	return sum, true
}

func (c *calculator) product() (length, bool) {
	total, ok := c.value()
	for ok {
		before := c.at
		c.space()
		if c.at >= len(c.text) || c.text[c.at] != '*' && c.text[c.at] != '/' {
			c.at = before
			break
		}
		divide := c.text[c.at] == '/'
		c.at++
		c.space()
		var next length
		if next, ok = c.value(); ok {
			total, ok = multiplied(total, next, divide)
		}
	}
	return total, ok
}

func multiplied(a, b length, divide bool) (length, bool) {
	factor, ok := b.number()
	if divide {
		if !ok || factor == 0 {
			return a, false
		}
		factor = 1 / factor
	} else if !ok {
		if factor, ok = a.number(); !ok {
			return a, false
		}
		a = b
	}
	if a.from != nil {
		return a, false
	}
	var terms []term
	for _, t := range a.terms() {
		terms = append(terms, term{t.value * factor, t.unit})
	}
	return length{calc: terms}, true
}

// value reads a number, a length or something in brackets.
func (c *calculator) value() (length, bool) {
	if c.left--; c.left < 0 || c.at >= len(c.text) {
		return length{}, false
	}
	for _, name := range []string{"calc(", "(", "min(", "max(", "clamp("} {
		if strings.HasPrefix(c.text[c.at:], name) {
			c.at += len(name)
			return c.bracket(strings.TrimSuffix(name, "("))
		}
	}
	s := &scanner{text: c.text, at: c.at, units: true}
	v, err := s.number()
	if err != nil {
		return length{}, false
	}
	start := s.at
	for s.at < len(c.text) && (c.text[s.at]-'a' < 26 || c.text[s.at] == '%') {
		s.at++
	}
	c.at = s.at
	unit := c.text[start:s.at]
	return length{value: v, unit: unit, calc: []term{{v, unit}}}, knownUnit(unit)
}

func (c *calculator) bracket(name string) (length, bool) {
	var args []length
	for {
		c.space()
		l, ok := c.sum()
		if !ok {
			return l, false
		}
		args = append(args, l)
		c.space()
		if c.at >= len(c.text) {
			return l, false
		}
		end := c.text[c.at]
		c.at++
		if end == ')' {
			break
		}
		if end != ',' {
			return l, false
		}
	}
	switch {
	case name == "" || name == "calc":
		return args[0], len(args) == 1
	case name == "clamp" && len(args) != 3:
		return args[0], false
	}
	return length{from: &function{name, args}}, true
}

func quoted(text string) string {
	return strconv.Quote(short(text))
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// quarter is a quarter turn.
const quarter = math.Pi / 2

// diagonal is what percentages of lengths that are neither across nor down
// refer to (SVG 2 §8.9).
func diagonal(w, h float64) float64 { return math.Sqrt((w*w + h*h) / 2) }
