package export

import (
	"bytes"
	"encoding/csv"
	"strconv"

	"panelry/layouts"
)

func init() {
	register(exporter{"pieces", piecesFile})
}

// piecesFile lists every piece of the batch in the order of the sheets
// (RFC 4180, with a header). Sizes are those of the upright box around the
// piece as it lies on its sheet.
func piecesFile(kit layouts.Kit) ([]File, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.Write([]string{"piece", "card", "panel", "kind", "paper", "sheet", "turn_deg", "turned_over",
		"left_mm", "top_mm", "width_mm", "height_mm"})
	for _, s := range kit.Sheets {
		for _, p := range s.Pieces {
			box := p.Outline.Bounds()
			w.Write([]string{p.ID, cardLabel(p), p.Panel, p.Kind, s.Paper.Name, sheetFile(kit, s),
				degrees(p.Turn), strconv.FormatBool(p.Over),
				box.Min.X.MM(), box.Min.Y.MM(), box.W().MM(), box.H().MM()})
		}
	}
	w.Flush()
	return []File{{"pieces.csv", b.Bytes()}}, w.Error()
}

// degrees writes an angle with at most six decimals, as panels' pattern
// angles have.
func degrees(d float64) string {
	text := strconv.FormatFloat(d, 'f', 6, 64)
	return trimZeros(text)
}
