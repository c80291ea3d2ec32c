// Package nesting lays outlines on sheets: irregular packing. It knows
// polygons, not paper.
//
// A [Job] says what is wanted: shapes with their counts and the turns they
// may take, the sheets in stock, the edge to keep clear and the spacing to
// keep between pieces. A [Packer] answers with a [Layout], and [Verify],
// which shares no code with any packer, holds the layout against the job.
//
// [Rows] joins right triangles into oblongs and sets everything in rows of
// bounding boxes. It never leaves those rows, so L shapes and honeycombs cost
// more paper than they need.
//
// [Search] lets pieces interlock, on sheets and on rolls; where that gains no
// sheet, the rows stay. Its parts, in the order in which they are used:
//
//   - catalogue.go, convex.go: each shape in each turn, in convex parts
//   - nofit.go: where a piece must not be, seen from another one
//   - fill.go: bottom-left fill, the first full layout
//   - board.go, line.go, move.go, separate.go: moving pieces that overlap
//     until none do (guided local search with exact line searches)
//   - strip.go, sheets.go: a shorter roll, one sheet fewer
//   - settle.go: whole nanometres, exactly apart
//   - bound.go: what no layout can do with less of
//
// The road is that of Egeblad, Nielsen and Odgaard 2007, Imamichi, Yagiura
// and Nagamochi 2009, Umetani and others 2009 and Elkeran 2013.
//
// # Measured
//
// On the open data of the bench folder, 2026-11-25, one thread on one of two
// shared cores, spacing 0, the listed turns, each layout held by [Verify].
// Only seed 1 was run, so these are single runs, not averages. PANELRY_NESTING_WORK
// divides the work of a run; where it is set, the full work was not measured.
//
// Strips, thorough effort, density in % and seconds, beside the averages of Elkeran 2013 and
// Gardeyn and others 2025 (10 to 20 minutes each):
//
//	PANELRY_BENCH=... go test -run xxx -bench 'NestingStrips/seed[12]' -benchtime 1x ./geometry/nesting
//
//	name      seed 1  seed 2  seconds  published
//	shapes0    67.63   66.50   52 56   67.26 / 68.58
//	shapes1    75.28   73.89   71 51   73.79 / 75.74
//	blaz1      82.85   84.02   53 52   82.40 / 84.67
//	fu         91.93   91.71   53 72   90.68 / 92.25
//	marques    89.92   89.83   54 50   89.40 / 90.91
//	jakobs1    89.09   89.09   95 104  88.90 / 89.08
//	dagli      87.80   87.67   61 74   87.06 / 89.23
//	dighe1    100.00  100.00    0   1  - / -
//
// (dighe1 is proved; poly1a comes to 68.99 with seed 2.) Cards, 24 of each
// layout in one paper on 12 x 12 in sheets for the cutter, at quick effort:
//
//	go test ./layouts -run xxx -bench SheetsOfLayouts -benchtime 1x
//
// takes 171 sheets in plain paper, 171 in two-way and 179 in one-way, where no
// layout takes fewer than 141, 149 and 149; two or more above the bound are 3,
// 1 and 5 of 35 fronts, which the benchmark lists.
//
// Sheets, every second instance, an eighth of the work of 20 s (at most 5 s
// each): terashima1: optimum on 10, at most one more on 25, of 25; terashima2: optimum on 11, at most one more on 22, of 24.
//
//	PANELRY_NESTING_WORK=8 PANELRY_BENCH=... go test -run xxx -bench NestingSheets -benchtime 1x ./geometry/nesting
//
// Rectangles, every fourth instance, a sixteenth of the work of 20 s
// (NestingRectangles): bin classes: 709 sheets, best known 698, +1.58 %.
//
// Hopper's strips, an eighth of the work of 20 s (NestingHopper): C and N: +3.20 % over the optimum on average, of 17.
//
// First full layouts of panels (NestingFill), no turns / half turns: 100 pieces
// of 20 kinds 0.006 / 0.007 s, 1,000 of 100 kinds 0.14 / 0.41 s, all different
// 1.6 / 3.5 s, 10,000 of 200 kinds 2.2 / 6.1 s, with at most 80 MB.
//
// Forms with many small parts (curves, stars) are slow: on 1,000 pieces of 20
// such kinds quick effort takes 0.8 s and gains no sheet over the rows
// (NestingQuick).
package nesting
