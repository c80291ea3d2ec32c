package trimming

import (
	"slices"

	"panelry/geometry"
)

// The most that a job may have for the search for few settings, and how much
// that search does: a unit is a part that is worked out, or a few sets of stops
// that are looked at.
const (
	mostSmallPieces = 8
	mostSmallKinds  = 3
	smallWorkEach   = 50 // for each unit of the effort
	mostSmallWork   = 3_000_000
)

// small is the exact search for a plan of a small job: with so many sheets,
// the fewest settings of the stop, and then the fewest cuts. It goes through
// the sequences of stops, short ones first. Given the sequence, the best cuts
// follow by dynamic programming: what is cut off at one stop can only be cut
// further at that stop or at a later one. Offcuts are not cut up for the sake
// of a setting: between two cuts of one direction that take waste off a part,
// one takes pieces off it.
type small struct {
	sheet   geometry.Size
	kerf    geometry.Length
	longest geometry.Length
	pieces  []Piece
	index   []int // of each in the job
	radix   []int // of the code of a set of pieces
	area    []float64
	total   int
	all     int // the code of all pieces
	sheets  int

	stops []geometry.Length // where it is worth while to set the stop
	seq   []geometry.Length
	memo  map[smallKey]smallBest
	sets  int
	work  int
	most  int // work
	best  int // cuts of the best plan yet
	found []geometry.Length
}

type smallKey struct {
	w, h geometry.Length
	from int // first stop of the sequence that is not past
	set  int // code of the pieces that come from it
	gone way // the directions in which waste was cut off it since it last gave pieces
}

// way is a set of directions of cuts.
type way int8

const (
	noWay      way = 0
	uprightWay way = 1
	levelWay   way = 2
)

type smallBest struct {
	cuts    int // never where it cannot be done
	stop    int
	upright bool
	first   int // code of the pieces that come from the strip
}

// never is more cuts than any plan has.
const never = 1 << 20

// fewer puts the best plan of a small job in the place of one that sets the
// stop more often, or cuts more.
func (p *Planned) fewer(job Job) {
	trees, proved := smallPlan(job, len(p.Trees))
	if trees == nil {
		return
	}
	p.Fewest = proved
	small := Planned{Trees: trees, AsCut: true}
	if slices.Compare(small.Weigh(job), p.Weigh(job)) < 0 {
		p.Trees, p.AsCut = trees, true
	}
}

// smallPlan returns the best plan that it finds for so many sheets, nil where
// it finds none, and whether there is no better one. It first sets the stop to
// the pieces' sides alone, and then, as far as its work goes, everywhere that
// could be worth while.
func smallPlan(job Job, sheets int) (trees []*Part, proved bool) {
	s, ok := newSmall(job, sheets)
	if !ok {
		return nil, false
	}
	s.stops = s.sides()
	most := s.search(2 * mostSmallPieces)
	s.stops, s.work = s.worthStops(), 0
	proved = s.search(most) >= 0 && !s.spent()
	if s.best == never {
		return nil, false
	}
	s.seq, s.memo = s.found, map[smallKey]smallBest{}
	return s.trees(), proved
}

// search goes through sequences of up to so many stops, short ones first, and
// returns how long those with the best plan are. It leaves the best plan that
// is there already where it finds no better one.
func (s *small) search(most int) int {
	for length := 0; length <= most; length++ {
		if length < most || s.best == never {
			was := s.best
			if s.best = never; s.lengths(length) {
				return length
			}
			s.best = was
			continue
		}
		s.lengths(length) // fewer cuts at as many settings
	}
	return most
}

// lengths goes through the sequences of one length.
func (s *small) lengths(length int) bool {
	for size := min(length, 1); size <= min(length, len(s.stops)); size++ {
		s.eachSet(nil, 0, size, length)
	}
	return s.best < never
}

func (s *small) spent() bool { return s.work > s.most }

// sides lists the pieces' sides.
func (s *small) sides() []geometry.Length {
	var list []geometry.Length
	for _, p := range s.pieces {
		list = append(list, p.Size.W, p.Size.H)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

func newSmall(job Job, sheets int) (*small, bool) {
	s := &small{sheet: job.Stock.Size, kerf: job.Kerf, longest: job.Longest, sheets: sheets, best: never,
		most: min(mostSmallWork, smallWorkEach*job.Effort)}
	for i, p := range job.Pieces {
		if p.Count == 0 {
			continue
		}
		s.total += p.Count
		s.pieces, s.index = append(s.pieces, p), append(s.index, i)
	}
	if s.total == 0 || s.total > mostSmallPieces || len(s.pieces) > mostSmallKinds {
		return nil, false
	}
	codes := 1
	for _, p := range s.pieces {
		s.radix = append(s.radix, codes)
		codes *= p.Count + 1
	}
	s.all = codes - 1
	s.area = make([]float64, codes)
	for code := range codes {
		for i, p := range s.pieces {
			s.area[code] += float64(s.count(code, i)) * float64(p.Size.W) * float64(p.Size.H)
		}
	}
	return s, true
}

// count returns how many of a piece a code has.
func (s *small) count(code, piece int) int {
	return code / s.radix[piece] % (s.pieces[piece].Count + 1)
}

// worthStops lists the sums of the pieces' sides, and what such sums leave of
// the sheet's: elsewhere the stop gains nothing, as it can be moved to the
// nearest of these that leaves room for what is cut from the strip.
func (s *small) worthStops() []geometry.Length {
	longest := max(s.sheet.W, s.sheet.H)
	sums := map[geometry.Length]bool{-s.kerf: true}
	for range s.total {
		next := map[geometry.Length]bool{}
		for sum := range sums {
			next[sum] = true
			for _, side := range s.sides() {
				if l := sum + s.kerf + side; l <= longest {
					next[l] = true
				}
			}
		}
		sums = next
	}
	var stops []geometry.Length
	for sum := range sums {
		for _, l := range []geometry.Length{sum, s.sheet.W - sum - s.kerf, s.sheet.H - sum - s.kerf} {
			if l > 0 && l < longest {
				stops = append(stops, l)
			}
		}
	}
	slices.Sort(stops)
	return slices.Compact(stops)
}

// eachSet goes through the sets of so many stops, and for each that can give
// every side of the pieces through the sequences of that length.
func (s *small) eachSet(set []geometry.Length, from, size, length int) {
	if s.spent() {
		return
	}
	if len(set) == size {
		if s.sets++; s.sets%8 == 0 {
			s.work++
		}
		if s.covers(set) {
			s.eachSequence(nil, set, length)
		}
		return
	}
	for i := from; i <= len(s.stops)-(size-len(set)); i++ {
		s.eachSet(append(set, s.stops[i]), i+1, size, length)
	}
}

// covers reports whether each piece has a way to lie in which both of its
// sides are a side of the sheet, a stop, or what stops leave of these.
func (s *small) covers(set []geometry.Length) bool {
	var reach, open [200]geometry.Length
	reached, left := 0, copy(open[:], []geometry.Length{s.sheet.W, s.sheet.H})
	left += copy(open[left:], set)
	for left > 0 {
		left--
		l := open[left]
		if l <= 0 || slices.Contains(reach[:reached], l) {
			continue
		}
		if reached+left+len(set) >= len(reach) {
			return true // too many to tell
		}
		reach[reached] = l
		reached++
		for _, stop := range set {
			open[left] = l - stop - s.kerf
			left++
		}
	}
	has := func(l geometry.Length) bool { return slices.Contains(reach[:reached], l) }
	for _, p := range s.pieces {
		if !has(p.Size.W) || !has(p.Size.H) {
			return false
		}
	}
	return true
}

// eachSequence goes through the sequences of a length that have every stop of
// the set, none twice in a row.
func (s *small) eachSequence(seq, set []geometry.Length, length int) {
	if s.spent() {
		return
	}
	if len(seq) == length {
		for _, stop := range set {
			if !slices.Contains(seq, stop) {
				return
			}
		}
		s.seq, s.memo = seq, map[smallKey]smallBest{}
		if cuts := s.over(s.sheets, s.all); cuts < s.best {
			s.best, s.found = cuts, slices.Clone(seq)
		}
		return
	}
	for _, stop := range set {
		if len(seq) == 0 || seq[len(seq)-1] != stop {
			s.eachSequence(append(seq, stop), set, length)
		}
	}
}

// over returns the fewest cuts that get a set of pieces from so many sheets.
func (s *small) over(sheets, set int) int {
	if sheets == 1 {
		return s.from(smallKey{s.sheet.W, s.sheet.H, 0, set, noWay}).cuts
	}
	best := never
	s.subsets(set, func(first int) {
		if cuts := s.from(smallKey{s.sheet.W, s.sheet.H, 0, first, noWay}).cuts; cuts < best {
			best = min(best, cuts+s.over(sheets-1, set-first))
		}
	})
	return best
}

// subsets calls f with the code of each part of a set, nothing and all
// included.
func (s *small) subsets(set int, f func(part int)) {
	var walk func(i, part int)
	walk = func(i, part int) {
		if i == len(s.pieces) {
			f(part)
			return
		}
		for n := 0; n <= s.count(set, i); n++ {
			walk(i+1, part+n*s.radix[i])
		}
	}
	walk(0, 0)
}

// from returns the best way to get a set of pieces from a part.
func (s *small) from(k smallKey) smallBest {
	switch {
	case k.set == 0:
		return smallBest{}
	case k.w <= 0 || k.h <= 0 || s.area[k.set] > float64(k.w)*float64(k.h):
		return smallBest{cuts: never}
	case s.exactly(k.w, k.h, k.set) >= 0:
		return smallBest{}
	}
	if b, ok := s.memo[k]; ok {
		return b
	}
	best := smallBest{cuts: never}
	s.work++
	for i := k.from; i < len(s.seq); i++ {
		for _, upright := range [2]bool{true, false} {
			strip, rest, ok := s.cut(k, i, upright)
			if !ok {
				continue
			}
			s.subsets(k.set, func(first int) {
				strip, rest := strip, rest
				strip.set, rest.set = first, k.set-first
				if !waste(k, &strip, &rest, wayOf(upright)) {
					return
				}
				a := s.from(strip).cuts
				if 1+a >= best.cuts {
					return
				}
				if cuts := 1 + a + s.from(rest).cuts; cuts < best.cuts {
					best = smallBest{cuts, i, upright, first}
				}
			})
		}
	}
	s.memo[k] = best
	return best
}

// cut returns the strip and the rest of a part that is cut at one of the
// stops; false where the cut misses it or is too long.
func (s *small) cut(k smallKey, stop int, upright bool) (strip, rest smallKey, ok bool) {
	at, across, along := s.seq[stop], k.h, k.w
	if upright {
		across, along = k.w, k.h
	}
	if at >= across || s.longest > 0 && along > s.longest {
		return strip, rest, false
	}
	strip, rest = k, k
	strip.from, rest.from = stop, stop
	strip.gone, rest.gone = noWay, k.gone&wayOf(upright)
	if upright {
		strip.w, rest.w = at, k.w-at-s.kerf
	} else {
		strip.h, rest.h = at, k.h-at-s.kerf
	}
	return strip, rest, true
}

// waste notes where the strip or the rest has no pieces; false where waste of
// that direction is gone already.
func waste(k smallKey, strip, rest *smallKey, to way) bool {
	if strip.set != 0 && rest.set != 0 {
		return true
	}
	strip.gone, rest.gone = k.gone|to, k.gone|to
	return k.gone&to == 0
}

func wayOf(upright bool) way {
	if upright {
		return uprightWay
	}
	return levelWay
}

// exactly returns the piece that a part is, where the set is that one piece.
func (s *small) exactly(w, h geometry.Length, set int) int {
	for i, p := range s.pieces {
		if set == s.radix[i] && (p.Size == geometry.Size{W: w, H: h} || p.Turn && p.Size == geometry.Size{W: h, H: w}) {
			return i
		}
	}
	return -1
}

// trees writes the best plan.
func (s *small) trees() []*Part {
	var trees []*Part
	set := s.all
	for sheets := s.sheets; sheets > 0; sheets-- {
		share := set
		if sheets > 1 {
			want := s.over(sheets, set)
			s.subsets(set, func(first int) {
				if share == set && first != set && s.from(smallKey{s.sheet.W, s.sheet.H, 0, first, noWay}).cuts+s.over(sheets-1, set-first) == want {
					share = first
				}
			})
		}
		root := newPart(geometry.RectFromSize(geometry.Point{}, s.sheet))
		s.write(root, smallKey{s.sheet.W, s.sheet.H, 0, share, noWay})
		trees = append(trees, root)
		set -= share
	}
	return trees
}

func (s *small) write(p *Part, k smallKey) {
	if k.set == 0 {
		return
	}
	if i := s.exactly(k.w, k.h, k.set); i >= 0 {
		p.Piece, p.Turned = s.index[i], s.pieces[i].Size != p.Box.Size()
		return
	}
	b := s.from(k)
	first, second := p.split(b.upright, s.seq[b.stop], s.kerf)
	strip, rest, _ := s.cut(k, b.stop, b.upright)
	strip.set, rest.set = b.first, k.set-b.first
	waste(k, &strip, &rest, wayOf(b.upright))
	s.write(first, strip)
	s.write(second, rest)
}
