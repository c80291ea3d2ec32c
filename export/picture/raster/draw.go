package raster

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"strconv"
	"strings"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// MostPixels is the largest picture that is made: 16384 pixels either way.
const MostPixels = 1 << 14

// PNG draws a picture so many pixels wide.
func PNG(data []byte, width int) ([]byte, error) {
	root, err := read(data)
	if err != nil {
		return nil, err
	}
	w, h := root.number("width", 0), root.number("height", 0)
	if !(w > 0 && h > 0 && w < farthest && h < farthest) || width < 1 {
		return nil, fmt.Errorf("the picture has no size")
	}
	high := int(math.Ceil(h * float64(width) / w))
	if width > MostPixels || high > MostPixels {
		return nil, fmt.Errorf("%d x %d pixels are too many; at most %d either way", width, high, MostPixels)
	}
	c := &canvas{
		img: image.NewRGBA(image.Rect(0, 0, width, high)), scale: float64(width) / w,
		patterns: map[string]*element{}, faces: map[float64]font.Face{},
	}
	if c.font, err = opentype.Parse(goregular.TTF); err != nil {
		return nil, err
	}
	draw.Draw(c.img, c.img.Bounds(), image.White, image.Point{}, draw.Src)
	if err := c.element(root); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestSpeed}
	err = encoder.Encode(&b, c.img)
	return b.Bytes(), err
}

type canvas struct {
	img      *image.RGBA
	scale    float64
	patterns map[string]*element
	font     *opentype.Font
	faces    map[float64]font.Face
}

func (c *canvas) element(e *element) error {
	switch e.tag {
	case "defs":
		for _, p := range e.children {
			c.patterns[p.attr["id"]] = p
		}
		return nil
	case "path":
		return c.path(e)
	case "text":
		return c.text(e)
	case "svg", "g":
		for _, child := range e.children {
			if err := c.element(child); err != nil {
				return err
			}
		}
	case "title", "desc":
	default:
		return fmt.Errorf("a picture with <%s> cannot be drawn", e.tag)
	}
	return nil
}

func (c *canvas) path(e *element) error {
	list, err := steps(e.attr["d"])
	if err != nil {
		return err
	}
	for i := range list {
		for k := range list[i].to {
			list[i].to[k] = point{list[i].to[k].x * c.scale, list[i].to[k].y * c.scale}
		}
	}
	if fill, has := e.attr["fill"]; !has || fill != "none" {
		if err := c.fill(list, fill, e.number("fill-opacity", 1)); err != nil {
			return err
		}
	}
	stroke := e.attr["stroke"]
	if stroke == "" || stroke == "none" {
		return nil
	}
	var dashes []float64
	for _, word := range strings.FieldsFunc(e.attr["stroke-dasharray"], func(r rune) bool { return r == ' ' || r == ',' }) {
		v, err := strconv.ParseFloat(word, 64)
		if err != nil || !(v > 0.01 && v < farthest) {
			return fmt.Errorf("%q is no dash", word)
		}
		dashes = append(dashes, v*c.scale)
	}
	colour, err := parseColour(stroke)
	if err != nil {
		return err
	}
	c.stroke(list, e.number("stroke-width", 1)*c.scale, dashes, colour)
	return nil
}

// fill draws an area in a colour or a pattern.
func (c *canvas) fill(list []step, fill string, opacity float64) error {
	box := bounds(list).Intersect(c.img.Bounds())
	if box.Empty() {
		return nil
	}
	mask := c.mask(list, box)
	if id, found := strings.CutPrefix(fill, "url(#"); found {
		return c.pattern(strings.TrimSuffix(id, ")"), mask, box)
	}
	colour, err := parseColour(fill)
	if err != nil {
		return err
	}
	colour.A = uint8(math.Round(255 * opacity))
	draw.DrawMask(c.img, box, image.NewUniform(colour), image.Point{}, mask, image.Point{}, draw.Over)
	return nil
}

// mask is how much of each pixel of the box an area covers.
func (c *canvas) mask(list []step, box image.Rectangle) *image.Alpha {
	r := vector.NewRasterizer(box.Dx(), box.Dy())
	r.DrawOp = draw.Src
	trace(r, list, box.Min)
	mask := image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy()))
	r.Draw(mask, mask.Bounds(), image.Opaque, image.Point{})
	return mask
}

func trace(r *vector.Rasterizer, list []step, from image.Point) {
	f := func(p point) (float32, float32) {
		return float32(p.x - float64(from.X)), float32(p.y - float64(from.Y))
	}
	for _, s := range list {
		x, y := f(s.to[0])
		switch s.command {
		case 'M':
			r.ClosePath()
			r.MoveTo(x, y)
		case 'L':
			r.LineTo(x, y)
		case 'C':
			x2, y2 := f(s.to[1])
			x3, y3 := f(s.to[2])
			r.CubeTo(x, y, x2, y2, x3, y3)
		case 'Z':
			r.ClosePath()
		}
	}
	r.ClosePath()
}

// pattern draws repeats of a tile: its first path is the ground, the second
// the drawing on it.
func (c *canvas) pattern(id string, mask *image.Alpha, box image.Rectangle) error {
	p := c.patterns[id]
	if p == nil || len(p.children) != 2 || !(p.number("width", 0) > 0.1) {
		return fmt.Errorf("the picture's pattern %q is not understood", id)
	}
	ground, err := parseColour(p.children[0].attr["fill"])
	if err != nil {
		return err
	}
	drawing, err := parseColour(p.children[1].attr["fill"])
	if err != nil {
		return err
	}
	motif, err := steps(p.children[1].attr["d"])
	if err != nil {
		return err
	}
	turn, _ := strconv.ParseFloat(strings.TrimSuffix(strings.TrimPrefix(p.attr["patternTransform"], "rotate("), ")"), 64)
	draw.DrawMask(c.img, box, image.NewUniform(ground), image.Point{}, mask, image.Point{}, draw.Over)
	tiles := c.mask(c.repeat(motif, p.number("width", 1), turn, box), box)
	for i, a := range mask.Pix {
		tiles.Pix[i] = uint8(int(tiles.Pix[i]) * int(a) / 255)
	}
	draw.DrawMask(c.img, box, image.NewUniform(drawing), image.Point{}, tiles, image.Point{}, draw.Over)
	return nil
}

// repeat lays a motif's tiles, turned, over a box.
func (c *canvas) repeat(motif []step, size, turn float64, box image.Rectangle) []step {
	sin, cos := math.Sincos(turn * math.Pi / 180)
	low, high := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, p := range []image.Point{box.Min, box.Max, {X: box.Min.X, Y: box.Max.Y}, {X: box.Max.X, Y: box.Min.Y}} {
		x, y := float64(p.X)/c.scale, float64(p.Y)/c.scale
		u, v := x*cos+y*sin, -x*sin+y*cos // into the pattern's own directions
		low, high = point{min(low.x, u), min(low.y, v)}, point{max(high.x, u), max(high.y, v)}
	}
	var out []step
	if (high.x-low.x)/size*(high.y-low.y)/size > mostRepeats {
		return nil // finer than pixels
	}
	for j := math.Floor(low.y / size); j*size < high.y; j++ {
		for i := math.Floor(low.x / size); i*size < high.x; i++ {
			for _, s := range motif {
				for k, p := range s.to {
					x, y := p.x+i*size, p.y+j*size
					s.to[k] = point{(x*cos - y*sin) * c.scale, (x*sin + y*cos) * c.scale}
				}
				out = append(out, s)
			}
		}
	}
	return out
}

// text draws a line of text.
func (c *canvas) text(e *element) error {
	size := e.number("font-size", 4) * c.scale
	if !(size > 0 && size < MostPixels) {
		return fmt.Errorf("%q is no size of letters", e.attr["font-size"])
	}
	face := c.faces[size]
	if face == nil {
		var err error
		if face, err = opentype.NewFace(c.font, &opentype.FaceOptions{Size: size, DPI: 72}); err != nil {
			return err
		}
		c.faces[size] = face
	}
	colour, err := parseColour(e.attr["fill"])
	if err != nil {
		return err
	}
	d := font.Drawer{Dst: c.img, Src: image.NewUniform(colour), Face: face}
	x := e.number("x", 0) * c.scale
	switch width := float64(d.MeasureString(e.text)) / 64; e.attr["text-anchor"] {
	case "middle":
		x -= width / 2
	case "end":
		x -= width
	}
	d.Dot = fixed.Point26_6{X: fixed.Int26_6(x * 64), Y: fixed.Int26_6(e.number("y", 0) * c.scale * 64)}
	d.DrawString(e.text)
	return nil
}

func parseColour(text string) (color.NRGBA, error) {
	if text == "" {
		return color.NRGBA{A: 255}, nil // SVG 2 §13.2: black where nothing is said
	}
	var r, g, b uint8
	if n, err := fmt.Sscanf(text, "#%02x%02x%02x", &r, &g, &b); n != 3 || err != nil || len(text) != 7 {
		return color.NRGBA{}, fmt.Errorf("%q is no colour like #3d6f8f", text)
	}
	return color.NRGBA{r, g, b, 255}, nil
}

// bounds is the box of whole pixels around a path.
func bounds(list []step) image.Rectangle {
	low, high := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, s := range list {
		n := map[byte]int{'M': 1, 'L': 1, 'C': 3}[s.command]
		for _, p := range s.to[:n] {
			low, high = point{min(low.x, p.x), min(low.y, p.y)}, point{max(high.x, p.x), max(high.y, p.y)}
		}
	}
	if low.x > high.x {
		return image.Rectangle{}
	}
	return image.Rect(int(math.Floor(low.x)), int(math.Floor(low.y)), int(math.Ceil(high.x)), int(math.Ceil(high.y)))
}
