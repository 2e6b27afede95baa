package channel

import (
	"example.com/quoin"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
)

// Channel is the terms of one way of selling.
type Channel struct {
	// What rules refer to the channel by.
	ID string `json:"id" need:"yes"`
	// What people call it.
	Name string `json:"name,omitempty"`
	// What somebody reading the document should know, such as where a figure comes from. It is read,
	// and has no part in any sum.
	Note string `json:"note,omitempty"`
	// Name of the packing list of each product that is used here; none where it is not given.
	Packing string `json:"packing,omitempty"`
	// Share of parcels lost on the way, which are sent again; below 1, none where it is not
	// given.
	LostParcels quoin.Rate `json:"lost_parcels,omitzero" was:"loss" range:"[0,1)"`

	// Added on the list price here.
	Uplift quoin.Rate `json:"uplift,omitzero" range:"[0,"`
	// Taken off the list price here, one after the other.
	TradeDiscount []quoin.Rate `json:"trade_discount,omitempty" range:"[0,1]" most:"12"`
	// Taken off the items of an order.
	Promotion quoin.Rate `json:"promotion,omitzero" range:"[0,1]"`

	// Sales or value-added tax; none where it is not given.
	Tax Tax `json:"tax,omitzero"`
	// The kinds of order that come in; where there are none, orders of one item without postage.
	Orders []Order `json:"orders,omitempty" most:"100"`
	// What is taken of each order.
	Fees []Fee `json:"fees,omitempty" most:"100"`
	// What selling here costs whatever is sold, such as a stand or a subscription, spread over
	// the items expected to be sold with it.
	FixedCost FixedCost `json:"fixed_cost,omitzero" was:"period"`

	// What kinds of order take by their codes, in the order in which they are applied.
	Promotions []promo.Offer `json:"promotions,omitempty" most:"20"`
	// Which unit prices can be asked here; all where it is not given.
	PricePoints *PricePoints `json:"price_points,omitempty" was:"tag"`
	// Says that it sells in another currency.
	ForeignCurrency *ForeignCurrency `json:"foreign_currency,omitempty" was:"abroad"`
	// Id of the prices that its parcels go by. Then orders give a zone, and no postage, and the
	// channel no packing.
	Tariff string `json:"tariff,omitempty"`
	// Says that it sells to shops, at the price that trade_discount leaves.
	Trade *Trade `json:"trade,omitempty" or:"consignment on_demand"`
	// Says that prints are given to a shop that pays for what it sells.
	Consignment *Consignment `json:"consignment,omitempty" or:"on_demand"`
	// Says that a house prints each item when it is ordered, sells it, and pays the maker.
	OnDemand *OnDemand `json:"on_demand,omitempty"`
	// Refunds and disputes; none where it is not given.
	Returns *refund.Rates `json:"returns,omitempty" was:"after"`

	// Product is the id of the only product that the channel is for, as For returns
	// it; empty means all.
	Product string `json:"-"`
	// TaxClass is the class of tax of that product, as In returns it; TaxedParts are what an
	// item is made of, as OfParts returns it, where that is more than one thing.
	TaxClass   string      `json:"-"`
	TaxedParts []TaxedPart `json:"-"`
}

// Order is one kind of order.
type Order struct {
	// What fees name that are charged on some kinds of order only.
	ID string `json:"id,omitempty"`
	// What people call it.
	Name string `json:"name,omitempty"`
	// What somebody reading the document should know, such as where a figure comes from. It is read,
	// and has no part in any sum.
	Note string `json:"note,omitempty"`
	// Share of the channel's orders that are of this kind; the shares of a channel sum to 1. 1
	// where it is not given.
	Share quoin.Optional[quoin.Rate] `json:"share,omitzero" range:"[0,1]"`
	// How many items it holds, 1 to 1000000; 1 where it is not given.
	Items int64 `json:"items,omitzero" range:"[1,1000000]"`
	// What the buyer is charged for shipping, unless the items come to free_from.
	Shipping quoin.Amount `json:"shipping,omitzero" range:"[0,"`
	// What the items must come to for shipping to be free; never free where it is not given.
	FreeFrom quoin.Optional[quoin.Amount] `json:"free_from,omitzero" range:"[0,"`
	// Whether free_from is compared with what items come to after codes, or before them.
	FreeTest promo.Test `json:"free_test,omitempty"`
	// What the buyer pays extra for how the order is paid, such as by card; nothing where it is
	// not given.
	Surcharge *Surcharge `json:"surcharge,omitempty"`
	// What sending the parcel costs the shop.
	Postage      quoin.Amount              `json:"postage,omitzero" range:"[0,"`
	PostageRange quoin.Range[quoin.Amount] `json:"postage_range,omitzero" dear:"high"`
	// Stands in for the channel's rates of tax, for orders taxed elsewhere.
	TaxRate quoin.Optional[quoin.Rate] `json:"tax_rate,omitzero" range:"[0,1]"`
	// Rates of products by their tax_class, for orders taxed elsewhere. They stand in for
	// tax_rate.
	TaxClasses []TaxClass `json:"tax_classes,omitempty" most:"100"`
	// Ids of the channel's promotions that it takes.
	Codes []string `json:"codes,omitempty" most:"20"`
	// Whether a shop has ordered before.
	Reorder bool `json:"reorder,omitzero"`
	// Id of the zone of the channel's tariff, where it goes.
	Zone string `json:"zone,omitempty"`
	// What else lies in the order on average; nothing where it is not given.
	Others *Others `json:"others,omitempty"`
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
	// What it costs in some time.
	Cost      quoin.Amount              `json:"cost,omitzero" range:"[0,"`
	CostRange quoin.Range[quoin.Amount] `json:"cost_range,omitzero" dear:"high"`
	// How many items are expected to be sold in the same time; a fraction can be an average.
	// Needed where there is a cost.
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
