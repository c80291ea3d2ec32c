package layouts_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/layouts"
)

// Unknown keys become comments, wherever they stand and however they are
// written, and the file then reads as the same without them.
func TestWithoutUnknown(t *testing.T) {
	for name, c := range map[string]struct {
		add     []string // a line, and what it goes above
		want    []string
		changed int // lines
	}{
		"a key":             {[]string{"colour = 3 # mine\n", "[card]"}, []string{"colour"}, 1},
		"in a table":        {[]string{"hinge = 'x'\n", "size ="}, []string{"card.hinge"}, 1},
		"of several lines":  {[]string{"notes = [\n  'a', # b\n\n  'c',\n]\n", "[card]"}, []string{"notes"}, 4},
		"a text of lines":   {[]string{"notes = '''\nmargin = 1\n'''\n", "[card]"}, []string{"notes"}, 3},
		"a table":           {[]string{"[mine]\na = 1\n[mine.more]\nb = {c = 2}\n", "[card]"}, []string{"mine"}, 4},
		"a list of tables":  {[]string{"[[mine]]\na = 1\n[[mine]]\na = 2\n", "[card]"}, []string{"mine"}, 4},
		"with full stops":   {[]string{"mine.a = 1\nmine.b = 2\n", "[card]"}, []string{"mine"}, 2},
		"a table on a line": {[]string{"mine = {a = 1, b = [2,\n3]}\n", "[card]"}, []string{"mine"}, 2},
		"none":              {[]string{"", "[card]"}, nil, 0},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.Replace(sample, c.add[1], c.add[0]+c.add[1], 1)
			out, unknown := layouts.WithoutUnknown([]byte(text))
			require.Equal(t, c.want, unknown)
			d, err := layouts.Read(strings.NewReader(string(out)), nil)
			require.NoError(t, err, "%s", out)
			want := mustRead(t, sample)
			require.Equal(t, [2]any{want.Card, want.Front.Margin}, [2]any{d.Card, d.Front.Margin})
			before, after := strings.Split(text, "\n"), strings.Split(string(out), "\n")
			require.Len(t, after, len(before))
			differ := 0
			for i := range before {
				if before[i] != after[i] {
					require.Equal(t, "# "+before[i], after[i])
					differ++
				}
			}
			require.Equal(t, c.changed, differ)
		})
	}
	inline := "card = {size = 'US A2', hinge = 1}\n"
	out, unknown := layouts.WithoutUnknown([]byte(inline))
	require.Empty(t, unknown)
	require.Equal(t, inline, string(out), "it shares its line: left")
}

// Whatever stands in a file, its lines stay where they are, and each is as it
// was or a comment.
func FuzzWithoutUnknown(f *testing.F) {
	for _, seed := range []string{sample, "a.b = 1\n[c]\nd = '''\n'''", "[[x]]\ny = {z = [1,\n2]}\n[x.w]\n", "card = {x = 1}", "\xef\xbb\xbfa = 1", "a = \"\"\"\n[b]\nc = 1"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		out, unknown := layouts.WithoutUnknown([]byte(text))
		before, after := strings.Split(text, "\n"), strings.Split(string(out), "\n")
		require.Len(t, after, len(before))
		for i := range before {
			if before[i] != after[i] {
				require.Equal(t, "# "+before[i], after[i])
				require.NotEmpty(t, unknown)
			}
		}
	})
}
