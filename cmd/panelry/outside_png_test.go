package main

// PNG pictures against librsvg, and against kit.json.

import (
	"encoding/json"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func pngOf(t *testing.T, file string) image.Image {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	return img
}

// librsvg draws the same SVG: few pixels differ by more than edges' smoothing.
func TestPNGIsLikeLibrsvg(t *testing.T) {
	rsvg := outsideTool(t, "rsvg-convert", anyProgram, "rsvg-convert")
	t.Chdir(t.TempDir())
	for name, args := range map[string][]string{
		"card": {}, "batch": {"--batch"}, "blocks": {"--blocks"}, "dark": {"--ground", "dark"},
	} {
		t.Run(name, func(t *testing.T) {
			runOK(t, "", append([]string{"picture", "-o", name + ".svg"}, args...)...)
			runOK(t, "", append([]string{"picture", "-o", name + ".png", "--width", "800"}, args...)...)
			require.NoError(t, exec.Command(rsvg, "-w", "800", name+".svg", "-o", name+"-rsvg.png").Run())
			ours, theirs := pngOf(t, name+".png"), pngOf(t, name+"-rsvg.png")
			require.InDelta(t, theirs.Bounds().Dy(), ours.Bounds().Dy(), 1)
			off, all := 0, 0
			for y := range min(ours.Bounds().Dy(), theirs.Bounds().Dy()) {
				for x := range 800 {
					r, g, b, _ := ours.At(x, y).RGBA()
					r2, g2, b2, _ := theirs.At(x, y).RGBA()
					all++
					if math.Abs(float64(r)-float64(r2))+math.Abs(float64(g)-float64(g2))+math.Abs(float64(b)-float64(b2)) > 0x6000 {
						off++
					}
				}
			}
			require.Less(t, float64(off)/float64(all), 0.02, "%d of %d pixels", off, all)
		})
	}
}

// Panels stand in the PNG where kit.json says, within one pixel: each side's
// change of colour is looked for along a row.
func TestPNGPanelsAreInPlace(t *testing.T) {
	t.Chdir(t.TempDir())
	design := strings.ReplaceAll(outsideDesigns["halves with pairs"], `name = "base"`, `name = "base"`+"\n"+`colour = "#ffffff"`)
	runOK(t, design, "picture", "-", "-o", "card.png", "--width", "1600")
	var kit struct {
		Card struct {
			Size [2]float64 `json:"size_mm"`
		}
		Panels []struct {
			Outline struct {
				Rings [][][2]float64 `json:"rings_mm"`
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(runOK(t, design, "show", "-", "--json")), &kit))
	img := pngOf(t, "card.png")
	scale := 1600 / (kit.Card.Size[0] + 16)
	for _, p := range kit.Panels {
		ring := p.Outline.Rings[0]
		x, y := 0.0, 0.0
		for _, c := range ring {
			x, y = x+c[0]/float64(len(ring)), y+c[1]/float64(len(ring))
		}
		for _, side := range crossings(ring, y) {
			inside := img.At(int((8+side+math.Copysign(2/scale, x-side))*scale), int((8+y)*scale))
			outside := img.At(int((8+side-math.Copysign(2/scale, x-side))*scale), int((8+y)*scale))
			require.NotEqual(t, inside, outside, "a side at %.2f mm", side)
		}
	}
}

// Where panels touch, no base colour shows, in our PNG and in librsvg's: the
// base is black, the papers are white.
func TestNoBaseColourShowsWithoutAGap(t *testing.T) {
	t.Chdir(t.TempDir())
	design := strings.NewReplacer(`name = "base"`, `name = "base"`+"\n"+`colour = "#000000"`, `name = "first"`, `name = "first"`+"\n"+`colour = "#ffffff"`).Replace(outsideDesigns["shared edges"])
	runOK(t, design, "picture", "-", "-o", "card.svg")
	runOK(t, design, "picture", "-", "-o", "card.png", "--width", "777")
	files := []string{"card.png"}
	if rsvg, err := exec.LookPath("rsvg-convert"); err == nil {
		require.NoError(t, exec.Command(rsvg, "-w", "777", "card.svg", "-o", "rsvg.png").Run())
		files = append(files, "rsvg.png")
	}
	scale := 777 / (127.0 + 16)
	low, high := int((8+3.175+0.5)*scale)+1, int((8+127-3.175-0.5)*scale)-1
	for _, file := range files {
		img := pngOf(t, filepath.Join(".", file))
		for y := low; y < high; y++ {
			for x := low; x < high; x++ {
				grey, _, _, _ := img.At(x, y).RGBA()
				require.Greater(t, grey, uint32(0xf000), "%s at %d, %d", file, x, y)
			}
		}
	}
}
