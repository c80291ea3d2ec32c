package layouts_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/fronts"
	"panelry/layouts/papers"
)

// withBatch puts lines below `cards = 2`, from line 15 on.
func withBatch(lines string) string { return changed("cards = 2\n", "cards = 2\n"+lines+"\n") }

// The sample's eight panels on two cards, by hand.
const twoByHand = `by_hand = [
  ["moss", "clay", "moss", "clay", "moss", "clay", "moss", "clay"],
  ["clay", "clay", "clay", "clay", "moss", "moss", "moss", "moss"],
]`

// dealtText writes the papers of a card by their first letters.
func dealtText(kit layouts.Kit, card int) string {
	text := ""
	for _, p := range kit.Card.Panels {
		text += kit.PaperOn(p, card).Name[:1]
	}
	return text
}

func TestByHand(t *testing.T) {
	for name, text := range map[string]string{
		"lists":  withBatch(twoByHand),
		"named":  withBatch("plan = \"by hand\"\n" + twoByHand),
		"tables": changed("[[papers]]\nname = \"oat\"", "[[batch.by_hand]]\nA1b = \"clay\"\nB1b = \"clay\"\nA2b = \"clay\"\nB2b = \"clay\"\nrest = \"moss\"\n[[batch.by_hand]]\nA1a = \"clay\"\nA1b = \"clay\"\nB1a = \"clay\"\nB1b = \"clay\"\nrest = \"moss\"\n[[papers]]\nname = \"oat\""),
	} {
		t.Run(name, func(t *testing.T) {
			kit := mustPlan(t, text)
			require.Equal(t, "mcmcmcmc", dealtText(kit, 1))
			require.Equal(t, "ccccmmmm", dealtText(kit, 2))
		})
	}
	spare := mustPlan(t, withBatch("spares = 3\n"+twoByHand))
	require.Equal(t, "mcmcmcmc", dealtText(spare, 3), "spare sets take the cards' papers over again")
	require.Equal(t, "ccccmmmm", dealtText(spare, 4))
}

func TestWrongByHand(t *testing.T) {
	one := func(name, text, want string) problemTest { return problemTest{name, text, []string{want}} }
	row := `["moss", "clay", "moss", "clay", "moss", "clay", "moss", "clay"]`
	requireProblems(t, []problemTest{
		one("unknown paper", withBatch(strings.Replace(twoByHand, `"moss", "moss", "moss", "moss"],`, `"mos", "moss", "moss", "moss"],`, 1)),
			`17:36: batch.by_hand, card 2, paper 5: no paper is called "mos"; did you mean "moss"?`),
		one("one paper short", withBatch(strings.Replace(twoByHand, `["clay", "clay", `, `["clay", `, 1)),
			`17:4: batch.by_hand, card 2: 7 papers for 8 panels; write one for each, in the order of panelry show`),
		one("a card short", withBatch("by_hand = ["+row+"]"), `15:1: batch.by_hand: 1 of 2 cards have papers; write one list a card`),
		one("a card too many", withBatch("by_hand = ["+row+","+row+","+row+"]"), `15:1: batch.by_hand: 3 of 2 cards have papers; write one list a card`),
		one("no cards", withBatch(`plan = "by hand"`), `13:2: batch.by_hand: missing; write the papers of each card in a list of its own`),
		one("another plan", withBatch("plan = \"same\"\n"+twoByHand), `16:1: batch.by_hand: these cards have no effect, as the plan is "same"; write plan = "by hand"`),
		one("a text", withBatch(`by_hand = "moss"`), `15:1: batch.by_hand: write a list a card, like [["kelp", "tide"], ["tide", "kelp"]]`),
		one("a list of texts", withBatch(`by_hand = ["moss"]`), `15:1: batch.by_hand, card 1: write a list of papers, or a table by panel`),
		one("no such panel", withBatch(`by_hand = [{A1a = "moss", rest = "clay"}, {A9a = "moss", rest = "clay"}]`),
			`15:44: batch.by_hand, card 2, A9a: there is no such panel; the panels are A1a to B2b`),
		one("panels left out", withBatch(`by_hand = [{A1a = "moss"}, {rest = "clay"}]`),
			`15:1: batch.by_hand, card 1: panel A1b has no paper; name one, or write rest = "..." for all others`),
	})
}

func TestWrongBatchAndShop(t *testing.T) {
	one := func(name, text, want string) problemTest { return problemTest{name, text, []string{want}} }
	shop := func(line string) string { return sample + "[shop]\n" + line + "\n" }
	requireProblems(t, []problemTest{
		one("twice in a plan", changed(`papers = ["moss", "clay"]`, `papers = ["moss", "clay", "moss"]`, "cards = 2", "cards = 2\nplan = \"balanced\""),
			`12:1: front.papers: paper "moss" stands twice; the plan "balanced" takes each paper once`),
		one("beside itself", changed(`papers = ["moss", "clay"]`, `papers = ["moss"]`, "cards = 2", "cards = 2\nplan = \"no paper beside itself\""),
			`15:1: batch.plan: with 1 paper one always lies beside itself (all ways were tried); 2 papers do`),
		one("beside itself by panel", changed(`papers = ["moss", "clay"]`, `papers = {A1a = "oat", A1b = "oat", B1a = "oat", B1b = "moss", A2a = "moss", A2b = "oat", B2a = "oat", B2b = "moss"}`, "cards = 2", "cards = 2\nplan = \"no paper beside itself\""),
			`15:1: batch.plan: panels A1a and A1b lie side by side, and front.papers gives both "oat"`),
		one("more than a paper gives", changed("cards = 2", "cards = 3", "name = \"clay\"", "name = \"clay\"\nmost_panels = 11"),
			`25:1: papers 3 (clay): most_panels: 12 of its panels are wanted, and it gives 11; make fewer cards, or try plan = "whole blocks", which keeps to it`),
		one("more than all papers give", changed("cards = 2", "cards = 3\nplan = \"whole blocks\"", "name = \"clay\"", "name = \"clay\"\nmost_panels = 11", "name = \"moss\"", "name = \"moss\"\nmost_panels = 12"),
			`15:1: batch.plan: 3 cards of 8 panels take 24 pieces, and the papers give 23: enough for 2 cards`),
		one("too many spares", changed("cards = 2", "cards = 2000\nspares = \"10 %\""), `15:1: batch.spares: 10 % of 2000 cards are 200 sets; at most 100`),
		one("spares in words", changed("cards = 2", "cards = 2\nspares = \"some\""), `15:1: batch.spares: "some": write a whole number from 0 to 100`),
		one("plans", changed("cards = 2", "cards = 2\nplan = [\"same\", \"in turn\"]"), `15:1: batch.plan: that is not known here; write "same", "in turn", "each once", "balanced", "no paper beside itself", "whole blocks" or "by hand"`),
		one("currencies", withPaper("price = \"1 EUR\"\n[shop]\nroll_price = \"2 USD\""), `28:1: shop.roll_price: prices in EUR and in USD cannot be summed up; write all in one currency`),
		one("shop key", shop("extras = 1"), `27:1: shop.extras: no such key; did you mean "extra"?`),
		one("extra", shop("extra = 10"), `27:1: shop.extra: write a share of the sheets, like "10 %", up to "100 %"`),
		one("envelope", shop(`envelope = "dear"`), `27:1: shop.envelope: "dear" is not a price; write it like 0.85 or "0.85 EUR"`),
		one("adhesive", shop(`adhesive = "glue"`), `27:1: shop.adhesive: "glue" is not known here; write "tape", "foam pads" or "none"`),
		one("inset", shop(`inset = -1`), `27:1: shop.inset: -1 in is less than nothing`),
		one("roll", shop(`roll = 0`), `27:1: shop.roll: a roll must be longer than nothing and at most 100000 mm`),
		one("pads", shop(`pad_every = "1 mm"`), `27:1: shop.pad_every: 0.0394 in is too close for foam pads; write 5 mm or more`),
		one("pack", shop(`pack = 0`), `27:1: shop.pack: 0: write a whole number from 1 to 100000`),
	})
}

// A share of the cards is rounded up: a tenth of 14 is 1.4.
func TestSparesAsAShare(t *testing.T) {
	for text, want := range map[string]int{`"10 %"`: 2, `"0%"`: 0, `"100 %"`: 14, "3": 3} {
		require.Equal(t, want, mustRead(t, changed("cards = 2", "cards = 14\nspares = "+text)).Batch.Spares, text)
	}
}

func TestShopSettings(t *testing.T) {
	d := mustRead(t, sample)
	require.Equal(t, layouts.ShopSettings{Adhesive: layouts.Tape, Inset: geometry.Inch / 8, PadEvery: 2 * geometry.Inch}, d.Shop)
	d = mustRead(t, sample+"[shop]\nextra = \"10 %\"\nenvelope = \"0,15 EUR\"\nadhesive = \"foam pads\"\ninset = \"1/16\"\nroll = \"800 cm\"\nroll_price = 2.5\npad_every = \"25 mm\"\npack = 100\npack_price = \"1.80 EUR\"\n")
	require.Equal(t, 10, d.Shop.Extra)
	require.Equal(t, "0.15 EUR", d.Shop.Envelope.String())
	require.Equal(t, "2.50", d.Shop.RollPrice.String())
	require.Equal(t, 8*geometry.Metre, d.Shop.Roll)
	require.Equal(t, "1.80 EUR", d.Shop.PackPrice.String())
}

// Every plan as a design has it: which panels lie beside each other, and which
// halves come from one block, are those of the front. Eight cards of eight
// halves in eight papers are Latin squares; ten by whole blocks leave no half.
func TestPlansOnAFront(t *testing.T) {
	for _, plan := range []string{"each once", "balanced", "no paper beside itself", "whole blocks"} {
		t.Run(plan, func(t *testing.T) {
			kit := mustPlan(t, eightPapers(plan))
			for card := 1; card <= 8; card++ {
				require.Len(t, slices.Compact(slices.Sorted(strings.SplitSeq(dealtText(kit, card), ""))), 8)
			}
		})
	}
	ten := mustPlan(t, changedIn(eightPapers("whole blocks"), "cards = 8", "cards = 10"))
	for _, k := range ten.Kinds {
		require.True(t, k.Paper == "oat" || k.Count%2 == 0, "%d of %s", k.Count, k.ID)
	}
}

// Two papers on a front of four cells and eight halves: each half lies beside
// the other half of its cell and one or two halves of other cells.
func TestApartOnAFront(t *testing.T) {
	kit := mustPlan(t, changed("cards = 2", "cards = 2\nplan = \"no paper beside itself\""))
	at := map[string]byte{}
	for i, p := range kit.Card.Panels {
		at[p.Name] = dealtText(kit, 1)[i]
	}
	for _, pair := range []string{"A1a A1b", "B1a B1b", "A2a A2b", "B2a B2b"} {
		a, b, _ := strings.Cut(pair, " ")
		require.NotEqual(t, at[a], at[b], pair)
	}
	require.Equal(t, 4, strings.Count(dealtText(kit, 1), "m"))
	require.NotEqual(t, dealtText(kit, 1), dealtText(kit, 2))
}

// BenchmarkPlanLarge plans the batch of the speed goal: 500 cards of 32 panels
// in 24 papers, with each plan.
func BenchmarkPlanLarge(b *testing.B) {
	for _, plan := range []string{"same", "in turn", "each once", "balanced", "no paper beside itself", "whole blocks"} {
		b.Run(plan, func(b *testing.B) { benchmarkPlan(b, largeBatch(plan)) })
	}
}

// largeBatch is 500 cards of 4 x 4 cells in halves, 24 papers.
func largeBatch(plan string) string {
	var names []string
	text := ""
	for i := range 24 {
		names = append(names, fmt.Sprintf("p%02d", i))
		text += fmt.Sprintf("[[papers]]\nname = %q\nsheet = \"12 x 12 in\"\n", names[i])
	}
	list := `["` + strings.Join(names, `", "`) + `"]`
	return changedIn(halves, `["moss"]`, list, "gap = 4", "gap = 2\ncolumns = 4\nrows = 4", "cards = 1", "cards = 500\nplan = \""+plan+"\"", `name = "moss"`, `name = "reed"`) + text
}

// Every front with every plan, in four papers: flat maps take no more (K.
// Appel and W. Haken 1976), and nothing lies beside itself where it must not.
func TestPlansOnEveryFront(t *testing.T) {
	for _, l := range fronts.All() {
		if l.Name == "own shapes" {
			continue // wants a file
		}
		t.Run(l.Name, func(t *testing.T) {
			for _, plan := range papers.Plans() {
				if plan.ByHand {
					continue
				}
				text := changedIn(halves, `"diagonal halves"`, fmt.Sprintf("%q", l.Name), `["moss"]`, `["moss", "ash", "bay", "fir"]`, "cards = 1", fmt.Sprintf("cards = 5\nplan = %q", plan.Name))
				for _, name := range []string{"ash", "bay", "fir"} {
					text += fmt.Sprintf("[[papers]]\nname = %q\nsheet = \"ISO A4\"\n", name)
				}
				kit := mustPlan(t, text)
				for card := 1; plan.Beside && card <= 5; card++ {
					for _, pair := range kit.Beside() {
						require.NotEqual(t, kit.PaperOn(kit.Card.Panels[pair[0]], card).Name, kit.PaperOn(kit.Card.Panels[pair[1]], card).Name)
					}
				}
				require.Len(t, kit.Swaps().Cards, 5)
			}
		})
	}
}
