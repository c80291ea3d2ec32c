package papers

import (
	"fmt"
	"slices"
)

// wholeBlocks deals by whole blocks: of each paper as many blocks are cut of
// each pair of places as it serves there, so no odd half is left over. A
// paper comes on a card at most as often as it must: once, where there are as
// many papers as places.
//
// First blocks and then single pieces go to the paper that has the fewest
// pieces so far, until it has as many as it may give and the cards can take; a
// block that no paper can take whole is split, and two halves are then left
// over. Which card each piece goes to is a colouring of the edges between
// papers and places, a colour a card: it always exists, since no paper and no
// place has more pieces than there are cards (D. König, "Über Graphen und ihre
// Anwendung auf Determinantentheorie und Mengenlehre", Mathematische Annalen
// 77, 1916).
func wholeBlocks(b Batch) (Deal, error) {
	places := len(b.Roles)
	often, err := b.often()
	if err != nil {
		return Deal{}, err
	}
	share := sharing{most: make([]int, b.Papers), pieces: make([]int, b.Papers), given: make([][]int, places)}
	for p := range share.most {
		share.most[p] = b.most(p, often)
	}
	single := make([]bool, places)
	for i := range single {
		single[i] = true
	}
	var split [][2]int
	for _, pair := range b.Blocks {
		single[pair[0]], single[pair[1]] = false, false
		for range b.Cards {
			if !share.give(pair[0], pair[1]) {
				split = append(split, pair)
			}
		}
	}
	for _, pair := range split {
		share.give(pair[0])
		share.give(pair[1])
	}
	for place := range places {
		for n := 0; single[place] && n < b.Cards; n++ {
			share.give(place)
		}
	}
	return Deal{Cards: share.cards(b, often)}, nil
}

// most returns how many pieces a paper gives when it comes so often on a card.
func (b Batch) most(paper, often int) int {
	most := b.Cards * often
	if paper < len(b.Most) && b.Most[paper] > 0 {
		most = min(most, b.Most[paper])
	}
	return most
}

// often returns how often a paper must come on a card: with n papers and k
// places at least k / n times, and more often where papers may give few pieces.
func (b Batch) often() (int, error) {
	places := len(b.Roles)
	for often := 1; often <= places; often++ {
		all := 0
		for paper := range b.Papers {
			all += b.most(paper, often)
		}
		if all >= b.Cards*places {
			return often, nil
		}
	}
	all := 0
	for paper := range b.Papers {
		all += b.most(paper, places)
	}
	return 0, fmt.Errorf("%s of %s take %d pieces, and the papers give %d: enough for %s",
		counted(b.Cards, "card", "cards"), counted(places, "panel", "panels"), b.Cards*places, all, counted(all/places, "card", "cards"))
}

// sharing is pieces on their way to papers.
type sharing struct {
	most   []int   // by paper: pieces that it can give
	pieces []int   // by paper
	given  [][]int // by place: the papers of its pieces
}

// give gives one piece for each of the places to one paper, if one can take
// them all.
func (s *sharing) give(places ...int) bool {
	paper := -1
	for p, n := range s.pieces {
		if n+len(places) <= s.most[p] && (paper < 0 || n < s.pieces[paper]) {
			paper = p
		}
	}
	if paper < 0 {
		return false
	}
	s.pieces[paper] += len(places)
	for _, place := range places {
		s.given[place] = append(s.given[place], paper)
	}
	return true
}

// cards deals the pieces to cards. A paper that comes several times on a card
// is as many papers here, each with its share of the pieces.
func (s *sharing) cards(b Batch, often int) [][]int {
	var edges []edge
	count := make([]int, b.Papers)
	for place, papers := range s.given {
		for _, paper := range papers {
			edges = append(edges, edge{paper*often + count[paper]%often, place})
			count[paper]++
		}
	}
	cards := make([][]int, b.Cards)
	for i := range cards {
		cards[i] = make([]int, len(b.Roles))
	}
	for i, card := range colourEdges(edges, b.Papers*often, len(b.Roles), b.Cards) {
		cards[card][edges[i].right] = edges[i].left / often
	}
	return cards
}

// edge joins a left node to a right one.
type edge struct{ left, right int }

// colourEdges gives the edges colours so that no node has one colour twice.
// No node has more edges than there are colours. Where the colour that is
// free at one end is taken at the other, the path of the two colours that
// starts there is exchanged, as in König's proof.
func colourEdges(edges []edge, lefts, rights, colours int) []int {
	out := make([]int, len(edges))
	at := make([][]int, lefts+rights) // by node and colour: the edge; -1 for none
	for i := range at {
		at[i] = slices.Repeat([]int{-1}, colours)
	}
	ends := func(i int) [2]int { return [2]int{edges[i].left, lefts + edges[i].right} }
	for i := range edges {
		end := ends(i)
		mine, other := slices.Index(at[end[0]], -1), slices.Index(at[end[1]], -1)
		// Walk from the right end along mine, other, mine ...: it never comes to
		// the left end, which would be reached by mine, free there.
		node, colour := end[1], mine
		var path []int
		for next := at[node][colour]; next >= 0; next = at[node][colour] {
			path = append(path, next)
			if e := ends(next); e[0] == node {
				node = e[1]
			} else {
				node = e[0]
			}
			colour = mine + other - colour
		}
		for _, j := range path {
			for _, node := range ends(j) {
				at[node][out[j]] = -1
			}
		}
		for _, j := range append(path, i) {
			if j == i {
				out[j] = mine
			} else {
				out[j] = mine + other - out[j]
			}
			for _, node := range ends(j) {
				at[node][out[j]] = j
			}
		}
	}
	return out
}
