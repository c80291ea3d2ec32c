// Package raster turns Panelry's own pictures from SVG into PNG, so that one
// drawing serves both.
//
// Start with [PNG]. It reads what package picture writes and nothing more:
// groups, paths of the absolute commands M L C Z, fills of one colour or of a
// pattern of two areas, strokes with butt ends, and lines of text.
package raster
