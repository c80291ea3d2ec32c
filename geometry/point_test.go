package geometry_test

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

// anyPoint draws points within the limit, some close to the origin.
func anyPoint() *rapid.Generator[geometry.Point] {
	return rapid.Custom(func(t *rapid.T) geometry.Point {
		return geometry.Point{X: anyLength().Draw(t, "x"), Y: anyLength().Draw(t, "y")}
	})
}

// threeInARow draws three points that lie on one line or a few nanometres
// off it, up to 100 m apart: where rounding would decide wrongly.
func threeInARow(t *rapid.T) (a, b, c geometry.Point) {
	step := func(most int64) geometry.Length {
		return geometry.Length(rapid.Int64Range(-most, most).Draw(t, "step"))
	}
	d := geometry.Vector{X: step(1e8), Y: step(1e8)}
	i, j := step(900), step(900)
	a = geometry.Point{X: step(1e10), Y: step(1e10)}
	b = a.Add(geometry.Vector{X: i * d.X, Y: i * d.Y})
	c = a.Add(geometry.Vector{X: j*d.X + step(1), Y: j*d.Y + step(1)})
	return a, b, c
}

// bigCross returns (b - a) x (c - a) in numbers of any size.
func bigCross(a, b, c geometry.Point) *big.Int {
	ab, ac := b.Sub(a), c.Sub(a)
	return new(big.Int).Sub(
		new(big.Int).Mul(big.NewInt(int64(ab.X)), big.NewInt(int64(ac.Y))),
		new(big.Int).Mul(big.NewInt(int64(ab.Y)), big.NewInt(int64(ac.X))))
}

func TestPointFromMM(t *testing.T) {
	p, err := geometry.PointFromMM(12.7, -0.0000015)
	require.NoError(t, err)
	require.Equal(t, geometry.Point{X: 12_700_000, Y: -2}, p, "half away from zero")

	p, err = geometry.PointFromMM(100_000, -100_000)
	require.NoError(t, err)
	require.Equal(t, geometry.Point{X: geometry.Limit, Y: -geometry.Limit}, p)

	for _, bad := range [][2]float64{{math.NaN(), 0}, {0, math.NaN()}} {
		_, err := geometry.PointFromMM(bad[0], bad[1])
		require.ErrorContains(t, err, "not a number")
	}
	for _, far := range [][2]float64{{100_000.001, 0}, {0, -100_001}, {math.Inf(1), 0}, {0, math.Inf(-1)}} {
		_, err := geometry.PointFromMM(far[0], far[1])
		require.ErrorContains(t, err, "further than 100 m from the origin")
	}
}

func TestPointFromMMReadsWhatIsPrinted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPoint().Draw(t, "p")
		got, err := geometry.PointFromMM(p.X.In(geometry.Millimetres), p.Y.In(geometry.Millimetres))
		require.NoError(t, err)
		require.Equal(t, p, got)
	})
}

func TestPointsAndVectors(t *testing.T) {
	p, v := place("1,2"), geometry.Vector{X: 3 * mm, Y: -4 * mm}
	require.Equal(t, place("4,-2"), p.Add(v))
	require.Equal(t, v, p.Add(v).Sub(p))
	require.Equal(t, geometry.Vector{}, v.Add(v.Neg()))
	require.Equal(t, 5e6, v.Len()) // 3-4-5
	require.Equal(t, "(12.7, -3) mm", place("12.7,-3").String())
}

func TestInRange(t *testing.T) {
	edge := geometry.Limit
	require.True(t, geometry.Point{X: edge, Y: -edge}.InRange())
	require.False(t, geometry.Point{X: edge + 1}.InRange())
	require.False(t, geometry.Point{Y: -edge - 1}.InRange())
}

// a ──▶ b
//
//	▼    y is down: this is a turn to the right, clockwise
//	c
func TestTurn(t *testing.T) {
	a, b := place("0,0"), place("10,0")
	require.Equal(t, 1, geometry.Turn(a, b, place("10,10")))
	require.Equal(t, -1, geometry.Turn(a, b, place("10,-10")))
	require.Equal(t, 0, geometry.Turn(a, b, place("20,0")))
	require.Equal(t, 0, geometry.Turn(a, b, place("5,0")), "straight back")
	require.Equal(t, 0, geometry.Turn(a, a, b), "no way at all")
}

func TestTurnAndSideAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := threeInARow(t)
		require.True(t, a.InRange() && b.InRange() && c.InRange())
		want := bigCross(a, b, c).Sign()
		require.Equal(t, want, geometry.Turn(a, b, c))
		require.Equal(t, want, geometry.Line{A: a, B: b}.Side(c))
	})
}

func TestTurnAndSideAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := anyPoint().Draw(t, "a"), anyPoint().Draw(t, "b"), anyPoint().Draw(t, "c")
		want := bigCross(a, b, c).Sign()
		require.Equal(t, want, geometry.Turn(a, b, c))
		require.Equal(t, want, geometry.Line{A: a, B: b}.Side(c))
	})
}

// Where products change from 64 to 128 bits, at differences of 2^31 nm.
func TestTurnAtTheBorderOfSmall(t *testing.T) {
	const edge = 1 << 31
	for _, x := range []geometry.Length{edge - 1, edge, edge + 1, -edge + 1, -edge, -edge - 1} {
		for _, y := range []geometry.Length{edge - 1, edge, -edge, 1} {
			a, b := geometry.Point{}, geometry.Point{X: x, Y: y}
			for _, c := range []geometry.Point{{X: -y, Y: x}, {X: y, Y: -x}, {X: x, Y: y + 1}, {X: x + 1, Y: y}, {X: 2 * x, Y: 2 * y}} {
				require.Equal(t, bigCross(a, b, c).Sign(), geometry.Turn(a, b, c))
			}
		}
	}
}

func TestLineMoved(t *testing.T) {
	l := lineThrough("0,0 10,5")
	require.Equal(t, lineThrough("1,-2 11,3"), l.Moved(geometry.Vector{X: mm, Y: -2 * mm}))
}

func TestToTheRightAlongAnAxis(t *testing.T) {
	for line, want := range map[string]geometry.Vector{
		"0,0 10,0":  {Y: 7}, // walking right, the right hand is down
		"10,0 0,0":  {Y: -7},
		"0,0 0,10":  {X: -7},
		"0,10 0,0":  {X: 7},
		"0,0 0.1,0": {Y: 7},
	} {
		require.Equal(t, want, lineThrough(line).ToTheRight(7), line)
	}
}

// The way to the right is square to the line and never shorter than asked,
// so that two parts keep their gap; it is less than 1.5 nm longer.
func TestToTheRightKeepsTheLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := geometry.Line{A: anyPoint().Draw(t, "a"), B: anyPoint().Draw(t, "b")}
		if l.A == l.B {
			t.Skip("no line")
		}
		by := geometry.Length(rapid.Int64Range(0, 1e9).Draw(t, "by"))
		v := l.ToTheRight(by)
		d := l.B.Sub(l.A)
		square := bigCross(geometry.Point{}, geometry.Point(d), geometry.Point(v))
		across := new(big.Float).Quo(new(big.Float).SetInt(square), big.NewFloat(d.Len()))
		f, _ := across.Float64()
		require.GreaterOrEqual(t, f, float64(by)-1e-3) // a float64 of 10^9 nm and its sums
		require.Less(t, f, float64(by)+1.5)
		if by == 0 {
			require.Equal(t, geometry.Vector{}, v)
		}
	})
}
