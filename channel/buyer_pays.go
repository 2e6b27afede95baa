package channel

import "example.com/quoin"

// BuyerPays is what the buyer pays for one item, averaged over the kinds of order, in the shop's
// currency. Without the tax it is what the shop receives: an item of 18.00 with 3.60 of postage,
// of which 3.60 is tax, brings 18.00.
type BuyerPays struct {
	// For the item itself: after trade discount, promotions and codes.
	Item quoin.Amount `json:"item"`
	// For sending it, as charged to the buyer.
	Postage quoin.Amount `json:"postage"`
	// The surcharge for how it is paid, such as by card.
	Surcharge quoin.Amount `json:"surcharge,omitzero"`
	// Tax that is added to these; not there where the price holds it.
	TaxOnTop quoin.Amount `json:"tax_on_top,omitzero"`
}

// BuyerPays returns what the buyer pays for one item at a list price. It is 0 without orders, as
// in the zero Terms.
func (t Terms) BuyerPays(list quoin.Amount) BuyerPays {
	var out BuyerPays
	if t.perOrder.Sign() == 0 {
		return out
	}
	for i := range t.kinds {
		k := &t.kinds[i]
		s := t.order(k).sale(listPrice(list))
		out.Item = out.Item.Add(amountOf(s.paid.items).Times(k.share))
		out.Postage = out.Postage.Add(amountOf(s.paid.shipping).Times(k.share))
		out.Surcharge = out.Surcharge.Add(amountOf(s.paid.surcharge).Times(k.share))
		out.TaxOnTop = out.TaxOnTop.Add(amountOf(s.paid.tax).Times(k.share))
	}
	item := func(sum quoin.Amount) quoin.Amount { return t.Home(sum).Over(t.perOrder).WithPlaces(t.list) }
	out.Item, out.Postage, out.Surcharge, out.TaxOnTop = item(out.Item), item(out.Postage), item(out.Surcharge), item(out.TaxOnTop)
	return out
}
