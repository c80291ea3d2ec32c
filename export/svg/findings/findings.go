// Package findings says what can be wrong with an SVG file: every rule with
// its id, the clause it rests on, how much it matters and what to do.
//
// The reader and the checker add findings to one [List]; nothing else makes
// up rules or severities.
//
// Clauses are those of SVG 2 (W3C, editor's copy of 2026), SVG 1.1 second
// edition, CSS Values 4, CSS Masking 1, css-transforms-1 and XML 1.0; those
// of SVG 2 §3, §5, §6 and §13, of CSS Masking and of SMIL are from memory.
package findings

import (
	"fmt"
	"slices"

	"panelry/export/svg/markup"
)

// A Severity says how much a finding matters.
type Severity int

const (
	Note    Severity = iota // to know
	Warning                 // likely not what is wanted, or not the same everywhere
	Error                   // wrong size, a spoilt cut, or readers that disagree
)

func (s Severity) String() string { return [...]string{"note", "warning", "error"}[s] }

// A Rule is what a file is held against.
type Rule struct {
	ID       string // words of lower case joined by hyphens; never changes
	Severity Severity
	Clause   string // where it is laid down, or "common practice, no source"
	Group    string // size, reading, outlines, cutting or layers
	Meaning  string // what the finding means for the paper
	Advice   string // what to do
}

var all []*Rule

// All returns every rule, group by group.
func All() []*Rule { return slices.Clone(all) }

// A Finding is a rule that a file breaks, and where.
type Finding struct {
	Rule    *Rule
	Message string // what is wrong, and what to do
	Element string // tag and id, such as path#a; "" for the file
	Spot    *Spot  // where on the sheet; nil where it has no place
	markup.Place
}

// A Spot is a box on the sheet, in mm; often a point.
type Spot struct{ X, Y, W, H float64 }

// MostPerRule is how many findings of one rule a list keeps; the rest is
// counted in one more.
const MostPerRule = 100

// A List collects findings in the order in which they are found.
type List struct {
	// Places turns byte offsets into lines and columns.
	Places func([]int) []markup.Place

	found []entry
	count map[*Rule]int
}

type entry struct {
	Finding
	at int // byte offset; -1 where the place is known already
}

// Add adds a finding at a byte offset of the text.
func (l *List) Add(rule *Rule, at int, element, format string, args ...any) {
	if l.room(rule) {
		l.found = append(l.found, entry{Finding{Rule: rule, Message: message(rule, format, args), Element: element}, at})
	}
}

// AddAt adds a finding whose place is known.
func (l *List) AddAt(rule *Rule, place markup.Place, element, format string, args ...any) {
	if l.room(rule) {
		l.found = append(l.found, entry{Finding{Rule: rule, Message: message(rule, format, args), Element: element, Place: place}, -1})
	}
}

// AddSpot adds a finding that has a place on the sheet too.
func (l *List) AddSpot(rule *Rule, at int, element string, spot Spot, format string, args ...any) {
	if l.room(rule) {
		l.found = append(l.found, entry{Finding{Rule: rule, Message: message(rule, format, args), Element: element, Spot: &spot}, at})
	}
}

// AddOnce adds a finding unless there is one of its rule.
func (l *List) AddOnce(rule *Rule, at int, element, format string, args ...any) {
	if l.count[rule] == 0 {
		l.Add(rule, at, element, format, args...)
	}
}

func (l *List) room(rule *Rule) bool {
	if l.count == nil {
		l.count = map[*Rule]int{}
	}
	l.count[rule]++
	return l.count[rule] <= MostPerRule
}

// Count returns how often a rule was broken.
func (l *List) Count(rule *Rule) int { return l.count[rule] }

func message(rule *Rule, format string, args []any) string {
	text := fmt.Sprintf(format, args...)
	if rule.Advice != "" {
		text += "; " + rule.Advice
	}
	return text
}

// Findings returns what was found: by place in the file, and at one place
// the graver first.
func (l *List) Findings() []Finding {
	var at []int
	for _, e := range l.found {
		if e.at >= 0 {
			at = append(at, e.at)
		}
	}
	var places []markup.Place
	if l.Places != nil {
		places = l.Places(at)
	}
	list := make([]Finding, 0, len(l.found))
	for _, e := range l.found {
		if e.at >= 0 && places != nil {
			e.Place, places = places[0], places[1:]
		}
		list = append(list, e.Finding)
	}
	for _, rule := range all {
		if more := l.count[rule] - MostPerRule; more > 0 {
			list = append(list, Finding{Rule: rule, Message: fmt.Sprintf("and %d more of this kind", more)})
		}
	}
	slices.SortStableFunc(list, func(a, b Finding) int {
		switch {
		case (a.Line == 0) != (b.Line == 0): // what has no place comes last
			return b.Line - a.Line
		case a.Line != b.Line:
			return a.Line - b.Line
		case a.Column != b.Column:
			return a.Column - b.Column
		}
		return int(b.Rule.Severity - a.Rule.Severity)
	})
	return list
}
