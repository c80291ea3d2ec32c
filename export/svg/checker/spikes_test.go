package checker

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/export/svg/findings"
)

const (
	heart    = "M 50 30 C 50 0 0 0 0 35 C 0 60 40 80 50 95 C 60 80 100 60 100 35 C 100 0 50 0 50 30 Z"
	teardrop = "M 50 0 C 50 40 80 60 80 80 A 30 30 0 0 1 20 80 C 20 60 50 40 50 0 Z"
)

// fineSpear writes the spear of two arcs around 80,10 and 20,10 as very many short
// straight lines.
func fineSpear() string {
	var b strings.Builder
	const n = 1500
	for i := range n + 1 {
		sin, cos := math.Sincos(math.Pi/2 + float64(n-i)/n*math.Pi/2)
		fmt.Fprintf(&b, "%c %.4f %.4f ", "ML"[min(i, 1)], 80+30*cos, 10+30*sin)
	}
	for i := range n {
		sin, cos := math.Sincos(float64(n-i) / n * math.Pi / 2)
		fmt.Fprintf(&b, "L %.4f %.4f ", 20+30*cos, 10+30*sin)
	}
	return b.String() + "Z"
}

// Two sides that leave a cusp part at once, and each outline is a fine one,
// whichever way it stands. Areas are by the formulas of circles; those of
// heart and teardrop were worked out by GEOS (shapely) of polygons with
// 20,000 points a curve.
func TestCuspsAreNoSpikes(t *testing.T) {
	for name, c := range map[string]struct {
		d    string
		area float64
	}{
		"the notch of a heart":           {heart, 5785},
		"the other way round":            {"M 50 30 C 50 0 100 0 100 35 C 100 60 60 80 50 95 C 40 80 0 60 0 35 C 0 0 50 0 50 30 Z", 5785},
		"not at its start":               {"M 50 95 C 60 80 100 60 100 35 C 100 0 50 0 50 30 C 50 0 0 0 0 35 C 0 60 40 80 50 95 Z", 5785},
		"closed without Z":               {"M 50 30 C 50 0 0 0 0 35 C 0 60 40 80 50 95 C 60 80 100 60 100 35 C 100 0 50 0 50 30", 5785},
		"the tip of a teardrop":          {teardrop, 3453.71669},
		"an arc and its tangent":         {"M 10 80 H 60 V 60 H 30 A 20 20 0 0 1 10 80 Z", 1000 - 100*math.Pi},
		"two arcs that bend apart":       {"M 50 10 A 30 30 0 0 0 80 40 H 20 A 30 30 0 0 0 50 10 Z", 1800 - 450*math.Pi},
		"the same of very short lines":   {fineSpear(), 1800 - 450*math.Pi},
		"two arcs that bend one way":     {"M 10 50 A 30 30 0 0 1 70 50 H 50 A 20 20 0 0 0 10 50 Z", 250 * math.Pi},
		"and nearly alike":               {"M 10 50 A 30 30 0 0 1 70 50 H 67 A 28.5 28.5 0 0 0 10 50 Z", math.Pi / 2 * (900 - 28.5*28.5)},
		"a small notch":                  {"M 50 50 A 0.5 0.5 0 0 0 49.5 49.5 H 40 V 60 H 60 V 49.5 H 50.5 A 0.5 0.5 0 0 0 50 50 Z", 20*10.5 - 0.5 + math.Pi/8},
		"a cusp of handles that are not": {"M 50 50 L 20 80 H 80 Z", 900},
	} {
		t.Run(name, func(t *testing.T) {
			for _, turn := range []float64{0, 33, 90, 211.7} {
				r := Check([]byte(cutLayer(fmt.Sprintf(`<path transform="translate(%g) rotate(%g 50 50) scale(0.6)" d="%s"/>`, 1.0, turn, c.d))), Demands{})
				for _, f := range errorsOf(r) {
					require.Contains(t, f, "off-sheet", "turned by %v", turn)
				}
				require.InEpsilon(t, c.area*0.36, r.Elements[0].Area, 1e-5)
			}
		})
	}
}

// Two arcs that bend to one hand leave their cusp much alike; the chords that
// stand for them may even cross. The area is that of two segments of a circle,
// whose chords lie on one line.
func TestCuspOfArcsThatBendOneWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r1 := rapid.Float64Range(5, 45).Draw(t, "r1")
		r2 := r1 * rapid.Float64Range(0.02, 0.9).Draw(t, "r2/r1")
		angle := rapid.Float64Range(0.3, 1).Draw(t, "angle")
		sin, cos := math.Sincos(angle)
		d := fmt.Sprintf("M 0 0 A %g %g 0 0 1 %g %g L %g %g A %g %g 0 0 0 0 0 Z", r1, r1, r1*sin, r1*(1-cos), r2*sin, r2*(1-cos), r2, r2)
		turn := rapid.Float64Range(0, 360).Draw(t, "turn")
		r := Check([]byte(cutLayer(fmt.Sprintf(`<path transform="translate(50 50) rotate(%g)" d="%s"/>`, turn, d))), Demands{})
		require.Empty(t, errorsOf(r))
		require.InEpsilon(t, (r1*r1-r2*r2)*(angle-math.Sin(angle))/2, r.Elements[0].Area, 1e-6)
	})
}

// A boundary that runs back over itself is a spike, whatever it is made of,
// and so is one that encloses no more than the thickness of a line.
func TestSpikesOfCurves(t *testing.T) {
	for name, d := range map[string]string{
		"an arc back over its circle":       "M 10 50 A 20 20 0 0 1 50 50 A 20 20 0 0 0 30 30 V 80 H 10 Z",
		"all of an arc":                     "M 10 50 A 20 20 0 0 1 50 50 A 20 20 0 0 0 10 50 V 80 H 0 Z",
		"a curve back over itself":          "M 50 50 C 60 20 80 20 90 50 C 80 20 60 20 50 50 L 20 80 L 20 30 Z",
		"half the way, leaving in a bow":    "M 50 50 C 60 20 80 20 90 50 C 85 35 77.5 27.5 70 27.5 C 50 27.5 40 60 20 80 L 20 30 Z",
		"back in two halves":                "M 50 50 C 60 20 80 20 90 50 C 85 35 77.5 27.5 70 27.5 C 62.5 27.5 55 35 50 50 L 20 80 L 20 30 Z",
		"half a micrometre beside":          "M 50 50 C 60 20 80 20 90 50 C 80 20.0005 60 20.0005 50 50 L 20 80 L 20 30 Z",
		"a hundredth of a millimetre":       "M 50 50 C 60 20 80 20 90 50 C 80 20.01 60 20.01 50.01 50.01 L 20 80 L 20 30 Z",
		"arcs of 30 and 30.02 mm":           "M 10 50 A 30 30 0 0 1 70 50 H 70.04 A 30.02 30.02 0 0 0 10 50 Z",
		"a line back over a line":           "M 10 50 H 90 H 40 V 90 H 10 Z",
		"of short lines":                    "M 10 50 H 50 H 60 H 70 H 80 H 90 H 88 H 85 H 61 H 40 V 90 H 10 Z",
		"a line, leaving in a bow":          "M 10 50 H 90 H 60 C 40 50 40 60 40 90 H 10 Z",
		"half a millimetre":                 "M 10 50 H 60 H 59.5 V 90 H 10 Z",
		"a line back over an arc's chord":   "M 10 50 H 90 A 20000 20000 0 0 0 40 50.02 V 90 H 10 Z",
		"before a point twice":              "M 10 50 H 90 H 90 H 40 V 90 H 10 Z",
		"at the start, closed without a Z":  "M 90 50 H 10 V 90 H 40 V 50 H 90",
		"at the end of an open line's bow":  "M 10 50 Q 50 20 90 50 Q 50 20 10 50 L 20 80",
		"a quadratic back over a cubic one": "M 20 50 Q 50 20 80 50 C 60 30 40 30 20 50 L 20 80 L 10 80 Z",
	} {
		t.Run(name, func(t *testing.T) {
			for _, turn := range []float64{0, 33, 90, 211.7} {
				r := Check([]byte(cutLayer(fmt.Sprintf(`<path transform="rotate(%g 50 50)" d="%s"/>`, turn, d))), Demands{})
				require.True(t, breaks(r, findings.Spike), "turned by %v: %v", turn, errorsOf(r))
			}
		})
	}
}
