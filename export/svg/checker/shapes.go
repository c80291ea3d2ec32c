package checker

import (
	"fmt"
	"strconv"
	"strings"

	"panelry/export/svg/findings"
	"panelry/export/svg/reader"
	"panelry/geometry"
)

// Shapes reads a maker's own shapes: every closed outline that is to be cut,
// at its true size, with the rings inside it as its holes. Where a layer is
// named cut, only that is read; else all that is to be seen and is not in a
// score or print layer. Open lines are left out.
//
// A file without a true size is refused, and so is one with an error that
// bears on outlines; the error says where.
func Shapes(data []byte) ([]geometry.Outline, error) {
	counted, err := Counted(data)
	var list []geometry.Outline
	for _, s := range counted {
		list = append(list, s.Outline)
	}
	return list, err
}

// A Shape is an outline with the name of its element and how many of it the
// file wants: data-copies, or 1. Shapes of one block (data-block) keep their
// places to each other.
type Shape struct {
	Name    string
	Outline geometry.Outline
	Copies  int
	Block   string
}

// Counted reads what [Shapes] does, with names and counts.
func Counted(data []byte) ([]Shape, error) {
	c := &checker{}
	c.file = reader.Read(data, &c.found)
	if c.file.Sized {
		c.outlines()
	}
	if err := c.refuse(); err != nil {
		return nil, err
	}
	var rings []ring
	var exact []geometry.Ring
	var from []*Element
	var own []*ring
	for i := range c.elements {
		e := &c.elements[i]
		if e.Step != Cut || !e.Visible || c.layered && !named(e.Layer) {
			continue
		}
		list, err := e.Path.Rings(endGap)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", e.Label(), err)
		}
		for j, r := range list {
			if r != nil && j < len(e.rings) && len(e.rings[j].points) > 2 {
				rings, exact, from = append(rings, e.rings[j]), append(exact, r), append(from, e)
				own = append(own, &e.rings[j])
			}
		}
	}
	budget := newBudget()
	if !nest(rings, &budget) {
		return nil, fmt.Errorf("%d outlines are too many to see which lies in which", len(rings))
	}
	shapes, of, err := outlinesOf(rings, exact, from)
	if err != nil {
		return nil, err
	}
	outline := map[*ring]int{}
	for i, k := range of {
		outline[own[i]] = k
	}
	return shapes, c.apart(shapes, outline)
}

// apart makes sure that no two outlines of one element lie on one another.
// Those of different elements may: that is how a maker draws them.
func (c *checker) apart(shapes []Shape, outline map[*ring]int) error {
	m := c.comparison(Cut)
	m.budget.left *= 5 // a file refused for this would be a pity
	m.search()
	for _, key := range sortedKeys(m.met) {
		a, b := m.chains[key[0]], m.chains[key[1]]
		i, isShape := outline[a.ring]
		j, isToo := outline[b.ring]
		if w := m.met[key]; a.element != b.element || !isShape || !isToo || i == j || len(w.passes()) == 0 && w.along.doubled() < leastDoubled {
			continue
		}
		if geometry.Overlap(shapes[i].Outline, shapes[j].Outline) {
			return fmt.Errorf("%s: its outlines cross each other; join them into one, or draw them apart", shapes[i].Name)
		}
	}
	if !m.complete {
		return fmt.Errorf("%d outlines meet too often to see which cross each other", len(shapes))
	}
	return nil
}

// refuse returns the errors that keep a file from being taken, the first few
// of them.
func (c *checker) refuse() error {
	var texts []string
	more := 0
	for _, f := range c.found.Findings() {
		bears := f.Rule.Group == "size" || f.Rule.Group == "reading" || f.Rule.Group == "outlines"
		if f.Rule.Severity != findings.Error || !bears {
			continue
		}
		if len(texts) == 3 {
			more++
			continue
		}
		text := f.Message
		if f.Element != "" {
			text = f.Element + ": " + text
		}
		if f.Line > 0 {
			text = fmt.Sprintf("line %d, column %d: %s", f.Line, f.Column, text)
		}
		texts = append(texts, text)
	}
	switch {
	case len(texts) == 0:
		return nil
	case more > 0:
		texts = append(texts, fmt.Sprintf("and %d more", more))
	}
	return fmt.Errorf("%s", strings.Join(texts, "; "))
}

// outlinesOf puts rings together: one at an even depth is an outline, and
// those directly inside it are its holes. All run the way an outline should.
// The second result says which outline each ring is a part of.
func outlinesOf(rings []ring, exact []geometry.Ring, from []*Element) ([]Shape, []int, error) {
	place := make([]int, len(rings))
	var out []Shape
	for i, r := range rings {
		if r.inside%2 == 0 {
			place[i] = len(out)
			copies, err := copiesOf(from[i])
			if err != nil {
				return nil, nil, err
			}
			out = append(out, Shape{from[i].Label(), geometry.Outline{Outer: turned(exact[i], 1)}, copies, from[i].Block})
		}
	}
	for i, r := range rings {
		if r.inside%2 == 1 {
			if e, around := from[i], from[r.parent]; e != around && e.Copies+e.Block != "" {
				return nil, nil, fmt.Errorf("%s lies in %s and is a hole of it, so that its data-copies or data-block counts nothing; draw it beside, or take those away", e.Label(), around.Label())
			}
			place[i] = place[r.parent]
			o := &out[place[i]].Outline
			o.Holes = append(o.Holes, turned(exact[i], -1))
		}
	}
	for _, o := range out {
		if err := o.Outline.Validate(); err != nil {
			return nil, nil, fmt.Errorf("%s: %w", o.Name, err)
		}
	}
	return out, place, nil
}

// copiesOf reads how many of an element are wanted.
func copiesOf(e *Element) (int, error) {
	if e.Copies == "" {
		return 1, nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(e.Copies))
	if err != nil || n < 1 || n > mostCopies {
		return 0, fmt.Errorf("%s: data-copies is %q; write a whole number from 1 to %d", e.Label(), e.Copies, mostCopies)
	}
	return n, nil
}

// mostCopies is how many of one element a file may want.
const mostCopies = 50_000

// turned returns the ring running the way whose area has the sign.
func turned(r geometry.Ring, sign int) geometry.Ring {
	if r.Area().Sign() == -sign {
		return r.Reversed()
	}
	return r
}
