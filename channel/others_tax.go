package channel

import "example.com/quoin"

// taxedBeside fills in how the others of a kind of order are taxed.
func (c *Channel) taxedBeside(k *kind) {
	if k.Others == nil {
		return
	}
	k.othersRate = c.rateOn(k, k.othersClass())
	k.mixed = c.Tax.OnShipping && k.Others.TaxClass != "" && (len(k.parts) > 0 || !k.othersRate.Equal(k.tax))
}

// othersClass is the class of tax of others: that of the product where they have none.
func (k *kind) othersClass() string {
	if k.Others.TaxClass != "" {
		return k.Others.TaxClass
	}
	return k.class
}

// shareShippingTax takes the tax of all shipping in an order of several rates, by ShippingRate.
// Own items bear their share of it by count, rounded as the tax is, and others bear the rest.
func (e *order) shareShippingTax(shipping, items, count quoin.Operand) (own, rest quoin.Operand) {
	if amountOf(shipping).IsZero() {
		return zero("tax on shipping"), zero("tax on shipping")
	}
	none, one := zero("no goods"), quoin.FactorOf(1).Named("one")
	all := e.withOthers(items).parted(StepShippingTax, e.place, taxed{goods: none, count: one, shipping: shipping, isShipped: true})
	own = e.Rounded(e.places, e.taxed.Rounding, e.ownOf(all, count)).Named("tax on shipping")
	return own, e.Sum(StepOthersShippingTax, e.place, all, own.Minus())
}

// withOthers is the order as one item that is made of its own items, or of their parts, and of
// others. Where neither come to anything, it is made of its own items alone.
func (e *order) withOthers(items quoin.Operand) *order {
	if amountOf(items).Add(e.k.Others.Worth).IsZero() {
		items = quoin.Given("no goods", quoin.Path{}, quoin.AmountOf(1, 0).Figure())
	}
	parts, worths := []taxedPart{{TaxedPart: TaxedPart{Name: "own items", Class: e.k.class}, rate: e.k.tax}}, []quoin.Operand{items}
	if len(e.k.parts) > 0 {
		parts, worths = append([]taxedPart(nil), e.k.parts...), e.worthOfParts(items)
	}
	parts = append(parts, taxedPart{TaxedPart: TaxedPart{Name: "others", Class: e.k.othersClass()}, rate: e.k.othersRate})
	worths = append(worths, e.worth())
	for i := range parts {
		parts[i].Price = amountOf(worths[i])
	}
	k, all := *e.k, *e
	k.parts, k.mixed = parts, false
	all.k, all.worths = &k, worths
	return &all
}

// worthOfParts is what each part of own items comes to, not rounded.
func (e *order) worthOfParts(items quoin.Operand) []quoin.Operand {
	worths := e.pricesOfParts()
	sum := e.Sum(StepParts, e.place, worths...)
	for i := range worths {
		worths[i] = e.Product(StepPart, e.place, items, e.Quotient(StepShareOfParts, e.place, worths[i], sum)).Named(e.k.parts[i].Name)
	}
	return worths
}
