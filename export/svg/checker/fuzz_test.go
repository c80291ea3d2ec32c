package checker

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Whatever the file: no panic, the same report again, places within the
// file, and a report that can be written down and drawn.
func FuzzCheck(f *testing.F) {
	for _, c := range ruleCases() {
		if c.rule == "not-compared" {
			continue
		}
		f.Add(c.file, c.demands.Edge, c.demands.Spacing)
		f.Add(c.near, 0.0, 2.0)
	}
	f.Add(small, 3.0, 1.0)
	f.Add(`<svg xmlns="http://www.w3.org/2000/svg" width="10" height="9in"><use href="#a"/><symbol id="a"><ellipse rx="3" ry="4"/></symbol></svg>`, 1.0, 1.0)
	f.Add(`<svg xmlns="http://www.w3.org/2000/svg" width="1e9mm" height="1mm" viewBox="0 0 1 1"><path d="M 0 0 L 1e30 1e30 1e-30 5 Z"/></svg>`, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, file string, edge, spacing float64) {
		if math.IsNaN(edge+spacing) || math.IsInf(edge+spacing, 0) || len(file) > 1<<14 {
			return
		}
		d := Demands{SheetW: 100, SheetH: 100, Edge: edge, Spacing: spacing}
		r := Check([]byte(file), d)
		require.Equal(t, r.Findings, Check([]byte(file), d).Findings)
		for _, f := range r.Findings {
			require.NotEmpty(t, f.Message)
			require.False(t, f.Line < 0 || f.Column < 0 || f.Line == 0 != (f.Column == 0), "%d:%d", f.Line, f.Column)
		}
		for _, e := range r.Elements {
			require.GreaterOrEqual(t, e.Length, 0.0)
			require.Equal(t, e.Closing == Open, !e.HasArea)
		}
		data, err := JSON([]Named{{"a.svg", r}})
		require.NoError(t, err)
		require.True(t, json.Valid(data))
		if r.W < 99_000 && r.H < 99_000 { // a picture is no larger than 100 m
			drawn(t, "a.svg", r)
		}
	})
}
