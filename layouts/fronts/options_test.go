package fronts_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts/fronts"
)

// Values as TOML gives them: string, int64, float64, bool, []any, table, date.
func TestReadOption(t *testing.T) {
	for _, c := range []struct {
		name   string
		layout string
		option string
		value  any
		want   any
	}{
		{"count", "grid", "columns", int64(3), 3},
		{"least count", "grid", "rows", int64(1), 1},
		{"most count", "grid", "rows", int64(fronts.MostCount), 60},
		{"choice", "strips", "run", "level", "level"},
		{"rows", "diagonal halves", "slant", []any{`\/`, `/\`}, []string{`\/`, `/\`}},
		{"no rows", "diagonal halves", "slant", []any{}, []string{}},
		{"lengths with units", "strips", "widths", []any{"1/2 in", "rest", "3 mm"}, []geometry.Length{inch / 2, fronts.Rest, 3 * mm}},
		{"bare lengths", "strips", "widths", []any{"1/2", int64(2), 2.5, "3,5"}, []geometry.Length{inch / 2, 2 * inch, 5 * inch / 2, 7 * inch / 2}},
		{"a very small number", "strips", "widths", []any{0.000001}, []geometry.Length{25}}, // 25.4 nm
		{"spaces about a word", "strips", "widths", []any{" rest "}, []geometry.Length{fronts.Rest}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := layout(t, c.layout).ReadOption(c.option, c.value, geometry.Inches)
			require.NoError(t, err)
			require.Equal(t, c.want, got)
		})
	}
}

const (
	aCount   = "write a whole number from 1 to 60"
	aTexts   = `write a list of texts, one a row, like ['\/', '/\']`
	aLengths = `write a list of lengths, like ["1/2", "rest", "1/2"]`
	aLength  = `is not a length; write it like 4 1/4, 1/8, 0.5 in or 3.2 mm`
)

func TestReadOptionRefuses(t *testing.T) {
	for _, c := range []struct {
		name   string
		layout string
		option string
		value  any
		want   string
	}{
		{"no such option", "grid", "slant", int64(3), `"grid" has no option "slant"`},
		{"count 0", "grid", "columns", int64(0), "0: " + aCount},
		{"count under 0", "grid", "columns", int64(-2), "-2: " + aCount},
		{"one too many", "grid", "columns", int64(61), "61: " + aCount},
		{"far too many", "grid", "columns", int64(math.MaxInt64), "9223372036854775807: " + aCount},
		{"count with a point", "grid", "columns", 2.0, "2: " + aCount},
		{"count in quotes", "grid", "columns", "2", `"2": ` + aCount},
		{"count in a list", "grid", "columns", []any{int64(2)}, "that is none: " + aCount},
		{"nothing", "grid", "columns", nil, "that is none: " + aCount},
		{"no such word", "strips", "run", "sideways", `write one of "upright" or "level"`},
		{"number for a word", "strips", "run", int64(1), `write one of "upright" or "level"`},
		{"text for rows", "diagonal halves", "slant", `\/`, aTexts},
		{"number in rows", "diagonal halves", "slant", []any{`\/`, int64(3)}, "item 2 is not a text; put it in quotes"},
		{"list in rows", "diagonal halves", "slant", []any{[]any{`\/`}}, "item 1 is not a text; put it in quotes"},
		{"text for lengths", "strips", "widths", "1/2", aLengths},
		{"table for lengths", "strips", "widths", map[string]any{"a": int64(1)}, aLengths},
		{"no length", "strips", "widths", []any{"1/2", "wide"}, `item 2: "wide" ` + aLength},
		{"length 0", "strips", "widths", []any{int64(0)}, `item 1: "0" is not more than 0`},
		{"length under 0", "strips", "widths", []any{"rest", "-1/2"}, `item 2: "-1/2" is not more than 0`},
		{"a length that rounds to 0", "strips", "widths", []any{"0.1 mm", 1e-9}, `item 2: "0.000000001" is not more than 0`},
		{"yes or no among lengths", "strips", "widths", []any{true}, "item 1 " + aLength},
		{"list among lengths", "strips", "widths", []any{[]any{int64(1)}}, "item 1 " + aLength},
		{"table among lengths", "strips", "widths", []any{map[string]any{"a": int64(1)}}, "item 1 " + aLength},
		{"date among lengths", "strips", "widths", []any{time.Unix(0, 0)}, "item 1 " + aLength},
		{"no number", "strips", "widths", []any{math.NaN()}, "item 1 " + aLength},
		{"endless", "strips", "widths", []any{math.Inf(1)}, "item 1 " + aLength},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := layout(t, c.layout).ReadOption(c.option, c.value, geometry.Inches)
			require.EqualError(t, err, c.want)
		})
	}
}

// Without a unit a bare number shows both readings.
func TestReadOptionWithoutAUnit(t *testing.T) {
	_, err := layout(t, "strips").ReadOption("widths", []any{"1 in", "2"}, geometry.NoUnit)
	require.ErrorContains(t, err, "item 2: ")
	require.ErrorContains(t, err, "2 in")
	require.ErrorContains(t, err, "2 mm")
}

func TestDefaults(t *testing.T) {
	for _, l := range fronts.All() {
		t.Run(l.Name, func(t *testing.T) {
			defaults := l.Defaults()
			for _, o := range l.Options {
				_, ok := defaults[o.Name]
				require.Equal(t, o.Default != nil, ok, o.Name)
				require.NotEmpty(t, o.Help, o.Name)
				require.NotContains(t, o.Help, "\n")
				require.Equal(t, o.Kind == fronts.Choice, len(o.Words) > 0, o.Name)
				found, ok := l.Option(o.Name)
				require.True(t, ok)
				require.Equal(t, o, found)
			}
		})
	}
}

// An option that is absent has the empty value of its kind.
func TestOptionsThatAreAbsent(t *testing.T) {
	var o fronts.Options
	require.Zero(t, o.Count("columns"))
	require.Zero(t, o.Text("run"))
	require.Nil(t, o.Rows("slant"))
	require.Nil(t, o.Lengths("widths"))
}
