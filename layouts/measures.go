package layouts

import "panelry/geometry"

// BothUnits writes a length for people with either ruler: in the design's
// unit, and behind it in the other one.
func (d Design) BothUnits(l geometry.Length) string {
	if d.Units == geometry.Inches {
		return l.Format(geometry.Inches) + " (" + l.Format(geometry.Millimetres) + ")"
	}
	return l.Format(geometry.Millimetres) + " (" + l.Format(geometry.Inches) + ")"
}

// SizeInBothUnits is [Design.BothUnits] for a size.
func (d Design) SizeInBothUnits(s geometry.Size) string {
	if d.Units == geometry.Inches {
		return s.Format(geometry.Inches) + " (" + s.Format(geometry.Millimetres) + ")"
	}
	return s.Format(geometry.Millimetres) + " (" + s.Format(geometry.Inches) + ")"
}
