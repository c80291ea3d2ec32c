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
//   - catalogue.go, convex.go, slit.go: each shape in each pose, in convex parts
//   - walls.go: what is missing of scraps, as forms that never move
//   - nofit.go: where a piece must not be, seen from another one
//   - fill.go: bottom-left fill, the first full layout
//   - board.go, line.go, move.go, separate.go: moving pieces that overlap
//     until none do (guided local search with exact line searches)
//   - strip.go, sheets.go: a shorter roll, one sheet fewer
//   - scraps.go: scraps filled before rows
//   - settle.go: whole nanometres, exactly apart
//   - tidy.go, offcut.go: rows where rows will do, the last sheet's pieces pushed
//     together, and the largest oblong that this leaves in a corner
//   - threads.go: several searches at once
//   - bound.go: what no layout can do with less of
//
// The road is that of Egeblad, Nielsen and Odgaard 2007, Imamichi, Yagiura
// and Nagamochi 2009, Umetani and others 2009 and Elkeran 2013.
//
// # Measured
//
// On the open data of the bench folder, one thread on one of two shared cores,
// full work, spacing 0, the listed turns, each layout held by [Verify]. Nothing
// was tuned on marques, dagli, N or the last quarter of each set. Strips are of
// 2026-11-25 (the first six of seed 1 came out the same on 2026-11-28), all else
// of 2026-11-28.
//
// Strips, thorough effort, density in %, three seeds and their average, seconds,
// beside the averages of Elkeran 2013 and Gardeyn and others 2025 (10 to 20
// minutes each):
//
//	PANELRY_BENCH=... go test -run xxx -bench NestingStrips -benchtime 1x -timeout 0 ./geometry/nesting
//
//	name     seed 1  seed 2  seed 3  average  seconds   published
//	shapes0   67.63   66.50   66.50    66.88   46 to 48  67.26 / 68.58
//	shapes1   76.00   73.89   73.89    74.59   47 to 56  73.79 / 75.74
//	blaz1     82.85   84.02   82.95    83.27   52 to 55  82.40 / 84.67
//	fu        91.93   91.71   91.93    91.86   52 to 57  90.68 / 92.25
//	marques   90.52   89.83   90.12    90.16   48 to 52  89.40 / 90.91
//	jakobs1   89.09   89.09   89.09    89.09   59 to 67  88.90 / 89.08
//	dagli     88.03   87.67   88.49    88.06   48 to 61  87.06 / 89.23
//	dighe1   100.00  100.00  100.00   100.00   under 1   proved
//	poly1a    68.92   68.99   68.87    68.93   45 to 50
//	poly2b    76.15   75.80   75.33    75.76   54 to 64
//	three     54.76   54.76   54.76    54.76   29 to 35
//	threep2   70.41   70.41   70.41    70.41   41 to 46
//
// Sheets, every second instance, at most 20 s of work each, seed 1
// (NestingSheets): the optimum on 38 of 49 with a published optimum (18 of 25
// and 20 of 24), at most one more on all.
//
// Rectangles, every fourth instance, at most 20 s of work each
// (NestingRectangles): bin classes: 703 sheets, best known 698, +0.72 %.
// Hopper's strips (NestingHopper): C and N: +2.57 % over the optimum on
// average, of 17; N alone +2.40 %.
//
// Cards, 24 of each layout in one paper on 12 x 12 in sheets for the cutter, at
// quick effort:
//
//	go test ./layouts -run xxx -bench SheetsOfLayouts -benchtime 1x
//
// takes 167 sheets in plain paper, 169 in two-way and 172 in one-way, where no
// layout takes fewer than 142, 147 and 147; none of the 35 fronts is two or more
// above its bound.
//
// First full layouts of panels (NestingFill), no turns / half turns: 100 pieces
// of 20 kinds 0.01 s, 1,000 of 100 kinds 0.14 / 0.24 s, all different 1.4 / 2.7 s,
// 10,000 of 200 kinds 2.3 / 3.9 s, with at most 80 MB. Normal effort then brings
// 100 pieces on a roll from 78.45 to 88.18 %, 1,000 from 84.71 to 86.90 %, each
// in some 6 s; on 10,000 the fill takes all of it (NestingGrowth).
//
// Forms with many small parts (curves, stars) are slow: on 1,000 pieces of 20
// such kinds quick effort takes 0.5 s and gains no sheet over the rows
// (NestingQuick). 60 curved kinds with holes, turned freely and in holes, take
// some 2 s at quick and 10 s at normal effort, with 300 MB.
package nesting
