// Package wording holds what the sentences of errors share: lists of words,
// and the nearest known word to one that is not known.
//
// Start with [Or] and [Nearest].
package wording

import (
	"fmt"
	"strings"
)

// Or writes a list for a choice: `"a", "b" or "c"`.
func Or(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = fmt.Sprintf("%q", w)
	}
	return OrPlain(quoted)
}

// OrPlain writes a list for a choice without quotes: `a, b or c`.
func OrPlain(words []string) string { return joined(words, " or ") }

// AndPlain writes a list of all: `a, b and c`.
func AndPlain(words []string) string { return joined(words, " and ") }

func joined(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + last + words[n]
}

// Nearest returns the known word with the fewest letters to change, add or
// drop, if that is few enough to be a slip of the pen: a third of the
// word's letters, and at least one; two neighbours exchanged are one. A word
// that goes on where a known one ends ("inches") is near as well. Capitals do
// not count. The first of equals wins.
func Nearest(word string, known []string) (string, bool) {
	best, least := "", max(1, len([]rune(word))/3)+1
	for _, k := range known {
		if k != "" && strings.HasPrefix(strings.ToLower(word), strings.ToLower(k)) {
			best, least = k, 1
		}
	}
	for _, k := range known {
		if d := Distance(word, k); d < least {
			best, least = k, d
		}
	}
	return best, best != ""
}

// Meant returns `; did you mean "x"?` for the nearest known word, or "".
func Meant(word string, known []string) string {
	if near, ok := Nearest(word, known); ok {
		return fmt.Sprintf("; did you mean %q?", near)
	}
	return ""
}

// mostLetters is as much of a word as is compared: the work grows with the
// product of two words' lengths, and no name here is longer.
const mostLetters = 64

// Distance returns how many letters must be changed, added, dropped or
// exchanged with a neighbour to make one word into the other, capitals aside
// (Levenshtein's distance with exchanges, in its restricted form: no letter is
// touched twice).
func Distance(from, to string) int {
	a, b := letters(from), letters(to)
	var before []int // the row above the last
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		next := make([]int, len(b)+1)
		next[0] = i + 1
		for j := range b {
			change := row[j]
			if a[i] != b[j] {
				change++
			}
			next[j+1] = min(change, row[j+1]+1, next[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				next[j+1] = min(next[j+1], before[j-1]+1)
			}
		}
		before, row = row, next
	}
	return row[len(b)]
}

func letters(word string) []rune {
	r := []rune(strings.ToLower(word))
	return r[:min(len(r), mostLetters)]
}

// Shortly writes a value of a design file as it stood, at the start of a
// sentence, if it is short.
func Shortly(value any) string {
	switch v := value.(type) {
	case string:
		if len(v) <= 40 {
			return fmt.Sprintf("%q", v)
		}
	case int, int64, float64, bool:
		return fmt.Sprint(v)
	}
	return "that is none"
}
