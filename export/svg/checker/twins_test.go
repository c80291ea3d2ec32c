package checker

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"pgregory.net/rapid"
)

// A spot is a point of a coarse grid. All about spots is exact: coordinates
// are below 100, so products of four of them are far within int64.
type spot struct{ x, y int64 }

func (p spot) minus(q spot) spot   { return spot{p.x - q.x, p.y - q.y} }
func (p spot) cross(q spot) int64  { return p.x*q.y - p.y*q.x }
func (p spot) dot(q spot) int64    { return p.x*q.x + p.y*q.y }
func orientation(a, b, c spot) int { return cmp.Compare(b.minus(a).cross(c.minus(a)), 0) }
func (p spot) within(a, b spot) bool { // the box of a and b
	return min(a.x, b.x) <= p.x && p.x <= max(a.x, b.x) && min(a.y, b.y) <= p.y && p.y <= max(a.y, b.y)
}

// A bar is a straight line between two spots.
type bar struct{ a, b spot }

func (s bar) has(p spot) bool { return orientation(s.a, s.b, p) == 0 && p.within(s.a, s.b) }

// across reports whether two bars cross at a point inside both.
func across(s, t bar) bool {
	return orientation(s.a, s.b, t.a)*orientation(s.a, s.b, t.b) < 0 && orientation(t.a, t.b, s.a)*orientation(t.a, t.b, s.b) < 0
}

func touching(s, t bar) bool { return s.has(t.a) || s.has(t.b) || t.has(s.a) || t.has(s.b) }

// overlapping reports whether two bars have more than a point in common.
func overlapping(s, t bar) bool {
	if orientation(s.a, s.b, t.a) != 0 || orientation(s.a, s.b, t.b) != 0 {
		return false
	}
	u := s.b.minus(s.a)
	if u == (spot{}) {
		return false
	}
	along := func(p spot) int64 { return p.minus(s.a).dot(u) }
	from, to := min(along(t.a), along(t.b)), max(along(t.a), along(t.b))
	return max(from, 0) < min(to, u.dot(u))
}

// A fraction is num/den, den above 0.
type fraction struct{ num, den int64 }

func (f fraction) less(g fraction) bool { return f.num*g.den < g.num*f.den }

// squared is the square of the distance of a spot from a bar.
func (s bar) squared(p spot) fraction {
	u, v := s.b.minus(s.a), p.minus(s.a)
	switch d := v.dot(u); {
	case d <= 0:
		return fraction{v.dot(v), 1}
	case d >= u.dot(u):
		w := p.minus(s.b)
		return fraction{w.dot(w), 1}
	}
	c := u.cross(v)
	return fraction{c * c, u.dot(u)}
}

func squaredApart(s, t bar) fraction {
	if across(s, t) {
		return fraction{0, 1}
	}
	least := s.squared(t.a)
	for _, f := range []fraction{s.squared(t.b), t.squared(s.a), t.squared(s.b)} {
		if f.less(least) {
			least = f
		}
	}
	return least
}

// A loop is a closed polygon of spots.
type loop []spot

func (l loop) bars() []bar {
	list := make([]bar, len(l))
	for i, p := range l {
		list[i] = bar{p, l[(i+1)%len(l)]}
	}
	return list
}

// twice is twice the signed area.
func (l loop) twice() int64 {
	var sum int64
	for _, s := range l.bars() {
		sum += s.a.cross(s.b)
	}
	return sum
}

// simple reports whether a loop meets itself only where one side follows the
// other.
func (l loop) simple() bool {
	bars := l.bars()
	n := len(bars)
	if n < 3 || l.twice() == 0 {
		return false
	}
	for i, s := range bars {
		if s.a == s.b {
			return false
		}
		for j := i + 1; j < n; j++ {
			switch t := bars[j]; {
			case overlapping(s, t):
				return false
			case j == i+1 || i == 0 && j == n-1:
			case across(s, t) || touching(s, t):
				return false
			}
		}
	}
	return true
}

// inside is 1 for a spot inside a loop by the even-odd rule, 0 on it, -1
// outside.
func (l loop) inside(p spot) int {
	in := -1
	for _, s := range l.bars() {
		if s.has(p) {
			return 0
		}
		if (s.a.y > p.y) == (s.b.y > p.y) {
			continue
		}
		// The bar passes to the right of p where the turn from its lower end
		// over its upper end to p is to the left.
		low, high := s.a, s.b
		if low.y > high.y {
			low, high = high, low
		}
		if orientation(low, high, p) > 0 {
			in = -in
		}
	}
	return in
}

// branches are the two ways on from a spot on a simple loop.
func (l loop) branches(p spot) ([2]spot, bool) {
	for i, s := range l.bars() {
		if s.a == p {
			return [2]spot{l[(i+len(l)-1)%len(l)].minus(p), s.b.minus(p)}, true
		}
		if s.b != p && s.has(p) {
			return [2]spot{s.a.minus(p), s.b.minus(p)}, true
		}
	}
	return [2]spot{}, false
}

// between reports whether v points into the sector from u to w.
func between(u, w, v spot) bool {
	switch c := u.cross(w); {
	case c > 0:
		return u.cross(v) > 0 && v.cross(w) > 0
	case c < 0:
		return u.cross(v) > 0 || v.cross(w) > 0
	}
	return u.cross(v) > 0
}

// A relation is what two outlines have in common.
type relation int

const (
	apartFrom relation = iota
	touches            // at single spots, without crossing
	crossing
	onOneAnother // for a while
)

// relationOf compares two simple loops exactly: all sides of one with all of
// the other, and at each spot that both pass through whether their branches
// alternate.
func relationOf(l, m loop) relation {
	result := apartFrom
	for _, s := range l.bars() {
		for _, t := range m.bars() {
			switch {
			case overlapping(s, t):
				return onOneAnother
			case across(s, t):
				result = crossing
			case touching(s, t):
				result = max(result, touches)
			}
		}
	}
	if result != touches {
		return result
	}
	for _, p := range slices.Concat(l, m) {
		a, ok := l.branches(p)
		b, ok2 := m.branches(p)
		if ok && ok2 && between(a[0], a[1], b[0]) != between(a[0], a[1], b[1]) {
			return crossing
		}
	}
	return touches
}

func (l loop) squaredApart(m loop) fraction {
	least := fraction{1 << 30, 1}
	for _, s := range l.bars() {
		for _, t := range m.bars() {
			if f := squaredApart(s, t); f.less(least) {
				least = f
			}
		}
	}
	return least
}

func (l loop) box() (least, most spot) {
	least, most = l[0], l[0]
	for _, p := range l {
		least = spot{min(least.x, p.x), min(least.y, p.y)}
		most = spot{max(most.x, p.x), max(most.y, p.y)}
	}
	return least, most
}

func (l loop) boxHolds(m loop) bool {
	least, most := l.box()
	for _, p := range m {
		if !p.within(least, most) {
			return false
		}
	}
	return true
}

// data is the path data of a loop, with a grid of so many tenths of a mm.
func (l loop) data(tenths int64) string {
	var b strings.Builder
	for i, p := range l {
		fmt.Fprintf(&b, "%s %d.%d %d.%d ", [2]string{"L", "M"}[boolean(i == 0)], p.x*tenths/10, p.x*tenths%10, p.y*tenths/10, p.y*tenths%10)
	}
	return b.String() + "Z"
}

// loops draws simple loops on a grid of n by n, of all the kinds that make
// edges meet in every degenerate way.
func loops(n int64) *rapid.Generator[loop] {
	return rapid.Custom(func(t *rapid.T) loop {
		at := func(low, high int64, name string) int64 { return rapid.Int64Range(low, high).Draw(t, name) }
		anywhere := func(i int) spot { return spot{at(0, n, fmt.Sprint("x", i)), at(0, n, fmt.Sprint("y", i))} }
		x1, y1 := at(0, n-2, "left"), at(0, n-2, "top")
		x2, y2 := at(x1+2, n, "right"), at(y1+2, n, "bottom")
		var l loop
		switch rapid.SampledFrom([]string{"rectangle", "corner", "triangle", "points", "points"}).Draw(t, "kind") {
		case "rectangle":
			l = loop{{x1, y1}, {x2, y1}, {x2, y2}, {x1, y2}}
		case "corner":
			x, y := at(x1+1, x2-1, "x"), at(y1+1, y2-1, "y")
			l = loop{{x1, y1}, {x2, y1}, {x2, y}, {x, y}, {x, y2}, {x1, y2}}
		case "triangle":
			l = loop{anywhere(0), anywhere(1), anywhere(2)}
		default:
			for i := range int(at(4, 6, "corners")) {
				l = append(l, anywhere(i))
			}
		}
		if !l.simple() {
			l = loop{{x1, y1}, {x2, y1 + 1}, {x1 + 1, y2}}
		}
		if rapid.Bool().Draw(t, "reversed") {
			slices.Reverse(l)
		}
		return l
	}).Filter(loop.simple)
}
