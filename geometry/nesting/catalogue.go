package nesting

import (
	"encoding/binary"
	"maps"
	"math"
	"slices"

	"panelry/geometry"
)

// form is a shape as the search sees it: polygons in convex parts, curves
// flattened outward, holes filled where nothing may lie in them, with the top
// left of its box at the origin.
type form struct {
	w, h     float64 // of the outlines' own box
	area     float64
	cuts     [][]geometry.Point // its convex parts,
	parts    []part             // and as the search needs them
	polygons []geometry.Outline // one, but for blocks
	corners  int                // of all polygons
	fine     []geometry.Outline // the polygons within a micrometre of curves, which Verify goes by
	sides    int                // of all those
	curved   bool               // they are not the polygons
	wall     bool               // see walls.go
}

// variant is a shape in one of its poses.
type variant struct {
	shape int
	form  int // in catalogue.forms
	pose  pose
	min   geometry.Point // top left of its box in that pose
}

// catalogue holds all variants of a job's shapes, and the no-fit regions
// of their forms as they are asked for. Forms that are equal are one.
type catalogue struct {
	job      Job
	spacing  float64 // of the job,
	slack    float64 // and what is kept besides
	forms    []*form
	variants []variant
	of       [][]int // for each shape its variants, one for each form it can take
	walls    []wall  // for each stock entry; form -1 for whole sheets

	regions map[uint64]*noFit
	dense   []*noFit // instead of the map where there are few forms
	held    int      // planes in all regions held
	most    int      // of those
	sweeps  int
	work    *work // building regions is work too
	sums    summing
	cuts    cuts
	loose   *catalogue // see loosened
}

// mostTurns is how many variants of one shape are tried when it may be
// turned freely.
const mostTurns = 12

// cuts are the convex parts of forms by their keys, for several catalogues.
type cuts map[string][][]geometry.Point

// newCatalogue lists the variants of all shapes that are wanted and that
// fit on some sheet.
func newCatalogue(job Job, known cuts) *catalogue {
	c := &catalogue{job: job, spacing: float64(job.Spacing), work: &work{}, of: make([][]int, len(job.Shapes)), cuts: known, most: heldPlanes}
	ids := map[string]int{} // of forms, by their keys
	for i, s := range job.Shapes {
		if s.Count > 0 {
			c.addShape(i, ids)
		}
	}
	c.addWalls()
	c.noRegions()
	return c
}

// noRegions makes room for regions.
func (c *catalogue) noRegions() {
	if n := len(c.forms); n <= mostDense {
		c.dense = make([]*noFit, n*n)
	} else {
		c.regions = map[uint64]*noFit{}
	}
}

// looseBy is how much further apart pieces are kept where rounding to whole
// nanometres must have room: it moves each of two by up to 0.71 nm, and finerBy.
const looseBy = 8

// loosened returns the same catalogue with all pieces kept a little further
// apart.
func (c *catalogue) loosened() *catalogue {
	if c.loose == nil {
		l := *c
		l.slack, l.held, l.sweeps, l.sums = looseBy, 0, 0, summing{}
		l.noRegions()
		c.loose = &l
	}
	return c.loose
}

func (c *catalogue) addShape(shape int, ids map[string]int) {
	for _, p := range c.job.searchPoses(shape) {
		v := c.variantAt(shape, p)
		f := c.formOf(v)
		if !c.job.fitsSome(geometry.Size{W: geometry.Length(f.w), H: geometry.Length(f.h)}) {
			continue
		}
		if slices.ContainsFunc(c.of[shape], func(k int) bool { return c.forms[c.variants[k].form].alike(f) }) {
			continue
		}
		key := f.key()
		id, ok := ids[key]
		if !ok {
			id = len(c.forms)
			ids[key] = id
			if c.cuts[key] == nil && f.corners > manyCorners && len(c.of[shape]) > 0 {
				c.turnCuts(c.variants[c.of[shape][0]], v, key)
			}
			f.cut(key, c.cuts)
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

// manyCorners is from how many corners on cutting a form into parts takes
// longer than turning the parts of another one.
const manyCorners = 48

// turnCuts finds the parts of a variant by turning those of another one, where
// that makes the same form: most often at right angles.
func (c *catalogue) turnCuts(from, to variant, key string) {
	if from.pose.over || from.pose.turn != 0 || math.Mod(to.pose.turn, 90) != 0 {
		return
	}
	f := c.forms[from.form]
	all := make([]geometry.Outline, len(f.polygons))
	for i, o := range f.polygons {
		all[i] = to.pose.of(o)
	}
	by := geometry.Point{}.Sub(boundsOf(all).Min)
	g := &form{}
	for _, o := range all {
		g.polygons = append(g.polygons, o.Moved(by))
	}
	if g.key() != key {
		return
	}
	for _, part := range f.cuts {
		g.cuts = append(g.cuts, to.pose.of(geometry.OutlineFromPoints(part...)).Moved(by).Outer.Points())
	}
	c.cuts[key] = g.cuts
}

// searchPoses returns the poses a search tries for a shape, turned over behind
// each turn where that is allowed.
func (j Job) searchPoses(shape int) []pose {
	var out []pose
	for _, turn := range j.searchTurns(shape) {
		out = append(out, pose{turn: turn})
		if j.Shapes[shape].Mirror {
			out = append(out, pose{over: true, turn: turn})
		}
	}
	return out
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

func (c *catalogue) variantAt(shape int, p pose) variant {
	return variant{shape: shape, pose: p, min: boundsOf(c.job.Shapes[shape].in(p)).Min}
}

// formOf returns the form of a variant, not yet cut into parts.
func (c *catalogue) formOf(v variant) *form {
	all := c.job.Shapes[v.shape].in(v.pose)
	box := boundsOf(all)
	f := &form{w: float64(box.W()), h: float64(box.H())}
	for _, o := range all {
		o = c.job.solid(o).Moved(geometry.Point{}.Sub(v.min))
		f.add(polygonAround(o, flatness(box)))
		fine := geometry.OutwardPolygon(o)
		f.fine, f.curved = append(f.fine, fine), f.curved || !o.IsStraight()
		for _, r := range fine.Rings() {
			f.sides += len(r)
		}
	}
	return f
}

func (f *form) add(polygon geometry.Outline) {
	f.polygons = append(f.polygons, polygon)
	f.area += polygon.Area().SquareMM() * 1e12
	for _, r := range polygon.Rings() {
		f.corners += len(r)
	}
}

// polygonAround flattens curves outward and drops corners that do not bend.
// Outer rings run clockwise as seen on the page, holes the other way.
func polygonAround(o geometry.Outline, flatness geometry.Length) geometry.Outline {
	flat := func(r geometry.Ring) geometry.Ring {
		return geometry.RingFromPoints(withoutStraightCorners(r.FlattenOutward(flatness))...)
	}
	out := geometry.OutlineFromRing(flat(o.Outer))
	for _, h := range o.Holes {
		if hole := flat(h); len(hole) > 2 {
			out.Holes = append(out.Holes, geometry.OutlineFromRing(hole).Outer.Reversed())
		}
	}
	return out
}

// flatness is how far a form may stand out over a curve: less than a maker
// sees, more than it takes to keep a disc under some 64 sides.
func flatness(box geometry.Rect) geometry.Length {
	return min(max(max(box.W(), box.H())/1000, geometry.Micrometre), 50*geometry.Micrometre)
}

// rings returns the points of all rings.
func (f *form) rings() [][]geometry.Point {
	var out [][]geometry.Point
	for _, o := range f.polygons {
		for _, r := range o.Rings() {
			out = append(out, r.Points())
		}
	}
	return out
}

// key is equal for forms with the same points.
func (f *form) key() string {
	var b []byte
	for _, points := range f.rings() {
		first := 0
		for i, p := range points {
			if comparePoints(p, points[first]) < 0 {
				first = i
			}
		}
		b = binary.LittleEndian.AppendUint64(b, uint64(len(points)))
		for i := range points {
			p := points[(first+i)%len(points)]
			b = binary.LittleEndian.AppendUint64(b, uint64(p.X))
			b = binary.LittleEndian.AppendUint64(b, uint64(p.Y))
		}
	}
	return string(b)
}

// alikeWithin is how far rounding may move the corners of one form.
const alikeWithin = 100 * geometry.Nanometre

// alike reports whether two forms of one shape differ by rounding only.
func (f *form) alike(g *form) bool {
	p, q := f.rings(), g.rings()
	if len(p) != len(q) || math.Abs(f.w-g.w) > float64(alikeWithin) || math.Abs(f.h-g.h) > float64(alikeWithin) {
		return false
	}
	for i := range p {
		if !sameRing(p[i], q[i]) {
			return false
		}
	}
	return true
}

// sameRing reports whether two rings, started anywhere, differ by rounding.
func sameRing(p, q []geometry.Point) bool {
	n := len(p)
	if len(q) != n {
		return false
	}
	same := func(by int) bool {
		for i := range p {
			d := p[i].Sub(q[(i+by)%n])
			if d.X.Abs() > alikeWithin || d.Y.Abs() > alikeWithin {
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

// cut cuts a form into convex parts, or takes the parts that a form with the
// same points has.
func (f *form) cut(key string, known cuts) {
	if parts, ok := known[key]; ok {
		f.cuts = parts
	} else {
		for _, o := range f.polygons {
			f.cuts = append(f.cuts, convexParts(o)...)
		}
		known[key] = f.cuts
	}
	f.sort()
}

// sort makes the parts from the cuts.
func (f *form) sort() {
	f.parts = make([]part, len(f.cuts))
	for i, cut := range f.cuts {
		ring := make([]spot, len(cut))
		for k, p := range cut {
			ring[k] = spot{float64(p.X), float64(p.Y)}
		}
		f.parts[i] = partOfForm(ring)
	}
}

// mostDense is the number of forms up to which regions are found in a
// table; heldPlanes bounds the memory of all regions held (about 40 bytes a
// plane): past it, those that were not asked for since the last time go.
const (
	mostDense  = 1500
	heldPlanes = 1_200_000
)

// region returns where the corner of one form must not be, seen from the
// corner of another.
func (c *catalogue) region(moving, fixed int) *noFit {
	var n *noFit
	if c.dense != nil {
		n = c.dense[moving*len(c.forms)+fixed]
	} else {
		n = c.regions[uint64(moving)<<32|uint64(fixed)]
	}
	if n == nil {
		n = c.build(moving, fixed)
	}
	n.asked = c.sweeps
	return n
}

func (c *catalogue) build(moving, fixed int) *noFit {
	spacing := c.spacing + c.slack
	if c.forms[fixed].wall {
		spacing = c.slack
	}
	n := c.sums.region(c.forms[moving], c.forms[fixed], spacing)
	c.work.add(35*n.planes() + 50*len(n.parts))
	if c.held += n.planes() + 4; c.held > c.most {
		c.sweep()
		c.held += n.planes() + 4
	}
	if c.dense != nil {
		c.dense[moving*len(c.forms)+fixed] = n
	} else {
		c.regions[uint64(moving)<<32|uint64(fixed)] = n
	}
	return n
}

// planes counts the planes of all parts.
func (n *noFit) planes() int {
	sum := 0
	for i := range n.parts {
		sum += len(n.parts[i].planes)
	}
	return sum
}

// sweep forgets regions that were not asked for since the last sweep; all of
// them, where that leaves more than half.
func (c *catalogue) sweep() {
	c.held = 0
	stale := func(n *noFit) bool {
		if n.asked == c.sweeps {
			c.held += n.planes() + 4
		}
		return n.asked != c.sweeps
	}
	for i, n := range c.dense {
		if n != nil && stale(n) {
			c.dense[i] = nil
		}
	}
	maps.DeleteFunc(c.regions, func(_ uint64, n *noFit) bool { return stale(n) })
	if c.sweeps++; c.held > c.most/2 {
		clear(c.dense)
		clear(c.regions)
		c.held = 0
	}
	c.work.add(len(c.dense) + 10*len(c.regions))
}

// form returns the form of a variant.
func (c *catalogue) form(v int) *form { return c.forms[c.variants[v].form] }
