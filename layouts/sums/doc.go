// Package sums does a card's arithmetic backwards: which margins and gaps
// pieces that are cut already leave ([Fit], [Solve]), which come out on the
// ruler ([Nice]), what becomes of a design on another card ([Resize]), and
// how a card comes out that is cut and glued by hand ([Forecast]).
//
// Forwards the sums are package layouts' own, exact to the nanometre. Here
// they are solved, each answer is put back into them, and what is told is
// what they then give.
package sums
