package geometry

import "math"

// Where two curves leave one point almost the same way, as at a cusp whose
// sides bend to one hand, the straight sides that stand for them may meet
// though the curves do not. A cusp knows how near to the point that can be.
type cusp struct {
	at    Point
	reach float64 // in nanometres; 0 where the curves do meet, or nearly
}

// Sides within a micrometre of their curves meet only where those are less
// than clearGap apart, which leaves a tenth to rounding. Rounding may turn
// around what is within roundGap.
const (
	clearGap = 2.1 * float64(Micrometre)
	roundGap = 3.0
)

// cuspAt looks at the end of segment i of the ring, where the next begins:
// it goes outwards until the two are clearly apart, and makes sure that they
// do not change places on the way.
func (r Ring) cuspAt(i int) cusp {
	in, out := r[i], r[(i+1)%len(r)]
	c := cusp{at: in.To}
	a := armFrom(c.at, Segment{To: r.from(i), C1: in.C2, C2: in.C1, Curved: in.Curved})
	b := armFrom(c.at, out)
	hand := 0.0
	most := math.Min(a.reach, b.reach)
	for x := 8.0; x <= most; x = grown(x, most) {
		ax, ay := a.at(x)
		bx, by := b.at(x)
		gap := (ax*by - ay*bx) / x
		if ax*bx+ay*by < 0 || math.Abs(gap) > clearGap {
			if gap*hand >= 0 {
				c.reach = x
			}
			return c
		}
		if math.Abs(gap) <= roundGap {
			continue
		}
		if gap*hand < 0 {
			return c
		}
		hand = gap
	}
	return c
}

// grown returns half as much again, and the most before anything over it.
func grown(x, most float64) float64 {
	if x < most {
		return math.Min(1.5*x, most)
	}
	return 1.5 * x
}

// An arm is a segment seen from one of its ends, as far as it only leads
// away from there.
type arm struct {
	curve       cubic // from 0, 0
	most, reach float64
}

func armFrom(p Point, s Segment) arm {
	home := func(q Point) Point { return Point{}.Add(q.Sub(p)) }
	s = Segment{home(s.To), home(s.C1), home(s.C2), s.Curved}
	if !s.Curved {
		s.C1, s.C2 = Point{s.To.X / 3, s.To.Y / 3}, Point{s.To.X / 3 * 2, s.To.Y / 3 * 2}
	}
	a := arm{curve: cubicFrom(Point{}, s)}
	const steps = 64
	for k := 1; k <= steps; k++ {
		t := float64(k) / steps
		d := math.Hypot(a.point(t))
		if d <= a.reach {
			break
		}
		a.most, a.reach = t, d
	}
	return a
}

func (a arm) point(t float64) (x, y float64) {
	return bernstein(a.curve.x, t), bernstein(a.curve.y, t)
}

// at returns where the arm is x nanometres from its end.
func (a arm) at(x float64) (float64, float64) {
	lo, hi := 0.0, a.most
	for range 50 {
		if mid := (lo + hi) / 2; math.Hypot(a.point(mid)) < x {
			lo = mid
		} else {
			hi = mid
		}
	}
	return a.point(hi)
}

// farthestMeeting returns how far from p two sides that meet have a point in
// common.
func farthestMeeting(p Point, s, t side) float64 {
	far := 0.0
	if segmentsCross(s.a, s.b, t.a, t.b) {
		ab, cd, ac := s.b.Sub(s.a), t.b.Sub(t.a), t.a.Sub(s.a)
		f := cross(ac, cd).float() / cross(ab, cd).float()
		v := s.a.Sub(p)
		return math.Hypot(float64(v.X)+f*float64(ab.X), float64(v.Y)+f*float64(ab.Y))
	}
	for _, q := range [4]struct {
		p       Point
		onOther bool
	}{{s.a, onSegment(s.a, t.a, t.b)}, {s.b, onSegment(s.b, t.a, t.b)}, {t.a, onSegment(t.a, s.a, s.b)}, {t.b, onSegment(t.b, s.a, s.b)}} {
		if q.onOther {
			far = math.Max(far, q.p.Sub(p).Len())
		}
	}
	return far
}

// excused reports whether two sides meet only because they stand for curves
// that leave a common vertex almost the same way.
func excused(rings []Ring, s, t side) bool {
	if s.ring != t.ring {
		return false
	}
	r := rings[s.ring]
	for _, pair := range [2][2]int{{s.vertex, t.vertex}, {t.vertex, s.vertex}} {
		i := pair[0]
		if next := (i + 1) % len(r); pair[1] != next || next == i || !r[i].Curved && !r[next].Curved {
			continue
		}
		if c := r.cuspAt(i); farthestMeeting(c.at, s, t) <= c.reach {
			return true
		}
	}
	return false
}
