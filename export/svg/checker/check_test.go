package checker

import (
	"flag"

	"panelry/export/svg/findings"
)

// Nothing here is rewritten by -update, but every package knows it.
var _ = flag.Bool("update", false, "rewrite golden files")

func errorsOf(r Report) []string {
	var list []string
	for _, f := range r.Findings {
		if f.Rule.Severity == findings.Error {
			list = append(list, f.Rule.ID+": "+f.Message)
		}
	}
	return list
}
