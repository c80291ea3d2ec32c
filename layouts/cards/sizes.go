package cards

import (
	"slices"
	"strings"

	"panelry/geometry"
	"panelry/layouts/wording"
)

// Use is what a size is used for: one or more of [ForCard], [ForSheet] and
// [ForEnvelope], added together with |. The zero Use stands for any.
type Use uint8

// The uses.
const (
	ForCard     Use = 1 << iota // the closed front of a card
	ForSheet                    // paper as it is bought
	ForEnvelope                 // the outside of an envelope, flap shut
)

// useWords are the words for the uses, which may also follow a name.
var useWords = []struct {
	use  Use
	word string
}{{ForCard, "card"}, {ForSheet, "sheet"}, {ForEnvelope, "envelope"}}

// String returns the uses as words: "card or sheet"; "" for none.
func (u Use) String() string {
	var words []string
	for _, w := range useWords {
		if u&w.use != 0 {
			words = append(words, w.word)
		}
	}
	return wording.OrPlain(words)
}

// serves reports whether a size with the uses u will do where one of the
// wanted uses is asked for.
func (u Use) serves(wanted Use) bool { return wanted == 0 || u&wanted != 0 }

// A NamedSize is one row of the table of sizes.
type NamedSize struct {
	Name   string        // with its system where there is one: "US A2", "ISO A6", "Letter"
	Use    Use           // what it is used for
	Size   geometry.Size // upright: the width is not more than the height
	Unit   geometry.Unit // what the trade writes it in
	Holds  geometry.Size // of an envelope: the flat card that goes in, upright; zero where none is known
	Source string        // where the numbers come from
}

// String returns the name and the size in the trade's unit:
// "US A2 (4 1/4 x 5 1/2 in)".
func (n NamedSize) String() string { return n.Name + " (" + sizeText(n.Size, n.Unit) + ")" }

// bare returns the name without its system: "A6" for "ISO A6". It is ""
// where the name has no system.
func (n NamedSize) bare() string {
	for _, system := range []string{"ISO ", "JIS ", "US "} {
		if rest, found := strings.CutPrefix(n.Name, system); found {
			return rest
		}
	}
	return ""
}

// Sizes returns all named sizes, always in the same order: the ISO series,
// JIS, then North America.
func Sizes() []NamedSize { return slices.Clone(sizes) }

// sizes is the table; byKey finds a row by the key of any of its names.
var (
	sizes = slices.Concat(isoA, isoB, isoC, jis, usCards, usEnvelopes, usSheets)
	byKey = keysOf(sizes)
)

// otherNames are further names in use, by key.
var otherNames = map[string]string{
	"isodl": "DL", "isolang": "DL", "isoc6/c5": "C6/C5", "c5/c6": "C6/C5", "jishagaki": "Hagaki",
	"#9": "No. 9", "number9": "No. 9", "#10": "No. 10", "number10": "No. 10",
	"4bar": "US A1", "4barenvelope": "US A1 envelope", "6bar": "US A6", "6barenvelope": "US A6 envelope",
	"usletter": "Letter", "uslegal": "Legal", "ustabloid": "Tabloid",
}

func keysOf(rows []NamedSize) map[string]NamedSize {
	keys := make(map[string]NamedSize)
	for _, row := range rows {
		keys[keyOf(row.Name)] = row
	}
	for other, name := range otherNames {
		keys[other] = keys[keyOf(name)]
	}
	return keys
}

// pointsAndHyphens takes out what does not count in a name.
var pointsAndHyphens = strings.NewReplacer(".", "", "-", "")

// keyOf brings a name into the form that is compared: small letters, no
// spaces, full stops or hyphens. DIN stands for ISO: the ISO series began as
// the German standards DIN 476 and DIN 678 (from memory).
func keyOf(name string) string {
	key := strings.ToLower(strings.Join(strings.Fields(name), ""))
	key = pointsAndHyphens.Replace(key)
	if rest, found := strings.CutPrefix(key, "din"); found {
		return "iso" + rest
	}
	return key
}

// named makes a row from a size as the trade writes it.
func named(name string, use Use, size, source string) NamedSize {
	s := mustSize(size)
	unit, _ := geometry.ParseUnit(size[len(size)-2:])
	return NamedSize{Name: name, Use: use, Size: s, Unit: unit, Source: source}
}

// envelope makes the row of an envelope; holds is "" where it is not known.
func envelope(name, size, holds, source string) NamedSize {
	row := named(name, ForEnvelope, size, source)
	if holds != "" {
		row.Holds = mustSize(holds)
	}
	return row
}

// mustSize reads a size of the tables below, which the tests hold readable.
func mustSize(text string) geometry.Size {
	size, err := geometry.ParseSize(text, geometry.NoUnit)
	if err != nil {
		panic("cards: " + err.Error())
	}
	return size
}

// sizeText returns a size as the trade writes it: "4 1/4 x 5 1/2 in" or
// "105 x 148 mm".
func sizeText(s geometry.Size, u geometry.Unit) string {
	if u != geometry.Inches {
		return s.String()
	}
	w, _ := s.W.OnRuler(geometry.Inch / 64)
	h, _ := s.H.OnRuler(geometry.Inch / 64)
	return strings.TrimSuffix(w, " in") + " x " + h
}
