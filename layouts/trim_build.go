package layouts

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"panelry/geometry"
	"panelry/geometry/trimming"
	"panelry/layouts/cards"
	"panelry/layouts/papers"
)

// trimWant is a kind that straight cuts can make, and where the paper is
// one-way also the kind that is the same upside down: both come from one
// block.
type trimWant struct {
	size       geometry.Size
	free       trimming.Freedom
	asIs       *TrimGive
	halfTurned *TrimGive // nil where the first can stand for it, or there is none
	alike      bool      // what half a turn makes of a piece is of the same kind
	slanted    bool
	folds      []cards.Fold
	patternUp  float64 // of the paper, where it has a pattern: pieces of other frames are not turned alike

	forms []trimming.Form // of slanted pieces, the likeliest first
	form  int             // which is taken
}

// wantsOf lists what a paper's kinds want.
func wantsOf(kinds []Kind, p papers.Paper) []*trimWant {
	var wants []*trimWant
	for _, k := range kinds {
		wants = addWant(wants, k, p)
	}
	return wants
}

// addWant adds a kind to the wants, beside its counterpart if that is there.
func addWant(wants []*trimWant, k Kind, p papers.Paper) []*trimWant {
	give := &TrimGive{Kind: k.ID, Places: k.Places, Count: k.Count, Size: k.Outline.Bounds().Size(), outline: k.Outline, folds: k.Folds, turns: k.turns.Allow}
	w := &trimWant{size: give.Size, asIs: give, slanted: !isOblong(k.Outline), folds: k.Folds}
	if w.slanted {
		give.Angles = CornerAngles(k.Outline)
	}
	if p.Pattern != papers.Plain {
		w.patternUp = p.PatternUp
	}
	switch p.Pattern {
	case papers.Plain:
		w.free, w.alike = trimming.AnyTurn, true
	case papers.TwoWay:
		w.free, w.alike = trimming.HalfTurn, true
	default:
		for _, other := range wants {
			if w.slanted && other.slanted && other.halfTurned == nil && halfTurnApart(k.Outline, other.asIs.outline) {
				other.halfTurned = give
				return wants
			}
		}
	}
	return append(wants, w)
}

// isOblong reports whether an outline is its own box.
func isOblong(o geometry.Outline) bool {
	return o.IsStraight() && len(o.Holes) == 0 && o.Area() == o.Bounds().Outline().Area()
}

// counts returns how many are wanted as they are and upside down.
func (w *trimWant) counts() (asIs, halfTurned int) {
	if w.halfTurned != nil {
		halfTurned = w.halfTurned.Count
	}
	return w.asIs.Count, halfTurned
}

// block is the oblong that a want takes, and how many.
func (w *trimWant) block() (size geometry.Size, units, oblongs int) {
	asIs, halfTurned := w.counts()
	if !w.slanted {
		return w.size, asIs, asIs
	}
	f := w.forms[w.form]
	units = f.UnitsFor(asIs, halfTurned, w.alike)
	return f.Size, units, (units + f.Units - 1) / f.Units
}

// area is what all wanted pieces take, in sq. mm.
func (w *trimWant) area() float64 {
	sum := float64(w.asIs.Count) * w.asIs.outline.Area().SquareMM()
	if w.halfTurned != nil {
		sum += float64(w.halfTurned.Count) * w.halfTurned.outline.Area().SquareMM()
	}
	return sum
}

// finished reports whether the block is the piece.
func (w *trimWant) finished() bool { return !w.slanted && len(w.folds) == 0 }

// trimBuilder gathers all stocks of a plan.
type trimBuilder struct {
	plan       *TrimPlan
	effort     int
	seed       int64
	stockCount int

	blocks    []trimming.Block
	blockKeys map[string]int
	slicings  []*trimming.Slicing
	sliceKeys map[string]*trimming.Slicing
	scores    []*trimScore
	scoreKeys map[string]*trimScore
	pieces    int
	sides     []geometry.Length // of blocks, as they came first
}

// trimScore is blocks that are scored alike.
type trimScore struct {
	name  string
	size  geometry.Size
	folds []cards.Fold
	of    []trimming.Share
	piece int
}

// job is the stock's oblongs with the forms that its wants have now.
func (b *trimBuilder) job(sheet geometry.Size, wants []*trimWant, effort int) trimming.Job {
	t := b.plan.Trimmer
	job := trimming.Job{Stock: trimming.Stock{Size: sheet, Count: b.stockCount}, Kerf: t.Kerf, Longest: t.Longest, Clean: t.CleanEdge, Effort: effort, Seed: b.seed}
	at := map[string]int{}
	for _, w := range wants {
		size, _, n := w.block()
		key := fmt.Sprint(size, w.finished())
		i, ok := at[key]
		if !ok {
			i = len(job.Pieces)
			at[key] = i
			job.Pieces = append(job.Pieces, trimming.Piece{Size: size, Turn: w.free == trimming.AnyTurn})
		}
		job.Pieces[i].Count += n
	}
	return job
}

// mostFormTrials is how many choices of forms are looked at for a paper.
const mostFormTrials = 24

// choose picks each want's form: the one with which the stock takes fewest
// sheets, then fewest settings, then fewest cuts. A cut that is laid by its
// marks is a setting of its own, every time.
func (b *trimBuilder) choose(sheet geometry.Size, wants []*trimWant) {
	var best []int
	tries := mostFormTrials
	weigh := func() {
		tries--
		job := b.job(sheet, wants, 1)
		plan, err := trimming.Plan(job)
		if err != nil {
			return
		}
		straight := plan.Weigh(job)
		cost := []int{len(plan.Trees), straight[0], straight[1]}
		for i, w := range wants {
			if w.slanted {
				_, units, _ := w.block()
				sliced := trimming.Slicing{Form: w.forms[w.form], Units: []trimming.Share{{Count: units}}, Name: fmt.Sprint(i)}.Steps(b.plan.Trimmer.Kerf)
				for _, s := range sliced {
					cost[2] += s.Cuts * s.Parts()
					if cost[1]++; s.Work == trimming.Slant {
						cost[1] += s.Parts() - 1
					}
				}
			}
		}
		if best == nil || slices.Compare(cost, best) < 0 {
			best = cost
		}
	}
	weigh()
	for _, w := range wants {
		for k := 1; k < len(w.forms) && tries > 0; k++ {
			was, before := w.form, best
			w.form = k
			if weigh(); slices.Equal(best, before) {
				w.form = was
			}
		}
	}
}

// withForms finds the forms of slanted wants. What no form gives two and two
// is wanted by itself; what a turn makes an oblong along the sheet needs none.
func (b *trimBuilder) withForms(sheet geometry.Size, wants []*trimWant) ([]*trimWant, error) {
	var list []*trimWant
	for _, w := range wants {
		if !w.slanted {
			b.snap(&w.size)
			list = append(list, w)
			continue
		}
		w.forms = b.formsOf(w, sheet)
		if w.halfTurned != nil {
			paired := slices.DeleteFunc(slices.Clone(w.forms), func(f trimming.Form) bool { return !f.Paired })
			if w.forms = paired; len(paired) == 0 {
				alone := &trimWant{size: w.size, free: w.free, asIs: w.halfTurned, slanted: true, patternUp: w.patternUp}
				w.halfTurned = nil
				more, err := b.withForms(sheet, []*trimWant{w, alone})
				if err != nil {
					return nil, err
				}
				list = append(list, more...)
				continue
			}
		}
		if len(w.forms) == 0 {
			return nil, fmt.Errorf("no oblong that fits the sheet and the trimmer gives %s (%s) by straight cuts", w.asIs.Kind, w.size.Format(b.plan.Units))
		}
		if f := w.forms[0]; f.Bare() {
			w.slanted, w.size, w.asIs.Angles = false, f.Size, nil
		}
		list = append(list, w)
	}
	return list, nil
}

// snap takes a size's sides to lengths that are known already and differ by
// no more than pieces of one kind may: the stop is not set anew for rounding.
func (b *trimBuilder) snap(s *geometry.Size) {
	for _, side := range []*geometry.Length{&s.W, &s.H} {
		known := slices.IndexFunc(b.sides, func(l geometry.Length) bool { return (l - *side).Abs() <= KindTolerance })
		if known < 0 {
			b.sides = append(b.sides, *side)
		} else {
			*side = b.sides[known]
		}
	}
}

// mostForms is how many forms of a piece are tried.
const mostForms = 5

// formsOf lists the forms of a want that fit the sheet and the trimmer.
func (b *trimBuilder) formsOf(w *trimWant, sheet geometry.Size) []trimming.Form {
	t := b.plan.Trimmer
	if t.CleanEdge > 0 { // it goes off either side
		sheet.W -= t.CleanEdge + t.Kerf
		sheet.H -= t.CleanEdge + t.Kerf
	}
	var list []trimming.Form
	for _, f := range trimming.Forms(w.asIs.outline, w.free, w.halfTurned != nil, sheet, t.Kerf) {
		fits := f.Size.W <= sheet.W && f.Size.H <= sheet.H || w.free == trimming.AnyTurn && f.Size.H <= sheet.W && f.Size.W <= sheet.H
		if !fits || slices.ContainsFunc(list, func(g trimming.Form) bool { return g.Size == f.Size && g.Pieces() == f.Pieces() }) {
			continue
		}
		if t.Longest > 0 && f.LongestSlant() > t.Longest || f.Stop() > 0 && f.Stop() < t.Narrowest {
			continue
		}
		if list = append(list, f); len(list) == mostForms {
			break
		}
	}
	return list
}

// size returns a paper in that of its sizes of which the pieces take least: by
// price where all have one, else by paper.
func (b *trimBuilder) size(p papers.Paper, kinds []Kind) papers.Paper {
	if len(p.Sizes) < 2 {
		return p
	}
	priced := !slices.ContainsFunc(p.Sizes, func(s papers.Sized) bool { return s.Price == nil })
	best := PaperUse{Paper: p}
	for _, size := range p.Sizes {
		use := PaperUse{Paper: p.In(size)}
		wants, err := b.withForms(use.Paper.Sheet, wantsOf(kinds, use.Paper))
		if err != nil {
			continue
		}
		b.choose(use.Paper.Sheet, wants)
		planned, err := trimming.Plan(b.job(use.Paper.Sheet, wants, 1))
		if err != nil {
			continue
		}
		if use.Sheets = len(planned.Trees); best.Sheets == 0 || use.takesLess(best, priced) {
			best = use
		}
	}
	return best.Paper
}

// stock plans one stock and adds it.
func (b *trimBuilder) stock(s TrimStock, wants []*trimWant) error {
	wants, err := b.withForms(s.Sheet, wants)
	if err != nil {
		return err
	}
	b.choose(s.Sheet, wants)
	job := b.job(s.Sheet, wants, b.effort)
	planned, err := trimming.Plan(job)
	if err != nil {
		return b.tell(err)
	}
	s.Sheets, s.Bound, s.BoundName, s.Proved = len(planned.Trees), planned.Bound, planned.BoundName, planned.Proved
	s.Fewest = planned.Fewest
	s.boundPieces(wants)
	s.compare(job, planned.Clean)
	b.add(s, wants, planned)
	return nil
}

// boundPieces bounds the sheets by the area of the pieces where some are cut on
// a slant: there may be other blocks that give them.
func (s *TrimStock) boundPieces(wants []*trimWant) {
	if !slices.ContainsFunc(wants, func(w *trimWant) bool { return w.slanted }) {
		return
	}
	area := 0.0
	for _, w := range wants {
		area += w.area()
	}
	sheet := s.Sheet.W.In(geometry.Millimetres) * s.Sheet.H.In(geometry.Millimetres)
	s.Bound, s.BoundName = int(math.Ceil(area/sheet*(1-1e-9))), "by area"
	s.Proved = s.Sheets == s.Bound
}

// compare counts what strips kind by kind would take, after the clean edge.
func (s *TrimStock) compare(job trimming.Job, clean trimming.Cut) {
	edge := 0
	switch {
	case clean.At == 0:
	case clean.Upright:
		job.Stock.Size.W -= clean.At + job.Kerf
		edge = 1
	default:
		job.Stock.Size.H -= clean.At + job.Kerf
		edge = 1
	}
	plain := trimming.Plain(job)
	s.PlainSheets = len(plain)
	for _, tree := range plain {
		s.Plain += edge + tree.Cuts()
	}
}

// roll plans oblongs from a roll as wide as the stock's sheet and adds them,
// on a sheet as long as what is used.
func (b *trimBuilder) roll(s TrimStock, wants []*trimWant) error {
	t := b.plan.Trimmer
	job := b.job(s.Sheet, wants, b.effort)
	rolled, err := trimming.Roll(trimming.RollJob{Pieces: job.Pieces, Width: s.Sheet.W, Kerf: t.Kerf, Effort: max(b.effort, leastRollEffort), Seed: b.seed})
	if err != nil {
		return err
	}
	if t.CleanEdge > 0 {
		b.plan.Notes = append(b.plan.Notes, "a roll has no edges to clean; the clean edge is left out")
	}
	if s.Sheet.H = rolled.Length; t.Longest > 0 && max(s.Sheet.W, s.Sheet.H) > t.Longest {
		return fmt.Errorf("the roll takes cuts of up to %s, and the longest is %s; cut sheets off it first, and plan with --sheet",
			max(s.Sheet.W, s.Sheet.H).Format(b.plan.Units), t.Longest.Format(b.plan.Units))
	}
	b.plan.Notes = append(b.plan.Notes, fmt.Sprintf("cut a length of %s off the roll first", s.Sheet.H.Format(b.plan.Units)))
	s.Roll, s.Sheets, s.Bound, s.BoundLength, s.BoundName, s.Proved = true, 1, 1, rolled.Bound, rolled.BoundName, rolled.Proved
	b.add(s, wants, trimming.Planned{Trees: []*trimming.Part{rolled.Tree}})
	return nil
}

// leastRollEffort is the least work that a roll is worth.
const leastRollEffort = 20_000

// add takes a stock with its plan into the whole.
func (b *trimBuilder) add(s TrimStock, wants []*trimWant, planned trimming.Planned) {
	for _, w := range wants {
		s.used += w.area()
	}
	for _, tree := range planned.Trees {
		for _, leaf := range tree.Leaves() {
			if leaf.Piece >= 0 {
				s.Blocks++
			}
		}
	}
	n := len(b.plan.Stocks)
	// The job's pieces are the stock's own; blocks are the plan's.
	global := b.blocksOf(n, wants)
	for _, sheet := range planned.Sheets(n, s.Sheet) {
		sheet.Tree = sheet.Tree.Renamed(func(piece int) int { return global[piece] })
		s.sheets = append(s.sheets, sheet)
	}
	for _, w := range wants {
		s.Gives = append(s.Gives, *w.asIs)
		if w.halfTurned != nil {
			s.Gives = append(s.Gives, *w.halfTurned)
		}
	}
	b.plan.Stocks = append(b.plan.Stocks, s)
}

// tell puts an error of the planner's into the plan's unit.
func (b *trimBuilder) tell(err error) error {
	var large *trimming.TooLargeError
	if errors.As(err, &large) {
		return errors.New(large.In(b.plan.Units))
	}
	return err
}

// blocksOf numbers the blocks of a stock among all, and adds what becomes of
// them to the slicings and scores. The same block of another stock has the
// same number.
func (b *trimBuilder) blocksOf(stock int, wants []*trimWant) []int {
	if b.blockKeys == nil {
		b.blockKeys, b.sliceKeys, b.scoreKeys = map[string]int{}, map[string]*trimming.Slicing{}, map[string]*trimScore{}
	}
	var global []int
	seen := map[string]bool{}
	for _, w := range wants {
		size, units, oblongs := w.block()
		key := fmt.Sprint(size, w.finished())
		i, ok := b.blockKeys[key]
		if !ok {
			i = len(b.blocks)
			b.blockKeys[key] = i
			block := trimming.Block{Piece: -1, Name: fmt.Sprint("block ", len(b.blocks)+1)}
			if w.finished() {
				block = trimming.Block{Piece: b.newPiece()}
			}
			b.blocks = append(b.blocks, block)
		}
		if !seen[key] {
			seen[key] = true
			global = append(global, i)
		}
		switch {
		case w.finished():
			w.asIs.Piece = append(w.asIs.Piece, b.blocks[i].Piece)
		case w.slanted:
			b.slice(stock, w, b.blocks[i].Name, units)
		default:
			b.score(stock, w, b.blocks[i].Name, size, oblongs)
		}
	}
	return global
}

func (b *trimBuilder) newPiece() int {
	b.pieces++
	return b.pieces - 1
}

func (b *trimBuilder) slice(stock int, w *trimWant, name string, units int) {
	f := w.forms[w.form]
	key := fmt.Sprint(name, f.Key(), w.patternUp)
	for s := b.sliceKeys[key]; s != nil && slices.ContainsFunc(s.Units, func(u trimming.Share) bool { return u.Stock == stock }); s = b.sliceKeys[key] {
		key += "'" // another kind of this paper is cut that way already
	}
	s := b.sliceKeys[key]
	if s == nil {
		s = &trimming.Slicing{Form: f, Name: name, AsIs: b.newPiece(), HalfTurned: b.newPiece()}
		b.sliceKeys[key] = s
		b.slicings = append(b.slicings, s)
	}
	s.Add(trimming.Share{Stock: stock, Count: units})
	asIs, halfTurned := s.AsIs, s.HalfTurned
	if f.Swapped() != s.Form.Swapped() { // the first want of this slicing was for the other half
		asIs, halfTurned = halfTurned, asIs
	}
	w.asIs.Piece = append(w.asIs.Piece, asIs)
	switch {
	case w.alike && f.Paired:
		w.asIs.Piece = append(w.asIs.Piece, halfTurned)
	case w.halfTurned != nil:
		w.halfTurned.Piece = append(w.halfTurned.Piece, halfTurned)
	}
}

func (b *trimBuilder) score(stock int, w *trimWant, name string, size geometry.Size, oblongs int) {
	key := name + fmt.Sprint(w.folds)
	s := b.scoreKeys[key]
	if s == nil {
		s = &trimScore{name: name, size: size, folds: w.folds, piece: b.newPiece()}
		b.scoreKeys[key] = s
		b.scores = append(b.scores, s)
	}
	s.of = append(s.of, trimming.Share{Stock: stock, Count: oblongs})
	w.asIs.Piece = append(w.asIs.Piece, s.piece)
}

// steps writes the score lines of blocks.
func (s *trimScore) steps() []trimming.Step {
	var steps []trimming.Step
	shape := geometry.RectFromSize(geometry.Point{}, s.size).Outline()
	for i, f := range s.folds {
		from, to := f.Line.From, f.Line.Points()[1]
		step := trimming.Step{Work: trimming.Score, Part: s.name, Of: s.of, Shape: shape, Upright: from.X == to.X, Stop: from.Y,
			Rest: trimming.Fall{Name: s.name, Piece: -1, Count: 1, Shape: shape}}
		if step.Upright {
			step.Stop = from.X
		}
		if i == len(s.folds)-1 {
			step.Rest.Name, step.Rest.Piece = "", s.piece
		}
		steps = append(steps, step)
	}
	return steps
}

// finish writes the steps of all stocks, says them in words and has the
// simulator carry them out.
func (b *trimBuilder) finish() error {
	p := b.plan
	var sheets []trimming.CutSheet
	for _, s := range p.Stocks {
		sheets = append(sheets, s.sheets...)
	}
	kerf := p.Trimmer.Kerf
	p.Lots, p.Blocks = trimming.Lots(sheets, kerf), b.blocks
	steps := trimming.StraightSteps(sheets, b.blocks, kerf)
	p.countStraight(steps)
	for _, s := range b.slicings {
		steps = append(steps, s.Steps(kerf)...)
	}
	for _, s := range b.scores {
		steps = append(steps, s.steps()...)
	}
	if err := p.carriedOut(steps); err != nil {
		return err
	}
	pile := func(stock int) int { return p.Stocks[stock].Pile }
	words := trimWords{plan: p}
	for i, s := range steps {
		step := TrimStep{Step: s, Number: i + 1, Strokes: s.Strokes(pile)}
		step.Text = words.sentence(s)
		p.Steps = append(p.Steps, step)
	}
	return nil
}

// countStraight counts what each stock's straight cuts make.
func (p *TrimPlan) countStraight(steps []trimming.Step) {
	for _, s := range steps {
		for _, share := range s.Of {
			stock := &p.Stocks[share.Stock]
			stock.Cuts += share.Count * s.Cuts
			for _, f := range append(slices.Clone(s.Falls), s.Rest) {
				if f.Offcut() {
					stock.Offcuts += share.Count * f.Count
				}
			}
		}
	}
}

// carriedOut has the simulator do the steps: what comes off must be the pieces
// wanted, each of its kind's shape, turned only as its pattern allows, and
// scored where its folds are; more may only be what a block gives besides.
func (p *TrimPlan) carriedOut(steps []trimming.Step) error {
	var supply []trimming.Supply
	got := map[[2]int]int{}
	for _, lot := range p.Lots {
		if tree := lot.Sheet.Tree; tree.Cut == nil && lot.Sheet.Clean.At == 0 { // whole sheets
			block := p.Blocks[tree.Piece]
			if block.Name != "" {
				supply = append(supply, trimming.Supply{Name: block.Name, Size: tree.Box.Size(), Of: lot.Of})
				continue
			}
			for _, share := range lot.Of {
				got[[2]int{share.Stock, block.Piece}] += share.Count
			}
			continue
		}
		supply = append(supply, trimming.Supply{Name: lot.Name, Size: lot.Sheet.Size, Of: lot.Of})
	}
	done, err := trimming.CarryOut(supply, steps, p.Trimmer.Kerf, p.Trimmer.Longest)
	if err != nil {
		return fmt.Errorf("the plan cannot be carried out, which is a fault of Panelry's: %w", err)
	}
	known := map[string]bool{}
	for _, d := range done {
		g := p.Stocks[d.Stock].Give(d.Piece)
		if g.Count == 0 { // over
			continue
		}
		got[[2]int{d.Stock, d.Piece}]++
		key := fmt.Sprint(d)
		if known[key] {
			continue
		}
		known[key] = true
		if err := g.is(d); err != nil {
			return fmt.Errorf("the plan cannot be carried out, which is a fault of Panelry's: %s of %s %w", g.Kind, p.Stocks[d.Stock].Name, err)
		}
	}
	for i := range p.Stocks {
		for k := range p.Stocks[i].Gives {
			g := &p.Stocks[i].Gives[k]
			made := 0
			for _, piece := range g.Piece {
				made += got[[2]int{i, piece}]
			}
			if g.Over = made - g.Count; g.Over < 0 {
				return fmt.Errorf("the plan gives %d of %s in place of %d, which is a fault of Panelry's", made, g.Kind, g.Count)
			}
		}
	}
	return nil
}

// is holds a piece that came off against what was wanted.
func (g TrimGive) is(d trimming.Done) error {
	turns := geometry.TurnsOnto(d.Outline, g.outline, KindTolerance)
	if !slices.ContainsFunc(turns, func(t float64) bool { return t == 0 || g.turns(t) }) {
		return errors.New("comes off with another shape, or turned")
	}
	if d.Turned && !g.turns(90) {
		return errors.New("lay turned by a quarter, and its pattern does not allow that")
	}
	if len(d.Scores) != len(g.folds) {
		return fmt.Errorf("has %d score lines in place of %d", len(d.Scores), len(g.folds))
	}
	for i, f := range g.folds {
		if s := d.Scores[i]; s.From != f.Line.From || s.Points()[1] != f.Line.Points()[1] {
			return errors.New("is scored at another place")
		}
	}
	return nil
}
