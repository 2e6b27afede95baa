package channel

import "example.com/quoin"

// Channel is the terms of one way of selling.
type Channel struct {
	ID   string `json:"id" need:"yes"`
	Name string `json:"name,omitempty"`
	// Packing names the packing list of a product that is used here.
	Packing string `json:"packing,omitempty"`
	// Loss is the share of parcels lost on the way, which are sent again.
	Loss quoin.Rate `json:"loss,omitzero" range:"[0,1)"`

	// Uplift is added on the list price here; TradeDiscount is taken off it,
	// one after the other; Promotion is taken off the items of an order.
	Uplift        quoin.Rate   `json:"uplift,omitzero" range:"[0,"`
	TradeDiscount []quoin.Rate `json:"trade_discount,omitempty" range:"[0,1]" most:"12"`
	Promotion     quoin.Rate   `json:"promotion,omitzero" range:"[0,1]"`

	Tax Tax `json:"tax,omitzero"`
	// Orders are the kinds of order that come in; none means one item, with
	// no postage.
	Orders []Order `json:"orders,omitempty" most:"100"`
	Fees   []Fee   `json:"fees,omitempty" most:"100"`
	// Period spreads what selling here costs whatever is sold, such as a
	// stand or a subscription, over the items expected to be sold with it.
	Period Period `json:"period,omitzero"`
}

// Tax is a sales or value-added tax.
type Tax struct {
	Rate quoin.Rate `json:"rate,omitzero" range:"[0,1]"`
	// InPrice says that prices hold the tax; otherwise it is added on top.
	InPrice bool `json:"in_price,omitzero"`
	// OnShipping says that the shipping charged is taxed too.
	OnShipping bool `json:"on_shipping,omitzero"`
}

// Order is one kind of order.
type Order struct {
	// Share is the share of all orders that are of this kind; shares sum to 1
	// over a channel. None means 1.
	Share quoin.Optional[quoin.Rate] `json:"share,omitzero" range:"[0,1]"`
	// Items is how many items it holds; zero means 1.
	Items int64 `json:"items,omitzero" range:"[1,1000000]"`
	// Shipping is what the buyer is charged, unless the items come to FreeFrom.
	Shipping quoin.Amount                 `json:"shipping,omitzero" range:"[0,"`
	FreeFrom quoin.Optional[quoin.Amount] `json:"free_from,omitzero" range:"[0,"`
	// Postage is what sending the parcel costs the shop.
	Postage      quoin.Amount              `json:"postage,omitzero" range:"[0,"`
	PostageRange quoin.Range[quoin.Amount] `json:"postage_range,omitzero" dear:"high"`
	// TaxRate stands in for the channel's rate, for orders taxed elsewhere.
	TaxRate quoin.Optional[quoin.Rate] `json:"tax_rate,omitzero" range:"[0,1]"`
}

// ShareOr1 returns the order's share, 1 where none was given.
func (o Order) ShareOr1() quoin.Rate { return o.Share.Or(whole) }

// ItemsOr1 returns the number of items, 1 where it is zero.
func (o Order) ItemsOr1() int64 { return max(o.Items, 1) }

var whole = quoin.FactorOf(1).Rate()

// Period is a cost that recurs whatever is sold, and the items expected to be
// sold in the same time. Items may be a fraction, being an average.
type Period struct {
	Cost       quoin.Amount              `json:"cost,omitzero" range:"[0,"`
	CostRange  quoin.Range[quoin.Amount] `json:"cost_range,omitzero" dear:"high"`
	Items      quoin.Factor              `json:"items,omitzero" range:"(0,"`
	ItemsRange quoin.Range[quoin.Factor] `json:"items_range,omitzero" dear:"low"`
}

// PerItem returns cost ÷ items, 0 where there is no cost. It errs, with a
// Problem, where there is a cost and no items to spread it over.
func (p Period) PerItem() (quoin.Amount, error) {
	if p.Cost.IsZero() {
		return quoin.Amount{}, nil
	}
	if p.Items.Sign() <= 0 {
		return quoin.Amount{}, quoin.Problem{
			Code: NoItems, Severity: quoin.Fault, Path: "items", Found: "nothing",
			Wanted: "how many items the cost of " + p.Cost.String() + " is spread over, above zero",
		}
	}
	return p.Cost.Over(p.Items), nil
}

// NoItems is the code of a cost with nothing to spread it over.
const NoItems quoin.Code = "no_items"
