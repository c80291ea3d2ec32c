package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/sums"
)

const niceHelp = `Nice looks for margins and gaps near those of a design with which the size of
every piece falls on the design's ruler, with few stop settings and few
sheets, and shows the best as a table to choose from. Margins and gaps
themselves are tried in half steps of the ruler: they are placed, not cut.
Where pieces are put on the ruler, what is left over goes into the gaps; the
halves of a cell get the pair of legs whose gap is nearest the wish.

` + aboutDesign

func newNice() *cobra.Command {
	var in input
	var within, ruler string
	var most int
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "nice " + designArgument,
		Short: "Margins and gaps with which every size falls on the ruler",
		Long:  niceHelp,
		Example: `  panelry nice card.toml
  panelry nice card.toml --within "1/8 in" --ruler "1/8 in"`,
		Args: atMostOne("design file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			d, err := in.read(cmd, args)
			if err != nil {
				return err
			}
			wish := sums.NiceWish{Tolerance: geometry.Inch / 16, Most: most}
			if d.Units == geometry.Millimetres {
				wish.Tolerance = geometry.Millimetre * 3 / 2
			}
			if within != "" {
				if wish.Tolerance, err = flagLength("within", within, d.Units); err != nil {
					return err
				}
			}
			if ruler != "" {
				if d.Ruler, err = flagLength("ruler", ruler, d.Units); err != nil {
					return err
				}
				if d.Ruler < 10*geometry.Micrometre || d.Ruler > geometry.Inch {
					return &usageError{fmt.Sprintf("--ruler %s: the smallest step must be from 0.01 mm to 1 in", ruler), ""}
				}
			}
			if most < 1 || most > 50 {
				return &usageError{fmt.Sprintf("--show %d: write 1 to 50", most), ""}
			}
			choices, err := sums.Nice(cmd.Context(), d, wish)
			if err != nil {
				return placed(err, args)
			}
			if asJSON {
				return printIndented(cmd.OutOrStdout(), choicesJSON(choices))
			}
			return printChoices(cmd.OutOrStdout(), d, wish, choices)
		},
	}
	in.flags(cmd)
	cmd.Flags().StringVar(&within, "within", "", "how far margin and gap may move, either way (default 1/16 in, or 1.5 mm)")
	cmd.Flags().StringVar(&ruler, "ruler", "", "the smallest step of the ruler; left out: the design's")
	cmd.Flags().IntVar(&most, "show", 5, "how many choices to show")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print for programs, in mm")
	return cmd
}

func printChoices(w io.Writer, d layouts.Design, wish sums.NiceWish, choices []sums.Choice) error {
	unit := geometry.RulerUnit(d.Ruler)
	fmt.Fprintf(w, "%s: margin %s and gap %s wished, within %s, ruler %s\n\n", d.Title, d.Front.Margin.Format(d.Units),
		d.Front.Gap.Format(d.Units), wish.Tolerance.Format(d.Units), d.Ruler.Format(unit))
	table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	fmt.Fprintln(table, "\tmargin\tgap\tsizes\tdiagonal gap\tbeside a mark\tstops\tsheets\tset to, "+unit.String())
	for i, c := range choices {
		sizes := "exact"
		if c.OnRuler {
			sizes = "on the ruler"
		}
		diagonal := "-"
		if c.Diagonal > 0 {
			diagonal = fine(c.Diagonal, unit)
		}
		off := "none"
		if c.OffRuler > 0 {
			off = fmt.Sprintf("%s, by up to %s", counted(c.OffRuler, "size", "sizes"), fine(c.FurthestOff, unit))
		}
		fmt.Fprintf(table, "%d\t%s\t%s\t%s\t%s\t%s\t%d\t%d\t%s\n", i+1, fine(c.Margin, unit), fine(c.Gap, unit), sizes, diagonal, off, len(c.Stops), c.Sheets, stopsText(c.Stops, unit))
	}
	if err := table.Flush(); err != nil {
		return err
	}
	_, err := fmt.Fprintf(w, "\nTo take one, set margin, gap and sizes = %q (or \"exact\") under [front].\n", "on the ruler")
	return err
}

func stopsText(stops []geometry.Length, unit geometry.Unit) string {
	const most = 6
	var parts []string
	for i, s := range stops {
		if i == most {
			parts = append(parts, fmt.Sprintf("and %d more", len(stops)-most))
			break
		}
		parts = append(parts, bare(s, unit))
	}
	if len(parts) == 0 {
		return "-"
	}
	return strings.Join(parts, ", ")
}

type choiceJSON struct {
	Margin   json.Number   `json:"margin_mm"`
	Gap      json.Number   `json:"gap_mm"`
	OnRuler  bool          `json:"on_the_ruler"`
	Diagonal json.Number   `json:"diagonal_mm"`
	Off      int           `json:"off_the_ruler"`
	Furthest json.Number   `json:"furthest_off_mm"`
	Stops    []json.Number `json:"stops_mm"`
	Sheets   int           `json:"sheets"`
}

func choicesJSON(choices []sums.Choice) []choiceJSON {
	list := make([]choiceJSON, len(choices))
	for i, c := range choices {
		list[i] = choiceJSON{mmOf(c.Margin), mmOf(c.Gap), c.OnRuler, mmOf(c.Diagonal), c.OffRuler, mmOf(c.FurthestOff), []json.Number{}, c.Sheets}
		for _, s := range c.Stops {
			list[i].Stops = append(list[i].Stops, mmOf(s))
		}
	}
	return list
}
