package reader

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

// Which of the shapes each selector finds, as Chromium does with the same
// file (Selectors 3 §6.6; the root counts as an only child, Selectors 4).
func TestPseudoClasses(t *testing.T) {
	const body = `<rect id="r1" width="5" height="5"/><rect id="r2" class="a" width="5" height="5"/><circle id="c1" r="3"/>` +
		`<rect id="r3" width="5" height="5"/><g><rect id="r4" width="5" height="5"/></g><g/><rect id="r5" class="a" width="5" height="5"/>` +
		`<a href="#x"><rect id="r6" width="5" height="5"/></a><circle id="c2" r="3"/>`
	for selector, want := range map[string][]string{
		"rect:nth-child(2)":            {"r1"}, // the style element is the first
		"rect:nth-child(3)":            {"r2"},
		"rect:nth-child(even)":         {"r1", "r5"},
		"rect:nth-child(odd)":          {"r2", "r3", "r4", "r6"},
		"rect:nth-child(-n+3)":         {"r1", "r2", "r4", "r6"},
		"rect:nth-child( 3n - 1 )":     {"r1", "r3", "r5"},
		"rect:nth-last-child(3)":       {"r5"},
		"rect:nth-of-type(2)":          {"r2"},
		"circle:first-of-type":         {"c1"},
		"circle:last-of-type":          {"c2"},
		"rect:only-child":              {"r4", "r6"},
		"rect:only-of-type":            {"r4", "r6"},
		"rect:not(.a)":                 {"r1", "r3", "r4", "r6"},
		"rect:not(#r2):not([class])":   {"r1", "r3", "r4", "r6"},
		"g:empty + rect":               {"r5"},
		"a:link rect":                  {"r6"},
		"rect:hover":                   nil,
		"rect:not(:first-child)":       {"r1", "r2", "r3", "r5"},
		"rect:nth-child(0n+3)":         {"r2"},
		"rect:nth-of-type(n+3)":        {"r3", "r5"},
		"rect:nth-last-of-type(1)":     {"r4", "r5", "r6"},
		":nth-child(1) rect, #nothing": {"r1", "r2", "r3", "r4", "r5", "r6"}, // the root is one
	} {
		t.Run(selector, func(t *testing.T) {
			var found findings.List
			f := Read([]byte(fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 200 100"><style>%s{width:33px;r:9px}</style>%s</svg>`, selector, body)), &found)
			var got []string
			for _, e := range f.Elements {
				if w := e.Bounds.W(); w > 16 && w < 17 || w > 8 && w < 10 {
					got = append(got, e.ID)
				}
			}
			require.Equal(t, want, got)
			require.Zero(t, found.Count(findings.StyleUnknown))
		})
	}
	for _, wrong := range []string{"rect:nth-child(2 n)", "rect:nth-child()", "rect:nth-child(n+ +2)", "rect:not(g rect)", "rect:not()", "rect:has(g)", "rect:nth-child(99999999999)", "rect:nth-child(2"} {
		_, ok := parseSelector(wrong)
		require.False(t, ok, wrong)
	}
}
