package geometry

import (
	"fmt"
	"math/big"
	"strings"
	"unicode/utf8"
)

// maxLengthText is more than any length needs: "-100000000000/64000000 mm".
const maxLengthText = 48

// howToWrite is the hint that every unreadable length ends with.
const howToWrite = "write it like 4 1/4, 1/8, 0.5 in or 3.2 mm"

// vulgarFractions are the one-character fractions of Unicode that stand on
// rulers and come out of word processors.
var vulgarFractions = map[rune]string{
	'¼': "1/4", '½': "1/2", '¾': "3/4", '⅐': "1/7", '⅑': "1/9", '⅒': "1/10",
	'⅓': "1/3", '⅔': "2/3", '⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5",
	'⅙': "1/6", '⅚': "5/6", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
}

// unitWords are the units as they may follow a number, longest first.
var unitWords = []struct {
	word string
	unit Unit
}{
	{"inches", Inches}, {"inch", Inches}, {"in", Inches}, {`"`, Inches}, {"″", Inches}, {"”", Inches},
	{"mm", Millimetres}, {"cm", Centimetres},
}

// ParseLength reads a length: a number, a fraction or a mixed number, then
// a unit if there is one. "4 1/4", "4-1/4", "4¼", "1/8", "3.2", "3,2" and a
// leading minus are all read; units are in, " , mm and cm. A bare number
// counts the given unit; with NoUnit it is an error that shows both
// readings, but for 0. The result is the nearest nanometre.
//
// Errors quote the text and say what would be read.
func ParseLength(text string, unit Unit) (Length, error) {
	number, written, err := splitUnit(text)
	if err != nil {
		return 0, err
	}
	value, err := parseNumber(number)
	if err != nil {
		return 0, fmt.Errorf("%q %w", strings.TrimSpace(text), err)
	}
	if written != NoUnit {
		unit = written
	}
	switch {
	case unit == NoUnit && value.Sign() == 0:
		return 0, nil // it is the same in any
	case unit == NoUnit:
		return 0, bareNumberError(text, value)
	}
	return lengthFromRat(text, value, unit)
}

// splitUnit cuts the unit word off the end of a length.
func splitUnit(text string) (number string, unit Unit, err error) {
	number = strings.TrimSpace(text)
	if number == "" {
		return "", NoUnit, fmt.Errorf("a length is missing; %s", howToWrite)
	}
	if len(number) > maxLengthText {
		return "", NoUnit, fmt.Errorf("%q… is too long for a length; %s", cutText(number, 20), howToWrite)
	}
	lower := strings.ToLower(number)
	for _, w := range unitWords {
		if strings.HasSuffix(lower, w.word) && len(lower) == len(number) {
			return strings.TrimSpace(number[:len(number)-len(w.word)]), w.unit, nil
		}
	}
	return number, NoUnit, nil
}

// cutText returns the first n bytes of text, at a character's border.
func cutText(text string, n int) string {
	for n > 0 && !utf8.RuneStart(text[n]) {
		n--
	}
	return text[:n]
}

// parseNumber reads a number, a fraction or a mixed number. Its errors go on
// from the quoted text.
func parseNumber(text string) (*big.Rat, error) {
	wrong := fmt.Errorf("is not a length; %s", howToWrite)
	rest, negative := text, false
	if strings.HasPrefix(rest, "-") || strings.HasPrefix(rest, "−") {
		_, size := utf8.DecodeRuneInString(rest)
		rest, negative = strings.TrimSpace(rest[size:]), true
	}
	if strings.HasPrefix(rest, "-") { // a second minus
		return nil, wrong
	}
	whole, fraction := splitFraction(rest)
	value := new(big.Rat)
	if whole != "" {
		w, ok := parseDecimal(whole)
		if !ok || fraction != "" && strings.ContainsAny(whole, ".,") {
			return nil, wrong
		}
		if thousands(whole) {
			return nil, fmt.Errorf("could mean thousands or a decimal comma; write it with a point")
		}
		value.Add(value, w)
	}
	if fraction != "" {
		f, ok := parseFraction(fraction)
		if !ok {
			return nil, wrong
		}
		value.Add(value, f)
	}
	if whole == "" && fraction == "" {
		return nil, wrong
	}
	if negative {
		value.Neg(value)
	}
	return value, nil
}

// splitFraction parts a mixed number: "4 1/4" and "4-1/4" and "4¼" give "4"
// and "1/4"; "1/8" gives "" and "1/8"; "3.2" gives "3.2" and "".
func splitFraction(text string) (whole, fraction string) {
	if last, size := utf8.DecodeLastRuneInString(text); vulgarFractions[last] != "" {
		whole = strings.TrimSuffix(strings.TrimRight(text[:len(text)-size], " "), "-")
		return strings.TrimRight(whole, " "), vulgarFractions[last]
	}
	text = strings.ReplaceAll(text, "⁄", "/")
	if !strings.Contains(text, "/") {
		return text, ""
	}
	if i := strings.IndexAny(text, " -"); i >= 0 {
		return text[:i], strings.TrimLeft(text[i+1:], " ")
	}
	return "", text
}

// thousands reports whether a comma is followed by exactly three digits,
// which some countries read as thousands and others as decimals. Nothing but
// a decimal starts with 0, as in "0,125".
func thousands(text string) bool {
	i := strings.IndexByte(text, ',')
	return i >= 0 && len(text)-i-1 == 3 && !strings.HasPrefix(text, "0")
}

// parseDecimal reads digits with at most one point or comma among them.
func parseDecimal(text string) (*big.Rat, bool) {
	digits, points := 0, 0
	for _, c := range text {
		switch {
		case c >= '0' && c <= '9':
			digits++
		case c == '.' || c == ',':
			points++
		default:
			return nil, false
		}
	}
	if digits == 0 || points > 1 {
		return nil, false
	}
	return new(big.Rat).SetString(strings.ReplaceAll(text, ",", "."))
}

// parseFraction reads digits, a stroke, digits; the lower number is not 0.
func parseFraction(text string) (*big.Rat, bool) {
	upper, lower, _ := strings.Cut(text, "/")
	n, okN := parseDigits(upper)
	d, okD := parseDigits(lower)
	if !okN || !okD || d.Sign() == 0 {
		return nil, false
	}
	return new(big.Rat).SetFrac(n, d), true
}

func parseDigits(text string) (*big.Int, bool) {
	text = strings.TrimSpace(text)
	if text == "" || strings.Trim(text, "0123456789") != "" {
		return nil, false
	}
	return new(big.Int).SetString(text, 10)
}

// bareNumberError shows what a number without a unit could mean.
func bareNumberError(text string, value *big.Rat) error {
	number := strings.TrimSpace(text)
	inches, err := lengthFromRat(text, value, Inches)
	if err != nil { // too long in inches, which says nothing about millimetres
		return fmt.Errorf("%q has no unit; %s", number, howToWrite)
	}
	return fmt.Errorf("%q has no unit: is it %s in (%s mm) or %s mm?", number, number, inches.Decimal(Millimetres, 2), number)
}

// lengthFromRat rounds a number of units to the nearest nanometre.
func lengthFromRat(text string, value *big.Rat, unit Unit) (Length, error) {
	nm := new(big.Rat).Mul(value, new(big.Rat).SetInt64(int64(unit.Length())))
	limit := new(big.Rat).SetInt64(int64(Limit))
	if new(big.Rat).Abs(nm).Cmp(limit) > 0 {
		return 0, fmt.Errorf("%q is more than 100 m", strings.TrimSpace(text))
	}
	return Length(roundQuo(nm.Num(), nm.Denom())), nil
}

// Size is the width and height of an oblong.
type Size struct{ W, H Length }

// Turned returns the size with its sides exchanged.
func (s Size) Turned() Size { return Size{s.H, s.W} }

// String returns the size in millimetres: "108 x 139.7 mm".
func (s Size) String() string { return s.W.MM() + " x " + s.H.MM() + " mm" }

// ParseSize reads a width and a height, "12 x 12 in" or "210x297mm". A unit
// behind either holds for both; a bare number counts the given unit.
func ParseSize(text string, unit Unit) (Size, error) {
	first, second, found := cutTimes(text)
	if !found {
		return Size{}, fmt.Errorf("%q is not a size; write it like 4 1/4 x 5 1/2 in or 210 x 297 mm", strings.TrimSpace(text))
	}
	_, u1, err := splitUnit(first)
	if err != nil {
		return Size{}, err
	}
	_, u2, err := splitUnit(second)
	if err != nil {
		return Size{}, err
	}
	for _, u := range []Unit{u1, u2} { // the last one written wins for a bare number
		if u != NoUnit {
			unit = u
		}
	}
	w, err := ParseLength(first, unit)
	if err != nil {
		return Size{}, err
	}
	h, err := ParseLength(second, unit)
	if err != nil {
		return Size{}, err
	}
	return Size{w, h}, nil
}

// cutTimes cuts a size at its x, X or ×.
func cutTimes(text string) (first, second string, found bool) {
	i := strings.IndexAny(text, "xX×")
	if i < 0 {
		return "", "", false
	}
	_, width := utf8.DecodeRuneInString(text[i:])
	return text[:i], text[i+width:], true
}
