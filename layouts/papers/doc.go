// Package papers describes the papers of a batch: what a [Paper] looks like
// and how its pattern lets a piece be turned, the [Plan] that deals papers to
// the places of a batch, what a [Price] comes to, and how paper is weighed.
//
// Start with [Paper.Turns] and [Plans]; with [Even], which says whether papers
// cut alike come out even, and [BalancedMoves], which swaps them by hand; with
// [Substitutes], by size, [Paper.Thickness] and [Contrast]; and with [ParseWeight], which reads the weight as it stands on the pack,
// in grams per square metre or in pounds, and [SheetMass], which says what a
// piece of that paper weighs:
//
//	gsm, err := papers.ParseWeight("80 lb cover")  // 216.3
//	...
//	grams := papers.SheetMass(size, gsm)
//
// # Pounds
//
// The pounds on a pack are the basis weight: what 500 sheets weigh at the
// basic size of that kind of paper. Each kind has its own basic size, so
// pounds mean nothing without the kind: 110 lb index is 199 gsm, and 110 lb
// cover is 297 gsm. Grams per square metre (gsm, the grammage of ISO 536)
// mean the same for every paper.
package papers
