package pdf

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/layouts"
)

var _ = flag.Bool("update", false, "rewrite golden files (there are none in this package)")

func kitOf(t testing.TB, title, size, layout string, cards int) layouts.Kit {
	t.Helper()
	d, err := layouts.Read(strings.NewReader(fmt.Sprintf(`
title = %q
units = "mm"
[card]
size = %q
base = "side fold"
paper = "p"
[front]
layout = %q
margin = 3
gap = 2
papers = ["p"]
[batch]
cards = %d
[sheets]
bleed = 2
[[papers]]
name = "p"
sheet = "900 x 900"
`, title, size, layout, cards)), nil)
	require.NoError(t, err)
	kit, err := layouts.Plan(context.Background(), d)
	require.NoError(t, err)
	return kit
}

// The same design gives the same bytes, though maps are walked and the file
// is amended.
func TestSameBytes(t *testing.T) {
	kit := kitOf(t, "Same", "ISO A6", "diagonal halves", 2)
	first, _, err := Template(kit, "A4")
	require.NoError(t, err)
	for range 5 {
		again, _, err := Template(kit, "A4")
		require.NoError(t, err)
		require.True(t, bytes.Equal(first, again))
	}
}

// ISO 32000-1 §7.5.4: each entry of the table gives the place of its object.
func TestPlacesAreRightAfterAmending(t *testing.T) {
	data, _, err := Template(kitOf(t, "Places", "ISO A6", "grid", 1), "")
	require.NoError(t, err)
	_, table, found := bytes.Cut(data, []byte("\nxref\n"))
	require.True(t, found)
	entries := regexp.MustCompile(`(\d{10}) 00000 n `).FindAllSubmatch(table, -1)
	require.NotEmpty(t, entries)
	for i, e := range entries {
		at, err := strconv.Atoi(string(e[1]))
		require.NoError(t, err)
		require.True(t, bytes.HasPrefix(data[at:], fmt.Appendf(nil, "%d 0 obj", i+1)), "object %d", i+1)
	}
}

// ISO 19593-1 group and type names, as the PDF Association's model of the
// keys lists them (svg-true-size.md §4), and ISO 32000-1 §12.2.
func TestProcessingStepsAndPrintScaling(t *testing.T) {
	data, _, err := Template(kitOf(t, "Steps", "ISO A6", "grid", 1), "")
	require.NoError(t, err)
	for _, want := range []string{
		"/GTS_Metadata <</GTS_ProcStepsGroup /Structural /GTS_ProcStepsType /Cutting>>",
		"/GTS_Metadata <</GTS_ProcStepsGroup /Structural /GTS_ProcStepsType /Creasing>>",
		"/GTS_Metadata <</GTS_ProcStepsGroup /Structural /GTS_ProcStepsType /Bleed>>",
		"/GTS_Metadata <</GTS_ProcStepsGroup /Dimensions>>", "/GTS_Metadata <</GTS_ProcStepsGroup /Legend>>",
		"/PrintScaling /None",
	} {
		require.Contains(t, string(data), want)
	}
}

// Tiles show every place of a scene, and neighbours overlap by what is said.
func TestTilesCoverTheScene(t *testing.T) {
	d, err := newDocument("Tiles", pages["A4"])
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Int64Range(10, 1200).Draw(t, "w")
		h := rapid.Int64Range(10, 1200).Draw(t, "h")
		s := subject{scene: scene{size: geometry.Size{W: mm(float64(w)), H: mm(float64(h))}}}
		g := d.grid(s, rapid.Bool().Draw(t, "wide"))
		x := rapid.Int64Range(0, w).Draw(t, "x")
		y := rapid.Int64Range(0, h).Draw(t, "y")
		seen := false
		for i := range g.columns * g.rows {
			win := g.window(i)
			require.Positive(t, win.W())
			require.Positive(t, win.H())
			require.LessOrEqual(t, in(win.W()), g.leaf.roomW+1e-6)
			seen = seen || win.Min.X <= mm(float64(x)) && mm(float64(x)) <= win.Max.X && win.Min.Y <= mm(float64(y)) && mm(float64(y)) <= win.Max.Y
			if i%g.columns > 0 {
				require.InDelta(t, overlap, in(g.window(i-1).Max.X-win.Min.X), 1e-5)
			}
		}
		require.True(t, seen)
	})
}

// Titles of all sorts give a file, and a word on what the font lacks.
func TestTitlesOfAllSorts(t *testing.T) {
	for _, c := range []struct{ name, title, note string }{
		{"plain", "Grüße für ½ Dutzend", ""},
		{"long", strings.Repeat("Slipway thanks ", 20), ""},
		{"one long word", strings.Repeat("x", 300), ""},
		{"right to left", "שלום", "U+05E9"},
		{"emoji", "Hello 🌊⚓️", "U+1F30A, U+2693"},
	} {
		t.Run(c.name, func(t *testing.T) {
			data, notes, err := Template(kitOf(t, c.title, "ISO A6", "grid", 1), "")
			require.NoError(t, err)
			require.NotEmpty(t, data)
			require.Contains(t, strings.Join(notes, ""), c.note)
			require.Equal(t, c.note == "", len(notes) == 0)
		})
	}
}

func TestPageMustBeKnown(t *testing.T) {
	_, _, err := Template(layouts.Kit{}, "A3")
	require.EqualError(t, err, `the template goes on Letter or A4, and not on "A3"`)
}

// Hundreds of panels, and cards larger than any page, still come out.
func TestLargeDesigns(t *testing.T) {
	for _, layout := range []string{"harlequin", "honeycomb"} {
		data, _, err := Template(kitOf(t, "Large", "400 x 600", layout, 1), "")
		require.NoError(t, err)
		require.NotEmpty(t, data)
	}
}

func BenchmarkTemplate(b *testing.B) {
	kit := kitOf(b, "Bench", "ISO A6", "diagonal halves", 8)
	for b.Loop() {
		_, _, err := Template(kit, "")
		require.NoError(b, err)
	}
}
