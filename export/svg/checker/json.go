package checker

import (
	"encoding/json"
	"math"

	"panelry/export/svg/findings"
)

// The JSON of a report: interfaces.md fixes the names.
type (
	fileJSON struct {
		File     string        `json:"file"`
		OK       bool          `json:"ok"`
		Size     []float64     `json:"size_mm"` // null without a true size
		Elements []elementJSON `json:"elements"`
		Findings []findingJSON `json:"findings"`
	}
	elementJSON struct {
		Tag     string     `json:"tag"`
		ID      string     `json:"id"`
		Via     string     `json:"via"`
		Layer   string     `json:"layer"`
		Box     [4]float64 `json:"bbox_mm"`
		Closed  Closing    `json:"closed"`
		Length  float64    `json:"length_mm"`
		Area    *float64   `json:"area_mm2"`
		Visible bool       `json:"visible"`
	}
	findingJSON struct {
		Rule     string    `json:"rule"`
		Clause   string    `json:"clause"`
		Severity string    `json:"severity"`
		Message  string    `json:"message"`
		Line     int       `json:"line"`
		Column   int       `json:"column"`
		Element  string    `json:"element"`
		At       []float64 `json:"at_mm"` // box on the sheet, often a point; null without a place
	}
	ruleJSON struct {
		Rule     string `json:"rule"`
		Group    string `json:"group"`
		Severity string `json:"severity"`
		Clause   string `json:"clause"`
		Meaning  string `json:"meaning"`
		Advice   string `json:"advice"`
	}
)

// A Named is a report with the name of its file.
type Named struct {
	Name string
	Report
}

// JSON returns the reports as an array, an object a file, with a line break
// at the end.
func JSON(reports []Named) ([]byte, error) {
	files := make([]fileJSON, len(reports))
	for i, r := range reports {
		f := fileJSON{File: r.Name, OK: r.OK(), Elements: []elementJSON{}, Findings: []findingJSON{}}
		if r.Sized {
			f.Size = []float64{tidy(r.W), tidy(r.H)}
		}
		for _, e := range r.Elements {
			f.Elements = append(f.Elements, e.json())
		}
		for _, x := range r.Findings {
			j := findingJSON{x.Rule.ID, x.Rule.Clause, x.Rule.Severity.String(), x.Message, x.Line, x.Column, x.Element, nil}
			if s := x.Spot; s != nil {
				j.At = []float64{tidy(s.X), tidy(s.Y), tidy(s.W), tidy(s.H)}
			}
			f.Findings = append(f.Findings, j)
		}
		files[i] = f
	}
	return lines(files)
}

func (e Element) json() elementJSON {
	j := elementJSON{
		Tag: e.Tag, ID: e.ID, Via: e.Via, Closed: e.Closing, Length: tidy(e.Length), Visible: e.Visible,
		Box: [4]float64{tidy(e.Bounds.Min.X), tidy(e.Bounds.Min.Y), tidy(e.Bounds.W()), tidy(e.Bounds.H())},
	}
	if e.Layer != nil {
		j.Layer = e.Layer.ID
	}
	if e.HasArea {
		area := tidy(e.Area)
		j.Area = &area
	}
	return j
}

// RulesJSON returns all rules as an array.
func RulesJSON() ([]byte, error) {
	var list []ruleJSON
	for _, r := range findings.All() {
		list = append(list, ruleJSON{r.ID, r.Group, r.Severity.String(), r.Clause, r.Meaning, r.Advice})
	}
	return lines(list)
}

func lines(v any) ([]byte, error) {
	data, err := json.MarshalIndent(v, "", "  ")
	return append(data, '\n'), err
}

// tidy rounds to the nanometre, which takes off what binary fractions add.
func tidy(f float64) float64 {
	switch {
	case math.IsNaN(f):
		return 0
	case math.Abs(f) > 1e9:
		return min(max(f, -math.MaxFloat64), math.MaxFloat64)
	}
	return math.Round(f*1e6) / 1e6
}
