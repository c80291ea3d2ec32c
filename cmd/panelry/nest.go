package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/export/svg/checker"
	"panelry/geometry"
	"panelry/geometry/nesting"
	"panelry/layouts/cards"
	"panelry/layouts/wording"
)

const nestHelp = `Nest lays the closed outlines of SVG files on few sheets, or on a short length
of a roll, letting them interlock. Files are read at true size, as panelry check
reads them; data-copies on a shape says how many of it are wanted. Pieces are
never mirrored.

Pieces lie as they are drawn unless --turn allows more: half (upside down),
quarter, free, or a list of degrees like "0 30 60". --sheet can be given more
than once, with a count behind a colon: what comes first is used first.

Neat rows come first and stay unless interlocking saves a sheet, or roll. A
verifier that shares nothing with the search looks at the result before it is
written. The same files, options and seed give the same sheets. Ctrl-C ends the
search with the best so far.

Cut a trial piece first, mind the cutter's manual, and keep blades from
children.`

type nestFlags struct {
	units, roll, edge, spacing, turn, effort, dir string
	sheets                                        []string
	copies                                        int
	seed                                          int64
	asJSON, force                                 bool
}

func newNest() *cobra.Command {
	var f nestFlags
	cmd := &cobra.Command{
		Use:   "nest FILE.svg ...",
		Short: "Lay any outlines on few sheets, or on a short length of a roll",
		Long:  nestHelp,
		Example: `  panelry nest shapes.svg --sheet 12x12in -o nested
  panelry nest leaf.svg --copies 40 --sheet "ISO A4" --turn free --effort normal -o leaves
  panelry nest shapes.svg --sheet 6x12in:1 --sheet 12x12in --spacing 1/16in -o nested
  panelry nest shapes.svg --roll 12in --turn half --json`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"nest wants an SVG file with outlines", "panelry nest --help shows examples"}
			}
			return nil
		},
		RunE: f.run,
	}
	flags := cmd.Flags()
	flags.StringVar(&f.units, "units", "", "in or mm: how lengths are shown, and what bare numbers are")
	flags.StringArrayVar(&f.sheets, "sheet", nil, `a sheet's size, and how many there are: "12x12in", "ISO A4:3"; more than once for more sizes`)
	flags.StringVar(&f.roll, "roll", "", "in place of --sheet: a roll so wide")
	flags.StringVar(&f.edge, "edge", "0 mm", "kept clear along the sheet's sides")
	flags.StringVar(&f.spacing, "spacing", "0 mm", "kept between pieces; with 0, edges that pieces share are cut once")
	flags.StringVar(&f.turn, "turn", "none", `none, half, quarter, free, or degrees: "0 30 60"`)
	flags.IntVar(&f.copies, "copies", 1, "how many of each shape, times its data-copies")
	flags.StringVar(&f.effort, "effort", "quick", "quick, normal or thorough: about 0.2, 5 or 60 seconds of work")
	flags.Int64Var(&f.seed, "seed", 0, "another number tries other ways")
	flags.StringVarP(&f.dir, "output", "o", "", "the folder for the sheets")
	flags.BoolVar(&f.force, "force", false, "write over files in the folder that are not as Panelry wrote them")
	flags.BoolVar(&f.asJSON, "json", false, "print where everything lies, for programs, in mm")
	cmd.RegisterFlagCompletionFunc("effort", cobra.FixedCompletions(efforts, cobra.ShellCompDirectiveNoFileComp))
	cmd.RegisterFlagCompletionFunc("turn", cobra.FixedCompletions([]string{"none", "half", "quarter", "free"}, cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

func (f *nestFlags) run(cmd *cobra.Command, args []string) error {
	nested, err := f.job()
	if err != nil {
		return err
	}
	if err := f.read(args, &nested.Job); err != nil {
		return err
	}
	nested.Title = strings.Join(baseNames(args), ", ")
	ctx, stop := signal.NotifyContext(cmd.Context(), os.Interrupt)
	defer stop()
	if err := f.find(ctx, cmd.ErrOrStderr(), &nested); err != nil {
		return err
	}
	if f.dir != "" {
		files, err := export.NestFiles(nested)
		if err != nil {
			return err
		}
		if _, err := export.WriteFolder(f.dir, files, f.force); err != nil {
			return err
		}
	}
	if f.asJSON {
		data, err := export.NestJSON(nested)
		if err != nil {
			return err
		}
		_, err = cmd.OutOrStdout().Write(data)
		return err
	}
	printNest(cmd.OutOrStdout(), nested, f.dir)
	return nil
}

func baseNames(paths []string) []string {
	var names []string
	for _, p := range paths {
		names = append(names, filepath.Base(p))
	}
	return names
}

// job reads the flags.
func (f *nestFlags) job() (export.Nested, error) {
	n := export.Nested{Effort: f.effort, Seed: f.seed}
	unit, ok := geometry.ParseUnit(f.units)
	switch {
	case f.units != "" && !ok:
		return n, &usageError{fmt.Sprintf("--units %s: write %s", f.units, wording.Or([]string{"in", "mm"})), ""}
	case !slices.Contains(efforts, f.effort):
		return n, &usageError{fmt.Sprintf("--effort %s: write %s", f.effort, wording.OrPlain(efforts)), ""}
	case len(f.sheets) == 0 && f.roll == "" || len(f.sheets) > 0 && f.roll != "":
		return n, &usageError{"nest wants --sheet, or --roll, and not both", "panelry nest --help shows examples"}
	case f.copies < 1:
		return n, &usageError{fmt.Sprintf("--copies %d: write a whole number from 1 up", f.copies), ""}
	}
	var err error
	if n.Job.Edge, err = flagLength("edge", f.edge, unit); err != nil {
		return n, err
	}
	if n.Job.Spacing, err = flagLength("spacing", f.spacing, unit); err != nil {
		return n, err
	}
	for _, text := range f.sheets {
		sheet, err := stockFlag(text, unit)
		if err != nil {
			return n, err
		}
		n.Job.Stock = append(n.Job.Stock, sheet)
	}
	if f.roll != "" {
		width, err := flagLength("roll", f.roll, unit)
		if err != nil {
			return n, err
		}
		n.Job.Stock = []nesting.Sheet{{Size: geometry.Size{W: mostRoll, H: width}, Count: 1, Roll: true}}
	}
	if n.Units = unit; unit == geometry.NoUnit {
		n.Units = geometry.Millimetres
		if all := strings.Join(f.sheets, " ") + f.roll; !strings.Contains(all, "mm") && !strings.Contains(all, "cm") && n.Job.Stock[0].Size.H%(geometry.Inch/64) == 0 {
			n.Units = geometry.Inches
		}
	}
	return n, nil
}

// mostRoll is how much of a roll there is: as much as coordinates reach, less
// room to turn pieces in.
const mostRoll = 50_000 * geometry.Millimetre

// stockFlag reads a sheet's size and, behind a colon, how many there are.
func stockFlag(text string, unit geometry.Unit) (nesting.Sheet, error) {
	size, count, counted := strings.Cut(text, ":")
	var s nesting.Sheet
	var err error
	if counted {
		if s.Count, err = strconv.Atoi(strings.TrimSpace(count)); err != nil || s.Count < 1 {
			return s, &usageError{fmt.Sprintf(`--sheet %s: behind the colon stands how many there are, like "12x12in:3"`, text), ""}
		}
	}
	s.Size, err = flagSize("sheet", size, unit, cards.ForSheet|cards.ForCard)
	return s, err
}

// turns reads --turn.
func (f *nestFlags) turns() (nesting.Turns, error) {
	switch f.turn {
	case "none":
		return nesting.NoTurn, nil
	case "half":
		return nesting.HalfTurns, nil
	case "quarter":
		return nesting.QuarterTurns, nil
	case "free":
		return nesting.AnyTurn, nil
	}
	var degrees []float64
	for _, word := range strings.Fields(strings.ReplaceAll(f.turn, ",", " ")) {
		d, err := strconv.ParseFloat(word, 64)
		if err != nil || d < -360 || d > 360 {
			return nesting.Turns{}, &usageError{fmt.Sprintf(`--turn %s: write none, half, quarter, free, or degrees like "0 30 60"`, f.turn), ""}
		}
		degrees = append(degrees, d)
	}
	return nesting.TurnsFrom(degrees...), nil
}

// read adds the shapes of the files.
func (f *nestFlags) read(args []string, job *nesting.Job) error {
	turns, err := f.turns()
	if err != nil {
		return err
	}
	for _, name := range args {
		data, err := os.ReadFile(name)
		if err != nil {
			return fmt.Errorf("cannot read %s: %w", name, errors.Unwrap(err))
		}
		shapes, err := checker.Counted(data)
		if err != nil {
			return &hintedError{fmt.Errorf("%s: %w", name, err), "panelry check " + name + " tells more"}
		}
		if len(shapes) == 0 {
			return fmt.Errorf("%s has no closed outline to cut", name)
		}
		for i, s := range shapes {
			label := s.Name
			if !strings.Contains(label, "#") {
				label = fmt.Sprintf("%s %d", label, i+1)
			}
			// Turned about its own middle, so that nothing reaches far out.
			outline := s.Outline.Moved(geometry.Point{}.Sub(s.Outline.Bounds().Min))
			job.Shapes = append(job.Shapes, nesting.Shape{Name: label, Outline: outline, Count: s.Copies * f.copies, Turns: turns})
		}
	}
	return nil
}

// find searches, and holds what is found against the job.
func (f *nestFlags) find(ctx context.Context, progress io.Writer, n *export.Nested) error {
	search := nesting.Search{Seed: uint64(f.seed), Effort: map[string]nesting.Effort{"quick": nesting.Quick, "normal": nesting.Normal, "thorough": nesting.Thorough}[f.effort]}
	shown := false
	if file, ok := progress.(*os.File); ok && f.effort != "quick" {
		if info, err := file.Stat(); err == nil && info.Mode()&os.ModeCharDevice != 0 {
			search.Progress = func(p nesting.Progress) {
				shown = true
				what := counted(p.Sheets, "sheet", "sheets")
				if p.Length > 0 {
					what = p.Length.Format(n.Units)
				}
				fmt.Fprintf(file, "\r%3.0f %% %s    ", 100*p.Done, what)
			}
		}
	}
	r, err := search.Find(ctx, n.Job)
	if shown {
		fmt.Fprintln(progress)
	}
	var large *nesting.TooLargeError
	var out *nesting.OutOfSheetsError
	switch {
	case errors.As(err, &large):
		return fmt.Errorf("%s is %s, and a sheet has %s to use; take larger sheets, a smaller edge, or allow turns",
			n.Job.Shapes[large.Shape].Name, large.Size.Format(n.Units), large.Usable.Format(n.Units))
	case errors.As(err, &out):
		return fmt.Errorf("the sheets have no room for %s", counted(out.Left, "piece", "pieces"))
	case err != nil:
		return err
	}
	if err := nesting.Verify(n.Job, r.Layout); err != nil {
		return fmt.Errorf("the laid-out sheets failed their check, so nothing is written: %w", err)
	}
	n.Result = r
	return nil
}

func printNest(w io.Writer, n export.Nested, dir string) {
	pieces := len(n.Result.Layout.Placements)
	r := n.Result
	switch {
	case r.Length > 0:
		bound := fmt.Sprintf("at least %s by %s", geometry.Length(r.Bound.Length).Format(n.Units), r.Bound.Kind)
		if r.Proved {
			bound = "proved best"
		}
		fmt.Fprintf(w, "%s on %s of the roll (%s), %.1f %% used\n", counted(pieces, "piece", "pieces"), r.Length.Format(n.Units), bound, 100*r.Density)
	default:
		bound := "no bound for sheets of several sizes"
		if r.Bound.Sheets > 0 {
			bound = fmt.Sprintf("at least %d by %s", r.Bound.Sheets, r.Bound.Kind)
		}
		if r.Proved {
			bound = "proved best"
		}
		fmt.Fprintf(w, "%s on %s (%s), %.1f %% used\n", counted(pieces, "piece", "pieces"), counted(len(r.Layout.Sheets), "sheet", "sheets"), bound, 100*r.Density)
		if s := r.Offcut.Size(); s.W > 0 && s.H > 0 {
			fmt.Fprintf(w, "left of the last sheet: %s\n", s.Format(n.Units))
		}
	}
	if !r.Proved && n.Effort != "thorough" {
		fmt.Fprintln(w, "more --effort may save more")
	}
	if dir != "" {
		fmt.Fprintf(w, "%s in %s\n", counted(len(r.Layout.Sheets), "sheet", "sheets"), dir)
	}
}
