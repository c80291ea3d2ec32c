package export_test

import (
	"context"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export"
	"panelry/layouts"
)

const kitsDesign = `title = "Reeds #1"
units = "mm"
[card]
size = "100 x 60 mm"
paper = "base"
[front]
layout = "grid"
columns = 2
rows = 2
margin = 4
gap = 2
papers = ["ash*", "bay", "fir"]
[batch]
cards = 3
spares = "10 %"
plan = "each once"
[[papers]]
name = "base"
sheet = "ISO A4"
colour = "#ffffff"
gsm = 200
[[papers]]
name = "ash*"
sheet = "ISO A4"
colour = "#cc0000"
gsm = 120
[[papers]]
name = "bay"
sheet = "ISO A4"
colour = "#000000"
gsm = 120
[[papers]]
name = "fir"
sheet = "ISO A4"
colour = "#eeeeee"
gsm = 120
[[papers]]
name = "hay"
sheet = "ISO A4"
colour = "#111111"
gsm = 120
`

// Four panels in three papers, moved on by one on each card. Dark hay is as
// clear beside the others as bay is.
func TestKits(t *testing.T) {
	d, err := layouts.Read(strings.NewReader(kitsDesign), nil)
	require.NoError(t, err)
	kit, err := layouts.Plan(context.Background(), d)
	require.NoError(t, err)
	files, err := export.Files(kit, "kits")
	require.NoError(t, err)
	require.Len(t, files, 1)
	text := string(files[0].Data)
	for _, want := range []string{
		"# Reeds #1: kits\n\n3 kits, one a card. Each holds 1 base, 4 panels and 1 envelope.\n1 set of panels to spare, without a base.\n",
		"Papers cut alike: 3 papers for 4 cards of 4 panels leave",
		"- bay: hay can stand in\n",
		"\n## Kit 01 of 3: 5 pieces\n\n- [ ] base: base\n- [ ] ash\\*: A1, B2\n- [ ] bay: B1\n- [ ] fir: A2\n",
		"\n## Kit 02 of 3: 5 pieces\n\n- [ ] base: base\n- [ ] ash\\*: A2\n- [ ] bay: A1, B2\n- [ ] fir: B1\n",
		"\n## Spare set S1: 4 pieces\n\n- [ ] ash\\*: A1, B2\n",
	} {
		require.Contains(t, text, want)
	}
	require.Len(t, regexp.MustCompile(`(?m)^## Kit `).FindAllString(text, -1), 3)
}
