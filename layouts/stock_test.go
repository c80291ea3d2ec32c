package layouts_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/layouts"
)

func stockFrom(t require.TestingT, text string) layouts.Stock {
	s, err := layouts.ReadStock(strings.NewReader(text), noScraps)
	require.NoError(t, err)
	return s
}

// held writes stock tables: "sheets moss 12x12in 3".
func held(lines ...string) string {
	text := ""
	for _, line := range lines {
		f := strings.Fields(line)
		text += fmt.Sprintf("[[%s]]\npaper = %q\nsize = %q\ncount = %s\n", f[0], f[1], f[2], f[3])
	}
	return text
}

func TestReadStock(t *testing.T) {
	s := stockFrom(t, held("offcuts moss 40x50mm 1", "sheets moss 12x12in 2", "sheets clay 6x6in 0", "sheets moss 12x12in 1")+"[[sheets]]\npaper = \"a \\\"b\\\"\"\nsize = \"ISO A4\"\n")
	require.Equal(t, []layouts.Held{
		{Paper: `a "b"`, Size: geometry.Size{W: 210 * geometry.Millimetre, H: 297 * geometry.Millimetre}, Count: 1},
		{Paper: "moss", Size: geometry.Size{W: 12 * geometry.Inch, H: 12 * geometry.Inch}, Count: 3},
		{Paper: "moss", Size: geometry.Size{W: 40 * geometry.Millimetre, H: 50 * geometry.Millimetre}, Count: 1, Offcut: true},
	}, s.Held)
	require.Equal(t, s, stockFrom(t, string(s.TOML())))
	require.Equal(t, string(s.TOML()), string(stockFrom(t, string(s.TOML())).TOML()))
}

func TestReadStockRefuses(t *testing.T) {
	for name, tt := range map[string]struct{ text, want string }{
		"unknown key":   {"[[sheets]]\npaper = \"a\"\nsice = \"1x1in\"\nsize = \"1x1in\"", `3:1: sheets 1: sice: no such key; did you mean "size"?`},
		"unknown table": {"[[sheet]]\npaper = \"a\"", `1:3: sheet: no such key; did you mean "sheets"?`},
		"no paper":      {"[[sheets]]\nsize = \"1x1in\"", "1:3: sheets 1: paper: the paper has no name"},
		"no size":       {"[[offcuts]]\npaper = \"a\"", `1:3: offcuts 1: size: write a size in quotes, like "4 1/4 x 5 1/2 in" or "ISO A6"`},
		"no unit":       {"[[sheets]]\npaper = \"a\"\nsize = \"12 x 12\"", `3:1: sheets 1: size:`},
		"count":         {"[[sheets]]\npaper = \"a\"\nsize = \"1x1in\"\ncount = -1", "4:1: sheets 1: count: -1: write a whole number from 0 to 50000"},
		"too large":     {"[[sheets]]\npaper = \"a\"\nsize = \"1x4000mm\"", "3:1: sheets 1: size: 1 x 4000 mm: each side must be more than 0 and at most 3000 mm"},
		"no TOML":       {"sheets = \n", "this is not TOML"},
		"a text":        {"sheets = 3\n", "1:10: sheets: each size is a table; write [[sheets]] on a line of its own and its keys below"},
		"one table":     {"[offcuts]\npaper = \"a\"\nsize = \"1x1in\"", "1:2: offcuts: each size is a table; write [[offcuts]] on a line of its own and its keys below"},
		"units":         {"units = \"cm\"", `1:1: units: "cm" is not known here; write "in" or "mm"; did you mean "mm"?`},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := layouts.ReadStock(strings.NewReader(tt.text), noScraps)
			var problems layouts.Problems
			require.True(t, errors.As(err, &problems))
			require.Contains(t, err.Error(), tt.want)
			requirePlainWords(t, err.Error())
		})
	}
}

func FuzzReadStock(f *testing.F) {
	f.Add(held("sheets moss 12x12in 3", "offcuts moss 40x50mm 1"))
	f.Add("units = \"mm\"\n[[sheets]]\npaper = \"a\"\nsize = \"3,5 x 1/2\"")
	f.Add("sheets = [{paper = \"a\", size = \"ISO A4\"}]")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := layouts.ReadStock(strings.NewReader(text), noScraps)
		if err != nil {
			requirePlainWords(t, strings.ReplaceAll(err.Error(), text, ""))
			return
		}
		require.Equal(t, s, stockFrom(t, string(s.TOML())))
	})
}

// strips' panels are 20 and 36 mm by 120 mm; a base of 200 x 140 mm goes twice
// on A4, once where it must lie turned, and four times on A3.
func TestCardsFrom(t *testing.T) {
	lots := held("sheets moss 210x297mm 40", "sheets clay 210x297mm 40")
	for name, tt := range map[string]struct {
		stock string
		want  layouts.Most
	}{
		"two on A4":         {held("sheets oat 210x297mm 3") + lots, layouts.Most{Cards: 6, Bound: 6, Proved: true, Short: "oat"}},
		"four on A3":        {held("sheets oat 420x297mm 3") + lots, layouts.Most{Cards: 12, Bound: 12, Proved: true, Short: "oat"}},
		"no clay":           {held("sheets oat 210x297mm 3", "sheets moss 210x297mm 3"), layouts.Most{Bound: 0, Proved: true, Short: "clay"}},
		"base too large":    {held("sheets oat 199x199mm 3") + lots, layouts.Most{Bound: 0, Proved: true, Short: "oat"}},
		"turned":            {held("sheets oat 199x297mm 3") + lots, layouts.Most{Cards: 3, Bound: 3, Proved: true, Short: "oat"}},
		"an offcut of clay": {held("sheets oat 210x297mm 9", "sheets moss 210x297mm 9", "offcuts clay 72x120mm 1"), layouts.Most{Cards: 2, Bound: 2, Proved: true, Short: "clay"}},
	} {
		t.Run(name, func(t *testing.T) {
			most, err := layouts.CardsFrom(context.Background(), mustRead(t, strips), stockFrom(t, tt.stock))
			require.NoError(t, err)
			require.Equal(t, tt.want, most)
		})
	}
}

// Every number up to the one found can be made of the stock alone, and none
// beyond the bound; looked at one by one.
func TestCardsFromOneByOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.SampledFrom([]string{"210x297mm", "100x130mm", "60x125mm", "297x420mm"})
		count := rapid.IntRange(0, 3)
		line := func(table, paper string) string {
			return fmt.Sprintf("%s %s %s %d", table, paper, size.Draw(t, "size"), count.Draw(t, "count"))
		}
		s := stockFrom(t, held("sheets oat 297x420mm 3", line("sheets", "moss"), line("offcuts", "moss"), line("sheets", "clay"), line("offcuts", "clay")))
		d := mustRead(t, changedIn(strips, `"moss", "clay"]`, `"moss", "clay"]`, "cards = 2", "cards = 2\nplan = \"in turn\""))
		most, err := layouts.CardsFrom(context.Background(), d, s)
		require.NoError(t, err)
		require.LessOrEqual(t, most.Cards, most.Bound)
		for cards := 1; cards <= most.Bound+2; cards++ {
			_, err := layouts.Plan(context.Background(), d.WithCards(cards).UseStock(s, true))
			if cards <= most.Cards {
				require.NoError(t, err, "%d cards", cards)
			}
			if cards > most.Bound {
				require.Error(t, err, "%d cards", cards)
			}
		}
	})
}

// Nothing is made of nothing: what the pieces cover and what is left are no
// more than what was there, sheets are taken from the stock first, and new
// ones are counted and never fewer than the bound.
func TestLeftOver(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		count := rapid.IntRange(0, 4)
		text := held(fmt.Sprintf("sheets oat 210x297mm %d", count.Draw(t, "oat")), fmt.Sprintf("sheets moss 210x297mm %d", count.Draw(t, "moss")),
			fmt.Sprintf("offcuts moss 90x130mm %d", count.Draw(t, "offcuts")), "sheets fern 1x1in 7")
		s := stockFrom(t, text)
		kit, err := layouts.Plan(context.Background(), mustRead(t, changedIn(strips, "cards = 2", fmt.Sprintf("cards = %d", rapid.IntRange(1, 12).Draw(t, "cards")))).UseStock(s, false))
		require.NoError(t, err)
		left := kit.LeftOver(s)
		for _, use := range kit.Stock {
			area := func(s layouts.Stock) (sum float64) {
				for _, h := range s.Held {
					if h.Paper == use.Paper.Name {
						sum += float64(h.Count) * h.Size.W.In(geometry.Millimetres) * h.Size.H.In(geometry.Millimetres)
					}
				}
				return sum
			}
			pieces := 0.0
			for _, sheet := range kit.Sheets {
				for _, p := range sheet.Pieces {
					if sheet.Paper.Name == use.Paper.Name {
						pieces += p.Outline.Area().SquareMM()
					}
				}
			}
			bought := float64(use.New) * use.Paper.Sheet.W.In(geometry.Millimetres) * use.Paper.Sheet.H.In(geometry.Millimetres)
			require.LessOrEqual(t, area(left)+pieces, area(s)+bought+1e-6, use.Paper.Name)
			require.GreaterOrEqual(t, use.New, use.NewBound)
			require.LessOrEqual(t, use.New, use.Sheets)
		}
		require.Contains(t, left.Held, layouts.Held{Paper: "fern", Size: geometry.Size{W: geometry.Inch, H: geometry.Inch}, Count: 7})
		require.Equal(t, left, stockFrom(t, string(left.TOML())))
	})
}

// Clay is the middle strip of 36 x 120 mm, alone on A4, laid level: below it
// 210 x 261 mm stay whole, which is more than the 174 x 297 beside it upright,
// and 90 x 36 beside it.
func TestOffcuts(t *testing.T) {
	s := stockFrom(t, "units = \"mm\"\n"+held("sheets clay 210x297mm 1"))
	kit, err := layouts.Plan(context.Background(), mustRead(t, changedIn(strips, "cards = 2", "cards = 1")).UseStock(s, false))
	require.NoError(t, err)
	var clay []layouts.Held
	for _, h := range kit.LeftOver(s).Held {
		if h.Paper == "clay" {
			clay = append(clay, h)
		}
	}
	require.ElementsMatch(t, []geometry.Size{{W: 210 * geometry.Millimetre, H: 261 * geometry.Millimetre}, {W: 90 * geometry.Millimetre, H: 36 * geometry.Millimetre}}, []geometry.Size{clay[0].Size, clay[1].Size})
}

// noScraps opens the one outline that these tests have: an oblong of 100 x 200
// mm without its lower right quarter.
func noScraps(name string, _ []byte) ([]geometry.Outline, error) {
	if name != "scrap.svg" {
		return nil, fmt.Errorf("there is no file %s", name)
	}
	mm := geometry.Millimetre
	at := func(x, y geometry.Length) geometry.Point { return geometry.Point{X: x * mm, Y: y * mm} }
	return []geometry.Outline{geometry.OutlineFromPoints(at(5, 5), at(105, 5), at(105, 105), at(55, 105), at(55, 205), at(5, 205))}, nil
}

// An offcut with an outline is used before new sheets, inside its outline, and
// is gone afterwards.
func TestScraps(t *testing.T) {
	s := stockFrom(t, "units = \"mm\"\n[[offcuts]]\npaper = \"clay\"\noutline = \"scrap.svg\"\ncount = 2\n")
	require.Equal(t, s, stockFrom(t, string(s.TOML())))
	kit, err := layouts.Plan(context.Background(), mustRead(t, changedIn(strips, "cards = 2", "cards = 1")).UseStock(s, false))
	require.NoError(t, err)
	scraps := 0
	for _, sheet := range kit.Sheets {
		if len(sheet.Scrap.Outer) == 0 {
			continue
		}
		scraps++
		for _, p := range sheet.Pieces {
			for _, corner := range p.Outline.Outer.Points() {
				require.True(t, sheet.Scrap.Contains(corner))
			}
		}
	}
	require.Equal(t, 1, scraps)
	left := kit.LeftOver(s)
	for _, h := range left.Held {
		if h.File != "" {
			require.Equal(t, 1, h.Count)
		}
	}
	for text, says := range map[string]string{
		"[[offcuts]]\npaper = \"clay\"\noutline = \"none.svg\"":                     "there is no file none.svg",
		"[[offcuts]]\npaper = \"clay\"\noutline = 3":                                "write the name of an SVG file",
		"[[sheets]]\npaper = \"clay\"\noutline = \"scrap.svg\"":                     "whole sheets have a size",
		"[[offcuts]]\npaper = \"clay\"\noutline = \"scrap.svg\"\nsize = \"ISO A4\"": "leave one of the two out",
	} {
		_, err := layouts.ReadStock(strings.NewReader(text), noScraps)
		require.ErrorContains(t, err, says)
	}
}
