package pricelist

import "example.com/quoin"

// Remedy is one change that by itself would let the rules of a conflict hold
// together, found exactly to its last digit: one unit less would not do.
type Remedy struct {
	Change Change `json:"change"`
	Path   string `json:"path"` // of what would change
	// Name is the product, channel, fee or rule.
	Name string       `json:"name"`
	From quoin.Figure `json:"from"`
	To   quoin.Figure `json:"to"`
}

// Change says what a Remedy changes.
type Change string

const (
	GoodsDown       Change = "goods"          // what the goods of one item cost, in the channel at Path
	TradeDiscountTo Change = "trade_discount" //
	FeeTo           Change = "fee"            // the rate of a fee
	RuleTo          Change = "rule"           // the figure of a rule
)
