package fronts

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"

	"panelry/geometry"
)

// The random mosaic: irregular straight-edged pieces without dents, made by
// splitting the largest piece again and again along a random line. The same
// seed gives the same mosaic, on every machine: the numbers come from PCG,
// whose sequence Go's math/rand/v2 keeps. Pieces are numbered in reading
// order.
//
//	+----\-----+
//	|     \    |
//	+---_  \  /|
//	|   |¯--\/ |
//	|  /    |  |
//	+-/-----+--+
func init() {
	Register(Layout{
		Name:    "random mosaic",
		Summary: "irregular pieces, another set for each seed",
		Roles:   "as neighbours come, four in turn",
		Options: []Option{
			{Name: "pieces", Kind: Count, Default: 12, Least: 2, Most: 2000, Help: "how many pieces there are at most"},
			{Name: "seed", Kind: Count, Default: 1, Most: math.MaxInt32, Help: "which mosaic: any whole number"},
			{Name: "least", Kind: Length, Help: "how broad a piece is at least; left out: 1/2 in where the card allows"},
		},
		Divide: divideMosaic,
	})
}

func divideMosaic(b Brief) (Front, error) {
	pieces := b.Options.Count("pieces")
	least := b.Options.Length("least")
	if least == 0 {
		// Half of what the side of a piece would be if all were squares.
		side := math.Sqrt(float64(b.Frame.W()) / float64(pieces) * float64(b.Frame.H()))
		least = min(geometry.Inch/2, max(LeastPanel, geometry.Length(side/2)-b.Gap))
	}
	random := rand.New(rand.NewPCG(uint64(b.Options.Count("seed")), 0x70616e656c)) // the second word is fixed and means nothing
	root := &Node{Outline: b.Frame.Outline()}
	queue := []*Node{root} // smallest first
	for made := 1; made < pieces && len(queue) > 0; {
		n := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		if !splitAtRandom(b, n, least, random) {
			continue // this one stays whole
		}
		made++
		for _, part := range n.Parts {
			at, _ := slices.BinarySearchFunc(queue, part, func(m, p *Node) int { return m.Outline.Area().Cmp(p.Outline.Area()) })
			queue = slices.Insert(queue, at, part)
		}
	}
	if root.Cut == nil {
		return Front{}, &TooSmallError{Panel: "1", Unit: b.Unit, Try: fmt.Sprintf("a piece is at least %s broad; use a smaller gap, margin or least", least.Format(b.Unit))}
	}
	leaves := root.Leaves()
	sortByReading(leaves)
	roles := mosaicRoles(b, leaves)
	front := Front{Tree: root, Across: terms([]geometry.Length{b.Frame.W()}, 0), Down: terms([]geometry.Length{b.Frame.H()}, 0)}
	var err error
	front.Panels, err = panels(b, leaves, "use fewer pieces", func(i int, _ *Node) Panel {
		return Panel{Name: strconv.Itoa(i + 1), Role: roles[i]}
	})
	return front, err
}

// splitAtRandom splits a piece through two points on its border, roughly
// across its longer way, so that both parts are broad enough; it reports
// whether it found such a line.
func splitAtRandom(b Brief, n *Node, least geometry.Length, random *rand.Rand) bool {
	box := n.Outline.Bounds()
	centre := n.Outline.Centre()
	lean := 0.0 // the line's direction from upright
	if box.H() > box.W() {
		lean = 90
	}
	for range 24 {
		degrees := lean + (random.Float64()-0.5)*70
		shift := geometry.Vector{
			X: geometry.Length((random.Float64() - 0.5) * 0.4 * float64(box.W())),
			Y: geometry.Length((random.Float64() - 0.5) * 0.4 * float64(box.H())),
		}
		from, to, ok := borderPoints(n.Outline, centre.Add(shift), direction(degrees))
		if !ok {
			continue
		}
		cut := Cut{geometry.Line{A: from, B: to}, b.Gap}
		parts := geometry.SplitAll([]geometry.Outline{n.Outline}, cut.Line, cut.Gap)
		if len(parts) == 2 && broadEnough(parts[0], least) && broadEnough(parts[1], least) {
			n.Split(cut)
			return true
		}
	}
	return false
}

// broadEnough reports whether a piece is broad enough and not all tip.
func broadEnough(o geometry.Outline, least geometry.Length) bool {
	return o.Breadth() >= least && slices.Min(o.Angles()) >= 30 // trade-facts section 5: sharper tips want care by hand
}

// borderPoints returns where a line through p meets a piece without dents.
func borderPoints(o geometry.Outline, p geometry.Point, d geometry.Vector) (from, to geometry.Point, ok bool) {
	if !o.InteriorContains(p) {
		return from, to, false
	}
	halves, _ := o.Split(geometry.Line{A: p, B: p.Add(d)}, 0)
	if len(halves) != 1 {
		return from, to, false
	}
	// Its two corners nearest to the line lie on it.
	points := halves[0].Outer.Points()
	slices.SortFunc(points, func(q, r geometry.Point) int {
		return int(math.Copysign(1, math.Abs(across(p, d, q))-math.Abs(across(p, d, r))))
	})
	return points[0], points[1], points[0] != points[1]
}

// mosaicRoles gives each piece the lowest role that no neighbour before it
// has: four suffice for most, and never are two alike side by side.
func mosaicRoles(b Brief, leaves []*Node) []int {
	roles := make([]int, len(leaves))
	reach := b.Gap + geometry.Micrometre
	boxes := make([]geometry.Rect, len(leaves))
	for i, leaf := range leaves {
		boxes[i] = leaf.Outline.Bounds()
		used := map[int]bool{}
		for j := range i {
			if boxesMeet(boxes[i], boxes[j], reach) && !geometry.Apart(leaf.Outline, leaves[j].Outline, reach) {
				used[roles[j]] = true
			}
		}
		for used[roles[i]] {
			roles[i]++
		}
	}
	return roles
}

func boxesMeet(r, s geometry.Rect, reach geometry.Length) bool {
	return r.Min.X < s.Max.X+reach && s.Min.X < r.Max.X+reach && r.Min.Y < s.Max.Y+reach && s.Min.Y < r.Max.Y+reach
}
