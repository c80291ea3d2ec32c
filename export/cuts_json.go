package export

import (
	"panelry/geometry"
	"panelry/geometry/trimming"
	"panelry/layouts"
)

type (
	jsonTrim struct {
		Sheets   []jsonTrimSheet   `json:"sheets"`
		Blocks   []jsonTrimBlock   `json:"blocks"`
		Pieces   []jsonTrimPiece   `json:"pieces"`
		Steps    []jsonTrimStep    `json:"steps"`
		Settings int               `json:"settings"`
		Strokes  int               `json:"strokes"`
		Stocks   []jsonTrimStock   `json:"stocks"`
		Refused  []jsonTrimRefused `json:"refused"`
		Notes    []string          `json:"notes"`
		Proved   bool              `json:"proved"`
	}
	jsonTrimSheet struct {
		Name  string       `json:"name"`
		Stock string       `json:"stock"`
		Size  [2]mm        `json:"size_mm"`
		Count int          `json:"count"`
		Tree  jsonTrimNode `json:"tree"`
	}
	jsonTrimNode struct {
		X      mm             `json:"x_mm"`
		Y      mm             `json:"y_mm"`
		W      mm             `json:"w_mm"`
		H      mm             `json:"h_mm"`
		Cut    *jsonTrimCut   `json:"cut,omitempty"`
		Parts  []jsonTrimNode `json:"parts,omitempty"`
		Piece  string         `json:"piece,omitempty"` // a kind, or the name of a block
		Turned bool           `json:"turned,omitempty"`
		Offcut bool           `json:"offcut,omitempty"`
	}
	jsonTrimCut struct {
		Axis string `json:"axis"`
		At   mm     `json:"at_mm"`
	}
	// jsonTrimBlock is what blocks of one name become by slanted cuts.
	jsonTrimBlock struct {
		Name   string          `json:"name"`
		Slants []jsonTrimSlant `json:"slants"`
	}
	jsonTrimSlant struct {
		Step int     `json:"step"`
		From pointMM `json:"from_mm"`
		To   pointMM `json:"to_mm"`
	}
	jsonTrimPiece struct {
		Stock  string `json:"stock"`
		Kind   string `json:"kind"`
		Count  int    `json:"count"`
		Over   int    `json:"over"`
		Angles []int  `json:"angles_deg,omitempty"`
	}
	jsonTrimShare struct {
		Stock string `json:"stock"`
		Count int    `json:"count"`
	}
	// jsonTrimFall is what comes off, or is left: a part by its name, or a kind
	// of each stock, or an offcut.
	jsonTrimFall struct {
		Name   string   `json:"name,omitempty"`
		Kinds  []string `json:"kinds,omitempty"`
		Offcut bool     `json:"offcut,omitempty"`
		Count  int      `json:"count"`
		Size   [2]mm    `json:"size_mm"`
	}
	jsonTrimStep struct {
		Number  int             `json:"number"`
		Text    string          `json:"text"`
		Work    string          `json:"work"`
		Part    string          `json:"part"`
		Parts   int             `json:"parts"`
		Of      []jsonTrimShare `json:"of"`
		Upright bool            `json:"upright"`
		Stop    mm              `json:"stop_mm"`
		Cuts    int             `json:"cuts"` // of each part
		Strokes int             `json:"strokes"`
		Falls   []jsonTrimFall  `json:"falls"`
		Rest    *jsonTrimFall   `json:"rest,omitempty"`
	}
	jsonTrimStock struct {
		Stock       string `json:"stock"`
		Size        [2]mm  `json:"size_mm"`
		Sheets      int    `json:"sheets"`
		Bound       int    `json:"bound_sheets"`
		BoundKind   string `json:"bound_kind"`
		Proved      bool   `json:"proved"`
		Fewest      bool   `json:"fewest_proved"`
		Cuts        int    `json:"straight_cuts"`
		Blocks      int    `json:"blocks"`
		Offcuts     int    `json:"offcuts"`
		Length      mm     `json:"length_mm,omitempty"` // used of a roll
		BoundLength mm     `json:"bound_length_mm,omitempty"`
	}
	jsonTrimRefused struct {
		Kind  string `json:"kind"`
		Count int    `json:"count"`
		Why   string `json:"why"`
	}
)

// TrimJSON writes a plan of straight cuts for programs, all lengths in mm.
func TrimJSON(plan layouts.TrimPlan) ([]byte, error) {
	out := jsonTrim{
		Sheets: []jsonTrimSheet{}, Blocks: []jsonTrimBlock{}, Pieces: []jsonTrimPiece{}, Steps: []jsonTrimStep{}, Stocks: []jsonTrimStock{},
		Refused: []jsonTrimRefused{}, Notes: append([]string{}, plan.Notes...), Settings: plan.Settings(), Strokes: plan.Strokes(), Proved: true,
	}
	for _, s := range plan.Stocks {
		out.Proved = out.Proved && s.Proved
		out.Stocks = append(out.Stocks, jsonTrimStock{s.Name, jsonSize(s.Sheet), s.Sheets, s.Bound, s.BoundName, s.Proved, s.Fewest, s.Cuts, s.Blocks, s.Offcuts, 0, 0})
		if last := &out.Stocks[len(out.Stocks)-1]; s.Roll {
			last.Length, last.BoundLength = mm(s.Sheet.H), mm(s.BoundLength)
		}
		for _, g := range s.Gives {
			out.Pieces = append(out.Pieces, jsonTrimPiece{s.Name, g.Kind, g.Count, g.Over, g.Angles})
		}
	}
	for _, lot := range plan.Lots {
		for _, share := range lot.Of {
			stock := plan.Stocks[share.Stock]
			out.Sheets = append(out.Sheets, jsonTrimSheet{lot.Name, stock.Name, jsonSize(lot.Sheet.Size), share.Count, trimRoot(plan, lot, share.Stock)})
		}
	}
	blocks := map[string]int{}
	for _, s := range plan.Steps {
		out.Steps = append(out.Steps, stepJSON(plan, s))
		if s.Work != trimming.Slant && s.Work != trimming.SlantStrips {
			continue
		}
		i, ok := blocks[s.Part]
		if !ok {
			i = len(out.Blocks)
			blocks[s.Part] = i
			out.Blocks = append(out.Blocks, jsonTrimBlock{Name: s.Part})
		}
		for _, blade := range s.Show(plan.Trimmer.Kerf).Blades {
			out.Blocks[i].Slants = append(out.Blocks[i].Slants, jsonTrimSlant{s.Number, jsonPoint(blade.A), jsonPoint(blade.B)})
		}
	}
	for _, r := range plan.Refused {
		out.Refused = append(out.Refused, jsonTrimRefused{r.Kind, r.Count, r.Why})
	}
	return encodeJSON(out)
}

func stepJSON(plan layouts.TrimPlan, s layouts.TrimStep) jsonTrimStep {
	out := jsonTrimStep{Number: s.Number, Text: s.Text, Work: string(s.Work), Part: s.Part, Parts: s.Parts(), Upright: s.Upright,
		Stop: mm(s.Stop), Cuts: s.Cuts, Strokes: s.Strokes, Falls: []jsonTrimFall{}}
	for _, share := range s.Of {
		out.Of = append(out.Of, jsonTrimShare{plan.Stocks[share.Stock].Name, share.Count})
	}
	for _, f := range s.Falls {
		out.Falls = append(out.Falls, fallJSON(plan, s, f))
	}
	if s.Rest.Count > 0 {
		rest := fallJSON(plan, s, s.Rest)
		out.Rest = &rest
	}
	return out
}

func fallJSON(plan layouts.TrimPlan, s layouts.TrimStep, f trimming.Fall) jsonTrimFall {
	out := jsonTrimFall{Name: f.Name, Offcut: f.Offcut(), Count: f.Count, Size: jsonSize(f.Shape.Bounds().Size())}
	if f.Piece >= 0 {
		for _, share := range s.Of {
			out.Kinds = append(out.Kinds, plan.Stocks[share.Stock].Give(f.Piece).Kind)
		}
	}
	return out
}

// trimRoot is the tree of a lot's sheet, the clean edge first.
func trimRoot(plan layouts.TrimPlan, lot trimming.Lot, stock int) jsonTrimNode {
	clean := lot.Sheet.Clean
	move := geometry.Vector{}
	if clean.At == 0 {
		return trimNode(plan, lot.Sheet.Tree, stock, move)
	}
	whole := geometry.RectFromSize(geometry.Point{}, lot.Sheet.Size)
	strip := whole
	if clean.Upright {
		strip.Max.X, move.X = clean.At, clean.At+plan.Trimmer.Kerf
	} else {
		strip.Max.Y, move.Y = clean.At, clean.At+plan.Trimmer.Kerf
	}
	n := boxNode(whole)
	n.Cut = cutOf(clean)
	waste := boxNode(strip)
	waste.Offcut = true
	n.Parts = []jsonTrimNode{waste, trimNode(plan, lot.Sheet.Tree, stock, move)}
	return n
}

func boxNode(r geometry.Rect) jsonTrimNode {
	return jsonTrimNode{X: mm(r.Min.X), Y: mm(r.Min.Y), W: mm(r.W()), H: mm(r.H())}
}

func cutOf(c trimming.Cut) *jsonTrimCut {
	if c.Upright {
		return &jsonTrimCut{"x", mm(c.At)}
	}
	return &jsonTrimCut{"y", mm(c.At)}
}

func trimNode(plan layouts.TrimPlan, p *trimming.Part, stock int, move geometry.Vector) jsonTrimNode {
	n := boxNode(p.Box.Moved(move))
	switch {
	case p.Cut != nil:
		n.Cut = cutOf(*p.Cut)
		n.Parts = []jsonTrimNode{trimNode(plan, p.Parts[0], stock, move), trimNode(plan, p.Parts[1], stock, move)}
	case p.Piece >= 0:
		n.Turned = p.Turned
		block := plan.Blocks[p.Piece]
		if n.Piece = block.Name; n.Piece == "" {
			n.Piece = plan.Stocks[stock].Give(block.Piece).Kind
		}
	default:
		n.Offcut = true
	}
	return n
}
