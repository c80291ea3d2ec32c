package page

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"panelry/layouts"
)

// newProblem is the first problem that was not there before.
func newProblem(before, now layouts.Problems) layouts.Problem {
	for _, p := range now {
		if !slices.ContainsFunc(before, func(q layouts.Problem) bool { return q.Key == p.Key && q.Text == p.Text }) {
			return p
		}
	}
	return now[0]
}

// sentence makes a problem's text a sentence.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	first := []rune(text)
	return strings.ToUpper(string(first[0])) + ended(string(first[1:]))
}

// ended puts a full stop behind a text that has no end.
func ended(text string) string {
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".?!") {
		return text
	}
	return text + "."
}

// names says what keys are called, for undo: a few by name.
func (s *state) names(keys []string) string {
	const most = 4
	if len(keys) > most {
		return fmt.Sprintf("%d changes", len(keys))
	}
	var list []string
	for _, key := range keys {
		list = append(list, s.nameOf(key))
	}
	return and(list)
}

// and lists words: "margin, gap and fold".
func and(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

func (s *state) nameOf(key string) string {
	c, ok := controlFor(key, s.layout())
	if !ok {
		return "change"
	}
	label := strings.ToLower(c.Label[:1]) + c.Label[1:]
	if number, ok := paperNumber(key); ok && number < len(s.design.Papers) {
		return label + " of " + s.design.Papers[number].Name
	}
	return label
}

// paperNumber returns the number in "papers.3.name".
func paperNumber(key string) (int, bool) {
	rest, ok := strings.CutPrefix(key, "papers.")
	if !ok {
		return 0, false
	}
	number, _, _ := strings.Cut(rest, ".")
	n, err := strconv.Atoi(number)
	return n, err == nil && n >= 0
}
