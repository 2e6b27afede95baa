// Package refund answers what giving money back comes to.
//
// An Order is what a buyer paid, line by line after all discounts, with its
// tax, its fees and the refunds so far. Refund settles one more: what goes back
// to the buyer, which tax is then not owed, which fees come back and which stay
// lost, what the goods are worth that can be sold again, and what all of that
// changes for the shop.
//
// Every item of a line has its own price to the cent, so that refunds one after
// the other come to exactly what was paid, and never to more. Tax and fees are
// reckoned on all that has been given back so far, less what went before: they
// too come out to the cent, however a refund is cut in pieces.
//
// Before the sale nobody knows which order will come back. Rates is what
// happens on average: what a price has to bear for it.
package refund
