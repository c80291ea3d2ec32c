package page

import (
	"strings"

	"panelry/export"
)

func init() {
	templateFuncs["halves"] = func(text string) []string { return strings.Split(text, "|") }
	templateFuncs["paperKeys"] = func() []string { return paperKeys }
	templateFuncs["shopKeys"] = func() []string { return keysIn("shop.") }
	templateFuncs["sheetKeys"] = func() []string { return sheetKeys }
	templateFuncs["trimKeys"] = func() []string { return trimKeys }
}

// The keys that stand behind "More" of their place.
var (
	paperKeys = []string{"colour", "pattern_up", "sides", "sheet", "measured", "have", "most_panels", "grain", "gsm", "weight", "caliper", "price", "edge", "spacing", "bleed"}
	sheetKeys = []string{"sheets.bleed", "sheets.labels", "sheets.seed", "sheets.in_holes", "sheets.cut_colour", "sheets.score_colour", "sheets.print_colour"}
	trimKeys  = []string{"trimmer.longest", "trimmer.pile", "trimmer.kerf", "trimmer.clean_edge"}
)

// keysIn lists the controls of a table.
func keysIn(table string) []string {
	var out []string
	for _, c := range controls {
		if strings.HasPrefix(c.Key, table) {
			out = append(out, c.Key)
		}
	}
	return out
}

// A kitFile is a file of the kit with what it is for.
type kitFile struct{ Name, What string }

// KitFiles lists the files of the kit that are taken most, without making
// them; the zip holds more.
func (p *pageData) KitFiles() []kitFile {
	list := []kitFile{
		{export.TemplateFile, "The template at true size, to print and lay under"},
		{"guide.html", "How to make the card, with pictures; prints well"},
		{"picture.png", "The first card, as a picture"},
		{"picture.svg", "The same, to enlarge"},
	}
	if n := p.kit.Design.Batch.Cards; n > 1 && n <= 60 {
		list = append(list, kitFile{"batch.svg", "All cards of the batch"})
	}
	list = append(list, kitFile{"blocks.svg", "The blocks of the card, pulled apart"}, kitFile{"pieces.csv", "Every piece, for a spreadsheet"},
		kitFile{"kit.json", "The whole kit, for programs"}, kitFile{"design.toml", "The design itself; the command line reads it"})
	const most = 24
	for i, name := range export.SheetFiles(p.kit) {
		if i == most {
			break
		}
		list = append(list, kitFile{name, "A sheet for the cutter"})
	}
	return list
}
