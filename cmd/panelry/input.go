package main

import (
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"panelry/export/svg/checker"
	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/wording"
)

//go:embed demo/slipway.toml
var demo []byte

// designArgument is how commands name their input in --help.
const designArgument = "[DESIGN.toml]"

// aboutDesign ends the help of commands that read a design.
const aboutDesign = `DESIGN.toml is a design file, - is standard input, and without either the
built-in demo is used.`

// input is a design as commands get it.
type input struct {
	units  string
	strict bool
	effort string // in place of the design's; empty for that

	prepare func(*cobra.Command, layouts.Design) (layouts.Design, error) // before it is planned; nil for nothing
}

func (in *input) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&in.units, "units", "", "in or mm: how lengths are shown, and what bare numbers are in a design that does not say")
	cmd.Flags().BoolVar(&in.strict, "strict", false, "take what is worth knowing for an error: stop, and write nothing")
	cmd.RegisterFlagCompletionFunc("units", cobra.FixedCompletions([]string{"in", "mm"}, cobra.ShellCompDirectiveNoFileComp))
	cmd.ValidArgsFunction = completeDesign
}

// stem returns the name that outputs are named after.
func stem(args []string) string {
	switch {
	case len(args) == 0:
		return "demo"
	case args[0] == "-":
		return "panelry"
	}
	base := filepath.Base(args[0])
	return strings.TrimSuffix(base, filepath.Ext(base))
}

// read reads and checks the design that the arguments name.
func (in *input) read(cmd *cobra.Command, args []string) (layouts.Design, error) {
	unit, ok := geometry.ParseUnit(in.units)
	if in.units != "" && !ok {
		return layouts.Design{}, &usageError{fmt.Sprintf("--units %s: write %s", in.units, wording.Or([]string{"in", "mm"})), ""}
	}
	var d layouts.Design
	var err error
	switch {
	case len(args) == 0:
		d, err = layouts.ReadIn(unit, bytes.NewReader(demo), nil)
	case args[0] == "-":
		d, err = layouts.ReadIn(unit, cmd.InOrStdin(), shapesBeside("."))
	default:
		d, err = readFile(unit, args[0])
	}
	if unit != geometry.NoUnit && unit != d.Units {
		d.Units = unit
		if !d.Front.OnRuler {
			d.Ruler = layouts.UsualRuler(unit)
		}
	}
	return d, placed(err, args)
}

func readFile(unit geometry.Unit, name string) (layouts.Design, error) {
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		hint := "panelry new " + name + " writes a design to start from"
		if _, err := os.Stat(name + ".toml"); err == nil {
			hint = "there is a file " + name + ".toml"
		}
		return layouts.Design{}, &hintedError{fmt.Errorf("there is no file %s", name), hint}
	}
	if err != nil {
		return layouts.Design{}, fmt.Errorf("cannot read %s: %w", name, errors.Unwrap(err))
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return layouts.Design{}, fmt.Errorf("%s is a folder, not a design file", name)
	}
	return layouts.ReadIn(unit, f, shapesBeside(filepath.Dir(name)))
}

// shapesBeside opens SVG files in a folder, and in those below it, for
// layouts that take shapes.
func shapesBeside(folder string) layouts.Opener {
	return func(name string, kept []byte) ([]geometry.Outline, error) {
		if kept != nil {
			return shapesIn(name, kept)
		}
		if !filepath.IsLocal(name) {
			return nil, fmt.Errorf("%q does not lie beside the design; move it there", name)
		}
		data, err := os.ReadFile(filepath.Join(folder, name))
		if errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("there is no file %s beside the design", name)
		}
		if err != nil {
			return nil, fmt.Errorf("cannot read %s: %w", name, errors.Unwrap(err))
		}
		return shapesIn(name, data)
	}
}

// shapesIn reads the outlines of an SVG file.
func shapesIn(name string, data []byte) ([]geometry.Outline, error) {
	shapes, err := checker.Shapes(data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w (panelry check tells more)", name, err)
	}
	return shapes, nil
}

// plan reads a design and works everything out; warnings are printed.
func (in *input) plan(cmd *cobra.Command, args []string) (layouts.Kit, error) {
	kit, err := in.planned(cmd, args)
	if err != nil {
		return kit, err
	}
	return kit, in.warn(cmd, kit.Warnings)
}

// planCard is plan for what looks at the card alone: that a piece fits on no
// sheet is a warning then.
func (in *input) planCard(cmd *cobra.Command, args []string) (layouts.Kit, error) {
	kit, err := in.planned(cmd, args)
	var design *designError
	if errors.As(err, &design) && len(kit.Card.Panels) > 0 {
		for _, p := range design.problems {
			kit.Warnings = append(kit.Warnings, layouts.Warning{Code: "no-sheets", Text: p.Key + ": " + p.Text, Where: p.Key})
		}
		err = nil
	}
	if err != nil {
		return kit, err
	}
	return kit, in.warn(cmd, kit.Warnings)
}

func (in *input) planned(cmd *cobra.Command, args []string) (layouts.Kit, error) {
	d, err := in.read(cmd, args)
	if err != nil {
		return layouts.Kit{}, err
	}
	if in.prepare != nil {
		if d, err = in.prepare(cmd, d); err != nil {
			return layouts.Kit{}, placed(err, args)
		}
	}
	if in.effort != "" {
		d.Sheets.Effort = in.effort
	}
	ctx := cmd.Context()
	if d.Sheets.Effort != "quick" { // Ctrl-C ends a long search with the best so far
		var stop func()
		ctx, stop = signal.NotifyContext(ctx, os.Interrupt)
		defer stop()
	}
	bar := newProgressBar(cmd.ErrOrStderr())
	kit, err := layouts.PlanWatched(ctx, d, layouts.Kit{}, func(p layouts.Progress) {
		bar.show(p.Done, fmt.Sprintf("%s: %s so far", p.Paper, counted(p.Sheets, "sheet", "sheets")))
	})
	bar.end()
	return kit, placed(err, args)
}

// placed puts the design's name to its problems.
func placed(err error, args []string) error {
	var problems layouts.Problems
	if errors.As(err, &problems) {
		return &designError{designName(args), problems}
	}
	return err
}

// designName is what a design is called in messages.
func designName(args []string) string {
	switch {
	case len(args) == 0:
		return "demo"
	case args[0] == "-":
		return "standard input"
	}
	return args[0]
}

// warn prints what is worth knowing; with --strict it is an error.
func (in *input) warn(cmd *cobra.Command, warnings []layouts.Warning) error {
	for _, w := range warnings {
		fmt.Fprintf(cmd.ErrOrStderr(), "panelry: worth knowing: %s\n", w.Text)
	}
	if in.strict && len(warnings) > 0 {
		return fmt.Errorf("--strict: %s worth knowing, which counts as an error", counted(len(warnings), "thing is", "things are"))
	}
	return nil
}
