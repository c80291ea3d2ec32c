package svg_test

import (
	"fmt"
	"strings"

	"panelry/export/svg"
	"panelry/geometry"
)

// A sheet with one panel of 2 x 2 5/8 in on it, and a fold line.
func ExampleEncode() {
	panel := geometry.RectFromSize(
		geometry.Point{X: geometry.Inch / 4, Y: geometry.Inch / 4},
		geometry.Size{W: 2 * geometry.Inch, H: 2*geometry.Inch + 5*geometry.Inch/8},
	)
	middle := panel.Centre().Y
	data, err := svg.Encode(svg.Drawing{
		Size:  geometry.Size{W: 6 * geometry.Inch, H: 4 * geometry.Inch},
		Title: "6 x 4 in, kelp, printed side up",
		Layers: []svg.Layer{
			{ID: svg.Score, Title: "Score lines", Shapes: []svg.Shape{svg.ShapeFromPath(geometry.PathFromPoints(
				geometry.Point{X: panel.Min.X, Y: middle}, geometry.Point{X: panel.Max.X, Y: middle}))}},
			{ID: svg.Cut, Title: "Cut lines", Shapes: []svg.Shape{svg.ShapeFromOutline(panel.Outline(),
				svg.Attribute{Name: "data-card", Value: "07"}, svg.Attribute{Name: "data-panel", Value: "A1"})}},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for line := range strings.Lines(string(data)) {
		if strings.Contains(line, "viewBox") || strings.Contains(line, "<path") {
			fmt.Println(strings.TrimSpace(line))
		}
	}
	// Output:
	// viewBox="0 0 152.4 101.6"
	// <path d="M 6.35 39.6875 L 57.15 39.6875" />
	// <path d="M 6.35 6.35 L 57.15 6.35 L 57.15 73.025 L 6.35 73.025 Z" data-card="07" data-panel="A1" />
}

func ExampleRead() {
	_, err := svg.Read([]byte(`<svg xmlns="http://www.w3.org/2000/svg" width="300" height="200" viewBox="0 0 300 200"/>`))
	fmt.Println(err)
	// Output: line 1, column 48: width "300": is not in millimetres; write it like 304.8mm
}
