package trimming

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"panelry/geometry"
)

// A CutSheet is a sheet of a stock and how it is cut into blocks.
type CutSheet struct {
	Stock int
	Size  geometry.Size
	Clean Cut   // goes first, off the left or the upper side; At is 0 for none
	Tree  *Part // what the rest of the sheet becomes; its pieces are indices of blocks
	AsCut bool  // each part loses the strips that its tree says, offcuts too, and the last is what is left
}

// A Block is an oblong that straight cuts along a sheet's sides make. With a
// name it is worked on further under it; without, it is a piece.
type Block struct {
	Name  string
	Piece int
}

// node is what a part becomes, whatever the order of its cuts: a block, an
// offcut, or strips side by side.
type node struct {
	size    geometry.Size
	block   int // -1 for none
	turned  bool
	upright bool
	strips  []*node         // blocks and what is cut further, the broadest first; none for a leaf
	tight   bool            // the strips fill the part: the last one is what is left
	rest    geometry.Length // of a part that is not tight: what is left over
	end     geometry.Length // where the cuts are to be as the tree has them: how broad the last strip is
	key     string          // the same for parts that become the same
}

func (n *node) leaf() bool   { return len(n.strips) == 0 }
func (n *node) offcut() bool { return n.leaf() && n.block < 0 }

// breadth is how broad the node is as a strip.
func (n *node) breadth(upright bool) geometry.Length {
	if upright {
		return n.size.W
	}
	return n.size.H
}

// nodeOf takes a tree to its node: cuts of one direction become strips side
// by side. Unless the cuts are to be as the tree has them, all that is left
// over of the strips becomes one rest.
func nodeOf(p *Part, kerf geometry.Length, asCut bool) *node {
	n := &node{size: p.Box.Size(), block: p.Piece, turned: p.Turned}
	if p.Cut != nil {
		n.upright = p.Cut.Upright
		left := n.breadth(n.upright)
		for _, q := range flat(p, n.upright, asCut) {
			strip := nodeOf(q, kerf, asCut)
			if asCut {
				n.end = strip.breadth(n.upright)
			}
			if n.end > 0 || !strip.offcut() {
				n.strips = append(n.strips, strip)
				left -= strip.breadth(n.upright) + kerf
			}
		}
		n.tight, n.rest = left == -kerf, max(0, left)
		slices.SortStableFunc(n.strips, func(a, b *node) int {
			return cmp.Or(cmp.Compare(b.breadth(n.upright), a.breadth(n.upright)), cmp.Compare(a.key, b.key))
		})
		if len(n.strips) == 1 && n.tight { // nothing was cut off
			return n.strips[0]
		}
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%d.%d:%d%v%v%d", n.size.W, n.size.H, n.block, n.turned, n.upright, n.end)
	for _, s := range n.strips {
		b.WriteString("(" + s.key + ")")
	}
	n.key = b.String()
	return n
}

// flat lists what the cuts of one direction make of a part. Where the cuts
// are to be as the tree has them, a strip that is cut that way again is a
// strip first.
func flat(p *Part, upright, asCut bool) []*Part {
	if p.Cut == nil || p.Cut.Upright != upright {
		return []*Part{p}
	}
	first := []*Part{p.Parts[0]}
	if !asCut {
		first = flat(p.Parts[0], upright, false)
	}
	return append(first, flat(p.Parts[1], upright, asCut)...)
}

// A Lot is sheets that are cut alike, of one stock or of several.
type Lot struct {
	Name  string // A, B, ... Z, AA, ...
	Of    []Share
	Sheet CutSheet // one of them
	root  *node
}

// Lots puts sheets that are cut alike together, in the order in which they
// come first.
func Lots(sheets []CutSheet, kerf geometry.Length) []Lot {
	var lots []Lot
	at := map[string]int{}
	for _, s := range sheets {
		root := nodeOf(s.Tree, kerf, s.AsCut)
		key := fmt.Sprint(s.Clean, root.key)
		i, ok := at[key]
		if !ok {
			i = len(lots)
			at[key] = i
			lots = append(lots, Lot{Name: lotName(i), Sheet: s, root: root})
		}
		lots[i].Of = addShare(lots[i].Of, Share{s.Stock, 1})
	}
	return lots
}

// lotName is A, B, ... Z, AA, AB, ...
func lotName(i int) string {
	name := string(rune('A' + i%26))
	if i >= 26 {
		return lotName(i/26-1) + name
	}
	return name
}

func addShare(of []Share, s Share) []Share {
	for i := range of {
		if of[i].Stock == s.Stock {
			of[i].Count += s.Count
			return of
		}
	}
	return append(of, s)
}

func timesShares(of []Share, n int) []Share {
	out := slices.Clone(of)
	for i := range out {
		out[i].Count *= n
	}
	return out
}

// section is a part, or parts that are alike, with the strips that its cuts
// of one direction make.
type section struct {
	name   string
	of     []Share
	node   *node
	groups []*group
	last   int // the group of which one strip is what is left; -1 for the offcut
	from   *group
	number int // among all sections
}

// group is the strips of one breadth of a section.
type group struct {
	in      *section
	breadth geometry.Length
	strips  int
	falls   []*Fall
	offcut  bool
	number  int // among all groups
}

// cuts counts the cuts of a group: what is left at the end needs none.
func (g *group) cuts() int {
	s := g.in
	if s.last >= 0 && s.groups[s.last] == g {
		return g.strips - 1
	}
	return g.strips
}

// program is all sections of some sheets.
type program struct {
	kerf     geometry.Length
	blocks   []Block
	lots     []Lot
	sections []*section
	groups   []*group
}

func newProgram(sheets []CutSheet, blocks []Block, kerf geometry.Length) *program {
	p := &program{kerf: kerf, blocks: blocks, lots: Lots(sheets, kerf)}
	for _, lot := range p.lots {
		if !lot.root.leaf() {
			p.add(lot.root, lot.Name, lot.Name, lot.Of, nil)
		}
	}
	return p
}

// add makes a section of a node, and those of the strips that it is cut into.
func (p *program) add(n *node, name, prefix string, of []Share, from *group) {
	s := &section{name: name, of: of, node: n, last: -1, from: from, number: len(p.sections)}
	p.sections = append(p.sections, s)
	type further struct {
		node  *node
		name  string
		count int
		from  *group
	}
	var later []*further
	byKey := map[string]*further{}
	seen := map[string]*Fall{}
	for _, strip := range n.strips {
		breadth := strip.breadth(n.upright)
		if k := len(s.groups); k == 0 || s.groups[k-1].breadth != breadth {
			s.groups = append(s.groups, p.newGroup(s, breadth))
		}
		g := s.groups[len(s.groups)-1]
		g.strips++
		if f := seen[strip.key]; f != nil {
			f.Count++
			if l := byKey[strip.key]; l != nil {
				l.count++
			}
			continue
		}
		fall := &Fall{Piece: -1, Count: 1, Shape: oblong(strip.size), Turned: strip.turned}
		switch {
		case strip.offcut():
		case strip.leaf():
			fall.Name, fall.Piece = p.blocks[strip.block].Name, p.blocks[strip.block].Piece
		default:
			l := &further{strip, fmt.Sprintf("%s%d", prefix, len(later)+1), 1, g}
			fall.Name = l.name
			later, byKey[strip.key] = append(later, l), l
		}
		g.falls = append(g.falls, fall)
		seen[strip.key] = fall
	}
	if n.tight {
		s.last = s.usualLast()
	} else if n.rest > 0 {
		g := p.newGroup(s, n.rest)
		g.strips, g.offcut = 1, true
		size := geometry.Size{W: n.size.W, H: n.rest}
		if n.upright {
			size = geometry.Size{W: n.rest, H: n.size.H}
		}
		g.falls = []*Fall{{Piece: -1, Count: 1, Shape: oblong(size)}}
		s.groups = append(s.groups, g)
		s.last = len(s.groups) - 1
	}
	for _, l := range later {
		p.add(l.node, l.name, l.name+".", timesShares(of, l.count), l.from)
	}
}

func (p *program) newGroup(s *section, breadth geometry.Length) *group {
	g := &group{in: s, breadth: breadth, number: len(p.groups)}
	p.groups = append(p.groups, g)
	return g
}

// usualLast is the group of which one strip is what is left: the narrowest
// strip that is alone of its breadth, which then needs no setting; else the
// narrowest.
func (s *section) usualLast() int {
	if s.node.end > 0 {
		return slices.IndexFunc(s.groups, func(g *group) bool { return g.breadth == s.node.end })
	}
	for i := len(s.groups) - 1; i >= 0; i-- {
		if s.groups[i].strips == 1 {
			return i
		}
	}
	return len(s.groups) - 1
}
