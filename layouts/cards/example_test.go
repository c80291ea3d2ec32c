package cards_test

import (
	"fmt"

	"panelry/geometry"
	"panelry/layouts/cards"
)

func Example() {
	front, err := cards.ParseSize("US A2", geometry.Inches, cards.ForCard)
	if err != nil {
		fmt.Println(err)
		return
	}
	laid, err := cards.TopFold.Lay(front)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("base:", laid.Outline.Bounds().Size())
	fmt.Println("front from", laid.Front.Min, "to", laid.Front.Max)
	fold := laid.Folds[0]
	fmt.Println(fold.Kind, "fold through", fold.Line.Points())
	// Output:
	// base: 107.95 x 279.4 mm
	// front from (0, 139.7) mm to (107.95, 279.4) mm
	// mountain fold through [(0, 139.7) mm (107.95, 139.7) mm]
}

func ExampleParseSize() {
	for _, text := range []string{"iso a6", "4 1/4 x 5 1/2", "A6", "ISO C6"} {
		size, err := cards.ParseSize(text, geometry.Inches, cards.ForCard)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(size)
	}
	// Output:
	// 105 x 148 mm
	// 107.95 x 139.7 mm
	// A6 can be ISO A6 (105 x 148 mm) or US A6 (4 1/2 x 6 1/4 in): write which
	// ISO C6 is an envelope (114 x 162 mm), not a card; the card that goes in it is ISO A6 (105 x 148 mm)
}
