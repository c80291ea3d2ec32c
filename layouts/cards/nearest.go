package cards

import (
	"fmt"
	"strings"

	"panelry/layouts/wording"
)

// maxNameText is more than any name needs; longer ones are quoted and
// compared only so far.
const maxNameText = 40

// shortened returns at most the first maxNameText characters of a name.
func shortened(text string) string {
	runes := []rune(strings.TrimSpace(text))
	if len(runes) > maxNameText {
		return string(runes[:maxNameText]) + "…"
	}
	return string(runes)
}

// unknownSize names the nearest size for the wanted use.
func unknownSize(text string, use Use) error {
	key := keyOf(shortened(text))
	var best NamedSize
	least := -1
	for _, row := range sizes {
		if !row.Use.serves(use) {
			continue
		}
		distance := wording.Distance(key, keyOf(row.Name))
		if bare := row.bare(); bare != "" {
			distance = min(distance, wording.Distance(key, keyOf(bare)))
		}
		if least < 0 || distance < least {
			best, least = row, distance
		}
	}
	return fmt.Errorf("%q is no known size; the nearest name is %s; write a name or numbers, like 4 1/4 x 5 1/2 in", shortened(text), best)
}
