package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/geometry"
	"panelry/geometry/trimming"
	"panelry/layouts"
	"panelry/layouts/cards"
	"panelry/layouts/wording"
)

const trimHelp = `Trim plans straight cuts, from edge to edge, as a slide trimmer makes them:
strips first, then across, then slants, then scores. From a design it plans
the whole batch, paper by paper: both halves of a cell come from one block and
one cut from tip to tip. From --sheet and --piece it plans any list of oblongs.
Cuts of one width are made at one setting of the stop, each measured from the
stop and never from the piece before. Every plan is carried out by a simulator
before it is shown.

A piece is its size and, behind a colon, how many: "2 x 2 5/8 in:16". With
--turn quarter pieces may lie turned. --kerf is the width that a cut takes
away, 0 for blades.

Mind the trimmer's manual: keep fingers behind the guard, cut away from
yourself, and keep blades from children.`

type trimFlags struct {
	input
	sheet, turn, kerf string
	pieces            []string
	effort            string
	seed              int64
	asJSON            bool
}

func newTrim() *cobra.Command {
	var f trimFlags
	cmd := &cobra.Command{
		Use:   "trim " + designArgument,
		Short: "The same card by straight cuts and scores, as a trimmer makes them",
		Long:  trimHelp,
		Example: `  panelry trim card.toml
  panelry trim --sheet 12x12in --piece "2 x 2 5/8 in:16" --turn quarter
  panelry trim --sheet "ISO A4" --piece "48x63mm:20" --piece "105x148mm:3" --json`,
		Args: atMostOne("design file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 || f.sheet == "" && len(f.pieces) == 0 {
				return f.trimDesign(cmd, args)
			}
			job, unit, err := f.job()
			if err != nil {
				return err
			}
			plan, err := trimming.Plan(job)
			if err != nil {
				return err
			}
			if err := carriedOut(job, plan); err != nil {
				return err
			}
			if f.asJSON {
				return printIndented(cmd.OutOrStdout(), trimOutput(job, plan, unit))
			}
			return printTrim(cmd.OutOrStdout(), job, plan, unit)
		},
	}
	f.flags(cmd)
	cmd.Flags().StringVar(&f.sheet, "sheet", "", `the sheets: "12 x 12 in", "ISO A4", Letter`)
	cmd.Flags().StringArrayVar(&f.pieces, "piece", nil, `a size and how many: "2 x 2 5/8 in:16"; more than once for more sizes`)
	cmd.Flags().StringVar(&f.turn, "turn", "none", "none or quarter: whether pieces may lie turned by a quarter")
	cmd.Flags().StringVar(&f.kerf, "kerf", "", "the width that a cut takes away (default 0)")
	cmd.Flags().StringVar(&f.effort, "effort", "quick", "quick, normal or thorough: how long to look for fewer sheets")
	cmd.Flags().Int64Var(&f.seed, "seed", 0, "another number tries other ways")
	cmd.Flags().BoolVar(&f.asJSON, "json", false, "print the tree of cuts and the steps for programs, in mm")
	cmd.RegisterFlagCompletionFunc("turn", cobra.FixedCompletions([]string{"none", "quarter"}, cobra.ShellCompDirectiveNoFileComp))
	cmd.RegisterFlagCompletionFunc("effort", cobra.FixedCompletions([]string{"quick", "normal", "thorough"}, cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

func (f *trimFlags) job() (trimming.Job, geometry.Unit, error) {
	var job trimming.Job
	unit, ok := geometry.ParseUnit(f.units)
	if f.units != "" && !ok {
		return job, unit, &usageError{fmt.Sprintf("--units %s: write %s", f.units, wording.Or([]string{"in", "mm"})), ""}
	}
	if f.sheet == "" || len(f.pieces) == 0 {
		return job, unit, &usageError{"trim wants --sheet, and --piece for each size", "panelry trim --help shows examples"}
	}
	if f.turn != "none" && f.turn != "quarter" {
		return job, unit, &usageError{fmt.Sprintf("--turn %s: straight cuts can turn pieces by a quarter; write none or quarter", f.turn), ""}
	}
	if job.Effort, ok = export.TrimEffort[f.effort]; !ok {
		return job, unit, &usageError{fmt.Sprintf("--effort %s: write %s", f.effort, wording.OrPlain([]string{"quick", "normal", "thorough"})), ""}
	}
	var err error
	if job.Stock.Size, err = flagSize("sheet", f.sheet, unit, cards.ForSheet|cards.ForCard); err != nil {
		return job, unit, err
	}
	if f.kerf != "" {
		if job.Kerf, err = flagLength("kerf", f.kerf, unit); err != nil {
			return job, unit, err
		}
	}
	for _, text := range f.pieces {
		size, count, ok := strings.Cut(text, ":")
		n, err := strconv.Atoi(strings.TrimSpace(count))
		if !ok || err != nil || n < 1 {
			return job, unit, &usageError{fmt.Sprintf(`--piece %s: write the size and how many, like "2 x 2 5/8 in:16"`, text), ""}
		}
		s, err := flagSize("piece", size, unit, 0)
		if err != nil {
			return job, unit, err
		}
		job.Pieces = append(job.Pieces, trimming.Piece{Size: s, Count: n, Turn: f.turn == "quarter"})
	}
	job.Seed = f.seed
	if unit == geometry.NoUnit {
		unit = geometry.Millimetres
		if job.Stock.Size.W%(geometry.Inch/64) == 0 && !strings.Contains(f.sheet, "mm") {
			unit = geometry.Inches
		}
	}
	return job, unit, nil
}

// carriedOut replays a plan on the stock: exactly the pieces wanted must come
// off.
func carriedOut(job trimming.Job, plan trimming.Planned) error {
	var sheets []geometry.Size
	for range plan.Trees {
		sheets = append(sheets, job.Stock.Size)
	}
	got, err := trimming.Replay(sheets, plan.Trees, job.Pieces, job.Kerf)
	if err != nil {
		return fmt.Errorf("the plan cannot be carried out: %w", err)
	}
	for i, p := range job.Pieces {
		if got[i] != p.Count {
			return fmt.Errorf("the plan gives %d pieces of %s in place of %d", got[i], p.Size, p.Count)
		}
	}
	return nil
}

// used is the pieces' share of all sheets, in percent.
func used(job trimming.Job, sheets int) float64 {
	var area float64
	for _, p := range job.Pieces {
		area += float64(p.Count) * p.Size.W.In(geometry.Millimetres) * p.Size.H.In(geometry.Millimetres)
	}
	s := job.Stock.Size
	return 100 * area / (float64(sheets) * s.W.In(geometry.Millimetres) * s.H.In(geometry.Millimetres))
}

func printTrim(w io.Writer, job trimming.Job, plan trimming.Planned, unit geometry.Unit) error {
	steps := trimming.Steps(plan.Trees)
	cuts, pieces := 0, 0
	for _, s := range steps {
		cuts += s.Cuts * s.Parts
	}
	for _, p := range job.Pieces {
		pieces += p.Count
	}
	best := fmt.Sprintf("no plan needs fewer than %d", plan.Bound)
	if plan.Proved {
		best = "proved best"
	}
	fmt.Fprintf(w, "%s on %s of %s (%s), %.0f %% of the paper used\n%s, %s of the stop\n\n",
		counted(pieces, "piece", "pieces"), counted(len(plan.Trees), "sheet", "sheets"), job.Stock.Size.Format(unit), best, used(job, len(plan.Trees)),
		counted(cuts, "cut", "cuts"), counted(trimming.Stops(steps), "setting", "settings"))
	for i, s := range steps {
		fmt.Fprintf(w, "%d. %s\n", i+1, stepText(s, unit))
	}
	return nil
}

// stepText says a step as a sentence.
func stepText(s trimming.Step, unit geometry.Unit) string {
	return layouts.TrimSentence(s, unit, func(int) string { return "pieces" })
}

// trimDesign plans straight cuts for a design.
func (f *trimFlags) trimDesign(cmd *cobra.Command, args []string) error {
	if f.sheet != "" || len(f.pieces) > 0 || f.turn != "none" || f.kerf != "" {
		return &usageError{"a design says sheets, pieces and turns itself; leave --sheet, --piece, --turn and --kerf out", ""}
	}
	effort, ok := export.TrimEffort[f.effort]
	if !ok {
		return &usageError{fmt.Sprintf("--effort %s: write %s", f.effort, wording.OrPlain([]string{"quick", "normal", "thorough"})), ""}
	}
	kit, err := f.planCard(cmd, args)
	if err != nil {
		return err
	}
	plan, err := layouts.PlanTrim(kit, effort, f.seed)
	if err != nil {
		return placed(err, args)
	}
	if f.asJSON {
		return printIndented(cmd.OutOrStdout(), designTrimJSON(kit.Design, plan))
	}
	return printDesignTrim(cmd.OutOrStdout(), kit.Design, plan)
}

func printDesignTrim(w io.Writer, d layouts.Design, plan layouts.TrimPlan) error {
	fmt.Fprintf(w, "%s: straight cuts and scores\n", d.Title)
	fmt.Fprintln(w, export.TrimCaution)
	number := 1
	for _, p := range plan.Papers {
		steps := p.Steps(d.Units, number)
		number += len(steps)
		fmt.Fprintf(w, "\n%s: %s\n", p.Paper.Name, p.Summary(d.Units))
		for _, s := range steps {
			fmt.Fprintf(w, "%3d. %s\n", s.Number, s.Text)
		}
	}
	for _, r := range plan.Refused {
		fmt.Fprintf(w, "\n%s cannot be cut straight: %s\n", r.Kind, r.Why)
	}
	return nil
}

type designTrim struct {
	Papers  []trimJSON    `json:"papers"`
	Refused []trimRefused `json:"refused"`
}

type trimRefused struct {
	Kind string `json:"kind"`
	Why  string `json:"why"`
}

func designTrimJSON(d layouts.Design, plan layouts.TrimPlan) designTrim {
	out := designTrim{Papers: []trimJSON{}, Refused: []trimRefused{}}
	number := 1
	for _, p := range plan.Papers {
		one := trimJSON{Paper: p.Paper.Name, Bound: p.Plan.Bound, Proved: p.Plan.Proved, Sheets: []trimSheet{}, Steps: []trimStep{}}
		for _, t := range p.Plan.Trees {
			one.Sheets = append(one.Sheets, trimSheet{p.Paper.Name, sizeOf(p.Paper.Sheet), 1, nodeOf(t)})
		}
		for _, s := range p.Steps(d.Units, number) {
			one.Steps = append(one.Steps, trimStep{s.Text, mmOf(s.Stop), s.Cuts})
			number++
		}
		out.Papers = append(out.Papers, one)
	}
	for _, r := range plan.Refused {
		out.Refused = append(out.Refused, trimRefused{r.Kind, r.Why})
	}
	return out
}

type (
	trimNode struct {
		X      json.Number `json:"x_mm"`
		Y      json.Number `json:"y_mm"`
		W      json.Number `json:"w_mm"`
		H      json.Number `json:"h_mm"`
		Cut    *trimCut    `json:"cut,omitempty"`
		Parts  []trimNode  `json:"parts,omitempty"`
		Piece  string      `json:"piece,omitempty"`
		Offcut bool        `json:"offcut,omitempty"`
	}
	trimCut struct {
		Axis string      `json:"axis"`
		At   json.Number `json:"at_mm"`
	}
	trimSheet struct {
		Stock string         `json:"stock"`
		Size  [2]json.Number `json:"size_mm"`
		Count int            `json:"count"`
		Tree  trimNode       `json:"tree"`
	}
	trimStep struct {
		Text string      `json:"text"`
		Stop json.Number `json:"stop_mm"`
		Cuts int         `json:"cuts"`
	}
	trimJSON struct {
		Paper  string      `json:"paper,omitempty"`
		Sheets []trimSheet `json:"sheets"`
		Steps  []trimStep  `json:"steps"`
		Bound  int         `json:"bound_sheets"`
		Proved bool        `json:"proved"`
	}
)

func trimOutput(job trimming.Job, plan trimming.Planned, unit geometry.Unit) trimJSON {
	out := trimJSON{Bound: plan.Bound, Proved: plan.Proved, Sheets: []trimSheet{}, Steps: []trimStep{}}
	for _, t := range plan.Trees {
		out.Sheets = append(out.Sheets, trimSheet{job.Stock.Size.Format(unit), sizeOf(job.Stock.Size), 1, nodeOf(t)})
	}
	for _, s := range trimming.Steps(plan.Trees) {
		out.Steps = append(out.Steps, trimStep{stepText(s, unit), mmOf(s.Stop), s.Cuts * s.Parts})
	}
	return out
}

func nodeOf(p *trimming.Part) trimNode {
	n := trimNode{X: mmOf(p.Box.Min.X), Y: mmOf(p.Box.Min.Y), W: mmOf(p.Box.W()), H: mmOf(p.Box.H())}
	switch {
	case p.Cut != nil:
		n.Cut = &trimCut{"y", mmOf(p.Cut.At)}
		if p.Cut.Upright {
			n.Cut.Axis = "x"
		}
		n.Parts = []trimNode{nodeOf(p.Parts[0]), nodeOf(p.Parts[1])}
	case p.Piece >= 0:
		n.Piece = fmt.Sprint(p.Piece + 1)
	default:
		n.Offcut = true
	}
	return n
}
