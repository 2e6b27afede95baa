// Package pricelist is the front door: a shop document in, a decided price
// list out.
//
//	answer, err := pricelist.Price(data) // JSON
//	answer, err := pricelist.Decide(doc) // a Document made in Go
//
// A document says what the shop buys, makes and sells, through which channels,
// and which rules its prices have to keep. The answer has a price for every
// product, the range of prices that all rules allow, and a statement for every
// channel; or the smallest group of rules that cannot hold together. Where the
// document is at fault there is no answer at all, but every problem at once,
// each with a code, its path, what was found and what is wanted.
package pricelist
