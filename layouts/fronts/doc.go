// Package fronts divides the front of a card into panels: one file a
// layout. Each file registers a [Layout] when the program starts; [All]
// lists them and [Find] picks one by name.
//
// A layout is handed a [Brief]: the frame, which is the front without its
// margins, the gap, and the layout's own options. It answers with a
// [Front]: panels with names and roles, the sums across and down, and,
// where the front was made by straight splits, the tree of splits.
//
// To add a layout, write one file that calls [Register] and one test for
// what is special about it; the tests in fronts_test.go loop over everything
// registered.
package fronts
