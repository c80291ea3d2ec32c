package layouts

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// A Problem is one thing wrong with a design file.
type Problem struct {
	Line, Column int    // from 1; 0 when it belongs to no place
	Key          string // "front.margin", "papers 2 (kelp): sheet", or ""
	Text         string // a sentence, lower case, without a full stop
	Path         string // the key as [Rewrite] takes it: "papers.1.sheet"; "" when it belongs to none
}

func (p Problem) Error() string {
	text := p.Text
	if p.Key != "" {
		text = p.Key + ": " + text
	}
	if p.Line > 0 {
		text = fmt.Sprintf("%d:%d: %s", p.Line, p.Column, text)
	}
	return text
}

// Problems are all things wrong with a design file, in the file's order.
type Problems []Problem

func (p Problems) Error() string {
	lines := make([]string, len(p))
	for i := range p {
		lines[i] = p[i].Error()
	}
	return strings.Join(lines, "\n")
}

// sort puts problems in the file's order.
func (p Problems) sort() {
	slices.SortStableFunc(p, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
}

// keyring knows where the keys of a design file stand, so that a problem can
// be told at its place, when reading as when planning.
type keyring struct {
	places map[string]place // by key: "front.margin", "papers.0.name"
	papers []string         // their names, by number
}

func keyringFrom(f file, places map[string]place) keyring {
	k := keyring{places: places}
	for _, p := range f.Papers {
		name, _ := p.Name.(string)
		k.papers = append(k.papers, name)
	}
	return k
}

// problem tells of a key, given as in places. A key that is not in the file
// is told at its table.
func (k keyring) problem(key, format string, args ...any) Problem {
	at := k.places[key]
	for table := key; at.line == 0 && table != ""; {
		table = table[:max(0, strings.LastIndexByte(table, '.'))]
		at = k.places[table]
	}
	return Problem{at.line, at.column, k.shown(key), oneLine(fmt.Sprintf(format, args...), mostProblemText), key}
}

// wrong is a problem with the design as an error.
func (d Design) wrong(key, format string, args ...any) error {
	return Problems{d.keys.problem(key, format, args...)}
}

// A sentence and a key are cut where they get longer than anybody reads.
const (
	mostProblemText = 400
	mostKeyText     = 80
)

// oneLine cuts a text from a file that goes into a sentence, and takes out
// what would upset a terminal.
func oneLine(text string, most int) string {
	runes := []rune(text)
	if len(runes) > most {
		runes = append(runes[:most], '…')
	}
	for i, r := range runes {
		if unicode.IsControl(r) {
			runes[i] = '·'
		}
	}
	return string(runes)
}

// shownByHand writes "batch.by_hand.1.4" as "batch.by_hand, card 2, paper 5".
func shownByHand(card, place string) string {
	from1 := func(text, word string) string {
		if n, err := strconv.Atoi(text); err == nil {
			return fmt.Sprintf(", %s %d", word, n+1)
		}
		return ", " + oneLine(text, mostKeyText)
	}
	text := "batch.by_hand" + from1(card, "card")
	if place != "" {
		text += from1(place, "paper")
	}
	return text
}

// shown writes "papers.1.sheet" as a maker would look for it: "papers 2
// (kelp): sheet".
func (k keyring) shown(key string) string {
	if rest, found := strings.CutPrefix(key, "batch.by_hand."); found {
		card, place, _ := strings.Cut(rest, ".")
		return shownByHand(card, place)
	}
	for _, table := range []string{"sheets", "offcuts"} { // of a stock file
		rest, _ := strings.CutPrefix(key, table+".")
		number, rest, found := strings.Cut(rest, ".")
		if n, err := strconv.Atoi(number); found && err == nil {
			return fmt.Sprintf("%s %d: %s", table, n+1, oneLine(rest, mostKeyText))
		}
	}
	rest, found := strings.CutPrefix(key, "papers.")
	if !found {
		return oneLine(key, mostKeyText)
	}
	number, rest, _ := strings.Cut(rest, ".")
	i, err := strconv.Atoi(number)
	if err != nil || i < 0 || i >= len(k.papers) {
		return oneLine(key, mostKeyText)
	}
	name := k.papers[i]
	if name != "" {
		name = " (" + oneLine(name, mostPaperName) + ")"
	}
	return strings.TrimSuffix(fmt.Sprintf("papers %d%s: %s", i+1, name, oneLine(rest, mostKeyText)), ": ")
}

// unprintable reports what no title and no name may hold: control
// characters, those that turn the direction of writing, and what XML cannot
// carry (XML 1.0 section 2.2).
func unprintable(r rune) bool {
	return unicode.IsControl(r) || r == 0xFFFE || r == 0xFFFF ||
		r >= 0x202A && r <= 0x202E || r >= 0x2066 && r <= 0x2069
}
