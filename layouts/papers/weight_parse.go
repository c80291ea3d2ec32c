package papers

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// maxWeightText is more than any weight needs: "110.25 pounds bristol".
const maxWeightText = 40

// weightsLike is the hint for what cannot be read.
const weightsLike = "write it like 176 gsm or 65 lb cover"

// Words for the two units, as they follow the number.
var (
	gramWords  = []string{"gsm", "g/m2", "g/m²", "g/qm"}
	poundWords = []string{"lbs", "lb", "pounds", "pound", "#"}
)

// ParseWeight reads the weight of a paper as it stands on the pack and
// returns it in grams per square metre (the grammage of ISO 536): "176 gsm",
// "65 lb cover", "80# text". The kinds of paper are cover, text (also book
// or offset), index, bond, tag and bristol; capitals and spaces do not
// matter.
//
// Refused, each with what to write instead: pounds without the kind of
// paper, a number without a unit, and what is under 1 or over 5000 gsm.
func ParseWeight(text string) (gsm float64, err error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0, fmt.Errorf("a paper weight is missing; %s", weightsLike)
	}
	if runes := []rune(text); len(runes) > maxWeightText {
		return 0, fmt.Errorf("%q is too long for a paper weight; %s", string(runes[:maxWeightText])+"…", weightsLike)
	}
	digits, unit := cutNumber(strings.ToLower(text))
	number, err := parseNumber(text, digits)
	if err != nil {
		return 0, err
	}
	gsm, err = gsmFrom(text, digits, number, unit)
	if err != nil {
		return 0, err
	}
	if gsm < Lightest || gsm > Heaviest {
		return 0, fmt.Errorf("%q is %s gsm; paper has %d to %d gsm", text, rounded(gsm), Lightest, Heaviest)
	}
	return gsm, nil
}

// cutNumber cuts a weight behind its number.
func cutNumber(text string) (digits, unit string) {
	end := strings.IndexFunc(text, func(c rune) bool { return !strings.ContainsRune("0123456789.,", c) })
	if end < 0 {
		return text, ""
	}
	return text[:end], strings.TrimSpace(text[end:])
}

// parseNumber reads digits with at most one point or comma among them.
func parseNumber(text, digits string) (float64, error) {
	if i := strings.IndexByte(digits, ','); i > 0 && len(digits)-i-1 == 3 {
		return 0, fmt.Errorf("%q could mean thousands or a decimal comma; write it with a point", text)
	}
	number, err := strconv.ParseFloat(strings.ReplaceAll(digits, ",", "."), 64)
	if err != nil || math.IsInf(number, 0) {
		return 0, fmt.Errorf("%q is not a paper weight; %s", text, weightsLike)
	}
	return number, nil
}

// gsmFrom makes grams per square metre from a number and what follows it.
func gsmFrom(text, digits string, number float64, unit string) (float64, error) {
	if rest, found := cutWord(unit, gramWords); found {
		if rest != "" {
			return 0, fmt.Errorf("%q: nothing goes behind gsm; write %s gsm", text, digits)
		}
		return number, nil
	}
	rest, found := cutWord(unit, poundWords)
	switch {
	case unit == "":
		return 0, fmt.Errorf("%q has no unit; write %s gsm, or the pounds and the kind of paper, like 65 lb cover", text, digits)
	case !found:
		return 0, fmt.Errorf("%q is not a paper weight; %s", text, weightsLike)
	case rest == "":
		return 0, withoutGrade(digits, number)
	}
	g, known := gradeNamed(rest)
	if !known {
		return 0, fmt.Errorf("%q: %q is no known kind of paper; write one of %s behind the pounds", text, rest, gradeList())
	}
	return g.gsm(number), nil
}

// cutWord cuts one of the unit words off the front, a full stop behind it
// included: "lb. cover" leaves "cover".
func cutWord(text string, words []string) (rest string, found bool) {
	for _, word := range words {
		if rest, found := strings.CutPrefix(text, word); found {
			return strings.TrimSpace(strings.TrimPrefix(rest, ".")), true
		}
	}
	return "", false
}

// withoutGrade says what pounds without the kind of paper can mean.
func withoutGrade(digits string, pounds float64) error {
	var readings, write []string
	for _, g := range gradesSelling(pounds) {
		readings = append(readings, fmt.Sprintf("%s (%s gsm)", g.name, rounded(g.gsm(pounds))))
		write = append(write, digits+" lb "+g.name)
	}
	if len(write) == 0 {
		return fmt.Errorf("%s lb needs the kind of paper; write one of %s behind the pounds", digits, gradeList())
	}
	if len(write) == 1 {
		return fmt.Errorf("%s lb needs the kind of paper; it is sold as %s: write %s", digits, readings[0], write[0])
	}
	return errors.New(digits + " lb can be " + strings.Join(readings, " or ") + ": write " + strings.Join(write, " or "))
}

// gradeList names all kinds of paper.
func gradeList() string {
	names := make([]string, len(grades))
	for i, g := range grades {
		names[i] = g.name
	}
	return strings.Join(names, ", ")
}

// rounded returns a weight to the whole gram, or finer where that is nothing.
func rounded(gsm float64) string {
	if gsm < Lightest {
		return strconv.FormatFloat(gsm, 'g', 2, 64)
	}
	return strconv.FormatFloat(gsm, 'f', 0, 64)
}
