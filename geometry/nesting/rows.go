package nesting

import (
	"cmp"
	"context"
	"slices"

	"panelry/geometry"
)

// Rows packs bounding boxes into rows, tallest first (first fit by
// decreasing height, after Coffman, Garey, Johnson and Tarjan 1980). Right
// triangles that may face each other are joined into oblongs before that, a
// unit that may be turned lies the way that gets more of it on a sheet, and
// small units stand on each other in a tall row. Pieces of one convex shape
// that follow each other lie as close as their slanted sides allow. Free turns are those that
// lay a side level or upright and, for what fits on no sheet that way, whole
// degrees. It is quick and makes neat rows; it does not search.
type Rows struct{}

// row is a strip across a sheet that is being filled from the left.
type row struct {
	sheet    int
	top      geometry.Length
	height   geometry.Length
	nextLeft geometry.Length
}

// filling is a layout in the making.
type filling struct {
	job    Job
	layout Layout
	rows   []row
	bottom []geometry.Length // of each sheet: where the next row starts
	used   []int             // sheets taken of each stock entry
	copies []int             // copies placed of each shape
}

// Pack implements [Packer].
func (Rows) Pack(ctx context.Context, job Job) (Layout, error) {
	return packUnits(ctx, job, job.units())
}

// packUnits lays units, which the job's shapes were joined into, in rows.
func packUnits(ctx context.Context, job Job, units []unit) (Layout, error) {
	f := &filling{job: job, used: make([]int, len(job.Stock)), copies: make([]int, len(job.Shapes))}
	units = slices.Clone(units)
	for i, u := range units {
		units[i] = job.lieBest(u)
	}
	slices.SortStableFunc(units, func(a, b unit) int {
		return cmp.Or(cmp.Compare(b.box.H, a.box.H), cmp.Compare(b.box.W, a.box.W))
	})
	left := 0
	for _, u := range units {
		if err := ctx.Err(); err != nil {
			return Layout{}, err
		}
		if !job.fitsSome(u.box) {
			return Layout{}, job.tooLarge(u.members[0].shape)
		}
		left += f.placeAll(u)
	}
	if left > 0 {
		return Layout{}, &OutOfSheetsError{left}
	}
	f.number()
	return f.layout, nil
}

func (j Job) tooLarge(shape int) error {
	e := &TooLargeError{Shape: shape, Size: j.Shapes[shape].Outline.Bounds().Size()}
	for i := range j.Stock {
		if use := j.usable(i); use.W+use.H > e.Usable.W+e.Usable.H || i == 0 {
			e.Usable = use
		}
	}
	return e
}

// lieBest turns a unit the way that gets more of it on a sheet; on a tie it
// keeps lower rows.
func (j Job) lieBest(u unit) unit {
	turned, ok := j.turned(u)
	if !ok {
		return u
	}
	now, then := j.perSheet(u.box), j.perSheet(turned.box)
	if then > now || then == now && u.box.H > u.box.W {
		return turned
	}
	return u
}

// perSheet returns how many boxes stand in rows and columns on the stock's
// sheets, the best of them.
func (j Job) perSheet(box geometry.Size) int {
	most := 0
	for i := range j.Stock {
		use := j.usable(i)
		if box.W > use.W || box.H > use.H {
			continue
		}
		across := (use.W + j.Spacing) / (box.W + j.Spacing)
		down := (use.H + j.Spacing) / (box.H + j.Spacing)
		most = max(most, int(across*down))
	}
	return most
}

// placeAll puts all copies of a unit, and returns how many pieces found no
// sheet. When the sheets that suit the unit are used up, it is laid the other
// way, and a pair is parted.
func (f *filling) placeAll(u unit) int {
	u.count = f.place(u)
	if turned, ok := f.job.turned(u); ok && u.count > 0 {
		u.count = f.place(turned)
	}
	if u.count == 0 || len(u.members) == 1 {
		return u.count
	}
	left := 0
	for _, part := range f.job.parted(u) {
		left += f.placeAll(part)
	}
	return left
}

// place puts all copies of a unit and returns how many found no sheet.
func (f *filling) place(u unit) int {
	left := u.count
	pitch := f.job.pitch(u)
	for r := 0; left > 0; {
		if r == len(f.rows) && !f.openRow(u.box) {
			return left
		}
		n := f.column(&f.rows[r], u, left)
		for more := n; more > 0 && left > n; n += more { // the next one closes up to the last
			f.rows[r].nextLeft -= u.box.W + f.job.Spacing - pitch
			if more = f.column(&f.rows[r], u, left-n); more == 0 {
				f.rows[r].nextLeft += u.box.W + f.job.Spacing - pitch
			}
		}
		left -= n
		r++
	}
	return 0
}

// pitch returns how far apart two copies of a unit may stand in a row: less
// than its box and the spacing where it is one convex piece with slanted
// sides. Two convex regions come apart steadily as one is moved away, so
// halving finds the least distance; further copies are then further apart.
func (j Job) pitch(u unit) geometry.Length {
	whole := u.box.W + j.Spacing
	m := u.members[0]
	o := j.Placed(Placement{Shape: m.shape, Turn: m.turn, Move: m.move})
	if u.count < 2 || len(u.members) > 1 || len(j.Shapes[m.shape].Block) > 0 || !o.IsConvex() || len(o.Outer) > 64 {
		return whole
	}
	if box := o.Bounds().Outline(); o.Outer.Area() == box.Outer.Area() {
		return whole // it fills its box
	}
	apart := func(by geometry.Length) bool {
		return geometry.Apart(o, o.Moved(geometry.Vector{X: by}), j.Spacing)
	}
	lo, hi := geometry.Length(0), whole
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; apart(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// column puts up to most copies above each other at a row's left end, and
// returns how many went there.
func (f *filling) column(r *row, u unit, most int) int {
	use := f.job.usable(f.layout.Sheets[r.sheet])
	if r.nextLeft+u.box.W > use.W || u.box.H > r.height {
		return 0
	}
	n := min(most, int((r.height+f.job.Spacing)/(u.box.H+f.job.Spacing)))
	for k := range n {
		top := r.top + geometry.Length(k)*(u.box.H+f.job.Spacing)
		f.put(r.sheet, u, geometry.Vector{X: f.job.Edge + r.nextLeft, Y: f.job.Edge + top})
	}
	r.nextLeft += u.box.W + f.job.Spacing
	return n
}

func (f *filling) put(sheet int, u unit, at geometry.Vector) {
	for _, m := range u.members {
		f.layout.Placements = append(f.layout.Placements,
			Placement{Shape: m.shape, Sheet: sheet, Turn: m.turn, Move: m.move.Add(at)})
	}
}

// openRow begins a row for a box on the first sheet with room below its
// rows, or on a new sheet.
func (f *filling) openRow(box geometry.Size) bool {
	for sheet, stock := range f.layout.Sheets {
		use := f.job.usable(stock)
		if f.bottom[sheet]+box.H <= use.H && box.W <= use.W {
			f.addRow(sheet, box.H)
			return true
		}
	}
	for stock, s := range f.job.Stock {
		use := f.job.usable(stock)
		if s.IsScrap() || box.W > use.W || box.H > use.H || s.Count > 0 && f.used[stock] >= s.Count {
			continue
		}
		f.used[stock]++
		f.layout.Sheets = append(f.layout.Sheets, stock)
		f.bottom = append(f.bottom, 0)
		f.addRow(len(f.layout.Sheets)-1, box.H)
		return true
	}
	return false
}

func (f *filling) addRow(sheet int, height geometry.Length) {
	f.rows = append(f.rows, row{sheet: sheet, top: f.bottom[sheet], height: height})
	f.bottom[sheet] += height + f.job.Spacing
}

// number gives each shape's copies their numbers, sheet by sheet and in the
// order in which they lie, so that what belongs together stays together.
func (f *filling) number() {
	slices.SortStableFunc(f.layout.Placements, func(a, b Placement) int { return cmp.Compare(a.Sheet, b.Sheet) })
	for i := range f.layout.Placements {
		p := &f.layout.Placements[i]
		p.Copy = f.copies[p.Shape]
		f.copies[p.Shape]++
	}
}
