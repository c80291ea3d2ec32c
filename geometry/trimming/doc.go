// Package trimming cuts oblongs out of sheets with straight cuts from edge to
// edge (guillotine cuts). It knows rectangles and lines, not paper.
//
// [OneSheet] finds the most valuable set of pieces that one sheet gives, and
// says whether that is proved best; [Plan] gets a whole list of pieces out of
// few sheets, and [Roll] out of a short length of a roll. All answer with
// trees of cuts ([Part]), which [Replay], an independent simulator, carries
// out on the stock: it must end with exactly the pieces that were asked for.
//
// # How good
//
// Measured on 2026-11-25 on a shared machine with two cores, both at
// work some of the time, with the open data that PANELRY_BENCH names (its
// README says where from):
//
//	go test ./geometry/trimming -run Published -v
//
// finds and proves the published optimum of all 13 instances of one sheet
// (gcut, cgcut, ngcut, W), fixed and turned, in 0 to 1.8 s each.
//
//	go test ./geometry/trimming -run XXX -bench BinClasses -benchtime 1x
//
// plans every fourth of the 500 instances of the ten bin classes with an
// effort of 500,000, on average 2.5 s each fixed and 2.0 s turned: 722 sheets
// fixed, as many in sum as the best known guillotine results, and 702 turned,
// 0.57 % over. One seed each.
//
//	go test ./geometry/trimming -run XXX -bench Plan500 -benchtime 1x
//
// plans 500 pieces of 20 sizes with an effort of 100,000 in 1.7 to 2.0 s.
//
//	go test ./geometry/trimming -run XXX -bench StripHopper -benchtime 1x
//
// cuts pieces from a strip with an effort of 3,000,000, some 25 s each for T:
// 2.77 % over the optimum of any packing for the 15 instances of T, 0.42 % for
// the 12 of C and 3.00 % for the 5 of N (with 300,000, 1 to 3 s each: 3.23,
// 0.42 and 3.50 %). The aim for T, 2 %, is not reached. Straight cuts cannot
// reach that optimum in any instance of T or N, as TestHopperWithoutWaste
// shows; how near they come is not known.
//
// Small jobs, up to 8 pieces of 3 kinds: settings and cuts equal two slow
// twins that try all that hands can do (-run Fewest).
//
//	go test ./layouts -run XXX -bench Trim -benchtime 1x
//
// plans the demo in 24 to 29 ms, 500 pieces of 20 sizes at normal effort in 0.6
// to 1.4 s,
// and every layout for 24 cards, in plain, two-way and one-way paper, with
// never more cuts than strips kind by kind take on as many sheets. At most one
// sheet above the bound are all but fan in plain paper, and all but seven or
// eight of 35 in paper with a pattern, which the benchmark lists: their panels
// are slanted against the pattern, and are cut from the oblongs around them.
// For 5 cards all are within one sheet (-run TrimEveryLayout).
//
// Lengths are exact. A kerf, the width that a cut takes away, is counted with
// every cut; it is 0 for blades.
package trimming
