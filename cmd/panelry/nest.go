package main

import (
	"bytes"
	"context"
	"encoding/xml"
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
	"panelry/export/svg/findings"
	"panelry/geometry"
	"panelry/geometry/nesting"
	"panelry/layouts/cards"
	"panelry/layouts/wording"
)

const nestHelp = `Nest lays the closed outlines of SVG files on few sheets, or on a short length
of a roll, letting them interlock. Files are read at true size, as panelry check
reads them; data-copies on a shape says how many of it are wanted, and shapes
with the same data-block keep their places to each other, as where a pattern
runs on.

Pieces lie as they are drawn unless --turn allows more: half (upside down),
quarter, free, or a list of degrees like "0 30 60". --mirror turns them over
too, for paper that is alike on both sides; --in-holes lays them in the holes of
others. --sheet can be given more than once, with a count behind a colon: what
comes first is used first, so put offcuts before new sheets; what saves no new
sheet stays in the drawer. An SVG file with one outline is a scrap of that form:
--sheet scrap.svg:2. Without a count there is one of a scrap, and of a size as
many sheets as it takes.

Neat rows come first and stay unless interlocking saves a sheet, or roll. The
pieces of the last sheet are pushed together, and the largest oblong left in a
corner of it is named. A verifier that shares nothing with the search, and the
checker of panelry check, look at the result before it is written. The same
files, options and seed give the same sheets. Ctrl-C ends the search with the
best so far, and says so.

Cut a trial piece first, mind the cutter's manual, and keep blades from
children.`

type nestFlags struct {
	units, roll, edge, spacing, turn, effort, dir string
	sheets                                        []string
	copies                                        int
	seed                                          int64
	threads                                       int
	asJSON, force, mirror, inHoles                bool
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
  panelry nest frames.svg --sheet scrap.svg --sheet 12x12in --in-holes -o nested
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
	flags.StringArrayVar(&f.sheets, "sheet", nil, `a sheet's size or a scrap's SVG file, and how many there are: "12x12in" (as many as it takes), "ISO A4:3", "scrap.svg" (one), "scrap.svg:2"; more than once for more`)
	flags.StringVar(&f.roll, "roll", "", "in place of --sheet: a roll so wide")
	flags.StringVar(&f.edge, "edge", "0 mm", "kept clear along the sheet's sides")
	flags.StringVar(&f.spacing, "spacing", "0 mm", "kept between pieces; with 0, edges that pieces share are cut once")
	flags.StringVar(&f.turn, "turn", "none", `none, half, quarter, free, or degrees from -360 to 360: "0 30 60"`)
	flags.IntVar(&f.copies, "copies", 1, "how many of each shape, times its data-copies")
	flags.StringVar(&f.effort, "effort", "quick", "quick, normal or thorough: about 0.2, 5 or 60 seconds of work")
	flags.Int64Var(&f.seed, "seed", 0, "another number tries other ways")
	flags.IntVar(&f.threads, "threads", 1, "search in so many ways at once, each with the whole effort")
	flags.BoolVar(&f.mirror, "mirror", false, "pieces may be turned over: for paper alike on both sides")
	flags.BoolVar(&f.inHoles, "in-holes", false, "pieces may lie in holes of others")
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
	if err := f.read(cmd.ErrOrStderr(), args, &nested); err != nil {
		return err
	}
	if f.dir != "" {
		if err := export.FolderReady(f.dir, f.force); err != nil {
			return err
		}
	}
	warnOfOrder(cmd.ErrOrStderr(), nested)
	nested.Title = strings.Join(baseNames(args), ", ")
	ctx, stop := signal.NotifyContext(cmd.Context(), os.Interrupt)
	defer stop()
	if err := f.find(ctx, cmd.ErrOrStderr(), &nested); err != nil {
		return err
	}
	if f.dir != "" {
		files, told, err := export.NestFiles(nested)
		if err != nil {
			return err
		}
		for _, t := range told {
			fmt.Fprintln(cmd.ErrOrStderr(), "panelry: worth knowing:", t)
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
	case f.threads < 1 || f.threads > mostThreads:
		return n, &usageError{fmt.Sprintf("--threads %d: write a whole number from 1 to %d", f.threads, mostThreads), ""}
	case f.copies < 1:
		return n, &usageError{fmt.Sprintf("--copies %d: write a whole number from 1 up", f.copies), ""}
	}
	n.Job.InHoles = f.inHoles
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
		if width <= 2*n.Job.Edge {
			return n, &usageError{fmt.Sprintf("--roll %s: that leaves no width between the edges", f.roll), ""}
		}
		n.Job.Stock = []nesting.Sheet{{Size: geometry.Size{W: mostRoll, H: width}, Count: 1, Roll: true}}
	}
	if n.Units = unit; unit == geometry.NoUnit {
		n.Units = f.unitsOfStock(n.Job.Stock)
	}
	for i, text := range f.sheets {
		if text = stockName(text); !isSVG(text) {
			text = n.Job.Stock[i].Size.Format(n.Units)
		}
		n.StockNames = append(n.StockNames, text)
	}
	return n, nil
}

// unitsOfStock tells from the sizes given whether the maker thinks in inches.
func (f *nestFlags) unitsOfStock(stock []nesting.Sheet) geometry.Unit {
	texts := append(slices.Clone(f.sheets), f.roll)
	unit := geometry.Millimetres
	for i, s := range stock {
		switch text := strings.ToLower(texts[i]); {
		case isSVG(stockName(text)):
		case strings.Contains(text, "mm") || strings.Contains(text, "cm") || s.Size.H%(geometry.Inch/64) != 0:
			return geometry.Millimetres
		default:
			unit = geometry.Inches
		}
	}
	return unit
}

// stockName is what --sheet says without the count.
func stockName(text string) string {
	if at := strings.LastIndexByte(text, ':'); at > 0 && !isSVG(text) {
		return strings.TrimSpace(text[:at])
	}
	return text
}

func isSVG(name string) bool { return strings.HasSuffix(strings.ToLower(name), ".svg") }

// mostThreads is how many searches may run at once.
const mostThreads = 64

// mostRoll is how much of a roll there is: as much as coordinates reach, less
// room to turn pieces in.
const mostRoll = 50_000 * geometry.Millimetre

// stockFlag reads a sheet's size and, behind a colon, how many there are.
func stockFlag(text string, unit geometry.Unit) (nesting.Sheet, error) {
	size, count := stockName(text), 0
	if size != text {
		var err error
		if count, err = strconv.Atoi(strings.TrimSpace(text[strings.LastIndexByte(text, ':')+1:])); err != nil || count < 1 {
			return nesting.Sheet{}, &usageError{fmt.Sprintf(`--sheet %s: behind the colon stands how many there are, like "12x12in:3"`, text), ""}
		}
	}
	if isSVG(size) {
		return scrapFrom(size, max(count, 1))
	}
	got, err := flagSize("sheet", size, unit, cards.ForSheet|cards.ForCard)
	return nesting.Sheet{Size: got, Count: count}, err
}

// scrapFrom reads the outline of a scrap.
func scrapFrom(name string, count int) (nesting.Sheet, error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return nesting.Sheet{}, fmt.Errorf("cannot read %s: %w", name, errors.Unwrap(err))
	}
	outlines, err := checker.Shapes(data)
	if err != nil {
		return nesting.Sheet{}, &hintedError{fmt.Errorf("%s: %w", name, err), "panelry check " + name + " tells more"}
	}
	if len(outlines) != 1 {
		return nesting.Sheet{}, fmt.Errorf("%s has %s; a scrap is one, with holes if need be", name, counted(len(outlines), "outline", "outlines"))
	}
	return nesting.Scrap(outlines[0], count), nil
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
	words := strings.Fields(strings.ReplaceAll(f.turn, ",", " "))
	if len(words) == 0 {
		words = []string{""}
	}
	for _, word := range words {
		d, err := strconv.ParseFloat(word, 64)
		if err != nil || !(d >= -360 && d <= 360) { // NaN is neither
			return nesting.Turns{}, &usageError{fmt.Sprintf(`--turn %s: write none, half, quarter, free, or degrees from -360 to 360 like "0 30 60"`, f.turn), ""}
		}
		degrees = append(degrees, d)
	}
	return nesting.TurnsFrom(degrees...), nil
}

// read adds the shapes of the files.
func (f *nestFlags) read(warn io.Writer, args []string, n *export.Nested) error {
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
			return &hintedError{fmt.Errorf("%s has no closed outline to cut", name),
				"close each outline; of a sheet with shared edges, nest the file that it was made from"}
		}
		if err := leftOut(warn, name, checker.Check(data, checker.Demands{})); err != nil {
			return err
		}
		for _, what := range notLaid(data) {
			fmt.Fprintf(warn, "panelry: worth knowing: %s: %s\n", name, what)
		}
		of := ""
		if len(args) > 1 {
			of = filepath.Base(name) + " "
		}
		if err := f.add(of, shapes, turns, n); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	return nil
}

// warnOfOrder tells of stock that stands behind as many sheets as it takes.
func warnOfOrder(w io.Writer, n export.Nested) {
	for i := 1; i < len(n.Job.Stock); i++ {
		if first := slices.IndexFunc(n.Job.Stock[:i], func(s nesting.Sheet) bool { return s.Count == 0 }); first >= 0 {
			fmt.Fprintf(w, "panelry: worth knowing: there are as many of %s as it takes, so %s behind them is used only for what does not fit there; put it first\n", n.StockNames[first], n.StockNames[i])
		}
	}
}

// notLaid lists what an SVG file holds besides shapes: text and pictures, and
// counts or blocks of groups, which belong on the shapes themselves.
func notLaid(data []byte) []string {
	var out []string
	tell := func(text string) {
		if !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	for d := xml.NewDecoder(bytes.NewReader(data)); ; {
		token, err := d.Token()
		if err != nil { // what cannot be read was refused before
			return out
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		switch start.Name.Local {
		case "text", "image":
			tell(fmt.Sprintf("<%s> is left out: nest lays outlines", start.Name.Local))
		case "g", "svg", "use", "symbol":
			for _, a := range start.Attr {
				if a.Name.Local == "data-copies" || a.Name.Local == "data-block" {
					tell(fmt.Sprintf("%s on <%s> counts nothing: write it on each shape", a.Name.Local, start.Name.Local))
				}
			}
		}
	}
}

// leftOut tells of what a file holds that is not laid: open lines, elements that
// draw nothing, layers that are not cut. Outlines that cross are refused.
func leftOut(w io.Writer, name string, report checker.Report) error {
	tell := func(element, why string) {
		fmt.Fprintf(w, "panelry: worth knowing: %s: %s is left out: %s\n", name, element, why)
	}
	for _, found := range report.Findings {
		switch found.Rule {
		case findings.CrossingOutlines:
			return &hintedError{fmt.Errorf("%s: %s: %s", name, found.Element, found.Message), "panelry check " + name + " tells more"}
		case findings.OpenOutline, findings.DrawsNothing:
			tell(found.Element, found.Message)
		}
	}
	for _, layer := range report.Layers {
		if layer.ID == string(checker.Score) || layer.ID == string(checker.Print) {
			tell(fmt.Sprintf("layer %q", layer.ID), "nest lays what is cut")
		}
	}
	return nil
}

// add adds the shapes of one file, those of a block to its first. Their names
// begin with what tells files apart.
func (f *nestFlags) add(of string, shapes []checker.Shape, turns nesting.Turns, n *export.Nested) error {
	blocks := map[string]int{}
	origin := map[string]geometry.Vector{}
	for i, s := range shapes {
		label := s.Name
		if !strings.Contains(label, "#") {
			label = fmt.Sprintf("%s %d", label, i+1)
		}
		label = of + label
		if at, ok := blocks[s.Block]; ok && s.Block != "" {
			first := &n.Job.Shapes[at]
			if s.Copies*f.copies != first.Count {
				return fmt.Errorf("%s wants %d copies, and %s of the same block %d; give all of a block the same data-copies", label, s.Copies, first.Name, first.Count/f.copies)
			}
			first.Block = append(first.Block, s.Outline.Moved(origin[s.Block]))
			n.Names[at] = append(n.Names[at], label)
			continue
		}
		// Turned about its own corner, so that nothing reaches far out.
		by := geometry.Point{}.Sub(s.Outline.Bounds().Min)
		blocks[s.Block], origin[s.Block] = len(n.Job.Shapes), by
		n.Job.Shapes = append(n.Job.Shapes, nesting.Shape{Name: label, Outline: s.Outline.Moved(by), Count: s.Copies * f.copies, Turns: turns, Mirror: f.mirror})
		n.Names = append(n.Names, []string{label})
	}
	return nil
}

// find searches, and holds what is found against the job.
func (f *nestFlags) find(ctx context.Context, progress io.Writer, n *export.Nested) error {
	search := nesting.Search{Seed: uint64(f.seed), Threads: f.threads, Effort: map[string]nesting.Effort{"quick": nesting.Quick, "normal": nesting.Normal, "thorough": nesting.Thorough}[f.effort]}
	bar := newProgressBar(progress)
	search.Progress = func(p nesting.Progress) {
		what := counted(p.Sheets, "sheet", "sheets")
		if len(n.Job.Stock) > 1 {
			what += fmt.Sprintf(", %d of %s", p.Last, n.StockNames[len(n.Job.Stock)-1])
		}
		if p.Length > 0 {
			what = p.Length.Format(n.Units)
		}
		bar.show(p.Done, fmt.Sprintf("%s, %.1f %% used", what, 100*p.Density))
	}
	r, err := search.Find(ctx, n.Job)
	bar.end()
	var large *nesting.TooLargeError
	var out *nesting.OutOfSheetsError
	switch {
	case errors.As(err, &large) && n.Job.Stock[0].Roll:
		return fmt.Errorf("%s is %s, and the roll is %s wide between its edges; take a wider roll, a smaller edge, or allow turns",
			n.Job.Shapes[large.Shape].Name, large.Size.Format(n.Units), large.Usable.H.Format(n.Units))
	case errors.As(err, &large):
		if large.Usable.W <= 0 || large.Usable.H <= 0 {
			return fmt.Errorf("an edge of %s leaves nothing of any sheet; take a smaller edge, or larger sheets", n.Job.Edge.Format(n.Units))
		}
		return fmt.Errorf("%s is %s, and a sheet has %s to use; take larger sheets, a smaller edge, or allow turns",
			n.Job.Shapes[large.Shape].Name, large.Size.Format(n.Units), large.Usable.Format(n.Units))
	case errors.As(err, &out):
		return &hintedError{fmt.Errorf("the sheets have no room for %s", counted(out.Left, "piece", "pieces")),
			"add --sheet with a size and no count for as many sheets as it takes"}
	case err != nil:
		return err
	}
	if err := nesting.Verify(n.Job, r.Layout); err != nil {
		return fmt.Errorf("the laid-out sheets failed their check, so nothing is written: %w", err)
	}
	n.Result, n.Ended = r, ctx.Err() != nil
	return nil
}

func printNest(w io.Writer, n export.Nested, dir string) {
	pieces := 0
	for _, p := range n.Result.Layout.Placements {
		pieces += len(n.Names[p.Shape])
	}
	r := n.Result
	sheets := counted(len(r.Layout.Sheets), "sheet", "sheets")
	on := sheets
	if r.Length > 0 {
		on = r.Length.Format(n.Units) + " of the roll"
	}
	fmt.Fprintf(w, "%s on %s (%s), %.1f %% used\n", counted(pieces, "piece", "pieces"), on, nestBound(n), 100*r.Density)
	if len(n.Job.Stock) > 1 {
		fmt.Fprintf(w, "sheets: %s\n", wording.AndPlain(ofEachStock(n)))
	}
	if s := r.Offcut.Size(); min(s.W, s.H) >= leastKept {
		fmt.Fprintf(w, "left in a corner of the last sheet: %s\n", s.Format(n.Units))
	}
	switch {
	case n.Ended:
		fmt.Fprintln(w, "the search was ended early: this is the best so far")
	case !r.Proved && n.Effort != "thorough" && (len(n.Job.Stock) == 1 || slices.Contains(r.Layout.Sheets, len(n.Job.Stock)-1)):
		fmt.Fprintln(w, "more --effort may save more")
	}
	if dir != "" {
		fmt.Fprintf(w, "%s in %s\n", sheets, dir)
	}
}

// leastKept is the least side of an oblong worth naming. Our own measure, no
// source.
const leastKept = geometry.Inch / 2

// nestBound says what no layout can do with less of.
func nestBound(n export.Nested) string {
	r, last := n.Result, len(n.Job.Stock)-1
	switch {
	case r.Proved:
		return "proved best"
	case r.Length > 0:
		return fmt.Sprintf("at least %s by %s", (geometry.Length(r.Bound.Length) + 2*n.Job.Edge).Format(n.Units), r.Bound.Kind)
	case last > 0 && !slices.Contains(r.Layout.Sheets, last):
		return "none of " + n.StockNames[last]
	case r.Bound.Sheets == 0:
		return "no bound is known"
	case last > 0:
		return fmt.Sprintf("at least %d of %s by %s", r.Bound.Sheets, n.StockNames[last], r.Bound.Kind)
	}
	return fmt.Sprintf("at least %d by %s", r.Bound.Sheets, r.Bound.Kind)
}

// ofEachStock lists how many sheets are taken of each entry of the stock.
func ofEachStock(n export.Nested) []string {
	taken := make([]int, len(n.Job.Stock))
	for _, s := range n.Result.Layout.Sheets {
		taken[s]++
	}
	var out []string
	for i, count := range taken {
		if count > 0 {
			out = append(out, fmt.Sprintf("%d of %s", count, n.StockNames[i]))
		}
	}
	return out
}
