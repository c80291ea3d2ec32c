package nesting

import "fmt"

// MostPieces is how many pieces one job may have.
const MostPieces = 50_000

// check refuses what no search could answer.
func (j Job) check() error {
	pieces := 0
	for i, s := range j.Shapes {
		if s.Count < 0 {
			return fmt.Errorf("%s: %d copies are wanted; write 0 or more", j.nameOf(i), s.Count)
		}
		if err := s.Outline.Validate(); err != nil {
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
	return nil
}

// nameOf returns a shape's name, or its number where it has none.
func (j Job) nameOf(shape int) string {
	if name := j.Shapes[shape].Name; name != "" {
		return name
	}
	return fmt.Sprintf("shape %d", shape+1)
}
