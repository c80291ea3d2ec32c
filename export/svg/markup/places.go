package markup

import (
	"slices"
	"sort"
	"strings"
	"unicode/utf8"
)

// A Place is a line and a column, both from 1; columns count characters.
type Place struct{ Line, Column int }

// A piece of the text comes from the file at From: byte for byte, or, where
// it is an entity's replacement, all of it from that one place.
type piece struct {
	start  int // in the text
	from   int // in the file
	entity bool
}

// inFile returns which byte of the file a byte of the text comes from.
func (t *Tokens) inFile(at int) int {
	i := sort.Search(len(t.pieces), func(i int) bool { return t.pieces[i].start > at }) - 1
	switch {
	case i < 0:
		return at
	case t.pieces[i].entity:
		return t.pieces[i].from
	}
	return t.pieces[i].from + at - t.pieces[i].start
}

// Places returns the lines and columns of bytes of the text, in one walk
// through the file.
func (t *Tokens) Places(at []int) []Place {
	type wanted struct{ at, index int }
	order := make([]wanted, len(at))
	for i, a := range at {
		order[i] = wanted{min(t.inFile(max(a, 0)), len(t.file)), i}
	}
	slices.SortFunc(order, func(a, b wanted) int { return a.at - b.at })
	places := make([]Place, len(at))
	line, column, walked := 1, 1, 0
	for _, w := range order {
		step := t.file[walked:w.at]
		if n := strings.Count(step, "\n"); n > 0 {
			line, column = line+n, 1
			step = step[strings.LastIndexByte(step, '\n')+1:]
		}
		column += utf8.RuneCountInString(step)
		walked = w.at
		places[w.index] = Place{line, column}
	}
	return places
}
