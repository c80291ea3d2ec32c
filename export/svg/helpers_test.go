package svg

import (
	"flag"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

var update = flag.Bool("update", false, "rewrite golden files")

const mm = geometry.Millimetre

func size(w, h geometry.Length) geometry.Size { return geometry.Size{W: w * mm, H: h * mm} }

func at(x, y geometry.Length) geometry.Point { return geometry.Point{X: x * mm, Y: y * mm} }

// points reads places in whole millimetres: "0,0 100,0 100,50".
func points(text string) []geometry.Point {
	var list []geometry.Point
	for pair := range strings.FieldsSeq(text) {
		x, y, _ := strings.Cut(pair, ",")
		list = append(list, at(whole(x), whole(y)))
	}
	return list
}

func whole(text string) geometry.Length {
	n, err := strconv.Atoi(text)
	if err != nil {
		panic(err)
	}
	return geometry.Length(n)
}

func ring(text string) geometry.Ring { return geometry.RingFromPoints(points(text)...) }

func line(text string) geometry.Path {
	p := points(text)
	return geometry.PathFromPoints(p[0], p[1:]...)
}

// teardrop starts and ends at (10, 10) mm and ends in a curve.
func teardrop() geometry.Ring {
	return geometry.Ring{
		geometry.LineTo(at(20, 10)),
		geometry.CurveTo(at(30, 20), at(10, 30), at(10, 10)),
	}
}

// sample is a sheet with one of everything that a sheet can hold.
func sample() Drawing {
	window := geometry.Outline{
		Outer: ring("10,10 60,10 60,40 10,40"),
		Holes: []geometry.Ring{ring("20,20 20,30 30,30 30,20"), teardrop()},
	}
	bleed := ShapeFromOutline(geometry.Outline{Outer: ring("5,5 95,5 95,45 5,45")})
	bleed.Fill = "#f0e442"
	return Drawing{
		Size:  geometry.Size{W: 101_600_000, H: 50_123_456}, // 4 in, and a height that uses every decimal
		Title: `4 in x 50.123456 mm, "kelp" & <moss>, printed side up`,
		Desc:  "one of everything",
		Layers: []Layer{
			{ID: Print, Title: "Print", Shapes: []Shape{bleed}},
			{ID: Score, Title: "Score lines", Shapes: []Shape{
				ShapeFromPath(line("0,25 100,25"), Attribute{"data-fold", "valley"}),
				{Lines: []geometry.Path{line("1,1 2,2"), {
					From: at(3, 3), Then: []geometry.Segment{geometry.CurveTo(at(4, 3), at(5, 4), at(5, 5))},
				}}},
			}},
			{
				ID: Cut, Title: "Cut", Stroke: "#0072B2", Attributes: []Attribute{{"data-edges", "single"}},
				Shapes: []Shape{ShapeFromOutline(window,
					Attribute{"id", "p-07-A1a"}, Attribute{"data-card", "07"},
					Attribute{"data-panel", "A1a"}, Attribute{"data-paper", `kelp "7" <&>`})},
			},
		},
	}
}

func mustEncode(t testing.TB, d Drawing) string {
	t.Helper()
	data, err := Encode(d)
	require.NoError(t, err)
	return string(data)
}
