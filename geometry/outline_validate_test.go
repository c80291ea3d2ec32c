package geometry_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

func TestValidateAccepts(t *testing.T) {
	for name, text := range map[string]string{
		"triangle":                  "0,0 10,0 0,10",
		"vertex on a straight side": "0,0 5,0 10,0 10,10 0,10",
		"dart":                      "0,0 10,5 0,10 3,5",
		"window":                    "0,0 10,0 10,10 0,10; 2,2 2,4 4,4 4,2",
		"two windows":               "0,0 10,0 10,10 0,10; 2,2 2,4 4,4 4,2; 5,5 5,6 6,6",
		"window a nanometre off":    "0,0 10,0 10,10 0,10; 0.000001,2 2,4 4,2",
		"as large as can be":        "-100000,-100000 100000,-100000 100000,100000 -100000,100000",
		"as small as can be":        "0,0 0.000001,0 0,0.000001",
		"slot a nanometre wide":     "0,0 10,0 10,10 5.000001,10 5.000001,5 5,5 5,10 0,10",
	} {
		t.Run(name, func(t *testing.T) {
			require.NoError(t, rawShape(text).Validate())
		})
	}
	require.NoError(t, disc(10*mm).Validate())
	lens := geometry.Outline{Outer: geometry.Ring{
		geometry.CurveTo(place("10,5"), place("20,5"), place("30,0")),
		geometry.CurveTo(place("20,-5"), place("10,-5"), place("0,0")),
	}}
	require.NoError(t, geometry.OutlineFromRing(lens.Outer).Validate(), "two curves close a ring")
}

func TestValidateRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, message string }{
		{"two sides", "0,0 10,0", "the outline has too few sides to close: 2"},
		{"same point twice", "0,0 10,0 10,0 10,10", "the outline has one point twice: corner 2 at 10 mm, 0 mm"},
		{"closed twice", "0,0 10,0 10,10 0,0", "the outline has one point twice: corner 4 at 0 mm, 0 mm"},
		{"no area", "0,0 10,0 20,0", "the outline has no area"},
		{"bow-tie without area", "0,0 10,10 10,0 0,10", "the outline has no area"},
		{"bow-tie", "0,0 10,8 10,0 0,10",
			"the outline crosses or touches itself, between the sides behind corner 1 at 0 mm, 0 mm and corner 3 at 10 mm, 0 mm"},
		{"spike", "0,0 10,0 10,10 10,20 10,10 0,10",
			"the outline crosses or touches itself, between the sides behind corner 2 at 10 mm, 0 mm and corner 5 at 10 mm, 10 mm"},
		{"corner on a side", "0,0 10,0 10,10 5,0 0,10",
			"the outline crosses or touches itself, between the sides behind corner 1 at 0 mm, 0 mm and corner 4 at 5 mm, 0 mm"},
		{"anti-clockwise", "0,0 0,10 10,0", "the outline runs the wrong way round"},
		{"hole clockwise", "0,0 10,0 10,10 0,10; 2,2 4,2 4,4", "its hole runs the wrong way round"},
		{"hole outside", "0,0 10,0 10,10 0,10; 12,2 12,4 14,2", "its hole lies outside the outline"},
		{"hole round the outline", "4,4 5,4 5,5; 0,0 0,10 10,10 10,0", "its hole lies outside the outline"},
		{"hole in a hole", "0,0 10,0 10,10 0,10; 4,4 4,5 5,4; 2,2 2,8 8,8 8,2", "its first hole lies inside its second hole"},
		{"hole in an earlier hole", "0,0 10,0 10,10 0,10; 2,2 2,8 8,8 8,2; 4,4 4,5 5,4", "its second hole lies inside its first hole"},
		{"hole touches the border", "0,0 10,0 10,10 0,10; 0,2 2,4 4,2", "the outline crosses or touches its hole near"},
		{"hole over the border", "0,0 10,0 10,10 0,10; -1,2 2,4 4,2", "the outline crosses or touches its hole near"},
		{"holes touch", "0,0 10,0 10,10 0,10; 2,2 2,4 4,4 4,2; 4,4 4,6 6,6", "its first hole crosses or touches its second hole near 4 mm, 4 mm"},
		{"hole of one point", "0,0 10,0 10,10 0,10; 2,2", "its hole has too few sides to close: 1"},
		{"the same ring as a hole", "0,0 10,0 0,10; 0,0 0,10 10,0", "the outline crosses or touches its hole near"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.ErrorContains(t, rawShape(c.text).Validate(), c.message)
		})
	}
	far := shape("0,0 100000,0 10,10").Moved(geometry.Vector{X: 1})
	require.EqualError(t, far.Validate(), "the outline goes past the limit of 100 m: corner 2 at 100000 mm, 0 mm")
	require.EqualError(t, geometry.Outline{}.Validate(), "the outline has no sides")
	withEmpty := shape("0,0 10,0 0,10")
	withEmpty.Holes = []geometry.Ring{{}}
	require.EqualError(t, withEmpty.Validate(), "its hole has no sides")
}

// 0 ╲  ╱ 1     an hourglass whose waist is one point, visited twice:
//
//	╳         the message names both visits
//
// 4 ╱  ╲ 3
func TestValidateNamesBothVisitsOfOnePoint(t *testing.T) {
	err := rawShape("0,0 10,0 5,5 10,10 0,10 5,5").Validate()
	require.EqualError(t, err, "the outline crosses or touches itself, between the sides behind corner 2 at 10 mm, 0 mm and corner 5 at 0 mm, 10 mm")
	// Also where the waist comes first.
	err = rawShape("5,5 0,0 10,0 5,5 10,10 0,10").Validate()
	require.ErrorContains(t, err, "corner 1 at 5 mm, 5 mm")
}

func TestValidateLooksAtCurves(t *testing.T) {
	loop := geometry.Outline{Outer: geometry.Ring{ // its handles cross, so the curve does
		geometry.CurveTo(place("30,20"), place("-20,20"), place("10,0")),
		geometry.LineTo(place("10,-10")), geometry.LineTo(place("0,-10")), geometry.LineTo(place("0,0")),
	}}
	err := geometry.OutlineFromRing(loop.Outer).Validate()
	require.ErrorContains(t, err, "the outline crosses or touches itself, between the sides behind corner")

	far := disc(10 * mm)
	far.Outer[1].C2.X = -geometry.Limit - 1
	require.ErrorContains(t, far.Validate(), "past the limit of 100 m")

	touching := disc(10 * mm)
	touching.Holes = []geometry.Ring{circle(place("5,0"), 5*mm).Outer.Reversed()}
	require.ErrorContains(t, touching.Validate(), "the outline crosses or touches its hole")
	touching.Holes = []geometry.Ring{circle(place("4.9,0"), 5*mm).Outer.Reversed()}
	require.NoError(t, touching.Validate())

	thin := geometry.OutlineFromRing(geometry.Ring{ // half a micrometre: flat within the tolerance
		geometry.CurveTo(place("10,0.0005"), place("20,0.0005"), place("30,0")),
		geometry.CurveTo(place("20,-0.0005"), place("10,-0.0005"), place("0,0")),
	})
	require.ErrorContains(t, thin.Validate(), "the outline crosses or touches itself")

	single := geometry.Outline{Outer: geometry.Ring{geometry.CurveTo(place("10,0"), place("0,10"), place("0,0"))}}
	require.ErrorContains(t, single.Validate(), "too few sides to close")
	dot := geometry.Outline{Outer: geometry.Ring{
		geometry.CurveTo(place("0,0"), place("0,0"), place("0,0")), geometry.LineTo(place("0,0"))}}
	require.ErrorContains(t, dot.Validate(), "has one point twice")
}

func TestSegmentsMeetIsExact(t *testing.T) {
	small := rapid.Custom(func(t *rapid.T) geometry.Point {
		at := func() geometry.Length { return geometry.Length(rapid.IntRange(0, 4).Draw(t, "at")) }
		return geometry.Point{X: at(), Y: at()}
	})
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SliceOfN(small, 4, 4).Draw(t, "ends")
		k := geometry.Length(rapid.SampledFrom([]int64{1, 7, 1e6, 25e9}).Draw(t, "scale"))
		by := geometry.Vector{X: geometry.Length(rapid.Int64Range(-3, 3).Draw(t, "nm"))}
		for i := range p {
			p[i] = geometry.Point{X: k * p[i].X, Y: k * p[i].Y}
		}
		p[3] = p[3].Add(by)
		require.Equal(t, meetSlowly(edge{p[0], p[1]}, edge{p[2], p[3]}), geometry.SegmentsMeet(p[0], p[1], p[2], p[3]))
	})
}

// Rings as they come, crossing or not, with and without a hole.
func TestValidateAgainstAllPairs(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	valid := 0
	for range 1500 {
		corners := make([]geometry.Point, 3+rng.IntN(5))
		for i := range corners {
			corners[i] = gridPoint(rng, 6)
		}
		o := geometry.OutlineFromPoints(corners...)
		if rng.IntN(2) == 0 {
			o = geometry.Outline{Outer: untangled(rng, 3+rng.IntN(6), 6)}
			hole := untangled(rng, 3, 2).Reversed()
			o.Holes = append(o.Holes, geometry.Outline{Outer: hole}.Moved(gridPoint(rng, 5).Sub(geometry.Point{})).Outer)
		}
		want := validSlowly(o)
		require.Equal(t, want, o.Validate() == nil, "%s: %v", shapeText(o), o.Validate())
		if want {
			valid++
		}
	}
	t.Logf("%d of 1500 are valid", valid)
	require.Greater(t, valid, 150)
}

func TestValidateInInches(t *testing.T) {
	bowTie := rawShape("0,12.7 25.4,0 25.4,25.4 0,0")
	require.EqualError(t, bowTie.ValidateIn(geometry.Inches),
		"the outline crosses or touches itself, between the sides behind corner 1 at 0 in, 1/2 in and corner 3 at 1 in, 1 in")
	many := shape("0,0 50,0 50,10 0,10")
	for k := range 12 {
		x := geometry.Length(k) * 3 * mm
		many.Holes = append(many.Holes, rawShape("2,2 2,4 4,4").Moved(geometry.Vector{X: x}).Outer)
	}
	require.NoError(t, many.Validate())
	many.Holes[11] = many.Holes[11].Reversed()
	require.EqualError(t, many.Validate(), "its hole 12 runs the wrong way round")
	many.Holes[9] = many.Holes[9].Reversed()
	require.EqualError(t, many.Validate(), "its tenth hole runs the wrong way round")
}
