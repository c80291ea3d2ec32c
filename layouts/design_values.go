package layouts

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"panelry/geometry"
	"panelry/layouts/cards"
	"panelry/layouts/wording"
)

// Each of these reads one value, notes a problem at its key where it is
// wrong, and returns something harmless then. A value that is missing (nil)
// gives the default.

func (in *reading) text(key string, value any, otherwise string) string {
	if value == nil {
		return otherwise
	}
	text, ok := value.(string)
	if !ok {
		in.wrong(key, "write a text in quotes")
		return otherwise
	}
	return strings.TrimSpace(text)
}

func (in *reading) choice(key string, value any, otherwise string, words []string) string {
	if value == nil {
		return otherwise
	}
	text, ok := value.(string)
	if ok && slices.Contains(words, text) {
		return text
	}
	found := "that"
	if ok {
		found = fmt.Sprintf("%q", text)
	}
	in.wrong(key, "%s is not known here; write %s%s", found, wording.Or(words), wording.Meant(text, words))
	return otherwise
}

// yes reads true or false.
func (in *reading) yes(key string, value any, otherwise bool) bool {
	if value == nil {
		return otherwise
	}
	v, ok := value.(bool)
	if !ok {
		in.wrong(key, "%s: write true or false", wording.Shortly(value))
		return otherwise
	}
	return v
}

func (in *reading) count(key string, value any, otherwise, least, most int) int {
	if value == nil {
		return otherwise
	}
	n, ok := value.(int64)
	if !ok || n < int64(least) || n > int64(most) {
		in.wrong(key, "%s: write a whole number from %d to %d", wording.Shortly(value), least, most)
		return otherwise
	}
	return int(n)
}

// lengthText returns a value as the text of a length.
func lengthText(value any) (string, bool) {
	switch v := value.(type) {
	case string:
		return v, true
	case int64:
		return strconv.FormatInt(v, 10), true
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64), true
	}
	return "", false
}

func (in *reading) length(key string, value any, otherwise geometry.Length) geometry.Length {
	if value == nil {
		return otherwise
	}
	text, ok := lengthText(value)
	if !ok {
		in.wrong(key, `write a length, like "1/8" or "3.2 mm"`)
		return otherwise
	}
	length, err := geometry.ParseLength(text, in.unit)
	if err != nil {
		in.wrong(key, "%v", in.unitHint(err, text))
		return otherwise
	}
	return length
}

// unitHint adds how to settle the unit once for all.
func (in *reading) unitHint(err error, text string) error {
	if in.unit != geometry.NoUnit {
		return err
	}
	if _, other := geometry.ParseLength(text, geometry.Inches); other != nil {
		return err
	}
	return fmt.Errorf(`%w Write the unit, or units = "in" or "mm" at the top`, err)
}

func (in *reading) notNegative(key string, value any, otherwise geometry.Length) geometry.Length {
	length := in.length(key, value, otherwise)
	if length < 0 {
		in.wrong(key, "%s is less than nothing", length.Format(in.unit))
		return otherwise
	}
	if length > geometry.Metre {
		in.wrong(key, "%s is more than a metre", length.Format(in.unit))
		return otherwise
	}
	return length
}

func (in *reading) size(key string, value any, use cards.Use) geometry.Size {
	text, ok := value.(string)
	if !ok {
		in.wrong(key, `write a size in quotes, like "4 1/4 x 5 1/2 in" or "ISO A6"`)
		return geometry.Size{}
	}
	size, err := cards.ParseSize(text, in.unit, use)
	if err != nil {
		in.wrong(key, "%v", err)
		return geometry.Size{}
	}
	return size
}

// colourText is what a colour looks like: CSS Color 4 section 5.2, hex
// colours without transparency.
var colourText = regexp.MustCompile(`^#[0-9a-f]{6}$`)

func (in *reading) colour(key string, value any, otherwise string) string {
	if value == nil {
		return otherwise
	}
	text, ok := value.(string)
	colour := strings.ToLower(strings.TrimSpace(text))
	if ok && colourText.MatchString(colour) {
		return colour
	}
	in.wrong(key, `%s: write a colour like "#5b7f73"`, wording.Shortly(value))
	return otherwise
}
