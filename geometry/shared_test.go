package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// strokeTexts writes strokes as "x,y x,y" in millimetres.
func strokeTexts(paths []geometry.Path) []string {
	var out []string
	for _, p := range paths {
		text := ""
		for _, q := range p.Points() {
			text += q.X.MM() + "," + q.Y.MM() + " "
		}
		out = append(out, text[:len(text)-1])
	}
	return out
}

// Two bases side by side, by hand:
//
//	+--+--+
//	|  |  |
//	+--+--+
func TestSharedEdges(t *testing.T) {
	two := []geometry.Outline{shape("0,0 10,0 10,20 0,20"), shape("10,0 20,0 20,20 10,20")}
	require.Equal(t, []string{"0,0 20,0", "10,0 10,20", "0,20 20,20", "0,0 0,20", "20,0 20,20"},
		strokeTexts(geometry.SharedEdges(two)))

	t.Run("apart on one line", func(t *testing.T) {
		apart := []geometry.Outline{shape("0,0 10,0 10,20 0,20"), shape("11,0 21,0 21,20 11,20")}
		require.Len(t, geometry.SharedEdges(apart), 8)
	})
	t.Run("half an edge shared", func(t *testing.T) {
		// The upright line x = 10 is drawn once, from 0 to 30.
		stepped := []geometry.Outline{shape("0,0 10,0 10,20 0,20"), shape("10,10 20,10 20,30 10,30")}
		require.Contains(t, strokeTexts(geometry.SharedEdges(stepped)), "10,0 10,30")
	})
	t.Run("a slanted edge shared", func(t *testing.T) {
		upper, lower := shape("0,0 30,0 30,40 0,40").Split(geometry.Line{
			A: geometry.Point{Y: 40 * geometry.Millimetre}, B: geometry.Point{X: 30 * geometry.Millimetre}}, 0)
		strokes := strokeTexts(geometry.SharedEdges(append(upper, lower...)))
		require.Len(t, strokes, 5)
		require.Contains(t, strokes, "0,40 30,0")
	})
	t.Run("a curve shared", func(t *testing.T) {
		const mm = geometry.Millimetre
		a, b := geometry.Point{X: 10 * mm}, geometry.Point{X: 10 * mm, Y: 20 * mm}
		bow := geometry.CurveTo(geometry.Point{X: 15 * mm, Y: 5 * mm}, geometry.Point{X: 15 * mm, Y: 15 * mm}, b)
		left := geometry.Outline{Outer: geometry.Ring{geometry.LineTo(geometry.Point{}), geometry.LineTo(a), bow, geometry.LineTo(geometry.Point{Y: 20 * mm})}}
		back := geometry.CurveTo(bow.C2, bow.C1, a)
		right := geometry.Outline{Outer: geometry.Ring{back, geometry.LineTo(geometry.Point{X: 20 * mm}), geometry.LineTo(geometry.Point{X: 20 * mm, Y: 20 * mm}), geometry.LineTo(b)}}
		curved := 0
		for _, p := range geometry.SharedEdges([]geometry.Outline{left, right}) {
			if p.Then[0].Curved {
				curved++
			}
		}
		require.Equal(t, 1, curved)
	})
}

// Turned neighbours whose corners were rounded: three strips side by side at
// an odd angle, moved by the strip's breadth rounded to the nanometre, share
// two of their long sides, so that of twelve sides four long and two joined
// short ones are left.
func TestSharedEdgesOfRoundedNeighbours(t *testing.T) {
	for _, degrees := range []float64{10, 33.3, 45, 87.65, 120.001, 263} {
		strip := shape("0,0 7,0 7,90 0,90").Turned(degrees)
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		var row []geometry.Outline
		for k := range 3 {
			by := 7e6 * float64(k)
			row = append(row, strip.Moved(geometry.Vector{X: geometry.Length(math.Round(by * cos)), Y: geometry.Length(math.Round(by * sin))}))
		}
		require.Len(t, geometry.SharedEdges(row), 6, "%v degrees", degrees)
	}
}
