package layouts

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"

	"panelry/geometry"
	"panelry/geometry/nesting"
	"panelry/layouts/papers"
)

// UseStock returns the design with a stock: its pieces are laid on what is at
// hand, offcuts first, and then on new sheets, unless there are to be none.
func (d Design) UseStock(s Stock, noNew bool) Design {
	d.stock, d.noNew = &s, noNew
	return d
}

// stockOf returns the sheets that a paper's pieces are laid on, in order.
func (d Design) stockOf(p papers.Paper) []nesting.Sheet {
	if d.stock == nil {
		return []nesting.Sheet{{Size: p.Sheet}}
	}
	var out []nesting.Sheet
	for _, h := range d.stock.of(p.Name) {
		if h.Count > 0 {
			out = append(out, nesting.Sheet{Size: h.Size, Count: h.Count, Outline: h.Outline})
		}
	}
	if !d.noNew {
		out = append(out, nesting.Sheet{Size: p.Sheet})
	}
	return out
}

// A Most is how many cards a stock makes.
type Most struct {
	Cards int // the most that were found
	// Bound is a number of cards that cannot be passed, and Proved says that
	// Cards is that number.
	Bound  int
	Proved bool
	Short  string // the paper that runs out first
}

// CardsFrom finds how many cards of a design a stock makes, up to what goes
// in one kit; spare sets stay as many as the design says. The number found is
// the packer's, so more may be possible, up to the bound.
//
// The bound holds, paper by paper, what all pieces cover against what the
// stock has inside its edges; and for oblongs that are too long to lie across
// each other, how many go side by side on each sheet, which is exact for
// oblongs along its sides. Of a plan that deals anew for every number of cards
// ("whole blocks") no bound is known.
func CardsFrom(ctx context.Context, d Design, s Stock) (Most, error) {
	d = d.UseStock(s, true)
	card, err := planCard(d)
	if err != nil {
		return Most{}, err
	}
	if _, err := d.WithCards(1).dealPapers(card); err != nil {
		return Most{}, err
	}
	limit := min(MostCards, (MostPieces-len(card.Panels)*d.Batch.Spares)/(len(card.Panels)+1))
	if n := len(d.Batch.ByHand); n > 0 {
		limit = min(limit, n)
	}
	var most Most
	over, err := firstNot(1, limit, func(cards int) (bool, error) {
		short, err := d.WithCards(cards).shortOf(card, func(p papers.Paper, kinds []*kindPieces) (bool, error) {
			return d.goesOn(ctx, p, kinds)
		})
		if short != "" {
			most.Short = short
		}
		return short == "", err
	})
	most.Cards, most.Bound = over-1, limit
	if err != nil || most.Cards == limit || d.Batch.Plan == "whole blocks" {
		most.Proved = most.Cards == limit
		return most, err
	}
	over, err = firstNot(most.Cards+1, limit, func(cards int) (bool, error) {
		short, err := d.WithCards(cards).shortOf(card, func(p papers.Paper, kinds []*kindPieces) (bool, error) {
			return d.mayGoOn(p, kinds), nil
		})
		return short == "", err
	})
	most.Bound = over - 1
	most.Proved = most.Bound == most.Cards
	return most, err
}

// firstNot returns the first number of a range for which something does not
// hold, or the one behind the range: it holds up to some number and then no more.
// Steps are doubled first, so that small answers are found soon.
func firstNot(from, to int, holds func(int) (bool, error)) (int, error) {
	low, high := from-1, to+1 // holds at low, not at high
	for step := 1; high-low > 1; step *= 2 {
		at := min(low+step, (low+high)/2)
		ok, err := holds(at)
		if err != nil {
			return high, err
		}
		if ok {
			low = at
		} else {
			high, step = at, 1
		}
	}
	return high, nil
}

// WithCards returns the design for another number of cards; by hand, for no
// more than have papers.
func (d Design) WithCards(cards int) Design {
	d.Batch.Cards = cards
	if len(d.Batch.ByHand) > 0 {
		d.Batch.ByHand = d.Batch.ByHand[:min(cards, len(d.Batch.ByHand))]
	}
	return d
}

// shortOf returns the first paper that does not suffice; "" for none.
func (d Design) shortOf(card Card, suffices func(papers.Paper, []*kindPieces) (bool, error)) (string, error) {
	l, err := d.dealPapers(card)
	if err != nil { // one card can be dealt, so a paper gives too few panels
		return d.Papers[slices.IndexFunc(d.Papers, func(p papers.Paper) bool { return p.Most > 0 })].Name, nil
	}
	sorting := sortPieces(d, card, l)
	for _, p := range d.Papers {
		kinds := sorting.byPaper[p.Name]
		if len(kinds) == 0 {
			continue
		}
		if len(d.stock.of(p.Name)) == 0 {
			return p.Name, nil
		}
		if ok, err := suffices(p, kinds); !ok || err != nil {
			return p.Name, err
		}
	}
	return "", nil
}

// goesOn reports whether the packer lays pieces on the stock.
func (d Design) goesOn(ctx context.Context, p papers.Paper, kinds []*kindPieces) (bool, error) {
	_, err := packStock(ctx, nesting.Rows{}, d.job(p, kinds))
	var out *nesting.OutOfSheetsError
	var large *nesting.TooLargeError
	if errors.As(err, &out) || errors.As(err, &large) {
		return false, nil
	}
	return err == nil, err
}

// packStock packs with the smallest sheets of a stock first and, where that
// takes a new sheet or leaves pieces over, with the largest first; the one
// that takes fewer new sheets counts. New sheets come last in both.
func packStock(ctx context.Context, packer nesting.Packer, job nesting.Job) (nesting.Layout, error) {
	layout, err := packer.Pack(ctx, job)
	if len(job.Stock) < 2 || err == nil && newSheets(job, layout) == 0 || ctx.Err() != nil {
		return layout, err
	}
	held := len(job.Stock)
	if job.Stock[held-1].Count == 0 {
		held--
	}
	turned := job
	turned.Stock = slices.Clone(job.Stock)
	slices.Reverse(turned.Stock[:held])
	other, otherErr := packer.Pack(ctx, turned)
	if otherErr != nil || err == nil && newSheets(job, layout) <= newSheets(job, other) {
		return layout, err
	}
	for i, stock := range other.Sheets {
		if stock < held {
			other.Sheets[i] = held - 1 - stock
		}
	}
	return other, nil
}

// newSheets counts the sheets that are not of the stock.
func newSheets(job nesting.Job, layout nesting.Layout) int {
	n := 0
	for _, stock := range layout.Sheets {
		if job.Stock[stock].Count == 0 {
			n++
		}
	}
	return n
}

// mayGoOn reports whether pieces may go on the stock, as far as counting says.
func (d Design) mayGoOn(p papers.Paper, kinds []*kindPieces) bool {
	edge, spacing := d.room(p)
	var room, wanted float64 // mm2
	for _, h := range d.stock.of(p.Name) {
		room += usable(h, edge).SquareMM() * float64(h.Count)
	}
	for _, k := range kinds {
		wanted += k.Outline.Area().SquareMM() * float64(k.Count)
		most := 0
		for _, h := range d.stock.of(p.Name) {
			most += h.Count * k.mostOn(h, edge, spacing)
		}
		if k.Count > most {
			return false
		}
	}
	return wanted <= room*(1+1e-12)
}

// usable returns what a sheet has inside its edges.
func usable(h Held, edge geometry.Length) geometry.Area {
	size := geometry.Size{W: max(0, h.Size.W-2*edge), H: max(0, h.Size.H-2*edge)}
	return geometry.RectFromSize(geometry.Point{}, size).Outline().Area()
}

// newBound returns how many new sheets it takes at least: by area, and by how
// many pieces of each kind go on a sheet.
func (d Design) newBound(p papers.Paper, kinds []*kindPieces) int {
	edge, spacing := d.room(p)
	fresh := Held{Size: p.Sheet}
	bound, short := 0, 0.0
	for _, k := range kinds {
		short += k.Outline.Area().SquareMM() * float64(k.Count)
		left := k.Count
		for _, h := range d.stock.of(p.Name) {
			left -= h.Count * k.mostOn(h, edge, spacing)
		}
		if most := k.mostOn(fresh, edge, spacing); left > 0 && most > 0 {
			bound = max(bound, (left+most-1)/most)
		}
	}
	for _, h := range d.stock.of(p.Name) {
		short -= usable(h, edge).SquareMM() * float64(h.Count)
	}
	return max(bound, int(math.Ceil(short/usable(fresh, edge).SquareMM()-1e-9)))
}

// mostOn returns a number of pieces of a kind that a sheet cannot pass.
func (k *kindPieces) mostOn(h Held, edge, spacing geometry.Length) int {
	grid := func(w, h, pw, ph geometry.Length) int {
		if pw > w || ph > h {
			return 0
		}
		return int((w + spacing) / (pw + spacing) * ((h + spacing) / (ph + spacing)))
	}
	w, height := h.Size.W-2*edge, h.Size.H-2*edge
	box := k.Outline.Bounds().Size()
	byArea := int(usable(h, edge).SquareMM()*(1+1e-12)/k.Outline.Area().SquareMM() + 1e-9)
	switch {
	case !isOblong(k.Outline):
		return byArea
	case !k.turns.AllowAny():
		return grid(w, height, box.W, box.H)
	case box.W+box.H+spacing > max(w, height):
		return max(grid(w, height, box.W, box.H), grid(w, height, box.H, box.W))
	}
	return byArea
}

// leastOffcut is the narrowest strip that is kept. Our own measure, no source.
const leastOffcut = geometry.Inch

// LeftOver returns the stock once a kit is cut: sheets that were used are
// gone, and what can be cut off straight below and beside their pieces is
// there as offcuts, in whole steps of the ruler; that of new sheets too, but not
// that of offcuts with an outline.
func (k Kit) LeftOver(s Stock) Stock {
	left := Stock{Units: s.Units, Held: slices.Clone(s.Held)}
	for _, sheet := range k.Sheets {
		left.take(sheet)
		for _, r := range sheet.Offcuts(k.Design.Ruler) {
			left.Held = append(left.Held, Held{Paper: sheet.Paper.Name, Size: r.Size(), Count: 1, Offcut: true})
		}
	}
	return left.merged()
}

// take takes one away, of offcuts first.
func (s *Stock) take(sheet Sheet) {
	best := -1
	for i, h := range s.Held {
		same := h.Paper == sheet.Paper.Name && h.Size == sheet.Size && reflect.DeepEqual(h.Outline, sheet.Scrap)
		if same && h.Count > 0 && (best < 0 || h.Offcut) {
			best = i
		}
	}
	if best >= 0 {
		s.Held[best].Count--
	}
}

// Offcuts returns the strips below and beside a sheet's pieces, cut the way that
// keeps the largest whole, in whole steps of the ruler and where they are wide
// enough to keep; none of a scrap, which has no straight sides to measure.
func (s Sheet) Offcuts(ruler geometry.Length) []geometry.Rect {
	if len(s.Scrap.Outer) > 0 || ruler <= 0 {
		return nil
	}
	var right, bottom geometry.Length
	for _, p := range s.Pieces {
		for _, o := range append([]geometry.Outline{p.Outline}, p.Print...) {
			box := o.Bounds()
			right, bottom = max(right, box.Max.X), max(bottom, box.Max.Y)
		}
	}
	end := geometry.Point{X: s.Size.W, Y: s.Size.H}
	beside, below := end.X-(end.X-right)/ruler*ruler, end.Y-(end.Y-bottom)/ruler*ruler
	ways := [][]geometry.Rect{
		{{Min: geometry.Point{Y: below}, Max: end}, {Min: geometry.Point{X: beside}, Max: geometry.Point{X: end.X, Y: bottom}}},
		{{Min: geometry.Point{X: beside}, Max: end}, {Min: geometry.Point{Y: below}, Max: geometry.Point{X: right, Y: end.Y}}},
	}
	largest := func(way []geometry.Rect) float64 { return max(areaOf(way[0].Size()), areaOf(way[1].Size())) }
	way := slices.MaxFunc(ways, func(a, b []geometry.Rect) int { return cmp.Compare(largest(a), largest(b)) })
	var out []geometry.Rect
	for _, r := range way {
		size := geometry.Size{W: r.W() / ruler * ruler, H: r.H() / ruler * ruler}
		if min(size.W, size.H) >= leastOffcut {
			out = append(out, geometry.RectFromSize(r.Min, size))
		}
	}
	return out
}

// stockWarnings tell what must be bought beyond the stock, with the number
// that cannot be passed below.
func stockWarnings(kit Kit) []Warning {
	d := kit.Design
	if d.stock == nil {
		return nil
	}
	var out []Warning
	for _, use := range kit.Stock {
		if use.New == 0 {
			continue
		}
		sheets, least := "sheets", "proved fewest"
		if use.New == 1 {
			sheets = "sheet"
		}
		if use.NewBound < use.New {
			least = fmt.Sprintf("no way takes fewer than %d", use.NewBound)
		}
		out = append(out, Warning{"to-buy", fmt.Sprintf("paper %q: the stock is short of %d %s of %s (%s)", use.Paper.Name, use.New, sheets, use.Paper.Sheet.Format(d.Units), least), "papers." + use.Paper.Name})
	}
	if slices.Contains(d.Tools, Trimmer) {
		out = append(out, Warning{"cuts-not-stock", "cuts.md and panelry trim plan whole sheets, not the stock's offcuts", "tool"})
	}
	return out
}
