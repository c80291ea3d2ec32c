package layouts

import "panelry/geometry"

// bleedMitre is how far, in bleeds, a sharp corner's bleed reaches before it
// is cut off square. A right angle's mitre is 1.41 long and stays whole, and
// no corner of a bleed gets as far as the next piece, two bleeds away. What
// would get into the sheet's edge, where marks stand, is cut off too: all
// pieces lie a bleed inside of that.
const bleedMitre = 1.5

// planPrint works out what is printed on sheets with bleed.
func planPrint(sheets []Sheet) error {
	for i := range sheets {
		s := &sheets[i]
		if !s.Printed() {
			continue
		}
		edge := s.Edge - s.Bleed
		inside, err := geometry.RectFromSize(geometry.Point{}, s.Size).Inset(edge)
		if err != nil {
			return err
		}
		s.Marks = alignmentMarks(s.Size, MarkInset)
		for j := range s.Pieces {
			print, err := s.Pieces[j].Outline.Offset(s.Bleed, bleedMitre)
			if err != nil {
				return err
			}
			for _, o := range print {
				s.Pieces[j].Print = append(s.Pieces[j].Print, within(o, inside)...)
			}
		}
	}
	return nil
}

// within cuts off what lies outside of the box.
func within(o geometry.Outline, box geometry.Rect) []geometry.Outline {
	if box.ContainsRect(o.Bounds()) {
		return []geometry.Outline{o}
	}
	return o.Clip(box.Outline().Outer.Points())
}

// markArm is how long each arm of a mark is: 5 to 6 mm is the usual length
// of crop marks (printers' pages; common practice).
const markArm = 6 * geometry.Millimetre

// alignmentMarks returns corner marks at the top left, top right and bottom
// left, that far from the sheet's sides. The bottom right stays empty, so
// that a sheet lying upside down shows.
func alignmentMarks(sheet geometry.Size, inset geometry.Length) []geometry.Path {
	corner := func(at geometry.Point, right, down geometry.Length) geometry.Path {
		return geometry.PathFromPoints(
			at.Add(geometry.Vector{X: right * markArm}), at, at.Add(geometry.Vector{Y: down * markArm}))
	}
	return []geometry.Path{
		corner(geometry.Point{X: inset, Y: inset}, 1, 1),
		corner(geometry.Point{X: sheet.W - inset, Y: inset}, -1, 1),
		corner(geometry.Point{X: inset, Y: sheet.H - inset}, 1, -1),
	}
}
