package reader

import (
	"panelry/export/svg/findings"
)

// A File is what an SVG file draws.
type File struct {
	W, H     float64   // of the sheet, in mm; only where Sized
	Sized    bool      // whether the sheet has a true size
	InPixels bool      // whether the file gives that size in px
	Elements []Element // in document order; none where the sheet has no true size
	Others   []Other   // what is drawn without an outline
	Layers   []*Layer  // the groups directly under the root
}

// A Layer is a group directly under the root.
type Layer struct {
	ID, Title string
	Label     string // that a drawing program gave it, in a namespace of its own
	Shared    bool   // data-edges="shared": each edge stands once, for both its pieces
	At        int    // byte offset
}

// An Element is one drawn shape. A shape that is drawn through use stands
// here once for each time.
type Element struct {
	Tag, ID string
	Via     string // the ids of the use elements it is drawn through, outermost first, joined by "/"
	Layer   *Layer // nil for none
	At      int    // byte offset of the shape
	Path    Path   // in mm on the sheet
	Bounds  Box    // of Path
	Visible bool   // painted at all: not hidden, not see-through, not without fill and stroke
	Filled  bool   // painted inside
	Stroked bool   // painted along the line
	Dashed  bool
	EvenOdd bool   // fill-rule evenodd
	Clipped bool   // changed by a clip, a mask or a filter
	Outside bool   // reaches out of a nested viewport that hides what does
	Copies  string // its data-copies, as it stands; "" for none
	Block   string // its data-block
}

// Label names the element in a finding.
func (e Element) Label() string { return label(e.Tag, e.ID) }

// An Other is drawn but has no outline: text, a picture, a foreign object.
type Other struct {
	Tag, ID string
	Layer   *Layer
	At      int
}

// Label names the element in a finding.
func (o Other) Label() string { return label(o.Tag, o.ID) }

// mostSegments and mostVisits bound the work that a file can make: a use of
// a use of a use multiplies.
const (
	mostSegments = 1_000_000
	mostVisits   = 60_000
	mostUses     = 64 // one inside another
)

// Read reads an SVG file. All that is wrong with it is added to found; a
// file that is not SVG at all gives the zero File.
func Read(data []byte, found *findings.List) File {
	t := parse(data, found)
	if t == nil {
		return File{}
	}
	if t.root.name != "svg" {
		found.Add(findings.NotSVG, t.root.at, "", "%s", notSVG(t.root))
		return File{}
	}
	t.cascade(found)
	r := &reader{tree: t, found: found, segments: mostSegments, visits: mostVisits}
	r.drawing()
	if !r.file.Sized {
		r.file.Elements, r.file.Others = nil, nil
	}
	return r.file
}

func notSVG(root *node) string {
	if root.find("xmlns") == nil && root.find("viewBox") != nil {
		return "the root is not in the namespace of SVG"
	}
	return "the root is not an <svg>"
}

// reader walks through the elements and collects what they draw.
type reader struct {
	*tree
	found    *findings.List
	file     File
	segments int // that may still be made
	visits   int // of elements that may still be made
	rootFont float64
	stopped  bool
	noBox    bool // the root has no viewBox
}

// add reports something at an element.
func (r *reader) add(rule *findings.Rule, n *node, format string, args ...any) {
	r.found.Add(rule, n.at, n.label(), format, args...)
}

// addAt reports something at a byte of the file.
func (r *reader) addAt(rule *findings.Rule, at int, n *node, format string, args ...any) {
	r.found.Add(rule, at, n.label(), format, args...)
}
