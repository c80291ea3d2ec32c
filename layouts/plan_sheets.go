package layouts

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"panelry/geometry"
	"panelry/geometry/nesting"
	"panelry/layouts/cards"
	"panelry/layouts/papers"
)

// planSheets lays all pieces of one paper on sheets. Of several sizes it takes
// the one that is cheapest in all, if all have prices; else the one whose
// sheets are the least paper.
func planSheets(ctx context.Context, d Design, p papers.Paper, kinds []*kindPieces, packer nesting.Packer) (PaperUse, []Sheet, error) {
	if len(p.Sizes) < 2 || len(kinds) == 0 {
		return planSize(ctx, d, p, kinds, packer)
	}
	priced := !slices.ContainsFunc(p.Sizes, func(s papers.Sized) bool { return s.Price == nil })
	var best PaperUse
	var bestSheets []Sheet
	var firstErr error
	for _, size := range p.Sizes {
		use, sheets, err := planSize(ctx, d, p.In(size), kinds, packer)
		var problems Problems
		if errors.As(err, &problems) {
			firstErr = cmp.Or(firstErr, err)
			continue
		} else if err != nil {
			return use, nil, err
		}
		if bestSheets == nil || use.takesLess(best, priced) {
			best, bestSheets = use, sheets
		}
	}
	if bestSheets == nil {
		return best, nil, firstErr
	}
	return best, bestSheets, nil
}

// takesLess compares two ways to cut one paper's pieces.
func (u PaperUse) takesLess(other PaperUse, byPrice bool) bool {
	if byPrice {
		if c := u.Paper.Price.Times(u.Sheets).Compare(other.Paper.Price.Times(other.Sheets)); c != 0 {
			return c < 0
		}
	}
	return areaOf(u.Paper.Sheet)*float64(u.Sheets) < areaOf(other.Paper.Sheet)*float64(other.Sheets)
}

// planSize lays all pieces of one paper on sheets of its one size.
func planSize(ctx context.Context, d Design, p papers.Paper, kinds []*kindPieces, packer nesting.Packer) (PaperUse, []Sheet, error) {
	use := PaperUse{Paper: p}
	if len(kinds) == 0 {
		return use, nil, nil
	}
	job := d.job(p, kinds)
	if len(job.Stock) == 0 {
		return use, nil, d.wrong(d.paperKey(p.Name), "the stock has none of it")
	}
	layout, err := packStock(ctx, packer, job)
	var tooLarge *nesting.TooLargeError
	var out *nesting.OutOfSheetsError
	if errors.As(err, &out) {
		return use, nil, d.wrong(d.paperKey(p.Name), "the stock has no room for %d of its pieces; buy sheets, or make fewer cards", out.Left)
	}
	if errors.As(err, &tooLarge) {
		return use, nil, fitsNowhere(d, p, kinds[tooLarge.Shape], tooLarge)
	}
	if err != nil {
		return use, nil, fmt.Errorf("paper %q: %w", p.Name, err)
	}
	if err := nesting.Verify(job, layout); err != nil {
		return use, nil, fmt.Errorf("paper %q: the laid-out sheets failed their check, so nothing is written: %w", p.Name, err)
	}
	sheets := make([]Sheet, len(layout.Sheets))
	for i, stock := range layout.Sheets {
		sheets[i] = Sheet{Paper: p, Size: job.Stock[stock].Size, Scrap: job.Stock[stock].Outline, Edge: job.Edge, Spacing: job.Spacing, Bleed: d.bleed(p)}
	}
	for _, placement := range layout.Placements {
		s := &sheets[placement.Sheet]
		s.Pieces = append(s.Pieces, lay(job, placement, kinds[placement.Shape]))
	}
	if job.InHoles {
		for _, s := range sheets {
			innerFirst(s.Pieces)
		}
	}
	if err := planPrint(sheets); err != nil {
		return use, nil, fmt.Errorf("paper %q: bleed: %w", p.Name, err)
	}
	use.Sheets = len(sheets)
	if len(job.Stock) == 1 {
		least := job.Least()
		use.Least, use.LeastName = least.Sheets, least.Kind
	}
	if d.stock != nil {
		use.New, use.NewBound = newSheets(job, layout), d.newBound(p, kinds)
	}
	for _, s := range sheets {
		use.Pieces += len(s.Pieces)
		use.UsedPercent += s.UsedPercent() / float64(len(sheets))
	}
	return use, sheets, nil
}

// innerFirst orders the pieces of a sheet with holes so that what lies in a
// hole, and so is smaller, is cut before what it lies in.
func innerFirst(pieces []Piece) {
	if slices.ContainsFunc(pieces, func(p Piece) bool { return len(p.Outline.Holes) > 0 }) {
		slices.SortStableFunc(pieces, func(a, b Piece) int {
			return cmp.Compare(areaOf(a.Outline.Bounds().Size()), areaOf(b.Outline.Bounds().Size()))
		})
	}
}

// job is what the packer is asked for one paper.
func (d Design) job(p papers.Paper, kinds []*kindPieces) nesting.Job {
	edge, spacing := d.room(p)
	return nesting.Job{Shapes: shapes(kinds), Stock: d.stockOf(p), Edge: edge, Spacing: spacing, InHoles: d.Sheets.InHoles}
}

// room returns the edge and the spacing of a paper's sheets. With bleed,
// pieces lie at least twice the bleed apart, and what keeps to the edge is
// the print around the pieces; the edge then has at least [PrintedEdge], for
// the alignment marks.
func (d Design) room(p papers.Paper) (edge, spacing geometry.Length) {
	edge, spacing = chosen(p.Edge, d.Sheets.Edge), chosen(p.Spacing, d.Sheets.Spacing)
	if bleed := d.bleed(p); bleed > 0 {
		edge, spacing = max(edge, PrintedEdge)+bleed, max(spacing, 2*bleed)
	}
	return edge, spacing
}

// bleed returns how far a paper's pieces are printed past their outlines.
func (d Design) bleed(p papers.Paper) geometry.Length {
	if p.Bleed != nil {
		return *p.Bleed
	}
	return d.Sheets.Bleed
}

// PrintedEdge is the least edge of a printed sheet, and MarkInset is how far
// the alignment marks stand from its sides: home printers leave up to 1/4 in
// unprinted (common practice, no source).
const (
	PrintedEdge = geometry.Inch * 3 / 8
	MarkInset   = geometry.Inch * 5 / 16
)

// lay makes a piece of a placement.
func lay(job nesting.Job, at nesting.Placement, k *kindPieces) Piece {
	w := k.pieces[at.Copy]
	piece := Piece{
		ID: w.id, Card: w.card, Panel: w.panel, Kind: k.ID,
		Turn:    geometry.NormalDegrees(w.turn + at.Turn),
		Over:    w.over,
		Outline: job.Placed(at),
		Middle:  k.middle().Turned(at.Turn).Add(at.Move),
	}
	for _, f := range k.Folds {
		piece.Folds = append(piece.Folds, cards.Fold{Line: f.Line.Turned(at.Turn).Moved(at.Move), Kind: f.Kind})
	}
	return piece
}

// fitsNowhere names a piece that no sheet can hold.
func fitsNowhere(d Design, p papers.Paper, k *kindPieces, e *nesting.TooLargeError) error {
	unit, key := d.Units, d.paperKey(p.Name)+".sheet"
	edge, _ := d.room(p)
	what, than := "edge", ""
	if d.bleed(p) > 0 {
		what, than = "edge or bleed", fmt.Sprintf(", with %s kept clear along each side for edge and bleed", edge.Format(unit))
	}
	if e.Usable.W <= 0 || e.Usable.H <= 0 {
		return d.wrong(key, "an edge of %s leaves nothing of a sheet of %s%s", edge.Format(unit), p.Sheet.Format(unit), than)
	}
	return d.wrong(key, "piece %s fits on no sheet: it is %s, and a sheet of %s has %s to use%s; use a larger sheet or a smaller %s",
		k.pieces[0].id, e.Size.Format(unit), p.Sheet.Format(unit), e.Usable.Format(unit), than, what)
}

// paperKey returns the key of a paper's table.
func (d Design) paperKey(name string) string {
	i := slices.IndexFunc(d.Papers, func(p papers.Paper) bool { return p.Name == name })
	return fmt.Sprintf("papers.%d", i)
}
