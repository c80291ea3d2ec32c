package guide

import (
	"fmt"

	"panelry/geometry"
)

// Minutes are our guess, not from a source: the guide says so, and asks for
// one card to be timed.
const (
	minutesSheet = 4   // to load, cut and clear a sheet
	minutesSort  = 3   // to put a card's pieces into its envelope
	minutesFold  = 2   // to fold and press a base
	minutesPanel = 1.5 // to glue and place a panel
)

// teaching are the chapters that only a teacher needs.
func (w *writer) teaching() []Chapter {
	chapters := w.chapters()
	if w.OtherHand == nil {
		return chapters
	}
	hand := "left"
	if !w.OtherHand.Trimmer.LeftHanded {
		hand = "right"
	}
	title := fmt.Sprintf("For the teacher: the trimmer with the %s hand", hand)
	return append(chapters, w.trimmed(Chapter{Title: title}, *w.OtherHand, "trim-"+hand))
}

// chapters are those that every class needs.
func (w *writer) chapters() []Chapter {
	panels, n := len(w.Kit.Card.Panels), w.d.Batch.Cards
	ahead := float64(len(w.Kit.Sheets)) * minutesSheet
	sort := float64(n) * minutesSort
	place := float64(panels) * minutesPanel
	minutes := func(m float64) string { return fmt.Sprintf("%.0f", m+0.49) }
	return []Chapter{
		{"For the teacher: before the day", []Part{
			{List: []string{
				"Make one card yourself, and time it.",
				"Print template.pdf at 100 % and measure the test square.",
				"Cut all sheets and one jig for each table, of either hand.",
				"Put each card's base, panels and lay-out page into an envelope with the label below.",
				"Cut a few spare pieces: the key spares in the design, under [batch], adds sets.",
				"Count scissors, glue, rulers and pencils, and have a bin for off-cuts at each table.",
			}},
			{Table: &Table{Caption: "Minutes a step (our guess, from no source: time your own card)", Header: []string{"Step", "Who", "Minutes"}, Rows: [][]string{
				{"Cut all sheets", "teacher, ahead", minutes(ahead)},
				{"Sort pieces into envelopes", "teacher, ahead", minutes(sort)},
				{"Fold the base", "each maker", minutes(minutesFold)},
				{"Lay the panels out", "each maker", minutes(float64(panels) * 0.3)},
				{"Glue the panels", "each maker", minutes(place)},
				{"Let it dry, tidy up", "everybody", "10"},
			}}},
		}},
		{"For the teacher: run sheet", []Part{{Steps: []Step{
			{Text: "Show the finished card and the lay-out page. Say the word for each part: base, front, panel, gap."},
			{Text: "Say who holds a blade today, and who does not."},
			{Text: "Everybody folds a base and presses the fold."},
			{Text: "Everybody lays all panels on the lay-out page, arrows as shown. Walk round: a wrong direction shows now."},
			{Text: "Everybody glues in the order of the numbers, with jig or spacer strip."},
			{Text: "Cards dry flat under a book. Off-cuts go into the bin, tools are counted."},
		}}}},
		{"For the teacher: young hands", []Part{{List: []string{
			"An adult holds every blade. Children fold, lay out and glue.",
			fmt.Sprintf("Choose a larger gap and margin: with %s or more a crooked panel shows less (common practice, no source). Here the gap is %s.", youngGap.Format(w.d.Units), w.d.BothUnits(w.d.Front.Gap)),
			"Choose a layout with fewer and larger panels: columns and rows in the design.",
			"Use a glue stick rather than tape: a panel can still be moved.",
			"Seat left-handed children at the left end of a table, and give them the left-hand jig.",
		}}}},
		{"For the teacher: left-handed steps", []Part{
			text("The same steps, with the hand coming in from the left."),
			{Steps: w.steps(true)},
		}},
		w.kitLabels(),
	}
}

const youngGap = geometry.Inch * 3 / 16

// kitLabels are the words to put on each card's envelope.
func (w *writer) kitLabels() Chapter {
	t := Table{Caption: "A label for each envelope", Header: []string{"Card", "Write on the envelope", "Pieces"}}
	for card := range w.d.Batch.Cards {
		if card == mostRows+1 {
			break
		}
		t.Rows = append(t.Rows, []string{fmt.Sprint(card + 1),
			fmt.Sprintf("%s, card %d of %d", w.d.Title, card+1, w.d.Batch.Cards),
			fmt.Sprintf("1 base, %d panels", len(w.Kit.Card.Panels))})
	}
	return Chapter{"For the teacher: kit labels", rows(t, "pieces.csv")}
}
