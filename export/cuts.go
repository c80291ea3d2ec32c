package export

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"

	"panelry/export/picture"
	"panelry/geometry/trimming"
	"panelry/layouts"
)

func init() {
	register(exporter{"cuts", cutFiles})
}

// TrimEffort is the work, in repackings, that each word of effort stands for.
var TrimEffort = map[string]int{"quick": 2000, "normal": 100_000, "thorough": 2_000_000}

// cutFiles are the straight cuts for a trimmer, where the design's tools name
// one: the steps as Markdown and as a table, and a picture of each sheet.
func cutFiles(kit layouts.Kit) ([]File, error) {
	if !slices.Contains(kit.Design.Tools, layouts.Trimmer) {
		return nil, nil
	}
	plan, err := layouts.PlanTrim(kit, TrimEffort[kit.Design.Sheets.Effort], kit.Design.Sheets.Seed)
	if err != nil {
		return nil, err
	}
	var files []File
	var text strings.Builder
	var table bytes.Buffer
	w := csv.NewWriter(&table)
	w.Write([]string{"step", "paper", "stop_mm", "cuts", "text"})
	fmt.Fprintf(&text, "# %s: straight cuts and scores\n\n%s\n", kit.Design.Title, TrimCaution)
	number := 1
	for _, p := range plan.Papers {
		fmt.Fprintf(&text, "\n## %s\n\n%s\n", p.Paper.Name, p.Summary(kit.Design.Units))
		for _, a := range trimming.Alikes(p.Plan.Trees) {
			data, err := picture.CutSheet(kit, p, a)
			if err != nil {
				return nil, err
			}
			name := fmt.Sprintf("cuts/%s-%s.svg", fileWord(p.Paper.Name), a.Name)
			files = append(files, File{name, data})
			fmt.Fprintf(&text, "\n![Sheet %s of %s](%s)\n", a.Name, p.Paper.Name, name)
		}
		text.WriteString("\n")
		for _, s := range p.Steps(kit.Design.Units, number) {
			fmt.Fprintf(&text, "%d. %s\n", s.Number, s.Text)
			w.Write([]string{fmt.Sprint(s.Number), p.Paper.Name, s.Stop.MM(), fmt.Sprint(s.Cuts), s.Text})
			number++
		}
	}
	for i, r := range plan.Refused {
		if i == 0 {
			text.WriteString("\n## Not by straight cuts\n\n")
		}
		fmt.Fprintf(&text, "- %s: %s\n", r.Kind, r.Why)
	}
	w.Flush()
	return append(files, File{"cuts.md", []byte(text.String())}, File{"cuts.csv", table.Bytes()}), w.Error()
}

// TrimCaution stands above every list of cuts.
const TrimCaution = "Keep fingers behind the guard and blades from children, and mind the trimmer's manual. Cut a trial piece on scrap first."
