package layouts_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/papers"
)

// drawDesign draws a design whose pieces fit on its sheets.
func drawDesign(t *rapid.T) string {
	one := func(name string, words ...string) string { return rapid.SampledFrom(words).Draw(t, name) }
	number := func(name string, least, most int) int { return rapid.IntRange(least, most).Draw(t, name) }
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("units = \"mm\"\ntool = %q\n[card]", one("tool", "cutter", "knife"))
	line("width = %d.%d\nheight = %d\npaper = %q", number("width", 60, 200), number("tenths", 0, 9), number("height", 60, 200), one("base paper", "oat", "moss"))
	line("base = %q\n[front]", one("base", "flat", "top fold", "side fold"))
	line("margin = %d\ngap = \"%d/8\"", number("margin", 0, 8), number("gap", 0, 24))
	line("direction = %q", one("direction", "upright", "radiating", "along", "30 deg", "90 deg", "-47.3 deg"))
	line("papers = %s", one("papers", `["moss"]`, `["moss", "fern"]`, `["fern", "moss", "moss"]`))
	drawFront(t, line)
	line("[batch]\ncards = %d\nspares = %d\nplan = %q", number("cards", 1, 3), number("spares", 0, 2), one("plan", "same", "in turn"))
	line("[sheets]\nbleed = %s", one("bleed", "0", "0", "3", `"1/8 in"`))
	for _, name := range []string{"oat", "moss", "fern"} {
		line("[[papers]]\nname = %q\nsheet = %q", name, one(name+" sheet", "500 x 700 mm", "900 x 650 mm"))
		line("pattern = %q\npattern_up = %q", one(name+" pattern", "plain", "two-way", "one-way"), one(name+" up", "top", "right", "bottom", "left"))
		line("sides = %q", one(name+" sides", "one", "both alike"))
	}
	return b.String()
}

func drawFront(t *rapid.T, line func(string, ...any)) {
	columns, rows := rapid.IntRange(1, 4).Draw(t, "columns"), rapid.IntRange(1, 4).Draw(t, "rows")
	switch layout := rapid.SampledFrom([]string{"grid", "strips", "diagonal halves"}).Draw(t, "layout"); layout {
	case "strips":
		line("layout = %q\nrun = %q\ncount = %d", layout, rapid.SampledFrom([]string{"upright", "level"}).Draw(t, "run"), columns+rows)
	default:
		line("layout = %q\ncolumns = %d\nrows = %d", layout, columns, rows)
		if layout == "grid" || rapid.Bool().Draw(t, "towards the middle") {
			return
		}
		cuts := make([]string, rows)
		for i := range cuts {
			cuts[i] = "'" + rapid.StringOfN(rapid.SampledFrom([]rune{'/', '\\'}), columns, columns, -1).Draw(t, "cuts") + "'"
		}
		line("slant = [%s]", strings.Join(cuts, ", "))
	}
}

// The central property: each piece on a sheet is a panel of the card, turned
// over where it says so and turned by what it says, and its pattern runs
// right. Every piece is there exactly once.
func TestPiecesAreThePanels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kit := mustPlan(t, drawDesign(t))
		requireEachOnce(t, kit)
		panels := map[string]layouts.Panel{}
		for _, p := range kit.Card.Panels {
			panels[p.Name] = p
		}
		for i, s := range kit.Sheets {
			require.Equal(t, i+1, s.Number)
			requireRoom(t, s)
			for _, p := range s.Pieces {
				if p.Panel == "base" {
					requireBase(t, kit, s, p)
				} else {
					requirePanel(t, kit, s, p, panels[p.Panel])
				}
			}
		}
	})
}

// within is what a piece may be off: it is the smallest of its kind, and
// outlines of one kind differ by less than 0.01 mm.
const within = float64(layouts.KindTolerance)

func requirePanel(t require.TestingT, kit layouts.Kit, s layouts.Sheet, p layouts.Piece, panel layouts.Panel) {
	paper := kit.PaperOn(panel, p.Card)
	require.Equal(t, s.Paper.Name, paper.Name, p.ID)
	require.True(t, !p.Over || paper.BothAlike, p.ID)
	requireMoved(t, motion{p.Over, p.Turn}, panel.Outline.Outer.Points(), p.Outline.Outer.Points(), within)
	requirePatternRight(t, paper, p, panel.PatternDegrees)
}

func requireBase(t require.TestingT, kit layouts.Kit, s layouts.Sheet, p layouts.Piece) {
	base := kit.Card.Base
	require.Equal(t, kit.Design.Card.Paper, s.Paper.Name, p.ID)
	require.Len(t, p.Folds, len(base.Folds))
	m := motion{p.Over, p.Turn}
	dx, dy := requireMoved(t, m, base.Outline.Outer.Points(), p.Outline.Outer.Points(), within)
	for i, f := range base.Folds {
		for k, at := range f.Line.Points() {
			x, y := m.of(at)
			requireNear(t, x+dx, y+dy, p.Folds[i].Line.Points()[k:k+1], within)
		}
	}
	requirePatternRight(t, s.Paper, p, 0)
}

// requirePatternRight: the direction d, clockwise from up, in which the
// pattern is to point on the card, is carried along with the piece. Turning
// over sideways takes the vector (sin d, -cos d) to (-sin d, -cos d), which
// is the direction -d; the turn then adds to it. On the sheet that has to be
// where the paper's up is: exactly for one-way, up to half a turn for two-way
// patterns; plain paper has no direction.
func requirePatternRight(t require.TestingT, paper papers.Paper, p layouts.Piece, d float64) {
	if p.Over {
		d = -d
	}
	switch paper.Pattern {
	case papers.OneWay:
		requireSameAngle(t, paper.PatternUp, d+p.Turn, 360)
	case papers.TwoWay:
		requireSameAngle(t, paper.PatternUp, d+p.Turn, 180)
	}
}

// requireEachOnce: every panel of every card and spare set and every base
// once, counted by kind and by paper too.
func requireEachOnce(t require.TestingT, kit layouts.Kit) {
	seen := map[string]bool{}
	byKind := map[string]int{}
	for _, p := range piecesOf(kit) {
		key := fmt.Sprintf("%d %s", p.Card, p.Panel)
		require.False(t, seen[key] || seen[p.ID], p.ID)
		seen[key], seen[p.ID] = true, true
		byKind[p.Kind]++
	}
	batch := kit.Design.Batch
	require.Len(t, seen, 2*kit.Totals.Pieces)
	require.Equal(t, len(kit.Card.Panels)*(batch.Cards+batch.Spares)+batch.Cards, kit.Totals.Pieces)
	for _, k := range kit.Kinds {
		require.Equal(t, k.Count, byKind[k.ID], k.ID)
	}
	require.Len(t, byKind, len(kit.Kinds))
}

// The sums across and down add up to the card, to the nanometre, and the
// panels of a kind have one area, within what the tolerance can change.
func TestSumsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kit := mustPlan(t, drawDesign(t))
		across, down := kit.Card.Sums()
		var w, h geometry.Length
		for _, term := range across {
			w += term.Length
		}
		for _, term := range down {
			h += term.Length
		}
		require.Equal(t, kit.Card.Size, geometry.Size{W: w, H: h})
		for _, p := range kit.Card.Panels {
			for _, k := range kit.Kinds {
				if k.ID == p.Kind {
					off := math.Abs(p.Outline.Area().SquareMM() - k.Outline.Area().SquareMM())
					require.LessOrEqual(t, off, p.Outline.Perimeter()/1e6*layouts.KindTolerance.In(geometry.Millimetres))
				}
			}
		}
	})
}

// What is printed holds for any design, too.
func TestPrintOfAnyDesign(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		for _, s := range mustPlan(rt, drawDesign(rt)).Sheets {
			if s.Printed() {
				requirePrint(rt, s)
				requireMarks(rt, s)
			}
		}
	})
}
