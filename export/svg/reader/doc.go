// Package reader reads any SVG file as SVG 2 and SVG 1.1 lay down, and gives
// every drawn outline in millimetres on the sheet.
//
// [Read] is the way in. It follows root size and units, viewBox and
// preserveAspectRatio, nested svg, symbol and use, transforms, percentages,
// all basic shapes and path data, display and visibility, and as much of CSS
// as changes any of these. It computes in float64.
//
// Where readers are known to differ it does as the text says, or as web
// browsers do where the text is open, and adds a finding: the result is what
// a careful reader gets, and the finding says that not every reader does.
// What has no definite place (a size that follows the window, say) is left
// out and a finding says so. Nothing is drawn from another file.
//
// Files: path.go and pathdata.go hold paths, length.go, viewbox.go,
// transform.go and css.go the small languages of attributes, tree.go the
// elements, root.go the sheet, draw.go the walk through the elements,
// shapes.go what each shape draws.
package reader
