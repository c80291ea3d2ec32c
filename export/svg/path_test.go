package svg

import (
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

func TestPathData(t *testing.T) {
	fine := geometry.RingFromPoints(
		geometry.Point{X: 1, Y: -1}, geometry.Point{X: 53_975_000, Y: 100_000}, geometry.Point{X: geometry.Limit, Y: 0})
	tests := map[string]struct {
		got, want string
	}{
		"ring":               {PathData(ring("0,0 10,0 10,5")), "M 0 0 L 10 0 L 10 5 Z"},
		"curved last side":   {PathData(teardrop()), "M 10 10 L 20 10 C 30 20 10 30 10 10 Z"},
		"exact decimals":     {PathData(fine), "M 0.000001 -0.000001 L 53.975 0.1 L 100000 0 Z"},
		"two rings":          {PathData(ring("1,1 2,1 2,2"), ring("0,0 9,0 9,9")), "M 1 1 L 2 1 L 2 2 Z M 0 0 L 9 0 L 9 9 Z"},
		"no ring":            {PathData(), ""},
		"empty ring":         {PathData(geometry.Ring{}), ""},
		"open":               {OpenPathData(line("0,0 10,0 10,5")), "M 0 0 L 10 0 L 10 5"},
		"open but returning": {OpenPathData(line("0,0 10,0 0,0")), "M 0 0 L 10 0 L 0 0"},
		"start alone":        {OpenPathData(geometry.Path{From: at(1, 2)}), "M 1 2"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) { require.Equal(t, test.want, test.got) })
	}
}

func TestScanPath(t *testing.T) {
	closed := func(p geometry.Path) stroke { return stroke{path: p, closed: true} }
	open := func(p geometry.Path) stroke { return stroke{path: p} }
	tests := map[string]struct {
		data string
		want []stroke
	}{
		"closed":           {"M 0 0 L 10 0 L 10 5 Z", []stroke{closed(line("0,0 10,0 10,5 0,0"))}},
		"open":             {"M 0 0 L 10 0", []stroke{open(line("0,0 10,0"))}},
		"curved last side": {"M 10 10 L 20 10 C 30 20 10 30 10 10 Z", []stroke{closed(geometry.Path{From: at(10, 10), Then: teardrop()})}},
		"two":              {"M 0 0 L 1 0 M 5 5 L 6 6", []stroke{open(line("0,0 1,0")), open(line("5,5 6,6"))}},
		// SVG 2 §9.3.9: no space needed where a number cannot go on, commas allowed.
		"packed":          {"M1,2L+3-4,5 6", []stroke{open(line("1,2 3,-4 5,6"))}},
		"zeros":           {"M 01.50 -0 L .5 00", []stroke{open(geometry.PathFromPoints(geometry.Point{X: 1_500_000}, geometry.Point{X: 500_000}))}},
		"white space":     {" \t\n\f\rM\n1\t2\r\nL 3 , 4 ", []stroke{open(line("1,2 3,4"))}},
		"repeated M is L": {"M 0 0 1 0 1 1", []stroke{open(line("0,0 1,0 1,1"))}},
		"nothing":         {"", nil},
		"white":           {" \n", nil},
		"a point":         {"M 1 2", []stroke{open(geometry.Path{From: at(1, 2)})}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			got, err := scanPath(test.data)
			require.NoError(t, err)
			require.Equal(t, test.want, got)
		})
	}
}

func TestScanPathRefuses(t *testing.T) {
	tests := map[string]struct {
		data string
		at   int
		want string
	}{
		"relative":          {"M 0 0 l 1 0", 6, "path command l: a sheet has only the absolute commands M, L, C and Z"},
		"relative start":    {"m 0 0", 0, "path command m: a sheet has only the absolute commands M, L, C and Z"},
		"small z":           {"M 0 0 L 1 0 L 1 1 z", 18, "path command z: a sheet has only the absolute commands M, L, C and Z"},
		"arc":               {"M 0 0 A 1 1 0 0 1 2 2", 6, "path command A: a sheet has only the absolute commands M, L, C and Z"},
		"no command":        {"M 0 0 X 1 1", 6, `found 'X' where a path command should stand`},
		"not M first":       {"L 1 1", 0, "path data starts with L; it must start with M"},
		"Z first":           {"Z", 0, "path data starts with Z; it must start with M"},
		"L behind Z":        {"M 0 0 L 1 0 L 1 1 Z L 3 3", 20, "found L behind Z; a new stroke must start with M"},
		"Z twice":           {"M 0 0 L 1 0 L 1 1 Z Z", 20, "found Z behind Z; a new stroke must start with M"},
		"number behind Z":   {"M 0 0 L 1 0 L 1 1 Z 5 5", 20, "found '5' where a path command should stand"},
		"start repeated":    {"M 0 0 L 1 0 L 1 1 L 0 0 Z", 24, "the start is repeated before Z; leave the last line out"},
		"half a point":      {"M 0 0 L 1", 9, "found the end where a number should stand"},
		"half a curve":      {"M 0 0 C 1 1 2 2 Z", 16, "found 'Z' where a number should stand"},
		"L alone":           {"M 0 0 L Z", 8, "found 'Z' where a number should stand"},
		"comma first":       {"M ,0 0", 2, "found ',' where a number should stand"},
		"two commas":        {"M 0,,0", 4, "found ',' behind a comma; a number must follow"},
		"comma last":        {"M 0 0, L 1 1", 7, "found 'L' behind a comma; a number must follow"},
		"comma at end":      {"M 0 0 L 1 1,", 12, "found the end behind a comma; a number must follow"},
		"sign alone":        {"M - 0", 2, "found '-' where a number should stand"},
		"NaN":               {"M NaN 0", 2, "found 'N' where a number should stand"},
		"hexadecimal":       {"M 0x1p4 0", 3, "found 'x' where a number should stand"},
		"not ASCII":         {"M 0 0 é", 6, "found 'é' where a path command should stand"},
		"bare point":        {"M 10. 0", 2, "number 10.: no digit behind the point; leave the point out"},
		"exponent":          {"M 1e2 0", 2, "number 1e2: has an exponent; a sheet writes plain decimals"},
		"too fine":          {"M 0.0000001 0", 2, "number 0.0000001: finer than a nanometre; use at most six decimals"},
		"too far":           {"M 0 -100000.000001", 4, "number -100000.000001: past the limit of 100000 mm"},
		"very far":          {"M 99999999999999999999999999 0", 2, "number 99999999999999999999999999: past the limit of 100000 mm"},
		"unit":              {"M 1mm 0", 3, "found 'm' where a number should stand"},
		"number before all": {"1 2", 0, "found '1' where a path command should stand"},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			_, err := scanPath(test.data)
			require.EqualError(t, err, test.want)
			var f *dataFault
			require.ErrorAs(t, err, &f)
			require.Equal(t, test.at, f.at)
		})
	}
}

func TestLengthFromMM(t *testing.T) {
	for text, want := range map[string]geometry.Length{
		"304.8mm": 12 * geometry.Inch, "0.000001mm": 1, "+5mm": 5 * mm, "100000mm": geometry.Limit, "-1mm": -mm,
	} {
		got, err := lengthFromMM(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	// CSS Values 3 §5.2 and the table of units there: each of these is either
	// another length, no length, or no definite size at all.
	for _, text := range []string{"300", "300px", "12in", "30cm", "100%", "100 mm", "auto", "", "mm", "1..5mm", " 5mm", "5MM", "calc(5mm)", "1e2mm", "0.0000001mm", "5.mm"} {
		_, err := lengthFromMM(text)
		require.Error(t, err, text)
	}
}
