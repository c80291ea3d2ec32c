// Package layouts is the craft: a design becomes a card, a batch of pieces
// and sheets with every piece in its place.
//
// Start with [Read], which reads and checks a design file, and [Plan], which
// works out everything that follows from it:
//
//	design, err := layouts.Read(file, open)
//	kit, err := layouts.Plan(ctx, design)
//
// Data goes one way: design, card, pieces, sheets. What reads a design is in
// the files design*.go, what plans it in plan*.go. Package export turns the
// [Kit] into files.
package layouts
