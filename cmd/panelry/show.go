package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/fronts"
)

func newShow() *cobra.Command {
	var in input
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "show " + designArgument,
		Short: "Print the card, every panel's size, the kinds and the sums",
		Long: `Show prints what a design comes to: the card, each panel's size on the ruler
and in millimetres, the kinds of piece with their counts, and the sums across
and down. It writes no file.

` + aboutDesign + `

A size that falls between two marks of the ruler is given as the nearest mark
and what is to be added or taken off: "1 15/16 in - 0.0161" is 1.9214 in. In the
sums panels stand in brackets, and ~ marks a number that is rounded.`,
		Example: `  panelry show                       the demo
  panelry show card.toml --units mm
  panelry show card.toml --json      the same as kit.json holds`,
		Args: atMostOne("design file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			plan := in.planCard
			if asJSON {
				plan = in.plan
			}
			kit, err := plan(cmd, args)
			if err != nil {
				return err
			}
			if asJSON {
				data, err := export.KitJSON(kit)
				if err != nil {
					return err
				}
				_, err = cmd.OutOrStdout().Write(data)
				return err
			}
			return printCard(cmd.OutOrStdout(), kit)
		},
	}
	in.flags(cmd)
	cmd.Flags().BoolVar(&asJSON, "json", false, "print what kit.json would hold")
	return cmd
}

func printCard(w io.Writer, kit layouts.Kit) error {
	d, card, unit := kit.Design, kit.Card, kit.Design.Units
	fmt.Fprintf(w, "%s\n\n", d.Title)
	table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	fmt.Fprintf(table, "card\t%s, %s\n", bothUnits(card.Size, unit), d.Card.Orientation())
	fmt.Fprintf(table, "base\t%s, %s, %s\n", bothUnits(card.Base.Outline.Bounds().Size(), unit), d.Card.Base, d.Card.Paper)
	fmt.Fprintf(table, "front\t%s, frame %s, margin %s, gap %s\n", d.Front.Layout.Name,
		card.Frame.Size().Format(unit), d.Front.Margin.Format(unit), d.Front.Gap.Format(unit))
	across, down := card.Sums()
	fmt.Fprintf(table, "across\t%s\n", sumText(across, unit))
	fmt.Fprintf(table, "down\t%s\n", sumText(down, unit))
	for _, r := range card.Front.Rounded {
		fmt.Fprintf(table, "ruler\t%s\n", r.Text(d.Units, d.Ruler))
	}
	if err := table.Flush(); err != nil {
		return err
	}
	fmt.Fprintln(w)
	if err := printPanels(w, kit); err != nil {
		return err
	}
	fmt.Fprintln(w)
	return printKinds(w, kit)
}

// bothUnits writes a size in the design's unit and in millimetres.
func bothUnits(s geometry.Size, unit geometry.Unit) string {
	if unit != geometry.Inches {
		return s.Format(unit)
	}
	return s.Format(unit) + " (" + s.Format(geometry.Millimetres) + ")"
}

// sumText writes "1/16 + [2] + 1/8 + [2] + 1/16 = 4 1/4 in": panels stand
// in brackets between margins and gaps, and what is rounded behind a ~.
func sumText(terms []fronts.Term, unit geometry.Unit) string {
	var parts []string
	var sum geometry.Length
	for _, t := range terms {
		text := bare(t.Length, unit)
		if !t.Length.FormatsExactly(unit) {
			text = "~" + text
		}
		if t.What == "panel" {
			text = "[" + text + "]"
		}
		parts = append(parts, text)
		sum += t.Length
	}
	return strings.Join(parts, " + ") + " = " + sum.Format(unit)
}

// bare writes a length without its unit.
func bare(l geometry.Length, unit geometry.Unit) string {
	text := l.Format(unit)
	return text[:strings.LastIndexByte(text, ' ')]
}

func printPanels(w io.Writer, kit layouts.Kit) error {
	fmt.Fprintf(w, "panels, nearest %s\n", kit.Design.Ruler.Format(geometry.RulerUnit(kit.Design.Ruler)))
	table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	fmt.Fprintln(table, "name\tpaper\tkind\tshape\twidth\theight\tlong side\tmm")
	for _, p := range kit.Card.Panels {
		box := p.Outline.Bounds().Size()
		long := "-"
		mm := bare(box.W, geometry.Millimetres) + " x " + bare(box.H, geometry.Millimetres)
		if side, ok := longSide(p.Outline); ok {
			long = onRuler(side, kit.Design)
			mm += " x " + bare(side, geometry.Millimetres)
		}
		fmt.Fprintf(table, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", p.Name, p.Paper, p.Kind, shapeWord(p),
			onRuler(box.W, kit.Design), onRuler(box.H, kit.Design), long, mm)
	}
	return table.Flush()
}

// onRuler writes the nearest mark and what it is off by.
func onRuler(l geometry.Length, d layouts.Design) string {
	unit := geometry.RulerUnit(d.Ruler)
	mark, off := l.OnRuler(d.Ruler)
	places := 4
	if unit == geometry.Millimetres {
		places = 3
	}
	rest := off.Abs().Decimal(unit, places)
	switch {
	case rest == "0":
		return mark
	case off < 0:
		return mark + " - " + rest
	}
	return mark + " + " + rest
}

// longSide returns the longest side of a triangle.
func longSide(o geometry.Outline) (geometry.Length, bool) {
	points := o.Outer.Points()
	if len(points) != 3 || !o.IsStraight() {
		return 0, false
	}
	longest := 0.0
	for i, p := range points {
		longest = math.Max(longest, points[(i+1)%3].Sub(p).Len())
	}
	return geometry.Length(math.Round(longest)), true
}

// shapeWord says what a panel looks like, with its cut if it is a half.
func shapeWord(p layouts.Panel) string {
	switch n := len(p.Outline.Outer); {
	case p.Hand != "":
		return "half " + p.Hand
	case !p.Outline.IsStraight():
		return "curved"
	case len(p.Outline.Holes) > 0:
		return "frame"
	case n == 3:
		return "triangle"
	case n == 4 && p.Outline.Area() == p.Outline.Bounds().Outline().Area():
		return "oblong"
	default:
		return fmt.Sprintf("%d sides", n)
	}
}

// toolsText lists the tools that can cut a kind.
func toolsText(k layouts.Kind) string {
	words := make([]string, len(k.Tools))
	for i, t := range k.Tools {
		words[i] = string(t)
	}
	return strings.Join(words, ", ")
}

// anglesText lists the angles at a kind's corners.
func anglesText(k layouts.Kind) string {
	angles := layouts.CornerAngles(k.Outline)
	if len(angles) == 0 {
		return "-"
	}
	words := make([]string, len(angles))
	for i, a := range angles {
		words[i] = fmt.Sprintf("%d°", a)
	}
	return strings.Join(words, " ")
}

func printKinds(w io.Writer, kit layouts.Kit) error {
	fmt.Fprintln(w, "kinds: pieces of one kind can stand for each other")
	table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	fmt.Fprintln(table, "kind\tpieces\tcut with\tangles\ton the first card")
	for _, k := range kit.Kinds {
		places := strings.Join(k.Places, " ")
		if places == "" {
			places = "-"
		}
		fmt.Fprintf(table, "%s\t%d\t%s\t%s\t%s\n", k.ID, k.Count, toolsText(k), anglesText(k), places)
	}
	return table.Flush()
}
