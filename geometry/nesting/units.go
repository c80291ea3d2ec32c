package nesting

import (
	"math"

	"panelry/geometry"
)

// A unit is what the rows are made of: one piece, or two right triangles
// joined into an oblong, in an upright box with its top left at the origin.
type unit struct {
	box     geometry.Size
	members []member
	count   int
}

// member is one piece of a unit.
type member struct {
	shape int
	turn  float64
	move  geometry.Vector
}

// stance is a shape turned so as to take little room.
type stance struct {
	shape  int
	turn   float64
	box    geometry.Rect // of the turned outline
	corner int           // where a right triangle's right angle stands: 0 top left, then clockwise; -1 for other shapes
}

// candidateTurns returns the angles worth trying: all of a list; for free
// turns those that lay some side level or upright.
func candidateTurns(s Shape) []float64 {
	turns := append([]float64{0}, s.Turns.degrees...)
	if !s.Turns.free {
		return turns
	}
	points := s.Outline.Outer.Flatten(geometry.Millimetre / 10)
	const most = 64 // sides tried; a flattened curve has many alike
	step := 1 + len(points)/most
	for i := 0; i < len(points); i += step {
		side := points[(i+1)%len(points)].Sub(points[i])
		level := -math.Atan2(float64(side.Y), float64(side.X)) * 180 / math.Pi
		turns = append(turns, geometry.NormalDegrees(level), geometry.NormalDegrees(level+90))
	}
	return turns
}

// bestStance returns the allowed turn whose box is smallest; a right
// triangle stands on a leg, and the earlier angle wins a tie.
func bestStance(shape int, s Shape) stance {
	var best stance
	bestArea := math.Inf(1)
	for _, turn := range candidateTurns(s) {
		turned := s.Outline.Turned(turn)
		box := turned.Bounds()
		corner := rightCorner(turned, box)
		area := float64(box.W()) * float64(box.H())
		if corner >= 0 {
			area *= 1 - 1e-6 // on its hypotenuse a right triangle's box has the same area
		}
		if area < bestArea*(1-1e-9) {
			best, bestArea = stance{shape, turn, box, corner}, area
		}
	}
	return best
}

// boxCorners returns the corners from the top left, clockwise.
func boxCorners(r geometry.Rect) [4]geometry.Point {
	return [4]geometry.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}

// cornerTolerance is how far a turned and rounded corner can be from where
// it should be: 1 nm each way for itself and for the box.
const cornerTolerance = 2 * geometry.Nanometre

// rightCorner returns which corner of its box a right triangle with level
// and upright legs has its right angle in, and -1 for anything else.
func rightCorner(o geometry.Outline, box geometry.Rect) int {
	if len(o.Outer) != 3 || len(o.Holes) > 0 || !o.IsStraight() {
		return -1
	}
	missing := -1
	for i, corner := range boxCorners(box) {
		found := false
		for _, p := range o.Outer.Points() {
			d := p.Sub(corner)
			found = found || d.X.Abs() <= cornerTolerance && d.Y.Abs() <= cornerTolerance
		}
		if !found && missing >= 0 {
			return -1
		}
		if !found {
			missing = i
		}
	}
	if missing < 0 {
		return -1
	}
	return (missing + 2) % 4
}

// units groups the job's pieces: right triangles in pairs where an allowed
// turn lets them meet along their long sides, all others by themselves.
func (j Job) units() []unit {
	var out []unit
	var halves []stance
	left := make([]int, len(j.Shapes))
	for i, s := range j.Shapes {
		if left[i] = s.Count; s.Count == 0 {
			continue
		}
		st := bestStance(i, s)
		if st.corner < 0 {
			out = append(out, single(st, s.Count))
			continue
		}
		halves = append(halves, st)
	}
	out = append(out, j.pairs(halves, left)...)
	for _, st := range halves {
		if left[st.shape] > 0 {
			out = append(out, single(st, left[st.shape]))
		}
	}
	return out
}

func single(st stance, count int) unit {
	return unit{st.box.Size(), []member{{st.shape, st.turn, geometry.Point{}.Sub(st.box.Min)}}, count}
}

// pairs joins each shape with itself as often as it can, then what is left
// of it with later shapes, and takes what it used off left.
func (j Job) pairs(halves []stance, left []int) []unit {
	var out []unit
	join := func(a, b stance, count int) {
		if count == 0 {
			return
		}
		if u, ok := j.pair(a, b); ok {
			u.count = count
			out = append(out, u)
			left[a.shape] -= count
			left[b.shape] -= count
		}
	}
	for i, a := range halves {
		if partner, ok := j.facing(a, a); ok {
			join(a, partner, left[a.shape]/2)
		}
		for _, b := range halves[i+1:] {
			if partner, ok := j.facing(b, a); ok {
				join(a, partner, min(left[a.shape], left[b.shape]))
			}
		}
	}
	return out
}

// facing returns b, turned further by half a turn if need be and allowed,
// so that its right angle stands opposite to a's.
func (j Job) facing(b, a stance) (stance, bool) {
	const alike = 20 * geometry.Micrometre // kinds are alike within half of this
	if (b.box.W()-a.box.W()).Abs() > alike || (b.box.H()-a.box.H()).Abs() > alike {
		return b, false
	}
	if b.corner == (a.corner+2)%4 {
		return b, true
	}
	turn := geometry.NormalDegrees(b.turn + 180)
	if b.corner != a.corner || !j.Shapes[b.shape].Turns.Allow(turn) {
		return b, false
	}
	turned := j.Shapes[b.shape].Outline.Turned(turn)
	box := turned.Bounds()
	return stance{b.shape, turn, box, rightCorner(turned, box)}, true
}

// pair sets two facing right triangles so that their long sides are the
// spacing apart and share their middle. With legs w and h and d the long
// side, moving one by (s·d/2h, s·d/2w) does that (trade-facts section 6,
// case 2, read backwards). It fails when no sheet holds the oblong.
func (j Job) pair(a, b stance) (unit, bool) {
	w, h := max(a.box.W(), b.box.W()), max(a.box.H(), b.box.H())
	d := math.Hypot(float64(w), float64(h))
	s := float64(j.Spacing)
	dx := geometry.Length(math.Ceil(s * d / 2 / float64(h)))
	dy := geometry.Length(math.Ceil(s * d / 2 / float64(w)))
	outline := func(st stance) geometry.Outline { return j.Shapes[st.shape].Outline.Turned(st.turn) }
	for grow := geometry.Length(0); grow <= 32*geometry.Micrometre; grow = 2*grow + 1 {
		box := geometry.Size{W: w + dx + grow, H: h + dy + grow}
		moveA, moveB := intoCorner(a, box), intoCorner(b, box)
		if !geometry.Apart(outline(a).Moved(moveA), outline(b).Moved(moveB), j.Spacing) {
			continue // rounding, or legs alike but not equal
		}
		u := unit{box: box, members: []member{{a.shape, a.turn, moveA}, {b.shape, b.turn, moveB}}}
		return u, j.fitsSome(box) || j.fitsSome(box.Turned()) && j.turnable(u)
	}
	return unit{}, false
}

// intoCorner moves a right triangle into its own corner of a box.
func intoCorner(st stance, box geometry.Size) geometry.Vector {
	to := boxCorners(geometry.RectFromSize(geometry.Point{}, box))[st.corner]
	return to.Sub(boxCorners(st.box)[st.corner])
}

// fitsSome reports whether a box fits on some sheet of the stock.
func (j Job) fitsSome(box geometry.Size) bool {
	for i := range j.Stock {
		if use := j.usable(i); box.W <= use.W && box.H <= use.H {
			return true
		}
	}
	return false
}

// turnable reports whether the whole unit may take a quarter turn more.
func (j Job) turnable(u unit) bool {
	for _, m := range u.members {
		if !j.Shapes[m.shape].Turns.Allow(m.turn + 90) {
			return false
		}
	}
	return true
}

// turned returns the unit a quarter turn on, clockwise.
func (j Job) turned(u unit) unit {
	out := unit{box: u.box.Turned(), count: u.count}
	for _, m := range u.members {
		placed := j.Placed(Placement{Shape: m.shape, Turn: m.turn, Move: m.move}).Turned(90)
		turn := geometry.NormalDegrees(m.turn + 90)
		bare := j.Shapes[m.shape].Outline.Turned(turn)
		// The corner of the box that was at the bottom left comes to the origin.
		move := placed.Bounds().Min.Sub(bare.Bounds().Min).Add(geometry.Vector{X: u.box.H})
		out.members = append(out.members, member{m.shape, turn, move})
	}
	return out
}
