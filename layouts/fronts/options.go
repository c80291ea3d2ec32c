package fronts

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"panelry/geometry"
	"panelry/layouts/wording"
)

// A Kind says what an option's value is.
type Kind string

// The kinds of option.
const (
	Count   Kind = "count"   // a whole number, from 1 to MostCount if the option does not say
	Choice  Kind = "choice"  // one of a few words
	Rows    Kind = "rows"    // a list of short texts, one a row
	Length  Kind = "length"  // a length of 0 or more
	Lengths Kind = "lengths" // a list of lengths, one of which may be "rest"
	Angle   Kind = "angle"   // "30 deg", clockwise
	Portion Kind = "share"   // a part of a whole: "1/3", "half", "40 %", 0.4
	Spot    Kind = "place"   // a place in the frame: "middle", "top left", or two shares
	File    Kind = "file"    // the name of a file with outlines, which the design's reader opens
)

// MostCount is the largest count an option takes. A front of 60 by 60 cells
// is past anything a hand can glue.
const MostCount = 60

// An Option is one of a layout's own settings.
type Option struct {
	Name    string
	Kind    Kind
	Default any      // as a design file would give it; nil when the layout works it out
	Words   []string // for Choice
	Least   int      // for Count; 0 stands for 1
	Most    int      // for Count; 0 stands for MostCount
	Help    string   // one line
}

// bounds returns the least and the most of a Count.
func (o Option) bounds() (least, most int) {
	least, most = o.Least, o.Most
	if least == 0 {
		least = 1
	}
	if most == 0 {
		most = MostCount
	}
	return least, most
}

// Options are the values of a layout's options, by name. An option that was
// left out and has no default is absent.
type Options map[string]any

// Count returns a Count option's value, 0 when absent.
func (o Options) Count(name string) int { n, _ := o[name].(int); return n }

// Text returns a Choice option's value, "" when absent.
func (o Options) Text(name string) string { s, _ := o[name].(string); return s }

// Rows returns a Rows option's value, nil when absent.
func (o Options) Rows(name string) []string { r, _ := o[name].([]string); return r }

// Lengths returns a Lengths option's value, nil when absent; [Rest] stands
// for "rest".
func (o Options) Lengths(name string) []geometry.Length {
	l, _ := o[name].([]geometry.Length)
	return l
}

// Rest, among lengths, stands for whatever is left over.
const Rest geometry.Length = -1

// An OptionError says what is wrong with the value of an option, once it
// meets the others.
type OptionError struct {
	Option string
	Text   string // a sentence
}

func (e *OptionError) Error() string { return e.Option + ": " + e.Text }

func wrongOption(option, format string, args ...any) error {
	return &OptionError{option, fmt.Sprintf(format, args...)}
}

// ReadOption reads one value as it came out of a design file (string,
// int64, float64, []any). Bare numbers among lengths count the unit.
func (l Layout) ReadOption(name string, value any, unit geometry.Unit) (any, error) {
	o, ok := l.Option(name)
	if !ok {
		return nil, fmt.Errorf("%q has no option %q", l.Name, name)
	}
	return o.read(value, unit)
}

// Defaults returns the options that a design leaves out.
func (l Layout) Defaults() Options {
	out := Options{}
	for _, o := range l.Options {
		if o.Default != nil {
			out[o.Name], _ = o.read(o.Default, 0)
		}
	}
	return out
}

func (o Option) read(value any, unit geometry.Unit) (any, error) {
	switch o.Kind {
	case Count:
		return o.readCount(value)
	case Choice:
		text, ok := value.(string)
		if !ok || !slices.Contains(o.Words, text) {
			return nil, fmt.Errorf("write one of %s", wording.Or(o.Words))
		}
		return text, nil
	case Rows:
		return readTexts(value)
	case Length:
		return readLength(value, unit)
	case Lengths:
		return readLengths(value, unit)
	case Angle:
		return readAngle(value)
	case Portion:
		return readShare(value)
	case Spot:
		return readPlace(value)
	case File:
		name, ok := value.(string)
		if !ok || name == "" {
			return nil, fmt.Errorf("%s: write the name of a file in quotes", wording.Shortly(value))
		}
		return name, nil
	}
	panic("fronts: unknown kind of option " + string(o.Kind))
}

func (o Option) readCount(value any) (any, error) {
	least, most := o.bounds()
	n, ok := value.(int64)
	if plain, isInt := value.(int); isInt {
		n, ok = int64(plain), true
	}
	if !ok || n < int64(least) || n > int64(most) {
		return nil, fmt.Errorf("%s: write a whole number from %d to %d", wording.Shortly(value), least, most)
	}
	return int(n), nil
}

func readTexts(value any) ([]string, error) {
	if list, ok := value.([]string); ok {
		return list, nil
	}
	list, ok := value.([]any)
	if !ok {
		return nil, fmt.Errorf(`write a list of texts, one a row, like ['\/', '/\']`)
	}
	out := make([]string, len(list))
	for i, v := range list {
		if out[i], ok = v.(string); !ok {
			return nil, fmt.Errorf("item %d is not a text; put it in quotes", i+1)
		}
	}
	return out, nil
}

func readLengths(value any, unit geometry.Unit) ([]geometry.Length, error) {
	list, ok := value.([]any)
	if !ok {
		return nil, fmt.Errorf(`write a list of lengths, like ["1/2", "rest", "1/2"]`)
	}
	out := make([]geometry.Length, len(list))
	for i, v := range list {
		text, ok := lengthText(v)
		if !ok {
			return nil, fmt.Errorf("item %d is not a length; write it like 4 1/4, 1/8, 0.5 in or 3.2 mm", i+1)
		}
		if text == "rest" {
			out[i] = Rest
			continue
		}
		length, err := geometry.ParseLength(text, unit)
		if err != nil {
			return nil, fmt.Errorf("item %d: %w", i+1, err)
		}
		if length <= 0 {
			return nil, fmt.Errorf("item %d: %q is not more than 0", i+1, text)
		}
		out[i] = length
	}
	return out, nil
}

// lengthText returns a length as a maker would write it.
func lengthText(value any) (string, bool) {
	switch v := value.(type) {
	case string:
		return strings.TrimSpace(v), true
	case int64:
		return strconv.FormatInt(v, 10), true
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64), !math.IsNaN(v) && !math.IsInf(v, 0)
	}
	return "", false
}
