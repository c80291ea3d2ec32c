package trimming

import (
	"cmp"
	"slices"
	"sort"

	"panelry/geometry"
)

// mostWays is how many ways to turn the kinds are tried.
const mostWays = 64

// mostWeighed is how many plans with equally few sheets are compared by their
// settings; those with the fewest cuts are.
const mostWeighed = 12

// byStrips plans as a trimmer likes it: sheets are cut into strips that run
// from side to side, each as broad as its pieces, and the strips across. All
// pieces of a kind lie the same way. Both directions of strips are tried,
// with kinds turned in every way while these are few, and the plan with the
// fewest sheets is kept, then the fewest settings of the stop, then the fewest
// cuts; but none with more cuts than [Plain] takes for as many sheets.
func (p *planner) byStrips() []*Part {
	type candidate struct {
		trees []*Part
		cuts  int
	}
	var list []candidate
	add := func(trees []*Part) {
		if trees != nil && !tooLong(trees, p.job.Longest) {
			list = append(list, candidate{trees, cutsOf(trees)})
		}
	}
	kinds := len(p.job.Pieces)
	ways := 1
	for i := 0; i < kinds && ways < mostWays; i++ {
		ways *= 2
	}
	for way := range ways {
		if turned, ok := p.turnedIn(way); ok {
			add(p.stripPlan(turned, false))
			add(p.stripPlan(turned, true))
		}
	}
	plain := Plain(p.job)
	add(plain)
	slices.SortStableFunc(list, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(len(a.trees), len(b.trees)), cmp.Compare(a.cuts, b.cuts))
	})
	var best []*Part
	var bestCost []int
	for i, c := range list {
		if len(c.trees) > len(list[0].trees) || i == mostWeighed || len(plain) == len(c.trees) && c.cuts > cutsOf(plain) {
			break
		}
		if cost := (Planned{Trees: c.trees}).Weigh(p.job); best == nil || slices.Compare(cost, bestCost) < 0 {
			best, bestCost = c.trees, cost
		}
	}
	return best
}

// turnedIn reads a way to turn the kinds from the bits of a number.
func (p *planner) turnedIn(way int) (turned []bool, ok bool) {
	turned = make([]bool, len(p.job.Pieces))
	for i, piece := range p.job.Pieces {
		turned[i] = way>>i&1 == 1
		if turned[i] && (!piece.Turn || piece.Size.W == piece.Size.H) {
			return nil, false
		}
	}
	return turned, true
}

func cutsOf(trees []*Part) int {
	n := 0
	for _, t := range trees {
		n += t.Cuts()
	}
	return n
}

// kindLeft is a kind while strips are made: along is its length along a
// strip, broad its share of the strip's breadth.
type kindLeft struct {
	piece        int
	along, broad geometry.Length
	left         int
}

// stripPlan makes strips for the broadest kind first and fills what is left
// of each with pieces as broad, then with less broad ones.
func (p *planner) stripPlan(turned []bool, upright bool) []*Part {
	sheet := p.job.Stock.Size
	if upright { // strips run from top to bottom
		sheet = sheet.Turned()
	}
	var kinds []*kindLeft
	left := 0
	for i, piece := range p.job.Pieces {
		size := piece.Size
		if turned[i] != upright {
			size = size.Turned()
		}
		if size.W > sheet.W || size.H > sheet.H {
			return nil
		}
		kinds = append(kinds, &kindLeft{i, size.W, size.H, piece.Count})
		left += piece.Count
	}
	sort.SliceStable(kinds, func(i, j int) bool {
		if kinds[i].broad != kinds[j].broad {
			return kinds[i].broad > kinds[j].broad
		}
		return kinds[i].along > kinds[j].along
	})
	var trees []*Part
	for left > 0 {
		root := newPart(geometry.RectFromSize(geometry.Point{}, p.job.Stock.Size))
		trees = append(trees, root)
		rest, room := root, sheet.H
		for {
			k := firstThatFits(kinds, sheet.W, room)
			if k == nil || rest == nil {
				break
			}
			strip := rest
			if k.broad < room {
				strip, rest = rest.split(upright, k.broad, p.kerf)
				room -= k.broad + p.kerf
			} else {
				rest, room = nil, 0
			}
			left -= p.fillStrip(strip, kinds, k.broad, sheet.W, upright, turned)
		}
	}
	return trees
}

func firstThatFits(kinds []*kindLeft, along, broad geometry.Length) *kindLeft {
	for _, k := range kinds {
		if k.left > 0 && k.along <= along && k.broad <= broad {
			return k
		}
	}
	return nil
}

// fillStrip cuts pieces off a strip and returns how many.
func (p *planner) fillStrip(strip *Part, kinds []*kindLeft, broad, along geometry.Length, upright bool, turned []bool) int {
	n := 0
	for strip != nil {
		k := firstThatFits(kinds, along, broad)
		if k == nil {
			break
		}
		piece := strip
		if k.along < along {
			piece, strip = strip.split(!upright, k.along, p.kerf)
			along -= k.along + p.kerf
		} else {
			strip, along = nil, 0
		}
		if k.broad < broad {
			piece, _ = piece.split(upright, k.broad, p.kerf)
		}
		piece.Piece, piece.Turned = k.piece, turned[k.piece]
		k.left--
		n++
	}
	return n
}
