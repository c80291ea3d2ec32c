package cards

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"panelry/geometry"
	"panelry/layouts/wording"
)

// numbersLike is the hint for a size that has no name.
const numbersLike = "write numbers, like 4 1/4 x 5 1/2 in"

// ParseSize reads a size that is wanted for the given use: a name of the
// table ("US A2", "iso a6", "Letter"; capitals and spaces do not matter) or
// numbers as [geometry.ParseSize] takes them, with unit for bare ones.
//
// A name gives the upright size; numbers stay as they are written, width
// first, and both are above 0. Where an envelope is wanted, "US A2" is the
// US A2 envelope. Refused, each with what to write instead: a name that needs
// its system ("A6"), a name that is for another use (a card by an envelope's
// name), a name that is not known.
func ParseSize(text string, unit geometry.Unit, use Use) (geometry.Size, error) {
	key := keyOf(text)
	if row, found := find(key, use); found {
		if !row.Use.serves(use) {
			return geometry.Size{}, errors.New(wrongUse(row, use))
		}
		return row.Size, nil
	}
	switch rows := readings(key, use); {
	case strings.TrimSpace(text) == "":
		return geometry.Size{}, fmt.Errorf("a size is missing; write a name, like US A2, or %s", numbersLike)
	case len(rows) > 0:
		return geometry.Size{}, needsSystem(rows, use)
	case !startsLikeNumber(text):
		return geometry.Size{}, unknownSize(text, use)
	}
	return parseNumbers(text, unit)
}

// find returns the row with that key. The use may follow the name: "US A2
// card", "ISO C6 envelope".
func find(key string, use Use) (NamedSize, bool) {
	if use == ForEnvelope {
		if row, found := byKey[key+"envelope"]; found {
			return row, true
		}
	}
	if row, found := byKey[key]; found {
		return row, true
	}
	for _, w := range useWords {
		name, cut := strings.CutSuffix(key, w.word)
		if row, found := byKey[name]; cut && found && row.Use&w.use != 0 {
			return row, true
		}
	}
	return NamedSize{}, false
}

// readings returns the rows that a name without its system can mean: those
// for the wanted use or, where there are none, those for any use.
func readings(key string, use Use) []NamedSize {
	var fitting, all []NamedSize
	for _, row := range sizes {
		bare := keyOf(row.bare())
		if bare == "" || bare != key && (use != ForEnvelope || bare != key+"envelope") {
			continue
		}
		all = append(all, row)
		if row.Use.serves(use) {
			fitting = append(fitting, row)
		}
	}
	if len(fitting) > 0 {
		return fitting
	}
	return all
}

// needsSystem says what a name without its system can mean.
func needsSystem(rows []NamedSize, use Use) error {
	first := rows[0]
	if len(rows) > 1 {
		words := make([]string, len(rows))
		for i, row := range rows {
			words[i] = row.String()
		}
		return fmt.Errorf("%s can be %s: write which", first.bare(), wording.OrPlain(words))
	}
	if !first.Use.serves(use) {
		return fmt.Errorf("%s needs its system, %s, and %s", first.bare(), first.Name, wrongUse(first, use))
	}
	return fmt.Errorf("%s needs its system: write %s", strings.TrimSuffix(first.bare(), " envelope"), first)
}

// wrongUse says what a name is for, and what to write for the wanted use.
func wrongUse(row NamedSize, use Use) string {
	is := fmt.Sprintf("%s is %s (%s), not %s", row.Name, article(row.Use), sizeText(row.Size, row.Unit), article(use))
	switch {
	case use == ForCard && row.Holds != geometry.Size{}:
		return is + "; the card that goes in it is " + cardText(row.Holds, row.Unit)
	case use == ForEnvelope:
		if e, found := envelopeFor(row.Size); found {
			return is + "; the envelope for it is " + e.String()
		}
	}
	return is + "; if that size is meant, write " + sizeText(row.Size, row.Unit)
}

// article returns the uses with their articles: "a card or a sheet".
func article(use Use) string {
	var words []string
	for _, w := range useWords {
		switch {
		case use&w.use == 0:
		case w.use == ForEnvelope:
			words = append(words, "an "+w.word)
		default:
			words = append(words, "a "+w.word)
		}
	}
	return wording.OrPlain(words)
}

// cardText returns the name of the card with that size, or only the size.
func cardText(size geometry.Size, unit geometry.Unit) string {
	for _, row := range sizes {
		if row.Use&ForCard != 0 && row.Size == size {
			return row.String()
		}
	}
	return sizeText(size, unit)
}

// envelopeFor returns the first envelope that holds a flat card of the size.
func envelopeFor(size geometry.Size) (NamedSize, bool) {
	for _, row := range sizes {
		if row.Holds == size {
			return row, true
		}
	}
	return NamedSize{}, false
}

// startsLikeNumber reports whether the text is meant as numbers.
func startsLikeNumber(text string) bool {
	first, _ := utf8.DecodeRuneInString(strings.TrimSpace(text))
	return unicode.IsNumber(first) || strings.ContainsRune("-−.,", first)
}

func parseNumbers(text string, unit geometry.Unit) (geometry.Size, error) {
	size, err := geometry.ParseSize(text, unit)
	if err != nil {
		return geometry.Size{}, err
	}
	if size.W <= 0 || size.H <= 0 {
		return geometry.Size{}, fmt.Errorf("%q has a side of 0 or less; %s", strings.TrimSpace(text), numbersLike)
	}
	return size, nil
}
