package sums

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sort"

	"panelry/geometry"
	"panelry/layouts"
)

// A NiceWish says what [Nice] may change, and how far.
type NiceWish struct {
	Tolerance geometry.Length // of margin and gap, either way
	Most      int             // choices to return; 0 stands for 5
}

// A Choice is a margin and a gap with what follows from them.
type Choice struct {
	Margin, Gap geometry.Length
	OnRuler     bool // whether halves and cells were put on the ruler's marks, with the rest left to their gaps
	OffRuler    int  // sizes of panels that fall beside a mark
	FurthestOff geometry.Length
	Stops       []geometry.Length // the different sizes a stop is set to, rising
	Sheets      int               // of the whole batch
	Diagonal    geometry.Length   // the gap on the diagonal of halves, where there are any; else 0
	Odd         int               // margin and gaps that are no multiple of half a step
	Changed     geometry.Length   // how far margin and gap are from the wished ones, together
}

// mostNiceWork is how many panels may be divided in a search, all choices
// together: what keeps the finest mosaic within a fraction of a second.
const mostNiceWork = 12_000

// Nice looks for margins and gaps near the design's own that put every size
// on its ruler. Choices with fewer sizes beside a mark come first, then those
// with fewer stop settings, fewer sheets, fewer odd margins and gaps, and less changed. Of each margin
// and gap two forms are tried: as they are, and with the pieces on the ruler
// and what is left over in the gaps (halves by [fronts.RulerPair]).
//
// A ruler that is coarser than the gap by more than it can give is an error.
func Nice(ctx context.Context, d layouts.Design, wish NiceWish) ([]Choice, error) {
	if d.Ruler > 2*(d.Front.Gap+wish.Tolerance) && d.Front.Gap > 0 {
		return nil, fmt.Errorf("the ruler's step of %s is coarser than the gap of %s can take up; use a finer ruler or a wider gap",
			d.Ruler.Format(d.Units), d.Front.Gap.Format(d.Units))
	}
	base, err := layouts.PlanCard(d)
	if err != nil {
		return nil, err
	}
	// Half steps: margins stand on both sides, so a whole step of a panel is
	// half a step of a margin.
	margins := nearby(d.Front.Margin, d.Ruler/2, wish.Tolerance)
	gaps := nearby(d.Front.Gap, d.Ruler/2, wish.Tolerance)
	type pair struct{ margin, gap geometry.Length }
	var pairs []pair
	for _, m := range margins {
		for _, g := range gaps {
			pairs = append(pairs, pair{m, g})
		}
	}
	apart := func(p pair) geometry.Length { return (p.margin - d.Front.Margin).Abs() + (p.gap - d.Front.Gap).Abs() }
	sort.SliceStable(pairs, func(i, j int) bool { return apart(pairs[i]) < apart(pairs[j]) })
	if most := max(4, mostNiceWork/(2*max(1, len(base.Panels)))); len(pairs) > most {
		pairs = pairs[:most]
	}
	var choices []Choice
	for _, p := range pairs {
		for _, onRuler := range []bool{false, true} {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			one := d
			one.Front.Margin, one.Front.Gap, one.Front.OnRuler = p.margin, p.gap, onRuler
			card, err := layouts.PlanCard(one)
			if err != nil || onRuler && len(card.Front.Rounded) == 0 {
				continue
			}
			c := judge(card, d.Ruler)
			c.Margin, c.Gap, c.OnRuler, c.Changed = p.margin, p.gap, onRuler, apart(p)
			c.Odd = odd(card, p.margin, d.Ruler)
			for _, r := range card.Front.Rounded {
				c.Changed += (r.Now - r.Asked).Abs()
			}
			choices = append(choices, c)
		}
	}
	if len(choices) == 0 {
		return nil, fmt.Errorf("no margin and gap within %s of the wished ones can be cut", wish.Tolerance.Format(d.Units))
	}
	sort.SliceStable(choices, func(i, j int) bool { return choices[i].better(choices[j]) })
	most := wish.Most
	if most == 0 {
		most = 5
	}
	choices = distinct(choices, most)
	for i := range choices {
		if err := choices[i].countSheets(ctx, d); err != nil {
			return nil, err
		}
	}
	sort.SliceStable(choices, func(i, j int) bool { return choices[i].better(choices[j]) })
	return choices, nil
}

// nearby lists the steps within a tolerance of a length, and the length
// itself.
func nearby(wish, step, tolerance geometry.Length) []geometry.Length {
	list := []geometry.Length{wish}
	for at := max(0, wish-tolerance+step-1) / step * step; at <= wish+tolerance; at += step {
		if at != wish {
			list = append(list, at)
		}
	}
	return list
}

// judge measures what a card's panels are cut to.
func judge(card layouts.Card, ruler geometry.Length) Choice {
	var c Choice
	stops := map[geometry.Length]bool{} // and whether each falls beside a mark
	for _, p := range card.Panels {
		for _, size := range sizesToCut(p.Outline) {
			mark := (size + ruler/2) / ruler * ruler
			off := (size - mark).Abs()
			if off <= onMark {
				stops[mark] = false
				continue
			}
			stops[size/(2*onMark)*(2*onMark)] = true
			c.FurthestOff = max(c.FurthestOff, off)
		}
	}
	for s, beside := range stops {
		c.Stops = append(c.Stops, s)
		if beside {
			c.OffRuler++
		}
	}
	slices.Sort(c.Stops)
	if card.Front.Tree != nil && len(card.Panels) > 0 && card.Panels[0].Hand != "" {
		c.Diagonal = diagonalGap(card)
	}
	return c
}

// odd counts the margin and the gaps across and down that a ruler with half
// steps cannot show.
func odd(card layouts.Card, margin, ruler geometry.Length) int {
	beside := map[geometry.Length]bool{margin: true}
	for _, t := range append(slices.Clone(card.Front.Across), card.Front.Down...) {
		if t.What == "gap" {
			beside[t.Length] = true
		}
	}
	n := 0
	for l := range beside {
		if off := l % (ruler / 2); min(off, ruler/2-off) > onMark {
			n++
		}
	}
	return n
}

// onMark is how far beside a mark a size may lie and count as on it: what
// sharing out a length rounds.
const onMark = 10 * geometry.Nanometre

// diagonalGap is the gap between the halves of the first cell.
func diagonalGap(card layouts.Card) geometry.Length {
	for _, r := range card.Front.Rounded {
		if r.What == "gap on the diagonal" {
			return r.Now
		}
	}
	tree := card.Front.Tree
	for tree.Cut != nil && len(tree.Parts) > 0 {
		if len(tree.Parts) == 2 && tree.Parts[0].Panel != "" && tree.Parts[1].Panel != "" {
			return tree.Cut.Gap
		}
		tree = tree.Parts[0]
	}
	return 0
}

// sizesToCut are what a stop is set to for an outline: the two sides of an
// oblong or the legs of a right triangle, and for others the breadths across
// each pair of parallel sides, else the box.
func sizesToCut(o geometry.Outline) []geometry.Length {
	box := o.Bounds().Size()
	if !o.IsStraight() || len(o.Holes) > 0 {
		return nil // no stop cuts it
	}
	points := o.Tidied().Outer.Points()
	n := len(points)
	upright := 0
	for i, p := range points {
		q := points[(i+1)%n]
		if p.X == q.X || p.Y == q.Y {
			upright++
		}
	}
	if n == 4 && upright == 4 || n == 3 && upright == 2 {
		return []geometry.Length{box.W, box.H}
	}
	var list []geometry.Length
	for i := range points {
		a, b := points[i], points[(i+1)%n]
		u := b.Sub(a)
		for j := i + 1; j < n; j++ {
			p, q := points[j], points[(j+1)%n]
			v := q.Sub(p)
			if math.Abs(float64(u.X)*float64(v.Y)-float64(u.Y)*float64(v.X)) > 1e-6*u.Len()*v.Len() {
				continue
			}
			w := p.Sub(a)
			across := math.Abs(float64(u.X)*float64(w.Y)-float64(u.Y)*float64(w.X)) / u.Len()
			list = append(list, round(across))
		}
	}
	if len(list) == 0 {
		list = []geometry.Length{box.W, box.H}
	}
	return list
}

// better puts choices in order.
func (c Choice) better(o Choice) bool {
	switch {
	case c.OffRuler != o.OffRuler:
		return c.OffRuler < o.OffRuler
	case len(c.Stops) != len(o.Stops):
		return len(c.Stops) < len(o.Stops)
	case c.Sheets != o.Sheets:
		return c.Sheets < o.Sheets
	case c.Odd != o.Odd:
		return c.Odd < o.Odd
	}
	return c.Changed < o.Changed
}

// distinct keeps the first choices that cut different sizes or leave
// different gaps.
func distinct(choices []Choice, most int) []Choice {
	var kept []Choice
	for _, c := range choices {
		same := slices.ContainsFunc(kept, func(k Choice) bool {
			return k.Margin == c.Margin && k.Gap == c.Gap && slices.Equal(k.Stops, c.Stops)
		})
		if !same {
			kept = append(kept, c)
		}
		if len(kept) == most {
			break
		}
	}
	return kept
}

// countSheets plans the batch with the choice.
func (c *Choice) countSheets(ctx context.Context, d layouts.Design) error {
	d = c.Apply(d)
	kit, err := layouts.Plan(ctx, d)
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		return nil // what fits on no sheet is told by show and make
	}
	c.Sheets = kit.Totals.Sheets
	return nil
}

// Apply returns the design with the choice made.
func (c Choice) Apply(d layouts.Design) layouts.Design {
	d.Front.Margin, d.Front.Gap, d.Front.OnRuler = c.Margin, c.Gap, c.OnRuler
	return d
}
