// Package export turns a finished kit into files. It decides
// no geometry: cut strokes and flattened rings come from package geometry.
//
// Start with [Files], which returns the files of a kit in memory, and
// [WriteFolder], which puts them on disk all at once or not at all.
//
// Each kind of file is one exporter: one file of this package that registers
// itself in init (see sheets.go for a short one). Bytes depend on the kit
// alone: no clock, no random order.
package export
