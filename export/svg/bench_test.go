package svg

import (
	"bytes"
	"io"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// manyOutlines is a sheet with 10,000 outlines: 100 rows of 100 petals, each
// with five sides, one of them a curve.
func manyOutlines() Drawing {
	cut := Layer{ID: Cut, Title: "Cut"}
	for i := range 10_000 {
		to := geometry.Vector{X: geometry.Length(i%100) * 60_123_456, Y: geometry.Length(i/100) * 120 * mm}
		cut.Shapes = append(cut.Shapes, ShapeFromOutline(geometry.Outline{Outer: petal()}.Moved(to),
			Attribute{"data-card", strconv.Itoa(i / 16)}, Attribute{"data-panel", "A1a"}, Attribute{"data-paper", "kelp"}))
	}
	return Drawing{Size: size(6100, 12_100), Title: "many", Layers: []Layer{cut}}
}

func BenchmarkWrite(b *testing.B) {
	d := manyOutlines()
	for b.Loop() {
		require.NoError(b, Write(io.Discard, d))
	}
}

func BenchmarkRead(b *testing.B) {
	var file bytes.Buffer
	require.NoError(b, Write(&file, manyOutlines()))
	b.SetBytes(int64(file.Len()))
	for b.Loop() {
		_, err := Read(file.Bytes())
		require.NoError(b, err)
	}
}

func BenchmarkEncode(b *testing.B) {
	d := manyOutlines()
	for b.Loop() {
		_, err := Encode(d)
		require.NoError(b, err)
	}
}
