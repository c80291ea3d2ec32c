package trimming

import "panelry/geometry"

// mayCut tells whether a piece of w by h comes out of a room's corner with no
// cut longer than the longest, the upright cut first or the level one.
func (p *planner) mayCut(room geometry.Size, w, h geometry.Length, upright bool) bool {
	longest := p.job.Longest
	if longest <= 0 {
		return true
	}
	left, top := room.H, w // how long the upright and the level cut are
	if !upright {
		left, top = h, room.W
	}
	return (w == room.W || left <= longest) && (h == room.H || top <= longest)
}

// cuttable tells whether a piece comes out of a sheet of its own.
func (p *planner) cuttable(piece Piece) bool {
	sheet := p.job.Stock.Size
	for _, s := range [2]geometry.Size{piece.Size, piece.Size.Turned()} {
		if s.W <= sheet.W && s.H <= sheet.H && (p.mayCut(sheet, s.W, s.H, true) || p.mayCut(sheet, s.W, s.H, false)) {
			return true
		}
		if !piece.Turn {
			break
		}
	}
	return false
}

// tooLong tells whether any cut is longer than the longest.
func tooLong(trees []*Part, longest geometry.Length) bool {
	if longest <= 0 {
		return false
	}
	for _, t := range trees {
		if t.Cut == nil {
			continue
		}
		length := t.Box.W()
		if t.Cut.Upright {
			length = t.Box.H()
		}
		if length > longest || tooLong(t.Parts[:], longest) {
			return true
		}
	}
	return false
}
