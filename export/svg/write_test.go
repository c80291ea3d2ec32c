package svg

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

func TestGolden(t *testing.T) {
	name := filepath.Join("testdata", "sheet.svg")
	got := mustEncode(t, sample())
	if *update {
		require.NoError(t, os.WriteFile(name, []byte(got), 0o644))
		t.Logf("%s is rewritten; look at the difference before you keep it", name)
	}
	want, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, string(want), got)
	read, err := Read(want)
	require.NoError(t, err)
	require.NoError(t, Compare(sample(), read), "by meaning, not only by bytes")
}

func TestSameDrawingSameBytes(t *testing.T) {
	first := mustEncode(t, sample())
	for range 5 {
		require.Equal(t, first, mustEncode(t, sample()))
	}
}

func TestWriteLeavesOut(t *testing.T) {
	d := Drawing{Size: size(10, 10), Layers: []Layer{{ID: Score, Title: "Score lines"}}}
	data := mustEncode(t, d)
	require.NotContains(t, data, "<g", "a layer without shapes")
	require.NotContains(t, data, "<title", "an empty title")
	require.NotContains(t, data, "<desc", "an empty description")
}

func TestLayersHaveTheirOwnColours(t *testing.T) {
	for id, want := range map[string]string{Cut: CutStroke, Score: ScoreStroke, Print: PrintStroke} {
		d := Drawing{Size: size(10, 10), Layers: []Layer{{ID: id, Title: id, Shapes: []Shape{ShapeFromPath(line("1,1 2,2"))}}}}
		require.Contains(t, mustEncode(t, d),
			`<g id="`+id+`" fill="none" stroke="`+want+`" stroke-width="0.1" >`+"\n<title>"+id+"</title>")
	}
}

func TestInnerCutsComeFirst(t *testing.T) {
	o := geometry.Outline{Outer: ring("0,0 9,0 9,9 0,9"), Holes: []geometry.Ring{ring("2,2 2,3 3,3"), ring("5,5 5,6 6,6")}}
	s := ShapeFromOutline(o, Attribute{"data-panel", "A1"})
	require.Equal(t, "M 2 2 L 2 3 L 3 3 Z M 5 5 L 5 6 L 6 6 Z M 0 0 L 9 0 L 9 9 L 0 9 Z", s.data())
	require.Len(t, o.Holes, 2, "the outline is left alone")
}

func TestWriteRefuses(t *testing.T) {
	shape := func(s Shape) func(*Drawing) { return func(d *Drawing) { d.Layers[2].Shapes = []Shape{s} } }
	rings := func(r ...geometry.Ring) func(*Drawing) { return shape(Shape{Rings: r}) }
	lines := func(p ...geometry.Path) func(*Drawing) { return shape(Shape{Lines: p}) }
	attribute := func(name, value string) func(*Drawing) {
		return shape(Shape{Rings: []geometry.Ring{ring("1,1 2,1 2,2")}, Attributes: []Attribute{{name, value}}})
	}
	far := geometry.Point{X: geometry.Limit + 1}
	tests := map[string]struct {
		change func(*Drawing)
		want   string
	}{
		// SVG 2 §8.6: 0 switches the drawing off, less is an error.
		"no width":          {func(d *Drawing) { d.Size.W = 0 }, "sheet size 0 x 50.123456 mm: width and height must be above 0"},
		"negative height":   {func(d *Drawing) { d.Size.H = -mm }, "sheet size 101.6 x -1 mm: width and height must be above 0"},
		"far too large":     {func(d *Drawing) { d.Size.W = geometry.Limit + 1 }, "sheet size 100000.000001 x 50.123456 mm: larger than 100000 mm, the most that a length may be"},
		"control in title":  {func(d *Drawing) { d.Title = "a\x07" }, `sheet title "a\a": holds the character U+0007, which an SVG file cannot hold; take it out`},
		"not UTF-8":         {func(d *Drawing) { d.Desc = "a\xff" }, `sheet description "a\xff": byte 2 is not UTF-8; save the text as UTF-8`},
		"unknown layer":     {func(d *Drawing) { d.Layers[0].ID = "marks" }, `layer "marks": a sheet has the layers cut, score and print`},
		"layer twice":       {func(d *Drawing) { d.Layers[0].ID = Cut }, `layer cut: id "cut" is used twice in the sheet`},
		"no layer title":    {func(d *Drawing) { d.Layers[1].Title = "" }, `layer score: has no title; give it one, such as "Score lines"`},
		"layer title":       {func(d *Drawing) { d.Layers[1].Title = "\x00" }, `layer score: title "\x00": holds the character U+0000, which an SVG file cannot hold; take it out`},
		"stroke":            {func(d *Drawing) { d.Layers[1].Stroke = "red" }, `layer score: stroke "red": write a colour as # and six hexadecimal digits, such as #009E73`},
		"short colour":      {func(d *Drawing) { d.Layers[0].Shapes[0].Fill = "#fff" }, `layer print, shape 1: fill "#fff": write a colour as # and six hexadecimal digits, such as #009E73`},
		"layer attribute":   {func(d *Drawing) { d.Layers[1].Attributes = []Attribute{{"id", "x"}} }, `layer score: attribute "id" has no place on a sheet; give it a name that starts with data-`},
		"style":             {attribute("style", "x"), `layer cut, shape 1: attribute "style" has no place on a sheet; give it a name that starts with data-`},
		"transform":         {attribute("transform", "scale(2)"), `layer cut, shape 1: attribute "transform" has no place on a sheet; give it a name that starts with data-`},
		"data alone":        {attribute("data-", "x"), `layer cut, shape 1: attribute "data-" has no place on a sheet; give it a name that starts with data-`},
		"attribute value":   {attribute("data-card", "\x1b"), `layer cut, shape 1 (\x1b): attribute data-card "\x1b": holds the character U+001B, which an SVG file cannot hold; take it out`},
		"id of a layer":     {attribute("id", "score"), `layer cut, shape 1: id "score" is used twice in the sheet`},
		"id with a space":   {attribute("id", "a b"), `layer cut, shape 1: id "a b": start with a letter, and use only letters, digits, hyphens, dots and underscores`},
		"id with a number":  {attribute("id", "7"), `layer cut, shape 1: id "7": start with a letter, and use only letters, digits, hyphens, dots and underscores`},
		"attribute twice":   {shape(Shape{Rings: []geometry.Ring{ring("1,1 2,1 2,2")}, Attributes: []Attribute{{"data-a", "1"}, {"data-a", "1"}}}), "layer cut, shape 1: attribute data-a is given twice"},
		"nothing":           {shape(Shape{Attributes: []Attribute{{"data-card", "07"}, {"data-panel", "A1a"}}}), "layer cut, shape 1 (07-A1a): an empty path: holds no outline and no line; leave the shape out"},
		"empty ring":        {rings(ring("1,1 2,1 2,2"), nil), "layer cut, shape 1: outline 2: an empty path: has no sides; leave it out"},
		"one point":         {rings(ring("1,1")), "layer cut, shape 1: outline 1: has too few sides (1): it takes three, or two of which one is a curve"},
		"there and back":    {rings(ring("1,1 2,2")), "layer cut, shape 1: outline 1: has too few sides (2): it takes three, or two of which one is a curve"},
		"loop of one side":  {rings(teardrop()[1:]), "layer cut, shape 1: outline 1: has too few sides (1): it takes three, or two of which one is a curve"},
		"same point":        {rings(ring("1,1 2,1 2,1 2,2")), "layer cut, shape 1: outline 1: the point (2, 1) mm twice in a row; leave one out"},
		"curve to nowhere":  {lines(geometry.Path{Then: []geometry.Segment{{Curved: true}}}), "layer cut, shape 1: line 1: the point (0, 0) mm twice in a row; leave one out"},
		"empty line":        {lines(line("1,1 2,2"), geometry.Path{From: at(1, 1)}), "layer cut, shape 1: line 2: an empty path: only a start and nowhere to go; leave it out"},
		"right of sheet":    {rings(ring("1,1 102,1 2,2")), "layer cut, shape 1: outline 1: reaches (102, 1) mm, outside the sheet of 101.6 x 50.123456 mm"},
		"above the sheet":   {lines(geometry.PathFromPoints(geometry.Point{X: 5, Y: -1}, at(1, 1))), "layer cut, shape 1: line 1: reaches (0.000005, -0.000001) mm, outside the sheet of 101.6 x 50.123456 mm"},
		"line in a filling": {shape(Shape{Fill: "#ffffff", Lines: []geometry.Path{line("1,1 2,2")}}), "layer cut, shape 1: an open line in a filled shape would be filled too; put it in a shape of its own"},
		"control too far": {lines(geometry.Path{From: at(1, 1), Then: []geometry.Segment{geometry.CurveTo(far, far, at(2, 2))}}),
			"layer cut, shape 1: line 1: control point (100000.000001, 0) mm is further than 100000 mm from the sheet's corner"},
		// A cubic with control values 10, -20, -20, 10 turns at t = 1/2: (10 - 60 - 60 + 10) / 8 = -12.5.
		"curve bulges out": {lines(geometry.Path{From: at(10, 10), Then: []geometry.Segment{geometry.CurveTo(at(10, -20), at(20, -20), at(20, 10))}}),
			"layer cut, shape 1: line 1: reaches (10, -12.5) mm, outside the sheet of 101.6 x 50.123456 mm"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			d := sample()
			test.change(&d)
			var b bytes.Buffer
			require.EqualError(t, Write(&b, d), test.want)
			require.Zero(t, b.Len(), "nothing is written")
			_, err := Encode(d)
			require.EqualError(t, err, test.want)
		})
	}
}

func TestControlPointsMayLieOutside(t *testing.T) {
	// Control values 10, -2, -2, 10 turn at t = 1/2: (10 - 6 - 6 + 10) / 8 = 1.
	curve := geometry.Path{From: at(10, 10), Then: []geometry.Segment{geometry.CurveTo(at(10, -2), at(20, -2), at(20, 10))}}
	// 12, -4, -4, 12 just touches: (12 - 12 - 12 + 12) / 8 = 0.
	touching := geometry.Path{From: at(10, 12), Then: []geometry.Segment{geometry.CurveTo(at(10, -4), at(20, -4), at(20, 12))}}
	d := Drawing{Size: size(30, 30), Layers: []Layer{{ID: Cut, Title: "Cut", Shapes: []Shape{ShapeFromPath(curve), ShapeFromPath(touching)}}}}
	require.True(t, strings.Contains(mustEncode(t, d), "C 10 -2 20 -2 20 10"))
}

func TestCompareFindsEachDifference(t *testing.T) {
	moved := func(s []geometry.Segment, by geometry.Length) { s[0].To.X += by }
	tests := map[string]struct {
		change func(*Drawing)
		want   string
	}{
		"size":             {func(d *Drawing) { d.Size.W++ }, "size: meant 101.6 x 50.123456 mm, found 101.600001 x 50.123456 mm"},
		"title":            {func(d *Drawing) { d.Title = "x" }, `title: meant "4 in x 50.123456 mm, \"kelp\" & <moss>, printed side up", found "x"`},
		"description":      {func(d *Drawing) { d.Desc = "" }, `description: meant "one of everything", found ""`},
		"layer missing":    {func(d *Drawing) { d.Layers = d.Layers[:2] }, "number of layers: meant 3, found 2"},
		"layer order":      {func(d *Drawing) { d.Layers[0], d.Layers[1] = d.Layers[1], d.Layers[0] }, `layer 1: id: meant "print", found "score"`},
		"layer title":      {func(d *Drawing) { d.Layers[1].Title = "x" }, `layer 2: title: meant "Score lines", found "x"`},
		"stroke":           {func(d *Drawing) { d.Layers[1].Stroke = "#000000" }, `layer 2: stroke: meant "#009E73", found "#000000"`},
		"layer attribute":  {func(d *Drawing) { d.Layers[2].Attributes[0].Value = "shared" }, `layer 3: attribute data-edges: meant "single", found "shared"`},
		"shape missing":    {func(d *Drawing) { d.Layers[1].Shapes = d.Layers[1].Shapes[:1] }, "layer 2: number of shapes: meant 2, found 1"},
		"fill":             {func(d *Drawing) { d.Layers[0].Shapes[0].Fill = "" }, `layer 1: shape 1: fill: meant "#f0e442", found ""`},
		"attribute":        {func(d *Drawing) { d.Layers[2].Shapes[0].Attributes[1].Value = "08" }, `layer 3: shape 1 (07-A1a): attribute data-card: meant "07", found "08"`},
		"attribute name":   {func(d *Drawing) { d.Layers[2].Shapes[0].Attributes[1].Name = "data-x" }, `layer 3: shape 1 (07-A1a): attribute: meant "data-card", found "data-x"`},
		"attributes":       {func(d *Drawing) { d.Layers[2].Shapes[0].Attributes = nil }, "layer 3: shape 1 (07-A1a): number of attributes: meant 4, found 0"},
		"outline missing":  {func(d *Drawing) { d.Layers[2].Shapes[0].Rings = nil }, "layer 3: shape 1 (07-A1a): number of outlines: meant 3, found 0"},
		"one nanometre":    {func(d *Drawing) { moved(d.Layers[2].Shapes[0].Rings[2], 1) }, "layer 3: shape 1 (07-A1a): outline 3: side 1: end: meant (60, 10) mm, found (60.000001, 10) mm"},
		"control point":    {func(d *Drawing) { d.Layers[2].Shapes[0].Rings[1][1].C2.Y++ }, "layer 3: shape 1 (07-A1a): outline 2: side 2: second control point: meant (10, 30) mm, found (10, 30.000001) mm"},
		"curve made flat":  {func(d *Drawing) { d.Layers[2].Shapes[0].Rings[1][1].Curved = false }, "layer 3: shape 1 (07-A1a): outline 2: side 2 to (10, 10) mm: one is a curve, the other straight"},
		"side missing":     {func(d *Drawing) { d.Layers[2].Shapes[0].Rings[2] = ring("10,10 60,10 60,40") }, "layer 3: shape 1 (07-A1a): outline 3: side 3: end: meant (10, 40) mm, found (10, 10) mm"},
		"line missing":     {func(d *Drawing) { d.Layers[1].Shapes[1].Lines = d.Layers[1].Shapes[1].Lines[:1] }, "layer 2: shape 2: number of lines: meant 2, found 1"},
		"start of a line":  {func(d *Drawing) { d.Layers[1].Shapes[0].Lines[0].From.X = 1 }, "layer 2: shape 1: line 1: start: meant (0, 25) mm, found (0.000001, 25) mm"},
		"length of a line": {func(d *Drawing) { d.Layers[1].Shapes[0].Lines[0].Then = nil }, "layer 2: shape 1: line 1: number of sides: meant 1, found 0"},
	}
	require.NoError(t, Compare(sample(), sample()))
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			got := sample()
			test.change(&got)
			require.EqualError(t, Compare(sample(), got), test.want)
			require.Error(t, Compare(got, sample()), "the other way round")
		})
	}
}
