package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/layouts"
	"panelry/layouts/cards"
	"panelry/layouts/sums"
)

const resizeHelp = `Resize writes a design for a card of another size, and lists every change.
Margins and gaps go to the nearest handy length of the unit in which the new
size is usual (1/8 in becomes 3 mm); panels follow; columns and rows change
where the cells would get another shape, and it says why. Papers keep their
sheets unless --sheet names one. Comments stay.

` + aboutDesign + ` The design goes to
the file named with -o (- is standard output), else beside the name of the
old one.`

func newResize() *cobra.Command {
	var in input
	var wish sums.ResizeWish
	var file string
	var force, asJSON bool
	cmd := &cobra.Command{
		Use:   "resize " + designArgument,
		Short: "Write the design for another card",
		Long:  resizeHelp,
		Example: `  panelry resize card.toml --size "US A7"
  panelry resize card.toml --size "ISO A6" --sheet "ISO A4" -o a6.toml`,
		Args: atMostOne("design file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if wish.Size == "" {
				return &usageError{"resize wants --size, the size of the new card", "panelry resize --help shows examples"}
			}
			d, err := in.read(cmd, args)
			if err != nil {
				return err
			}
			folder := "."
			if len(args) > 0 && args[0] != "-" {
				folder = filepath.Dir(args[0])
			}
			if _, err := flagSize("size", wish.Size, d.Units, cards.ForCard); err != nil {
				return err
			}
			text, changes, err := sums.Resize(d, wish, shapesBeside(folder))
			if err != nil {
				return err
			}
			if err := in.fitsNowhere(cmd, text, shapesBeside(folder)); err != nil {
				return err
			}
			if file == "-" {
				_, err := cmd.OutOrStdout().Write(text)
				if err == nil {
					err = printChanges(cmd.ErrOrStderr(), changes)
				}
				return err
			}
			if file == "" {
				file = stem(args) + "-" + strings.Trim(sizeWord(wish.Size), "-") + ".toml"
			}
			if err := export.WriteFile(file, text, force); err != nil {
				return err
			}
			if asJSON {
				return printIndented(cmd.OutOrStdout(), changesJSON(file, changes))
			}
			if err := printChanges(cmd.OutOrStdout(), changes); err != nil {
				return err
			}
			fmt.Fprintf(cmd.OutOrStdout(), "\n%s\n", file)
			return nil
		},
	}
	in.flags(cmd)
	cmd.Flags().StringVar(&wish.Size, "size", "", `the closed card: "US A7", "ISO A6", "5 x 7 in"`)
	cmd.Flags().StringVar(&wish.Sheet, "sheet", "", `sheets for all papers: "ISO A4", Letter; left out: they keep theirs`)
	cmd.Flags().StringVarP(&file, "output", "o", "", "the file for the design")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the changes for programs")
	cmd.Flags().BoolVar(&force, "force", false, "write over a file that is there")
	return cmd
}

// fitsNowhere tells what the new design cannot be cut from.
func (in *input) fitsNowhere(cmd *cobra.Command, text []byte, open layouts.Opener) error {
	d, err := layouts.Read(bytes.NewReader(text), open)
	if err != nil {
		return err
	}
	_, err = layouts.Plan(cmd.Context(), d)
	var problems layouts.Problems
	if !errors.As(err, &problems) {
		return err
	}
	var warnings []layouts.Warning
	for _, p := range problems {
		warnings = append(warnings, layouts.Warning{Code: "no-sheets", Text: p.Key + ": " + p.Text, Where: p.Key})
	}
	return in.warn(cmd, warnings)
}

// sizeWord makes a size fit for a file's name.
func sizeWord(size string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		}
		return '-'
	}, strings.ToLower(size))
}

func printChanges(w io.Writer, changes []sums.Changed) error {
	table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	fmt.Fprintln(table, "what\tfrom\tto\twhy")
	for _, c := range changes {
		from, to := c.From, c.To
		if from == "" {
			from = "-"
		}
		if to == "" {
			to = "-"
		}
		fmt.Fprintf(table, "%s\t%s\t%s\t%s\n", c.What, from, to, c.Why)
	}
	return table.Flush()
}

type changeJSON struct {
	What string `json:"what"`
	From string `json:"from"`
	To   string `json:"to"`
	Why  string `json:"why"`
}

type resizeJSON struct {
	File    string       `json:"file"`
	Changes []changeJSON `json:"changes"`
}

func changesJSON(file string, changes []sums.Changed) resizeJSON {
	out := resizeJSON{File: file}
	for _, c := range changes {
		out.Changes = append(out.Changes, changeJSON{c.What, c.From, c.To, c.Why})
	}
	return out
}
