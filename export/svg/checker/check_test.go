package checker

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

var update = flag.Bool("update", false, "rewrite golden files")

func errorsOf(r Report) []string {
	var list []string
	for _, f := range r.Findings {
		if f.Rule.Severity == findings.Error {
			list = append(list, f.Rule.ID+": "+f.Message)
		}
	}
	return list
}

// sheet is a file of 100 x 100 mm, a user unit a millimetre. The root takes
// line 1, and what is inside starts in line 2.
func sheet(inside string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">` + "\n" + inside + "\n</svg>\n"
}

// layer is a group in line 2 of a sheet; its first shape stands in line 3,
// column 1.
func layer(attributes, inside string) string {
	return sheet(`<g fill="none" stroke="#000000" ` + attributes + ">\n" + inside + "\n</g>")
}

func cutLayer(inside string) string { return layer(`id="cut"`, inside) }

// pathOf is one path, alone in its line; it may have no id.
func pathOf(id, d string) string {
	if id != "" {
		id = ` id="` + id + `"`
	}
	return `<path` + id + ` d="` + d + "\"/>\n"
}

// findingText writes all of a finding but its message: severity, rule, line
// and column, element, and where on the sheet.
func findingText(f findings.Finding) string {
	text := fmt.Sprintf("%s %s %d:%d", f.Rule.Severity, f.Rule.ID, f.Line, f.Column)
	if f.Element != "" {
		text += " " + f.Element
	}
	if s := f.Spot; s != nil {
		text += " at " + mm(s.X) + "," + mm(s.Y)
		if s.W != 0 || s.H != 0 {
			text += " size " + mm(s.W) + "x" + mm(s.H)
		}
	}
	return text
}

// findingsOf writes the findings of a report, the notes only where asked.
func findingsOf(r Report, notes bool) []string {
	var list []string
	for _, f := range r.Findings {
		if notes || f.Rule.Severity != findings.Note {
			list = append(list, findingText(f))
		}
	}
	return list
}

// messagesOf returns the messages of the findings of one rule.
func messagesOf(r Report, rule *findings.Rule) []string {
	var list []string
	for _, f := range r.Findings {
		if f.Rule == rule {
			list = append(list, f.Message)
		}
	}
	return list
}

func breaks(r Report, rule *findings.Rule) bool {
	return slices.ContainsFunc(r.Findings, func(f findings.Finding) bool { return f.Rule == rule })
}

func requireGolden(t *testing.T, name, text string) {
	t.Helper()
	file := filepath.Join("testdata", "golden", name)
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		t.Logf("%s is rewritten; look at the difference before you keep it", file)
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err, "write it with -update")
	require.Equal(t, string(want), text)
}
