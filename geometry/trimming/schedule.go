package trimming

import (
	"slices"

	"panelry/geometry"
)

// schedule is the order in which the groups of a program are cut. The stop is
// set to one place after another; at each, all that is there to be cut at it
// is cut, with what comes to be there by that.
type schedule struct {
	*program
	free [][]*group // what each group's cuts free: groups of the sections that its strips become
	need []int      // of each section: groups with cuts of their own
}

// order returns the groups with cuts, in the order that sets the stop least
// often: the fewest settings where a search within mostOrders finds them, else
// by always going where the most can be done for good.
func (p *program) order() []*group {
	s := p.newSchedule()
	state := s.start()
	quick := s.quick(state.clone())
	least := s.fewest(state)
	if len(quick.stops) <= least {
		return quick.done
	}
	for most := least; most < len(quick.stops); most++ {
		work := mostOrders / (1 + len(p.groups))
		seen := map[string]int{}
		if found := s.within(state.clone(), most, seen, &work); found != nil {
			return found.done
		}
		if work <= 0 {
			break
		}
	}
	return quick.done
}

// mostOrders bounds the search for the best order: states it looks at, times
// the groups that each has.
const mostOrders = 20_000

func (p *program) newSchedule() *schedule {
	s := &schedule{program: p, free: make([][]*group, len(p.groups)), need: make([]int, len(p.sections))}
	for _, sec := range p.sections {
		if sec.from != nil {
			s.free[sec.from.number] = append(s.free[sec.from.number], sec.groups...)
		}
		for _, g := range sec.groups {
			if g.cuts() > 0 {
				s.need[sec.number]++
			}
		}
	}
	return s
}

// cutting is a program that is partly carried out.
type cutting struct {
	ready []*group // that can be cut now
	left  []int    // of each section: groups that are still to be cut
	done  []*group
	stops []geometry.Length
	todo  map[geometry.Length]int // groups still to be cut at each stop
}

func (c *cutting) clone() *cutting {
	todo := make(map[geometry.Length]int, len(c.todo))
	for k, v := range c.todo {
		todo[k] = v
	}
	return &cutting{slices.Clone(c.ready), slices.Clone(c.left), slices.Clone(c.done), slices.Clone(c.stops), todo}
}

func (s *schedule) start() *cutting {
	c := &cutting{left: slices.Clone(s.need), todo: map[geometry.Length]int{}}
	for _, g := range s.groups {
		if g.cuts() > 0 {
			c.todo[g.breadth]++
		}
	}
	for _, sec := range s.sections {
		if sec.from == nil {
			s.open(c, sec.groups)
		}
	}
	return c
}

// open makes groups ready; one without cuts is done as soon as its section is.
func (s *schedule) open(c *cutting, groups []*group) {
	for _, g := range groups {
		if g.cuts() > 0 {
			c.ready = append(c.ready, g)
		}
	}
}

// set sets the stop and cuts all that can be cut at it.
func (s *schedule) set(c *cutting, stop geometry.Length) {
	c.stops = append(c.stops, stop)
	for i := 0; i < len(c.ready); {
		g := c.ready[i]
		if g.breadth != stop {
			i++
			continue
		}
		c.ready = slices.Delete(c.ready, i, i+1)
		c.done = append(c.done, g)
		c.todo[stop]--
		if c.todo[stop] == 0 {
			delete(c.todo, stop)
		}
		sec := g.in
		c.left[sec.number]--
		// A group of which one strip is what is left is only there at the end.
		isLast := func(k *group) bool { return sec.last >= 0 && sec.groups[sec.last] == k }
		if !isLast(g) {
			s.open(c, s.free[g.number])
		}
		if c.left[sec.number] == 0 && sec.last >= 0 {
			s.open(c, s.free[sec.groups[sec.last].number])
		}
		i = 0 // what became ready may come at the same stop
	}
}

// fewest is no more than the settings that are still needed.
func (s *schedule) fewest(c *cutting) int { return len(c.todo) }

// choices lists the stops at which something can be cut, those first that are
// not needed again after, then those with the most to do, then the widest.
func (s *schedule) choices(c *cutting) []geometry.Length {
	type choice struct {
		stop  geometry.Length
		again int
		count int
	}
	var list []choice
	for _, g := range c.ready {
		if slices.ContainsFunc(list, func(x choice) bool { return x.stop == g.breadth }) {
			continue
		}
		after := c.clone()
		s.set(after, g.breadth)
		list = append(list, choice{g.breadth, after.todo[g.breadth], len(after.done) - len(c.done)})
	}
	slices.SortFunc(list, func(a, b choice) int {
		switch {
		case (a.again == 0) != (b.again == 0):
			return b2i(a.again != 0) - b2i(b.again != 0)
		case a.count != b.count:
			return b.count - a.count
		case a.stop > b.stop:
			return -1
		}
		return 1
	})
	out := make([]geometry.Length, len(list))
	for i, x := range list {
		out[i] = x.stop
	}
	return out
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// quick carries a program out by always taking the first choice.
func (s *schedule) quick(c *cutting) *cutting {
	for len(c.ready) > 0 {
		s.set(c, s.choices(c)[0])
	}
	return c
}

// within carries a program out with so many settings at most; nil where that
// cannot be, or is not found within the work.
func (s *schedule) within(c *cutting, most int, seen map[string]int, work *int) *cutting {
	if len(c.ready) == 0 {
		return c
	}
	if *work--; *work < 0 || len(c.stops)+s.fewest(c) > most {
		return nil
	}
	key := s.stateKey(c)
	if n, ok := seen[key]; ok && n <= len(c.stops) {
		return nil
	}
	seen[key] = len(c.stops)
	for _, stop := range s.choices(c) {
		next := c.clone()
		s.set(next, stop)
		if found := s.within(next, most, seen, work); found != nil {
			return found
		}
	}
	return nil
}

// stateKey names what is done, whatever the order; the stop does not matter,
// as nothing at it is left to do.
func (s *schedule) stateKey(c *cutting) string {
	bits := make([]byte, len(s.groups)/8+1)
	for _, g := range c.done {
		bits[g.number/8] |= 1 << (g.number % 8)
	}
	return string(bits)
}

// settle chooses, section by section, which strip is what is left at the end
// so that the stop is set less often, and returns the order of the cuts. It
// tries to do without each stop wherever it can be done without, and then the
// sections one by one.
func (p *program) settle() []*group {
	best := p.quickly()
	tries := mostSettled
	// try keeps a change that sets the stop less often.
	try := func(change func()) {
		if tries--; tries < 0 || best <= 1 {
			return
		}
		var kept []int
		for _, sec := range p.sections {
			kept = append(kept, sec.last)
		}
		change()
		if next := p.quickly(); next < best {
			best = next
			return
		}
		for i, sec := range p.sections {
			sec.last = kept[i]
		}
	}
	stops := map[geometry.Length]bool{}
	for _, g := range p.groups {
		if g.cuts() == 1 && !stops[g.breadth] {
			stops[g.breadth] = true
			try(func() { p.without(g.breadth) })
		}
	}
	for _, sec := range p.sections {
		for k := range sec.groups {
			if sec.free() && k != sec.last {
				try(func() { sec.last = k })
			}
		}
	}
	return p.order()
}

// quickly is how often a quick look finds that the stop is set.
func (p *program) quickly() int {
	s := p.newSchedule()
	return len(s.quick(s.start()).stops)
}

// free reports whether another strip could be what is left.
func (s *section) free() bool { return s.last >= 0 && s.node.end == 0 && len(s.groups) > 1 }

// without leaves single strips of a breadth to the end, so that the stop need
// not be set to it for them.
func (p *program) without(stop geometry.Length) {
	for _, sec := range p.sections {
		for k, g := range sec.groups {
			if sec.free() && g.breadth == stop && g.strips == 1 {
				sec.last = k
			}
		}
	}
}

// mostSettled is how many ways to choose what is left are tried.
const mostSettled = 60

// steps writes groups in their order as steps.
func (p *program) steps(order []*group) []Step {
	var steps []Step
	for _, lot := range p.lots {
		if c := lot.Sheet.Clean; c.At > 0 {
			whole := lot.Sheet.Size
			waste := geometry.Size{W: whole.W, H: c.At}
			if c.Upright {
				waste = geometry.Size{W: c.At, H: whole.H}
			}
			steps = append(steps, Step{
				Work: CleanEdge, Part: lot.Name, Of: lot.Of, Shape: oblong(whole), Upright: c.Upright, Stop: c.At, Cuts: 1,
				Falls: []Fall{{Piece: -1, Count: 1, Shape: oblong(waste)}},
				Rest:  Fall{Name: lot.Name, Piece: -1, Count: 1, Shape: oblong(lot.Sheet.Tree.Box.Size())},
			})
		}
	}
	left := make([]geometry.Size, len(p.sections)) // of each section's part
	undone := make([]int, len(p.sections))
	for i, sec := range p.sections {
		left[i] = sec.node.size
		for _, g := range sec.groups {
			undone[i] += b2i(g.cuts() > 0)
		}
	}
	for _, g := range order {
		sec := g.in
		n := sec.number
		step := Step{Work: Strips, Part: sec.name, Of: sec.of, Shape: oblong(left[n]), Upright: sec.node.upright, Stop: g.breadth, Cuts: g.cuts()}
		off := geometry.Length(step.Cuts) * (g.breadth + p.kerf)
		if sec.node.upright {
			left[n].W = max(0, left[n].W-off)
		} else {
			left[n].H = max(0, left[n].H-off)
		}
		for _, f := range g.falls {
			step.Falls = append(step.Falls, *f)
		}
		isLast := sec.last >= 0 && sec.groups[sec.last] == g
		if isLast { // one strip stays: of the last fall
			k := len(step.Falls) - 1
			if step.Falls[k].Count--; step.Falls[k].Count == 0 {
				step.Falls = step.Falls[:k]
			}
		}
		step.Rest = Fall{Name: sec.name, Piece: -1, Count: 1, Shape: oblong(left[n])}
		if undone[n]--; undone[n] == 0 {
			step.Rest = Fall{Piece: -1, Shape: oblong(left[n])} // kerf took all
			if left[n].W > 0 && left[n].H > 0 {
				step.Rest.Count = 1
			}
			if sec.last >= 0 {
				falls := sec.groups[sec.last].falls
				step.Rest = *falls[len(falls)-1]
				step.Rest.Count = 1
			}
		}
		steps = append(steps, step)
	}
	return steps
}

// StraightSteps returns the straight cuts of sheets as steps, in an order
// that sets the stop as rarely as is found. Sheets that are cut alike are cut
// together, of whichever stock they are.
func StraightSteps(sheets []CutSheet, blocks []Block, kerf geometry.Length) []Step {
	p := newProgram(sheets, blocks, kerf)
	return p.steps(p.settle())
}

// Weigh returns what a plan costs besides its sheets: settings of the stop,
// cuts, and steps. It is a quick look: the settings may turn out fewer.
func (p Planned) Weigh(job Job) []int {
	cuts, steps := 0, 0
	g := newProgram(p.Sheets(0, job.Stock.Size), make([]Block, len(job.Pieces)), job.Kerf)
	for _, k := range g.groups {
		cuts += k.cuts() * parts(k.in.of)
		steps += b2i(k.cuts() > 0)
	}
	return []int{g.quickly(), cuts, steps}
}

func parts(of []Share) int {
	n := 0
	for _, s := range of {
		n += s.Count
	}
	return n
}
