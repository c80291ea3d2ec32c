package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/papers"
	"panelry/layouts/shopping"
)

const shopHelp = `Shop lists what a batch takes and what is to be bought for it: sheets of each
paper, less those at hand and with some to spare; envelopes; tape or foam pads;
what a card and the batch cost in your own prices and your own currency; and
what a finished card weighs.

Prices stand in the design: price for a sheet of each paper, and under [shop]
envelope, roll_price and pack_price. Panelry knows none. Tape runs along the
panels' sides, moved in by the inset; foam pads stand at each corner and no
farther apart than pad_every. What uses up part of a roll or pack counts as a
whole one. The weight is without what holds the card together.

` + aboutDesign

func newShop() *cobra.Command {
	var in input
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "shop " + designArgument,
		Short: "What to buy for a batch, what it costs, and what a card weighs",
		Long:  shopHelp,
		Example: `  panelry shop                       the demo
  panelry shop card.toml
  panelry shop card.toml --json`,
		Args: atMostOne("design file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			kit, err := in.plan(cmd, args)
			if err != nil {
				return err
			}
			list, err := shopping.For(kit)
			if err != nil {
				return err
			}
			if asJSON {
				return printIndented(cmd.OutOrStdout(), shopJSON(list))
			}
			return printShop(cmd.OutOrStdout(), list)
		},
	}
	in.flags(cmd)
	cmd.Flags().BoolVar(&asJSON, "json", false, "print for programs")
	return cmd
}

func printShop(w io.Writer, l shopping.List) error {
	d := l.Kit.Design
	fmt.Fprintf(w, "%s: %s\n\n", d.Title, counted(d.Batch.Cards, "card", "cards"))
	table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	fmt.Fprintln(table, "paper\tsheet\tneeded\tto spare\tat hand\tbuy\ta sheet\tin all\tcan stand in")
	for _, s := range l.Papers {
		hand, each, cost, stand := "-", "-", "-", "-"
		if s.Paper.Have != nil {
			hand = strconv.Itoa(*s.Paper.Have)
		}
		if s.Paper.Price != nil {
			each, cost = alike(*s.Paper.Price, l), alike(s.Cost, l)
		}
		if len(s.StandIns) > 0 {
			stand = strings.Join(s.StandIns, ", ")
		}
		fmt.Fprintf(table, "%s\t%s\t%d\t%d\t%s\t%d\t%s\t%s\t%s\n", s.Paper.Name, s.Paper.Sheet.Format(d.Units), s.Need, s.Extra, hand, s.Buy, each, cost, stand)
	}
	if err := table.Flush(); err != nil {
		return err
	}
	fmt.Fprintln(w)
	table = tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	fmt.Fprintf(table, "bases\t%d, from %s\n", d.Batch.Cards, d.Card.Paper)
	fmt.Fprintf(table, "envelopes\t%d, for cards of %s\n", l.Envelopes, d.Card.Size.Format(d.Units))
	printFixing(table, l.Fixing, d)
	printCost(table, l)
	printWeight(table, l)
	return table.Flush()
}

// alike writes a price as the sums are written: in their currency, with as
// many decimals.
func alike(p papers.Price, l shopping.List) string {
	p, err := p.Plus(l.Batch.Times(0))
	if err != nil {
		panic("panelry: the sums have a currency of their own")
	}
	return p.String()
}

func printFixing(w io.Writer, f shopping.Fixing, d layouts.Design) {
	cards := geometry.Length(d.Batch.Cards)
	switch f.Kind {
	case layouts.Tape:
		text := fmt.Sprintf("%s a card, %s for the batch, %s from the panels' sides", long(f.Tape, d.Units), long(f.Tape*cards, d.Units), d.Shop.Inset.Format(d.Units))
		if f.Rolls > 0 {
			text += ": " + counted(f.Rolls, "roll", "rolls")
		}
		fmt.Fprintf(w, "tape\t%s\n", text)
	case layouts.FoamPads:
		text := fmt.Sprintf("%d a card, %d for the batch", f.Pads, f.Pads*d.Batch.Cards)
		if f.Packs > 0 {
			text += ": " + counted(f.Packs, "pack", "packs")
		}
		fmt.Fprintf(w, "foam pads\t%s\n", text)
	}
	if f.Small > 0 {
		fmt.Fprintf(w, "\t%s on each card too small for that: a dab of glue\n", counted(f.Small, "panel", "panels"))
	}
}

// long writes a length of tape: feet go with inches, metres with millimetres.
func long(l geometry.Length, unit geometry.Unit) string {
	if unit == geometry.Inches {
		return strconv.FormatFloat(l.In(geometry.Inches)/12, 'f', 1, 64) + " ft"
	}
	return strconv.FormatFloat(l.In(geometry.Millimetres)/1000, 'f', 2, 64) + " m"
}

func printCost(w io.Writer, l shopping.List) {
	if l.Batch.Zero() {
		fmt.Fprintf(w, "cost\tthe design says no prices\n")
		return
	}
	without := ""
	if len(l.Unpriced) > 0 {
		without = ", without " + strings.Join(l.Unpriced, ", ")
	}
	fmt.Fprintf(w, "to buy\t%s%s\n", l.ToPay, without)
	fmt.Fprintf(w, "the batch uses\t%s%s\n", l.Batch, without)
	fmt.Fprintf(w, "a card\t%s%s\n", l.Card, without)
}

func printWeight(w io.Writer, l shopping.List) {
	if len(l.Weight.Unknown) > 0 {
		fmt.Fprintf(w, "weight\tnot known: no gsm or weight for %s\n", strings.Join(l.Weight.Unknown, ", "))
		return
	}
	card := grams(l.Weight.Lightest)
	if most := grams(l.Weight.Heaviest); most != card {
		card += " to " + most
	}
	fmt.Fprintf(w, "weight\t%s g a card, %s g the batch\n", card, grams(l.Weight.Batch))
}

func grams(g float64) string { return strconv.FormatFloat(g, 'f', 1, 64) }

type shopSheetsJSON struct {
	Paper    string         `json:"paper"`
	Size     [2]json.Number `json:"sheet_mm"`
	Need     int            `json:"needed"`
	Extra    int            `json:"to_spare"`
	Have     *int           `json:"have"`
	Buy      int            `json:"buy"`
	Price    string         `json:"price,omitempty"`
	Cost     string         `json:"cost,omitempty"`
	StandIns []string       `json:"stand_ins"`
}

type shopOutput struct {
	Cards     int              `json:"cards"`
	Papers    []shopSheetsJSON `json:"papers"`
	Envelopes int              `json:"envelopes"`
	Adhesive  string           `json:"adhesive"`
	Tape      json.Number      `json:"tape_a_card_mm"`
	Rolls     int              `json:"rolls"`
	Pads      int              `json:"pads_a_card"`
	Packs     int              `json:"packs"`
	Small     int              `json:"small_panels"`
	Currency  string           `json:"currency"`
	ToBuy     string           `json:"to_buy"`
	Batch     string           `json:"batch"`
	Card      string           `json:"card"`
	Unpriced  []string         `json:"unpriced"`
	Weight    *[2]float64      `json:"card_grams"` // lightest and heaviest; null where a weight is not known
	Unknown   []string         `json:"weight_unknown"`
}

func shopJSON(l shopping.List) shopOutput {
	amount := papers.Price.Amount
	out := shopOutput{
		Cards: l.Kit.Design.Batch.Cards, Envelopes: l.Envelopes,
		Adhesive: l.Fixing.Kind, Tape: mmOf(l.Fixing.Tape), Rolls: l.Fixing.Rolls, Pads: l.Fixing.Pads, Packs: l.Fixing.Packs, Small: l.Fixing.Small,
		Currency: l.Batch.Currency(), ToBuy: amount(l.ToPay), Batch: amount(l.Batch), Card: amount(l.Card),
		Unpriced: append([]string{}, l.Unpriced...), Unknown: append([]string{}, l.Weight.Unknown...),
	}
	if len(l.Weight.Unknown) == 0 {
		out.Weight = &[2]float64{l.Weight.Lightest, l.Weight.Heaviest}
	}
	for _, s := range l.Papers {
		line := shopSheetsJSON{Paper: s.Paper.Name, Size: sizeOf(s.Paper.Sheet), Need: s.Need, Extra: s.Extra, Have: s.Paper.Have, Buy: s.Buy, StandIns: append([]string{}, s.StandIns...)}
		if s.Paper.Price != nil {
			line.Price, line.Cost = amount(*s.Paper.Price), amount(s.Cost)
		}
		out.Papers = append(out.Papers, line)
	}
	return out
}
