package main

// The template against poppler and qpdf: what a renderer draws is measured.

import (
	"encoding/json"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func anyProgram(string) bool { return true }

// rendered is a page of a PDF as poppler draws it at 300 dpi.
func rendered(t *testing.T, pdftoppm, file string, page int) image.Image {
	t.Helper()
	out := filepath.Join(t.TempDir(), "page")
	cmd := exec.Command(pdftoppm, "-r", "300", "-gray", "-png", "-singlefile", "-f", strconv.Itoa(page), "-l", strconv.Itoa(page), file, out)
	text, err := cmd.CombinedOutput()
	require.NoError(t, err, string(text))
	f, err := os.Open(out + ".png")
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	return img
}

const dotsPerMM = 300 / 25.4

// darkRuns are the middles of what is darker than half along a row (or a
// column), in mm from the page's left (or top).
func darkRuns(img image.Image, row bool, at, from, to float64) []float64 {
	var middles []float64
	begin := -1
	for i := int(from * dotsPerMM); i <= int(to*dotsPerMM); i++ {
		x, y := i, int(at*dotsPerMM)
		if !row {
			x, y = y, x
		}
		grey, _, _, _ := img.At(x, y).RGBA()
		dark := grey < 0x6000
		switch {
		case dark && begin < 0:
			begin = i
		case !dark && begin >= 0:
			middles = append(middles, float64(begin+i)/2/dotsPerMM)
			begin = -1
		}
	}
	return middles
}

func requireNear(t *testing.T, want float64, list []float64, what string) {
	t.Helper()
	best := math.Inf(1)
	for _, v := range list {
		best = min(best, math.Abs(v-want))
	}
	require.LessOrEqual(t, best, 1/dotsPerMM, "%s: a line at %.3f mm; found %.3f", what, want, list)
}

// Poppler draws panels, card, test square and scale bar within one dot of
// 300 to the inch; its pdfinfo and qpdf read the boxes (ISO 32000-1
// §14.11.2), pdffonts says that fonts are embedded.
func TestTemplateIsTrueToScale(t *testing.T) {
	t.Parallel()
	pdftoppm := outsideTool(t, "pdftoppm (poppler-utils)", anyProgram, "pdftoppm")
	for name, design := range map[string]string{"inches": outsideDesigns["halves with pairs"], "millimetres": outsideDesigns["turned patterns in millimetres"]} {
		t.Run(name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "template.pdf")
			runOK(t, design, "template", "-", "-o", file)
			info, err := exec.Command("pdfinfo", "-box", file).Output()
			require.NoError(t, err)
			size := boxOf(t, string(info), "MediaBox")
			trim := boxOf(t, string(info), "TrimBox")
			left, top, high := trim[0], size[3]-trim[3], size[3]

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
			require.InDelta(t, kit.Card.Size[0], trim[2]-trim[0], 0.01)
			require.InDelta(t, kit.Card.Size[1], trim[3]-trim[1], 0.01)

			img := rendered(t, pdftoppm, file, 1)
			for _, share := range []float64{0.07, 0.3, 0.93} { // clear of names and arrows
				y := kit.Card.Size[1] * share
				runs := darkRuns(img, true, top+y, left-1, left+kit.Card.Size[0]+1)
				requireNear(t, left, runs, "the card's left edge")
				requireNear(t, left+kit.Card.Size[0], runs, "the card's right edge")
				for _, p := range kit.Panels {
					for _, x := range crossings(p.Outline.Rings[0], y) {
						requireNear(t, left+x, runs, "a panel's side")
					}
				}
			}
			square := high - 10 - 34 + 4 // where foot.go puts it
			runs := darkRuns(img, true, square+4, 118, 148)
			require.Len(t, runs, 2)
			require.InDelta(t, 25.4, runs[1]-runs[0], 1/dotsPerMM)
			runs = darkRuns(img, false, 123, square-2, square+28)
			require.Len(t, runs, 2)
			require.InDelta(t, 25.4, runs[1]-runs[0], 1/dotsPerMM)
			inches := darkRuns(img, true, square+5.6, 8, 112.3) // only whole inches reach so high
			require.Len(t, inches, 5)
			for i, x := range inches {
				require.InDelta(t, 10+float64(i)*25.4, x, 1/dotsPerMM)
			}
			cms := darkRuns(img, true, square+11.6, 8, 110.5)
			require.Len(t, cms, 11)
			for i, x := range cms {
				require.InDelta(t, 10+float64(i)*10, x, 1/dotsPerMM)
			}
		})
	}
}

// crossings are where a level line meets a ring's sides.
func crossings(ring [][2]float64, y float64) []float64 {
	var list []float64
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if (p[1] < y) != (q[1] < y) {
			list = append(list, p[0]+(q[0]-p[0])*(y-p[1])/(q[1]-p[1]))
		}
	}
	return list
}

// boxOf reads a box of the first page, in mm.
func boxOf(t *testing.T, info, name string) [4]float64 {
	t.Helper()
	found := regexp.MustCompile(name + `:\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)`).FindStringSubmatch(info)
	require.NotNil(t, found, info)
	var box [4]float64
	for i := range box {
		v, err := strconv.ParseFloat(found[i+1], 64)
		require.NoError(t, err)
		box[i] = v * 25.4 / 72
	}
	return box
}

func TestTemplateIsSoundPDF(t *testing.T) {
	qpdf := outsideTool(t, "qpdf", anyProgram, "qpdf")
	outsideTool(t, "pdffonts (poppler-utils)", anyProgram, "pdffonts")
	file := filepath.Join(t.TempDir(), "template.pdf")
	runOK(t, outsideDesigns["bleed"], "template", "-", "-o", file)
	out, err := exec.Command(qpdf, "--check", file).CombinedOutput()
	require.NoError(t, err, string(out))
	require.Contains(t, string(out), "No syntax or stream encoding errors found")
	fonts, err := exec.Command("pdffonts", file).Output()
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(fonts)), "\n")[2:]
	require.NotEmpty(t, lines)
	for _, l := range lines {
		require.Regexp(t, `Identity-H\s+yes\s`, l) // the column of embedded ones
	}
	text, err := exec.Command("pdftotext", file, "-").Output()
	require.NoError(t, err)
	for _, want := range []string{"The card", "Each kind once", "The base", "Placing guide", "Lay-out page", "Sheet maps", "1 in square", "actual size", "first-1"} {
		require.Contains(t, string(text), want)
	}
	qdf, err := exec.Command(qpdf, "--qdf", "--object-streams=disable", file, "-").Output()
	require.NoError(t, err)
	for _, want := range []string{"/OCProperties", "/GTS_ProcStepsType /Cutting", "/PrintScaling /None", "/BleedBox"} {
		require.Contains(t, string(qdf), want)
	}
}
