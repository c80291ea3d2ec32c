package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// offsetCases are worked by hand: each side moves by the distance, and the
// new corners are where moved sides meet. Distances are in mm, negative for
// an inset.
var offsetCases = []struct {
	name     string
	shape    string
	distance string
	limit    float64
	want     []string
}{
	{"oblong in", "0,0 100,0 100,50 0,50", "-3", 2, []string{"3,3 97,3 97,47 3,47"}},
	{"oblong out", "0,0 100,0 100,50 0,50", "3", 2, []string{"-3,-3 103,-3 103,53 -3,53"}},
	{"oblong in by half its height", "0,0 100,0 100,50 0,50", "-25", 2, nil},
	{"oblong in until 2 nm are left", "0,0 100,0 100,50 0,50", "-24.999999", 2,
		[]string{"24.999999,24.999999 75.000001,24.999999 75.000001,25.000001 24.999999,25.000001"}},
	{"point on a straight side is dropped", "0,0 60,0 100,0 100,50 0,50", "-3", 2, []string{"3,3 97,3 97,47 3,47"}},
	// The cut is 1.2 x 3 = 3.6 from the corner, square to the diagonal, and
	// meets the moved side at 3.6 sqrt 2 - 3 = 2.091169 past the corner.
	{"oblong out, corners cut", "0,0 10,0 10,10 0,10", "3", 1.2, []string{
		"-3,-2.091169 -2.091169,-3 12.091169,-3 13,-2.091169 13,12.091169 12.091169,13 -2.091169,13 -3,12.091169"}},
	// A limit of 1: the cut passes 3 from the corner, sqrt 2 x 3 - 3 = 1.242641.
	{"a limit under 1 counts as 1", "0,0 10,0 10,10 0,10", "3", 0.2, []string{
		"-3,-1.242641 -1.242641,-3 11.242641,-3 13,-1.242641 13,11.242641 11.242641,13 -1.242641,13 -3,11.242641"}},
	// Inradius 1 (trade facts, section 6.9), centre 1,1: half of it halves the sides.
	{"3-4-5 triangle in by half its inradius", "0,0 3,0 0,4", "-0.5", 2, []string{"0.5,0.5 2,0.5 0.5,2.5"}},
	{"3-4-5 triangle in by its inradius", "0,0 3,0 0,4", "-1", 2, nil},
	// Out by 1 doubles it about the centre: corners 2p - (1,1).
	{"3-4-5 triangle out by its inradius", "0,0 3,0 0,4", "1", 9, []string{"-1,-1 5,-1 -1,7"}},
	// Inradius 4 (section 6.9), centre 6,4: corners (p + centre) / 2.
	{"13-14-15 triangle in by half its inradius", "0,0 14,0 5,12", "-2", 2, []string{"3,2 10,2 5.5,8"}},
	{"13-14-15 triangle in by its inradius", "0,0 14,0 5,12", "-4", 2, nil},
	{"L in", "0,0 40,0 40,20 20,20 20,40 0,40", "-5", 2, []string{"5,5 35,5 35,15 15,15 15,35 5,35"}},
	{"L out", "0,0 40,0 40,20 20,20 20,40 0,40", "5", 2, []string{"-5,-5 45,-5 45,25 25,25 25,45 -5,45"}},
	{"L in, both arms vanish", "0,0 40,0 40,20 20,20 20,40 0,40", "-10", 2, nil},
	{"dumbbell keeps a bar 1 wide", dumbbell, "-1.5", 2, []string{
		"1.5,1.5 18.5,1.5 18.5,9.5 41.5,9.5 41.5,1.5 58.5,1.5 58.5,18.5 41.5,18.5 41.5,10.5 18.5,10.5 18.5,18.5 1.5,18.5"}},
	{"dumbbell whose bar just vanishes", dumbbell, "-2", 2, []string{"2,2 18,2 18,18 2,18", "42,2 58,2 58,18 42,18"}},
	{"dumbbell without a bar", dumbbell, "-3", 2, []string{"3,3 17,3 17,17 3,17", "43,3 57,3 57,17 43,17"}},
	{"frame out", frame, "3", 2, []string{"-3,-3 43,-3 43,43 -3,43; 13,13 27,13 27,27 13,27"}},
	{"frame out, the hole vanishes", frame, "10", 2, []string{"-10,-10 50,-10 50,50 -10,50"}},
	{"frame in", frame, "-2", 2, []string{"2,2 38,2 38,38 2,38; 8,8 32,8 32,32 8,32"}},
	{"frame in by half its width", frame, "-5", 2, nil},
	// The hole grows to 2..18 in x, past the border at 3.
	{"hole opens into the border", "0,0 40,0 40,40 0,40; 5,15 15,15 15,25 5,25", "-3", 2, []string{
		"3,3 37,3 37,37 3,37 3,28 18,28 18,12 3,12"}},
	{"two holes become one", "0,0 50,0 50,30 0,30; 10,10 20,10 20,20 10,20; 24,10 40,10 40,20 24,20", "-2", 2, []string{
		"2,2 48,2 48,28 2,28; 8,8 42,8 42,22 8,22"}},
	{"notch out, 2 stay open", notch, "1", 2, []string{"-1,-1 41,-1 41,31 21,31 21,11 19,11 19,31 -1,31"}},
	{"notch that just closes", notch, "2", 2, []string{"-2,-2 42,-2 42,32 -2,32"}},
	{"notch that closes over", notch, "3", 2, []string{"-3,-3 43,-3 43,33 -3,33"}},
	{"room whose door closes becomes a hole",
		"0,0 40,0 40,40 21,40 21,30 30,30 30,10 10,10 10,30 19,30 19,40 0,40", "1", 2,
		[]string{"-1,-1 41,-1 41,41 -1,41; 11,11 29,11 29,29 11,29"}},
}

const (
	dumbbell = "0,0 20,0 20,8 40,8 40,0 60,0 60,20 40,20 40,12 20,12 20,20 0,20"
	frame    = "0,0 40,0 40,40 0,40; 10,10 30,10 30,30 10,30"
	notch    = "0,0 40,0 40,30 22,30 22,10 18,10 18,30 0,30"
)

func TestOffsetByHand(t *testing.T) {
	for _, c := range offsetCases {
		t.Run(c.name, func(t *testing.T) {
			got, err := shape(c.shape).Offset(millimetres(c.distance), c.limit)
			require.NoError(t, err)
			requireValid(t, got)
			require.Equal(t, sameTexts(c.want...), shapeTexts(got))
		})
	}
}

func requireValid(t require.TestingT, all []geometry.Outline) {
	for _, o := range all {
		require.NoError(t, o.Validate(), shapeText(o))
	}
}

// tilted turns a shape by the angle of the 3-4-5 triangle, exactly when its
// coordinates are whole multiples of 5 nm.
func tilted(o geometry.Outline) geometry.Outline {
	out := copyOf(o)
	for _, r := range out.Rings() {
		for i, s := range r {
			r[i].To = geometry.Point{X: (4*s.To.X - 3*s.To.Y) / 5, Y: (3*s.To.X + 4*s.To.Y) / 5}
		}
	}
	return out
}

// The same cases on slanted sides: what just closes there closes here, and
// corners, off by rounding only, are within 1 nm in x and y.
func TestOffsetByHandTilted(t *testing.T) {
	for _, c := range offsetCases {
		t.Run(c.name, func(t *testing.T) {
			got, err := tilted(shape(c.shape)).Offset(millimetres(c.distance), c.limit)
			require.NoError(t, err)
			requireValid(t, got)
			want := make([]geometry.Outline, len(c.want))
			for i, text := range c.want {
				want[i] = tilted(shape(text))
			}
			requireSameCorners(t, want, got, 1)
		})
	}
}

// requireSameCorners pairs outlines in any order and rings from any start.
func requireSameCorners(t require.TestingT, want, got []geometry.Outline, within geometry.Length) {
	require.Len(t, got, len(want))
	for _, w := range want {
		found := false
		for _, g := range got {
			found = found || sameCorners(w, g, within)
		}
		require.True(t, found, "want %s\n got %v", shapeText(w), shapeTexts(got))
	}
}

func sameCorners(a, b geometry.Outline, within geometry.Length) bool {
	if len(a.Holes) != len(b.Holes) || !sameRing(a.Outer, b.Outer, within) {
		return false
	}
	for _, h := range a.Holes {
		found := false
		for _, k := range b.Holes {
			found = found || sameRing(h, k, within)
		}
		if !found {
			return false
		}
	}
	return true
}

func sameRing(a, b geometry.Ring, within geometry.Length) bool {
	for shift := range b {
		same := len(a) == len(b)
		for i := 0; same && i < len(a); i++ {
			d := a[i].To.Sub(b[(i+shift)%len(b)].To)
			same = d.X.Abs() <= within && d.Y.Abs() <= within
		}
		if same {
			return true
		}
	}
	return false
}

// Trade facts, section 6, cases 1 and 3: half of a 2 x 2 5/8 in oblong,
// inset by 1/16 in on all sides, in inches to five places. The legs scale by
// (r - s) / r = 0.905654 with the inradius r = 0.662453, and the hypotenuse
// from 3.300095 to 2.98874 (the square root of 1.81131^2 + 2.37734^2).
func TestInsetOfHalfAnOblong(t *testing.T) {
	got, err := shape("0,0 50.8,0 0,66.675").Inset(geometry.Inch / 16)
	require.NoError(t, err)
	require.Len(t, got, 1)
	p := got[0].Outer.Points()
	require.Len(t, p, 3)
	inches := func(a, b geometry.Point) float64 { return b.Sub(a).Len() / float64(geometry.Inch) }
	require.InDelta(t, 1.81131, inches(p[0], p[1]), 5e-6)
	require.InDelta(t, 2.98874, inches(p[1], p[2]), 5e-6)
	require.InDelta(t, 2.37734, inches(p[2], p[0]), 5e-6)
	// Corners move by s / sin(angle / 2): 0.08839 at the right angle.
	require.InDelta(t, 0.08839, inches(geometry.Point{}, p[0]), 5e-6)
}

// The hole is a lozenge whose sides rise 3 in 4, so that its tips move by
// d / sin(atan(3/4)) = 5d/3. Its right tip, 9 from the border, meets it when
// 9 = d + 5d/3: at d = 3.375. The border would pass that point twice; a few
// nanometres are cut away instead. Area: the square (40 - 2d)^2 = 33.25^2
// less the lozenge, 2 x 15.625 x 11.71875 with halves 10 + 5d/3 and 3/4 of
// that: 739.351562 mm^2.
func TestInsetUntilATipMeetsTheBorder(t *testing.T) {
	o := shape("0,0 40,0 40,40 0,40; 11,20 21,12.5 31,20 21,27.5")
	got, err := o.Inset(millimetres("3.375"))
	require.NoError(t, err)
	requireValid(t, got)
	require.Len(t, got, 1)
	require.InDelta(t, 739.351562, got[0].Area().SquareMM(), 1e-4)
}

// With a tip at the same distance on both sides the region falls in two.
func TestInsetUntilTwoTipsMeetTheBorder(t *testing.T) {
	o := shape("0,0 40,0 40,40 0,40; 10,20 20,12.5 30,20 20,27.5")
	got, err := o.Inset(millimetres("3.75")) // 10 = d + 5d/3
	require.NoError(t, err)
	requireValid(t, got)
	require.Len(t, got, 2)
}

// The mitre of a dent with half angle a reaches d / sin a from the dent; a
// limit of 10 cuts off those under asin(1/10) = 5.74 degrees. A slit 2 wide
// and 10 deep has tan a = 1/10, a = 5.71 degrees, one of 2.1 has 5.99.
func TestInsetOfDents(t *testing.T) {
	for _, c := range []struct {
		name, shape string
		deepest     float64 // mm, under the top at 0
		corners     int
	}{
		{"cut", "0,0 29,0 30,10 31,0 60,0 60,60 0,60", 10 + 10*1, 8},
		{"sharp", "0,0 28.95,0 30,10 31.05,0 60,0 60,60 0,60", 10 + 1/math.Sin(math.Atan(0.105)), 7},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := shape(c.shape).Inset(mm)
			require.NoError(t, err)
			require.Len(t, got, 1)
			deepest := 0.0
			for _, p := range got[0].Outer.Points() {
				if p.X > 25*mm && p.X < 35*mm {
					deepest = math.Max(deepest, p.Y.In(geometry.Millimetres))
				}
			}
			require.InDelta(t, c.deepest, deepest, 1.5e-6)
			require.Len(t, got[0].Outer, c.corners)
		})
	}
}

func TestOffsetByNothing(t *testing.T) {
	o := disc(10 * mm)
	got, err := o.Offset(0, 2)
	require.NoError(t, err)
	require.Equal(t, []geometry.Outline{o}, got)
	got[0].Outer[0].To.X++
	require.Equal(t, disc(10*mm), o, "a copy, not the outline itself")
}

func TestOffsetAtTheLimits(t *testing.T) {
	o := shape("0,0 99999,0 99999,10 0,10")
	got, err := o.Offset(mm, 2)
	require.NoError(t, err)
	require.Equal(t, sameTexts("-1,-1 100000,-1 100000,11 -1,11"), shapeTexts(got))

	_, err = o.Offset(2*mm, 2)
	require.EqualError(t, err, "an offset by 2 mm reaches (100001, -2) mm, past the limit of 100 m")
	_, err = o.Offset(math.MaxInt64, 2)
	require.ErrorContains(t, err, "past the limit of 100 m")

	got, err = o.Offset(math.MinInt64, 2)
	require.NoError(t, err)
	require.Empty(t, got)
	_, err = shape("0,0 1000,0.001 1000,-0.001").Offset(mm, math.Inf(1))
	require.ErrorContains(t, err, "past the limit of 100 m", "a mitre of 1 km")
	got, err = shape("0,0 10,0 10,10 0,10").Offset(mm, math.NaN())
	require.NoError(t, err)
	require.Len(t, got[0].Outer, 8, "no number counts as 1: four corners cut off")
}

func TestInsetByLessThanNothingGrows(t *testing.T) {
	got, err := shape("0,0 10,0 10,10 0,10").Inset(-mm)
	require.NoError(t, err)
	require.Equal(t, sameTexts("-1,-1 11,-1 11,11 -1,11"), shapeTexts(got))
}
