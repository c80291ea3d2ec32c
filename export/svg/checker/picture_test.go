package checker

import (
	"encoding/xml"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

var (
	numberText = regexp.MustCompile(`<text x="[^"]*" y="[^"]*" font-size="3.2" fill="#22201c">(\d+)</text>`)
	captions   = regexp.MustCompile(`<text [^>]*font-weight="[a-z]+"[^>]*>([^<]*)</text>`)
)

// drawn makes the picture of a file and holds it against what every picture
// is: well-formed XML, and a sheet of true size with nothing wrong in it.
func drawn(t require.TestingT, name string, r Report) string {
	data, err := Picture(name, r)
	require.NoError(t, err)
	d := xml.NewDecoder(strings.NewReader(string(data)))
	for {
		if _, err := d.Token(); err == io.EOF {
			break
		} else {
			require.NoError(t, err)
		}
	}
	again := Check(data, Demands{})
	require.True(t, again.Sized)
	for _, f := range again.Findings {
		if f.Rule.Group == "size" || f.Rule.Group == "reading" && f.Rule != findings.FarCoordinate {
			require.NotEqual(t, findings.Error, f.Rule.Severity, "%s: %s", f.Rule.ID, f.Message)
		}
	}
	return string(data)
}

func TestPictureGolden(t *testing.T) {
	r := Check([]byte(sheet(`<g id="cut" fill="none" stroke="#000000">
<path id="a" d="M 10 10 h 20 v 20 h -20 Z"/>
<path id="b" d="M 40 20 h 20 l -20 9 h 20 Z"/>
<path id="c" d="M 60 60 h 45 v 10 Z"/>
</g>
<g id="score" fill="none" stroke="#000000"><path d="M 50 10 V 30"/></g>
<g id="print" fill="#009E73"><path d="M 60 10 h 5 v 5 h -5 Z"/></g>`)), Demands{})
	require.Equal(t, []string{"error self-crossing 4:1 path#b at 50,24.5", "error off-sheet 5:1 path#c at 60,60 size 45x10"}, findingsOf(r, false))
	requireGolden(t, "picture.svg", drawn(t, "small.svg", r))
}

// The numbers in the drawing are those of the list below it, one for each
// finding that has a place on the sheet.
func TestPictureNumbers(t *testing.T) {
	for name, c := range ruleCases() {
		if c.rule == "not-compared" {
			continue // 20,000 squares, and no place
		}
		t.Run(name, func(t *testing.T) {
			r := Check([]byte(c.file), c.demands)
			text := drawn(t, "a.svg", r)
			var want []string
			for i, f := range r.marked() {
				if f.Spot != nil {
					want = append(want, fmt.Sprint(i+1))
				}
				require.Regexp(t, fmt.Sprintf(`>%d +%s, `, i+1, f.Rule.Severity), text)
			}
			var got []string
			for _, m := range numberText.FindAllStringSubmatch(text, -1) {
				got = append(got, m[1])
			}
			require.Equal(t, want, got)
		})
	}
}

// Errors get the first numbers, notes the last, and no more than 60 are
// listed.
func TestPictureOrder(t *testing.T) {
	var inside strings.Builder
	for i := range 40 {
		fmt.Fprintf(&inside, `<path id="open%d" d="M 1 %d h 5"/>`+"\n", i, i+1)
		fmt.Fprintf(&inside, `<path id="off%d" d="M 90 %d h 20 l 0 -0.5 Z"/>`+"\n", i, i+1)
	}
	r := Check([]byte(cutLayer(inside.String())), Demands{})
	require.Equal(t, []int{1, 40, 40}, []int{r.Count(findings.Note), r.Count(findings.Warning), r.Count(findings.Error)})
	list := r.marked()
	require.Len(t, list, 60)
	for i, f := range list {
		want := findings.OffSheet
		if i >= 40 {
			want = findings.OpenOutline
		}
		require.Equal(t, want, f.Rule, "number %d", i+1)
	}
	text := drawn(t, "many.svg", r)
	require.Len(t, numberText.FindAllString(text, -1), 60)
	lines := captions.FindAllStringSubmatch(text, -1)
	require.Equal(t, "many.svg: 100 x 100 mm, 40 errors and 40 warnings", lines[0][1])
	require.Equal(t, "and 21 more", lines[len(lines)-1][1])
}

func TestPictureWithoutTrueSize(t *testing.T) {
	tests := map[string]string{
		"no size": `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M 1 1 h 3 v 3 Z"/></svg>`,
		"no SVG":  `<html/>`,
		"no XML":  `cut along the line`,
		"nothing": ``,
	}
	for name, file := range tests {
		t.Run(name, func(t *testing.T) {
			text := drawn(t, "a.svg", Check([]byte(file), Demands{}))
			require.Contains(t, text, "<title>Findings in a.svg</title>")
			require.Regexp(t, `>a\.svg: no true size, \d error`, text)
			require.Contains(t, text, "The file has no true size, so nothing is drawn here.")
			require.NotContains(t, text, "<path")
			require.Regexp(t, `>1 +error, `, text)
		})
	}
}

// A picture grows with what lies beside the sheet, but not without end.
func TestPictureSize(t *testing.T) {
	// 8 mm all around; below, 5 mm for the summary, each line of the list,
	// and one to spare.
	tests := map[string]struct {
		file, w, h string
	}{
		"nothing to say":    {sheet(`<g/>`), "136", "136"},                                        // at least 120 wide; a note of the empty layer
		"beside the sheet":  {cutLayer(pathOf("a", "M -30 10 h 200 v 20 Z")), "216", "141"},       // off the sheet, the layer, and the key
		"far off":           {cutLayer(pathOf("a", "M -90000 10 H 90000 V 20 Z")), "1116", "146"}, // 500 mm on both sides; a spike too
		"beyond all sheets": {cutLayer(pathOf("a", "M -900000 10 H 900000 V 20 Z")), "136", ""},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			r := Check([]byte(c.file), Demands{})
			again := Check([]byte(drawn(t, "a.svg", r)), Demands{})
			require.Equal(t, c.w, mm(again.W))
			if c.h != "" {
				require.Equal(t, c.h, mm(again.H))
			}
		})
	}
}

// A name is text, whatever it is made of.
func TestPictureName(t *testing.T) {
	r := Check([]byte(cutLayer(pathOf("a", squareA))), Demands{})
	for name, want := range map[string]string{
		`a & b <c> "d".svg`: `a &amp; b &lt;c&gt; `,
		"kärtchen.svg":      "kärtchen.svg: 100 x 100 mm, nothing wrong",
		"a\x00b\xffc.svg":   "a\uFFFDb\uFFFDc.svg: ",
		"":                  ": 100 x 100 mm, nothing wrong",
	} {
		require.Contains(t, drawn(t, name, r), want)
	}
}

func TestSummary(t *testing.T) {
	tests := map[string]struct{ file, want string }{
		"nothing":            {cutLayer(pathOf("a", squareA)), "100 x 100 mm, nothing wrong"},
		"a warning":          {cutLayer(pathOf("a", "M 1 1 h 9")), "100 x 100 mm, no errors, 1 warning"},
		"two warnings":       {cutLayer(pathOf("a", "M 1 1 h 9") + pathOf("b", "M 1 3 h 9")), "100 x 100 mm, no errors, 2 warnings"},
		"an error":           {cutLayer(pathOf("a", "M -1 1 h 9 v 9 Z")), "100 x 100 mm, 1 error"},
		"one of each":        {cutLayer(pathOf("a", "M -1 1 h 9")), "100 x 100 mm, 1 error and 1 warning"},
		"not a whole number": {`<svg xmlns="http://www.w3.org/2000/svg" width="8.5in" height="11in" viewBox="0 0 17 22"/>`, "215.9 x 279.4 mm, nothing wrong"},
		"no size":            {`<svg xmlns="http://www.w3.org/2000/svg"/>`, "no true size, 1 error"},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) { require.Equal(t, c.want, Check([]byte(c.file), Demands{}).Summary()) })
	}
}

func TestWrap(t *testing.T) {
	tests := map[string]struct {
		text    string
		columns int
		want    []string
	}{
		"short":               {"a b c", 9, []string{"a b c"}},
		"exactly":             {"one two", 7, []string{"one two"}},
		"one too long":        {"one two", 6, []string{"one", "two"}},
		"a long word":         {"a beginning b", 4, []string{"a", "beginning", "b"}},
		"spaces and breaks":   {" a \n b\t", 9, []string{"a b"}},
		"nothing":             {"", 9, []string{""}},
		"no room for a thing": {"a b", 0, []string{"a", "b"}},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) { require.Equal(t, c.want, wrap(c.text, c.columns)) })
	}
}
