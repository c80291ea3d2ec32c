package main

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/cards"
	"panelry/layouts/sums"
	"panelry/layouts/wording"
)

const fitHelp = `Fit does the sums backwards.

With --pieces: these pieces are cut already, this is the card; which margins
and gaps can there be? The card, columns and rows come from flags, or from a
design. Halves, cut from tip to tip, stay whole and are moved apart, or are
--trimmed to leave a gap. --margin or --gap holds one; without either, what
can be alike is made alike. --square moves halves apart square to their cut.

With --panel: which margin, gap or card makes this panel of a design that
size? --solve says which may change.`

type fitFlags struct {
	input
	card, pieces, panel, size, margin, gap string
	columns, rows                          int
	halves, trimmed, square, asJSON        bool
	solve                                  []string
}

func newFit() *cobra.Command {
	var f fitFlags
	cmd := &cobra.Command{
		Use:   "fit " + designArgument,
		Short: "Which margins and gaps do pieces leave; which make a panel a size",
		Long:  fitHelp,
		Example: `  panelry fit --card "4 1/4 x 5 1/2 in" --pieces "2 x 2 5/8 in" --columns 2 --rows 2 --halves
  panelry fit card.toml --pieces "2 x 2 5/8 in"
  panelry fit card.toml --panel A1a --size "2 x 2 5/8 in"
  panelry fit card.toml --panel A1 --size "2 in wide" --solve gap`,
		Args: atMostOne("design file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case (f.pieces == "") == (f.panel == ""):
				return &usageError{"fit wants --pieces, for pieces that are cut already, or --panel with --size", "panelry fit --help shows examples"}
			case f.panel != "" && (f.margin != "" || f.gap != "" || f.card != "" || f.halves || f.trimmed || f.square):
				return &usageError{"--card, --margin, --gap, --halves, --trimmed and --square go with --pieces; a panel's design says all that itself", ""}
			case f.panel != "":
				return f.solvePanel(cmd, args)
			case f.square && f.trimmed:
				return &usageError{"--square moves halves apart, and --trimmed trims them; use one of the two", ""}
			case f.square && !f.halves && len(args) == 0:
				return &usageError{"--square moves halves apart; say --halves too", ""}
			case len(args) == 0 && f.card == "":
				return &usageError{"say which card: --card, or a design file", "panelry fit --help shows examples"}
			}
			return f.fitPieces(cmd, args)
		},
	}
	f.flags(cmd)
	cmd.Flags().StringVar(&f.pieces, "pieces", "", `the size of the pieces: "2 x 2 5/8 in"`)
	cmd.Flags().StringVar(&f.card, "card", "", `the closed card: "4 1/4 x 5 1/2 in", "US A2"; left out: the design's`)
	cmd.Flags().IntVar(&f.columns, "columns", 0, "how many pieces stand side by side; left out: the design's")
	cmd.Flags().IntVar(&f.rows, "rows", 0, "how many pieces stand above each other; left out: the design's")
	cmd.Flags().BoolVar(&f.halves, "halves", false, "each piece is cut in half from tip to tip")
	cmd.Flags().BoolVar(&f.trimmed, "trimmed", false, "halves are trimmed to leave a gap, not moved apart")
	cmd.Flags().BoolVar(&f.square, "square", false, "whole halves are moved apart square to their cut")
	cmd.Flags().StringVar(&f.margin, "margin", "", "hold the margins at this")
	cmd.Flags().StringVar(&f.gap, "gap", "", "hold the gaps at this")
	cmd.Flags().StringVar(&f.panel, "panel", "", "the panel of a design whose size is wanted")
	cmd.Flags().StringVar(&f.size, "size", "", `the size it should have: "2 x 2 5/8 in", "2 in wide", "2 in high"`)
	cmd.Flags().StringSliceVar(&f.solve, "solve", nil, "what may change: margin, gap, card, or two of them as margin,gap")
	cmd.Flags().BoolVar(&f.asJSON, "json", false, "print for programs, in mm")
	return cmd
}

// designUnit is the unit that flags count in.
func (in *input) flagUnit(d *layouts.Design) (geometry.Unit, error) {
	unit, ok := geometry.ParseUnit(in.units)
	if in.units != "" && !ok {
		return unit, &usageError{fmt.Sprintf("--units %s: write %s", in.units, wording.Or([]string{"in", "mm"})), ""}
	}
	if unit == geometry.NoUnit && d != nil {
		unit = d.Units
	}
	return unit, nil
}

func (f *fitFlags) fitPieces(cmd *cobra.Command, args []string) error {
	var d *layouts.Design
	if len(args) > 0 || f.card == "" {
		read, err := f.read(cmd, args)
		if err != nil {
			return err
		}
		d = &read
	}
	unit, err := f.flagUnit(d)
	if err != nil {
		return err
	}
	p := sums.Pieces{Columns: f.columns, Rows: f.rows, Halves: f.halves || f.trimmed, Trimmed: f.trimmed, Unit: unit}
	if p.Piece, err = flagSize("pieces", f.pieces, unit, 0); err != nil {
		return err
	}
	switch {
	case f.card != "":
		if p.Card, err = flagSize("card", f.card, unit, cards.ForCard); err != nil {
			return err
		}
	default:
		p.Card = d.Card.Size
	}
	if d != nil {
		fromDesign(&p, *d, cmd.Flags().Changed("halves"))
	}
	for _, one := range []struct {
		flag string
		n    *int
	}{{"columns", &p.Columns}, {"rows", &p.Rows}} {
		if *one.n < 1 || *one.n > 60 {
			return &usageError{fmt.Sprintf("--%s: write how many, from 1 to 60", one.flag), ""}
		}
	}
	if p.Unit == geometry.NoUnit {
		p.Unit = geometry.Inches
		if strings.Contains(f.pieces, "mm") || strings.Contains(f.pieces, "cm") {
			p.Unit = geometry.Millimetres
		}
	}
	hold := sums.Hold{Square: f.square}
	for _, one := range []struct {
		flag, text string
		into       **geometry.Length
	}{{"margin", f.margin, &hold.Margin}, {"gap", f.gap, &hold.Gap}} {
		if one.text == "" {
			continue
		}
		l, err := flagLength(one.flag, one.text, unit)
		if err != nil {
			return err
		}
		*one.into = &l
	}
	ways, err := sums.Fit(p, hold)
	if err != nil {
		return err
	}
	if f.asJSON {
		return printIndented(cmd.OutOrStdout(), waysJSON(ways))
	}
	return printWays(cmd.OutOrStdout(), p, ways)
}

// fromDesign takes what flags leave open from a design.
func fromDesign(p *sums.Pieces, d layouts.Design, halvesStated bool) {
	if p.Columns == 0 {
		p.Columns = d.Front.Options.Count("columns")
	}
	if p.Rows == 0 {
		p.Rows = d.Front.Options.Count("rows")
	}
	if halvesStated || p.Halves {
		return
	}
	card, err := layouts.PlanCard(d)
	p.Halves = err == nil && len(card.Panels) > 0 && card.Panels[0].Hand != ""
}

// flagSize reads a size that a flag gives.
func flagSize(flag, text string, unit geometry.Unit, use cards.Use) (geometry.Size, error) {
	size, err := cards.ParseSize(text, unit, use)
	if err != nil {
		return size, &usageError{fmt.Sprintf("--%s %s: %s", flag, text, err), ""}
	}
	return size, nil
}

// flagLength reads a length of 0 or more that a flag gives.
func flagLength(flag, text string, unit geometry.Unit) (geometry.Length, error) {
	l, err := geometry.ParseLength(text, unit)
	if err == nil && l < 0 {
		err = fmt.Errorf("it must not be below zero")
	}
	if err != nil {
		return 0, &usageError{fmt.Sprintf("--%s %s: %s", flag, text, err), ""}
	}
	return l, nil
}

// fine writes a length to five decimals where it falls on no mark, as sums
// backwards rarely do. What rounding takes off a mark is put back.
func fine(l geometry.Length, unit geometry.Unit) string {
	const rounding = 10 * geometry.Nanometre
	if mark := (l + geometry.Inch/128) / (geometry.Inch / 64) * (geometry.Inch / 64); unit == geometry.Inches && (l-mark).Abs() <= rounding {
		l = mark
	}
	if l.FormatsExactly(unit) {
		return l.Format(unit)
	}
	return l.Decimal(unit, 5) + " " + unit.String()
}

func printWays(w io.Writer, p sums.Pieces, ways []sums.Way) error {
	fmt.Fprintf(w, "%d x %d pieces of %s on %s\n", p.Columns, p.Rows, p.Piece.Format(p.Unit), p.Card.Format(p.Unit))
	for _, way := range ways {
		fmt.Fprintf(w, "\n%s\n", way.What)
		table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
		row := func(what string, l geometry.Length) {
			fmt.Fprintf(table, "  %s\t%s\t%s\n", what, fine(l, p.Unit), fine(l, otherUnit(p.Unit)))
		}
		if way.MarginAcross == way.MarginDown {
			row("margins", way.MarginAcross)
		} else {
			row("margins left and right", way.MarginAcross)
			row("margins top and bottom", way.MarginDown)
		}
		if p.Columns > 1 && p.Rows > 1 && way.GapAcross == way.GapDown {
			row("gaps between pieces", way.GapAcross)
		} else {
			if p.Columns > 1 {
				row("gaps across", way.GapAcross)
			}
			if p.Rows > 1 {
				row("gaps down", way.GapDown)
			}
		}
		if p.Halves {
			row("gap between halves", way.Diagonal)
		}
		switch {
		case p.Halves && p.Trimmed:
			fmt.Fprintf(table, "  halves trimmed to\t%s x %s\t\n", fine(way.Trimmed.W, p.Unit), fine(way.Trimmed.H, p.Unit))
		case p.Halves:
			row("halves moved apart across by", way.MoveAcross)
			row("and down by", way.MoveDown)
		}
		if p.Halves && way.Diagonal == 0 {
			fmt.Fprintf(table, "  no gap is left between halves\t\t\n")
		}
		row("left for margins and gaps across", way.LeftAcross)
		row("left for margins and gaps down", way.LeftDown)
		if err := table.Flush(); err != nil {
			return err
		}
	}
	return nil
}

func otherUnit(u geometry.Unit) geometry.Unit {
	if u == geometry.Millimetres {
		return geometry.Inches
	}
	return geometry.Millimetres
}

// mmOf is a length in JSON.
func mmOf(l geometry.Length) json.Number { return json.Number(l.MM()) }

func sizeOf(s geometry.Size) [2]json.Number { return [2]json.Number{mmOf(s.W), mmOf(s.H)} }

type wayJSON struct {
	What     string         `json:"what"`
	Margins  [2]json.Number `json:"margins_mm"` // across, down
	Gaps     [2]json.Number `json:"gaps_mm"`
	Diagonal json.Number    `json:"diagonal_mm"`
	Moved    [2]json.Number `json:"moved_mm"`
	Trimmed  [2]json.Number `json:"trimmed_mm"`
	Left     [2]json.Number `json:"left_mm"`
}

func waysJSON(ways []sums.Way) []wayJSON {
	list := make([]wayJSON, len(ways))
	for i, w := range ways {
		list[i] = wayJSON{
			What: w.What, Margins: [2]json.Number{mmOf(w.MarginAcross), mmOf(w.MarginDown)}, Gaps: [2]json.Number{mmOf(w.GapAcross), mmOf(w.GapDown)},
			Diagonal: mmOf(w.Diagonal), Moved: [2]json.Number{mmOf(w.MoveAcross), mmOf(w.MoveDown)}, Trimmed: sizeOf(w.Trimmed),
			Left: [2]json.Number{mmOf(w.LeftAcross), mmOf(w.LeftDown)},
		}
	}
	return list
}

func printIndented(w io.Writer, v any) error {
	data, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return err
	}
	_, err = w.Write(append(data, '\n'))
	return err
}

func (f *fitFlags) solvePanel(cmd *cobra.Command, args []string) error {
	d, err := f.read(cmd, args)
	if err != nil {
		return err
	}
	target, err := f.target(d.Units)
	if err != nil {
		return err
	}
	for _, s := range f.solve {
		if !slices.Contains(sums.Unknowns(), s) {
			return &usageError{fmt.Sprintf("--solve %s: write %s", s, wording.OrPlain(sums.Unknowns())), ""}
		}
	}
	answers, err := sums.Solve(d, target, f.solve...)
	if err != nil {
		return placed(err, args)
	}
	if f.asJSON {
		return printIndented(cmd.OutOrStdout(), answersJSON(answers))
	}
	if err := printAnswers(cmd.OutOrStdout(), d, target, answers); err != nil {
		return err
	}
	if answers[0].Why != "" {
		return fmt.Errorf("nothing makes panel %s that size", target.Panel)
	}
	return nil
}

// target reads --size: two lengths, or one with wide or high behind it.
func (f *fitFlags) target(unit geometry.Unit) (sums.Target, error) {
	t := sums.Target{Panel: f.panel}
	if f.size == "" {
		return t, &usageError{"--panel wants --size, the size that it should have", "panelry fit --help shows examples"}
	}
	for _, side := range []struct {
		word string
		into *geometry.Length
	}{{"wide", &t.Size.W}, {"high", &t.Size.H}} {
		if text, ok := strings.CutSuffix(strings.TrimSpace(f.size), side.word); ok {
			l, err := flagLength("size", strings.TrimSpace(text), unit)
			*side.into = l
			return t, err
		}
	}
	var err error
	t.Size, err = flagSize("size", f.size, unit, 0)
	return t, err
}

func printAnswers(w io.Writer, d layouts.Design, t sums.Target, answers []sums.Answer) error {
	fmt.Fprintf(w, "panel %s of %s, now with margin %s and gap %s on %s\n\n", t.Panel, d.Title,
		d.Front.Margin.Format(d.Units), d.Front.Gap.Format(d.Units), d.Card.Size.Format(d.Units))
	table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	fmt.Fprintln(table, "change\tmargin\tgap\tcard\tpanel")
	for _, a := range answers {
		if a.Why != "" {
			fmt.Fprintf(table, "%s\t%s\n", a.What, a.Why)
			continue
		}
		off := ""
		if !a.Exact() {
			off = fmt.Sprintf(" (%s off)", fine(max(a.Off.W.Abs(), a.Off.H.Abs()), d.Units))
		}
		fmt.Fprintf(table, "%s\t%s\t%s\t%s x %s\t%s x %s%s\n", a.What, fine(a.Margin, d.Units), fine(a.Gap, d.Units),
			fine(a.Card.W, d.Units), fine(a.Card.H, d.Units), fine(a.Got.W, d.Units), fine(a.Got.H, d.Units), off)
	}
	return table.Flush()
}

type answerJSON struct {
	Change string         `json:"change"`
	Margin json.Number    `json:"margin_mm"`
	Gap    json.Number    `json:"gap_mm"`
	Card   [2]json.Number `json:"card_mm"`
	Panel  [2]json.Number `json:"panel_mm"`
	Off    [2]json.Number `json:"off_mm"`
	Exact  bool           `json:"exact"`
	Why    string         `json:"why"`
}

func answersJSON(answers []sums.Answer) []answerJSON {
	list := make([]answerJSON, len(answers))
	for i, a := range answers {
		list[i] = answerJSON{a.What, mmOf(a.Margin), mmOf(a.Gap), sizeOf(a.Card), sizeOf(a.Got), sizeOf(a.Off), a.Exact(), a.Why}
	}
	return list
}
