package page

import (
	"slices"
	"strings"

	"panelry/export"
	"panelry/layouts"
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
	if p.All != nil {
		return p.All
	}
	names := []string{export.TemplateFile, "guide.html", "picture.png", "picture.svg"}
	if n := p.kit.Design.Batch.Cards; n > 1 && n <= 60 {
		names = append(names, "batch.svg")
	}
	names = append(names, "blocks.svg", "kits.md", "pieces.csv", export.KitFile, "design.toml")
	if slices.Contains(p.design.Tools, layouts.Trimmer) {
		names = append(names, "cuts.md")
	}
	var list []kitFile
	for _, name := range names {
		list = append(list, kitFile{name, purpose(name)})
	}
	const most = 24
	for i, name := range export.SheetFiles(p.kit) {
		if i == most {
			break
		}
		list = append(list, kitFile{name, purpose(name)})
	}
	return list
}

// purposes say what files are for, by how their names begin.
var purposes = [][2]string{
	{"sheets/", "A sheet for the cutter"},
	{"maps/", "The same sheet as a picture, with the name of each piece"},
	{"aids/", "To place panels by"},
	{"guide/", "A picture of the guide"},
	{"cuts/", "A picture of straight cuts"},
	{export.TemplateFile, "The template at true size, to print and lay under"},
	{"guide.html", "How to make the card, with pictures; prints well"},
	{"guide.md", "The same as text"},
	{"picture.png", "The first card, as a picture"},
	{"picture.svg", "The same, to enlarge"},
	{"batch.svg", "All cards of the batch"},
	{"blocks.svg", "The blocks of the card, pulled apart"},
	{"kits.md", "What goes into the bag of each card"},
	{"cuts.", "The same pieces by straight cuts"},
	{"pieces.csv", "Every piece, for a spreadsheet"},
	{export.KitFile, "The whole kit, for programs"},
	{"design.toml", "The design itself; the command line reads it"},
}

func purpose(name string) string {
	for _, p := range purposes {
		if strings.HasPrefix(name, p[0]) {
			return p[1]
		}
	}
	return ""
}

// allFiles lists the files of a whole kit.
func allFiles(made []export.File) []kitFile {
	list := make([]kitFile, len(made))
	for i, f := range made {
		list[i] = kitFile{f.Name, purpose(f.Name)}
	}
	return list
}
