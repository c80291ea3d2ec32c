package export

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"

	"panelry/export/picture"
	"panelry/layouts"
)

func init() {
	register(exporter{"cuts", cutFiles})
}

// cutFiles are the straight cuts for a trimmer, where the design's tools name
// one.
func cutFiles(kit layouts.Kit) ([]File, error) {
	if !slices.Contains(kit.Design.Tools, layouts.Trimmer) {
		return nil, nil
	}
	plan, err := layouts.PlanTrim(kit.Design)
	if err != nil {
		return nil, err
	}
	return TrimFiles(plan)
}

// TrimFiles are a plan of straight cuts as files: the steps as Markdown with a
// picture of each, as a table, and a picture of each sheet.
func TrimFiles(plan layouts.TrimPlan) ([]File, error) {
	var files []File
	var text strings.Builder
	fmt.Fprintf(&text, "# %s: straight cuts and scores\n\n%s\n\n", plan.Title, layouts.TrimCaution)
	for _, line := range plan.Head() {
		fmt.Fprintf(&text, "- %s\n", line)
	}
	text.WriteString("\n## Sheets\n\n")
	for _, lot := range plan.Lots {
		data, err := picture.TrimSheet(plan, lot)
		if err != nil {
			return nil, err
		}
		name := fmt.Sprintf("cuts/sheet-%s.svg", lot.Name)
		files = append(files, File{name, data})
		fmt.Fprintf(&text, "![Sheet %s](%s)\n\n", lot.Name, name)
	}
	text.WriteString("## Steps\n\n")
	width := max(2, len(fmt.Sprint(len(plan.Steps))))
	for _, s := range plan.Steps {
		data, err := picture.TrimStep(plan, s)
		if err != nil {
			return nil, err
		}
		name := fmt.Sprintf("cuts/step-%0*d.svg", width, s.Number)
		files = append(files, File{name, data})
		fmt.Fprintf(&text, "%d. %s\n\n   ![Step %d, before and after](%s)\n\n", s.Number, s.Text, s.Number, name)
	}
	if foot := plan.Foot(); len(foot) > 0 {
		text.WriteString("## Not by straight cuts\n\n")
		for _, line := range foot {
			fmt.Fprintf(&text, "- %s\n", line)
		}
	}
	table, err := trimTable(plan)
	return append(files, File{"cuts.md", []byte(text.String())}, File{"cuts.csv", table}), err
}

// TrimFolder is a plan as a folder of its own: [TrimFiles], the plan as JSON,
// and a kit.json that lists them.
func TrimFolder(plan layouts.TrimPlan) ([]File, error) {
	files, err := TrimFiles(plan)
	if err != nil {
		return nil, err
	}
	data, err := TrimJSON(plan)
	if err != nil {
		return nil, err
	}
	files = append(files, File{"cuts.json", data})
	return Listed(plan.Title, files)
}

// trimTable is the steps as a table.
func trimTable(plan layouts.TrimPlan) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.Write([]string{"step", "work", "part", "papers", "parts", "stop_mm", "cuts", "strokes", "text"})
	for _, s := range plan.Steps {
		var names []string
		for _, share := range s.Of {
			names = append(names, plan.Stocks[share.Stock].Name)
		}
		w.Write([]string{fmt.Sprint(s.Number), string(s.Work), s.Part, strings.Join(names, " "), fmt.Sprint(s.Parts()),
			s.Stop.MM(), fmt.Sprint(s.Cuts), fmt.Sprint(s.Strokes), s.Text})
	}
	w.Flush()
	return b.Bytes(), w.Error()
}
