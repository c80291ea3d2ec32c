package cards_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/cards"
)

const anyUse cards.Use = 0

// uses are the uses of a row, one by one.
func uses(row cards.NamedSize) []cards.Use {
	var out []cards.Use
	for _, use := range []cards.Use{cards.ForCard, cards.ForSheet, cards.ForEnvelope} {
		if row.Use&use != 0 {
			out = append(out, use)
		}
	}
	return out
}

func TestParseSizeReadsEveryName(t *testing.T) {
	for _, row := range cards.Sizes() {
		for _, use := range append(uses(row), anyUse) {
			for _, text := range []string{
				row.Name, strings.ToUpper(row.Name), "  " + strings.ReplaceAll(strings.ToLower(row.Name), " ", "   ") + " ",
				strings.ReplaceAll(row.Name, " ", ""),
			} {
				t.Run(use.String()+"/"+text, func(t *testing.T) {
					size, err := cards.ParseSize(text, geometry.NoUnit, use)
					require.NoError(t, err)
					require.Equal(t, row.Size, size)
				})
			}
		}
	}
}

func TestParseSize(t *testing.T) {
	tests := []struct {
		name, text string
		unit       geometry.Unit
		use        cards.Use
		want       string
	}{
		{"US A2 card", "us a2", geometry.NoUnit, cards.ForCard, "4 1/4 x 5 1/2 in"},
		{"US A2 envelope", "US A2", geometry.NoUnit, cards.ForEnvelope, "4 3/8 x 5 3/4 in"},
		{"two spaces", "ISO  A6", geometry.Inches, cards.ForCard, "105 x 148 mm"},
		{"hyphen", "iso-a6", geometry.Inches, cards.ForCard, "105 x 148 mm"},
		{"use behind the name", "ISO C6 envelope", geometry.NoUnit, cards.ForEnvelope, "114 x 162 mm"},
		{"card behind the name", "US A7 card", geometry.NoUnit, cards.ForCard, "5 x 7 in"},
		{"sheet behind the name", "letter sheet", geometry.NoUnit, cards.ForSheet, "8 1/2 x 11 in"},
		{"DIN for ISO", "DIN A5", geometry.NoUnit, cards.ForSheet, "148 x 210 mm"},
		{"DIN lang", "DIN lang", geometry.NoUnit, cards.ForEnvelope, "110 x 220 mm"},
		{"ISO DL", "ISO DL", geometry.NoUnit, cards.ForEnvelope, "110 x 220 mm"},
		{"C5/C6", "C5/C6", geometry.NoUnit, cards.ForEnvelope, "114 x 229 mm"},
		{"ISO C6/C5", "ISO C6/C5", geometry.NoUnit, cards.ForEnvelope, "114 x 229 mm"},
		{"JIS hagaki", "JIS Hagaki", geometry.NoUnit, cards.ForCard, "100 x 148 mm"},
		{"number sign", "#10", geometry.NoUnit, cards.ForEnvelope, "4 1/8 x 9 1/2 in"},
		{"number sign 9", "#9", geometry.NoUnit, cards.ForEnvelope, "3 7/8 x 8 7/8 in"},
		{"no full stop", "No 10 envelope", geometry.NoUnit, cards.ForEnvelope, "4 1/8 x 9 1/2 in"},
		{"number in full", "Number 9", geometry.NoUnit, cards.ForEnvelope, "3 7/8 x 8 7/8 in"},
		{"number 10 in full", "Number 10", geometry.NoUnit, cards.ForEnvelope, "4 1/8 x 9 1/2 in"},
		{"4-bar card", "4-bar", geometry.NoUnit, cards.ForCard, "3 1/2 x 4 7/8 in"},
		{"4-bar envelope", "4 bar", geometry.NoUnit, cards.ForEnvelope, "3 5/8 x 5 1/8 in"},
		{"6-bar card", "6-Bar", geometry.NoUnit, cards.ForCard, "4 1/2 x 6 1/4 in"},
		{"6-bar envelope", "6-bar envelope", geometry.NoUnit, cards.ForEnvelope, "4 3/4 x 6 1/2 in"},
		{"US Letter", "US Letter", geometry.NoUnit, cards.ForSheet, "8 1/2 x 11 in"},
		{"US Legal", "US Legal", geometry.NoUnit, cards.ForSheet, "8 1/2 x 14 in"},
		{"US Tabloid", "US Tabloid", geometry.NoUnit, cards.ForSheet, "11 x 17 in"},
		{"one of two uses", "Letter", geometry.NoUnit, cards.ForCard | cards.ForSheet, "8 1/2 x 11 in"},
		{"numbers with unit", "12x12in", geometry.Millimetres, cards.ForSheet, "12 x 12 in"},
		{"bare numbers", "4 1/4 x 5 1/2", geometry.Inches, cards.ForCard, "4 1/4 x 5 1/2 in"},
		{"numbers keep their order", "7 x 5", geometry.Inches, cards.ForCard, "7 x 5 in"},
		{"one-character fraction first", "½ x 1 in", geometry.NoUnit, cards.ForCard, "1/2 x 1 in"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := cards.ParseSize(tt.text, tt.unit, tt.use)
			require.NoError(t, err)
			require.Equal(t, sizeOf(t, tt.want), got)
		})
	}
}

func TestParseSizeRefuses(t *testing.T) {
	const in, mm, none = geometry.Inches, geometry.Millimetres, geometry.NoUnit
	tests := []struct {
		name, text string
		unit       geometry.Unit
		use        cards.Use
		want       string // all of the error, or its start where it ends in "..."
	}{
		{"bare A6 as a card", "A6", in, cards.ForCard,
			"A6 can be ISO A6 (105 x 148 mm) or US A6 (4 1/2 x 6 1/4 in): write which"},
		{"bare a 6", "a 6", mm, anyUse,
			"A6 can be ISO A6 (105 x 148 mm) or US A6 (4 1/2 x 6 1/4 in): write which"},
		{"bare A6 as a sheet", "A6", mm, cards.ForSheet, "A6 needs its system: write ISO A6 (105 x 148 mm)"},
		{"bare A6 as an envelope", "A6", mm, cards.ForEnvelope,
			"A6 needs its system: write US A6 envelope (4 3/4 x 6 1/2 in)"},
		{"bare A2", "A2", in, cards.ForCard, "A2 needs its system: write US A2 (4 1/4 x 5 1/2 in)"},
		{"bare B6", "B6", mm, cards.ForCard, "B6 can be ISO B6 (125 x 176 mm) or JIS B6 (128 x 182 mm): write which"},
		{"bare C6", "C6", mm, cards.ForEnvelope, "C6 needs its system: write ISO C6 (114 x 162 mm)"},
		{"bare C6, any use", "c6", mm, anyUse, "C6 needs its system: write ISO C6 (114 x 162 mm)"},
		{"bare C6 as a card", "C6", mm, cards.ForCard, "C6 needs its system, ISO C6, and ISO C6 is an envelope " +
			"(114 x 162 mm), not a card; the card that goes in it is ISO A6 (105 x 148 mm)"},
		{"envelope as a card", "us a2 envelope", in, cards.ForCard, "US A2 envelope is an envelope (4 3/8 x 5 3/4 in), " +
			"not a card; the card that goes in it is US A2 (4 1/4 x 5 1/2 in)"},
		{"No. 10 as a card", "No. 10", in, cards.ForCard, "No. 10 is an envelope (4 1/8 x 9 1/2 in), " +
			"not a card; the card that goes in it is 4 x 9 in"},
		{"Monarch as a card", "Monarch", in, cards.ForCard, "Monarch is an envelope (3 7/8 x 7 1/2 in), " +
			"not a card; if that size is meant, write 3 7/8 x 7 1/2 in"},
		{"DL as a sheet", "DL", mm, cards.ForSheet, "DL is an envelope (110 x 220 mm), " +
			"not a sheet; if that size is meant, write 110 x 220 mm"},
		{"sheet as a card", "Letter", in, cards.ForCard, "Letter is a sheet (8 1/2 x 11 in), " +
			"not a card; if that size is meant, write 8 1/2 x 11 in"},
		{"card as a sheet", "US A2", in, cards.ForSheet, "US A2 is a card (4 1/4 x 5 1/2 in), " +
			"not a sheet; if that size is meant, write 4 1/4 x 5 1/2 in"},
		{"card as an envelope", "ISO A6", mm, cards.ForEnvelope, "ISO A6 is a card or a sheet (105 x 148 mm), " +
			"not an envelope; the envelope for it is ISO C6 (114 x 162 mm)"},
		{"sheet as an envelope", "Legal", in, cards.ForEnvelope, "Legal is a sheet (8 1/2 x 14 in), " +
			"not an envelope; if that size is meant, write 8 1/2 x 14 in"},
		{"misspelt", "Leter", in, cards.ForSheet, `"Leter" is no known size; the nearest name is ` +
			"Letter (8 1/2 x 11 in); write a name or numbers, like 4 1/4 x 5 1/2 in"},
		{"misspelt with its system", "ISO  AA6", mm, cards.ForCard, `"ISO  AA6" is no known size; the nearest name is ISO A6 ...`},
		{"misspelt without its system", "slimlin", in, cards.ForCard, `"slimlin" is no known size; the nearest name is US Slimline ...`},
		{"too long", strings.Repeat("é", 100), mm, cards.ForCard, `"` + strings.Repeat("é", 40) + `…" is no known size; ...`},
		{"not text", "\xff\xfe", mm, cards.ForCard, `"` + "\ufffd\ufffd" + `" is no known size; ...`},
		{"empty", "", in, cards.ForCard, "a size is missing; write a name, like US A2, or write numbers, like 4 1/4 x 5 1/2 in"},
		{"spaces", " \t", in, cards.ForCard, "a size is missing; ..."},
		{"full stop", ".", in, cards.ForCard, `"." is not a size; ...`},
		{"one number", "5 in", in, cards.ForCard, `"5 in" is not a size; ...`},
		{"no unit", "5 x 7", none, cards.ForCard, `"5" has no unit: ...`},
		{"second side unreadable", "5 x y", in, cards.ForCard, `"y" is not a length; ...`},
		{"side of 0", "0 x 5", in, cards.ForCard, `"0 x 5" has a side of 0 or less; write numbers, like 4 1/4 x 5 1/2 in`},
		{"side below 0", "-4 x 5", in, cards.ForCard, `"-4 x 5" has a side of 0 or less; ...`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			size, err := cards.ParseSize(tt.text, tt.unit, tt.use)
			require.Error(t, err)
			require.Zero(t, size)
			if start, open := strings.CutSuffix(tt.want, "..."); open {
				require.Contains(t, err.Error(), start)
				require.True(t, strings.HasPrefix(err.Error(), start), err.Error())
				return
			}
			require.EqualError(t, err, tt.want)
		})
	}
}

// What the hint says to write is read, and gives what the hint says.
func TestParseSizeHintsAreReadable(t *testing.T) {
	for _, row := range cards.Sizes() {
		for _, use := range []cards.Use{cards.ForCard, cards.ForSheet, cards.ForEnvelope} {
			_, err := cards.ParseSize(row.Name, geometry.NoUnit, use)
			if err == nil {
				continue
			}
			t.Run(row.Name+" for "+use.String(), func(t *testing.T) {
				text := err.Error()
				if _, hint, found := strings.Cut(text, " is meant, write "); found {
					size, err := cards.ParseSize(hint, geometry.NoUnit, use)
					require.NoError(t, err)
					require.Equal(t, row.Size, size)
					return
				}
				hint := text[strings.LastIndex(text, " is ")+len(" is "):]
				hint, _, _ = strings.Cut(hint, " (")
				_, err := cards.ParseSize(hint, geometry.NoUnit, use)
				require.NoError(t, err)
			})
		}
	}
}

func FuzzParseSize(f *testing.F) {
	for _, text := range []string{"US A2", "A6", "b6 envelope", "DIN lang", "4 1/4 x 5 1/2 in", "210x297mm", "½×¼", "#10", "", "-1 x 2", "Leter"} {
		f.Add(text, uint8(geometry.Inches), uint8(cards.ForCard))
	}
	f.Add("Letter", uint8(geometry.NoUnit), uint8(cards.ForSheet))
	f.Fuzz(func(t *testing.T, text string, unit, use uint8) {
		want := cards.Use(use) & (cards.ForCard | cards.ForSheet | cards.ForEnvelope)
		size, err := cards.ParseSize(text, geometry.Unit(unit%4), want)
		if err != nil {
			require.Zero(t, size)
			require.NotEmpty(t, err.Error())
			return
		}
		require.Positive(t, size.W)
		require.Positive(t, size.H)
		again, err := cards.ParseSize(size.String(), geometry.NoUnit, want)
		require.NoError(t, err)
		require.Equal(t, size, again)
	})
}
