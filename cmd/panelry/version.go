package main

import (
	"fmt"
	"runtime/debug"

	"github.com/spf13/cobra"
)

// version is what this tree will be released as.
const version = "0.1.0"

func newVersion() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print the version",
		Args:  noArguments,
		RunE: func(cmd *cobra.Command, _ []string) error {
			_, err := fmt.Fprintf(cmd.OutOrStdout(), "panelry %s%s\n", version, revision())
			return err
		},
	}
}

// revision returns the commit that the program was built from, if known.
func revision() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return ""
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 12 {
			return " (" + s.Value[:12] + ")"
		}
	}
	return ""
}
