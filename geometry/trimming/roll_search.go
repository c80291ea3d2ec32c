package trimming

import (
	"slices"
	"sort"

	"panelry/geometry"
)

// search finds a short plan: first by simple lists on an endless roll, then
// at lengths between the bound and the best, halving what lies between as
// long as its share of the effort lasts.
func (r *roller) search(bound geometry.Length) {
	r.start()
	low := bound
	for r.best.length > bound && r.left > 0 {
		target := low + (r.best.length-low)/2
		if target >= r.best.length {
			target = r.best.length - 1
		}
		if r.reach(target, r.left/4+1000) {
			continue
		}
		if low = target + 1; low >= r.best.length {
			low = bound
		}
	}
}

// start takes the best of a few falling orders. Upright cuts first may leave
// no room that is wide enough; level ones always do.
func (r *roller) start() {
	keys := []func(o rolling) float64{
		func(o rolling) float64 { return o.area },
		func(o rolling) float64 { return float64(max(o.w, o.h)) },
		func(o rolling) float64 { return float64(o.w) },
		func(o rolling) float64 { return float64(o.h) },
	}
	for _, key := range keys {
		for wish := range uint8(4) {
			o := rollOrder{make([]int32, len(r.all)), make([]uint8, len(r.all))}
			for i := range o.list {
				o.list[i], o.wish[i] = int32(i), wish
			}
			sort.SliceStable(o.list, func(i, j int) bool { return key(r.all[o.list[i]]) > key(r.all[o.list[j]]) })
			if lost, used := r.fill(o, endless); lost == 0 {
				r.keep(o, used)
			}
		}
	}
}

// keep takes what fill has just made where it is shorter than the best.
func (r *roller) keep(o rollOrder, used geometry.Length) {
	if r.best.laid == nil || used < r.best.length {
		r.best = rollPlan{rollOrder{slices.Clone(o.list), slices.Clone(o.wish)}, used, slices.Clone(r.laid)}
	}
}

// memory is how many values back a change is compared with.
const memory = 100

// reach looks for a way to get all pieces from a length.
func (r *roller) reach(length geometry.Length, looks int) bool {
	o := rollOrder{slices.Clone(r.best.list), slices.Clone(r.best.wish)}
	now, used := r.fill(o, length)
	var past [memory]float64
	for i := range past {
		past[i] = now
	}
	end := r.left - looks
	next := rollOrder{slices.Clone(o.list), slices.Clone(o.wish)}
	for n := 0; now > 0 && r.left > end; n++ {
		copy(next.list, o.list)
		copy(next.wish, o.wish)
		r.change(next)
		var lost float64
		lost, used = r.fill(next, length)
		if lost <= now || lost <= past[n%memory] {
			o, next = next, o
			now = lost
		}
		past[n%memory] = now
	}
	if now > 0 {
		return false
	}
	r.keep(o, used)
	return true
}

// change alters a list by one or two steps.
func (r *roller) change(o rollOrder) {
	n := len(o.list)
	for again := true; again; again = r.random.Intn(3) == 0 {
		i, j := r.random.Intn(n), r.random.Intn(n)
		switch r.random.Intn(6) {
		case 0, 1:
			o.list[i], o.list[j] = o.list[j], o.list[i]
		case 2:
			moved := o.list[i]
			if i < j {
				copy(o.list[i:j], o.list[i+1:j+1])
			} else {
				copy(o.list[j+1:i+1], o.list[j:i])
			}
			o.list[j] = moved
		case 3:
			o.wish[i] ^= wishLevel
		case 4:
			o.wish[i] ^= wishFirst
		default:
			o.wish[i] ^= wishTurned
		}
	}
}

// tree writes the best plan as cuts of a sheet of the length used.
func (r *roller) tree() *Part {
	kerf := r.job.Kerf
	size := geometry.Size{W: r.job.Width, H: r.best.length - kerf}
	root := newPart(geometry.RectFromSize(geometry.Point{}, size))
	parts := map[int]*Part{0: root}
	next := 1
	for _, l := range r.best.laid {
		one := r.all[l.one]
		parts[next], parts[next+1] = parts[l.room].take(one.piece, l.turned, !l.level, one.w-kerf, one.h-kerf, kerf)
		next += 2
	}
	return root
}
