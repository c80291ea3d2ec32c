package fronts_test

import (
	"fmt"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

func Example() {
	layout, ok := fronts.Find("diagonal halves")
	if !ok {
		return
	}
	card := geometry.RectFromSize(geometry.Point{}, geometry.Size{W: 17 * geometry.Inch / 4, H: 11 * geometry.Inch / 2})
	frame, err := card.Inset(geometry.Inch / 16)
	if err != nil {
		fmt.Println(err)
		return
	}
	front, err := layout.Divide(fronts.Brief{
		Frame: frame, Gap: geometry.Inch / 8, Options: layout.Defaults(), Unit: geometry.Inches,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range front.Panels[:2] {
		fmt.Println(p.Name, p.Hand, p.Outline.Bounds().Size().Format(geometry.Inches))
	}
	for _, term := range front.Across {
		fmt.Println(term.What, term.Length.Format(geometry.Inches))
	}
	// Output:
	// A1a \ 1.9214 x 2.5219 in
	// A1b \ 1.9214 x 2.5219 in
	// panel 2 in
	// gap 1/8 in
	// panel 2 in
}
