package main

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/export/pdf"
	"panelry/layouts"
	"panelry/layouts/wording"
)

const makeHelp = `Make works out a design and writes its kit into a folder: an SVG a sheet for
the cutter, a map of each sheet, the true-scale template as a PDF, pictures as
SVG and PNG, placing aids, the making guide as HTML and Markdown, a list of the
pieces, kit.json, and a copy of the design.

--only writes some of them: sheets (or svg), template (or pdf), picture (or
png), guide (or html, md), aids, cuts, design, maps, pieces. --zip packs the
kit into one file, in place of the folder unless -o names one too.

` + aboutDesign + ` The kit goes to
the folder named with -o, else to the design's name with -kit behind it, in
this folder. Files there that are not Panelry's are kept.

--effort normal or thorough searches longer for fewer sheets, and shows on a
terminal how far it is; Ctrl-C then ends the search with the best so far.

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
  count = 3                 count = 1

An offcut that is no oblong has outline = "scrap.svg" in place of its size: one
outline at true size in an SVG file beside the stock file.`

type makeFlags struct {
	input
	stock         stockFlags
	dir, zip      string
	only          []string
	asJSON, force bool
}

func newMake() *cobra.Command {
	var f makeFlags
	f.prepare = f.stock.prepare
	cmd := &cobra.Command{
		Use:   "make " + designArgument,
		Short: "Write the kit of a design: sheets for the cutter and all that goes with them",
		Long:  makeHelp,
		Example: `  panelry make                       the demo, into demo-kit
  panelry make card.toml             into card-kit
  panelry make card.toml -o spring   into spring
  panelry make card.toml --only svg,pdf
  panelry make card.toml --zip card.zip
  panelry make card.toml --use-stock stock.toml --most --write-stock`,
		Args: atMostOne("design file"),
		RunE: f.run,
	}
	f.flags(cmd)
	f.stock.flags(cmd)
	flags := cmd.Flags()
	flags.StringVarP(&f.dir, "output", "o", "", "the folder for the kit")
	flags.StringVar(&f.effort, "effort", "", "quick, normal or thorough: how long to search for fewer sheets (default: the design's, or quick)")
	cmd.RegisterFlagCompletionFunc("effort", cobra.FixedCompletions(efforts, cobra.ShellCompDirectiveNoFileComp))
	flags.StringSliceVar(&f.only, "only", nil, "write only these: svg, pdf, picture, guide, aids, cuts, maps, pieces, design")
	flags.StringVar(&f.zip, "zip", "", "pack the kit into this file")
	flags.BoolVar(&f.asJSON, "json", false, "print kit.json instead of the summary")
	flags.BoolVar(&f.force, "force", false, "write over files in the folder that are not as Panelry wrote them, or a zip that is there")
	return cmd
}

func (f *makeFlags) run(cmd *cobra.Command, args []string) error {
	if f.effort != "" && !slices.Contains(efforts, f.effort) {
		return &usageError{fmt.Sprintf("--effort %s: write %s", f.effort, wording.OrPlain(efforts)), ""}
	}
	only, err := fileKinds(f.only)
	if err != nil {
		return err
	}
	if ext := filepath.Ext(f.zip); f.zip != "" && !strings.EqualFold(ext, ".zip") {
		return &usageError{fmt.Sprintf("--zip %s: end its name in .zip", f.zip), ""}
	}
	kit, err := f.plan(cmd, args)
	if err != nil {
		return err
	}
	files, err := export.Files(kit, only...)
	if err != nil {
		return err
	}
	if note := lacking(kit.Design, files); note != "" {
		fmt.Fprintf(cmd.ErrOrStderr(), "panelry: worth knowing: %s\n", note)
	}
	done, where, err := f.write(files, args)
	if err != nil {
		return err
	}
	if err := f.stock.write(kit); err != nil {
		return err
	}
	if f.asJSON {
		return printFile(cmd.OutOrStdout(), files, export.KitFile)
	}
	return printKit(cmd.OutOrStdout(), kit, where, len(files), done)
}

// lacking says which signs the template among the files could not write.
func lacking(d layouts.Design, files []export.File) string {
	if !slices.ContainsFunc(files, func(f export.File) bool { return f.Name == export.TemplateFile }) {
		return ""
	}
	texts := []string{d.Title}
	for _, p := range d.Papers {
		texts = append(texts, p.Name)
	}
	return pdf.Lacking(texts...)
}

// write puts the files where the flags say, and tells where.
func (f *makeFlags) write(files []export.File, args []string) (export.Report, string, error) {
	if f.dir == "" && f.zip == "" {
		f.dir = stem(args) + "-kit"
	}
	var where []string
	var done export.Report
	var err error
	if f.dir != "" {
		if done, err = export.WriteFolder(f.dir, files, f.force); err != nil {
			return done, "", err
		}
		where = append(where, f.dir)
	}
	if f.zip != "" {
		data, err := export.Zip(files)
		if err == nil {
			err = export.WriteFile(f.zip, data, f.force)
		}
		if err != nil {
			return done, "", err
		}
		where = append(where, f.zip)
	}
	return done, wording.AndPlain(where), nil
}

// otherNames are file endings that --only takes for kinds of file.
var otherNames = map[string]string{"svg": "sheets", "pdf": "template", "png": "picture", "html": "guide", "md": "guide", "csv": "pieces", "toml": "design", "json": "kit"}

// fileKinds are the kinds of file that --only names; kit.json goes with any,
// so that a second run knows its own files.
func fileKinds(only []string) ([]string, error) {
	if len(only) == 0 {
		return nil, nil
	}
	kinds := []string{"kit"}
	for _, name := range only {
		name = strings.TrimSpace(name)
		if kind, has := otherNames[name]; has {
			name = kind
		}
		if !slices.Contains(export.Kinds(), name) {
			return nil, &usageError{fmt.Sprintf("--only %s: write %s%s", name, wording.OrPlain(export.Kinds()), wording.Meant(name, export.Kinds())), ""}
		}
		kinds = append(kinds, name)
	}
	return kinds, nil
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
	for _, u := range kit.Stock {
		if u.Least > 0 && u.Sheets > u.Least && kit.Design.Sheets.Effort != "thorough" {
			fmt.Fprintf(w, "\n%s: no layout takes fewer than %s (%s); more effort under [sheets] may come nearer\n",
				u.Paper.Name, counted(u.Least, "sheet", "sheets"), u.LeastName)
		}
	}
	fmt.Fprintf(w, "\n%s in %s\n", counted(files, "file", "files"), dir)
	for _, name := range done.Kept {
		fmt.Fprintf(w, "kept: %s\n", name)
	}
	return nil
}
