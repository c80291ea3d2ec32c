package nesting

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

// Parts are joined as they are by looking at all of them each time.
func TestJoinConvexAgainstItsTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(4, 40).Draw(t, "corners")
		var points []geometry.Point
		for i := range n {
			r := float64(rapid.IntRange(10, 30).Draw(t, "radius"))
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			points = append(points, geometry.Point{X: geometry.Length(r * cos * 1e6), Y: geometry.Length(r * sin * 1e6)})
		}
		if rapid.Bool().Draw(t, "with a hole") {
			hole := geometry.OutlineFromPoints(geometry.Point{X: -5e6, Y: -5e6}, geometry.Point{X: 5e6, Y: -5e6}, geometry.Point{X: 3e6, Y: 6e6})
			points = slit(points, []geometry.Ring{hole.Outer.Reversed()})
		}
		triangles := clipEars(points)
		require.Equal(t, joinConvexTwin(slices.Clone(triangles)), joinConvex(slices.Clone(triangles)))
	})
}

// jointTwin says that two parts share a side, which starts at those corners.
type jointTwin struct {
	a, b         int
	sideA, sideB int
}

// joinConvexTwin is joinConvex that looks at all parts for each joint.
func joinConvexTwin(parts [][]geometry.Point) [][]geometry.Point {
	for {
		var best []geometry.Point
		var at jointTwin
		size := 0.0
		for _, j := range jointsTwin(parts) {
			whole := joinedTwin(parts, j)
			if s := ringArea(whole); s > size && isConvex(whole) {
				best, at, size = whole, j, s
			}
		}
		if best == nil {
			return parts
		}
		parts[at.a] = withoutStraightCorners(best)
		parts = slices.Delete(parts, at.b, at.b+1)
	}
}

// jointsTwin lists the sides that two parts share, in order.
func jointsTwin(parts [][]geometry.Point) []jointTwin {
	type side struct{ from, to geometry.Point }
	type place struct{ part, corner int }
	seen := map[side]place{}
	var out []jointTwin
	for i, part := range parts {
		for k, p := range part {
			q := around(part, k+1)
			if other, ok := seen[side{q, p}]; ok {
				out = append(out, jointTwin{other.part, i, other.corner, k})
			}
			seen[side{p, q}] = place{i, k}
		}
	}
	return out
}

func joinedTwin(parts [][]geometry.Point, j jointTwin) []geometry.Point {
	var out []geometry.Point
	for k := range parts[j.a] {
		out = append(out, around(parts[j.a], (j.sideA+1+k)%len(parts[j.a])))
	}
	for k := range len(parts[j.b]) - 2 {
		out = append(out, around(parts[j.b], (j.sideB+2+k)%len(parts[j.b])))
	}
	return out
}
