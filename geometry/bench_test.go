package geometry_test

import (
	"testing"

	"panelry/geometry"
)

// saw returns a strip with n teeth, 8 mm a tooth and 9 mm deep.
func saw(n int) geometry.Outline {
	points := places("0,40")
	for i := range n {
		x := geometry.Length(8*i) * mm
		points = append(points, geometry.Point{X: x}, geometry.Point{X: x + 4*mm, Y: 9 * mm})
	}
	end := geometry.Length(8*n) * mm
	return geometry.OutlineFromPoints(append(points, geometry.Point{X: end}, geometry.Point{X: end, Y: 40 * mm})...)
}

func BenchmarkSplit(b *testing.B) {
	line := lineThrough("0,4 20,5")
	for name, o := range map[string]geometry.Outline{
		"cell":          shape("0,0 50.8,0 50.8,66.675 0,66.675"),
		"saw of 100":    saw(100),
		"circle, 10 mm": disc(10 * mm),
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				o.Split(line, inch/8)
			}
		})
	}
}

func BenchmarkApart(b *testing.B) {
	washer := disc(20 * mm)
	washer.Holes = []geometry.Ring{disc(12 * mm).Outer.Reversed()}
	// The second saw's teeth stand in the first one's notches.
	fitting := saw(100).Turned(180).Moved(geometry.Vector{X: 804 * mm, Y: 5 * mm})
	for name, pair := range map[string][2]geometry.Outline{
		"halves of a cell": {shape("0,0 27,0 0,36"), shape("30,4 30,40 3,40")},
		"saws of 100":      {saw(100), fitting},
		"circles at 3-4-5": {disc(10 * mm), circle(place("15,20"), 10*mm)},
		"disc in a washer": {disc(10 * mm), washer},
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if !geometry.Apart(pair[0], pair[1], mm) {
					b.Fatal("too near")
				}
			}
		})
	}
}
