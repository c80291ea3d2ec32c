package main

import (
	"fmt"
	"io"
	"slices"
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
strips first, then across, then slants, then scores, all papers in one list of
steps. From a design it plans the whole batch: both halves of a cell come from
one block and one cut from tip to tip, and sizes fall on the ruler's marks
unless the design says sizes = "exact". From --sheet and --piece it plans any
list of oblongs.

Fewest sheets come first, then fewest settings of the stop, then fewest cuts.
All cuts of a step are made at one setting: the stop alone makes the breadth of
every strip, so that no error adds up; only what is left of a part at the end
is as broad as the sheet leaves it. A simulator carries every plan out before
it is shown.

A piece is its size and, behind a colon, how many: "2 x 2 5/8 in:16". With
--turn quarter pieces may lie turned. -o writes the steps with pictures before
and after each, as cuts.md, cuts.csv and cuts/*.svg, into a folder. What the
trimmer can do stands under [trimmer] in a design; the options below go first.

Mind the trimmer's manual: keep fingers behind the guard, cut away from
yourself, and keep blades from children.`

type trimFlags struct {
	input
	sheet, roll   string
	turn          string
	pieces        []string
	effort        string
	seed          int64
	trimmer       trimmerFlags
	dir           string
	force, asJSON bool
}

// trimmerFlags say what a trimmer can do.
type trimmerFlags struct {
	longest, narrowest, pile, caliper, kerf, clean string
	left                                           bool
}

func newTrim() *cobra.Command {
	var f trimFlags
	cmd := &cobra.Command{
		Use:   "trim " + designArgument,
		Short: "The same card by straight cuts and scores, as a trimmer makes them",
		Long:  trimHelp,
		Example: `  panelry trim card.toml
  panelry trim card.toml -o card-cuts --left-handed
  panelry trim --sheet 12x12in --piece "2 x 2 5/8 in:16" --turn quarter
  panelry trim --sheet "ISO A4" --piece "48x63mm:20" --piece "105x148mm:3" --json
  panelry trim --roll 12in --piece "3x5in:20" --turn quarter`,
		Args: atMostOne("design file"),
		RunE: f.run,
	}
	f.flags(cmd)
	flags := cmd.Flags()
	flags.StringVar(&f.sheet, "sheet", "", `the sheets: "12 x 12 in", "ISO A4", Letter`)
	flags.StringVar(&f.roll, "roll", "", "in place of --sheet: a roll so wide, of which little is to be used")
	flags.StringArrayVar(&f.pieces, "piece", nil, `a size and how many: "2 x 2 5/8 in:16"; more than once for more sizes`)
	flags.StringVar(&f.turn, "turn", "none", "none or quarter: whether pieces may lie turned by a quarter")
	flags.StringVar(&f.trimmer.longest, "longest", "", "the longest cut that the trimmer makes")
	flags.StringVar(&f.trimmer.narrowest, "narrowest", "", "the narrowest strip that it holds (default 1/4 in)")
	flags.StringVar(&f.trimmer.pile, "pile", "", "how thick a pile it cuts; without it, one sheet at a time")
	flags.StringVar(&f.trimmer.caliper, "caliper", "", "with --piece: how thick a sheet is, for --pile")
	flags.StringVar(&f.trimmer.kerf, "kerf", "", "the width that a cut takes away (default 0, as blades do)")
	flags.StringVar(&f.trimmer.clean, "clean-edge", "", "trim so much off each sheet first, for a straight edge to measure from")
	flags.BoolVar(&f.trimmer.left, "left-handed", false, "pictures for somebody who cuts with the left hand")
	flags.StringVar(&f.effort, "effort", "", "quick, normal or thorough: how long to look for a better plan (default: the design's, or quick)")
	flags.Int64Var(&f.seed, "seed", 0, "another number tries other ways")
	flags.StringVarP(&f.dir, "output", "o", "", "write cuts.md, cuts.csv and the pictures into this folder")
	flags.BoolVar(&f.force, "force", false, "write over files in the folder that are not as Panelry wrote them")
	flags.BoolVar(&f.asJSON, "json", false, "print the tree of cuts and the steps for programs, in mm")
	cmd.RegisterFlagCompletionFunc("turn", cobra.FixedCompletions([]string{"none", "quarter"}, cobra.ShellCompDirectiveNoFileComp))
	cmd.RegisterFlagCompletionFunc("effort", cobra.FixedCompletions(efforts, cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

var efforts = []string{"quick", "normal", "thorough"}

func (f *trimFlags) run(cmd *cobra.Command, args []string) error {
	if f.effort != "" && !slices.Contains(efforts, f.effort) {
		return &usageError{fmt.Sprintf("--effort %s: write %s", f.effort, wording.OrPlain(efforts)), ""}
	}
	var plan layouts.TrimPlan
	var err error
	if len(args) > 0 || f.sheet == "" && f.roll == "" && len(f.pieces) == 0 {
		plan, err = f.fromDesign(cmd, args)
	} else {
		plan, err = f.fromList()
	}
	if err != nil {
		return err
	}
	if err := f.strictly(plan); err != nil {
		return err
	}
	if f.dir != "" {
		files, err := export.TrimFolder(plan)
		if err != nil {
			return err
		}
		if _, err := export.WriteFolder(f.dir, files, f.force); err != nil {
			return err
		}
	}
	if f.asJSON {
		data, err := export.TrimJSON(plan)
		if err != nil {
			return err
		}
		_, err = cmd.OutOrStdout().Write(data)
		return err
	}
	return printTrim(cmd.OutOrStdout(), plan)
}

// strictly makes an error of what a plan notes, with --strict; without, notes
// stand in the plan itself.
func (f *trimFlags) strictly(plan layouts.TrimPlan) error {
	if n := len(plan.Notes) + len(plan.Refused); f.strict && n > 0 {
		return fmt.Errorf("--strict: %s worth knowing, which counts as an error:\n  %s", counted(n, "thing is", "things are"),
			strings.Join(append(slices.Clone(plan.Notes), plan.Foot()...), "\n  "))
	}
	return nil
}

// set takes what the flags say of the trimmer over what a design says.
func (t trimmerFlags) set(s *layouts.TrimmerSettings, unit geometry.Unit) error {
	for _, l := range []struct {
		flag, text string
		to         *geometry.Length
	}{
		{"longest", t.longest, &s.Longest}, {"narrowest", t.narrowest, &s.Narrowest}, {"pile", t.pile, &s.Pile},
		{"kerf", t.kerf, &s.Kerf}, {"clean-edge", t.clean, &s.CleanEdge},
	} {
		if l.text == "" {
			continue
		}
		length, err := flagLength(l.flag, l.text, unit)
		if err != nil {
			return err
		}
		*l.to = length
	}
	s.LeftHanded = s.LeftHanded || t.left
	if key, complaint := s.Check(unit); complaint != "" {
		return &usageError{fmt.Sprintf("--%s: %s", strings.ReplaceAll(key, "_", "-"), complaint), ""}
	}
	return nil
}

// fromDesign plans straight cuts for a design.
func (f *trimFlags) fromDesign(cmd *cobra.Command, args []string) (layouts.TrimPlan, error) {
	if f.sheet != "" || f.roll != "" || len(f.pieces) > 0 || f.turn != "none" || f.trimmer.caliper != "" {
		return layouts.TrimPlan{}, &usageError{"a design says sheets, pieces, turns and calipers itself; leave --sheet, --roll, --piece, --turn and --caliper out", ""}
	}
	d, err := f.read(cmd, args)
	if err != nil {
		return layouts.TrimPlan{}, err
	}
	if err := f.trimmer.set(&d.Trimmer, d.Units); err != nil {
		return layouts.TrimPlan{}, err
	}
	if f.effort != "" {
		d.Sheets.Effort = f.effort
	}
	if cmd.Flags().Changed("seed") {
		d.Sheets.Seed = f.seed
	}
	plan, err := layouts.PlanTrim(d)
	return plan, placed(err, args)
}

// fromList plans straight cuts for a list of oblongs.
func (f *trimFlags) fromList() (layouts.TrimPlan, error) {
	list, err := f.list()
	if err != nil {
		return layouts.TrimPlan{}, err
	}
	return layouts.PlanTrimList(list)
}

func (f *trimFlags) list() (layouts.TrimList, error) {
	var list layouts.TrimList
	unit, ok := geometry.ParseUnit(f.units)
	switch {
	case f.units != "" && !ok:
		return list, &usageError{fmt.Sprintf("--units %s: write %s", f.units, wording.Or([]string{"in", "mm"})), ""}
	case f.sheet != "" && f.roll != "":
		return list, &usageError{"trim takes --sheet or --roll, not both", ""}
	case f.sheet == "" && f.roll == "" || len(f.pieces) == 0:
		return list, &usageError{"trim wants --sheet or --roll, and --piece for each size", "panelry trim --help shows examples"}
	case f.turn != "none" && f.turn != "quarter":
		return list, &usageError{fmt.Sprintf("--turn %s: straight cuts can turn pieces by a quarter; write none or quarter", f.turn), ""}
	}
	effort := f.effort
	if effort == "" {
		effort = "quick"
	}
	list.Job.Effort, list.Job.Seed = layouts.TrimEfforts()[effort], f.seed
	var err error
	if list.Roll = f.roll != ""; list.Roll {
		list.Job.Stock.Size.W, err = flagLength("roll", f.roll, unit)
	} else {
		list.Job.Stock.Size, err = flagSize("sheet", f.sheet, unit, cards.ForSheet|cards.ForCard)
	}
	if err != nil {
		return list, err
	}
	list.Trimmer.Narrowest = layouts.TrimmerBreadth
	if err := f.trimmer.set(&list.Trimmer, unit); err != nil {
		return list, err
	}
	if f.trimmer.caliper != "" {
		if list.Caliper, err = flagLength("caliper", f.trimmer.caliper, unit); err != nil {
			return list, err
		}
	}
	for _, text := range f.pieces {
		piece, err := f.piece(text, unit)
		if err != nil {
			return list, err
		}
		same := slices.IndexFunc(list.Job.Pieces, func(p trimming.Piece) bool { return p.Size == piece.Size })
		if same < 0 {
			list.Job.Pieces = append(list.Job.Pieces, piece)
		} else {
			list.Job.Pieces[same].Count += piece.Count
		}
	}
	if list.Units = unit; unit == geometry.NoUnit {
		list.Units = geometry.Millimetres
		if list.Job.Stock.Size.W%(geometry.Inch/64) == 0 && !strings.Contains(f.sheet+f.roll, "mm") {
			list.Units = geometry.Inches
		}
	}
	return list, nil
}

// piece reads a size and how many.
func (f *trimFlags) piece(text string, unit geometry.Unit) (trimming.Piece, error) {
	size, count, ok := strings.Cut(text, ":")
	n, err := strconv.Atoi(strings.TrimSpace(count))
	if !ok || err != nil || n < 1 {
		return trimming.Piece{}, &usageError{fmt.Sprintf(`--piece %s: write the size and how many, like "2 x 2 5/8 in:16"`, text), ""}
	}
	s, err := flagSize("piece", size, unit, 0)
	return trimming.Piece{Size: s, Count: n, Turn: f.turn == "quarter"}, err
}

func printTrim(w io.Writer, plan layouts.TrimPlan) error {
	fmt.Fprintf(w, "%s: straight cuts and scores\n%s\n\n", plan.Title, layouts.TrimCaution)
	for _, line := range plan.Head() {
		fmt.Fprintln(w, line)
	}
	fmt.Fprintln(w)
	for _, s := range plan.Steps {
		fmt.Fprintf(w, "%3d. %s\n", s.Number, s.Text)
	}
	for _, line := range plan.Foot() {
		fmt.Fprintf(w, "\n%s\n", line)
	}
	return nil
}
