package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"panelry/export/picture"
	"panelry/layouts"
)

func newPicture() *cobra.Command {
	var in input
	var file string
	var card int
	var batch, force bool
	cmd := &cobra.Command{
		Use:   "picture " + designArgument,
		Short: "Write the finished card as an SVG picture in its papers' colours",
		Long: `Picture draws the finished card, at true size and in its papers' colours, with
each pattern running the way it does on the card.

` + aboutDesign + ` The picture
goes to the file named with -o (- is standard output), else to the design's
name with .svg behind it, in this folder.`,
		Example: `  panelry picture                    the demo, into demo.svg
  panelry picture card.toml -o front.svg
  panelry picture card.toml --batch  every card of the batch`,
		Args: atMostOne("design file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if batch && cmd.Flags().Changed("card") {
				return &usageError{"--batch draws every card, and --card one; use one of the two", ""}
			}
			if ext := filepath.Ext(file); ext != "" && !strings.EqualFold(ext, ".svg") {
				return &usageError{fmt.Sprintf("-o %s: the picture is an SVG; end its name in .svg", file), ""}
			}
			kit, err := in.planCard(cmd, args)
			if err != nil {
				return err
			}
			cards, err := pictured(kit, card, batch)
			if err != nil {
				return err
			}
			data, err := picture.Cards(kit, cards...)
			if err != nil {
				return err
			}
			if file == "" {
				file = stem(args) + ".svg"
			}
			return deliver(cmd, file, data, force)
		},
	}
	in.flags(cmd)
	cmd.Flags().StringVarP(&file, "output", "o", "", "the file for the picture")
	cmd.Flags().IntVar(&card, "card", 1, "which card of the batch, from 1")
	cmd.Flags().BoolVar(&batch, "batch", false, "draw every card of the batch")
	cmd.Flags().BoolVar(&force, "force", false, "write over a file that is there")
	return cmd
}

// mostPictured is as many cards as one picture can show and still be looked at.
const mostPictured = 200

// pictured lists the cards to draw.
func pictured(kit layouts.Kit, card int, batch bool) ([]int, error) {
	most := kit.Design.Batch.Cards
	if !batch {
		if card < 1 || card > most {
			return nil, &usageError{fmt.Sprintf("--card %d: the batch has cards 1 to %d", card, most), ""}
		}
		return []int{card}, nil
	}
	if most > mostPictured {
		return nil, &usageError{fmt.Sprintf("--batch: %d cards are too many for one picture; at most %d, or pick one with --card", most, mostPictured), ""}
	}
	var cards []int
	for c := range most {
		cards = append(cards, c+1)
	}
	return cards, nil
}
