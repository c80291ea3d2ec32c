package geometry_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		l    geometry.Length
		unit geometry.Unit
		want string
	}{
		{2*inch + 5*inch/8, geometry.Inches, "2 5/8 in"},
		{-inch / 64, geometry.Inches, "-1/64 in"},
		{0, geometry.Inches, "0 in"},
		{48_804_000, geometry.Inches, "1.9214 in"}, // 48.804 / 25.4 = 1.92142
		{inch / 128, geometry.Inches, "0.0078 in"}, // 0.0078125, finer than rulers
		{48_804_000, geometry.Millimetres, "48.804 mm"},
		{48_804_400, geometry.Millimetres, "48.804 mm"},
		{48_804_000, geometry.Centimetres, "4.88 cm"},
		{48 * mm, geometry.NoUnit, "48 mm"},
	} {
		require.Equal(t, c.want, c.l.Format(c.unit))
	}
}

func TestSizeFormat(t *testing.T) {
	s := geometry.Size{W: 34 * inch / 8, H: 44 * inch / 8}
	require.Equal(t, "4 1/4 x 5 1/2 in", s.Format(geometry.Inches))
	require.Equal(t, "107.95 x 139.7 mm", s.Format(geometry.Millimetres))
	require.Equal(t, "107.95 x 139.7 mm", s.Format(geometry.NoUnit))
}

func TestFormatsExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]geometry.Unit{geometry.Inches, geometry.Millimetres, geometry.Centimetres, geometry.NoUnit}).Draw(t, "unit")
		nanometres := rapid.Map(rapid.Int64Range(-1e10, 1e10), func(n int64) geometry.Length { return geometry.Length(n) })
		marks := rapid.Map(rapid.Int64Range(-2e4, 2e4), func(n int64) geometry.Length { return geometry.Length(n) * geometry.Inch / 64 })
		l := rapid.OneOf(nanometres, marks).Draw(t, "length")
		read, err := geometry.ParseLength(l.Format(unit), geometry.NoUnit)
		require.NoError(t, err)
		require.Equal(t, read == l, l.FormatsExactly(unit), l.Format(unit))
	})
}
