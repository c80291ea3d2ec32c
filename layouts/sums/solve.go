package sums

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/wording"
)

// A Target is the size that a panel should have, of its box; 0 leaves a side
// open.
type Target struct {
	Panel string
	Size  geometry.Size
}

// Unknowns are what [Solve] can change.
func Unknowns() []string { return []string{"margin", "gap", "card"} }

// An Answer is a margin, a gap and a card that give a panel its size.
type Answer struct {
	What        string // what was changed: "margin", "margin and gap", ...
	Margin, Gap geometry.Length
	Card        geometry.Size
	Got         geometry.Size // what the panel then measures
	Off         geometry.Size // by how much that is not what was asked; a side left open is 0
	Why         string        // why there is no answer; "" where there is one
}

// Exact reports whether the panel comes out as asked, to the nanometres that
// rounding costs.
func (a Answer) Exact() bool { return a.Why == "" && max(a.Off.W.Abs(), a.Off.H.Abs()) <= 10 }

// Solve answers which margin, gap or card makes a panel of a design as large
// as asked. The unknowns say what may change together; without any, each
// alone and margin and gap together are tried, and what fits best comes
// first. More unknowns than sides asked for have no single answer.
func Solve(d layouts.Design, t Target, unknowns ...string) ([]Answer, error) {
	s := &solver{design: d, target: t}
	card, err := layouts.PlanCard(d)
	if err != nil {
		return nil, err
	}
	if _, ok := s.sizeIn(card); !ok {
		var names []string
		for _, p := range card.Panels {
			names = append(names, p.Name)
		}
		return nil, fmt.Errorf("there is no panel %q%s", t.Panel, wording.Meant(t.Panel, names))
	}
	sides := s.sides()
	if len(sides) == 0 {
		return nil, fmt.Errorf("say how wide or how high panel %s should be", t.Panel)
	}
	var sets [][]string
	switch {
	case len(unknowns) == 0:
		sets = [][]string{{"margin"}, {"gap"}, {"card"}}
		if len(sides) == 2 {
			sets = append(sets, []string{"margin", "gap"})
		}
	default:
		for _, u := range unknowns {
			if !slices.Contains(Unknowns(), u) {
				return nil, fmt.Errorf("%q cannot be solved for; write %s", u, wording.OrPlain(Unknowns()))
			}
		}
		if n := s.count(unknowns); n > len(sides) {
			return nil, fmt.Errorf("%s are %d unknowns, and panel %s has %s to go by; which of them should stay as it is?",
				strings.Join(unknowns, " and "), n, t.Panel, counted(len(sides), "side"))
		}
		sets = [][]string{unknowns}
	}
	var answers []Answer
	for _, set := range sets {
		answers = append(answers, s.solve(set))
	}
	slices.SortStableFunc(answers, func(a, b Answer) int { return rank(a) - rank(b) })
	return answers, nil
}

func rank(a Answer) int {
	switch {
	case a.Exact():
		return 0
	case a.Why == "":
		return 1
	}
	return 2
}

// solver finds zeros of a panel's size, seen as a function of margin, gap and
// card. The forward sums do the work; each step asks them anew.
type solver struct {
	design layouts.Design
	target Target
}

// variable is one number that a design may change.
type variable struct {
	get func(*layouts.Design) *geometry.Length
}

var variables = map[string][]variable{
	"margin": {{func(d *layouts.Design) *geometry.Length { return &d.Front.Margin }}},
	"gap":    {{func(d *layouts.Design) *geometry.Length { return &d.Front.Gap }}},
	"card": {
		{func(d *layouts.Design) *geometry.Length { return &d.Card.Size.W }},
		{func(d *layouts.Design) *geometry.Length { return &d.Card.Size.H }},
	},
}

// of returns the variables of a set of unknowns; of the card only the sides
// that are asked for.
func (s *solver) of(set []string) []variable {
	var list []variable
	for _, u := range set {
		if u == "card" {
			for _, side := range s.sides() {
				list = append(list, variables[u][side])
			}
			continue
		}
		list = append(list, variables[u]...)
	}
	return list
}

func (s *solver) count(set []string) int { return len(s.of(set)) }

// sides lists the sides asked for: 0 across, 1 down.
func (s *solver) sides() []int {
	var list []int
	if s.target.Size.W > 0 {
		list = append(list, 0)
	}
	if s.target.Size.H > 0 {
		list = append(list, 1)
	}
	return list
}

func (s *solver) sizeIn(c layouts.Card) (geometry.Size, bool) {
	for _, p := range c.Panels {
		if strings.EqualFold(p.Name, s.target.Panel) {
			return p.Outline.Bounds().Size(), true
		}
	}
	return geometry.Size{}, false
}

// off returns how much larger than asked the panel is, side by side.
func (s *solver) off(d layouts.Design) ([]float64, geometry.Size, bool) {
	card, err := layouts.PlanCard(d)
	if err != nil {
		return nil, geometry.Size{}, false
	}
	size, ok := s.sizeIn(card)
	var list []float64
	for _, side := range s.sides() {
		list = append(list, float64([2]geometry.Length{size.W - s.target.Size.W, size.H - s.target.Size.H}[side]))
	}
	return list, size, ok
}

// solve walks to where the panel has its size, by Newton's method with the
// slopes measured over a tenth of a millimetre. With one unknown and two
// sides it meets the first side, and the answer says how far off the other
// is.
func (s *solver) solve(set []string) Answer {
	a := Answer{What: strings.Join(set, " and ")}
	vars := s.of(set)
	n := len(vars)
	d := s.design
	f, _, ok := s.off(d)
	for step := 0; ok && step < 40 && norm(f[:n]) > 1; step++ {
		const dx = geometry.Millimetre / 10
		slopes := make([][]float64, n) // by variable
		for j, v := range vars {
			moved := d
			*v.get(&moved) += dx
			g, _, fine := s.off(moved)
			if !fine {
				*v.get(&moved) -= 2 * dx
				if g, _, fine = s.off(moved); !fine {
					a.Why = "the panel does not follow its size steadily"
					return a
				}
				for i := range g {
					g[i] = 2*f[i] - g[i]
				}
			}
			slopes[j] = make([]float64, n)
			for i := range n {
				slopes[j][i] = (g[i] - f[i]) / float64(dx)
			}
		}
		delta, solvable := linear(slopes, f[:n])
		if !solvable {
			a.Why = "changing it does not change this panel"
			return a
		}
		next, g, moved := d, []float64(nil), false
		for part := 1.0; part > 1e-3 && !moved; part /= 2 {
			next = d
			for j, v := range vars {
				x := v.get(&next)
				*x = max(0, *x-geometry.Length(math.Round(part*delta[j])))
			}
			g, _, moved = s.off(next)
		}
		if !moved || norm(g[:n]) >= norm(f[:n]) && step > 3 {
			break
		}
		d, f = next, g
	}
	g, size, ok := s.off(d)
	if !ok || norm(g[:n]) > 20 {
		a.Why = s.why(set)
		return a
	}
	a.Margin, a.Gap, a.Card, a.Got = d.Front.Margin, d.Front.Gap, d.Card.Size, size
	for i, side := range s.sides() {
		if side == 0 {
			a.Off.W = geometry.Length(g[i])
		} else {
			a.Off.H = geometry.Length(g[i])
		}
	}
	return a
}

// why says what is short: the panel at its largest, with nothing left of what
// may change.
func (s *solver) why(set []string) string {
	d := s.design
	for _, u := range set {
		if u != "card" {
			*variables[u][0].get(&d) = 0
		}
	}
	f, size, ok := s.off(d)
	unit := s.design.Units
	what := strings.Join(set, " and ")
	if !ok {
		return fmt.Sprintf("no %s does it", what)
	}
	for i, side := range s.sides() {
		if f[i] < 0 {
			return fmt.Sprintf("even with no %s the panel is only %s %s, %s short", strings.Join(set, " and no "),
				[2]geometry.Length{size.W, size.H}[side].Format(unit), [2]string{"wide", "high"}[side], geometry.Length(-f[i]).Format(unit))
		}
	}
	return fmt.Sprintf("no %s does it", what)
}

func norm(f []float64) float64 {
	var most float64
	for _, x := range f {
		most = max(most, math.Abs(x))
	}
	return most
}

// linear solves slopes · delta = f for one or two variables.
func linear(slopes [][]float64, f []float64) ([]float64, bool) {
	if len(f) == 1 {
		if math.Abs(slopes[0][0]) < 1e-6 {
			return nil, false
		}
		return []float64{f[0] / slopes[0][0]}, true
	}
	a, b, c, d := slopes[0][0], slopes[1][0], slopes[0][1], slopes[1][1]
	det := a*d - b*c
	if math.Abs(det) < 1e-6 {
		return nil, false
	}
	return []float64{(f[0]*d - b*f[1]) / det, (a*f[1] - c*f[0]) / det}, true
}
