package page

import (
	"strings"

	"panelry/layouts"
	"panelry/layouts/cards"
	"panelry/layouts/fronts"
	"panelry/layouts/papers"
)

// A kind says how a key's value is typed and how it stands in the file.
type kind string

// The kinds of control.
const (
	asText    kind = "text"
	asLength  kind = "length"  // as a maker writes it: 4 1/4, 3.2 mm
	asSize    kind = "size"    // a named size or two lengths
	asSizes   kind = "sizes"   // several, with ; between
	asCount   kind = "count"   // a whole number
	asNumber  kind = "number"  // any number
	asNumbers kind = "prices"  // prices, with ; between
	asChoice  kind = "choice"  // one of some words
	asColour  kind = "colour"  // #rrggbb
	asPercent kind = "percent" // "10 %", or a whole number
	asTools   kind = "tools"   // one tool or more
	asPapers  kind = "papers"  // names in turn, or by panel
	asWays    kind = "ways"    // one direction, or by panel
	asRows    kind = "rows"    // texts, one a line
	asLengths kind = "lengths" // lengths, with ; between
	asDeal    kind = "deal"    // papers of each card, one card a line
	asYes     kind = "yes"     // true or false, chosen in words
)

// A control is what stands on the page for one key of the design file.
type control struct {
	Key   string // as layouts.Keys has it: "papers.*.name"
	Label string
	Kind  kind
	Words func(layouts.Design) []word // for choices
	Help  string
	Wide  bool // a box of several lines
}

// A word is one answer of a choice, as the file has it and as it is read.
type word struct{ Value, Text string }

func words(values ...string) func(layouts.Design) []word {
	list := make([]word, len(values))
	for i, v := range values {
		list[i] = word{v, v}
	}
	return func(layouts.Design) []word { return list }
}

// said gives each value the words after it.
func said(pairs ...string) func(layouts.Design) []word {
	var list []word
	for i := 0; i < len(pairs); i += 2 {
		list = append(list, word{pairs[i], pairs[i+1]})
	}
	return func(layouts.Design) []word { return list }
}

// controls lists every key of a design file, in the order of the page. The
// options of each layout are added from the fronts' registry (option).
var controls = []control{
	{Key: "title", Label: "Title of the design", Kind: asText},
	{Key: "units", Label: "Numbers without a unit are", Kind: asChoice, Words: said("", "not said", "in", "inches", "mm", "millimetres")},
	{Key: "ruler", Label: "Smallest step of the ruler", Kind: asLength, Help: "the arrow keys step by it"},
	{Key: "tool", Label: "Tool", Kind: asTools, Words: toolWords},

	{Key: "card.size", Label: "Card size", Kind: asSize, Words: cardSizes},
	{Key: "card.width", Label: "Width", Kind: asLength},
	{Key: "card.height", Label: "Height", Kind: asLength},
	{Key: "card.orientation", Label: "Way up", Kind: asChoice, Words: said("", "as its size", "upright", "upright", "landscape", "landscape")},
	{Key: "card.base", Label: "Fold", Kind: asChoice, Words: said("flat", "no fold", "top fold", "top fold", "side fold", "side fold")},
	{Key: "card.paper", Label: "Paper of the base", Kind: asChoice, Words: paperWords},

	{Key: "front.layout", Label: "Front", Kind: asChoice, Words: layoutWords},
	{Key: "front.margin", Label: "Margin", Kind: asLength},
	{Key: "front.gap", Label: "Gap", Kind: asLength},
	{Key: "front.papers", Label: "Papers of the panels", Kind: asPapers, Wide: true, Help: "in turn: kelp, tide; or by panel: A1a: kelp, rest: tide. Left empty: all but the base's"},
	{Key: "front.direction", Label: "Patterns run", Kind: asWays, Help: "upright, radiating, along or an angle like 30 deg; by panel: A1a: along, rest: upright"},
	{Key: "front.sizes", Label: "Sizes of panels", Kind: asChoice, Words: said("", "as the tool is", "exact", "exact", "on the ruler", "on the ruler")},

	{Key: "batch.cards", Label: "Cards", Kind: asCount},
	{Key: "batch.spares", Label: "Spare sets of panels", Kind: asPercent, Help: "a number, or a share like 10 %"},
	{Key: "batch.plan", Label: "Plan of the papers", Kind: asChoice, Words: planWords},
	{Key: "batch.by_hand", Label: "Papers by hand, one card a line", Kind: asDeal, Wide: true, Help: "kelp, tide, ... in the order of the panels; or A1a: kelp, rest: tide. Or choose a card and click a panel of it"},

	{Key: "sheets.edge", Label: "Edge", Kind: asLength, Help: "kept clear along the sides of a sheet"},
	{Key: "sheets.spacing", Label: "Spacing", Kind: asLength, Help: "kept between pieces"},
	{Key: "sheets.bleed", Label: "Bleed", Kind: asLength, Help: "printed this far past each piece; 0 prints nothing"},
	{Key: "sheets.labels", Label: "Names of pieces", Kind: asChoice, Words: said("", "on sheet maps", "map", "on maps, said")},
	{Key: "sheets.effort", Label: "How long to search", Kind: asChoice, Words: said("quick", "briefly", "normal", "normally", "thorough", "long")},
	{Key: "sheets.seed", Label: "Start of the search", Kind: asCount, Help: "another number searches other ways"},
	{Key: "sheets.in_holes", Label: "Pieces lie in holes of others", Kind: asYes, Words: said("", "as the tool is", "true", "yes", "false", "no")},
	{Key: "sheets.cut_colour", Label: "Colour of cut lines", Kind: asColour},
	{Key: "sheets.score_colour", Label: "Colour of score lines", Kind: asColour},
	{Key: "sheets.print_colour", Label: "Colour of print marks", Kind: asColour},

	{Key: "trimmer.longest", Label: "Longest cut", Kind: asLength, Help: "left empty: any"},
	{Key: "trimmer.narrowest", Label: "Narrowest strip it holds", Kind: asLength},
	{Key: "trimmer.pile", Label: "Thickest pile it cuts", Kind: asLength, Help: "left empty: one sheet at a time"},
	{Key: "trimmer.kerf", Label: "Kerf", Kind: asLength, Help: "what a cut takes away; blades take nothing"},
	{Key: "trimmer.clean_edge", Label: "Clean edge", Kind: asLength, Help: "trimmed off each sheet first"},
	{Key: "trimmer.hand", Label: "Hand on the blade", Kind: asChoice, Words: said("right", "right", "left", "left")},

	{Key: "shop.extra", Label: "Sheets to spare", Kind: asPercent, Help: "a share, like 10 %"},
	{Key: "shop.envelope", Label: "Price of an envelope", Kind: asNumber, Help: "like 0.15 EUR"},
	{Key: "shop.adhesive", Label: "Panels are fixed with", Kind: asChoice, Words: said("tape", "tape", "foam pads", "foam pads", "none", "nothing")},
	{Key: "shop.inset", Label: "Tape lies in from the sides by", Kind: asLength},
	{Key: "shop.roll", Label: "Tape on a roll", Kind: asLength, Help: "like 800 cm"},
	{Key: "shop.roll_price", Label: "Price of a roll", Kind: asNumber},
	{Key: "shop.pad_every", Label: "A foam pad at least every", Kind: asLength},
	{Key: "shop.pack", Label: "Pads in a pack", Kind: asCount},
	{Key: "shop.pack_price", Label: "Price of a pack", Kind: asNumber},

	{Key: "papers.*.name", Label: "Name", Kind: asText},
	{Key: "papers.*.colour", Label: "Colour", Kind: asColour},
	{Key: "papers.*.drawing", Label: "Drawing", Kind: asChoice, Words: drawingWords},
	{Key: "papers.*.pattern", Label: "Pattern", Kind: asChoice, Help: "plain may be turned any way, two-way by a half, one-way not at all", Words: said("", "as drawn", "plain", "plain", "two-way", "two-way", "one-way", "one-way")},
	{Key: "papers.*.pattern_up", Label: "Up of the pattern", Kind: asChoice, Words: upWords},
	{Key: "papers.*.sheet", Label: "Sheet", Kind: asSizes, Help: "like 12 x 12 in or ISO A4; several with ; between"},
	{Key: "papers.*.measured", Label: "True size, when it differs", Kind: asSize},
	{Key: "papers.*.have", Label: "Sheets at hand", Kind: asCount},
	{Key: "papers.*.most_panels", Label: "At most this many panels", Kind: asCount},
	{Key: "papers.*.sides", Label: "Sides", Kind: asChoice, Words: said("", "one right side", "one", "one, said", "both alike", "both alike")},
	{Key: "papers.*.grain", Label: "Grain", Kind: asChoice, Words: said("", "not said", "long", "along long side", "short", "along short side")},
	{Key: "papers.*.gsm", Label: "Grams per square metre", Kind: asNumber},
	{Key: "papers.*.weight", Label: "Weight on the pack", Kind: asText, Help: "like 80 lb cover"},
	{Key: "papers.*.caliper", Label: "Caliper", Kind: asLength, Help: "how thick it is"},
	{Key: "papers.*.price", Label: "Price of a sheet", Kind: asNumbers, Help: "like 0.85 EUR; one for each size, with ; between"},
	{Key: "papers.*.edge", Label: "Edge", Kind: asLength, Help: "for this paper alone"},
	{Key: "papers.*.spacing", Label: "Spacing", Kind: asLength, Help: "for this paper alone"},
	{Key: "papers.*.bleed", Label: "Bleed", Kind: asLength, Help: "for this paper alone"},
}

func toolWords(layouts.Design) []word {
	return []word{
		{"cutter", "an electronic cutter"}, {"trimmer", "a trimmer"}, {"knife", "a knife and ruler"},
		{"cutter, trimmer", "cutter and trimmer"}, {"cutter, knife", "cutter and knife"},
		{"trimmer, knife", "trimmer and knife"}, {"cutter, trimmer, knife", "all three"},
	}
}

func cardSizes(layouts.Design) []word {
	list := []word{{"", "my own size"}}
	for _, s := range cards.Sizes() {
		if s.Use&cards.ForCard != 0 {
			list = append(list, word{s.Name, s.Name})
		}
	}
	return list
}

func paperWords(d layouts.Design) []word {
	var list []word
	for _, p := range d.Papers {
		list = append(list, word{p.Name, p.Name})
	}
	return list
}

func layoutWords(layouts.Design) []word {
	var list []word
	for _, l := range fronts.All() {
		list = append(list, word{l.Name, l.Name})
	}
	return list
}

func planWords(layouts.Design) []word {
	text := map[string]string{
		"same": "the same on every card", "in turn": "moving on one place a card",
		"each once": "each once on a card", "balanced": "every paper in every place",
		"no paper beside itself": "no paper beside itself", "whole blocks": "whole blocks",
		"by hand": "by hand, card by card",
	}
	var list []word
	for _, p := range papers.Plans() {
		w := word{p.Name, p.Name}
		if t := text[p.Name]; t != "" {
			w.Text = t
		}
		list = append(list, w)
	}
	return list
}

func drawingWords(layouts.Design) []word { return words(papers.Drawings()...)(layouts.Design{}) }

func upWords(layouts.Design) []word {
	list := []word{{"", "top of the sheet"}}
	for _, u := range papers.Ups() {
		list = append(list, word{u, u})
	}
	return list
}

// controlFor finds the control of a key as it stands in a file:
// "papers.3.name", "front.columns".
func controlFor(key string, layout fronts.Layout) (control, bool) {
	general := key
	if rest, ok := strings.CutPrefix(key, "papers."); ok {
		if _, name, ok := strings.Cut(rest, "."); ok {
			general = "papers.*." + name
		}
	}
	for _, c := range controls {
		if c.Key == general {
			c.Key = key
			return c, true
		}
	}
	if name, ok := strings.CutPrefix(key, "front."); ok {
		if o, ok := layout.Option(name); ok {
			return option(o), true
		}
	}
	return control{}, false
}

// option makes the control of a layout's own option.
func option(o fronts.Option) control {
	c := control{Key: "front." + o.Name, Label: strings.ToUpper(o.Name[:1]) + o.Name[1:], Help: plainWords.Replace(o.Help)}
	switch o.Kind {
	case fronts.Count:
		c.Kind = asCount
	case fronts.Choice:
		c.Kind, c.Words = asChoice, words(o.Words...)
	case fronts.Rows:
		c.Kind, c.Wide = asRows, true
		c.Help += "; one a line"
	case fronts.Length:
		c.Kind = asLength
	case fronts.Lengths:
		c.Kind = asLengths
		c.Help += "; with ; between"
	case fronts.Angle, fronts.Portion, fronts.Spot, fronts.File:
		c.Kind = asText
	}
	return c
}
