// Package geometry holds exact lengths, points and outlines, and what a
// paper cutter does to them: split, move, turn, inset.
//
// Start with [ParseLength], which reads a length as a maker writes it, and
// [Outline], a closed shape that [Outline.Split] cuts along a line.
//
// # Units and axes
//
// A [Length] counts nanometres, so that ruler inches and decimal millimetres
// are both exact. x grows to the right and y grows down the page, as in SVG.
// With y down, a ring whose signed area is positive runs clockwise as seen
// on the page; outer rings run that way, holes the other way.
//
// # What is exact
//
// Coordinates reach [Limit], 100 m, either way. Inside that range every
// question about sides and order is answered exactly. New points (where a
// cut meets a slanted edge, or after a turn by an odd angle) are rounded to
// the nearest nanometre.
package geometry
