package export

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"math"
	"strings"

	"panelry/export/svg"
	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/cards"
	"panelry/layouts/fronts"
	"panelry/layouts/papers"
)

// KitFile is the name of the file that describes a kit, and that tells a
// kit folder from any other.
const KitFile = "kit.json"

// Format is the version of kit.json's shape. Keys may be added in one
// version; a key never changes its meaning.
const Format = 1

// mm is a length in JSON: an exact number of millimetres.
type mm geometry.Length

func (l mm) MarshalJSON() ([]byte, error) {
	return geometry.Length(l).AppendMM(nil), nil
}

type pointMM [2]mm

func jsonPoint(p geometry.Point) pointMM { return pointMM{mm(p.X), mm(p.Y)} }

func jsonSize(s geometry.Size) [2]mm { return [2]mm{mm(s.W), mm(s.H)} }

func jsonRect(r geometry.Rect) [4]mm { return [4]mm{mm(r.Min.X), mm(r.Min.Y), mm(r.W()), mm(r.H())} }

// jsonOutline is an outline in JSON: interfaces, JSON.
type jsonOutline struct {
	Rings [][]pointMM `json:"rings_mm"`
	Path  string      `json:"path"`
}

// ringTolerance is how far rings_mm may be from a curve.
const ringTolerance = 10 * geometry.Micrometre

func outlineJSON(o geometry.Outline) jsonOutline {
	out := jsonOutline{Path: svg.PathData(o.Rings()...)}
	for _, r := range o.Rings() {
		points := r.Flatten(ringTolerance)
		ring := make([]pointMM, len(points))
		for i, p := range points {
			ring[i] = jsonPoint(p)
		}
		out.Rings = append(out.Rings, ring)
	}
	return out
}

type jsonKit struct {
	Format   int               `json:"format"`
	Title    string            `json:"title"`
	Units    string            `json:"units"`
	Card     jsonCard          `json:"card"`
	Front    jsonFront         `json:"front"`
	Panels   []jsonPanel       `json:"panels"`
	Kinds    []jsonKind        `json:"kinds"`
	Papers   []jsonPaper       `json:"papers"`
	Sheets   []jsonSheet       `json:"sheets"`
	Totals   layouts.Totals    `json:"totals"`
	Warnings []layouts.Warning `json:"warnings"`
	Files    []jsonFile        `json:"files"`
}

// jsonCard: size is the closed front's, outline the base laid flat, outside
// up, and front_mm is where the front lies on it.
type jsonCard struct {
	Size        [2]mm       `json:"size_mm"`
	Orientation string      `json:"orientation"`
	Base        string      `json:"base"`
	Paper       string      `json:"paper"`
	Outline     jsonOutline `json:"outline"`
	Front       [4]mm       `json:"front_mm"`
	Folds       []jsonFold  `json:"folds"`
}

type jsonFold struct {
	From pointMM `json:"from_mm"`
	To   pointMM `json:"to_mm"`
	Kind string  `json:"kind"`
}

type jsonFront struct {
	Layout string   `json:"layout"`
	Frame  [4]mm    `json:"frame_mm"`
	Margin mm       `json:"margin_mm"`
	Gap    mm       `json:"gap_mm"`
	Sums   jsonSums `json:"sums"`

	Rounded []jsonRounding `json:"rounded,omitempty"` // where sizes fall on the ruler
}

// jsonRounding is a gap that came out otherwise than asked.
type jsonRounding struct {
	What  string `json:"what"`
	Asked mm     `json:"asked_mm"`
	Now   mm     `json:"now_mm"`
	Piece [2]mm  `json:"piece_mm"` // a side of 0 is not bound
}

// jsonSums are millimetres: margin, panel, gap, panel ... margin.
type jsonSums struct {
	Across []mm `json:"across"`
	Down   []mm `json:"down"`
}

type jsonPanel struct {
	Name    string      `json:"name"`
	Kind    string      `json:"kind"`
	Paper   string      `json:"paper"`
	Role    int         `json:"role"`
	Outline jsonOutline `json:"outline"`
	Area    float64     `json:"area_mm2"`
	Pattern float64     `json:"pattern_deg"`
	Hand    string      `json:"hand"`
}

type jsonKind struct {
	ID      string      `json:"id"`
	Paper   string      `json:"paper"`
	Count   int         `json:"count"`
	Places  []string    `json:"places"`
	Tools   []string    `json:"tools"`
	Angles  []int       `json:"angles_deg"`
	Outline jsonOutline `json:"outline"`
}

type jsonPaper struct {
	Name        string  `json:"name"`
	Sheet       [2]mm   `json:"sheet_mm"`
	Have        *int    `json:"have"`
	Sheets      int     `json:"sheets"`
	Pieces      int     `json:"pieces"`
	UsedPercent float64 `json:"used_percent"`
	GSM         float64 `json:"gsm,omitempty"`
	Caliper     mm      `json:"caliper_mm,omitempty"`
	Grain       string  `json:"grain,omitempty"`
	Price       string  `json:"price,omitempty"`
}

type jsonSheet struct {
	File        string      `json:"file"`
	Paper       string      `json:"paper"`
	Size        [2]mm       `json:"size_mm"`
	Edge        mm          `json:"edge_mm"`
	Spacing     mm          `json:"spacing_mm"`
	UsedPercent float64     `json:"used_percent"`
	Pieces      []jsonPiece `json:"pieces"`
}

type jsonPiece struct {
	ID      string      `json:"id"`
	Card    string      `json:"card"`
	Panel   string      `json:"panel"`
	Kind    string      `json:"kind"`
	Turn    float64     `json:"turn_deg"`
	Over    bool        `json:"turned_over,omitempty"`
	Outline jsonOutline `json:"outline"`
	Folds   []jsonFold  `json:"folds,omitempty"`
}

type jsonFile struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
}

// KitJSON returns what kit.json says of a kit, without the list of files:
// what `show --json` prints.
func KitJSON(kit layouts.Kit) ([]byte, error) { return kitJSON(kit, nil) }

func kitJSON(kit layouts.Kit, files []File) ([]byte, error) {
	out := jsonKit{
		Format: Format, Title: kit.Design.Title, Units: kit.Design.Units.String(),
		Card: cardJSON(kit), Front: frontJSON(kit),
		Totals: kit.Totals, Warnings: append([]layouts.Warning{}, kit.Warnings...), Files: []jsonFile{},
	}
	out.Totals.UsedPercent = hundredths(out.Totals.UsedPercent)
	for _, p := range kit.Card.Panels {
		out.Panels = append(out.Panels, jsonPanel{p.Name, p.Kind, p.Paper, p.Role, outlineJSON(p.Outline),
			sixDecimals(p.Outline.Area().SquareMM()), sixDecimals(p.PatternDegrees), p.Hand})
	}
	for _, k := range kit.Kinds {
		// A kind lies nowhere: its origin is the top left of its own box.
		atOrigin := k.Outline.Moved(geometry.Point{}.Sub(k.Outline.Bounds().Min))
		out.Kinds = append(out.Kinds, jsonKind{k.ID, k.Paper, k.Count, append([]string{}, k.Places...),
			toolNames(k.Tools), append([]int{}, layouts.CornerAngles(k.Outline)...), outlineJSON(atOrigin)})
	}
	for _, u := range kit.Stock {
		p := u.Paper
		out.Papers = append(out.Papers, jsonPaper{p.Name, jsonSize(p.Sheet), p.Have, u.Sheets, u.Pieces,
			hundredths(u.UsedPercent), p.GSM, mm(p.Caliper), p.Grain, priceText(p)})
	}
	for _, s := range kit.Sheets {
		out.Sheets = append(out.Sheets, sheetJSON(kit, s))
	}
	out.Files = filesJSON(files)
	return encodeJSON(out)
}

// filesJSON lists files with their sums.
func filesJSON(files []File) []jsonFile {
	list := []jsonFile{}
	for _, f := range files {
		sum := sha256.Sum256(f.Data)
		list = append(list, jsonFile{f.Name, hex.EncodeToString(sum[:])})
	}
	return list
}

// encodeJSON writes a value as JSON in readable lines.
func encodeJSON(v any) ([]byte, error) {
	compact := new(bytes.Buffer)
	encoder := json.NewEncoder(compact)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(v); err != nil {
		return nil, err
	}
	return breakLines(compact.Bytes()), nil
}

// priceText writes a paper's price; "" where it has none.
func priceText(p papers.Paper) string {
	if p.Price == nil {
		return ""
	}
	return p.Price.String()
}

func toolNames(tools []layouts.Tool) []string {
	names := make([]string, len(tools))
	for i, t := range tools {
		names[i] = string(t)
	}
	return names
}

func cardJSON(kit layouts.Kit) jsonCard {
	c := kit.Card
	return jsonCard{
		Size: jsonSize(c.Size), Orientation: kit.Design.Card.Orientation(),
		Base: string(kit.Design.Card.Base), Paper: kit.Design.Card.Paper,
		Outline: outlineJSON(c.Base.Outline), Front: jsonRect(c.Base.Front), Folds: foldsJSON(c.Base.Folds),
	}
}

func foldsJSON(folds []cards.Fold) []jsonFold {
	out := []jsonFold{}
	for _, f := range folds {
		points := f.Line.Points()
		out = append(out, jsonFold{jsonPoint(points[0]), jsonPoint(points[len(points)-1]), f.Kind})
	}
	return out
}

func frontJSON(kit layouts.Kit) jsonFront {
	front := kit.Design.Front
	across, down := kit.Card.Sums()
	var rounded []jsonRounding
	for _, r := range kit.Card.Front.Rounded {
		rounded = append(rounded, jsonRounding{r.What, mm(r.Asked), mm(r.Now), [2]mm{mm(r.Piece.W), mm(r.Piece.H)}})
	}
	return jsonFront{
		Layout: front.Layout.Name, Frame: jsonRect(kit.Card.Frame),
		Margin: mm(front.Margin), Gap: mm(front.Gap),
		Sums: jsonSums{termsJSON(across), termsJSON(down)}, Rounded: rounded,
	}
}

func termsJSON(terms []fronts.Term) []mm {
	out := make([]mm, len(terms))
	for i, t := range terms {
		out[i] = mm(t.Length)
	}
	return out
}

func sheetJSON(kit layouts.Kit, s layouts.Sheet) jsonSheet {
	out := jsonSheet{
		File: sheetFile(kit, s), Paper: s.Paper.Name, Size: jsonSize(s.Size),
		Edge: mm(s.Edge), Spacing: mm(s.Spacing), UsedPercent: hundredths(s.UsedPercent()),
	}
	for _, p := range s.Pieces {
		piece := jsonPiece{p.ID, cardLabel(p), p.Panel, p.Kind, sixDecimals(p.Turn), p.Over, outlineJSON(p.Outline), nil}
		if len(p.Folds) > 0 {
			piece.Folds = foldsJSON(p.Folds)
		}
		out.Pieces = append(out.Pieces, piece)
	}
	return out
}

func hundredths(x float64) float64 { return math.Round(x*100) / 100 }

func sixDecimals(x float64) float64 { return math.Round(x*1e6) / 1e6 }

// trimZeros drops the zeros that end a decimal.
func trimZeros(text string) string {
	if !strings.Contains(text, ".") {
		return text
	}
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}
