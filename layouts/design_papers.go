package layouts

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"panelry/geometry"
	"panelry/layouts/cards"
	"panelry/layouts/papers"
)

// mostPaperName is the longest name of a paper; it goes into file names.
const mostPaperName = 60

// largestSheet bounds a sheet's sides: rolls of 3 m are sold.
const largestSheet = 3000 * geometry.Millimetre

const eachPaperIsATable = "each paper is a table; write [[papers]] on a line of its own and its keys below"

func (in *reading) papers() {
	if n := len(in.file.Papers); n > MostPapers {
		in.wrong("papers", "%d papers are too many; at most %d", n, MostPapers)
	}
	if _, listed := in.places["papers.0"]; !listed && len(in.file.Papers) > 0 {
		in.wrong("papers", eachPaperIsATable) // written [papers], which the decoder lets pass
	}
	first := map[string]int{}
	for i, p := range in.file.Papers {
		key := "papers." + strconv.Itoa(i)
		paper := in.paper(key, p)
		if paper.Name != "" {
			if other, twice := first[paper.Name]; twice {
				in.wrong(key+".name", "papers %d and %d are both called %q; rename one", other+1, i+1, paper.Name)
			} else {
				first[paper.Name] = i
			}
		}
		in.design.Papers = append(in.design.Papers, paper)
	}
}

func (in *reading) paper(key string, p filePaper) papers.Paper {
	out := papers.Paper{
		Name:      in.paperTitle(key+".name", p.Name),
		Colour:    in.colour(key+".colour", p.Colour, ""),
		Drawing:   papers.Drawing(in.choice(key+".drawing", p.Drawing, string(papers.NoDrawing), papers.Drawings())),
		BothAlike: in.choice(key+".sides", p.Sides, "one", []string{"one", "both alike"}) == "both alike",
		Grain:     in.choice(key+".grain", p.Grain, "", []string{"long", "short"}),
	}
	sizes := in.sheetSizes(key, p)
	if len(sizes) > 1 {
		out.Sizes = sizes
	}
	out = out.In(sizes[0])
	out.Pattern = papers.Pattern(in.choice(key+".pattern", p.Pattern, string(out.Drawing.Usual()), papers.Patterns()))
	if p.Have != nil {
		have := in.count(key+".have", p.Have, 0, 0, math.MaxInt32)
		out.Have = &have
	}
	out.Most = in.count(key+".most_panels", p.Most, 0, 1, math.MaxInt32)
	out.PatternUp, _ = papers.UpDegrees(in.choice(key+".pattern_up", p.PatternUp, "top", papers.Ups()))
	out.GSM = in.weight(key, p)
	out.Caliper = in.notNegative(key+".caliper", p.Caliper, 0)
	out.Edge = in.override(key+".edge", p.Edge)
	out.Spacing = in.override(key+".spacing", p.Spacing)
	out.Bleed = in.bleedOf(key+".bleed", p.Bleed)
	return out
}

func (in *reading) paperTitle(key string, value any) string {
	if value == nil {
		in.wrong(key, "the paper has no name")
		return ""
	}
	if _, ok := value.(string); !ok {
		in.wrong(key, "write a text in quotes")
		return ""
	}
	name := in.text(key, value, "")
	if n := len([]rune(name)); n == 0 || n > mostPaperName || strings.ContainsFunc(name, unprintable) {
		in.wrong(key, "write a name of one line, from 1 to %d letters", mostPaperName)
	}
	return name
}

// sheetSizes reads the sizes of a paper's sheets with their prices: the measured
// size where there is one.
func (in *reading) sheetSizes(key string, p filePaper) []papers.Sized {
	if p.Sheet == nil {
		in.wrong(key+".sheet", `the size of its sheets is missing; write sheet = "12 x 12 in" or "ISO A4"`)
		return []papers.Sized{{}}
	}
	sizes, prices := listOf(p.Sheet), listOf(p.Price)
	if len(sizes) == 0 {
		in.wrong(key+".sheet", `the list is empty; write sheet = ["12 x 12 in", "6 x 6 in"]`)
		return []papers.Sized{{}}
	}
	switch {
	case p.Measured != nil && len(sizes) > 1:
		in.wrong(key+".measured", "this goes with one size of sheet; write the true sizes under sheet")
	case p.Price != nil && len(prices) != len(sizes):
		in.wrong(key+".price", "%d prices for %d sizes of sheet; write one for each, in a list", len(prices), len(sizes))
		prices = nil
	}
	out := make([]papers.Sized, len(sizes))
	for i, value := range sizes {
		out[i].Size = in.sheetSize(key, value, p.Measured)
		if i < len(prices) && prices[i] != nil {
			price := in.price(key+".price", prices[i])
			out[i].Price = &price
		}
	}
	return out
}

// listOf returns a list as it is, and anything else as a list of one.
func listOf(value any) []any {
	if list, ok := value.([]any); ok {
		return list
	}
	return []any{value}
}

func (in *reading) sheetSize(key string, sheet, measured any) geometry.Size {
	size := in.size(key+".sheet", sheet, cards.ForSheet)
	if measured != nil {
		key, size = key+".measured", in.size(key+".measured", measured, cards.ForSheet)
	} else {
		key += ".sheet"
	}
	if size != (geometry.Size{}) && (min(size.W, size.H) <= 0 || max(size.W, size.H) > largestSheet) {
		in.wrong(key, "a sheet of %s: each side must be more than 0 and at most %s", size.Format(in.unit), largestSheet)
	}
	return size
}

func (in *reading) weight(key string, p filePaper) float64 {
	if p.Weight != nil {
		text, ok := p.Weight.(string)
		gsm, err := papers.ParseWeight(text)
		if !ok {
			err = errors.New(`write the weight in quotes, like "80 lb cover"; grams as a number go under gsm`)
		}
		if err != nil {
			in.wrong(key+".weight", "%v", err)
		}
		if p.GSM != nil {
			in.wrong(key+".gsm", "write either gsm or weight, not both")
		}
		return gsm
	}
	if p.GSM == nil {
		return 0
	}
	gsm, ok := number(p.GSM)
	if !ok || !(gsm >= papers.Lightest && gsm <= papers.Heaviest) {
		in.wrong(key+".gsm", "write the grams per square metre as a number from %d to %d", papers.Lightest, papers.Heaviest)
	}
	return gsm
}

func number(value any) (float64, bool) {
	switch v := value.(type) {
	case int64:
		return float64(v), true
	case float64:
		return v, true
	}
	return 0, false
}

// price reads a price, and notes a second currency.
func (in *reading) price(key string, value any) papers.Price {
	if value == nil {
		return papers.Price{}
	}
	text, ok := lengthText(value)
	if !ok {
		in.wrong(key, `write a price like 0.85 or "0.85 EUR"`)
		return papers.Price{}
	}
	price, err := papers.ParsePrice(text)
	if err == nil {
		in.currency, err = in.currency.Plus(price.Times(0))
	}
	if err != nil {
		in.wrong(key, "%v", err)
	}
	return price
}

func (in *reading) override(key string, value any) *geometry.Length {
	if value == nil {
		return nil
	}
	length := in.notNegative(key, value, 0)
	return &length
}

// mostBleed is far past the usual 1/8 in or 3 mm (trade-facts section 5).
const mostBleed = geometry.Inch

func (in *reading) bleedOf(key string, value any) *geometry.Length {
	bleed := in.override(key, value)
	if bleed != nil && *bleed > mostBleed {
		in.wrong(key, "%s is more than %s", bleed.Format(in.unit), mostBleed.Format(in.unit))
	}
	return bleed
}
