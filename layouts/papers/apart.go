package papers

import (
	"errors"
	"fmt"
	"slices"
)

// apartEffort bounds the search for a way to keep papers apart, in places
// looked at. Fronts are flat maps, for which five papers are found at once and
// four nearly so; the bound is for what is large and just impossible.
const apartEffort = 200_000_000

// errEffort says that a search ended without an answer.
var errEffort = errors.New("the search ended early")

// apart deals so that no paper lies beside itself: places that lie beside
// each other get pile moves that differ, and then differ on every card. So it
// is the colouring of a map, solved exactly by search: places with the
// fewest papers left first (D. Brélaz, "New methods to color the vertices of
// a graph", Communications of the ACM 22, 1979, from memory), part by part of
// the map. That there is no way is proved by trying all.
func apart(b Batch) (Deal, error) {
	moves, err := colour(len(b.Roles), b.Beside, b.Papers)
	if err == nil {
		return dealPiles(b.Papers, moves), nil
	}
	text := fmt.Sprintf("with %s one always lies beside itself (all ways were tried)", counted(b.Papers, "paper", "papers"))
	if errors.Is(err, errEffort) {
		text = fmt.Sprintf("with %s no way was found to keep each off itself, and the search ended early", counted(b.Papers, "paper", "papers"))
	}
	for n := b.Papers + 1; n <= len(b.Roles); n++ {
		if _, err := colour(len(b.Roles), b.Beside, n); err == nil {
			return Deal{}, fmt.Errorf("%s; %d papers do", text, n)
		}
	}
	return Deal{}, errors.New(text)
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// colour gives each place one of n colours so that no pair has one twice,
// and the colours about equally often.
func colour(places int, pairs [][2]int, n int) ([]int, error) {
	m := colouring{n: n, beside: make([][]int, places), colours: make([]int, places), used: make([]int, n), free: slices.Repeat([]int{n}, places), effort: apartEffort}
	for _, p := range pairs {
		m.beside[p[0]] = append(m.beside[p[0]], p[1])
		m.beside[p[1]] = append(m.beside[p[1]], p[0])
	}
	m.taken = make([][]int, places)
	for i := range places {
		m.colours[i], m.taken[i] = -1, make([]int, n)
	}
	for i := range places {
		if m.colours[i] >= 0 {
			continue
		}
		if part := m.part(i); !m.fill(part, len(part)) {
			if m.effort <= 0 {
				return nil, errEffort
			}
			return nil, errors.New("there is no way")
		}
	}
	return m.colours, nil
}

// colouring is a map in the making.
type colouring struct {
	n       int
	beside  [][]int
	colours []int   // by place; -1 for none yet
	taken   [][]int // by place and colour: how many beside it have it
	used    []int   // by colour, over all places
	free    []int   // by place: how many colours nothing beside it has
	effort  int
}

// part returns the places that hang together with one.
func (m *colouring) part(first int) []int {
	seen := map[int]bool{first: true}
	list := []int{first}
	for i := 0; i < len(list); i++ {
		for _, next := range m.beside[list[i]] {
			if !seen[next] {
				seen[next] = true
				list = append(list, next)
			}
		}
	}
	return list
}

// fill colours what is left of a part.
func (m *colouring) fill(part []int, left int) bool {
	if left == 0 {
		return true
	}
	if m.effort -= len(part); m.effort <= 0 {
		return false
	}
	place := m.tightest(part)
	for _, c := range m.choices(place, left == len(part)) {
		m.set(place, c, 1)
		if m.fill(part, left-1) {
			return true
		}
		m.set(place, c, -1)
	}
	return false
}

// set gives a place its colour, or takes it away again.
func (m *colouring) set(place, c, by int) {
	m.colours[place] = c
	if by < 0 {
		m.colours[place] = -1
	}
	m.used[c] += by
	for _, next := range m.beside[place] {
		if by > 0 && m.taken[next][c] == 0 || by < 0 && m.taken[next][c] == 1 {
			m.free[next] -= by
		}
		m.taken[next][c] += by
	}
}

// tightest returns the place with the fewest colours left, of those the one
// with the most places beside it.
func (m *colouring) tightest(part []int) int {
	best := -1
	for _, i := range part {
		if m.colours[i] >= 0 {
			continue
		}
		if best < 0 || m.free[i] < m.free[best] || m.free[i] == m.free[best] && len(m.beside[i]) > len(m.beside[best]) {
			best = i
		}
	}
	return best
}

// choices are the colours that a place can have, the least used first. For
// the first place of a part one will do: colours can be exchanged.
func (m *colouring) choices(place int, first bool) []int {
	var list []int
	for c, n := range m.taken[place] {
		if n == 0 {
			list = append(list, c)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int { return m.used[a] - m.used[b] })
	if first && len(list) > 1 {
		return list[:1]
	}
	return list
}
