package main

import (
	"bytes"
	"fmt"
	"strings"
	"text/template"

	_ "embed"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/geometry"
	"panelry/layouts/fronts"
	"panelry/layouts/wording"
)

//go:embed new.toml.tmpl
var newDesignText string

var newDesign = template.Must(template.New("new").Parse(newDesignText))

func newNew() *cobra.Command {
	var units, layout string
	var force bool
	cmd := &cobra.Command{
		Use:   "new [FILE.toml]",
		Short: "Write a commented design to start from",
		Long: `New writes a design file with every setting explained, to FILE.toml or, without
a name, to card.toml; - is standard output.`,
		Example: `  panelry new
  panelry new spring.toml --layout strips --units mm`,
		Args:              atMostOne("file"),
		ValidArgsFunction: completeDesign,
		RunE: func(cmd *cobra.Command, args []string) error {
			data, err := startingDesign(layout, units)
			if err != nil {
				return err
			}
			file := "card.toml"
			if len(args) == 1 {
				file = args[0]
			}
			if file == "-" {
				_, err = cmd.OutOrStdout().Write(data)
				return err
			}
			if err := export.WriteFile(file, data, force); err != nil {
				return err
			}
			fmt.Fprintf(cmd.OutOrStdout(), "%s\nnext: panelry show %s, then panelry make %s\n", file, file, file)
			return nil
		},
	}
	cmd.Flags().StringVar(&units, "units", "in", "in or mm")
	cmd.Flags().StringVar(&layout, "layout", "diagonal halves", "which front; panelry layouts lists them")
	cmd.Flags().BoolVar(&force, "force", false, "write over a file that is there")
	cmd.RegisterFlagCompletionFunc("units", cobra.FixedCompletions([]string{"in", "mm"}, cobra.ShellCompDirectiveNoFileComp))
	cmd.RegisterFlagCompletionFunc("layout", cobra.FixedCompletions(layoutNames(), cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

// startingDesign fills in the template.
func startingDesign(layout, units string) ([]byte, error) {
	l, ok := fronts.Find(layout)
	if !ok {
		return nil, &usageError{fmt.Sprintf("--layout: no layout is called %q%s", layout, wording.Meant(layout, layoutNames())), "panelry layouts lists them"}
	}
	sizes := map[string]map[string]string{
		"in": {"card": "US A2", "cardText": "4 1/4 x 5 1/2 in", "baseSheet": "12 x 12 in", "sheet": "12 x 12 in", "margin": "1/8", "gap": "1/8", "ruler": "1/16", "edge": "1/4", "spacing": "1/16", "narrowest": "1/4"},
		"mm": {"card": "ISO A6", "cardText": "105 x 148 mm", "baseSheet": "ISO A3", "sheet": "ISO A4", "margin": "3", "gap": "3", "ruler": "0.5", "edge": "6", "spacing": "1.5", "narrowest": "6"},
	}[units]
	if sizes == nil {
		return nil, &usageError{fmt.Sprintf("--units %s: write %s", units, wording.Or([]string{"in", "mm"})), ""}
	}
	var b bytes.Buffer
	err := newDesign.Execute(&b, map[string]any{"Layout": l.Name, "Options": optionLines(l), "Panel": firstPanel(l), "Units": units, "S": sizes})
	return b.Bytes(), err
}

// firstPanel returns the name of a layout's first panel.
func firstPanel(l fronts.Layout) string {
	front, err := sample(l, geometry.Size{W: 17 * geometry.Inch / 4, H: 11 * geometry.Inch / 2})
	if err != nil || len(front.Panels) == 0 {
		return "A1" // a front that has to be told something first
	}
	return front.Panels[0].Name
}

// optionLines shows a layout's options as lines of a design, those with a
// default set to it and the others left out.
func optionLines(l fronts.Layout) string {
	var b strings.Builder
	for _, o := range l.Options {
		value, mark := defaultText(o), ""
		switch def := o.Default.(type) {
		case nil:
			mark, value = "# ", "..."
		case string:
			value = fmt.Sprintf("%q", def)
		case []string:
			quoted := make([]string, len(def))
			for i, text := range def {
				quoted[i] = fmt.Sprintf("%q", text)
			}
			value = "[" + strings.Join(quoted, ", ") + "]"
		}
		fmt.Fprintf(&b, "%-28s# %s\n", mark+o.Name+" = "+value, optionHelp(o))
	}
	return strings.TrimRight(b.String(), "\n")
}
