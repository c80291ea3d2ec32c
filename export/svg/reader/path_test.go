package reader

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// completeE is the complete elliptic integral E(k) by the arithmetic-
// geometric mean, NIST Digital Library of Mathematical Functions §19.8.6:
// E(k) = pi / (2 M(1, k')) (1 - sum of 2^(n-1) c_n^2).
func completeE(k float64) float64 {
	a, g, c := 1.0, math.Sqrt(1-k*k), k
	sum, power := 0.0, 0.5
	for range 40 {
		sum += power * c * c
		power *= 2
		a, g, c = (a+g)/2, math.Sqrt(a*g), (a-g)/2
	}
	return math.Pi / (2 * a) * (1 - sum)
}

// perimeter is that of an ellipse: 4 a E(k) (DLMF §19.30.3 with §19.30.5).
func perimeter(a, b float64) float64 {
	a, b = max(a, b), min(a, b)
	return 4 * a * completeE(math.Sqrt(1-b*b/(a*a)))
}

// Source: E(1/sqrt 2) from Abramowitz and Stegun, table 17.1 (m = 0.5, nine
// places); Ramanujan's second approximation, which is off by less than
// 1e-9 of itself where the half diameters are 3 to 2.
func TestPerimeterItself(t *testing.T) {
	require.InDelta(t, 1.350643881, completeE(math.Sqrt(0.5)), 1e-9)
	require.InDelta(t, 2*math.Pi, perimeter(1, 1), 1e-12)
	h := 1.0 / 25
	ramanujan := math.Pi * 5 * (1 + 3*h/(10+math.Sqrt(4-3*h)))
	require.InDelta(t, ramanujan, perimeter(3, 2), 1e-7)
}

// parabola is the length of a parabola's arc on a base b with the height h,
// by integrating sqrt(1 + y'^2) for y = 4h/b^2 x (b - x).
func parabola(b, h float64) float64 {
	r := math.Hypot(b, 4*h)
	return r/2 + b*b/(8*h)*math.Log((4*h+r)/b)
}

// kappa is where the control points of the usual cubic quarter of a circle
// lie: 4/3 (sqrt 2 - 1).
const kappa = 0.5522847498307936

func TestClosedForms(t *testing.T) {
	given := func(f float64) measure { return measure{value: f, given: true} }
	rounded := func(w, h, rx, ry float64) Path { return rectangle(5, 7, w, h, given(rx), given(ry)) }
	sector := 2 * math.Asin(math.Sqrt(500)/2/20)
	tests := map[string]struct {
		path         Path
		length, area float64
		box          [4]float64 // x, y, w, h
	}{
		// Straight lines.
		"square":            {dataPath(t, "M1 2h3v3h-3z"), 12, 9, [4]float64{1, 2, 3, 3}},
		"square, other way": {dataPath(t, "M1 2v3h3v-3z"), 12, -9, [4]float64{1, 2, 3, 3}},
		"triangle":          {dataPath(t, "M0 0L3 0L3 4Z"), 12, 6, [4]float64{0, 0, 3, 4}},
		"square in square":  {dataPath(t, "M0 0h9v9h-9zM3 3v3h3v-3z"), 48, 72, [4]float64{0, 0, 9, 9}},
		"no length":         {dataPath(t, "M5 5Z"), 0, 0, [4]float64{5, 5, 0, 0}},
		"open, not closed":  {dataPath(t, "M0 0L3 0L3 4"), 7, 6, [4]float64{0, 0, 3, 4}},

		// Circles and ellipses: 2 pi r, pi r^2; 4 a E(k), pi a b.
		"circle":            {ellipse(3, 4, 10, 10), 20 * math.Pi, 100 * math.Pi, [4]float64{-7, -6, 20, 20}},
		"circle of arcs":    {dataPath(t, "M-10 0a10 10 0 0 1 20 0a10 10 0 0 1-20 0z"), 20 * math.Pi, 100 * math.Pi, [4]float64{-10, -10, 20, 20}},
		"circle, other way": {dataPath(t, "M-10 0a10 10 0 0 0 20 0a10 10 0 0 0-20 0z"), 20 * math.Pi, -100 * math.Pi, [4]float64{-10, -10, 20, 20}},
		"ellipse":           {ellipse(0, 0, 3, 2), perimeter(3, 2), 6 * math.Pi, [4]float64{-3, -2, 6, 4}},
		"flat ellipse":      {ellipse(0, 0, 50, 0.5), perimeter(50, 0.5), 25 * math.Pi, [4]float64{-50, -0.5, 100, 1}},
		// Turned by 30 degrees, the half width is hypot(a cos, b sin).
		"turned ellipse": {
			dataPath(t, "M-86.60254037844386 -50A100 10 30 0 1 86.60254037844386 50A100 10 30 0 1 -86.60254037844386 -50Z"),
			perimeter(100, 10), 1000 * math.Pi,
			[4]float64{-math.Hypot(100*math.Sqrt(3)/2, 5), -math.Hypot(50, 10*math.Sqrt(3)/2), 2 * math.Hypot(100*math.Sqrt(3)/2, 5), 2 * math.Hypot(50, 10*math.Sqrt(3)/2)},
		},
		// SVG 2 §9.3.8: an arc by its ends, over a chord of sqrt(20^2+10^2)
		// with r = 20: the angle is 2 asin(c/2r), the segment's area
		// r^2/2 (angle - sin angle).
		"segment of a circle": {
			dataPath(t, "M0 0A20 20 0 0 1 10 20Z"), 20*sector + math.Sqrt(500), 200 * (sector - math.Sin(sector)),
			[4]float64{0, 0, 10.167603, 20},
		},

		// Parabolas: a quadratic curve's apex is half as high as its control
		// point; the area is 2/3 of base by height (Archimedes).
		"parabola":      {dataPath(t, "M0 0Q30 -80 60 0Z"), parabola(60, 40) + 60, 2.0 / 3 * 60 * 40, [4]float64{0, -40, 60, 40}},
		"low parabola":  {dataPath(t, "M0 0Q50 -0.2 100 0Z"), parabola(100, 0.1) + 100, 2.0 / 3 * 100 * 0.1, [4]float64{0, -0.1, 100, 0.1}},
		"tall parabola": {dataPath(t, "M0 0Q1 -200 2 0Z"), parabola(2, 100) + 2, 2.0 / 3 * 2 * 100, [4]float64{0, -100, 2, 100}},
		// The same parabola as a cubic: control points two thirds of the way.
		"parabola as a cubic": {dataPath(t, "M0 0C20 -53.333333333333336 40 -53.333333333333336 60 0Z"), parabola(60, 40) + 60, 1600, [4]float64{0, -40, 60, 40}},
		// A straight quadratic that overshoots by 1/3: x = 4t(1-t) + t^2 has
		// its peak at t = 2/3, x = 4/3, so the way is 4/3 + 1/3.
		"there and back": {dataPath(t, "M0 0Q2 0 1 0"), 5.0 / 3, 0, [4]float64{0, 0, 4.0 / 3, 0}},

		// Neile's parabola y^2 = x^3 from 0 to 1, the first curve ever
		// rectified: (13 sqrt 13 - 8)/27; the area under it is 2/5, so
		// between it and the chord lies 1/2 - 2/5.
		"Neile's parabola": {dataPath(t, "M0 0C0 0 0.3333333333333333 0 1 1Z"), (13*math.Sqrt(13)-8)/27 + math.Sqrt2, 0.1, [4]float64{0, 0, 1, 1}},
		// The usual cubics: one has the area (10 + 12k - 3k^2)/20, by hand from
		// the integral of x dy - y dx; its length is by the midpoint rule with
		// 200 000 steps.
		"circle of cubics": {
			dataPath(t, "M1 0C1 .5522847498307936 .5522847498307936 1 0 1S-1 .5522847498307936 -1 0S-.5522847498307936 -1 0 -1S1 -.5522847498307936 1 0Z"),
			4 * 1.5710166980725564, (10 + 12*kappa - 3*kappa*kappa) / 5, [4]float64{-1, -1, 2, 2},
		},

		// SVG 2 §10.2: straight sides, and an ellipse in the four corners.
		"rounded rectangle": {rounded(40, 30, 5, 5), 2*(40-10) + 2*(30-10) + 10*math.Pi, 1200 - (4-math.Pi)*25, [4]float64{5, 7, 40, 30}},
		"two radii":         {rounded(40, 30, 12, 3), 2*(40-24) + 2*(30-6) + perimeter(12, 3), 1200 - (4-math.Pi)*36, [4]float64{5, 7, 40, 30}},
		"all round":         {rounded(40, 30, 99, 99), perimeter(20, 15), 300 * math.Pi, [4]float64{5, 7, 40, 30}},
		"one side all round": {rounded(40, 30, 5, 99), 2*(40-10) + perimeter(5, 15), 1200 - (4-math.Pi)*75,
			[4]float64{5, 7, 40, 30}},
		"no radius": {rounded(40, 30, 5, 0), 140, 1200, [4]float64{5, 7, 40, 30}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			require.InDelta(t, test.length, test.path.Length(), 1e-9*(1+test.length))
			if name == "open, not closed" {
				require.NotEqual(t, Closing, last(test.path).Kind)
			} else {
				require.InDelta(t, test.area, area(test.path), 1e-9*(1+math.Abs(test.area)))
			}
			b := test.path.Bounds()
			require.InDeltaSlice(t, test.box[:], []float64{b.Min.X, b.Min.Y, b.W(), b.H()}, 1e-5, boxText(b))
		})
	}
}

func last(p Path) (s Segment) {
	for _, s = range p.Segments() {
		continue
	}
	return s
}

// The radius of the usual cubic is too large by up to 2.7253e-4. Source: the
// largest of 100 000 points of it, in another language.
func TestCubicCircle(t *testing.T) {
	p := dataPath(t, "M1 0C1 .5522847498307936 .5522847498307936 1 0 1")
	s := last(p)
	most := 0.0
	for i := range 10001 {
		off := s.At(float64(i)/10000).length() - 1
		require.GreaterOrEqual(t, off, -1e-12)
		most = max(most, off)
	}
	require.InDelta(t, 2.7253e-4, most, 1e-8)
}

// Area over any map goes by the determinant, lengths under a rotation and
// the same scale both ways by the scale, and a point of the path by the map.
func TestMappedProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, m := drawPath(t), drawMatrix(t)
		q := copied(p)
		q.mapped(m)
		size := 1 + p.Length()*p.Length()*10
		require.InDelta(t, area(p)*(m.a*m.d-m.b*m.c), area(q), 1e-9*size)

		var from []Segment
		for _, s := range p.Segments() {
			from = append(from, s)
		}
		at := drawNumber(t, "t", 0, 1)
		i := 0
		for _, s := range q.Segments() {
			requireNear(t, m.point(from[i].At(at)), s.At(at), 1e-8)
			requireNear(t, m.point(from[i].To), s.To, 1e-8)
			i++
		}
		require.Len(t, from, i)

		scale := drawNumber(t, "scale", 0.1, 10)
		r := copied(p)
		r.mapped(rotation(drawNumber(t, "angle", -720, 720)).then(scaling(scale, -scale)).about(3, -7))
		require.InDelta(t, scale*p.Length(), r.Length(), 1e-2*(1+scale*p.Length()))
		require.InDelta(t, -scale*scale*area(p), area(r), 1e-9*size*scale*scale)
	})
}

// The place that the area of a segment is taken from does not matter once
// the path is closed.
func TestAreaFromAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, o := drawPath(t), drawPoint(t, "o")
		var sum float64
		for _, s := range p.Segments() {
			sum += s.Area(o)
		}
		require.InDelta(t, area(p), sum, 1e-9*(1+p.Length()*p.Length()*10))
	})
}

// The slow twin of lengths, areas and boxes: very many short chords.
func TestAgainstChords(t *testing.T) {
	const n = 1500
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t)
		var length, twice float64
		var box Box
		var size float64
		for _, s := range p.Segments() {
			before := s.At(0)
			requireNear(t, s.From, before, 1e-7, "starts beside its start")
			along, slowest, fastest := 0.0, math.Inf(1), 0.0
			for i := range n {
				next := s.At(float64(i+1) / n)
				step := next.sub(before).length()
				along, slowest, fastest = along+step, min(slowest, step), max(fastest, step)
				twice += before.cross(next)
				box.add(before)
				before = next
			}
			requireNear(t, s.To, before, 1e-7, "ends beside its end")
			box.add(before)
			size += s.Length()
			// Where the point nearly stands still, the length is less sure.
			tolerance := 1e-2 * (1 + along)
			if slowest > 0.05*fastest {
				tolerance = 1e-5 * (1 + along)
				require.GreaterOrEqual(t, s.Length(), along-1e-6*(1+along), "chords are never longer")
			}
			require.InDelta(t, along, s.Length(), tolerance)
			length += s.Length()
		}
		require.InDelta(t, length, p.Length(), 1e-9*(1+length))
		require.InDelta(t, twice/2, area(p), 1e-4*(1+size*size))
		b := p.Bounds()
		require.LessOrEqual(t, b.Min.X, box.Min.X+1e-7)
		require.LessOrEqual(t, b.Min.Y, box.Min.Y+1e-7)
		require.GreaterOrEqual(t, b.Max.X, box.Max.X-1e-7)
		require.GreaterOrEqual(t, b.Max.Y, box.Max.Y-1e-7)
		requireNear(t, box.Min, b.Min, 1e-3+1e-5*size, "larger than the curve")
		requireNear(t, box.Max, b.Max, 1e-3+1e-5*size, "larger than the curve")
	})
}

// off is the distance of a point from the chord between two others.
func off(p, a, b Point) float64 {
	d := b.sub(a)
	t := 0.0
	if l := d.dot(d); l > 0 {
		t = min(max(p.sub(a).dot(d)/l, 0), 1)
	}
	return p.sub(between(a, b, t)).length()
}

func TestFlattenStaysNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t)
		p.mapped(drawMatrix(t))
		tolerance := math.Exp(drawNumber(t, "log of the tolerance", math.Log(0.05), math.Log(5)))
		for _, s := range p.Segments() {
			points := s.Flatten(tolerance, []Point{{1e9, 1e9}, s.From})
			require.Equal(t, Point{1e9, 1e9}, points[0], "what stood there is kept")
			points = points[1:]
			require.Equal(t, s.To, points[len(points)-1])
			if s.Kind == Line || s.Kind == Closing {
				require.Len(t, points, 2)
			}
			for i := range 201 {
				at := s.At(float64(i) / 200)
				nearest := math.Inf(1)
				for j := range len(points) - 1 {
					nearest = min(nearest, off(at, points[j], points[j+1]))
				}
				require.LessOrEqual(t, nearest, tolerance+1e-7)
			}
		}
	})
}

// A circle of radius r in n chords is off by r (1 - cos(pi/n)), so that four
// quarters at 0.01 of r = 10 need at least 71 chords.
func TestFlattenIsNotWasteful(t *testing.T) {
	n := 0
	for _, s := range ellipse(0, 0, 10, 10).Segments() {
		n += len(s.Flatten(0.01, nil))
	}
	require.GreaterOrEqual(t, n, 71)
	require.LessOrEqual(t, n, 2*71)
	for _, s := range ellipse(0, 0, 1e6, 1e6).Segments() {
		require.LessOrEqual(t, len(s.Flatten(1e-9, nil)), 1000, "and never without end")
	}
}

func TestDirection(t *testing.T) {
	r := math.Sqrt(0.5)
	tests := map[string]struct {
		data       string
		start, end Point
	}{
		"line":                   {"M0 0L3 4", Point{0.6, 0.8}, Point{0.6, 0.8}},
		"no length":              {"M3 3L3 3", Point{}, Point{}},
		"quadratic":              {"M0 0Q1 1 2 0", Point{r, r}, Point{r, -r}},
		"cubic":                  {"M0 0C0 1 9 9 9 8", Point{0, 1}, Point{0, -1}},
		"quarter of a circle":    {"M10 0A10 10 0 0 1 0 10", Point{0, 1}, Point{-1, 0}},
		"the other way":          {"M0 10A10 10 0 0 0 10 0", Point{1, 0}, Point{0, -1}},
		"control on the start":   {"M0 0C0 0 0 5 5 5", Point{0, 1}, Point{1, 0}},
		"control on the end":     {"M0 0C0 5 5 5 5 5", Point{0, 1}, Point{1, 0}},
		"quadratic on its end":   {"M0 0Q6 8 6 8", Point{0.6, 0.8}, Point{0.6, 0.8}},
		"both on their ends":     {"M0 0C0 0 6 8 6 8", Point{0.6, 0.8}, Point{0.6, 0.8}},
		"a curve of one point":   {"M3 3C3 3 3 3 3 3", Point{}, Point{}},
		"turned half an ellipse": {"M0 0A20 10 90 0 1 0 40", Point{1, 0}, Point{-1, 0}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			s := last(dataPath(t, test.data))
			requireNear(t, test.start, s.Direction(0), 1e-3)
			requireNear(t, test.end, s.Direction(1), 1e-3)
		})
	}
}

// SVG 2 §9.3.3, §9.3.4 and §9.5.3: where sub-paths start, and which there
// are. Each sub-path is its segments' kinds.
func TestSegmentsBySubPath(t *testing.T) {
	tests := map[string]struct {
		data string
		want []string
	}{
		"nothing":                  {"", nil},
		"a bare moveto":            {"M1 1", nil},
		"two of them":              {"M1 1M2 2", nil},
		"one line":                 {"M1 1L2 2", []string{"L"}},
		"moves between":            {"M1 1M2 2L3 3M4 4M5 5L6 6M7 7", []string{"L", "L"}},
		"closed":                   {"M1 1L2 2L3 1Z", []string{"LLZ"}},
		"closed point":             {"M1 1Z", []string{"Z"}},
		"going on behind Z":        {"M1 1L2 2ZL3 3L4 4", []string{"LZ", "LL"}},
		"closed twice":             {"M1 1L2 2ZZ", []string{"LZ", "Z"}},
		"a moveto behind Z":        {"M1 1L2 2ZM5 5L6 6Z", []string{"LZ", "LZ"}},
		"all kinds":                {"M1 1L2 2Q3 3 4 1C5 5 6 6 7 7A9 9 0 0 1 9 9Z", []string{"LQCAZ"}},
		"an arc of zero length":    {"M1 1A9 9 0 0 1 1 1L2 2", []string{"L"}},
		"an arc of zero radius":    {"M1 1A0 9 0 0 1 5 5A9 0 0 0 1 6 6", []string{"LL"}},
		"moves only between lines": {"M0 0L1 1M2 2Z", []string{"L", "Z"}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			var got []string
			p := dataPath(t, test.data)
			for sub, s := range p.Segments() {
				require.LessOrEqual(t, sub, len(got))
				if sub == len(got) {
					got = append(got, "")
				}
				got[sub] += string(rune(s.Kind))
			}
			require.Equal(t, test.want, got)
			for range p.Segments() { // a loop may be left
				break
			}
		})
	}
}

func TestBox(t *testing.T) {
	var b Box
	require.True(t, b.Empty())
	require.Zero(t, b.W())
	b.addBox(Box{})
	require.True(t, b.Empty(), "an empty box adds nothing")
	b = BoxOf([]Point{{3, -1}})
	require.False(t, b.Empty())
	require.Equal(t, "3 -1 0 0", boxText(b))
	b.addBox(BoxOf([]Point{{-2, 5}, {0, 0}}))
	require.Equal(t, "-2 -1 5 6", boxText(b))
	require.True(t, BoxOf(nil).Empty())
	require.True(t, dataPath(t, "M1 1").Bounds().Empty(), "SVG 2 §9.5.3: a moveto alone draws nothing")
}
