package reader

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

// Slips that a review found.
func TestSlipsOfArcs(t *testing.T) {
	for d, kind := range map[string]SegmentKind{
		"M0 0A100 100 0 0 0 1e-15 0Z":     Line, // the ends are one angle
		"M0 0A2 2 0 0 0 1e-160 1e-160Z":   Line,
		"M0 0A100 100 0 1 1 1e-15 0":      Arc, // all the way round
		"M0 0A100 100 0 1 0 0.0000001 0Z": Arc,
	} {
		t.Run(d, func(t *testing.T) {
			p, err := parsePath(d, 100)
			require.Nil(t, err)
			require.True(t, finiteBox(p.Bounds()))
			for _, s := range p.Segments() {
				require.Equal(t, kind, s.Kind)
				if kind == Arc {
					require.InDelta(t, 2*math.Pi, math.Abs(s.Turn), 1e-6)
				}
				break
			}
			_, rings := p.Rings(0.01)
			require.NoError(t, rings)
		})
	}
}

// A kink that no point of a rule of integration sees. Sources: for the first,
// both coordinates lie on one line, so the length is that of the way there
// and back: x runs from 1 to its least and on to 3.5; for the second, chords.
func TestSlipsOfLength(t *testing.T) {
	for d, want := range map[string]float64{
		"M1 1C.25 1 1 1 3.5 1": 3.0549219,
		"M0.0078125 -19.5C.00390625 -14.5 .0001220703125 .125 .000244140625 -.5":     19.0388630,
		"M-.1435546875 98.84765625Q.013671875 .4013671875 28.740234375 -6.869140625": 0,
		"M0 0C10 0 10 0 0 0": 15, // out to 7.5 and back
	} {
		t.Run(d, func(t *testing.T) {
			p, err := parsePath(d, 100)
			require.Nil(t, err)
			if want == 0 {
				for _, s := range p.Segments() {
					const n = 2_000_000
					from := s.From
					for i := 1; i <= n; i++ {
						to := s.At(float64(i) / n)
						want += to.sub(from).length()
						from = to
					}
				}
			}
			require.InDelta(t, want, p.Length(), 1e-7)
		})
	}
}

func TestSlipsOfDrawings(t *testing.T) {
	const head = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 200 100">`
	read := func(body string) (File, *findings.List) {
		var found findings.List
		return Read([]byte(head+body+"</svg>"), &found), &found
	}
	width := func(body string) float64 {
		f, _ := read(body)
		if len(f.Elements) == 0 {
			return 0
		}
		return f.Elements[0].Bounds.W() * 2 // user units
	}
	for name, c := range map[string]struct {
		body string
		want float64
	}{
		"weight of a font":        {`<rect style="font: 700 10px serif" width="1em" height="1"/>`, 10},
		"the later shorthand":     {`<rect style="font-size:10px;font:20px serif" width="1em" height="1"/>`, 20},
		"comment in a length":     {`<rect width="5/**/0" height="1"/>`, 0},
		"product outside calc":    {`<rect width="calc(10px)*2" height="1"/>`, 0},
		"AUTO":                    {`<rect width="4" height="2" style="width:AUTO"/>`, 0},
		"void display":            {`<rect width="4" height="2" style="display:foo" display="none"/>`, 0},
		"transform NONE":          {`<rect width="4" height="2" style="transform:NONE" transform="scale(2)"/>`, 4},
		"selector with a flag":    {`<style>[id="a" i]{width:9px}</style><rect id="a" width="4" height="2"/>`, 4},
		"class with a digit":      {`<style>.1a{width:9px}</style><rect class="1a" width="4" height="2"/>`, 4},
		"value of two words":      {`<style>[id=a b]{width:9px}</style><rect id="a b" width="4" height="2"/>`, 4},
		"beyond numbers, waiting": {`<g transform="scale(1e38)"><g transform="scale(1e38)"><g transform="scale(1e38)"><g transform="scale(1e38)"><g transform="scale(1e38)"><g transform="scale(1e38)"><g transform="scale(1e38)"><g transform="scale(1e38)"><rect width="10" height="10" style="transform-box:fill-box;transform:scale(1e38)"/></g></g></g></g></g></g></g></g>`, 0},
	} {
		t.Run(name, func(t *testing.T) { require.InDelta(t, c.want, width(c.body), 1e-9) })
	}
	f, found := read(`<rect width="10" height="10" style="transform-box:fill-box;transform:scale(1e30)"/>`)
	require.Len(t, f.Elements, 1)
	require.Equal(t, 1, found.Count(findings.FarCoordinate))
	f, _ = read(`<svg width="10" height="10"><g style="transform-box:fill-box;transform:translate(100px)"><rect width="10" height="10"/></g></svg>`)
	require.True(t, f.Elements[0].Outside)
	f, _ = read(`<rect width="4" height="2" fill="NONE"/><rect width="4" height="2" opacity="-1"/><rect width="4" height="2" opacity="0 5"/>`)
	require.Equal(t, []bool{false, false, true}, []bool{f.Elements[0].Visible, f.Elements[1].Visible, f.Elements[2].Visible})
	_, found = read(`<x:a xmlns:x="foo"/>`)
	require.Zero(t, found.Count(findings.Prefix))
	_, found = read(`<rect width="min(1rem,3rem)" height="1"/>`)
	require.Equal(t, 1, found.Count(findings.FontUnit))
}

func TestSlipsOfRoots(t *testing.T) {
	var found findings.List
	f := Read([]byte(`<svg xmlns="http://www.w3.org/2000/svg" width="calc(50mm + 2cm)" height="calc(1mm + 1mm)" viewBox="0 0 70 2"/>`), &found)
	require.False(t, f.InPixels)
	require.Zero(t, found.Count(findings.PixelSize))
	found = findings.List{}
	f = Read([]byte(`<svg xmlns="http://www.w3.org/2000/svg" width="calc(1e38mm*1e38*1e38)" height="1mm"/>`), &found)
	require.False(t, math.IsInf(f.W, 0))
	require.Equal(t, 1, found.Count(findings.FarCoordinate))
	found = findings.List{}
	f = Read([]byte(`<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9" transform="scale(0)"><rect width="1" height="1"/></svg>`), &found)
	require.Empty(t, f.Elements)
	require.Equal(t, 1, found.Count(findings.FlatTransform))
	found = findings.List{}
	Read([]byte(" \n <!DOCTYPE svg [<!ENTITY a \"b\">]><svg xmlns=\"http://www.w3.org/2000/svg\"/>"), &found)
	require.Equal(t, 2, found.Findings()[0].Column)
}
