// Package shopping works out what a batch takes and what is to be bought for
// it: sheets of each paper, envelopes, tape or foam pads, what that costs in the
// maker's own prices, and what a finished card weighs.
//
// Start with [For], which makes the [List] of a kit.
package shopping
