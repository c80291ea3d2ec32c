package layouts_test

import (
	"context"
	"errors"
	"strings"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
)

// sample is a design with one key a line, so that a test can change one
// thing and know its line: a 4 x 6 in card with 2 by 2 halves, cut from
// two papers.
const sample = `title = "sample"
units = "in"
tool = "cutter"
[card]
size = "4 x 6 in"
base = "flat"
paper = "oat"
[front]
layout = "diagonal halves"
margin = "1/4"
gap = "1/8"
papers = ["moss", "clay"]
[batch]
cards = 2
[sheets]
edge = "1/4"
[[papers]]
name = "oat"
sheet = "12 x 12 in"
[[papers]]
name = "moss"
sheet = "12 x 12 in"
[[papers]]
name = "clay"
sheet = "12 x 12 in"
`

// changed returns the sample with texts replaced, given in pairs. A text
// that is not in it once is a fault of the test and panics.
func changed(pairs ...string) string { return changedIn(sample, pairs...) }

func changedIn(design string, pairs ...string) string {
	for i := 0; i < len(pairs); i += 2 {
		if strings.Count(design, pairs[i]) != 1 {
			panic("not once in the sample: " + pairs[i])
		}
		design = strings.Replace(design, pairs[i], pairs[i+1], 1)
	}
	return design
}

func read(text string) (layouts.Design, error) { return layouts.Read(strings.NewReader(text), nil) }

func mustRead(t require.TestingT, text string) layouts.Design {
	d, err := read(text)
	require.NoError(t, err, text)
	return d
}

func mustPlan(t require.TestingT, text string) layouts.Kit {
	kit, err := layouts.Plan(context.Background(), mustRead(t, text))
	require.NoError(t, err, text)
	return kit
}

// planError returns the error of a design that cannot be planned, whether
// reading or planning tells it.
func planError(t require.TestingT, text string) string {
	d, err := read(text)
	if err == nil {
		_, err = layouts.Plan(context.Background(), d)
	}
	require.IsType(t, layouts.Problems{}, err, text)
	require.Error(t, err, text)
	requirePlainWords(t, err.Error())
	return err.Error()
}

// problemsOf returns what is wrong with a text, one problem an item.
func problemsOf(t require.TestingT, text string) []string {
	_, err := read(text)
	var problems layouts.Problems
	require.True(t, errors.As(err, &problems), "%v", err)
	require.NotEmpty(t, problems)
	out := make([]string, len(problems))
	for i, p := range problems {
		out[i] = p.Error()
		requirePlainWords(t, out[i])
	}
	return out
}

// programWords must never come up in a sentence for a maker.
var programWords = []string{"struct", "interface", "int64", "float64", "map[", "[]", "main.", "toml:", "strconv", "<nil>", "%!"}

func requirePlainWords(t require.TestingT, text string) {
	for _, word := range programWords {
		if strings.Contains(text, word) {
			require.Failf(t, "a word of programmers", "%q in %q", word, text)
		}
	}
}

// in is a length in 1/64 in, the finest mark of a ruler.
func in(sixtyFourths geometry.Length) geometry.Length { return sixtyFourths * geometry.Inch / 64 }
