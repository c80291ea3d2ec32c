package nesting

import (
	"cmp"
	"math"
	"slices"

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
// turns those that lay a side level or upright, the longest sides first.
func candidateTurns(s Shape) []float64 {
	turns := append([]float64{0}, s.Turns.degrees...)
	if !s.Turns.free {
		return turns
	}
	points := s.Outline.Outer.Flatten(geometry.Millimetre / 10)
	sides := make([]geometry.Vector, len(points))
	for i, p := range points {
		sides[i] = points[(i+1)%len(points)].Sub(p)
	}
	slices.SortStableFunc(sides, func(a, b geometry.Vector) int { return cmp.Compare(b.Len(), a.Len()) })
	const most = 64 // sides tried; a flattened curve has many alike
	for _, side := range sides[:min(most, len(sides))] {
		level := -math.Atan2(float64(side.Y), float64(side.X)) * 180 / math.Pi
		turns = append(turns, geometry.NormalDegrees(level), geometry.NormalDegrees(level+90))
	}
	return turns
}

// aslant are the turns tried, besides, for a shape that would fit on no
// sheet level or upright; half a turn more has the same box.
var aslant = func() (degrees []float64) {
	for d := range 180 {
		degrees = append(degrees, float64(d))
	}
	return degrees
}()

// bestStance returns the allowed turn that suits a shape best.
func (j Job) bestStance(shape int) stance {
	s := j.Shapes[shape]
	best := j.smallest(shape, candidateTurns(s))
	if s.Turns.free && !j.fitsSome(best.box.Size()) {
		return j.smallest(shape, append([]float64{best.turn}, aslant...))
	}
	return best
}

// smallest returns the turn whose box is smallest, of those that fit on some
// sheet if there are any; a right triangle stands on a leg, and the earlier
// angle wins a tie.
func (j Job) smallest(shape int, turns []float64) stance {
	var best stance
	bestArea, bestFits := math.Inf(1), false
	for _, turn := range turns {
		st := j.stanceAt(shape, turn)
		fits := j.fitsSome(st.box.Size())
		area := float64(st.box.W()) * float64(st.box.H())
		if st.corner >= 0 {
			area *= 1 - 1e-6 // on its hypotenuse a right triangle's box has the same area
		}
		if fits == bestFits && area < bestArea*(1-1e-9) || fits && !bestFits {
			best, bestArea, bestFits = st, area, fits
		}
	}
	return best
}

func (j Job) stanceAt(shape int, turn float64) stance {
	turned := j.Shapes[shape].in(pose{turn: turn})
	box := boundsOf(turned)
	corner := -1
	if len(turned) == 1 {
		corner = rightCorner(turned[0], box)
	}
	return stance{shape, geometry.NormalDegrees(turn), box, corner}
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
		st := j.bestStance(i)
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
		if u, ok := j.pair(a, b); ok && j.holds(u) {
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
	if b.corner != a.corner || !j.Shapes[b.shape].Turns.Allow(b.turn+180) {
		return b, false
	}
	opposite := j.stanceAt(b.shape, b.turn+180)
	return opposite, opposite.corner >= 0
}

// pair sets two facing right triangles so that their long sides are the
// spacing apart and share their middle. With legs w and h and d the long
// side, moving one by (s·d/2h, s·d/2w) does that (trade-facts section 6,
// case 2, read backwards). It fails where the two are too unlike for that.
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
		return unit{box: box, members: []member{{a.shape, a.turn, moveA}, {b.shape, b.turn, moveB}}}, true
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

// holds reports whether some sheet of the stock holds the unit, as it is or
// a quarter turn on.
func (j Job) holds(u unit) bool {
	if j.fitsSome(u.box) {
		return true
	}
	turned, ok := j.turned(u)
	return ok && j.fitsSome(turned.box)
}

// turned returns the whole unit a quarter turn on, either way. It is made
// anew, since a turn by an odd angle rounds otherwise after a quarter turn.
func (j Job) turned(u unit) (unit, bool) {
	for _, quarter := range []float64{90, 270} {
		if !j.allow(u, quarter) {
			continue
		}
		var at []stance
		for _, m := range u.members {
			at = append(at, j.stanceAt(m.shape, m.turn+quarter))
		}
		if len(at) == 1 {
			return single(at[0], u.count), true
		}
		if at[0].corner < 0 || at[1].corner < 0 {
			return u, false
		}
		pair, ok := j.pair(at[0], at[1])
		pair.count = u.count
		return pair, ok
	}
	return u, false
}

// allow reports whether all members of a unit may be turned further by that.
func (j Job) allow(u unit, degrees float64) bool {
	return !slices.ContainsFunc(u.members, func(m member) bool {
		return !j.Shapes[m.shape].Turns.Allow(m.turn + degrees)
	})
}

// parted returns the members of a unit as units of their own.
func (j Job) parted(u unit) []unit {
	var out []unit
	for _, m := range u.members {
		out = append(out, single(j.stanceAt(m.shape, m.turn), u.count))
	}
	return out
}
