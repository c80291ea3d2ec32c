package layouts_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// eightPapers is a batch of eight cards with eight halves from eight papers.
func eightPapers(plan string) string {
	names := strings.Fields("ash bay fir hay ivy oak rye yew")
	list := `"` + strings.Join(names, `", "`) + `"`
	text := changedIn(halves, `["moss"]`, "["+list+"]", `cards = 1`, "cards = 8\nplan = \""+plan+"\"", `name = "moss"`, `name = "reed"`)
	for _, name := range names {
		text += fmt.Sprintf("[[papers]]\nname = %q\nsheet = \"ISO A4\"\n", name)
	}
	return text
}

// In turn, each paper is once on each card and once in each place; the same
// plan gives every card the same (trade-facts section 6, case 11).
func TestBatchPlans(t *testing.T) {
	for _, tt := range []struct {
		plan             string
		onCard, inPlaces int // of a pair of paper and card, and of paper and panel
	}{{"in turn", 1, 1}, {"same", 1, 8}} {
		t.Run(tt.plan, func(t *testing.T) {
			kit := mustPlan(t, eightPapers(tt.plan))
			onCard, inPlace := map[string]int{}, map[string]int{}
			for _, s := range kit.Sheets {
				for _, p := range s.Pieces {
					if p.Panel != "base" {
						onCard[fmt.Sprint(s.Paper.Name, p.Card)]++
						inPlace[s.Paper.Name+p.Panel]++
					}
				}
			}
			require.Len(t, onCard, 64)
			require.Len(t, inPlace, 64/tt.inPlaces)
			for key, n := range onCard {
				require.Equal(t, tt.onCard, n, key)
			}
			for key, n := range inPlace {
				require.Equal(t, tt.inPlaces, n, key)
			}
		})
	}
}

// Of each paper eight pieces are cut either way, so eight sheets do.
func TestBatchPapers(t *testing.T) {
	for _, use := range mustPlan(t, eightPapers("in turn")).Stock[2:] {
		require.Equal(t, 8, use.Pieces, use.Paper.Name)
		require.Equal(t, 1, use.Sheets, use.Paper.Name)
	}
}

// A panel given by name keeps its paper, whatever the plan.
func TestPapersByPanel(t *testing.T) {
	kit := mustPlan(t, changed(`papers = ["moss", "clay"]`, `papers = {A1a = "oat", B2b = "clay", rest = "moss"}`, `cards = 2`, "cards = 3\nplan = \"in turn\""))
	count := map[string]int{}
	for _, s := range kit.Sheets {
		for _, p := range s.Pieces {
			count[s.Paper.Name+" "+p.Panel]++
		}
	}
	require.Equal(t, map[string]int{
		"oat A1a": 3, "clay B2b": 3, "oat base": 3,
		"moss A1b": 3, "moss B1a": 3, "moss B1b": 3, "moss A2a": 3, "moss A2b": 3, "moss B2a": 3,
	}, count)
	for _, p := range kit.Card.Panels {
		require.Equal(t, p.Paper, kit.PaperOn(p, 1).Name)
	}
}
