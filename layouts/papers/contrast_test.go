package papers_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/layouts/papers"
)

// Values of W3C documents: black on white is 21:1 (WCAG 2.2, contrast ratio);
// #767676 is the lightest grey with 4.5:1 on white and #949494 that with 3:1,
// their neighbours #777777 and #959595 just miss (as W3C's Understanding 1.4.3
// and 1.4.11 have it for #777777 and 4.47:1; the others from memory). Primary
// colours on black by the glossary's weights: (0.2126 + 0.05) / 0.05 and so on.
func TestContrast(t *testing.T) {
	for _, tt := range []struct {
		a, b         string
		want, within float64
	}{
		{"#000000", "#ffffff", 21, 1e-9},
		{"#ffffff", "#ffffff", 1, 1e-9},
		{"#777777", "#ffffff", 4.47, 0.01},
		{"#767676", "#ffffff", 4.54, 0.005},
		{"#949494", "#ffffff", 3.03, 0.005},
		{"#959595", "#ffffff", 2.99, 0.01},
		{"#ff0000", "#000000", 5.252, 1e-9},
		{"#00ff00", "#000000", 15.304, 1e-9},
		{"#0000ff", "#000000", 2.444, 1e-9},
	} {
		t.Run(tt.a+" on "+tt.b, func(t *testing.T) {
			require.InDelta(t, tt.want, papers.Contrast(tt.a, tt.b), tt.within)
			require.Equal(t, papers.Contrast(tt.a, tt.b), papers.Contrast(tt.b, tt.a))
		})
	}
}

func TestContrastProperties(t *testing.T) {
	colour := rapid.StringMatching(`#[0-9a-f]{6}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := colour.Draw(t, "a"), colour.Draw(t, "b")
		ratio := papers.Contrast(a, b)
		require.GreaterOrEqual(t, ratio, 1.0)
		require.LessOrEqual(t, ratio, 21+1e-9)
		require.InDelta(t, 1, papers.Contrast(a, a), 1e-12)
	})
}

func TestSubstitutes(t *testing.T) {
	small := geometry.Size{W: 6 * geometry.Inch, H: 6 * geometry.Inch}
	paper := func(name, colour string, change ...func(*papers.Paper)) papers.Paper {
		p := papers.Paper{Name: name, Sheet: small, Colour: colour, GSM: 120, Pattern: papers.TwoWay}
		for _, c := range change {
			c(&p)
		}
		return p
	}
	chalk := paper("chalk", "#ffffff")
	wanted := paper("wanted", "#555555") // 7.46:1 on white
	list := []papers.Paper{
		wanted, chalk,
		paper("dark", "#333333"),
		paper("clear enough", "#949494"),
		paper("too pale", "#959595"),
		paper("no colour", ""),
		paper("no weight", "#333333", func(p *papers.Paper) { p.GSM = 0 }),
		paper("large", "#333333", func(p *papers.Paper) { p.Sheet.W *= 2 }),
		// 120 gsm is estimated at 0.156 mm; the band is 0.0508 mm either way.
		paper("thick", "#333333", func(p *papers.Paper) { p.Caliper = 207 * geometry.Micrometre }),
		paper("as thick as may be", "#333333", func(p *papers.Paper) { p.Caliper = 206 * geometry.Micrometre }),
		paper("one-way", "#333333", func(p *papers.Paper) { p.Pattern = papers.OneWay }),
		paper("plain", "#333333", func(p *papers.Paper) { p.Pattern = papers.Plain }),
	}
	names := func(beside ...papers.Paper) []string {
		var out []string
		for _, p := range papers.Substitutes(wanted, list, beside) {
			out = append(out, p.Name)
		}
		return out
	}
	require.Equal(t, []string{"dark", "clear enough", "as thick as may be", "plain"}, names(chalk))
	require.Equal(t, []string{"dark", "as thick as may be", "plain"}, names(chalk, list[3]), "what lies beside it stands in for none")
	wanted.Colour = ""
	require.Empty(t, names(chalk))
}
