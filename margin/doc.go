// Package margin computes what is left of a price.
//
// A Recipe is what making one product for one channel takes. Its Goods are the cost of the goods
// of an order. A Sale is a product in a channel, with the fixed costs of the channel and the shop.
// Its Statement at a price goes from revenue to net income, per item:
//
//	revenue − goods = gross
//	gross − fees − fulfilment − fixed cost = contribution
//	contribution − overhead = operating
//	operating − income tax = net
//
// Fulfilment is postage, and the fixed cost is that of the channel. A print at 20.00 that costs
// 1.24, with a fee of 8%, contributes 20.00 − 1.24 − 1.60 = 17.16.
//
// PriceForMarkup, PriceForMargin, Markup, Margin and BreakEven are the usual small sums that need no
// channel. StatementInputs explains a statement step by step.
package margin
