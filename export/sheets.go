package export

import (
	"fmt"
	"strings"

	"panelry/export/svg"
	"panelry/export/svg/checker"
	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/papers"
)

func init() {
	register(exporter{"sheets", sheetFiles})
}

func sheetFiles(kit layouts.Kit) ([]File, error) {
	files := make([]File, len(kit.Sheets))
	for i, s := range kit.Sheets {
		data, err := svg.Encode(sheetDrawing(kit.Design, s, len(kit.Sheets)))
		if err != nil {
			return nil, fmt.Errorf("%s: %w", sheetFile(kit, s), err)
		}
		if err := checkSheet(data, s); err != nil {
			return nil, fmt.Errorf("%s: %w", sheetFile(kit, s), err)
		}
		files[i] = File{sheetFile(kit, s), data}
	}
	return files, nil
}

// checkSheet holds a finished file against what the sheet should be.
func checkSheet(data []byte, s layouts.Sheet) error {
	return checkCuts(data, checker.Demands{
		SheetW: s.Size.W.In(geometry.Millimetres), SheetH: s.Size.H.In(geometry.Millimetres),
		Edge: s.Edge.In(geometry.Millimetres), Spacing: s.Spacing.In(geometry.Millimetres),
	})
}

// sheetFile names a sheet's file: "sheets/sheet-01-kelp.svg".
func sheetFile(kit layouts.Kit, s layouts.Sheet) string {
	return "sheets/" + sheetStem(kit, s) + ".svg"
}

func sheetStem(kit layouts.Kit, s layouts.Sheet) string {
	width := max(2, len(fmt.Sprint(len(kit.Sheets))))
	return fmt.Sprintf("sheet-%0*d-%s", width, s.Number, fileWord(s.Paper.Name))
}

// plainLetters writes letters of Latin alphabets without their marks.
var plainLetters = strings.NewReplacer(
	"à", "a", "á", "a", "â", "a", "ã", "a", "å", "a", "ä", "ae", "æ", "ae", "ç", "c",
	"è", "e", "é", "e", "ê", "e", "ë", "e", "ì", "i", "í", "i", "î", "i", "ï", "i",
	"ñ", "n", "ò", "o", "ó", "o", "ô", "o", "õ", "o", "ø", "o", "ö", "oe", "œ", "oe",
	"ß", "ss", "ù", "u", "ú", "u", "û", "u", "ü", "ue", "ý", "y", "ÿ", "y",
	"č", "c", "ć", "c", "ł", "l", "ń", "n", "ř", "r", "š", "s", "ś", "s", "ž", "z", "ź", "z", "ż", "z")

// fileWord makes a name fit for every file system: small letters, digits
// and hyphens, at most 40.
func fileWord(name string) string {
	var b strings.Builder
	for _, c := range plainLetters.Replace(strings.ToLower(name)) {
		switch {
		case c >= 'a' && c <= 'z' || c >= '0' && c <= '9':
			b.WriteRune(c)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	word := b.String()
	word = strings.Trim(word[:min(len(word), 40)], "-")
	if word == "" {
		return "paper"
	}
	return word
}

// sheetDrawing puts a sheet on its layers: what is printed first, then the
// scores, then the cuts. A layer without anything on it is left out.
func sheetDrawing(d layouts.Design, s layouts.Sheet, of int) svg.Drawing {
	size := s.Size.Format(d.Units)
	return svg.Drawing{
		Size:  s.Size,
		Title: fmt.Sprintf("Sheet %d of %d: %s, %s, %s", s.Number, of, s.Paper.Name, size, faceUp(s)),
		Desc: fmt.Sprintf("%s. True size: one user unit is one millimetre, and the sheet measures %s.",
			d.Title, size),
		Layers: []svg.Layer{
			printLayer(d, s),
			{ID: svg.Score, Title: "Score: fold lines, pressed or lightly cut, not cut through",
				Stroke: d.Sheets.Colours.Score, Shapes: scoreShapes(s)},
			cutLayer(d, s),
		},
	}
}

// faceUp says which face of the paper lies up on the cutter.
func faceUp(s layouts.Sheet) string {
	for _, p := range s.Pieces {
		if p.Panel == "base" {
			return "outside of the card up"
		}
	}
	if s.Paper.Pattern == papers.Plain && s.Paper.Drawing == papers.NoDrawing {
		return "good side up"
	}
	return "patterned side up"
}

func printLayer(d layouts.Design, s layouts.Sheet) svg.Layer {
	layer := svg.Layer{ID: svg.Print, Title: "Print: colour out to the bleed, and alignment marks", Stroke: d.Sheets.Colours.Print}
	if len(s.Scrap.Outer) > 0 {
		layer.Title = "Print: the outline of the scrap, to lay it by"
		layer.Shapes = append(layer.Shapes, svg.ShapeFromOutline(s.Scrap, svg.Attribute{Name: "id", Value: "scrap"}))
	}
	if !s.Printed() {
		return layer
	}
	for _, p := range s.Pieces {
		for _, o := range p.Print {
			shape := svg.ShapeFromOutline(o, pieceAttributes(s, p, "bleed")...)
			shape.Fill = s.Paper.Shown()
			layer.Shapes = append(layer.Shapes, shape)
		}
	}
	for i, m := range s.Marks {
		layer.Shapes = append(layer.Shapes, svg.ShapeFromPath(m, svg.Attribute{Name: "id", Value: fmt.Sprintf("mark-%d", i+1)}))
	}
	return layer
}

func scoreShapes(s layouts.Sheet) []svg.Shape {
	var shapes []svg.Shape
	for _, p := range s.Pieces {
		for _, f := range p.Folds {
			attrs := append(pieceAttributes(s, p, ""), svg.Attribute{Name: "data-fold", Value: f.Kind})
			shapes = append(shapes, svg.ShapeFromPath(f.Line, attrs...))
		}
	}
	return shapes
}

// cutLayer has an outline a piece; with spacing 0, where pieces share edges,
// each edge once.
func cutLayer(d layouts.Design, s layouts.Sheet) svg.Layer {
	layer := svg.Layer{ID: svg.Cut, Title: "Cut: right through", Stroke: d.Sheets.Colours.Cut}
	if s.Spacing == 0 {
		layer.Attributes = []svg.Attribute{{Name: "data-edges", Value: "shared"}}
		regions := make([]geometry.Outline, len(s.Pieces))
		for i, p := range s.Pieces {
			regions[i] = p.Outline
		}
		for _, stroke := range geometry.JoinStrokes(geometry.SharedEdges(regions)) {
			layer.Shapes = append(layer.Shapes, svg.ShapeFromPath(stroke, svg.Attribute{Name: "data-paper", Value: s.Paper.Name}))
		}
		return layer
	}
	for _, p := range s.Pieces {
		layer.Shapes = append(layer.Shapes, svg.ShapeFromOutline(p.Outline, pieceAttributes(s, p, "piece")...))
	}
	return layer
}

// pieceAttributes says which piece a path belongs to. Ids stay unique by
// their first word; "" gives none.
func pieceAttributes(s layouts.Sheet, p layouts.Piece, id string) []svg.Attribute {
	attrs := []svg.Attribute{
		{Name: "data-card", Value: cardLabel(p)},
		{Name: "data-panel", Value: p.Panel},
		{Name: "data-paper", Value: s.Paper.Name},
	}
	if id != "" {
		attrs = append([]svg.Attribute{{Name: "id", Value: id + "-" + p.ID}}, attrs...)
	}
	return attrs
}

// cardLabel returns the part of a piece's name that stands for the card:
// "07", or "S1" for a spare.
func cardLabel(p layouts.Piece) string {
	return strings.TrimSuffix(p.ID, "-"+p.Panel)
}

// SheetFiles lists the names of a kit's sheets, without making them.
func SheetFiles(kit layouts.Kit) []string {
	names := make([]string, len(kit.Sheets))
	for i, s := range kit.Sheets {
		names[i] = sheetFile(kit, s)
	}
	return names
}
