package raster

import (
	"bytes"
	"flag"
	"image/color"
	"image/png"
	"testing"

	"github.com/stretchr/testify/require"
)

var _ = flag.Bool("update", false, "rewrite golden files (there are none in this package)")

func pixel(t *testing.T, svg string, width, x, y int) color.NRGBA {
	t.Helper()
	data, err := PNG([]byte(`<svg width="10mm" height="10mm" viewBox="0 0 10 10">`+svg+`</svg>`), width)
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	require.Equal(t, width, img.Bounds().Dx())
	return color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)
}

// What SVG 2 says of fills, holes, strokes, dashes and opacity.
func TestPixels(t *testing.T) {
	red, white, black := color.NRGBA{255, 0, 0, 255}, color.NRGBA{255, 255, 255, 255}, color.NRGBA{0, 0, 0, 255}
	square := "M 2 2 L 8 2 L 8 8 L 2 8 Z"
	for _, c := range []struct {
		name, svg string
		x, y      int
		want      color.NRGBA
	}{
		{"inside", `<path d="` + square + `" fill="#ff0000"/>`, 50, 50, red},
		{"outside", `<path d="` + square + `" fill="#ff0000"/>`, 15, 50, white},
		{"first column", `<path d="` + square + `" fill="#ff0000"/>`, 20, 50, red},
		{"past the last", `<path d="` + square + `" fill="#ff0000"/>`, 80, 50, white},
		{"hole", `<path d="` + square + ` M 4 4 L 4 6 L 6 6 L 6 4 Z" fill="#ff0000"/>`, 50, 50, white},
		{"taken over", `<g fill="#ff0000"><path d="` + square + `"/></g>`, 50, 50, red},
		{"no fill", `<path d="` + square + `" fill="none" stroke="#000000"/>`, 50, 50, white},
		{"stroke", `<path d="` + square + `" fill="none" stroke="#000000" stroke-width="0.4"/>`, 20, 50, black},
		{"stroke's corner", `<path d="` + square + `" fill="none" stroke="#000000" stroke-width="1"/>`, 16, 16, black},
		{"dash", `<path d="M 0 5 L 10 5" fill="none" stroke="#000000" stroke-dasharray="2 1"/>`, 10, 50, black},
		{"gap of a dash", `<path d="M 0 5 L 10 5" fill="none" stroke="#000000" stroke-dasharray="2 1"/>`, 25, 50, white},
		{"half", `<path d="` + square + `" fill="#000000" fill-opacity="0.5"/>`, 50, 50, color.NRGBA{127, 127, 127, 255}},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, pixel(t, c.svg, 100, c.x, c.y)) })
	}
}

// A quarter turn of level stripes makes upright ones.
func TestPatternsTurn(t *testing.T) {
	design := func(turn string) string {
		return `<defs><pattern id="p" width="2" height="2" patternTransform="rotate(` + turn + `)">` +
			`<path d="M 0 0 L 2 0 L 2 2 L 0 2 Z" fill="#ffff00"/><path d="M 0 0 L 1 0 L 1 2 L 0 2 Z" fill="#0000ff"/></pattern></defs>` +
			`<path d="M 0 0 L 10 0 L 10 10 L 0 10 Z" fill="url(#p)"/>`
	}
	blue, yellow := color.NRGBA{0, 0, 255, 255}, color.NRGBA{255, 255, 0, 255}
	require.Equal(t, blue, pixel(t, design("0"), 100, 5, 15))
	require.Equal(t, yellow, pixel(t, design("0"), 100, 15, 5))
	require.Equal(t, blue, pixel(t, design("90"), 100, 15, 5))
	require.Equal(t, yellow, pixel(t, design("90"), 100, 5, 15))
}

func TestWhatIsNotOurs(t *testing.T) {
	for _, c := range []struct{ svg, want string }{
		{`<svg width="1mm" height="1mm"><circle/></svg>`, "a picture with <circle> cannot be drawn"},
		{`<svg width="1mm" height="1mm"><path d="M 0 0 A 1"/></svg>`, "in a path is not understood"},
		{`<svg width="1mm" height="1mm"><path d="M 0"/></svg>`, "in a path is not understood"},
		{`<svg width="1mm" height="1mm"><path d="M 0 0 L 1 1 Z" fill="red"/></svg>`, "is no colour"},
		{`<svg/>`, "has no size"}, {`<p/>`, "is no SVG"}, {`<svg`, "cannot be read"},
		{`<svg width="1mm" height="99mm"/>`, "are too many"},
	} {
		_, err := PNG([]byte(c.svg), 1000)
		require.ErrorContains(t, err, c.want)
	}
}

func FuzzPNG(f *testing.F) {
	f.Add(`<svg width="9mm" height="9mm"><path d="M 0 0 L 1 1 C 1 1 2 2 3 3 Z" fill="#123456" stroke="#000000" stroke-dasharray="1 2"/><text x="1" y="2">a</text></svg>`)
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) < 2000 {
			_, _ = PNG([]byte(text), 16) // must not panic
		}
	})
}
