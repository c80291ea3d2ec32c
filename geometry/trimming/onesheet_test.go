package trimming_test

import (
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/geometry/trimming"
)

// Nothing here is rewritten by -update, but every package knows it.
var _ = flag.Bool("update", false, "rewrite golden files")

// bench reads a file of the open benchmark data; see its README.
func bench(t testing.TB, name string, into any) {
	t.Helper()
	folder := os.Getenv("PANELRY_BENCH")
	if folder == "" {
		t.Skip("PANELRY_BENCH is not set, so there are no published results to compare with")
	}
	if !filepath.IsAbs(folder) {
		folder = filepath.Join("..", "..", folder)
	}
	data, err := os.ReadFile(filepath.Join(folder, "rectangles", name))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(data, into))
}

type oneSheetFile struct {
	Instances []struct {
		Name      string
		Sheet     [2]int
		Unbounded bool
		Fixed     int64 `json:"optimum_guillotine_fixed"`
		Turned    int64 `json:"optimum_guillotine_rotation90"`
		Items     []struct {
			W, H  int
			Max   *int
			Value int64
		}
	}
}

const unit = geometry.Millimetre

func sizeOf(w, h int) geometry.Size {
	return geometry.Size{W: geometry.Length(w) * unit, H: geometry.Length(h) * unit}
}

// Source: exact optima of gcut (Beasley 1985), cgcut (Christofides and
// Whitlock 1977), ngcut (Beasley 1985) and W (Wang 1983), from the open data.
func TestOneSheetPublishedOptima(t *testing.T) {
	var file oneSheetFile
	bench(t, "guillotine_one_sheet.json", &file)
	require.NotEmpty(t, file.Instances)
	for _, in := range file.Instances {
		for _, turn := range []bool{false, true} {
			name, want := in.Name+" fixed", in.Fixed
			if turn {
				name, want = in.Name+" turned", in.Turned
			}
			t.Run(name, func(t *testing.T) {
				var pieces []trimming.Piece
				for _, it := range in.Items {
					p := trimming.Piece{Size: sizeOf(it.W, it.H), Turn: turn, Value: it.Value}
					if it.Max != nil {
						p.Count = *it.Max
					}
					pieces = append(pieces, p)
				}
				sheet := sizeOf(in.Sheet[0], in.Sheet[1])
				start := time.Now()
				best, err := trimming.OneSheet(sheet, pieces, 0, 600_000_000)
				require.NoError(t, err)
				t.Logf("%d in %s, proved %v", best.Value, time.Since(start).Round(time.Millisecond), best.Proved)
				require.Equal(t, want, best.Value)
				require.True(t, best.Proved)
				checkTree(t, sheet, pieces, 0, best)
			})
		}
	}
}

// checkTree replays the cuts and adds up what comes off.
func checkTree(t require.TestingT, sheet geometry.Size, pieces []trimming.Piece, kerf geometry.Length, best trimming.Best) {
	got, err := trimming.Replay([]geometry.Size{sheet}, []*trimming.Part{best.Tree}, pieces, kerf)
	require.NoError(t, err)
	require.Equal(t, best.Counts, got)
	var value int64
	for i, n := range got {
		v := pieces[i].Value
		if v == 0 {
			v = int64((pieces[i].Size.W+kerf)/best.Unit) * int64((pieces[i].Size.H+kerf)/best.Unit)
		}
		value += int64(n) * v
		if pieces[i].Count > 0 {
			require.LessOrEqual(t, n, pieces[i].Count)
		}
	}
	require.Equal(t, best.Value, value)
}

// A slow twin: all first cuts of small sheets, tried one after another.
func slowBest(w, h int, sizes [][2]int, counts []int, values []int64, turn bool, memo map[[2]int]map[string]int64) int64 {
	key := [2]int{w, h}
	text := string(asBytes(counts))
	if v, ok := memo[key][text]; ok {
		return v
	}
	if memo[key] == nil {
		memo[key] = map[string]int64{}
	}
	var best int64
	for i, s := range sizes {
		if counts[i] > 0 && (s[0] <= w && s[1] <= h || turn && s[1] <= w && s[0] <= h) {
			best = max(best, values[i])
		}
	}
	// Every way to share the pieces out between the two parts of every cut.
	shares(counts, func(first, second []int) {
		for x := 1; x < w; x++ {
			best = max(best, slowBest(x, h, sizes, first, values, turn, memo)+slowBest(w-x, h, sizes, second, values, turn, memo))
		}
		for y := 1; y < h; y++ {
			best = max(best, slowBest(w, y, sizes, first, values, turn, memo)+slowBest(w, h-y, sizes, second, values, turn, memo))
		}
	})
	memo[key][text] = best
	return best
}

func asBytes(counts []int) []byte {
	var b []byte
	for _, c := range counts {
		b = append(b, byte(c))
	}
	return b
}

// shares calls f with each way to give pieces to two sides, both getting some.
func shares(counts []int, f func(first, second []int)) {
	first, second := make([]int, len(counts)), make([]int, len(counts))
	var walk func(i, a, b int)
	walk = func(i, a, b int) {
		if i == len(counts) {
			if a > 0 && b > 0 {
				f(append([]int{}, first...), append([]int{}, second...))
			}
			return
		}
		for n := 0; n <= counts[i]; n++ {
			first[i], second[i] = n, counts[i]-n
			walk(i+1, a+n, b+counts[i]-n)
		}
	}
	walk(0, 0, 0)
}

func TestOneSheetAgainstAllCuts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(2, 6).Draw(t, "w"), rapid.IntRange(2, 6).Draw(t, "h")
		turn := rapid.Bool().Draw(t, "turn")
		n := rapid.IntRange(1, 3).Draw(t, "kinds")
		var pieces []trimming.Piece
		var sizes [][2]int
		var counts []int
		var values []int64
		for range n {
			s := [2]int{rapid.IntRange(1, 5).Draw(t, "pw"), rapid.IntRange(1, 5).Draw(t, "ph")}
			c, v := rapid.IntRange(1, 2).Draw(t, "count"), int64(rapid.IntRange(1, 30).Draw(t, "value"))
			sizes, counts, values = append(sizes, s), append(counts, c), append(values, v)
			pieces = append(pieces, trimming.Piece{Size: sizeOf(s[0], s[1]), Count: c, Turn: turn, Value: v})
		}
		best, err := trimming.OneSheet(sizeOf(w, h), pieces, 0, 1_000_000)
		require.NoError(t, err)
		require.True(t, best.Proved)
		require.Equal(t, slowBest(w, h, sizes, counts, values, turn, map[[2]int]map[string]int64{}), best.Value)
		checkTree(t, sizeOf(w, h), pieces, 0, best)
	})
}
