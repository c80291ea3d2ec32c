package geometry_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

// upright reads top left and bottom right: "0,0 10,20".
func upright(text string) geometry.Rect {
	p := places(text)
	return geometry.Rect{Min: p[0], Max: p[1]}
}

func TestRectFromSize(t *testing.T) {
	size := geometry.Size{W: 30 * mm, H: 10 * mm}
	r := geometry.RectFromSize(place("-5,2"), size)
	require.Equal(t, upright("-5,2 25,12"), r)
	require.Equal(t, 30*mm, r.W())
	require.Equal(t, 10*mm, r.H())
	require.Equal(t, size, r.Size())
	require.Equal(t, upright("-4,0 26,10"), r.Moved(geometry.Vector{X: mm, Y: -2 * mm}))
}

func TestRectCentre(t *testing.T) {
	require.Equal(t, place("10,7"), upright("-5,2 25,12").Centre())
	odd := geometry.Rect{Min: geometry.Point{X: -3, Y: 2}, Max: geometry.Point{X: 0, Y: 7}}
	require.Equal(t, geometry.Point{X: -2, Y: 4}, odd.Centre(), "-1.5 and 4.5 round down")
}

func TestRectInset(t *testing.T) {
	r := upright("0,0 30,10")
	for _, c := range []struct {
		name string
		by   geometry.Length
		want string
	}{
		{"taken off", 2 * mm, "2,2 28,8"},
		{"added", -mm, "-1,-1 31,11"},
		{"nothing", 0, "0,0 30,10"},
		{"all but 2 nm", 5*mm - 1, "4.999999,4.999999 25.000001,5.000001"},
	} {
		t.Run(c.name, func(t *testing.T) {
			in, err := r.Inset(c.by)
			require.NoError(t, err)
			require.Equal(t, upright(c.want), in)
		})
	}
	for _, by := range []geometry.Length{5 * mm, 6 * mm, 20 * mm} {
		in, err := r.Inset(by)
		require.ErrorContains(t, err, "on each side leaves nothing of 30 x 10 mm")
		require.Zero(t, in)
	}
}

func TestRectOutline(t *testing.T) {
	o := upright("1,2 4,8").Outline()
	require.NoError(t, o.Validate())
	require.Equal(t, "1,2 4,2 4,8 1,8", shapeText(o))
	require.Equal(t, upright("1,2 4,8"), o.Bounds())
	require.Equal(t, 18.0, o.Area().SquareMM()) // 3 x 6
}

func TestContainsRect(t *testing.T) {
	r := upright("0,0 10,10")
	for text, want := range map[string]bool{
		"2,2 8,8":         true,
		"0,0 10,10":       true, // borders may touch
		"0,5 5,10":        true,
		"-0.000001,2 8,8": false,
		"2,-0.000001 8,8": false,
		"2,2 10.000001,8": false,
		"2,2 8,10.000001": false,
		"20,20 30,30":     false,
	} {
		require.Equal(t, want, r.ContainsRect(upright(text)), text)
	}
}

func TestInsetLiesInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := geometry.Size{W: anyLength().Draw(t, "w").Abs() + 1, H: anyLength().Draw(t, "h").Abs() + 1}
		r := geometry.RectFromSize(anyPoint().Draw(t, "p"), size)
		by := geometry.Length(rapid.Int64Range(0, 1e9).Draw(t, "by"))
		in, err := r.Inset(by)
		if 2*by >= min(size.W, size.H) {
			require.Error(t, err)
			return
		}
		require.NoError(t, err)
		require.True(t, r.ContainsRect(in))
		require.Equal(t, size.W-2*by, in.W())
		back, err := in.Inset(-by)
		require.NoError(t, err)
		require.Equal(t, r, back)
	})
}
