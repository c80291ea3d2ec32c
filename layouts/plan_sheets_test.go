package layouts_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
)

func sheetOf(t require.TestingT, kit layouts.Kit, paper string) layouts.Sheet {
	for _, s := range kit.Sheets {
		if s.Paper.Name == paper {
			return s
		}
	}
	require.Failf(t, "no such sheet", paper)
	return layouts.Sheet{}
}

// The edge and the spacing of a paper's sheets: the design's, the paper's
// own before it; with bleed the edge is at least 3/8 in plus the bleed, the
// spacing at least two bleeds.
func TestRoom(t *testing.T) {
	for _, tt := range []struct {
		name, sheets, clay string
		edge, spacing      geometry.Length
	}{
		{"the design's", `spacing = "1/32"`, "", in(16), in(2)},
		{"the tool's", "", "", in(16), in(4)},
		{"the paper's edge", "", `edge = "1/2"`, in(32), in(4)},
		{"the paper's both", "", "edge = 0\nspacing = 0", 0, 0},
		{"bleed", `bleed = "1/8"`, "", in(24 + 8), in(16)},
		{"little bleed", `bleed = "1/64"`, "", in(24 + 1), in(4)},
		{"bleed on a paper without edge", `bleed = "1/8"`, "edge = 0\nspacing = 0", in(24 + 8), in(16)},
		{"bleed on a paper with a wide edge", `bleed = "1/8"`, "edge = 1\nspacing = \"1/2\"", in(64 + 8), in(32)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			text := changed("edge = \"1/4\"\n", "edge = \"1/4\"\n"+tt.sheets+"\n") + tt.clay
			s := sheetOf(t, mustPlan(t, text), "clay")
			require.Equal(t, tt.edge, s.Edge)
			require.Equal(t, tt.spacing, s.Spacing)
			requireRoom(t, s)
		})
	}
}

// requireRoom holds a sheet's pieces against its edge and spacing.
func requireRoom(t require.TestingT, s layouts.Sheet) {
	inside, err := geometry.RectFromSize(geometry.Point{}, s.Size).Inset(s.Edge)
	require.NoError(t, err)
	for i, p := range s.Pieces {
		require.True(t, inside.ContainsRect(p.Outline.Bounds()), p.ID)
		for _, q := range s.Pieces[:i] {
			require.True(t, geometry.Apart(p.Outline, q.Outline, s.Spacing), "%s and %s", p.ID, q.ID)
		}
	}
}

func TestNoBleedNothingPrinted(t *testing.T) {
	for _, s := range mustPlan(t, sample).Sheets {
		require.False(t, s.Printed())
		require.Empty(t, s.Marks)
		for _, p := range s.Pieces {
			require.Empty(t, p.Print)
		}
	}
}

// Bleeds up to the most that is allowed, upright and on a slant: corners
// that point at the sheet's side must not print past it or on a mark.
func TestBleed(t *testing.T) {
	for _, tt := range []struct{ name, bleed, direction, layout string }{
		{"1/8 in", `"1/8"`, "upright", "grid"},
		{"1/8 in, halves", `"1/8"`, "upright", "diagonal halves"},
		{"slanted", `"1/2"`, "45 deg", "grid"},
		{"slanted halves", `"1/2"`, "33.2 deg", "diagonal halves"},
		{"the most", `1`, "45 deg", "grid"},
		{"a hair", `"0.01 mm"`, "20 deg", "diagonal halves"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			text := changed("edge = \"1/4\"\n", "bleed = "+tt.bleed+"\n", `"diagonal halves"`, `"`+tt.layout+`"`, `cards = 2`, `cards = 4`,
				`gap = "1/8"`, "gap = \"1/8\"\ndirection = \""+tt.direction+"\"", `name = "clay"`, "name = \"clay\"\npattern = \"one-way\"")
			for _, s := range mustPlan(t, text).Sheets {
				requireRoom(t, s)
				requirePrint(t, s)
				requireMarks(t, s)
			}
		})
	}
}

// requirePrint holds what is printed against the pieces and the sheet. On
// straight sides the print goes out the whole bleed, on every one of them.
func requirePrint(t require.TestingT, s layouts.Sheet) {
	sheet := geometry.RectFromSize(geometry.Point{}, s.Size)
	for _, p := range s.Pieces {
		require.Len(t, p.Print, 1, p.ID)
		print := p.Print[0]
		require.NoError(t, print.Validate())
		require.True(t, sheet.ContainsRect(print.Bounds()), p.ID)
		points := p.Outline.Outer.Points()
		for i, a := range points {
			b := points[(i+1)%len(points)]
			out := leftOf(a, b, s.Bleed-geometry.Micrometre)
			require.True(t, print.Contains(a.Add(out)) && print.Contains(b.Add(out)), "%s: side %d", p.ID, i)
		}
		for _, q := range s.Pieces {
			require.True(t, p.ID == q.ID || geometry.Apart(print, q.Outline, 0), "%s prints on %s", p.ID, q.ID)
		}
	}
}

// leftOf returns the way straight out of an outline's side, which runs
// clockwise.
func leftOf(a, b geometry.Point, by geometry.Length) geometry.Vector {
	d := b.Sub(a)
	scale := float64(by) / d.Len()
	return geometry.Vector{X: geometry.Length(float64(d.Y) * scale), Y: geometry.Length(-float64(d.X) * scale)}
}

// requireMarks: three marks on the sheet, none on a print, and not the same
// set when the sheet is turned by half.
func requireMarks(t require.TestingT, s layouts.Sheet) {
	require.Len(t, s.Marks, 3)
	sheet := geometry.RectFromSize(geometry.Point{}, s.Size).Outline()
	corners := map[geometry.Point]bool{}
	for _, m := range s.Marks {
		points := m.Points()
		corners[points[1]] = true
		for i, a := range points {
			require.True(t, sheet.InteriorContains(a), "%v", a)
			if i == 0 {
				continue
			}
			stroke := thin(points[i-1], a)
			for _, p := range s.Pieces {
				for _, print := range p.Print {
					require.True(t, geometry.Apart(stroke, print, 0), "a mark at %v on %s", a, p.ID)
				}
			}
		}
	}
	require.Len(t, corners, 3)
	for at := range corners {
		turned := geometry.Point{X: s.Size.W - at.X, Y: s.Size.H - at.Y}
		if !corners[turned] {
			return
		}
	}
	require.Fail(t, "the marks look the same when the sheet is turned by half")
}

// thin is a level or upright stroke of 0.1 mm, the line that sheets are drawn
// with (interfaces, SVG sheets).
func thin(a, b geometry.Point) geometry.Outline {
	half := geometry.Vector{X: 50 * geometry.Micrometre, Y: 50 * geometry.Micrometre}
	low := geometry.Point{X: min(a.X, b.X), Y: min(a.Y, b.Y)}
	high := geometry.Point{X: max(a.X, b.X), Y: max(a.Y, b.Y)}
	return geometry.Rect{Min: low.Add(half.Neg()), Max: high.Add(half)}.Outline()
}

// The fold of a side fold of 100 x 140 mm stands in the middle of a base of
// 200 x 140 mm, which is as wide as fits on A4, and so lies turned.
func TestFolds(t *testing.T) {
	kit := mustPlan(t, strips)
	for _, id := range []string{"01-base", "02-base"} {
		base := pieceNamed(t, kit, id)
		require.Len(t, base.Folds, 1)
		line := base.Folds[0].Line.Points()
		from := []geometry.Point{{X: 100 * geometry.Millimetre}, {X: 100 * geometry.Millimetre, Y: 140 * geometry.Millimetre}}
		outline := geometry.RectFromSize(geometry.Point{}, geometry.Size{W: 200 * geometry.Millimetre, H: 140 * geometry.Millimetre}).Outline().Outer.Points()
		requireMoved(t, motion{base.Over, base.Turn}, append(outline, from...), append(base.Outline.Outer.Points(), line...), 1)
		require.Equal(t, "mountain", base.Folds[0].Kind)
	}
}
