// Package buy answers what supplies cost when they are bought together, in
// steps of price, and at different times.
//
// A Purchase is one invoice: its freight, duty, discounts and the tax that
// cannot be reclaimed are shared by its lines, to the cent. An Offer is a
// seller's prices by quantity: the cheapest quantity that covers a need is often
// more than the need, and some quantities cost more than a larger one. A Stock
// is what came in and went out by date, and what a unit of it costs by one of
// four bases; an entry of a later date never changes a figure of an earlier.
package buy
