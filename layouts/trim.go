package layouts

import (
	"fmt"
	"math"
	"strings"

	"panelry/geometry"
	"panelry/geometry/trimming"
	"panelry/layouts/papers"
)

// A TrimPlan is how a kit is cut by straight cuts, paper by paper.
type TrimPlan struct {
	Papers  []TrimPaper
	Refused []TrimRefused // kinds that straight cuts cannot make
}

// A TrimPaper is the blocks that come from one paper, and how its sheets are
// cut into them.
type TrimPaper struct {
	Paper  papers.Paper
	Blocks []TrimBlock
	Job    trimming.Job
	Plan   trimming.Planned
}

// A TrimBlock is an oblong that straight cuts along the sheet's sides make.
// It is a piece, or is cut once more on a slant: into both halves of a cell,
// tip to tip, or down to another shape with straight sides.
type TrimBlock struct {
	Size  geometry.Size
	Count int
	Slant Slant
	Hand  string // "/" or "\" for halves: how the cut lies on the block, pattern up
	Kinds []TrimGive
	Folds []geometry.Path // of a base, on the block
	Over  int             // halves that are left over
}

// A Slant says how a block is cut once it is an oblong.
type Slant string

// The slants.
const (
	NoSlant  Slant = ""
	TipToTip Slant = "tip to tip"
	Sides    Slant = "sides"
)

// A TrimGive is what blocks give of a kind.
type TrimGive struct {
	Kind   string
	Count  int // over all blocks
	Places []string
	Angles []int // at the corners, for slanted cuts
}

// A TrimRefused is a kind that straight cuts cannot make, and what can.
type TrimRefused struct{ Kind, Why string }

// PlanTrim plans straight cuts for all pieces of a kit: both halves of a cell
// come from one oblong and one cut from tip to tip; other pieces with
// straight sides from the oblong around them. What straight cuts cannot make
// is named with what to use instead.
func PlanTrim(kit Kit, effort int, seed int64) (TrimPlan, error) {
	var plan TrimPlan
	for _, p := range kit.Design.Papers {
		one := TrimPaper{Paper: p}
		one.Job = trimming.Job{Stock: trimming.Stock{Size: p.Sheet}, Effort: effort, Seed: seed}
		at := map[string]int{}
		for _, k := range kit.Kinds {
			if k.Paper != p.Name {
				continue
			}
			if why := k.notByTrimmer(kit.Design.Units); why != "" {
				plan.Refused = append(plan.Refused, TrimRefused{k.ID, why})
				continue
			}
			one.add(k, at)
		}
		if len(one.Blocks) == 0 {
			continue
		}
		turn := p.Pattern == papers.Plain
		for i := range one.Blocks {
			b := &one.Blocks[i]
			b.settle(p)
			one.want(*b, turn)
		}
		var err error
		if one.Plan, err = trimming.Plan(one.Job); err != nil {
			return plan, Problems{{Key: paperKey(kit.Design, p), Text: fmt.Sprintf("by straight cuts: %v", err)}}
		}
		if err := one.carriedOut(); err != nil {
			return plan, err
		}
		plan.Papers = append(plan.Papers, one)
	}
	return plan, nil
}

// want adds a block to the job; blocks of one size are one piece there,
// whatever they are cut into.
func (t *TrimPaper) want(b TrimBlock, turn bool) {
	for i, p := range t.Job.Pieces {
		if p.Size == b.Size {
			t.Job.Pieces[i].Count += b.Count
			return
		}
	}
	t.Job.Pieces = append(t.Job.Pieces, trimming.Piece{Size: b.Size, Count: b.Count, Turn: turn})
}

func paperKey(d Design, p papers.Paper) string {
	for i, q := range d.Papers {
		if q.Name == p.Name {
			return fmt.Sprintf("papers %d (%s)", i+1, p.Name)
		}
	}
	return "papers"
}

// notByTrimmer says why straight cuts cannot make a kind.
func (k Kind) notByTrimmer(unit geometry.Unit) string {
	f := traitsOf(k.Outline).fit(Trimmer, unit)
	if f.refused == "" {
		return ""
	}
	return fmt.Sprintf("%s; use %s", f.refused, instead(k.Tools))
}

// add puts a kind into the block that gives it.
func (t *TrimPaper) add(k Kind, at map[string]int) {
	box := k.Outline.Bounds().Size()
	b := TrimBlock{Size: box}
	give := TrimGive{Kind: k.ID, Count: k.Count, Places: k.Places}
	hand, upper := halfOf(k.Outline)
	switch {
	case hand != "":
		b.Slant, b.Hand = TipToTip, hand
	case !isOblong(k.Outline):
		b.Slant, give.Angles = Sides, CornerAngles(k.Outline)
	}
	for _, f := range k.Folds {
		b.Folds = append(b.Folds, f.Line)
	}
	key := fmt.Sprint(b.Size, b.Slant, b.Hand)
	if b.Slant != TipToTip {
		key += k.ID // other blocks give one kind
	}
	i, ok := at[key]
	if !ok {
		i = len(t.Blocks)
		at[key] = i
		t.Blocks = append(t.Blocks, b)
	}
	// Halves that lie in the upper corner come first, so that settle can tell
	// them from those in the lower.
	block := &t.Blocks[i]
	if b.Slant == TipToTip && upper {
		block.Kinds = append([]TrimGive{give}, block.Kinds...)
		block.Over += k.Count
	} else {
		block.Kinds = append(block.Kinds, give)
	}
}

// settle counts the blocks. Each gives two halves, one of each corner; where
// the paper lets a piece be turned by half a turn, the two are alike.
func (b *TrimBlock) settle(p papers.Paper) {
	total := 0
	for _, k := range b.Kinds {
		total += k.Count
	}
	if b.Slant != TipToTip {
		b.Count, b.Over = total, 0
		return
	}
	upper := b.Over // kept there while kinds were added
	b.Count = max(upper, total-upper)
	if p.Pattern != papers.OneWay {
		b.Count = (total + 1) / 2
	}
	b.Over = 2*b.Count - total
}

// isOblong reports whether an outline is its own box.
func isOblong(o geometry.Outline) bool {
	return o.IsStraight() && len(o.Holes) == 0 && o.Area() == o.Bounds().Outline().Area()
}

// halfOf tells a right triangle whose legs lie along the box, by its cut on
// the block and by whether its right angle is an upper corner.
func halfOf(o geometry.Outline) (hand string, upper bool) {
	points := o.Outer.Points()
	if len(points) != 3 || !o.IsStraight() || len(o.Holes) > 0 {
		return "", false
	}
	box := o.Bounds()
	const slack = 20 // nm of rounding
	near := func(a, b geometry.Length) bool { return (a - b).Abs() <= slack }
	for i, p := range points {
		a, b := points[(i+1)%3], points[(i+2)%3]
		if near(p.X, a.X) && near(p.Y, b.Y) || near(p.X, b.X) && near(p.Y, a.Y) {
			left, top := near(p.X, box.Min.X), near(p.Y, box.Min.Y)
			if left == top {
				return "/", top
			}
			return `\`, top
		}
	}
	return "", false
}

// carriedOut replays the plan: exactly the blocks wanted must come off.
func (t TrimPaper) carriedOut() error {
	sheets := make([]geometry.Size, len(t.Plan.Trees))
	for i := range sheets {
		sheets[i] = t.Job.Stock.Size
	}
	got, err := trimming.Replay(sheets, t.Plan.Trees, t.Job.Pieces, t.Job.Kerf)
	if err != nil {
		return fmt.Errorf("paper %q: the plan cannot be carried out: %w", t.Paper.Name, err)
	}
	for i, p := range t.Job.Pieces {
		if got[i] != p.Count {
			return fmt.Errorf("paper %q: the plan gives %d blocks in place of %d", t.Paper.Name, got[i], p.Count)
		}
	}
	return nil
}

// Steps returns what is cut of this paper, as sentences in the unit, numbered
// from `first`: the straight cuts, then the slants, then the scores.
func (t TrimPaper) Steps(unit geometry.Unit, first int) []TrimStep {
	var steps []TrimStep
	add := func(stop geometry.Length, cuts int, text string) {
		steps = append(steps, TrimStep{Number: first + len(steps), Stop: stop, Cuts: cuts, Text: text})
	}
	for _, s := range trimming.Steps(t.Plan.Trees) {
		add(s.Stop, s.Cuts*s.Parts, TrimSentence(s, unit, t.blockName))
	}
	for _, b := range t.Blocks {
		size := b.Size.Format(unit)
		switch b.Slant {
		case TipToTip:
			lean := "from the upper right to the lower left tip"
			if b.Hand == `\` {
				lean = "from the upper left to the lower right tip"
			}
			over := ""
			if b.Over > 0 {
				over = fmt.Sprintf(" %d over.", b.Over)
			}
			add(0, b.Count, fmt.Sprintf("Lay each of the %s of %s right side up, pattern upright, both tips on the cutting line, %s. Cut. That gives %s.%s",
				blocks(b.Count), size, lean, b.gives(), over))
		case Sides:
			add(0, 0, fmt.Sprintf("From each of the %s of %s, right side up and pattern upright, cut the slanted sides at %s. That gives %s.",
				blocks(b.Count), size, b.angles(), b.gives()))
		}
		if len(b.Folds) > 0 {
			add(b.foldStop(), 0, b.scoreText(unit))
		}
	}
	return steps
}

// A TrimStep is one step for the hands.
type TrimStep struct {
	Number int
	Stop   geometry.Length // 0 where the stop does not matter
	Cuts   int
	Text   string
}

func blocks(n int) string { return counted(n, "block") }

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func (b TrimBlock) gives() string {
	var parts []string
	for _, k := range b.Kinds {
		text := fmt.Sprintf("%d of %s", k.Count, k.Kind)
		if len(k.Places) > 0 {
			places := k.Places
			more := ""
			if len(places) > 6 {
				places, more = places[:6], " and more"
			}
			text += " (" + strings.Join(places, ", ") + more + ")"
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

func (b TrimBlock) angles() string {
	var parts []string
	for _, k := range b.Kinds {
		for _, a := range k.Angles {
			if a != 90 {
				parts = append(parts, fmt.Sprintf("%d°", a))
			}
		}
	}
	return strings.Join(parts, " and ")
}

// blockName names a piece of the job: by its kind, where it is one already.
func (t TrimPaper) blockName(i int) string {
	var names []string
	for _, b := range t.Blocks {
		if b.Size != t.Job.Pieces[i].Size {
			continue
		}
		if b.Slant != NoSlant {
			return "blocks"
		}
		names = append(names, b.Kinds[0].Kind)
	}
	return strings.Join(names, " and ")
}

// foldStop is where the first fold lies from the nearer side.
func (b TrimBlock) foldStop() geometry.Length {
	from := b.Folds[0].From
	to := b.Folds[0].Points()[1]
	if from.X == to.X {
		return min(from.X, b.Size.W-from.X)
	}
	return min(from.Y, b.Size.H-from.Y)
}

func (b TrimBlock) scoreText(unit geometry.Unit) string {
	var at []string
	for _, f := range b.Folds {
		from, to := f.From, f.Points()[1]
		if from.X == to.X {
			at = append(at, from.X.Format(unit)+" from the left side, from top to bottom")
		} else {
			at = append(at, from.Y.Format(unit)+" from the upper side, from left to right")
		}
	}
	return fmt.Sprintf("Score each of the %s of %s, outside of the card up, %s. Fold away from the scored side.", blocks(b.Count), b.Size.Format(unit), strings.Join(at, " and "))
}

// TrimSentence says a step of straight cuts as a sentence. name names the
// pieces that fall off.
func TrimSentence(s trimming.Step, unit geometry.Unit, name func(piece int) string) string {
	way := "across its width"
	if s.Upright {
		way = "along its height"
	}
	from := s.From
	if s.Parts > 1 { // "each of the 2 strips A1"
		what, rest, _ := strings.Cut(s.From, " ")
		from = fmt.Sprintf("each of the %d %ss %s", s.Parts, what, rest)
	}
	times := "once"
	if s.Cuts > 1 {
		times = fmt.Sprintf("%d times", s.Cuts)
	}
	var parts []string
	for _, x := range s.Strips {
		size := x.Size.Format(unit)
		switch {
		case x.Left:
			parts = append(parts, "keep the offcut, "+size)
		case x.Piece >= 0:
			parts = append(parts, fmt.Sprintf("%d %s of %s", x.Count, oneOf(name(x.Piece), x.Count), size))
		case x.Count == 1:
			parts = append(parts, fmt.Sprintf("strip %s, %s", x.Name, size))
		default:
			parts = append(parts, fmt.Sprintf("%d strips %s, %s", x.Count, x.Name, size))
		}
	}
	return fmt.Sprintf("Set the stop at %s. Cut %s, %s, %s %s. That gives %s.", withMM(s.Stop, unit), from, s.Size.Format(unit), times, way, strings.Join(parts, "; "))
}

// oneOf takes the s off blocks and pieces where there is one.
func oneOf(name string, n int) string {
	if n == 1 && (name == "blocks" || name == "pieces") {
		return name[:len(name)-1]
	}
	return name
}

// withMM writes a length in the unit, with mm beside inches.
func withMM(l geometry.Length, unit geometry.Unit) string {
	if unit == geometry.Millimetres {
		return l.Format(unit)
	}
	mm := math.Round(l.In(geometry.Millimetres)*10) / 10
	return fmt.Sprintf("%s (%g mm)", l.Format(unit), mm)
}

// SlantsOn returns the slanted cuts on a block where it lies on its sheet,
// where all blocks of its size are cut alike.
func (t TrimPaper) SlantsOn(leaf *trimming.Part) []geometry.Path {
	hand := ""
	for _, b := range t.Blocks {
		if b.Size != t.Job.Pieces[leaf.Piece].Size {
			continue
		}
		if b.Slant != TipToTip || hand != "" && hand != b.Hand {
			return nil
		}
		hand = b.Hand
	}
	box := leaf.Box
	if leaf.Turned && hand != "" { // a quarter turn shows the other lean
		hand = map[string]string{"/": `\`, `\`: "/"}[hand]
	}
	switch hand {
	case "/":
		return []geometry.Path{geometry.PathFromPoints(geometry.Point{X: box.Min.X, Y: box.Max.Y}, geometry.Point{X: box.Max.X, Y: box.Min.Y})}
	case `\`:
		return []geometry.Path{geometry.PathFromPoints(box.Min, box.Max)}
	}
	return nil
}

// Summary says how many sheets and cuts a paper takes.
func (t TrimPaper) Summary(unit geometry.Unit) string {
	cuts := 0
	for _, s := range t.Steps(unit, 1) {
		cuts += s.Cuts
	}
	best := fmt.Sprintf("no plan needs fewer than %d", t.Plan.Bound)
	if t.Plan.Proved {
		best = "proved best"
	}
	return fmt.Sprintf("%s of %s (%s), %s, %s of the stop", counted(len(t.Plan.Trees), "sheet"), t.Paper.Sheet.Format(unit), best, counted(cuts, "cut"), counted(trimming.Stops(trimming.Steps(t.Plan.Trees)), "setting"))
}
