package svg

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"panelry/export/svg/markup"
	"panelry/geometry"
)

// A stroke is one run of path data from an M to the next: closed where it
// ends in Z.
type stroke struct {
	path   geometry.Path
	closed bool
}

// A dataFault is what is wrong at one byte of an attribute's value.
type dataFault struct {
	at   int
	text string
}

func (f *dataFault) Error() string { return f.text }

// scanPath reads path data with the absolute commands M, L, C and Z. It
// follows the grammar of SVG 2 §9.3.9 for numbers and what parts them, and
// takes a command's numbers repeated without the command, but it stops at
// the first error with a [dataFault], where a browser would draw what stands
// before it.
func scanPath(data string) ([]stroke, error) {
	s := &pathScanner{text: data}
	var strokes []stroke
	for s.skipSpace(); s.at < len(s.text); s.skipSpace() {
		at, command := s.at, s.text[s.at]
		if err := s.checkCommand(strokes); err != nil {
			return nil, err
		}
		s.at++
		switch command {
		case 'M':
			from, err := s.point()
			if err != nil {
				return nil, err
			}
			strokes = append(strokes, stroke{path: geometry.Path{From: from}})
			if err := s.segments('L', &strokes[len(strokes)-1].path, false); err != nil {
				return nil, err
			}
		case 'Z':
			if err := strokes[len(strokes)-1].close(at); err != nil {
				return nil, err
			}
		default:
			if err := s.segments(command, &strokes[len(strokes)-1].path, true); err != nil {
				return nil, err
			}
		}
	}
	return strokes, nil
}

// close draws the straight last side, if one is left to draw.
func (s *stroke) close(at int) error {
	then, end := s.path.Then, s.path.From
	if n := len(then); n > 0 {
		end = then[n-1].To
	}
	switch {
	case end != s.path.From:
		s.path.Then = append(then, geometry.LineTo(s.path.From))
	case len(then) > 0 && !then[len(then)-1].Curved:
		return &dataFault{at, "the start is repeated before Z; leave the last line out"}
	}
	s.closed = true
	return nil
}

// scanNumbers reads a list of numbers, as in a viewBox.
func scanNumbers(text string) ([]geometry.Length, error) {
	s := &pathScanner{text: text}
	var numbers []geometry.Length
	s.skipSpace()
	for more := s.at < len(s.text); more; {
		n, err := s.number()
		if err != nil {
			return nil, err
		}
		numbers = append(numbers, n)
		if more, err = s.more(); err != nil {
			return nil, err
		}
	}
	if s.at < len(s.text) {
		return nil, s.fault("found %s where a number should stand", s.found())
	}
	return numbers, nil
}

// pathScanner goes through path data from left to right.
type pathScanner struct {
	text string
	at   int
}

func (s *pathScanner) fault(format string, args ...any) error {
	return &dataFault{s.at, fmt.Sprintf(format, args...)}
}

// found quotes what stands at the scanner's place.
func (s *pathScanner) found() string {
	r, width := utf8.DecodeRuneInString(s.text[s.at:])
	if width == 0 {
		return "the end"
	}
	return fmt.Sprintf("%q", r)
}

// skipSpace skips the white space of SVG 2 §9.3.9.
func (s *pathScanner) skipSpace() {
	for s.at < len(s.text) && strings.IndexByte(" \t\n\f\r", s.text[s.at]) >= 0 {
		s.at++
	}
}

// checkCommand refuses what may not stand where a command should.
func (s *pathScanner) checkCommand(before []stroke) error {
	command := s.text[s.at]
	switch {
	case command == 'M':
		return nil
	case strings.IndexByte("LCZ", command) < 0 && strings.IndexByte("mlczHhVvSsQqTtAa", command) >= 0:
		return s.fault("path command %c: a sheet has only the absolute commands M, L, C and Z", command)
	case strings.IndexByte("LCZ", command) < 0:
		return s.fault("found %s where a path command should stand", s.found())
	case len(before) == 0:
		return s.fault("path data starts with %c; it must start with M", command)
	case before[len(before)-1].closed:
		return s.fault("found %c behind Z; a new stroke must start with M", command)
	}
	return nil
}

// segments appends one segment for each set of numbers that follows; there
// must be one where needed.
func (s *pathScanner) segments(command byte, path *geometry.Path, needed bool) error {
	for {
		if !needed {
			if more, err := s.more(); !more {
				return err
			}
		}
		segment, err := s.segment(command)
		if err != nil {
			return err
		}
		path.Then = append(path.Then, segment)
		needed = false
	}
}

func (s *pathScanner) segment(command byte) (geometry.Segment, error) {
	points := make([]geometry.Point, 1, 3)
	if command == 'C' {
		points = points[:3]
	}
	for i := range points {
		var err error
		if i > 0 {
			_, err = s.more()
		}
		if err == nil {
			points[i], err = s.point()
		}
		if err != nil {
			return geometry.Segment{}, err
		}
	}
	if command == 'C' {
		return geometry.CurveTo(points[0], points[1], points[2]), nil
	}
	return geometry.LineTo(points[0]), nil
}

func (s *pathScanner) point() (geometry.Point, error) {
	x, err := s.number()
	if err != nil {
		return geometry.Point{}, err
	}
	if _, err = s.more(); err != nil {
		return geometry.Point{}, err
	}
	y, err := s.number()
	return geometry.Point{X: x, Y: y}, err
}

// more skips white space and at most one comma behind a number, and reports
// whether another number follows. Behind a comma there must be one.
func (s *pathScanner) more() (bool, error) {
	s.skipSpace()
	comma := s.at < len(s.text) && s.text[s.at] == ','
	if comma {
		s.at++
		s.skipSpace()
	}
	follows := numberEnd(s.text, s.at) > s.at
	if comma && !follows {
		return false, s.fault("found %s behind a comma; a number must follow", s.found())
	}
	return follows, nil
}

// number reads one number, in millimetres. SVG 2 wants a digit behind a
// point, SVG 1.1 did not; browsers stop there, so it is an error.
func (s *pathScanner) number() (geometry.Length, error) {
	s.skipSpace()
	end := numberEnd(s.text, s.at)
	if end == s.at {
		return 0, s.fault("found %s where a number should stand", s.found())
	}
	number := s.text[s.at:end]
	if strings.HasPrefix(s.text[end:], ".") && !strings.Contains(number, ".") {
		return 0, s.fault("number %s.: no digit behind the point; leave the point out", markup.Shorten(number))
	}
	length, err := lengthFromNumber(number)
	if err != nil {
		return 0, s.fault("%s", err)
	}
	s.at = end
	return length, nil
}
