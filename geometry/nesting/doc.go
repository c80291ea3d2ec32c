// Package nesting lays outlines on sheets: irregular packing. It knows
// polygons, not paper.
//
// A [Job] says what is wanted: shapes with their counts and the turns they
// may take, the sheets in stock, the edge to keep clear and the spacing to
// keep between pieces. A [Packer] answers with a [Layout], and [Verify],
// which shares no code with any packer, holds the layout against the job.
//
// [Rows] is the packer that is there now: it joins right triangles into
// oblongs and sets everything in rows of bounding boxes. It never leaves
// those rows, so L shapes and honeycombs cost more paper than they need.
package nesting
