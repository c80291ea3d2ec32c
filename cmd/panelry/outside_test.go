package main

// Checks of written kits against what is not Panelry: GEOS for geometry, and
// librsvg's rsvg-convert for what a renderer makes of the sheets.

import (
	"encoding/json"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/checker"
)

// outsideTool returns the first of the programs for which works is true. A
// missing one skips the test with a word, or fails it where
// PANELRY_REQUIRE_TOOLS is 1.
func outsideTool(t *testing.T, what string, works func(string) bool, programs ...string) string {
	t.Helper()
	for _, p := range programs {
		if path, err := exec.LookPath(p); err == nil && works(path) {
			return path
		}
	}
	if os.Getenv("PANELRY_REQUIRE_TOOLS") == "1" {
		t.Fatalf("%s is missing, and PANELRY_REQUIRE_TOOLS is 1", what)
	}
	t.Skipf("%s is missing, so this check against it is skipped", what)
	return ""
}

// outsideDesigns are kits worth checking: each makes sheets of another sort.
var outsideDesigns = map[string]string{
	"halves with pairs": `
title = "Halves"
units = "in"
[card]
size = "US A2"
base = "top fold"
paper = "base"
[front]
layout = "diagonal halves"
margin = "1/16"
gap = "1/8"
papers = ["first", "second"]
[batch]
cards = 5
spares = 1
[[papers]]
name = "base"
sheet = "12 x 12"
[[papers]]
name = "first"
sheet = "8 x 8"
pattern = "two-way"
[[papers]]
name = "second"
sheet = "Letter"
pattern = "one-way"
`,
	"turned patterns in millimetres": `
units = "mm"
[card]
size = "ISO A6"
orientation = "landscape"
base = "side fold"
paper = "base"
[front]
layout = "grid"
columns = 5
rows = 3
margin = 4.25
gap = 1.3
direction = "radiating"
papers = ["first"]
[batch]
cards = 3
[[papers]]
name = "base"
sheet = "ISO A3"
[[papers]]
name = "first"
sheet = "ISO A4"
pattern = "one-way"
`,
	"shared edges": `
units = "in"
tool = "knife"
[card]
size = "5 x 5 in"
paper = "base"
[front]
layout = "diagonal halves"
margin = "1/8"
gap = 0
columns = 3
rows = 3
papers = ["first"]
[batch]
cards = 2
[[papers]]
name = "base"
sheet = "12 x 12"
[[papers]]
name = "first"
sheet = "12 x 12"
`,
	"bleed": `
units = "mm"
[card]
size = "ISO A6"
paper = "base"
[front]
layout = "strips"
count = 7
margin = 3
gap = 1.5
direction = "30 deg"
papers = ["first"]
[batch]
cards = 2
[sheets]
bleed = 2
[[papers]]
name = "base"
sheet = "ISO A4"
[[papers]]
name = "first"
sheet = "ISO A4"
pattern = "one-way"
colour = "#3d6f8f"
`,
}

// writtenKits makes all designs, and the demo, and returns their folders.
func writtenKits(t *testing.T) map[string]string {
	t.Helper()
	kits := map[string]string{"demo": filepath.Join(t.TempDir(), "kit")}
	runOK(t, "", "make", "-o", kits["demo"])
	for name, design := range outsideDesigns {
		kits[name] = filepath.Join(t.TempDir(), "kit")
		runOK(t, design, "make", "-", "-o", kits[name])
	}
	return kits
}

// GEOS, through python3-shapely: areas, containment and pairwise distance.
func TestKitsAgainstGEOS(t *testing.T) {
	t.Parallel()
	python := geos(t)
	for name, kit := range writtenKits(t) {
		t.Run(name, func(t *testing.T) {
			out, err := exec.Command(python, "testdata/geos_check.py", filepath.Join(kit, "kit.json")).CombinedOutput()
			require.NoError(t, err, string(out))
			require.Contains(t, string(out), "held ")
			t.Log(strings.TrimSpace(string(out)))
		})
	}
}

// Every front there is, with its defaults, on three shapes of card and with
// three gaps: panels inside the frame, apart by the gap, areas as stated; and,
// for fronts without slivers or discs, panels that leave nothing of the frame
// but gaps (their union, grown by half a gap, covers it).
func TestFrontsAgainstGEOS(t *testing.T) {
	t.Parallel()
	python := geos(t)
	for _, layout := range layoutNames() {
		if layout == "own shapes" {
			continue // has no defaults
		}
		t.Run(layout, func(t *testing.T) {
			var kits []string
			for _, c := range [][2]string{{"4 1/4 x 5 1/2", "1/8"}, {"4 1/4 x 5 1/2", "0"}, {"5 x 5", "1/16"}, {"8 1/2 x 3 1/2", "0"}, {"8 1/2 x 3 1/2", "1/8"}} {
				size, gap := c[0], c[1]
				design, err := startingDesign(layout, "in")
				require.NoError(t, err)
				text := strings.NewReplacer(`"US A2"`, `"`+size+` in"`, `orientation = "upright"`, ``, `gap = "1/8"`, `gap = "`+gap+`"`).Replace(string(design))
				file := filepath.Join(t.TempDir(), "kit.json")
				require.NoError(t, os.WriteFile(file, []byte(runOK(t, text, "show", "-", "--json")), 0o600))
				kits = append(kits, file)
			}
			out, err := exec.Command(python, append([]string{"testdata/geos_check.py"}, kits...)...).CombinedOutput()
			require.NoError(t, err, string(out))
			require.Equal(t, len(kits), strings.Count(string(out), "held "))
		})
	}
}

// geos returns a python that has GEOS.
func geos(t *testing.T) string {
	t.Helper()
	return outsideTool(t, "python3 with shapely (GEOS)", func(p string) bool {
		return exec.Command(p, "-c", "import shapely.geometry").Run() == nil
	}, "python3", "/usr/bin/python3")
}

// The same check finds a planted fault: a test of the test.
func TestGEOSCheckCanFail(t *testing.T) {
	t.Parallel()
	python := geos(t)
	dir := filepath.Join(t.TempDir(), "kit")
	runOK(t, outsideDesigns["bleed"], "make", "-", "-o", dir)
	path := filepath.Join(dir, "kit.json")
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	wider := strings.Replace(string(data), `"spacing_mm": 4,`, `"spacing_mm": 5,`, 1)
	require.NotEqual(t, string(data), wider)
	require.NoError(t, os.WriteFile(path, []byte(wider), 0o644))
	out, err := exec.Command(python, "testdata/geos_check.py", path).CombinedOutput()
	require.Error(t, err)
	require.Contains(t, string(out), "mm apart, not 5")
}

// kitSheet is as much of kit.json as the checks read.
type kitSheet struct {
	File   string     `json:"file"`
	Size   [2]float64 `json:"size_mm"`
	Pieces []struct {
		ID      string `json:"id"`
		Outline struct {
			Rings [][][2]float64 `json:"rings_mm"`
		} `json:"outline"`
		Folds []struct {
			From [2]float64 `json:"from_mm"`
			To   [2]float64 `json:"to_mm"`
		} `json:"folds"`
	} `json:"pieces"`
}

func kitSheets(t *testing.T, dir string) []kitSheet {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, "kit.json"))
	require.NoError(t, err)
	var kit struct {
		Sheets []kitSheet `json:"sheets"`
	}
	require.NoError(t, json.Unmarshal(data, &kit))
	require.NotEmpty(t, kit.Sheets)
	return kit.Sheets
}

// edges returns all lines of a sheet in mm.
func (s kitSheet) edges() [][2][2]float64 {
	var out [][2][2]float64
	for _, p := range s.Pieces {
		for _, ring := range p.Outline.Rings {
			for i, a := range ring {
				out = append(out, [2][2]float64{a, ring[(i+1)%len(ring)]})
			}
		}
		for _, f := range p.Folds {
			out = append(out, [2][2]float64{f.From, f.To})
		}
	}
	return out
}

// W3C SVG 2 §8.2, §8.6 and §8.9, CSS Values 4 §6.2: a root whose width and
// height are in mm, with a viewBox of the same numbers, has user units of
// one millimetre. Read here with a pattern, not with Panelry's reader.
func TestSheetsStateTheirTrueSize(t *testing.T) {
	t.Parallel()
	root := regexp.MustCompile(`(?s)<svg\s+width="([0-9.]+)mm"\s+height="([0-9.]+)mm"\s+viewBox="0 0 ([0-9.]+) ([0-9.]+)"`)
	banned := regexp.MustCompile(`transform=|style=|class=|<use|<text|clip|<style|px"|%"`)
	for name, kit := range writtenKits(t) {
		for _, s := range kitSheets(t, kit) {
			data, err := os.ReadFile(filepath.Join(kit, s.File))
			require.NoError(t, err)
			found := root.FindStringSubmatch(string(data))
			require.NotNil(t, found, "%s %s", name, s.File)
			require.Equal(t, found[1:3], found[3:5])
			var w, h float64
			require.NoError(t, json.Unmarshal([]byte("["+found[1]+","+found[2]+"]"), &[]*float64{&w, &h}))
			require.Equal(t, s.Size, [2]float64{w, h})
			require.Empty(t, banned.FindString(string(data)), "%s %s", name, s.File)
		}
	}
}

const (
	dpi = 300.0
	// A stroke of 0.1 mm is 1.2 pixels wide at 300 dpi, so ink reaches 0.6
	// pixels from its middle, and one pixel more where it only grazes one; the
	// rest is the pixel that a place may be off by.
	inkReach = 0.6 + 0.71
)

// rsvg-convert at 300 dpi: every line of kit.json is inked, within one
// pixel, and nothing else is.
func TestSheetsAgainstRenderer(t *testing.T) {
	rsvg := outsideTool(t, "rsvg-convert (librsvg2-bin)", func(string) bool { return true }, "rsvg-convert")
	for name, kit := range writtenKits(t) {
		t.Run(name, func(t *testing.T) {
			sheets := kitSheets(t, kit)
			for _, s := range []kitSheet{sheets[0], sheets[len(sheets)-1]} {
				path := withoutPrint(t, filepath.Join(kit, s.File))
				picture := render(t, rsvg, path)
				compareInk(t, s, picture)
				compareReader(t, path, picture)
			}
		})
	}
}

// compareReader holds the box around all that the reader finds on a sheet
// against the box around the ink, within one pixel and the stroke.
func compareReader(t *testing.T, path string, picture image.Image) {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	r := checker.Check(data, checker.Demands{})
	require.NotEmpty(t, r.Elements)
	left, top, right, bottom := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, e := range r.Elements {
		b := e.Bounds
		left, top, right, bottom = min(left, b.Min.X), min(top, b.Min.Y), max(right, b.Max.X), max(bottom, b.Max.Y)
	}
	ink := image.Rectangle{}
	size := picture.Bounds()
	for y := size.Min.Y; y < size.Max.Y; y++ {
		for x := size.Min.X; x < size.Max.X; x++ {
			if red, _, _, _ := picture.At(x, y).RGBA(); red < 0xc000 {
				ink = ink.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	const pixel = 25.4 / dpi
	for _, pair := range [4][2]float64{{left, float64(ink.Min.X) * pixel}, {top, float64(ink.Min.Y) * pixel}, {right, float64(ink.Max.X) * pixel}, {bottom, float64(ink.Max.Y) * pixel}} {
		require.InDelta(t, pair[0], pair[1], 1.7*pixel)
	}
}

// withoutPrint writes a copy of a sheet without its print layer, whose
// fills would hide where the cuts are.
func withoutPrint(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	data = regexp.MustCompile(`(?s)<g id="print".*?</g>\n`).ReplaceAll(data, nil)
	out := filepath.Join(t.TempDir(), "sheet.svg")
	require.NoError(t, os.WriteFile(out, data, 0o644))
	return out
}

func render(t *testing.T, rsvg, path string) image.Image {
	t.Helper()
	out := filepath.Join(t.TempDir(), "sheet.png")
	message, err := exec.Command(rsvg, "--dpi-x", "300", "--dpi-y", "300", "--background-color", "white", "-o", out, path).CombinedOutput()
	require.NoError(t, err, string(message))
	f, err := os.Open(out)
	require.NoError(t, err)
	defer f.Close()
	picture, err := png.Decode(f)
	require.NoError(t, err)
	return picture
}

func compareInk(t *testing.T, s kitSheet, picture image.Image) {
	t.Helper()
	const scale = dpi / 25.4
	size := picture.Bounds().Size()
	require.InDelta(t, s.Size[0]*scale, size.X, 1, "%s: width in pixels", s.File)
	require.InDelta(t, s.Size[1]*scale, size.Y, 1, "%s: height in pixels", s.File)
	expected := make([]bool, size.X*size.Y)
	for _, e := range s.edges() {
		a, b := [2]float64{e[0][0] * scale, e[0][1] * scale}, [2]float64{e[1][0] * scale, e[1][1] * scale}
		followLine(a, b, func(x, y float64) {
			require.True(t, inkWithin(picture, x, y, 1), "%s: no ink within a pixel of (%.3f, %.3f) mm", s.File, x/scale, y/scale)
			markWithin(expected, size, x, y, inkReach+1)
		})
	}
	for y := range size.Y {
		for x := range size.X {
			if inked(picture, x, y) && !expected[y*size.X+x] {
				t.Fatalf("%s: ink at (%.3f, %.3f) mm, where kit.json has no line", s.File, float64(x)/scale, float64(y)/scale)
			}
		}
	}
}

// followLine calls f every half pixel from a to b.
func followLine(a, b [2]float64, f func(x, y float64)) {
	length := math.Hypot(b[0]-a[0], b[1]-a[1])
	n := int(length*2) + 1
	for i := range n + 1 {
		t := float64(i) / float64(n)
		f(a[0]+(b[0]-a[0])*t, a[1]+(b[1]-a[1])*t)
	}
}

func inked(picture image.Image, x, y int) bool {
	r, g, b, _ := picture.At(x, y).RGBA()
	return min(r, g, b) < 0xd000
}

// inkWithin reports whether a pixel whose middle is within reach of a place
// is inked. Pixel (x, y) has its middle at (x+1/2, y+1/2).
func inkWithin(picture image.Image, x, y, reach float64) bool {
	found := false
	pixelsWithin(picture.Bounds().Size(), x, y, reach, func(px, py int) { found = found || inked(picture, px, py) })
	return found
}

func markWithin(marks []bool, size image.Point, x, y, reach float64) {
	pixelsWithin(size, x, y, reach, func(px, py int) { marks[py*size.X+px] = true })
}

func pixelsWithin(size image.Point, x, y, reach float64, f func(px, py int)) {
	for py := max(0, int(y-reach)-1); py <= min(size.Y-1, int(y+reach)+1); py++ {
		for px := max(0, int(x-reach)-1); px <= min(size.X-1, int(x+reach)+1); px++ {
			if math.Hypot(float64(px)+0.5-x, float64(py)+0.5-y) <= reach {
				f(px, py)
			}
		}
	}
}

// rsvg-convert at 300 dpi: in the middle of each panel of a plain paper the
// picture has the paper's colour, and in the margin and the middle gap the
// base's.
func TestPictureAgainstRenderer(t *testing.T) {
	rsvg := outsideTool(t, "rsvg-convert (librsvg2-bin)", func(string) bool { return true }, "rsvg-convert")
	design := strings.NewReplacer(
		"name = \"base\"\n", "name = \"base\"\ncolour = \"#f0e0d0\"\n",
		"name = \"first\"\n", "name = \"first\"\ncolour = \"#102030\"\n",
		"name = \"second\"\n", "name = \"second\"\ncolour = \"#a04020\"\n").Replace(outsideDesigns["halves with pairs"])
	path := filepath.Join(t.TempDir(), "card.svg")
	runOK(t, design, "picture", "-", "-o", path)
	picture := render(t, rsvg, path)
	colourAt := func(xMM, yMM float64) [3]uint32 {
		const around = 8 // mm of ground around the card, as package picture has it
		r, g, b, _ := picture.At(int((xMM+around)*dpi/25.4), int((yMM+around)*dpi/25.4)).RGBA()
		return [3]uint32{r >> 8, g >> 8, b >> 8}
	}
	var kit struct {
		Panels []struct {
			Paper   string
			Outline struct {
				Rings [][][2]float64 `json:"rings_mm"`
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(runOK(t, design, "show", "-", "--json")), &kit))
	require.Len(t, kit.Panels, 8)
	colours := map[string][3]uint32{"first": {0x10, 0x20, 0x30}, "second": {0xa0, 0x40, 0x20}}
	for _, p := range kit.Panels {
		var x, y float64
		for _, corner := range p.Outline.Rings[0] {
			x, y = x+corner[0]/3, y+corner[1]/3
		}
		require.Equal(t, colours[p.Paper], colourAt(x, y))
	}
	base := [3]uint32{0xf0, 0xe0, 0xd0}
	require.Equal(t, base, colourAt(0.8, 70))           // margin, 1/16 in = 1.5875 mm wide
	require.Equal(t, base, colourAt(107.95/2, 30))      // gap between the columns
	require.Equal(t, base, colourAt(107.95/2, 139.7/2)) // where all gaps meet
}
