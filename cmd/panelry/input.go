package main

import (
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

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
}

func (in *input) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&in.units, "units", "", "in or mm: how lengths are shown, and what bare numbers are in a design that does not say")
	cmd.Flags().BoolVar(&in.strict, "strict", false, "stop where something is worth knowing")
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
	name := "demo"
	switch {
	case len(args) == 0:
		d, err = layouts.ReadIn(unit, bytes.NewReader(demo), nil)
	case args[0] == "-":
		name = "standard input"
		d, err = layouts.ReadIn(unit, cmd.InOrStdin(), nil)
	default:
		name = args[0]
		d, err = readFile(unit, name)
	}
	var problems layouts.Problems
	if errors.As(err, &problems) {
		return d, &designError{name, problems}
	}
	if unit != geometry.NoUnit {
		d.Units = unit
	}
	return d, err
}

func readFile(unit geometry.Unit, name string) (layouts.Design, error) {
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return layouts.Design{}, &hintedError{fmt.Errorf("there is no file %s", name), "panelry new " + name + " writes a design to start from"}
	}
	if err != nil {
		return layouts.Design{}, fmt.Errorf("cannot read %s: %w", name, errors.Unwrap(err))
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return layouts.Design{}, fmt.Errorf("%s is a folder, not a design file", name)
	}
	return layouts.ReadIn(unit, f, nil)
}

// plan reads a design and works everything out; warnings are printed.
func (in *input) plan(cmd *cobra.Command, args []string) (layouts.Kit, error) {
	d, err := in.read(cmd, args)
	if err != nil {
		return layouts.Kit{}, err
	}
	kit, err := layouts.Plan(cmd.Context(), d)
	if err != nil {
		return kit, err
	}
	return kit, warn(cmd.ErrOrStderr(), kit.Warnings, in.strict)
}
