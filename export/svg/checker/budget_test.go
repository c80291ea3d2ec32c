package checker

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

// Drawings that no one could wait for end with the rule not-compared, and
// with all that can be said without comparing.
func TestBudgets(t *testing.T) {
	const lines, squares, rings = "the lines to cut are too many, or meet too often, to hold each against the others; split it into several sheets",
		20_000, "the rings of the shape are too many to see which lies in which; split it into several sheets"
	var crossed strings.Builder
	for i := range 3000 {
		at := float64(i)/60 + 10
		fmt.Fprintf(&crossed, "M 10 %g H 60 M %g 10 V 60 ", at, at)
	}
	nested := func(n int) string {
		var b strings.Builder
		for i := range n {
			at := float64(i) * 45 / float64(n)
			fmt.Fprintf(&b, "M %g %g h %g v %g h %g Z ", 1+at, 1+at, 98-2*at, 98-2*at, 2*at-98)
		}
		return b.String()
	}
	var many strings.Builder
	for i := range mostEdges/50_000 + 1 {
		many.WriteString(pathOf("", fmt.Sprintf("M 0 %d", i)+strings.Repeat(" h 0.001", 50_000)))
	}
	tests := map[string]struct {
		file     string
		demands  Demands
		want     []string
		elements int
	}{
		"squares on one another":             {manySquares(squares), Demands{}, []string{lines}, squares},
		"squares on one another, and spaced": {manySquares(squares), Demands{Spacing: 1}, []string{lines}, squares},
		"crossing lines as shared edges":     {layer(`id="cut" data-edges="shared"`, pathOf("", crossed.String())), Demands{}, []string{lines}, 1},
		"crossing lines":                     {cutLayer(pathOf("", crossed.String())), Demands{}, []string{lines}, 1},
		"crossing lines to fold along": {layer(`id="score"`, pathOf("", crossed.String())), Demands{},
			[]string{strings.Replace(lines, "to cut", "to score", 1)}, 1},
		"more edges than are compared": {cutLayer(many.String()), Demands{}, []string{lines}, mostEdges/50_000 + 1},
		"ring in ring in ring":         {layer(`id="print"`, pathOf("", nested(9000))), Demands{}, []string{rings}, 1},
		"few enough rings":             {layer(`id="print"`, pathOf("", nested(900))), Demands{}, nil, 1},
		"squares in print":             {strings.Replace(manySquares(squares), `id="cut"`, `id="print"`, 1), Demands{}, nil, squares},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			r := Check([]byte(c.file), c.demands)
			require.Len(t, r.Elements, c.elements)
			require.Equal(t, c.want, messagesOf(r, findings.NotCompared))
			require.NotEmpty(t, messagesOf(r, findings.LayerContents))
			_, err := JSON([]Named{{"a.svg", r}})
			require.NoError(t, err)
			_, err = Picture("a.svg", r)
			require.NoError(t, err)
		})
	}
	// Rings too many to nest have no area rather than a wrong one.
	r := Check([]byte(layer(`id="print"`, pathOf("", nested(9000)))), Demands{})
	require.False(t, r.Elements[0].HasArea)
	r = Check([]byte(layer(`id="print"`, pathOf("", nested(2)))), Demands{})
	require.True(t, r.Elements[0].HasArea)
	require.InDelta(t, 98*98-53*53, r.Elements[0].Area, 1e-6)
}

// A list of findings keeps 100 of a rule and counts the rest.
func TestManyFindings(t *testing.T) {
	var b strings.Builder
	for i := range 150 {
		fmt.Fprintf(&b, `<path d="M 1 %d h 5"/>`, i)
	}
	r := Check([]byte(cutLayer(b.String())), Demands{})
	list := messagesOf(r, findings.OpenOutline)
	require.Len(t, list, 101)
	require.Equal(t, "and 50 more of this kind", list[100])
}
