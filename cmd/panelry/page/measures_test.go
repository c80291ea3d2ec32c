package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// Measures of a sentence are told in the unit that is looked at: in fractions
// of an inch, in decimals of it, or in millimetres. What was typed and what is
// an example stays. 1 in is 25.4 mm (international yard and pound, 1959).
func TestMeasuresIn(t *testing.T) {
	for _, c := range []struct{ text, fractions, decimals, metric string }{
		{"only 0.0152 x 0.1372 in, and 3 in", "only about 1/64 x 9/64 in, and 3 in", "", "only 0.386 x 3.485 mm, and 76.2 mm"},
		{"it is 1.9139 in short; the widest gap is 1 13/16 in", "it is about 1 29/32 in short; the widest gap is 1 13/16 in", "", "it is 48.613 mm short; the widest gap is 46.038 mm"},
		{"2514.6 mm wide, more than the 1000 mm allowed", "99 in wide, more than about the 39 3/8 in allowed", "99 in wide, more than the 39.3701 in allowed", ""},
		{"a card of 4 1/4 x 5 1/2 in", "", "", "a card of 107.95 x 139.7 mm"},
		{`"1/6th" is not a length; write it like 4 1/4, 1/8, 0.5 in or 3.2 mm`, "", "", ""},
		{`write a size in quotes, like "4.25 x 5 1/2 in"; "0.3 in" is none`, "", "", ""},
		{`"1/8" has no unit: is it 1/8 in (3.175 mm) or 1/8 mm?`, "", "", ""},
		{"4 of each, 16 in all; more than 99 in a file", "", "", ""},
	} {
		for _, as := range []struct {
			want      string
			unit      geometry.Unit
			fractions bool
		}{{c.fractions, geometry.Inches, true}, {c.decimals, geometry.Inches, false}, {c.metric, geometry.Millimetres, true}} {
			if as.want == "" {
				as.want = c.text
			}
			require.Equal(t, as.want, measuresIn(c.text, as.unit, as.fractions))
		}
	}
}

// Errors speak in the unit of the page, whatever the design's is.
func TestComplaintsInTheUnitOfThePage(t *testing.T) {
	s := serve(t, demoText(t))
	for _, c := range []struct{ view, key, typed, want string }{
		{"", "front.margin", "1/6th", `"1/6th" is not a length; write it like 4 1/4, 1/8, 0.5 in or 3.2 mm.`},
		{"", "card.width", "99", "99 in wide, more than about the 39 3/8 in allowed"},
		{"u=mm", "front.gap", "60", "the widest gap is 46.038 mm"},
		{"u=mm", "front.margin", "60", "Two margins of 60 mm leave nothing of 107.95 mm; use less than 53.975 mm."},
	} {
		p := s.set(t, demoText(t), fieldView, c.view, c.key, c.typed)
		require.True(t, p.Refused)
		require.Contains(t, p.Status, c.want)
		if c.view != "" {
			require.NotRegexp(t, `\d in\b`, p.Status)
		}
	}
}
