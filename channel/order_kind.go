package channel

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

// kind is one kind of order with what does not depend on the price.
type kind struct {
	Order
	source     *Order // as it is given
	index      int    // in the channel's list, −1 where it has none
	place      int    // among the kinds
	share      quoin.Factor
	keep       quoin.Factor // of the list price, before rounding to a unit price
	take       quoin.Factor // items × (1 − promotion)
	tax        quoin.Rate   // of parts, the highest
	within     quoin.Factor // t ÷ (1 + t): the share of a price that is tax in it
	class      string       // whose rate it is
	parts      []taxedPart  // where an item has several rates
	inPrice    bool
	onShipping bool
	othersRate quoin.Rate // of tax, of others
	mixed      bool       // others have another rate, and shipping is taxed
	// onGoods and onPostage are the shares of what is taxed that are the tax in it or on top.
	onGoods, onPostage quoin.Factor
	surchargeTax       quoin.Factor // the same of a surcharge
	offers             []kindOffer
	reduced            bool         // the last of the offers is the discount of a shop on consignment
	freight            quoin.Amount // that the shop pays the carrier itself
	fulfilment         quoin.Amount
	freeAt             string // the object that FreeFrom stands in, where not the order
	why                kindReasons
}

// kindReasons explain what the order does not give itself; nil where it does.
type kindReasons struct{ share, shipping, postage, tax reason }

// kindOffer is a promotion that a kind of order takes, and where it stands.
type kindOffer struct {
	promo.Offer
	at    func(channel quoin.Path) quoin.Path
	index int // in the list of promotions
}

// given explains a figure that the way of selling gives in a field.
func given(field string, f quoin.Figure) reason {
	return func(_ *order, at quoin.Path) quoin.Operand { return quoin.Given(field, at.Field(field), f) }
}

// givenOr is given, or the default.
func givenOr(field string, f quoin.Figure, yes bool) reason {
	return func(_ *order, at quoin.Path) quoin.Operand { return quoin.GivenOr(field, at.Field(field), f, yes) }
}

// constant explains a figure that no document gives.
func constant(name string, f quoin.Figure) reason {
	return func(*order, quoin.Path) quoin.Operand { return quoin.Given(name, quoin.Path{}, f) }
}

// kinds puts the channel's orders, and the way in which it sells, together.
func (c Channel) kinds(places int) []kind {
	orders := c.Orders
	if len(orders) == 0 {
		orders = []Order{{}}
	}
	kinds := make([]kind, len(orders))
	for i, o := range orders {
		kinds[i] = kind{Order: o, source: &orders[i], index: i, share: o.ShareOr1().Factor(), offers: c.offers(o)}
		if len(c.Orders) == 0 {
			kinds[i].index = -1
		}
	}
	if c.Trade != nil {
		kinds = c.Trade.orders(kinds, c.Home(), places)
	}
	if c.Consignment != nil {
		kinds = c.Consignment.orders(kinds)
	}
	for i := range kinds {
		kinds[i].place = i
		kinds[i].beside()
		c.settled(&kinds[i])
	}
	return kinds
}

// given is how many of the offers the maker gives: those before a shop's discount.
func (k *kind) given() int {
	if k.reduced {
		return len(k.offers) - 1
	}
	return len(k.offers)
}

// settled fills in what follows from the order and the channel.
func (c Channel) settled(k *kind) {
	c.taxed(k)
	c.surcharged(k)
	c.taxedBeside(k)
	k.take = quoin.FactorOf(k.ItemsOr1()).Times(c.Promotion.Complement())
	k.fulfilment = k.OfOrder(k.Postage).Over(nonZero(c.LostParcels.Complement(), "a loss of all that is sent"))
	k.keep = c.Uplift.OnePlus()
	for _, d := range c.TradeDiscount {
		k.keep = k.keep.Times(d.Complement())
	}
	if c.sameNet(k) {
		k.keep = k.keep.Times(k.tax.OnePlus()).Over(nonZero(c.Tax.rateOf(k.class).OnePlus(), "a tax of -100%"))
	}
	if c.ForeignCurrency != nil {
		k.keep = k.keep.Over(c.Home())
	}
}

// nonZero is what is divided by; 0 is a fault that Check finds.
func nonZero(f quoin.Factor, found string) quoin.Factor {
	if f.IsZero() {
		panic("quoin: " + found + ": Channel.Check refuses it")
	}
	return f
}

// sameNet reports whether the kind's price moves with its tax.
func (c Channel) sameNet(k *kind) bool {
	own := k.why.tax == nil // and not that there is no tax at all
	return own && len(k.parts) == 0 && c.Tax.Constant == Net && c.Tax.InPrice && !k.tax.Equal(c.Tax.rateOf(k.class))
}

// offers are the promotions that an order takes by its codes, in the order of
// the channel.
func (c Channel) offers(o Order) []kindOffer {
	var out []kindOffer
	for i, p := range c.Promotions {
		if !slices.Contains(o.Codes, p.ID) || c.Product != "" && len(p.Products) > 0 && !slices.Contains(p.Products, c.Product) {
			continue
		}
		out = append(out, kindOffer{p, func(c quoin.Path) quoin.Path { return c.Sub("promotions", i) }, i})
	}
	return out
}
