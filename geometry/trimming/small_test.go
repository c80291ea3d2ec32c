package trimming_test

import (
	"container/heap"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/geometry/trimming"
)

// The slow twin of the search for few settings: a table with paper on it. All
// that hands can do from there is tried, the cheapest first: set the stop to
// any whole length, or cut any part at the stop, either way, and throw the
// strip or the rest away, unless waste was thrown away that way before and no
// pieces came off since.
type lyingPaper struct {
	cost  int // 1000 for each setting, 1 for each cut
	stop  int
	parts [][3]int // width, height, and the ways that waste went: 1 of its width, 2 of its height; sorted
}

func (l lyingPaper) key() string {
	b := []byte{byte(l.stop)}
	for _, p := range l.parts {
		b = append(b, byte(p[0]), byte(p[1]), byte(p[2]))
	}
	return string(b)
}

type cheapest []lyingPaper

func (c cheapest) Len() int           { return len(c) }
func (c cheapest) Less(i, j int) bool { return c[i].cost < c[j].cost }
func (c cheapest) Swap(i, j int)      { c[i], c[j] = c[j], c[i] }
func (c *cheapest) Push(x any)        { *c = append(*c, x.(lyingPaper)) }
func (c *cheapest) Pop() any {
	old := *c
	last := old[len(old)-1]
	*c = old[:len(old)-1]
	return last
}

// leastCost returns the settings and cuts that get the pieces out of so many
// sheets, or -1 where none below the limit do.
func leastCost(sheets, w, h int, want []wantedPiece, limit int) int {
	start := lyingPaper{}
	for range sheets {
		start.parts = append(start.parts, [3]int{w, h})
	}
	pieces := 0
	for _, p := range want {
		pieces += p.count
	}
	open := &cheapest{start}
	seen := map[string]bool{}
	for open.Len() > 0 {
		at := heap.Pop(open).(lyingPaper)
		if at.cost >= limit {
			return -1
		}
		if seen[at.key()] {
			continue
		}
		seen[at.key()] = true
		if allThere(at.parts, want) {
			return at.cost
		}
		for stop := 1; stop < max(w, h); stop++ {
			if stop != at.stop {
				heap.Push(open, lyingPaper{at.cost + 1000, stop, at.parts})
			}
		}
		for i, p := range at.parts {
			if i > 0 && at.parts[i-1] == p || at.stop == 0 {
				continue
			}
			for axis := range 2 {
				if at.stop >= p[axis] {
					continue
				}
				strip, rest := p, p
				strip[axis], rest[axis] = at.stop, p[axis]-at.stop
				strip[2] = 0
				rest[2] &= axis + 1
				others := slices.Delete(slices.Clone(at.parts), i, i+1)
				push := func(parts ...[3]int) {
					if parts = append(parts, others...); len(parts) > pieces {
						return // each part has a piece in it
					}
					slices.SortFunc(parts, func(a, b [3]int) int { return slices.Compare(a[:], b[:]) })
					heap.Push(open, lyingPaper{at.cost + 1, at.stop, parts})
				}
				push(strip, rest)
				if p[2]&(axis+1) == 0 {
					strip[2], rest[2] = p[2]|(axis+1), p[2]|(axis+1)
					push(strip)
					push(rest)
				}
			}
		}
	}
	return -1
}

type wantedPiece struct {
	w, h, count int
	turn        bool
}

// allThere reports whether the parts are the pieces, one to one.
func allThere(parts [][3]int, want []wantedPiece) bool {
	if len(parts) == 0 {
		return !slices.ContainsFunc(want, func(p wantedPiece) bool { return p.count > 0 })
	}
	q := parts[0]
	for i, p := range want {
		if p.count > 0 && (q[0] == p.w && q[1] == p.h || p.turn && q[0] == p.h && q[1] == p.w) {
			rest := slices.Clone(want)
			rest[i].count--
			if allThere(parts[1:], rest) {
				return true
			}
		}
	}
	return false
}

func costOf(t require.TestingT, job trimming.Job, plan trimming.Planned) int {
	steps := stepsOf(t, job, plan)
	cost := 1000 * trimming.Settings(steps)
	for _, s := range steps {
		cost += s.Cuts * s.Parts()
	}
	return cost
}

func TestFewestSettingsAgainstTheTable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(3, 6).Draw(t, "w"), rapid.IntRange(3, 6).Draw(t, "h")
		job := trimming.Job{Stock: trimming.Stock{Size: sizeOf(w, h)}, Effort: 100_000}
		var want []wantedPiece
		left := 4
		for range rapid.IntRange(1, 3).Draw(t, "kinds") {
			p := wantedPiece{w: rapid.IntRange(1, 4).Draw(t, "pw"), h: rapid.IntRange(1, 4).Draw(t, "ph"), turn: rapid.Bool().Draw(t, "turn")}
			if p.count = rapid.IntRange(0, left).Draw(t, "count"); p.count == 0 || !(p.w <= w && p.h <= h || p.turn && p.h <= w && p.w <= h) {
				continue
			}
			left -= p.count
			want = append(want, p)
			job.Pieces = append(job.Pieces, trimming.Piece{Size: sizeOf(p.w, p.h), Count: p.count, Turn: p.turn})
		}
		if len(want) == 0 {
			return
		}
		plan, err := trimming.Plan(job)
		require.NoError(t, err)
		require.True(t, plan.Fewest)
		cost := costOf(t, job, plan)
		if cost > 2005 || len(plan.Trees) > 1 { // the table fills up
			return
		}
		require.Equal(t, -1, leastCost(len(plan.Trees), w, h, want, cost), "the table knows a cheaper way")
		require.Equal(t, cost, leastCost(len(plan.Trees), w, h, want, cost+1))
	})
}

// A second twin, for as many as eight pieces: every sequence of stops at whole
// lengths, and every way to share the pieces out between strip and rest.
type everyStop struct {
	want []wantedPiece
	seq  []int
	memo map[string]int
}

// cuts returns the fewest cuts; gone has the ways in which waste of
// the part was thrown away since pieces came off.
func (e *everyStop) cuts(w, h, from, gone int, counts []int) int {
	total, area := 0, 0
	for i, c := range counts {
		total += c
		area += c * e.want[i].w * e.want[i].h
	}
	if total == 0 {
		return 0
	}
	if w*h < area {
		return 1 << 20
	}
	if total == 1 {
		i := slices.Index(counts, 1)
		p := e.want[i]
		if p.w == w && p.h == h || p.turn && p.h == w && p.w == h {
			return 0
		}
	}
	key := fmt.Sprint(w, h, from, gone, counts)
	if v, ok := e.memo[key]; ok {
		return v
	}
	best := 1 << 20
	for i := from; i < len(e.seq); i++ {
		s := e.seq[i]
		bothShares(counts, func(first, second []int) {
			for axis, whole := range [2]int{w, h} {
				none := slices.Max(first) == 0 || slices.Max(second) == 0
				if s >= whole || none && gone&(axis+1) != 0 {
					continue
				}
				strip, rest := 0, gone&(axis+1)
				if none {
					strip, rest = gone|(axis+1), gone|(axis+1)
				}
				if axis == 0 {
					best = min(best, 1+e.cuts(s, h, i, strip, first)+e.cuts(w-s, h, i, rest, second))
				} else {
					best = min(best, 1+e.cuts(w, s, i, strip, first)+e.cuts(w, h-s, i, rest, second))
				}
			}
		})
	}
	e.memo[key] = best
	return best
}

// bothShares is shares with the ways that give one side all.
func bothShares(counts []int, f func(first, second []int)) {
	none := make([]int, len(counts))
	f(none, counts)
	f(counts, none)
	shares(counts, f)
}

// least returns the fewest settings and cuts from one sheet.
func (e *everyStop) least(w, h, most int) int {
	counts := make([]int, len(e.want))
	for i, p := range e.want {
		counts[i] = p.count
	}
	for length := 0; length <= most; length++ {
		best := 1 << 20
		var walk func()
		walk = func() {
			if len(e.seq) == length {
				e.memo = map[string]int{}
				best = min(best, e.cuts(w, h, 0, 0, counts))
				return
			}
			for s := 1; s < max(w, h); s++ {
				if n := len(e.seq); n == 0 || e.seq[n-1] != s {
					e.seq = append(e.seq, s)
					walk()
					e.seq = e.seq[:len(e.seq)-1]
				}
			}
		}
		walk()
		if best < 1<<20 {
			return 1000*length + best
		}
	}
	return -1
}

func TestFewestSettingsAgainstEveryStop(t *testing.T) {
	for _, c := range []struct {
		w, h int
		want []wantedPiece
	}{
		{10, 10, []wantedPiece{{5, 5, 4, false}}},
		{9, 8, []wantedPiece{{3, 4, 6, false}}},
		{9, 9, []wantedPiece{{3, 4, 4, false}, {3, 5, 2, true}}},
		{9, 9, []wantedPiece{{2, 3, 8, true}}},
		{8, 7, []wantedPiece{{2, 3, 3, true}, {3, 4, 2, false}, {1, 2, 3, true}}},
		{9, 9, []wantedPiece{{6, 6, 1, false}, {3, 3, 5, false}}},
		{7, 7, []wantedPiece{{4, 3, 4, true}}}, // the pinwheel, which straight cuts cannot make of one sheet
		{8, 6, []wantedPiece{{5, 4, 1, false}, {3, 2, 2, false}, {2, 2, 1, false}}},
		{9, 6, []wantedPiece{{1, 1, 3, false}, {7, 5, 1, false}, {2, 5, 1, true}}},
	} {
		job := trimming.Job{Stock: trimming.Stock{Size: sizeOf(c.w, c.h)}, Effort: 100_000}
		for _, p := range c.want {
			job.Pieces = append(job.Pieces, trimming.Piece{Size: sizeOf(p.w, p.h), Count: p.count, Turn: p.turn})
		}
		plan, err := trimming.Plan(job)
		require.NoError(t, err)
		if len(plan.Trees) > 1 {
			require.Equal(t, [2]int{7, 7}, [2]int{c.w, c.h})
			continue
		}
		require.True(t, plan.Fewest, c)
		e := &everyStop{want: c.want}
		require.Equal(t, e.least(c.w, c.h, 4), costOf(t, job, plan), c)
	}
}

// What eight pieces of three kinds on card sizes cost to plan.
func BenchmarkSmall(b *testing.B) {
	inch := geometry.Inch
	job := trimming.Job{Stock: trimming.Stock{Size: geometry.Size{W: 12 * inch, H: 12 * inch}}, Pieces: []trimming.Piece{
		{Size: geometry.Size{W: 2 * inch, H: inch * 21 / 8}, Count: 3, Turn: true},
		{Size: geometry.Size{W: inch * 17 / 4, H: inch * 11 / 2}, Count: 2, Turn: true},
		{Size: geometry.Size{W: inch * 31 / 16, H: inch * 5 / 2}, Count: 3, Turn: true},
	}}
	for b.Loop() {
		plan, err := trimming.Plan(job)
		require.NoError(b, err)
		b.ReportMetric(float64(costOf(b, job, plan)/1000), "settings")
		b.ReportMetric(float64(btoi(plan.Fewest)), "proved")
	}
}
