package layouts_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/layouts"
	"panelry/layouts/papers"
)

// Eight papers, eight halves: the example, and the moves that it
// gives, on a front. Hands are those of "\/" over "/\".
func TestSwapsOfEight(t *testing.T) {
	s := mustPlan(t, changedIn(eightPapers("balanced"), "cards = 8", "cards = 10")).Swaps()
	require.Equal(t, "8 papers for 10 cards of 8 panels leave 6 pieces of each, 48 in all; 8 or 16 cards leave none", s.Even.String())
	require.Equal(t, strings.Fields("ash bay fir hay ivy oak rye yew"), s.Stack)
	require.Equal(t, []layouts.SwapRound{{[]layouts.SwapPile{
		{"A1a", `\`, 0}, {"A1b", `\`, 1}, {"B1a", `/`, 7}, {"B1b", `/`, 2},
		{"A2a", `/`, 6}, {"A2b", `/`, 3}, {"B2a", `\`, 5}, {"B2b", `\`, 4},
	}}}, s.Rounds)
	require.Equal(t, strings.Fields("ash bay yew fir rye hay oak ivy"), s.Cards[0].Papers)
}

// Moving the piles by hand gives each card what the swap table says, panel by
// panel; every pile holds pieces of one kind of each paper, so hands are right.
func TestPilesAreTheTable(t *testing.T) {
	for _, plan := range []string{"in turn", "each once", "balanced", "no paper beside itself"} {
		t.Run(plan, func(t *testing.T) {
			kit := mustPlan(t, eightPapers(plan))
			s := kit.Swaps()
			require.Len(t, s.Rounds, 1)
			for place, pile := range s.Rounds[0].Piles {
				require.Equal(t, kit.Card.Panels[place].Hand, pile.Hand)
				moved := slices.Concat(s.Stack[pile.Move:], s.Stack[:pile.Move])
				for card, paper := range moved {
					require.Equal(t, paper, s.Cards[card].Papers[place])
				}
			}
		})
	}
}

// The table against the sheets: each piece that lies on a sheet of a paper is
// a place of that paper in the table, and nothing is left out. Odd halves are
// counted again, kind by kind.
func TestSwapsAreTheSheets(t *testing.T) {
	plans := []string{"same", "in turn", "each once", "balanced", "no paper beside itself", "whole blocks"}
	rapid.Check(t, func(t *rapid.T) {
		text := eightPapers(rapid.SampledFrom(plans).Draw(t, "plan"))
		pattern := rapid.SampledFrom([]string{"plain", "two-way", "one-way"}).Draw(t, "pattern")
		text = changedIn(text, "cards = 8", fmt.Sprintf("cards = %d\nspares = %d", rapid.IntRange(1, 20).Draw(t, "cards"), rapid.IntRange(0, 2).Draw(t, "spares")),
			`name = "fir"`, "name = \"fir\"\npattern = \""+pattern+"\"")
		kit := mustPlan(t, text)
		s := kit.Swaps()
		wanted := map[string]int{}
		for _, card := range s.Cards {
			for i, p := range kit.Card.Panels {
				wanted[fmt.Sprint(card.Card, p.Name, card.Papers[i])]++
			}
		}
		pieces := map[string]int{}
		upper := map[string]int{} // a pieces less b pieces, by paper and hand
		for _, sheet := range kit.Sheets {
			for _, p := range sheet.Pieces {
				if p.Panel == "base" {
					continue
				}
				wanted[fmt.Sprint(p.Card, p.Panel, sheet.Paper.Name)]--
				pieces[sheet.Paper.Name]++
				hand := kit.Card.Panels[slices.IndexFunc(kit.Card.Panels, func(q layouts.Panel) bool { return q.Name == p.Panel })].Hand
				step := 1
				if strings.HasSuffix(p.Panel, "b") {
					step = -1
				}
				if sheet.Paper.Pattern != papers.OneWay {
					step = 1
				}
				upper[sheet.Paper.Name+hand] += step
			}
		}
		for key, n := range wanted {
			require.Zero(t, n, key)
		}
		require.Len(t, s.Papers, len(pieces))
		for _, p := range s.Papers {
			require.Equal(t, pieces[p.Paper], p.Pieces)
			require.Equal(t, pieces[p.Paper], p.Halves)
			odd := 0
			for _, hand := range []string{"/", `\`} {
				n := upper[p.Paper+hand]
				if kit.Design.Paper(p.Paper).Pattern != papers.OneWay {
					n %= 2
				}
				odd += max(n, -n)
			}
			require.Equal(t, odd, p.Odd, p.Paper)
		}
	})
}

func TestSwapsWithoutTurns(t *testing.T) {
	for name, text := range map[string]string{"same": sample, "by hand": withBatch(twoByHand), "by panel": changed(`papers = ["moss", "clay"]`, `papers = {A1a = "moss", rest = "clay"}`, "cards = 2", "cards = 2\nplan = \"in turn\"")} {
		s := mustPlan(t, text).Swaps()
		require.Nil(t, s.Even, name)
		require.Empty(t, s.Rounds, name)
		require.Len(t, s.Cards, 2, name)
	}
	// An odd number of papers takes two rounds.
	three := mustPlan(t, changedIn(strips, `["moss", "clay"]`, `["moss", "clay", "oat"]`, "cards = 2", "cards = 6\nplan = \"balanced\"")).Swaps()
	require.Len(t, three.Rounds, 2)
}

// A card of 4 1/4 x 11 in of 80 lb cover weighs half of what a letter sheet does:
// 6.52 g (trade-facts section 3); and panels by hand: strips of 20, 36 and 20
// mm by 120 mm of 100 gsm are 0.912 g, on a base of 200 x 140 mm of 200 gsm, 5.6 g.
func TestCardMass(t *testing.T) {
	letter := changed(`size = "4 x 6 in"`, `size = "US A2"`, `base = "flat"`, `base = "top fold"`, "name = \"oat\"", "name = \"oat\"\nweight = \"80 lb cover\"")
	grams, unknown := mustPlan(t, letter).CardMass(1)
	require.InDelta(t, 6.52, grams, 0.005)
	require.Equal(t, []string{"moss", "clay"}, unknown)
	design := changedIn(strips, "name = \"oat\"", "name = \"oat\"\ngsm = 200",
		"name = \"moss\"", "name = \"moss\"\ngsm = 100", "name = \"clay\"", "name = \"clay\"\ngsm = 100")
	grams, unknown = mustPlan(t, design).CardMass(2)
	require.InDelta(t, 5.6+0.912, grams, 1e-9)
	require.Empty(t, unknown)
}
