package trimming

import (
	"fmt"
	"math/rand"

	"panelry/geometry"
)

// A RollJob is a list of pieces that are cut out of a roll, or of one strip,
// as short as can be.
type RollJob struct {
	Pieces []Piece // each with a Count
	Width  geometry.Length
	Kerf   geometry.Length
	Effort int   // work to spend, in thousands of looks at a piece for a room; 0 stands for 20,000; 100,000 take about a second
	Seed   int64 // the same seed and effort give the same cuts
}

// A Rolled is how all pieces come from a roll: one tree of cuts on a sheet as
// wide as the roll and as long as what is used of it.
type Rolled struct {
	Tree      *Part // left and right across the roll, top to bottom along it; nil without pieces
	Length    geometry.Length
	Bound     geometry.Length // no way of cutting needs less
	BoundName string          // how the bound is known
	Proved    bool            // Length is the bound
}

// Roll gets all pieces of a job out of a short length of a roll, with cuts
// from edge to edge. Pieces lie with their width across the roll; where Turn
// allows it, either way.
//
// It fills the narrowest room first, with a piece that is just as wide or as
// high where there is one, else with the first in a list that fits; then it
// changes the list step by step, towards a length between the bound and the
// best so far (the order of a list with fitness of pieces to rooms after S.
// C. H. Leung, D. Zhang, K. M. Sim, "A two-stage intelligent search algorithm
// for the two-dimensional strip packing problem", European Journal of
// Operational Research 215 (2011); changes are taken as in E. K. Burke, Y.
// Bykov, "The late acceptance hill-climbing heuristic", ibid. 258 (2017)).
//
// What cannot be is an error: a piece wider than the roll, or without size,
// and more pieces than [MostPieces].
func Roll(job RollJob) (Rolled, error) {
	r, err := newRoller(job)
	if err != nil || len(r.all) == 0 {
		return Rolled{}, err
	}
	out := Rolled{}
	out.Bound, out.BoundName = r.bound()
	r.search(out.Bound + job.Kerf)
	out.Length = r.best.length - job.Kerf
	out.Tree = r.tree()
	out.Proved = out.Length == out.Bound
	return out, nil
}

// roller searches with a kerf added to every piece and to the roll, so that
// nothing is lost between them.
type roller struct {
	job    RollJob
	width  geometry.Length
	all    []rolling
	random *rand.Rand
	left   int // looks that may still be made
	best   rollPlan

	// for one run of fill
	next  []int32 // the list of pieces that are not laid yet
	rooms []rollRoom
	laid  []rollLaid
	made  int
}

// rolling is one piece.
type rolling struct {
	piece int
	w, h  geometry.Length
	turn  bool
	area  float64
}

// rollOrder is the list that fill works through, and the wishes of each
// piece: which way to cut what is left of its room, and how to lie.
type rollOrder struct {
	list []int32
	wish []uint8 // by piece, bits wishLevel and wishTurned
}

const (
	wishLevel  = 1 // cut below the piece first, over the whole room
	wishTurned = 2
	wishFirst  = 4 // take the first room that it fits, suited or not
)

type rollPlan struct {
	rollOrder
	length geometry.Length
	laid   []rollLaid
}

type rollRoom struct {
	w, h geometry.Length
	top  geometry.Length // distance from the roll's end
	id   int
}

type rollLaid struct {
	one           int32
	room          int
	turned, level bool
}

func newRoller(job RollJob) (*roller, error) {
	r := &roller{job: job, width: job.Width + job.Kerf, random: rand.New(rand.NewSource(job.Seed + 1)), left: job.Effort * 1000}
	if r.left <= 0 {
		r.left = 20_000_000
	}
	for i, piece := range job.Pieces {
		s := piece.Size
		switch {
		case s.W <= 0 || s.H <= 0:
			return nil, fmt.Errorf("a piece of %s has no size", s)
		case s.W > job.Width && (!piece.Turn || s.H > job.Width):
			return nil, fmt.Errorf("a piece of %s is wider than the roll of %s", s, job.Width)
		case len(r.all)+piece.Count > MostPieces:
			return nil, fmt.Errorf("more than %d pieces; plan them in parts", MostPieces)
		}
		w, h := s.W+job.Kerf, s.H+job.Kerf
		for range piece.Count {
			r.all = append(r.all, rolling{i, w, h, piece.Turn && w != h, float64(w) * float64(h)})
		}
	}
	r.next = make([]int32, len(r.all)+1)
	return r, nil
}

// endless is a length that no roll reaches.
const endless = geometry.Length(1) << 60

// fill cuts a list's pieces from a roll of some length, and returns the
// area of those that found no room, and the length used.
func (r *roller) fill(o rollOrder, length geometry.Length) (lost float64, used geometry.Length) {
	n := len(o.list)
	head := int32(n)
	r.next[head] = int32(n)
	for i := n - 1; i >= 0; i-- {
		r.next[o.list[i]] = r.next[head]
		r.next[head] = o.list[i]
	}
	r.rooms = append(r.rooms[:0], rollRoom{r.width, length, 0, 0})
	r.laid = r.laid[:0]
	r.made = 1
	for len(r.rooms) > 0 && r.next[head] != head {
		at := 0
		for i, room := range r.rooms {
			if s, b := min(room.w, room.h), min(r.rooms[at].w, r.rooms[at].h); s < b {
				at = i
			}
		}
		room := r.rooms[at]
		r.rooms[at] = r.rooms[len(r.rooms)-1]
		r.rooms = r.rooms[:len(r.rooms)-1]
		before, turned := r.choose(o, room)
		if before < 0 {
			continue
		}
		one := r.next[before]
		r.next[before] = r.next[one]
		if below := r.cut(room, one, turned, o.wish[one]&wishLevel != 0); below > used {
			used = below
		}
	}
	for i := r.next[head]; i != head; i = r.next[i] {
		lost += r.all[i].area
	}
	return lost, used
}

// choose returns the piece before the one that suits a room best: one just as
// large, then one as wide or as high, then the first that fits; -1 for none.
func (r *roller) choose(o rollOrder, room rollRoom) (before int32, turned bool) {
	head := int32(len(o.list))
	before = -1
	class := 0
	for i := head; r.next[i] != head; i = r.next[i] {
		r.left--
		n := r.next[i]
		one := r.all[n]
		c, t := suits(room, one.w, one.h), false
		if one.turn {
			wished := o.wish[n]&wishTurned != 0
			if d := suits(room, one.h, one.w); d > c || d == c && wished || d > 0 && wished && o.wish[n]&wishFirst != 0 {
				c, t = d, true
			}
		}
		if c > class {
			before, turned, class = i, t, c
			if c == 3 || o.wish[n]&wishFirst != 0 {
				break
			}
		}
	}
	return before, turned
}

func suits(room rollRoom, w, h geometry.Length) int {
	switch {
	case w > room.w || h > room.h:
		return 0
	case w == room.w && h == room.h:
		return 3
	case w == room.w || h == room.h:
		return 2
	}
	return 1
}

// cut takes a piece out of a room and returns where it ends.
func (r *roller) cut(room rollRoom, one int32, turned, level bool) geometry.Length {
	w, h := r.all[one].w, r.all[one].h
	if turned {
		w, h = h, w
	}
	r.laid = append(r.laid, rollLaid{one, room.id, turned, level})
	right := rollRoom{room.w - w, room.h, room.top, r.made}
	below := rollRoom{room.w, room.h - h, room.top + h, r.made + 1}
	r.made += 2
	if level {
		right.h = h
	} else {
		below.w = w
	}
	if right.w > 0 && right.h > 0 {
		r.rooms = append(r.rooms, right)
	}
	if below.w > 0 && below.h > 0 {
		r.rooms = append(r.rooms, below)
	}
	return room.top + h
}
