package layouts_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
)

// moss adds keys to the paper of the halves.
func moss(keys string) string { return changedIn(halves, `name = "moss"`, "name = \"moss\"\n"+keys) }

// The front is "\/" over "/\": A1 and B2 are cut "\", B1 and A2 "/". A half
// can be turned onto the other of its cell and of any cell cut alike, never
// onto one of the other cut (trade-facts section 6, case 5).
func TestKindsOfHalves(t *testing.T) {
	for _, tt := range []struct {
		name, keys string
		want       []string
	}{
		{"plain", ``, []string{"moss-1 x 4: A1a A1b B2a B2b", "moss-2 x 4: B1a B1b A2a A2b"}},
		{"two-way", `pattern = "two-way"`, []string{"moss-1 x 4: A1a A1b B2a B2b", "moss-2 x 4: B1a B1b A2a A2b"}},
		{"one-way", `pattern = "one-way"`, []string{"moss-1 x 2: A1a B2a", "moss-2 x 2: A1b B2b", "moss-3 x 2: B1a A2a", "moss-4 x 2: B1b A2b"}},
		{"plain, both alike", `sides = "both alike"`, []string{"moss-1 x 8: A1a A1b B1a B1b A2a A2b B2a B2b"}},
		{"two-way, both alike", "pattern = \"two-way\"\nsides = \"both alike\"", []string{"moss-1 x 8: A1a A1b B1a B1b A2a A2b B2a B2b"}},
		// A "\" half with its right angle at the top right, turned over sideways,
		// is a "/" half with its right angle at the top left: A1a and B1a.
		{"one-way, both alike", "pattern = \"one-way\"\nsides = \"both alike\"", []string{"moss-1 x 4: A1a B1a A2a B2a", "moss-2 x 4: A1b B1b A2b B2b"}},
	} {
		t.Run(tt.name, func(t *testing.T) { require.Equal(t, tt.want, kindsOf(mustPlan(t, moss(tt.keys)), "moss")) })
	}
}

func TestTurnedOver(t *testing.T) {
	require.Empty(t, handsOver(mustPlan(t, halves)))
	// The first kind is that of A1a, cut "\": all "/" halves are turned over.
	require.Equal(t, []string{"A2a", "A2b", "B1a", "B1b"}, handsOver(mustPlan(t, moss(`sides = "both alike"`))))
	// A mirror image of an oblong or of a half square is the same shape: nothing needs turning over.
	require.Empty(t, handsOver(mustPlan(t, changedIn(moss(`sides = "both alike"`), `"diagonal halves"`, `"grid"`))))
	require.Empty(t, handsOver(mustPlan(t, changedIn(moss(`sides = "both alike"`), `100 x 140 mm`, `140 x 140 mm`))))
}

// A square cell's half is its own mirror image: all are one kind on plain
// paper. On two-way paper a half has its square corner at the top right or
// bottom left ("\") or at the other two: two kinds.
func TestKindsOfSquareCells(t *testing.T) {
	square := func(keys string) string { return changedIn(moss(keys), `100 x 140 mm`, `140 x 140 mm`) }
	require.Equal(t, []string{"moss-1 x 8: A1a A1b B1a B1b A2a A2b B2a B2b"}, kindsOf(mustPlan(t, square("")), "moss"))
	require.Equal(t, []string{"moss-1 x 4: A1a A1b B2a B2b", "moss-2 x 4: B1a B1b A2a A2b"},
		kindsOf(mustPlan(t, square(`pattern = "two-way"`)), "moss"))
}

func TestKindsOfDirections(t *testing.T) {
	grid := changedIn(moss(`pattern = "one-way"`), `"diagonal halves"`, `"grid"`)
	for _, tt := range []struct {
		name, direction string
		want            []string
	}{
		{"upright", "upright", []string{"moss-1 x 4: A1 B1 A2 B2"}},
		{"all turned alike", "30 deg", []string{"moss-1 x 4: A1 B1 A2 B2"}},
		{"along", "along", []string{"moss-1 x 4: A1 B1 A2 B2"}},
		// Opposite panels are half a turn apart, neighbours mirror images.
		{"radiating", "radiating", []string{"moss-1 x 2: A1 B2", "moss-2 x 2: B1 A2"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			kit := mustPlan(t, changedIn(grid, `gap = 4`, "gap = 4\ndirection = \""+tt.direction+"\""))
			require.Equal(t, tt.want, kindsOf(kit, "moss"))
		})
	}
}

// Which way patterns run, by hand: the cells of 38 x 58 mm have their middles
// (21, 31) mm from that of the front, atan(21/31) = 34.1145 degrees.
func TestPatternDegrees(t *testing.T) {
	for _, tt := range []struct {
		direction string
		want      []float64 // A1, B1, A2, B2
	}{
		{"upright", []float64{0, 0, 0, 0}},
		{"30 deg", []float64{30, 30, 30, 30}},
		{"-30°", []float64{330, 330, 330, 330}},
		{"360 degrees", []float64{0, 0, 0, 0}},
		{"along", []float64{0, 0, 0, 0}}, // the cells stand upright
		{"radiating", []float64{325.8855, 34.1145, 214.1145, 145.8855}},
	} {
		t.Run(tt.direction, func(t *testing.T) {
			kit := mustPlan(t, changedIn(halves, `"diagonal halves"`, `"grid"`, `gap = 4`, "gap = 4\ndirection = \""+tt.direction+"\""))
			for i, p := range kit.Card.Panels {
				require.InDelta(t, tt.want[i], p.PatternDegrees, 1e-4, p.Name)
			}
		})
	}
}

// A half's longest side is its diagonal, atan(38/58) = 33.2317 degrees from
// upright ("\" to the left); up is upwards. A level strip's runs to the right.
func TestAlong(t *testing.T) {
	kit := mustPlan(t, changedIn(halves, `gap = 4`, "gap = 4\ndirection = \"along\""))
	for _, p := range kit.Card.Panels {
		want := 33.2317
		if p.Hand == `\` {
			want = 360 - 33.2317
		}
		require.InDelta(t, want, p.PatternDegrees, 1e-4, p.Name)
	}
	kit = mustPlan(t, changedIn(strips, `widths = [20, "rest", 20]`, "run = \"level\"\ndirection = \"along\""))
	for _, p := range kit.Card.Panels {
		require.Equal(t, 90.0, p.PatternDegrees)
	}
}

// A panel in the very middle stays upright.
func TestRadiatingMiddle(t *testing.T) {
	kit := mustPlan(t, changedIn(halves, `"diagonal halves"`, "\"grid\"\ncolumns = 3\nrows = 3", `gap = 4`, "gap = 4\ndirection = \"radiating\""))
	want := map[string]float64{"B1": 0, "B2": 0, "C2": 90, "B3": 180, "A2": 270}
	for _, p := range kit.Card.Panels {
		if degrees, ok := want[p.Name]; ok {
			require.Equal(t, degrees, p.PatternDegrees, p.Name)
		}
	}
}

func TestParseDirection(t *testing.T) {
	for _, text := range []string{"", "north", "30", "deg", "361 deg", "-400 deg", "nan deg", "inf deg", "30 deg deg", "1e9 degrees", "Upright"} {
		_, err := layouts.ParseDirection(text)
		require.Error(t, err, text)
		requirePlainWords(t, err.Error())
	}
	for _, text := range []string{"upright", " radiating ", "along", "30 deg", "30deg", "12.5 degrees", "-90°"} {
		_, err := layouts.ParseDirection(text)
		require.NoError(t, err, text)
	}
}

// pattern_up turns pieces on their sheet: a panel of 36 x 120 mm whose
// pattern runs up the card lies level where the paper's runs to the right.
func TestPatternUp(t *testing.T) {
	for _, tt := range []struct {
		up   string
		turn float64
		w    geometry.Length
	}{{"top", 0, 36}, {"right", 90, 120}, {"bottom", 180, 36}, {"left", 270, 120}} {
		t.Run(tt.up, func(t *testing.T) {
			kit := mustPlan(t, changedIn(strips, `name = "clay"`, "name = \"clay\"\npattern = \"one-way\"\npattern_up = \""+tt.up+"\""))
			p := pieceNamed(t, kit, "01-2")
			require.Equal(t, tt.turn, p.Turn)
			require.Equal(t, tt.w*geometry.Millimetre, p.Outline.Bounds().W())
		})
	}
}

// Strips of 20, 36 and 20 mm: the outer two are of one paper and alike. With
// three equal strips the middle one is of another paper, so of another kind.
func TestKindCounts(t *testing.T) {
	kit := mustPlan(t, strips) // two cards
	require.Equal(t, []string{"moss-1 x 4: 1 3"}, kindsOf(kit, "moss"))
	require.Equal(t, []string{"clay-1 x 2: 2"}, kindsOf(kit, "clay"))
	require.Equal(t, []string{"oat-1 x 2: base"}, kindsOf(kit, "oat"))
	total := 0
	for _, k := range kit.Kinds {
		total += k.Count
	}
	require.Equal(t, kit.Totals.Pieces, total)
}

// Outlines of one kind may differ by 0.01 mm, and the smaller one is cut.
func TestKindTolerance(t *testing.T) {
	for _, tt := range []struct {
		widths string
		kinds  int
		cut    geometry.Length // the width of the first kind
	}{
		{`[20, "rest", 20.019]`, 1, 20 * geometry.Millimetre}, // each side is off by 0.0095 mm from the middle
		{`[20.019, "rest", 20]`, 1, 20 * geometry.Millimetre},
		{`[20, "rest", 20.021]`, 2, 20 * geometry.Millimetre},
	} {
		t.Run(tt.widths, func(t *testing.T) {
			kit := mustPlan(t, changedIn(strips, `[20, "rest", 20]`, tt.widths, `name = "moss"`, "name = \"moss\"\npattern = \"one-way\""))
			require.Len(t, kindsOf(kit, "moss"), tt.kinds)
			require.Equal(t, tt.cut, pieceNamed(t, kit, "01-1").Outline.Bounds().W())
		})
	}
}

// Three widths in steps of 0.015 mm: the first two are one kind, and so would
// be the last two, but not the first and the last.
func TestKindsDoNotCreep(t *testing.T) {
	for _, widths := range []string{`[20.03, 20.015, 20, "rest"]`, `[20, 20.015, 20.03, "rest"]`, `[20.015, 20.03, 20, "rest"]`} {
		t.Run(widths, func(t *testing.T) {
			kit := mustPlan(t, changedIn(strips, `[20, "rest", 20]`, widths, `["moss", "clay"]`, `["moss", "moss", "moss", "clay"]`))
			require.Len(t, kindsOf(kit, "moss"), 2)
		})
	}
}

// Seven strips share 80 mm and six gaps of 2 mm: they differ by a nanometre,
// and are still one kind.
func TestNanometresMakeNoKind(t *testing.T) {
	kit := mustPlan(t, changedIn(strips, `widths = [20, "rest", 20]`, `count = 7`, `["moss", "clay"]`, `["moss"]`))
	require.Len(t, kindsOf(kit, "moss"), 1)
}

// A base with a fold and a panel of its size are two kinds; a flat base and
// such a panel of the same paper are one.
func TestBaseAndPanelOfOneSize(t *testing.T) {
	whole := changedIn(halves, `"diagonal halves"`, "\"grid\"\ncolumns = 1\nrows = 1", `margin = 10`, `margin = 0`, `["moss"]`, `["oat"]`)
	require.Equal(t, []string{"oat-1 x 2: A1 base"}, kindsOf(mustPlan(t, whole), "oat"))
	folded := changedIn(whole, `"flat"`, `"top fold"`, `size = "100 x 140 mm"`, `size = "100 x 70 mm"`)
	require.Equal(t, []string{"oat-1 x 1: A1", "oat-2 x 1: base"}, kindsOf(mustPlan(t, folded), "oat"))
}
