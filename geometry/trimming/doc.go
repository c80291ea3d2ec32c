// Package trimming cuts oblongs out of sheets with straight cuts from edge to
// edge (guillotine cuts). It knows rectangles and lines, not paper.
//
// [OneSheet] finds the most valuable set of pieces that one sheet gives, and
// says whether that is proved best; [Plan] gets a whole list of pieces out of
// few sheets. Both answer with trees of cuts ([Part]), which [Replay], an
// independent simulator, carries out on the stock: it must end with exactly
// the pieces that were asked for.
//
// # How good
//
// Measured on 2026-11-25 on a shared machine with two cores, one at work, with
// the open data that PANELRY_BENCH names (its README says where from):
//
//	go test ./geometry/trimming -run Published -v
//
// finds and proves the published optimum of all 13 instances of one sheet
// (gcut, cgcut, ngcut, W), fixed and turned, in 0 to 1.8 s each.
//
//	go test ./geometry/trimming -run XXX -bench BinClasses -benchtime 1x
//
// plans every fourth of the 500 instances of the ten bin classes with an
// effort of 300,000 repackings, 1.4 to 1.9 s each: 725 sheets fixed, 0.42 %
// over the best known guillotine results, and 703 turned, 0.72 % over. With
// 20,000, about 0.12 s each, it was 733 (1.52 %) and 704 (0.86 %).
//
// Not measured yet: strips of the least height, and settings and cuts of
// small jobs against exhaustive search.
//
// Lengths are exact. A kerf, the width that a cut takes away, is counted with
// every cut; it is 0 for blades.
package trimming
