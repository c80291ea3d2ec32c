package nesting

import (
	"cmp"
	"math"
	"slices"
)

// stretch is where a line runs through a part: from lo to hi, with the
// depth's planes along it.
type stretch struct {
	lo, hi      float64
	first, last int // in lineScratch.planes
	weight      float64
}

// lineEnd is where a line enters or leaves a part, through which side.
type lineEnd struct {
	t     float64
	slant spot
}

// lineScratch keeps a line search from making garbage.
type lineScratch struct {
	stretches []stretch
	planes    []spot // depth a - b*t as (a, b)
	ends      []lineEnd
}

// searchLine finds the least weighted overlap on a line through p within a
// window, exactly: it is at an end of some stretch, since in between the
// overlap is concave. It returns the place, its overlap, and the direction
// of the slanted side the place lies on, if it does.
func (b *board) searchLine(p, way spot, w window) (spot, float64, spot) {
	t0, t1 := clipLine(p, way, w)
	if t0 > t1 {
		return p, math.Inf(1), spot{}
	}
	s := &b.line
	s.stretches, s.planes = s.stretches[:0], s.planes[:0]
	s.ends = append(s.ends[:0], lineEnd{t: t0}, lineEnd{t: t1})
	for i := range b.parts {
		s.cross(&b.parts[i], p, way, t0, t1)
	}
	slices.SortFunc(s.ends, func(a, b lineEnd) int { return cmp.Compare(a.t, b.t) })
	best, at, slant := math.Inf(1), 0.0, spot{}
	last := math.Inf(-1)
	evaluated := 0
	for _, e := range s.ends {
		if e.t-last <= touching/4 {
			continue
		}
		last = e.t
		evaluated++
		if v := s.value(e.t, best); v < best {
			best, at, slant = v, e.t, e.slant
			if v == 0 {
				break
			}
		}
	}
	b.work.add(20 + 8*len(b.parts) + 2*len(s.planes) + evaluated*(4+3*len(s.stretches)))
	end := p.add(way.times(at))
	end.x, end.y = min(max(end.x, w.x0), w.x1), min(max(end.y, w.y0), w.y1)
	return end, best, slant
}

// clipLine returns for which t the place p + t*way lies in the window.
func clipLine(p, way spot, w window) (t0, t1 float64) {
	t0, t1 = math.Inf(-1), math.Inf(1)
	clip := func(at, step, lo, hi float64) {
		if math.Abs(step) < 1e-12 {
			return
		}
		a, b := (lo-at)/step, (hi-at)/step
		t0, t1 = max(t0, min(a, b)), min(t1, max(a, b))
	}
	clip(p.x, way.x, w.x0, w.x1)
	clip(p.y, way.y, w.y0, w.y1)
	return t0, t1
}

// cross adds the stretch of a line through a part, if it has one in t0..t1.
func (s *lineScratch) cross(n *nearPart, p, way spot, t0, t1 float64) {
	x, y := p.x-n.at.x, p.y-n.at.y
	first := len(s.planes)
	lo, hi := math.Inf(-1), math.Inf(1)
	var atLo, atHi *halfPlane
	for k := range n.part.planes {
		h := &n.part.planes[k]
		a, b := h.depth(x, y), h.nx*way.x+h.ny*way.y
		switch {
		case b > 1e-12:
			if t := a / b; t < hi {
				hi, atHi = t, h
			}
		case b < -1e-12:
			if t := a / b; t > lo {
				lo, atLo = t, h
			}
		case a <= touching:
			lo = math.Inf(1)
		}
		if hi-lo <= touching || hi <= t0 || lo >= t1 {
			s.planes = s.planes[:first]
			return
		}
		s.planes = append(s.planes, spot{a, b})
	}
	s.stretches = append(s.stretches, stretch{lo, hi, first, len(s.planes), n.weight})
	s.end(lo, t0, t1, atLo, way)
	s.end(hi, t0, t1, atHi, way)
}

func (s *lineScratch) end(t, t0, t1 float64, h *halfPlane, way spot) {
	if t < t0 || t > t1 {
		return
	}
	e := lineEnd{t: t}
	if along := (spot{-h.ny, h.nx}); math.Abs(along.x) > 1e-6 && math.Abs(along.y) > 1e-6 && math.Abs(along.cross(way)) > 1e-6 {
		e.slant = along
	}
	s.ends = append(s.ends, e)
}

// value returns the weighted overlap at t, or anything from the limit up.
func (s *lineScratch) value(t, limit float64) float64 {
	sum := 0.0
	for i := range s.stretches {
		st := &s.stretches[i]
		if t <= st.lo || t >= st.hi {
			continue
		}
		least := math.Inf(1)
		for _, p := range s.planes[st.first:st.last] {
			if d := p.x - t*p.y; d < least {
				if d <= touching {
					least = 0
					break
				}
				least = d
			}
		}
		if sum += st.weight * least; sum >= limit {
			return sum
		}
	}
	return sum
}
