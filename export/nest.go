package export

import (
	"cmp"
	"fmt"
	"slices"

	"panelry/export/svg"
	"panelry/export/svg/checker"
	"panelry/export/svg/findings"
	"panelry/geometry"
	"panelry/geometry/nesting"
)

// A Nested is outlines laid on sheets or on a roll, without a design.
type Nested struct {
	Title  string
	Units  geometry.Unit
	Job    nesting.Job
	Result nesting.Result
	Effort string
	Seed   int64
	Ended  bool // before the effort was spent

	StockNames []string // of the job's stock, as the maker calls them; none of a roll

	// Names are those of each shape's outlines, the block's behind its own.
	Names [][]string
}

// sheet is one sheet of a nested job with what lies on it.
type nestSheet struct {
	size   geometry.Size
	scrap  geometry.Outline // none for a whole sheet
	pieces []nestPiece
}

type nestPiece struct {
	name    string
	over    bool
	turn    float64
	outline geometry.Outline
}

// sheets sorts the placements by sheet; of a roll, what is used of it.
func (n Nested) sheets() []nestSheet {
	list := make([]nestSheet, len(n.Result.Layout.Sheets))
	for i, stock := range n.Result.Layout.Sheets {
		list[i].size, list[i].scrap = n.Job.Stock[stock].Size, n.Job.Stock[stock].Outline
		if n.Job.Stock[stock].Roll {
			list[i].size.W = n.Result.Length
		}
	}
	for _, p := range n.Result.Layout.Placements {
		s := &list[p.Sheet]
		for k, o := range n.Job.PlacedBlock(p) {
			name := n.Names[p.Shape][k]
			if n.Job.Shapes[p.Shape].Count > 1 {
				name = fmt.Sprintf("%s %d", name, p.Copy+1)
			}
			s.pieces = append(s.pieces, nestPiece{name, p.Over, p.Turn, o})
		}
	}
	if n.Job.InHoles {
		for _, s := range list { // what lies in a hole is smaller, and is cut before what it lies in
			slices.SortStableFunc(s.pieces, func(a, b nestPiece) int { return cmp.Compare(a.extent(), b.extent()) })
		}
	}
	return list
}

// extent is the area of the box around a piece.
func (p nestPiece) extent() float64 {
	size := p.outline.Bounds().Size()
	return size.W.In(geometry.Millimetres) * size.H.In(geometry.Millimetres)
}

// UsedPercent is the pieces' share of a sheet.
func (s nestSheet) usedPercent() float64 {
	var sum geometry.Area
	for _, p := range s.pieces {
		sum = sum.Add(p.outline.Area())
	}
	if len(s.scrap.Outer) > 0 {
		return 100 * sum.SquareMM() / s.scrap.Area().SquareMM()
	}
	return 100 * sum.SquareMM() / (s.size.W.In(geometry.Millimetres) * s.size.H.In(geometry.Millimetres))
}

// layers adds a scrap's own outline to what is cut of it, to lay it by.
func (s nestSheet) layers(cut svg.Layer) []svg.Layer {
	if len(s.scrap.Outer) == 0 {
		return []svg.Layer{cut}
	}
	return []svg.Layer{cut, {ID: svg.Print, Title: "Print: the outline of the scrap, to lay it by", Shapes: []svg.Shape{svg.ShapeFromOutline(s.scrap)}}}
}

// NestFiles are the sheets of a nested job as SVG for the cutter, nest.json,
// and a kit.json that lists them. Each sheet goes through the checker; what is
// told is what it found that keeps no sheet from being cut.
func NestFiles(n Nested) (files []File, told []string, err error) {
	all := n.sheets()
	for i, s := range all {
		layer := svg.Layer{ID: svg.Cut, Title: "Cut: right through"}
		if n.Job.Spacing == 0 {
			layer.Attributes = []svg.Attribute{{Name: "data-edges", Value: "shared"}}
			var regions []geometry.Outline
			for _, p := range s.pieces {
				regions = append(regions, p.outline)
			}
			for _, stroke := range geometry.JoinStrokes(geometry.SharedEdges(regions)) {
				layer.Shapes = append(layer.Shapes, svg.ShapeFromPath(stroke))
			}
		} else {
			for k, p := range s.pieces {
				layer.Shapes = append(layer.Shapes, svg.ShapeFromOutline(p.outline,
					svg.Attribute{Name: "id", Value: fmt.Sprintf("piece-%d", k+1)}, svg.Attribute{Name: "data-piece", Value: p.name}))
			}
		}
		data, err := svg.Encode(svg.Drawing{
			Size:   s.size,
			Title:  fmt.Sprintf("Sheet %d of %d: %s", i+1, len(all), s.size.Format(n.Units)),
			Desc:   fmt.Sprintf("%s. True size: one user unit is one millimetre.", n.Title),
			Layers: s.layers(layer),
		})
		if err != nil {
			return nil, nil, err
		}
		name := nestSheetName(i, len(all))
		more, err := n.checkSheet(data, s)
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", name, err)
		}
		if more != "" {
			told = append(told, name+": "+more)
		}
		files = append(files, File{name, data})
	}
	data, err := NestJSON(n)
	if err != nil {
		return nil, nil, err
	}
	files, err = Listed(n.Title, append(files, File{"nest.json", data}))
	return files, told, err
}

// nestSheetName names a sheet's file: "sheets/sheet-01.svg".
func nestSheetName(i, of int) string {
	return fmt.Sprintf("sheets/sheet-%0*d.svg", max(2, len(fmt.Sprint(of))), i+1)
}

// checkSheet holds a finished sheet against what it should be. Borders that are
// cut twice, as where two pieces share a curve in other pieces, and a sheet
// that is too much to compare are told only.
func (n Nested) checkSheet(data []byte, s nestSheet) (told string, err error) {
	demands := checker.Demands{
		SheetW: s.size.W.In(geometry.Millimetres), SheetH: s.size.H.In(geometry.Millimetres),
		Edge: n.Job.Edge.In(geometry.Millimetres), Spacing: n.Job.Spacing.In(geometry.Millimetres),
	}
	if slices.ContainsFunc(n.Job.Shapes, func(s nesting.Shape) bool { return len(s.Block) > 0 }) {
		demands.Spacing = 0 // a block's parts keep their own
	}
	report := checker.Check(data, demands)
	known := func(f findings.Finding) bool { return f.Rule == findings.DoubledEdge || f.Rule == findings.TooMuch }
	if at := slices.IndexFunc(report.Findings, known); at >= 0 {
		told = report.Findings[at].Message
	}
	report.Findings = slices.DeleteFunc(report.Findings, known)
	return told, cleanly(report)
}

type (
	jsonNest struct {
		Sheets      []jsonNestSheet `json:"sheets"`
		Length      mm              `json:"length_mm,omitempty"`
		Density     float64         `json:"density_percent"`
		BoundSheets int             `json:"bound_sheets,omitempty"`
		BoundLength mm              `json:"bound_length_mm,omitempty"`
		BoundKind   string          `json:"bound_kind"`
		BoundSize   *[2]mm          `json:"bound_size_mm,omitempty"` // of several sizes, the one that the bound counts
		Proved      bool            `json:"proved"`
		Offcut      [4]mm           `json:"offcut_mm"` // the largest oblong left in a corner of the last sheet
		Seed        int64           `json:"seed"`
		Effort      string          `json:"effort"`
		Ended       bool            `json:"ended,omitempty"` // before that effort was spent
	}
	jsonNestSheet struct {
		File    string          `json:"file"`
		Stock   string          `json:"stock,omitempty"` // which of those at hand
		Size    [2]mm           `json:"size_mm"`
		Edge    mm              `json:"edge_mm"`
		Spacing mm              `json:"spacing_mm"`
		Used    float64         `json:"used_percent"`
		Scrap   *jsonOutline    `json:"scrap,omitempty"`
		Pieces  []jsonNestPiece `json:"pieces"`
	}
	jsonNestPiece struct {
		ID      string      `json:"id"`
		Over    bool        `json:"turned_over,omitempty"` // before it is turned
		Turn    float64     `json:"turn_deg"`
		Outline jsonOutline `json:"outline"`
	}
)

// NestJSON writes a nested job for programs.
func NestJSON(n Nested) ([]byte, error) {
	r := n.Result
	out := jsonNest{Sheets: []jsonNestSheet{}, Length: mm(r.Length), Density: hundredths(100 * r.Density), BoundSheets: r.Bound.Sheets,
		BoundLength: mm(r.Bound.Length), BoundKind: r.Bound.Kind, Proved: r.Proved, Offcut: jsonRect(r.Offcut), Seed: n.Seed, Effort: n.Effort, Ended: n.Ended}
	if last := len(n.Job.Stock) - 1; last > 0 {
		size := jsonSize(n.Job.Stock[last].Size)
		out.BoundSize = &size
	}
	all := n.sheets()
	for i, s := range all {
		sheet := jsonNestSheet{File: nestSheetName(i, len(all)), Size: jsonSize(s.size),
			Edge: mm(n.Job.Edge), Spacing: mm(n.Job.Spacing), Used: hundredths(s.usedPercent()), Pieces: []jsonNestPiece{}}
		for _, p := range s.pieces {
			sheet.Pieces = append(sheet.Pieces, jsonNestPiece{p.name, p.over, sixDecimals(p.turn), outlineJSON(p.outline)})
		}
		if len(n.StockNames) > 0 {
			sheet.Stock = n.StockNames[r.Layout.Sheets[i]]
		}
		if len(s.scrap.Outer) > 0 {
			scrap := outlineJSON(s.scrap)
			sheet.Scrap = &scrap
		}
		out.Sheets = append(out.Sheets, sheet)
	}
	return encodeJSON(out)
}
