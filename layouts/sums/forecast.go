package sums

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"sort"

	"panelry/geometry"
	"panelry/layouts"
)

// Accuracy says how far off cutting and placing can be, either way. Each
// error is taken to be spread evenly between the two ends (a rectangular
// distribution, with σ = e/√3), and all of them to be independent.
//
// Cutting: a panel comes out larger or smaller by up to Cut, each way of its
// own, half of it on either side. Placing: it lies off by up to Place across,
// and down.
type Accuracy struct {
	Cut, Place geometry.Length
	Threshold  geometry.Length // from which a difference of margins shows
	Chained    bool            // panels are laid one after another, each measured from the last; else each from the card's edge
}

// UsualAccuracy returns what a tool and a way of placing give. Source: our
// trade facts: 1/32 in for careful work with a trimmer or a knife, 1/16 in in
// class; 1/32 in for placing by eye. That a cutter keeps 0.1 mm and a guide
// halves the error is common practice, no source; so is 1/32 in as what the
// eye sees of uneven margins.
func UsualAccuracy(tools []layouts.Tool, guide, class bool) Accuracy {
	a := Accuracy{Cut: geometry.Inch / 32, Place: geometry.Inch / 32, Threshold: geometry.Inch / 32}
	switch {
	case slices.Contains(tools, layouts.Cutter):
		a.Cut = geometry.Millimetre / 10
	case class:
		a.Cut = geometry.Inch / 16
	}
	if class {
		a.Place = geometry.Inch / 16
	}
	if guide {
		a.Place /= 2
	}
	return a
}

// A Spread is how far a measure can be off.
type Spread struct {
	Worst geometry.Length // all errors at their worst at once
	RSS   geometry.Length // the root of the sum of their squares
	Sigma geometry.Length // the standard deviation
}

// A GapForecast is what becomes of one gap, or of many that are alike.
type GapForecast struct {
	Between [2]string // the panels of the first such gap
	Count   int
	Gap     geometry.Length
	Spread
	Closes float64 // the probability that it closes
}

// A MarginForecast is the difference of two opposite margins.
type MarginForecast struct {
	Way string // "left and right", "top and bottom"
	Spread
	Uneven float64 // the probability that it shows
}

// A Share is what one source of error adds to the variance of the narrowest
// gap.
type Share struct {
	What string
	Part float64
}

// A Chain compares the k-th of k cuts, each measured from the last, with one
// measured from the edge: the first is off by k e at worst and √k e by the
// root of the sum of squares, the other by e whatever k is.
type Chain struct {
	Cuts       int
	Worst, RSS geometry.Length
	FromEdge   geometry.Length
}

// ChainOf returns the chain of k cuts that are off by e each.
func ChainOf(k int, e geometry.Length) Chain {
	return Chain{k, geometry.Length(k) * e, round(math.Sqrt(float64(k)) * float64(e)), e}
}

// A Prospect is how a card is likely to come out.
type Prospect struct {
	Accuracy Accuracy
	Gaps     []GapForecast // narrowest first, then the likeliest to close
	Margins  []MarginForecast
	Shares   []Share // of the narrowest gap, the largest first
	Chain    Chain
}

// Forecast works out how a card with the given gap comes out that is cut and
// placed as accurately as stated. Gaps are those between straight sides that face each
// other; a front that has none gets its margins alone.
func Forecast(card layouts.Card, gap geometry.Length, a Accuracy) Prospect {
	p := Prospect{Accuracy: a, Gaps: gapForecasts(card, gap, a), Margins: marginForecasts(card, a)}
	if len(p.Gaps) > 0 {
		p.Shares = shares(a)
	}
	p.Chain = ChainOf(longestRun(card), a.Cut)
	return p
}

// facing is a gap between a side of one panel and a side of another.
type facing struct {
	i, j   int
	gap    geometry.Length
	nx, ny float64 // across the gap
}

// facings finds the gaps of a front: sides that run parallel, look at each
// other over at least a millimetre, and lie no farther apart than a gap can
// be wide.
func facings(card layouts.Card, gap geometry.Length) []facing {
	var list []facing
	panels := card.Panels
	limit := widestGap(card, gap)
	order := make([]int, len(panels))
	for i := range order {
		order[i] = i
	}
	left := func(i int) geometry.Length { return panels[i].Outline.Bounds().Min.X }
	sort.SliceStable(order, func(a, b int) bool { return left(order[a]) < left(order[b]) })
	for a, i := range order {
		box := panels[i].Outline.Bounds()
		for _, j := range order[a+1:] {
			other := panels[j].Outline.Bounds()
			if other.Min.X > box.Max.X+limit {
				break
			}
			if other.Min.Y > box.Max.Y+limit || box.Min.Y > other.Max.Y+limit {
				continue
			}
			if f, ok := facingSides(panels[i].Outline, panels[j].Outline, limit); ok {
				f.i, f.j = min(i, j), max(i, j)
				list = append(list, f)
			}
		}
	}
	return list
}

// widestGap is the distance up to which two sides have a gap between them: the
// widest gap of the front, and half as much again.
func widestGap(card layouts.Card, gap geometry.Length) geometry.Length {
	for _, t := range append(slices.Clone(card.Front.Across), card.Front.Down...) {
		if t.What == "gap" {
			gap = max(gap, t.Length)
		}
	}
	for _, r := range card.Front.Rounded {
		gap = max(gap, r.Now)
	}
	return gap + gap/2
}

// facingSides returns the narrowest gap between parallel straight sides of
// two outlines, holes included.
func facingSides(a, b geometry.Outline, limit geometry.Length) (facing, bool) {
	best, found := facing{}, false
	for _, s := range straightSides(a) {
		u := s.B.Sub(s.A)
		length := u.Len()
		ux, uy := float64(u.X)/length, float64(u.Y)/length
		along := func(v geometry.Vector) float64 { return float64(v.X)*ux + float64(v.Y)*uy }
		for _, t := range straightSides(b) {
			v := t.B.Sub(t.A)
			if math.Abs(ux*float64(v.Y)-uy*float64(v.X)) > 1e-4*v.Len() || along(v) > 0 {
				continue // not parallel, or it looks the same way
			}
			// The inside of an outline lies to the right of its sides, so across
			// the gap is to the left.
			w := t.A.Sub(s.A)
			away := float64(w.X)*uy - float64(w.Y)*ux
			from, to := along(w), along(t.B.Sub(s.A))
			overlap := min(max(from, to), length) - max(min(from, to), 0)
			if away < -1 || away > float64(limit) || overlap < float64(geometry.Millimetre) {
				continue
			}
			if gap := max(0, round(away)); !found || gap < best.gap {
				best, found = facing{gap: gap, nx: uy, ny: -ux}, true
			}
		}
	}
	return best, found
}

// straightSides lists the straight sides of all rings.
func straightSides(o geometry.Outline) []geometry.Line {
	var list []geometry.Line
	for _, r := range o.Rings() {
		from := r.Start()
		for _, s := range r {
			if !s.Curved && s.To != from {
				list = append(list, geometry.Line{A: from, B: s.To})
			}
			from = s.To
		}
	}
	return list
}

// errorsAcross are the errors, as half widths, of a gap whose normal is (nx,
// ny): half a cut for each panel along the way, and where each lies.
func (a Accuracy) errorsAcross(nx, ny float64) []float64 {
	nx, ny = math.Abs(nx), math.Abs(ny)
	cut, place := float64(a.Cut)/2, float64(a.Place)
	var list []float64
	for range 2 {
		list = append(list, cut*nx, cut*ny, place*nx, place*ny)
	}
	return list
}

func gapForecasts(card layouts.Card, gap geometry.Length, a Accuracy) []GapForecast {
	type key struct {
		gap geometry.Length
		nx  int // of the normal, in steps of 1e-4
	}
	at := map[key]int{}
	var list []GapForecast
	for _, f := range facings(card, gap) {
		k := key{(f.gap + 50) / 100, int(math.Round(1e4 * math.Abs(f.nx)))}
		if i, ok := at[k]; ok {
			list[i].Count++
			continue
		}
		at[k] = len(list)
		e := a.errorsAcross(f.nx, f.ny)
		list = append(list, GapForecast{
			Between: [2]string{card.Panels[f.i].Name, card.Panels[f.j].Name}, Count: 1,
			Gap: f.gap, Spread: spreadOf(e), Closes: Below(-float64(f.gap), e),
		})
	}
	sort.SliceStable(list, func(i, j int) bool {
		if d := list[i].Gap - list[j].Gap; d.Abs() > geometry.Micrometre {
			return d < 0
		}
		return list[i].Closes > list[j].Closes
	})
	return list
}

// marginForecasts compares the margins beside the outermost panels. One panel
// that reaches from side to side moves both margins by where it lies, in
// opposite ways; its size makes no difference between them.
func marginForecasts(card layouts.Card, a Accuracy) []MarginForecast {
	var list []MarginForecast
	for _, way := range []struct {
		name string
		down bool
	}{{"left and right", false}, {"top and bottom", true}} {
		if len(card.Panels) == 0 {
			continue
		}
		n, one := runOf(card, way.down)
		cut, place := float64(a.Cut)/2, float64(a.Place)
		e := []float64{cut, place, cut, place}
		switch {
		case one:
			e = []float64{2 * place}
		case a.Chained: // sizes and places of all before add up at the far side
			e = nil
			for range n {
				e = append(e, 2*cut, place)
			}
			e = append(e, place)
		}
		list = append(list, MarginForecast{Way: way.name, Spread: spreadOf(e), Uneven: 1 - Below(float64(a.Threshold), e) + Below(-float64(a.Threshold), e)})
	}
	return list
}

// runOf returns how many panels stand in a row from margin to margin, and
// whether one reaches both.
func runOf(card layouts.Card, down bool) (n int, one bool) {
	terms := card.Front.Across
	if down {
		terms = card.Front.Down
	}
	for _, t := range terms {
		if t.What == "panel" {
			n++
		}
	}
	for _, p := range card.Panels {
		box := p.Outline.Bounds()
		if !down && box.W() >= card.Frame.W()-geometry.Micrometre || down && box.H() >= card.Frame.H()-geometry.Micrometre {
			return n, true
		}
	}
	return max(n, 2), false
}

func longestRun(card layouts.Card) int {
	across, _ := runOf(card, false)
	down, _ := runOf(card, true)
	return max(across, down)
}

// shares splits the variance of a gap between cutting and placing: along any
// normal the squares of its parts add up to one, so the split is the same for
// every gap.
func shares(a Accuracy) []Share {
	cut, place := float64(a.Cut)/2, float64(a.Place)
	sum := cut*cut + place*place
	if sum == 0 {
		return nil
	}
	list := []Share{{"placing", place * place / sum}, {"cutting", cut * cut / sum}}
	sort.SliceStable(list, func(i, j int) bool { return list[i].Part > list[j].Part })
	return list
}

func spreadOf(e []float64) Spread {
	var worst, squares float64
	for _, x := range e {
		worst += x
		squares += x * x
	}
	return Spread{round(worst), round(math.Sqrt(squares)), round(math.Sqrt(squares / 3))}
}

// Below returns the probability that a sum of independent errors, each spread
// evenly from -e to e, is below x. For n of them it is
//
//	1/(n! Π 2e) · Σ over all signs s of (Π s) · max(0, x + Σ s·e)ⁿ
//
// (the convolution of rectangles; for equal ones the Irwin-Hall
// distribution). Errors under a thousandth of the largest are left out, and
// of more than 14 the smallest are taken as one normal error.
func Below(x float64, errors []float64) float64 {
	e := slices.Clone(errors)
	sort.Sort(sort.Reverse(sort.Float64Slice(e)))
	for len(e) > 0 && e[len(e)-1] <= e[0]*1e-3 {
		e = e[:len(e)-1]
	}
	if len(e) == 0 {
		if x > 0 {
			return 1
		}
		return 0
	}
	var reach, squares float64
	for _, w := range e {
		reach += w
		squares += w * w
	}
	switch {
	case x <= -reach:
		return 0
	case x >= reach:
		return 1
	case x > 0: // fewer terms cancel in the lower tail
		return 1 - Below(-x, e)
	case len(e) > 14:
		return 0.5 * math.Erfc(-x/math.Sqrt(squares/3)/math.Sqrt2)
	}
	n := len(e)
	unit := reach
	var sum float64
	for signs := range 1 << n {
		at, sign := x/unit, 1.0
		for i, w := range e {
			if signs>>i&1 == 0 {
				at += w / unit
			} else {
				at -= w / unit
				sign = -sign
			}
		}
		if at > 0 {
			sum += sign * math.Pow(at, float64(n))
		}
	}
	for i, w := range e {
		sum /= 2 * w / unit * float64(i+1)
	}
	return min(max(sum, 0), 1)
}

// Likely returns cards as they may come out: each panel a little larger or
// smaller and a little off its place, by the accuracy. The same seed gives
// the same cards.
func Likely(card layouts.Card, a Accuracy, seed int64, n int) []layouts.Card {
	random := rand.New(rand.NewSource(seed))
	off := func(e geometry.Length) float64 { return float64(e) * (2*random.Float64() - 1) }
	cards := make([]layouts.Card, n)
	for k := range cards {
		cards[k] = card
		cards[k].Panels = slices.Clone(card.Panels)
		for i := range cards[k].Panels {
			p := &cards[k].Panels[i]
			box := p.Outline.Bounds()
			middle, size := box.Centre(), box.Size()
			sx, sy := 1+off(a.Cut)/float64(size.W), 1+off(a.Cut)/float64(size.H)
			dx, dy := off(a.Place), off(a.Place)
			p.Outline = p.Outline.Mapped(func(q geometry.Point) geometry.Point {
				v := q.Sub(middle)
				return middle.Add(geometry.Vector{X: round(sx*float64(v.X) + dx), Y: round(sy*float64(v.Y) + dy)})
			})
		}
	}
	return cards
}

// Check refuses an accuracy that says nothing.
func (a Accuracy) Check(unit geometry.Unit) error {
	for _, one := range []struct {
		word string
		l    geometry.Length
	}{{"cutting", a.Cut}, {"placing", a.Place}, {"the threshold", a.Threshold}} {
		if one.l < 0 || one.l > geometry.Inch {
			return fmt.Errorf("%s is off by %s; write 0 to 1 in", one.word, one.l.Format(unit))
		}
	}
	return nil
}
