package nesting

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

// freeCornerTwin tries every oblong from a corner to where something begins.
func freeCornerTwin(taken []geometry.Rect, size geometry.Size, spacing geometry.Length) float64 {
	xs, ys := []geometry.Length{0, size.W}, []geometry.Length{0, size.H}
	for _, r := range taken {
		xs = append(xs, r.Min.X-spacing, r.Max.X+spacing)
		ys = append(ys, r.Min.Y-spacing, r.Max.Y+spacing)
	}
	best := 0.0
	for _, x := range xs {
		for _, y := range ys {
			for _, r := range []geometry.Rect{
				{Max: geometry.Point{X: x, Y: y}},
				{Min: geometry.Point{X: x}, Max: geometry.Point{X: size.W, Y: y}},
				{Min: geometry.Point{Y: y}, Max: geometry.Point{X: x, Y: size.H}},
				{Min: geometry.Point{X: x, Y: y}, Max: geometry.Point{X: size.W, Y: size.H}},
			} {
				if r.W() <= 0 || r.H() <= 0 || r.Min.X < 0 || r.Min.Y < 0 || r.Max.X > size.W || r.Max.Y > size.H {
					continue
				}
				if !slices.ContainsFunc(taken, func(t geometry.Rect) bool { return tooClose(r, t, spacing) }) {
					best = max(best, area(r))
				}
			}
		}
	}
	return best
}

func tooClose(a, b geometry.Rect, spacing geometry.Length) bool {
	return a.Min.X-spacing < b.Max.X && b.Min.X-spacing < a.Max.X && a.Min.Y-spacing < b.Max.Y && b.Min.Y-spacing < a.Max.Y
}

func TestFreeCornerAgainstItsTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := geometry.Size{W: 40, H: 30}
		spacing := geometry.Length(rapid.IntRange(0, 3).Draw(t, "spacing"))
		var taken []geometry.Rect
		for range rapid.IntRange(1, 6).Draw(t, "pieces") {
			x, y := rapid.IntRange(0, 36).Draw(t, "x"), rapid.IntRange(0, 26).Draw(t, "y")
			w, h := rapid.IntRange(1, 40-x).Draw(t, "w"), rapid.IntRange(1, 30-y).Draw(t, "h")
			at := geometry.Point{X: geometry.Length(x), Y: geometry.Length(y)}
			taken = append(taken, geometry.RectFromSize(at, geometry.Size{W: geometry.Length(w), H: geometry.Length(h)}))
		}
		free := freeCorner(taken, size, spacing)
		require.Equal(t, freeCornerTwin(taken, size, spacing), area(free))
		if area(free) > 0 {
			require.False(t, slices.ContainsFunc(taken, func(r geometry.Rect) bool { return tooClose(free, r, spacing) }))
		}
	})
}
