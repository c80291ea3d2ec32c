package nesting

import "panelry/geometry"

// ConvexParts are convexParts as outlines.
func ConvexParts(o geometry.Outline) []geometry.Outline {
	var out []geometry.Outline
	for _, p := range convexParts(o) {
		out = append(out, geometry.OutlineFromPoints(p...))
	}
	return out
}
