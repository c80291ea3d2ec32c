package fronts_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/layouts/fronts"
)

func BenchmarkDivide(b *testing.B) {
	frame := frames[0].frame
	for _, l := range selfSufficient() {
		b.Run(l.Name, func(b *testing.B) { benchmark(b, l, brief(b, l, frame, usualGap, nil)) })
	}
	many := frameOf(600*mm, 600*mm)
	mosaic, honeycomb := layout(b, "random mosaic"), layout(b, "honeycomb")
	b.Run("random mosaic of 2,000", func(b *testing.B) {
		benchmark(b, mosaic, brief(b, mosaic, many, mm, options{"pieces": int64(2000)}))
	})
	b.Run("honeycomb of 2,000", func(b *testing.B) {
		benchmark(b, honeycomb, brief(b, honeycomb, many, mm, options{"columns": int64(42)}))
	})
	most := options{"columns": int64(fronts.MostCount), "rows": int64(fronts.MostCount)}
	for _, name := range []string{"grid", "diagonal halves"} {
		l := layout(b, name)
		b.Run(name+" of 60 x 60", func(b *testing.B) { benchmark(b, l, brief(b, l, frameOf(600*mm, 600*mm), mm, most)) })
	}
}

func benchmark(b *testing.B, l fronts.Layout, brief fronts.Brief) {
	for b.Loop() {
		_, err := l.Divide(brief)
		require.NoError(b, err)
	}
}
