package refund

import "example.com/quoin"

// Order is an order as it was paid. All its amounts are money of Places.
type Order struct {
	Lines []OrderLine `json:"lines"`
	// Shipping is what the buyer paid for it.
	Shipping quoin.Amount `json:"shipping,omitzero"`
	// Surcharge is what the buyer paid extra for how the order was paid, with its tax; SurchargeTax is the
	// tax in it. Both go back whole, or not at all.
	Surcharge    quoin.Amount `json:"surcharge,omitzero"`
	SurchargeTax quoin.Amount `json:"surcharge_tax,omitzero"`
	// Tax was added on top of the prices, TaxIn was in them; the authority gives
	// either back in proportion to what is given back of the taxed.
	Tax   quoin.Amount `json:"tax,omitzero"`
	TaxIn quoin.Amount `json:"tax_in,omitzero"`
	// OnShipping says that shipping is taxed as well as the lines.
	OnShipping bool  `json:"on_shipping,omitzero"`
	Fees       []Fee `json:"fees,omitempty"`
	// Code is a code that the order took, and FreePostage says that its postage was free from some
	// amount on; neither where it is not given.
	Code        *Code        `json:"code,omitempty"`
	FreePostage *FreePostage `json:"free_postage,omitempty"`
	// Lapse says that both lapse where the items that are kept no longer reach them. Then what is
	// paid back is what was paid less what the kept items would have cost. Otherwise each item is
	// paid back at what was paid for it.
	Lapse bool `json:"lapse,omitzero"`
	// Places is the digits of money after the point, 0 to 8: 2 for cents.
	Places int `json:"places"`
	// Returned is the refunds so far, in their order.
	Returned []Refund `json:"returned,omitempty"`
}

// OrderLine is a number of one product, with what was paid for all of them together after
// discounts. Each item has its own price: the amount is split evenly without losing a cent, and
// the first items get the odd cents. 10.00 for 3 items is 3.34, 3.33 and 3.33.
type OrderLine struct {
	Product string       `json:"product"`
	Count   int64        `json:"count"`
	Paid    quoin.Amount `json:"paid"`
}

// first is what the first n items were paid, exactly.
func (l OrderLine) first(n int64, places int) quoin.Amount {
	unit := quoin.AmountOf(1, places)
	rest := l.Paid.Mod(unit.Times(quoin.FactorOf(l.Count)))
	each := l.Paid.Sub(rest).Over(quoin.FactorOf(l.Count)).Round(places, quoin.HalfUp)
	extra := unit.Times(quoin.FactorOf(n))
	if extra.Cmp(rest) > 0 {
		extra = rest
	}
	return each.Times(quoin.FactorOf(n)).Add(extra)
}

// Fee is what a channel charged for the order, and the share of it that comes back if
// everything is given back. A smaller refund returns less, in proportion.
type Fee struct {
	Name     string       `json:"name"`
	Amount   quoin.Amount `json:"amount"`
	Returned quoin.Rate   `json:"returned,omitzero"`
}

// Refund is one refund.
type Refund struct {
	Lines []Item `json:"lines,omitempty"`
	// Part is the share of the price of these items that is given back; all
	// when not given. An item is given back once, whatever the part.
	Part quoin.Optional[quoin.Rate] `json:"part,omitzero"`
	// Shipping says that shipping is given back, which it can be once.
	Shipping bool `json:"shipping,omitzero"`
	// Surcharge says that the surcharge is given back, which it can be once.
	Surcharge bool `json:"surcharge,omitzero"`
	// Postage is that of the return where the shop pays it, Dispute the fee of a
	// dispute.
	Postage quoin.Amount `json:"postage,omitzero"`
	Dispute quoin.Amount `json:"dispute,omitzero"`
}

// Item is a number of items of a line of the order: the first ones that are left.
type Item struct {
	Line  int   `json:"line"` // counted from 0
	Count int64 `json:"count"`
	// Resold is how many of them can be sold again, each worth Worth to the shop.
	Resold int64        `json:"resold,omitzero"`
	Worth  quoin.Amount `json:"worth,omitzero"`
}
