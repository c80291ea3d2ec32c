// Package cards knows the sizes that cards, sheets and envelopes are sold
// in, and how a card base is folded.
//
// Start with [ParseSize], which reads a size by its name or by its numbers,
// and [Base.Lay], which lays the base of a closed front out flat with its
// fold lines:
//
//	front, err := cards.ParseSize("US A2", geometry.Inches, cards.ForCard)
//	...
//	laid, err := cards.TopFold.Lay(front) // 4 1/4 x 11 in, folded half way down
//
// # Names and systems
//
// "A6" is one size in ISO 216 and another in the North American list of
// announcement envelopes, and "B6" is one size in ISO 216 and another in
// JIS. Such a name is read only with its system in front: ISO A6, US A6,
// JIS B6. In the North American list a name belongs to the envelope: US A2
// is here the card that goes into a US A2 envelope, and that envelope where
// an envelope is asked for.
//
// # Sources
//
// Each row says where its numbers come from. Standards are named; "trade
// chart" is a printer's or an envelope maker's size chart; "from memory" is
// a row that nobody has looked up yet.
package cards
