package main

import (
	"encoding/json"
	"fmt"
	"io"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"panelry/layouts/fronts"
	"panelry/layouts/wording"
)

func newLayouts() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "layouts [NAME]",
		Short: "List the fronts, or explain one and its options",
		Example: `  panelry layouts
  panelry layouts "diagonal halves"
  panelry layouts --json`,
		Args:              atMostOne("layout"),
		ValidArgsFunction: cobra.FixedCompletions(layoutNames(), cobra.ShellCompDirectiveNoFileComp),
		RunE: func(cmd *cobra.Command, args []string) error {
			list := fronts.All()
			if len(args) == 1 {
				l, ok := fronts.Find(args[0])
				if !ok {
					return &usageError{fmt.Sprintf("no layout is called %q%s", args[0], wording.Meant(args[0], layoutNames())), "panelry layouts lists them"}
				}
				list = []fronts.Layout{l}
			}
			switch {
			case asJSON:
				return printLayoutsJSON(cmd.OutOrStdout(), list)
			case len(args) == 1:
				return printLayout(cmd.OutOrStdout(), list[0])
			}
			return printLayouts(cmd.OutOrStdout(), list)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the list as JSON")
	return cmd
}

func layoutNames() []string {
	var names []string
	for _, l := range fronts.All() {
		names = append(names, l.Name)
	}
	return names
}

func printLayouts(w io.Writer, list []fronts.Layout) error {
	table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	for _, l := range list {
		fmt.Fprintf(table, "%s\t%s\n", l.Name, l.Summary)
	}
	return table.Flush()
}

func printLayout(w io.Writer, l fronts.Layout) error {
	fmt.Fprintf(w, "%s: %s\npapers in turn: %s\n\noptions in [front], with what they are when left out\n", l.Name, l.Summary, l.Roles)
	table := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	for _, o := range l.Options {
		fmt.Fprintf(table, "%s\t%s\t%s\n", o.Name, defaultText(o), optionHelp(o))
	}
	return table.Flush()
}

// optionHelp explains an option, with the words that it takes.
func optionHelp(o fronts.Option) string {
	if len(o.Words) == 0 {
		return o.Help
	}
	return o.Help + ": " + wording.OrPlain(o.Words)
}

// defaultText says what an option is when it is left out.
func defaultText(o fronts.Option) string {
	if o.Default == nil {
		return "-"
	}
	return fmt.Sprint(o.Default)
}

// printLayoutsJSON prints the list as interfaces.md has it.
func printLayoutsJSON(w io.Writer, list []fronts.Layout) error {
	type option struct {
		Name    string   `json:"name"`
		Kind    string   `json:"kind"`
		Default any      `json:"default"`
		Words   []string `json:"words,omitempty"`
		Help    string   `json:"help"`
	}
	type layout struct {
		Name    string   `json:"name"`
		Summary string   `json:"summary"`
		Roles   string   `json:"roles"`
		Options []option `json:"options"`
	}
	out := []layout{}
	for _, l := range list {
		options := []option{}
		for _, o := range l.Options {
			options = append(options, option{o.Name, string(o.Kind), o.Default, o.Words, o.Help})
		}
		out = append(out, layout{l.Name, l.Summary, l.Roles, options})
	}
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(out)
}
