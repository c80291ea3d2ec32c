package nesting

import (
	"encoding/binary"
	"math"
	"slices"

	"panelry/geometry"
)

// form is a polygon as the search sees it: in convex parts, holes filled,
// curves flattened outward, with the top left of its box at the origin.
type form struct {
	w, h   float64 // of the outline's own box
	area   float64
	parts  [][]spot
	points []geometry.Point
}

// variant is a shape in one of its turns.
type variant struct {
	shape int
	form  int // in catalogue.forms
	turn  float64
	min   geometry.Point // top left of the turned outline's box
}

// catalogue holds all variants of a job's shapes, and the no-fit regions
// of their forms as they are asked for. Forms that are equal are one.
type catalogue struct {
	job      Job
	spacing  float64
	forms    []*form
	variants []variant
	of       [][]int // for each shape its variants, one for each form it can take

	regions map[uint64]*noFit
	dense   []*noFit // instead of the map where there are few forms
	held    int      // planes in all regions held
	work    *work    // building regions is work too
}

// mostTurns is how many variants of one shape are tried when it may be
// turned freely.
const mostTurns = 12

// newCatalogue lists the variants of all shapes that are wanted and that
// fit on some sheet.
func newCatalogue(job Job) *catalogue {
	c := &catalogue{job: job, spacing: float64(job.Spacing), work: &work{}, of: make([][]int, len(job.Shapes))}
	known := map[string]int{}
	for i, s := range job.Shapes {
		if s.Count > 0 {
			c.addShape(i, known)
		}
	}
	if n := len(c.forms); n <= mostDense {
		c.dense = make([]*noFit, n*n)
	} else {
		c.regions = map[uint64]*noFit{}
	}
	return c
}

func (c *catalogue) addShape(shape int, known map[string]int) {
	for _, turn := range c.job.searchTurns(shape) {
		v := c.variantAt(shape, turn)
		f := c.formOf(v)
		if !c.job.fitsSome(geometry.Size{W: geometry.Length(f.w), H: geometry.Length(f.h)}) {
			continue
		}
		if slices.ContainsFunc(c.of[shape], func(k int) bool { return c.forms[c.variants[k].form].alike(f) }) {
			continue
		}
		key := f.key()
		id, ok := known[key]
		if !ok {
			id = len(c.forms)
			known[key] = id
			f.cut()
			c.forms = append(c.forms, f)
		}
		v.form = id
		c.of[shape] = append(c.of[shape], len(c.variants))
		c.variants = append(c.variants, v)
		if c.job.Shapes[shape].Turns.free && len(c.of[shape]) == mostTurns {
			return
		}
	}
}

// searchTurns returns the turns a search tries for a shape: all of a list;
// for free turns the one that suits rows best, then those that lay a side
// level or upright, either way up.
func (j Job) searchTurns(shape int) []float64 {
	s := j.Shapes[shape]
	turns := candidateTurns(s)
	if !s.Turns.free {
		return turns
	}
	if len(s.Outline.Outer.Flatten(geometry.Millimetre/10)) > 24 {
		turns = []float64{0, 90} // round: its sides are no sides
	}
	var out []float64
	for _, t := range append([]float64{j.bestStance(shape).turn}, turns...) {
		out = append(out, geometry.NormalDegrees(t), geometry.NormalDegrees(t+180))
	}
	return out[:min(len(out), 4*mostTurns)]
}

func (c *catalogue) variantAt(shape int, turn float64) variant {
	o := c.job.Shapes[shape].Outline.Turned(turn)
	return variant{shape: shape, turn: turn, min: o.Bounds().Min}
}

// formOf returns the form of a variant, not yet cut into parts.
func (c *catalogue) formOf(v variant) *form {
	o := c.job.Shapes[v.shape].Outline.Turned(v.turn)
	box := o.Bounds()
	f := &form{w: float64(box.W()), h: float64(box.H())}
	for _, p := range o.Outer.FlattenOutward(flatness(box)) {
		f.points = append(f.points, geometry.Point(p.Sub(v.min)))
	}
	f.points = withoutStraightCorners(f.points)
	f.area = ringArea(f.points)
	if f.area < 0 {
		slices.Reverse(f.points)
		f.area = -f.area
	}
	return f
}

// flatness is how far a form may stand out over a curve: less than a maker
// sees, more than it takes to keep a disc under some 64 sides.
func flatness(box geometry.Rect) geometry.Length {
	return min(max(max(box.W(), box.H())/1000, geometry.Micrometre), 50*geometry.Micrometre)
}

// key is equal for forms with the same points.
func (f *form) key() string {
	first := 0
	for i, p := range f.points {
		if comparePoints(p, f.points[first]) < 0 {
			first = i
		}
	}
	var b []byte
	for i := range f.points {
		p := f.points[(first+i)%len(f.points)]
		b = binary.LittleEndian.AppendUint64(b, uint64(p.X))
		b = binary.LittleEndian.AppendUint64(b, uint64(p.Y))
	}
	return string(b)
}

// alike reports whether two forms of one shape differ by rounding only.
func (f *form) alike(g *form) bool {
	const off = 100 * geometry.Nanometre
	n := len(f.points)
	if len(g.points) != n || math.Abs(f.w-g.w) > float64(off) || math.Abs(f.h-g.h) > float64(off) {
		return false
	}
	same := func(by int) bool {
		for i, p := range f.points {
			d := p.Sub(g.points[(i+by)%n])
			if d.X.Abs() > off || d.Y.Abs() > off {
				return false
			}
		}
		return true
	}
	for by := range n {
		if same(by) {
			return true
		}
	}
	return false
}

func (f *form) cut() {
	for _, part := range convexParts(f.points) {
		ring := make([]spot, len(part))
		for i, p := range part {
			ring[i] = spot{float64(p.X), float64(p.Y)}
		}
		f.parts = append(f.parts, ring)
	}
}

// mostDense is the number of forms up to which regions are found in a
// table; heldPlanes bounds the memory of all regions held (about 40 bytes a
// plane): past it they are forgotten and built anew.
const (
	mostDense  = 1500
	heldPlanes = 5_000_000
)

// region returns where the corner of one form must not be, seen from the
// corner of another.
func (c *catalogue) region(moving, fixed int) *noFit {
	if c.dense != nil {
		if n := c.dense[moving*len(c.forms)+fixed]; n != nil {
			return n
		}
	} else if n := c.regions[uint64(moving)<<32|uint64(fixed)]; n != nil {
		return n
	}
	return c.build(moving, fixed)
}

func (c *catalogue) build(moving, fixed int) *noFit {
	n := noFitOf(c.forms[moving], c.forms[fixed], c.spacing)
	size := 0
	for _, p := range n.parts {
		size += len(p.planes)
	}
	c.work.add(20*size + 50*len(n.parts))
	if c.held += size + 4; c.held > heldPlanes {
		clear(c.dense)
		clear(c.regions)
		c.held = size
	}
	if c.dense != nil {
		c.dense[moving*len(c.forms)+fixed] = n
	} else {
		c.regions[uint64(moving)<<32|uint64(fixed)] = n
	}
	return n
}

// form returns the form of a variant.
func (c *catalogue) form(v int) *form { return c.forms[c.variants[v].form] }
