package svg

import (
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// rendered draws the sheet with rsvg-convert, a renderer that shares no code
// with ours, at 300 dots to the inch on nothing.
func rendered(t *testing.T, d Drawing) image.Image {
	t.Helper()
	tool, err := exec.LookPath("rsvg-convert")
	if err != nil && os.Getenv("PANELRY_REQUIRE_TOOLS") == "1" {
		require.NoError(t, err, "PANELRY_REQUIRE_TOOLS is 1")
	} else if err != nil {
		t.Skip("rsvg-convert is not installed, so nothing outside checks the true size; it comes with librsvg2-bin")
	}
	from := filepath.Join(t.TempDir(), "sheet.svg")
	to := from + ".png"
	require.NoError(t, os.WriteFile(from, []byte(mustEncode(t, d)), 0o600))
	out, err := exec.Command(tool, "--dpi-x", "300", "--dpi-y", "300", "-o", to, from).CombinedOutput()
	require.NoError(t, err, "%s", out)
	file, err := os.Open(to)
	require.NoError(t, err)
	defer file.Close()
	picture, err := png.Decode(file)
	require.NoError(t, err)
	return picture
}

// pixels returns a length as a number of pixels at 300 to the inch.
func pixels(l geometry.Length) float64 { return l.In(geometry.Inches) * 300 }

// inked returns the extent of what is drawn within the window: all pixels
// that are covered by half or more.
func inked(picture image.Image, window image.Rectangle) image.Rectangle {
	var box image.Rectangle
	window = window.Intersect(picture.Bounds())
	for y := window.Min.Y; y < window.Max.Y; y++ {
		for x := window.Min.X; x < window.Max.X; x++ {
			if _, _, _, alpha := picture.At(x, y).RGBA(); alpha >= 0x8000 {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return box
}

// petal has control points far outside its true extent: its right side
// swings out to x = 90 and no further. A cubic with the control values
// a, b, b, a turns at t = 1/2, at (a + 3b) / 4; 60 and 100 give 90.
func petal() geometry.Ring {
	return geometry.Ring{
		geometry.LineTo(at(60, 110)),
		geometry.CurveTo(at(100, 110), at(100, 80), at(60, 80)),
		geometry.LineTo(at(50, 80)),
		geometry.LineTo(at(50, 110)),
	}
}

func TestTrueSizeOutside(t *testing.T) {
	filled := ShapeFromOutline(geometry.Outline{Outer: ring("100,10 130,10 130,40")})
	filled.Fill = "#000000"
	cuts := []Shape{
		ShapeFromOutline(geometry.Outline{Outer: ring("10,10 60,10 60,40 10,40"), Holes: []geometry.Ring{ring("20,20 20,30 30,30")}}),
		ShapeFromOutline(geometry.RectFromSize(geometry.Point{X: 6_350_001, Y: 50_800_000},
			geometry.Size{W: 2 * geometry.Inch, H: geometry.Inch * 5 / 8}).Outline()),
		ShapeFromOutline(geometry.Outline{Outer: petal()}),
		filled,
	}
	// US Letter, so that inches and not only round millimetres are measured.
	d := Drawing{
		Size:   geometry.Size{W: 17 * geometry.Inch / 2, H: 11 * geometry.Inch},
		Layers: []Layer{{ID: Cut, Title: "Cut", Shapes: cuts}},
	}
	picture := rendered(t, d)
	require.Equal(t, image.Pt(2550, 3300), picture.Bounds().Size(), "8.5 x 11 in at 300 to the inch")
	for i, s := range cuts {
		stroke := pixels(mm / 10)
		if s.Fill != "" {
			stroke = 0
		}
		want := geometry.Outline{Outer: s.Rings[len(s.Rings)-1]}.Bounds()
		window := image.Rect(int(pixels(want.Min.X))-20, int(pixels(want.Min.Y))-20,
			int(pixels(want.Max.X))+20, int(pixels(want.Max.Y))+20)
		got := inked(picture, window)
		for _, side := range []struct {
			name  string
			meant float64
			found int
		}{
			{"left", pixels(want.Min.X) - stroke/2, got.Min.X},
			{"top", pixels(want.Min.Y) - stroke/2, got.Min.Y},
			{"right", pixels(want.Max.X) + stroke/2, got.Max.X},
			{"bottom", pixels(want.Max.Y) + stroke/2, got.Max.Y},
		} {
			require.LessOrEqual(t, math.Abs(side.meant-float64(side.found)), 1.0,
				"shape %d, %s side: meant at pixel %.2f, drawn at %d", i+1, side.name, side.meant, side.found)
		}
	}
}

func TestHolesStayOpenOutside(t *testing.T) {
	s := ShapeFromOutline(geometry.Outline{Outer: ring("10,10 60,10 60,40 10,40"), Holes: []geometry.Ring{ring("20,20 20,30 30,30 30,20")}})
	s.Fill = "#CC79A7"
	picture := rendered(t, Drawing{Size: size(70, 50), Layers: []Layer{{ID: Print, Title: "Print", Shapes: []Shape{s}}}})
	alpha := func(p geometry.Point) uint32 {
		_, _, _, a := picture.At(int(pixels(p.X)), int(pixels(p.Y))).RGBA()
		return a
	}
	require.EqualValues(t, 0xffff, alpha(at(15, 15)), "the paper is filled")
	require.Zero(t, alpha(at(25, 25)), "the window is not")
	require.Zero(t, alpha(at(5, 5)), "the waste is not")
}
