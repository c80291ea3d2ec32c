package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/export/svg/checker"
	"panelry/export/svg/findings"
	"panelry/export/svg/markup"
	"panelry/geometry"
	"panelry/layouts/cards"
	"panelry/layouts/wording"
)

const checkHelp = `Check reads SVG files, Panelry's own or from anywhere, as the standard lays
down, and tells for each whether it comes out at its true size and cuts
cleanly: what is wrong, where (line and column), which rule of which standard
it breaks, and what to do. Where programs are known to read a file each in
its own way, it says so and does not guess.

An error spoils paper or leaves the size open; a warning is likely not what
is wanted; a note is to know. The exit code is 1 if a file has an error.

- is standard input. A file that passes still wants a test cut on scrap: mind
the machine's manual, blades and laser fumes, and keep children away.`

// checkDemands is what --sheet, --edge and --spacing ask for.
type checkDemands struct{ sheet, edge, spacing, units string }

func newCheck() *cobra.Command {
	var d checkDemands
	var asJSON, strict, force, rules bool
	var pictureFile string
	cmd := &cobra.Command{
		Use:   "check FILE.svg ...",
		Short: "Tell whether SVG files come out at true size and cut cleanly",
		Long:  checkHelp,
		Example: `  panelry check kit/sheets/*.svg
  panelry check found.svg --sheet "12 x 12 in" --edge "1/4 in" --spacing "1/16 in"
  panelry check found.svg --picture findings.svg
  panelry check --rules              every rule, and what it is for`,
		Args: func(cmd *cobra.Command, args []string) error {
			if rules == (len(args) > 0) {
				return &usageError{"check takes the names of SVG files, or --rules alone", "panelry check --help shows examples"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			out := cmd.OutOrStdout()
			if rules {
				return printRules(out, asJSON)
			}
			demands, err := d.read()
			if err != nil {
				return err
			}
			// A hostile file stays small: rubbish is cleared before it piles up.
			debug.SetMemoryLimit(160 << 20)
			if pictureFile != "" && len(args) > 1 {
				return &usageError{fmt.Sprintf("--picture draws one file, and here are %d", len(args)), ""}
			}
			reports, unread := checkFiles(cmd.InOrStdin(), args, demands)
			if unread != nil && len(reports) == 0 {
				return unread
			}
			if asJSON {
				err = printJSON(out, reports)
			} else {
				printReports(out, reports)
			}
			if err == nil && pictureFile != "" {
				err = writeFindings(out, pictureFile, reports[0], asJSON, force)
			}
			if err != nil {
				return err
			}
			if unread != nil {
				return unread
			}
			return verdict(reports, strict)
		},
		ValidArgsFunction: cobra.FixedCompletions([]string{"svg"}, cobra.ShellCompDirectiveFilterFileExt),
	}
	cmd.Flags().StringVar(&d.sheet, "sheet", "", `the sheet at hand: "12 x 12 in", "ISO A4", Letter`)
	cmd.Flags().StringVar(&d.edge, "edge", "", `what must stay free along each side: "1/4 in", 5mm`)
	cmd.Flags().StringVar(&d.spacing, "spacing", "", `the least distance between pieces: "1/16 in", 1.5mm`)
	cmd.Flags().StringVar(&d.units, "units", "", "in or mm: what bare numbers of these are")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print elements and findings as JSON")
	cmd.Flags().StringVar(&pictureFile, "picture", "", "draw the findings over the outlines, into an SVG file")
	cmd.Flags().BoolVar(&strict, "strict", false, "take warnings for errors")
	cmd.Flags().BoolVar(&force, "force", false, "write over a picture that is there")
	cmd.Flags().BoolVar(&rules, "rules", false, "list the rules; with --json as JSON")
	cmd.RegisterFlagCompletionFunc("units", cobra.FixedCompletions([]string{"in", "mm"}, cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

func (d checkDemands) read() (checker.Demands, error) {
	var out checker.Demands
	unit, ok := geometry.ParseUnit(d.units)
	if d.units != "" && !ok {
		return out, &usageError{fmt.Sprintf("--units %s: write %s", d.units, wording.Or([]string{"in", "mm"})), ""}
	}
	if d.sheet != "" {
		size, err := flagSize("sheet", d.sheet, unit, cards.ForSheet|cards.ForCard)
		if err != nil {
			return out, err
		}
		out.SheetW, out.SheetH = size.W.In(geometry.Millimetres), size.H.In(geometry.Millimetres)
	}
	for _, one := range []struct {
		flag, text string
		into       *float64
	}{{"edge", d.edge, &out.Edge}, {"spacing", d.spacing, &out.Spacing}} {
		if one.text == "" {
			continue
		}
		l, err := flagLength(one.flag, one.text, unit)
		if err != nil {
			return out, err
		}
		*one.into = l.In(geometry.Millimetres)
	}
	return out, nil
}

// checkFiles checks each file that can be read, and returns the first error
// of one that cannot.
func checkFiles(stdin io.Reader, names []string, d checker.Demands) (reports []checker.Named, unread error) {
	for _, name := range names {
		data, err := readSVG(stdin, name)
		if err != nil {
			if unread == nil {
				unread = err
			}
			continue
		}
		if name == "-" {
			name = "standard input"
		}
		reports = append(reports, checker.Named{Name: name, Report: checker.Check(data, d)})
	}
	return reports, unread
}

// readSVG reads a file, up to just past what the reader takes.
func readSVG(stdin io.Reader, name string) ([]byte, error) {
	from := stdin
	if name != "-" {
		f, err := os.Open(name)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, &hintedError{fmt.Errorf("there is no file %s", name), "panelry check --help shows examples"}
		}
		if err != nil {
			return nil, fmt.Errorf("cannot read %s: %w", name, errors.Unwrap(err))
		}
		defer f.Close()
		info, err := f.Stat()
		if err == nil && info.IsDir() {
			return nil, &hintedError{fmt.Errorf("%s is a folder, not an SVG file", name), "panelry check " + filepath.Join(name, "*.svg") + " checks the files in it"}
		}
		if err == nil && info.Mode().IsRegular() && info.Size() <= markup.MostBytes {
			return os.ReadFile(name)
		}
		from = f
	}
	data, err := io.ReadAll(io.LimitReader(from, markup.MostBytes+1))
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, err)
	}
	return data, nil
}

func printJSON(w io.Writer, reports []checker.Named) error {
	data, err := checker.JSON(reports)
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return err
}

// printReports prints a line a file and a line a finding.
func printReports(w io.Writer, reports []checker.Named) {
	for _, r := range reports {
		fmt.Fprintf(w, "%s: %s\n", r.Name, summary(r.Report))
		for _, f := range r.Findings {
			place := ""
			if f.Line > 0 {
				place = fmt.Sprintf("%d:%d: ", f.Line, f.Column)
			}
			element := ""
			if f.Element != "" {
				element = f.Element + ": "
			}
			fmt.Fprintf(w, "  %s%s: %s%s (%s; %s)\n", place, f.Rule.Severity, element, f.Message, f.Rule.ID, f.Rule.Clause)
		}
	}
	if len(reports) > 1 {
		pass := 0
		for _, r := range reports {
			if r.OK() {
				pass++
			}
		}
		fmt.Fprintf(w, "%d files: %d without errors, %d with\n", len(reports), pass, len(reports)-pass)
	}
}

// summary adds the size in inches where it is a size of rulers.
func summary(r checker.Report) string {
	text := r.Summary()
	if !r.Sized || r.W > 1e5 || r.H > 1e5 {
		return text
	}
	p, err := geometry.PointFromMM(r.W, r.H)
	if err != nil {
		return text
	}
	size := geometry.Size{W: p.X, H: p.Y}
	if size.W%(geometry.Inch/16) != 0 || size.H%(geometry.Inch/16) != 0 {
		return text
	}
	return strings.Replace(text, " mm", " mm ("+size.Format(geometry.Inches)+")", 1)
}

func printRules(w io.Writer, asJSON bool) error {
	if asJSON {
		data, err := checker.RulesJSON()
		if err != nil {
			return err
		}
		_, err = w.Write(data)
		return err
	}
	group := ""
	for _, r := range findings.All() {
		if r.Group != group {
			group = r.Group
			fmt.Fprintf(w, "%s\n", group)
		}
		fmt.Fprintf(w, "  %s (%s; %s)\n      %s\n", r.ID, r.Severity, r.Clause, r.Meaning)
		if r.Advice != "" {
			fmt.Fprintf(w, "      to do: %s\n", r.Advice)
		}
	}
	return nil
}

func writeFindings(w io.Writer, file string, r checker.Named, quiet, force bool) error {
	data, err := checker.Picture(filepath.Base(r.Name), r.Report)
	if err != nil {
		return err
	}
	if err := export.WriteFile(file, data, force); err != nil {
		return err
	}
	if !quiet {
		fmt.Fprintln(w, file)
	}
	return nil
}

// verdict is an error where a file does not pass.
func verdict(reports []checker.Named, strict bool) error {
	bad := 0
	for _, r := range reports {
		if !r.OK() || strict && r.Count(findings.Warning) > 0 {
			bad++
		}
	}
	if bad == 0 {
		return nil
	}
	return fmt.Errorf("%s not pass", counted(bad, "file does", "files do"))
}
