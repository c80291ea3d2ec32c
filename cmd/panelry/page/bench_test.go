package page

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// toldTimes reports how long half and nineteen in twenty of some answers took.
func toldTimes(b *testing.B, times []time.Duration) {
	slices.Sort(times)
	b.ReportMetric(float64(times[len(times)/2].Microseconds())/1000, "p50-ms")
	b.ReportMetric(float64(times[len(times)*95/100].Microseconds())/1000, "p95-ms")
	b.ReportMetric(0, "ns/op")
}

// BenchmarkMargin is how long the answer to a changed margin takes, of the
// demo and never the same margin twice.
func BenchmarkMargin(b *testing.B) {
	s := serve(b, demoText(b))
	var times []time.Duration
	n := 0
	for b.Loop() {
		n++
		start := time.Now()
		p := s.set(b, demoText(b), "front.margin", fmt.Sprintf("%d.%03d mm", 1+n/1000%9, n%1000))
		times = append(times, time.Since(start))
		require.False(b, p.Refused)
	}
	toldTimes(b, times)
}

// BenchmarkReaders is the same with 50 readers at once, each changing a
// margin whenever the answer to the last one has come.
func BenchmarkReaders(b *testing.B) {
	s := serve(b, demoText(b))
	var mu sync.Mutex
	var times []time.Duration
	for b.Loop() {
		var readers sync.WaitGroup
		for reader := range 50 {
			readers.Go(func() {
				for n := range 4 {
					start := time.Now()
					s.set(b, demoText(b), "front.margin", fmt.Sprintf("%d.%04d mm", 1+n, reader*31+len(times)))
					mu.Lock()
					times = append(times, time.Since(start))
					mu.Unlock()
				}
			})
		}
		readers.Wait()
	}
	toldTimes(b, times)
}

// Fifty readers at once, changing different things, all get their answers.
func TestFiftyReaders(t *testing.T) {
	s := serve(t, demoText(t))
	var readers sync.WaitGroup
	for reader := range 50 {
		readers.Go(func() {
			text := demoText(t)
			for n := range 4 {
				p := s.set(t, text, []string{"front.margin", "batch.cards", "front.layout", "title"}[n], []string{fmt.Sprintf("%d mm", 1+reader%4), fmt.Sprint(1 + reader%8), []string{"grid", "strips", "pinwheel"}[reader%3], fmt.Sprint("reader ", reader)}[n])
				if p.Refused {
					t.Errorf("refused: %s", p.Status)
				}
				text = textOf(t, p)
			}
			if !strings.Contains(text, fmt.Sprint("reader ", reader)) {
				t.Errorf("reader %d got another's design", reader)
			}
		})
	}
	readers.Wait()
}
