package papers

// Swapping without a table. A stack of n papers is cut into as many piles as
// a card has places; each pile has one piece of every paper, the first paper
// on top, and all its pieces are of its place's shape and hand, since the
// papers lay in the stack with one face up. From pile k, moves[k] pieces go
// from the top to the bottom, one pile after the other. Then card after card
// takes the top piece of every pile.
//
// Card i thus has paper (moves[k] + i) mod n in place k. In each place every
// paper comes once, whatever the moves; on a card no paper comes twice if no
// two moves are alike. That is a Latin square where there are as many places
// as papers.

// dealPiles deals what moved piles give, a round for each row of moves.
func dealPiles(papers int, moves ...[]int) Deal {
	var cards [][]int
	for _, row := range moves {
		for card := range papers {
			cards = append(cards, shifted(row, card, papers))
		}
	}
	return Deal{Cards: cards, Moves: moves}
}

func shifted(row []int, by, papers int) []int {
	out := make([]int, len(row))
	for place, move := range row {
		out[place] = (move + by) % papers
	}
	return out
}

// CyclicMoves returns the pile moves of the plain cyclic square: none, one,
// two and so on.
func CyclicMoves(papers, places int) []int {
	moves := make([]int, places)
	for k := range moves {
		moves[k] = k % papers
	}
	return moves
}

// BalancedMoves returns the pile moves of the balanced square, a row a round
// of as many cards as papers: 0 1 7 2 6 3 5 4 for eight. An odd number of
// papers takes two rounds, the second with the row backwards.
//
// With no more places than papers, over all rounds each ordered pair of
// papers lies in neighbouring places, one place after the other, as often as
// any other pair, or once less: equally often where there are as many places
// as papers. The zigzag is that of E. J. Williams, "Experimental designs
// balanced for the estimation of residual effects of treatments", Australian
// Journal of Scientific Research A 2 (1949), from memory.
func BalancedMoves(papers, places int) [][]int {
	row := make([]int, places)
	for k := range row {
		row[k] = zigzag(k%papers, papers)
	}
	if papers%2 == 0 || places < 2 {
		return [][]int{row}
	}
	back := make([]int, places)
	for k := range back {
		back[k] = row[places-1-k]
	}
	return [][]int{row, back}
}

// zigzag returns term k of 0, 1, n-1, 2, n-2 ...
func zigzag(k, n int) int {
	if k%2 == 1 {
		return (k + 1) / 2
	}
	return (n - k/2) % n
}
