// Package checker judges an SVG file as a cutting sheet: whether it has a
// true size, whether each outline can be cut, whether all of it fits on the
// sheet, and what is in which layer.
//
// [Check] reads the file with package reader and then looks at the outlines,
// flattened to chords within [flatness]: each by itself (outlines.go), then
// all against one another with a grid (pairs.go), which ring lies in which
// (nesting.go), and the pieces that shared edges close (faces.go). [Shapes]
// reads a maker's own shapes. Rules stand in package findings.
package checker
