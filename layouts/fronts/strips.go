package fronts

import (
	"slices"

	"panelry/geometry"
)

// Strips: parallel panels from edge to edge, equal or of given widths. They
// are named 1, 2, 3 from the left or from the top.
//
//	+--+ +--+ +--+
//	|1 | |2 | |3 |
//	|  | |  | |  |
//	+--+ +--+ +--+
func init() {
	Register(Layout{
		Name:    "strips",
		Summary: "parallel strips from edge to edge, equal or of given widths",
		Roles:   "in order",
		Options: []Option{
			{Name: "run", Kind: Choice, Default: "upright", Words: []string{"upright", "level"}, Help: "which way the strips run"},
			{Name: "count", Kind: Count, Help: "how many equal strips; left out: 5, or as many as there are widths"},
			{Name: "widths", Kind: Lengths, Help: `each strip's width in order, one of which may be "rest"; left out: all equal`},
		},
		Divide: divideStrips,
	})
}

// defaultStrips is how many strips there are when nothing is said.
const defaultStrips = 5

func divideStrips(b Brief) (Front, error) {
	upright := b.Options.Text("run") == "upright"
	whole := b.Frame.H()
	if upright {
		whole = b.Frame.W()
	}
	lengths, err := stripWidths(b, whole)
	if err != nil {
		return Front{}, err
	}
	return bands(b, lengths, upright, func(i int) int { return i })
}

// tryStrips is what to change when strips come out too small.
const tryStrips = "use a smaller gap or margin, or fewer or narrower strips"

// stripWidths returns the strips' widths, which add up with their gaps; some
// can be too small, or less than nothing.
func stripWidths(b Brief, whole geometry.Length) ([]geometry.Length, error) {
	given, count := b.Options.Lengths("widths"), b.Options.Count("count")
	if len(given) > MostCount {
		return nil, wrongOption("widths", "%d strips are too many; at most %d", len(given), MostCount)
	}
	if count > 0 && len(given) > 0 && count != len(given) {
		return nil, wrongOption("widths", "%s given, and count is %d", counted(len(given), "width"), count)
	}
	if len(given) > 0 {
		return givenWidths(b, given, whole)
	}
	if count == 0 {
		count = defaultStrips
	}
	return shareOut(whole, b.Gap, count), nil
}

// givenWidths fills in the rest, and refuses widths that do not add up.
func givenWidths(b Brief, given []geometry.Length, whole geometry.Length) ([]geometry.Length, error) {
	lengths := slices.Clone(given)
	left := whole - b.Gap*geometry.Length(len(given)-1)
	rest := -1
	for i, length := range given {
		if length != Rest {
			left -= length
			continue
		}
		if rest >= 0 {
			return nil, wrongOption("widths", `"rest" stands at %d and at %d; one is enough`, rest+1, i+1)
		}
		rest = i
	}
	switch {
	case rest >= 0:
		lengths[rest] = left
	case left > 0:
		return nil, wrongOption("widths", `with their gaps they are %s short of the frame's %s; make one of them "rest"`, left.Format(b.Unit), whole.Format(b.Unit))
	case left < 0:
		return nil, wrongOption("widths", `with their gaps they are %s more than the frame's %s; make one of them "rest"`, (-left).Format(b.Unit), whole.Format(b.Unit))
	}
	return lengths, nil
}
