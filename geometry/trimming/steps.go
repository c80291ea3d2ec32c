package trimming

import (
	"fmt"
	"sort"
	"strings"

	"panelry/geometry"
)

// A Step is cuts of one part, all at one setting of the stop: strips of one
// width fall off, one after another, each measured from the stop and never
// from the piece before.
type Step struct {
	From    string          // name of the part that is cut: "sheet A", "A1", ...
	Parts   int             // how many such parts there are, over all sheets
	Size    geometry.Size   // of the part
	Upright bool            // the cuts run from its upper to its lower edge
	Stop    geometry.Length // the width of each strip
	Cuts    int             // of each part
	Strips  []Strip         // what falls off at this setting, and what is kept
}

// A Strip is what a step cuts off, or what is left of the part at its end.
type Strip struct {
	Name  string // of a part that is cut further; "" for a piece or an offcut
	Size  geometry.Size
	Count int // from each part
	Piece int // -1 for none
	Left  bool
}

// Steps turns trees of cuts into steps: sheets that are cut alike are cut
// together, cuts of one part that run the same way are made in the order of
// their stops, the widest first, and parts that are cut alike get one name.
func Steps(trees []*Part) []Step {
	s := &stepper{}
	for _, a := range Alikes(trees) {
		if a.Tree.Cut != nil {
			s.cut(a.Tree, "sheet "+a.Name, a.Name, a.Count)
		}
	}
	return s.steps
}

// An Alike is sheets that are cut alike.
type Alike struct {
	Name  string // A, B, ... Z, A1, ...
	Tree  *Part
	Count int
}

// Alikes puts sheets that are cut alike together, in the order in which they
// come first.
func Alikes(trees []*Part) []Alike {
	var list []Alike
	at := map[string]int{}
	for _, t := range trees {
		key := signature(t)
		i, ok := at[key]
		if !ok {
			i = len(list)
			at[key] = i
			name := string(rune('A' + i%26))
			if i >= 26 {
				name += fmt.Sprint(i / 26)
			}
			list = append(list, Alike{Name: name, Tree: t})
		}
		list[i].Count++
	}
	return list
}

type stepper struct{ steps []Step }

// signature tells trees that are cut alike, wherever they lie.
func signature(p *Part) string {
	size := p.Box.Size()
	if p.Cut == nil {
		return fmt.Sprintf("%d.%d:%d", size.W, size.H, p.Piece)
	}
	return fmt.Sprintf("%d.%d%v@%d(%s,%s)", size.W, size.H, p.Cut.Upright, p.Cut.At, signature(p.Parts[0]), signature(p.Parts[1]))
}

// strips lists what the cuts of one direction make of a part, the last of
// which is what is left when all others are off.
func strips(p *Part, upright bool) []*Part {
	if p.Cut == nil || p.Cut.Upright != upright {
		return []*Part{p}
	}
	return append(strips(p.Parts[0], upright), strips(p.Parts[1], upright)...)
}

func (s *stepper) cut(p *Part, name, prefix string, parts int) {
	upright := p.Cut.Upright
	width := func(q *Part) geometry.Length {
		if upright {
			return q.Box.W()
		}
		return q.Box.H()
	}
	list := strips(p, upright)
	// What is left over may stay on; else the narrowest strip is the last.
	sort.SliceStable(list, func(i, j int) bool {
		wasteI, wasteJ := list[i].Cut == nil && list[i].Piece < 0, list[j].Cut == nil && list[j].Piece < 0
		if wasteI != wasteJ {
			return wasteJ
		}
		return width(list[i]) > width(list[j])
	})
	type further struct {
		part  *Part
		name  string
		count int
	}
	var later []further
	number := 0
	for i := 0; i < len(list); {
		j := i
		for j < len(list) && width(list[j]) == width(list[i]) && (list[j].Cut != nil || list[j].Piece >= 0) == (list[i].Cut != nil || list[i].Piece >= 0) {
			j++
		}
		step := Step{From: name, Parts: parts, Size: p.Box.Size(), Upright: upright, Stop: width(list[i]), Cuts: j - i}
		last := j == len(list)
		if last {
			step.Cuts-- // the last strip is what is left on the trimmer
		}
		at := map[string]int{}
		for _, q := range list[i:j] {
			key := signature(q)
			if k, ok := at[key]; ok {
				step.Strips[k].Count++
				if q.Cut != nil {
					for f := range later {
						if signature(later[f].part) == key {
							later[f].count++
						}
					}
				}
				continue
			}
			at[key] = len(step.Strips)
			strip := Strip{Size: q.Box.Size(), Count: 1, Piece: -1, Left: q.Cut == nil && q.Piece < 0}
			switch {
			case q.Cut != nil:
				number++
				strip.Name = fmt.Sprintf("%s%d", prefix, number)
				later = append(later, further{q, strip.Name, 1})
			case q.Piece >= 0:
				strip.Piece = q.Piece
			}
			step.Strips = append(step.Strips, strip)
		}
		switch {
		case step.Cuts > 0:
			s.steps = append(s.steps, step)
		case len(s.steps) > 0 && last: // what stays when the step before is done
			before := &s.steps[len(s.steps)-1]
			if before.From == name {
				before.Strips = append(before.Strips, step.Strips...)
			}
		}
		i = j
	}
	for _, f := range later {
		s.cut(f.part, "strip "+f.name, f.name+".", parts*f.count)
	}
}

// Stops counts the different settings of the stop.
func Stops(steps []Step) int {
	set := map[geometry.Length]bool{}
	for _, s := range steps {
		set[s.Stop] = true
	}
	return len(set)
}

// String writes a step for tests and logs.
func (s Step) String() string {
	var parts []string
	for _, x := range s.Strips {
		what := x.Name
		switch {
		case x.Left:
			what = "left over"
		case x.Piece >= 0:
			what = fmt.Sprintf("piece %d", x.Piece)
		}
		parts = append(parts, fmt.Sprintf("%d %s %s", x.Count, what, x.Size))
	}
	return fmt.Sprintf("%s x%d: stop %s, %d cuts: %s", s.From, s.Parts, s.Stop, s.Cuts, strings.Join(parts, ", "))
}
