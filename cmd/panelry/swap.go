package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"panelry/layouts"
	"panelry/layouts/papers"
)

const swapHelp = `Swap says how the pieces of a batch find their cards: whether papers cut alike
come out even, and with how many cards they would; how to swap without a
table, by moving piles; and the swap table, card by card.

Papers are cut alike when they lie in one stack, face up, in the order given.
Each panel's pieces then make a pile, the stack's first paper on top, all of
one shape and one slant: a / half never stands for a \ half. From the top of
each pile move so many pieces to the bottom as the list says. After that each
card takes the top piece of every pile, and the plan comes out by itself.

The plan is the design's: plan under [batch]. --papers, --panels and --cards
do the sums without a design, for the plan "each once" or --plan balanced.

` + aboutDesign

type swapFlags struct {
	input
	papers, panels, cards int
	plan, by              string
	asJSON                bool
}

// sumPlans are the plans that need no design.
var sumPlans = []string{"each once", "balanced"}

func newSwap() *cobra.Command {
	var f swapFlags
	cmd := &cobra.Command{
		Use:   "swap " + designArgument,
		Short: "Which piece goes to which card, and whether papers come out even",
		Long:  swapHelp,
		Example: `  panelry swap                       the demo
  panelry swap card.toml
  panelry swap card.toml --by paper  where each paper's pieces go
  panelry swap --papers 8 --panels 8 --cards 10 --plan balanced`,
		Args: atMostOne("design file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if f.by != "card" && f.by != "paper" {
				return &usageError{fmt.Sprintf("--by %s: write card or paper", f.by), ""}
			}
			var swaps layouts.Swaps
			var out swapOutput
			if f.sums(cmd) {
				even, piles, err := f.withoutDesign(args)
				if err != nil {
					return err
				}
				swaps = layouts.Swaps{Plan: papers.PlanNamed(f.plan), Even: &even, Rounds: piles}
				for i := range f.papers {
					swaps.Stack = append(swaps.Stack, fmt.Sprintf("paper %d", i+1))
				}
				out = swapJSON(swaps, nil)
			} else {
				kit, err := f.input.plan(cmd, args)
				if err != nil {
					return err
				}
				swaps = kit.Swaps()
				out = swapJSON(swaps, &kit)
			}
			if f.asJSON {
				return printIndented(cmd.OutOrStdout(), out)
			}
			return printSwaps(cmd.OutOrStdout(), swaps, out, f.by == "paper")
		},
	}
	f.flags(cmd)
	cmd.Flags().IntVar(&f.papers, "papers", 0, "how many papers, for sums without a design")
	cmd.Flags().IntVar(&f.panels, "panels", 0, "how many panels a card has")
	cmd.Flags().IntVar(&f.cards, "cards", 0, "how many cards (default as many as papers)")
	cmd.Flags().StringVar(&f.plan, "plan", sumPlans[0], `"each once" or "balanced", for sums without a design`)
	cmd.RegisterFlagCompletionFunc("plan", cobra.FixedCompletions(sumPlans, cobra.ShellCompDirectiveNoFileComp))
	cmd.Flags().StringVar(&f.by, "by", "card", "card or paper: what the swap table has a line for")
	cmd.RegisterFlagCompletionFunc("by", cobra.FixedCompletions([]string{"card", "paper"}, cobra.ShellCompDirectiveNoFileComp))
	cmd.Flags().BoolVar(&f.asJSON, "json", false, "print for programs")
	return cmd
}

// sums reports whether the sums are wanted without a design.
func (f *swapFlags) sums(cmd *cobra.Command) bool {
	for _, name := range []string{"papers", "panels", "cards", "plan"} {
		if cmd.Flags().Changed(name) {
			return true
		}
	}
	return false
}

func (f *swapFlags) withoutDesign(args []string) (papers.Evenness, []layouts.SwapRound, error) {
	if len(args) > 0 {
		return papers.Evenness{}, nil, &usageError{"a design says papers, panels, cards and plan itself", "leave out the design, or these flags"}
	}
	if f.cards == 0 {
		f.cards = f.papers
	}
	for _, n := range []struct {
		flag        string
		value, most int
	}{{"papers", f.papers, layouts.MostPapers}, {"panels", f.panels, layouts.MostPieces}, {"cards", f.cards, layouts.MostCards}} {
		if n.value < 1 || n.value > n.most {
			return papers.Evenness{}, nil, &usageError{fmt.Sprintf("--%s %d: write a whole number from 1 to %d", n.flag, n.value, n.most), "panelry swap --help shows examples"}
		}
	}
	moves := [][]int{papers.CyclicMoves(f.papers, f.panels)}
	switch f.plan {
	case "balanced":
		moves = papers.BalancedMoves(f.papers, f.panels)
	case sumPlans[0]:
	default:
		return papers.Evenness{}, nil, &usageError{fmt.Sprintf("--plan %s: write %q or %q", f.plan, sumPlans[0], sumPlans[1]), ""}
	}
	var rounds []layouts.SwapRound
	for _, row := range moves {
		var round layouts.SwapRound
		for place, move := range row {
			round.Piles = append(round.Piles, layouts.SwapPile{Panel: fmt.Sprint(place + 1), Move: move})
		}
		rounds = append(rounds, round)
	}
	return papers.Even(papers.Sum{Papers: f.papers, Places: f.panels, Cards: f.cards}), rounds, nil
}

func printSwaps(w io.Writer, s layouts.Swaps, out swapOutput, byPaper bool) error {
	fmt.Fprintf(w, "plan %q: %s\n", s.Plan.Name, s.Plan.Summary)
	if s.Even != nil {
		fmt.Fprintf(w, "%s\n", s.Even)
	}
	table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	if len(s.Papers) > 0 {
		fmt.Fprintln(table, "\npaper\tpieces\tof them halves\thalves left over")
		for _, p := range s.Papers {
			fmt.Fprintf(table, "%s\t%d\t%d\t%d\n", p.Paper, p.Pieces, p.Halves, p.Odd)
		}
	}
	for _, r := range out.Rounds {
		fmt.Fprintf(table, "\npile moves %s; the stack from the top: %s\n", r.For, strings.Join(s.Stack, ", "))
		fmt.Fprintln(table, "pile\tslant\ttop to bottom")
		for _, p := range r.Piles {
			slant := p.Hand
			if slant == "" {
				slant = "-"
			}
			fmt.Fprintf(table, "%s\t%s\t%d\n", p.Panel, slant, p.Move)
		}
	}
	switch {
	case len(out.Cards) == 0:
	case byPaper:
		printByPaper(table, out)
	default:
		printByCard(table, out)
	}
	return table.Flush()
}

// printHead starts a table with a column a panel.
func printHead(w io.Writer, first string, panels []swapPanelJSON) {
	fmt.Fprintf(w, "\n%s", first)
	for _, p := range panels {
		fmt.Fprintf(w, "\t%s", p.Panel)
	}
	fmt.Fprintln(w)
}

// printByCard has a line a card: which paper goes to which panel.
func printByCard(w io.Writer, out swapOutput) {
	printHead(w, "card", out.Cards[0].Panels)
	for _, c := range out.Cards {
		fmt.Fprint(w, c.Card)
		for _, p := range c.Panels {
			fmt.Fprintf(w, "\t%s", p.Paper)
		}
		fmt.Fprintln(w)
	}
}

// printByPaper has a line a paper: which cards the pieces of each panel go to.
func printByPaper(w io.Writer, out swapOutput) {
	cards := map[swapPanelJSON][]string{}
	for _, c := range out.Cards {
		for _, p := range c.Panels {
			cards[p] = append(cards[p], c.Card)
		}
	}
	printHead(w, "paper, to cards", out.Cards[0].Panels)
	for _, paper := range out.Papers {
		fmt.Fprint(w, paper.Paper)
		for _, p := range out.Cards[0].Panels {
			list := "-"
			if to := cards[swapPanelJSON{p.Panel, paper.Paper}]; len(to) > 0 {
				list = strings.Join(to, " ")
			}
			fmt.Fprintf(w, "\t%s", list)
		}
		fmt.Fprintln(w)
	}
}

type swapEvenJSON struct {
	Text      string `json:"text"`
	Papers    int    `json:"papers"`
	Panels    int    `json:"panels"`
	Cards     int    `json:"cards"`
	Sets      int    `json:"sets"`
	LeftLeast int    `json:"left_of_each_least"`
	LeftMost  int    `json:"left_of_each_most"`
	Left      int    `json:"left"`
	Below     int    `json:"even_below"`
	Above     int    `json:"even_above"`
	Repeats   int    `json:"repeats"`
}

type swapPileJSON struct {
	Panel string `json:"panel"`
	Hand  string `json:"hand,omitempty"`
	Move  int    `json:"top_to_bottom"`
}

type swapRoundJSON struct {
	For   string         `json:"for"`
	Piles []swapPileJSON `json:"piles"`
}

type swapPaperJSON struct {
	Paper  string `json:"paper"`
	Pieces int    `json:"pieces"`
	Halves int    `json:"halves"`
	Odd    int    `json:"halves_left_over"`
}

type swapPanelJSON struct {
	Panel string `json:"panel"`
	Paper string `json:"paper"`
}

type swapCardJSON struct {
	Card   string          `json:"card"`
	Panels []swapPanelJSON `json:"panels"`
}

type swapOutput struct {
	Plan   string          `json:"plan"`
	Even   *swapEvenJSON   `json:"even"` // null where papers do not take turns
	Stack  []string        `json:"stack"`
	Rounds []swapRoundJSON `json:"rounds"`
	Papers []swapPaperJSON `json:"papers"`
	Cards  []swapCardJSON  `json:"cards"`
}

// swapJSON gathers what is told of swaps; without a kit there are no cards.
func swapJSON(s layouts.Swaps, kit *layouts.Kit) swapOutput {
	out := swapOutput{Plan: s.Plan.Name, Stack: append([]string{}, s.Stack...), Rounds: []swapRoundJSON{}, Papers: []swapPaperJSON{}, Cards: []swapCardJSON{}}
	if e := s.Even; e != nil {
		out.Even = &swapEvenJSON{e.String(), e.Papers, e.Places, e.Cards, e.Sets, e.LeftLeast, e.LeftMost, e.Left, e.Below, e.Above, e.Repeats}
	}
	for i, r := range s.Rounds {
		round := swapRoundJSON{For: "for all cards"}
		if n := len(s.Stack); len(s.Rounds) > 1 {
			round.For = fmt.Sprintf("for cards %d to %d and every %d cards on", i*n+1, (i+1)*n, n*len(s.Rounds))
		}
		for _, p := range r.Piles {
			round.Piles = append(round.Piles, swapPileJSON(p))
		}
		out.Rounds = append(out.Rounds, round)
	}
	for _, p := range s.Papers {
		out.Papers = append(out.Papers, swapPaperJSON(p))
	}
	for _, c := range s.Cards {
		card := swapCardJSON{Card: kit.CardLabel(c.Card)}
		for i, p := range kit.Card.Panels {
			card.Panels = append(card.Panels, swapPanelJSON{p.Name, c.Papers[i]})
		}
		out.Cards = append(out.Cards, card)
	}
	return out
}
