// Package svg writes cutting sheets as SVG files that keep their true size,
// and reads every one of them back before it is handed out.
//
// Start with [Drawing], a cutting sheet as meant, and [Encode], which turns
// it into the bytes of a file that is known to say the same thing. [Canvas]
// writes any other SVG: pictures and sheet maps.
//
// # What a sheet holds
//
// The root has width and height in millimetres and a viewBox of the same two
// numbers, so one user unit is one millimetre and every nanometre is a
// decimal of at most six places. The layers cut, score and print are
// top-level groups with a title; in them stand only paths with the absolute
// commands M, L, C and Z. A sheet has no transform, style, class, text or
// use, so a program that leaves out part of SVG still draws it right.
//
// # What the reader takes
//
// [Read] takes that subset and nothing else: it proves that a file says what
// was meant. It is built in layers, from the bottom up: tokens with their
// places (package markup), exact decimals (read_length.go), path data
// (path_scan.go) and the sheet itself (read.go).
package svg
