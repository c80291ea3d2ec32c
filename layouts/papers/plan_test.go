package papers_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/layouts/papers"
)

// batchOf is a batch in which each place has a role of its own, and lies
// beside the next.
func batchOf(n, places, cards int) papers.Batch {
	b := papers.Batch{Papers: n, Cards: cards}
	for k := range places {
		b.Roles = append(b.Roles, k)
		if k > 0 {
			b.Beside = append(b.Beside, [2]int{k - 1, k})
		}
	}
	return b
}

func deal(t require.TestingT, plan string, b papers.Batch) papers.Deal {
	d, err := papers.PlanNamed(plan).Deal(b)
	require.NoError(t, err)
	return d
}

// letters writes a card: a for the first paper.
func letters(d papers.Deal, card, places int) string {
	var text strings.Builder
	for k := range places {
		text.WriteByte(byte('a' + d.Paper(card, k)))
	}
	return text.String()
}

// Worked out by hand for papers a, b, c; roles as two panels share the first.
func TestDeals(t *testing.T) {
	shared := papers.Batch{Papers: 3, Cards: 4, Roles: []int{0, 1, 0, 2}}
	for name, want := range map[string][]string{
		"same":      {"abac", "abac", "abac", "abac"},
		"in turn":   {"abac", "bcba", "cacb", "abac"},
		"each once": {"abca", "bcab", "cabc", "abca"},
		// The row 0 1 2 0, and backwards: an odd number of papers takes two squares.
		"balanced": {"abca", "bcab", "cabc", "acba", "bacb", "cbac", "abca"},
	} {
		t.Run(name, func(t *testing.T) {
			d := deal(t, name, shared)
			for card, row := range want {
				require.Equal(t, row, letters(d, card, 4), "card %d", card)
			}
		})
	}
}

// Each of these plans gives Latin squares where papers, places and cards are
// as many: each paper once on each card and once in each place. The
// definition, counted out (C. J. Colbourn, J. H. Dinitz, "Handbook of
// Combinatorial Designs", from memory).
func TestLatinSquares(t *testing.T) {
	for _, plan := range []string{"in turn", "each once", "balanced", "no paper beside itself", "whole blocks"} {
		for n := 1; n <= 13; n++ {
			d := deal(t, plan, batchOf(n, n, n))
			for i := range n {
				onCard, inPlace := map[int]bool{}, map[int]bool{}
				for k := range n {
					onCard[d.Paper(i, k)] = true
					inPlace[d.Paper(k, i)] = true
				}
				require.Len(t, onCard, n, "%s: card %d of %d", plan, i, n)
				if plan != "whole blocks" {
					require.Len(t, inPlace, n, "%s: place %d of %d", plan, i, n)
				}
			}
		}
	}
}

// With n papers and no more places, every ordered pair of papers follows
// each other equally often, or once less; counted over all rounds.
func TestBalancedPairs(t *testing.T) {
	for n := 2; n <= 12; n++ {
		for places := 2; places <= n; places++ {
			d := deal(t, "balanced", batchOf(n, places, n))
			follows := map[[2]int]int{}
			for card := range len(d.Cards) {
				for k := 1; k < places; k++ {
					follows[[2]int{d.Paper(card, k-1), d.Paper(card, k)}]++
				}
			}
			least, most := 1<<30, 0
			for a := range n {
				require.Zero(t, follows[[2]int{a, a}])
				for b := range n {
					if a != b {
						least, most = min(least, follows[[2]int{a, b}]), max(most, follows[[2]int{a, b}])
					}
				}
			}
			require.LessOrEqual(t, most-least, 1, "%d papers, %d places", n, places)
			if places == n {
				require.Equal(t, least, most, "%d papers", n)
			}
		}
	}
}

// Trade-facts section 6, case 11.
func TestBalancedMovesOfEight(t *testing.T) {
	require.Equal(t, [][]int{{0, 1, 7, 2, 6, 3, 5, 4}}, papers.BalancedMoves(8, 8))
}

// Piles carried out piece by piece, by a simulation of its own, give the
// plan's cards: for n papers, any number of places, and several rounds.
func TestPilesMakeTheDeal(t *testing.T) {
	for _, plan := range []string{"in turn", "each once", "balanced", "no paper beside itself"} {
		t.Run(plan, rapid.MakeCheck(func(t *rapid.T) {
			n, places := rapid.IntRange(1, 12).Draw(t, "papers"), rapid.IntRange(1, 20).Draw(t, "places")
			if plan == "no paper beside itself" && n < 2 {
				return
			}
			rounds := rapid.IntRange(1, 3).Draw(t, "rounds")
			d := deal(t, plan, batchOf(n, places, n))
			for round, moves := range d.Moves {
				piles := make([][]int, places)
				for k := range piles {
					for range rounds {
						for paper := range n {
							piles[k] = append(piles[k], paper)
						}
					}
					for range moves[k] { // top to bottom, one by one
						top := piles[k][0]
						piles[k] = append(piles[k][1:], top)
					}
				}
				for card := range n * rounds {
					for k := range places {
						require.Equal(t, piles[k][card], d.Paper(round*n+card%n, k), "round %d, card %d, place %d", round, card, k)
					}
				}
			}
		}))
	}
}

// Nothing lies beside itself, exactly where a slow search over everything
// finds a way as well.
func TestApartAgainstAllWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.IntRange(1, 7).Draw(t, "places")
		b := batchOf(rapid.IntRange(1, 4).Draw(t, "papers"), places, 5)
		b.Beside = nil
		for i := range places {
			for j := range i {
				if rapid.Bool().Draw(t, "beside") {
					b.Beside = append(b.Beside, [2]int{j, i})
				}
			}
		}
		d, err := papers.PlanNamed("no paper beside itself").Deal(b)
		require.Equal(t, anyWay(b, nil), err == nil, "%v", err)
		if err != nil {
			require.Contains(t, err.Error(), "all ways were tried")
			return
		}
		for card := range b.Cards {
			for _, pair := range b.Beside {
				require.NotEqual(t, d.Paper(card, pair[0]), d.Paper(card, pair[1]))
			}
		}
	})
}

// anyWay tries all ways to give papers to places.
func anyWay(b papers.Batch, row []int) bool {
	for _, pair := range b.Beside {
		if pair[0] < len(row) && pair[1] < len(row) && row[pair[0]] == row[pair[1]] {
			return false
		}
	}
	if len(row) == len(b.Roles) {
		return true
	}
	for paper := range b.Papers {
		if anyWay(b, append(slices.Clone(row), paper)) {
			return true
		}
	}
	return false
}

// A triangle of places takes three papers, four that all touch take four
// (the complete graphs); and flat maps never more than four (four colour
// theorem, K. Appel and W. Haken 1976): here grids with all diagonals one way.
func TestApartCounts(t *testing.T) {
	plan := papers.PlanNamed("no paper beside itself")
	triangle := papers.Batch{Papers: 2, Cards: 1, Roles: []int{0, 1, 2}, Beside: [][2]int{{0, 1}, {1, 2}, {0, 2}}}
	_, err := plan.Deal(triangle)
	require.EqualError(t, err, "with 2 papers one always lies beside itself (all ways were tried); 3 papers do")
	triangle.Papers = 1
	_, err = plan.Deal(triangle)
	require.EqualError(t, err, "with 1 paper one always lies beside itself (all ways were tried); 3 papers do")

	const side = 40
	grid := papers.Batch{Papers: 3, Cards: 1, Roles: make([]int, side*side)}
	for y := range side {
		for x := range side {
			for _, step := range [][2]int{{1, 0}, {0, 1}, {1, 1}} {
				if x+step[0] < side && y+step[1] < side {
					grid.Beside = append(grid.Beside, [2]int{y*side + x, (y+step[1])*side + x + step[0]})
				}
			}
		}
	}
	d, err := plan.Deal(grid)
	require.NoError(t, err)
	for _, pair := range grid.Beside {
		require.NotEqual(t, d.Paper(0, pair[0]), d.Paper(0, pair[1]))
	}
}

// By whole blocks no half is left over and no paper is on a card more often
// than it must be, for any number of cards; where blocks must be split, their
// number is the least that counting allows.
func TestWholeBlocks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cells, singles := rapid.IntRange(0, 6).Draw(t, "cells"), rapid.IntRange(0, 4).Draw(t, "singles")
		places := 2*cells + singles
		if places == 0 {
			return
		}
		b := batchOf(rapid.IntRange(1, 9).Draw(t, "papers"), places, rapid.IntRange(1, 30).Draw(t, "cards"))
		for i := range cells {
			b.Blocks = append(b.Blocks, [2]int{2 * i, 2*i + 1})
		}
		d := deal(t, "whole blocks", b)
		require.Len(t, d.Cards, b.Cards)
		often := (places + b.Papers - 1) / b.Papers
		pieces := make([]int, b.Papers)
		for card := range b.Cards {
			onCard := make([]int, b.Papers)
			for k := range places {
				onCard[d.Paper(card, k)]++
				pieces[d.Paper(card, k)]++
			}
			require.LessOrEqual(t, slices.Max(onCard), often, "card %d", card)
		}
		require.LessOrEqual(t, slices.Max(pieces)-slices.Min(pieces), 2)
		odd := 0
		for _, pair := range b.Blocks {
			for paper := range b.Papers {
				diff := 0
				for card := range b.Cards {
					for end, place := range pair {
						if d.Paper(card, place) == paper {
							diff += 2*end - 1
						}
					}
				}
				odd += max(diff, -diff)
			}
		}
		// A paper takes at most this many whole blocks; the rest is split in two
		// odd halves.
		whole := b.Papers * (b.Cards * often / 2)
		require.LessOrEqual(t, odd, 2*max(0, cells*b.Cards-whole))
	})
}

// Papers that may give only so many pieces: a way is found just where a slow
// search over all ways finds one, and no paper comes more often on a card than
// in the best of those. That is Hall's condition for dealing pieces to cards
// (P. Hall, "On representatives of subsets", Journal of the London Mathematical
// Society 10, 1935), held against brute force.
func TestWholeBlocksAgainstAllWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := batchOf(rapid.IntRange(1, 3).Draw(t, "papers"), rapid.IntRange(1, 4).Draw(t, "places"), rapid.IntRange(1, 3).Draw(t, "cards"))
		if len(b.Roles) > 1 {
			b.Blocks = [][2]int{{0, 1}}
		}
		for range b.Papers {
			b.Most = append(b.Most, rapid.IntRange(1, 8).Draw(t, "most"))
		}
		best := 0 // how often a paper comes on a card, in the best of all ways
		for often := 1; often <= len(b.Roles) && best == 0; often++ {
			if dealable(b, slices.Clone(b.Most), make([]int, b.Papers), often, 0) {
				best = often
			}
		}
		d, err := papers.PlanNamed("whole blocks").Deal(b)
		require.Equal(t, best > 0, err == nil, "%v", err)
		if err != nil {
			require.Contains(t, err.Error(), "enough for")
			return
		}
		pieces, most := make([]int, b.Papers), 0
		for card := range b.Cards {
			onCard := make([]int, b.Papers)
			for place := range b.Roles {
				pieces[d.Paper(card, place)]++
				onCard[d.Paper(card, place)]++
			}
			most = max(most, slices.Max(onCard))
		}
		for p, n := range pieces {
			require.LessOrEqual(t, n, b.Most[p])
		}
		require.LessOrEqual(t, most, best)
	})
}

// dealable tries all ways to fill places one after the other.
func dealable(b papers.Batch, left, onCard []int, often, at int) bool {
	if at == b.Cards*len(b.Roles) {
		return true
	}
	if at%len(b.Roles) == 0 {
		onCard = make([]int, b.Papers)
	}
	for p := range b.Papers {
		if left[p] == 0 || onCard[p] == often {
			continue
		}
		left[p]--
		onCard[p]++
		ok := dealable(b, left, slices.Clone(onCard), often, at+1)
		left[p]++
		onCard[p]--
		if ok {
			return true
		}
	}
	return false
}

// The example of the issue by whole blocks: ten cards of eight halves in
// eight papers leave nothing over; nine cards would need 4 1/2 blocks of each
// paper, so four blocks are split.
func TestWholeBlocksOfTen(t *testing.T) {
	b := batchOf(8, 8, 10)
	b.Blocks = [][2]int{{0, 1}, {2, 3}, {4, 5}, {6, 7}}
	d := deal(t, "whole blocks", b)
	count := map[string]int{}
	for card := range 10 {
		for k := range 8 {
			count[fmt.Sprint(d.Paper(card, k), " in ", k)]++
		}
	}
	for paper := range 8 {
		for _, pair := range b.Blocks {
			require.Equal(t, count[fmt.Sprint(paper, " in ", pair[0])], count[fmt.Sprint(paper, " in ", pair[1])])
		}
	}
}

// BenchmarkDeal deals the batch of the speed goal.
func BenchmarkDeal(b *testing.B) {
	batch := batchOf(24, 32, 500)
	for i := 0; i < 32; i += 2 {
		batch.Blocks = append(batch.Blocks, [2]int{i, i + 1})
	}
	for _, plan := range papers.Plans() {
		if plan.ByHand {
			continue
		}
		b.Run(plan.Name, func(b *testing.B) {
			for b.Loop() {
				if _, err := plan.Deal(batch); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
