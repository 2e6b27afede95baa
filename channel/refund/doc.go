// Package refund computes what a refund costs.
//
// An Order is what a buyer paid, line by line after all discounts, with its tax, its fees and the
// refunds so far. Refund settles one more. It returns what goes back to the buyer, how much less
// tax is owed, which fees come back and which are lost, what the goods are worth that can be sold
// again, and what all this changes for the shop.
//
// Every item of a line has its own price to the cent. So several refunds add up to exactly what
// was paid, and never to more. Tax and fees are computed on everything that was given back so far,
// less what was computed before. So they too add up to the cent, however a refund is split.
//
// What is kept may no longer reach the code that the order took, or its free postage. An Order says
// what these were, and whether they lapse. Two prints at 30.00 with 10% off from 50.00, and postage
// of 4.50 that is free from 50.00, were paid 54.00. One comes back. If nothing lapses, 27.00 are paid
// back. If both lapse, the kept print would have cost 30.00 and 4.50, so 19.50 are paid back: never
// less than 0, and never more than was paid.
//
// Before a sale nobody knows which order will come back. Rates is the average: what a price must
// carry for refunds.
package refund
