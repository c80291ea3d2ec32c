package nesting

import (
	"fmt"

	"panelry/geometry"
)

// MostPieces is how many pieces one job may have.
const MostPieces = 50_000

// check refuses what no search could answer.
func (j Job) check() error {
	pieces := 0
	for i, s := range j.Shapes {
		if s.Count < 0 {
			return fmt.Errorf("%s: %d copies are wanted; write 0 or more", j.nameOf(i), s.Count)
		}
		if err := s.check(); err != nil {
			return fmt.Errorf("%s: %w", j.nameOf(i), err)
		}
		if s.Outline.Area().Sign() <= 0 {
			return fmt.Errorf("%s has no area; draw an outline around some paper", j.nameOf(i))
		}
		pieces += s.Count
	}
	if pieces > MostPieces {
		return fmt.Errorf("%d pieces are more than the %d that can be laid at once; lay them in parts", pieces, MostPieces)
	}
	if pieces > 0 && len(j.Stock) == 0 {
		return fmt.Errorf("there are %d pieces and no sheets; give the size of a sheet", pieces)
	}
	for i, s := range j.Stock {
		if err := s.check(); err != nil {
			return fmt.Errorf("sheet %d: %w", i+1, err)
		}
	}
	return nil
}

// check refuses outlines that cross, enclose nothing, or lie on others of
// their block.
func (s Shape) check() error {
	all := s.outlines()
	for i, o := range all {
		if err := o.Validate(); err != nil {
			return err
		}
		for k, other := range all[:i] {
			if geometry.Overlap(o, other) {
				return fmt.Errorf("parts %d and %d of its block lie on each other", k+1, i+1)
			}
		}
	}
	return nil
}

// check refuses scraps that cannot be.
func (s Sheet) check() error {
	if !s.IsScrap() {
		return nil
	}
	if s.Roll || s.Count < 1 {
		return fmt.Errorf("a scrap is no roll, and there is a number of them")
	}
	if err := s.Outline.Validate(); err != nil {
		return err
	}
	if !geometry.RectFromSize(geometry.Point{}, s.Size).ContainsRect(s.Outline.Bounds()) {
		return fmt.Errorf("its outline stands out of its size")
	}
	return nil
}

// nameOf returns a shape's name, or its number where it has none.
func (j Job) nameOf(shape int) string {
	if name := j.Shapes[shape].Name; name != "" {
		return name
	}
	return fmt.Sprintf("shape %d", shape+1)
}
