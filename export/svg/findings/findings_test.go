package findings

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/export/svg/markup"
)

// tens puts ten characters into each line.
func tens(at []int) []markup.Place {
	places := make([]markup.Place, len(at))
	for i, a := range at {
		places[i] = markup.Place{Line: a/10 + 1, Column: a%10 + 1}
	}
	return places
}

// messages shows findings in one line each.
func messages(found []Finding) []string {
	var out []string
	for _, f := range found {
		out = append(out, fmt.Sprintf("%d:%d %s %s", f.Line, f.Column, f.Rule.ID, f.Message))
	}
	return out
}

func TestEmptyList(t *testing.T) {
	require.Empty(t, (&List{}).Findings())
	require.Empty(t, (&List{Places: tens}).Findings())
	require.Zero(t, (&List{}).Count(XML))
}

func TestAdd(t *testing.T) {
	l := List{Places: tens}
	l.Add(NoSize, 12, "svg", "no %s, %d%%", "width", 5)
	l.Add(XML, 31, "", "broken")
	l.AddSpot(OffSheet, 4, "path#a", Spot{1, 2, 3, 4}, "out by %d mm", 7)
	l.AddAt(Doctype, markup.Place{Line: 9, Column: 8}, "", "there is %s", "one")
	require.Equal(t, []Finding{
		{Rule: OffSheet, Message: "out by 7 mm; move it onto the sheet", Element: "path#a", Spot: &Spot{1, 2, 3, 4}, Place: markup.Place{Line: 1, Column: 5}},
		{Rule: NoSize, Message: `no width, 5%; write both on the root like width="210mm" height="297mm"`, Element: "svg", Place: markup.Place{Line: 2, Column: 3}},
		{Rule: XML, Message: "broken", Place: markup.Place{Line: 4, Column: 2}}, // a rule without advice
		{Rule: Doctype, Message: "there is one", Place: markup.Place{Line: 9, Column: 8}},
	}, l.Findings())
	require.Equal(t, l.Findings(), l.Findings(), "asking changes nothing")
}

// All places are asked for at once, in the order in which findings came, and
// those that are known are not asked for.
func TestPlacesAsked(t *testing.T) {
	var asked [][]int
	l := List{Places: func(at []int) []markup.Place {
		asked = append(asked, at)
		return tens(at)
	}}
	l.Add(XML, 30, "", "a")
	l.AddAt(XML, markup.Place{Line: 2, Column: 1}, "", "b")
	l.AddSpot(XML, 0, "", Spot{}, "c")
	l.AddOnce(Packed, 20, "", "d")
	require.Equal(t, []string{"1:1 xml c", "2:1 xml b", "3:1 compressed d; unpack it", "4:1 xml a"}, messages(l.Findings()))
	require.Equal(t, [][]int{{30, 0, 20}}, asked)
}

func TestWithoutPlaces(t *testing.T) {
	var l List
	l.Add(XML, 7, "", "a")
	l.AddAt(XML, markup.Place{Line: 3, Column: 4}, "", "b")
	require.Equal(t, []string{"3:4 xml b", "0:0 xml a"}, messages(l.Findings()))
}

func TestOrder(t *testing.T) {
	at := func(line, column int) markup.Place { return markup.Place{Line: line, Column: column} }
	type added struct {
		rule  *Rule
		place markup.Place
		text  string
	}
	tests := map[string]struct {
		added []added
		want  []string
	}{
		"by line":              {[]added{{XML, at(10, 1), "a"}, {XML, at(9, 1), "b"}, {XML, at(1, 1), "c"}}, []string{"1:1 xml c", "9:1 xml b", "10:1 xml a"}},
		"by column":            {[]added{{XML, at(2, 10), "a"}, {XML, at(2, 9), "b"}, {XML, at(1, 99), "c"}}, []string{"1:99 xml c", "2:9 xml b", "2:10 xml a"}},
		"graver first":         {[]added{{Faces, at(1, 1), "a"}, {XML, at(1, 1), "b"}}, []string{"1:1 xml b", "1:1 shared-edges a"}},
		"place before gravity": {[]added{{XML, at(1, 2), "a"}, {Faces, at(1, 1), "b"}}, []string{"1:1 shared-edges b", "1:2 xml a"}},
		"as found":             {[]added{{XML, at(1, 1), "b"}, {XML, at(1, 1), "a"}, {XML, at(1, 1), "c"}}, []string{"1:1 xml b", "1:1 xml a", "1:1 xml c"}},
		"no place last":        {[]added{{XML, at(0, 0), "a"}, {Faces, at(99, 1), "b"}, {Faces, at(0, 0), "c"}, {Faces, at(1, 1), "d"}}, []string{"1:1 shared-edges d", "99:1 shared-edges b", "0:0 xml a", "0:0 shared-edges c"}},
		"graver first, last":   {[]added{{Faces, at(0, 0), "a"}, {XML, at(0, 0), "b"}}, []string{"0:0 xml b", "0:0 shared-edges a"}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			var l List
			for _, a := range test.added {
				l.AddAt(a.rule, a.place, "", "%s", a.text)
			}
			require.Equal(t, test.want, messages(l.Findings()))
		})
	}
	t.Run("many as found", func(t *testing.T) {
		var l List
		var want []string
		for i := range 90 {
			l.AddAt(XML, at(i%3+1, 1), "", "number %d", i)
		}
		for line := range 3 {
			for i := line; i < 90; i += 3 {
				want = append(want, fmt.Sprintf("%d:1 xml number %d", line+1, i))
			}
		}
		require.Equal(t, want, messages(l.Findings()))
	})
	t.Run("warning between", func(t *testing.T) {
		l := List{Places: tens}
		for _, r := range []*Rule{Packed, Faces, XML} {
			l.Add(r, 0, "", "a")
		}
		require.Equal(t, []string{"1:1 xml a", "1:1 compressed a; unpack it", "1:1 shared-edges a"}, messages(l.Findings()))
	})
}

func TestMostPerRule(t *testing.T) {
	adders := map[string]func(l *List, i int){
		"Add":     func(l *List, i int) { l.Add(XML, i, "", "number %d", i) },
		"AddSpot": func(l *List, i int) { l.AddSpot(XML, i, "", Spot{}, "number %d", i) },
		"AddAt":   func(l *List, i int) { l.AddAt(XML, tens([]int{i})[0], "", "number %d", i) },
	}
	for name, add := range adders {
		t.Run(name, func(t *testing.T) {
			l := List{Places: tens}
			for i := range MostPerRule {
				add(&l, i)
			}
			l.Add(NoSize, 0, "", "another rule")
			full := l.Findings()
			require.Len(t, full, MostPerRule+1)
			for i := range 3 {
				add(&l, MostPerRule+i)
			}
			require.Equal(t, MostPerRule+3, l.Count(XML))
			require.Equal(t, 1, l.Count(NoSize))
			require.Zero(t, l.Count(Packed))
			// What was kept stays, and one that has no place counts the rest.
			require.Equal(t, append(full, Finding{Rule: XML, Message: "and 3 more of this kind"}), l.Findings())
			for range MostPerRule + 1 {
				l.Add(Text, 0, "", "text")
			}
			require.Equal(t, []string{"0:0 xml and 3 more of this kind", "0:0 text and 1 more of this kind"}, messages(l.Findings())[2*MostPerRule+1:])
		})
	}
}

func TestAddOnce(t *testing.T) {
	l := List{Places: tens}
	l.AddOnce(XML, 3, "a", "first %d", 1)
	l.AddOnce(XML, 1, "b", "second")
	l.AddOnce(Faces, 5, "c", "another rule")
	l.AddOnce(Faces, 0, "c", "again")
	require.Equal(t, []string{"1:4 xml first 1", "1:6 shared-edges another rule"}, messages(l.Findings()))
	require.Equal(t, "a", l.Findings()[0].Element)
	require.Equal(t, 1, l.Count(XML))
	l.Add(XML, 7, "", "by Add")
	l.AddAt(Packed, markup.Place{Line: 1, Column: 9}, "", "known")
	l.AddOnce(Packed, 0, "", "not again")
	require.Equal(t, []string{"1:4 xml first 1", "1:6 shared-edges another rule", "1:8 xml by Add", "1:9 compressed known; unpack it"}, messages(l.Findings()))
}

// However findings come, none is lost below the limit, and they come out in
// the order that Findings promises.
func TestFindingsInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := List{Places: tens}
		count := map[*Rule]int{}
		for range rapid.IntRange(0, 40).Draw(t, "findings") {
			r := rapid.SampledFrom(All()).Draw(t, "rule")
			n := rapid.IntRange(0, 60).Draw(t, "at")
			count[r]++
			switch rapid.IntRange(0, 2).Draw(t, "how") {
			case 0:
				l.Add(r, n, "", "a")
			case 1:
				l.AddSpot(r, n, "", Spot{}, "a")
			default:
				l.AddAt(r, markup.Place{Line: n / 10, Column: n % 10}, "", "a")
			}
		}
		got := map[*Rule]int{}
		found := l.Findings()
		for i, f := range found {
			got[f.Rule]++
			if i == 0 {
				continue
			}
			before := found[i-1]
			switch {
			case before.Line == 0 || f.Line == 0:
				require.Zero(t, f.Line, "what has no place comes last")
			case before.Line != f.Line:
				require.Less(t, before.Line, f.Line)
			case before.Column != f.Column:
				require.Less(t, before.Column, f.Column)
			default:
				require.GreaterOrEqual(t, before.Rule.Severity, f.Rule.Severity)
			}
		}
		require.Equal(t, count, got)
		for r, n := range count {
			require.Equal(t, n, l.Count(r))
		}
	})
}
