package main

import (
	"encoding/json"
	"fmt"
	"io"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/export/picture"
	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/sums"
)

const forecastHelp = `Forecast tells how a card comes out that is cut and placed as accurately as
hands and tools allow: how far the narrowest gap and opposite margins can be
off, at worst and by the root of the sum of squares; how likely a gap closes
or margins look uneven; and which measure matters most.

"Root of squares" adds the errors as they add up by chance; about one card in
twelve is off by more than that.

A panel comes out larger or smaller by up to --cut each way, and lies off its
place by up to --place across and down, each spread evenly between the two
ends. Left out, they follow the design's tool (common practice: 1/32 in by
hand, 1/16 in in class, 0.1 mm for a cutter) and placing by eye (1/32 in,
in class 1/16 in; with --guide half as much). --picture draws twelve
likely cards. The narrowest gaps stand first.

` + aboutDesign

func newForecast() *cobra.Command {
	var in input
	var cut, place, threshold, file string
	var guide, class, chained, asJSON, force bool
	var seed int64
	cmd := &cobra.Command{
		Use:   "forecast " + designArgument,
		Short: "How a card comes out that is cut and placed by hand",
		Long:  forecastHelp,
		Example: `  panelry forecast card.toml
  panelry forecast card.toml --cut "1/16 in" --place "1/32 in" --picture likely.svg
  panelry forecast card.toml --class --guide`,
		Args: atMostOne("design file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			kit, err := in.planned(cmd, args)
			if err != nil && len(kit.Card.Panels) == 0 {
				return err
			}
			d := kit.Design
			a := sums.UsualAccuracy(d.Tools, guide, class)
			a.Chained = chained
			for _, one := range []struct {
				flag, text string
				into       *geometry.Length
			}{{"cut", cut, &a.Cut}, {"place", place, &a.Place}, {"uneven", threshold, &a.Threshold}} {
				if one.text == "" {
					continue
				}
				if *one.into, err = flagLength(one.flag, one.text, d.Units); err != nil {
					return err
				}
			}
			if err := a.Check(d.Units); err != nil {
				return &usageError{err.Error(), ""}
			}
			p := sums.Forecast(kit.Card, d.Front.Gap, a)
			if asJSON {
				err = printIndented(cmd.OutOrStdout(), prospectJSON(p))
			} else {
				err = printProspect(cmd.OutOrStdout(), d, p)
			}
			if err != nil || file == "" {
				return err
			}
			text := fmt.Sprintf("%s: twelve likely cards, cut within %s and placed within %s, seed %d", d.Title, a.Cut.Format(d.Units), a.Place.Format(d.Units), seed)
			data, err := picture.Likely(kit, sums.Likely(kit.Card, a, seed, 12), text)
			if err != nil {
				return err
			}
			if err := export.WriteFile(file, data, force); err != nil {
				return err
			}
			if !asJSON {
				fmt.Fprintf(cmd.OutOrStdout(), "\n%s\n", file)
			}
			return nil
		},
	}
	in.flags(cmd)
	cmd.Flags().StringVar(&cut, "cut", "", "how far off a cut size can be, either way")
	cmd.Flags().StringVar(&place, "place", "", "how far off its place a panel can lie, either way")
	cmd.Flags().StringVar(&threshold, "uneven", "", "the difference of opposite margins that shows (default 1/32 in)")
	cmd.Flags().BoolVar(&guide, "guide", false, "panels are placed with a guide, not by eye")
	cmd.Flags().BoolVar(&class, "class", false, "as in class, not as one careful pair of hands")
	cmd.Flags().BoolVar(&chained, "chained", false, "each panel is laid beside the last, not measured from the card's edge")
	cmd.Flags().StringVar(&file, "picture", "", "draw twelve likely cards, into an SVG file")
	cmd.Flags().Int64Var(&seed, "seed", 1, "another number draws other cards")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print for programs, in mm")
	cmd.Flags().BoolVar(&force, "force", false, "write over a picture that is there")
	return cmd
}

// chance writes a probability as a maker says it.
func chance(p float64) string {
	switch {
	case p == 0:
		return "never"
	case p < 0.0005:
		return "under 1 in 2000"
	case p < 0.1:
		return fmt.Sprintf("1 in %.0f", 1/p)
	case p >= 0.9995:
		return "always"
	}
	return fmt.Sprintf("%.0f %%", 100*p)
}

func printProspect(w io.Writer, d layouts.Design, p sums.Prospect) error {
	unit := d.Units
	a := p.Accuracy
	fmt.Fprintf(w, "%s: cut within %s and placed within %s, either way\n\n", d.Title, a.Cut.Format(unit), a.Place.Format(unit))
	table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	fmt.Fprintln(table, "gaps\twidth\thow many\toff at worst\troot of squares\tcloses")
	const most = 6
	for i, g := range p.Gaps {
		if i == most {
			fmt.Fprintf(table, "and %d more\n", len(p.Gaps)-most)
			break
		}
		fmt.Fprintf(table, "%s to %s\t%s\t%d\t%s\t%s\t%s\n", g.Between[0], g.Between[1], fine(g.Gap, unit), g.Count,
			g.Worst.Format(unit), g.RSS.Format(unit), chance(g.Closes))
	}
	if len(p.Gaps) == 0 {
		fmt.Fprintln(table, "none between straight sides")
	}
	fmt.Fprintf(table, "\t\t\t\t\t\nmargins\t\t\tdiffer at worst\troot of squares\tby more than %s\n", a.Threshold.Format(unit))
	for _, m := range p.Margins {
		fmt.Fprintf(table, "%s\t\t\t%s\t%s\t%s\n", m.Way, m.Worst.Format(unit), m.RSS.Format(unit), chance(m.Uneven))
	}
	if err := table.Flush(); err != nil {
		return err
	}
	fmt.Fprintln(w)
	if len(p.Shares) > 0 && p.Shares[0].Part < 0.52 {
		fmt.Fprintln(w, "cutting and placing matter alike")
	} else if len(p.Shares) > 0 {
		fmt.Fprintf(w, "%s matters most: it makes %.0f %% of how unsure a gap is\n", p.Shares[0].What, 100*p.Shares[0].Part)
	}
	c := p.Chain
	_, err := fmt.Fprintf(w, "%d cuts measured one from another can be off by %s at worst (%s by the root of squares); each measured from one edge, by %s\n",
		c.Cuts, c.Worst.Format(unit), c.RSS.Format(unit), c.FromEdge.Format(unit))
	return err
}

type (
	gapJSON struct {
		Between [2]string   `json:"between"`
		Count   int         `json:"count"`
		Gap     json.Number `json:"gap_mm"`
		Worst   json.Number `json:"worst_mm"`
		RSS     json.Number `json:"rss_mm"`
		Closes  float64     `json:"closes"`
	}
	marginJSON struct {
		Way    string      `json:"way"`
		Worst  json.Number `json:"worst_mm"`
		RSS    json.Number `json:"rss_mm"`
		Uneven float64     `json:"uneven"`
	}
	shareJSON struct {
		What string  `json:"what"`
		Part float64 `json:"part"`
	}
	forecastJSON struct {
		Cut       json.Number  `json:"cut_mm"`
		Place     json.Number  `json:"place_mm"`
		Threshold json.Number  `json:"threshold_mm"`
		Gaps      []gapJSON    `json:"gaps"`
		Margins   []marginJSON `json:"margins"`
		Shares    []shareJSON  `json:"shares"`
		Chain     struct {
			Cuts     int         `json:"cuts"`
			Worst    json.Number `json:"worst_mm"`
			RSS      json.Number `json:"rss_mm"`
			FromEdge json.Number `json:"from_edge_mm"`
		} `json:"chain"`
	}
)

func prospectJSON(p sums.Prospect) forecastJSON {
	out := forecastJSON{
		Cut: mmOf(p.Accuracy.Cut), Place: mmOf(p.Accuracy.Place), Threshold: mmOf(p.Accuracy.Threshold),
		Gaps: []gapJSON{}, Margins: []marginJSON{}, Shares: []shareJSON{},
	}
	for _, g := range p.Gaps {
		out.Gaps = append(out.Gaps, gapJSON{g.Between, g.Count, mmOf(g.Gap), mmOf(g.Worst), mmOf(g.RSS), g.Closes})
	}
	for _, m := range p.Margins {
		out.Margins = append(out.Margins, marginJSON{m.Way, mmOf(m.Worst), mmOf(m.RSS), m.Uneven})
	}
	for _, s := range p.Shares {
		out.Shares = append(out.Shares, shareJSON{s.What, s.Part})
	}
	c := p.Chain
	out.Chain.Cuts, out.Chain.Worst, out.Chain.RSS, out.Chain.FromEdge = c.Cuts, mmOf(c.Worst), mmOf(c.RSS), mmOf(c.FromEdge)
	return out
}
