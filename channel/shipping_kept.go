package channel

import "example.com/quoin"

// ShippingKept returns what the shop keeps of an amount that buyers are charged for shipping on an
// order of kind i, in the shop's currency: without the tax in it. 4.50 with 20% in it leaves 3.75;
// where shipping is not taxed, or the tax comes on top, it leaves 4.50. The tax is rounded as the
// channel says, in the currency that buyers pay in. Fees are not taken off. Goods of several rates
// share the shipping as Tax.ShippingRate says. It panics if there is no kind i.
func (t Terms) ShippingKept(i int, charged quoin.Amount) quoin.Amount {
	t.has(i)
	tax := t.channel.Tax
	if tax.InPrice && tax.OnShipping {
		charged = charged.Sub(tax.OnPostage(charged, t.kinds[i].taxedGoods(), t.places))
	}
	return t.Home(charged)
}

// taxedGoods is what an item of the kind is made of by rate of tax. Only proportions count.
func (k *kind) taxedGoods() []TaxedGoods {
	if len(k.parts) == 0 {
		return []TaxedGoods{{Amount: quoin.AmountOf(1, 0), Rate: k.tax}}
	}
	goods := make([]TaxedGoods, len(k.parts))
	for i, p := range k.parts {
		goods[i] = TaxedGoods{Amount: p.Price, Rate: p.rate}
	}
	return goods
}
