package svg

import (
	"errors"
	"fmt"
	"strings"

	"panelry/export/svg/markup"
	"panelry/geometry"
)

// numberEnd returns where the number that starts at text[at] ends, by the
// grammar of SVG 2 §9.3.9: a sign, digits with a point and at least one
// digit behind it, an exponent. It returns at where no number starts.
func numberEnd(text string, at int) int {
	digits := func(i int) int {
		for i < len(text) && '0' <= text[i] && text[i] <= '9' {
			i++
		}
		return i
	}
	sign := func(i int) int {
		if i < len(text) && (text[i] == '+' || text[i] == '-') {
			return i + 1
		}
		return i
	}
	start := sign(at)
	end := digits(start)
	if end < len(text) && text[end] == '.' {
		if behind := digits(end + 1); behind > end+1 {
			end = behind
		}
	}
	if end == start {
		return at
	}
	if end < len(text) && (text[end] == 'e' || text[end] == 'E') {
		first := sign(end + 1)
		if last := digits(first); last > first {
			end = last
		}
	}
	return end
}

// maxWhole is the number of digits of the longest coordinate in millimetres:
// geometry.Limit is 100000 mm.
const maxWhole = 6

// places are the decimals of a millimetre down to the nanometre.
const places = "000000"

// lengthFromNumber returns what a number counts in millimetres, exactly. It
// refuses an exponent, a part of a nanometre and what lies past the limit.
// The text is a number by [numberEnd].
func lengthFromNumber(text string) (geometry.Length, error) {
	if strings.ContainsAny(text, "eE") {
		return 0, fmt.Errorf("number %s: has an exponent; a sheet writes plain decimals", markup.Shorten(text))
	}
	whole, part, _ := strings.Cut(strings.TrimLeft(text, "+-"), ".")
	whole = strings.TrimLeft(whole, "0")
	part = strings.TrimRight(part, "0")
	if len(part) > len(places) {
		return 0, fmt.Errorf("number %s: finer than a nanometre; use at most six decimals", markup.Shorten(text))
	}
	var l geometry.Length
	if len(whole) <= maxWhole {
		for _, digit := range []byte(whole + part + places[len(part):]) {
			l = 10*l + geometry.Length(digit-'0')
		}
	}
	if len(whole) > maxWhole || l > geometry.Limit {
		return 0, fmt.Errorf("number %s: past the limit of %s", markup.Shorten(text), geometry.Limit)
	}
	if text[0] == '-' {
		return -l, nil
	}
	return l, nil
}

// lengthFromMM reads a whole attribute of the root: a number and "mm", with
// nothing between (CSS Values 3 §5.2; a bare number would count px, of which
// an inch has 96).
func lengthFromMM(text string) (geometry.Length, error) {
	number, ok := strings.CutSuffix(text, "mm")
	if !ok {
		return 0, errors.New("is not in millimetres; write it like 304.8mm")
	}
	if number == "" || numberEnd(number, 0) != len(number) {
		return 0, errors.New("is not a number followed by mm; write it like 304.8mm")
	}
	return lengthFromNumber(number)
}
