package geometry

import (
	"math"
	"math/cmplx"
	"slices"
)

// TurnsOnto returns the angles, in degrees clockwise from 0 up to 360, by
// which region a can be turned so that, moved to the right place, no corner
// and no control point of its outer ring is further than the tolerance from
// b's, and each hole covers one of b's likewise. An angle within the
// tolerance of a quarter turn is given as that quarter turn. Rising order;
// none when the two have not the same shape. A mirror image is not the same
// shape.
func TurnsOnto(a, b Outline, tolerance Length) []float64 {
	p, q := matchPoints(a.Outer), matchPoints(b.Outer)
	if len(p) != len(q) || len(a.Holes) != len(b.Holes) || len(p) == 0 {
		return nil
	}
	var found []float64
	cp, cq := centroid(p), centroid(q)
	for shift := range q {
		degrees := bestTurn(p, q, cp, cq, shift)
		for _, d := range []float64{math.Mod(math.Round(degrees/90)*90, 360), degrees} {
			if turnFits(a, b, d, cp, cq, shift, tolerance) {
				if !slices.Contains(found, d) {
					found = append(found, d)
				}
				break
			}
		}
	}
	slices.Sort(found)
	return found
}

// matchPoint is a corner or a control point as a complex number.
type matchPoint struct {
	at      complex128
	control bool
}

func complexFrom(p Point) complex128 { return complex(float64(p.X), float64(p.Y)) }

// nearlyStraight is by how much a straight-on vertex can leave its side when
// it and the side's ends are rounded, by up to 0.71 nm each; then some.
const nearlyStraight = 2 * Nanometre

// matchPoints returns the ring's corners and control points in order,
// without straight-on vertices.
func matchPoints(r Ring) []matchPoint {
	var out []matchPoint
	r = r.tidy()
	if len(r) == 0 {
		return nil
	}
	from := r.Start()
	for i, s := range r {
		next := r[(i+1)%len(r)]
		if !s.Curved && !next.Curved && !farFromSegment(s.To, from, next.To, nearlyStraight) {
			continue
		}
		from = s.To
		if s.Curved {
			out = append(out, matchPoint{complexFrom(s.C1), true}, matchPoint{complexFrom(s.C2), true})
		}
		out = append(out, matchPoint{complexFrom(s.To), false})
	}
	return out
}

func centroid(points []matchPoint) complex128 {
	var sum complex128
	for _, p := range points {
		sum += p.at
	}
	return sum / complex(float64(len(points)), 0)
}

// bestTurn returns the turn that brings p nearest to q, point i to point
// i+shift, in the sense of least squares.
func bestTurn(p, q []matchPoint, cp, cq complex128, shift int) float64 {
	var sum complex128
	for i := range p {
		sum += cmplx.Conj(p[i].at-cp) * (q[(i+shift)%len(q)].at - cq)
	}
	return NormalDegrees(cmplx.Phase(sum) * 180 / math.Pi)
}

// turnFits reports whether that turn, with that pairing of corners, covers
// the outer ring and all holes.
func turnFits(a, b Outline, degrees float64, cp, cq complex128, shift int, tolerance Length) bool {
	sin, cos := sincos(degrees)
	place := func(z complex128) complex128 { return (z-cp)*complex(cos, sin) + cq }
	if !ringFits(matchPoints(a.Outer), matchPoints(b.Outer), shift, place, tolerance) {
		return false
	}
	for _, h := range a.Holes {
		if !slices.ContainsFunc(b.Holes, func(k Ring) bool { return holeFits(h, k, place, tolerance) }) {
			return false
		}
	}
	return true
}

func holeFits(h, k Ring, place func(complex128) complex128, tolerance Length) bool {
	p, q := matchPoints(h), matchPoints(k)
	for shift := range q {
		if ringFits(p, q, shift, place, tolerance) {
			return true
		}
	}
	return false
}

func ringFits(p, q []matchPoint, shift int, place func(complex128) complex128, tolerance Length) bool {
	if len(p) != len(q) {
		return false
	}
	for i := range p {
		t := q[(i+shift)%len(q)]
		if p[i].control != t.control || cmplx.Abs(place(p[i].at)-t.at) > float64(tolerance) {
			return false
		}
	}
	return true
}
