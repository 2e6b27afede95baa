// Package margin answers what is left of a price.
//
// A Recipe is what making one product for one channel takes; its Goods are the
// cost of an order's goods. A Sale is a product in a channel with everything
// that the period adds, and its Statement at a price goes from revenue to net
// income, per item:
//
//	revenue − goods = gross
//	gross − fees − fulfilment − selling = contribution
//	contribution − overhead = operating
//	operating − income tax = net
//
// MarkedUp, PriceForMargin, Markup, Margin and BreakEven are the small sums of
// the trade that need no channel. A Ledger explains a statement step by step.
package margin
