// Package guide writes the making guide of a kit: what a maker publishes and
// a teacher hands out.
//
// Start with [Write], which gives the chapters, and [HTML] and [Markdown],
// which write the same chapters in either form. Chapters are plain data, so
// that other parts of a kit can add their own.
package guide
