package papers_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/papers"
)

// Thicknesses that printers' and paper sellers' pages give for uncoated
// papers (trade-facts section 3, B10 to B13), in mm from thousandths of an
// inch; within a tenth, as papers of one weight differ by finish.
func TestEstimatedCaliper(t *testing.T) {
	const mil = 0.0254
	for _, tt := range []struct {
		weight      string
		least, most float64
	}{
		{"20 lb bond", 3.8 * mil, 4.0 * mil},
		{"24 lb bond", 4.5 * mil, 4.8 * mil},
		{"28 lb bond", 5.2 * mil, 5.8 * mil},
		{"32 lb bond", 6.0 * mil, 6.0 * mil},
		{"148 gsm", 0.18, 0.18},
		{"163 gsm", 7 * mil, 8 * mil},
		{"176 gsm", 0.23, 0.23},
	} {
		t.Run(tt.weight, func(t *testing.T) {
			got := papers.EstimatedCaliper(weigh(t, tt.weight)).In(geometry.Millimetres)
			require.GreaterOrEqual(t, got, 0.9*tt.least)
			require.LessOrEqual(t, got, 1.1*tt.most)
		})
	}
	require.Equal(t, 260*geometry.Micrometre, papers.EstimatedCaliper(200))
}

// A gloss cover of 100 lb and 0.0095 in, which a printing-paper formula page
// gives, is a third under the estimate: no doubt yet. More than a factor of
// two is.
func TestCaliperDoubt(t *testing.T) {
	paper := papers.Paper{GSM: 270.5, Caliper: 241_300}
	require.Empty(t, paper.CaliperDoubt(geometry.Inches))
	paper.GSM = 100 // about 0.13 mm
	for caliper, want := range map[geometry.Length]string{
		260 * geometry.Micrometre: "",
		261 * geometry.Micrometre: "a caliper of 0.26 mm is very thick for 100 gsm, which is usually about 0.13 mm; is one of the two wrong?",
		65 * geometry.Micrometre:  "",
		64 * geometry.Micrometre:  "a caliper of 0.06 mm is very thin for 100 gsm, which is usually about 0.13 mm; is one of the two wrong?",
		0:                         "",
	} {
		paper.Caliper = caliper
		require.Equal(t, want, paper.CaliperDoubt(geometry.Millimetres), "%s", caliper)
	}
	paper.Caliper = 12 * geometry.Inch / 1000
	require.Contains(t, paper.CaliperDoubt(geometry.Inches), "a caliper of 0.012 in is very thick for 100 gsm, which is usually about 0.005 in")
}

func TestThickness(t *testing.T) {
	caliper, estimated := papers.Paper{GSM: 200}.Thickness()
	require.Equal(t, 260*geometry.Micrometre, caliper)
	require.True(t, estimated)
	caliper, estimated = papers.Paper{GSM: 200, Caliper: 1}.Thickness()
	require.Equal(t, geometry.Length(1), caliper)
	require.False(t, estimated)
	caliper, estimated = papers.Paper{}.Thickness()
	require.Zero(t, caliper)
	require.False(t, estimated)
}
