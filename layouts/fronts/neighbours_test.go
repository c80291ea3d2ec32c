package fronts_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

// With two papers in turn, neighbours across every gap differ for the usual
// slants. Neighbours are found in the plainest way: without a gap they share
// a stretch of border.
func TestTwoPapersAlternate(t *testing.T) {
	for _, slants := range [][]string{
		nil, // towards the middle
		{`//`, `//`}, {`\\`, `\\`},
		{`/\/\`, `/\/\`, `/\/\`},
		{`\/\/`, `\/\/`},
		{`/\`, `\/`},
		{`//`, `\\`, `//`},
		{`///\\\`, `///\\\`, `\\\///`},
	} {
		name := strings.Join(slants, " over ")
		if slants == nil {
			name = "towards the middle"
		}
		t.Run(name, func(t *testing.T) {
			if slants != nil {
				requireAlternating(t, slanted(slants...))
				return
			}
			for columns := int64(1); columns <= 5; columns++ {
				for rows := int64(1); rows <= 5; rows++ {
					requireAlternating(t, options{"columns": columns, "rows": rows})
				}
			}
		})
	}
}

func requireAlternating(t *testing.T, given options) {
	t.Helper()
	f := divide(t, halves(t), frameOf(120*mm, 60*mm), 0, given)
	pairs := 0
	for i, p := range f.Panels {
		for _, q := range f.Panels[:i] {
			if !shareBorder(p.Outline, q.Outline) {
				continue
			}
			pairs++
			require.NotEqual(t, p.Role%2, q.Role%2, "%s and %s of %v", p.Name, q.Name, given)
		}
	}
	columns, rows := len(f.Across)/2+1, len(f.Down)/2+1
	require.Equal(t, columns*rows+(columns-1)*rows+columns*(rows-1), pairs, "one in each cell and one at each gap")
}

// shareBorder reports whether two outlines have a stretch of border in
// common: two sides on one line that overlap.
func shareBorder(o, p geometry.Outline) bool {
	a, b := o.Outer.Points(), p.Outer.Points()
	for i := range a {
		for j := range b {
			if overlap(a[i], a[(i+1)%len(a)], b[j], b[(j+1)%len(b)]) {
				return true
			}
		}
	}
	return false
}

func overlap(a, b, c, d geometry.Point) bool {
	line := geometry.Line{A: a, B: b}
	if line.Side(c) != 0 || line.Side(d) != 0 {
		return false
	}
	along := func(p geometry.Point) float64 {
		v, w := b.Sub(a), p.Sub(a)
		return float64(v.X)*float64(w.X) + float64(v.Y)*float64(w.Y)
	}
	lo, hi := min(along(c), along(d)), max(along(c), along(d))
	return lo < along(b) && hi > 0
}

// Roles are counted from 0 and none is left out, so that papers in turn are
// all used; in these fronts each panel has one of its own.
func TestRolesAreACount(t *testing.T) {
	own := map[string]bool{"grid": true, "strips": true, "diagonal halves": true}
	for _, l := range selfSufficient() {
		for _, fr := range frames {
			f, err := l.Divide(brief(t, l, fr.frame, usualGap, nil))
			if err != nil {
				continue
			}
			seen := map[int]bool{}
			for _, p := range f.Panels {
				seen[p.Role] = true
			}
			for role := range len(seen) {
				require.True(t, seen[role], "%s on %s: no panel has role %d", l.Name, fr.name, role)
			}
			if own[l.Name] {
				require.Len(t, seen, len(f.Panels))
			}
		}
	}
}

// A symmetric front is symmetric to the nanometre of rounding: for each
// panel there is one that is its mirror image, and one that is it turned by
// half a turn about the frame's middle.
func TestSymmetricFronts(t *testing.T) {
	for _, c := range []struct {
		layout   string
		options  options
		mirrored bool
	}{
		{"grid", nil, true},
		{"grid", options{"columns": int64(3), "rows": int64(5)}, true},
		{"strips", nil, true},
		{"strips", options{"run": "level", "widths": []any{"9", "rest", "9"}}, true},
		{"diagonal halves", nil, true},
		{"diagonal halves", options{"columns": int64(4), "rows": int64(6)}, true},
		{"diagonal halves", slanted("//", "//"), false},
		{"diagonal halves", slanted(`/`), false},
		{"checkerboard", nil, true},
		{"tri-band", nil, true},
		{"frames", nil, true},
		{"hourglass", nil, true},
		{"square in a square", nil, true},
		{"harlequin", nil, true},
		{"eight-point star", nil, true},
		{"courthouse steps", nil, true},
		{"diamond in quarters", options{"columns": int64(2), "rows": int64(2)}, true},
		{"five-piece spiral", options{"columns": int64(1), "rows": int64(1)}, false},
		{"sunburst", nil, true},
		{"diagonal stripes", options{"slivers": "keep"}, false},
		{"chevron", options{"columns": int64(3), "slivers": "keep", "slope": "0 deg"}, true},
	} {
		t.Run(fmt.Sprint(c.layout, " ", c.options), func(t *testing.T) {
			for _, fr := range frames {
				f := divide(t, layout(t, c.layout), fr.frame, 1_234_567, c.options)
				require.True(t, mapsOntoItself(f, fr.frame, true), "half a turn, %s", fr.name)
				require.Equal(t, c.mirrored, mapsOntoItself(f, fr.frame, false), "mirrored, %s", fr.name)
			}
		})
	}
}

// mapsOntoItself reports whether the front comes out the same after half a
// turn, or mirrored left for right, within 4 nm for each corner: 1.5 nm for
// a slanted edge and what an odd nanometre of the gap moves a corner by.
func mapsOntoItself(f fronts.Front, frame geometry.Rect, turned bool) bool {
	image := func(p geometry.Point) geometry.Point {
		p.X = frame.Min.X + frame.Max.X - p.X
		if turned {
			p.Y = frame.Min.Y + frame.Max.Y - p.Y
		}
		return p
	}
	for _, p := range f.Panels {
		found := false
		for _, q := range f.Panels {
			found = found || sameCorners(p.Outline, q.Outline, image)
		}
		if !found {
			return false
		}
	}
	return true
}

func sameCorners(o, p geometry.Outline, image func(geometry.Point) geometry.Point) bool {
	const within = 4 * geometry.Nanometre
	if len(o.Outer) != len(p.Outer) {
		return false
	}
	for _, a := range o.Outer.Points() {
		found := false
		for _, b := range p.Outer.Points() {
			d := image(a).Sub(b)
			found = found || d.X.Abs() <= within && d.Y.Abs() <= within
		}
		if !found {
			return false
		}
	}
	return true
}
