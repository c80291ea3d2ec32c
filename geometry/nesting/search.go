package nesting

import (
	"context"
	"math/rand/v2"
	"slices"

	"panelry/geometry"
)

// Effort is how much work a search does at most, about 0.2 s, 5 s and 60 s
// of it on the machine it was measured on. A first fill of the sheets may take
// twice as much besides, and a quick search goes on for three times as long
// where two sheets or more might be saved.
type Effort int

// The efforts, in units of work: about 4 ns each.
const (
	Quick    Effort = 52_000_000
	Normal          = 25 * Quick
	Thorough        = 300 * Quick
)

// Progress is what a search has so far. It is told with each better layout,
// and with each hundredth of the work.
type Progress struct {
	Sheets  int
	Last    int             // of those, of the last entry of the stock
	Length  geometry.Length // used, of a roll
	Density float64         // of the pieces on those
	Done    float64         // share of the work
}

// Search packs pieces irregularly. It starts from [Rows] and from a
// bottom-left fill, and then takes sheets away, or makes a roll shorter,
// separating the pieces anew each time by guided local search over exact
// no-fit regions. What comes out is tidied, see tidy.go. Where it finds
// nothing better than the rows, the rows stay: neat rows are better than as
// many sheets of askew pieces. The same job, effort, seed and threads give the
// same layout; when the context ends, the best so far is the answer.
type Search struct {
	Effort   Effort // 0 means Quick
	Seed     uint64
	Threads  int            // each does the whole effort with a seed of its own; the best counts
	Progress func(Progress) // may be nil

	cuts   cuts // of one Find
	beside int  // searches that share the memory, 0 for none
}

// Result is a layout and what is known about it.
type Result struct {
	Layout  Layout
	Length  geometry.Length // of roll used, its edges included; 0 for sheets
	Bound   Bound
	Proved  bool          // nothing better exists
	Offcut  geometry.Rect // the largest oblong in a corner of the last sheet that nothing lies on
	Density float64       // area of the pieces / area of the sheets or the roll used
	Work    Effort        // how much work was done
}

// Pack implements [Packer].
func (s Search) Pack(ctx context.Context, job Job) (Layout, error) {
	r, err := s.Find(ctx, job)
	return r.Layout, err
}

// Find searches for the best layout. Its errors are those of [Packer], and
// plain ones for crossing or empty outlines and more than [MostPieces].
//
// Where shapes may be turned by any angle, most of the work goes to right
// angles alone, which give neater sheets and often fewer, as there is less to
// search; other angles are taken where they save something.
func (s Search) Find(ctx context.Context, job Job) (Result, error) {
	if s.Threads > 1 {
		return s.findInThreads(ctx, job)
	}
	s.cuts = cuts{}
	square, free := job.atRightAngles()
	if !free {
		return s.find(ctx, job)
	}
	whole, tell := float64(s.effort()), s.Progress
	s.Effort, s.Progress = max(1, Effort(squarePart*whole)), partOf(tell, 0, squarePart)
	neat, neatErr := s.find(ctx, square)
	done := neat.Work
	if neatErr == nil {
		h := &hunt{job: job, best: neat.Layout, have: true, bound: job.Least()}
		if neat = h.result(); neat.Proved {
			neat.Work = done
			return neat, nil
		}
	}
	s.Effort, s.Progress = max(1, Effort((1-squarePart)*whole)), partOf(tell, squarePart, 1-squarePart)
	askew, err := s.find(ctx, job)
	done += askew.Work
	if neatErr == nil && (err != nil || !job.better(askew.Layout, neat.Layout)) {
		askew, err = neat, nil
	}
	askew.Work = done
	return askew, err
}

// squarePart is the share of a search's work that goes to right angles first,
// where any angle is allowed.
const squarePart = 0.75

// partOf tells the progress of a part of a search: of that share of it, from
// where the part begins.
func partOf(tell func(Progress), from, share float64) func(Progress) {
	if tell == nil {
		return nil
	}
	return func(p Progress) {
		p.Done = from + min(1, p.Done)*share
		tell(p)
	}
}

// effort is the work that is meant; 0 stands for Quick.
func (s Search) effort() Effort {
	if s.Effort == 0 {
		return Quick
	}
	return s.Effort
}

// atRightAngles returns the job with quarter turns in place of any angle, and
// whether there was a shape that may be turned by any.
func (j Job) atRightAngles() (square Job, free bool) {
	square = j
	square.Shapes = slices.Clone(j.Shapes)
	for i := range square.Shapes {
		if square.Shapes[i].Turns.free {
			square.Shapes[i].Turns, free = QuarterTurns, true
		}
	}
	return square, free
}

// find is Find with the turns as they are.
func (s Search) find(ctx context.Context, job Job) (Result, error) {
	if err := job.check(); err != nil {
		return Result{}, err
	}
	best, err := job.inRows(ctx)
	if _, short := err.(*OutOfSheetsError); err != nil && !short {
		return Result{}, err
	}
	h := &hunt{Search: s, job: job, best: best, have: err == nil}
	if len(best.Placements) > 0 || err != nil {
		h.bound = job.bound()
		h.work = h.newWork(ctx)
		h.run()
	}
	if !h.have {
		return Result{}, h.noRoom(err)
	}
	h.spareEarlier(ctx)
	h.tidy(ctx)
	return h.result(), nil
}

// spareEarlier looks for a layout on the last entry of the stock alone that takes
// no more of it than the best has: then what came before it saves nothing.
func (h *hunt) spareEarlier(ctx context.Context) {
	last := len(h.job.Stock) - 1
	needed, before := 0, 0
	for _, s := range h.best.Sheets {
		if s == last {
			needed++
		} else {
			before++
		}
	}
	if needed == 0 || before == 0 || h.job.Stock[last].IsScrap() {
		return
	}
	sub := &hunt{Search: h.Search, job: h.job.lastAlone()}
	sub.Progress = nil
	if sub.bound = sub.job.bound(); sub.bound.Sheets > needed {
		return
	}
	sub.work = sub.newWork(ctx)
	sub.work.limit /= 2
	sub.enough = needed
	sub.run()
	h.work.done += sub.work.done
	if sub.have {
		if l := sub.best.ofStock(last); h.job.better(l, h.best) {
			h.best = l
		}
	}
}

// inRows lays rows: across a roll, from its beginning; on sheets in the order of
// the stock, or on the last of it alone where that takes no more of it, since
// what saves no new sheet is left alone.
func (j Job) inRows(ctx context.Context) (Layout, error) {
	last := len(j.Stock) - 1
	if last == 0 && j.Stock[0].Roll {
		return j.acrossRoll(ctx)
	}
	best, err := Rows{}.Pack(ctx, j)
	if err != nil || last < 1 {
		return best, err
	}
	if l, err := (Rows{}).Pack(ctx, j.lastAlone()); err == nil {
		if l = l.ofStock(last); j.better(l, best) {
			return l, nil
		}
	}
	return best, nil
}

// acrossRoll lays rows across a roll: those of the roll on its side, which runs
// down from there. Where that fails, or turning back rounds amiss, rows along
// the roll will do.
func (j Job) acrossRoll(ctx context.Context) (Layout, error) {
	l, err := Rows{}.Pack(ctx, j.onItsSide(90))
	if err != nil {
		return Rows{}.Pack(ctx, j)
	}
	for i, p := range l.Placements {
		l.Placements[i].Move = geometry.Vector{X: p.Move.Y, Y: j.Stock[0].Size.H - p.Move.X}
	}
	if Verify(j, l) != nil {
		return Rows{}.Pack(ctx, j)
	}
	return l, nil
}

// lastAlone is the job on the last entry of its stock only.
func (j Job) lastAlone() Job {
	j.Stock = j.Stock[len(j.Stock)-1:]
	return j
}

// ofStock returns a layout whose sheets are all of that entry of the stock.
func (l Layout) ofStock(stock int) Layout {
	l.Sheets = slices.Repeat([]int{stock}, len(l.Sheets))
	return l
}

// noRoom is the rows' error with fewer pieces left, if the search left fewer.
func (h *hunt) noRoom(err error) error {
	if short, ok := err.(*OutOfSheetsError); ok && h.left > 0 && h.left < short.Left {
		return &OutOfSheetsError{h.left}
	}
	return err
}

// hunt is a search under way.
type hunt struct {
	Search
	job   Job
	best  Layout
	have  bool // best is a layout
	left  int  // pieces that found no room
	bound Bound
	work  *work

	enough int // sheets with which it may end, if above 0
}

func (h *hunt) result() Result {
	r := Result{Layout: h.best, Bound: h.bound, Proved: h.proved()}
	if h.work != nil {
		r.Work = Effort(h.work.done)
	}
	if len(h.best.Sheets) == 0 {
		return r
	}
	r.Offcut = h.job.offcut(h.best)
	paper, room := 0.0, 0.0
	for _, s := range h.job.Shapes {
		for _, o := range s.outlines() {
			paper += float64(s.Count) * o.Area().SquareMM()
		}
	}
	for _, stock := range h.best.Sheets {
		size := h.job.Stock[stock].Size
		if h.job.Stock[stock].Roll {
			size.W = h.job.rollUsed(h.best)
			r.Length = size.W
		}
		if s := h.job.Stock[stock]; s.IsScrap() {
			room += s.Outline.Area().SquareMM()
			continue
		}
		room += size.W.In(geometry.Millimetres) * size.H.In(geometry.Millimetres)
	}
	r.Density = paper / room
	return r
}

func (h *hunt) proved() bool {
	if !h.have {
		return false
	}
	if h.bound.Kind == "" || len(h.best.Sheets) == 0 {
		return len(h.best.Sheets) == 0
	}
	if h.job.Stock[0].Roll {
		return len(h.best.Sheets) == 1 && float64(h.job.rollUsed(h.best)-2*h.job.Edge) <= h.bound.Length+1e3
	}
	if len(h.job.Stock) > 1 {
		return h.job.fewest(h.best)
	}
	return len(h.best.Sheets) <= h.bound.Sheets
}

// rollUsed returns how much of a roll a layout takes, with its edges.
func (j Job) rollUsed(l Layout) geometry.Length {
	right := geometry.Length(0)
	for _, p := range l.Placements {
		right = max(right, boundsOf(j.PlacedBlock(p)).Max.X)
	}
	return right + j.Edge
}

// How much work a first fill may take, where rows are there already: beside the
// search's own work twice that, but not more than so much; on a roll, where a
// fill is far better than rows, at least so much for each piece.
const (
	fillMore = int(Normal / 2)
	fillEach = 1_500_000
)

// newWork counts the work of the whole search.
func (h *hunt) newWork(ctx context.Context) *work {
	w := &work{ctx: ctx, limit: int(h.effort())}
	if w.fill = w.limit + min(2*w.limit, fillMore); h.job.Stock[0].Roll {
		for _, s := range h.job.Shapes {
			w.fill += fillEach * s.Count
		}
	}
	if h.Progress != nil {
		w.tell = h.told
	}
	return w
}

// run fills rooms and improves on that.
func (h *hunt) run() {
	if h.proved() {
		return
	}
	cat := newCatalogue(h.job, h.cuts)
	cat.most = max(cat.most/(1+h.beside), heldPlanes/4)
	b := newBoard(cat, rand.New(rand.NewPCG(h.Seed, 9)), h.work)
	items := h.items(cat)
	if h.scrapsFirst(b, items); h.proved() {
		return
	}
	if placed := h.firstFull(b, items); placed < len(items) {
		h.left = len(items) - placed
		return
	}
	roll := h.job.Stock[0].Roll
	least := 1
	if len(h.job.Stock) == 1 {
		least = h.bound.Sheets
	}
	limit := h.work.limit
	if !roll && len(h.job.Stock) == 1 && limit <= int(Quick) && (!h.have || len(h.best.Sheets) > least+1) {
		h.work.limit *= twoToSave
	}
	if !h.offer(b) && roll {
		b.stretch(1e-7)
		h.offer(b)
	}
	if h.have && len(h.best.Sheets) <= least+1 {
		h.work.limit = limit
	}
	if h.proved() || h.work.over() || h.have && len(h.best.Sheets) <= h.enough {
		return
	}
	least = max(least, h.enough)
	if roll {
		if len(b.rooms) == 1 {
			b.shorten(h.bound.Length, func(float64) bool { return h.offer(b) })
		}
		return
	}
	b.fewer(least, func() bool { return h.offer(b) })
}

// twoToSave is by how much a quick search takes longer where two sheets or more
// might be saved.
const twoToSave = 3

// mostTwice is up to how many pieces the first full layout is made in two
// orders.
const mostTwice = 1000

// firstFull fills rooms with all items, the largest first; on sheets, with
// shapes in turn too, and the better of both counts. It returns how many found
// room.
func (h *hunt) firstFull(b *board, items []item) int {
	fill := func(list []item) int {
		open := &opener{job: h.job, board: b, used: make([]int, len(h.job.Stock))}
		return b.fillRooms(nil, list, open.next)
	}
	b.largestFirst(items)
	inTurn := slices.Clone(items)
	placed, rooms := fill(items), b.rooms
	if !h.job.Stock[0].Roll && len(items) <= mostTwice {
		b.shapesInTurn(inTurn)
		if n := fill(inTurn); n > placed || n == placed && len(b.rooms) < len(rooms) {
			placed, rooms = n, b.rooms
			copy(items, inTurn)
		}
	}
	b.fill(rooms, items)
	return placed
}

// items lists all pieces, each in its first variant.
func (h *hunt) items(cat *catalogue) []item {
	var out []item
	for i, s := range h.job.Shapes {
		for range s.Count {
			out = append(out, item{shape: i, variant: cat.of[i][0]})
		}
	}
	return out
}

// offer takes the board's state as the best, if it is better and can be had
// exactly. It reports whether it could be had.
func (h *hunt) offer(b *board) bool {
	l, ok := b.settle()
	if !ok && !h.job.Stock[0].Roll {
		l, ok = b.settleLoosely()
	}
	b.work.add(b.toVerify())
	return ok && h.take(l)
}

// take takes a layout as the best, if it is better. It reports whether it is a
// layout at all.
func (h *hunt) take(l Layout) bool {
	if Verify(h.job, l) != nil {
		return false
	}
	if !h.have || h.job.better(l, h.best) {
		h.best, h.have = l, true
	}
	h.told()
	return true
}

// toVerify is how much work it is to verify a layout of the board's items.
func (b *board) toVerify() int {
	sides := 0
	for i := range b.items {
		sides += b.form(i).sides
	}
	return workPerSide * sides
}

// workPerSide is what a side of a piece costs Verify, where boxes overlap.
const workPerSide = 60

// told tells how far the search is.
func (h *hunt) told() {
	if h.Progress != nil && h.have {
		p := Progress{Sheets: len(h.best.Sheets), Density: h.result().Density, Done: float64(h.work.done) / float64(h.effort())}
		for _, s := range h.best.Sheets {
			if s == len(h.job.Stock)-1 {
				p.Last++
			}
		}
		if h.job.Stock[0].Roll {
			p.Length = h.job.rollUsed(h.best)
		}
		h.Progress(p)
	}
}

// better reports whether a layout takes less than another: less of the last
// stock, or of the one before, and so on; or, on one roll, less length.
func (j Job) better(a, b Layout) bool {
	count := make([]int, len(j.Stock))
	for _, s := range a.Sheets {
		count[s]++
	}
	for _, s := range b.Sheets {
		count[s]--
	}
	for s := len(count) - 1; s >= 0; s-- {
		if count[s] != 0 {
			return count[s] < 0
		}
	}
	return len(j.Stock) == 1 && j.Stock[0].Roll && len(a.Sheets) == 1 && j.rollUsed(a) < j.rollUsed(b)
}

// opener adds rooms in the order of the stock.
type opener struct {
	job   Job
	board *board
	used  []int
	left  float64

	scraps bool // only those
}

// A sheet larger than the endless ones before it is opened for pieces that
// do not fit on those.
func (o *opener) next() bool {
	for i, s := range o.job.Stock {
		use := o.job.usable(i)
		if use.W <= 0 || use.H <= 0 || s.Count > 0 && o.used[i] >= s.Count || o.scraps && !s.IsScrap() {
			continue
		}
		if s.Count == 0 && o.used[i] > 0 && !o.lastHeld(i) {
			continue // endless sheets, too small for what is left
		}
		o.used[i]++
		r := room{i, o.left, float64(use.W), float64(use.H)}
		o.left += 1.1*r.w + 2*float64(o.job.Spacing)
		o.board.rooms = append(o.board.rooms, r)
		o.board.standWalls()
		return true
	}
	return false
}

// lastHeld reports whether the last room of that stock holds anything.
func (o *opener) lastHeld(stock int) bool {
	for r := len(o.board.rooms) - 1; r >= 0; r-- {
		if o.board.rooms[r].stock != stock {
			continue
		}
		for c := range o.board.items {
			if g := &o.board.grid; g.of[c] >= 0 && o.board.items[c].room == r {
				return true
			}
		}
		return false
	}
	return true
}
