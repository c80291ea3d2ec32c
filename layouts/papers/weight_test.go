package papers_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/layouts/papers"
)

// weigh reads a weight that is known to be readable.
func weigh(t *testing.T, text string) float64 {
	t.Helper()
	gsm, err := papers.ParseWeight(text)
	require.NoError(t, err)
	return gsm
}

// The twelve checks. "trade" is the trade's rounded formula, gsm = lb x
// 1406.5 / basic area in square inches, worked out to one place: within 0.1 %
// and that place of the exact one. "printed" is a printer manual's table,
// whole gsm; 0 where it has no entry. Two of its text entries are marked
// there as rounded, really 61 and 81 lb: see the next test.
func TestParseWeightAgainstTables(t *testing.T) {
	tests := []struct {
		text           string
		trade, printed float64
	}{
		{"20 lb bond", 75.2, 75}, {"24 lb bond", 90.3, 90}, {"28 lb bond", 105.3, 105},
		{"60 lb text", 88.8, 0}, {"80 lb text", 118.4, 0}, {"100 lb text", 148.1, 148},
		{"65 lb cover", 175.8, 176}, {"80 lb cover", 216.4, 216}, {"100 lb cover", 270.5, 271},
		{"110 lb cover", 297.5, 0}, {"90 lb index", 162.8, 163}, {"110 lb index", 198.9, 199},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			got := weigh(t, tt.text)
			require.InDelta(t, tt.trade, got, 0.001*tt.trade+0.05)
			if tt.printed != 0 {
				require.InDelta(t, tt.printed, got, 0.001*tt.printed+0.5)
			}
		})
	}
}

func TestParseWeightWorkedExamples(t *testing.T) {
	tests := []struct {
		text        string
		want, delta float64
		source      string
	}{
		{"61 lb text", 90, 0.5, "printer manual's table, entry for 60 lb, marked as really 61"},
		{"81 lb text", 120, 0.5, "printer manual's table, entry for 80 lb, marked as really 81"},
		{"28 lb bond", 105.3, 0.1, "worked example of a printing-paper formula page"},
		{"45 lb book", 67, 0.5, "worked example of a printing-paper formula page"},
		{"100 lb tag", 162.79, 0.17, "trade constant 1406.5 / 864 sq in, within 0.1 %"},
		{"100 lb bristol", 219.34, 0.22, "trade constant 1406.5 / 641.25 sq in, within 0.1 %"},
		// The exact constant by hand: 453.59237 g / (500 x 0.0254 m x 0.0254 m)
		// = 1406.139..., divided by 520 square inches.
		{"1 lb cover", 2.7041141, 0.000001, "hand sum"},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			require.InDelta(t, tt.want, weigh(t, tt.text), tt.delta, tt.source)
		})
	}
}

func TestParseWeightSpellings(t *testing.T) {
	tests := []struct{ text, same string }{
		{"176gsm", "176 gsm"}, {"176 GSM", "176 gsm"}, {" 176.0  g/m2 ", "176 gsm"}, {"176 g/m²", "176 gsm"},
		{"67,5 gsm", "67.5 gsm"}, {"176 gsm.", "176 gsm"},
		{"65 lbs cover", "65 lb cover"}, {"65# cover", "65 lb cover"}, {"65lb. Cover", "65 lb cover"},
		{"65 pounds cover", "65 lb cover"}, {"65LBCOVER", "65 lb cover"}, {"65 pound cover", "65 lb cover"},
		{"80 lb book", "80 lb text"}, {"80 lb offset", "80 lb text"},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) { require.Equal(t, weigh(t, tt.same), weigh(t, tt.text)) })
	}
	require.Equal(t, 176.0, weigh(t, "176 gsm"))
}

func TestParseWeightRefuses(t *testing.T) {
	const like = "write it like 176 gsm or 65 lb cover"
	const kinds = "cover, text, index, bond, tag, bristol"
	tests := []struct{ name, text, want string }{
		{"pounds alone", "110 lb", "110 lb can be index (199 gsm) or cover (297 gsm): write 110 lb index or 110 lb cover"},
		{"80 pounds alone", "80#", "80 lb can be text (118 gsm) or cover (216 gsm): write 80 lb text or 80 lb cover"},
		{"90 pounds alone", "90 lbs", "90 lb can be text (133 gsm) or index (163 gsm) or cover (243 gsm): " +
			"write 90 lb text or 90 lb index or 90 lb cover"},
		{"one reading", "24 lb", "24 lb needs the kind of paper; it is sold as bond (90 gsm): write 24 lb bond"},
		{"no reading", "300 lb", "300 lb needs the kind of paper; write one of " + kinds + " behind the pounds"},
		{"no pounds", "0 lb", "0 lb needs the kind of paper; write one of " + kinds + " behind the pounds"},
		{"bare number", "176", `"176" has no unit; write 176 gsm, or the pounds and the kind of paper, like 65 lb cover`},
		{"unknown kind", "65 lb cardstock", `"65 lb cardstock": "cardstock" is no known kind of paper; write one of ` + kinds + " behind the pounds"},
		{"kind without pounds", "65 cover", `"65 cover" is not a paper weight; ` + like},
		{"gsm with a kind", "176 gsm cover", `"176 gsm cover": nothing goes behind gsm; write 176 gsm`},
		{"empty", " ", "a paper weight is missing; " + like},
		{"no number", "gsm", `"gsm" is not a paper weight; ` + like},
		{"two points", "1.2.3 gsm", `"1.2.3 gsm" is not a paper weight; ` + like},
		{"minus", "-80 gsm", `"-80 gsm" is not a paper weight; ` + like},
		{"thousands", "1,200 gsm", `"1,200 gsm" could mean thousands or a decimal comma; write it with a point`},
		{"exponent", "1e3 gsm", `"1e3 gsm" is not a paper weight; ` + like},
		{"nothing", "0 gsm", `"0 gsm" is 0 gsm; paper has 1 to 5000 gsm`},
		{"too light", "0.25 gsm", `"0.25 gsm" is 0.25 gsm; paper has 1 to 5000 gsm`},
		{"too heavy", "9000 lb cover", `"9000 lb cover" is 24337 gsm; paper has 1 to 5000 gsm`},
		{"too long", strings.Repeat("9", 50), `"` + strings.Repeat("9", 40) + `…" is too long for a paper weight; ` + like},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			gsm, err := papers.ParseWeight(tt.text)
			require.EqualError(t, err, tt.want)
			require.Zero(t, gsm)
		})
	}
}

// Worked out by hand: area in square metres x gsm. Three A4 sheets of 80 gsm
// make a 20 g letter with their envelope (newspaper citing a postal operator).
func TestSheetMass(t *testing.T) {
	tests := []struct {
		size, weight string
		want, delta  float64
	}{
		{"8 1/2 x 11 in", "80 lb cover", 13.05, 0.005},
		{"8 1/2 x 5 1/2 in", "80 lb cover", 6.52, 0.005},
		{"12 x 12 in", "65 lb cover", 16.3, 0.05},
		{"12 x 12 in", "100 gsm", 9.29, 0.005},
		{"210 x 297 mm", "80 gsm", 4.99, 0.005},
		{"1000 x 1000 mm", "176 gsm", 176, 1e-9},
		{"0 x 5 mm", "176 gsm", 0, 0},
	}
	for _, tt := range tests {
		t.Run(tt.size+" of "+tt.weight, func(t *testing.T) {
			size, err := geometry.ParseSize(tt.size, geometry.NoUnit)
			require.NoError(t, err)
			require.InDelta(t, tt.want, papers.SheetMass(size, weigh(t, tt.weight)), tt.delta)
		})
	}
}

// The definition of the basis weight: 500 sheets of the basic size weigh that
// many pounds. And the trade's M-weight: 1000 sheets of 11 x 17 in of 70 lb
// book weigh 27.56 lb (worked example of a printing-paper formula page).
func TestSheetMassGivesBackThePounds(t *testing.T) {
	const gramsPerPound = 453.59237
	tests := []struct {
		weight, size  string
		sheets        float64
		pounds, delta float64
	}{
		{"20 lb bond", "17 x 22 in", 500, 20, 1e-9},
		{"70 lb text", "25 x 38 in", 500, 70, 1e-9},
		{"65 lb cover", "20 x 26 in", 500, 65, 1e-9},
		{"110 lb index", "25.5 x 30.5 in", 500, 110, 1e-9},
		{"100 lb tag", "24 x 36 in", 500, 100, 1e-9},
		{"67 lb bristol", "22.5 x 28.5 in", 500, 67, 1e-9},
		{"70 lb book", "11 x 17 in", 1000, 27.56, 0.005},
	}
	for _, tt := range tests {
		t.Run(tt.weight, func(t *testing.T) {
			size, err := geometry.ParseSize(tt.size, geometry.NoUnit)
			require.NoError(t, err)
			grams := tt.sheets * papers.SheetMass(size, weigh(t, tt.weight))
			require.InDelta(t, tt.pounds, grams/gramsPerPound, tt.delta)
		})
	}
}

func TestWeightProperties(t *testing.T) {
	t.Run("twice the pounds, twice the weight", rapid.MakeCheck(func(t *rapid.T) {
		pounds := rapid.IntRange(10, 500).Draw(t, "pounds")
		kind := rapid.SampledFrom([]string{"bond", "text", "cover", "index", "tag", "bristol"}).Draw(t, "kind")
		once, err := papers.ParseWeight(fmt.Sprintf("%d lb %s", pounds, kind))
		require.NoError(t, err)
		twice, err := papers.ParseWeight(fmt.Sprintf("%d lb %s", 2*pounds, kind))
		require.NoError(t, err)
		require.InEpsilon(t, 2*once, twice, 1e-12)
	}))
	t.Run("two halves weigh as much as the sheet", rapid.MakeCheck(func(t *rapid.T) {
		side := rapid.Int64Range(1, int64(2000*geometry.Millimetre))
		half := geometry.Size{W: geometry.Length(side.Draw(t, "w")), H: geometry.Length(side.Draw(t, "h"))}
		gsm := rapid.Float64Range(1, 5000).Draw(t, "gsm")
		whole := geometry.Size{W: 2 * half.W, H: half.H}
		require.InEpsilon(t, papers.SheetMass(whole, gsm), 2*papers.SheetMass(half, gsm), 1e-12)
		require.Equal(t, papers.SheetMass(half, gsm), papers.SheetMass(half.Turned(), gsm))
	}))
}

func FuzzParseWeight(f *testing.F) {
	for _, text := range []string{"176 gsm", "65 lb cover", "80# text", "110 lb", "20 lbs bond", "1,5 g/m²", "176", "", ".,", "9e99 lb tag"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		gsm, err := papers.ParseWeight(text)
		if err != nil {
			require.Zero(t, gsm)
			require.NotEmpty(t, err.Error())
			return
		}
		require.False(t, math.IsNaN(gsm) || gsm < 1 || gsm > 5000)
		again, err := papers.ParseWeight(strings.ToUpper(text))
		require.NoError(t, err)
		require.Equal(t, gsm, again)
	})
}
