// Package pricelist is the front door: a shop document in, a decided price
// list out.
//
//	answer, err := pricelist.Price(data) // JSON
//	answer, err := pricelist.Decide(doc) // a Document made in Go
//
// A document says what the shop buys, makes and sells, through which channels,
// and which rules its prices have to keep. The answer has a price for every
// product, the range of prices that all rules allow, and a statement for every
// channel; or the smallest group of rules that cannot hold together, how far
// they are apart, and each single change that would end it.
//
// Everything in an answer has its reasons: the steps of each statement, which
// replay to the digit; what refuses the nearest lower and the nearest higher
// price, and what it asked; warnings of what sellers get wrong. They are data,
// with codes and arguments; package sheet puts them into words. An answer that was
// stored as JSON and read back says the same, and its steps still replay.
//
// Where the document is at fault there is no answer at all, but every problem at
// once, each with a code, its path, line and column, what was found and what is
// wanted. The page codes.md beside this file lists all codes.
package pricelist
