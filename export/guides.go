package export

import (
	"slices"

	"panelry/export/guide"
	"panelry/layouts"
)

func init() {
	register(exporter{"guide", func(kit layouts.Kit) ([]File, error) { return GuideFiles(kit, false) }})
}

// GuideFiles are a kit's making guide: guide.html with everything in it, and
// guide.md with its pictures beside it.
func GuideFiles(kit layouts.Kit, teacher bool) ([]File, error) {
	facts := guide.Facts{Kit: kit, Teacher: teacher}
	for _, s := range kit.Sheets {
		facts.Sheets = append(facts.Sheets, guide.SheetFile{Name: sheetFile(kit, s), Face: faceUp(s), Sheet: s})
	}
	if slices.Contains(kit.Design.Tools, layouts.Trimmer) {
		plan, err := layouts.PlanTrim(kit.Design)
		if err != nil {
			return nil, err
		}
		facts.Trim = &plan
		if teacher {
			other := kit.Design
			other.Trimmer.LeftHanded = !other.Trimmer.LeftHanded
			left, err := layouts.PlanTrim(other)
			if err != nil {
				return nil, err
			}
			facts.OtherHand = &left
		}
	}
	doc, err := guide.Write(facts)
	if err != nil {
		return nil, err
	}
	page, err := guide.HTML(doc)
	if err != nil {
		return nil, err
	}
	text, pictures := guide.Markdown(doc)
	files := []File{{"guide.html", page}, {"guide.md", text}}
	for _, p := range pictures {
		files = append(files, File{p.Name, p.SVG})
	}
	return files, nil
}
