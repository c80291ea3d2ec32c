package nesting

import (
	"math"
	"slices"
)

// How many places are tried when an item is moved, and how many of them are
// improved. The prototype of the design notes found these for one room; with
// few contacts tried in many rooms, sheets of large pieces stayed one above
// the best known.
const (
	anywhereTries = 16 // anywhere in any room
	contactTries  = 12 // where the item touches another one,
	contactsEach  = 2  // and so many more for each further room,
	contactsMost  = 64 // up to this
	cornerTries   = 8  // in corners of rooms, at most, where there are several
	nearbyTries   = 8  // about where it is now
	keptTries     = 2
	mostSearches  = 7 // lines searched from one place
	mostWays      = 5
)

// try is a place for an item, with its weighted overlap there.
type try struct {
	variant, room int
	at            spot
	overlap       float64
}

// move looks for the place with least weighted overlap for an item, and
// moves it if there is a better one than now. It returns its overlap then.
func (b *board) move(i int) float64 {
	for _, p := range b.raised[i] {
		b.weights[p.other] = p.weight
	}
	defer func() {
		for _, p := range b.raised[i] {
			b.weights[p.other] = 1
		}
	}()
	b.forget()
	it := b.items[i]
	now := b.refine(i, try{it.variant, it.room, it.at, b.overlapAt(i, it.variant, it.room, it.at, math.Inf(1))})
	if now.overlap == 0 {
		b.put(i, now.variant, now.room, now.at)
		return 0
	}
	best := now
	var kept [keptTries]try
	for k := range kept {
		kept[k].overlap = math.Inf(1)
	}
	b.sample(i, func(variant, room int, at spot) {
		limit := kept[keptTries-1].overlap
		o := b.overlapAt(i, variant, room, at, limit)
		for k := range kept {
			if o < kept[k].overlap {
				copy(kept[k+1:], kept[k:keptTries-1])
				kept[k] = try{variant, room, at, o}
				break
			}
		}
	})
	for _, t := range kept {
		if math.IsInf(t.overlap, 1) {
			continue
		}
		if t = b.refine(i, t); t.overlap < best.overlap {
			best = t
		}
	}
	b.put(i, best.variant, best.room, best.at)
	return best.overlap
}

// overlapAt evaluates one place, up to a limit.
func (b *board) overlapAt(i, variant, room int, at spot, limit float64) float64 {
	return overlap(b.nearby(i, variant, window{at.x, at.y, at.x, at.y}), at, limit, b.work)
}

// sample calls try with random places for an item, all inside its rooms.
func (b *board) sample(i int, try func(variant, room int, at spot)) {
	it := b.items[i]
	turns := b.cat.of[it.shape]
	place := func(variant, room int, at spot) {
		s, ok := b.span(room, variant)
		if ok {
			try(variant, room, spot{min(max(at.x, s.x0), s.x1), min(max(at.y, s.y0), s.y1)})
		}
	}
	for range anywhereTries {
		v, r := turns[b.rng.IntN(len(turns))], b.rng.IntN(len(b.rooms))
		s, _ := b.span(r, v)
		place(v, r, spot{s.x0 + b.rng.Float64()*(s.x1-s.x0), s.y0 + b.rng.Float64()*(s.y1-s.y0)})
	}
	for range min(contactTries+contactsEach*(len(b.rooms)-1), contactsMost) {
		v, j := turns[b.rng.IntN(len(turns))], b.rng.IntN(len(b.items))
		if j == i {
			continue
		}
		o := b.items[j]
		region := b.cat.region(b.cat.variants[v].form, b.cat.variants[o.variant].form)
		part := &region.parts[b.rng.IntN(len(region.parts))]
		place(v, o.room, o.at.add(part.corners[b.rng.IntN(len(part.corners))]))
	}
	for range min(len(b.rooms)-1, cornerTries) {
		v, r := turns[b.rng.IntN(len(turns))], b.rng.IntN(len(b.rooms))
		s, _ := b.span(r, v)
		place(v, r, [...]spot{{s.x0, s.y0}, {s.x1, s.y0}, {s.x0, s.y1}, {s.x1, s.y1}}[b.rng.IntN(4)])
	}
	f := b.form(i)
	middle := it.at.add(spot{f.w / 2, f.h / 2})
	for range nearbyTries {
		v := turns[b.rng.IntN(len(turns))]
		g := b.cat.form(v)
		by := spot{b.rng.NormFloat64() * 0.35 * f.w, b.rng.NormFloat64() * 0.35 * f.h}
		place(v, it.room, middle.add(by).sub(spot{g.w / 2, g.h / 2}))
	}
}

// nearPart is a no-fit part that touches the window of a refinement.
type nearPart struct {
	part   *noFitPart
	at     spot
	weight float64
}

// refine improves a place by exact line searches: level, upright, and along
// the slanted sides it comes to touch.
func (b *board) refine(i int, t try) try {
	if t.overlap == 0 {
		return t
	}
	f := b.cat.form(t.variant)
	reach := 0.3 * max(f.w, f.h)
	s, ok := b.span(t.room, t.variant)
	if !ok {
		return t
	}
	w := window{max(s.x0, t.at.x-reach), max(s.y0, t.at.y-reach), min(s.x1, t.at.x+reach), min(s.y1, t.at.y+reach)}
	b.collect(b.nearby(i, t.variant, window{w.x0 - 1, w.y0 - 1, w.x1 + 1, w.y1 + 1}), w)
	ways := make([]spot, 2, mostWays)
	ways[0], ways[1] = spot{1, 0}, spot{0, 1}
	if b.rng.Uint32()&1 == 0 {
		ways[0], ways[1] = ways[1], ways[0]
	}
	fruitless := 0
	for k, n := 0, 0; n < mostSearches && fruitless < len(ways); n++ {
		way := ways[k%len(ways)]
		k++
		at, value, slant := b.searchLine(t.at, way, w)
		if value >= t.overlap {
			fruitless++
			continue
		}
		fruitless = 0
		t.at, t.overlap = at, value
		if value == 0 {
			break
		}
		if slant != (spot{}) && len(ways) < mostWays && !slices.ContainsFunc(ways, func(w spot) bool { return math.Abs(w.cross(slant)) < 1e-6 }) {
			ways = slices.Insert(ways, k%len(ways), slant)
		}
	}
	return t
}

// collect lists the parts that meet a window.
func (b *board) collect(near []neighbour, w window) {
	b.parts = b.parts[:0]
	wide := window{w.x0 - 1, w.y0 - 1, w.x1 + 1, w.y1 + 1}
	for i := range near {
		o := &near[i]
		for k := range o.region.parts {
			p := &o.region.parts[k]
			if p.box.moved(o.at).meets(wide) {
				b.parts = append(b.parts, nearPart{p, o.at, o.weight})
			}
		}
	}
}
