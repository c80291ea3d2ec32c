package layouts_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// Strips of 20, 36 and 20 by 120 mm: two cards take four narrow ones of moss,
// 80 mm wide side by side. By hand: one A4 (62370 mm2) or one of 100 x 130 mm;
// at 0.90 a small sheet is dearer than a large one at 0.80.
func TestSizesOfSheets(t *testing.T) {
	const mm = geometry.Millimetre
	small, large := geometry.Size{W: 100 * mm, H: 130 * mm}, geometry.Size{W: 210 * mm, H: 297 * mm}
	for _, tt := range []struct {
		name, keys string
		cards      int
		want       geometry.Size
		sheets     int
		price      string
	}{
		{"the least paper", `sheet = ["ISO A4", "100 x 130 mm"]`, 2, small, 1, ""},
		{"the other order", `sheet = ["100 x 130 mm", "ISO A4"]`, 2, small, 1, ""},
		{"the cheapest", `sheet = ["ISO A4", "100 x 130 mm"]` + "\nprice = [0.80, 0.90]", 2, large, 1, "0.80"},
		{"the cheapest is small", `sheet = ["ISO A4", "100 x 130 mm"]` + "\nprice = [0.80, \"0.30\"]", 2, small, 1, "0.30"},
		// 24 strips: 20 on A4 (two rows of ten) and so two sheets at 1.60, or five small at 0.20, 1.00.
		{"many small ones are cheaper", `sheet = ["ISO A4", "100 x 130 mm"]` + "\nprice = [0.80, 0.20]", 12, small, 5, "0.20"},
		{"the only one that is large enough", `sheet = ["50 x 60 mm", "ISO A4"]`, 2, large, 1, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			kit := mustPlan(t, changedIn(strips, "name = \"moss\"\nsheet = \"ISO A4\"", "name = \"moss\"\n"+tt.keys, "cards = 2", fmt.Sprintf("cards = %d", tt.cards)))
			use := kit.Stock[1]
			require.Equal(t, tt.want, use.Paper.Sheet)
			require.Equal(t, tt.sheets, use.Sheets)
			require.Equal(t, tt.want, kit.Design.Paper("moss").Sheet)
			if tt.price != "" {
				require.Equal(t, tt.price, use.Paper.Price.String())
			}
		})
	}
}

func TestWrongSizesOfSheets(t *testing.T) {
	one := func(name, keys, want string) problemTest {
		return problemTest{name, changed("name = \"clay\"\nsheet = \"12 x 12 in\"", "name = \"clay\"\n"+keys), []string{want}}
	}
	requireProblems(t, []problemTest{
		one("none", `sheet = []`, `25:1: papers 3 (clay): sheet: the list is empty; write sheet = ["12 x 12 in", "6 x 6 in"]`),
		one("a number", `sheet = ["12 x 12 in", 6]`, `25:1: papers 3 (clay): sheet: write a size in quotes, like "4 1/4 x 5 1/2 in" or "ISO A6"`),
		one("measured", "sheet = [\"12 x 12 in\", \"6 x 6 in\"]\nmeasured = \"11 x 11 in\"", `26:1: papers 3 (clay): measured: this goes with one size of sheet; write the true sizes under sheet`),
		one("one price", "sheet = [\"12 x 12 in\", \"6 x 6 in\"]\nprice = 1", `26:1: papers 3 (clay): price: 1 prices for 2 sizes of sheet; write one for each, in a list`),
	})
	require.Contains(t, planError(t, changed("name = \"clay\"\nsheet = \"12 x 12 in\"", "name = \"clay\"\nsheet = [\"1 x 1 in\", \"1 x 2 in\"]")), "fits on no sheet")
}
