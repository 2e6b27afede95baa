// Package pricelist is the front door: a shop document in, a decided price list out.
//
//	answer, err := pricelist.Price(data) // JSON
//	answer, err := pricelist.Decide(doc) // a Document made in Go
//
// A document says what the shop buys, makes and sells, in which channels, and which rules its
// prices must satisfy. The answer has for every product a price, the range of prices that all
// rules allow, and a statement for every channel. If the rules contradict each other, it has no
// prices. It then names a smallest group of rules that contradict each other, how far they are
// apart, and each single change that would end the conflict.
//
// Everything in an answer has its reasons, as data with codes and arguments: the steps of each
// statement, which can be computed again to the digit; the rules that refuse the nearest lower and
// the nearest higher price, and what they asked; and warnings about what costs money. Package
// sheet puts them into words. An answer can be stored as JSON and read back. It then says the
// same, and its steps can still be computed.
//
// If the document has mistakes there is no answer. All mistakes are returned at once, each with a
// code, its path, line and column, what was found and what is wanted. The page codes.md beside
// this file lists all codes, and document.md describes the document.
package pricelist
