package reader

import "strings"

// parseViewBox reads min-x, min-y, width and height (SVG 2 §8.6). A negative
// width or height is an error like any other: the attribute is void then.
func parseViewBox(text string) (box [4]float64, err *dataError) {
	s := &scanner{text: text}
	s.space()
	for i := range box {
		if i > 0 {
			s.separator()
		}
		if box[i], err = s.number(); err != nil {
			return box, err
		}
	}
	s.space()
	switch {
	case s.at < len(text):
		return box, s.fault("found %s behind the fourth number", s.found())
	case box[2] < 0 || box[3] < 0:
		return box, &dataError{text: "the width or the height is negative"}
	}
	return box, nil
}

// A fit is a preserveAspectRatio: how a viewBox lies in a viewport of other
// proportions (SVG 2 §8.7).
type fit struct {
	none  bool
	x, y  float64 // 0 for Min, 0.5 for Mid, 1 for Max
	slice bool
}

var usualFit = fit{x: 0.5, y: 0.5}

// parseFit reads a preserveAspectRatio; words are case-sensitive. What is
// not right is reported as such, and the usual fit holds.
func parseFit(text string) (fit, bool) {
	words := strings.FieldsFunc(text, func(r rune) bool { return r < 0x80 && isSpace(byte(r)) })
	if len(words) == 0 || len(words) > 2 {
		return usualFit, false
	}
	var f fit
	if words[0] == "none" {
		f.none = true
	} else {
		places := map[string]float64{"Min": 0, "Mid": 0.5, "Max": 1}
		w := words[0]
		if len(w) != len("xMidYMid") || w[0] != 'x' || w[4] != 'Y' {
			return usualFit, false
		}
		var okX, okY bool
		f.x, okX = places[w[1:4]]
		f.y, okY = places[w[5:8]]
		if !okX || !okY {
			return usualFit, false
		}
	}
	if len(words) == 2 {
		if words[1] != "meet" && words[1] != "slice" {
			return usualFit, false
		}
		f.slice = words[1] == "slice"
	}
	return f, true
}

// onto returns the map from a viewBox onto a viewport of w x h at (x, y)
// (SVG 2 §8.2).
func (f fit) onto(box [4]float64, x, y, w, h float64) matrix {
	sx, sy := w/box[2], h/box[3]
	if !f.none {
		s := min(sx, sy)
		if f.slice {
			s = max(sx, sy)
		}
		x += f.x * (w - box[2]*s)
		y += f.y * (h - box[3]*s)
		sx, sy = s, s
	}
	return matrix{sx, 0, 0, sy, x - box[0]*sx, y - box[1]*sy}
}
