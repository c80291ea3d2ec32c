package checker

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// A line that ends on an outline does not cross it; one that goes through
// does, by however little a blade can follow.
func TestLinesThatEndOnOutlines(t *testing.T) {
	const head = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50"><g id="cut" fill="none" stroke="#000000"><path d="M10 10H30V30H10Z"/>`
	for line, want := range map[string][]string{
		"M10 20H30":           nil, // from side to side
		"M10 20H29":           nil,
		"M10.0000001 20H30":   nil,
		"M9.9999999 20H30":    nil,
		"M10 10L30 30":        nil, // from corner to corner
		"M9 20H30":            {"crossing-outlines"},
		"M9.99 20H20":         {"crossing-outlines"},
		"M10 20H31":           {"crossing-outlines"},
		"M5 20H35":            {"crossing-outlines"},
		"M10 20H30M10 25H31":  {"crossing-outlines"},
		"M5 5L10 10L20 15H15": {"crossing-outlines"}, // in through the corner
	} {
		t.Run(line, func(t *testing.T) {
			r := Check([]byte(head+`<path d="`+line+`"/></g></svg>`), Demands{})
			var got []string
			for _, f := range r.Findings {
				if f.Rule.ID == "crossing-outlines" || f.Rule.ID == "doubled-edge" {
					got = append(got, f.Rule.ID)
				}
			}
			require.Equal(t, want, got)
		})
	}
}

// Slips that a review found.
func TestSlips(t *testing.T) {
	const square = `<path id="a" d="M 10 10 h 20 v 20 h -20 Z"/>`
	ids := func(r Report) []string {
		list := []string{}
		for _, f := range r.Findings {
			if f.Rule.Severity > 0 {
				list = append(list, f.Rule.ID)
			}
		}
		return list
	}
	for name, c := range map[string]struct {
		attrs, body string
		demands     Demands
		want        []string
	}{
		"a thin strip":                 {` data-edges="shared"`, `<path d="M 10 10 h 50 v 0.4 h -50 Z"/>`, Demands{}, []string{"thin-piece"}},
		"not so thin":                  {` data-edges="shared"`, `<path d="M 10 10 h 50 v 0.6 h -50 Z"/>`, Demands{}, []string{}},
		"a short edge in common, left": {``, square + `<path d="M 0 12 h 10 v 0.2 h -10 Z"/>`, Demands{}, []string{}},
		"and right":                    {``, square + `<path d="M 30 12 h 10 v 0.2 h -10 Z"/>`, Demands{}, []string{}},
		"crossing, not too close": {``, square + `<path d="M 15 15 h 10 v 10 h -10 Z"/><path d="M 15 20 L 0 15 V 25 Z"/>`,
			Demands{Spacing: 1}, []string{"crossing-outlines"}},
		"a slit in its piece":    {``, square + `<path d="M 11 15 v 10"/>`, Demands{Spacing: 2}, []string{"open-outline"}},
		"a slit beside it":       {``, square + `<path d="M 31 15 v 10"/>`, Demands{Spacing: 2}, []string{"too-close", "open-outline"}},
		"a spike where it ends":  {``, `<path d="M 40 10 L 10 10 V 30 H 30 V 10.04 L 40 10"/>`, Demands{}, []string{"spike", "touching-ends"}},
		"an outline of one spot": {``, `<path d="M 10 10 Z"/>`, Demands{}, []string{"zero-length"}},
		"two pieces in a border": {``, `<path d="M 1 1 h 98 v 48 h -98 Z"/>` + square + `<path d="M 31 10 h 9 v 20 h -9 Z"/>`, Demands{Spacing: 2}, []string{"too-close"}},
		"two windows, a bridge":  {``, square + `<path d="M 12 12 h 5 v 9 h -5 Z"/><path d="M 18 12 h 5 v 9 h -5 Z"/>`, Demands{Spacing: 2}, []string{"too-close"}},
		"a window near the edge": {``, square + `<path d="M 10.5 12 h 5 v 9 h -5 Z"/>`, Demands{Spacing: 2}, []string{}},
		"a perforation":          {``, `<path d="M 10 10 h 3 M 15 10 h 3 M 20 10 h 3 M 25 10 h 3"/>`, Demands{}, []string{}},
		"two slits":              {``, `<path d="M 10 10 h 30 M 10 20 h 30"/>`, Demands{}, []string{"open-outline"}},
		"ids that are empty":     {``, `<path id="" d="M 10 10 h 9 v 9 Z"/><path id="" d="M 30 10 h 9 v 9 Z"/>`, Demands{}, []string{}},
	} {
		t.Run(name, func(t *testing.T) {
			r := Check([]byte(`<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50"><g id="cut" fill="none" stroke="#000000"`+
				c.attrs+`>`+c.body+`</g></svg>`), c.demands)
			require.ElementsMatch(t, c.want, ids(r))
		})
	}
	// What is printed may be text alone.
	r := Check([]byte(`<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50"><g id="print"><text>Hi</text></g><g id="cut" fill="none" stroke="#000000">`+square+`</g></svg>`), Demands{})
	require.Empty(t, ids(r))
	for _, f := range r.Findings {
		require.NotEqual(t, "empty-layer", f.Rule.ID)
	}
	// Two rings that share a long staircase: 212 - 2*66 is what is left.
	stairs := "M 0 0"
	for i := range 8 {
		stairs += fmt.Sprintf(" L %d %d L %d %d", i+1, i, i+1, i+1)
	}
	r = Check([]byte(`<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50"><path d="`+stairs+" V 20 H 0 Z "+stairs+` V 10 H 0 Z"/></svg>`), Demands{})
	require.InDelta(t, 80, r.Elements[0].Area, 1e-9)
	// Numbers beyond all bounds still make JSON and pictures.
	for _, file := range []string{
		`<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50"><g transform="scale(1e30)"><g transform="scale(1e30)"><g transform="scale(1e30)"><g transform="scale(1e30)"><g transform="scale(1e30)"><g transform="scale(1e30)"><path d="M 0 0 H 1e5 V 1e5 Z"/></g></g></g></g></g></g></svg>`,
		`<svg xmlns="http://www.w3.org/2000/svg" width="110000mm" height="10mm"/>`,
		`<svg xmlns="http://www.w3.org/2000/svg" width="1e14mm" height="10mm"/>`,
	} {
		r := Check([]byte(file), Demands{})
		_, err := JSON([]Named{{"far", r}})
		require.NoError(t, err)
		_, err = Picture("far", r)
		require.NoError(t, err)
	}
}
