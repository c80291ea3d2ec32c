package nesting_test

import (
	"context"
	"fmt"

	"panelry/geometry"
	"panelry/geometry/nesting"
)

// Six halves of a 30 x 20 mm cell on two-way paper: pairs make oblongs.
func Example() {
	half := geometry.OutlineFromPoints(
		geometry.Point{},
		geometry.Point{X: 30 * geometry.Millimetre},
		geometry.Point{Y: 20 * geometry.Millimetre},
	)
	job := nesting.Job{
		Shapes: []nesting.Shape{{Name: "half", Outline: half, Count: 6, Turns: nesting.HalfTurns}},
		Stock:  []nesting.Sheet{{Size: geometry.Size{W: 80 * geometry.Millimetre, H: 60 * geometry.Millimetre}}},
		Edge:   5 * geometry.Millimetre, Spacing: 2 * geometry.Millimetre,
	}
	layout, err := nesting.Rows{}.Pack(context.Background(), job)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range layout.Placements {
		fmt.Printf("copy %d on sheet %d, turned by %v degrees\n", p.Copy+1, p.Sheet+1, p.Turn)
	}
	fmt.Println("faults:", nesting.Verify(job, layout))
	// Output:
	// copy 1 on sheet 1, turned by 0 degrees
	// copy 2 on sheet 1, turned by 180 degrees
	// copy 3 on sheet 1, turned by 0 degrees
	// copy 4 on sheet 1, turned by 180 degrees
	// copy 5 on sheet 1, turned by 0 degrees
	// copy 6 on sheet 1, turned by 180 degrees
	// faults: <nil>
}
