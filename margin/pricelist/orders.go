package pricelist

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/refund"
	"example.com/quoin/margin"
)

// OrderResult is one order of a kind, at the decided price. It is in the shop's currency,
// except for what buyers see.
type OrderResult struct {
	// Id of the kind of order, where the document gives one.
	ID string `json:"id,omitempty"`
	// What people call it, where the document says so.
	Name string `json:"name,omitempty"`
	// Its place among the orders of the channel, counted from 0; not given where the channel has
	// none.
	Order quoin.Optional[int64] `json:"order,omitzero"`
	// Share of the channel's orders that are so.
	Share quoin.Rate `json:"share"`
	// How many items it holds.
	Items int64 `json:"items"`
	// ISO 4217 code of the currency that buyers pay in.
	Currency quoin.Currency `json:"currency"`
	// What one item costs, in that currency.
	Unit quoin.Amount `json:"unit"`
	// What promotions take off, in that currency.
	Discount quoin.Amount `json:"discount,omitzero"`
	// What is paid in all, with shipping and tax, in that currency.
	Paid quoin.Amount `json:"paid"`
	// What comes in, without tax.
	Revenue quoin.Amount `json:"revenue"`
	// What making and packing its items costs.
	Goods quoin.Amount `json:"goods"`
	// The fees that are charged on it.
	Fees []NamedAmount `json:"fees,omitempty"`
	// What sending it costs.
	Fulfilment quoin.Amount `json:"fulfilment"`
	// Revenue − goods − fees − fulfilment.
	Contribution quoin.Amount `json:"contribution"`
	// The same ÷ items.
	PerItem quoin.Amount `json:"per_item"`
	// What giving such an order back comes to, as the channel does it, in the currency that
	// buyers pay in; not given where the document says nothing of refunds.
	Refund *refund.Settlement `json:"refund,omitempty"`
}

// NamedAmount is an amount and what it is for.
type NamedAmount struct {
	// What it is for.
	Name string `json:"name"`
	// How much it is.
	Amount quoin.Amount `json:"amount"`
}

// ordered is every kind of order of a sale at a price.
func ordered(c channel.Channel, shop quoin.Currency, product string, s margin.Sale, price quoin.Amount) []OrderResult {
	names := s.Terms.Fees()
	out := make([]OrderResult, s.Terms.Orders())
	for i := range out {
		o, place := s.Terms.Order(i)
		st := s.Terms.Settle(i, price)
		out[i] = OrderResult{
			ID: o.ID, Name: o.Name, Share: s.Terms.Share(i), Items: st.Count, Unit: st.Unit, Discount: st.Discount,
			Paid: st.Paid(), Revenue: s.Terms.Home(st.Revenue), Goods: s.Goods[i].Cost.WithPlaces(shop.Digits()), Fulfilment: st.Fulfilment,
		}
		out[i].Currency = c.Money(shop)
		if place >= 0 {
			out[i].Order = quoin.Some(int64(place))
		}
		for j, c := range st.Charges {
			if !c.Total.IsZero() {
				out[i].Fees = append(out[i].Fees, NamedAmount{names[j], s.Terms.Home(c.Total)})
			}
		}
		out[i].Contribution = out[i].Revenue.Sub(out[i].Goods).Sub(s.Terms.Home(st.Fees)).Sub(out[i].Fulfilment)
		out[i].PerItem = out[i].Contribution.Over(quoin.FactorOf(st.Count))
		if c.Returns != nil {
			out[i].Refund = refunded(c, shop, product, s, i, price)
		}
	}
	return out
}

// refunded is what giving back an order of kind i comes to: all of it, or the
// part that is given back, with what comes back of fees and goods.
func refunded(c channel.Channel, shop quoin.Currency, product string, s margin.Sale, i int, price quoin.Amount) *refund.Settlement {
	sold := c
	sold.Returns = nil // what this order was charged, and not what is expected of all
	st := sold.Terms(shop).Settle(i, price)
	o := refund.Order{Lines: []refund.OrderLine{{Product: product, Count: st.Count, Paid: st.Items}}, Shipping: st.Shipping, OnShipping: c.Tax.OnShipping, Places: s.Terms.Places()}
	o.Surcharge, o.SurchargeTax = st.Surcharge, st.SurchargeTax
	tax := st.Tax.Sub(st.SurchargeTax)
	if c.Tax.InPrice {
		o.TaxIn = tax
	} else {
		o.Tax, o.Surcharge = tax, st.Surcharge.Add(st.SurchargeTax)
	}
	names := s.Terms.Fees()
	for j, charge := range st.Charges {
		fee := refund.Fee{Name: names[j], Amount: charge.Total.Round(o.Places, quoin.HalfUp)}
		switch {
		case s.Terms.WithPrice(j):
			fee.Returned = perCent(100)
		case j < len(c.Fees) && (!c.Fees[j].Rate.IsZero() || len(c.Fees[j].Tiers) > 0):
			fee.Returned = c.Returns.Fees
		}
		o.Fees = append(o.Fees, fee)
	}
	worth := s.Goods[i].Making.Over(quoin.FactorOf(st.Count)).Part(c.Returns.Resold).Over(c.Home())
	back := refund.Refund{
		Lines: []refund.Item{{Count: st.Count, Resold: st.Count, Worth: worth}},
		Part:  c.Returns.Part, Shipping: c.Returns.Shipping, Surcharge: c.Returns.Surcharge, Postage: c.Returns.Abroad(c.Home()).Postage,
	}
	settled, err := o.Refund(back)
	if err != nil {
		return nil // an order that cannot be given back, such as one of nothing
	}
	return &settled
}

// inKinds reports whether the orders of a channel are worth telling apart in an
// answer: where its way of selling is more than a price and fees.
func inKinds(c channel.Channel) bool {
	own := func(o channel.Order) bool { return !o.TaxRate.IsZero() || len(o.TaxClasses) > 0 }
	some := func(f channel.Fee) bool { return len(f.Orders) > 0 }
	return c.PricePoints != nil || slices.ContainsFunc(c.Orders, own) || slices.ContainsFunc(c.Fees, some) ||
		c.Trade != nil || c.Consignment != nil || c.OnDemand != nil || c.ForeignCurrency != nil || c.Tariff != "" || len(c.Promotions) > 0 || c.Returns != nil
}
