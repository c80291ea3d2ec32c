package layouts_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/layouts"
)

const threePapers = `title = "x"
[[papers]]
name = "a" # first

# the second
[[papers]]
name = "b"
[[papers]]
name = "c"`

func TestTablesOfAList(t *testing.T) {
	dropped, err := layouts.DropTable([]byte(threePapers), "papers", 1)
	require.NoError(t, err)
	require.Equal(t, "title = \"x\"\n[[papers]]\nname = \"a\" # first\n\n[[papers]]\nname = \"c\"", string(dropped))

	swapped, err := layouts.SwapTables([]byte(threePapers), "papers", 1)
	require.NoError(t, err)
	require.Equal(t, "title = \"x\"\n[[papers]]\nname = \"a\" # first\n\n[[papers]]\nname = \"c\"\n# the second\n[[papers]]\nname = \"b\"\n", string(swapped))

	added := layouts.AddTable([]byte(threePapers), "papers", []layouts.Edit{{Key: "papers.3.name", Value: `"d"`}})
	require.Equal(t, threePapers+"\n\n[[papers]]\nname = \"d\"\n", string(added))

	_, err = layouts.DropTable([]byte(threePapers), "papers", 3)
	require.EqualError(t, err, "there is no [[papers]] of number 4 on a line of its own")
	_, err = layouts.SwapTables([]byte(threePapers), "papers", 2)
	require.Error(t, err)
}

// Two swaps of the same tables change no key.
func TestSwapTwice(t *testing.T) {
	once, err := layouts.SwapTables([]byte(threePapers+"\n"), "papers", 0)
	require.NoError(t, err)
	twice, err := layouts.SwapTables(once, "papers", 0)
	require.NoError(t, err)
	require.Equal(t, threePapers+"\n", string(twice))
}

func TestRewriteTablesOnOneLine(t *testing.T) {
	for _, c := range []struct{ source, want string }{
		{`card = {size = "US A2"}`, `card = {base = "flat", size = "US A2"}`},
		{`card = {}`, `card = {base = "flat"}`},
		{"card.size = \"US A2\"\n", "card.base = \"flat\"\ncard.size = \"US A2\"\n"},
		{"title = 'x'\n", "title = 'x'\n\n[card]\nbase = \"flat\"\n"},
	} {
		got, err := layouts.Rewrite([]byte(c.source), []layouts.Edit{{Key: "card.base", Value: `"flat"`}})
		require.NoError(t, err)
		require.Equal(t, c.want, string(got))
	}
}

// Any text, quoted, reads as itself.
func TestQuoteText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.TrimSpace(strings.ToValidUTF8(rapid.String().Draw(t, "text"), ""))
		text = strings.Map(func(r rune) rune {
			if r < ' ' || r > 0x7e && r < 0xa0 || r == 0xfffe || r == 0xffff || r >= 0x2028 && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
				return -1
			}
			return r
		}, text)
		text = strings.TrimSpace(text)
		if text == "" {
			return
		}
		source, err := layouts.Rewrite([]byte(sample), []layouts.Edit{{Key: "title", Value: layouts.QuoteText(text)}})
		require.NoError(t, err)
		d, err := layouts.Read(strings.NewReader(string(source)), nil)
		require.NoError(t, err)
		require.Equal(t, text, d.Title)
	})
}

func TestKeys(t *testing.T) {
	keys := layouts.Keys()
	for _, key := range []string{"title", "card.size", "front.margin", "papers.*.most_panels", "shop.pack_price", "trimmer.hand"} {
		require.Contains(t, keys, key)
	}
	require.Greater(t, len(keys), 60)
}
