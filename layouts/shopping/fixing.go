package shopping

import (
	"fmt"
	"math"

	"panelry/geometry"
	"panelry/layouts"
)

// A Fixing is what panels are fixed on with. Lengths and pads are those of
// one card.
type Fixing struct {
	Kind  string          // one of [layouts.Adhesives]
	Tape  geometry.Length // along the panels' sides, moved in by the inset
	Small int             // panels that are too small for that, and take a dab of glue
	Pads  int
	Rolls int // for the batch; 0 when the length of a roll is not said
	Packs int // for the batch; 0 when the pads in a pack are not said
}

// fixingOf measures the panels: what lies along their outlines, moved in by
// the inset.
func fixingOf(kit layouts.Kit) (Fixing, error) {
	shop := kit.Design.Shop
	f := Fixing{Kind: shop.Adhesive}
	if f.Kind == layouts.NoGlue {
		return f, nil
	}
	for _, p := range kit.Card.Panels {
		inner, err := p.Outline.Inset(shop.Inset)
		if err != nil {
			return f, fmt.Errorf("panel %s: an inset of %s cannot be worked out", p.Name, shop.Inset.Format(kit.Design.Units))
		}
		if len(inner) == 0 {
			f.Small++
		}
		for _, o := range inner {
			if f.Kind == layouts.Tape {
				f.Tape += geometry.Length(o.Perimeter())
			} else {
				f.Pads += padsAlong(o, shop.PadEvery)
			}
		}
	}
	cards := kit.Design.Batch.Cards
	if f.Kind == layouts.FoamPads {
		f.Pads += f.Small // one in the middle
		f.Small = 0
		f.Packs = shares(f.Pads*cards, shop.Pack)
		return f, nil
	}
	f.Rolls = shares(int(f.Tape)*cards, int(shop.Roll))
	return f, nil
}

// shares returns how many wholes hold n parts; 0 when a whole is not known.
func shares(n, whole int) int {
	if whole == 0 {
		return 0
	}
	return (n + whole - 1) / whole
}

// padsAlong counts foam pads: one at each corner, and between two corners so
// many that no two are farther apart than asked; round a curve at least
// three.
func padsAlong(o geometry.Outline, every geometry.Length) int {
	pads := 0
	for _, r := range o.Rings() {
		if !r.IsStraight() {
			pads += max(3, padsOn(geometry.OutlineFromRing(r).Perimeter(), every))
			continue
		}
		points := r.Points()
		for i, p := range points {
			pads += padsOn(points[(i+1)%len(points)].Sub(p).Len(), every)
		}
	}
	return pads
}

func padsOn(side float64, every geometry.Length) int { return int(math.Ceil(side / float64(every))) }
