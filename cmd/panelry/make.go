package main

import (
	"fmt"
	"io"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/layouts"
)

const makeHelp = `Make works out a design and writes its kit into a folder: an SVG a sheet for
the cutter, a map of each sheet, the card's picture, a list of the pieces,
kit.json, and a copy of the design.

` + aboutDesign + ` The kit goes to
the folder named with -o, else to the design's name with -kit behind it, in
this folder. Files there that are not Panelry's are kept.

Check the first sheet with a ruler before you cut them all, mind the
cutter's manual, and keep blades from children.

With --use-stock pieces are laid on the sheets and offcuts that a stock file
lists, offcuts first, and what must be bought beyond that is told. --most makes
as many cards as the stock allows, and says whether that is proved the most.
--write-stock writes the stock file anew, with what is left and the offcuts
there then are: the strips below and beside the pieces of each sheet. A stock
file has a table for each size:

  [[sheets]]                [[offcuts]]
  paper = "kelp"            paper = "kelp"
  size = "12 x 12 in"       size = "4 x 12 in"
  count = 3                 count = 1`

func newMake() *cobra.Command {
	var in input
	var stock stockFlags
	var dir string
	var asJSON, force bool
	in.prepare = stock.prepare
	cmd := &cobra.Command{
		Use:   "make " + designArgument,
		Short: "Write the kit of a design: sheets for the cutter and all that goes with them",
		Long:  makeHelp,
		Example: `  panelry make                       the demo, into demo-kit
  panelry make card.toml             into card-kit
  panelry make card.toml -o spring   into spring
  panelry make card.toml --use-stock stock.toml --most --write-stock`,
		Args: atMostOne("design file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			kit, err := in.plan(cmd, args)
			if err != nil {
				return err
			}
			files, err := export.Files(kit)
			if err != nil {
				return err
			}
			if dir == "" {
				dir = stem(args) + "-kit"
			}
			done, err := export.WriteFolder(dir, files, force)
			if err != nil {
				return err
			}
			if err := stock.write(kit); err != nil {
				return err
			}
			if asJSON {
				return printFile(cmd.OutOrStdout(), files, export.KitFile)
			}
			return printKit(cmd.OutOrStdout(), kit, dir, len(files), done)
		},
	}
	in.flags(cmd)
	stock.flags(cmd)
	cmd.Flags().StringVarP(&dir, "output", "o", "", "the folder for the kit")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print kit.json instead of the summary")
	cmd.Flags().BoolVar(&force, "force", false, "write over files in the folder that are not as Panelry wrote them")
	return cmd
}

// printFile prints one of the files.
func printFile(w io.Writer, files []export.File, name string) error {
	for _, f := range files {
		if f.Name == name {
			_, err := w.Write(f.Data)
			return err
		}
	}
	return fmt.Errorf("there is no %s among the files", name)
}

// printKit prints the summary.
func printKit(w io.Writer, kit layouts.Kit, dir string, files int, done export.Report) error {
	t := kit.Totals
	spares := ""
	if t.Spares > 0 {
		spares = " and " + counted(t.Spares, "spare set", "spare sets")
	}
	fmt.Fprintf(w, "%s: %s%s, %s\n", kit.Design.Title, counted(t.Cards, "card", "cards"), spares, kit.Card.Size.Format(kit.Design.Units))
	fmt.Fprintf(w, "%s of %s on %s, %.0f %% of the paper used\n\n", counted(t.Pieces, "piece", "pieces"),
		counted(t.Kinds, "kind", "kinds"), counted(t.Sheets, "sheet", "sheets"), t.UsedPercent)
	table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	fmt.Fprintln(table, "paper\tsheets\tof\tpieces\tused")
	for _, u := range kit.Stock {
		if u.Sheets > 0 {
			fmt.Fprintf(table, "%s\t%d\t%s\t%d\t%.0f %%\n", u.Paper.Name, u.Sheets, sheetSizes(kit, u), u.Pieces, u.UsedPercent)
		}
	}
	if err := table.Flush(); err != nil {
		return err
	}
	fmt.Fprintf(w, "\n%s in %s\n", counted(files, "file", "files"), dir)
	for _, name := range done.Kept {
		fmt.Fprintf(w, "kept: %s\n", name)
	}
	return nil
}
