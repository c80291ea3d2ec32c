package layouts

import (
	"fmt"
	"slices"

	"panelry/geometry"
	"panelry/geometry/trimming"
	"panelry/layouts/cards"
	"panelry/layouts/fronts"
	"panelry/layouts/papers"
	"panelry/layouts/wording"
)

// A TrimPlan is how paper is cut by straight cuts: all sheets of all papers in
// one list of steps, so that the stop is set once for what is cut alike.
type TrimPlan struct {
	Title   string
	Units   geometry.Unit
	Ruler   geometry.Length
	Trimmer TrimmerSettings
	Stocks  []TrimStock
	Lots    []trimming.Lot
	Blocks  []trimming.Block // what the trees' pieces are
	Steps   []TrimStep
	Refused []TrimRefused     // kinds that straight cuts cannot make
	Rounded []fronts.Rounding // what sizes on the ruler changed
	Notes   []string          // what is worth knowing
}

// A TrimStock is the sheets of one paper, and what comes from them.
type TrimStock struct {
	Name        string // the paper's; "" in a plan without a design
	Paper       papers.Paper
	Sheet       geometry.Size
	Sheets      int
	Gives       []TrimGive
	Blocks      int // oblongs by straight cuts, before the slants
	Offcuts     int
	Cuts        int // straight cuts, sheet by sheet: blocks + offcuts - sheets that are cut
	Plain       int // straight cuts that strips kind by kind take, with PlainSheets sheets
	Bound       int
	BoundName   string
	Proved      bool // no plan has fewer sheets
	Fewest      bool // nor, with as many sheets, fewer settings or cuts
	PlainSheets int
	Pile        int             // sheets that are cut at once
	Roll        bool            // the sheet is a length of a roll
	BoundLength geometry.Length // of a roll: no way of cutting needs less

	sheets []trimming.CutSheet
	used   float64 // sq. mm of pieces
}

// Pieces counts the wanted pieces.
func (s TrimStock) Pieces() int {
	n := 0
	for _, g := range s.Gives {
		n += g.Count
	}
	return n
}

// UsedPercent is the wanted pieces' share of all sheets.
func (s TrimStock) UsedPercent() float64 {
	return 100 * s.used / (float64(s.Sheets) * s.Sheet.W.In(geometry.Millimetres) * s.Sheet.H.In(geometry.Millimetres))
}

// A TrimGive is what a stock gives of a kind.
type TrimGive struct {
	Kind   string
	Places []string // the panels of the first card that it serves
	Count  int      // wanted
	Over   int      // more, which other pieces' cuts leave
	Piece  []int    // its numbers in the steps
	Size   geometry.Size
	Angles []int // at the corners, for slanted cuts

	outline geometry.Outline
	folds   []cards.Fold
	turns   func(degrees float64) bool
}

// A TrimStep is one step for the hands.
type TrimStep struct {
	trimming.Step
	Number  int
	Text    string
	Strokes int // of the blade, piles counted once
}

// A TrimRefused is a kind that straight cuts cannot make, and what can.
type TrimRefused struct {
	Kind   string
	Count  int
	Places []string
	Why    string
}

// TrimEfforts is the work that each word of effort stands for, in thousands of
// looks at a room for a piece: quick takes some 20 ms, normal a second or two,
// thorough half a minute, where no bound ends the search before.
func TrimEfforts() map[string]int {
	return map[string]int{"quick": 2000, "normal": 100_000, "thorough": 2_000_000}
}

// Settings counts how often the stop is set.
func (t TrimPlan) Settings() int {
	steps := make([]trimming.Step, len(t.Steps))
	for i, s := range t.Steps {
		steps[i] = s.Step
	}
	return trimming.Settings(steps)
}

// ByMarks counts the cuts that are laid by tips or marks, one by one or pile
// by pile.
func (t TrimPlan) ByMarks() int {
	n := 0
	for _, s := range t.Steps {
		if s.Work == trimming.Slant {
			n += s.Strokes
		}
	}
	return n
}

// Strokes counts the strokes of the blade, slants included.
func (t TrimPlan) Strokes() int {
	n := 0
	for _, s := range t.Steps {
		n += s.Strokes
	}
	return n
}

// Give returns what a piece of a stock is.
func (s TrimStock) Give(piece int) TrimGive {
	for _, g := range s.Gives {
		if slices.Contains(g.Piece, piece) {
			return g
		}
	}
	return TrimGive{Kind: "over"}
}

// PlanTrim plans straight cuts for all pieces of a design, by the trimmer that
// it describes: blocks along the sheet first, the smallest oblongs that are
// pieces or are cut into pieces by slants; both halves of a cell come from one
// block and one cut from tip to tip. Sizes fall on the ruler's marks where the
// layout can do so and the design does not say "exact". What straight cuts
// cannot make is named with what to use instead. The plan is carried out by
// the simulator before it is returned.
func PlanTrim(d Design) (TrimPlan, error) {
	kit, err := trimKit(d)
	if err != nil {
		return TrimPlan{}, err
	}
	wasOnRuler := d.Front.OnRuler
	d = kit.Design
	sheetsDiffer := len(kit.Card.Front.Rounded) > 0 && !wasOnRuler && slices.Contains(d.Tools, Cutter)
	plan := TrimPlan{Title: d.Title, Units: d.Units, Ruler: d.Ruler, Trimmer: d.Trimmer, Rounded: kit.Card.Front.Rounded}
	if sheetsDiffer {
		plan.Notes = append(plan.Notes, "sizes here fall on the ruler's marks; the sheets for the cutter keep their exact ones")
	}
	b := &trimBuilder{plan: &plan, effort: TrimEfforts()[d.Sheets.Effort], seed: d.Sheets.Seed}
	all := 0
	var unsaid []string // papers whose caliper is not known
	for _, p := range d.Papers {
		var kinds []Kind
		for _, k := range kit.Kinds {
			if k.Paper != p.Name {
				continue
			}
			if why := k.notByTrimmer(d.Trimmer, d.Units); why != "" {
				plan.Refused = append(plan.Refused, TrimRefused{k.ID, k.Count, k.Places, why})
				continue
			}
			kinds = append(kinds, k)
		}
		if len(kinds) == 0 {
			continue
		}
		pieces := 0
		for _, k := range kinds {
			pieces += k.Count
		}
		switch all += pieces; {
		case all > trimming.MostPieces:
			return plan, d.wrong("batch.cards", "by straight cuts: more than %d pieces; plan them in parts", trimming.MostPieces)
		case d.Trimmer.Pile > 0 && p.Caliper > d.Trimmer.Pile:
			return plan, d.wrong("trimmer.pile", "%s is thicker (%s) than the trimmer cuts", p.Name, p.Caliper.Format(d.Units))
		case d.Trimmer.Pile > 0 && p.Caliper == 0:
			unsaid = append(unsaid, p.Name)
		}
		p = b.size(p, kinds)
		stock := TrimStock{Name: p.Name, Paper: p, Sheet: p.Sheet, Pile: d.Trimmer.pileOf(p)}
		if err := b.stock(stock, wantsOf(kinds, p)); err != nil {
			return plan, d.wrong(d.paperKey(p.Name), "by straight cuts: %v", err)
		}
	}
	if len(unsaid) > 0 {
		plan.Notes = append(plan.Notes, "cut one sheet at a time, as the caliper is not said: "+wording.AndPlain(unsaid))
	}
	for _, s := range plan.Stocks {
		if have := s.Paper.Have; have != nil && *have < s.Sheets {
			plan.Notes = append(plan.Notes, fmt.Sprintf("%s: %s needed, %d at hand; panelry shop tells what to buy", s.Name, counted(s.Sheets, "sheet"), *have))
		}
	}
	if err := b.finish(); err != nil {
		return plan, err
	}
	for _, s := range plan.Steps {
		if s.Stop%d.Ruler != 0 {
			plan.Notes = append(plan.Notes, fmt.Sprintf("not every stop falls on the ruler's %s; panelry nice looks for margins and gaps with which more do", d.Ruler.Format(d.Units)))
			break
		}
	}
	return plan, nil
}

// trimKit works out the card and the kinds as a trimmer cuts them, without
// laying anything on sheets.
func trimKit(d Design) (Kit, error) {
	if !d.Front.OnRuler && !d.Front.Exact {
		onRuler := d
		onRuler.Front.OnRuler = true
		if kit, _, err := planPieces(onRuler); err == nil { // else the marks are too far apart
			return kit, nil
		}
	}
	kit, _, err := planPieces(d)
	return kit, err
}

// pileOf is how many sheets of a paper are cut at once.
func (t TrimmerSettings) pileOf(p papers.Paper) int {
	if t.Pile == 0 || p.Caliper <= 0 {
		return 1
	}
	return max(1, int(t.Pile/p.Caliper))
}

// notByTrimmer says why straight cuts cannot make a kind.
func (k Kind) notByTrimmer(t TrimmerSettings, unit geometry.Unit) string {
	f := traitsOf(k.Outline).fitFrom(Trimmer, t.Narrowest, unit)
	if f.refused == "" {
		return ""
	}
	tools := slices.DeleteFunc(slices.Clone(k.Tools), func(tool Tool) bool { return tool == Trimmer })
	return fmt.Sprintf("%s; use %s", f.refused, instead(tools))
}

// A TrimList is a list of oblongs to be cut from sheets of one size, without a
// design.
type TrimList struct {
	Job     trimming.Job
	Units   geometry.Unit
	Trimmer TrimmerSettings
	Caliper geometry.Length // of the sheets, for piles; 0 when not said
	Roll    bool            // the stock's width is a roll's, and its height does not matter
}

// PlanTrimList plans straight cuts for a list of oblongs, and carries them
// out by the simulator.
func PlanTrimList(list TrimList) (TrimPlan, error) {
	sheet := list.Job.Stock.Size
	plan := TrimPlan{Title: "Oblongs from " + sheet.Format(list.Units), Units: list.Units, Trimmer: list.Trimmer}
	if list.Roll {
		plan.Title = "Oblongs from a roll, " + sheet.W.Format(list.Units) + " wide"
	}
	b := &trimBuilder{plan: &plan, effort: list.Job.Effort, seed: list.Job.Seed, stockCount: list.Job.Stock.Count}
	stock := TrimStock{Sheet: sheet, Pile: list.Trimmer.pileOf(papers.Paper{Caliper: list.Caliper})}
	if list.Trimmer.Pile > 0 && list.Caliper > list.Trimmer.Pile {
		return plan, fmt.Errorf("a sheet is thicker (%s) than the pile that the trimmer cuts (%s)", list.Caliper.Format(list.Units), list.Trimmer.Pile.Format(list.Units))
	}
	if list.Trimmer.Pile > 0 && list.Caliper == 0 {
		plan.Notes = append(plan.Notes, "sheets are cut one at a time: their caliper is not said")
	}
	var wants []*trimWant
	for i, p := range list.Job.Pieces {
		if least := min(p.Size.W, p.Size.H); least > 0 && least < list.Trimmer.Narrowest {
			return plan, fmt.Errorf("a piece of %s is narrower than the %s that a trimmer holds; use a knife and a ruler",
				p.Size.Format(list.Units), list.Trimmer.Narrowest.Format(list.Units))
		}
		free := trimming.AsItIs
		if p.Turn {
			free = trimming.AnyTurn
		}
		name := fmt.Sprint("piece ", i+1)
		wants = append(wants, &trimWant{size: p.Size, free: free, asIs: &TrimGive{Kind: name, Count: p.Count, Size: p.Size,
			outline: geometry.RectFromSize(geometry.Point{}, p.Size).Outline(), turns: func(float64) bool { return p.Turn }}})
	}
	add := b.stock
	if list.Roll {
		add = b.roll
	}
	if err := add(stock, wants); err != nil {
		return plan, err
	}
	return plan, b.finish()
}
