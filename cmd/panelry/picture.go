package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/export/picture"
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
			kit, err := in.plan(cmd, args)
			if err != nil {
				return err
			}
			cards := []int{card}
			if batch {
				cards = nil
				for c := range kit.Design.Batch.Cards {
					cards = append(cards, c+1)
				}
				if len(cards) > mostPictured {
					return fmt.Errorf("--batch: %d cards are too many for one picture; at most %d, or pick one with --card", len(cards), mostPictured)
				}
			}
			data, err := picture.Cards(kit, cards...)
			if err != nil {
				return err
			}
			if file == "-" {
				_, err = cmd.OutOrStdout().Write(data)
				return err
			}
			if file == "" {
				file = stem(args) + ".svg"
			}
			if err := export.WriteFile(file, data, force); err != nil {
				return err
			}
			fmt.Fprintln(cmd.OutOrStdout(), file)
			return nil
		},
	}
	in.flags(cmd)
	cmd.Flags().StringVarP(&file, "output", "o", "", "the file for the picture")
	cmd.Flags().IntVar(&card, "card", 1, "which card of the batch, from 1")
	cmd.Flags().BoolVar(&batch, "batch", false, "draw every card of the batch")
	cmd.Flags().BoolVar(&force, "force", false, "write over a file that is there")
	cmd.MarkFlagsMutuallyExclusive("card", "batch")
	return cmd
}

// mostPictured is as many cards as one picture can show and still be looked at.
const mostPictured = 200
