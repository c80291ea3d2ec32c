package trimming

import "panelry/geometry"

// Plain is how a job is cut by somebody who does not plan: kind by kind as
// listed, strips from side to side as broad as the kind, each cut across into
// as many pieces as it gives. It is what plans are compared with. It is nil
// where a piece is broader than the sheet as it lies.
func Plain(job Job) []*Part {
	var trees []*Part
	var rest *Part
	for i, p := range job.Pieces {
		left := p.Count
		for left > 0 {
			if p.Size.W > job.Stock.Size.W || p.Size.H > job.Stock.Size.H {
				return nil
			}
			if rest == nil || rest.Box.H() < p.Size.H {
				rest = newPart(geometry.RectFromSize(geometry.Point{}, job.Stock.Size))
				trees = append(trees, rest)
			}
			strip := rest
			if rest = nil; p.Size.H < strip.Box.H() {
				strip, rest = strip.split(false, p.Size.H, job.Kerf)
			}
			for ; left > 0 && strip != nil && strip.Box.W() >= p.Size.W; left-- {
				piece := strip
				if strip = nil; p.Size.W < piece.Box.W() {
					piece, strip = piece.split(true, p.Size.W, job.Kerf)
				}
				piece.Piece = i
			}
		}
	}
	return trees
}
