package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/export/picture"
	"panelry/geometry"
	"panelry/layouts/cards"
	"panelry/layouts/fronts"
	"panelry/layouts/wording"
)

func newLayouts() *cobra.Command {
	var asJSON, force bool
	var file, sheet, card string
	cmd := &cobra.Command{
		Use:   "layouts [NAME]",
		Short: "List the fronts, or explain one and its options",
		Long: `Layouts lists the fronts that there are. With a name it explains that front's
options and writes a picture of it, to the file named with -o, else to the
name with .svg behind it in this folder. --sheet draws all fronts as one page;
--card says for which size of card.`,
		Example: `  panelry layouts
  panelry layouts "diagonal halves"
  panelry layouts --sheet fronts.svg --card "5 x 5 in"
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
			out := cmd.OutOrStdout()
			size, err := cards.ParseSize(card, geometry.NoUnit, cards.ForCard)
			if err != nil {
				return &usageError{"--card: " + err.Error(), ""}
			}
			switch {
			case sheet != "":
				return writeFronts(out, sheet, list, size, force)
			case asJSON:
				return printLayoutsJSON(out, list)
			case len(args) == 0 && file != "":
				return &usageError{"-o is for the picture of one front; --sheet draws all", ""}
			case len(args) == 0:
				return printLayouts(out, list)
			}
			if err := printLayout(out, list[0]); err != nil {
				return err
			}
			if file == "" {
				file = strings.ReplaceAll(list[0].Name, " ", "-") + ".svg"
			}
			fmt.Fprintln(out)
			return writeFronts(out, file, list, size, force)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the list as JSON")
	cmd.Flags().StringVarP(&file, "output", "o", "", "the file for the picture of one front")
	cmd.Flags().StringVar(&sheet, "sheet", "", "draw the fronts as one page, an SVG file")
	cmd.Flags().StringVar(&card, "card", "US A2", "the closed card that pictures show")
	cmd.Flags().BoolVar(&force, "force", false, "write over a file that is there")
	return cmd
}

func layoutNames() []string {
	var names []string
	for _, l := range fronts.All() {
		names = append(names, l.Name)
	}
	return names
}

// sample divides a card with a layout's defaults.
func sample(l fronts.Layout, card geometry.Size) (fronts.Front, error) {
	frame, err := geometry.RectFromSize(geometry.Point{}, card).Inset(geometry.Inch / 8)
	if err != nil {
		return fronts.Front{}, err
	}
	return l.Divide(fronts.Brief{Frame: frame, Gap: geometry.Inch / 16, Options: l.Defaults(), Unit: geometry.Inches})
}

// writeFronts draws fronts into a file. A picture that is there already as it
// would be written is left alone.
func writeFronts(w io.Writer, file string, list []fronts.Layout, card geometry.Size, force bool) error {
	var samples []picture.Sample
	for _, l := range list {
		front, err := sample(l, card)
		if errors.As(err, new(*fronts.OptionError)) {
			continue // it has to be told something first
		}
		if err != nil {
			return fmt.Errorf("%s: %w", l.Name, err)
		}
		samples = append(samples, picture.Sample{Name: l.Name, Card: card, Front: front})
	}
	if len(samples) == 0 {
		fmt.Fprintln(w, "no picture: this front has no defaults")
		return nil
	}
	data, err := picture.Fronts("Fronts", samples)
	if err != nil {
		return err
	}
	if there, err := os.ReadFile(file); err != nil || !slices.Equal(there, data) {
		if err := export.WriteFile(file, data, force); err != nil {
			return err
		}
	}
	_, err = fmt.Fprintf(w, "picture: %s\n", file)
	return err
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
	if len(l.Options) == 0 {
		fmt.Fprintln(table, "none of its own")
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
