// Package buy computes what supplies cost: bought on one invoice, at prices that depend on the
// quantity, and at different dates.
//
//   - A Purchase is one invoice. Its freight, duty, discounts and non-reclaimable tax are shared
//     by its lines, to the cent.
//   - An Offer is a seller's price list. The cheapest quantity that covers a need is often more
//     than the need, and some quantities cost more than a larger one.
//   - A Stock is what came in and went out by date. It values a unit by one of four bases: last,
//     replacement, average, first in. A later entry never changes an earlier figure.
package buy
