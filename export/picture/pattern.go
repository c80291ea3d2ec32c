package picture

import (
	"fmt"
	"strconv"

	"panelry/export/svg"
	"panelry/layouts/papers"
)

// attr is short for an attribute.
func attr(name, value string) svg.Attribute { return svg.Attribute{Name: name, Value: value} }

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// fills keeps the patterns that a picture defines: one a paper and angle.
type fills struct {
	canvas *svg.Canvas
	ids    map[string]string
}

// prepare defines the fill of a paper whose pattern's up points that way,
// unless it is plain or was defined before.
func (f *fills) prepare(p papers.Paper, degrees float64) {
	key := fillKey(p, degrees)
	if p.Drawing == papers.NoDrawing || f.ids[key] != "" {
		return
	}
	id := fmt.Sprintf("paper-%d", len(f.ids)+1)
	f.ids[key] = id
	tile := tiles[p.Drawing]
	f.canvas.Open("pattern", attr("id", id), attr("patternUnits", "userSpaceOnUse"),
		attr("width", tile.size), attr("height", tile.size),
		attr("patternTransform", "rotate("+number(degrees)+")"))
	f.canvas.Path("M 0 0 L "+tile.size+" 0 L "+tile.size+" "+tile.size+" L 0 "+tile.size+" Z", attr("fill", p.Shown()))
	f.canvas.Path(tile.path, attr("fill", shade(p.Shown())))
	f.canvas.Close()
}

// of returns the fill that prepare defined.
func (f *fills) of(p papers.Paper, degrees float64) string {
	if id := f.ids[fillKey(p, degrees)]; id != "" {
		return "url(#" + id + ")"
	}
	return p.Shown()
}

func fillKey(p papers.Paper, degrees float64) string { return p.Name + " " + number(degrees) }

// tile is one repeat of a drawing, in millimetres, with its up upwards.
type tile struct{ size, path string }

var tiles = map[papers.Drawing]tile{
	papers.Stripes: {"4", "M 1.2 0 L 2.8 0 L 2.8 4 L 1.2 4 Z"},
	papers.Dots:    {"5", disc(1.25, 1.25, 0.7) + " " + disc(3.75, 3.75, 0.7)},
	papers.Checks:  {"5", "M 0 0 L 2.5 0 L 2.5 2.5 L 0 2.5 Z M 2.5 2.5 L 5 2.5 L 5 5 L 2.5 5 Z"},
	// A stem with two leaves and a bud on top.
	papers.Sprigs: {"8", "M 3.8 6.6 L 3.8 2.6 L 4.2 2.6 L 4.2 6.6 Z " +
		"M 4 5.6 C 2.6 5.4 2 4.6 1.9 3.6 C 3.2 3.8 3.9 4.6 4 5.6 Z " +
		"M 4 4.8 C 5.4 4.6 6 3.8 6.1 2.8 C 4.8 3 4.1 3.8 4 4.8 Z " + disc(4, 2, 0.8)},
}

// disc draws a circle as four cubics; 0.5523 of the radius is the usual
// length of their handles (the circle is met within 0.03 %).
func disc(x, y, r float64) string {
	h := 0.5523 * r
	n := func(v float64) string { return strconv.FormatFloat(v, 'f', 4, 64) }
	return "M " + n(x-r) + " " + n(y) +
		" C " + n(x-r) + " " + n(y-h) + " " + n(x-h) + " " + n(y-r) + " " + n(x) + " " + n(y-r) +
		" C " + n(x+h) + " " + n(y-r) + " " + n(x+r) + " " + n(y-h) + " " + n(x+r) + " " + n(y) +
		" C " + n(x+r) + " " + n(y+h) + " " + n(x+h) + " " + n(y+r) + " " + n(x) + " " + n(y+r) +
		" C " + n(x-h) + " " + n(y+r) + " " + n(x-r) + " " + n(y+h) + " " + n(x-r) + " " + n(y) + " Z"
}

// shade returns a colour a third of the way to white, or to black for light
// colours, so that a drawing shows on its ground.
func shade(colour string) string {
	var r, g, b int
	fmt.Sscanf(colour, "#%02x%02x%02x", &r, &g, &b)
	goal := 255
	if 2126*r+7152*g+722*b > 10000*140 { // relative weights of sRGB's primaries, IEC 61966-2-1
		goal = 0
	}
	mix := func(v int) int { return v + (goal-v)*3/10 }
	return fmt.Sprintf("#%02x%02x%02x", mix(r), mix(g), mix(b))
}
