package geometry_test

import (
	"fmt"

	"panelry/geometry"
)

func ExampleParseLength() {
	for _, text := range []string{"4 1/4 in", "2⅝", "3,2 mm"} {
		l, err := geometry.ParseLength(text, geometry.Inches)
		fmt.Println(l, err)
	}
	_, err := geometry.ParseLength("4 1/4", geometry.NoUnit)
	fmt.Println(err)
	// Output:
	// 107.95 mm <nil>
	// 66.675 mm <nil>
	// 3.2 mm <nil>
	// "4 1/4" has no unit: is it 4 1/4 in (107.95 mm) or 4 1/4 mm?
}

// A leg of 48.804 mm is set off on a ruler with marks of 1/16 in, and on
// one with half millimetres.
func ExampleLength_OnRuler() {
	leg := 48_804 * geometry.Micrometre
	mark, off := leg.OnRuler(geometry.Inch / 16)
	fmt.Println(mark, "and", off)
	mark, off = leg.OnRuler(geometry.Millimetre / 2)
	fmt.Println(mark, "and", off)
	// Output:
	// 1 15/16 in and -0.4085 mm
	// 49 mm and -0.196 mm
}

// A cell of 30 x 40 mm is cut corner to corner; a strip of 4.8 mm falls out.
func ExampleOutline_Split() {
	const mm = geometry.Millimetre
	cell := geometry.RectFromSize(geometry.Point{}, geometry.Size{W: 30 * mm, H: 40 * mm}).Outline()
	diagonal := geometry.Line{A: geometry.Point{X: 0, Y: 40 * mm}, B: geometry.Point{X: 30 * mm, Y: 0}}

	left, right := cell.Split(diagonal, 4_800*geometry.Micrometre)
	for _, half := range append(left, right...) {
		fmt.Println(half.Bounds().Size(), half.Outer.Points())
	}
	// Output:
	// 27 x 36 mm [(0, 36) mm (0, 0) mm (27, 0) mm]
	// 27 x 36 mm [(30, 4) mm (30, 40) mm (3, 40) mm]
}
