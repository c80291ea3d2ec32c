package papers

import (
	"cmp"
	"slices"

	"panelry/geometry"
)

const (
	// gramsPerPound is exact (international yard and pound agreement, 1959).
	gramsPerPound = 453.59237
	// basisSheets is how many sheets the basis weight counts (trade formula
	// pages).
	basisSheets = 500
)

// Lightest and Heaviest bound the paper that is believed, in gsm. They only
// catch a slip of the pen: tissue has about 12 gsm and 3 mm board about 2000
// (from memory).
const (
	Lightest = 1
	Heaviest = 5000
)

// A grade is a kind of paper whose packs are marked in pounds.
type grade struct {
	name  string
	other []string      // further words for the same kind
	basic geometry.Size // the basic size
	// usual is the range of pounds that packs of this kind are sold in; it
	// only chooses which readings of a bare "110 lb" are shown. Common
	// practice, no source; none for the kinds that a card maker rarely meets.
	usual [2]float64
}

// grades are the kinds in the order in which they are named to the user. The
// basic sizes are from the printing trade's formula pages.
var grades = []grade{
	{name: "cover", basic: inches(20, 26), usual: [2]float64{50, 130}},
	{name: "text", other: []string{"book", "offset"}, basic: inches(25, 38), usual: [2]float64{40, 100}},
	{name: "index", basic: inches(25.5, 30.5), usual: [2]float64{90, 140}},
	{name: "bond", basic: inches(17, 22), usual: [2]float64{13, 36}},
	{name: "tag", basic: inches(24, 36)},
	{name: "bristol", basic: inches(22.5, 28.5)},
}

// inches returns a basic size; its sides are whole or half inches, so exact.
func inches(w, h float64) geometry.Size {
	return geometry.Size{W: geometry.Length(w * float64(geometry.Inch)), H: geometry.Length(h * float64(geometry.Inch))}
}

// gsm returns the grams per square metre of that many pounds.
func (g grade) gsm(pounds float64) float64 {
	return pounds * gramsPerPound / (basisSheets * squareMetres(g.basic))
}

// sells reports whether packs of the kind are sold in that many pounds.
func (g grade) sells(pounds float64) bool {
	return pounds > 0 && g.usual[0] <= pounds && pounds <= g.usual[1]
}

// gradeNamed returns the kind of paper with that name, in small letters.
func gradeNamed(word string) (grade, bool) {
	for _, g := range grades {
		if g.name == word || slices.Contains(g.other, word) {
			return g, true
		}
	}
	return grade{}, false
}

// gradesSelling returns the kinds that are sold in that many pounds, the
// lightest paper first.
func gradesSelling(pounds float64) []grade {
	var out []grade
	for _, g := range grades {
		if g.sells(pounds) {
			out = append(out, g)
		}
	}
	slices.SortFunc(out, func(a, b grade) int { return cmp.Compare(a.gsm(pounds), b.gsm(pounds)) })
	return out
}

// Mass returns the mass in grams of a piece of paper.
func Mass(area geometry.Area, gsm float64) float64 { return area.SquareMM() / 1e6 * gsm }

// SheetMass returns the mass in grams of a piece of paper of the given size
// and weight.
func SheetMass(size geometry.Size, gsm float64) float64 { return squareMetres(size) * gsm }

// squareMetres returns the area of a size.
func squareMetres(s geometry.Size) float64 {
	return s.W.In(geometry.Millimetres) * s.H.In(geometry.Millimetres) / 1e6
}
