package pdf

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
)

// Fonts: Go Regular and Go Bold, BSD-3-Clause, from golang.org/x/image. They
// hold Latin, Greek and Cyrillic letters.
const family = "go"

var faces = map[string][]byte{"": goregular.TTF, "B": gobold.TTF}

// fallback stands for signs that the font lacks.
const fallback = '□'

// letters knows which signs the font has, and notes those it was asked for
// in vain.
type letters struct {
	font   *sfnt.Font
	buffer sfnt.Buffer
	known  map[rune]bool
	lacks  []rune
}

func newLetters() (*letters, error) {
	font, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil, fmt.Errorf("the built-in font cannot be read: %w", err)
	}
	return &letters{font: font, known: map[rune]bool{}}, nil
}

func (l *letters) has(r rune) bool {
	has, asked := l.known[r]
	if !asked {
		i, err := l.font.GlyphIndex(&l.buffer, r)
		has = err == nil && i != 0 && r >= ' '
		l.known[r] = has
	}
	return has
}

// fit returns a text in signs that the font has.
func (l *letters) fit(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case l.has(r):
			return r
		case unicode.IsSpace(r):
			return ' '
		case unicode.In(r, unicode.Mn, unicode.Cf, unicode.Me, unicode.Cc):
			return -1 // marks and joiners of signs that are replaced already
		}
		if !slices.Contains(l.lacks, r) {
			l.lacks = append(l.lacks, r)
		}
		return fallback
	}, text)
}

// mostLacks is how many signs the note lists.
const mostLacks = 12

// note says which signs were replaced, or nothing.
func (l *letters) note() string {
	if len(l.lacks) == 0 {
		return ""
	}
	var list []string
	for _, r := range l.lacks[:min(mostLacks, len(l.lacks))] {
		list = append(list, fmt.Sprintf("U+%04X", r))
	}
	more := ""
	if n := len(l.lacks) - len(list); n > 0 {
		more = fmt.Sprintf(" and %d more", n)
	}
	return fmt.Sprintf("The template's font has no sign for %s%s; a box stands in their place.", strings.Join(list, ", "), more)
}

// Lacking says which signs of the texts the template's font lacks; "" where
// it has them all.
func Lacking(texts ...string) string {
	l, err := newLetters()
	if err != nil {
		return ""
	}
	for _, t := range texts {
		l.fit(t)
	}
	return l.note()
}
