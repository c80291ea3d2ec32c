package trimming

import (
	"fmt"
	"math/rand"
	"slices"
	"sort"

	"panelry/geometry"
)

// A Job is a list of pieces and the stock that they come from.
type Job struct {
	Pieces  []Piece // each with a Count
	Stock   Stock
	Kerf    geometry.Length
	Longest geometry.Length // no cut may be longer; 0 for any length
	Clean   geometry.Length // goes off one side of each sheet first; 0 for none
	Effort  int             // work to spend, in thousands of looks at a room for a piece; 0 stands for 2,000; 100,000 take about a second
	Seed    int64           // the same seed and effort give the same plan
}

// A Planned is how all pieces are cut.
type Planned struct {
	Trees     []*Part
	Bound     int    // no plan needs fewer sheets
	BoundName string // how the bound is known: "by area", ...
	Proved    bool   // no plan needs fewer sheets than this
	Clean     Cut    // the clean edge of each sheet; the trees are cut from what it leaves
	AsCut     bool   // see CutSheet
	Fewest    bool   // settings of the stop, and then cuts, are proved fewest for so many sheets
}

// Sheets returns the sheets of a plan, of one stock.
func (p Planned) Sheets(stock int, size geometry.Size) []CutSheet {
	sheets := make([]CutSheet, len(p.Trees))
	for i, t := range p.Trees {
		sheets[i] = CutSheet{Stock: stock, Size: size, Clean: p.Clean, Tree: t, AsCut: p.AsCut}
	}
	return sheets
}

// MostPieces is how many pieces a job may have.
const MostPieces = 5000

// Plan gets all pieces of a job out of few sheets: by strips cut across,
// which a trimmer cuts with few settings, unless a plan with fewer sheets is
// found. To find one it lays the largest pieces first into what cuts have
// left, each cut chosen by what it leaves, and then tries for its effort to
// empty sheets: it takes a few apart and lays their pieces anew, in other
// orders (a large neighbourhood search). It stops at the bound.
//
// What cannot be is an error: a piece that no sheet holds, or that needs a
// longer cut than the longest, more pieces than [MostPieces], too little stock.
func Plan(job Job) (Planned, error) {
	if job.Clean > 0 {
		return planClean(job)
	}
	p, err := newPlanner(job)
	if err != nil {
		return Planned{}, err
	}
	out := Planned{Trees: p.byStrips()}
	if out.Trees == nil || len(out.Trees) > p.bound {
		p.boundByPatterns()
	}
	if out.Trees == nil || len(out.Trees) > p.bound {
		p.search()
		if out.Trees == nil || len(p.best) < len(out.Trees) {
			out.Trees = nil
			for _, s := range p.best {
				out.Trees = append(out.Trees, p.tree(s))
			}
		}
	}
	out.Bound, out.BoundName = p.bound, p.boundName
	out.Proved = len(out.Trees) == p.bound
	out.fewer(job)
	if n := job.Stock.Count; n > 0 && len(out.Trees) > n {
		return Planned{}, fmt.Errorf("the pieces need %d sheets and there are %d", len(out.Trees), n)
	}
	return out, nil
}

// one is one piece that is to be laid.
type one struct {
	piece int
	w, h  geometry.Length
}

// laid is a piece in a room that was free, and how the rest of the room was
// cut: by an upright cut beside the piece first, or by a level one below it.
type laid struct {
	one
	turned  bool
	room    int // index among the rooms as they were made
	upright bool
}

// sheet is a sheet while it is filled: every room that cuts have made, and
// which of them are free.
type sheet struct {
	rooms []geometry.Rect
	free  []int
	laid  []laid
	used  float64 // area
	cuts  *Part   // where the sheet was filled as a whole, by refill
}

type planner struct {
	job    Job
	kerf   geometry.Length
	all    []one
	random *rand.Rand
	best   []*sheet
	area   float64
	whole  int // looks that may be made
	left   int // of these, how many still

	bound     int
	boundName string
}

func newPlanner(job Job) (*planner, error) {
	p := &planner{job: job, kerf: job.Kerf, random: rand.New(rand.NewSource(job.Seed + 1))}
	w, h := job.Stock.Size.W, job.Stock.Size.H
	p.area = float64(w) * float64(h)
	for i, piece := range job.Pieces {
		s := piece.Size
		fits := s.W <= w && s.H <= h || piece.Turn && s.H <= w && s.W <= h
		switch {
		case s.W <= 0 || s.H <= 0:
			return nil, fmt.Errorf("a piece of %s has no size", s)
		case !fits:
			return nil, &TooLargeError{s, job.Stock.Size, 0}
		case !p.cuttable(piece):
			return nil, &TooLargeError{s, job.Stock.Size, job.Longest}
		case len(p.all)+piece.Count > MostPieces:
			return nil, fmt.Errorf("more than %d pieces; plan them in parts", MostPieces)
		}
		for range piece.Count {
			p.all = append(p.all, one{i, s.W, s.H})
		}
	}
	p.boundByShapes()
	p.boundByKind()
	p.whole = job.Effort * 1000
	if p.whole <= 0 {
		p.whole = 2_000_000
	}
	p.left = p.whole
	return p, nil
}

// manner is how pieces are laid in one run.
type manner struct {
	fit   int // which room is best: 0 the least area left, 1 the least side left, 2 the longest side least left
	cut   int // which way the rest is cut: 0 shorter rest first, 1 longer, 2 the largest room, 3 by chance
	noise float64
}

func (p *planner) newSheet() *sheet {
	s := &sheet{rooms: []geometry.Rect{geometry.RectFromSize(geometry.Point{}, p.job.Stock.Size)}, free: []int{0}}
	return s
}

// lay lays pieces in their order onto at most `most` sheets, opening new ones
// as needed; nil where they do not fit.
func (p *planner) lay(order []one, most int, m manner) []*sheet {
	var sheets []*sheet
	for _, o := range order {
		if p.put(sheets, o, m) {
			continue
		}
		if len(sheets) == most {
			return nil
		}
		s := p.newSheet()
		sheets = append(sheets, s)
		if !p.put(sheets[len(sheets)-1:], o, m) {
			return nil
		}
	}
	return sheets
}

// put lays a piece into the best room of all sheets.
func (p *planner) put(sheets []*sheet, o one, m manner) bool {
	bestScore := 0.0
	var best *sheet
	var place laid
	for _, s := range sheets {
		p.left -= len(s.free)
		for _, r := range s.free {
			room := s.rooms[r].Size()
			for _, turned := range [2]bool{false, true} {
				w, h := o.w, o.h
				if turned {
					if !p.job.Pieces[o.piece].Turn || w == h {
						break
					}
					w, h = h, w
				}
				if w > room.W || h > room.H || p.job.Longest > 0 && !p.mayCut(room, w, h, true) && !p.mayCut(room, w, h, false) {
					continue
				}
				score := m.score(room, w, h)
				if m.noise > 0 {
					score *= 1 + m.noise*p.random.Float64()
				}
				if best == nil || score < bestScore {
					best, bestScore = s, score
					place = laid{o, turned, r, false}
				}
			}
		}
	}
	if best == nil {
		return false
	}
	p.cut(best, place, m)
	return true
}

func (m manner) score(room geometry.Size, w, h geometry.Length) float64 {
	dw, dh := float64(room.W-w), float64(room.H-h)
	switch m.fit {
	case 1:
		return min(dw, dh) + 1e-3*max(dw, dh)
	case 2:
		return max(dw, dh) + 1e-3*min(dw, dh)
	}
	return float64(room.W)*float64(room.H) - float64(w)*float64(h)
}

// cut takes a room for a piece and makes two rooms of the rest.
func (p *planner) cut(s *sheet, l laid, m manner) {
	room := s.rooms[l.room]
	w, h := l.w, l.h
	if l.turned {
		w, h = h, w
	}
	size := room.Size()
	dw, dh := size.W-w, size.H-h
	switch m.cut {
	case 0:
		l.upright = dw > dh // the rest beside it keeps the whole height
	case 1:
		l.upright = dw <= dh
	case 2:
		beside := max(float64(dw)*float64(size.H), float64(w)*float64(dh))
		below := max(float64(size.W)*float64(dh), float64(dw)*float64(h))
		l.upright = beside >= below
	default:
		l.upright = p.random.Intn(2) == 0
	}
	if !p.mayCut(size, w, h, l.upright) {
		l.upright = !l.upright
	}
	right, below := room, room
	right.Min.X = min(room.Min.X+w+p.kerf, room.Max.X)
	below.Min.Y = min(room.Min.Y+h+p.kerf, room.Max.Y)
	if l.upright {
		below.Max.X = room.Min.X + w
	} else {
		right.Max.Y = room.Min.Y + h
	}
	at := slices.Index(s.free, l.room)
	s.free = slices.Delete(s.free, at, at+1)
	for _, r := range []geometry.Rect{right, below} {
		s.rooms = append(s.rooms, r)
		if r.W() > 0 && r.H() > 0 {
			s.free = append(s.free, len(s.rooms)-1)
		}
	}
	s.laid = append(s.laid, l)
	s.used += float64(w) * float64(h)
}

// tree turns a filled sheet into cuts.
func (p *planner) tree(s *sheet) *Part {
	if s.cuts != nil {
		return s.cuts
	}
	root := newPart(s.rooms[0])
	parts := map[int]*Part{0: root}
	next := 1
	for _, l := range s.laid {
		parts[next], parts[next+1] = parts[l.room].take(l.piece, l.turned, l.upright, l.w, l.h, p.kerf)
		next += 2
	}
	return root
}

// take cuts a piece of w by h, or as it lies turned, out of a part's corner and
// returns what is left to the right of it and below. The upright cut may be
// the first, which leaves the right part its whole height, or the second.
func (p *Part) take(piece int, turned, upright bool, w, h, kerf geometry.Length) (right, below *Part) {
	if turned {
		w, h = h, w
	}
	right, below = newPart(geometry.Rect{}), newPart(geometry.Rect{})
	for _, cut := range [2]bool{upright, !upright} {
		switch {
		case cut && w < p.Box.W():
			p, right = p.split(true, w, kerf)
		case !cut && h < p.Box.H():
			p, below = p.split(false, h, kerf)
		}
	}
	p.Piece, p.Turned = piece, turned
	return right, below
}

// search improves the plan until the bound or the end of the effort.
func (p *planner) search() {
	if len(p.all) == 0 {
		return
	}
	for _, order := range p.orders() {
		for fit := range 3 {
			for cut := range 3 {
				if s := p.lay(order, len(p.all), manner{fit: fit, cut: cut}); p.best == nil || p.worth(s) > p.worth(p.best) {
					p.best = s
				}
			}
		}
	}
	// A tenth of the work goes into filling sheets as a whole.
	whole, start := 0, p.left
	for refills := true; p.left > 0 && len(p.best) > p.bound; {
		before := p.left
		if refills && whole*10 < start-p.left {
			refills = p.refill()
			whole += before - p.left
			continue
		}
		p.reshuffle()
		p.left -= looksAround
	}
}

// looksAround is how many looks take as long as what a repacking does besides.
const looksAround = 100

// joinsAtMost is how many joins fill one sheet, and looksPerJoin how many
// looks take as long as one.
const (
	joinsAtMost  = 20_000
	looksPerJoin = 5
)

// refill takes the emptiest sheet and a few others apart and fills them one
// after another, each as full as [OneSheet] can with what is left. It returns
// false where lengths have no measure that OneSheet can use, where cuts might
// be longer than the longest, and where it is too much work.
func (p *planner) refill() bool {
	if l := p.job.Longest; l > 0 && l < max(p.job.Stock.Size.W, p.job.Stock.Size.H) {
		return false
	}
	kept, old := p.takeApart()
	pieces := slices.Clone(p.job.Pieces)
	for i := range pieces {
		pieces[i].Count, pieces[i].Value = 0, 0
	}
	left := 0
	for _, s := range old {
		for _, l := range s.laid {
			pieces[l.piece].Count++
			left++
		}
	}
	var next []*sheet
	for left > 0 && len(next) < len(old) {
		var pool []Piece
		var from []int
		for i, q := range pieces {
			if q.Count > 0 {
				// Large pieces are the harder to place, so they are worth more.
				w, h := q.Size.W.In(geometry.Millimetres), q.Size.H.In(geometry.Millimetres)
				q.Value = 1 + int64(1e6*w*h*(1+p.random.Float64()*0.1))
				pool, from = append(pool, q), append(from, i)
			}
		}
		if work, ok := tableWork(p.job.Stock.Size, pool, p.kerf); !ok || work > p.whole/10 {
			return false
		}
		best, err := OneSheet(p.job.Stock.Size, pool, p.kerf, joinsAtMost)
		p.left -= best.work
		if err != nil {
			return false
		}
		s := &sheet{cuts: best.Tree}
		for _, leaf := range best.Tree.Leaves() {
			if leaf.Piece < 0 {
				continue
			}
			i := from[leaf.Piece]
			leaf.Piece = i
			size := p.job.Pieces[i].Size
			s.laid = append(s.laid, laid{one: one{i, size.W, size.H}, turned: leaf.Turned})
			s.used += float64(size.W) * float64(size.H)
			pieces[i].Count--
			left--
		}
		next = append(next, s)
	}
	if left == 0 && p.worth(next) >= p.worth(old) {
		p.best = append(kept, next...)
	}
	return true
}

// worth orders plans: fewer sheets first, then fuller ones, so that one
// empties in the end.
func (p *planner) worth(sheets []*sheet) float64 {
	var squares float64
	for _, s := range sheets {
		squares += s.used / p.area * s.used / p.area
	}
	return squares/float64(len(sheets)+1) - float64(len(sheets))
}

// orders lists the pieces by falling area, longer side, width, height and
// the sum of both.
func (p *planner) orders() [][]one {
	var orders [][]one
	for _, key := range []func(o one) geometry.Length{
		func(o one) geometry.Length { return geometry.Length(float64(o.w) * float64(o.h) / 1e6) },
		func(o one) geometry.Length { return max(o.w, o.h) },
		func(o one) geometry.Length { return o.h },
		func(o one) geometry.Length { return o.w },
		func(o one) geometry.Length { return o.w + o.h },
		func(o one) geometry.Length { return min(o.w, o.h) },
	} {
		order := slices.Clone(p.all)
		sort.SliceStable(order, func(i, j int) bool { return key(order[i]) > key(order[j]) })
		orders = append(orders, order)
	}
	return orders
}

// takeApart picks the emptiest sheet and a few others; the rest is kept.
func (p *planner) takeApart() (kept, old []*sheet) {
	n := len(p.best)
	take := map[int]bool{}
	emptiest := 0
	for i, s := range p.best {
		if s.used < p.best[emptiest].used {
			emptiest = i
		}
	}
	take[emptiest] = true
	for k := 1 + p.random.Intn(4); k > 0 && len(take) < n; k-- {
		take[p.random.Intn(n)] = true
	}
	for i, s := range p.best {
		if take[i] {
			old = append(old, s)
		} else {
			kept = append(kept, s)
		}
	}
	return kept, old
}

// reshuffle takes a few sheets apart and lays their pieces anew; it keeps
// what is no worse.
func (p *planner) reshuffle() {
	kept, old := p.takeApart()
	var order []one
	for _, s := range old {
		for _, l := range s.laid {
			order = append(order, l.one)
		}
	}
	p.shuffle(order)
	m := manner{fit: p.random.Intn(3), cut: p.random.Intn(4), noise: 0.3 * p.random.Float64()}
	next := p.lay(order, len(old), m)
	if next != nil && p.worth(next) >= p.worth(old) {
		p.best = append(kept, next...)
	}
}

// shuffle sorts pieces by a falling key with some chance in it.
func (p *planner) shuffle(order []one) {
	key := p.random.Intn(4)
	chance := 0.4 * p.random.Float64()
	value := make([]float64, len(order))
	for i, o := range order {
		var v float64
		switch key {
		case 0:
			v = float64(o.w) * float64(o.h) / 1e6
		case 1:
			v = float64(max(o.w, o.h))
		case 2:
			v = float64(o.h)
		default:
			v = float64(o.w)
		}
		value[i] = v * (1 + chance*(2*p.random.Float64()-1))
	}
	sort.Sort(byValue{order, value})
}

type byValue struct {
	order []one
	value []float64
}

func (b byValue) Len() int           { return len(b.order) }
func (b byValue) Less(i, j int) bool { return b.value[i] > b.value[j] }
func (b byValue) Swap(i, j int) {
	b.order[i], b.order[j] = b.order[j], b.order[i]
	b.value[i], b.value[j] = b.value[j], b.value[i]
}
