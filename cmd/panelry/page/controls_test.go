package page

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/layouts"
	"panelry/layouts/fronts"
)

// Everything that a design file can say has a control, and no control is for
// anything else.
func TestEveryKeyHasAControl(t *testing.T) {
	var have []string
	for _, c := range controls {
		have = append(have, c.Key)
		require.NotEmpty(t, c.Label)
	}
	require.ElementsMatch(t, layouts.Keys(), have)
}

// Every control stands on the page, each once, with a name of its own; the
// options of every front too.
func TestEveryControlIsOnThePage(t *testing.T) {
	s := serve(t, demoText(t))
	design := strings.Replace(demoText(t), `plan = "in turn"`, `plan = "by hand"`+"\nby_hand = ["+strings.Repeat(`["kelp", "tide", "buoy", "sandbar", "gull", "lantern", "harbour", "samphire"],`, 8)+"]", 1)
	_, text := s.get(t, place(encode([]byte(design))))
	for _, c := range controls {
		for _, n := range []string{"0", "8"} {
			key := strings.Replace(c.Key, "*", n, 1)
			require.Equal(t, 1, strings.Count(text, `name="`+key+`"`), key)
		}
	}
	for _, l := range fronts.All() {
		p := s.set(t, demoText(t), "front.layout", l.Name)
		if l.Name == "own shapes" {
			require.True(t, p.Refused, "without shapes")
			continue
		}
		require.False(t, p.Refused, "%s: %s", l.Name, p.Status)
		for _, o := range l.Options {
			require.Equal(t, 1, strings.Count(p.Sections["card"], `name="front.`+o.Name+`"`), "%s: %s", l.Name, o.Name)
		}
	}
}

// No choice is offered that is refused whatever the design; a file that says
// one keeps it until another is chosen.
func TestChoicesCanBeTaken(t *testing.T) {
	s := serve(t, demoText(t))
	for _, c := range controls {
		if c.Kind != asChoice || c.Words == nil || strings.HasPrefix(c.Key, "papers.") || c.Key == "front.layout" || c.Key == "units" {
			continue
		}
		for _, w := range c.Words(layouts.Design{}) {
			p := s.set(t, demoText(t), c.Key, w.Value)
			require.False(t, p.Refused, "%s: %s: %s", c.Key, w.Value, p.Status)
		}
	}
	own := demoText(t) + "[sheets]\nlabels = \"back\"\n"
	require.Contains(t, s.set(t, own).Sections["sheets"], "<option selected>back</option>")
	require.NotContains(t, s.set(t, demoText(t)).Sections["sheets"], "on the back")
	require.Equal(t, "names of pieces", s.set(t, own, "sheets.labels", "map").Undo)
}

// What a file says goes into its field and comes back as the same value, for
// every key.
func TestValuesRoundTrip(t *testing.T) {
	values := map[kind][]string{
		asText:    {`"a"`, `'\/'`, `"it's \"so\""`},
		asLength:  {`"1/8"`, `"3.2 mm"`, `3`, `0.125`},
		asSize:    {`"US A2"`},
		asSizes:   {`"12 x 12 in"`, `["12 x 12 in", "ISO A4"]`},
		asCount:   {`3`},
		asNumber:  {`0.85`, `"0.85 EUR"`, `300`},
		asNumbers: {`0.85`, `["0.85 EUR", "1 EUR"]`, `[0.85, 1.2]`},
		asChoice:  {`"same"`},
		asColour:  {`"#aabbcc"`},
		asPercent: {`"10 %"`, `2`},
		asTools:   {`"cutter"`, `["cutter", "knife"]`},
		asPapers:  {`["kelp", "tide"]`, `{"A1a" = "kelp", "rest" = "tide"}`, `["a, b", "c"]`, `["x: y"]`},
		asWays:    {`"upright"`, `{"A1a" = "30 deg", "rest" = "along"}`},
		asRows:    {`['\/', '/\']`, `["all upright at 2/5"]`},
		asLengths: {`["1/2", "rest", "1/2"]`, `["1/2"]`},
		asDeal:    {`[["kelp", "tide"], ["tide", "kelp"]]`, `[{"A1a" = "kelp", "rest" = "tide"}]`},
	}
	for k, list := range values {
		for _, value := range list {
			c := control{Kind: k, Wide: k == asDeal || k == asRows || k == asPapers}
			typed := c.typedOf(value)
			got, ok := layouts.ReadValue(c.tomlOf(typed, value))
			require.True(t, ok, "%s %s: %s", k, value, c.tomlOf(typed, value))
			want, _ := layouts.ReadValue(value)
			require.Equal(t, want, got, "%s %s as %q", k, value, typed)
		}
	}
	require.Len(t, slices.Collect(maps.Keys(values)), 16)
}

// Names that hold commas, colons or quotes stand in quotes in a list, which
// reads them back; what else is typed is a name as it is.
func TestNamesInLists(t *testing.T) {
	papers, deal := control{Kind: asPapers, Wide: true}, control{Kind: asDeal, Wide: true}
	require.Equal(t, `"kelp, dark", "x: y", gull's`, papers.typedOf(`["kelp, dark", "x: y", "gull's"]`))
	require.Equal(t, "A1a: \"kelp, dark\", rest: tide\ntide", deal.typedOf(`[{A1a = "kelp, dark", rest = "tide"}, ["tide"]]`))
	for typed, want := range map[string]string{
		`12" kelp, 6" tide`:               `['12" kelp', '6" tide']`,
		`gull's, kelp's`:                  `["gull's", "kelp's"]`,
		`"kelp`:                           `['"kelp']`,
		`"kelp, dark" , tide,`:            `["kelp, dark", "tide"]`,
		`A1a:"x: y", rest : "kelp, dark"`: `{"A1a" = "x: y", "rest" = "kelp, dark"}`,
	} {
		require.Equal(t, want, papers.tomlOf(typed, ""), typed)
	}
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfN(rapid.StringMatching(`[a-c ,:"'\\\[{\n]{1,6}`), 1, 4).Draw(t, "names")
		want := listText(names)
		got := papers.tomlOf(papers.typedOf(want), want)
		read, ok := layouts.ReadValue(got)
		require.True(t, ok, got)
		wanted, _ := layouts.ReadValue(want)
		require.Equal(t, wanted, read, papers.typedOf(want))
	})
}

// Whatever is worth knowing stands on the page, once.
func TestEveryWarningIsShown(t *testing.T) {
	s := serve(t, demoText(t))
	design := strings.NewReplacer(`margin = "1/16"`, `margin = "0.001"`, `tool = "cutter"`, `tool = ["cutter", "trimmer", "knife"]`,
		"sheet = \"12 x 12 in\"", "sheet = \"12 x 12 in\"\nhave = 1", `layout = "diagonal halves"`, `layout = "honeycomb"`, "rows = 2\n", "", "slant = ['\\/', '/\\']", "").Replace(demoText(t))
	design += "\n[sheets]\nedge = 0\nspacing = 0\n"
	work, err := look(t.Context(), []byte(design))
	require.NoError(t, err)
	require.True(t, work.planned, work.problems)
	require.Greater(t, len(work.kit.Warnings), 3)
	_, text := s.get(t, place(encode([]byte(design))))
	for _, w := range work.kit.Warnings {
		require.Equal(t, 1, strings.Count(text, string(fractions(newState(work, view{}).told(w.Text)))), "%s (%s)", w.Text, w.Where)
	}
}
