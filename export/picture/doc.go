// Package picture draws what a maker looks at: the finished card, the batch,
// and maps of the sheets with the names of their pieces. Pictures are SVG
// for the eye; the files for the cutter come from package export/svg.
//
// Start with [Cards] and [SheetMap].
package picture
