package findings

import (
	"go/ast"
	"go/parser"
	"go/token"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var (
	// kebab is an id: words of lower case joined by hyphens, as Rule says.
	kebab  = regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	groups = []string{"size", "reading", "outlines", "cutting", "layers"}
)

func TestRules(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range All() {
		t.Run(r.ID, func(t *testing.T) {
			require.Regexp(t, kebab, r.ID)
			require.False(t, seen[r.ID], "the id is given twice")
			require.Contains(t, groups, r.Group)
			require.Contains(t, []Severity{Note, Warning, Error}, r.Severity)
			for name, text := range map[string]string{"clause": r.Clause, "meaning": r.Meaning} {
				require.NotEmpty(t, text, name)
			}
			for name, text := range map[string]string{"clause": r.Clause, "meaning": r.Meaning, "advice": r.Advice} {
				require.Equal(t, strings.TrimSpace(text), text, name)
				require.False(t, strings.HasSuffix(text, "."), name) // they are joined with "; "
				require.NotContains(t, text, "\n", name)
			}
			if r.Severity != Note && r != XML { // the message of XML says it all
				require.NotEmpty(t, r.Advice, "what is wrong needs a way out")
			}
		})
		seen[r.ID] = true
	}
}

// Groups stand together, in the order in which Rule names them.
func TestGroups(t *testing.T) {
	var got []string
	for _, r := range All() {
		got = append(got, r.Group)
	}
	require.Equal(t, groups, slices.Compact(got))
}

func TestAllIsACopy(t *testing.T) {
	first := All()[0]
	All()[0] = nil
	require.Same(t, first, All()[0])
}

// Every rule of rules.go is in All, in the order of the file.
func TestAllHasEveryRule(t *testing.T) {
	file, err := parser.ParseFile(token.NewFileSet(), "rules.go", nil, 0)
	require.NoError(t, err)
	var want []string
	ast.Inspect(file, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		if name, ok := call.Fun.(*ast.Ident); ok && name.Name == "rule" {
			id, ok := call.Args[1].(*ast.BasicLit)
			require.True(t, ok)
			want = append(want, strings.Trim(id.Value, `"`))
		}
		return true
	})
	var got []string
	for _, r := range All() {
		got = append(got, r.ID)
	}
	require.NotEmpty(t, want)
	require.Equal(t, want, got)
}

func TestSeverities(t *testing.T) {
	for severity, want := range map[Severity]string{Note: "note", Warning: "warning", Error: "error"} {
		require.Equal(t, want, severity.String())
	}
	require.Less(t, Note, Warning)
	require.Less(t, Warning, Error)
}
