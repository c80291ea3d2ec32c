package pdf

// A step is what a line means. It sets the line's look, and its optional
// content group.
type step int

// The steps, in the order in which their groups are drawn.
const (
	tint step = iota // the papers' colours, pale
	bleed
	cut
	crease
	placing
	dimensions
	names
)

// look is how a step's lines are drawn. Widths and dashes are in millimetres;
// after the habit of carton plans (trade-facts.md, from memory), cuts are
// solid and folds dashed.
type look struct {
	name  string // of the optional content group
	key   string // its words in the printed key
	group string // ISO 19593-1 group and type; none for what is no step
	typ   string
	width float64
	dash  []float64
	grey  int
}

var looks = map[step]look{
	tint:       {name: "Paper colours"},
	bleed:      {"Bleed", "bleed", "Structural", "Bleed", 0.13, []float64{0.4, 0.8}, 0},
	cut:        {"Cutting", "cut", "Structural", "Cutting", 0.35, nil, 0},
	crease:     {"Creasing", "score, then fold", "Structural", "Creasing", 0.35, []float64{3, 1.5}, 0},
	placing:    {"Placing", "place along", "", "", 0.25, []float64{4, 1, 0.4, 1}, 0},
	dimensions: {"Dimensions", "measure", "Dimensions", "", 0.13, nil, 0},
	names:      {"Legend", "", "Legend", "", 0.2, nil, 0},
}

// allSteps lists the steps in drawing order.
var allSteps = []step{tint, bleed, cut, crease, placing, dimensions, names}
