package reader

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
	"panelry/export/svg/markup"
)

// seedFiles gives a fuzz target every file of testdata/cases.
func seedFiles(f *testing.F) {
	names, err := filepath.Glob(filepath.Join("testdata", "cases", "*.svg"))
	require.NoError(f, err)
	require.NotEmpty(f, names)
	for _, name := range names {
		data, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(data)
	}
}

// seedValues gives a fuzz target each value that one of the attributes has
// in testdata/cases.
func seedValues(f *testing.F, attributes ...string) {
	wanted, seen := map[string]bool{}, map[string]bool{}
	for _, name := range attributes {
		wanted[name] = true
	}
	names, err := filepath.Glob(filepath.Join("testdata", "cases", "*.svg"))
	require.NoError(f, err)
	for _, name := range names {
		data, err := os.ReadFile(name)
		require.NoError(f, err)
		tokens, _, err := markup.Open(data)
		require.NoError(f, err)
		for {
			token, err := tokens.Next()
			if err != nil || token.Kind == markup.EndOfFile {
				break
			}
			for _, a := range token.Attrs {
				if wanted[a.Name] && !seen[a.Value] {
					seen[a.Value] = true
					f.Add(a.Value)
				}
			}
		}
	}
	require.Greater(f, len(seen), 10, "seeds")
}

func requireFinite(t *testing.T, b Box) {
	for _, f := range []float64{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y} {
		require.False(t, math.IsNaN(f) || math.IsInf(f, 0), "%v", b)
	}
}

func requireWithin(t *testing.T, text string, err *dataError) {
	if err != nil {
		require.NotEmpty(t, err.Error())
		require.True(t, err.at >= 0 && err.at <= len(text), "%d in %d bytes", err.at, len(text))
	}
}

// goodNatured reports whether an arc written by its ends keeps its shape:
// radii neither huge beside its chord nor far apart, and not nearly a half,
// a whole or nothing of its ellipse.
func goodNatured(s Segment) bool {
	chord, rx, ry, turn := s.To.sub(s.From).length(), s.U.length(), s.V.length(), math.Abs(s.Turn)
	return chord > 1e-3*max(rx, ry) && min(rx, ry) > 1e-3*max(rx, ry) && math.Abs(turn-math.Pi) > 1e-3 && turn > 1e-3 && turn < 2*math.Pi-1e-3 &&
		max(s.From.length(), s.To.length()) < 1e6*chord && chord > 1e-30
}

// What is read without an error has finite bounds, and written out as
// absolute commands it is read as the same again: lines and curves to the
// bit.
func FuzzPathData(f *testing.F) {
	seedValues(f, "d", "points")
	f.Fuzz(func(t *testing.T, data string) {
		const most = 10_000
		p, err := parsePath(data, most)
		requireWithin(t, data, err)
		if err != nil { // what stands before it is right by itself
			if q, again := parsePath(data[:err.at], most); again == nil {
				require.Equal(t, absolute(p), absolute(q))
			}
		}
		require.LessOrEqual(t, len(p.ops), most)
		var segments []Segment
		for _, s := range p.Segments() {
			segments = append(segments, s)
		}
		for _, n := range p.numbers {
			if math.IsNaN(n) || math.Abs(n) > math.MaxFloat32 {
				return // sums of numbers that are large each
			}
		}
		requireFinite(t, p.Bounds())

		q, err := parsePath(absolute(p), most)
		require.Nil(t, err, absolute(p))
		i := 0
		for _, s := range q.Segments() {
			require.Less(t, i, len(segments))
			want := segments[i]
			i++
			require.Equal(t, want.From, s.From)
			require.Equal(t, want.To, s.To)
			if want.Kind != Arc {
				require.Equal(t, want, s)
				continue
			}
			if goodNatured(want) {
				require.Equal(t, Arc, s.Kind)
				for _, at := range []float64{0.25, 0.5, 0.75} {
					requireNear(t, want.At(at), s.At(at), 1e-3*want.reach())
				}
			}
		}
		require.Len(t, segments, i)
	})
}

func FuzzTransform(f *testing.F) {
	seedValues(f, "transform", "style")
	f.Fuzz(func(t *testing.T, text string) {
		m, _, err := parseTransform(text)
		requireWithin(t, text, err)
		if err != nil {
			require.Equal(t, identity, m)
		} else {
			again, _, err := parseTransform(" " + text + "\n")
			require.Nil(t, err)
			if m.finite() {
				require.Equal(t, m, again, "white space around changes nothing")
			}
		}
		parseCSSTransform(text, lengthContext{fontSize: 10, rootFont: 20}, BoxOf([]Point{{1, 2}, {3, 4}}))
		parseOrigin(text, lengthContext{fontSize: 10, rootFont: 20}, BoxOf([]Point{{1, 2}, {3, 4}}))
	})
}

func FuzzViewBox(f *testing.F) {
	seedValues(f, "viewBox", "preserveAspectRatio")
	f.Fuzz(func(t *testing.T, text string) {
		box, err := parseViewBox(text)
		requireWithin(t, text, err)
		if err == nil {
			for _, v := range box {
				require.LessOrEqual(t, math.Abs(v), math.MaxFloat32)
			}
			require.True(t, box[2] >= 0 && box[3] >= 0)
			again, err := parseViewBox(full(box[0]) + "," + full(box[1]) + " " + full(box[2]) + " , " + full(box[3]))
			require.Nil(t, err)
			require.Equal(t, box, again)
		}
		if fit, ok := parseFit(text); !ok {
			require.Equal(t, usualFit, fit)
		}
	})
}

func FuzzLength(f *testing.F) {
	seedValues(f, "width", "height", "x", "r", "font-size", "style")
	for _, text := range []string{"calc(1mm + 2 * (3px - 4%))", "min(1px, 2em, 3rem)", "clamp(1px, 50%, 2in)", "1e2em", "/**/5q"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := parseLength(text)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		v, problem := l.resolve(lengthContext{percent: 100, fontSize: 10, rootFont: 20})
		if problem != "" {
			require.Zero(t, v)
		}
		if !l.isCalculation() {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
			require.True(t, knownUnit(l.unit))
			again, err := parseLength(full(l.value) + l.unit)
			require.NoError(t, err)
			require.Equal(t, l, again)
		}
	})
}

// Whatever the file: no panic, every drawn element with a box of numbers,
// and every finding with a rule, a text and a place within the file.
func FuzzRead(f *testing.F) {
	seedFiles(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		var found findings.List
		file := Read(data, &found)
		for _, e := range file.Elements {
			require.False(t, e.Bounds.Empty())
			requireFinite(t, e.Bounds)
			require.Equal(t, shape, categories[e.Tag])
			require.False(t, e.Visible && !e.Filled && !e.Stroked)
		}
		if !file.Sized {
			require.Empty(t, file.Elements)
			require.True(t, hasError(&found), "no size, and nobody says so")
		}
		lines := 1
		for _, c := range data {
			if c == '\n' {
				lines++
			}
		}
		for _, one := range found.Findings() {
			require.NotNil(t, one.Rule)
			require.NotEmpty(t, one.Message)
			require.True(t, one.Line >= 0 && one.Line <= lines || found.Count(findings.Packed) > 0 || found.Count(findings.Encoding) > 0, "line %d", one.Line)
		}
	})
}
