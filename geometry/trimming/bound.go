package trimming

import (
	"math/big"
	"slices"

	"panelry/geometry"
)

// bound is the longest that stacking needs: pieces less than a step wide
// count nothing, those so wide that only such fit beside them count as wide
// as the roll, others as they are. A step of 0 is the area's bound, a step of half
// the roll the stack of all pieces more than half as wide (the dual feasible
// functions of S. P. Fekete, J. Schepers, "A general framework for bounds for
// higher-dimensional orthogonal packing problems", Mathematical Methods of
// Operations Research 60 (2004)). A piece that may be turned counts as it
// counts least.
func (r *roller) bound() (geometry.Length, string) {
	var longest geometry.Length
	for _, o := range r.all {
		h := o.h
		if o.turn && o.w <= r.width && (o.h > r.width || o.w < o.h) && o.h <= r.width {
			h = min(o.w, o.h)
		} else if o.turn && o.w > r.width {
			h = o.w
		}
		longest = max(longest, h)
	}
	name := "by the piece that needs most"
	for _, step := range steps(r.lengths(), r.width, mostSteps) {
		sum := new(big.Int)
		for _, o := range r.all {
			least := counted(o.w, o.h, step, r.width)
			if turned := counted(o.h, o.w, step, r.width); o.turn && (least == nil || turned != nil && turned.Cmp(least) < 0) {
				least = turned
			}
			if least != nil {
				sum.Add(sum, least)
			}
		}
		width := big.NewInt(int64(r.width))
		sum.Add(sum, big.NewInt(int64(r.width)-1)).Quo(sum, width)
		if l := geometry.Length(sum.Int64()); l > longest {
			longest, name = l, "by area"
			if step > 0 {
				name = "by pieces too wide to lie side by side"
			}
		}
	}
	return longest - r.job.Kerf, name
}

// mostSteps is how many steps a bound tries.
const mostSteps = 40

// steps lists 0, the lengths up to half the whole, and half the whole: at
// most so many.
func steps(lengths []geometry.Length, whole geometry.Length, most int) []geometry.Length {
	list := []geometry.Length{0, (whole + 1) / 2}
	for _, l := range lengths {
		if 2*l <= whole {
			list = append(list, l)
		}
	}
	slices.Sort(list)
	list = slices.Compact(list)
	for len(list) > most { // every second, but the first and the last
		kept := list[:0]
		for i, l := range list {
			if i%2 == 0 || i == len(list)-1 {
				kept = append(kept, l)
			}
		}
		list = kept
	}
	return list
}

func (r *roller) lengths() []geometry.Length {
	var list []geometry.Length
	for _, o := range r.all {
		list = append(list, o.w, o.h)
	}
	return list
}

// rounded is what a length counts with a step.
func rounded(l, step, whole geometry.Length) geometry.Length {
	switch {
	case l < step:
		return 0
	case l > whole-step:
		return whole
	}
	return l
}

// counted is the area that a piece counts; nil where it does not fit so.
func counted(w, h, step, whole geometry.Length) *big.Int {
	if w > whole {
		return nil
	}
	return new(big.Int).Mul(big.NewInt(int64(rounded(w, step, whole))), big.NewInt(int64(h)))
}
