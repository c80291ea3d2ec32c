package checker

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

func onlyElement(t testing.TB, file string) Element {
	t.Helper()
	r := Check([]byte(file), Demands{})
	require.Len(t, r.Elements, 1)
	return r.Elements[0]
}

func TestClosing(t *testing.T) {
	tests := map[string]struct {
		shape string
		want  Closing
	}{
		"z":                          {pathOf("", "M 10 10 h 5 v 5 z"), "z"},
		"every part with z":          {pathOf("", "M 10 10 h 5 v 5 z M 20 20 h 5 v 5 Z"), "z"},
		"a circle":                   {`<circle cx="10" cy="10" r="5"/>`, "z"},
		"an ellipse":                 {`<ellipse cx="10" cy="10" rx="5" ry="4"/>`, "z"},
		"a rectangle":                {`<rect x="10" y="10" width="5" height="4"/>`, "z"},
		"a polygon":                  {`<polygon points="10,10 15,10 15,15"/>`, "z"},
		"on its start":               {pathOf("", "M 10 10 h 5 v 5 L 10 10"), "touching"},
		"0.009 mm beside its start":  {pathOf("", "M 10 10 h 5 v 5 L 10.009 10"), "touching"},
		"a polyline on its start":    {`<polyline points="10,10 15,10 15,15 10,10"/>`, "touching"},
		"z and on its start":         {pathOf("", "M 10 10 h 5 v 5 z M 20 20 h 5 v 5 L 20 20"), "touching"},
		"on its start and z":         {pathOf("", "M 20 20 h 5 v 5 L 20 20 M 10 10 h 5 v 5 z"), "touching"},
		"0.011 mm beside its start":  {pathOf("", "M 10 10 h 5 v 5 L 10.011 10"), "open"},
		"a line":                     {`<line x1="10" y1="10" x2="20" y2="20"/>`, "open"},
		"a polyline":                 {`<polyline points="10,10 15,10 15,15"/>`, "open"},
		"a short line":               {pathOf("", "M 10 10 h 0.005"), "open"},
		"open, then z":               {pathOf("", "M 10 10 h 5 v 5 M 20 20 h 5 v 5 z"), "open"},
		"open, then on its start":    {pathOf("", "M 10 10 h 5 v 5 M 20 20 h 5 v 5 L 20 20"), "open"},
		"on its start, then open":    {pathOf("", "M 20 20 h 5 v 5 L 20 20 M 10 10 h 5 v 5"), "open"},
		"z, then open from the same": {pathOf("", "M 10 10 h 5 v 5 z h -5"), "open"},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			e := onlyElement(t, cutLayer(c.shape))
			require.Equal(t, c.want, e.Closing)
			require.Equal(t, c.want != "open", e.HasArea)
		})
	}
}

func TestLengthAndArea(t *testing.T) {
	const pi = math.Pi
	// Length of an ellipse with half axes 5 and 3: 4 a E(m), m = 1 - 9/25, by
	// the mean of Gauss, below.
	tests := map[string]struct {
		shape        string
		length, area float64
	}{
		"a square":                      {pathOf("", squareA), 80, 400},
		"a square the other way":        {pathOf("", "M 10 10 v 20 h 20 v -20 Z"), 80, 400},
		"a square that nearly closes":   {pathOf("", "M 10 10 h 20 v 20 h -20 v -19.991"), 79.991, 400},
		"a circle":                      {`<circle cx="50" cy="50" r="10"/>`, 20 * pi, 100 * pi},
		"a circle of half turns":        {pathOf("", "M 40 50 a 10 10 0 0 1 20 0 a 10 10 0 0 1 -20 0 Z"), 20 * pi, 100 * pi},
		"an ellipse":                    {`<ellipse cx="50" cy="50" rx="5" ry="3"/>`, ellipseLength(5, 3), 15 * pi},
		"a flat ellipse":                {`<ellipse cx="50" cy="50" rx="40" ry="0.5"/>`, ellipseLength(40, 0.5), 20 * pi},
		"a circle turned into one":      {`<circle r="1" transform="translate(50 50) rotate(33) scale(5 3)"/>`, ellipseLength(5, 3), 15 * pi},
		"a parabola":                    {pathOf("", "M 10 10 q 5 10 10 0 Z"), 10 + parabolaLength(10, 5), 2.0 / 3 * 10 * 5},
		"a cubic":                       {pathOf("", "M 10 10 c 0 10 10 10 10 0 Z"), 10 + 20, 60}, // length checked below
		"rounded corners":               {`<rect x="10" y="10" width="30" height="20" rx="5"/>`, 20 + 10 + 20 + 10 + 10*pi, 600 - 100 + 25*pi},
		"a hole against the clock":      {pathOf("", squareA+" M 15 15 v 5 h 5 v -5 Z"), 100, 375},
		"a hole with the clock":         {pathOf("", squareA+" M 15 15 h 5 v 5 h -5 Z"), 100, 375},
		"a hole before its outline":     {pathOf("", "M 15 15 h 5 v 5 h -5 Z "+squareA), 100, 375},
		"an island":                     {pathOf("", squareA+" M 15 15 h 10 v 10 h -10 Z M 18 18 h 2 v 2 h -2 Z"), 128, 304},
		"two holes":                     {pathOf("", squareA+" M 12 12 h 4 v 4 h -4 Z M 20 20 v 4 h 4 v -4 Z"), 112, 368},
		"two parts":                     {pathOf("", squareA+" M 40 10 h 10 v 10 h -10 Z"), 120, 500},
		"two parts running two ways":    {pathOf("", squareA+" M 40 10 v 10 h 10 v -10 Z"), 120, 500},
		"two parts, the smaller before": {pathOf("", "M 5 10 h 2 v 2 h -2 Z "+squareA), 88, 404},
		"a round hole":                  {pathOf("", squareA+" M 15 20 a 5 5 0 0 0 10 0 a 5 5 0 0 0 -10 0 Z"), 80 + 10*pi, 400 - 25*pi},
		"a hole that touches its edge":  {pathOf("", squareA+" M 10 20 l 5 -5 v 10 Z"), 80 + 10 + 10*math.Sqrt2, 375},
		"a hole that touches a corner":  {pathOf("", squareA+" M 10 10 l 10 5 l -5 5 Z"), 80 + 2*math.Sqrt(125) + math.Sqrt(50), 400 - 37.5},
		"a wedge in a user space of mm": {`<g transform="scale(0.5)"><path d="M 20 20 h 6 v 8 Z"/></g>`, 12, 6},
		"a line":                        {`<line x1="10" y1="10" x2="13" y2="14"/>`, 5, 0},
		"an open shape without area":    {pathOf("", "M 10 10 h 20 v 20 h -10"), 50, 0},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			e := onlyElement(t, cutLayer(c.shape))
			if name == "a cubic" {
				c.length = 10 + chordSum(func(s float64) (float64, float64) {
					return 10 * (3*(1-s)*s*s + s*s*s), 30 * (1 - s) * s
				})
			}
			require.InDelta(t, c.length, e.Length, 1e-6)
			require.InDelta(t, c.area, e.Area, 1e-8)
		})
	}
}

// ellipseLength is the circumference by the arithmetic-geometric mean.
// Source: NIST Digital Library of Mathematical Functions, 19.8.6 with 19.9.9.
func ellipseLength(a, b float64) float64 {
	x, y, power, sum := 1.0, b/a, 1.0, 1-(1-b*b/(a*a))/2
	for range 60 {
		c := (x - y) / 2
		x, y = (x+y)/2, math.Sqrt(x*y)
		sum -= power * c * c
		power *= 2
	}
	return 2 * math.Pi * a * sum / x
}

// parabolaLength is the length of a parabolic arc on a chord, as high as h
// over its middle (the textbook integral of sqrt(1 + (2kx)²), k = 4h/w²).
func parabolaLength(w, h float64) float64 {
	u := 4 * h / w
	return w / 2 * (math.Sqrt(1+u*u) + math.Asinh(u)/u)
}

// chordSum adds up very many chords.
func chordSum(at func(float64) (float64, float64)) float64 {
	const n = 200_000
	var sum float64
	x, y := at(0)
	for i := 1; i <= n; i++ {
		x2, y2 := at(float64(i) / n)
		sum += math.Hypot(x2-x, y2-y)
		x, y = x2, y2
	}
	return sum
}

// The formula above against sums of chords, so that the expected lengths of
// ellipses do not rest on one piece of algebra.
func TestEllipseLengthItself(t *testing.T) {
	for _, c := range [][2]float64{{1, 1}, {5, 3}, {40, 0.5}} {
		sum := chordSum(func(s float64) (float64, float64) {
			return c[0] * math.Cos(2*math.Pi*s), c[1] * math.Sin(2*math.Pi*s)
		})
		require.InDelta(t, sum, ellipseLength(c[0], c[1]), 1e-6)
	}
}

// The step is that of the layer whatever the case of its name; without one
// everything is cut.
func TestStep(t *testing.T) {
	tests := map[string]struct {
		file string
		want Step
	}{
		"cut":                {layer(`id="cut"`, pathOf("", squareA)), Cut},
		"Cut":                {layer(`id="Cut"`, pathOf("", squareA)), Cut},
		"score":              {layer(`id="score"`, pathOf("", squareA)), Score},
		"SCORE":              {layer(`id="SCORE"`, pathOf("", squareA)), Score},
		"print":              {layer(`id="print"`, pathOf("", squareA)), Print},
		"more words":         {layer(`id="Score lines"`, pathOf("", squareA)), Score},
		"a label":            {layer(`id="layer1" xmlns:x="http://example.org/x" x:label="Print"`, pathOf("", squareA)), Print},
		"a title":            {layer(`id="layer2"`, `<title>Score</title>`+pathOf("", squareA)), Score},
		"another name":       {layer(`id="underscore"`, pathOf("", squareA)), Cut},
		"no name":            {layer(``, pathOf("", squareA)), Cut},
		"no layer":           {sheet(pathOf("", squareA)), Cut},
		"a group in a layer": {layer(`id="cut"`, `<g id="print">`+pathOf("", squareA)+`</g>`), Cut},
		"through use":        {sheet(`<defs><path id="p" d="` + squareA + `"/></defs><g id="score"><use href="#p"/></g>`), Score},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, c.want, onlyElement(t, c.file).Step)
		})
	}
}

// Nothing is asked of what is printed.
func TestPrintIsNotJudged(t *testing.T) {
	all := pathOf("a", "M -10 10 h 200 h -5 h 0 v 20 h 0.001 l -5 -10") + pathOf("b", squareA) + pathOf("c", squareA) +
		`<path visibility="hidden" stroke-dasharray="1" d="M 0 0 H 100"/><text x="1" y="1">A</text>`
	require.Empty(t, findingsOf(Check([]byte(layer(`id="print"`, all)), Demands{Edge: 5, Spacing: 5}), false))
	require.NotEmpty(t, errorsOf(Check([]byte(cutLayer(all)), Demands{Edge: 5, Spacing: 5})))
}

// What the layers hold, in words.
func TestLayerMessages(t *testing.T) {
	tests := map[string]struct{ file, want string }{
		"one outline":           {cutLayer(pathOf("", squareA)), `layer "cut" holds 1 closed outline`},
		"two outlines":          {cutLayer(pathOf("", squareA) + `<circle cx="50" cy="50" r="5"/>`), `layer "cut" holds 2 closed outlines`},
		"one line":              {layer(`id="score"`, pathOf("", "M 1 1 h 5")), `layer "score" holds 1 open line`},
		"outlines and lines":    {cutLayer(pathOf("", squareA) + pathOf("", "M 1 1 h 5") + pathOf("", "M 1 3 h 5")), `layer "cut" holds 1 closed outline and 2 open lines`},
		"touching ends":         {cutLayer(pathOf("", "M 10 10 h 20 v 20 L 10 10")), `layer "cut" holds 1 closed outline`},
		"named by title":        {layer(``, `<title>Front</title>`+pathOf("", squareA)), `the group with the title "Front" holds 1 closed outline`},
		"without a name":        {layer(``, pathOf("", squareA)), `a group without a name holds 1 closed outline`},
		"a group in the layer":  {cutLayer("<g>" + pathOf("", squareA) + "</g>"), `layer "cut" holds 1 closed outline`},
		"shapes through use":    {sheet(`<defs><path id="p" d="M 1 1 h 2 v 2 Z"/></defs><g id="cut"><use href="#p"/><use href="#p" x="9"/></g>`), `layer "cut" holds 2 closed outlines`},
		"id before title":       {cutLayer(`<title>Front</title>` + pathOf("", squareA)), `layer "cut" holds 1 closed outline`},
		"not painted all along": {cutLayer(`<path stroke="none" d="` + squareA + `"/>`), `layer "cut" holds 1 closed outline`},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, []string{c.want}, messagesOf(Check([]byte(c.file), Demands{}), findings.LayerContents))
		})
	}
}

// The words of a finding say how far, how long and from what.
func TestMessages(t *testing.T) {
	tests := map[string]struct {
		file    string
		demands Demands
		rule    *findings.Rule
		want    string
	}{
		"off the sheet": {cutLayer(pathOf("a", "M -1.25 10 h 20 v 20 Z")), Demands{}, findings.OffSheet,
			"it reaches 1.25 mm beyond the sheet; move it onto the sheet"},
		"in the edge": {cutLayer(pathOf("a", "M 3 10 h 20 v 20 Z")), Demands{Edge: 5.5}, findings.InEdge,
			"it reaches 2.5 mm into the edge of 5.5 mm; move it inwards"},
		"another sheet": {cutLayer(pathOf("a", squareA)), Demands{SheetW: 210, SheetH: 297}, findings.WrongSheet,
			"the file is 100 x 100 mm and the sheet 210 x 297 mm; use that sheet, or set the file's size"},
		"doubled": {cutLayer(pathOf("a", squareA) + pathOf("b", "M 30 15 h 20 v 10 h -20 Z")), Demands{}, findings.DoubledEdge,
			"at 30, 20 mm it lies on path#b for 10 mm; where a shape stands there twice, delete one; where two pieces share an edge, cut it once or move them apart"},
		"doubled along two edges": {cutLayer(pathOf("a", squareA) + pathOf("b", squareA)), Demands{}, findings.DoubledEdge,
			"at 20, 10 mm it lies on path#b for 80 mm; where a shape stands there twice, delete one; where two pieces share an edge, cut it once or move them apart"},
		"doubled within one path": {cutLayer(pathOf("a", squareA+" M 30 15 h 20 v 10 h -20 Z")), Demands{}, findings.DoubledEdge,
			"at 30, 20 mm it lies on another part of itself for 10 mm; where a shape stands there twice, delete one; where two pieces share an edge, cut it once or move them apart"},
		"crossing": {cutLayer(pathOf("a", squareA) + pathOf("b", "M 20 20 h 20 v 5 h -20 Z")), Demands{}, findings.CrossingOutlines,
			"at 30, 20 mm it crosses path#b; move them apart"},
		"crossing itself": {cutLayer(pathOf("a", "M 10 10 L 30 30 H 10 L 30 10 Z")), Demands{}, findings.SelfCrossing,
			"at 20, 20 mm it crosses or touches itself; draw it without the crossing"},
		"too close": {cutLayer(pathOf("a", squareA) + pathOf("b", "M 30.75 20 l 10 -5 v 10 Z")), Demands{Spacing: 1.5}, findings.TooClose,
			"at 30, 20 mm it lies 0.75 mm from path#b, and the spacing is 1.5 mm; move them apart"},
		"nearly closed": {cutLayer(pathOf("a", "M 10 10 h 20 v 20 h -20 v -19.5")), Demands{}, findings.NearlyClosed,
			"it ends 0.5 mm beside its start; end it on its start and close it with Z"},
		"short": {cutLayer(pathOf("a", "M 10 10 h 20 h 0.005 v 20 Z")), Demands{}, findings.ShortSegment,
			"a segment at 30.005, 10 mm is 0.00500 mm long; draw the edge in one piece"},
		"dangling": {layer(`id="cut" data-edges="shared"`, pathOf("a", squareA+" M 10 20 h 15")), Demands{}, findings.DanglingEnd,
			"the line ends at 25, 20 mm on no other line; end it on another line"},
		"thin": {layer(`id="cut" data-edges="shared"`, pathOf("a", "M 10 10 h 20 v 0.2 h -20 Z")), Demands{}, findings.ThinFace,
			`at 10, 10 mm layer "cut" closes a piece of 4.00 mm²; move the edges apart or leave one out`},
		"pieces": {layer(`id="cut" data-edges="shared"`, pathOf("a", squareA+" M 15 10 v 20")), Demands{}, findings.Faces,
			`layer "cut" closes 2 pieces of 100.0 to 300.0 mm²`},
		"no piece": {layer(`id="cut" data-edges="shared"`, pathOf("a", "M 15 10 v 20")), Demands{}, findings.Faces,
			`layer "cut" closes no piece`},
		"no layers": {sheet(pathOf("a", squareA) + pathOf("b", "M 40 40 h 1 v 1 Z")), Demands{}, findings.Unlayered,
			"no layer is named cut, score or print, so everything counts as a cut: 2 shapes; put each into a group with the id cut, score or print"},
		"text": {layer(`id="words"`, `<text>A</text>`), Demands{}, findings.Text,
			`text in layer "words"; turn it into paths, or move it to a print layer`},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, []string{c.want}, messagesOf(Check([]byte(c.file), c.demands), c.rule))
		})
	}
}

// Two shapes of one drawing may be the same one drawn twice through use.
func TestUseDrawsTwice(t *testing.T) {
	r := Check([]byte(sheet(`<defs><path id="p" d="M 10 10 h 5 v 5 h -5 Z"/></defs>
<g id="cut" fill="none" stroke="#000000"><use id="one" href="#p"/>
<use id="two" href="#p" x="2"/></g>`)), Demands{})
	var got []string
	for _, e := range r.Elements {
		got = append(got, fmt.Sprintf("%s %s via %s at %s", e.Tag, e.ID, e.Via, mm(e.Bounds.Min.X)))
	}
	require.Equal(t, []string{"path p via one at 10", "path p via two at 12"}, got)
	// Their horizontal edges overlap from 12 to 15, above and below.
	require.Equal(t, []string{"at 13.5, 10 mm it lies on path#p for 6 mm; where a shape stands there twice, delete one; where two pieces share an edge, cut it once or move them apart"}, messagesOf(r, findings.DoubledEdge))
}
