package pdf

import "fmt"

// foot draws what every page ends with: a scale bar in inches and in
// centimetres, a test square, the words to check them by, and the key.
func (d *document) foot(l leaf) {
	top := l.h - around - footer + 4
	d.bar(around, top+8)
	square := around + 110.0
	d.pen(cut)
	d.pdf.Rect(square, top, 25.4, 25.4, "D")
	d.text(square+12.7, top+12, 2.8, "", middle, "1 in square")
	d.text(square+12.7, top+16, 2.8, "", middle, "25.4 mm")
	y := top + 19.5
	words := "Print at 100 % (actual size), not fitted to the page. Measure the square and the bar with a ruler before you cut: if they are off, the printer has scaled the page."
	for _, line := range d.wrap(words, 2.8, "", 102) {
		d.text(around, y, 2.8, "", start, line)
		y += 2.8 * lineFeed
	}
	d.key(square+25.4+6, top)
	d.text(l.w-around, l.h-around+2, 2.8, "", end, fmt.Sprintf("page %d", d.pdf.PageNo()))
}

// bar is a scale bar of 4 in, quarters marked, above one of 10 cm.
func (d *document) bar(x, y float64) {
	d.pen(cut)
	d.pdf.SetLineWidth(0.2)
	d.pdf.Line(x, y, x+4*25.4, y)
	for i := range 17 {
		length := 1.5
		if i%4 == 0 {
			length = 3
			d.text(x+float64(i)*25.4/4, y-3.6, 2.6, "", middle, fmt.Sprint(i/4))
		}
		d.pdf.Line(x+float64(i)*25.4/4, y, x+float64(i)*25.4/4, y-length)
	}
	d.text(x+4*25.4+1, y-0.6, 2.6, "", start, "in")
	y += 1.2
	d.pdf.Line(x, y, x+100, y)
	for i := range 101 {
		length := 0.9
		if i%10 == 0 {
			length = 3
			d.text(x+float64(i), y+5.6, 2.6, "", middle, fmt.Sprint(i/10))
		} else if i%5 == 0 {
			length = 1.7
		}
		d.pdf.Line(x+float64(i), y, x+float64(i), y+length)
	}
	d.text(x+101, y+2.4, 2.6, "", start, "cm")
}

// key shows each kind of line with its meaning.
func (d *document) key(x, y float64) {
	d.text(x, y+2, 2.8, "B", start, "Lines")
	for _, s := range allSteps {
		if looks[s].key == "" {
			continue
		}
		y += 4.6
		d.pen(s)
		d.pdf.Line(x, y+1, x+15, y+1)
		if s == dimensions {
			d.pdf.Line(x, y, x, y+2)
			d.pdf.Line(x+15, y, x+15, y+2)
		}
		d.pdf.SetDashPattern(nil, 0)
		d.text(x+17, y+2, 2.8, "", start, looks[s].key)
	}
}
