package export

import (
	"fmt"

	"panelry/export/svg"
	"panelry/export/svg/checker"
	"panelry/export/svg/findings"
	"panelry/geometry"
	"panelry/layouts"
)

func init() {
	register(exporter{"aids", aidFiles})
}

// aidFiles are the placing aids, each a sheet of its own.
func aidFiles(kit layouts.Kit) ([]File, error) {
	aids, _ := kit.Aids()
	files := make([]File, len(aids))
	for i, a := range aids {
		name := "aids/" + a.Name + ".svg"
		data, err := svg.Encode(aidDrawing(kit.Design, a))
		if err == nil {
			err = checkCuts(data, checker.Demands{SheetW: a.Size.W.In(geometry.Millimetres), SheetH: a.Size.H.In(geometry.Millimetres)})
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		files[i] = File{name, data}
	}
	return files, nil
}

// checkCuts puts a finished file through the same checker as any file from
// outside.
func checkCuts(data []byte, demands checker.Demands) error {
	return cleanly(checker.Check(data, demands))
}

// cleanly makes an error of the first error in a report.
func cleanly(report checker.Report) error {
	for _, f := range report.Findings {
		if f.Rule.Severity == findings.Error {
			return fmt.Errorf("the finished sheet would not cut cleanly: %s: %s (%s)", f.Element, f.Message, f.Rule.ID)
		}
	}
	return nil
}

func aidDrawing(d layouts.Design, a layouts.Aid) svg.Drawing {
	colours := d.Sheets.Colours
	print := svg.Layer{ID: svg.Print, Title: "Print: corner ticks, or score them lightly", Stroke: colours.Print}
	for i, p := range a.Prints {
		print.Shapes = append(print.Shapes, svg.ShapeFromPath(p, svg.Attribute{Name: "id", Value: fmt.Sprintf("tick-%d", i+1)}))
	}
	score := svg.Layer{ID: svg.Score, Title: "Score: fold lines, not cut through", Stroke: colours.Score}
	for _, f := range a.Folds {
		score.Shapes = append(score.Shapes, svg.ShapeFromPath(f.Line, svg.Attribute{Name: "data-fold", Value: f.Kind}))
	}
	cut := svg.Layer{ID: svg.Cut, Title: "Cut", Stroke: colours.Cut}
	for i, o := range a.Cuts {
		cut.Shapes = append(cut.Shapes, svg.ShapeFromOutline(o, svg.Attribute{Name: "id", Value: fmt.Sprintf("%s-%d", a.Name, i+1)}))
	}
	return svg.Drawing{
		Size: a.Size, Title: fmt.Sprintf("%s, %s", a.Title, a.Size.Format(d.Units)),
		Desc:   d.Title + ". True size: one user unit is one millimetre. " + a.Use,
		Layers: []svg.Layer{print, score, cut},
	}
}
