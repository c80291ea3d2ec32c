package page

import (
	"math"
	"regexp"
	"strings"

	"panelry/geometry"
)

// aMeasure finds what was typed, in quotes, examples of how to write
// something, and the question which unit is meant, which stay as they are; else a length or a size with its unit,
// and a word behind it that shows that "in" was no unit.
var aMeasure = regexp.MustCompile(`"[^"]*"|\blike ["\d].*|has no unit: [^?]*|(\b[\d./]+(?: [\d/]+)?(?: x [\d./]+(?: \d+/\d+)?)?) (in|mm|cm)\b( all\b| a\b| each\b| the\b)?`)

// measuresIn writes the measures of a sentence in a unit. Inches are told as
// decimals, or in fractions to the nearest 1/64, which is finer than a ruler.
func measuresIn(text string, unit geometry.Unit, inFractions bool) string {
	text = aMeasure.ReplaceAllStringFunc(text, func(found string) string {
		parts := aMeasure.FindStringSubmatch(found)
		own, ok := geometry.ParseUnit(parts[2])
		if !ok || parts[3] != "" || own == unit && (unit != geometry.Inches || !inFractions) {
			return found
		}
		about := ""
		var sides []string
		for _, side := range strings.Split(parts[1], " x ") {
			length, err := geometry.ParseLength(side, own)
			if err != nil {
				return found
			}
			if mark := nearestMark(length); unit == geometry.Inches && inFractions && length != mark {
				length, about = mark, "about "
			}
			sides = append(sides, bare(length, unit))
		}
		return about + strings.Join(sides, " x ") + " " + unit.String()
	})
	return strings.NewReplacer("about about ", "about ", "the about ", "about the ").Replace(text)
}

// nearestMark is the nearest 1/64 in that is not nothing.
func nearestMark(l geometry.Length) geometry.Length {
	const mark = geometry.Inch / 64
	return geometry.Length(math.Max(1, math.Round(float64(l)/float64(mark)))) * mark
}
