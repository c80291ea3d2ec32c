package papers_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Two squares at once, so that every pair of a paper and a mat came once,
// cannot be had for two and six papers: no Latin square of these orders has
// an orthogonal mate (L. Euler's conjecture for six, proved by G. Tarry, "Le
// problème des 36 officiers", 1900, from memory). Here all reduced squares are
// tried, to which every other can be brought by exchanging rows, columns and
// papers, which keeps mates; there are 1, 1, 4, 56 and 9408 of them (OEIS
// A000315, from memory). So that the search is seen to find mates, orders 3, 4
// and 5 have some, and the plan's own cyclic squares for 3 and 5.
func TestNoMatesForTwoAndSix(t *testing.T) {
	for n, want := range map[int]struct {
		squares int
		mates   bool
	}{2: {1, false}, 3: {1, true}, 4: {4, true}, 5: {56, true}, 6: {9408, false}} {
		squares, mates := 0, false
		eachReduced(n, func(square [][]int) {
			squares++
			mates = mates || hasMate(square)
		})
		require.Equal(t, want.squares, squares, "order %d", n)
		require.Equal(t, want.mates, mates, "order %d", n)
	}
	for n, want := range map[int]bool{2: false, 3: true, 4: false, 5: true, 6: false} {
		for _, plan := range []string{"each once", "balanced"} {
			require.Equal(t, want, hasMate(deal(t, plan, batchOf(n, n, n)).Cards[:n]), "%s, order %d", plan, n)
		}
	}
}

// eachReduced calls f with every Latin square whose first row and column are
// in order.
func eachReduced(n int, f func([][]int)) {
	square := make([][]int, n)
	rows, columns := make([]int, n), make([]int, n) // symbols that are there, by bit
	for i := range n {
		square[i] = make([]int, n)
		for j := range n {
			if i == 0 || j == 0 {
				square[i][j] = i + j
				rows[i] |= 1 << (i + j)
				columns[j] |= 1 << (i + j)
			}
		}
	}
	var fill func(at int)
	fill = func(at int) {
		if at == n*n {
			f(square)
			return
		}
		i, j := at/n, at%n
		if i == 0 || j == 0 {
			fill(at + 1)
			return
		}
		for symbol := range n {
			bit := 1 << symbol
			if (rows[i]|columns[j])&bit != 0 {
				continue
			}
			square[i][j] = symbol
			rows[i], columns[j] = rows[i]|bit, columns[j]|bit
			fill(at + 1)
			rows[i], columns[j] = rows[i]&^bit, columns[j]&^bit
		}
	}
	fill(0)
}

// hasMate reports whether a square falls apart into transversals: n sets of
// cells with one in each row, each column and of each symbol. A mate is such a
// set of sets.
func hasMate(square [][]int) bool {
	n := len(square)
	var byFirst = make([][][]int, n) // transversals, as columns by row, by where they start
	var walk func(row []int, columns, symbols int)
	walk = func(row []int, columns, symbols int) {
		i := len(row)
		if i == n {
			byFirst[row[0]] = append(byFirst[row[0]], append([]int{}, row...))
			return
		}
		for j := range n {
			c, s := 1<<j, 1<<square[i][j]
			if columns&c == 0 && symbols&s == 0 {
				walk(append(row, j), columns|c, symbols|s)
			}
		}
	}
	walk(nil, 0, 0)
	taken := make([]int, n) // columns that are taken, by row
	var cover func(first int) bool
	cover = func(first int) bool {
		if first == n {
			return true
		}
	next:
		for _, transversal := range byFirst[first] {
			for i, j := range transversal {
				if taken[i]&(1<<j) != 0 {
					continue next
				}
			}
			for i, j := range transversal {
				taken[i] |= 1 << j
			}
			ok := cover(first + 1)
			for i, j := range transversal {
				taken[i] &^= 1 << j
			}
			if ok {
				return true
			}
		}
		return false
	}
	return cover(0)
}
