package main

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"panelry/layouts/wording"
)

const rootHelp = `Panelry works out paneled card fronts: it divides the front, finds every
panel's size, lays the pieces of a whole batch on sheets, and writes sheets
that an electronic cutter cuts and scores at true size.

Blades cut fingers as well as paper: mind the cutter's manual, and cut out
of children's reach.`

const rootExamples = `  panelry make                       the built-in demo, into demo-kit
  panelry new card.toml              a design to start from
  panelry show card.toml             sizes, kinds and sums
  panelry make card.toml -o kit      sheets for the cutter`

func newRoot() *cobra.Command {
	root := &cobra.Command{
		Use:           "panelry",
		Short:         "Paneled card fronts, from a design to cut-ready sheets",
		Long:          rootHelp,
		Example:       rootExamples,
		Version:       version + revision(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			return &usageError{fmt.Sprintf("there is no command %q%s", args[0], wording.Meant(args[0], commandNames(cmd))), "panelry --help lists the commands"}
		},
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		text := parserTalk.ReplaceAllString(err.Error(), "")
		var wrong *pflag.InvalidValueError
		if errors.As(err, &wrong) && strings.HasPrefix(wrong.GetFlag().Value.Type(), "int") {
			text = fmt.Sprintf("--%s %s: write a whole number", wrong.GetFlag().Name, wrong.GetValue())
		}
		return &usageError{text, fmt.Sprintf("%s --help lists the flags", cmd.CommandPath())}
	})
	root.SetVersionTemplate("panelry {{.Version}}\n")
	root.AddCommand(newMake(), newShow(), newNew(), newLayouts(), newCheck(), newFit(), newNice(), newResize(), newForecast(), newTrim(), newNest(), newSwap(), newShop(), newPicture(), newTemplate(), newGuide(), newPage(), newVersion())
	return root
}

// parserTalk is what a wrong value of a flag is told with.
var parserTalk = regexp.MustCompile(`strconv\.\w+: parsing "[^"]*": `)

func commandNames(root *cobra.Command) []string {
	var names []string
	for _, c := range root.Commands() {
		names = append(names, c.Name())
	}
	return names
}

// atMostOne takes one argument or none.
func atMostOne(what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) <= 1 {
			return nil
		}
		return &usageError{
			fmt.Sprintf("%s takes one %s, and here are %d: %s", cmd.CommandPath(), what, len(args), strings.Join(args, ", ")),
			fmt.Sprintf("%s --help shows examples", cmd.CommandPath()),
		}
	}
}

func noArguments(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return &usageError{fmt.Sprintf("%s takes no arguments, and here is %q", cmd.CommandPath(), args[0]), ""}
}

// completeDesign offers design files to the shell.
func completeDesign(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return []string{"toml"}, cobra.ShellCompDirectiveFilterFileExt
}
