package svg

import "panelry/geometry"

// PathData returns rings as exact path data with the absolute commands M, L,
// C and Z: "M 1 2 L 3 2 L 3 4 Z M ...". Numbers are millimetres with at most
// six decimals, one space stands between any two marks, and no command is
// left out. A ring's start is not repeated: Z draws a straight last side,
// and a curved one is written before it. Rings without a segment are left
// out. What is written here is also the "path" of an outline in JSON.
func PathData(rings ...geometry.Ring) string {
	return string(appendRings(nil, rings))
}

// OpenPathData returns a path as exact path data without a Z; see
// [PathData]. A path without a segment gives its start alone.
func OpenPathData(p geometry.Path) string {
	return string(appendLines(nil, []geometry.Path{p}))
}

// data returns all rings of the shape and then all its lines.
func (s Shape) data() string {
	return string(appendLines(appendRings(nil, s.Rings), s.Lines))
}

func appendRings(b []byte, rings []geometry.Ring) []byte {
	for _, r := range rings {
		if len(r) == 0 {
			continue
		}
		sides := []geometry.Segment(r)
		if last := len(r) - 1; !r[last].Curved {
			sides = sides[:last]
		}
		b = appendSteps(b, r.Start(), sides)
		b = append(b, " Z"...)
	}
	return b
}

func appendLines(b []byte, lines []geometry.Path) []byte {
	for _, p := range lines {
		b = appendSteps(b, p.From, p.Then)
	}
	return b
}

func appendSteps(b []byte, from geometry.Point, then []geometry.Segment) []byte {
	if len(b) > 0 {
		b = append(b, ' ')
	}
	b = appendPoint(append(b, 'M'), from)
	for _, s := range then {
		if s.Curved {
			b = appendPoint(appendPoint(append(b, " C"...), s.C1), s.C2)
		} else {
			b = append(b, " L"...)
		}
		b = appendPoint(b, s.To)
	}
	return b
}

func appendPoint(b []byte, p geometry.Point) []byte {
	b = p.X.AppendMM(append(b, ' '))
	return p.Y.AppendMM(append(b, ' '))
}
