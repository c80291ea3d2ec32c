// Package trimming cuts oblongs out of sheets with straight cuts from edge to
// edge (guillotine cuts). It knows rectangles and lines, not paper.
//
// [OneSheet] finds the most valuable set of pieces that one sheet gives, and
// says whether that is proved best; [Plan] gets a whole list of pieces out of
// few sheets. Both answer with trees of cuts ([Part]), which [Replay], an
// independent simulator, carries out on the stock: it must end with exactly
// the pieces that were asked for.
//
// Lengths are exact. A kerf, the width that a cut takes away, is counted with
// every cut; it is 0 for blades.
package trimming
