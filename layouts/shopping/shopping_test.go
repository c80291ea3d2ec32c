package shopping_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/shopping"
)

// grid is ten cards with one row of two panels of 2 x 2 5/8 in each, on
// flat bases; each paper's sheet holds four panels or two bases.
const grid = `units = "in"
tool = "trimmer"
[card]
size = "4 1/4 x 2 3/4"
paper = "base"
[front]
layout = "grid"
columns = 2
rows = 1
margin = "1/16"
gap = "1/8"
papers = ["rush", "reed"]
[batch]
cards = 10
[[papers]]
name = "base"
sheet = "4 1/4 x 5 1/2"
gsm = 200
price = "0.40 EUR"
colour = "#ffffff"
[[papers]]
name = "rush"
sheet = "4 x 5 1/4"
gsm = 100
price = 0.85
have = 2
colour = "#cccccc"
[[papers]]
name = "reed"
sheet = "4 x 5 1/4"
gsm = 100
price = 1
colour = "#222222"
[[papers]]
name = "sedge"
sheet = "4 x 5 1/4"
gsm = 110
colour = "#333333"
`

func listOf(t *testing.T, extra string) shopping.List {
	t.Helper()
	d, err := layouts.Read(strings.NewReader(grid+extra), nil)
	require.NoError(t, err)
	kit, err := layouts.Plan(context.Background(), d)
	require.NoError(t, err)
	l, err := shopping.For(kit)
	require.NoError(t, err)
	return l
}

// Hand sums: ten bases on five sheets, ten panels of each paper on three. At
// 10 % to spare that is one sheet more of each. To buy: 6 x 0.40, rush
// (3+1-2) x 0.85, reed 4 x 1.00, ten envelopes at 0.15; used: 5 x 0.40,
// 3 x 0.85, 3 x 1.00, the same envelopes and tape.
func TestList(t *testing.T) {
	l := listOf(t, "[shop]\nextra = \"10 %\"\nenvelope = 0.15\ninset = \"1/8\"\nroll = \"100\"\nroll_price = \"2.50 EUR\"\n")
	var buy []int
	for _, s := range l.Papers {
		require.Equal(t, 1, s.Extra)
		buy = append(buy, s.Buy)
	}
	require.Equal(t, []int{6, 2, 4}, buy)
	require.Equal(t, 10, l.Envelopes)
	// A panel of 2 x 2 5/8 in with an inset of 1/8 all round is 1 3/4 x 2 3/8 in:
	// 8 1/4 in round, 16 1/2 in a card, 165 in the batch: two rolls of 100 in.
	require.Equal(t, 33*geometry.Inch/2, l.Fixing.Tape)
	require.Equal(t, 2, l.Fixing.Rolls)
	require.Equal(t, "14.05 EUR", l.Batch.String()) // 2.00 + 2.55 + 3.00 + 1.50 + 5.00
	require.Equal(t, "1.41 EUR", l.Card.String())   // 1.405
	require.Equal(t, "14.60 EUR", l.ToPay.String()) // 2.40 + 1.70 + 4.00 + 1.50 + 5.00
	require.Empty(t, l.Unpriced)
}

// A base of 107.95 x 69.85 mm of 200 gsm is 1.508 g, two panels of 50.8 x
// 66.675 mm of 100 gsm are 0.677 g.
func TestWeight(t *testing.T) {
	w := listOf(t, "").Weight
	require.InDelta(t, 0.10795*0.06985*200+2*0.0508*0.066675*100, w.Lightest, 1e-9)
	require.InDelta(t, w.Lightest, w.Heaviest, 1e-12)
	require.InDelta(t, 10*w.Lightest, w.Batch, 1e-9)
	require.Empty(t, w.Unknown)
}

// 0.13 and 0.143 mm thick, the three are in one band. Dark sedge is as clear on
// pale rush and on white as reed is; beside reed it would not show, so it does
// not stand in for rush.
func TestStandIns(t *testing.T) {
	l := listOf(t, "")
	require.Empty(t, l.Papers[0].StandIns)
	require.Empty(t, l.Papers[1].StandIns)
	require.Equal(t, []string{"sedge"}, l.Papers[2].StandIns)
	require.Equal(t, []string{"tape"}, l.Unpriced[len(l.Unpriced)-1:])
}

// One pad at each of four corners, and one more on sides over 2 in: the
// panel's sides of 1 3/4 and 2 3/8 in after the inset take 1 and 2.
func TestFoamPads(t *testing.T) {
	f := listOf(t, "[shop]\nadhesive = \"foam pads\"\npack = 100\npack_price = 1.80\n").Fixing
	require.Equal(t, 12, f.Pads)
	require.Equal(t, 2, f.Packs)
	require.Zero(t, f.Rolls)
	require.Zero(t, listOf(t, "[shop]\nadhesive = \"none\"\n").Fixing.Tape)
	small := listOf(t, "[shop]\ninset = 1\n").Fixing
	require.Equal(t, 2, small.Small, "2 in less two insets of 1 in is nothing")
	require.Zero(t, small.Tape)
}

// The inset of a half: trade-facts section 6, case 3. Legs 2 and 2 5/8 in with
// 1/16 in all round leave 1.81131, 2.37734 and 2.98876 in.
func TestTapeOnHalves(t *testing.T) {
	text := strings.NewReplacer(`layout = "grid"`, `layout = "diagonal halves"`, `gap = "1/8"`, "gap = 0", "columns = 2", "columns = 1",
		`"4 1/4 x 2 3/4"`, `"2 1/8 x 2 3/4"`, `sheet = "4 x 5 1/4"`, `sheet = "6 x 6"`, `sheet = "4 1/4 x 5 1/2"`, `sheet = "6 x 6"`).Replace(grid)
	d, err := layouts.Read(strings.NewReader(text+"[shop]\ninset = \"1/16\"\n"), nil)
	require.NoError(t, err)
	kit, err := layouts.Plan(context.Background(), d)
	require.NoError(t, err)
	l, err := shopping.For(kit)
	require.NoError(t, err)
	require.InDelta(t, 2*(1.81131+2.37734+2.98876), l.Fixing.Tape.In(geometry.Inches), 5e-5)
}
