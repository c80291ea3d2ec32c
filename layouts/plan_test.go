package layouts_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
)

// A base of 4 1/4 x 11 in (common practice, no source) does not go on a
// Letter sheet with 1/4 in of edge: 8 1/2 - 1/2 by 11 - 1/2 in are left.
// Edge to edge it goes on it twice.
func TestBaseOnLetter(t *testing.T) {
	design := changed(`size = "4 x 6 in"`, `size = "US A2"`, `base = "flat"`, `base = "top fold"`,
		"name = \"oat\"\nsheet = \"12 x 12 in\"", "name = \"oat\"\nsheet = \"Letter\"", `cards = 2`, `cards = 3`, `edge = "1/4"`, ``)
	require.Equal(t, `19:1: papers 1 (oat): sheet: piece 01-base fits on no sheet: it is 4 1/4 x 11 in, and a sheet of 8 1/2 x 11 in has 8 x 10 1/2 in to use; use a larger sheet or a smaller edge`,
		planError(t, design))

	kit := mustPlan(t, changedIn(design, `sheet = "Letter"`, "sheet = \"Letter\"\nedge = 0\nspacing = 0"))
	oat := kit.Stock[0]
	require.Equal(t, 2, oat.Sheets)
	require.Equal(t, 3, oat.Pieces)
	require.Len(t, kit.Sheets[0].Pieces, 2)
	require.InDelta(t, 100, kit.Sheets[0].UsedPercent(), 1e-9)
	require.InDelta(t, 75, oat.UsedPercent, 1e-9) // three of four halves of two sheets
}

func TestPlanErrors(t *testing.T) {
	for _, tt := range []struct {
		name, text, want string
	}{
		{"too many pieces", changed(`cards = 2`, `cards = 9000`),
			`14:1: batch.cards: 9000 cards of 8 panels are 81000 pieces with bases and spares; at most 50000 go in one kit, so make it in parts`},
		{"no such panel", changed(`papers = ["moss", "clay"]`, `papers = {A1c = "moss", rest = "clay"}`),
			`12:11: front.papers.A1c: there is no such panel; the panels are A1a to B2b`},
		{"no such panel, and one left out", changed(`papers = ["moss", "clay"]`, `papers = {A1c = "moss"}`),
			`12:11: front.papers.A1c: there is no such panel; the panels are A1a to B2b`},
		{"no such panel among many", changed(`papers = ["moss", "clay"]`, "papers = {A1d = \"moss\", rest = \"clay\"}\ncolumns = 3\nrows = 3"),
			`12:11: front.papers.A1d: there is no such panel; did you mean "A1a"?`},
		{"panel left out", changed(`papers = ["moss", "clay"]`, `papers = {A1a = "moss"}`),
			`12:1: front.papers: panel A1b has no paper; name one, or write rest = "..." for all others`},
		{"edge eats the sheet", withPaper(`edge = 6`), `25:1: papers 3 (clay): sheet: an edge of 6 in leaves nothing of a sheet of 12 x 12 in`},
		{"panel too large", withPaper(`measured = "1 x 1 in"`),
			// The half of a cell of (3 1/2 - 1/8)/2 by (5 1/2 - 1/8)/2 in, w x h = 1.6875 x
			// 2.6875, d = 3.17335; with a gap of 1/8 in each leg loses d/16h and d/16w:
			// 1.6137 x 2.56997 (trade-facts section 6, case 2).
			`25:1: papers 3 (clay): sheet: piece 01-A1b fits on no sheet: it is 1.6137 x 2.57 in, and a sheet of 1 x 1 in has 1/2 x 1/2 in to use; use a larger sheet or a smaller edge`},
	} {
		t.Run(tt.name, func(t *testing.T) { require.Equal(t, tt.want, planError(t, tt.text)) })
	}
}

// What a layout refuses is told at the option. The sentences are the
// layout's own; here only what must be in them.
func TestFrontErrors(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		want       []string
	}{
		// 4 in less two margins of 1/4 in is 3 1/2 in; two columns with a gap of 4 in
		// are 1/4 in short each, and 1 mm more for the least of panels: 0.2894 in.
		{"gap eats the panels", changed(`gap = "1/8"`, `gap = 4`), []string{"front.gap: panel A1", "0.2894 in", "use a smaller gap"}},
		// Strips of (89 - 59)/60 = 0.5 mm = 0.0197 in.
		{"too narrow", changed(`size = "4 x 6 in"`, `size = "89 x 100 mm"`, `layout = "diagonal halves"`, "layout = \"strips\"\ncount = 60", `margin = "1/4"`, `margin = 0`, `gap = "1/8"`, `gap = "1 mm"`),
			[]string{"front.gap: panel 1", "0.0197", "0.0394 in each way", "use a smaller gap"}},
		{"slant row", changed(`gap = "1/8"`, `slant = ['\/', '/']`), []string{"front.slant: row 2", "1 cut", "2"}},
		{"slant rows", changed(`gap = "1/8"`, `slant = ['\/']`), []string{"front.slant", "1 row", "2"}},
		{"slant letter", changed(`gap = "1/8"`, `slant = ['\x', '/\']`), []string{"front.slant: row 1", `"x"`}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			text := planError(t, tt.text)
			for _, part := range tt.want {
				require.Contains(t, text, part)
			}
		})
	}
}

// 10,000 cards of 4 panels and a base are exactly the 50,000 pieces allowed;
// a spare set is four more.
func TestPieceLimit(t *testing.T) {
	grid := changed(`"diagonal halves"`, `"grid"`, `cards = 2`, "cards = 10000")
	require.Equal(t, layouts.MostPieces, mustPlan(t, grid).Totals.Pieces)
	require.Contains(t, planError(t, changedIn(grid, "cards = 10000", "cards = 10000\nspares = 1")), "are 50004 pieces")
}

func TestContextEnds(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := layouts.Plan(ctx, mustRead(t, sample))
	require.ErrorIs(t, err, context.Canceled)
}

func TestNames(t *testing.T) {
	grid := changed(`"diagonal halves"`, `"grid"`, `gap = "1/8"`, "columns = 1\nrows = 2")
	for _, tt := range []struct {
		cards string
		want  []string // some of them
		count int
	}{
		{"cards = 7", []string{"07-A1", "07-A2", "07-base"}, 21},
		{"cards = 99", []string{"07-A1", "99-base"}, 297},
		{"cards = 100", []string{"007-A1", "100-A2", "100-base"}, 300},
		{"cards = 7\nspares = 2", []string{"07-A1", "S1-A1", "S2-A2"}, 25},
		{"cards = 1\nspares = 10", []string{"01-base", "S01-A1", "S10-A2"}, 23},
	} {
		t.Run(tt.cards, func(t *testing.T) {
			names := ids(mustPlan(t, changedIn(grid, `cards = 2`, tt.cards)))
			require.Len(t, names, tt.count)
			require.Len(t, slices.Compact(names), tt.count, "each once")
			require.Subset(t, names, tt.want)
		})
	}
	names := ids(mustPlan(t, changed(`cards = 2`, "cards = 7\nspares = 1")))
	require.Subset(t, names, []string{"07-A1a", "07-base", "S1-A1a", "S1-B2b"})
	require.NotContains(t, names, "S1-base") // spares are without bases
}

// Spare sets go on counting after the last card.
func TestCardNumbers(t *testing.T) {
	kit := mustPlan(t, changed(`cards = 2`, "cards = 2\nspares = 2"))
	require.Equal(t, 2, pieceNamed(t, kit, "02-base").Card)
	require.Equal(t, 3, pieceNamed(t, kit, "S1-A1a").Card)
	require.Equal(t, 4, pieceNamed(t, kit, "S2-B2b").Card)
}

// Front and frame by hand: 4 x 6 in with a margin of 1/4 in.
func TestPlanCard(t *testing.T) {
	card := mustPlan(t, sample).Card
	require.Equal(t, geometry.Size{W: in(256), H: in(384)}, card.Size)
	require.Equal(t, geometry.Rect{Min: geometry.Point{X: in(16), Y: in(16)}, Max: geometry.Point{X: in(240), Y: in(368)}}, card.Frame)
	require.Len(t, card.Panels, 8)
	for i, p := range card.Panels {
		require.Equal(t, []string{"moss", "clay"}[p.Role%2], p.Paper)
		require.NotEmpty(t, p.Kind)
		require.Equal(t, []string{"A1a", "A1b", "B1a", "B1b", "A2a", "A2b", "B2a", "B2b"}[i], p.Name)
	}
}

// The front of the issue: 4 1/4 x 5 1/2 in, margin 1/16, gap 1/8, 2 by 2
// cells of exactly 2 x 2 5/8 in (hand sum: 4 1/4 - 2/16 - 1/8 = 4 in and
// 5 1/2 - 2/16 - 1/8 = 5 1/4 in, halved); the halves' legs 1.92143 and
// 2.52187 in (trade-facts section 6, case 2, to five places).
func TestHandSums(t *testing.T) {
	kit := mustPlan(t, changed(`size = "4 x 6 in"`, `size = "US A2"`, `margin = "1/4"`, `margin = "1/16"`))
	across, down := kit.Card.Sums()
	terms := func(panel geometry.Length) []geometry.Length {
		return []geometry.Length{in(4), panel, in(8), panel, in(4)}
	}
	for i := range across {
		require.Equal(t, terms(in(128))[i], across[i].Length)
		require.Equal(t, terms(in(168))[i], down[i].Length)
	}
	require.Len(t, across, 5)
	require.Len(t, down, 5)
	for _, p := range kit.Card.Panels {
		size := p.Outline.Bounds().Size()
		require.InDelta(t, 1.92143, size.W.In(geometry.Inches), 6e-6)
		require.InDelta(t, 2.52187, size.H.In(geometry.Inches), 6e-6)
	}
}

func TestUnusedPaperAndShortage(t *testing.T) {
	kit := mustPlan(t, changed(`papers = ["moss", "clay"]`, `papers = ["moss"]`, "name = \"oat\"\n", "name = \"oat\"\nhave = 1\n", `cards = 2`, `cards = 5`))
	// Bases of 4 x 6 in on 11 1/2 x 11 1/2: two across (8 1/16), one down (two
	// would be 12 1/16), so two a sheet, and five take three sheets.
	require.Equal(t, []layouts.Warning{
		{Code: "short-of-sheets", Text: `paper "oat": 2 sheets needed, 1 at hand`, Where: "papers.oat"},
		{Code: "unused-paper", Text: `paper "clay" is not used`, Where: "papers.clay"},
	}, kit.Warnings)
	require.Empty(t, mustPlan(t, sample).Warnings)
}

// More effort never takes more sheets, no plan is under its bound, and the
// same seed gives the same sheets.
func TestEffort(t *testing.T) {
	quick, normal := mustPlan(t, withSheets("seed = 3")), mustPlan(t, withSheets("seed = 3\neffort = \"normal\""))
	require.Empty(t, quick.Warnings)
	for i, use := range normal.Stock {
		require.LessOrEqual(t, use.Sheets, quick.Stock[i].Sheets)
		require.GreaterOrEqual(t, use.Sheets, use.Least)
	}
	require.Equal(t, quick.Sheets, mustPlan(t, withSheets("seed = 3")).Sheets)
}

func TestPlanTwice(t *testing.T) {
	for _, text := range []string{sample, halves, strips, withSheets(`bleed = "1/16"`)} {
		d := mustRead(t, text)
		first, err := layouts.Plan(context.Background(), d)
		require.NoError(t, err)
		again, err := layouts.Plan(context.Background(), d)
		require.NoError(t, err)
		require.Equal(t, first.Sheets, again.Sheets)
		require.Equal(t, first.Kinds, again.Kinds)
		require.Equal(t, first.Card.Panels, again.Card.Panels)
		require.Equal(t, []any{first.Stock, first.Totals, first.Warnings}, []any{again.Stock, again.Totals, again.Warnings})
	}
}

// Sheets are numbered across the kit, in the order of the papers.
func TestSheetNumbers(t *testing.T) {
	kit := mustPlan(t, changed(`cards = 2`, `cards = 40`))
	var order []string
	for i, s := range kit.Sheets {
		require.Equal(t, i+1, s.Number)
		if len(order) == 0 || order[len(order)-1] != s.Paper.Name {
			order = append(order, s.Paper.Name)
		}
	}
	require.Equal(t, []string{"oat", "moss", "clay"}, order)
}

// Percentages by hand. Halves of 38 x 58 mm cells with a gap of 4 mm: d =
// sqrt(38^2 + 58^2) = 69.3397, each leg is scaled by k = 1 - 2 d/(38 x 58) =
// 0.937078 (trade-facts section 6, case 2), so eight halves have 4 x 38 x 58
// x k^2 = 7741.45 mm2, on a sheet of 210 x 297 = 62370 mm2.
func TestUsedPercent(t *testing.T) {
	kit := mustPlan(t, halves)
	require.Len(t, kit.Sheets, 2)
	require.InDelta(t, 100*100*140/62370.0, kit.Sheets[0].UsedPercent(), 1e-9)
	require.InDelta(t, 100*7741.45/62370, kit.Sheets[1].UsedPercent(), 1e-4)
	require.Equal(t, kit.Sheets[1].UsedPercent(), kit.Stock[1].UsedPercent)
	require.InDelta(t, (kit.Sheets[0].UsedPercent()+kit.Sheets[1].UsedPercent())/2, kit.Totals.UsedPercent, 1e-9)
}

func TestTotals(t *testing.T) {
	kit := mustPlan(t, changed(`cards = 2`, "cards = 3\nspares = 2"))
	totals := kit.Totals
	// 3 cards of 8 halves and a base, and 2 spare sets of 8.
	require.Equal(t, 3*9+2*8, totals.Pieces)
	require.Equal(t, 3, totals.Cards)
	require.Equal(t, 2, totals.Spares)
	require.Equal(t, len(kit.Kinds), totals.Kinds)
	require.Equal(t, len(kit.Sheets), totals.Sheets)
	sheets, pieces := 0, 0
	for _, use := range kit.Stock {
		sheets += use.Sheets
		pieces += use.Pieces
	}
	require.Equal(t, []int{totals.Sheets, totals.Pieces}, []int{sheets, pieces})
}

// The widest gap is told in steps of the ruler. By hand: a 4 x 6 in card with
// margins of 1/4 in has a frame of 3 1/2 x 5 1/2; two columns with a gap g
// are (3 1/2 - g)/2 wide, at least 1 mm where g is at most 3 1/2 - 0.0787 =
// 3.4213 in: on a ruler of 1/16 in that is 3 3/8.
func TestWidestGapIsTold(t *testing.T) {
	grid := changed(`"diagonal halves"`, `"grid"`)
	text := planError(t, changedIn(grid, `gap = "1/8"`, `gap = 4`))
	require.Contains(t, text, "11:1: front.gap: panel A1")
	require.Contains(t, text, "at this size and margin the widest gap is 3 3/8 in")
	widest := changedIn(grid, `gap = "1/8"`, `gap = "3 3/8"`)
	require.Len(t, mustPlan(t, widest).Card.Panels, 4)
	require.Contains(t, planError(t, changedIn(grid, `gap = "1/8"`, `gap = "3 7/16"`)), "the widest gap is 3 3/8 in")
}

// A kit that has no sheets still has the card and its kinds, to be shown.
func TestPlanKeepsTheCard(t *testing.T) {
	kit, err := layouts.Plan(context.Background(), mustRead(t, withPaper(`measured = "1 x 1 in"`)))
	require.Error(t, err)
	require.Len(t, kit.Card.Panels, 8)
	require.NotEmpty(t, kit.Kinds)
}

func TestWarnings(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		want       []string
	}{
		{"none", sample, nil},
		{"thin", changed(`gap = "1/8"`, `gap = "0.2 mm"`, `margin = "1/4"`, `margin = "0.1 mm"`), []string{"thin-margin", "thin-gap"}},
		{"no gap, no margin", changed(`gap = "1/8"`, `gap = 0`, `margin = "1/4"`, `margin = 0`), nil},
		{"bleed", changed(`edge = "1/4"`, "bleed = \"1/8\"\nspacing = \"1/16\"\nedge = \"1/4\""),
			[]string{"no-colour", "no-colour", "no-colour", "raised-edge", "raised-spacing", "raised-edge", "raised-spacing", "raised-edge", "raised-spacing"}},
		{"bleed for one paper", withPaper("bleed = \"1/8\"\nedge = 0\ncolour = \"#aabbcc\""), []string{"raised-edge"}},
		{"bleed for no paper", strings.ReplaceAll(changedIn(sample, `edge = "1/4"`, "bleed = \"1/8\"\nedge = \"1/4\""), "sheet = \"12 x 12 in\"", "sheet = \"12 x 12 in\"\nbleed = 0"), nil},
		{"drawing and pattern", withPaper("drawing = \"sprigs\"\npattern = \"two-way\""), []string{"drawing-turned"}},
		{"drawing alone", withPaper(`drawing = "sprigs"`), nil},
		{"bleed alone", changed(`edge = "1/4"`, `bleed = "1/8"`), []string{"no-colour", "no-colour", "no-colour"}},
		{"border", withPaper("edge = 0\nspacing = 0"), []string{"cut-on-border"}},
		{"border, with a trimmer", changedIn(withPaper("edge = 0\nspacing = 0"), `tool = "cutter"`, `tool = "trimmer"`), nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var codes []string
			for _, w := range mustPlan(t, tt.text).Warnings {
				codes = append(codes, w.Code)
			}
			require.Equal(t, tt.want, codes)
		})
	}
}

// With spacing 0 no stretch is cut twice, whatever way patterns would run on
// plain paper: pieces are not turned for a pattern that there is not.
func TestPlainPaperIsNotTurned(t *testing.T) {
	for _, direction := range []string{"upright", "radiating", "along", "30 deg"} {
		text := changedIn(sample, `"diagonal halves"`, `"grid"`, `gap = "1/8"`, "gap = \"1/8\"\ndirection = \""+direction+"\"", `edge = "1/4"`, "edge = \"1/4\"\nspacing = 0")
		for _, s := range mustPlan(t, text).Sheets {
			var outlines []geometry.Outline
			for _, p := range s.Pieces {
				outlines = append(outlines, p.Outline)
			}
			strokes := geometry.SharedEdges(outlines)
			for i, a := range strokes {
				for _, b := range strokes[:i] {
					require.False(t, alongside(a, b), "%s: %v and %v", direction, a, b)
				}
			}
		}
	}
}

// alongside reports whether two straight strokes along an axis run within
// 0.05 mm of each other for more than that.
func alongside(a, b geometry.Path) bool {
	const near = 50 * geometry.Micrometre
	box := func(p geometry.Path) geometry.Rect {
		points := p.Points()
		q, r := points[0], points[1]
		return geometry.Rect{Min: geometry.Point{X: min(q.X, r.X), Y: min(q.Y, r.Y)}, Max: geometry.Point{X: max(q.X, r.X), Y: max(q.Y, r.Y)}}
	}
	p, q := box(a), box(b)
	w := min(p.Max.X, q.Max.X) - max(p.Min.X, q.Min.X)
	h := min(p.Max.Y, q.Max.Y) - max(p.Min.Y, q.Min.Y)
	return (p.W() < near) == (q.W() < near) && w > -near && h > -near && max(w, h) > near
}
