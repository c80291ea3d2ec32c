package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/layouts/fronts"
)

// wordsOfTheFile finds what only makes sense to who writes the file.
const wordsOfTheFile = `[a-z] = ["0-9]|\[["'\[]|panelry [a-z]|left out|beside the design`

// What the page tells names no keys and values as the file writes them.
func TestPlainWords(t *testing.T) {
	s := serve(t, demoText(t))
	hand := textOf(t, s.set(t, demoText(t), "batch.plan", "by hand"))
	for _, c := range []struct{ design, key, typed, want string }{
		{demoText(t), "units", "", "Write the unit, or choose one at “Numbers without a unit are”."},
		{demoText(t), "papers.2.sheet", "", "write it, like 12 x 12 in or ISO A4"},
		{demoText(t), "sheets.labels", "waste", "choose “on sheet maps”"},
		{hand, "batch.by_hand", "kelp, tide", "write one line a card"},
		{hand, "batch.by_hand", "kelp, tide\nkelp\nkelp\nkelp\nkelp\nkelp\nkelp\nkelp", "in the order of the panels"},
		{hand, "batch.by_hand", "3", ""},
		{demoText(t), "front.papers", "[3]", ""},
	} {
		p := s.set(t, c.design, c.key, c.typed)
		require.True(t, p.Refused, c.key)
		require.Contains(t, p.Status, c.want)
		require.NotRegexp(t, wordsOfTheFile, p.Status)
	}
	grey := changed(t, "colour = \"#c8553d\"\n", "") + "[sheets]\nbleed = \"1/16\"\n"
	require.Contains(t, s.set(t, grey).Sections["batch"], "or 0 as the bleed of this paper")
	for _, l := range fronts.All() {
		for _, o := range l.Options {
			require.NotRegexp(t, wordsOfTheFile, option(o).Help, l.Name)
		}
	}
	for _, c := range controls {
		require.NotRegexp(t, wordsOfTheFile, c.Help, c.Key)
	}
}
