package picture

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"panelry/geometry"
	"panelry/layouts/papers"
)

// Inline writes the parts of a picture that stands within a web page: the
// fills of papers, which all pictures of the page share, and outlines as path
// data. The page draws the rest around them.
type Inline struct {
	ids     map[string]string
	numbers map[string]int // of papers
	defs    strings.Builder
}

// NewInline returns one that knows no paper yet.
func NewInline() *Inline {
	return &Inline{ids: map[string]string{}, numbers: map[string]int{}}
}

// Fill returns what to fill a paper's outlines with, for a pattern whose up
// points that way. [Inline.Defs] then holds what it names.
func (in *Inline) Fill(p papers.Paper, degrees float64) string {
	tile, drawn := tiles[p.Drawing]
	if !drawn {
		return p.Shown()
	}
	key := fillKey(p, degrees)
	if in.ids[key] == "" {
		if in.numbers[p.Name] == 0 {
			in.numbers[p.Name] = len(in.numbers) + 1
		}
		id := fmt.Sprintf("paper-%d-%s", in.numbers[p.Name], strings.ReplaceAll(number(degrees), ".", "_"))
		in.ids[key] = id
		fmt.Fprintf(&in.defs, `<pattern id="%s" patternUnits="userSpaceOnUse" width="%s" height="%s"`, id, tile.size, tile.size)
		if degrees != 0 {
			fmt.Fprintf(&in.defs, ` patternTransform="rotate(%s)"`, number(degrees))
		}
		fmt.Fprintf(&in.defs, `><path fill="%s" d="M0 0H%sV%sH0Z"/><path fill="%s" d="%s"/></pattern>`, p.Shown(), tile.size, tile.size, shade(p.Shown()), tile.path)
	}
	return "url(#" + in.ids[key] + ")"
}

// Defs returns the patterns that fills name so far.
func (in *Inline) Defs() string { return in.defs.String() }

// PathData returns outlines as path data for a screen: millimetres to the
// hundredth, without needless spaces.
func PathData(outlines ...geometry.Outline) string {
	var b []byte
	for _, o := range outlines {
		for _, ring := range o.Rings() {
			b = appendRing(b, ring)
		}
	}
	return string(b)
}

func appendRing(b []byte, ring geometry.Ring) []byte {
	points := ring.Flatten(geometry.Millimetre / 20)
	for i, p := range points {
		b = append(b, "ML"[min(i, 1)])
		b = appendHundredths(b, p.X)
		b = append(b, ' ')
		b = appendHundredths(b, p.Y)
	}
	return append(b, 'Z')
}

func appendHundredths(b []byte, l geometry.Length) []byte {
	return strconv.AppendFloat(b, math.Round(l.In(geometry.Millimetres)*100)/100, 'f', -1, 64)
}
