package reader

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/export/svg/findings"
)

// dataPath reads path data that must be right.
func dataPath(t require.TestingT, d string) Path {
	p, err := parsePath(d, mostSegments)
	require.Nil(t, err, "%s: %v", d, err)
	return p
}

// area is the signed area inside a path of closed sub-paths, above zero
// where they run clockwise on the page.
func area(p Path) float64 {
	var sum float64
	for _, s := range p.Segments() {
		sum += s.Area(Point{})
	}
	return sum
}

// absolute writes a path as absolute commands with every number in full.
func absolute(p Path) string {
	var b strings.Builder
	n := p.numbers
	for _, kind := range p.ops {
		b.WriteByte(byte(kind))
		list := n[:2*kind.points()]
		if n = n[len(list):]; kind == Arc {
			e := Ellipse{Point{list[0], list[1]}, Point{list[2], list[3]}, Point{list[4], list[5]}, list[6], list[7]}
			fmt.Fprint(&b, " ", full(e.U.length()), " ", full(e.V.length()), " ", full(math.Atan2(e.U.Y, e.U.X)*180/math.Pi), " ",
				asFlag(math.Abs(e.Turn) > math.Pi), " ", asFlag(e.Turn > 0))
			list = list[8:]
		}
		for _, f := range list {
			b.WriteString(" " + full(f))
		}
		b.WriteByte(' ')
	}
	return strings.TrimSpace(b.String())
}

func full(f float64) string { return strconv.FormatFloat(f, 'g', -1, 64) }

func asFlag(b bool) string {
	if b {
		return "1"
	}
	return "0"
}

// sheet is the root of most documents here: 100 x 50 mm, so that one user
// unit is half a millimetre. What a test puts behind it starts in column 1
// of line 2.
const sheet = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="100mm" height="50mm" viewBox="0 0 200 100">` + "\n"

// readSheet reads what stands on the sheet.
func readSheet(body string) (File, *findings.List) {
	var found findings.List
	return Read([]byte(sheet+body+"\n</svg>"), &found), &found
}

// elements writes the elements of a file, one a line: name, way through use,
// box in mm and what is special.
func elements(f File) []string {
	list := []string{}
	for _, e := range f.Elements {
		text := e.Label()
		if e.Via != "" {
			text += " via " + e.Via
		}
		text += " " + boxText(e.Bounds)
		if e.Layer != nil && e.Layer.ID != "" {
			text += " in " + e.Layer.ID
		}
		for _, word := range []struct {
			text string
			said bool
		}{
			{"unseen", !e.Visible}, {"unfilled", !e.Filled}, {"stroked", e.Stroked}, {"dashed", e.Dashed},
			{"evenodd", e.EvenOdd}, {"clipped", e.Clipped}, {"outside", e.Outside},
		} {
			if word.said {
				text += " " + word.text
			}
		}
		list = append(list, text)
	}
	return list
}

// boxText writes a box as x y w h with at most three decimals.
func boxText(b Box) string {
	return fmt.Sprintf("%s %s %s %s", number(b.Min.X), number(b.Min.Y), number(b.W()), number(b.H()))
}

func drawNumber(t *rapid.T, label string, from, to float64) float64 {
	return rapid.Float64Range(from, to).Draw(t, label)
}

// drawPoint draws a point on a grid of 1/1024.
func drawPoint(t *rapid.T, label string) Point {
	at := func(axis string) float64 {
		return float64(rapid.IntRange(-100<<10, 100<<10).Draw(t, label+axis)) / (1 << 10)
	}
	return Point{at(" x"), at(" y")}
}

// drawPath draws a closed path of up to six segments of all kinds.
func drawPath(t *rapid.T) Path {
	var p Path
	from := drawPoint(t, "start")
	p.moveTo(from)
	for range rapid.IntRange(1, 6).Draw(t, "segments") {
		to := drawPoint(t, "to")
		switch rapid.SampledFrom([]byte("LQCA")).Draw(t, "kind") {
		case 'L':
			p.lineTo(to)
		case 'Q':
			p.put(Quadratic, drawPoint(t, "c1"), to)
		case 'C':
			p.put(Cubic, drawPoint(t, "c1"), drawPoint(t, "c2"), to)
		case 'A':
			p.ellipticalArc(from, drawNumber(t, "rx", 1, 100), drawNumber(t, "ry", 1, 100), drawNumber(t, "turned by", -400, 400),
				rapid.Bool().Draw(t, "large"), rapid.Bool().Draw(t, "sweep"), to)
		}
		from = to
	}
	p.close()
	return p
}

// drawMatrix draws a map that neither flattens nor blows up.
func drawMatrix(t *rapid.T) matrix {
	return rapid.Custom(func(t *rapid.T) matrix {
		at := func(label string, most float64) float64 { return drawNumber(t, label, -most, most) }
		return matrix{at("a", 3), at("b", 3), at("c", 3), at("d", 3), at("e", 100), at("f", 100)}
	}).Filter(func(m matrix) bool { return math.Abs(m.a*m.d-m.b*m.c) > 0.05 }).Draw(t, "map")
}

// copied returns a path of its own, since mapped works in place.
func copied(p Path) Path {
	return Path{append([]SegmentKind{}, p.ops...), append([]float64{}, p.numbers...)}
}

// requireNear compares points.
func requireNear(t require.TestingT, want, got Point, tolerance float64, text ...any) {
	require.InDelta(t, want.X, got.X, tolerance, text...)
	require.InDelta(t, want.Y, got.Y, tolerance, text...)
}

// tree parses and styles a document that must be right XML.
func treeOf(t testing.TB, document string) (*tree, *findings.List) {
	t.Helper()
	var found findings.List
	tr := parse([]byte(document), &found)
	require.NotNil(t, tr, "%v", found.Findings())
	tr.cascade(&found)
	return tr, &found
}
