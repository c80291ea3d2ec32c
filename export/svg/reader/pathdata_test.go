package reader

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Each way of writing gives the path at the right, by the clause named.
// Arcs that span half an ellipse keep their own numbers.
func TestPathData(t *testing.T) {
	tests := map[string]struct{ data, want string }{
		// SVG 2 §9.3.1: what may be left out.
		"nothing":               {"", ""},
		"white space":           {" \t\r\n\f", ""},
		"white space around":    {"\t\n M 1 2\f\r L 3 4 \n", "M 1 2 L 3 4"},
		"no white space":        {"M1 2L3 4", "M 1 2 L 3 4"},
		"commas":                {"M1,2L3,4,5,6", "M 1 2 L 3 4 L 5 6"},
		"commas in white space": {"M1 , 2L3 ,4", "M 1 2 L 3 4"},
		"command not repeated":  {"M 100 200 L 200 100 -100 -200", "M 100 200 L 200 100 L -100 -200"}, // the example there

		// §9.3.9: a number ends where it cannot go on. Both examples stand there.
		"a sign starts a number":    {"M 100-200", "M 100 -200"},
		"a point starts a number":   {"M 0.6.5", "M 0.6 0.5"},
		"signs":                     {"M+1-2L-3+4", "M 1 -2 L -3 4"},
		"points":                    {"M.5.5.25.75", "M 0.5 0.5 L 0.25 0.75"},
		"exponents":                 {"M1e1-2E-1L3e+2.5e1", "M 10 -0.2 L 300 5"},
		"a sign behind an exponent": {"M1e1-1e1", "M 10 -10"},
		"zeros in front":            {"M007 00.50", "M 7 0.5"},
		"minus zero":                {"M-0 -0.0e5L1 1", "M 0 0 L 1 1"},

		// §9.3.3: moveto; the first m is absolute, later pairs are lines.
		"m":               {"m1 2", "M 1 2"},
		"lines behind M":  {"M1 2 3 4 5 6", "M 1 2 L 3 4 L 5 6"},
		"lines behind m":  {"m1 2 3 4 5 6", "M 1 2 L 4 6 L 9 12"},
		"m in the middle": {"M10 10L20 20m1 2 3 4", "M 10 10 L 20 20 M 21 22 L 24 26"},
		"m behind m":      {"m10 10m1 2l1 1", "M 10 10 M 11 12 L 12 13"},

		// §9.3.4: closepath; the current point becomes the start.
		"Z and z":         {"M1 1L2 1ZM3 3L4 3z", "M 1 1 L 2 1 Z M 3 3 L 4 3 Z"},
		"a line behind Z": {"M10 10L50 10L50 40ZL90 90", "M 10 10 L 50 10 L 50 40 Z L 90 90"},
		"l behind Z":      {"M10 10h40v30zl5 5", "M 10 10 L 50 10 L 50 40 Z L 15 15"},
		"m behind Z":      {"M10 10h40v30zm5 5h1", "M 10 10 L 50 10 L 50 40 Z M 15 15 L 16 15"},
		"Z behind Z":      {"M1 1l2 2zz", "M 1 1 L 3 3 Z Z"},
		"S behind Z":      {"M0 0C1 1 2 2 3 3ZS5 5 6 6", "M 0 0 C 1 1 2 2 3 3 Z C 0 0 5 5 6 6"},

		// §9.3.5: lines.
		"l":        {"M10 10l1 2 3 4", "M 10 10 L 11 12 L 14 16"},
		"H many":   {"M10 10H20 30 5", "M 10 10 L 20 10 L 30 10 L 5 10"},
		"h many":   {"M10 10h20 30-5", "M 10 10 L 30 10 L 60 10 L 55 10"},
		"V many":   {"M10 10V20 30", "M 10 10 L 10 20 L 10 30"},
		"v many":   {"M10 10v20-30", "M 10 10 L 10 30 L 10 0"},
		"H then l": {"M10 10H50l0 5", "M 10 10 L 50 10 L 50 15"},

		// §9.3.6: cubic curves and the reflected control point.
		"C":                         {"M0 0C1 2 3 4 5 6", "M 0 0 C 1 2 3 4 5 6"},
		"C twice":                   {"M0 0C1 2 3 4 5 6 7 8 9 10 11 12", "M 0 0 C 1 2 3 4 5 6 C 7 8 9 10 11 12"},
		"c":                         {"M10 10c1 2 3 4 5 6", "M 10 10 C 11 12 13 14 15 16"},
		"c twice":                   {"M10 10c1 2 3 4 5 6 1 1 2 2 3 3", "M 10 10 C 11 12 13 14 15 16 C 16 17 17 18 18 19"},
		"S behind C":                {"M0 0C0 5 5 9 10 9S20 5 20 0", "M 0 0 C 0 5 5 9 10 9 C 15 9 20 5 20 0"},
		"S behind S":                {"M0 0C0 5 5 9 10 9S20 5 20 0 25-9 30-9", "M 0 0 C 0 5 5 9 10 9 C 15 9 20 5 20 0 C 20 -5 25 -9 30 -9"},
		"s behind c":                {"m0 0c0 5 5 9 10 9s10-4 10-9", "M 0 0 C 0 5 5 9 10 9 C 15 9 20 5 20 0"},
		"S first":                   {"M1 2S5 5 9 2", "M 1 2 C 1 2 5 5 9 2"},
		"S behind a line":           {"M0 0L5 5S6 6 7 7", "M 0 0 L 5 5 C 5 5 6 6 7 7"},
		"S behind Q":                {"M0 0Q5 9 9 0S6 6 7 7", "M 0 0 Q 5 9 9 0 C 9 0 6 6 7 7"},
		"S behind C with M between": {"M0 0C0 5 5 9 10 9M1 1S6 6 7 7", "M 0 0 C 0 5 5 9 10 9 M 1 1 C 1 1 6 6 7 7"},

		// §9.3.7: quadratic curves.
		"Q":                        {"M0 0Q1 2 3 4 5 6 7 8", "M 0 0 Q 1 2 3 4 Q 5 6 7 8"},
		"q":                        {"M10 10q1 2 3 4 1 1 2 2", "M 10 10 Q 11 12 13 14 Q 14 15 15 16"},
		"T behind Q":               {"M10 50Q30 10 50 50T90 50T130 50", "M 10 50 Q 30 10 50 50 Q 70 90 90 50 Q 110 10 130 50"},
		"t behind q":               {"m10 50q20-40 40 0t40 0 40 0", "M 10 50 Q 30 10 50 50 Q 70 90 90 50 Q 110 10 130 50"},
		"T first":                  {"M0 0T5 5", "M 0 0 Q 0 0 5 5"},
		"T behind C":               {"M0 0C1 1 2 2 3 0T5 5", "M 0 0 C 1 1 2 2 3 0 Q 3 0 5 5"},
		"T behind T behind a line": {"M0 0L1 1T5 5T9 5", "M 0 0 L 1 1 Q 1 1 5 5 Q 9 9 9 5"},

		// §9.3.8 and §9.5.1: arcs.
		"A":                       {"M0 0A10 5 0 0 1 20 0", "M 0 0 A 10 5 0 0 1 20 0"},
		"a":                       {"M5 5a10 5 0 0 1 20 0 10 5 0 0 0 20 0", "M 5 5 A 10 5 0 0 1 25 5 A 10 5 0 0 0 45 5"},
		"flags packed":            {"M0 0a10 10 0 0120 0", "M 0 0 A 10 10 0 0 1 20 0"},
		"flags and a point":       {"M0 0a10 10 0 00.5.5", "M 0 0 A 10 10 0 0 0 0.5 0.5"},
		"flags and signs":         {"M0 0a10 10 0 01-20-0", "M 0 0 A 10 10 0 0 1 -20 0"},
		"flags and commas":        {"M0 0a10,10,0,0,1,20,0", "M 0 0 A 10 10 0 0 1 20 0"},
		"angle against the flags": {"M0 0a10 10 0,0120,0", "M 0 0 A 10 10 0 0 1 20 0"},
		"flags eat a digit":       {"M0 0A10 10 0 1 120 0", "M 0 0 A 10 10 0 0 1 20 0"}, // half an ellipse is not large
		"all packed":              {"M0 0a10 10 0 0120 0 10 10 0 0120 0", "M 0 0 A 10 10 0 0 1 20 0 A 10 10 0 0 1 40 0"},
		"negative radii":          {"M0 0A-10-5 0 0 1 20 0", "M 0 0 A 10 5 0 0 1 20 0"},
		"radii grow":              {"M0 0A1 .5 0 0 1 20 0", "M 0 0 A 10 5 0 0 1 20 0"},
		"no way to go":            {"M5 5A10 10 0 0 1 5 5L6 6", "M 5 5 L 6 6"},
		"no radius across":        {"M0 0A0 10 0 0 1 20 0", "M 0 0 L 20 0"},
		"no radius down":          {"M0 0A10 0 0 1 1 20 0", "M 0 0 L 20 0"},
		"T behind an arc":         {"M0 0Q1 1 2 2A0 0 0 0 0 4 4T5 6", "M 0 0 Q 1 1 2 2 L 4 4 Q 4 4 5 6"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, test.want, absolute(dataPath(t, test.data)))
		})
	}
}

// SVG 2 §9.5.4: what stands before an error is kept, up to the last segment
// that is complete. The place is a byte of the data.
func TestPathDataErrors(t *testing.T) {
	tests := map[string]struct {
		data, want string
		at         int
		text       string
	}{
		// The example of SVG 1.1 appendix F.2.
		"an odd number": {"M 10,10 L 20,20,30", "M 10 10 L 20 20", 18, `found the end where a number should stand`},

		"no moveto":                {"L5 5", "", 0, `path data must start with M, and here is 'L'`},
		"a number first":           {"  5 5", "", 2, `path data must start with M, and here is '5'`},
		"the word none":            {"none", "", 0, `path data must start with M, and here is 'n'`},
		"M alone":                  {"M", "", 1, `found the end where a number should stand`},
		"M with one":               {"M1", "", 2, `found the end where a number should stand`},
		"a letter":                 {"M1 1L2 2X3 3L4 4", "M 1 1 L 2 2", 8, `found 'X' where a path command should stand`},
		"a wide character":         {"M1 1é", "M 1 1", 4, `found 'é' where a path command should stand`},
		"a comment":                {"M1 1#L2 2", "M 1 1", 4, `found '#' where a path command should stand`},
		"a comma behind a command": {"M,1 1", "", 1, `found ',' where a number should stand`},
		"two commas":               {"M1 1L2,,2", "M 1 1", 7, `found ',' where a number should stand`},
		"two commas between pairs": {"M1 1,,2 2", "M 1 1", 5, `found ',' where a path command should stand`},
		"a number behind Z":        {"M1 1ZZ5", "M 1 1 Z Z", 6, `found '5' where a path command should stand`},
		"a comma behind Z":         {"M1 1L2 2Z,L3 3", "M 1 1 L 2 2 Z", 9, `found ',' where a path command should stand`},
		"half a line":              {"M1 1L2 2 3L4 4", "M 1 1 L 2 2", 10, `found 'L' where a number should stand`},
		"half a curve":             {"M1 1C1 2 3 4 5 6 7 8 9L1 1", "M 1 1 C 1 2 3 4 5 6", 22, `found 'L' where a number should stand`},
		"S with three":             {"M1 1S1 2 3", "M 1 1", 10, `found the end where a number should stand`},
		"T with one":               {"M1 1T1", "M 1 1", 6, `found the end where a number should stand`},
		"H without":                {"M1 1H", "M 1 1", 5, `found the end where a number should stand`},
		"v with two points":        {"M1 1v..5", "M 1 1", 5, `number "." has no digit behind its point: SVG 1.1 allows that, SVG 2 does not`},
		"a point at the end":       {"M1 1L5. 5", "M 1 1", 5, `number "5." has no digit behind its point: SVG 1.1 allows that, SVG 2 does not`},
		"a sign alone":             {"M1 1L- 5", "M 1 1", 5, `found '-' where a number should stand`},
		"two signs":                {"M1 1L--5 5", "M 1 1", 5, `found '-' where a number should stand`},
		"half an exponent":         {"M1 1L5e 5", "M 1 1", 5, `number "5e" has no digit behind its e`},
		"an exponent's sign alone": {"M1 1L5e+ 5", "M 1 1", 5, `number "5e+" has no digit behind its e`},
		"too large":                {"M1 1L2 2L1e39 5", "M 1 1 L 2 2", 9, `number 1e39 is too large for any reader`},
		"far too large":            {"M1 1L1e999999999 5", "M 1 1", 5, `number 1e999999999 is too large for any reader`},
		"Infinity":                 {"M1 1LInfinity 5", "M 1 1", 5, `found 'I' where a number should stand`},
		"NaN":                      {"M1 1LNaN 5", "M 1 1", 5, `found 'N' where a number should stand`},
		"hexadecimal":              {"M1 1L0x1F 5", "M 1 1", 6, `found 'x' where a number should stand`},
		"an underscore":            {"M1 1L1_0 5", "M 1 1", 6, `found '_' where a number should stand`},
		"Arabic digits":            {"M1 1L٣ 5", "M 1 1", 5, `found '٣' where a number should stand`},
		"a no-break space":         {"M1 1L2\u00a05", "M 1 1", 6, `found '\u00a0' where a number should stand`},
		"a vertical tab":           {"M1 1\vL2 5", "M 1 1", 4, `found '\v' where a path command should stand`},
		"a unit":                   {"M1 1L2mm 5", "M 1 1", 6, `found 'm' where a number should stand`},

		// §9.3.8: a flag is 0 or 1.
		"flag 2":           {"M1 1A9 9 0 2 0 5 5", "M 1 1", 11, `found '2' where a flag of an arc, 0 or 1, should stand`},
		"flag with a sign": {"M1 1A9 9 0 +1 0 5 5", "M 1 1", 11, `found '+' where a flag of an arc, 0 or 1, should stand`},
		"a second flag 7":  {"M1 1a9 9 0 07 5 5", "M 1 1", 12, `found '7' where a flag of an arc, 0 or 1, should stand`},
		"no flags":         {"M1 1A9 9 0", "M 1 1", 10, `found the end where a flag of an arc, 0 or 1, should stand`},
		"half an arc":      {"M1 1A9 9 0 0 1 5 5 9 9", "M 1 1 A 9 9 0 0 1 5 5", 22, `found the end where a number should stand`},
		"an arc's radius":  {"M1 1A9 x", "M 1 1", 7, `found 'x' where a number should stand`},

		// A comma too many, where browsers go on: reported, but the rest is read.
		"a comma at the end":       {"M1 1L2 2,", "M 1 1 L 2 2", 9, `found the end behind a comma; a number must follow`},
		"a comma before a command": {"M1 1,L2 2,L3 3", "M 1 1 L 2 2 L 3 3", 5, `found 'L' behind a comma; a number must follow`},
		"a comma and worse":        {"M1 1,L2 2 X", "M 1 1 L 2 2", 10, `found 'X' where a path command should stand`},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			p, err := parsePath(test.data, mostSegments)
			require.NotNil(t, err)
			require.Equal(t, test.text, err.Error())
			require.Equal(t, test.at, err.at)
			require.Equal(t, test.want, absolute(p))
		})
	}
}

// Whatever stands before a letter that is no command is read as if the data
// ended there.
func TestPathDataKeepsWhatStandsBefore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		good := absolute(drawPath(t))
		want := dataPath(t, good)
		got, err := parsePath(good+"!"+absolute(drawPath(t)), mostSegments)
		require.NotNil(t, err)
		require.Equal(t, len(good), err.at)
		require.Equal(t, want, got)
	})
}

func TestPathDataLimit(t *testing.T) {
	p, err := parsePath("M0 0"+strings.Repeat("h1", 20), 10)
	require.NotNil(t, err)
	require.Equal(t, "more segments than are read, which is 1000000 in a file", err.Error())
	require.True(t, err.much)
	require.Len(t, p.ops, 10)
	_, err = parsePath("M0 0"+strings.Repeat("h1", 9), 10)
	require.Nil(t, err)
}

// centreByText is the way from an arc's ends to its centre as SVG 2 appendix
// B.2.4 and B.2.5 write it out, with arc cosines.
func centreByText(from, to Point, rx, ry, degrees float64, large, sweep bool) (centre Point, r Point, turn float64) {
	phi := degrees * math.Pi / 180
	dx, dy := (from.X-to.X)/2, (from.Y-to.Y)/2
	x1, y1 := math.Cos(phi)*dx+math.Sin(phi)*dy, -math.Sin(phi)*dx+math.Cos(phi)*dy
	if lambda := x1*x1/(rx*rx) + y1*y1/(ry*ry); lambda > 1 {
		rx, ry = math.Sqrt(lambda)*rx, math.Sqrt(lambda)*ry
	}
	root := math.Sqrt(max(0, (rx*rx*ry*ry-rx*rx*y1*y1-ry*ry*x1*x1)/(rx*rx*y1*y1+ry*ry*x1*x1)))
	if large == sweep {
		root = -root
	}
	cx, cy := root*rx*y1/ry, -root*ry*x1/rx
	centre = Point{math.Cos(phi)*cx - math.Sin(phi)*cy + (from.X+to.X)/2, math.Sin(phi)*cx + math.Cos(phi)*cy + (from.Y+to.Y)/2}
	angle := func(u, v Point) float64 {
		a := math.Acos(min(max(u.dot(v)/(u.length()*v.length()), -1), 1))
		return math.Copysign(a, u.cross(v))
	}
	turn = angle(Point{(x1 - cx) / rx, (y1 - cy) / ry}, Point{(-x1 - cx) / rx, (-y1 - cy) / ry})
	if !sweep && turn > 0 {
		turn -= 2 * math.Pi
	}
	if sweep && turn < 0 {
		turn += 2 * math.Pi
	}
	return centre, Point{rx, ry}, turn
}

func TestArcProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := drawPoint(t, "from"), drawPoint(t, "to")
		rx, ry := drawNumber(t, "rx", 1, 200), drawNumber(t, "ry", 1, 200)
		degrees := drawNumber(t, "turned by", -400, 400)
		large, sweep := rapid.Bool().Draw(t, "large"), rapid.Bool().Draw(t, "sweep")
		if to.sub(from).length() < 0.01 {
			to.X += 1
		}
		var p Path
		p.moveTo(from)
		p.ellipticalArc(from, rx, ry, degrees, large, sweep, to)
		s := last(p)
		require.Equal(t, Arc, s.Kind)
		require.Equal(t, from, s.From)
		require.Equal(t, to, s.To)
		requireNear(t, from, s.At(0), 1e-6)
		requireNear(t, to, s.At(1), 1e-6)
		require.Equal(t, sweep, s.Turn > 0)
		require.LessOrEqual(t, math.Abs(s.Turn), 2*math.Pi)

		centre, r, turn := centreByText(from, to, rx, ry, degrees, large, sweep)
		grown := r.X > rx
		tolerance := 1e-6
		if math.Abs(math.Abs(turn)-math.Pi) < 1e-3 {
			tolerance = 1e-3 // near half an ellipse the root of nearly nothing loses digits
		}
		requireNear(t, centre, s.Centre, tolerance*200)
		require.InDelta(t, r.X, s.U.length(), 1e-9*r.X)
		require.InDelta(t, r.Y, s.V.length(), 1e-9*r.Y)
		switch {
		case grown:
			require.InDelta(t, math.Pi, math.Abs(s.Turn), 1e-6, "half of an ellipse that has had to grow")
		default:
			if math.Abs(math.Abs(turn)-math.Pi) > 1e-3 {
				require.Equal(t, large, math.Abs(s.Turn) > math.Pi)
				require.InDelta(t, turn, s.Turn, 1e-6)
			}
		}

		// Every point lies on the ellipse of those radii, turned like that.
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		for i := range 21 {
			q := s.At(float64(i) / 20).sub(s.Centre)
			x, y := cos*q.X+sin*q.Y, cos*q.Y-sin*q.X
			require.InDelta(t, 1, x*x/(r.X*r.X)+y*y/(r.Y*r.Y), 1e-9)
		}
		// Halfway it is on the right hand of the chord where sweep is set:
		// SVG 2 §9.3.8, "in a positive-angle direction".
		if middle := s.At(0.5).sub(from); !grown && math.Abs(turn) > 0.01 {
			require.Equal(t, sweep, to.sub(from).cross(middle) < 0)
		}
	})
}

func TestNumber(t *testing.T) {
	tests := map[string]struct {
		text  string
		units bool
		want  float64
		rest  string
	}{
		"a digit":            {"7", false, 7, ""},
		"a comma":            {"7,5", false, 7, ",5"},
		"a point first":      {".5", false, 0.5, ""},
		"two points":         {"1.5.5", false, 1.5, ".5"},
		"a sign behind":      {"1-1", false, 1, "-1"},
		"an exponent":        {"1.5e2", false, 150, ""},
		"an exponent, twice": {"1e2e3", false, 100, "e3"},
		"a point behind it":  {"1e2.5", false, 100, ".5"},
		"em":                 {"2em", true, 2, "em"},
		"em without units":   {"2em", false, 2, "em"}, // so that a zero in em is known as zero
		"ex":                 {"2ex", true, 2, "ex"},
		"exponent and em":    {"2e1em", true, 20, "em"},
		"e alone":            {"2e", true, 2, "e"},
		"e and a sign":       {"2e-x", true, 2, "e-x"},
		"minus zero":         {"-0", false, math.Copysign(0, -1), ""},
		"16 digits":          {"1234567890.123456", false, 1234567890.123456, ""},
		"25 digits":          {"1.123456789012345678901234", false, 1.123456789012345678901234, ""},
		"many zeros":         {"00000000000000000000000.100000000000000000000000", false, 0.1, ""},
		"tiny":               {"1e-400", false, 0, ""},
		"the largest":        {"3.4028234663852886e38", false, math.MaxFloat32, ""}, // single precision, SVG 2 §2.4
		"half a thousandth":  {"0.000000000000001", false, 1e-15, ""},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			s := &scanner{text: test.text, units: test.units}
			require.True(t, s.startsNumber())
			got, err := s.number()
			require.Nil(t, err)
			require.Equal(t, math.Float64bits(test.want), math.Float64bits(got), "%v, not %v", got, test.want)
			require.Equal(t, test.rest, test.text[s.at:])
		})
	}
	for name, text := range map[string]string{
		"nothing": "", "a point": ".", "a sign": "-", "a sign and a point": "+.", "two signs": "+-1", "a letter": "e5", "a point at the end": "1.", "a point and an exponent": "1.e5",
		"an exponent without digits": "1e,", "with a sign only": "1E-", "too large": "1e39", "below that": "-1e39", "just too large": "3.4028236e38",
	} {
		t.Run("refused: "+name, func(t *testing.T) {
			s := &scanner{text: "x" + text, at: 1}
			_, err := s.number()
			require.NotNil(t, err)
			require.Equal(t, 1, err.at)
			require.Equal(t, 1, s.at, "stays where it is")
		})
	}
}

// However a float is written, it is read to the bit as strconv.ParseFloat
// does, and nothing behind it is taken.
func TestNumberAgainstParseFloat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.OneOf(rapid.Float64Range(-1e6, 1e6), rapid.Float64Range(-3.4e38, 3.4e38), rapid.Float64Range(-1e-6, 1e-6)).Draw(t, "value")
		form := rapid.SampledFrom([]byte("feEgG")).Draw(t, "form")
		text := strconv.FormatFloat(value, form, rapid.IntRange(-1, 20).Draw(t, "digits"), 64)
		if rapid.Bool().Draw(t, "without the zero") {
			text = strings.Replace(text, "0.", ".", 1)
			if strings.HasPrefix(text, "1.") || strings.Count(text, ".") != 1 || strings.HasSuffix(text, ".") {
				text = strconv.FormatFloat(value, 'f', -1, 64)
			}
		}
		if text[0] != '-' {
			text = rapid.SampledFrom([]string{"", "+", "00"}).Draw(t, "before") + text
		}
		behind := rapid.SampledFrom([]string{"", ",1", " 5", "-5", "+.5", "x", "L"}).Draw(t, "behind")
		want, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		s := &scanner{text: text + behind}
		got, fault := s.number()
		require.Nil(t, fault, text)
		require.Equal(t, math.Float64bits(want), math.Float64bits(got), text)
		require.Equal(t, len(text), s.at)
	})
}

// A path as it was drawn, written out and read back.
func TestPathDataWrittenOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t)
		q := dataPath(t, absolute(p))
		require.Equal(t, p.ops, q.ops)
		require.InDelta(t, p.Length(), q.Length(), 1e-3*(1+p.Length()))
	})
}
