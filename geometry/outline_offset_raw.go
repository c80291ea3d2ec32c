package geometry

import (
	"math"
	"math/cmplx"
)

// A mover moves the sides of rings square to themselves and joins them at
// the corners. The raw ring that results may cross itself: a point lies in
// the moved region where the raw rings' winding number is above 0.
//
// That is so because the ring sweeps a quadrilateral for each side on its
// way, bounded by the side, the moved side and the two joins, and each of
// them adds 1 to the winding number of its points (outward) or takes 1 away
// (inward). At a corner where moved sides leave each other the join is the
// mitre. Where they run into each other it is the mitre too as long as
// something is left of both sides; else the ring goes back to the corner in
// between, so that no quadrilateral is ever swept backwards.
type mover struct {
	side  float64 // 1 outward, -1 inward
	by    float64 // how far, above 0
	limit float64 // of a mitre's reach over by; 1 or more
}

// A measured ring has a direction and a length for each side; side i runs
// from point i to the next.
type measured struct {
	mover
	points []Point
	dir    []complex128 // of length 1
	length []float64
}

// ring returns the raw ring: points joined by straight lines.
func (m mover) ring(points []Point) []Point {
	n := len(points)
	if n < 3 {
		return nil
	}
	r := measured{m, points, make([]complex128, n), make([]float64, n)}
	for i, p := range points {
		v := points[(i+1)%n].Sub(p)
		r.length[i] = v.Len()
		r.dir[i] = complexFromVector(v) / complex(r.length[i], 0)
	}
	joins := r.joins()
	whole := r.whole(joins)
	var raw []Point
	for _, j := range joins {
		raw = append(raw, r.corner(j, whole[j.from] && whole[j.to])...)
	}
	return raw
}

func complexFromVector(v Vector) complex128 { return complex(float64(v.X), float64(v.Y)) }

func dotOf(a, b complex128) float64 { return real(a)*real(b) + imag(a)*imag(b) }

// normal returns the way in which side i moves.
func (r *measured) normal(i int) complex128 { return complex(0, -r.side) * r.dir[i] }

// end returns the index of the point where side i ends.
func (r *measured) end(i int) int { return (i + 1) % len(r.points) }

// A join is where one moved side hands over to the next one that is left of
// the ring; sides between the two have vanished.
type join struct {
	from, to int
	turn     float64    // radians; positive where the moved sides leave each other
	tan      float64    // of half the turn; only between neighbours
	tip      complex128 // from the end of side from to where the moved sides' lines meet
	leave    float64    // how far along side from the tip stands
	enter    float64    // how far along side to the tip stands
}

func (j join) converges() bool { return j.turn < 0 }

// neighbours returns the join of a side and the next. With t the unit vector
// along the first side and n the one it moves in, the lines meet at
// by (n + t tan(turn/2)), and tan(a/2) = sin a / (1 + cos a).
func (r *measured) neighbours(from int) join {
	to := r.end(from)
	a := r.points[to].Sub(r.points[from])
	b := r.points[r.end(to)].Sub(r.points[to])
	lengths := r.length[from] * r.length[to]
	sin := r.side * cross(a, b).float() / lengths
	cos := dot(a, b).float() / lengths
	tan := sin / (1 + cos)
	if cos < 0 { // the same, without cancellation
		tan = (1 - cos) / sin
	}
	tip := complex(r.by, 0) * (r.normal(from) + complex(tan, 0)*r.dir[from])
	return join{from, to, math.Atan2(sin, cos), tan, tip, r.length[from] + r.by*tan, -r.by * tan}
}

// bridge returns the join that is left when the side between two joins
// vanishes. It is refused when the outer sides turn by nearly half a turn or
// more, or by next to nothing: they may not meet, or only far away.
func (r *measured) bridge(before, after join) (wider join, ok bool) {
	from, to := before.from, after.to
	turn := before.turn + after.turn
	if turn < -3 || turn > -0.001 {
		return join{}, false
	}
	w := complexFromVector(r.points[to].Sub(r.points[r.end(from)]))
	start := complex(r.by, 0) * r.normal(from)
	along := (r.by - dotOf(start-w, r.normal(to))) / dotOf(r.dir[from], r.normal(to))
	tip := start + complex(along, 0)*r.dir[from]
	return join{from, to, turn, 0, tip, r.length[from] + along, dotOf(tip-w, r.dir[to])}, true
}

// joins returns the joins around the ring. A side whose joins have run past
// each other is dropped and its neighbours joined instead, as often as
// needed: a rounded corner whose radius is less than the inset becomes sharp.
func (r *measured) joins() []join {
	first := 0
	for i, l := range r.length {
		if l > r.length[first] {
			first = i
		}
	}
	var kept []join
	for k := range r.points {
		next := r.neighbours((first + k) % len(r.points))
		for len(kept) > 0 {
			last := kept[len(kept)-1]
			if !last.converges() || !next.converges() || last.enter <= next.leave {
				break
			}
			wider, ok := r.bridge(last, next)
			if !ok {
				break
			}
			kept, next = kept[:len(kept)-1], wider
		}
		kept = append(kept, next)
	}
	return kept
}

// whole tells which sides have something left between their two joins, each
// of which stands over the side itself.
func (r *measured) whole(joins []join) []bool {
	whole := make([]bool, len(r.points))
	for k, after := range joins {
		before := joins[(k+len(joins)-1)%len(joins)]
		start, end := 0.0, r.length[after.from]
		if before.converges() {
			start = before.enter
		}
		if after.converges() {
			end = after.leave
		}
		whole[after.from] = start >= 0 && end <= r.length[after.from] && start+surplus <= end
	}
	return whole
}

// corner returns the points of the raw ring at a join.
func (r *measured) corner(j join, whole bool) []Point {
	v := r.points[r.end(j.from)]
	if !j.converges() {
		return r.mitre(v, j)
	}
	if whole && r.allVanish(j) {
		return []Point{v.Add(rounded(j.tip))}
	}
	var points []Point
	for i := j.from; i != j.to; i = r.end(i) {
		v, next := r.points[r.end(i)], r.end(i)
		by := complex(r.by, 0)
		points = append(points, v.Add(rounded(by*r.normal(i))), v, v.Add(rounded(by*r.normal(next))))
	}
	return points
}

func rounded(v complex128) Vector {
	return Vector{Length(math.Round(real(v))), Length(math.Round(imag(v)))}
}

// mitre returns the tip where the limit allows it, else the two points where
// the cut meets the moved sides: limit*by from the corner along the middle,
// which is by (limit - cos) / sin along the sides, of half the turn.
func (r *measured) mitre(v Point, j join) []Point {
	reach := math.Hypot(1, j.tan)
	if reach <= r.limit || j.tan == 0 {
		return []Point{v.Add(rounded(j.tip))}
	}
	along := r.by * (r.limit*reach - 1) / j.tan
	by, on := complex(r.by, 0), complex(along, 0)
	return []Point{
		v.Add(rounded(by*r.normal(j.from) + on*r.dir[j.from])),
		v.Add(rounded(by*r.normal(j.to) - on*r.dir[j.to])),
	}
}

// allVanish reports whether the tip of a join lies at least as deep over
// each dropped side as the sides move.
func (r *measured) allVanish(j join) bool {
	v := r.points[r.end(j.from)]
	for i := r.end(j.from); i != j.to; i = r.end(i) {
		over := j.tip - complexFromVector(r.points[i].Sub(v))
		if dotOf(over, r.normal(i)) < r.by-1 {
			return false
		}
	}
	return cmplx.Abs(j.tip) < 1<<50
}
