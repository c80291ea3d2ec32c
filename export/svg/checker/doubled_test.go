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

// roundData is a circle as path data, from an angle on: of two arcs, of
// cubics with the usual handles, or of very many short lines.
func roundData(kind string, x, y, r, from float64) string {
	at := func(angle, radius float64) string {
		sin, cos := math.Sincos(angle)
		return fmt.Sprintf("%.6f %.6f", x+radius*cos, y+radius*sin)
	}
	d := "M " + at(from, r)
	switch kind {
	case "arcs":
		for _, turn := range []float64{2, 2 * math.Pi} {
			d += fmt.Sprintf(" A %.6f %.6f 0 %d 1 %s", r, r, int(turn)/4, at(from+turn, r))
		}
	case "cubics":
		for k := range 8 { // off by 1e-6 of the radius (Goldapp 1991)
			a, step := from+float64(k)*math.Pi/4, math.Pi/4
			h := 4.0 / 3 * math.Tan(step/4)
			long, lean := r*math.Hypot(1, h), math.Atan(h)
			d += fmt.Sprintf(" C %s %s %s", at(a+lean, long), at(a+step-lean, long), at(a+step, r))
		}
	default:
		for k := 1; k < 720; k++ {
			d += " L " + at(from+float64(k)*math.Pi/360, r)
		}
	}
	return d + " Z"
}

var kinds = []string{"arcs", "cubics", "lines"}

// Two circles that touch, outside or one in the other, have one point in
// common: r1 + r2 or r1 - r2 is the distance of their centres. They lie
// within 0.02 mm of each other for a millimetre and more.
func TestTangentCirclesAreNotDoubled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r1 := rapid.Float64Range(3, 24).Draw(t, "r1")
		r2 := rapid.Float64Range(0.5, 24).Draw(t, "r2")
		apart := r1 + r2
		if rapid.Bool().Draw(t, "one in the other") {
			r2 = r1 * rapid.Float64Range(0.1, 0.98).Draw(t, "r2/r1")
			apart = r1 - r2
		}
		angle := rapid.OneOf(rapid.Float64Range(0, 7), rapid.SampledFrom([]float64{0, math.Pi / 2})).Draw(t, "angle")
		sin, cos := math.Sincos(angle)
		from := rapid.OneOf(rapid.Just(angle), rapid.Float64Range(0, 7))
		a := roundData(rapid.SampledFrom(kinds[:2]).Draw(t, "one"), 50, 50, r1, from.Draw(t, "from"))
		b := roundData(rapid.SampledFrom(kinds[:2]).Draw(t, "other"), 50+apart*cos, 50+apart*sin, r2, from.Draw(t, "from")+math.Pi)
		r := Check([]byte(cutLayer(pathOf("a", a)+pathOf("b", b))), Demands{})
		require.False(t, breaks(r, findings.DoubledEdge) || breaks(r, findings.CrossingOutlines), "%v", errorsOf(r))
	})
}

// A circle on itself is doubled all the way round, wherever the two start and
// whatever they are drawn with.
func TestOneCircleTwiceIsDoubled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		radius := rapid.Float64Range(0.5, 45).Draw(t, "r")
		from := rapid.Float64Range(0, 7)
		kind := rapid.SampledFrom(kinds[:2])
		a := roundData(kind.Draw(t, "one"), 50, 50, radius, from.Draw(t, "from"))
		b := roundData(kind.Draw(t, "other"), 50, 50, radius, from.Draw(t, "from"))
		r := Check([]byte(cutLayer(pathOf("a", a)+pathOf("b", b))), Demands{})
		found := messagesOf(r, findings.DoubledEdge)
		require.Len(t, found, 1)
		var x, y, length float64
		_, err := fmt.Sscanf(found[0], "at %g, %g mm it lies on path#b for %g mm", &x, &y, &length)
		require.NoError(t, err, found[0])
		require.InEpsilon(t, 2*math.Pi*radius, length, 0.05) // where chords end, an eighth of one may be missed
		require.InDelta(t, radius, math.Hypot(x-50, y-50), 0.001)
	})
}

func TestWhatIsDoubled(t *testing.T) {
	const bow = "M 20 50 C 40 20 60 80 80 50"
	for name, c := range map[string]struct {
		a, b    string
		doubled bool
	}{
		"discs":                            {roundData("arcs", 30, 50, 10, 0), roundData("arcs", 50, 50, 10, math.Pi), false},
		"discs of 720 sides":               {roundData("lines", 30, 50, 10, 0), roundData("lines", 50, 50, 10, math.Pi), false},
		"a disc at a side":                 {roundData("arcs", 30, 50, 20, 1), "M 50 10 H 70 V 90 H 50 Z", false},
		"a disc in a corner":               {roundData("cubics", 30, 30, 20, 1), "M 10 10 H 90 V 90 H 10 Z", false},
		"a disc in a hole of 0.5 mm more":  {roundData("arcs", 50, 50, 30.5, 0), roundData("arcs", 50.5, 50, 30, 2), false},
		"a round corner at a side":         {"M 20 20 H 40 A 6 6 0 0 1 46 26 V 40 H 20 Z", "M 20 20 H 60 V 10 H 20 Z", true},
		"only the round corner at a side":  {"M 20 40 V 26 A 6 6 0 0 1 32 26 V 40 Z", "M 10 20 H 60 V 10 H 10 Z", false},
		"a wide arc at a side":             {"M 10 50 A 150 150 0 0 1 90 50 Z", "M 10 44.43 H 90 V 40 H 10 Z", false},
		"a bow and its chord":              {"M 20 50 C 40 48 60 48 80 50 V 90 H 20 Z", "M 10 48.5 H 90 V 40 H 10 Z", false},
		"across at a degree":               {"M 10 50 L 90 51.4 V 90 H 10 Z", "M 5 50.7 H 95 V 10 H 5 Z", false},
		"a disc of arcs and one of cubics": {roundData("arcs", 50, 50, 30, 0), roundData("cubics", 50, 50, 30, 1), true},
		"a disc of 720 sides":              {roundData("lines", 50, 50, 30, 0), roundData("lines", 50, 50, 30, 0), true},
		"half a circle on another's":       {"M 30 50 A 20 20 0 0 1 70 50 V 90 H 30 Z", "M 70 50 A 20 20 0 0 0 30 50 V 10 H 70 Z", true},
		"a curve back on itself":           {bow + " V 90 H 20 Z", "M 80 50 C 60 80 40 20 20 50 V 10 H 80 Z", true},
		"in two parts":                     {bow + " V 90 H 20 Z", "M 80 50 C 70 65 60 57.5 50 50 C 40 42.5 30 35 20 50 V 10 H 80 Z", true},
		"a part of it":                     {bow + " V 90 H 20 Z", "M 50 50 C 40 42.5 30 35 20 50 V 10 H 50 Z", true},
		"a quadratic on a cubic":           {"M 20 50 Q 50 20 80 50 Z", "M 80 50 C 60 30 40 30 20 50 V 10 H 80 Z", true},
		"a touch and a true edge":          {"M 50 10 V 10.5 H 60 V 90 H 20 V 10 Z", roundData("arcs", 55, 50, 5, 0) + " M 60 70 V 70.5 H 70 V 70 Z", true},
		"a straight side of two":           {"M 20 20 H 40 V 40 H 20 Z", "M 40 39.6 H 60 V 60 H 40 Z", true},
		"a straight side turned":           {"M 20 20 L 50 37 L 30 60 Z", "M 50 37 L 35 28.5 L 60 10 Z", true},
	} {
		t.Run(name, func(t *testing.T) {
			for _, turn := range []float64{0, 17, 90} {
				for _, order := range [2]string{pathOf("a", c.a) + pathOf("b", c.b), pathOf("b", c.b) + pathOf("a", c.a)} {
					turned := strings.ReplaceAll(order, "<path", fmt.Sprintf(`<path transform="rotate(%g 50 50)"`, turn))
					r := Check([]byte(cutLayer(turned)), Demands{})
					require.Equal(t, c.doubled, breaks(r, findings.DoubledEdge), "turned by %v: %v", turn, errorsOf(r))
					require.Equal(t, strings.Contains(name, "across") && !c.doubled, breaks(r, findings.CrossingOutlines), "turned by %v: %v", turn, errorsOf(r))
				}
			}
		})
	}
}
