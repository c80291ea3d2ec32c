package sums_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/fronts"
	"panelry/layouts/sums"
)

func resize(t *testing.T, d layouts.Design, wish sums.ResizeWish) (layouts.Design, map[string]sums.Changed, string) {
	t.Helper()
	text, changes, err := sums.Resize(d, wish, nil)
	require.NoError(t, err)
	next, err := layouts.Read(bytes.NewReader(text), nil)
	require.NoError(t, err, string(text))
	byKey := map[string]sums.Changed{}
	for _, c := range changes {
		byKey[c.What] = c
	}
	return next, byKey, string(text)
}

func TestHandy(t *testing.T) {
	for text, c := range map[string]struct {
		unit geometry.Unit
		want string
	}{
		"1/8 in": {geometry.Millimetres, "3 mm"}, "1/16 in": {geometry.Millimetres, "1.5 mm"}, "1/4 in": {geometry.Millimetres, "6 mm"},
		"3 mm": {geometry.Inches, "1/8 in"}, "1.5 mm": {geometry.Inches, "1/16 in"}, "0.2 mm": {geometry.Inches, "1/32 in"}, "0 mm": {geometry.Inches, "0 in"},
	} {
		l, err := geometry.ParseLength(text, geometry.NoUnit)
		require.NoError(t, err)
		require.Equal(t, c.want, sums.Handy(l, c.unit).Format(c.unit), text)
	}
}

// ISO 216: A6 is 105 x 148 mm. Everything that was in inches stays as large
// as it was, but for margin and gap.
func TestResizeToAnotherSystem(t *testing.T) {
	d := design(t, "diagonal halves", "[[papers]]", "# a paper\n[[papers]]")
	next, changes, text := resize(t, d, sums.ResizeWish{Size: "ISO A6"})
	require.Equal(t, geometry.Millimetres, next.Units)
	require.Equal(t, geometry.Size{W: 105 * geometry.Millimetre, H: 148 * geometry.Millimetre}, next.Card.Size)
	require.Equal(t, 3*geometry.Millimetre, next.Front.Margin)
	require.Equal(t, 3*geometry.Millimetre, next.Front.Gap)
	for i, p := range next.Papers {
		require.Equal(t, d.Papers[i].Sheet, p.Sheet)
	}
	require.Equal(t, 3, strings.Count(text, "# a paper"), "comments stay")
	require.Equal(t, sums.Changed{What: "front.gap", From: `"1/8"`, To: `"3 mm"`, Why: "the nearest handy length"}, changes["front.gap"])
	require.Equal(t, `"12 x 12 in"`, changes["paper base: sheet"].To)
	require.Contains(t, changes, "panel A1a")

	// And back again.
	back, _, _ := resize(t, next, sums.ResizeWish{Size: "4 1/4 x 5 1/2 in"})
	require.Equal(t, d.Card.Size, back.Card.Size)
	require.Equal(t, d.Front.Gap, back.Front.Gap)
	require.Equal(t, d.Papers[0].Sheet, back.Papers[0].Sheet)
}

func TestResizeSheets(t *testing.T) {
	d := design(t, "grid", `sheet = "12 x 12"`, "sheet = \"12 x 12\"\nmeasured = \"11.9 x 12\"")
	next, changes, text := resize(t, d, sums.ResizeWish{Size: "ISO A6", Sheet: "ISO A4"})
	for _, p := range next.Papers {
		require.Equal(t, geometry.Size{W: 210 * geometry.Millimetre, H: 297 * geometry.Millimetre}, p.Sheet)
	}
	require.NotContains(t, text, "measured")
	require.Equal(t, "it was the true size of the old sheet", changes["paper first: measured"].Why)
}

// A paper sold in several sizes keeps them; with another sheet, their prices
// go.
func TestResizeSizesOfSheets(t *testing.T) {
	d := design(t, "grid", `sheet = "12 x 12"`, "sheet = [\"12 x 12\", \"6 x 6 1/2\"]\nprice = [1, \"0.50\"]")
	next, _, _ := resize(t, d, sums.ResizeWish{Size: "ISO A6"})
	require.Equal(t, geometry.Millimetres, next.Units)
	for i, p := range next.Papers {
		require.Equal(t, d.Papers[i].Sizes, p.Sizes)
	}
	next, _, text := resize(t, d, sums.ResizeWish{Size: "ISO A6", Sheet: "ISO A4"})
	require.NotContains(t, text, "price")
	require.Empty(t, next.Papers[0].Sizes)
}

// A long card: 2 x 2 cells of 2 1/8 x 2 3/4 would become 4 1/4 x 1 3/4.
func TestResizeChangesCells(t *testing.T) {
	next, changes, _ := resize(t, design(t, "grid"), sums.ResizeWish{Size: "8 1/2 x 3 1/2 in"})
	require.Equal(t, 3, next.Front.Options.Count("columns"), "cells of 2 5/6 x 3 1/2")
	require.Equal(t, 1, next.Front.Options.Count("rows"))
	require.Contains(t, changes["front.columns"].Why, "2 x 2 would make the cells 214 % wider for their height")
	// Drawn cuts cannot be stretched.
	next, changes, _ = resize(t, design(t, "diagonal halves", `gap = "1/8"`, "gap = \"1/8\"\nslant = ['\\/', '/\\']"), sums.ResizeWish{Size: "8 1/2 x 3 1/2 in"})
	require.Equal(t, 2, next.Front.Options.Count("columns"))
	require.Contains(t, changes["front.columns"].Why, "but slant is drawn for 2 x 2")
	// A card of the same shape keeps its cells.
	next, _, _ = resize(t, design(t, "grid"), sums.ResizeWish{Size: "5 x 6 1/2 in"})
	require.Equal(t, 2, next.Front.Options.Count("columns"))
}

func TestResizeKeepsLandscape(t *testing.T) {
	d := design(t, "grid", `size = "4 1/4 x 5 1/2"`, `size = "5 1/2 x 4 1/4"`)
	next, _, _ := resize(t, d, sums.ResizeWish{Size: "US A7"})
	require.Greater(t, next.Card.Size.W, next.Card.Size.H)
}

func TestResizeRefuses(t *testing.T) {
	d := design(t, "grid")
	for name, c := range map[string]struct {
		wish sums.ResizeWish
		want string
	}{
		"no such size":  {sums.ResizeWish{Size: "A6"}, "A6 can be ISO A6"},
		"far too small": {sums.ResizeWish{Size: "1/4 x 1/4 in"}, "on 1/4 x 1/4 in the design does not work as it is: "},
		"no such sheet": {sums.ResizeWish{Size: "US A7", Sheet: "ISO Z4"}, `"ISO Z4"`},
	} {
		t.Run(name, func(t *testing.T) {
			_, _, err := sums.Resize(d, c.wish, nil)
			require.ErrorContains(t, err, c.want)
		})
	}
}

// The size is turned as the design's orientation says before the cells are
// looked at.
func TestResizeKeepsUpright(t *testing.T) {
	d := design(t, "grid", `paper = "base"`, "paper = \"base\"\norientation = \"upright\"")
	next, changes, _ := resize(t, d, sums.ResizeWish{Size: "7 x 5 in"})
	require.Equal(t, geometry.Size{W: 5 * in, H: 7 * in}, next.Card.Size)
	require.Equal(t, 2, next.Front.Options.Count("columns"))
	require.Equal(t, "the card stays upright", changes["card"].Why)
}

// Every layout, onto cards of both systems and of other shapes.
func TestResizeEveryLayout(t *testing.T) {
	for _, l := range fronts.All() {
		if l.Name == "own shapes" {
			continue
		}
		for _, size := range []string{"US A7", "ISO A6", "210 x 99 mm", "6 x 6 in"} {
			t.Run(l.Name+" "+size, func(t *testing.T) {
				resize(t, design(t, l.Name), sums.ResizeWish{Size: size})
			})
		}
	}
}

func BenchmarkResize(b *testing.B) {
	d := design(b, "diagonal halves")
	for b.Loop() {
		if _, _, err := sums.Resize(d, sums.ResizeWish{Size: "ISO A6"}, nil); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSolve(b *testing.B) {
	d := design(b, "diagonal halves")
	for b.Loop() {
		if _, err := sums.Solve(d, sums.Target{Panel: "A1a", Size: geometry.Size{W: inches(1.9), H: inches(2.5)}}); err != nil {
			b.Fatal(err)
		}
	}
}
