package papers

import "fmt"

// A Batch is what a plan has to go by. Places are the panels that the plan
// gives papers to, in the front's order; they, papers and cards count from 0.
type Batch struct {
	Papers int // in the design's order
	Cards  int // spare sets included
	Roles  []int
	Beside [][2]int // places that lie beside each other; for plans that ask for it
	Blocks [][2]int // places whose pieces come as two halves from one block
	Most   []int    // by paper: pieces that it may give; nil or 0 for as many as it takes
}

// A Deal says which paper goes to each place of each card.
type Deal struct {
	// Cards has a row a card: the paper by place. After the last it starts
	// again.
	Cards [][]int
	// Moves are the pile moves that make the deal by hand, a row a round of as
	// many cards as papers: by place, how many pieces go from the top of its
	// pile to the bottom. Nil where piles do not make it.
	Moves [][]int
}

// Paper returns the paper of a place on a card.
func (d Deal) Paper(card, place int) int { return d.Cards[card%len(d.Cards)][place] }

// A Plan gives papers to the places of a batch.
type Plan struct {
	Name    string // as the design file has it
	Summary string // one line
	Each    bool   // it goes by papers that differ: none may be listed twice
	Beside  bool   // it must know what lies beside what
	ByHand  bool   // the design file deals, card by card
	deal    func(Batch) (Deal, error)
}

// Deal deals a batch that has papers and places. An error is a sentence: the
// plan cannot be kept.
func (p Plan) Deal(b Batch) (Deal, error) { return p.deal(b) }

// Plans lists the plans; the first is what a design has that says nothing.
func Plans() []Plan {
	return []Plan{
		{Name: "same", Summary: "every card has the same papers in the same places", deal: same},
		{Name: "in turn", Summary: "on each card every paper moves one place on", deal: inTurn},
		{Name: "each once", Summary: "every paper once on each card and once in each place", Each: true, deal: eachOnce},
		{Name: "balanced", Summary: "as each once, and every paper follows every other as often", Each: true, deal: balanced},
		{Name: "no paper beside itself", Summary: "panels side by side never have one paper", Each: true, Beside: true, deal: apart},
		{Name: "whole blocks", Summary: "papers go round by whole blocks, so that no odd half is left over", Each: true, deal: wholeBlocks},
		{Name: "by hand", Summary: "the design says it, card by card", ByHand: true},
	}
}

// PlanNamed returns the plan of that name, which exists.
func PlanNamed(name string) Plan {
	for _, p := range Plans() {
		if p.Name == name {
			return p
		}
	}
	panic(fmt.Sprintf("papers: no plan %q", name))
}

func same(b Batch) (Deal, error) {
	row := make([]int, len(b.Roles))
	for place, role := range b.Roles {
		row[place] = role % b.Papers
	}
	return Deal{Cards: [][]int{row}}, nil
}

func inTurn(b Batch) (Deal, error) {
	moves := make([]int, len(b.Roles))
	for place, role := range b.Roles {
		moves[place] = role % b.Papers
	}
	return dealPiles(b.Papers, moves), nil
}

func eachOnce(b Batch) (Deal, error) {
	return dealPiles(b.Papers, CyclicMoves(b.Papers, len(b.Roles))), nil
}

func balanced(b Batch) (Deal, error) {
	return dealPiles(b.Papers, BalancedMoves(b.Papers, len(b.Roles))...), nil
}
