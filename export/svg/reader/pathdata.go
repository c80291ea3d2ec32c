package reader

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A dataError is what is wrong at one byte of an attribute's value.
type dataError struct {
	at   int
	text string
	much bool // nothing is wrong but its length
}

func (e *dataError) Error() string { return e.text }

// A scanner goes through a value from left to right by the grammar of SVG 2
// §9.3.9, which path data, viewBox and points share.
type scanner struct {
	text  string
	at    int
	units bool // a unit may follow a number, such as em, which starts like an exponent
}

func (s *scanner) fault(format string, args ...any) *dataError {
	return &dataError{at: s.at, text: fmt.Sprintf(format, args...)}
}

// found quotes what stands at the scanner's place.
func (s *scanner) found() string {
	r, width := utf8.DecodeRuneInString(s.text[s.at:])
	if width == 0 {
		return "the end"
	}
	return fmt.Sprintf("%q", r)
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f' }

func (s *scanner) space() {
	for s.at < len(s.text) && isSpace(s.text[s.at]) {
		s.at++
	}
}

// separator skips white space and at most one comma, and reports whether
// there was a comma.
func (s *scanner) separator() (comma bool) {
	s.space()
	if s.at < len(s.text) && s.text[s.at] == ',' {
		s.at++
		s.space()
		return true
	}
	return false
}

// startsNumber reports whether a number starts at the scanner's place.
func (s *scanner) startsNumber() bool {
	if s.at >= len(s.text) {
		return false
	}
	c := s.text[s.at]
	return '0' <= c && c <= '9' || c == '.' || c == '-' || c == '+'
}

// number reads one number. SVG 2 wants a digit behind a point, SVG 1.1 did
// not, and browsers stop there; behind an e they want a digit too. What is
// larger than a single-precision number can hold is refused as in browsers.
func (s *scanner) number() (float64, *dataError) {
	text, start := s.text, s.at
	i := start
	if i < len(text) && (text[i] == '+' || text[i] == '-') {
		i++
	}
	first := i
	var whole uint64 // the digits as long as they fit
	for i < len(text) && text[i]-'0' <= 9 {
		whole = whole*10 + uint64(text[i]-'0')
		i++
	}
	digits, decimals := i-first, 0
	if i < len(text) && text[i] == '.' {
		i++
		point := i
		for i < len(text) && text[i]-'0' <= 9 {
			whole = whole*10 + uint64(text[i]-'0')
			i++
		}
		if decimals = i - point; decimals == 0 {
			return 0, s.fault("number %q has no digit behind its point: SVG 1.1 allows that, SVG 2 does not", short(text[start:i]))
		}
		digits += decimals
	}
	if digits == 0 {
		return 0, s.fault("found %s where a number should stand", s.found())
	}
	exponent := false
	if i < len(text) && (text[i] == 'e' || text[i] == 'E') {
		j := i + 1
		if j < len(text) && (text[j] == '+' || text[j] == '-') {
			j++
		}
		behind := j
		for j < len(text) && text[j]-'0' <= 9 {
			j++
		}
		switch {
		case j > behind:
			i, exponent = j, true
		case !s.units && i+1 < len(text) && text[i+1] != 'm' && text[i+1] != 'x': // em, ex and a last e are no exponents
			return 0, s.fault("number %q has no digit behind its e", short(text[start:j]))
		}
	}
	var value float64
	if !exponent && digits <= 15 && decimals < len(powersOfTen) { // both exact, so the quotient is rounded once
		value = float64(whole) / powersOfTen[decimals]
		if text[start] == '-' {
			value = -value
		}
	} else {
		value, _ = strconv.ParseFloat(text[start:i], 64)
	}
	if math.Abs(value) > math.MaxFloat32 {
		return 0, s.fault("number %s is too large for any reader", short(text[start:i]))
	}
	s.at = i
	return value, nil
}

var powersOfTen = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// flag reads one flag of an arc: 0 or 1, and nothing need stand behind it.
func (s *scanner) flag() (bool, *dataError) {
	if s.at >= len(s.text) || s.text[s.at] != '0' && s.text[s.at] != '1' {
		return false, s.fault("found %s where a flag of an arc, 0 or 1, should stand", s.found())
	}
	s.at++
	return s.text[s.at-1] == '1', nil
}

// parsePath reads path data (SVG 2 §9.3). At the first error it stops, with
// what stands before it (§9.5.4). Behind a comma that nothing needs it goes
// on as browsers do, and still returns the error. It makes at most `most`
// segments.
func parsePath(data string, most int) (Path, *dataError) {
	p := pathParser{scanner: scanner{text: data}, most: most}
	size := len(data) / 12
	p.path = Path{ops: make([]SegmentKind, 0, size/2+1), numbers: make([]float64, 0, size+2)}
	err := p.run()
	return p.path, err
}

type pathParser struct {
	scanner
	path        Path
	most        int
	start, here Point
	control     Point       // of the curve before
	curve       SegmentKind // Cubic or Quadratic behind such a curve
	count       [6]float64
	loose       *dataError // a comma behind the last number, where browsers go on
}

func (p *pathParser) run() *dataError {
	p.space()
	if p.at < len(p.text) && p.text[p.at] != 'M' && p.text[p.at] != 'm' {
		return p.fault("path data must start with M, and here is %s", p.found())
	}
	for p.at < len(p.text) {
		command := p.text[p.at]
		if strings.IndexByte("MmLlHhVvCcSsQqTtAaZz", command) < 0 {
			return p.fault("found %s where a path command should stand", p.found())
		}
		p.at++
		p.space()
		if command == 'Z' || command == 'z' {
			p.path.close()
			p.here, p.curve = p.start, 0
			continue
		}
		for first := true; ; first = false {
			if len(p.path.ops) >= p.most {
				return &dataError{p.at, fmt.Sprintf("more segments than are read, which is %d in a file", mostSegments), true}
			}
			if err := p.segment(command, first); err != nil {
				return err
			}
			comma := p.separator()
			if p.startsNumber() {
				continue
			}
			if comma && p.loose == nil {
				p.loose = p.fault("found %s behind a comma; a number must follow", p.found())
			}
			break
		}
	}
	return p.loose
}

// arity is how many numbers a command takes.
func arity(command byte) int {
	switch command | 0x20 {
	case 'h', 'v':
		return 1
	case 'c':
		return 6
	case 's', 'q':
		return 4
	}
	return 2
}

// segment reads the numbers of one segment and draws it.
func (p *pathParser) segment(command byte, first bool) *dataError {
	if command|0x20 == 'a' {
		return p.arc(command == 'a')
	}
	n := arity(command)
	v := p.count[:n]
	for i := range v {
		if i > 0 {
			p.separator()
		}
		var err *dataError
		if v[i], err = p.number(); err != nil {
			return err
		}
	}
	base := Point{}
	if command >= 'a' {
		base = p.here
	}
	at := func(i int) Point { return Point{base.X + v[i], base.Y + v[i+1]} }
	kind := SegmentKind(0)
	to := Point{}
	switch command | 0x20 {
	case 'm':
		to = at(0)
		if first {
			p.start = to
			p.path.moveTo(to)
		} else {
			p.path.lineTo(to)
		}
	case 'l':
		to = at(0)
		p.path.lineTo(to)
	case 'h':
		to = Point{base.X + v[0], p.here.Y}
		p.path.lineTo(to)
	case 'v':
		to = Point{p.here.X, base.Y + v[0]}
		p.path.lineTo(to)
	case 'c':
		kind, p.control, to = Cubic, at(2), at(4)
		p.path.put(Cubic, at(0), p.control, to)
	case 's':
		c1 := p.reflected(Cubic)
		kind, p.control, to = Cubic, at(0), at(2)
		p.path.put(Cubic, c1, p.control, to)
	case 'q':
		kind, p.control, to = Quadratic, at(0), at(2)
		p.path.put(Quadratic, p.control, to)
	case 't':
		p.control = p.reflected(Quadratic)
		kind, to = Quadratic, at(0)
		p.path.put(Quadratic, p.control, to)
	}
	p.here, p.curve = to, kind
	return nil
}

// reflected returns the control point before mirrored in the current point,
// or the current point behind another command (SVG 2 §9.3.6).
func (p *pathParser) reflected(kind SegmentKind) Point {
	if p.curve != kind {
		return p.here
	}
	return p.here.times(2).sub(p.control)
}

func (p *pathParser) arc(relative bool) *dataError {
	var err *dataError
	var v [5]float64
	var flags [2]bool
	for i := range 3 {
		if i > 0 {
			p.separator()
		}
		if v[i], err = p.number(); err != nil {
			return err
		}
	}
	for i := range flags {
		p.separator()
		if flags[i], err = p.flag(); err != nil {
			return err
		}
	}
	for i := 3; i < 5; i++ {
		p.separator()
		if v[i], err = p.number(); err != nil {
			return err
		}
	}
	to := Point{v[3], v[4]}
	if relative {
		to = to.add(p.here)
	}
	p.path.ellipticalArc(p.here, v[0], v[1], v[2], flags[0], flags[1], to)
	p.here, p.curve = to, 0
	return nil
}

// ellipticalArc draws an arc given by its ends (SVG 2 §9.5.1, B.2.4, B.2.5):
// left out where they are the same, a straight line where a radius is zero,
// with larger radii where the ends are too far apart.
func (p *Path) ellipticalArc(from Point, rx, ry, degrees float64, large, sweep bool, to Point) {
	if from == to {
		return
	}
	rx, ry = math.Abs(rx), math.Abs(ry)
	if rx == 0 || ry == 0 {
		p.lineTo(to)
		return
	}
	sin, cos := math.Sincos(math.Mod(degrees, 360) * math.Pi / 180)
	half := from.sub(to).times(0.5)
	a := Point{(cos*half.X + sin*half.Y) / rx, (cos*half.Y - sin*half.X) / ry} // on the unit circle
	size := a.dot(a)
	if size > 1 {
		grow := math.Sqrt(size)
		rx, ry, a, size = rx*grow, ry*grow, a.times(1/grow), 1
	}
	if !(size > 1e-290) || math.IsInf(rx, 0) || math.IsInf(ry, 0) { // the ends are one point beside such radii
		p.lineTo(to)
		return
	}
	reach := math.Sqrt(max(0, 1/size-1))
	if large == sweep {
		reach = -reach
	}
	centre := Point{reach * a.Y, -reach * a.X}
	e := Ellipse{U: Point{rx * cos, rx * sin}, V: Point{-ry * sin, ry * cos}}
	e.Centre = between(from, to, 0.5).add(e.U.times(centre.X)).add(e.V.times(centre.Y))
	e.Start = math.Atan2(a.Y-centre.Y, a.X-centre.X)
	e.Turn = math.Atan2(-a.Y-centre.Y, -a.X-centre.X) - e.Start
	switch {
	case sweep && e.Turn < 0:
		e.Turn += 2 * math.Pi
	case !sweep && e.Turn > 0:
		e.Turn -= 2 * math.Pi
	}
	// Beside such radii the ends may be one angle: then the flags decide.
	switch all := math.Copysign(2*math.Pi, sign(sweep)); {
	case large && math.Abs(e.Turn) < math.Pi/2:
		e.Turn = all
	case !large && (e.Turn == 0 || math.Abs(e.Turn) > 3*math.Pi/2):
		p.lineTo(to)
		return
	}
	p.arcTo(e, to)
}

func sign(positive bool) float64 {
	if positive {
		return 1
	}
	return -1
}

func short(text string) string {
	if len(text) > 30 {
		return text[:30] + "..."
	}
	return text
}
