package fronts

import (
	"math"
	"slices"
	"strconv"

	"panelry/geometry"
)

// The sunburst: rays from a place to the border, cut into panels between
// them, around a disc if there is one. The fan is the same from a corner. A
// panel's tip stands (g/2)/sin(θ/2) back from the place, with θ between its
// rays and g the gap. Rays are counted clockwise, from the first that points up
// or comes next; the disc is counted last.
//
//	+--\--|--/--+
//	|\  \ | /  /|
//	|--  \|/  --|
//	|--  /|\  --|
//	|/  / | \  \|
//	+--/--|--\--+
func init() {
	rays := func(n int) Option {
		return Option{Name: "rays", Kind: Count, Default: n, Least: 2, Help: "how many panels there are round the place"}
	}
	share := Option{Name: "share", Kind: Choice, Default: "angle", Words: []string{"angle", "border"}, Help: "what the rays share out equally"}
	disc := Option{Name: "disc", Kind: Length, Help: "the radius of a disc in the middle; left out: none"}
	Register(Layout{
		Name:    "sunburst",
		Summary: "rays from a place to the border",
		Roles:   "ray by ray, then the disc",
		Options: []Option{
			rays(12),
			{Name: "centre", Kind: Spot, Default: "middle", Help: `where the rays start: "middle", "bottom", "top left" ..., or two shares, across and down`},
			share, disc,
		},
		Divide: func(b Brief) (Front, error) {
			place, _ := b.Options.Place("centre")
			return divideRays(b, place.In(b.Frame))
		},
	})
	Register(Layout{
		Name:    "fan",
		Summary: "rays from a corner",
		Roles:   "ray by ray, then the disc",
		Options: []Option{
			rays(4),
			{Name: "corner", Kind: Choice, Default: "bottom left", Words: []string{"bottom left", "bottom right", "top left", "top right"}, Help: "where the rays start"},
			share, disc,
		},
		Divide: func(b Brief) (Front, error) {
			place, err := readPlace(b.Options.Text("corner"))
			if err != nil {
				return Front{}, err
			}
			return divideRays(b, place.In(b.Frame))
		},
	})
}

const tryRays = "use a smaller gap or margin, or fewer rays"

func divideRays(b Brief, centre geometry.Point) (Front, error) {
	n := b.Options.Count("rays")
	angles := rayAngles(b, centre, n)
	far := 4 * (b.Frame.W() + b.Frame.H())
	at := func(degrees float64) geometry.Point {
		d := direction(degrees)
		return centre.Add(geometry.Vector{X: d.X / (10 * geometry.Metre / far), Y: d.Y / (10 * geometry.Metre / far)})
	}
	var cells []Cell
	for k := range len(angles) - 1 {
		from, to := angles[k], angles[k+1]
		corners := []geometry.Point{centre, at(from)}
		if to-from > 90 { // so that the far side stays outside of the frame
			corners = append(corners, at((from+to)/2))
		}
		cells = append(cells, Cell{Name: number(k), Role: k, Outline: geometry.OutlineFromPoints(append(corners, at(to))...)})
	}
	front, err := frontFromCells(b, cells, tryRays)
	if err != nil {
		return Front{}, err
	}
	sortByNumber(front.Panels)
	if len(front.Panels) < n {
		return Front{}, checkSize(missingNumber(front.Panels), geometry.Size{}, b, tryRays)
	}
	if r := b.Options.Length("disc"); r > 0 {
		return withDisc(b, front, centre, r)
	}
	return front, nil
}

// rayAngles returns the directions of the rays, clockwise from up and rising.
// Where the place lies on the border the first and last panel reach past it,
// so that the frame cuts them off.
func rayAngles(b Brief, c geometry.Point, n int) []float64 {
	start, sweep := opening(b.Frame, c)
	var out []float64
	for k := range n + 1 {
		part := float64(k) / float64(n)
		if b.Options.Text("share") == "border" {
			out = append(out, borderAngle(b.Frame, c, start, sweep, part))
		} else {
			out = append(out, start+sweep*part)
		}
	}
	if sweep < 360 {
		out[0] -= 80
		out[n] += 80
	}
	return out
}

// opening returns where the frame lies as seen from a place: the first
// direction, clockwise, and how many degrees it opens.
func opening(f geometry.Rect, c geometry.Point) (start, sweep float64) {
	left, right := c.X <= f.Min.X, c.X >= f.Max.X
	top, bottom := c.Y <= f.Min.Y, c.Y >= f.Max.Y
	switch {
	case left && bottom:
		return 0, 90
	case left && top:
		return 90, 90
	case right && top:
		return 180, 90
	case right && bottom:
		return 270, 90
	case left:
		return 0, 180
	case top:
		return 90, 180
	case right:
		return 180, 180
	case bottom:
		return 270, 180
	}
	return 0, 360
}

// borderAngle returns the direction in which a share of the border, from the
// opening's start, has been passed: the border is walked in small steps and
// then met exactly by halving.
func borderAngle(f geometry.Rect, c geometry.Point, start, sweep, part float64) float64 {
	if part == 0 || part == 1 {
		return start + sweep*part
	}
	length := func(to float64) float64 { return borderLength(f, c, start, to) }
	want := length(start+sweep) * part
	lo, hi := start, start+sweep
	for range 60 {
		mid := (lo + hi) / 2
		if length(mid) < want {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// borderLength returns the length of border between two directions.
func borderLength(f geometry.Rect, c geometry.Point, from, to float64) float64 {
	stops := []float64{from, to}
	for _, corner := range f.Outline().Outer.Points() {
		v := corner.Sub(c)
		a := math.Atan2(float64(v.X), -float64(v.Y)) * 180 / math.Pi
		const near = 1e-7 // of a corner in the direction itself, which is no stop
		for a <= from+near {
			a += 360
		}
		if a < to-near && v != (geometry.Vector{}) {
			stops = append(stops, a)
		}
	}
	slices.Sort(stops)
	sum := 0.0
	for i := 1; i < len(stops); i++ {
		x1, y1 := borderPoint(f, c, stops[i-1], 1e-9)
		x2, y2 := borderPoint(f, c, stops[i], -1e-9)
		sum += math.Hypot(x2-x1, y2-y1)
	}
	return sum
}

// borderPoint returns where a ray meets the border, looked at a trifle
// further clockwise, so that at corners it is clear on which side.
func borderPoint(f geometry.Rect, c geometry.Point, degrees, trifle float64) (x, y float64) {
	sin, cos := math.Sincos((degrees + trifle) * math.Pi / 180)
	dx, dy := sin, -cos
	reach := math.Inf(1)
	limit := func(d float64, lo, hi geometry.Length) {
		if d > 1e-12 {
			reach = math.Min(reach, float64(hi)/d)
		} else if d < -1e-12 {
			reach = math.Min(reach, float64(lo)/d)
		}
	}
	limit(dx, f.Min.X-c.X, f.Max.X-c.X)
	limit(dy, f.Min.Y-c.Y, f.Max.Y-c.Y)
	return dx * reach, dy * reach
}

// missingNumber returns the first number that no panel has.
func missingNumber(list []Panel) string {
	for k, p := range list {
		if leadingNumber(p.Name) != k+1 {
			return number(k)
		}
	}
	return number(len(list))
}

// number names panel k, counted from 0.
func number(k int) string { return strconv.Itoa(k + 1) }

// sortByNumber puts numbered panels in order; one that the frame has parted
// carries letters behind its number.
func sortByNumber(list []Panel) {
	slices.SortStableFunc(list, func(p, q Panel) int { return leadingNumber(p.Name) - leadingNumber(q.Name) })
}

func leadingNumber(name string) int {
	n := 0
	for _, c := range name {
		if c < '0' || c > '9' {
			break
		}
		n = 10*n + int(c-'0')
	}
	return n
}
