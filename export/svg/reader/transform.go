package reader

import (
	"math"
	"strings"
)

// A matrix maps (x, y) to (ax + cy + e, bx + dy + f), as matrix(a b c d e f)
// does (SVG 2 §8.5).
type matrix struct{ a, b, c, d, e, f float64 }

var identity = matrix{a: 1, d: 1}

func translation(x, y float64) matrix { return matrix{1, 0, 0, 1, x, y} }
func scaling(x, y float64) matrix     { return matrix{x, 0, 0, y, 0, 0} }

// rotation turns by degrees, clockwise on the page. Quarter turns are exact.
func rotation(degrees float64) matrix {
	degrees = math.Mod(degrees, 360)
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	switch math.Mod(degrees+360, 360) {
	case 90:
		sin, cos = 1, 0
	case 180:
		sin, cos = 0, -1
	case 270:
		sin, cos = -1, 0
	}
	return matrix{cos, sin, -sin, cos, 0, 0}
}

// then returns what applies n first and m to the result, like m n in a
// transform list.
func (m matrix) then(n matrix) matrix {
	return matrix{
		m.a*n.a + m.c*n.b, m.b*n.a + m.d*n.b,
		m.a*n.c + m.c*n.d, m.b*n.c + m.d*n.d,
		m.a*n.e + m.c*n.f + m.e, m.b*n.e + m.d*n.f + m.f,
	}
}

// about returns m with (x, y) in the place of the origin.
func (m matrix) about(x, y float64) matrix {
	return translation(x, y).then(m).then(translation(-x, -y))
}

func (m matrix) point(p Point) Point  { return Point{m.a*p.X + m.c*p.Y + m.e, m.b*p.X + m.d*p.Y + m.f} }
func (m matrix) vector(p Point) Point { return Point{m.a*p.X + m.c*p.Y, m.b*p.X + m.d*p.Y} }

// singular reports whether m flattens everything onto a line: such an
// element is not displayed (css-transforms-1 §5).
func (m matrix) singular() bool { return m.a*m.d-m.b*m.c == 0 }

// finite reports whether all of m is a number.
func (m matrix) finite() bool {
	sum := m.a + m.b + m.c + m.d + m.e + m.f
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

// A transformNote is what a transform attribute does that not every reader
// takes.
type transformNote int

const (
	plainTransform transformNote = iota
	spaceBeforeBracket
)

// transformArity is how many numbers each function takes in the attribute.
var transformArity = map[string][]int{
	"matrix": {6}, "translate": {1, 2}, "scale": {1, 2}, "rotate": {1, 3}, "skewX": {1}, "skewY": {1},
}

// parseTransform reads a transform attribute (SVG 1.1 §7.6): names are
// case-sensitive, numbers have no unit, and any mistake voids the whole list.
func parseTransform(text string) (matrix, transformNote, *dataError) {
	m, note := identity, plainTransform
	s := &scanner{text: text}
	s.space()
	if strings.TrimRight(text[s.at:], " \t\r\n\f") == "none" {
		return m, note, nil
	}
	for s.at < len(text) {
		start := s.at
		for s.at < len(text) && (text[s.at]|0x20-'a' < 26) {
			s.at++
		}
		name := text[start:s.at]
		if s.space(); s.at > start+len(name) && s.at < len(text) && text[s.at] == '(' {
			note = spaceBeforeBracket
		}
		if s.at >= len(text) || text[s.at] != '(' {
			return identity, note, s.fault("found %s where the ( of a transform should stand", s.found())
		}
		s.at++
		s.space()
		var v [6]float64
		n := 0
		for {
			if n == len(v) {
				return identity, note, s.fault("%s has too many numbers", short(name))
			}
			var err *dataError
			if v[n], err = s.number(); err != nil {
				return identity, note, err
			}
			n++
			if comma := s.separator(); !comma && s.at < len(text) && text[s.at] == ')' {
				break
			}
		}
		s.at++
		one, ok := transformFunction(name, v[:n])
		if !ok {
			return identity, note, &dataError{at: start, text: wrongTransform(name, n)}
		}
		m = m.then(one)
		if s.separator() && s.at >= len(text) {
			return identity, note, s.fault("found the end behind a comma; another transform must follow")
		}
	}
	return m, note, nil
}

func wrongTransform(name string, n int) string {
	if arity, ok := transformArity[name]; ok {
		text := name + " takes "
		for i, a := range arity {
			if i > 0 {
				text += " or "
			}
			text += counted(a, "number")
		}
		return text + ", and here is " + counted(n, "number")
	}
	for known := range transformArity {
		if strings.EqualFold(known, name) {
			return "transform " + name + " must be written " + known
		}
	}
	return "there is no transform " + quoted(name)
}

func transformFunction(name string, v []float64) (matrix, bool) {
	n := len(v)
	second := func(otherwise float64) float64 {
		if n > 1 {
			return v[1]
		}
		return otherwise
	}
	switch {
	case name == "matrix" && n == 6:
		return matrix{v[0], v[1], v[2], v[3], v[4], v[5]}, true
	case name == "translate" && n <= 2:
		return translation(v[0], second(0)), true
	case name == "scale" && n <= 2:
		return scaling(v[0], second(v[0])), true
	case name == "rotate" && n == 1:
		return rotation(v[0]), true
	case name == "rotate" && n == 3:
		return rotation(v[0]).about(v[1], v[2]), true
	case name == "skewX" && n == 1:
		return matrix{1, 0, math.Tan(v[0] * math.Pi / 180), 1, 0, 0}, true
	case name == "skewY" && n == 1:
		return matrix{1, math.Tan(v[0] * math.Pi / 180), 0, 1, 0, 0}, true
	}
	return identity, false
}

// parseCSSTransform reads the value of the CSS property transform
// (css-transforms-1 §10): lengths and angles have units, percentages refer
// to the reference box.
func parseCSSTransform(value string, ctx lengthContext, box Box) (matrix, bool) {
	m := identity
	if value == "none" {
		return m, true
	}
	for rest := value; rest != ""; {
		name, behind, ok := strings.Cut(rest, "(")
		arguments, after, closed := cutBracket(behind)
		if !ok || !closed {
			return m, false
		}
		one, ok := cssTransformFunction(strings.ToLower(name), splitArguments(arguments), ctx, box)
		if !ok {
			return m, false
		}
		m = m.then(one)
		rest = strings.TrimSpace(after)
	}
	return m, value != ""
}

// cutBracket splits the text behind an opening bracket at the one that
// closes it.
func cutBracket(text string) (inside, behind string, ok bool) {
	depth := 1
	for i := range len(text) {
		switch text[i] {
		case '(':
			depth++
		case ')':
			if depth--; depth == 0 {
				return text[:i], text[i+1:], true
			}
		}
	}
	return "", "", false
}

// splitArguments splits at the commas that stand outside all brackets.
func splitArguments(text string) []string {
	var parts []string
	depth, start := 0, 0
	for i := range len(text) {
		switch text[i] {
		case '(':
			depth++
		case ')':
			depth--
		case ',':
			if depth == 0 {
				parts = append(parts, strings.TrimSpace(text[start:i]))
				start = i + 1
			}
		}
	}
	return append(parts, strings.TrimSpace(text[start:]))
}

func cssTransformFunction(name string, args []string, ctx lengthContext, box Box) (matrix, bool) {
	v := make([]float64, len(args))
	for i, arg := range args {
		var ok bool
		switch name {
		case "translate", "translatex", "translatey", "translate3d", "translatez":
			percent := box.W()
			if i == 1 || name == "translatey" {
				percent = box.H()
			}
			v[i], ok = cssLength(arg, ctx, percent)
		case "rotate", "rotatez", "skew", "skewx", "skewy":
			v[i], ok = cssAngle(arg)
		case "scale", "scalex", "scaley", "scale3d", "scalez":
			v[i], ok = cssFactor(arg)
		default:
			v[i], ok = wholeNumber(arg)
		}
		if !ok {
			return identity, false
		}
	}
	pad := func(i int, otherwise float64) float64 {
		if i < len(v) {
			return v[i]
		}
		return otherwise
	}
	tan := func(degrees float64) float64 { return math.Tan(degrees * math.Pi / 180) }
	two := len(v) <= 2
	one := len(v) == 1
	switch {
	case name == "matrix" && len(v) == 6:
		return matrix{v[0], v[1], v[2], v[3], v[4], v[5]}, true
	case name == "translate" && two:
		return translation(v[0], pad(1, 0)), true
	case name == "translatex" && one:
		return translation(v[0], 0), true
	case name == "translatey" && one:
		return translation(0, v[0]), true
	case name == "scale" && two:
		return scaling(v[0], pad(1, v[0])), true
	case name == "scalex" && one:
		return scaling(v[0], 1), true
	case name == "scaley" && one:
		return scaling(1, v[0]), true
	case (name == "rotate" || name == "rotatez") && one:
		return rotation(v[0]), true
	case name == "translate3d" && len(v) == 3: // depth is not seen without perspective
		return translation(v[0], v[1]), true
	case name == "scale3d" && len(v) == 3:
		return scaling(v[0], v[1]), true
	case (name == "translatez" || name == "scalez") && one:
		return identity, true
	case name == "skew" && two:
		return matrix{1, tan(pad(1, 0)), tan(v[0]), 1, 0, 0}, true
	case name == "skewx" && one:
		return matrix{1, 0, tan(v[0]), 1, 0, 0}, true
	case name == "skewy" && one:
		return matrix{1, tan(v[0]), 0, 1, 0, 0}, true
	}
	return identity, false
}

// cssLength reads a length that must have a unit unless it is zero.
func cssLength(text string, ctx lengthContext, percent float64) (float64, bool) {
	if f, ok := wholeNumber(text); ok {
		return 0, f == 0
	}
	l, err := parseLength(text)
	if err != nil {
		return 0, false
	}
	ctx.percent = percent
	v, problem := l.resolve(ctx)
	return v, problem == ""
}

// cssAngle reads an angle in degrees (CSS Values 4 §7.1).
func cssAngle(text string) (float64, bool) {
	lower := strings.ToLower(text)
	for _, u := range []struct {
		unit  string
		times float64
	}{{"deg", 1}, {"grad", 0.9}, {"rad", 180 / math.Pi}, {"turn", 360}} {
		if number, ok := strings.CutSuffix(lower, u.unit); ok {
			f, ok := wholeNumber(number)
			return f * u.times, ok
		}
	}
	f, ok := wholeNumber(text)
	return 0, ok && f == 0
}

// cssFactor reads a number or a percentage.
func cssFactor(text string) (float64, bool) {
	number, percent := strings.CutSuffix(text, "%")
	f, ok := wholeNumber(number)
	if percent {
		f /= 100
	}
	return f, ok
}

// wholeNumber reads a text that is one number and nothing else.
func wholeNumber(text string) (float64, bool) {
	s := &scanner{text: text}
	f, err := s.number()
	return f, err == nil && s.at == len(text)
}
