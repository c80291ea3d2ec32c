package layouts_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"panelry/layouts"
)

// batchOf is a batch of cards with eight halves of eight papers, two-way
// patterns among them, in turn.
func batchOf(cards int) string {
	text := eightPapers("in turn")
	text = strings.Replace(text, "cards = 8", fmt.Sprintf("cards = %d", cards), 1)
	return strings.Replace(text, `name = "fir"`, "name = \"fir\"\npattern = \"two-way\"", 1)
}

func BenchmarkRead(b *testing.B) {
	text := batchOf(8)
	for b.Loop() {
		if _, err := layouts.Read(strings.NewReader(text), nil); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkPlan plans about 100, 1,000 and 10,000 pieces: nine a card.
func BenchmarkPlan(b *testing.B) {
	for _, cards := range []int{12, 125, 1250} {
		b.Run(fmt.Sprintf("pieces=%d", 9*cards), func(b *testing.B) { benchmarkPlan(b, batchOf(cards)) })
	}
}

// BenchmarkPlanFine plans the finest front whose halves are all kinds of
// their own: radiating from the middle on a one-way paper.
func BenchmarkPlanFine(b *testing.B) {
	benchmarkPlan(b, finest)
}

// finest is a front of 60 by 60 cells, each cut in halves of its own kind.
var finest = changedIn(halves, `size = "100 x 140 mm"`, `size = "400 x 400 mm"`, `margin = 10`, `margin = 5`, `gap = 4`,
	"gap = 1\ncolumns = 60\nrows = 60\ndirection = \"radiating\"",
	"name = \"moss\"\nsheet = \"ISO A4\"", "name = \"moss\"\nsheet = \"900 x 900 mm\"\npattern = \"one-way\"",
	"name = \"oat\"\nsheet = \"ISO A4\"", "name = \"oat\"\nsheet = \"400 x 400 mm\"")

func benchmarkPlan(b *testing.B, text string) {
	d := mustRead(b, text)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := layouts.Plan(context.Background(), d); err != nil {
			b.Fatal(err)
		}
	}
}
