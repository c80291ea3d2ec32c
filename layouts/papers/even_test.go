package papers_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/layouts/papers"
)

// The first is the issue's own example; the others are hand sums.
func TestEven(t *testing.T) {
	for _, tt := range []struct {
		sum  papers.Sum
		want string
	}{
		{papers.Sum{Papers: 8, Places: 8, Cards: 10}, "8 papers for 10 cards of 8 panels leave 6 pieces of each, 48 in all; 8 or 16 cards leave none"},
		{papers.Sum{Papers: 8, Places: 8, Cards: 8}, "8 papers for 8 cards of 8 panels come out even: 1 set of each paper"},
		{papers.Sum{Papers: 8, Places: 8, Cards: 16}, "8 papers for 16 cards of 8 panels come out even: 2 sets of each paper"},
		{papers.Sum{Papers: 8, Places: 8, Cards: 7}, "8 papers for 7 cards of 8 panels leave 1 piece of each, 8 in all; 8 cards leave none"},
		// 30 pieces from 4 papers: 7 or 8 of each, out of 10.
		{papers.Sum{Papers: 4, Places: 5, Cards: 6}, "4 papers for 6 cards of 5 panels leave 2 or 3 pieces of each, 10 in all; 4 or 8 cards leave none; on each card 1 panel repeats a paper"},
		{papers.Sum{Papers: 3, Places: 8, Cards: 3}, "3 papers for 3 cards of 8 panels come out even: 1 set of each paper; on each card 5 panels repeat a paper"},
		{papers.Sum{Papers: 1, Places: 1, Cards: 1}, "1 paper for 1 card of 1 panel comes out even: 1 set of each paper"},
	} {
		t.Run(tt.want, func(t *testing.T) { require.Equal(t, tt.want, papers.Even(tt.sum).String()) })
	}
}

// Counted out with the plan itself: papers are cut in sets until every card
// has its pieces. No smaller number of sets does.
func TestEvenAgainstCounting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := papers.Sum{
			Papers: rapid.IntRange(1, 12).Draw(t, "papers"),
			Places: rapid.IntRange(1, 12).Draw(t, "places"),
			Cards:  rapid.IntRange(1, 40).Draw(t, "cards"),
		}
		d := deal(t, "each once", batchOf(s.Papers, s.Places, s.Cards))
		inPlace := map[[2]int]int{}
		repeats := -1
		sets, used := 0, 0
		for card := range s.Cards {
			has := map[int]bool{}
			for k := range s.Places {
				paper := d.Paper(card, k)
				inPlace[[2]int{paper, k}]++
				sets = max(sets, inPlace[[2]int{paper, k}])
				has[paper] = true
				used++
			}
			require.True(t, repeats < 0 || repeats == s.Places-len(has))
			repeats = s.Places - len(has)
		}
		e := papers.Even(s)
		require.Equal(t, sets, e.Sets)
		require.Equal(t, repeats, e.Repeats)
		require.Equal(t, sets*s.Papers*s.Places-used, e.Left)
		require.Equal(t, e.Left == 0, e.Even())
		// The nearest numbers of cards that come out even, by looking.
		for cards := 1; cards <= s.Cards+s.Papers; cards++ {
			even := papers.Even(papers.Sum{Papers: s.Papers, Places: s.Places, Cards: cards}).Even()
			if cards > e.Below && cards < e.Above {
				require.False(t, even, "%d cards", cards)
			}
			if cards == e.Below || cards == e.Above {
				require.True(t, even, "%d cards", cards)
			}
		}
	})
}
