package reader

import (
	"fmt"
	"math/rand"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

// pathData writes path data of the commands in turn, about so many bytes.
func pathData(bytes int, commands string) string {
	random := rand.New(rand.NewSource(1))
	var b strings.Builder
	b.WriteString("M10 10")
	for i := 0; b.Len() < bytes; i++ {
		c := commands[i%len(commands)]
		b.WriteByte(c)
		n := arity(c)
		if c == 'A' {
			fmt.Fprintf(&b, "%.2f %.2f 30 0 1 ", 1+random.Float64(), 1+random.Float64())
		}
		for range n {
			fmt.Fprintf(&b, "%.3f ", 200*random.Float64())
		}
	}
	return b.String()
}

// The target of the issue: 20 MB of path data a second on one core.
func BenchmarkPathData(b *testing.B) {
	for _, commands := range []string{"L", "C", "LCQASTHV"} {
		b.Run(commands, func(b *testing.B) {
			data := pathData(4<<20, commands)
			b.SetBytes(int64(len(data)))
			for b.Loop() {
				if _, err := parsePath(data, mostSegments); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// The same data as a file, from bytes to elements; "held" is what stays in
// memory for each byte of the file, which should be at most 12 with all that
// was needed on the way.
func BenchmarkRead(b *testing.B) {
	for _, commands := range []string{"L", "C", "LCQASTHV"} {
		b.Run(commands, func(b *testing.B) {
			data := []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 200 200"><path d="` +
				pathData(4<<20, commands) + `"/></svg>`)
			b.SetBytes(int64(len(data)))
			b.ReportAllocs()
			var f File
			for b.Loop() {
				f = Read(data, &findings.List{})
			}
			require.Len(b, f.Elements, 1)
			b.StopTimer()
			var m runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&m)
			b.ReportMetric(float64(m.HeapAlloc)/float64(len(data)), "held/byte")
			runtime.KeepAlive(f)
		})
	}
}
