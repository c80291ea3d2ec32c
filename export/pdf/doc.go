// Package pdf writes the true-scale template of a kit: vector pages to print
// at 100 % and to cut, measure and lay out by.
//
// Start with [Template].
//
// A scene is a drawing at true size, made once; pages show it whole or as
// overlapping tiles. What each line means is told by its dash and its weight
// (see steps), and each meaning is an optional content group that carries
// its processing step (ISO 19593-1).
package pdf
