package checker

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/export/svg/findings"
	"panelry/export/svg/reader"
)

var partner = regexp.MustCompile(`path#(p\d)[; ,]|path#(p\d) for`)

// pairsOf returns the pairs of paths that a rule names, by ids, sorted.
func pairsOf(t require.TestingT, r Report, rule *findings.Rule) []string {
	list := []string{}
	for _, f := range r.Findings {
		if f.Rule != rule {
			continue
		}
		m := partner.FindStringSubmatch(f.Message)
		require.NotNil(t, m, f.Message)
		list = append(list, strings.TrimPrefix(f.Element, "path#")+" "+m[1]+m[2])
	}
	slices.Sort(list)
	return list
}

// A spacing of half steps of the grid, so that it is often met exactly.
func TestPairsAgainstTwin(t *testing.T) {
	seen := map[relation]int{}
	close, exact := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		drawn := rapid.SliceOfN(loops(9), 2, 5).Draw(t, "loops")
		tenths := rapid.SampledFrom([]int64{10, 7, 13}).Draw(t, "tenths of a mm")
		halves := rapid.Int64Range(1, 5).Draw(t, "spacing in half steps")
		var inside strings.Builder
		for i, l := range drawn {
			inside.WriteString(pathOf(fmt.Sprintf("p%d", i), l.data(tenths)))
		}
		r := Check([]byte(cutLayer(inside.String())), Demands{Spacing: float64(halves*tenths) / 20})
		require.True(t, r.Sized)
		want := map[*findings.Rule][]string{findings.CrossingOutlines: {}, findings.DoubledEdge: {}, findings.TooClose: {}}
		unsure := map[string]bool{}
		for i, l := range drawn {
			for j := i + 1; j < len(drawn); j++ {
				m := drawn[j]
				pair := fmt.Sprintf("p%d p%d", i, j)
				rel := relationOf(l, m)
				seen[rel]++
				limit, gap := fraction{halves * halves, 4}, l.squaredApart(m)
				// Where one may be a hole, of these or of others, only the
				// other rules are compared.
				unsure[pair] = slices.ContainsFunc(drawn, func(o loop) bool { return oneInOther(o, l) || oneInOther(o, m) })
				switch {
				case rel == crossing:
					want[findings.CrossingOutlines] = append(want[findings.CrossingOutlines], pair)
				case rel == onOneAnother:
					want[findings.DoubledEdge] = append(want[findings.DoubledEdge], pair)
				case unsure[pair]:
				case gap.less(limit):
					want[findings.TooClose] = append(want[findings.TooClose], pair)
					close++
				case !limit.less(gap):
					exact++
				}
			}
		}
		for rule, list := range want {
			got := pairsOf(t, r, rule)
			if rule == findings.TooClose {
				got = slices.DeleteFunc(got, func(pair string) bool { return unsure[pair] })
			}
			require.Equal(t, list, got, "%s\n%s", rule.ID, inside.String())
		}
		require.False(t, breaks(r, findings.SelfCrossing))
		require.False(t, breaks(r, findings.Spike))
	})
	// The property says something only where all of these happen.
	for rel := apartFrom; rel <= onOneAnother; rel++ {
		require.Positive(t, seen[rel], "relation %d", rel)
	}
	require.Positive(t, close)
	require.Positive(t, exact)
}

// oneInOther reports whether one of two different loops lies in the box of
// the other.
func oneInOther(l, m loop) bool {
	return &l[0] != &m[0] && (l.boxHolds(m) || m.boxHolds(l))
}

// The same loops as parts of one path: a finding a pair, of the path itself.
func TestPartsAgainstTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		drawn := rapid.SliceOfN(loops(9), 2, 4).Draw(t, "loops")
		var data string
		crossed, doubled := 0, 0
		for i, l := range drawn {
			data += l.data(10) + " "
			for _, m := range drawn[:i] {
				switch relationOf(l, m) {
				case crossing:
					crossed++
				case onOneAnother:
					doubled++
				}
			}
		}
		r := Check([]byte(cutLayer(pathOf("a", data))), Demands{})
		require.Len(t, messagesOf(r, findings.SelfCrossing), crossed, data)
		require.Len(t, messagesOf(r, findings.DoubledEdge), doubled, data)
		require.Empty(t, messagesOf(r, findings.CrossingOutlines))
	})
}

// Straight score lines: those cross that have a point inside both in common,
// and not those that end on one another.
func TestLinesAgainstTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Custom(func(t *rapid.T) spot {
			return spot{rapid.Int64Range(0, 9).Draw(t, "x"), rapid.Int64Range(0, 9).Draw(t, "y")}
		})
		lines := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) bar {
			return bar{at.Draw(t, "from"), at.Draw(t, "to")}
		}).Filter(func(s bar) bool { return s.a != s.b }), 2, 8).Draw(t, "lines")
		var inside strings.Builder
		crossed, doubled := []string{}, []string{}
		for i, s := range lines {
			fmt.Fprintf(&inside, `<path id="p%d" d="M %d %d L %d %d"/>`, i, s.a.x, s.a.y, s.b.x, s.b.y)
			for j := i + 1; j < len(lines); j++ {
				pair := fmt.Sprintf("p%d p%d", i, j)
				switch u := lines[j]; {
				case overlapping(s, u):
					doubled = append(doubled, pair)
				case across(s, u):
					crossed = append(crossed, pair)
				}
			}
		}
		r := Check([]byte(layer(`id="score"`, inside.String())), Demands{})
		require.Equal(t, crossed, pairsOf(t, r, findings.CrossingOutlines), inside.String())
		require.Equal(t, doubled, pairsOf(t, r, findings.DoubledEdge), inside.String())
	})
}

// The distance of two edges against exact fractions, and the place that goes
// with it lies on one of them.
func TestApartAgainstTwin(t *testing.T) {
	at := rapid.Custom(func(t *rapid.T) spot {
		return spot{rapid.Int64Range(0, 12).Draw(t, "x"), rapid.Int64Range(0, 12).Draw(t, "y")}
	})
	rapid.Check(t, func(t *rapid.T) {
		s, u := bar{at.Draw(t, "a"), at.Draw(t, "b")}, bar{at.Draw(t, "c"), at.Draw(t, "d")}
		e, f := edgeOf(s), edgeOf(u)
		gap, p := apart(&e, &f)
		want := squaredApart(s, u)
		require.InDelta(t, math.Sqrt(float64(want.num)/float64(want.den)), gap, 1e-12)
		d, d2 := toLine(p, &e), toLine(p, &f)
		require.InDelta(t, gap, max(d, d2), 1e-12, "the place is on the one, and as far from the other")
		require.InDelta(t, 0, min(d, d2), 1e-12)
	})
}

func edgeOf(s bar) edge {
	return edge{a: reader.Point{X: float64(s.a.x), Y: float64(s.a.y)}, b: reader.Point{X: float64(s.b.x), Y: float64(s.b.y)}}
}

// Each pair of edges within reach is found once, by the one that comes first.
func TestGridFindsAllPairs(t *testing.T) {
	coordinate := rapid.OneOf(rapid.Float64Range(-50, 150), rapid.Map(rapid.IntRange(-3, 12), func(i int) float64 { return float64(i) * 10 }))
	at := rapid.Custom(func(t *rapid.T) reader.Point {
		return reader.Point{X: coordinate.Draw(t, "x"), Y: coordinate.Draw(t, "y")}
	})
	one := rapid.Custom(func(t *rapid.T) edge {
		e := edge{a: at.Draw(t, "a")}
		switch rapid.SampledFrom([]string{"far", "short", "level", "upright", "a point"}).Draw(t, "kind") {
		case "far":
			e.b = at.Draw(t, "b")
		case "short":
			e.b = reader.Point{X: e.a.X + rapid.Float64Range(-2, 2).Draw(t, "dx"), Y: e.a.Y + rapid.Float64Range(-2, 2).Draw(t, "dy")}
		case "level":
			e.b = reader.Point{X: coordinate.Draw(t, "x"), Y: e.a.Y}
		case "upright":
			e.b = reader.Point{X: e.a.X, Y: coordinate.Draw(t, "y")}
		default:
			e.b = e.a
		}
		return e
	})
	rapid.Check(t, func(t *rapid.T) {
		edges := rapid.SliceOfN(one, 1, 60).Draw(t, "edges")
		reach := rapid.SampledFrom([]float64{0.001, 0.03, 1, 10, 40}).Draw(t, "reach")
		built := rapid.SampledFrom([]float64{reach, 0.02}).Draw(t, "reach the grid is built for")
		g := newGrid(edges, built)
		seen := make([]int32, len(edges))
		for i := range edges {
			found := map[int]int{}
			require.True(t, g.near(edges, i, reach, seen, func(j int) bool { found[j]++; return true }))
			for j := range edges {
				require.LessOrEqual(t, found[j], 1)
				if j <= i {
					require.Zero(t, found[j])
					continue
				}
				if gap, _ := apart(&edges[i], &edges[j]); gap <= reach {
					require.Equal(t, 1, found[j], "%v and %v are %v apart", edges[i], edges[j], gap)
				}
			}
		}
	})
}

// One long line among very many points beside it, all just within reach: the
// line passes through few of the cells that it reaches.
func TestGridReachesBesideALine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// A shallow line, a steep one, or one of their mirror images.
		long, short := rapid.Float64Range(20, 100).Draw(t, "long"), rapid.Float64Range(-20, 20).Draw(t, "short")
		line := segment(0, 0, long, short)
		if rapid.Bool().Draw(t, "steep") {
			line = segment(0, 0, short, long)
		}
		if rapid.Bool().Draw(t, "turned") {
			line.a, line.b = line.b, line.a
		}
		reach := rapid.Float64Range(0.5, 5).Draw(t, "reach")
		edges := []edge{line}
		dx, dy := line.b.X-line.a.X, line.b.Y-line.a.Y
		length := distance(line.a, line.b)
		const n = 400
		for i := range n {
			along, off := float64(i)/(n-1), 0.999*reach/length*[2]float64{1, -1}[i%2]
			p := reader.Point{X: line.a.X + along*dx - off*dy, Y: line.a.Y + along*dy + off*dx}
			edges = append(edges, edge{a: p, b: p})
		}
		found := 0
		newGrid(edges, 0.02).near(edges, 0, reach, make([]int32, len(edges)), func(int) bool { found++; return true })
		require.Equal(t, n, found)
	})
}

// near stops where it is told to.
func TestGridStops(t *testing.T) {
	edges := []edge{edgeOf(bar{spot{0, 0}, spot{9, 0}}), edgeOf(bar{spot{0, 1}, spot{9, 1}}), edgeOf(bar{spot{0, 2}, spot{9, 2}})}
	calls := 0
	require.False(t, newGrid(edges, 5).near(edges, 0, 5, make([]int32, 3), func(int) bool { calls++; return false }))
	require.Equal(t, 1, calls)
}

// Crossings on one another are taken off two by two.
func TestUnmatched(t *testing.T) {
	p, q, near := reader.Point{X: 1, Y: 1}, reader.Point{X: 5, Y: 1}, reader.Point{X: 1.0005, Y: 1}
	tests := map[string]struct{ points, want []reader.Point }{
		"none":              {nil, nil},
		"one":               {[]reader.Point{p}, []reader.Point{p}},
		"two apart":         {[]reader.Point{p, q}, []reader.Point{p, q}},
		"two on each other": {[]reader.Point{p, near}, nil},
		"three":             {[]reader.Point{p, near, p}, []reader.Point{p}},
		"four":              {[]reader.Point{p, near, p, near}, nil},
		"mixed":             {[]reader.Point{p, q, near}, []reader.Point{q}},
		"0.0011 mm":         {[]reader.Point{p, {X: 1.0011, Y: 1}}, []reader.Point{p, {X: 1.0011, Y: 1}}},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) { require.Equal(t, c.want, unmatched(c.points, 0.001)) })
	}
}
