package fronts_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

// anyValue draws a value that an option can be given.
func anyValue(t *rapid.T, o fronts.Option) any {
	share := rapid.SampledFrom([]any{"half", "1/3", "5 %", 0.93, "1/20", "99 %", 0.0, 1.0})
	switch o.Kind {
	case fronts.Count:
		least, most := max(1, o.Least), 12
		if o.Most > 0 {
			most = min(most, o.Most)
		}
		return rapid.Int64Range(int64(least), int64(max(least, most))).Draw(t, o.Name)
	case fronts.Choice:
		return rapid.SampledFrom(o.Words).Draw(t, o.Name)
	case fronts.Length:
		return rapid.SampledFrom([]any{"0.5 mm", "3", "7.77", "25"}).Draw(t, o.Name)
	case fronts.Angle:
		return rapid.Float64Range(-360, 360).Draw(t, o.Name)
	case fronts.Portion:
		return share.Draw(t, o.Name)
	case fronts.Spot:
		if rapid.Bool().Draw(t, "word") {
			return rapid.SampledFrom([]any{"middle", "top", "bottom left", "right"}).Draw(t, o.Name)
		}
		return []any{share.Draw(t, "across"), share.Draw(t, "down")}
	}
	return nil
}

// Whatever a design says, a front is made soundly or refused with a sentence:
// panels are sound, lie in the frame and have names of their own.
func TestAnyFront(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(selfSufficient()).Draw(t, "layout")
		given := options{}
		for _, o := range l.Options {
			if rapid.Bool().Draw(t, "give "+o.Name) {
				if v := anyValue(t, o); v != nil {
					given[o.Name] = v
				}
			}
		}
		side := rapid.Custom(func(t *rapid.T) geometry.Length {
			return geometry.Length(rapid.Int64Range(int64(5*mm), int64(400*mm)).Draw(t, "side"))
		})
		frame := geometry.RectFromSize(geometry.Point{X: 3, Y: 5 * mm}, geometry.Size{W: side.Draw(t, "w"), H: side.Draw(t, "h")})
		gap := geometry.Length(rapid.SampledFrom([]int64{0, 1, 1_587_500, 3_175_000, 2_345_679, 9_999_999}).Draw(t, "gap"))
		b := fronts.Brief{Frame: frame, Gap: gap, Options: l.Defaults(), Unit: geometry.Millimetres}
		for name, value := range given {
			v, err := l.ReadOption(name, value, geometry.Millimetres)
			require.NoError(t, err, name)
			b.Options[name] = v
		}
		f, err := l.Divide(b)
		if err != nil {
			require.NotContains(t, err.Error(), "%!")
			return
		}
		names := map[string]bool{}
		for _, p := range f.Panels {
			require.NoError(t, p.Outline.Validate(), p.Name)
			require.True(t, frame.ContainsRect(p.Outline.Bounds()), p.Name)
			require.False(t, names[p.Name], p.Name)
			names[p.Name] = true
		}
		require.NotEmpty(t, f.Panels)
	})
}
