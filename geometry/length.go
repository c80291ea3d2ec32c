package geometry

import (
	"math/big"
	"strconv"
	"strings"
)

// Length is an exact length in nanometres; the longest is about 9 million
// kilometres, but coordinates are refused past [Limit].
//
// To turn a number into a Length, multiply: 3*geometry.Millimetre. To read a
// Length as a number of some unit, call [Length.In]; the result is a float64
// and no longer exact.
type Length int64

// Units of length. 1 in is 25.4 mm by definition (international yard and
// pound agreement, 1959), so 1/64 in is 396 875 nm: all ruler marks are exact.
const (
	Nanometre  Length = 1
	Micrometre        = 1000 * Nanometre
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Inch              = 25_400_000 * Nanometre
)

// Limit is the largest coordinate, either way, that the package answers for.
const Limit = 100_000 * Millimetre

// A Unit is what a bare number counts.
type Unit int

// The units that a maker writes. NoUnit means that a bare number is refused.
const (
	NoUnit Unit = iota
	Inches
	Millimetres
	Centimetres
)

// Length returns the length of one unit, and 0 for NoUnit.
func (u Unit) Length() Length {
	switch u {
	case Inches:
		return Inch
	case Millimetres:
		return Millimetre
	case Centimetres:
		return Centimetre
	}
	return 0
}

// String returns the unit's symbol: "in", "mm", "cm", or "" for NoUnit.
func (u Unit) String() string {
	return [...]string{"", "in", "mm", "cm"}[u]
}

// ParseUnit reads "in" or "mm", the two units that a design can be in.
func ParseUnit(text string) (Unit, bool) {
	switch text {
	case "in":
		return Inches, true
	case "mm":
		return Millimetres, true
	}
	return NoUnit, false
}

// In returns l as a number of the given unit, which is not NoUnit. The
// result is the float64 nearest to the exact quotient.
func (l Length) In(u Unit) float64 {
	return float64(l) / float64(u.Length())
}

// MM returns l in millimetres as the shortest exact decimal: "53.975".
func (l Length) MM() string {
	var b [24]byte
	return string(l.AppendMM(b[:0]))
}

// AppendMM appends what [Length.MM] returns.
func (l Length) AppendMM(b []byte) []byte {
	n := uint64(l)
	if l < 0 {
		b = append(b, '-')
		n = -n
	}
	b = strconv.AppendUint(b, n/uint64(Millimetre), 10)
	rest := n % uint64(Millimetre)
	if rest == 0 {
		return b
	}
	b = append(b, '.')
	for unit := uint64(Millimetre) / 10; rest > 0; unit /= 10 {
		b = append(b, byte('0'+rest/unit))
		rest %= unit
	}
	return b
}

// String returns l in millimetres with its unit: "53.975 mm".
func (l Length) String() string { return l.MM() + " mm" }

// Decimal returns l as a decimal number of the unit, rounded to the given
// number of places, half away from zero, without trailing zeros or a unit.
func (l Length) Decimal(u Unit, places int) string {
	text := big.NewRat(int64(l), int64(u.Length())).FloatString(places)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}

// finestInch is into how many parts a ruler divides an inch at most: steel
// rules stop at 1/64 or 1/100 in (common practice, no source). 0.2 mm and
// 0.1 mm divide it too, by 127 and 254, but are no marks of an inch ruler.
const finestInch = 100

// OnRuler returns the mark nearest to l on a ruler with the given smallest
// step, and by how much l is longer than that mark (negative: shorter). A
// step that divides the inch in up to 100 parts gives a mixed number and "in"
// ("2 5/8 in"), any other a decimal and "mm" ("48.5 mm"). Halfway between two
// marks the longer one is taken, below 0 the one nearer to 0. A step of 0 or
// less is a caller's bug and panics.
func (l Length) OnRuler(step Length) (mark string, off Length) {
	if step <= 0 {
		panic("geometry: a ruler needs a step above 0")
	}
	steps := roundDiv(int64(l), int64(step))
	at := Length(steps) * step
	if RulerUnit(step) != Inches {
		return at.MM() + " mm", l - at
	}
	return mixedNumber(steps, int64(Inch/step)) + " in", l - at
}

// RulerUnit returns the unit of a ruler with that smallest step: Inches where
// the step divides the inch in up to 100 parts, else Millimetres.
func RulerUnit(step Length) Unit {
	if Inch%step != 0 || Inch/step > finestInch {
		return Millimetres
	}
	return Inches
}

// mixedNumber writes n/d in lowest terms as a maker does: "2 5/8".
func mixedNumber(n, d int64) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	whole, rest := n/d, n%d
	if rest == 0 {
		return sign + strconv.FormatInt(whole, 10)
	}
	for rest%2 == 0 && d%2 == 0 {
		rest, d = rest/2, d/2
	}
	f := big.NewRat(rest, d)
	fraction := f.Num().String() + "/" + f.Denom().String()
	if whole == 0 {
		return sign + fraction
	}
	return sign + strconv.FormatInt(whole, 10) + " " + fraction
}

// roundDiv returns a/b rounded to the nearest integer, half upwards; b is
// above 0.
func roundDiv(a, b int64) int64 {
	q, r := a/b, a%b
	if r < 0 {
		q, r = q-1, r+b
	}
	if r >= b-r {
		q++
	}
	return q
}

// Share returns where cut k of n falls when l is shared out in n equal
// parts: round(k*l/n). Parts between neighbouring cuts always add up to l
// and differ by at most 1 nm. n is above 0 and k in 0..n.
func (l Length) Share(k, n int) Length {
	if n <= 0 || k < 0 || k > n {
		panic("geometry: share " + strconv.Itoa(k) + " of " + strconv.Itoa(n))
	}
	product := mulWide(int64(l), int64(k)).big()
	return Length(roundQuo(product, big.NewInt(int64(n))))
}

// Abs returns the length without its sign.
func (l Length) Abs() Length {
	if l < 0 {
		return -l
	}
	return l
}
