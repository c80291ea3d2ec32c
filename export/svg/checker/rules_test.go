package checker

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

// Squares that stand alone: a from 10 to 30 mm, b wherever it is put.
const squareA = `M 10 10 h 20 v 20 h -20 Z`

// A ruleCase is a drawing that breaks one rule and one beside it that does
// not. What is wanted is all findings but the notes; of the group layers,
// whose rules are mostly notes, all findings.
type ruleCase struct {
	rule        string
	demands     Demands
	file        string
	want        []string
	nearDemands *Demands // where not the same
	near        string
	nearWhy     string
	nearWant    []string // of other rules
	notes       bool
}

// Limits are those of outlines.go and pairs.go: 0.01 mm and 1 mm for the gap
// at an end, 0.01 mm for a short segment, 0.005 radians for a spike, 0.02 mm
// and 0.3 mm for doubled edges. Places are worked out by hand from the path
// data; a shape's line is 3 for the first in a layer, its column 1.
func ruleCases() map[string]ruleCase {
	one := func(d string) string { return cutLayer(pathOf("a", d)) }
	two := func(a, b string) string { return cutLayer(pathOf("a", a) + pathOf("b", b)) }
	filled := func(d, more string) string {
		return sheet(`<g id="cut" fill="#cccccc" stroke="#000000" ` + more + ">\n" + pathOf("a", d) + "</g>")
	}
	shared := func(d ...string) string {
		var b strings.Builder
		for i, one := range d {
			b.WriteString(pathOf(string(rune('a'+i)), one))
		}
		return layer(`id="cut" data-edges="shared"`, b.String())
	}
	inCut := func(inside string) string { return cutLayer(inside) }
	inPrint := func(inside string) string { return layer(`id="print"`, inside) }
	return map[string]ruleCase{
		"a line": {rule: "open-outline",
			file: one("M 10 10 h 20 v 20"), want: []string{"warning open-outline 3:1 path#a at 10,10"},
			near: one("M 10 10 h 20 v 20 Z")},
		"a line to fold along": {rule: "open-outline",
			file: one("M 10 10 h 20"), want: []string{"warning open-outline 3:1 path#a at 10,10"},
			near: layer(`id="score"`, pathOf("a", "M 10 10 h 20"))},
		"one of two parts is open": {rule: "open-outline",
			file: one(squareA + " M 40 10 h 20"), want: []string{"warning open-outline 3:1 path#a at 40,10"},
			near: one(squareA + " M 40 10 h 20 v 20 Z")},

		"the end 0.999 mm away": {rule: "nearly-closed",
			file: one("M 10 10 h 20 v 20 h -20 v -19.001"), want: []string{"error nearly-closed 3:1 path#a at 10,10.999"},
			near: one("M 10 10 h 20 v 20 h -20 v -18.999"), nearWant: []string{"warning open-outline 3:1 path#a at 10,10"}},
		"the end 0.011 mm away": {rule: "nearly-closed",
			file: one("M 10 10 h 20 v 20 h -20 v -19.989"), want: []string{"error nearly-closed 3:1 path#a at 10,10.011"},
			near: one("M 10 10 h 20 v 20 h -20 v -19.991"), nearWant: []string{"warning touching-ends 3:1 path#a at 10,10"}},
		"a gap of a tenth of the line": {rule: "nearly-closed", // 0.9 mm, against 9.1 and 8.9 mm of line
			file: one("M 10 10 h 4.1 v 0.9 h -4.1"), want: []string{"error nearly-closed 3:1 path#a at 10,10.9"},
			near: one("M 10 10 h 4 v 0.9 h -4"), nearWant: []string{"warning open-outline 3:1 path#a at 10,10"}},

		"back at the start": {rule: "touching-ends",
			file: one("M 10 10 h 20 v 20 h -20 v -20"), want: []string{"warning touching-ends 3:1 path#a at 10,10"},
			near: one("M 10 10 h 20 v 20 h -20 v -20 Z")},
		"0.009 mm beside the start": {rule: "touching-ends",
			file: one("M 10 10 h 20 v 20 h -20 v -19.991"), want: []string{"warning touching-ends 3:1 path#a at 10,10"},
			near: one("M 10 10 h 20 v 20 h -20 v -19.989"), nearWant: []string{"error nearly-closed 3:1 path#a at 10,10.011"}},
		"a curve back at the start": {rule: "touching-ends",
			file: one("M 10 10 c 20 0 20 20 0 0"), want: []string{"warning touching-ends 3:1 path#a at 10,10"},
			near: layer(`id="score"`, pathOf("a", "M 10 10 c 20 0 20 20 0 0"))},

		"a bow tie": {rule: "self-crossing",
			file: one("M 10 10 L 30 30 H 10 L 30 10 Z"), want: []string{"error self-crossing 3:1 path#a at 20,20"},
			near: one("M 10 10 L 30 30 H 10 L 19 20 L 10 11 Z")},
		"a corner on an edge of its own": {rule: "self-crossing",
			file: one("M 10 10 h 20 v 20 h -20 l 20 -10 l -20 -9 Z"), want: []string{"error self-crossing 3:1 path#a at 30,20"},
			near: one("M 10 10 h 20 v 20 h -20 l 19.9 -10 l -19.9 -9 Z")},
		"two parts that cross": {rule: "self-crossing",
			file: one(squareA + " M 20 20 h 20 v 5 h -20 Z"), want: []string{"error self-crossing 3:1 path#a at 30,20"},
			near: one(squareA + " M 30 30 h 20 v 5 h -20 Z"), nearWhy: "they touch at a corner"},
		"an open line over itself": {rule: "self-crossing",
			file: layer(`id="score"`, pathOf("a", "M 10 10 h 20 v 10 h -10 v -20")), want: []string{"error self-crossing 3:1 path#a at 20,10"},
			near: layer(`id="score"`, pathOf("a", "M 10 10 h 20 v 10 h -10 v -9"))},

		"a point twice": {rule: "zero-length",
			file: one("M 10 10 h 20 h 0 v 20 Z"), want: []string{"warning zero-length 3:1 path#a at 30,10"},
			near: one("M 10 10 h 20 h 0.01 v 20 Z")},
		"a curve that stays where it is": {rule: "zero-length",
			file: one("M 10 10 h 20 q 0 0 0 0 v 20 Z"), want: []string{"warning zero-length 3:1 path#a at 30,10"},
			near: one("M 10 10 h 20 q 5 0 0 5 v 20 Z")},
		"closed from its start": {rule: "zero-length", // the closing line may have no length
			file: one("M 10 10 h 20 v 20 L 10 10 l 0 0 Z"), want: []string{"warning zero-length 3:1 path#a at 10,10"},
			near: one("M 10 10 h 20 v 20 L 10 10 Z")},

		"0.009 mm": {rule: "short-segment",
			file: one("M 10 10 h 20 h 0.009 v 20 Z"), want: []string{"warning short-segment 3:1 path#a at 30.009,10"},
			near: one("M 10 10 h 20 h 0.011 v 20 Z")},
		"a closing line of 0.009 mm": {rule: "short-segment",
			file: one("M 10 10 h 20 v 20 h -20 v -19.991 Z"), want: []string{"warning short-segment 3:1 path#a at 10,10"},
			near: one("M 10 10 h 20 v 20 h -20 v -19.989 Z")},

		"there and back": {rule: "spike",
			file: one("M 10 10 h 20 v 20 v -10 h -20 Z"), want: []string{ // the line leaves from the middle of an edge
				"error spike 3:1 path#a at 30,30", "error self-crossing 3:1 path#a at 30,20"},
			near: one("M 10 10 h 20 v 20 h -1 v -10 h -19 Z")},
		"a wedge of 0.004 radians": {rule: "spike", // 0.2 mm on 50 mm; the near miss is 0.0052 radians
			file: one("M 10 10 H 60 L 10 10.2 Z"), want: []string{"error spike 3:1 path#a at 60,10"},
			near: one("M 10 10 H 60 L 10 10.26 Z")},
		"before the closing line": {rule: "spike",
			file: one("M 10 10 h 20 v 20 h -20 v -25 Z"), want: []string{
				"error spike 3:1 path#a at 10,5", "error self-crossing 3:1 path#a at 10,10"},
			near: one("M 10 10 h 20 v 20 h -20 v -15 Z")},
		"behind the closing line": {rule: "spike", // the start juts out to the right
			file: one("M 40 10 H 10 V 30 H 30 L 30.5 10 Z"), want: []string{
				"error spike 3:1 path#a at 40,10", "error self-crossing 3:1 path#a at 30.5,10"},
			near: one("M 40 10 H 10 V 30 H 30 L 30.5 11 Z")},
		"at a start that needs no closing line": {rule: "spike", // 0.04 mm on 10 mm; the near miss is 0.06 mm
			file: one("M 40 10 L 10 10 V 30 H 30 V 10.04 L 40 10 Z"), want: []string{"error spike 3:1 path#a at 40,10"},
			near: one("M 40 10 L 10 10 V 30 H 30 V 10.06 L 40 10 Z")},

		"a hole round the same way": {rule: "hole-direction",
			file: filled(squareA+" M 15 15 h 5 v 5 h -5 Z", ""), want: []string{"warning hole-direction 3:1 path#a at 15,15"},
			near: filled(squareA+" M 15 15 v 5 h 5 v -5 Z", "")},
		"both against the clock": {rule: "hole-direction",
			file: filled("M 10 10 v 20 h 20 v -20 Z M 15 15 v 5 h 5 v -5 Z", ""), want: []string{"warning hole-direction 3:1 path#a at 15,15"},
			near: filled("M 10 10 v 20 h 20 v -20 Z M 15 15 v 5 h 5 v -5 Z", `fill-rule="evenodd"`)},
		"a hole that is not painted": {rule: "hole-direction",
			file: filled("M 15 15 h 5 v 5 h -5 Z "+squareA, ""), want: []string{"warning hole-direction 3:1 path#a at 15,15"},
			near: filled("M 15 15 h 5 v 5 h -5 Z "+squareA, `fill-opacity="0"`)},
		"an island in a hole": {rule: "hole-direction", // the island runs as the outline does, which is right
			file: filled(squareA+" M 15 15 h 10 v 10 h -10 Z M 18 18 v 4 h 4 v -4 Z", ""), want: []string{"warning hole-direction 3:1 path#a at 15,15"},
			near: filled(squareA+" M 15 15 v 10 h 10 v -10 Z M 18 18 h 4 v 4 h -4 Z", "")},

		"left of the sheet": {rule: "off-sheet",
			file: one("M -0.1 10 h 20 v 20 Z"), want: []string{"error off-sheet 3:1 path#a at -0.1,10 size 20x20"},
			near: one("M 0 10 h 20 v 20 Z")},
		"above the sheet": {rule: "off-sheet",
			file: one("M 10 -0.1 h 20 v 20 Z"), want: []string{"error off-sheet 3:1 path#a at 10,-0.1 size 20x20"},
			near: one("M 10 0 h 20 v 20 Z")},
		"right of the sheet": {rule: "off-sheet",
			file: one("M 100.1 10 h -20 v 20 Z"), want: []string{"error off-sheet 3:1 path#a at 80.1,10 size 20x20"},
			near: one("M 100 10 h -20 v 20 Z")},
		"below the sheet": {rule: "off-sheet",
			file: one("M 10 100.1 h 20 v -20 Z"), want: []string{"error off-sheet 3:1 path#a at 10,80.1 size 20x20"},
			near: one("M 10 100 h 20 v -20 Z")},
		"the bulge of a curve": {rule: "off-sheet", // its control points lie at -12 and -8; 3/4 of that is reached
			file: one("M 8 10 C -12 10 -12 30 8 30 Z"), want: []string{"error off-sheet 3:1 path#a at -7,10 size 15x20"},
			near: one("M 8 10 C -2 10 -2 30 8 30 Z")},
		"off the sheet in print": {rule: "off-sheet",
			file: one("M -1 10 h 20 v 20 Z"), want: []string{"error off-sheet 3:1 path#a at -1,10 size 20x20"},
			near: inPrint(pathOf("a", "M -1 10 h 20 v 20 Z"))},

		"in the left edge": {rule: "in-edge", demands: Demands{Edge: 5},
			file: one("M 4.9 10 h 20 v 20 Z"), want: []string{"error in-edge 3:1 path#a at 4.9,10 size 20x20"},
			near: one("M 5 10 h 20 v 20 Z")},
		"in the bottom edge": {rule: "in-edge", demands: Demands{Edge: 5},
			file: one("M 10 95.1 h 20 v -20 Z"), want: []string{"error in-edge 3:1 path#a at 10,75.1 size 20x20"},
			near: one("M 10 95 h 20 v -20 Z")},
		"an edge not asked for": {rule: "in-edge", demands: Demands{Edge: 5}, nearDemands: &Demands{},
			file: one("M 1 10 h 20 v 20 Z"), want: []string{"error in-edge 3:1 path#a at 1,10 size 20x20"},
			near: one("M 1 10 h 20 v 20 Z")},

		"another sheet": {rule: "wrong-sheet", demands: Demands{SheetW: 100, SheetH: 110}, nearDemands: &Demands{SheetW: 100, SheetH: 100},
			file: one(squareA), want: []string{"error wrong-sheet 1:1 svg"},
			near: one(squareA)},
		"0.06 mm too large": {rule: "wrong-sheet", demands: Demands{SheetW: 100.06, SheetH: 100}, nearDemands: &Demands{SheetW: 100.04, SheetH: 100},
			file: one(squareA), want: []string{"error wrong-sheet 1:1 svg"},
			near: one(squareA)},

		"side by side": {rule: "doubled-edge",
			file: two(squareA, "M 30 15 h 20 v 10 h -20 Z"), want: []string{"error doubled-edge 3:1 path#a at 30,20"},
			near: two(squareA, "M 30.05 15 h 20 v 10 h -20 Z"), nearWhy: "0.05 mm apart"},
		"0.019 mm apart": {rule: "doubled-edge",
			file: two(squareA, "M 30.019 15 h 20 v 10 h -20 Z"), want: []string{"error doubled-edge 3:1 path#a at 30,20"},
			near: two(squareA, "M 30.021 15 h 20 v 10 h -20 Z")},
		"0.31 mm long": {rule: "doubled-edge", // the middle of 15 to 15.31
			file: two(squareA, "M 30 15 h 20 v 0.31 h -20 Z"), want: []string{"error doubled-edge 3:1 path#a at 30,15.155"},
			near: two(squareA, "M 30 15 h 20 v 0.29 h -20 Z")},
		"the same circle twice": {rule: "doubled-edge", // half of the first of 25 chords a quarter, on the circle:
			// 10 (1 - cos 1.8°) is 0.0049 mm, and with 24 chords it would be over the flatness of 0.005 mm
			file: inCut(`<circle id="a" cx="30" cy="30" r="10"/>` + "\n" + `<circle id="b" cx="30" cy="30" r="10"/>`),
			want: []string{"error doubled-edge 3:1 circle#a at 39.995,30.314"},
			near: inCut(`<circle id="a" cx="30" cy="30" r="10"/>` + "\n" + `<circle id="b" cx="30" cy="30" r="10.05"/>`)},
		"a line on the edge of another layer": {rule: "doubled-edge",
			file: two(squareA, "M 12 10 h 5 v -5 Z"), want: []string{"error doubled-edge 3:1 path#a at 14.5,10"},
			near: sheet(`<g id="cut" fill="none" stroke="#000000">` + "\n" + pathOf("a", squareA) + "</g>" +
				`<g id="score" fill="none" stroke="#000000">` + pathOf("b", "M 12 10 h 5 v -5 Z") + "</g>")},
		"two lines to fold along": {rule: "doubled-edge",
			file: layer(`id="score"`, pathOf("a", "M 10 10 h 10")+pathOf("b", "M 18 10 h 10")), want: []string{"error doubled-edge 3:1 path#a at 19,10"},
			near: layer(`id="score"`, pathOf("a", "M 10 10 h 10")+pathOf("b", "M 20 10 h 10"))},
		"an edge that runs back on itself": {rule: "doubled-edge",
			file: one("M 10 10 h 20 v 20 h -10 v -10 h 5 v 10 h -15 Z"), want: []string{
				"error doubled-edge 3:1 path#a at 22.5,30"},
			near: one("M 10 10 h 20 v 20 h -4 v -10 h -2 v 10 h -14 Z")},

		"one over the other": {rule: "crossing-outlines",
			file: two(squareA, "M 20 20 h 20 v 5 h -20 Z"), want: []string{"error crossing-outlines 3:1 path#a at 30,20"},
			near: two(squareA, "M 30 30 h 20 v 5 h -20 Z"), nearWhy: "they touch at a corner"},
		"through a corner": {rule: "crossing-outlines", // the corner at 30,30; and out through the edge at 10,20
			file: two(squareA, "M 40 35 L 30 30 L 5 17.5 L 5 40 Z"), want: []string{"error crossing-outlines 3:1 path#a at 30,30"},
			near: two(squareA, "M 40 35 L 30 30 L 20 40 Z")},
		"through an edge with a corner": {rule: "crossing-outlines", // corners at 10,20 and 30,20 lie on the edges
			file: two(squareA, "M 5 15 L 10 20 L 20 22 L 30 20 L 40 25 V 50 H 5 Z"), want: []string{"error crossing-outlines 3:1 path#a at 30,20"},
			near: two(squareA, "M 5 15 L 10 20 L 5 25 Z")},
		"a corner through a corner": {rule: "crossing-outlines", // at 10,30 and at 30,30
			file: two(squareA, "M 20 40 L 30 30 L 25 25 L 15 25 L 10 30 L 5 40 Z"), want: []string{"error crossing-outlines 3:1 path#a at 10,30"},
			near: two(squareA, "M 40 20 L 30 30 L 40 40 Z")},
		"from inside to outside of a circle": {rule: "crossing-outlines",
			file: inCut(`<circle id="a" cx="30" cy="30" r="10"/>` + "\n" + pathOf("b", "M 30 30 H 50 V 31 Z")), want: []string{"error crossing-outlines 3:1 circle#a at 40,30"},
			near: inCut(`<circle id="a" cx="30" cy="30" r="10"/>` + "\n" + pathOf("b", "M 30 30 H 39 V 31 Z"))},
		"cut and score": {rule: "crossing-outlines",
			file: two(squareA, "M 20 20 h 20 v 5 h -20 Z"), want: []string{"error crossing-outlines 3:1 path#a at 30,20"},
			near: sheet(`<g id="cut" fill="none" stroke="#000000">` + "\n" + pathOf("a", squareA) + "</g>" +
				`<g id="score" fill="none" stroke="#000000">` + pathOf("b", "M 20 20 h 20 v 5 h -20 Z") + "</g>")},
		"shared edges and others": {rule: "crossing-outlines",
			file: sheet(`<g id="cut" data-edges="shared" fill="none" stroke="#000000">` + "\n" + pathOf("a", squareA) + "</g>" +
				`<g id="x" fill="none" stroke="#000000">` + pathOf("b", "M 20 20 h 20 v 5 h -20 Z") + "</g>"),
			want: []string{"error crossing-outlines 3:1 path#a at 30,20", "warning unlayered 4:44 path#b at 20,20 size 20x5"},
			near: shared(squareA, "M 20 20 h 20 v 5 h -20 Z")},

		"0.9 mm apart": {rule: "too-close", demands: Demands{Spacing: 1},
			file: two(squareA, "M 30.9 20 l 10 -5 v 10 Z"), want: []string{"error too-close 3:1 path#a at 30,20"},
			near: two(squareA, "M 31 20 l 10 -5 v 10 Z"), nearWhy: "the spacing exactly"},
		"touching": {rule: "too-close", demands: Demands{Spacing: 1}, nearDemands: &Demands{},
			file: two(squareA, "M 30 20 l 10 -5 v 10 Z"), want: []string{"error too-close 3:1 path#a at 30,20"},
			near: two(squareA, "M 30 20 l 10 -5 v 10 Z")},
		"one in the hole of another": {rule: "too-close", demands: Demands{Spacing: 2},
			file: one(squareA + " M 15 15 h 10 v 10 h -10 Z M 23.1 20 l -4 -2 v 4 Z"), want: []string{"error too-close 3:1 path#a at 25,20"},
			near: one(squareA + " M 15 15 h 10 v 10 h -10 Z M 23 20 l -4 -2 v 4 Z")},
		"corner to corner": {rule: "too-close", demands: Demands{Spacing: 5},
			file: two(squareA, "M 33 33.9 h 9 v 9 h -9 Z"), want: []string{"error too-close 3:1 path#a at 33,33.9"}, // 4.92 mm
			near: two(squareA, "M 33 34 h 9 v 9 h -9 Z")}, // 3, 4, 5
		"a hole and its outline": {rule: "too-close", demands: Demands{Spacing: 2},
			file: two(squareA, "M 31 20 l 10 -5 v 10 Z"), want: []string{"error too-close 3:1 path#a at 30,20"},
			near: two(squareA, "M 29 20 l -10 -5 v 10 Z")},
		"pieces that cross": {rule: "too-close", demands: Demands{Spacing: 2},
			file: two(squareA, "M 31 20 l 10 -5 v 10 Z"), want: []string{"error too-close 3:1 path#a at 30,20"},
			near: two(squareA, "M 29 20 l 10 -5 v 10 Z"), nearWant: []string{"error crossing-outlines 3:1 path#a at 30,19.5"}},

		"not visible": {rule: "hidden",
			file: inCut(`<path id="a" visibility="hidden" d="` + squareA + `"/>`), want: []string{"warning hidden 3:1 path#a at 10,10 size 20x20"},
			near: inCut(`<g visibility="hidden"><path id="a" visibility="visible" d="` + squareA + `"/></g>`)},
		"no paint": {rule: "hidden",
			file: inCut(`<path id="a" stroke="none" d="` + squareA + `"/>`), want: []string{"warning hidden 3:1 path#a at 10,10 size 20x20"},
			near: inCut(`<path id="a" stroke="none" fill="#cccccc" d="` + squareA + `"/>`)},
		"see-through": {rule: "hidden",
			file: inCut(`<path id="a" opacity="0" d="` + squareA + `"/>`), want: []string{"warning hidden 3:1 path#a at 10,10 size 20x20"},
			near: inCut(`<path id="a" opacity="0.1" d="` + squareA + `"/>`)},

		"a word": {rule: "text",
			file: inCut(`<text id="a" x="10" y="10">A</text>`), want: []string{"error text 3:1 text#a"},
			near: inPrint(`<text id="a" x="10" y="10">A</text>`)},
		"a photograph": {rule: "image",
			file: inCut(`<image id="a" width="10" height="10"/>`), want: []string{"warning image 3:1 image#a"},
			near: inPrint(`<image id="a" width="10" height="10"/>`)},
		"another language inside": {rule: "foreign-object",
			file: inCut(`<foreignObject id="a" width="10" height="10"/>`), want: []string{"error foreign-object 3:1 foreignObject#a"},
			near: inPrint(`<foreignObject id="a" width="10" height="10"/>`)},

		"a clip": {rule: "clipped", // the place is that of the attribute
			file: inCut(`<path id="a" clip-path="url(#x)" d="` + squareA + `"/>`), want: []string{"error clipped 3:14 path#a"},
			near: inCut(`<path id="a" clip-path="none" d="` + squareA + `"/>`)},
		"out of its window": {rule: "outside-viewport",
			file: inCut(`<svg width="20" height="40"><path id="a" d="` + squareA + `"/></svg>`), want: []string{"warning outside-viewport 3:29 path#a at 10,10 size 20x20"},
			near: inCut(`<svg width="30" height="40"><path id="a" d="` + squareA + `"/></svg>`)},
		"a perforation": {rule: "dashes",
			file: inCut(`<path id="a" stroke-dasharray="2 1" d="` + squareA + `"/>`), want: []string{"warning dashes 3:1 path#a at 10,10 size 20x20"},
			near: inCut(`<path id="a" stroke-dasharray="none" d="` + squareA + `"/>`)},

		"a line that stops in a piece": {rule: "dangling-end",
			file: shared(squareA, "M 10 20 h 15"), want: []string{"error dangling-end 4:1 path#b at 25,20"},
			near: shared(squareA, "M 10 20 h 20"), nearWhy: "both ends lie on an edge"},
		"a line on its own": {rule: "dangling-end",
			file: shared(squareA, "M 40 20 h 15"), want: []string{"error dangling-end 4:1 path#b at 40,20", "error dangling-end 4:1 path#b at 55,20"},
			near: shared(squareA, "M 40 20 h 15 v 15 Z")},
		"0.0002 mm short": {rule: "dangling-end",
			file: shared(squareA, "M 10 20 h 19.9998"), want: []string{"error dangling-end 4:1 path#b at 30,20"},
			near: shared(squareA, "M 10 20 h 19.99995")},
		"end to end": {rule: "dangling-end",
			file: shared("M 10 10 h 20 v 20", "M 10 10 v 20 h 19.9"), want: []string{"error dangling-end 3:1 path#a at 30,30", "error dangling-end 4:1 path#b at 29.9,30"},
			near: shared("M 10 10 h 20 v 20", "M 10 10 v 20 h 20")},
		"edges not shared": {rule: "dangling-end",
			file: shared("M 10 10 h 20 v 20 Z M 50 50 h 20"), want: []string{"error dangling-end 3:1 path#a at 50,50", "error dangling-end 3:1 path#a at 70,50"},
			near: layer(`id="cut" data-edges="own"`, pathOf("a", "M 10 10 h 20 v 20 Z M 50 50 h 20")), nearWant: []string{"warning open-outline 3:1 path#a at 50,50"}},

		"0.2 mm between two edges": {rule: "thin-piece", // at a corner of it
			file: shared(squareA, "M 10 20 h 20", "M 10 20.2 h 20"), want: []string{"warning thin-piece 2:1 g at 30,20"},
			near: shared(squareA, "M 10 20 h 20", "M 10 20.6 h 20")},

		"too many of them": {rule: "not-compared",
			file: manySquares(20_000), want: []string{"error doubled-edge 2:1 path at 11.5,10", "warning not-compared 1:1 svg"},
			near: manySquares(2), nearWant: []string{"error doubled-edge 2:1 path at 11.5,10"}},

		"a layer that cuts": {rule: "layer", notes: true,
			file: one(squareA), want: []string{"note layer 2:1 g"},
			near: sheet(pathOf("a", squareA)), nearWant: []string{"warning unlayered 2:1"}},
		"a group in a group": {rule: "layer", notes: true,
			file: inCut("<g>" + pathOf("a", squareA) + "</g>"), want: []string{"note layer 2:1 g"},
			near: sheet("<a>\n<g>" + pathOf("a", squareA) + "</g></a>"), nearWant: []string{"warning unlayered 3:4"}},
		"edges for both their pieces": {rule: "shared-edges", notes: true,
			file: shared(squareA, "M 20 10 v 20"), want: []string{"note layer 2:1 g", "note shared-edges 2:1 g"},
			near: layer(`id="cut" data-edges="own"`, pathOf("a", squareA)), nearWant: []string{"note layer 2:1 g"}},
		"no layers at all": {rule: "unlayered", notes: true,
			file: sheet(pathOf("a", squareA)), want: []string{"warning unlayered 2:1"},
			near: layer(`id="CUT"`, pathOf("a", squareA)), nearWant: []string{"note layer 2:1 g"}},
		"a shape beside the layers": {rule: "unlayered", notes: true,
			file: sheet(`<g id="cut" fill="none" stroke="#000000">` + pathOf("a", squareA) + "</g>\n" + pathOf("b", "M 40 10 h 10 v 20 Z")),
			want: []string{"note layer 2:1 g", "warning unlayered 4:1 path#b at 40,10 size 10x20"},
			near: sheet(`<g id="cut" fill="none" stroke="#000000">` + pathOf("a", squareA) + pathOf("b", "M 40 10 h 10 v 20 Z") + "</g>"), nearWant: []string{"note layer 2:1 g"}},
		"a layer for nothing": {rule: "empty-layer", notes: true,
			file: sheet(`<g id="score"></g>`), want: []string{"note empty-layer 2:1 g"},
			near: sheet(`<g id="score">` + pathOf("a", squareA) + "</g>"), nearWant: []string{"note layer 2:1 g"}},
	}
}

// manySquares is n times the same square in one layer, all in line 2.
func manySquares(n int) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><g id="cut" fill="none" stroke="#000000">` + "\n" +
		strings.Repeat(`<path d="M 10 10 h 3 v 3 h -3 Z"/>`, n) + "</g></svg>"
}

func TestRules(t *testing.T) {
	for name, c := range ruleCases() {
		t.Run(c.rule+"/"+name, func(t *testing.T) {
			got := findingsOf(Check([]byte(c.file), c.demands), c.notes)
			if c.rule == "not-compared" { // the many others do not matter
				require.Contains(t, got, c.want[0])
				require.Contains(t, got, c.want[1])
			} else {
				require.Equal(t, c.want, got)
			}
			d := c.demands
			if c.nearDemands != nil {
				d = *c.nearDemands
			}
			require.Equal(t, c.nearWant, findingsOf(Check([]byte(c.near), d), c.notes), "near miss %s", c.nearWhy)
		})
	}
}

// Every rule of the three groups that the checker looks after has a case
// that breaks it and one that does not.
func TestEveryRuleHasACase(t *testing.T) {
	have := map[string]bool{}
	for name, c := range ruleCases() {
		names := func(list []string) bool {
			return slices.ContainsFunc(list, func(text string) bool { return strings.Fields(text)[1] == c.rule })
		}
		require.True(t, names(c.want), "%s: %s is not among what is wanted", name, c.rule)
		require.False(t, names(c.nearWant), "%s: the near miss breaks %s", name, c.rule)
		have[c.rule] = true
	}
	n := 0
	for _, r := range findings.All() {
		switch r.Group {
		case "outlines", "cutting", "layers":
			require.True(t, have[r.ID], "no case breaks %s", r.ID)
			n++
		}
	}
	require.Len(t, have, n, fmt.Sprint(have))
}
