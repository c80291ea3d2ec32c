package geometry

import "math/big"

// What the tests of package geometry_test look at from inside.
var (
	CrossingPoint  = crossingPoint
	FarFromSegment = farFromSegment
	SegmentsMeet   = segmentsMeet
)

// Twentieths returns the exact count of twentieths of a square nanometre.
func (a Area) Twentieths() *big.Int { return a.twentieths.big() }

// ToTheRight returns half of a split's strip as a vector.
func (l Line) ToTheRight(by Length) Vector { return l.toTheRight(by) }
