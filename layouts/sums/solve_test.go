package sums_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/fronts"
	"panelry/layouts/sums"
)

// checkDesign is a design of our own for checks; it is not the demo.
const checkDesign = `
title = "Check"
units = "in"
[card]
size = "4 1/4 x 5 1/2"
paper = "base"
[front]
layout = "LAYOUT"
margin = "1/8"
gap = "1/8"
papers = ["first", "second"]
[[papers]]
name = "base"
sheet = "12 x 12"
[[papers]]
name = "first"
sheet = "12 x 12"
[[papers]]
name = "second"
sheet = "12 x 12"
`

func design(t testing.TB, layout string, changes ...string) layouts.Design {
	t.Helper()
	text := strings.NewReplacer(append([]string{"LAYOUT", layout}, changes...)...).Replace(checkDesign)
	d, err := layouts.Read(strings.NewReader(text), nil)
	require.NoError(t, err)
	return d
}

// Hand sums: a column of a 2 x 2 grid is (4.25 - 2m - g)/2 wide.
func TestSolve(t *testing.T) {
	d := design(t, "grid")
	answers, err := sums.Solve(d, sums.Target{Panel: "A1", Size: geometry.Size{W: inches(2)}})
	require.NoError(t, err)
	byWhat := map[string]sums.Answer{}
	for _, a := range answers {
		byWhat[a.What] = a
		require.True(t, a.Exact(), a.What)
	}
	require.InDelta(t, float64(inches(0.0625)), float64(byWhat["margin"].Margin), 2, "4.25 - 4 - 1/8 over two")
	require.Zero(t, byWhat["gap"].Gap, "4.25 - 4 - 1/4")
	require.InDelta(t, float64(inches(4.375)), float64(byWhat["card"].Card.W), 2)
	require.Equal(t, inches(5.5), byWhat["card"].Card.H, "only the side asked for changes")

	// Both sides: 2 x 2 5/8 is a margin of 1/16 with a gap of 1/8.
	answers, err = sums.Solve(d, sums.Target{Panel: "b2", Size: geometry.Size{W: inches(2), H: inches(2.625)}})
	require.NoError(t, err)
	require.Equal(t, "margin", answers[0].What)
	require.True(t, answers[0].Exact())
	require.InDelta(t, float64(inches(0.0625)), float64(answers[0].Margin), 2)
	// 2 x 2 1/2 cannot be had by one of them, but by both: 2m + g = 1/4 across
	// and 1/2 down is a contradiction, so only another card does it.
	answers, err = sums.Solve(d, sums.Target{Panel: "A1", Size: geometry.Size{W: inches(2), H: inches(2.5)}})
	require.NoError(t, err)
	require.Equal(t, "card", answers[0].What)
	require.True(t, answers[0].Exact())
	require.Equal(t, "margin and gap", answers[len(answers)-1].What)
	require.Equal(t, "changing it does not change this panel", answers[len(answers)-1].Why)
	require.False(t, answers[1].Exact())
	require.InDelta(t, float64(inches(0.125)), float64(answers[1].Off.H), 3)

	// Two columns and three rows have two sums, so both can be found.
	answers, err = sums.Solve(design(t, "grid", `gap = "1/8"`, "gap = 0.2\nrows = 3"), sums.Target{Panel: "A1", Size: geometry.Size{W: inches(2), H: inches(1.7)}}, "margin", "gap")
	require.NoError(t, err)
	require.True(t, answers[0].Exact(), answers[0].Why)
	require.InDelta(t, float64(inches(0.15)), float64(answers[0].Gap), 4, "5.5 - 5.1 - (4.25 - 4)")
	require.InDelta(t, float64(inches(0.05)), float64(answers[0].Margin), 4)
}

func TestSolveRefuses(t *testing.T) {
	d := design(t, "grid")
	for name, c := range map[string]struct {
		target   sums.Target
		unknowns []string
		want     string
	}{
		"no such panel": {sums.Target{Panel: "C9", Size: geometry.Size{W: in}}, nil, `there is no panel "C9"`},
		"no size":       {sums.Target{Panel: "A1"}, nil, "say how wide or how high panel A1 should be"},
		"too many":      {sums.Target{Panel: "A1", Size: geometry.Size{W: in}}, []string{"margin", "gap"}, "margin and gap are 2 unknowns, and panel A1 has 1 side to go by; which of them should stay as it is?"},
		"unknown":       {sums.Target{Panel: "A1", Size: geometry.Size{W: in}}, []string{"rows"}, `"rows" cannot be solved for; write margin, gap or card`},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := sums.Solve(d, c.target, c.unknowns...)
			require.ErrorContains(t, err, c.want)
		})
	}
	answers, err := sums.Solve(d, sums.Target{Panel: "A1", Size: geometry.Size{W: inches(2.5)}}, "margin")
	require.NoError(t, err)
	require.Equal(t, "even with no margin the panel is only 2 1/16 in wide, 7/16 in short", answers[0].Why)
}

// Every layout: a panel's size with another margin is asked for, and that
// margin is found again.
func TestSolveFindsTheMarginAgain(t *testing.T) {
	for _, l := range fronts.All() {
		if l.Name == "own shapes" {
			continue
		}
		t.Run(l.Name, func(t *testing.T) {
			d := design(t, l.Name)
			other := d
			other.Front.Margin = inches(0.1)
			card, err := layouts.PlanCard(other)
			require.NoError(t, err)
			p := card.Panels[0]
			size := geometry.Size{W: p.Outline.Bounds().W()}
			answers, err := sums.Solve(d, sums.Target{Panel: p.Name, Size: size}, "margin")
			require.NoError(t, err)
			if a := answers[0]; a.Why == "" {
				require.InDelta(t, float64(size.W), float64(a.Got.W), 20)
			} else {
				require.Contains(t, []string{"changing it does not change this panel", "no margin does it", "the panel does not follow its size steadily"}, a.Why)
				t.Log(a.Why)
			}
		})
	}
}
