package checker

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

func blank(w, h string) string {
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="%s" height="%s" viewBox="0 0 100 100" preserveAspectRatio="none"/>`, w, h)
}

func TestDemandSheet(t *testing.T) {
	tests := map[string]struct {
		w, h   string
		sheet  [2]float64
		breaks bool
	}{
		"the same":                     {"210mm", "297mm", [2]float64{210, 297}, false},
		"turned":                       {"297mm", "210mm", [2]float64{210, 297}, false},
		"the sheet turned":             {"210mm", "297mm", [2]float64{297, 210}, false},
		"in inches":                    {"8.5in", "11in", [2]float64{215.9, 279.4}, false},
		"in points":                    {"612pt", "792pt", [2]float64{215.9, 279.4}, false},
		"nothing asked for":            {"210mm", "297mm", [2]float64{}, false},
		"0.04 mm off":                  {"210.04mm", "296.96mm", [2]float64{210, 297}, false},
		"0.04 mm off and turned":       {"297.04mm", "209.96mm", [2]float64{210, 297}, false},
		"0.06 mm too wide":             {"210.06mm", "297mm", [2]float64{210, 297}, true},
		"0.06 mm too narrow":           {"209.94mm", "297mm", [2]float64{210, 297}, true},
		"0.06 mm too high":             {"210mm", "297.06mm", [2]float64{210, 297}, true},
		"0.06 mm too low":              {"210mm", "296.94mm", [2]float64{210, 297}, true},
		"twice the width":              {"210mm", "210mm", [2]float64{210, 297}, true},
		"twice the height":             {"297mm", "297mm", [2]float64{210, 297}, true},
		"another one, smaller":         {"148mm", "210mm", [2]float64{210, 297}, true},
		"the same in px to 96":         {"793.7px", "1122.52px", [2]float64{210, 297}, false},
		"the same in px to 72 an inch": {"595.28px", "841.89px", [2]float64{210, 297}, true},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			r := Check([]byte(blank(c.w, c.h)), Demands{SheetW: c.sheet[0], SheetH: c.sheet[1]})
			require.Equal(t, c.breaks, breaks(r, findings.WrongSheet), r.Findings)
		})
	}
}

// A paper at 72 or 90 px to the inch, as programs of that kind write it.
// 210 x 297 mm are 595.28 x 841.89 px of 1/72 inch, 744.09 x 1052.36 px of
// 1/90 inch and 793.70 x 1122.52 px of 1/96 inch.
func TestPaperScale(t *testing.T) {
	tests := map[string]struct {
		w, h, want string
	}{
		"A4 at 72":          {"595.28", "841.89", "the sheet is 157.501 x 222.75 mm, which is ISO A4 as if at 72 px to the inch; write width=\"210mm\" height=\"297mm\"; if the sheet is another one, state its size in mm"},
		"A4 at 72, px":      {"595.28px", "841.89px", "the sheet is 157.501 x 222.75 mm, which is ISO A4 as if at 72 px to the inch; write width=\"210mm\" height=\"297mm\"; if the sheet is another one, state its size in mm"},
		"A4 at 72 turned":   {"841.89", "595.28", "the sheet is 222.75 x 157.501 mm, which is ISO A4 as if at 72 px to the inch; write width=\"297mm\" height=\"210mm\"; if the sheet is another one, state its size in mm"},
		"A4 at 90":          {"744.09", "1052.36", "the sheet is 196.874 x 278.437 mm, which is ISO A4 as if at 90 px to the inch; write width=\"210mm\" height=\"297mm\"; if the sheet is another one, state its size in mm"},
		"Letter at 72":      {"612", "792", "the sheet is 161.925 x 209.55 mm, which is Letter as if at 72 px to the inch; write width=\"215.9mm\" height=\"279.4mm\"; if the sheet is another one, state its size in mm"},
		"12 in at 72":       {"864", "864", "the sheet is 228.6 x 228.6 mm, which is 12 x 12 in as if at 72 px to the inch; write width=\"304.8mm\" height=\"304.8mm\"; if the sheet is another one, state its size in mm"},
		"A4 at 96":          {"793.7", "1122.52", ""},
		"Letter at 96":      {"816", "1056", ""},
		"a size of its own": {"500", "700", ""},
		"A4 at 72 in mm":    {"157.5mm", "222.75mm", ""},
		"A4 at 72, 1 % off": {"601", "841.89", ""},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			got := messagesOf(Check([]byte(blank(c.w, c.h)), Demands{}), findings.PaperScale)
			if c.want == "" {
				require.Empty(t, got)
				return
			}
			require.Equal(t, []string{c.want}, got)
		})
	}
}

// Each side has its edge, and off the sheet is not in the edge as well.
func TestDemandEdge(t *testing.T) {
	tests := map[string]struct {
		shape string
		edge  float64
		want  []string
	}{
		"on all four":        {"M 5 5 H 95 V 95 H 5 Z", 5, nil},
		"left":               {"M 4.99 5 H 95 V 95 H 4.99 Z", 5, []string{"it reaches 0.01 mm into the edge of 5 mm; move it inwards"}},
		"top":                {"M 5 4 H 95 V 95 H 5 Z", 5, []string{"it reaches 1 mm into the edge of 5 mm; move it inwards"}},
		"right":              {"M 5 5 H 97 V 95 H 5 Z", 5, []string{"it reaches 2 mm into the edge of 5 mm; move it inwards"}},
		"bottom":             {"M 5 5 H 95 V 98 H 5 Z", 5, []string{"it reaches 3 mm into the edge of 5 mm; move it inwards"}},
		"the worst of all":   {"M 4 3 H 99 V 98 H 4 Z", 5, []string{"it reaches 4 mm into the edge of 5 mm; move it inwards"}},
		"onto the rim":       {"M 0 0 H 100 V 100 H 0 Z", 5, []string{"it reaches 5 mm into the edge of 5 mm; move it inwards"}},
		"over the rim":       {"M 0 0 H 101 V 100 H 0 Z", 5, nil},
		"no edge asked for":  {"M 0 0 H 100 V 100 H 0 Z", 0, nil},
		"less than rounding": {"M 4.999995 5 H 95 V 95 H 5 Z", 5, nil},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			r := Check([]byte(cutLayer(pathOf("a", c.shape))), Demands{Edge: c.edge})
			require.Equal(t, c.want, messagesOf(r, findings.InEdge))
			require.Equal(t, name == "over the rim", breaks(r, findings.OffSheet))
		})
	}
}

// What counts as a piece where the spacing is measured: a hole belongs to
// what is around it, and what lies in a hole is another piece.
func TestDemandSpacing(t *testing.T) {
	const hole = " M 12 12 h 16 v 16 h -16 Z"
	tests := map[string]struct {
		inside  string
		spacing float64
		want    bool
	}{
		"exactly":                          {pathOf("a", squareA) + pathOf("b", "M 33 10 h 5 v 5 h -5 Z"), 3, false},
		"a micrometre less":                {pathOf("a", squareA) + pathOf("b", "M 32.999 10 h 5 v 5 h -5 Z"), 3, true},
		"not asked for":                    {pathOf("a", squareA) + pathOf("b", "M 30.5 10 h 5 v 5 h -5 Z"), 0, false},
		"a hole of the same path":          {pathOf("a", squareA+hole), 3, false},
		"a hole as another path":           {pathOf("a", squareA) + pathOf("b", hole), 3, false},
		"a hole before its outline":        {pathOf("b", hole) + pathOf("a", squareA), 3, false},
		"two holes of one piece":           {pathOf("a", squareA+" M 12 12 h 5 v 5 h -5 Z M 18 12 h 5 v 5 h -5 Z"), 3, false},
		"an island, too close to the hole": {pathOf("a", squareA+hole) + pathOf("b", "M 14 14 h 10 v 10 h -10 Z"), 3, true},
		"an island in the middle":          {pathOf("a", squareA+hole) + pathOf("b", "M 15 15 h 10 v 10 h -10 Z"), 3, false},
		"a hole in an island":              {pathOf("a", squareA+hole) + pathOf("b", "M 15 15 h 10 v 10 h -10 Z M 16 16 h 8 v 8 h -8 Z"), 3, false},
		"two islands":                      {pathOf("a", squareA+hole) + pathOf("b", "M 15 15 h 4 v 4 h -4 Z") + pathOf("c", "M 20 15 h 4 v 4 h -4 Z"), 3, true},
		"two parts of one path":            {pathOf("a", squareA+" M 32 10 h 5 v 5 h -5 Z"), 3, true},
		"circles, exactly":                 {`<circle cx="20" cy="20" r="10"/><circle cx="42" cy="20" r="10"/>`, 2, false},
		"circles, within the flatness":     {`<circle cx="20" cy="20" r="10"/><circle cx="41.991" cy="20" r="10"/>`, 2, false},
		"circles, 0.02 mm less":            {`<circle cx="20" cy="20" r="10"/><circle cx="41.98" cy="20" r="10"/>`, 2, true},
		"far, and asked for far":           {pathOf("a", "M 1 1 h 1 v 1 h -1 Z") + pathOf("b", "M 62 1 h 1 v 1 h -1 Z"), 61, true},
		"far enough":                       {pathOf("a", "M 1 1 h 1 v 1 h -1 Z") + pathOf("b", "M 62 1 h 1 v 1 h -1 Z"), 60, false},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			r := Check([]byte(cutLayer(c.inside)), Demands{Spacing: c.spacing})
			require.Equal(t, c.want, breaks(r, findings.TooClose), r.Findings)
		})
	}
}

// Score lines and print may lie as close as they like.
func TestSpacingIsForCutsOnly(t *testing.T) {
	both := pathOf("a", squareA) + pathOf("b", "M 31 10 h 5 v 5 h -5 Z")
	for _, id := range []string{"score", "print"} {
		require.Empty(t, errorsOf(Check([]byte(layer(`id="`+id+`"`, both)), Demands{Spacing: 3})), id)
	}
	require.Len(t, errorsOf(Check([]byte(cutLayer(both)), Demands{Spacing: 3})), 1)
}
