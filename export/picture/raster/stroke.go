package raster

import (
	"image"
	"image/color"
	"image/draw"
	"math"
)

// stroke draws lines with butt ends. Corners are filled by a square as wide
// as the line, in the line's direction: close enough to SVG's mitre at the
// hair lines that pictures have.
func (c *canvas) stroke(list []step, width float64, dashes []float64, colour color.NRGBA) {
	var area []step
	for _, line := range polylines(list) {
		for _, part := range dashed(line, dashes) {
			area = append(area, thick(part, width, len(dashes) == 0)...)
		}
	}
	box := bounds(area).Intersect(c.img.Bounds())
	if box.Empty() {
		return
	}
	draw.DrawMask(c.img, box, image.NewUniform(colour), image.Point{}, c.mask(area, box), image.Point{}, draw.Over)
}

// polylines flattens a path into runs of points; closed ones end where they
// began.
func polylines(list []step) [][]point {
	var lines [][]point
	var line []point
	finish := func() {
		if len(line) > 1 {
			lines = append(lines, line)
		}
		line = nil
	}
	for _, s := range list {
		switch s.command {
		case 'M':
			finish()
			line = []point{s.to[0]}
		case 'L':
			line = append(line, s.to[0])
		case 'C':
			from := line[len(line)-1]
			const parts = 16
			for i := 1; i <= parts; i++ {
				t := float64(i) / parts
				u := 1 - t
				mix := func(a, b, c, d float64) float64 { return u*u*u*a + 3*u*u*t*b + 3*u*t*t*c + t*t*t*d }
				line = append(line, point{mix(from.x, s.to[0].x, s.to[1].x, s.to[2].x), mix(from.y, s.to[0].y, s.to[1].y, s.to[2].y)})
			}
		case 'Z':
			if len(line) > 0 {
				line = append(line, line[0])
			}
			finish()
		}
	}
	finish()
	return lines
}

// mostRepeats bounds the dashes of a line and the tiles of a pattern.
const mostRepeats = 1e5

// dashed parts a run of points into dashes.
func dashed(line []point, dashes []float64) [][]point {
	var sum float64
	for _, d := range dashes {
		sum += d
	}
	if sum <= 0 {
		return [][]point{line}
	}
	var length float64
	for i := 1; i < len(line); i++ {
		length += math.Hypot(line[i].x-line[i-1].x, line[i].y-line[i-1].y)
	}
	if length/sum > mostRepeats {
		return [][]point{line} // a grey line anyway
	}
	var out [][]point
	part := []point{line[0]}
	k, left := 0, dashes[0]
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		for {
			length := math.Hypot(b.x-a.x, b.y-a.y)
			if length <= left {
				left -= length
				part = append(part, b)
				break
			}
			t := left / length
			a = point{a.x + (b.x-a.x)*t, a.y + (b.y-a.y)*t}
			if k%2 == 0 {
				out = append(out, append(part, a))
			}
			k++
			left = dashes[k%len(dashes)]
			part = []point{a}
		}
	}
	if k%2 == 0 && len(part) > 1 {
		out = append(out, part)
	}
	return out
}

// thick makes areas of a run of points, all turning one way.
func thick(line []point, width float64, corners bool) []step {
	var area []step
	half := width / 2
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		length := math.Hypot(b.x-a.x, b.y-a.y)
		if length == 0 {
			continue
		}
		ux, uy := (b.x-a.x)/length*half, (b.y-a.y)/length*half
		if corners { // longer by half a width, so that corners close
			if i > 1 || line[0] == line[len(line)-1] {
				a = point{a.x - ux, a.y - uy}
			}
			if i < len(line)-1 || line[0] == line[len(line)-1] {
				b = point{b.x + ux, b.y + uy}
			}
		}
		for k, p := range []point{{a.x - uy, a.y + ux}, {a.x + uy, a.y - ux}, {b.x + uy, b.y - ux}, {b.x - uy, b.y + ux}} {
			s := step{command: 'L', to: [3]point{p}}
			if k == 0 {
				s.command = 'M'
			}
			area = append(area, s)
		}
		area = append(area, step{command: 'Z'})
	}
	return area
}
