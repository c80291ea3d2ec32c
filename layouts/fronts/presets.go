package fronts

// Presets of diagonal halves: the arrangements of patchwork that differ only
// in how the cuts slant and which halves share a paper. A slant says which
// way the cell at a column and row is cut; a role, which paper the half gets
// that has the cell's left side, and which the other.
var presets = []struct {
	name, summary, roles string
	block                int // cells of a block each way; counts that are left out are whole blocks
	short                int // cells along the shorter side, when counts are left out
	slant                func(column, row int) byte
	role                 func(column, row int, left bool) int
}{
	// Every cut of a block of two by two points at its middle.
	{"pinwheel", "blocks of two by two cells whose halves turn round the middle", "two papers, turning", 2, 2,
		towardsBlock, func(c, r int, left bool) int { return toInt(left == (r%2 == 0)) }},
	// The same cuts; neighbours in pairs, so that four large triangles show;
	// every second block is turned by a quarter.
	{"broken dishes", "blocks whose halves make four large triangles", "top and bottom, then left and right, block by block in turn", 2, 2,
		towardsBlock, func(c, r int, left bool) int {
			side := left == (c%2 == 0) // the half at the block's left or right side
			return toInt(side != ((c/2+r/2)%2 == 1))
		}},
	{"eight-ray X", "blocks of two by two cells with eight papers round the middle", "eight papers, clockwise from the top left", 2, 2,
		towardsBlock, func(c, r int, left bool) int { return clockwise(c%2, r%2, left) }},
	// The cuts join the middles of the block's sides.
	{"diamond in quarters", "blocks of two by two cells with a diamond in the middle", "the diamond, then the corners", 2, 2,
		func(c, r int) byte { return either((c+r)%2 == 0) },
		func(c, r int, left bool) int { return toInt(left == (c%2 == 0)) }},
	{"diagonal ribbons", "all cuts slant one way, so that ribbons run across", "by ribbons, in two papers", 1, 3,
		func(int, int) byte { return '/' }, func(c, r int, left bool) int { return (c + r + toInt(!left)) % 2 }},
	{"sawtooth", "rows of halves all of one hand, like the teeth of a saw", "the teeth, then the ground", 1, 3,
		func(int, int) byte { return '/' }, func(_, _ int, left bool) int { return toInt(left) }},
	{"zigzag", "rows of halves with the hands in turn, so that points stand in a row", "the points, then the ground", 2, 4,
		func(c, _ int) byte { return either(c%2 == 0) },
		func(c, _ int, left bool) int { return toInt(left == (c%2 == 0)) }},
}

func init() {
	for _, p := range presets {
		Register(Layout{
			Name: p.name, Summary: p.summary, Roles: p.roles,
			Options: nearlySquare,
			Divide: func(b Brief) (Front, error) {
				return divideSlants(withBlocks(b, p.short, p.block), p.slant, p.role)
			},
		})
	}
}

// withBlocks is [withCounts] for whole blocks: counts that are left out are
// multiples of the block.
func withBlocks(b Brief, short, block int) Brief {
	given := b.Options
	if given.Count("columns") > 0 || given.Count("rows") > 0 {
		b = withCounts(b, short)
		for _, name := range []string{"columns", "rows"} {
			if given.Count(name) == 0 {
				b.Options[name] = max(1, (b.Options.Count(name)+block/2)/block) * block
			}
		}
		return b
	}
	b = withCounts(b, short/block)
	for _, name := range []string{"columns", "rows"} {
		b.Options[name] = min(MostCount, b.Options.Count(name)*block)
	}
	for b.Options.Count("columns")*b.Options.Count("rows") > 30 { // 60 halves are enough for one card
		long := "rows"
		if b.Options.Count("columns") > b.Options.Count("rows") {
			long = "columns"
		}
		b.Options[long] = b.Options.Count(long) - block
	}
	return b
}

// divideSlants halves the cells of a lattice by rule.
func divideSlants(b Brief, slant func(column, row int) byte, role func(column, row int, left bool) int) (Front, error) {
	cells, front, err := cells(b.exact())
	if err != nil {
		return Front{}, err
	}
	legs, err := halfLegs(b, cells, &front)
	if err != nil {
		return Front{}, err
	}
	for _, c := range cells {
		hand := string(slant(c.column, c.row))
		halves, err := halveCell(b, c, hand, legs)
		if err != nil {
			return Front{}, err
		}
		for k, half := range halves {
			front.Panels = append(front.Panels, Panel{
				Name: half.Panel, Outline: half.Outline, Hand: hand,
				Role: role(c.column, c.row, isLeft(hand, k)),
			})
		}
	}
	front.closeRoles()
	return front, nil
}

// closeRoles counts roles anew where a small front has no panel for some.
func (f *Front) closeRoles() {
	most := 0
	has := map[int]bool{}
	for _, p := range f.Panels {
		has[p.Role], most = true, max(most, p.Role)
	}
	to := make([]int, most+1)
	for role, next := 0, 0; role <= most; role++ {
		if to[role] = next; has[role] {
			next++
		}
	}
	for i := range f.Panels {
		f.Panels[i].Role = to[f.Panels[i].Role]
	}
}

// towardsBlock slants a cut towards the middle of its block of two by two.
func towardsBlock(c, r int) byte { return either((c+r)%2 == 1) }

func either(rising bool) byte {
	if rising {
		return '/'
	}
	return '\\'
}

func toInt(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// clockwise counts the halves of a block round its middle, from the upper
// half of its top left cell.
func clockwise(c, r int, left bool) int {
	switch {
	case c == 0 && r == 0:
		return map[bool]int{false: 0, true: 7}[left]
	case c == 1 && r == 0:
		return map[bool]int{true: 1, false: 2}[left]
	case c == 1:
		return map[bool]int{false: 3, true: 4}[left]
	}
	return map[bool]int{false: 5, true: 6}[left]
}
