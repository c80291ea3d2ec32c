package layouts

import (
	"panelry/geometry"
	"panelry/layouts/cards"
	"panelry/layouts/fronts"
	"panelry/layouts/papers"
)

// Limits of a design. The piece limit is the nesting engine's.
const (
	MostCards  = 10_000
	MostPieces = 50_000
	MostSpares = 100
	MostPapers = 200
	// MostBytes is the largest design file that is read: room for MostPapers
	// with every key, and for a table of papers by panel of the finest front.
	MostBytes = 1 << 18
)

// A Design is a checked design file: everything is in range, every paper
// that is named exists.
type Design struct {
	Title   string
	Units   geometry.Unit   // NoUnit when the file does not say
	Ruler   geometry.Length // the smallest step she can measure
	Tools   []Tool
	Card    CardSettings
	Front   FrontSettings
	Batch   BatchSettings
	Sheets  SheetSettings
	Trimmer TrimmerSettings
	Shop    ShopSettings
	Papers  []papers.Paper
	Source  []byte // the file as it was read

	notes []Warning // what reading the file has to say
	keys  keyring
	stock *Stock // what is at hand; nil when nothing is said of it
	noNew bool   // no sheets but those of the stock
}

// A Tool is what pieces are cut with.
type Tool string

// The tools: an electronic cutter, a paper trimmer, and a knife with a ruler.
const (
	Cutter  Tool = "cutter"
	Trimmer Tool = "trimmer"
	Knife   Tool = "knife"
)

// CardSettings describe the base.
type CardSettings struct {
	Size  geometry.Size // of the closed front
	Base  cards.Base
	Paper string
}

// Orientation returns "upright" or "landscape"; a square is upright.
func (c CardSettings) Orientation() string {
	if c.Size.W > c.Size.H {
		return "landscape"
	}
	return "upright"
}

// FrontSettings describe how the front is divided.
type FrontSettings struct {
	Layout      fronts.Layout
	Margin, Gap geometry.Length
	OnRuler     bool // sizes fall on the design's ruler, where the layout can do so
	Exact       bool // the design says that sizes are to be exact, whatever cuts them
	Options     fronts.Options
	Shapes      []geometry.Outline // from the file that an option names
	Papers      []string           // by role, in turn
	ByPanel     map[string]string  // by panel name; goes before Papers
	Direction   Direction
	DirectionOf map[string]Direction // by panel name; goes before Direction
}

// BatchSettings say how many.
type BatchSettings struct {
	Cards  int
	Plan   string
	Spares int        // extra sets of panels, without bases
	ByHand []HandDeal // by card, where the plan is "by hand"
}

// A HandDeal is the papers of one card: a list in the front's order, or a
// table by panel with at most one paper for the rest.
type HandDeal struct {
	Papers  []string
	ByPanel map[string]string
}

// ShopSettings are what the shopping list goes by besides the papers.
type ShopSettings struct {
	Extra     int          // per cent of the sheets to have beyond those needed
	Envelope  papers.Price // of one
	Adhesive  string       // one of [Adhesives]
	Inset     geometry.Length
	Roll      geometry.Length // on a roll of tape; 0 when not said
	RollPrice papers.Price
	PadEvery  geometry.Length // foam pads along a side are no farther apart
	Pack      int             // pads in a pack; 0 when not said
	PackPrice papers.Price
}

// Adhesives are the words for how panels are fixed.
const (
	Tape     = "tape"
	FoamPads = "foam pads"
	NoGlue   = "none"
)

// Adhesives lists them; the first is what a design has that says nothing.
func Adhesives() []string { return []string{Tape, FoamPads, NoGlue} }

// SheetSettings say how pieces lie on sheets.
type SheetSettings struct {
	Edge, Spacing, Bleed geometry.Length
	Effort               string
	Seed                 int64
	InHoles              bool // pieces may lie in holes of others; so they do where only a cutter cuts
	Colours              LayerColours
}

// LayerColours are the colours of a sheet's layers, "#rrggbb"; "" is the
// layer's usual one.
type LayerColours struct{ Cut, Score, Print string }

// Paper returns the paper of that name, which exists.
func (d Design) Paper(name string) papers.Paper {
	for _, p := range d.Papers {
		if p.Name == name {
			return p
		}
	}
	panic("layouts: no paper " + name)
}

// paperNames lists the papers in the file's order.
func paperNames(list []papers.Paper) []string {
	names := make([]string, len(list))
	for i, p := range list {
		names[i] = p.Name
	}
	return names
}

// A Warning is worth knowing but stops nothing.
type Warning struct {
	Code  string `json:"code"` // for programs: "unused-paper"
	Text  string `json:"text"`
	Where string `json:"where"` // a key of the design, a paper, a panel
}
