package guide

import (
	"fmt"
	"strings"

	"panelry/export/picture"
	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/wording"
)

// Facts are what a guide is written from: the kit, and what its files say.
type Facts struct {
	Kit    layouts.Kit
	Sheets []SheetFile
	Trim   *layouts.TrimPlan // where the design is for a trimmer
	// OtherHand is the same plan for the other hand, in a teacher's edition.
	OtherHand *layouts.TrimPlan
	Teacher   bool      // with the teacher's chapters
	More      []Chapter // put in front of how the design was checked
}

// SheetFile is a sheet's file with which face of its paper lies up.
type SheetFile struct {
	Name, Face string
	Sheet      layouts.Sheet
}

// Limits of what a guide shows; the kit's other files have everything.
const (
	mostRows    = 60 // of a table
	mostFigures = 24 // small pictures of the assembly
	mostCards   = 60 // on the picture of the batch
)

// Write makes the chapters of a kit's guide.
func Write(f Facts) (Document, error) {
	w := &writer{Facts: f, d: f.Kit.Design}
	doc := Document{Title: w.d.Title, Subtitle: "Making guide"}
	if f.Teacher {
		doc.Subtitle = "Making guide, teacher's edition"
	}
	for _, chapter := range []func() Chapter{w.card, w.safety, w.words, w.needs, w.measures, w.cutting, w.trimming, w.assembly, w.batch} {
		if c := chapter(); len(c.Parts) > 0 {
			doc.Chapters = append(doc.Chapters, c)
		}
	}
	if f.Teacher {
		doc.Chapters = append(doc.Chapters, w.teaching()...)
	}
	doc.Chapters = append(doc.Chapters, f.More...)
	doc.Chapters = append(doc.Chapters, w.checked())
	return doc, w.err
}

type writer struct {
	Facts
	d   layouts.Design
	err error
}

// figure keeps the first error of a picture.
func (w *writer) figure(name, alt string, small bool, svg []byte, err error) *Figure {
	if err != nil && w.err == nil {
		w.err = fmt.Errorf("%s: %w", name, err)
	}
	return &Figure{Name: "guide/" + name + ".svg", Alt: alt, SVG: svg, Small: small}
}

func text(format string, args ...any) Part { return Part{Text: fmt.Sprintf(format, args...)} }

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// rows bounds a table, and says where the rest is.
func rows(t Table, rest string) []Part {
	if len(t.Rows) <= mostRows {
		return []Part{{Table: &t}}
	}
	more := len(t.Rows) - mostRows
	t.Rows = t.Rows[:mostRows]
	return []Part{{Table: &t}, text("And %d more: see %s.", more, rest)}
}

func (w *writer) card() Chapter {
	svg, err := picture.Cards(w.Kit, 1)
	c := w.Kit.Card
	alt := fmt.Sprintf("The finished card: %s, %s, in the layout %s, in the papers %s.",
		counted(len(c.Panels), "panel", "panels"), w.d.Card.Orientation(), w.d.Front.Layout.Name, wording.AndPlain(w.papersOfCard()))
	return Chapter{"The card", []Part{
		text("The closed card is %s, %s. Its front is covered with %s of patterned paper, with a margin of %s around them and gaps of %s between them.",
			w.d.SizeInBothUnits(c.Size), w.d.Card.Orientation(), counted(len(c.Panels), "panel", "panels"), w.d.BothUnits(w.d.Front.Margin), w.d.BothUnits(w.d.Front.Gap)),
		{Figure: w.figure("card", alt, false, svg, err)},
	}}
}

func (w *writer) papersOfCard() []string {
	var names []string
	seen := map[string]bool{}
	for _, p := range w.Kit.Card.Panels {
		if !seen[p.Paper] {
			seen[p.Paper] = true
			names = append(names, p.Paper)
		}
	}
	return names
}

func (w *writer) safety() Chapter {
	return Chapter{"Mind your fingers", []Part{
		{Caution: "Blades cut fingers as well as paper. An adult holds the blade and runs the cutter or the trimmer; read the tool's own manual first."},
		{List: []string{
			"Keep fingers behind the guard or the ruler, cut away from your other hand, and put the cap on a knife that lies down.",
			"Cut a trial piece on scrap paper first, and measure it, before you cut good paper.",
			"Small off-cuts can be swallowed: keep them from little children.",
			"Use glue in a room with fresh air, and as its label says.",
		}},
	}}
}

func (w *writer) words() Chapter {
	return Chapter{"Words in this guide", []Part{{List: []string{
		"Base: the folded card that everything is glued on. Front: its outer face.",
		"Panel: one piece of paper on the front. Its name says where it is: column letter, row number, and a small letter where a place has several parts.",
		"Margin: the strip of base that shows around all panels. Gap: the strip that shows between two panels.",
		"Kind: pieces that are just alike, so that one can stand for the other.",
		"Score: to press a line into card without cutting it, so that it folds cleanly there.",
		"Pattern direction: which way up a pattern runs. In pictures an arrow points to the top of the card.",
		"Jig: a frame of scrap card with windows that show where panels go.",
		"Ruler fraction: sizes such as 2 5/8 in, as a ruler in inches shows them; millimetres stand behind.",
	}}}}
}

func (w *writer) needs() Chapter {
	t := Table{Caption: "Papers", Header: []string{"Paper", "Sheets", "Of size", "Pieces"}}
	for _, u := range w.Kit.Stock {
		if u.Sheets > 0 {
			t.Rows = append(t.Rows, []string{u.Paper.Name, fmt.Sprint(u.Sheets), w.d.SizeInBothUnits(u.Paper.Sheet), fmt.Sprint(u.Pieces)})
		}
	}
	tools := map[layouts.Tool]string{
		layouts.Cutter: "an electronic cutter that reads SVG files, with its mat", layouts.Trimmer: "a paper trimmer with a guard and a stop",
		layouts.Knife: "a craft knife, a metal ruler and a cutting mat",
	}
	var list []string
	for _, tool := range w.d.Tools {
		list = append(list, tools[tool])
	}
	list = append(list, "paper glue or thin double-sided tape", "a ruler in inches or millimetres, and a pencil", "scrap card for the placing aids")
	if len(w.Kit.Card.Base.Folds) > 0 {
		list = append(list, "a bone folder, or the back of a spoon, to press the fold")
	}
	what := counted(w.d.Batch.Cards, "card", "cards")
	if w.d.Batch.Spares > 0 {
		what += " and " + counted(w.d.Batch.Spares, "spare set of panels", "spare sets of panels")
	}
	return Chapter{"What you need", append(append([]Part{text("For %s:", what)}, rows(t, "kit.json")...), Part{List: list})}
}

func (w *writer) measures() Chapter {
	across, down := w.Kit.Card.Sums()
	sums := Table{Caption: "Sums: margins, panels and gaps add up to the front", Header: []string{"Way", "Parts, in turn", "Together"}}
	for _, way := range []struct {
		name  string
		terms []string
		whole geometry.Length
	}{{"across", nil, w.Kit.Card.Size.W}, {"down", nil, w.Kit.Card.Size.H}} {
		terms := across
		if way.name == "down" {
			terms = down
		}
		for _, t := range terms {
			way.terms = append(way.terms, t.What+" "+t.Length.Format(w.d.Units))
		}
		sums.Rows = append(sums.Rows, []string{way.name, strings.Join(way.terms, ", "), w.d.BothUnits(way.whole)})
	}
	kinds := Table{Caption: "Kinds of piece", Header: []string{"Kind", "How many", "Width and height of the box around it", "On the first card"}}
	for _, k := range w.Kit.Kinds {
		places := k.Places
		const most = 8
		where := wording.AndPlain(places)
		if len(places) > most {
			where = strings.Join(places[:most], ", ") + " and more"
		}
		if where == "" {
			where = "on other cards"
		}
		kinds.Rows = append(kinds.Rows, []string{k.ID, fmt.Sprint(k.Count), w.d.SizeInBothUnits(k.Outline.Bounds().Size()), where})
	}
	parts := append([]Part{{Table: &sums}}, rows(kinds, "kit.json")...)
	return Chapter{"Sizes", append(parts, text("The file template.pdf shows all of this at true size. Print it at 100 %% and measure its test square before you use it."))}
}

func (w *writer) cutting() Chapter {
	c := Chapter{Title: "Cutting on the cutter"}
	if len(w.Sheets) == 0 || !w.uses(layouts.Cutter) && !w.uses(layouts.Knife) {
		return c
	}
	files := Table{Caption: "Which file for which paper", Header: []string{"File", "Paper", "Sheet", "Face", "Pieces"}}
	for _, s := range w.Sheets {
		files.Rows = append(files.Rows, []string{s.Name, s.Sheet.Paper.Name, s.Sheet.Size.Format(w.d.Units), s.Face, fmt.Sprint(len(s.Sheet.Pieces))})
	}
	layers := Table{Caption: "What each layer of a file does", Header: []string{"Layer", "What the machine does"}, Rows: [][]string{
		{"print", "prints colour and marks first, where there is such a layer; nothing is cut along it"},
		{"score", "presses or lightly cuts fold lines, not through the card"},
		{"cut", "cuts through, last of all"},
	}}
	c.Parts = append(rows(files, "kit.json"), Part{Table: &layers}, Part{Steps: []Step{
		{Text: "Open a file and check its size against the table: a sheet that comes out smaller or larger was scaled by the program."},
		{Text: "Lay the paper with the named face up, its top at the top of the mat."},
		{Text: "Cut one sheet, and measure a piece with a ruler, before you cut the others."},
		{Text: "Take the pieces off in the order of the sheet's map (folder maps), and pencil the name on the back of each."},
	}})
	return c
}

func (w *writer) uses(tool layouts.Tool) bool {
	for _, t := range w.d.Tools {
		if t == tool {
			return true
		}
	}
	return len(w.d.Tools) == 0 && tool == layouts.Cutter
}

func (w *writer) trimming() Chapter {
	if w.Trim == nil {
		return Chapter{}
	}
	return w.trimmed(Chapter{Title: "Cutting on the trimmer"}, *w.Trim, "trim")
}

// trimmed writes the steps of a plan of straight cuts.
func (w *writer) trimmed(c Chapter, plan layouts.TrimPlan, name string) Chapter {
	c.Parts = append(c.Parts, text("Set the stop once for each step, and make all cuts of the step at that setting. The pictures show the part before and after."))
	var steps []Step
	for _, s := range plan.Steps {
		if len(steps) == mostRows {
			break
		}
		svg, err := picture.TrimStep(plan, s)
		alt := fmt.Sprintf("Step %d before and after: %s", s.Number, s.Text)
		steps = append(steps, Step{s.Text, w.figure(fmt.Sprintf("%s-%03d", name, s.Number), alt, false, svg, err)})
	}
	c.Parts = append(c.Parts, Part{Steps: steps})
	if more := len(plan.Steps) - len(steps); more > 0 {
		c.Parts = append(c.Parts, text("And %d more steps: see cuts.md.", more))
	}
	for _, r := range plan.Refused {
		c.Parts = append(c.Parts, text("%s cannot be cut straight: %s", r.Kind, r.Why))
	}
	return c
}

func (w *writer) assembly() Chapter {
	c := Chapter{Title: "Putting a card together"}
	if len(w.Kit.Card.Base.Folds) > 0 {
		c.Parts = append(c.Parts, text("Fold the base first: away from the scored side, so that the line stands up on the outside. Press the fold flat."))
	}
	c.Parts = append(c.Parts, text("Lay all panels of one card on the lay-out page of template.pdf first. Then glue them in this order: each panel is measured from the card's edge or from a panel that lies already, never from one that does not."))
	c.Parts = append(c.Parts, w.aids()...)
	c.Parts = append(c.Parts, Part{Heading: "Step by step"}, Part{Steps: w.steps(false)})
	return c
}

func (w *writer) aids() []Part {
	aids, notes := w.Kit.Aids()
	var list []string
	for _, a := range aids {
		list = append(list, fmt.Sprintf("%s (aids/%s.svg): %s", a.Title, a.Name, a.Use))
	}
	return []Part{{Heading: "Placing aids"}, text("Placing by eye is hard; any of these helps, and none is needed."), {List: append(list, notes...)}}
}

// steps are the assembly with small pictures, at most so many.
func (w *writer) steps(left bool) []Step {
	all := w.Kit.Assembly()
	each := (len(all) + mostFigures - 1) / mostFigures
	hand := ""
	if left {
		hand = "-left"
	}
	var steps []Step
	for from := 0; from < len(all); from += each {
		to := min(from+each, len(all)) - 1
		svg, err := picture.AssemblyStep(w.Kit, all, from, to, left)
		var words, placed []string
		for _, s := range all[from : to+1] {
			words = append(words, s.Text+".")
			placed = append(placed, w.Kit.Card.Panels[s.Panel].Name)
		}
		alt := fmt.Sprintf("The front with panel %s being placed; %d of %d panels lie.", wording.AndPlain(placed), to+1, len(all))
		steps = append(steps, Step{strings.Join(words, " "), w.figure(fmt.Sprintf("step-%02d%s", len(steps)+1, hand), alt, true, svg, err)})
	}
	return steps
}

func (w *writer) batch() Chapter {
	c := Chapter{Title: "The batch"}
	n := w.d.Batch.Cards
	if n == 1 {
		return c
	}
	c.Parts = append(c.Parts, text("%d cards. Put the pieces of one card into one envelope before you glue; a piece's label begins with its card's number.", n))
	if n <= mostCards {
		numbers := make([]int, n)
		for i := range numbers {
			numbers[i] = i + 1
		}
		svg, err := picture.Cards(w.Kit, numbers...)
		c.Parts = append(c.Parts, Part{Figure: w.figure("batch", fmt.Sprintf("All %d cards of the batch, in rows from card 1.", n), false, svg, err)})
	}
	c.Parts = append(c.Parts, w.swapping()...)
	const mostColumns = 12
	panels := w.Kit.Card.Panels
	if len(panels) > mostColumns {
		return c
	}
	t := Table{Caption: "Which paper goes where", Header: []string{"Card"}}
	for _, p := range panels {
		t.Header = append(t.Header, p.Name)
	}
	for card := range n {
		row := []string{fmt.Sprint(card + 1)}
		for _, p := range panels {
			row = append(row, w.Kit.PaperOn(p, card+1).Name)
		}
		t.Rows = append(t.Rows, row)
	}
	c.Parts = append(c.Parts, rows(t, "pieces.csv")...)
	return c
}

// swapping says whether papers come out even, and how pieces find their cards
// by moving piles, where they do.
func (w *writer) swapping() []Part {
	s := w.Kit.Swaps()
	var parts []Part
	if s.Even != nil {
		parts = append(parts, text("Papers that are cut alike: %s.", s.Even))
	}
	if len(s.Rounds) == 0 {
		return parts
	}
	parts = append(parts, Part{Heading: "Swapping without a table"},
		text("Stack the papers face up, with %s from the top. Cut the stack, so that each panel has a pile with one piece of every paper. Move pieces from the top of each pile to its bottom, as many as stand here; then every card takes the top piece of each pile.", wording.AndPlain(s.Stack)))
	t := Table{Caption: "From the top of a pile to its bottom", Header: []string{"Pile"}}
	for i := range s.Rounds {
		t.Header = append(t.Header, fmt.Sprintf("Round %d", i+1))
	}
	for k, pile := range s.Rounds[0].Piles {
		row := []string{pile.Panel}
		for _, r := range s.Rounds {
			row = append(row, fmt.Sprint(r.Piles[k].Move))
		}
		t.Rows = append(t.Rows, row)
	}
	return append(parts, rows(t, "panelry swap")...)
}

func (w *writer) checked() Chapter {
	list := []string{
		"All lengths are whole nanometres; margins, panels and gaps add up to the front exactly.",
		"Every sheet for the cutter was read back and checked: true size, closed outlines, nothing too near an edge or another piece, no line twice.",
		"kit.json lists every file with its checksum (SHA-256), so that you can see whether one was changed.",
	}
	if w.Trim != nil {
		list = append(list, "The trimmer's steps were carried out by a simulator before they were written.")
	}
	c := Chapter{"How the design was checked", []Part{{List: list}, text("What no program can check: whether your printer or cutter keeps its scale. Measure the test square, and the first piece.")}}
	if len(w.Kit.Warnings) > 0 {
		var worth []string
		for _, x := range w.Kit.Warnings {
			worth = append(worth, x.Text)
		}
		c.Parts = append(c.Parts, Part{Heading: "Worth knowing"}, Part{List: worth})
	}
	return c
}
