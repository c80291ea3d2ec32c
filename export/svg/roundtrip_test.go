package svg

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/export/svg/markup"
	"panelry/geometry"
)

// drawPoint draws a place on the sheet, borders included.
func drawPoint(t *rapid.T, sheet geometry.Size) geometry.Point {
	return geometry.Point{
		X: geometry.Length(rapid.Int64Range(0, int64(sheet.W)).Draw(t, "x")),
		Y: geometry.Length(rapid.Int64Range(0, int64(sheet.H)).Draw(t, "y")),
	}
}

// drawSegments draws straight and curved sides between places that differ;
// a curve lies inside its control points' hull, and so on the sheet.
func drawSegments(t *rapid.T, sheet geometry.Size, from geometry.Point, least int) []geometry.Segment {
	n := rapid.IntRange(least, 6).Draw(t, "sides")
	var then []geometry.Segment
	for range n {
		to := drawPoint(t, sheet)
		for to == from {
			to.X = (to.X + 1) % (sheet.W + 1)
		}
		s := geometry.LineTo(to)
		if rapid.Bool().Draw(t, "curved") {
			s = geometry.CurveTo(drawPoint(t, sheet), drawPoint(t, sheet), to)
		}
		then = append(then, s)
		from = to
	}
	return then
}

// drawRing draws at least three sides; the last one, which closes the ring,
// is a curve half of the time.
func drawRing(t *rapid.T, sheet geometry.Size) geometry.Ring {
	start := drawPoint(t, sheet)
	then := drawSegments(t, sheet, start, 2)
	last := then[len(then)-1].To
	switch {
	case last == start, rapid.Bool().Draw(t, "curved end"):
		away := geometry.Point{X: (start.X + 1) % (sheet.W + 1), Y: start.Y}
		return append(then, geometry.CurveTo(away, drawPoint(t, sheet), start))
	}
	return append(then, geometry.LineTo(start))
}

// drawText draws what XML can hold, with the characters that need escaping.
func drawText(t *rapid.T, label string) string {
	runes := rapid.OneOf(
		rapid.SampledFrom([]rune("\"'<>&;]-\t\n\r =#%\\é\uFFFD\U0001F600")),
		rapid.RuneFrom([]rune("abcXYZ019")),
	)
	return rapid.StringOfN(runes, 1, 12, -1).Draw(t, label)
}

func drawShape(t *rapid.T, sheet geometry.Size) Shape {
	var s Shape
	for range rapid.IntRange(0, 3).Draw(t, "outlines") {
		s.Rings = append(s.Rings, drawRing(t, sheet))
	}
	if len(s.Rings) > 0 && rapid.Bool().Draw(t, "filled") {
		s.Fill = "#CC79a7"
	} else {
		for range rapid.IntRange(0, 2).Draw(t, "lines") {
			from := drawPoint(t, sheet)
			s.Lines = append(s.Lines, geometry.Path{From: from, Then: drawSegments(t, sheet, from, 1)})
		}
	}
	if len(s.Rings)+len(s.Lines) == 0 {
		s.Rings = []geometry.Ring{drawRing(t, sheet)}
	}
	for _, name := range []string{"data-card", "data-panel"} {
		if rapid.Bool().Draw(t, name) {
			s.Attributes = append(s.Attributes, Attribute{name, drawText(t, "value")})
		}
	}
	return s
}

// drawDrawing draws what comes back from Read unchanged: no empty layer, and
// every stroke said.
func drawDrawing(t *rapid.T) Drawing {
	side := rapid.Int64Range(1, int64(3000*mm))
	d := Drawing{
		Size:  geometry.Size{W: geometry.Length(side.Draw(t, "w")), H: geometry.Length(side.Draw(t, "h"))},
		Title: drawText(t, "title"),
		Desc:  drawText(t, "desc"),
	}
	ids := rapid.Permutation([]string{Cut, Score, Print}).Draw(t, "layers")
	for _, id := range ids[:rapid.IntRange(0, 3).Draw(t, "of them")] {
		l := Layer{ID: id, Title: drawText(t, "title"), Stroke: ScoreStroke}
		for range rapid.IntRange(1, 4).Draw(t, "shapes") {
			l.Shapes = append(l.Shapes, drawShape(t, d.Size))
		}
		d.Layers = append(d.Layers, l)
	}
	return d
}

func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDrawing(t)
		var b bytes.Buffer
		require.NoError(t, Write(&b, d))
		got, err := Read(b.Bytes())
		require.NoError(t, err, "%s", b.Bytes())
		require.Equal(t, d, got)
		require.NoError(t, Compare(d, got))
		again, err := Encode(got)
		require.NoError(t, err)
		require.Equal(t, b.String(), string(again), "same drawing, same bytes")
	})
}

// FuzzPathData looks for path data that stops the scanner, and for data that
// says something else once it is written again.
func FuzzPathData(f *testing.F) {
	for _, seed := range []string{
		"", "M 1 2", "M 0 0 L 10 0 L 10 5 Z", "M 10 10 L 20 10 C 30 20 10 30 10 10 Z M 1 1 L 2 2",
		"M1,2L+3-4,5 6", "M.5.5L60.5.5.5-0 10-5e0z", "m 1 1", "M 10. 0", "M 1e400 0", "M 0,,0", "M\t1\f2\r\nZ",
		"M 0 0 L 1 0 L 1 1 L 0 0 Z", "M 99999.999999 -100000 C 1 2 3 4 5 6 7 8 9 10 11 12", "M é", "M 1 1 Z L 2 2", "M - + .",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data string) {
		strokes, err := scanPath(data)
		if err != nil {
			var fault *dataFault
			require.ErrorAs(t, err, &fault)
			require.LessOrEqual(t, fault.at, len(data))
			return
		}
		var written []byte
		for _, s := range strokes {
			if s.closed {
				written = appendRings(written, []geometry.Ring{s.path.Then})
			} else {
				written = appendLines(written, []geometry.Path{s.path})
			}
		}
		again, err := scanPath(string(written))
		require.NoError(t, err, "%s", written)
		require.Equal(t, drawing(strokes), again)
	})
}

// drawing leaves out the closed points that PathData does not write.
func drawing(strokes []stroke) []stroke {
	var kept []stroke
	for _, s := range strokes {
		if !s.closed || len(s.path.Then) > 0 {
			kept = append(kept, s)
		}
	}
	return kept
}

// FuzzRead looks for files that stop the reader, and for drawings that it
// takes but the writer does not give back.
func FuzzRead(f *testing.F) {
	golden, err := os.ReadFile(filepath.Join("testdata", "sheet.svg"))
	require.NoError(f, err)
	f.Add(golden)
	for _, seed := range []string{
		small, "", "<svg/>", "<", "\x00", "<a><a><a>", "<svg xmlns='http://www.w3.org/2000/svg' width='1mm' height='1mm' viewBox='0 0 1 1'/>",
		"<!DOCTYPE svg [<!ENTITY a 'b'>]><svg>&a;</svg>", "<?xml version='1.1'?>", "<svg a='1'b=\"2\" c = '&#60;'/>", "<svg xmlns:a='b' a:c='d' a:c='e'/>",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := Read(data)
		if err != nil {
			var place *markup.Fault
			require.ErrorAs(t, err, &place)
			return
		}
		require.NoError(t, d.Validate())
		_, err = Encode(d)
		require.NoError(t, err)
	})
}
