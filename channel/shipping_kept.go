package channel

import "example.com/quoin"

// ShippingKept returns what the shop keeps of an amount that buyers are charged for shipping on an
// order of kind i, in the shop's currency: without the tax in it. 4.50 with 20% in it leaves 3.75;
// where shipping is not taxed, or the tax comes on top, it leaves 4.50. The tax is rounded as the
// channel says, in the currency that buyers pay in. Fees are not taken off. Goods of several rates
// share the shipping as Tax.ShippingRate says. If others in the order have a tax class of another
// rate, what is kept depends on the price: it is what the highest of the rates leaves, since no
// price leaves less. It panics if there is no kind i.
func (t Terms) ShippingKept(i int, charged quoin.Amount) quoin.Amount {
	t.has(i)
	tax := t.channel.Tax
	if t.kinds[i].mixed {
		tax.ShippingRate = AtHighestRate
	}
	if tax.InPrice && tax.OnShipping {
		charged = charged.Sub(tax.OnPostage(charged, t.kinds[i].taxedGoods(), t.places))
	}
	return t.Home(charged)
}

// taxedGoods is what an item of the kind is made of by rate of tax, and others that have a rate of
// their own. Only proportions count.
func (k *kind) taxedGoods() (goods []TaxedGoods) {
	if len(k.parts) == 0 {
		goods = []TaxedGoods{{Amount: quoin.AmountOf(1, 0), Rate: k.tax}}
	}
	for _, p := range k.parts {
		goods = append(goods, TaxedGoods{Amount: p.Price, Rate: p.rate})
	}
	if k.mixed {
		goods = append(goods, TaxedGoods{Amount: quoin.AmountOf(1, 0), Rate: k.othersRate})
	}
	return goods
}
