package channel

import (
	"example.com/quoin"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
	"example.com/quoin/internal/form"
)

// Channel is the terms of one way of selling.
type Channel struct {
	ID   string `json:"id" need:"yes"`
	Name string `json:"name,omitempty"`
	// Packing names the packing list of a product that is used here.
	Packing string `json:"packing,omitempty"`
	// Loss is the share of parcels lost on the way, which are sent again.
	LostParcels quoin.Rate `json:"lost_parcels,omitzero" was:"loss" range:"[0,1)"`

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
	FixedCost FixedCost `json:"fixed_cost,omitzero" was:"period"`

	// Promotions are what kinds of order take by their codes, in the order in
	// which they are applied.
	Promotions []promo.Offer `json:"promotions,omitempty" most:"20"`
	// PricePoints says which unit prices can be asked here; ForeignCurrency that this is done in
	// another currency.
	PricePoints     *PricePoints     `json:"price_points,omitempty" was:"tag"`
	ForeignCurrency *ForeignCurrency `json:"foreign_currency,omitempty" was:"abroad"`
	// Tariff is the id of the carrier's prices that parcels go by: then orders say
	// to which zone they go, and what packing them and postage cost follows.
	Tariff string `json:"tariff,omitempty"`
	// At most one of Trade, Consignment and OnDemand says in which way it is
	// sold here; none means to buyers, by the shop itself.
	Trade       *Trade       `json:"trade,omitempty" or:"consignment on_demand"`
	Consignment *Consignment `json:"consignment,omitempty" or:"on_demand"`
	OnDemand    *OnDemand    `json:"on_demand,omitempty"`
	// After is what happens after the sale, on average.
	Returns *refund.Rates `json:"returns,omitempty" was:"after"`

	// Product is the id of the only product that the channel is for, as For returns
	// it; empty means all.
	Product string `json:"-"`
}

// Tax is a sales or value-added tax.
type Tax struct {
	Rate quoin.Rate `json:"rate,omitzero" range:"[0,1]"`
	// InPrice says that prices hold the tax; otherwise it is added on top.
	InPrice bool `json:"in_price,omitzero"`
	// OnShipping says that the shipping charged is taxed too.
	OnShipping bool `json:"on_shipping,omitzero"`
	// Constant says what stays where an order has a tax rate of its own and
	// prices hold the tax: the gross price, also when empty, or the net one.
	Constant Constant `json:"constant,omitempty"`
}

// Constant says what stays the same in a price that holds tax if an order has another tax rate:
// the price with tax, or the price without it.
type Constant string

const (
	// Gross keeps what buyers pay: what is left without the tax moves.
	Gross Constant = "gross"
	// Net keeps what is left without the tax: buyers pay × (1 + their rate) ÷
	// (1 + the channel's).
	Net Constant = "net"
)

// UnmarshalText reads gross or net.
func (c *Constant) UnmarshalText(text []byte) error { return form.SetWord(c, text, Gross, Net) }

// Order is one kind of order.
type Order struct {
	// ID is what fees name that are charged on some kinds of order only, and
	// Name what people call it.
	ID   string `json:"id,omitempty"`
	Name string `json:"name,omitempty"`
	// Share is the share of all orders that are of this kind; shares sum to 1
	// over a channel. None means 1.
	Share quoin.Optional[quoin.Rate] `json:"share,omitzero" range:"[0,1]"`
	// Items is how many items it holds; zero means 1.
	Items int64 `json:"items,omitzero" range:"[1,1000000]"`
	// Shipping is what the buyer is charged, unless the items come to FreeFrom.
	Shipping quoin.Amount                 `json:"shipping,omitzero" range:"[0,"`
	FreeFrom quoin.Optional[quoin.Amount] `json:"free_from,omitzero" range:"[0,"`
	// FreeTest says on what FreeFrom is tested: on what items come to after
	// promotions, also when empty, or before them.
	FreeTest promo.Test `json:"free_test,omitempty"`
	// Postage is what sending the parcel costs the shop.
	Postage      quoin.Amount              `json:"postage,omitzero" range:"[0,"`
	PostageRange quoin.Range[quoin.Amount] `json:"postage_range,omitzero" dear:"high"`
	// TaxRate stands in for the channel's rate, for orders taxed elsewhere.
	TaxRate quoin.Optional[quoin.Rate] `json:"tax_rate,omitzero" range:"[0,1]"`
	// Codes are the ids of the promotions that it takes.
	Codes []string `json:"codes,omitempty" most:"20"`
	// Reorder says that a shop has ordered before.
	Reorder bool `json:"reorder,omitzero"`
	// Zone is where it goes, by the tariff of the channel's parcels.
	Zone string `json:"zone,omitempty"`
}

// ShareOr1 returns the order's share, or 1 if none is given.
func (o Order) ShareOr1() quoin.Rate { return o.Share.Or(whole) }

// ItemsOr1 returns the number of items, or 1 if none is given.
func (o Order) ItemsOr1() int64 { return max(o.Items, 1) }

var whole = quoin.FactorOf(1).Rate()

// FixedCost is a cost that recurs however much is sold, and the items expected to be sold in
// the same time. Items may be a fraction, because they can be an average. 28.00 over 14 items
// is 2.00 an item.
type FixedCost struct {
	Cost       quoin.Amount              `json:"cost,omitzero" range:"[0,"`
	CostRange  quoin.Range[quoin.Amount] `json:"cost_range,omitzero" dear:"high"`
	Items      quoin.Factor              `json:"items,omitzero" range:"(0,"`
	ItemsRange quoin.Range[quoin.Factor] `json:"items_range,omitzero" dear:"low"`
}

// PerItem returns cost ÷ items, and 0 without a cost. The error is a Problem, if there is a
// cost and no items.
func (p FixedCost) PerItem() (quoin.Amount, error) {
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
