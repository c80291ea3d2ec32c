package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/export/pdf"
	"panelry/layouts/wording"
)

const templateHelp = `Template writes a PDF to print at 100 %: the card with every panel and its
measures, each kind of piece once, the base with its fold, a placing guide, a
page to lay cut pieces out on, and maps of the sheets. Each page has a scale
bar and a test square: measure them before you cut.

What is larger than the page comes as tiles that overlap, with crosses to lay
over one another and a plan of them. Kinds of line differ by dash and weight,
and are layers that a viewer can hide.

` + aboutDesign + ` The template
goes to the file named with -o (- is standard output), else to the design's
name with -template.pdf behind it, in this folder.`

func newTemplate() *cobra.Command {
	var in input
	var file, page string
	var force bool
	cmd := &cobra.Command{
		Use:   "template " + designArgument,
		Short: "Write the true-scale template as a PDF",
		Long:  templateHelp,
		Example: `  panelry template                   the demo, into demo-template.pdf
  panelry template card.toml -o card.pdf
  panelry template card.toml --page A4`,
		Args: atMostOne("design file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if page != "" && !slices.Contains(pdf.Pages(), page) {
				return &usageError{fmt.Sprintf("--page %s: write %s", page, wording.OrPlain(pdf.Pages())), ""}
			}
			if ext := filepath.Ext(file); ext != "" && !strings.EqualFold(ext, ".pdf") {
				return &usageError{fmt.Sprintf("-o %s: the template is a PDF; end its name in .pdf", file), ""}
			}
			kit, err := in.planCard(cmd, args)
			if err != nil {
				return err
			}
			data, notes, err := pdf.Template(kit, page)
			if err != nil {
				return err
			}
			for _, n := range notes {
				fmt.Fprintf(cmd.ErrOrStderr(), "panelry: worth knowing: %s\n", n)
			}
			if file == "" {
				file = stem(args) + "-template.pdf"
			}
			return deliver(cmd, file, data, force)
		},
	}
	in.flags(cmd)
	cmd.Flags().StringVarP(&file, "output", "o", "", "the file for the template")
	cmd.Flags().StringVar(&page, "page", "", "Letter or A4 (default: Letter for designs in inches, else A4)")
	cmd.Flags().BoolVar(&force, "force", false, "write over a file that is there")
	cmd.RegisterFlagCompletionFunc("page", cobra.FixedCompletions(pdf.Pages(), cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

// deliver writes a file and prints its name; - is standard output.
func deliver(cmd *cobra.Command, file string, data []byte, force bool) error {
	if file == "-" {
		_, err := cmd.OutOrStdout().Write(data)
		return err
	}
	if err := export.WriteFile(file, data, force); err != nil {
		return err
	}
	_, err := fmt.Fprintln(cmd.OutOrStdout(), file)
	return err
}
