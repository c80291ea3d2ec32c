package layouts_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/layouts"
)

func TestSampleReads(t *testing.T) {
	d := mustRead(t, sample)
	require.Equal(t, "sample", d.Title)
	require.Equal(t, sample, string(d.Source))
}

// Lines are counted in the sample; columns are those of the key.
func TestUnknownKeys(t *testing.T) {
	const ofPaper = "name, sheet, measured, have, most_panels, colour, drawing, pattern, pattern_up, sides, grain, gsm, weight, caliper, price, edge, spacing, bleed"
	tests := []struct {
		name, text, want string
	}{
		{"top", "titl = \"x\"\n" + sample, `1:1: titl: no such key; did you mean "title"?`},
		{"top, after spaces", "  rulers = 1\n" + sample, `1:3: rulers: no such key; did you mean "ruler"?`},
		{"table", sample + "[extras]\na = 1\nb = 2\n", "26:2: extras: no such key; known here: title, units, ruler, tool, card, front, batch, sheets, trimmer, shop, papers, shapes"},
		{"table named wrongly", sample + "[sheet]\n", `26:2: sheet: no such key; did you mean "sheets"?`},
		{"list of tables", sample + "[[extra]]\na = 1\n", "26:3: extra: no such key; known here: title, units, ruler, tool, card, front, batch, sheets, trimmer, shop, papers, shapes"},
		{"card", changed(`base = "flat"`, "base = \"flat\"\n  bass = 1"), `7:3: card.bass: no such key; did you mean "base"?`},
		{"card, other capitals", changed(`base =`, `Base =`), `6:1: card.Base: no such key; did you mean "base"?`},
		{"card, a dotted key", "card.sice = 1\n", `1:1: card.sice: no such key; did you mean "size"?`},
		{"front", changed(`gap =`, `gaps =`), `11:1: front.gaps: "diagonal halves" has no such key; did you mean "gap"?`},
		{"front, key of another layout", changed(`gap =`, `widths =`), `11:1: front.widths: "diagonal halves" has no such key; known here: layout, margin, gap, papers, direction, sizes, columns, rows, slant`},
		{"batch", changed(`cards = 2`, "card = 2"), `14:1: batch.card: no such key; did you mean "cards"?`},
		{"sheets", changed(`edge =`, `edges =`), `16:1: sheets.edges: no such key; did you mean "edge"?`},
		{"second paper", sample + "shet = 1\n", `26:1: papers 3 (clay): shet: no such key; did you mean "sheet"?`},
		{"paper, nothing near", sample + "bought = 1\n", "26:1: papers 3 (clay): bought: no such key; known here: " + ofPaper},
		{"table in a paper", sample + "[papers.shop]\nx = 1\n", "26:2: papers 3 (clay): shop: no such key; known here: " + ofPaper},
		{"inline table", `card = {size = "US A2", paer = "x"}`, `1:25: card.paer: no such key; did you mean "paper"?`},
		{"inline list of tables", `papers = [{name = "a"}, {name = "b", shet = "x"}]`, `1:38: papers 2 (b): shet: no such key; did you mean "sheet"?`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			require.Contains(t, problemsOf(t, tt.text), tt.want)
		})
	}
}

// A file of nothing but unknown keys is told about; the decoder's own strict
// mode would take many seconds over it.
func TestManyUnknownKeys(t *testing.T) {
	var b strings.Builder
	for i := range 15_000 {
		fmt.Fprintf(&b, "key_%05d = 1\n", i)
	}
	require.Less(t, b.Len(), layouts.MostBytes)
	_, err := read(b.String())
	var problems layouts.Problems
	require.ErrorAs(t, err, &problems)
	require.Greater(t, len(problems), 15_000)
}

func TestNotTOML(t *testing.T) {
	tests := []struct {
		name, text, want string
	}{
		{"bare fraction", "[front]\nmargin = 1/16\n", `2:11: this is not TOML; put fractions in quotes, like margin = "1/16"`},
		{"bare mixed number", "[front]\nmargin = 1 1/16\n", `2:12: this is not TOML; put fractions in quotes, like margin = "1/16"`},
		{"bare fraction at the top", "ruler = 1/16", `1:10: this is not TOML; put fractions in quotes, like margin = "1/16"`},
		{"open quotes", "title = \"abc\n", `1:13: this is not TOML; the quote that ends the text is missing`},
		{"curly quotes", "title = “abc”\n", `1:9: this is not TOML; use straight quotes, " or '`},
		{"no quotes", "[card]\nbase = top fold\n", `2:8: this is not TOML; put texts in quotes, like base = "top fold"`},
		{"decimal comma", "[front]\nmargin = 0,125\n", `2:11: this is not TOML; write decimals with a point, or in quotes`},
		{"bare size", "[card]\nsize = 4 1/4 x 5 1/2\n", `2:10: this is not TOML; put sizes in quotes, like size = "4 1/4 x 5 1/2"`},
		{"open bracket", "[card\n", `1:6: this is not TOML (expected ']' to close table name)`},
		{"no key", "= 3\n", `1:1: this is not TOML (invalid character at start of key: U+003D '=')`},
		{"backslash in double quotes", "[front]\nslant = [\"\\/\"]\n", `2:11: this is not TOML; put a text with \ in single quotes, like '\/'`},
		{"key twice", "title = \"a\"\ntitle = \"b\"\n", `2:1: title: this stands in the file before; write it once`},
		{"table twice", "[card]\n[card]\n", `2:2: card: this stands in the file before; write it once`},
		{"number too large", "[front]\ncolumns = 99999999999999999999\n", `2:11: front.columns: this is no number that can be read, or too large a one`},
		{"float too large", "[front]\ncolumns = 1e999\n", `2:11: front.columns: this is no number that can be read, or too large a one`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			require.Equal(t, []string{tt.want}, problemsOf(t, tt.text))
		})
	}
}

func TestNotText(t *testing.T) {
	const want = "not a text file; a design is a TOML file in UTF-8"
	tests := []struct {
		name, text, want string
	}{
		{"NUL", "title = \"a\"\n\x00", "2:1: " + want},
		{"broken UTF-8", "title = \"caf\xe9\"\n", "1:13: " + want},
		{"picture", "\x89PNG\r\n\x1a\n\x00\x00", "1:1: " + want},
		{"UTF-16", "\xff\xfet\x00i\x00", "1:1: " + want},
		{"too large", strings.Repeat("# sand\n", layouts.MostBytes/7+1), "larger than 262144 bytes; is this a design file?"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			require.Equal(t, []string{tt.want}, problemsOf(t, tt.text))
		})
	}
}

// Some editors begin a text in UTF-8 with the byte order mark EF BB BF; a
// line may end in CR LF (TOML 1.0, Newline).
func TestTextOfOtherEditors(t *testing.T) {
	want := mustRead(t, sample)
	for name, text := range map[string]string{
		"byte order mark": "\xef\xbb\xbf" + sample,
		"CR LF":           strings.ReplaceAll(sample, "\n", "\r\n"),
		"no last newline": strings.TrimSuffix(sample, "\n"),
	} {
		t.Run(name, func(t *testing.T) {
			d := mustRead(t, text)
			require.Equal(t, want.Papers, d.Papers)
			require.Equal(t, text, string(d.Source)) // the copy in a kit stays as it was
		})
	}
}

// A table where a value belongs, and a value where a table belongs.
func TestTablesAndValues(t *testing.T) {
	const ofPapers = "papers: each paper is a table; write [[papers]] on a line of its own and its keys below"
	ofTable := func(key string) string {
		return key + ": this is a table; write [" + key + "] on a line of its own and its keys below"
	}
	tests := []struct {
		name, text, want string
	}{
		{"card is a text", `card = "US A2"`, "1:8: " + ofTable("card")},
		{"front is a number", `front = 3`, "1:9: " + ofTable("front")},
		{"batch is a list", `batch = [1]`, "1:9: " + ofTable("batch")},
		{"sheets is a date", `sheets = 2024-05-06`, "1:10: " + ofTable("sheets")},
		{"card is a list of tables", "[[card]]\n", "1:3: " + ofTable("card")},
		{"front is a list of tables", "[[front]]\n", "1:3: " + ofTable("front")},
		{"papers is a text", `papers = "kelp"`, "1:10: " + ofPapers},
		{"papers is a list of texts", `papers = ["kelp"]`, "1:11: " + ofPapers},
		{"papers is one table", "[papers]\nname = \"kelp\"\n", "1:2: " + ofPapers},
		{"title is a table", "[title]\nx = 1\n", "1:2: title: write a text in quotes"},
		{"title is in a table", "[title.x]\ny = 1\n", "1:2: title: write a text in quotes"},
		{"size is a table", "[card.size]\nx = 1\n", `1:2: card.size: write a size in quotes, like "4 1/4 x 5 1/2 in" or "ISO A6"`},
		{"edge is a list of tables", "[[sheets.edge]]\n", `1:3: sheets.edge: write a length, like "1/8" or "3.2 mm"`},
		{"cards is a dotted key", "batch.cards.x = 3\n", "1:1: batch.cards: that is none: write a whole number from 1 to 10000"},
		{"margin is a table", "[front.margin]\n", `1:2: front.margin: write a length, like "1/8" or "3.2 mm"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			require.Contains(t, problemsOf(t, tt.text), tt.want)
		})
	}
}
